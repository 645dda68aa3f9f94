/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits: the demand of a cut against the available capacity. The functions of each limit are
 * connected to the registry by id; they are in limits_SUBJECT.c. */
#ifndef BITE_CUT_LIMITS_H
#define BITE_CUT_LIMITS_H

#include "core/cut/block/limits_result.h"
#include <coolbite/coolbite.h>

/** Without draws a limit is tight above this utilization, and over above 1. */
#define BITE_UTILIZATION_TIGHT 0.7
#define BITE_UTILIZATION_MAX 1e6

/** Fills the limits of the straight segment. wanted: 1 for each limit that is evaluated, the others
 * do not apply; NULL: all. Of the segment all results and the rows diameter and edge_radius are
 * used. */
void bite_block_limits(const bite_block *block, const bite_block_segment *segment,
                       const uint8_t *wanted, bite_block_limits_result *out);

/** Each limit becomes that of the inside corner where its utilization there is higher by more than
 * rounding: a wall that both finish at the same instant belongs to the straight. */
void bite_block_limits_corner(const bite_block *block, const bite_block_segment *turn,
                              bite_block_limits_result *out);

/** Limits that the entry move may load more than the cut does become those of the entry move where
 * their utilization is higher there. entry: the cuts of the move; along: m/s, feed along its path,
 * sloped or not, for each lane: the axes run at it. */
void bite_block_limits_entry(const bite_block *entry, const bite_block_segment *segment,
                             const double *along, bite_block_limits_result *out);

/** One limit of one cut, with the verdict by utilization. */
void bite_block_limit_of(const bite_block_limits_result *limits, bite_limit_id id, int lane,
                         bite_limit *limit);

/** The worse of two verdicts: over, unknown, tight, clear, not judged. */
uint32_t bite_verdict_worse(uint32_t one, uint32_t other);

/** The worst verdict among count limits, advisory limits left out. *worst: the index of the one
 * with the largest utilization among them. */
bite_verdict bite_limits_verdict(const bite_limit *limits, uint32_t count, uint32_t *worst);

#endif
