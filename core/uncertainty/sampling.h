/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the draws of a band are made. */
#ifndef BITE_UNCERTAINTY_SAMPLING_H
#define BITE_UNCERTAINTY_SAMPLING_H

#include <coolbite/coolbite.h>

/** Options of a band. The numbers do not depend on the count of threads. */
typedef struct bite_sampling {
    size_t draws;
    uint64_t seed;
    double confidence;
    size_t threads;       /* 0 is 1 */
    unsigned char *over;  /* NULL, or space for draws: 1 where a binding limit is exceeded */
    uint32_t limits_only; /* 1: no bands of values and no widest inputs, for callers that only need
                             to know whether limits are kept */
    const unsigned char *left_out; /* NULL, or 1 for each limit, of BITE_LIMIT_COUNT, that does not
                                      count, as an advisory limit does not */
    const unsigned char *wanted;   /* NULL, or 1 for each limit, of BITE_LIMIT_COUNT, that is also
                                      counted together with the others, advisory or not */
    size_t *wanted_over;           /* how many draws exceed a wanted limit; written on success */
    size_t over_enough;            /* 0, or: stop once this many draws exceed a limit */
} bite_sampling;

#endif
