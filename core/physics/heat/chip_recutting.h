/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Temperature rise of chips that are cut again in a packed flute. */
#ifndef BITE_PHYSICS_HEAT_CHIP_RECUTTING_H
#define BITE_PHYSICS_HEAT_CHIP_RECUTTING_H

#include "core/base/lane_math.h"

typedef struct bite_recutting_case {
    double rise;       /* K, mean rise of a chip that is cut once */
    double packing;    /* p: utilization of the flutes' capacity for chips */
    double again;      /* kappa: share of the cutting work that recutting adds at p = 1 */
    double cooling;    /* W/(m2 K), on each face of a chip */
    double chip;       /* m, its thickness before the cut */
    double turns;      /* n, 1/s: a chip stays in the flute for one turn */
    double volumetric; /* rho c, J/(m3 K) */
    double warming;    /* gamma, 1/K: growth of the heat capacity with temperature */
} bite_recutting_case;

/** Mean rise, K, of such chips: theta1 = theta (1 + kappa p^4/(1 + 2 h/(rho c h_c n))), then
 * (sqrt(1 + 2 gamma theta1) - 1)/gamma. kappa and the power of p are fitted to public reports. */
BITE_FORMULA double bite_recutting_rise(const bite_recutting_case *recutting)
{
    double square = recutting->packing * recutting->packing;
    double cooled = 1.0 + 2.0 * recutting->cooling /
                              (recutting->volumetric * recutting->chip * recutting->turns);
    double rise = recutting->rise * (1.0 + recutting->again * square * square / cooled);
    /* (sqrt(1 + 2 gamma theta) - 1)/gamma without its difference, which also holds at gamma = 0 */
    double warmed = 2.0 * rise / (1.0 + sqrt(1.0 + 2.0 * recutting->warming * rise));
    double of_hot = rise > 0.0 ? warmed : rise;
    return recutting->warming > 0.0 ? of_hot : rise;
}

#endif
