/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of a cut before anything is computed from it, and of a result before it is returned. */
#ifndef BITE_CUT_INPUT_CHECK_H
#define BITE_CUT_INPUT_CHECK_H

#include "core/cut/block/block.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/**
 * Checks a cut as its caller gave it, member by member: size, words, numbers, curves.
 *
 * cut may be NULL. BITE_BAD_ARGUMENT: size, a word, a curve's points, a reserved member.
 * BITE_MISSING: a required number. BITE_OUT_OF_RANGE: a number outside its input's range,
 * infinities among them. error.key names the member.
 */
bite_status bite_check_cut(const bite_cut *cut, bite_error *error);

/** Checks members against each other. full: checked alone, with its defaults filled. */
bite_status bite_check_together(const bite_cut *full, bite_error *error);

/** Whether a width or the diameter of a neck exceeds that of the tool by more than rounding. */
BITE_FORMULA int bite_is_wider(double width, double diameter)
{
    return width > diameter * (1.0 + 1e-9);
}

/** Checks the caller's result structure: not NULL, struct_size set. BITE_BAD_ARGUMENT. */
bite_status bite_check_result(const bite_result *result, bite_error *error);

/**
 * Checks that each value that was computed for a cut with all its defaults is a number wherever it
 * must be one: otherwise a limit whose demand is not a number would be left out as if its data were
 * missing.
 *
 * values: SI, that of value i at i * stride. pressure: whether the material has a cutting pressure.
 * BITE_NO_ANSWER, error.key naming the value.
 */
bite_status bite_check_values(const double *values, size_t stride, bool pressure,
                              bite_error *error);

/** The same of each lane of a block: missing is 1 where a value is not a number that must be one.
 */
void bite_check_lanes(const bite_block *block, const bite_lanes *values, bool pressure,
                      double *missing);

/** Checks draws (16 to BITE_DRAWS_MAX) and confidence (0, or 0.5 to 0.999). BITE_BAD_ARGUMENT. */
bite_status bite_check_draws(size_t draws, double confidence, bite_error *error);

/** The confidence that was asked for, or the usual one for 0. */
double bite_confidence_or_usual(double confidence);

/** The same where draws may also be 0, the usual number, or BITE_DRAWS_NONE. */
bite_status bite_check_draws_wished(size_t draws, double confidence, bite_error *error);

#endif
