/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Temperature rise of the finished wall and floor when the next tooth arrives, and its duration. */
#include "core/physics/heat/wall_heat.h"
#include <math.h>

/* Factors on the number of sweeps that add to the rise, in the half-space and in the heated layer
 * (fitted to finite differences). */
static const double sweeps_in_depth = 0.37;
static const double sweeps_in_layer = 0.85;

/* Sum over k = 1..m of 1/sqrt(k), to 1.6 %, for any m >= 0. */
static double root_sum(double m)
{
    return sqrt(4.0 * m + 2.13) - 1.46;
}

/* Share of its rise that a cooled surface retains over the dwell: B = h sqrt(a t)/k (fit, 1.8 %).
 */
static double retained_share(const bite_wall_heat_case *heat_case, double dwell)
{
    double b = heat_case->cooling * sqrt(heat_case->diffusivity * dwell) / heat_case->conductivity;
    return 1.0 / (1.0 + 0.886 * b + 0.242 * b * b / (1.0 + b));
}

/* Combines the layer and the half-space below it by the sum of their cubes. cuts: M; cuts_in_layer:
 * M_l; rubs: N. */
static bite_wall_heat surface_of(const bite_wall_heat_case *heat_case, double cuts,
                                 double cuts_in_layer, double rubs)
{
    double tooth_time = heat_case->feed_real / heat_case->feed_rate;
    double volumetric = heat_case->conductivity / heat_case->diffusivity;
    double effusivity = heat_case->conductivity / sqrt(heat_case->diffusivity);
    double rub = heat_case->rub_heat;
    double pulses = fmax(root_sum(cuts), root_sum(cuts + rubs) - (1.0 - rub) * root_sum(rubs));
    double deep = effusivity * sqrt(M_PI * tooth_time) / pulses;
    double layer = heat_case->layer * volumetric / (cuts_in_layer + rub * rubs);
    bite_wall_heat heat = {.dwell = (cuts + rubs) * tooth_time, .cuts = cuts, .rubs = rubs};
    heat.rise = heat_case->edge_energy * retained_share(heat_case, heat.dwell) /
                cbrt(layer * layer * layer + deep * deep * deep);
    return heat;
}

bite_wall_heat bite_wall_heat_wall(const bite_wall_heat_case *heat_case)
{
    double radius = heat_case->radius;
    double feed = heat_case->feed_rate;
    double immersed = fmin(heat_case->width, radius);
    double reach = sqrt(immersed * (2.0 * radius - immersed)); /* along the feed */
    double soak = feed * feed / (4.0 * radius * sqrt(heat_case->diffusivity));
    double leave = feed / reach;
    double time = 1.0 / sqrt(soak * cbrt(soak) + leave * leave);
    double cuts = 1.0 + sweeps_in_depth * time * feed / heat_case->feed_real;
    double in_layer = 1.0 + sweeps_in_layer * fmin(sqrt(2.0 * radius * heat_case->layer), reach) /
                                heat_case->feed_real;
    double rubs = sqrt(2.0 * radius * heat_case->spring_back) / heat_case->feed_real;
    return surface_of(heat_case, cuts, in_layer, rubs);
}

bite_wall_heat bite_wall_heat_floor(const bite_wall_heat_case *heat_case)
{
    double rubs = heat_case->spring_back / (heat_case->feed_real * heat_case->dish);
    return surface_of(heat_case, 1.0, 1.0, rubs);
}

/* Heat transfer from both faces of a plate in still air, W/(m2 K) (estimate). */
static const double plate_cooling = 20.0;

double bite_wall_heat_soak(double line_energy, double volumetric, double diffusivity,
                           double thickness, double lap, double laps)
{
    double sheet = volumetric * thickness; /* J/(m2 K) */
    double first = line_energy / (sheet * sqrt(4.0 * M_PI * diffusivity * lap));
    return laps > 1.0 ? first * root_sum(laps - 1.0) * exp(-plate_cooling * lap / sheet) : 0.0;
}

double bite_wall_heat_flash(double edge_energy, double layer, double volumetric, double diffusivity,
                            double contact)
{
    double spread = 0.5 * sqrt(M_PI * diffusivity * contact);
    return edge_energy / (volumetric * pow(pow(layer, 1.8) + pow(spread, 1.8), 1.0 / 1.8));
}
