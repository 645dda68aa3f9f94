/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Blocks of cuts for tests of the stages. */
#include "tests/support/test_blocks.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/geometry/kinematics.h"
#include "tests/support/support.h"
#include "tests/support/test_engagement.h"
#include <math.h>
#include <string.h>

/* The radial width at the upper end. */
static double width_of(const bite_cut *full)
{
    return full->operation == BITE_CHAMFER ? full->depth * tan(full->taper)
           : isnan(full->width)            ? bite_cutting_diameter(full)
                                           : full->width;
}

static double inside_of(const bite_cut *full)
{
    return full->operation == BITE_CHAMFER ? full->inside_radius + width_of(full)
                                           : full->inside_radius;
}

bite_arc bite_test_arc(const bite_cut *full)
{
    double diameter = bite_cutting_diameter(full);
    double width = width_of(full);
    bite_side side = (bite_side)full->side;
    return isnan(full->inside_radius)
               ? bite_engagement_straight(diameter, width, side)
               : bite_engagement_corner(diameter, width, side, inside_of(full));
}

static void fill_lane(bite_test_block *to, const bite_cut *full, int k)
{
    const double *numbers = &full->spindle_speed;
    bite_block_segment *segment = &to->segment;
    bite_pressure pressure;
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        to->block.number[i][k] = numbers[i];
    }
    bite_tool_body tool = bite_cut_tool_body(full);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    ck_assert(bite_cut_pressure(full, BITE_TEST_SHEAR_TIME, &pressure));
    segment->diameter[k] = bite_cutting_diameter(full);
    segment->edge_radius[k] = bite_cut_edge_radius(full);
    segment->tangential[k] = pressure.tangential;
    segment->radial[k] = pressure.radial;
    segment->axial[k] = pressure.axial;
    segment->edge_tangential[k] = pressure.edge_tangential;
    segment->edge_radial[k] = pressure.edge_radial;
    segment->edge_axial[k] = pressure.edge_axial;
    segment->fracture[k] = pressure.fracture;
    segment->compliance[k] = deflection.compliance;
    segment->slope[k] = deflection.slope;
    segment->load[k] = deflection.load;
    to->inside_radius[k] = inside_of(full);
}

static void fill_values(bite_test_block *to)
{
    bite_block_segment *segment = &to->segment;
    for (int k = 0; k < to->block.lanes; k++) {
        bite_arc arc = {segment->enter[k], segment->leave[k], 0.0};
        double feed = to->chip.feed[k];
        segment->engaged[k] = 0.5 * (1.0 - cos(bite_engagement_span(arc)));
        segment->heavy_chip[k] = to->chip.most[k];
        segment->value[BITE_CHIP_LOAD][k] = feed;
        segment->value[BITE_CHIP_LOAD_HEAVY][k] = bite_chip_heavy(
            feed, to->block.flutes,
            bite_chip_step_share(to->block.flutes) * BITE_ROW(&to->block, runout)[k]);
        segment->value[BITE_CHIP_THICKNESS_MAX][k] = feed * bite_engagement_sine_most(arc);
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] = feed * bite_engagement_sine_mean(arc);
    }
}

void bite_test_block_fill(bite_test_block *to, const bite_cut *cuts, int count)
{
    bite_lanes width;
    memset(to, 0, sizeof *to);
    to->block.cut = &cuts[0];
    to->block.lanes = (count + BITE_LANE_STEP - 1) / BITE_LANE_STEP * BITE_LANE_STEP;
    to->block.flutes = (int)cuts[0].flutes;
    for (int k = 0; k < to->block.lanes; k++) {
        const bite_cut *full = &cuts[k < count ? k : count - 1];
        fill_lane(to, full, k);
        width[k] = width_of(full);
    }
    bite_block_chip_init(&to->chip, to->block.flutes, bite_block_cuts_alike(&to->block));
    bite_block_arc(&to->block, width, isnan(to->inside_radius[0]) ? NULL : to->inside_radius,
                   &to->segment);
    bite_block_arc_sines(&to->block, &to->segment, &to->chip);
    bite_block_chips(&to->block, &to->chip);
    fill_values(to);
}
