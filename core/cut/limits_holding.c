/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of a part on tape, glue or vacuum: force and heat on the bond. */
#include "core/cut/limits_holding.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/holding/bond.h"
#include <math.h>

/* Numbers of a cut on which its bond depends, as they are in bite_cut. */
typedef struct bonded_cut {
    double depth;
    double feature_depth;
    double floor_thickness;
    double part_thickness;
    double flutes;
    double modulus;
    double room_temperature;
    double bond_area;
    double bond_width;
    double bond_shear;
    double bond_pull;
    double bond_exponent;
    double bond_halving;
    double bond_modulus;
    double bond_thickness;
    double bond_temperature;
    double bond_force;
    double bond_adhesion;
    double load_time;
} bonded_cut;

/* Share of the time in which a tooth cuts; the lips of a drill always do. */
BITE_FORMULA double share_in_cut(const bonded_cut *cut, int drills, double engagement)
{
    double share = bite_smaller(cut->flutes * engagement / (2.0 * M_PI), 1.0);
    return drills ? 1.0 : share;
}

BITE_FORMULA double bond_temperature(const bonded_cut *cut, double part_temperature)
{
    return bite_or(cut->bond_temperature, bite_or(part_temperature, cut->room_temperature));
}

/* Height of the side force above the bond: the top of the feature. */
BITE_FORMULA double height_of(const bonded_cut *cut)
{
    return bite_or(cut->floor_thickness, 0.0) + bite_larger(cut->feature_depth, cut->depth);
}

/* If neither the floor nor the part's thickness is known, the part is taken as rigid. */
BITE_FORMULA double cleavage_length(const bonded_cut *cut)
{
    int on_floor = cut->floor_thickness == cut->floor_thickness;
    double thick = on_floor ? height_of(cut) : cut->part_thickness;
    double length =
        bite_bond_cleavage_length(thick, cut->modulus, cut->bond_modulus, cut->bond_thickness);
    return thick == thick ? length : (double)INFINITY;
}

BITE_FORMULA bite_hold_state hold(const bonded_cut *cut, int drills, const bite_hold_action *action)
{
    double exponent = bite_or(cut->bond_exponent, 0.0);
    double side = bite_or(cut->bond_width, sqrt(cut->bond_area));
    double other = cut->bond_area / side;
    /* the lever of tilt is the shorter side, because the force may come from any direction; that of
     * twist is half of the longer */
    double along = bite_smaller(side, other);
    double across = bite_larger(side, other);
    double steady = bite_bond_steady_share(exponent, share_in_cut(cut, drills, action->engagement));
    bite_workholding_load load = {
        bite_bond_force(action->side_mean, action->side_peak, steady, cut->bond_force),
        cut->bond_force * action->lift_peak, height_of(cut), 0.5 * across};
    double left = cut->bond_adhesion *
                  bite_bond_strength_left(exponent, cut->load_time, cut->bond_halving,
                                          bond_temperature(cut, action->part_temperature));
    bite_hold_state state;
    state.stress = bite_workholding_stresses(along, across, &load, cleavage_length(cut));
    state.shear = left * cut->bond_shear;
    state.pull = left * cut->bond_pull;
    state.utilization = bite_workholding_use(&state.stress, state.shear, state.pull);
    return state;
}

bite_hold_state bite_cut_hold(const bite_cut *full, const bite_hold_action *action)
{
    bonded_cut cut = {
        .depth = full->depth,
        .feature_depth = full->feature_depth,
        .floor_thickness = full->floor_thickness,
        .part_thickness = full->part_thickness,
        .flutes = full->flutes,
        .modulus = full->modulus,
        .room_temperature = full->room_temperature,
        .bond_area = full->bond_area,
        .bond_width = full->bond_width,
        .bond_shear = full->bond_shear,
        .bond_pull = full->bond_pull,
        .bond_exponent = full->bond_exponent,
        .bond_halving = full->bond_halving,
        .bond_modulus = full->bond_modulus,
        .bond_thickness = full->bond_thickness,
        .bond_temperature = full->bond_temperature,
        .bond_force = full->bond_force,
        .bond_adhesion = full->bond_adhesion,
        .load_time = full->load_time,
    };
    return hold(&cut, bite_cut_is_axial(full), action);
}

BITE_FORMULA bonded_cut bonded_lane(const bite_block *block, int k)
{
    bonded_cut cut = {
        .depth = BITE_ROW(block, depth)[k],
        .feature_depth = BITE_ROW(block, feature_depth)[k],
        .floor_thickness = BITE_ROW(block, floor_thickness)[k],
        .part_thickness = BITE_ROW(block, part_thickness)[k],
        .flutes = BITE_ROW(block, flutes)[k],
        .modulus = BITE_ROW(block, modulus)[k],
        .room_temperature = BITE_ROW(block, room_temperature)[k],
        .bond_area = BITE_ROW(block, bond_area)[k],
        .bond_width = BITE_ROW(block, bond_width)[k],
        .bond_shear = BITE_ROW(block, bond_shear)[k],
        .bond_pull = BITE_ROW(block, bond_pull)[k],
        .bond_exponent = BITE_ROW(block, bond_exponent)[k],
        .bond_halving = BITE_ROW(block, bond_halving)[k],
        .bond_modulus = BITE_ROW(block, bond_modulus)[k],
        .bond_thickness = BITE_ROW(block, bond_thickness)[k],
        .bond_temperature = BITE_ROW(block, bond_temperature)[k],
        .bond_force = BITE_ROW(block, bond_force)[k],
        .bond_adhesion = BITE_ROW(block, bond_adhesion)[k],
        .load_time = BITE_ROW(block, load_time)[k],
    };
    return cut;
}

BITE_IN_LANES void bite_limit_hold(const bite_block *block, const bite_block_segment *segment,
                                   double *restrict demand, double *restrict capacity)
{
    int drills = bite_cut_is_axial(block->cut);
    BITE_EACH_LANE(k, block)
    {
        bonded_cut cut = bonded_lane(block, k);
        bite_hold_action action = {
            segment->value[BITE_FORCE_SIDE_MEAN][k], segment->value[BITE_FORCE_SIDE_PEAK][k],
            segment->value[BITE_FORCE_LIFT_PEAK][k], segment->value[BITE_ENGAGEMENT][k],
            segment->value[BITE_PART_TEMPERATURE][k]};
        double use = hold(&cut, drills, &action).utilization;
        /* a peak that is not known is no data, even if the mean is known */
        demand[k] = action.side_peak == action.side_peak ? use : (double)NAN;
        capacity[k] = 1.0;
    }
}

bite_why bite_limit_hold_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    return bite_is_given(BITE_ROW(block, bond_area)) &&
                   bite_is_given(BITE_ROW(block, bond_shear)) &&
                   bite_is_given(BITE_ROW(block, bond_pull))
               ? BITE_WHY_APPLIES
               : BITE_WHY_NOT_GIVEN;
}

BITE_IN_LANES void bite_limit_bond_heat(const bite_block *block, const bite_block_segment *segment,
                                        double *restrict demand, double *restrict capacity)
{
    const double *room = BITE_ROW(block, room_temperature);
    const double *given = BITE_ROW(block, bond_temperature);
    const double *most = BITE_ROW(block, bond_limit);
    BITE_EACH_LANE(k, block)
    {
        /* without a floor there is no path for the heat, and no temperature of the part */
        /* a bond that is colder than the room is not heated */
        demand[k] =
            bite_larger(0.0, bite_or(given[k], segment->value[BITE_PART_TEMPERATURE][k]) - room[k]);
        capacity[k] = most[k] - room[k];
    }
}
