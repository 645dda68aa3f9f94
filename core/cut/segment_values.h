/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The values of one segment of the path. */
#ifndef BITE_CUT_SEGMENT_VALUES_H
#define BITE_CUT_SEGMENT_VALUES_H

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

#endif
