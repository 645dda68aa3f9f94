/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges a request: resolves it, runs the pass and its draws, and collects the cautions. */
#ifndef BITE_REQUEST_JUDGE_H
#define BITE_REQUEST_JUDGE_H

#include "core/request/answer.h"

/** Fills a change's chance before and after, and the limits after, from the same draws as the
 * answer has, of which 4096 do; without draws in the answer both stay NaN, and so do the limits. */
bite_status bite_change_judge(const bite_answer *answer, bite_change *change, bite_result *result,
                              bite_error *error);

#endif
