/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All values of one segment of the path: the straight, an inside corner, or the entry move. */
#ifndef BITE_CUT_SEGMENT_H
#define BITE_CUT_SEGMENT_H

#include "core/cut/segment_cache.h"
#include "core/physics/heat/wall_heat.h"
#include <coolbite/coolbite.h>

typedef struct bite_segment {
    double value[BITE_VALUE_COUNT]; /* SI; NaN: no data */
    double heat_share[4];           /* chip, tool, part, stored */
    double compliance;              /* of tool and machine at the load, m/N */
    double heavy_chip;              /* largest chip of the heavy tooth, m */
    double thin_chip;               /* of a chamfer: largest chip near the thin end, m */
    double torque_mean;             /* N m */
    double engaged;                 /* ae/D, 1 in a slot; of a chamfer at its largest radius */
    double chip_rise;               /* K, mean of a chip that is cut once, uncapped */
    double chip_mean;               /* m, mean thickness of the chips, not below h_min */
    bite_wall_heat wall;            /* K, s */
    bite_wall_heat floor;           /* rise NaN: the cut has none */
    double wall_bend;  /* m, magnitude of the worse wall's deflection, without runout */
    double pocket;     /* chips of a tooth / its pocket */
    double packing;    /* ap/D x share by engagement; compared with the packing limit */
    double heat_power; /* W, as summed by the heat model */
    double energy_gap; /* (power - chip - tool - part - stored)/power of the heat model */
} bite_segment;

/** Sets all values and heat shares to NaN, the rest to 0 or NaN. */
void bite_segment_blank(bite_segment *segment);

/** Whether a vibration mode of the machine was measured. */
int bite_cut_has_measured_modes(const bite_cut *cut);

/** Computes the values of the segment with this arc of contact. cut: checked, all defaults filled.
 * Intermediate results that are still valid are read from the cache, and new ones are stored there.
 */
void bite_segment_compute_cached(const bite_cut *cut, bite_arc arc, bite_segment_cache *cache,
                                 bite_segment *segment);

#endif
