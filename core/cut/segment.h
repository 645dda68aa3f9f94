/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All numbers of one stretch of the path: the straight, or an inside corner. */
#ifndef BITE_CUT_SEGMENT_H
#define BITE_CUT_SEGMENT_H

#include "core/cut/segment_cache.h"
#include <coolbite/coolbite.h>

typedef struct bite_segment {
    double value[BITE_VALUE_COUNT]; /* SI; NaN: no data */
    double heat_share[4];           /* chip, tool, part, stored */
    double compliance;              /* of tool and machine at the load, m/N */
    double heavy_chip;              /* largest chip of the heavy tooth, m */
    double thin_chip;               /* of a chamfer: its largest chip near the thin end, m */
    double torque_mean;             /* N m */
    double engaged;                 /* ae/D, 1 in a slot; of a chamfer at its largest radius */
    double packing;                 /* ap/D x engagement share, before the limit */
    double heat_power;              /* W, by the heat model's own sums */
    double energy_gap; /* (power - chip - tool - part - stored)/power of the heat model */
} bite_segment;

/** All values NaN, all shares 0. */
void bite_segment_blank(bite_segment *segment);

/** Whether somebody measured a mode. */
int bite_cut_has_measured_modes(const bite_cut *cut);

/** What does not change between straight and corner is in cut, all defaults filled and checked.
 * Takes from kept what still holds, and keeps what it makes. */
void bite_segment_compute_cached(const bite_cut *cut, bite_arc arc, bite_segment_cache *cache,
                                 bite_segment *segment);

#endif
