/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random cuts of all operations, with any of the inputs that a limit reads. */
#ifndef BITE_TESTS_SUPPORT_ANY_CUT_H
#define BITE_TESTS_SUPPORT_ANY_CUT_H

#include <coolbite/coolbite.h>
#include <stdint.h>

/** A random cut, which the checks may refuse. */
bite_cut bite_test_any_cut(uint64_t *seed);

/** A cut with the same words, flutes and inputs given whose numbers are within 3 % of those of the
 * other one. */
bite_cut bite_test_similar_cut(const bite_cut *cut, uint64_t *seed);

#endif
