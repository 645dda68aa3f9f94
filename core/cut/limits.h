/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits: what a cut demands against the room there is. One function a row, joined to the
 * vocabulary by id. */
#ifndef BITE_CUT_LIMITS_H
#define BITE_CUT_LIMITS_H

#include "core/cut/segment.h"
#include <coolbite/coolbite.h>

/** Without draws a row is tight from this use on, over beyond 1. */
#define BITE_UTILIZATION_TIGHT 0.7
#define BITE_UTILIZATION_MAX 1e6

extern const double bite_tolerance_usual; /* m */

/** Fills one row of a stretch: demand, room, use, applies, why, advisory, verdict by use. asked:
 * the cut before defaults were taken. */
void bite_limit_evaluate(bite_limit_id id, const bite_cut *requested, const bite_cut *cut,
                         const bite_segment *segment, bite_limit *limit);

/** The worst binding verdict of count rows and which row has the largest use among those that bind.
 */
bite_verdict bite_limits_verdict(const bite_limit *limits, uint32_t count, uint32_t *worst);

#endif
