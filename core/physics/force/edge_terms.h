/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Integrals along the cutting edges of a square end mill: the geometry of its forces, independent
 * of the material.
 *
 * The force on an edge is linear in the constants of the material, dFt = (K h + Ke) dz and so on,
 * and so is any sum of such forces: six integrals over all edges in contact determine every force.
 * An edge at height zc has theta = phi_tip - zc tan(beta)/R, so that dz = -(R/tan beta) dtheta, and
 * the integral along a tooth's edge is the difference of antiderivatives between clipped limits: no
 * slices, and no noise from slicing (Budak, Altintas and Armarego 1996; memory, re-derived). The
 * chip is a sum of hinges (core/physics/geometry/chip_hinges.h), and so are its integrals.
 */
#ifndef BITE_PHYSICS_FORCE_EDGE_TERMS_H
#define BITE_PHYSICS_FORCE_EDGE_TERMS_H

#include "core/physics/geometry/chip_hinges.h"

/** The integrals of h dz (m2) and of dz (m), each alone and times the sine and the cosine of the
 * edge's own angle; before they are multiplied by R/tan(beta): m rad, and rad. */
typedef struct bite_edge_terms {
    double area;
    double area_sine;
    double area_cosine;
    double edge;
    double edge_sine;
    double edge_cosine;
} bite_edge_terms;

/** Over a part of the interval of one hinge, h = slope sin phi + offset. The edge terms are those
 * of the first hinge of a tooth alone. */
BITE_FORMULA bite_edge_terms bite_edge_between(double slope, double offset, bite_turned from,
                                               bite_turned to)
{
    double turn = to.at - from.at;
    double sine = to.sine - from.sine;
    double cosine = to.cosine - from.cosine;
    double product = to.sine * to.cosine - from.sine * from.cosine;
    bite_edge_terms terms = {
        .area = offset * turn - slope * cosine,
        .area_sine = 0.5 * slope * (turn - product) - offset * cosine,
        .area_cosine = (0.5 * slope * (to.sine + from.sine) + offset) * sine,
        .edge = turn,
        .edge_sine = -cosine,
        .edge_cosine = sine,
    };
    return terms;
}

/** A straight flute is computed as a helix that lags by this little over the depth, rad: one
 * formula covers both, accurate to 1e-9. */
#define BITE_EDGE_LAG_LEAST 1e-6

/** By how much the upper end of an edge lags its lower end, rad; never 0. */
BITE_FORMULA double bite_edge_lag(double depth, double diameter, double helix)
{
    double lag = depth * tan(helix) / (0.5 * diameter);
    double least = lag < 0.0 ? -BITE_EDGE_LAG_LEAST : BITE_EDGE_LAG_LEAST;
    return fabs(lag) < BITE_EDGE_LAG_LEAST ? least : lag;
}

/** Forces on the part. N */
typedef struct bite_edge_load {
    double tangential; /* sum over the teeth */
    double x;
    double y;
    double lift;
} bite_edge_load;

/** The load by the integrals, with the cutting pressures K (Pa) and the edge forces Ke (N/m). */
BITE_FORMULA bite_edge_load bite_edge_load_of(bite_edge_terms terms, double tangential,
                                              double radial, double axial, double edge_tangential,
                                              double edge_radial, double edge_axial)
{
    double tangential_sine = tangential * terms.area_sine + edge_tangential * terms.edge_sine;
    double tangential_cosine = tangential * terms.area_cosine + edge_tangential * terms.edge_cosine;
    double radial_sine = radial * terms.area_sine + edge_radial * terms.edge_sine;
    double radial_cosine = radial * terms.area_cosine + edge_radial * terms.edge_cosine;
    bite_edge_load load = {tangential * terms.area + edge_tangential * terms.edge,
                           -tangential_cosine - radial_sine, tangential_sine - radial_cosine,
                           axial * terms.area + edge_axial * terms.edge};
    return load;
}

#endif
