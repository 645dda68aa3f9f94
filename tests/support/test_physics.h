/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values that the tests need and that follow from functions of the engine in one step. */
#ifndef BITE_TESTS_SUPPORT_TEST_PHYSICS_H
#define BITE_TESTS_SUPPORT_TEST_PHYSICS_H

#include "core/physics/dynamics/mode_stability.h"
#include "core/uncertainty/sobol.h"
#include "tests/oracle/closed_forms/square_end_mill.h"

/** Sum of the forces over the teeth with the tip of tooth 0 at phi, rad. */
bite_load bite_test_force_at(const bite_force *force, double phi);

/** The depth, m, at which one mode that is the same along x and y chatters, without damping by the
 * flank; INFINITY: none. */
double bite_test_mode_depth(const bite_direction_root roots[2], const bite_vibration_mode *mode,
                            const bite_excitation *cut);

/** The depth, m, below which no speed chatters on one mode that is the same along x and y: the
 * least of bite_test_mode_depth over the speeds of one lobe; stiffness in N/m. INFINITY if there is
 * none. */
double bite_test_equal_axes_depth(bite_arc arc, double teeth, double tangential, double ratio,
                                  double stiffness, double damping);

/** The next point of the sequence, each number inside (0, 1). */
void bite_test_sobol_next(bite_sobol *sobol, double *point);

/** The value of one input at a standard normal deviate. */
double bite_test_scatter_value(const bite_scatter *scatter, double deviate);

#endif
