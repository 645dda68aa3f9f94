/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depths above which the cuts of a block chatter: the least over the modes of the frame, of the
 * spindle with its holder, and of the tool, each alone; or from measured modes. */
#include "core/cut/block/chatter_block.h"
#include "core/cut/chatter_depth.h"
#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/force/cutting_pressure.h"

/* Rows that the loops over the modes share: the members of bite_direction_root. */
typedef struct root_rows {
    bite_lanes real;
    bite_lanes imaginary;
    bite_lanes phase;
    bite_lanes reach;
    bite_lanes half_cotangent;
} root_rows;

typedef struct mode_rows {
    bite_lanes frequency;
    bite_lanes stiffness;
    bite_lanes damping;
    bite_lanes ceiling;    /* 1/m, of a root at any speed */
    bite_lanes reciprocal; /* 1/m, at this speed */
} mode_rows;

/* The share of the normal force on a cone that acts across the axis is the cosine of its taper. */
BITE_FORMULA void fill_ratio(const bite_block *restrict block,
                             const bite_block_segment *restrict segment, double *restrict ratio)
{
    if (isnan(block->cut->pressure_r)) {
        bite_pressure any = {0};
        double usual = bite_pressure_ratio((double)NAN, &any);
        BITE_EACH_LANE(k, block)
        {
            ratio[k] = usual;
        }
    } else {
        BITE_EACH_LANE(k, block)
        {
            ratio[k] = segment->radial[k] / segment->tangential[k];
        }
    }
    if (block->cut->operation == BITE_CHAMFER) {
        const double *taper = BITE_ROW(block, taper);
        BITE_EACH_LANE(k, block)
        {
            ratio[k] *= cos(taper[k]);
        }
    }
}

BITE_FORMULA void put_root(root_rows *restrict rows, int k, bite_direction_root root)
{
    rows->real[k] = root.real;
    rows->imaginary[k] = root.imaginary;
    rows->phase[k] = root.phase;
    rows->reach[k] = root.reach;
    rows->half_cotangent[k] = root.half_cotangent;
}

BITE_FORMULA bite_direction_root root_of(const root_rows *restrict rows, int k)
{
    bite_direction_root root = {rows->real[k], rows->imaginary[k], rows->phase[k], rows->reach[k],
                                rows->half_cotangent[k]};
    return root;
}

BITE_FORMULA void fill_roots(const bite_block *restrict block,
                             const bite_block_segment *restrict segment,
                             const double *restrict ratio, root_rows *restrict first,
                             root_rows *restrict second)
{
    BITE_EACH_LANE(k, block)
    {
        bite_arc arc = {segment->enter[k], segment->leave[k], 0.0};
        bite_direction_root roots[2];
        bite_mode_roots(arc, ratio[k], roots);
        put_root(first, k, roots[0]);
        put_root(second, k, roots[1]);
    }
}

BITE_FORMULA bite_vibration_mode mode_of(const mode_rows *restrict modes, int k)
{
    bite_vibration_mode mode = {modes->frequency[k], modes->stiffness[k], modes->damping[k]};
    return mode;
}

BITE_FORMULA bite_excitation excitation_of(const bite_block *restrict block,
                                           const bite_block_segment *restrict segment, int k)
{
    bite_excitation excitation = {
        .teeth = (double)block->flutes,
        .speed = BITE_ROW(block, spindle_speed)[k],
        .tangential = segment->tangential[k],
        .span = segment->leave[k] - segment->enter[k],
        .surface_speed = segment->value[BITE_SURFACE_SPEED][k],
        .edge_radius = BITE_ROW(block, edge_radius)[k] * BITE_ROW(block, edge_wear)[k],
    };
    return excitation;
}

BITE_FORMULA void fill_ceiling(const bite_block *restrict block,
                               const bite_block_segment *restrict segment,
                               const root_rows *restrict rows, const mode_rows *restrict modes,
                               double *restrict ceiling)
{
    BITE_EACH_LANE(k, block)
    {
        bite_direction_root root = root_of(rows, k);
        bite_vibration_mode mode = mode_of(modes, k);
        bite_excitation excitation = excitation_of(block, segment, k);
        ceiling[k] = bite_mode_root_ceiling(&root, &mode, &excitation);
    }
}

BITE_FORMULA void raise_by_root(const bite_block *restrict block,
                                const bite_block_segment *restrict segment,
                                const root_rows *restrict rows, const mode_rows *restrict modes,
                                double *restrict reciprocal)
{
    BITE_EACH_LANE(k, block)
    {
        bite_direction_root root = root_of(rows, k);
        bite_vibration_mode mode = mode_of(modes, k);
        bite_excitation excitation = excitation_of(block, segment, k);
        double found = bite_mode_root_reciprocal(&root, &mode, &excitation);
        reciprocal[k] = bite_larger(found, reciprocal[k]);
    }
}

/* Lowers the depth to that of a mode, if that is less. */
BITE_FORMULA void lower_by_mode(const bite_block *restrict block,
                                const bite_block_segment *restrict segment,
                                const mode_rows *restrict modes, double *restrict depth)
{
    BITE_EACH_LANE(k, block)
    {
        bite_vibration_mode mode = mode_of(modes, k);
        bite_excitation excitation = excitation_of(block, segment, k);
        double plain = 1.0 / modes->reciprocal[k];
        depth[k] = bite_smaller(bite_mode_damped_depth(plain, &mode, &excitation), depth[k]);
    }
}

/* Whether a mode or a root may matter in some lane: it does not where its ceiling is not above the
 * reciprocal of another one, by more than rounding. */
BITE_FORMULA int is_above(const bite_block *restrict block, const double *restrict ceiling,
                          const double *restrict reciprocal)
{
    double above = 0.0;
    BITE_EACH_LANE(k, block)
    {
        above = ceiling[k] * (1.0 + 1e-9) >= reciprocal[k] ? 1.0 : above;
    }
    return above > 0.0;
}

BITE_FORMULA void tool_modes(const bite_block *restrict block,
                             const bite_block_segment *restrict segment, mode_rows *restrict modes)
{
    const double *share = BITE_ROW(block, tool_frequency_share);
    const double *damping = BITE_ROW(block, tool_damping);
    BITE_EACH_LANE(k, block)
    {
        modes->frequency[k] = share[k] * segment->tool_frequency[k];
        modes->stiffness[k] = 1.0 / segment->tool_compliance[k];
        modes->damping[k] = damping[k];
    }
}

/* Frame and spindle: stiffness and frequency of a class of machines. */
BITE_FORMULA void machine_modes(const bite_block *restrict block, int frame,
                                mode_rows *restrict modes)
{
    const double *share = BITE_ROW(block, frame_share);
    const double *stiffness = BITE_ROW(block, machine_stiffness);
    const double *frequency =
        frame ? BITE_ROW(block, frame_frequency) : BITE_ROW(block, spindle_frequency);
    const double *damping =
        frame ? BITE_ROW(block, frame_damping) : BITE_ROW(block, spindle_damping);
    BITE_EACH_LANE(k, block)
    {
        double own = frame ? share[k] : 1.0 - share[k];
        modes->frequency[k] = frequency[k];
        modes->stiffness[k] = stiffness[k] / own;
        modes->damping[k] = damping[k];
    }
}

/* Fills the reciprocal of a mode: the second root seldom matters. */
BITE_FORMULA void fill_reciprocal(const bite_block *restrict block,
                                  const bite_block_segment *restrict segment,
                                  const root_rows *restrict roots, mode_rows *restrict modes)
{
    BITE_EACH_LANE(k, block)
    {
        modes->reciprocal[k] = 0.0;
    }
    for (int i = 0; i < 2; i++) {
        if (i > 0) {
            fill_ceiling(block, segment, &roots[i], modes, modes->ceiling);
        }
        if (i == 0 || is_above(block, modes->ceiling, modes->reciprocal)) {
            raise_by_root(block, segment, &roots[i], modes, modes->reciprocal);
        }
    }
}

/* A mode is left out if no cut of the block can chatter on it at less depth than on those before
 * it: mostly frame and spindle of slender tools. */
BITE_IN_LANES static void fill_unmeasured(const bite_block *restrict block,
                                          bite_block_segment *restrict segment)
{
    root_rows roots[2];
    mode_rows modes;
    bite_lanes ratio;
    bite_lanes depth;
    bite_lanes reached; /* 1/depth */
    double *of_tool = segment->value[BITE_STABILITY_DEPTH_TOOL];
    double *of_all = segment->value[BITE_STABILITY_DEPTH];
    fill_ratio(block, segment, ratio);
    fill_roots(block, segment, ratio, &roots[0], &roots[1]);
    BITE_EACH_LANE(k, block)
    {
        depth[k] = (double)INFINITY;
        reached[k] = 0.0;
    }
    for (int mode = 0; mode < 3; mode++) {
        if (mode == 0) {
            tool_modes(block, segment, &modes);
        } else {
            machine_modes(block, mode == 2, &modes);
        }
        fill_ceiling(block, segment, &roots[0], &modes, modes.ceiling);
        if (is_above(block, modes.ceiling, reached)) {
            fill_reciprocal(block, segment, roots, &modes);
            lower_by_mode(block, segment, &modes, depth);
        }
        BITE_EACH_LANE(k, block)
        {
            reached[k] = 1.0 / depth[k];
        }
        if (mode == 0) {
            BITE_EACH_LANE(k, block)
            {
                of_tool[k] = depth[k];
            }
        }
    }
    BITE_EACH_LANE(k, block)
    {
        of_all[k] = depth[k];
    }
}

/* Lane by lane: the searches of different cuts take different ways. Measured modes may differ from
 * lane to lane, and their number may not. */
static void fill_measured(const bite_block *restrict block, bite_light_cut_room *room,
                          bite_block_segment *restrict segment)
{
    bite_lanes ratio;
    fill_ratio(block, segment, ratio);
    for (int k = 0; k < block->count; k++) {
        bite_cut cut = *block->cut;
        bite_arc arc = {segment->enter[k], segment->leave[k], 0.0};
        cut.machine_stiffness = BITE_ROW(block, machine_stiffness)[k];
        cut.mode_frequency = BITE_ROW(block, mode_frequency)[k];
        cut.mode_stiffness = BITE_ROW(block, mode_stiffness)[k];
        cut.mode_damping = BITE_ROW(block, mode_damping)[k];
        cut.mode2_frequency = BITE_ROW(block, mode2_frequency)[k];
        cut.mode2_stiffness = BITE_ROW(block, mode2_stiffness)[k];
        cut.mode2_damping = BITE_ROW(block, mode2_damping)[k];
        cut.mode3_frequency = BITE_ROW(block, mode3_frequency)[k];
        cut.mode3_stiffness = BITE_ROW(block, mode3_stiffness)[k];
        cut.mode3_damping = BITE_ROW(block, mode3_damping)[k];
        segment->value[BITE_STABILITY_DEPTH][k] = bite_measured_depth(
            &cut, arc, segment->tangential[k], ratio[k], BITE_ROW(block, spindle_speed)[k], room);
    }
    for (int k = block->count; k < block->lanes; k++) {
        segment->value[BITE_STABILITY_DEPTH][k] =
            segment->value[BITE_STABILITY_DEPTH][block->count - 1];
    }
}

void bite_block_chatter(const bite_block *restrict block, bite_light_cut_room *room,
                        bite_block_segment *restrict segment)
{
    if (bite_cut_has_measured_modes(block->cut)) {
        fill_measured(block, room, segment);
    } else {
        fill_unmeasured(block, segment);
    }
}
