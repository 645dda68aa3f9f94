/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inputs and results of the function of a limit. */
#ifndef BITE_CUT_LIMIT_CASE_H
#define BITE_CUT_LIMIT_CASE_H

#include "core/cut/segment.h"
#include <coolbite/coolbite.h>
#include <math.h>

/** One limit of one segment. The limit's function sets demand and capacity; the other results have
 * defaults: it applies, and it is not advisory. */
typedef struct bite_limit_case {
    const bite_cut *requested; /* before defaults: NaN where nothing was given */
    const bite_cut *cut;       /* all defaults filled */
    const bite_segment *segment;
    double demand;
    double capacity;
    uint32_t why; /* a bite_why: why the limit does not apply */
    uint32_t advisory;
} bite_limit_case;

static inline void bite_limit_set(bite_limit_case *limit, double demand, double capacity)
{
    limit->demand = demand;
    limit->capacity = capacity;
}

/** The limit does not apply, for this reason. */
static inline void bite_limit_omit(bite_limit_case *limit, bite_why why)
{
    limit->why = why;
}

/** The limit does not apply if the figure is NaN: the shop has not given it, or the tables do not
 * have it. */
static inline void bite_limit_require(bite_limit_case *limit, double figure, bite_why why)
{
    if (isnan(figure)) {
        bite_limit_omit(limit, why);
    }
}

#endif
