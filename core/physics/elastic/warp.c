/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bow of a part whose stress is no longer in balance. */
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

double bite_warp_slope(double modulus, double poisson, double face_stress, double thickness)
{
    return 2.0 * (1.0 - poisson) * face_stress / (modulus * thickness);
}

double bite_warp_skin(double modulus, double poisson, double tension, double thickness)
{
    return 6.0 * (1.0 - poisson) * tension / (modulus * thickness * thickness);
}

double bite_warp_coupon(double modulus, double poisson, double thickness, double cut, double span,
                        double bow)
{
    return 4.0 * modulus * thickness * thickness * bow /
           (3.0 * (1.0 - poisson) * cut * span * span);
}

double bite_warp_flattened(double thickness, double bow, double span)
{
    return 4.0 * thickness * bow / (span * span);
}
