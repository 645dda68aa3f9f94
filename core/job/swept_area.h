/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Areas that tools sweep and things that they must not meet: rectangles with round corners, which
 * may be circles, and bands between two of them. Lengths in m. */
#ifndef BITE_JOB_SWEPT_AREA_H
#define BITE_JOB_SWEPT_AREA_H

#include <stdint.h>

/** A rectangle with sides along the axes, widened by a radius all round: its corners are round. */
typedef struct bite_round_area {
    double x; /* of its centre */
    double y;
    double half_x; /* of the rectangle; 0 and 0: a circle */
    double half_y;
    double radius;
} bite_round_area;

/** What a tool sweeps: an area, or what lies between it and a hole in it. */
typedef struct bite_swept_area {
    bite_round_area outer;
    bite_round_area inner;
    uint32_t hollow; /* 1: inner is left standing */
} bite_swept_area;

/** The distance between two areas; negative: they overlap by so much. */
double bite_round_area_gap(const bite_round_area *one, const bite_round_area *other);

/** How far the edge of `hole` is from an area inside it, at the least; negative: the area reaches
 * so far beyond the hole. */
double bite_round_area_inside(const bite_round_area *hole, const bite_round_area *area);

/** The distance between what a tool sweeps and an area; negative: it sweeps so far into it. */
double bite_swept_area_gap(const bite_swept_area *swept, const bite_round_area *area);

/** An area with its edge moved inwards; the half sides of one that vanishes are negative. */
bite_round_area bite_round_area_shrunk(bite_round_area area, double by);

/** What a wider tool sweeps on the same path, its radius larger by so much. */
bite_swept_area bite_swept_area_widened(bite_swept_area swept, double by);

#endif
