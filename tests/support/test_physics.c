/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values that follow from functions of the engine in one step. */
#include "tests/support/test_physics.h"
#include <math.h>

bite_load bite_test_force_at(const bite_force *force, double phi)
{
    double terms[BITE_EDGE_TERMS];
    bite_edge_span span = bite_edge_span_at(&force->edges, phi);
    bite_angle angle = bite_angle_of(phi - span.away);
    bite_edge_within(&force->edges, span, &angle, terms);
    return bite_force_of(&force->pressure, terms);
}

double bite_test_mode_depth(const bite_direction_root roots[2], const bite_vibration_mode *mode,
                            const bite_excitation *cut)
{
    return 1.0 / fmax(bite_mode_root_reciprocal(&roots[0], mode, cut),
                      bite_mode_root_reciprocal(&roots[1], mode, cut));
}

double bite_test_equal_axes_depth(bite_arc arc, double teeth, double tangential, double ratio,
                                  double stiffness, double damping)
{
    enum { SPEEDS = 4000 };
    bite_direction_root roots[2];
    bite_vibration_mode mode = {1000.0, stiffness, damping};
    bite_excitation excitation = {.teeth = teeth, .tangential = tangential};
    double least = INFINITY;
    bite_mode_roots(arc, ratio, roots);
    for (int i = 0; i <= SPEEDS; i++) {
        double waves = 3.0 + (double)i / SPEEDS; /* between two teeth: one whole lobe */
        excitation.speed = mode.frequency / (teeth * waves);
        least = fmin(least, bite_test_mode_depth(roots, &mode, &excitation));
    }
    return least;
}

void bite_test_sobol_next(bite_sobol *sobol, double *point)
{
    uint32_t digits[BITE_SOBOL_DIMENSIONS];
    bite_sobol_digits(sobol, digits);
    for (unsigned i = 0; i < sobol->dimensions; i++) {
        point[i] = ((double)digits[i] + 0.5) * 0x1p-30;
    }
}

double bite_test_scatter_value(const bite_scatter *scatter, double deviate)
{
    double value;
    bite_scatter_values(scatter, &deviate, 1, &value);
    return value;
}
