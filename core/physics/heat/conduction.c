/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed forms of heat conduction. */
#include "core/physics/heat/conduction.h"
#include <math.h>

/* Above it the closed form is a difference of terms that agree in all their digits. */
static const double weiner_large = 400.0;

/* Gamma(x) = 1/x (1 - tail): the closed form's asymptotic tail, from erfc's series; below 1e-9 of
 * it after these terms. */
static double weiner_tail(double y)
{
    /* erfc(s) = e^-y/(s sqrt(pi)) (1 - 1/(2y) + 3/(4y^2) - ...): all parts but erf/(4y) carry e^-y,
     * which is under 1e-43 here */
    return 1.0 / (4.0 * y);
}

double bite_conduction_weiner(double x)
{
    double y = 0.25 * x;
    if (x > weiner_large) {
        return weiner_tail(y);
    }
    double s = sqrt(y);
    if (y < 1e-4) {
        /* erf(s)/(4y) and exp(-y)/(2 s sqrt(pi)) cancel: series in s to the order that 1e-12 needs
         */
        double root = 1.0 / sqrt(M_PI);
        return 1.0 + y - root * (8.0 / 3.0 * s + 8.0 / 15.0 * s * y - 8.0 / 210.0 * s * y * y);
    }
    return erf(s) / (4.0 * y) + (1.0 + y) * erfc(s) - exp(-y) / sqrt(M_PI) * (0.5 / s + s);
}

double bite_conduction_rectangle(double ratio)
{
    double r = ratio;
    double root = sqrt(1.0 + r * r);
    /* r^2 + 1/r - (r + 1/r) root cancels for long and for short sources. With root - r = 1/(root +
     * r) and root - 1 = r^2/(root + 1) the same is -r/(root + r) - r/(root + 1), which never does.
     */
    double ends = -(r / (root + r) + r / (root + 1.0)) / 3.0;
    return 2.0 / M_PI * (asinh(r) + r * asinh(1.0 / r) + ends);
}

double bite_conduction_plate_peak(double power, double speed, double thickness, double conductivity,
                                  double diffusivity, double distance)
{
    double volumetric = conductivity / diffusivity;
    return power / (speed * thickness * volumetric * distance) * sqrt(1.0 / (2.0 * M_PI * M_E));
}
