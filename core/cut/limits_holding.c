/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of a part on tape, glue or vacuum: force and heat on the bond. */
#include "core/cut/limits_holding.h"
#include "core/physics/holding/bond.h"
#include <math.h>

/* Share of the time in which a tooth cuts; the lips of a drill always do. */
static double share_in_cut(const bite_cut *full, double engagement)
{
    return full->operation == BITE_DRILL_HOLE ? 1.0
                                              : fmin(1.0, full->flutes * engagement / (2.0 * M_PI));
}

static double bond_temperature(const bite_cut *full, double part_temperature)
{
    double computed = isnan(part_temperature) ? full->room_temperature : part_temperature;
    return isnan(full->bond_temperature) ? computed : full->bond_temperature;
}

/* Height of the side force above the bond: the top of the feature. */
static double height_of(const bite_cut *full)
{
    double floor = isnan(full->floor_thickness) ? 0.0 : full->floor_thickness;
    return floor + fmax(full->depth, full->feature_depth); /* fmax ignores NaN */
}

/* If neither the floor nor the part's thickness is known, the part is taken as rigid. */
static double cleavage_length(const bite_cut *full)
{
    double thick = isnan(full->floor_thickness) ? full->part_thickness : height_of(full);
    return isnan(thick) ? INFINITY
                        : bite_bond_cleavage_length(thick, full->modulus, full->bond_modulus,
                                                    full->bond_thickness);
}

bite_hold_state bite_cut_hold(const bite_cut *full, const bite_hold_action *action)
{
    double exponent = isnan(full->bond_exponent) ? 0.0 : full->bond_exponent;
    double side = isnan(full->bond_width) ? sqrt(full->bond_area) : full->bond_width;
    double other = full->bond_area / side;
    /* the lever of tilt is the shorter side, because the force may come from any direction; that of
     * twist is half of the longer */
    double along = fmin(side, other);
    double across = fmax(side, other);
    double steady = bite_bond_steady_share(exponent, share_in_cut(full, action->engagement));
    bite_workholding_load load = {
        bite_bond_force(action->side_mean, action->side_peak, steady, full->bond_force),
        full->bond_force * action->lift_peak, height_of(full), 0.5 * across};
    double left = full->bond_adhesion *
                  bite_bond_strength_left(exponent, full->load_time, full->bond_halving,
                                          bond_temperature(full, action->part_temperature));
    bite_hold_state state;
    state.stress = bite_workholding_stresses(along, across, &load, cleavage_length(full));
    state.shear = left * full->bond_shear;
    state.pull = left * full->bond_pull;
    state.utilization = bite_workholding_use(&state.stress, state.shear, state.pull);
    return state;
}

void bite_limit_hold(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    const double *value = limit->segment->value;
    bite_hold_action action = {value[BITE_FORCE_SIDE_MEAN], value[BITE_FORCE_SIDE_PEAK],
                               value[BITE_FORCE_LIFT_PEAK], value[BITE_ENGAGEMENT],
                               value[BITE_PART_TEMPERATURE]};
    bite_limit_set(limit, bite_cut_hold(cut, &action).utilization, 1.0);
    bite_limit_require(limit, value[BITE_FORCE_SIDE_PEAK], BITE_WHY_NO_DATA);
    bite_limit_require(limit, cut->bond_area + cut->bond_shear + cut->bond_pull,
                       BITE_WHY_NOT_GIVEN);
}

void bite_limit_bond_heat(bite_limit_case *limit)
{
    double start = limit->cut->room_temperature;
    double part = limit->segment->value[BITE_PART_TEMPERATURE];
    double given = limit->cut->bond_temperature;
    bite_limit_set(limit, (isnan(given) ? part : given) - start, limit->cut->bond_limit - start);
    /* without a floor there is no path for the heat */
    bite_limit_require(limit, limit->demand, BITE_WHY_NOT_GIVEN);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}
