/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the tool: surface speed, breakage, gross deflection, reach, chatter and wear. */
#include "core/cut/limits_tool.h"
#include "core/cut/block/softening_law.h"
#include "core/cut/chatter_depth.h"
#include "core/cut/gross_deflection.h"
#include "core/cut/physics_inputs.h"
#include <math.h>

BITE_IN_LANES void bite_limit_edge_speed(const bite_block *block, const bite_block_segment *segment,
                                         double *restrict demand, double *restrict capacity)
{
    const double *most = BITE_ROW(block, tool_speed_limit);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->value[BITE_SURFACE_SPEED][k];
        capacity[k] = bite_tool_speed_limit(most[k], segment->engaged[k]);
    }
}

BITE_IN_LANES void bite_limit_tool_break(const bite_block *block, const bite_block_segment *segment,
                                         double *restrict demand, double *restrict capacity)
{
    const double *strength = BITE_ROW(block, tool_strength);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->value[BITE_TOOL_STRESS][k];
        capacity[k] = strength[k];
    }
}

/* Share of its diameter by which a tool may bend (estimate): one that bends by more than a tenth of
 * it no longer behaves as a slender rod on a rigid edge. */
static const double bending_share = 0.1;

BITE_IN_LANES void bite_limit_tool_gross_bend(const bite_block *block,
                                              const bite_block_segment *segment,
                                              double *restrict demand, double *restrict capacity)
{
    const double *diameter = BITE_ROW(block, diameter);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->wall_bend[k];
        capacity[k] = bite_gross_deflection_capacity(diameter[k], bending_share,
                                                     segment->engaged[k] * segment->diameter[k]);
    }
}

bite_why bite_limit_toleranced_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    return bite_is_given(block->tolerance) ? BITE_WHY_TOLERANCE : BITE_WHY_APPLIES;
}

/* The pass must lie within the flutes. */
BITE_FORMULA void reach_of_pass(const bite_block *block, double *restrict demand,
                                double *restrict capacity)
{
    const double *depth = BITE_ROW(block, depth);
    const double *flutes = BITE_ROW(block, flute_length);
    const double *stickout = BITE_ROW(block, stickout);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = depth[k];
        capacity[k] = bite_smaller(flutes[k], stickout[k]);
    }
}

/* A feature must lie within flutes and neck. */
BITE_FORMULA void reach_of_feature(const bite_block *block, double *restrict demand,
                                   double *restrict capacity)
{
    const double *feature = BITE_ROW(block, feature_depth);
    const double *flutes = BITE_ROW(block, flute_length);
    const double *stickout = BITE_ROW(block, stickout);
    const double *length = BITE_ROW(block, neck_length);
    const double *diameter = BITE_ROW(block, neck_diameter);
    double necked = bite_is_given(length) && bite_is_given(diameter) ? 1.0 : 0.0;
    bite_lanes whole;
    bite_lanes deeper;
    BITE_EACH_LANE(k, block)
    {
        double neck = necked * bite_or(length[k], 0.0);
        whole[k] = bite_smaller(flutes[k] + neck, stickout[k]);
        deeper[k] = feature[k] / whole[k] > demand[k] / capacity[k] ? 1.0 : 0.0;
    }
    bite_take_where(block, deeper, feature, demand);
    bite_take_where(block, deeper, whole, capacity);
}

/* A chamfer must lie within the cone, the part below the chamfer included. */
BITE_IN_LANES void bite_limit_reach(const bite_block *block, const bite_block_segment *segment,
                                    double *restrict demand, double *restrict capacity)
{
    const double *below = BITE_ROW(block, tip_below);
    (void)segment;
    reach_of_pass(block, demand, capacity);
    if (block->cut->operation == BITE_CHAMFER) {
        BITE_EACH_LANE(k, block)
        {
            demand[k] += below[k];
        }
    } else if (bite_is_given(BITE_ROW(block, feature_depth))) {
        reach_of_feature(block, demand, capacity);
    }
}

/* Factor on the load that a tooth withstands at this depth: published chip loads are derated to
 * 0.75 and 0.5 at depths of two and three diameters. */
BITE_FORMULA double depth_derating(double depth_share)
{
    return bite_within(1.25 - 0.25 * depth_share, 0.25, 1.0);
}

/* A tooth whose height and root are proportional to D is a short beam: sigma = c f/D, c about 22, f
 * the edge load. Teeth are thinner if there are more of them, and have fewer flaws if they are
 * small: strength ~ D^-0.25. */
BITE_IN_LANES void bite_limit_feed_tooth(const bite_block *block, const bite_block_segment *segment,
                                         double *restrict demand, double *restrict capacity)
{
    const double *strength = BITE_ROW(block, tooth_strength);
    const double *depth = BITE_ROW(block, depth);
    double thinner = pow((double)block->flutes, -0.15);
    /* the teeth of a tap or reamer cut at their tip, however deep the hole is */
    int at_tip = block->cut->operation == BITE_TAP || block->cut->operation == BITE_REAM;
    BITE_EACH_LANE(k, block)
    {
        double diameter = segment->diameter[k];
        double deep = at_tip ? 0.0 : depth[k] / diameter;
        demand[k] = segment->value[BITE_EDGE_LOAD][k];
        capacity[k] =
            strength[k] * diameter * thinner * sqrt(sqrt(6e-3 / diameter)) * depth_derating(deep);
    }
}

/* A cut slightly above the linear limit vibrates but is acceptable: the capacity is several times
 * that limit, unless the modes were measured. */
BITE_FORMULA void fill_chatter(const bite_block *block, const double *restrict stable,
                               double *restrict demand, double *restrict capacity)
{
    int measured = bite_cut_has_measured_modes(block->cut);
    const double *depth = BITE_ROW(block, depth);
    const double *share = BITE_ROW(block, stable_share);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = depth[k];
        capacity[k] = measured ? stable[k] : share[k] * stable[k];
    }
}

BITE_IN_LANES void bite_limit_chatter(const bite_block *block, const bite_block_segment *segment,
                                      double *restrict demand, double *restrict capacity)
{
    fill_chatter(block, segment->value[BITE_STABILITY_DEPTH], demand, capacity);
}

BITE_IN_LANES void bite_limit_chatter_tool(const bite_block *block,
                                           const bite_block_segment *segment,
                                           double *restrict demand, double *restrict capacity)
{
    fill_chatter(block, segment->value[BITE_STABILITY_DEPTH_TOOL], demand, capacity);
}

bite_why bite_limit_chatter_tool_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    return bite_cut_has_measured_modes(block->cut) ? BITE_WHY_MEASURED : BITE_WHY_APPLIES;
}

BITE_IN_LANES void bite_limit_wear(const bite_block *block, const bite_block_segment *segment,
                                   double *restrict demand, double *restrict capacity)
{
    const double *path = BITE_ROW(block, path_length);
    const double *feed = BITE_ROW(block, feed_rate);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = path[k] / feed[k];
        capacity[k] = segment->value[BITE_TOOL_LIFE][k];
    }
}

bite_why bite_limit_wear_omit(const bite_block *block, const bite_block_segment *segment)
{
    return bite_block_is_polymer(block) && !bite_is_given(segment->value[BITE_TOOL_LIFE])
               ? BITE_WHY_DOES_NOT_WEAR
               : BITE_WHY_APPLIES;
}
