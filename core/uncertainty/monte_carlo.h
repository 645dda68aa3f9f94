/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band of a cut, drawn on several threads. */
#ifndef BITE_UNCERTAINTY_MONTE_CARLO_H
#define BITE_UNCERTAINTY_MONTE_CARLO_H

#include <coolbite/coolbite.h>

/** How a band is drawn. The numbers do not depend on the threads. */
typedef struct bite_sampling {
    size_t draws;
    uint64_t seed;
    double confidence;
    size_t threads;      /* 0 is 1 */
    unsigned char *over; /* NULL, or room for draws: 1 where a binding row goes over in that draw */
    uint32_t limits_only; /* 1: no bands of values, and not what to measure first: for who only asks
                             whether limits hold */
    const unsigned char *left_out; /* NULL, or 1 for each row that does not count, of
                                      BITE_LIMIT_COUNT: as advice does not */
    size_t over_enough; /* 0, or so many draws that go over say enough: what they come from is not
                           drawn to its end */
} bite_sampling;

/** As bite_cut_band. BITE_NO_ANSWER: enough draws went over. */
bite_status bite_monte_carlo_run(const bite_cut *cut, const bite_spread *spreads, size_t count,
                                 const bite_sampling *sampling, bite_result *result,
                                 bite_error *error);

#endif
