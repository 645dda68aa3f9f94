/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Natural frequencies of the tool as a stepped beam clamped at the holder. */
#ifndef BITE_PHYSICS_DYNAMICS_TOOL_MODES_H
#define BITE_PHYSICS_DYNAMICS_TOOL_MODES_H

#include "core/physics/elastic/stepped_shaft.h"

/**
 * The number-th natural frequency (from 1), Hz, of a stepped shaft free at its tip: Euler-Bernoulli
 * beam by transfer matrices, exact for cylinders; a cone is divided into four cylinders of its mean
 * diameters. modulus in Pa, density in kg/m3.
 */
double bite_tool_mode_frequency(const bite_shaft *shaft, double modulus, double density,
                                int number);

/**
 * The frequency, Hz, of the shape into which a force at the tip bends the shaft: Rayleigh's w^2 =
 * y(0)/integral of rho A y^2, never below the first natural frequency and 1.5 % above it for a
 * cylinder (33/140 of its mass). For a thin tip on a thick shank it is the frequency of the tip,
 * which contributes most of the compliance. A cone is treated as a cylinder of its mean diameter.
 * It costs as little as the bending itself.
 */
/* Integrates from the holder to the tip. With u measured from the holder end of a step, which is at
 * x from the tip, y = y2 + s2 u + c (x u^2/2 - u^3/6), c = 64/(pi E d^4): the integrand y^2 is a
 * polynomial. */
BITE_FORMULA double bite_tool_mode_bent(const bite_shaft *shaft, double modulus, double density)
{
    double x = 0.0;
    double y = 0.0;
    double slope = 0.0;
    double moved = 0.0; /* integral of 4 A y^2/pi */
    double flexibility = 64.0 / (M_PI * modulus);
    BITE_UNROLLED
    for (size_t i = 0; i < shaft->count; i++) {
        x += shaft->steps[i].length;
    }
    BITE_UNROLLED
    for (size_t n = 0; n < shaft->count; n++) {
        const bite_step *step = &shaft->steps[shaft->count - 1 - n];
        double length = step->length;
        double square = step->tip * step->holder;
        double curvature = flexibility * length / (square * square);
        double a1 = slope * length;
        double a2 = 0.5 * curvature * x * length;
        double a3 = -curvature * length * length / 6.0;
        double sum = y * (y + a1) + (2.0 * y * a2 + a1 * a1) / 3.0 + 0.5 * (y * a3 + a1 * a2) +
                     0.2 * (a2 * a2 + 2.0 * a1 * a3) + a2 * a3 / 3.0 + a3 * a3 / 7.0;
        moved += square * length * sum;
        y += a1 + a2 + a3;
        slope += curvature * (x - 0.5 * length);
        x -= length;
    }
    return sqrt(y / (0.25 * M_PI * density * moved)) / (2.0 * M_PI);
}

#endif
