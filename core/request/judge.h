/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges a request: resolves it, runs the pass and its draws, and collects the cautions. */
#ifndef BITE_REQUEST_JUDGE_H
#define BITE_REQUEST_JUDGE_H

#include "core/request/answer.h"

/** The seed of the draws of every answer. */
#define BITE_ANSWER_SEED 20261125

/** The number of draws of an answer for which so many were asked: 0 is the default. */
size_t bite_answer_draws(size_t draws);

/** Fills the chance before and after a change, and the limits after it, from the answer's own
 * draws, at most 4096 of them. If the answer has no draws, both chances and the limits stay NaN.
 * change: with BITE_NO_INPUT the cut as it is. wanted: of BITE_LIMIT_COUNT, 1 for the limits of
 * which *wanted_chance is the chance after the change that any of them is exceeded. */
bite_status bite_change_judge(const bite_answer *answer, bite_change *change,
                              const unsigned char *wanted, double *wanted_chance,
                              bite_result *result, bite_error *error);

#endif
