/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One change to make first, and one thing to measure first. */
#ifndef BITE_REQUEST_SINGLE_CHANGE_H
#define BITE_REQUEST_SINGLE_CHANGE_H

#include "core/request/request.h"

/** A change of one input that helps most; input BITE_NO_INPUT: none is worth making. */
typedef struct bite_change {
    uint32_t input; /* a bite_input index */
    uint32_t word;  /* of an input that takes words */
    uint32_t limit; /* the bite_limit_id that it is for */
    uint32_t reserved;
    double from;   /* SI; of the input as it is taken */
    double to;     /* SI */
    double before; /* joint chance; without draws the worst binding use */
    double after;
} bite_change;

/** The single changes that a machinist can make at the machine. */
size_t bite_change_count(void);

/** Makes the at-th change on a cut that has its defaults; fills input, word and to of *change. 0:
 * it would change nothing, or leave the range. */
int bite_change_apply(size_t at, bite_cut *cut, bite_change *change);

/** Tries single changes that a machinist can make at the machine (feed, the entry's feed, speed,
 * depth, coolant, stick-out, runout, edge) and keeps the one that lowers the cut's chance most, if
 * it does so by a tenth at least. Nothing where the cut is clear already. */
bite_status bite_change_find(const bite_cut *full, const bite_spread *spreads, size_t count,
                             double confidence, size_t threads, const bite_result *result,
                             bite_change *change);

/** How an input is measured most cheaply; "" where there is no such way. Borrowed, for ever. */
const char *bite_measurement_advice(const char *input);

#endif
