/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All numbers of one stretch of the path: the straight, or an inside corner. */
#ifndef BITE_CUT_STRETCH_H
#define BITE_CUT_STRETCH_H

#include "core/cut/chatter.h"
#include <coolbite/coolbite.h>

typedef struct bite_stretch {
    double value[BITE_VALUE_COUNT]; /* SI; NaN: no data */
    double heat_share[4];           /* chip, tool, part, stored */
    double compliance;              /* of tool and machine at the load, m/N */
    double heavy_chip;              /* largest chip of the heavy tooth, m */
    double thin_chip;               /* of a chamfer: its largest chip near the thin end, m */
    double torque_mean;             /* N m */
    double engaged;                 /* ae/D, 1 in a slot; of a chamfer at its largest radius */
    double packing;                 /* ap/D x engagement share, before the limit */
    double heat_power;              /* W, by the heat model's own sums */
    double energy_gap;              /* (power - chip - tool - part - stored)/power of the heat model */
} bite_stretch;

/** All values NaN, all shares 0. */
void bite_stretch_blank(bite_stretch *stretch);

/** The modes that somebody measured, taken as alike along both axes. */
bite_axis_modes bite_measured_modes(const bite_cut *cut);

/** What does not change between straight and corner is in cut, all defaults filled and checked. */
void bite_stretch_form(const bite_cut *cut, bite_arc arc, bite_stretch *stretch);

#endif
