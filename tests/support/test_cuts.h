/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random valid cuts for property tests: the same for a seed on every machine. */
#ifndef BITE_TESTS_SUPPORT_TEST_CUTS_H
#define BITE_TESTS_SUPPORT_TEST_CUTS_H

#include "core/cut/segment.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** A cut that a shop might run, of random tool, motion, material and machine. */
bite_cut bite_test_cut(uint64_t *seed);
/** The same with a machine and a part about it. */
bite_cut bite_test_bounded(uint64_t *seed);
/** Uniform in [low, high), and the same evenly in logarithm. */
double bite_test_between(uint64_t *seed, double low, double high);
double bite_test_decades(uint64_t *seed, double low, double high);
/** The plain cut that tests start from: cast acrylic, 0.8 mm, two flutes. Figures as in its table.
 */
bite_cut bite_test_acrylic(void);
/** Passes, or fails the test with the library's words. */
bite_result bite_test_pass(const bite_cut *cut);
/** Forms a stretch of which nothing was kept. full: with its defaults. */
void bite_test_stretch(const bite_cut *full, bite_arc arc, bite_segment *segment);

#endif
