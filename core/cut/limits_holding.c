/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of a bonded part: side force, lift and heat on the bond. */
#include "core/cut/limits_holding.h"
#include <math.h>

void bite_limit_bond_side(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->segment->value[BITE_FORCE_SIDE_PEAK],
                   limit->cut->bond_area * limit->cut->bond_shear);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}

/* The side force acts above the bond and tilts the part: 6 F H/(b L^2) at the edge of a square
 * bond, b = L = sqrt(A). */
void bite_limit_bond_lift(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    const double *value = limit->segment->value;
    double height = cut->depth + (isnan(cut->floor_thickness) ? 0.0 : cut->floor_thickness);
    double lift = value[BITE_FORCE_LIFT_PEAK];
    double tilt = 6.0 * value[BITE_FORCE_SIDE_PEAK] * height / sqrt(cut->bond_area);
    bite_limit_set(limit, (lift > 0.0 ? lift : 0.0) + tilt, cut->bond_area * cut->bond_pull);
    bite_limit_require(limit, value[BITE_FORCE_SIDE_PEAK], BITE_WHY_NO_DATA);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}

void bite_limit_bond_heat(bite_limit_case *limit)
{
    double start = limit->cut->room_temperature;
    bite_limit_set(limit, limit->segment->value[BITE_PART_TEMPERATURE] - start,
                   limit->cut->bond_limit - start);
    /* without a floor there is no path for the heat */
    bite_limit_require(limit, limit->demand, BITE_WHY_NOT_GIVEN);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}
