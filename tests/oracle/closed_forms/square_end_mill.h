/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Forces of a square end mill by the linear edge model, from its edge integrals.
 *
 * dFt = (K h + Ke) dz and so on; Fx = -Ft cos - Fr sin, Fy = Ft sin - Fr cos, on the tool, phi from
 * +y (Budak, Altintas and Armarego 1996; memory, re-derived).
 */
#ifndef BITE_TESTS_ORACLE_SQUARE_END_MILL_H
#define BITE_TESTS_ORACLE_SQUARE_END_MILL_H

#include "core/physics/force/cutting_pressure.h"
#include "tests/oracle/closed_forms/edge_integrals.h"

/** Sum of the forces on all teeth at one instant, N. */
typedef struct bite_load {
    double tangential;
    double x;
    double y;
    double lift; /* on the part, up is positive */
} bite_load;

/** Largest sum of tangential forces, largest |(Fx, Fy)|, and the lift of largest magnitude, over a
 * turn. */
typedef struct bite_force_peaks {
    double tangential;
    double side;
    double lift;
} bite_force_peaks;

typedef struct bite_force {
    bite_pressure pressure;
    bite_load mean;
    bite_force_peaks peaks;
    bite_edge_integrals edges;
} bite_force;

/** The forces of a cutting pressure on edge integrals. */
bite_load bite_force_of(const bite_pressure *pressure, const double integrals[BITE_EDGE_TERMS]);

/** Computes the edge integrals of a chip, and the mean and peak forces over a turn. pressure: for
 * the means; peak: for the peaks, at the thickest chip that a tooth may cut. helix in rad. */
void bite_force_init(bite_force *force, const bite_chip *chip, const bite_pressure *pressure,
                     const bite_pressure *peak, double depth, double diameter, double helix);

/** Recomputes the forces at other pressures; force->edges is already initialized. */
void bite_force_set_pressure(bite_force *force, const bite_pressure *pressure,
                             const bite_pressure *peak);

#endif
