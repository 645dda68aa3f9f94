/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Heat recirculation: the cutter moves into material that it has heated. r is the share of the heat
 * in the work that is in the material cut by the next teeth, and leaves with their chips.
 *
 * Fits to finite-element and finite-volume solutions of a moving front (estimate; a test compares
 * them with a solution of its own), band: times and divided by 1.35. In one dimension all of the
 * heat leaves that way. Good to 5 % in r for a full slot with Pe from 0.3 to 500; in side cuts r
 * errs by up to 25 %, and for Pe below 0.1 by more. The share 1 - r that stays in the part is less
 * accurate: it is 56 % too large at Pe 500, which overstates the part's temperature.
 */
#ifndef BITE_PHYSICS_HEAT_HEAT_RECIRCULATION_H
#define BITE_PHYSICS_HEAT_HEAT_RECIRCULATION_H

#include "core/base/lane_math.h"

/** log(Pe), Pe = (vf R/a) min(1, ae/R)^1.4. */
BITE_FORMULA double bite_recirculation_log_peclet(double feed_rate, double radius, double width,
                                                  double diffusivity)
{
    return log(feed_rate * radius / diffusivity) + 1.4 * log(bite_smaller(width / radius, 1.0));
}

/** Loss of heat into the floor under the cut: e = 0.64 (vf ap/a)^-0.90; 0 for a through cut. */
BITE_FORMULA double bite_recirculation_floor(double feed_rate, double depth, double diffusivity)
{
    return 0.64 * exp(-0.90 * log(feed_rate * depth / diffusivity));
}

/** r = 1/(1 + p + e + 0.83 (p e)^0.68), p = 0.85 Pe^-0.87 + 0.455 Pe^-0.19, from log(Pe). */
BITE_FORMULA double bite_recirculation_share_at(double log_peclet, double floor_loss)
{
    const double least = 1e-300; /* whose logarithm exists; to the power of 0.68 it is nothing */
    double p = 0.85 * exp(-0.87 * log_peclet) + 0.455 * exp(-0.19 * log_peclet);
    double both = exp(0.68 * log(bite_larger(p * floor_loss, least)));
    return 1.0 / (1.0 + p + floor_loss + 0.83 * both);
}

/** Share of the preheat that reaches the finished surface, which lies one layer deeper: g = 1/(1 +
 * (0.25/Fo)^1.5), Fo = a/(vf fz). */
BITE_FORMULA double bite_recirculation_surface(double fourier)
{
    double share = 0.25 / fourier;
    return 1.0 / (1.0 + share * sqrt(share));
}

#endif
