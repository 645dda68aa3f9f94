/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of a single cut: a block of one in the working memory of its segments. */
#ifndef BITE_CUT_LIMITS_ADAPTER_H
#define BITE_CUT_LIMITS_ADAPTER_H

#include "core/cut/segment_cache.h"
#include "core/cut/segment_values.h"
#include <coolbite/coolbite.h>

/** A segment of a cut. */
typedef struct bite_judged_cut {
    const bite_cut *requested; /* before its defaults were filled */
    const bite_cut *cut;       /* with all defaults */
    const bite_segment *segment;
} bite_judged_cut;

/** bite_block_limits of one cut. scratch: borrowed for the time of the call. */
void bite_cut_limits(const bite_judged_cut *judged, const uint8_t *wanted, bite_scratch *scratch,
                     bite_limit limits[BITE_LIMIT_COUNT]);

/** bite_block_limits_corner of one cut. */
void bite_cut_limits_corner(const bite_judged_cut *judged, bite_scratch *scratch,
                            bite_limit limits[BITE_LIMIT_COUNT]);

/** bite_block_limits_entry of one cut. along: m/s. */
void bite_cut_limits_entry(const bite_judged_cut *judged, double along, bite_scratch *scratch,
                           bite_limit limits[BITE_LIMIT_COUNT]);

#endif
