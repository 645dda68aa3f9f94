/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depths above which the cuts of a block chatter: the least over the modes of the frame, of the
 * spindle with its holder, and of the tool, each alone; or from measured modes. */
#include "core/cut/block/chatter_block.h"
#include "core/cut/chatter_depth.h"
#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/force/cutting_pressure.h"

/* Rows that the loops over the modes share. */
typedef struct direction_rows {
    bite_lanes ratio; /* radial/tangential, across the axis */
    bite_lanes real[2];
    bite_lanes imaginary[2];
    bite_lanes phase[2];
    bite_lanes half_cotangent[2];
} direction_rows;

typedef struct mode_rows {
    bite_lanes frequency;
    bite_lanes stiffness;
    bite_lanes damping;
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

BITE_FORMULA void fill_roots(const bite_block *restrict block,
                             const bite_block_segment *restrict segment,
                             direction_rows *restrict rows)
{
    BITE_EACH_LANE(k, block)
    {
        bite_arc arc = {segment->enter[k], segment->leave[k], 0.0};
        bite_direction_root roots[2];
        bite_mode_roots(arc, rows->ratio[k], roots);
        rows->real[0][k] = roots[0].real;
        rows->real[1][k] = roots[1].real;
        rows->imaginary[0][k] = roots[0].imaginary;
        rows->imaginary[1][k] = roots[1].imaginary;
        rows->phase[0][k] = roots[0].phase;
        rows->phase[1][k] = roots[1].phase;
        rows->half_cotangent[0][k] = roots[0].half_cotangent;
        rows->half_cotangent[1][k] = roots[1].half_cotangent;
    }
}

/* Lowers the depth to that of a mode, if that is less. */
BITE_FORMULA void lower_by_mode(const bite_block *restrict block,
                                const bite_block_segment *restrict segment,
                                const direction_rows *restrict rows,
                                const mode_rows *restrict modes, double *restrict depth)
{
    const double *speed = BITE_ROW(block, spindle_speed);
    const double *radius = BITE_ROW(block, edge_radius);
    const double *wear = BITE_ROW(block, edge_wear);
    const double *surface = segment->value[BITE_SURFACE_SPEED];
    double teeth = (double)block->flutes;
    BITE_EACH_LANE(k, block)
    {
        bite_direction_root roots[2] = {{rows->real[0][k], rows->imaginary[0][k], rows->phase[0][k],
                                         rows->half_cotangent[0][k]},
                                        {rows->real[1][k], rows->imaginary[1][k], rows->phase[1][k],
                                         rows->half_cotangent[1][k]}};
        bite_vibration_mode mode = {modes->frequency[k], modes->stiffness[k], modes->damping[k]};
        bite_excitation excitation = {
            .teeth = teeth,
            .speed = speed[k],
            .tangential = segment->tangential[k],
            .span = segment->leave[k] - segment->enter[k],
            .surface_speed = surface[k],
            .edge_radius = radius[k] * wear[k],
        };
        double found =
            bite_mode_damped_depth(bite_mode_depth(roots, &mode, &excitation), &mode, &excitation);
        depth[k] = bite_smaller(found, depth[k]);
    }
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

BITE_IN_LANES static void fill_unmeasured(const bite_block *restrict block,
                                          bite_block_segment *restrict segment)
{
    direction_rows rows;
    mode_rows modes;
    bite_lanes depth;
    double *of_tool = segment->value[BITE_STABILITY_DEPTH_TOOL];
    double *of_all = segment->value[BITE_STABILITY_DEPTH];
    fill_ratio(block, segment, rows.ratio);
    fill_roots(block, segment, &rows);
    BITE_EACH_LANE(k, block)
    {
        depth[k] = (double)INFINITY;
    }
    for (int mode = 0; mode < 3; mode++) {
        if (mode == 0) {
            tool_modes(block, segment, &modes);
        } else {
            machine_modes(block, mode == 2, &modes);
        }
        lower_by_mode(block, segment, &rows, &modes, depth);
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
    direction_rows rows;
    fill_ratio(block, segment, rows.ratio);
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
        segment->value[BITE_STABILITY_DEPTH][k] =
            bite_measured_depth(&cut, arc, segment->tangential[k], rows.ratio[k],
                                BITE_ROW(block, spindle_speed)[k], room);
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
