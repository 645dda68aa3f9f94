/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Speeds, chips, packing and surface finish of a block. */
#include "core/cut/block/motion_block.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/force/chamfer_cone.h"
#include "core/physics/force/v_groove.h"
#include "core/physics/geometry/kinematics.h"
#include "core/physics/geometry/surface_finish.h"

/* End teeth are dished by about two degrees (memory). */
#define DISH 0.034906585039886591

/* ---- diameter and width ---- */

BITE_IN_LANES static void fill_plain(const bite_block *restrict block, double *restrict diameter)
{
    const double *restrict tool = BITE_ROW(block, diameter);
    BITE_EACH_LANE(k, block)
    {
        diameter[k] = tool[k];
    }
}

/* Of a cone: width of the cut, and diameter at the surface. */
BITE_IN_LANES static void fill_cone(const bite_block *restrict block, double below,
                                    double *restrict diameter, double *restrict width)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict taper = BITE_ROW(block, taper);
    const double *restrict tip = BITE_ROW(block, tip_diameter);
    const double *restrict tip_below = BITE_ROW(block, tip_below);
    BITE_EACH_LANE(k, block)
    {
        double slope = tan(taper[k]);
        double under = below > 0.0 ? tip_below[k] : 0.0;
        width[k] = depth[k] * slope;
        diameter[k] = tip[k] + 2.0 * (under + depth[k]) * slope;
    }
}

BITE_IN_LANES static void fill_width(const bite_block *restrict block,
                                     const double *restrict diameter, double *restrict width)
{
    const double *restrict given = BITE_ROW(block, width);
    BITE_EACH_LANE(k, block)
    {
        width[k] = bite_smaller(given[k], diameter[k]); /* the diameter if none was given */
    }
}

BITE_IN_LANES static void fill_whole(const bite_block *restrict block,
                                     const double *restrict diameter, double *restrict width)
{
    BITE_EACH_LANE(k, block)
    {
        width[k] = diameter[k];
    }
}

void bite_block_size(const bite_block *block, bite_block_segment *segment, double *width)
{
    const bite_cut *cut = block->cut;
    if (cut->operation == BITE_CHAMFER) {
        fill_cone(block, 1.0, segment->diameter, width);
    } else if (bite_cut_is_groove(cut)) {
        fill_cone(block, 0.0, segment->diameter, width);
        fill_whole(block, segment->diameter, width);
    } else {
        fill_plain(block, segment->diameter);
        if (bite_cut_is_axial(cut)) {
            fill_whole(block, segment->diameter, width);
        } else {
            fill_width(block, segment->diameter, width);
        }
    }
}

/* ---- motion ---- */

BITE_IN_LANES static void fill_motion(const bite_block *restrict block,
                                      const bite_block_chip *restrict chip,
                                      bite_block_segment *restrict segment)
{
    double flutes = (double)block->flutes;
    double step = bite_chip_step_share(block->flutes);
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict corner = BITE_ROW(block, corner_radius);
    const double *restrict runout = BITE_ROW(block, runout);
    const double *restrict minimum_chip = BITE_ROW(block, minimum_chip);
    const double *restrict edge_radius = BITE_ROW(block, edge_radius);
    const double *restrict edge_wear = BITE_ROW(block, edge_wear);
    BITE_EACH_LANE(k, block)
    {
        double feed = chip->feed[k];
        double diameter = segment->diameter[k];
        double span = chip->leave.at[k] - chip->enter.at[k];
        double cosine = chip->enter.cosine[k] * chip->leave.cosine[k] +
                        chip->enter.sine[k] * chip->leave.sine[k]; /* of the span */
        double width = 0.5 * diameter * (1.0 - cosine);
        double effective = bite_kinematics_effective_diameter(diameter, corner[k], depth[k]);
        double most = bite_engagement_sine_most_of(chip->enter.at[k], chip->leave.at[k],
                                                   chip->enter.sine[k], chip->leave.sine[k]);
        double dulled = edge_radius[k] * edge_wear[k];
        segment->edge_radius[k] = dulled;
        segment->value[BITE_SURFACE_SPEED][k] = bite_kinematics_surface_speed(effective, speed[k]);
        segment->value[BITE_SPINDLE_SPEED][k] = speed[k];
        segment->value[BITE_FEED_RATE][k] = feed_rate[k];
        segment->value[BITE_CHIP_LOAD][k] = feed;
        segment->value[BITE_CHIP_LOAD_HEAVY][k] = bite_chip_heavy(feed, flutes, step * runout[k]);
        segment->value[BITE_CHIP_LOAD_LIGHT][k] = bite_chip_light(feed, step * runout[k]);
        segment->value[BITE_CHIP_THICKNESS_MAX][k] = feed * most;
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] =
            feed * (chip->enter.cosine[k] - chip->leave.cosine[k]) / span;
        segment->value[BITE_CHIP_THICKNESS_LEAST][k] = minimum_chip[k] * dulled;
        segment->value[BITE_ENGAGEMENT][k] = span;
        segment->value[BITE_REMOVAL_RATE][k] =
            bite_kinematics_removal_rate(depth[k], width, feed_rate[k]);
        segment->heavy_chip[k] = chip->most[k];
        segment->thin_chip[k] = 0.0;
        segment->engaged[k] = width / diameter;
    }
}

/* Taylor tool life, s, from the speed at which the edge lasts a minute. */
BITE_IN_LANES static void fill_life(const bite_block *restrict block,
                                    const double *restrict surface_speed, double *restrict life)
{
    const double *restrict taylor_speed = BITE_ROW(block, taylor_speed);
    const double *restrict exponent = BITE_ROW(block, taylor_exponent);
    BITE_EACH_LANE(k, block)
    {
        life[k] = 60.0 * pow(taylor_speed[k] / surface_speed[k], 1.0 / exponent[k]);
    }
}

/* ---- finish ---- */

BITE_IN_LANES static void fill_finish(const bite_block *restrict block,
                                      bite_block_segment *restrict segment)
{
    const double *restrict diameter = BITE_ROW(block, diameter);
    const double *restrict corner = BITE_ROW(block, corner_radius);
    BITE_EACH_LANE(k, block)
    {
        /* with runout the heavy tooth finishes the surface, with marks at its own feed */
        double feed = segment->value[BITE_CHIP_LOAD_HEAVY][k];
        segment->value[BITE_ROUGHNESS_WALL][k] = bite_finish_wall(feed, diameter[k]);
        segment->value[BITE_ROUGHNESS_FLOOR][k] = bite_finish_floor(feed, corner[k], DISH);
    }
}

BITE_IN_LANES static void fill_haze(const bite_block *restrict block,
                                    const double *restrict roughness, double *restrict haze)
{
    const double *restrict refraction = BITE_ROW(block, refraction);
    BITE_EACH_LANE(k, block)
    {
        haze[k] = bite_finish_haze(roughness[k], refraction[k]);
    }
}

/* ---- packing ---- */

/* The flutes of a drill lift chips that would stay in a slot: a peck may be this many times deeper
 * (estimate: pecks of three diameters are common practice). */
#define DRILL_PACKING_SHARE 3.0

/* Share of a tool's section that all the pockets of its teeth have together, by flutes (memory:
 * sections of makers' end mills). */
static const double pocket_shares[] = {0.46, 0.46, 0.44, 0.39, 0.36};

/* Chips have no exit from a slot; a side cut throws them out (estimate: fitted to public reports).
 */
BITE_FORMULA double packing_share(double engaged)
{
    return bite_within(0.15 + 0.85 * (engaged - 0.3) / 0.7, 0.15, 1.0);
}

/* pocket: volume of a tooth's chips / volume of its pocket: chip_bulk times the section that one
 * tooth removes, fz ae, times z, over the share of the section that the pockets have. */
BITE_IN_LANES static void fill_packing(const bite_block *restrict block, double pockets,
                                       bite_block_segment *restrict segment)
{
    double flutes = (double)block->flutes;
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict bulk = BITE_ROW(block, chip_bulk);
    BITE_EACH_LANE(k, block)
    {
        double diameter = segment->diameter[k];
        double engaged = segment->engaged[k];
        segment->packing[k] = depth[k] / diameter * packing_share(engaged);
        segment->pocket[k] = bulk[k] * segment->value[BITE_CHIP_LOAD][k] * engaged * flutes /
                             (pockets * 0.25 * M_PI * diameter);
    }
}

/* A tap fills its hole with little more than chips of thread: a spiral flute lifts them out of a
 * blind hole, a spiral point pushes them ahead of it out of a through hole (estimate: threads of
 * two diameters in blind holes and three in through holes are common practice in dry aluminium). */
#define TAP_BLIND_SHARE 6.0
#define TAP_THROUGH_SHARE 9.0

BITE_IN_LANES static void fill_tap_packing(const bite_block *restrict block,
                                           double *restrict packing)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict diameter = BITE_ROW(block, diameter);
    double share = block->cut->blind == 1 ? TAP_BLIND_SHARE : TAP_THROUGH_SHARE;
    BITE_EACH_LANE(k, block)
    {
        packing[k] = depth[k] / diameter[k] / share;
    }
}

/* A reamer as a drill, whose flutes are shallower but have only the stock to carry (estimate). */
#define REAMER_POCKETS 0.3

BITE_IN_LANES static void fill_ream_packing(const bite_block *restrict block,
                                            double *restrict packing)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict diameter = BITE_ROW(block, diameter);
    const double *restrict hole = BITE_ROW(block, hole_diameter);
    BITE_EACH_LANE(k, block)
    {
        double left = hole[k] / diameter[k];
        packing[k] =
            depth[k] / diameter[k] * (1.0 - left * left) / (REAMER_POCKETS * DRILL_PACKING_SHARE);
    }
}

BITE_IN_LANES static void fill_drill_packing(const bite_block *restrict block,
                                             double *restrict packing)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict diameter = BITE_ROW(block, diameter);
    BITE_EACH_LANE(k, block)
    {
        packing[k] = depth[k] / diameter[k] / DRILL_PACKING_SHARE;
    }
}

void bite_block_motion(const bite_block *block, const bite_block_chip *chip,
                       bite_block_segment *segment)
{
    const bite_cut *cut = block->cut;
    double(*value)[BITE_LANES] = segment->value;
    fill_motion(block, chip, segment);
    if (!isnan(cut->taylor_speed) && !isnan(cut->taylor_exponent)) {
        fill_life(block, value[BITE_SURFACE_SPEED], value[BITE_TOOL_LIFE]);
    }
    fill_finish(block, segment);
    if (!isnan(cut->refraction)) {
        fill_haze(block, value[BITE_ROUGHNESS_FLOOR], value[BITE_HAZE]);
    }
    int flutes = block->flutes > 5 ? 5 : block->flutes;
    fill_packing(block, pocket_shares[flutes - 1], segment);
    if (cut->operation == BITE_DRILL_HOLE) {
        fill_drill_packing(block, segment->packing);
    } else if (cut->operation == BITE_TAP) {
        fill_tap_packing(block, segment->packing);
    } else if (cut->operation == BITE_REAM) {
        fill_ream_packing(block, segment->packing);
    }
}
