/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The single change to make first. */
#ifndef BITE_REQUEST_SINGLE_CHANGE_H
#define BITE_REQUEST_SINGLE_CHANGE_H

#include "core/request/request.h"

/** The change of one input that helps most; input BITE_NO_INPUT: none is worth making. */
typedef struct bite_change {
    uint32_t input; /* a bite_input index */
    uint32_t word;  /* the new word, if the input takes words */
    uint32_t limit; /* the bite_limit_id that it helps most */
    uint32_t reserved;
    double from;   /* SI; the value in use */
    double to;     /* SI */
    double before; /* joint chance of exceeding a limit; NaN without draws */
    double after;
} bite_change;

/** How many single changes there are: those that a machinist can make at the machine, then those
 * that are worth their cost only after a trouble (another tool, more area of the bond). */
size_t bite_change_count(void);

/** After a word was changed: what has a default that follows it is no longer given. */
void bite_change_settle(bite_cut *cut, const bite_input *input);

/** Applies the change number `at` to a cut that has its defaults, and fills input, word, from and
 * to of *change. 0: the change would have no effect or leave the range of the input. */
int bite_change_apply(size_t at, bite_cut *cut, bite_change *change);

/** Tries the single changes that a machinist can make at the machine (feed, entry feed, speed,
 * depth, coolant, stick-out, runout, edge) and keeps the one that lowers the chance of exceeding a
 * limit most, if it does so by at least a tenth. No change if the verdict is clear. */
bite_status bite_change_find(const bite_cut *full, const bite_spread *spreads, size_t count,
                             double confidence, size_t threads, const bite_result *result,
                             bite_change *change);

#endif
