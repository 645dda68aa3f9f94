/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Forces of a tool with a corner radius, up to a ball end: the edge in slices, each with its own
 * radius, arc of contact and slope.
 *
 * At the entering angle kappa (0 at the tip, pi/2 on the cylinder) the edge has the radius r = R -
 * rc + rc sin(kappa) and cuts a chip of h sin(kappa) over db = dz/sin(kappa): dFt = (K h + Ke/sin
 * kappa) dz. The force normal to the edge splits into a radial part, times sin(kappa), and one that
 * lifts the tool and presses on the part, times cos(kappa) (Lee and Altintas 1996; memory,
 * re-derived). The corner is summed at Gauss points in kappa, over which the edge length is even;
 * the cylinder above it is integrated in closed form, as a square end mill.
 */
#ifndef BITE_TESTS_ORACLE_CORNER_RADIUS_MILL_H
#define BITE_TESTS_ORACLE_CORNER_RADIUS_MILL_H

#include "tests/oracle/closed_forms/square_end_mill.h"

/* Angles of a turn at which the forces are summed: a dozen over the arc of contact, and one on
 * either side of each angle at which the tip or the upper end of a tooth's edge enters or leaves
 * the cut, since the peaks are sharp there. */
#define BITE_ROUND_ANGLES_LEAST 72
#define BITE_ROUND_ANGLES_MAX 360
#define BITE_ROUND_KINKS_MAX (8 * BITE_TEETH_MAX)
#define BITE_ROUND_PLACES (BITE_ROUND_ANGLES_MAX + BITE_ROUND_KINKS_MAX)

/** Workspace of the sum over the slices: some 40 KB, owned by the caller. */
typedef struct bite_round_turn {
    int angles; /* evenly spaced over a turn; the means are taken over these */
    int all;    /* including those at the kinks, which follow */
    bite_angle at[BITE_ROUND_PLACES];
    bite_load load[BITE_ROUND_PLACES];
    double torque[BITE_ROUND_PLACES];
    struct {
        double x;
        double y;
        double lift;
    } mean[BITE_ROUND_ANGLES_MAX];
} bite_round_turn;

typedef struct bite_corner_mill {
    bite_force_peaks peaks;
    bite_load mean;
    double torque_peak;    /* N m */
    double torque_mean;    /* N m */
    double wall_force[2];  /* N, across the wall, of the largest magnitude over the heights where it
                              is finished; > 0: away from it. [0]: conventional, [1]: climb; NaN: no
                              such wall */
    double wall_height[2]; /* m, height above the tip at which that force acts */
    double heavy_chip;     /* m */
    double section;        /* m2, of the stock across the feed */
    double edge_length;    /* m, of one tooth within the depth */
    double chip_mean;      /* m, over the parts of the edges that are in contact */
    double teeth_edge;     /* in contact, mean over a turn and the edge length */
} bite_corner_mill;

typedef struct bite_corner_tool {
    double diameter;      /* m */
    double corner_radius; /* m, > 0 */
    double depth;         /* ap, m */
    double helix;         /* rad */
    double flutes;        /* a whole number, 1 to BITE_TEETH_MAX */
    double runout;        /* m, total indicator reading */
    double least_chip;    /* h_min, m */
    bite_side side;
} bite_corner_tool;

/** Fills *mill. width: ae of the straight pass, or the equivalent width in an inside corner, m, at
 * most D. turn and cylinder are workspaces: they need not be initialized, and their contents are
 * undefined afterwards. */
void bite_corner_mill_forces(const bite_corner_tool *tool, double width, double tooth_feed,
                             const bite_pressure *pressure, bite_round_turn *turn,
                             bite_force *cylinder, bite_corner_mill *mill);

#endif
