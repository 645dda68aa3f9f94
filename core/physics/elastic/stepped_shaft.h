/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stepped round shaft clamped at the holder: bending with shear, heat conduction along it, stress
 * at its steps. */
#ifndef BITE_PHYSICS_ELASTIC_STEPPED_SHAFT_H
#define BITE_PHYSICS_ELASTIC_STEPPED_SHAFT_H

#include <stddef.h>

/** m; diameters at the tip's side and at the holder's side: equal for a cylinder, else a cone. */
typedef struct bite_step {
    double length;
    double tip;
    double holder;
} bite_step;

/** From the tip to the holder's face. */
typedef struct bite_shaft {
    size_t count;
    bite_step steps[6];
} bite_shaft;

/** Compliance at a load: deflection by bending and by shear, m/N, and slope, rad/N. */
typedef struct bite_yielding {
    double bending;
    double shear;
    double slope;
} bite_yielding;

/**
 * Compliance at a load that acts at from_tip above the tip, m; 0 <= from_tip < whole length.
 *
 * Each step from x1 to x2, measured from the load, with diameters d1 and d2: bending 64/(pi E)
 * times the integral of x^2/d^4, that is L (w1^2 + w1 w2 + w2^2)/(3 d1 d2), w = x/d, for cylinder
 * and cone alike; shear F L/(kappa G A), kappa = 6 (1 + nu)/(7 + 6 nu) of a solid round section
 * (Cowper 1966; memory).
 */
bite_yielding bite_shaft_bend(const bite_shaft *shaft, double modulus, double poisson,
                              double from_tip);

/**
 * The shaft as a fin heated at its tip: T_tip = T_holder + air_share (T_air - T_holder) +
 * resistance Q.
 *
 * transfer: W/(m2 K) from its side; the end at the tip is insulated. Exact for cylinders, tanh(m
 * L)/(k A m), m = sqrt(4 transfer/(k d)), and for cones, by modified Bessel functions (memory: the
 * conical fin of textbooks on heat transfer; re-derived).
 */
void bite_shaft_fin(const bite_shaft *shaft, double conductivity, double transfer,
                    double *resistance, double *air_share);

/** Of bending and torsion at one place, Pa: principal stress sigma/2 + sqrt(sigma^2/4 + tau^2), or
 * von Mises stress sqrt(sigma^2 + 3 tau^2) if ductile is not 0. */
double bite_shaft_combined_stress(double bending, double torsion, int ductile);

/** Largest stress over the ends of all steps, Pa: sigma = 32 M/(pi d^3), tau = 16 T/(pi d^3);
 * principal stress, or von Mises stress if ductile is not 0. */
double bite_shaft_stress(const bite_shaft *shaft, double from_tip, double force, double torque,
                         int ductile);

#endif
