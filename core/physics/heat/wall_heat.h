/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Temperature rise of the finished wall and floor when the next tooth arrives, and its duration.
 *
 * The flash under an edge decays within a tenth of a millisecond. The sustained rise is the sum
 * over many sweeps: a tooth that passes at a distance x before the wall is finished cuts at a
 * height x^2/2R above it, and its heat remains if it diffuses to the wall before that layer is
 * removed. Closed forms, fitted to finite differences (one-dimensional pulses with removed layers:
 * rms 14 %; the true circle in two dimensions: 6 to 9 % high).
 */
#ifndef BITE_PHYSICS_HEAT_WALL_HEAT_H
#define BITE_PHYSICS_HEAT_WALL_HEAT_H

#include "core/base/lane_math.h"

typedef struct bite_wall_heat_case {
    double edge_energy;  /* J/m2, heat of one pass of the edge that stays in the workpiece */
    double layer;        /* m, depth of the layer that absorbs it */
    double feed_rate;    /* vf, m/s */
    double feed_real;    /* m: feed of a tooth that really cuts */
    double radius;       /* of the tool, m */
    double width;        /* ae, m */
    double spring_back;  /* m, height by which the surface springs back behind the edge */
    double rub_heat;     /* heat of a rub on the sprung-back surface / heat of a cut, 1 */
    double dish;         /* slope of the end teeth, 1; > 0 */
    double cooling;      /* W/(m2 K), on the finished surface */
    double conductivity; /* of the workpiece, W/(m K) */
    double diffusivity;  /* m2/s */
} bite_wall_heat_case;

typedef struct bite_wall_heat {
    double rise;  /* K, sustained from tooth to tooth */
    double dwell; /* s, time for which the surface stays warm */
    double cuts;  /* M: sweeps of the cut that add to the rise */
    double rubs;  /* N: rubs on the sprung-back surface */
} bite_wall_heat;

/* Sum over k = 1..m of 1/sqrt(k), to 1.6 %, for any m >= 0. */
BITE_FORMULA double bite_wall_heat_root_sum(double m)
{
    return sqrt(4.0 * m + 2.13) - 1.46;
}

/** Sweeps over one place that add to its rise. */
typedef struct bite_wall_sweeps {
    double cuts;          /* M */
    double cuts_in_layer; /* M_l: those whose heat is still in the heated layer */
    double rubs;          /* N */
} bite_wall_sweeps;

/** Those of the wall beside the tool. */
BITE_FORMULA bite_wall_sweeps bite_wall_heat_wall_sweeps(const bite_wall_heat_case *heat_case)
{
    /* factors on the number of sweeps that add to the rise, in the half-space and in the heated
     * layer (fitted to finite differences) */
    const double in_depth = 0.37;
    const double in_layer = 0.85;
    double radius = heat_case->radius;
    double per_feed = 1.0 / heat_case->feed_real;
    double immersed = bite_smaller(heat_case->width, radius);
    double reach = immersed * (2.0 * radius - immersed); /* squared, along the feed */
    /* length of the feed over which heat adds up: it soaks in over vf (vf^2/(4 R sqrt(a)))^(-2/3),
     * and the reach ends it; the squares of their inverses add up */
    double soak = heat_case->feed_rate / (16.0 * radius * radius * heat_case->diffusivity);
    double sweep = sqrt(reach / (1.0 + reach * cbrt(soak * soak)));
    double layer_reach = bite_smaller(2.0 * radius * heat_case->layer, reach);
    bite_wall_sweeps sweeps = {1.0 + in_depth * sweep * per_feed,
                               1.0 + in_layer * sqrt(layer_reach) * per_feed,
                               sqrt(2.0 * radius * heat_case->spring_back) * per_feed};
    return sweeps;
}

/** Those of the floor under the tool. */
BITE_FORMULA bite_wall_sweeps bite_wall_heat_floor_sweeps(const bite_wall_heat_case *heat_case)
{
    bite_wall_sweeps sweeps = {1.0, 1.0,
                               heat_case->spring_back / (heat_case->feed_real * heat_case->dish)};
    return sweeps;
}

/**
 * The rise that these sweeps sustain. Combines the layer and the half-space below it by the sum of
 * their cubes.
 *
 * The rise is E1 R/(e cbrt(x^3 + y^3)), e = k/sqrt(a): x = d/(sqrt(a) (M_l + r N)) of the layer, y
 * = sqrt(pi t)/pulses of the depth; a cooled surface retains over the dwell R = 1/(1 + 0.886 B +
 * 0.242 B^2/(1 + B)) of it, B = h sqrt(a t)/k (fit, 1.8 %). Written here with one denominator.
 */
BITE_FORMULA bite_wall_heat bite_wall_heat_surface(const bite_wall_heat_case *heat_case,
                                                   bite_wall_sweeps sweeps)
{
    double k = heat_case->conductivity;
    double tooth_time = heat_case->feed_real / heat_case->feed_rate;
    double depth = sqrt(heat_case->diffusivity * tooth_time);
    double rub = heat_case->rub_heat;
    double all = sweeps.cuts + sweeps.rubs;
    double of_cuts = bite_wall_heat_root_sum(sweeps.cuts);
    double of_all =
        bite_wall_heat_root_sum(all) - (1.0 - rub) * bite_wall_heat_root_sum(sweeps.rubs);
    double pulses = bite_larger(of_cuts, of_all);
    double layers = sweeps.cuts_in_layer + rub * sweeps.rubs;
    double x = heat_case->layer * pulses;
    double y = sqrt(M_PI) * depth * layers;
    double lost = heat_case->cooling * depth * sqrt(all); /* B k */
    double warmed = heat_case->edge_energy * heat_case->diffusivity * layers * pulses * (k + lost);
    double cooled = (k + 0.886 * lost) * (k + lost) + 0.242 * lost * lost;
    bite_wall_heat heat = {.dwell = all * tooth_time, .cuts = sweeps.cuts, .rubs = sweeps.rubs};
    heat.rise = warmed / (cooled * cbrt(x * x * x + y * y * y));
    return heat;
}

/** The floor under the tool. */
BITE_FORMULA bite_wall_heat bite_wall_heat_floor(const bite_wall_heat_case *heat_case)
{
    return bite_wall_heat_surface(heat_case, bite_wall_heat_floor_sweeps(heat_case));
}

/** Temperature rise, K, of the flash under the edge itself, for information: E1/(rho c (d^1.8 +
 * (sqrt(pi a l/v)/2)^1.8)^(1/1.8)), within 6 % of the solution for the layer. contact: l_f/v, s. */
BITE_FORMULA double bite_wall_heat_flash(double edge_energy, double layer, double volumetric,
                                         double diffusivity, double contact)
{
    /* ((spread/d)^2)^0.9; both to the power of 1.8 would need two powers more */
    double spread = 0.25 * M_PI * diffusivity * contact / (layer * layer);
    double sum = 1.0 + exp(0.9 * log(spread));
    return edge_energy / (volumetric * layer * exp(log(sum) * (1.0 / 1.8)));
}

#endif
