/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heat of one segment: chip, tool, finished surface and part. */
#ifndef BITE_CUT_SEGMENT_HEAT_H
#define BITE_CUT_SEGMENT_HEAT_H

#include "core/cut/segment_cache.h"
#include "core/cut/segment_values.h"
#include "core/physics/force/cutting_pressure.h"

/** Contact of edge and work. */
typedef struct bite_edge_contact {
    double speed;     /* m/s */
    double chip;      /* mean, m */
    double length;    /* of one edge, m */
    double teeth;     /* in contact, mean over a turn */
    double feed_real; /* m, of a tooth that really cuts */
} bite_edge_contact;

/** Fills the temperatures, heat flows and heat shares of a segment whose power, removal rate and
 * engagement are filled. */
void bite_segment_fill_heat(const bite_cut *cut, const bite_edge_contact *at,
                            const bite_pressure *pressure, bite_fin_cache *fin,
                            bite_segment *segment);

#endif
