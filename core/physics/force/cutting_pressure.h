/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutting pressure of a material, converted once to the linear edge form dF = (K h + Ke) db. */
#ifndef BITE_PHYSICS_FORCE_CUTTING_PRESSURE_H
#define BITE_PHYSICS_FORCE_CUTTING_PRESSURE_H

#include "core/physics/heat/softening_time.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

typedef struct bite_pressure {
    double tangential; /* K, Pa */
    double radial;
    double axial;           /* positive lifts the part; sign of the helix included */
    double edge_tangential; /* Ke, N/m */
    double edge_radial;
    double edge_axial;
    double fracture; /* the part of edge_tangential that creates new surface and heats neither tool
                        nor skin, N/m */
} bite_pressure;

/** Properties of the material and the edge from which the pressure is computed. NaN: not known. */
typedef struct bite_pressure_inputs {
    uint32_t form;                /* a bite_pressure_form: which of the members below are read */
    double tangential;            /* Pa, K at the reference conditions, or kc1.1 of a power law */
    double radial;                /* Pa */
    double axial;                 /* Pa, for a right-hand helix */
    double edge_tangential;       /* N/m, Ke at the reference edge radius */
    double edge_radial;           /* N/m */
    double edge_axial;            /* N/m */
    double exponent;              /* mc of a power law */
    double shear_strength;        /* Pa */
    double fracture_energy;       /* J/m2 */
    double yield;                 /* Pa */
    double friction;              /* chip on rake face */
    double rake_slope;            /* 1/rad: share by which K falls for each radian of rake */
    double edge_radius;           /* m, of this tool */
    double rake;                  /* rad, of this tool */
    double helix;                 /* rad, of this tool; left-hand: negative */
    double reference_edge_radius; /* m, at which the pressures were measured */
    double reference_rake;        /* rad, the same */
    double reference_temperature; /* K, the same */
    double start_temperature;     /* K, of the stock */
    bite_softening_law softening; /* of a polymer; transition NaN: strength_curve is used */
    double shear_time;            /* s, time for which the chip is sheared: h/v */
    double heating;               /* B (1 - f)/(rho c), K per Pa of shear strength */
    const bite_curve *strength_curve; /* relative strength over temperature; no points: constant */
} bite_pressure_inputs;

/** Constants at the tool's edge radius, rake and helix and at the start temperature. False: the
 * material has no cutting pressure, and *pressure is not to be used. */
bool bite_pressure_from(const bite_pressure_inputs *inputs, bite_pressure *pressure);

/** The pressure for a chip that is thicker by `factor`: the cutting terms are multiplied by it, the
 * edge terms are unchanged. */
bite_pressure bite_pressure_thicker(const bite_pressure *pressure, double factor);

/** Ratio of the radial to the tangential pressure. stated_radial: as stated for the material, Pa;
 * NaN: the ratio is the default one, and so the same in every draw. */
double bite_pressure_ratio(double stated_radial, const bite_pressure *pressure);

/** A property at a temperature: the curve, or `plain` where it has no points. */
double bite_curve_at(const bite_curve *curve, double temperature, double plain);

#endif
