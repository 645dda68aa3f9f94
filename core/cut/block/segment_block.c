/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All values of one segment, stage by stage: arc, chips, motion, pressure, forces, walls, chatter,
 * heat. */
#include "core/cut/block/segment_block.h"
#include "core/cut/block/chamfer_block.h"
#include "core/cut/block/chatter_block.h"
#include "core/cut/block/corner_block.h"
#include "core/cut/block/drill_block.h"
#include "core/cut/block/groove_block.h"
#include "core/cut/block/heat_block.h"
#include "core/cut/block/load_block.h"
#include "core/cut/block/motion_block.h"
#include "core/cut/block/pressure_block.h"
#include "core/cut/block/ream_block.h"
#include "core/cut/block/tap_block.h"
#include "core/cut/block/tool_block.h"
#include "core/cut/physics_inputs.h"
#include <string.h>

/* The members of a segment are rows, from the first result on. */
BITE_IN_LANES void bite_block_segment_blank(bite_block_segment *segment)
{
    double *restrict rows = &segment->value[0][0];
    const size_t first = offsetof(bite_block_segment, value) / sizeof(double);
    for (size_t i = 0; i < sizeof *segment / sizeof(double) - first; i++) {
        rows[i] = (double)NAN;
    }
}

static void copy_tool(const bite_block_segment *from, bite_block_segment *to)
{
    memcpy(to->compliance, from->compliance, sizeof to->compliance);
    memcpy(to->tool_compliance, from->tool_compliance, sizeof to->tool_compliance);
    memcpy(to->slope, from->slope, sizeof to->slope);
    memcpy(to->load, from->load, sizeof to->load);
    memcpy(to->tool_frequency, from->tool_frequency, sizeof to->tool_frequency);
    memcpy(to->fin_resistance, from->fin_resistance, sizeof to->fin_resistance);
    memcpy(to->fin_air_share, from->fin_air_share, sizeof to->fin_air_share);
}

static void fill_tool(const bite_block *block, const bite_block_segment *tool, int alike,
                      bite_block_segment *segment)
{
    if (tool != NULL) {
        copy_tool(tool, segment);
    } else if (alike) {
        bite_block_tool_alike(block, segment);
    } else {
        bite_block_tool(block, segment);
    }
}

static void fill_square(const bite_block *block, bite_segment_work *work,
                        bite_block_segment *segment)
{
    const double *diameter = BITE_ROW(block, diameter);
    bite_square_tool tool = {diameter,
                             segment->tangential,
                             segment->radial,
                             segment->axial,
                             segment->edge_tangential,
                             segment->edge_radial,
                             segment->edge_axial,
                             segment->slope};
    bite_block_square(block, &tool, &work->chip, segment, &work->form.square, &work->force);
    bite_block_contact(block, &work->chip, diameter, segment);
}

/* A groove is cut as by a square tool of its mean diameter, at the pressure on the inclined edge.
 * The tilt of the tool is left out: its walls are finished under the load at half of the depth. */
static void fill_groove(const bite_block *block, bite_segment_work *work,
                        bite_block_segment *segment)
{
    bite_pressure_lanes *inclined = &work->inclined;
    double *diameter = work->rows[0];
    double *slope = work->rows[1];
    memset(slope, 0, sizeof work->rows[1]);
    bite_block_groove_diameter(block, diameter);
    bite_block_groove_pressure(block, segment, inclined);
    bite_square_tool tool = {diameter,
                             inclined->tangential,
                             inclined->radial,
                             inclined->axial,
                             inclined->edge_tangential,
                             inclined->edge_radial,
                             inclined->edge_axial,
                             slope};
    bite_block_square(block, &tool, &work->chip, segment, &work->form.square, &work->force);
    bite_block_groove_contact(block, &work->chip, diameter, segment);
}

/* The forces of the form of the tool, and the contact of edge and work. */
static void fill_forces(const bite_block *block, const double *inside_radius,
                        bite_segment_work *work, bite_block_segment *segment)
{
    const bite_cut *cut = block->cut;
    if (cut->operation == BITE_DRILL_HOLE) {
        bite_block_drill(block, segment, &work->force);
    } else if (cut->operation == BITE_TAP) {
        bite_block_tap(block, segment, &work->force);
    } else if (cut->operation == BITE_REAM) {
        bite_block_ream(block, segment, &work->force);
    } else if (cut->operation == BITE_CHAMFER) {
        bite_block_chamfer(block, &work->chip, inside_radius, segment, &work->form.strip,
                           &work->force);
    } else if (bite_cut_is_groove(cut)) {
        fill_groove(block, work, segment);
    } else if (cut->corner_radius > 0.0) {
        bite_block_corner_radius(block, &work->chip, segment, &work->form.strip, &work->force);
    } else {
        fill_square(block, work, segment);
    }
}

/* Chips and marks of a tool that is not a square one. */
static void fill_shape(const bite_block *block, const double *inside_radius,
                       bite_segment_work *work, bite_block_segment *segment)
{
    const bite_cut *cut = block->cut;
    if (cut->operation == BITE_CHAMFER) {
        bite_block_cone(block, &work->chip, inside_radius, segment, &work->form.strip);
    } else if (cut->operation == BITE_TAP) {
        bite_block_tap_chips(block, segment);
    } else if (bite_cut_is_groove(cut)) {
        bite_block_groove_shape(block, segment);
    }
}

static void fill_bending(const bite_block *block, bite_segment_work *work,
                         bite_block_segment *segment)
{
    const bite_block_force *force = &work->force;
    double *stress = segment->value[BITE_TOOL_STRESS];
    bite_block_stress(block, force->peak_side, force->peak_torque, stress);
    bite_block_walls(block, force, segment);
    if (bite_cut_is_axial(block->cut)) {
        bite_block_add_thrust(block, BITE_ROW(block, diameter), force->peak_lift, -1.0, stress);
        return;
    }
    bite_block_chatter(block, &work->form.light_cut, segment);
    if (bite_cut_is_groove(block->cut)) {
        bite_block_groove_tip_stress(block, force->peak_side, force->peak_torque, work->rows[0]);
        for (int k = 0; k < block->lanes; k++) {
            stress[k] = bite_larger(work->rows[0][k], stress[k]);
        }
    }
}

static void prepare_chip(const bite_block *block, bite_block_chip *chip)
{
    int alike = bite_block_cuts_alike(block);
    if (chip->hinges.flutes != block->flutes || chip->hinges.alike != alike) {
        bite_block_chip_init(chip, block->flutes, alike);
    }
}

bool bite_block_segment_within(const bite_block *block, const double *inside_radius,
                               const bite_block_segment *tool, bite_segment_work *work,
                               bite_block_segment *segment)
{
    bite_block_segment_blank(segment);
    prepare_chip(block, &work->chip);
    bite_block_arc_sines(block, segment, &work->chip);
    bite_block_chips(block, &work->chip);
    bite_block_motion(block, &work->chip, segment);
    fill_shape(block, inside_radius, work, segment);
    bool pressure = bite_block_pressure(block, segment);
    if (pressure) {
        fill_tool(block, tool, work->tool_alike, segment);
        fill_forces(block, inside_radius, work, segment);
        int inclined = bite_cut_is_groove(block->cut);
        bite_block_loads(block, inclined ? work->inclined.tangential : segment->tangential,
                         inclined ? work->inclined.edge_tangential : segment->edge_tangential,
                         &work->force, segment);
        fill_bending(block, work, segment);
        bite_block_heat(block, segment);
    }
    return pressure;
}

bool bite_block_segment_compute(const bite_block *block, const double *width,
                                const double *inside_radius, const bite_block_segment *tool,
                                bite_segment_work *work, bite_block_segment *segment)
{
    bite_block_arc(block, width, inside_radius, segment);
    return bite_block_segment_within(block, inside_radius, tool, work, segment);
}
