/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutter walks into its own heat. */
#include "core/cut/walk.h"
#include <math.h>

double bite_walk_peclet(double feed_rate, double radius, double width, double diffusivity)
{
    return feed_rate * radius / diffusivity * pow(fmin(1.0, width / radius), 1.4);
}

double bite_walk_floor(double feed_rate, double depth, double diffusivity)
{
    return 0.64 * pow(feed_rate * depth / diffusivity, -0.90);
}

double bite_walk_share(double peclet, double floor_loss)
{
    double p = 0.85 * pow(peclet, -0.87) + 0.455 * pow(peclet, -0.19);
    return 1.0 / (1.0 + p + floor_loss + 0.83 * pow(p * floor_loss, 0.68));
}

double bite_walk_surface(double fourier)
{
    return 1.0 / (1.0 + pow(0.25 / fourier, 1.5));
}
