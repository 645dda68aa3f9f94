/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits: the demand of a cut against the available capacity. One function for each limit,
 * connected to the registry by id; the functions are in limits_SUBJECT.c. */
#ifndef BITE_CUT_LIMITS_H
#define BITE_CUT_LIMITS_H

#include "core/cut/segment.h"
#include <coolbite/coolbite.h>

/** Without draws a limit is tight above this utilization, and over above 1. */
#define BITE_UTILIZATION_TIGHT 0.7
#define BITE_UTILIZATION_MAX 1e6

/** Fills one limit of a segment: demand, capacity, utilization, applies, why, advisory, and the
 * verdict by utilization. requested: the cut before its defaults were filled. */
void bite_limit_evaluate(bite_limit_id id, const bite_cut *requested, const bite_cut *cut,
                         const bite_segment *segment, bite_limit *limit);

/** The worse of two verdicts: over, unknown, tight, clear, not judged. */
uint32_t bite_verdict_worse(uint32_t one, uint32_t other);

/** The worst verdict among count limits, advisory limits left out. *worst: the index of the one
 * with the largest utilization among them. */
bite_verdict bite_limits_verdict(const bite_limit *limits, uint32_t count, uint32_t *worst);

#endif
