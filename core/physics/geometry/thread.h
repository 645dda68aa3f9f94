/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Internal threads of 60 degrees: metric (ISO 68-1) and unified (ASME B1.1).
 *
 * With H = sqrt(3)/2 P a thread of 100 % has the height 3/4 H = 0.6495 P, so that the hole for a
 * share s of it is d = D - 2 (3/4 H) s = D - 1.299 P s; in inches with N threads an inch the usual
 * form is D - 0.01299 (percent)/N. The groove that is cut has the width P/8 at the major diameter,
 * and 2 tan 30 degrees more for each unit of depth from there.
 */
#ifndef BITE_PHYSICS_GEOMETRY_THREAD_H
#define BITE_PHYSICS_GEOMETRY_THREAD_H

#include "core/base/lane_math.h"

/** tan 30 degrees, of half of the thread angle. */
#define BITE_THREAD_FLANK 0.57735026918962576

/** Height of a thread of 100 % / pitch: 3/4 of sqrt(3)/2. */
#define BITE_THREAD_FULL_HEIGHT 0.64951905283832898

/** The groove of an internal thread. */
typedef struct bite_thread_groove {
    double height; /* m, radial, from the wall of the hole to the major diameter */
    double area;   /* m2, of its section along the axis */
    double width;  /* m, mean, area/height */
    double arm;    /* m, radius of its centroid */
} bite_thread_groove;

/** Diameter of the hole for a share of thread, m. */
BITE_FORMULA double bite_thread_hole(double major, double pitch, double share)
{
    return major - 2.0 * BITE_THREAD_FULL_HEIGHT * pitch * share;
}

/** Share of thread that a hole leaves: may be above 1, or negative where the hole is wider than the
 * thread. */
BITE_FORMULA double bite_thread_share(double major, double pitch, double hole)
{
    return (major - hole) / (2.0 * BITE_THREAD_FULL_HEIGHT * pitch);
}

/** area = h (P/8 + h tan 30); the moment about the axis is D/2 area - (P/16 + 2/3 h tan 30) h2.
 * Without the flat this is the section of (D - d)2/4 tan 30 at the arm (D + 2 d)/6 of makers'
 * formulas. */
BITE_FORMULA bite_thread_groove bite_thread_groove_of(double major, double pitch, double hole)
{
    bite_thread_groove groove;
    double h = bite_larger(0.5 * (major - hole), 0.0);
    double flat = 0.125 * pitch;
    groove.height = h;
    groove.width = flat + h * BITE_THREAD_FLANK;
    groove.area = h * groove.width;
    groove.arm = 0.5 * major - h * (0.5 * flat + 2.0 / 3.0 * h * BITE_THREAD_FLANK) / groove.width;
    return groove;
}

/** Height of the groove, m, at which a share of the section of one of this height is cut: the root
 * of h2 tan 30 + h P/8 = share area. Passes of equal section stop there. */
BITE_FORMULA double bite_thread_height_of(double pitch, double height, double share)
{
    double flat = 0.125 * pitch;
    double area = share * height * (flat + height * BITE_THREAD_FLANK);
    return 2.0 * area / (flat + sqrt(flat * flat + 4.0 * BITE_THREAD_FLANK * area));
}

/** Root diameter of an external thread, and about that of a tap, m: D - 17/12 H (ISO 68-1). */
BITE_FORMULA double bite_thread_root(double major, double pitch)
{
    return major - 17.0 / 12.0 * 0.86602540378443865 * pitch;
}

#endif
