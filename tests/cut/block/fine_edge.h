/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Peaks of an edge that is cut into many thin slices, at many angles of a turn: the same model as
 * the strips, summed without any of their shortcuts. */
#ifndef BITE_TESTS_CUT_BLOCK_FINE_EDGE_H
#define BITE_TESTS_CUT_BLOCK_FINE_EDGE_H

#include "core/physics/force/cutting_pressure.h"
#include "core/physics/geometry/chip_thickness.h"
#include "tests/oracle/closed_forms/square_end_mill.h"

/** A thin slice. */
typedef struct fine_slice {
    double height; /* m, above the lower end of the edge */
    double rise;   /* dz, m */
    double length; /* db, m */
    double radius; /* m */
    double sine;   /* of kappa */
    double cosine;
    bite_arc arc;
    double thicker; /* chip for the peaks over the geometric one; 0: bite_chip_peak of the slice */
} fine_slice;

typedef struct fine_tool {
    int flutes;
    double feed;       /* per tooth, m */
    double runout;     /* m */
    double lag;        /* rad/m */
    double least_chip; /* m */
    double first;      /* rad, of the tip of tooth 0 in the first sample */
} fine_tool;

typedef struct fine_peaks {
    bite_force_peaks peaks;
    double torque;
    bite_load mean; /* over the turn, at the pressure of the peaks */
} fine_peaks;

#define FINE_TURN 2880

/** Sums over the slices at FINE_TURN angles, evenly spaced over a turn. */
fine_peaks fine_edge_peaks(const fine_tool *tool, const bite_pressure *pressure,
                           const fine_slice *slices, int count);

#endif
