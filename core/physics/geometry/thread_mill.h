/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An internal thread milled on a helix: a tool of diameter d runs inside a thread of diameter D.
 *
 * The centre runs on a circle of D - d while the edge cuts one of D, so that the feed to enter is
 * vf = vf_edge (D - d)/D. The arc of contact is that of a wider cut along a straight wall: a tool
 * that opens a hole from w to D has, between the centre's path and the old wall, the engagement of
 * ae = (D2 - w2)/(4 (D - d)) (published thread milling formulas of a tool maker). Both follow from
 * the triangle of the two centres and the point where the edge enters.
 */
#ifndef BITE_PHYSICS_GEOMETRY_THREAD_MILL_H
#define BITE_PHYSICS_GEOMETRY_THREAD_MILL_H

#include "core/base/lane_math.h"

/** Feed of the tool's centre, m/s, for that of the edge. */
BITE_FORMULA double bite_thread_mill_centre_feed(double edge_feed, double major, double tool)
{
    return edge_feed * (major - tool) / major;
}

/** Width of the cut along a straight wall that has the same arc of contact, m. */
BITE_FORMULA double bite_thread_mill_width(double major, double hole, double tool)
{
    return (major * major - hole * hole) / (4.0 * (major - tool));
}

#endif
