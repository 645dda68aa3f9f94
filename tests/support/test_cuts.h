/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random valid cuts for property tests: the same for a seed on every machine. */
#ifndef BITE_TESTS_SUPPORT_TEST_CUTS_H
#define BITE_TESTS_SUPPORT_TEST_CUTS_H

#include "core/physics/force/cutting_pressure.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** A cut that a shop might run, with a random tool, motion, material and machine. */
bite_cut bite_test_cut(uint64_t *seed);
/** The same with limits of the machine and sizes of the part. */
bite_cut bite_test_bounded(uint64_t *seed);
/** A number uniformly distributed in [low, high), and one whose logarithm is. */
double bite_test_between(uint64_t *seed, double low, double high);
double bite_test_decades(uint64_t *seed, double low, double high);
/** The simple cut that tests start from: cast acrylic, 0.8 mm, two flutes; figures as in its
 * table. */
bite_cut bite_test_acrylic(void);
/** A random cut as a chamfer that lies within the cone of the tool. */
bite_cut bite_test_chamfer(uint64_t *seed);
/** The same acrylic cut as a chamfer of 0.5 mm with a tool of 6 mm. */
bite_cut bite_test_plain_chamfer(void);
/** The result of a cut; fails the test with the library's message if it is refused. */
bite_result bite_test_pass(const bite_cut *cut);
/** A lognormal spread of an input about its value in the cut: 90 % between value / factor and value
 * x factor. */
bite_spread bite_test_spread_about(const bite_cut *cut, const char *name, double factor);

/** The cutting pressure of a cut, sheared for as long as its mean chip takes. The cut may have
 * gaps.
 */
bite_pressure bite_test_pressure(const bite_cut *cut);

#endif
