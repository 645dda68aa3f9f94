/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A block of conical tools that engrave a groove. */
#include "core/cut/block/groove_block.h"
#include "core/cut/block/load_block.h"
#include "core/physics/elastic/stepped_shaft.h"
#include "core/physics/force/v_groove.h"
#include "core/physics/geometry/surface_finish.h"
#include <string.h>

BITE_FORMULA bite_groove groove_of(const bite_block *block, int k)
{
    bite_groove groove = {BITE_ROW(block, depth)[k], BITE_ROW(block, taper)[k],
                          BITE_ROW(block, tip_diameter)[k]};
    return groove;
}

BITE_IN_LANES void bite_block_groove_shape(const bite_block *restrict block,
                                           bite_block_segment *restrict segment)
{
    const double *restrict taper = BITE_ROW(block, taper);
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    BITE_EACH_LANE(k, block)
    {
        bite_groove groove = groove_of(block, k);
        double along = cos(taper[k]);
        segment->value[BITE_CHIP_THICKNESS_MAX][k] *= along;
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] *= along;
        segment->value[BITE_REMOVAL_RATE][k] =
            bite_groove_mean_diameter(&groove) * groove.depth * feed_rate[k];
        segment->value[BITE_ROUGHNESS_WALL][k] =
            bite_finish_wall(segment->value[BITE_CHIP_LOAD_HEAVY][k], groove.tip_diameter / along);
        segment->heavy_chip[k] *= along;
    }
}

BITE_IN_LANES void bite_block_groove_diameter(const bite_block *restrict block,
                                              double *restrict diameter)
{
    BITE_EACH_LANE(k, block)
    {
        bite_groove groove = groove_of(block, k);
        diameter[k] = bite_groove_mean_diameter(&groove);
    }
}

BITE_IN_LANES void bite_block_groove_pressure(const bite_block *restrict block,
                                              const bite_block_segment *restrict segment,
                                              bite_pressure_lanes *restrict inclined)
{
    const double *restrict taper = BITE_ROW(block, taper);
    BITE_EACH_LANE(k, block)
    {
        bite_pressure plain = bite_segment_pressure(segment, k);
        bite_pressure other = bite_groove_pressure(&plain, taper[k]);
        inclined->tangential[k] = other.tangential;
        inclined->radial[k] = other.radial;
        inclined->axial[k] = other.axial;
        inclined->edge_tangential[k] = other.edge_tangential;
        inclined->edge_radial[k] = other.edge_radial;
        inclined->edge_axial[k] = other.edge_axial;
        inclined->fracture[k] = other.fracture;
    }
}

/* The edge is longer by its inclination, and its chip thinner. */
BITE_IN_LANES static void incline(const bite_block *restrict block,
                                  bite_block_segment *restrict segment)
{
    const double *restrict taper = BITE_ROW(block, taper);
    BITE_EACH_LANE(k, block)
    {
        double along = cos(taper[k]);
        segment->contact_chip[k] *= along;
        segment->contact_length[k] /= along;
    }
}

void bite_block_groove_contact(const bite_block *block, const bite_block_chip *chip,
                               const double *diameter, bite_block_segment *segment)
{
    bite_block_contact(block, chip, diameter, segment);
    incline(block, segment);
}

/* The lowest height, and the ratio of each height to the one before. */
BITE_IN_LANES static void fill_heights(const bite_block *restrict block, double *restrict height,
                                       double *restrict step)
{
    const double *restrict diameter = BITE_ROW(block, diameter);
    BITE_EACH_LANE(k, block)
    {
        bite_groove groove = groove_of(block, k);
        bite_groove_heights range = bite_groove_stress_heights(&groove, diameter[k]);
        height[k] = range.low;
        step[k] = pow(range.high / range.low, 1.0 / BITE_GROOVE_STRESS_STEPS);
    }
}

BITE_IN_LANES static void take_stress(const bite_block *restrict block, int ductile,
                                      const double *restrict side, const double *restrict torque,
                                      const double *restrict step, double *restrict height,
                                      double *restrict stress)
{
    const double *restrict core_share = BITE_ROW(block, core_share);
    BITE_EACH_LANE(k, block)
    {
        bite_groove groove = groove_of(block, k);
        bite_groove_stress at =
            bite_groove_stress_at(&groove, core_share[k], side[k], torque[k], height[k]);
        double here = bite_shaft_combined_stress(at.bending, at.torsion, ductile);
        stress[k] = bite_larger(here, stress[k]);
        height[k] *= step[k];
    }
}

void bite_block_groove_tip_stress(const bite_block *block, const double *side, const double *torque,
                                  double *stress)
{
    bite_lanes height;
    bite_lanes step;
    int ductile = block->cut->tool_material == BITE_TOOL_HSS;
    memset(stress, 0, sizeof height);
    fill_heights(block, height, step);
    for (int i = 0; i <= BITE_GROOVE_STRESS_STEPS; i++) {
        take_stress(block, ductile, side, torque, step, height, stress);
    }
}
