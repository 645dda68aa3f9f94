/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bow of a flat part caused by unbalanced stress or strain. */
#include "core/physics/elastic/warp.h"

double bite_warp_bow(double curvature, double span)
{
    return curvature * span * span / 8.0;
}

double bite_warp_gradient(double strain, double thickness)
{
    return strain / thickness;
}

double bite_warp_layers(double modulus, double poisson, double skin_stress, double thickness,
                        double top, double below)
{
    return 6.0 * (1.0 - poisson) * skin_stress * (top - below) / (modulus * thickness * thickness);
}

double bite_warp_coupon(double modulus, double poisson, double thickness, double cut, double span,
                        double bow)
{
    return 4.0 * modulus * thickness * thickness * bow /
           (3.0 * (1.0 - poisson) * cut * span * span);
}
