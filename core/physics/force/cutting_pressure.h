/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutting pressure of the material, turned once into the linear edge form dF = (K h + Ke) db.
 */
#ifndef BITE_PHYSICS_FORCE_CUTTING_PRESSURE_H
#define BITE_PHYSICS_FORCE_CUTTING_PRESSURE_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

typedef struct bite_pressure {
    double tangential; /* K, Pa */
    double radial;
    double axial;           /* positive lifts the part; sign of the helix included */
    double edge_tangential; /* Ke, N/m */
    double edge_radial;
    double edge_axial;
    double fracture; /* the part of edge_tangential that makes new surface and heats neither tool
                        nor skin, N/m */
} bite_pressure;

/** Kienzle: force on each width of a chip h, kc1.1 h (h/1 mm)^-mc; kc1.1 in Pa, N/m. */
double bite_pressure_power_law(double pressure_at_1mm, double exponent, double chip);

/** Kienzle to linear edge: chord of kc1.1 h^(1-mc) between chips of 12.5 and 50 um. kc at 1 mm in
 * Pa; *pressure Pa, *edge N/m. */
void bite_pressure_chord(double pressure_at_1mm, double exponent, double *pressure, double *edge);

/** Constants at the cut's edge radius, rake, helix and start temperature. False: the material has
 * no cutting pressure. All defaults filled. */
bool bite_pressure_of(const bite_cut *cut, bite_pressure *pressure);

/** Radial over tangential: the same number in every draw where only a share of the tangential is
 * known. */
double bite_pressure_ratio(const bite_cut *cut, const bite_pressure *pressure);

/** A property at a temperature: the curve, or `plain` where it has no points. */
double bite_curve_at(const bite_curve *curve, double temperature, double plain);

#endif
