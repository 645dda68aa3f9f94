/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Indentation and bending by the force of a gauge. */
#include "core/physics/measurement/gauge_contact.h"
#include <math.h>

double bite_contact_modulus(double modulus, double poisson, double gauge_modulus,
                            double gauge_poisson)
{
    return 1.0 / ((1.0 - poisson * poisson) / modulus +
                  (1.0 - gauge_poisson * gauge_poisson) / gauge_modulus);
}

double bite_contact_ball_depth(double force, double radius, double modulus)
{
    return cbrt(9.0 * force * force / (16.0 * radius * modulus * modulus));
}

double bite_contact_ball_dent(double radius, double modulus, double yield)
{
    const double onset = 1.6;
    double pressure = onset * yield;
    return M_PI * M_PI * M_PI * radius * radius * pressure * pressure * pressure /
           (6.0 * modulus * modulus);
}

double bite_strip_deflection(double force, double span, double width, double thickness,
                             double modulus)
{
    return force * span * span * span / (4.0 * modulus * width * thickness * thickness * thickness);
}

double bite_strip_sag(double span, double thickness, double modulus, double density)
{
    const double gravity = 9.80665; /* m/s2 */
    double squared = span * span;
    return 5.0 * density * gravity * squared * squared / (32.0 * modulus * thickness * thickness);
}
