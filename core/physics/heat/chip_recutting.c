/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Temperature rise of chips that are cut again in a packed flute. */
#include "core/physics/heat/chip_recutting.h"
#include <math.h>

double bite_recutting_rise(const bite_recutting_case *recutting)
{
    double square = recutting->packing * recutting->packing;
    double cooled = 1.0 + 2.0 * recutting->cooling /
                              (recutting->volumetric * recutting->chip * recutting->turns);
    double rise = recutting->rise * (1.0 + recutting->again * square * square / cooled);
    double gamma = recutting->warming;
    return gamma > 0.0 && rise > 0.0 ? (sqrt(1.0 + 2.0 * gamma * rise) - 1.0) / gamma : rise;
}
