/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stepped round shaft clamped at the holder: bending with shear, stress at its steps. */
#ifndef BITE_PHYSICS_ELASTIC_STEPPED_SHAFT_H
#define BITE_PHYSICS_ELASTIC_STEPPED_SHAFT_H

#include "core/base/lane_math.h"
#include <stddef.h>

/** m; diameters at the tip's side and at the holder's side: equal for a cylinder, else a cone. */
typedef struct bite_step {
    double length; /* 0: there is no such step */
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

/* The part of a step between load and holder, measured from the load: where it begins and ends, and
 * its diameters there. Of a step below the load, or of none, the length is 0. */
typedef struct bite_shaft_reach {
    double from;
    double to;
    double near;
    double far;
} bite_shaft_reach;

BITE_FORMULA bite_shaft_reach bite_shaft_reach_of(const bite_step *step, double start,
                                                  double from_tip)
{
    double end = start + step->length;
    double cut = bite_smaller(bite_larger(start, from_tip), end);
    double length = step->length > 0.0 ? step->length : 1.0;
    bite_shaft_reach reach;
    reach.from = bite_larger(start - from_tip, 0.0);
    reach.to = bite_larger(end - from_tip, 0.0);
    reach.near = step->tip + (step->holder - step->tip) * (cut - start) / length;
    reach.far = step->holder;
    return reach;
}

/**
 * Compliance at a load that acts at from_tip above the tip, m; 0 <= from_tip < whole length.
 *
 * Each step from x1 to x2, measured from the load, with diameters d1 and d2: bending 64/(pi E)
 * times the integral of x^2/d^4, that is L (w1^2 + w1 w2 + w2^2)/(3 d1 d2), w = x/d, for cylinder
 * and cone alike (w has dw = const dx/d^2, and 1/d is linear in w); shear F L/(kappa G A), kappa =
 * 6 (1 + nu)/(7 + 6 nu) of a solid round section (Cowper 1966; memory).
 */
BITE_FORMULA bite_yielding bite_shaft_bend(const bite_shaft *shaft, double modulus, double poisson,
                                           double from_tip)
{
    double shear_modulus = modulus / (2.0 * (1.0 + poisson));
    double kappa = 6.0 * (1.0 + poisson) / (7.0 + 6.0 * poisson);
    double start = 0.0;
    double square = 0.0; /* integrals of x^2/d^4, x/d^4 and 1/d^2 */
    double line = 0.0;
    double area = 0.0;
    BITE_UNROLLED
    for (size_t i = 0; i < shaft->count; i++) {
        bite_shaft_reach reach = bite_shaft_reach_of(&shaft->steps[i], start, from_tip);
        double near = 1.0 / reach.near;
        double far = 1.0 / reach.far;
        double from = reach.from * near;
        double to = reach.to * far;
        double scale = (reach.to - reach.from) * near * far;
        square += scale * (from * from + from * to + to * to);
        line += scale * (2.0 * (from * near + to * far) + from * far + to * near);
        area += scale;
        start += shaft->steps[i].length;
    }
    double flexibility = 64.0 / (M_PI * modulus);
    bite_yielding yielding = {flexibility * square / 3.0,
                              4.0 * area / (M_PI * kappa * shear_modulus),
                              flexibility * line / 6.0};
    return yielding;
}

/** Of bending and torsion at one place, Pa: principal stress sigma/2 + sqrt(sigma^2/4 + tau^2), or
 * von Mises stress sqrt(sigma^2 + 3 tau^2) if ductile is not 0. */
BITE_FORMULA double bite_shaft_combined_stress(double bending, double torsion, int ductile)
{
    return ductile ? sqrt(bending * bending + 3.0 * torsion * torsion)
                   : 0.5 * bending + sqrt(0.25 * bending * bending + torsion * torsion);
}

BITE_FORMULA double bite_shaft_stress_at(double arm, double diameter, double force, double torque,
                                         int ductile)
{
    double per_cube = 1.0 / (M_PI * diameter * diameter * diameter);
    return bite_shaft_combined_stress(32.0 * force * arm * per_cube, 16.0 * torque * per_cube,
                                      ductile);
}

/** Largest stress over the ends of all steps, Pa: sigma = 32 M/(pi d^3), tau = 16 T/(pi d^3);
 * principal stress, or von Mises stress if ductile is not 0. */
BITE_FORMULA double bite_shaft_stress(const bite_shaft *shaft, double from_tip, double force,
                                      double torque, int ductile)
{
    double worst = 0.0;
    double start = 0.0;
    BITE_UNROLLED
    for (size_t i = 0; i < shaft->count; i++) {
        bite_shaft_reach reach = bite_shaft_reach_of(&shaft->steps[i], start, from_tip);
        double near = bite_shaft_stress_at(reach.from, reach.near, force, torque, ductile);
        double far = bite_shaft_stress_at(reach.to, reach.far, force, torque, ductile);
        double most = bite_larger(bite_larger(near, far), worst);
        worst = reach.to > reach.from ? most : worst;
        start += shaft->steps[i].length;
    }
    return worst;
}

#endif
