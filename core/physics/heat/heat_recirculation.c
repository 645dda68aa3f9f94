/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat recirculation: the cutter moves into material that it has heated. */
#include "core/physics/heat/heat_recirculation.h"
#include <math.h>

double bite_recirculation_peclet(double feed_rate, double radius, double width, double diffusivity)
{
    return feed_rate * radius / diffusivity * pow(fmin(1.0, width / radius), 1.4);
}

double bite_recirculation_floor(double feed_rate, double depth, double diffusivity)
{
    return 0.64 * pow(feed_rate * depth / diffusivity, -0.90);
}

double bite_recirculation_share(double peclet, double floor_loss)
{
    double size = log(peclet);
    double p = 0.85 * exp(-0.87 * size) + 0.455 * exp(-0.19 * size);
    return 1.0 / (1.0 + p + floor_loss + 0.83 * pow(p * floor_loss, 0.68));
}

double bite_recirculation_surface(double fourier)
{
    double share = 0.25 / fourier;
    return 1.0 / (1.0 + share * sqrt(share));
}
