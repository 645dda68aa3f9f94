/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The values of one segment of the path. */
#ifndef BITE_CUT_SEGMENT_VALUES_H
#define BITE_CUT_SEGMENT_VALUES_H

#include <coolbite/coolbite.h>

typedef struct bite_segment {
    double value[BITE_VALUE_COUNT]; /* SI; NaN: no data */
    double heat_share[4];           /* chip, tool, part, stored */
    double compliance;              /* of tool and machine at the load, m/N */
    double heavy_chip;              /* largest chip of the heavy tooth, m */
    double thin_chip;               /* of a chamfer: largest chip near the thin end, m */
    double torque_mean;             /* N m */
    double engaged;                 /* ae/D, 1 in a slot; of a chamfer at its largest radius */
    double packing;    /* ap/D x share by engagement; compared with the packing limit */
    double heat_power; /* W, as summed by the heat model */
    double energy_gap; /* (power - chip - tool - part - stored)/power of the heat model */
} bite_segment;

#endif
