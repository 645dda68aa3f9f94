/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool of each cut of a block as an elastic, conducting and vibrating shaft. */
#include "core/cut/block/tool_block.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/tool_modes.h"
#include "core/physics/elastic/shaft_fin.h"
#include "core/physics/elastic/tool_deflection.h"

#define MEMBER(name) offsetof(bite_cut, name)

/* All numbers that lane_body and the stages below read. */
static const size_t inputs[] = {
    MEMBER(depth),
    MEMBER(tip_below),
    MEMBER(diameter),
    MEMBER(stickout),
    MEMBER(flute_length),
    MEMBER(neck_diameter),
    MEMBER(neck_length),
    MEMBER(shank_diameter),
    MEMBER(taper),
    MEMBER(tip_diameter),
    MEMBER(stiff_share),
    MEMBER(core_share),
    MEMBER(tool_modulus),
    MEMBER(tool_poisson),
    MEMBER(tool_density),
    MEMBER(machine_stiffness),
    MEMBER(tool_conductivity),
    MEMBER(cooling),
};

int bite_block_tool_reads(size_t offset)
{
    int found = 0;
    for (size_t i = 0; i < sizeof inputs / sizeof *inputs; i++) {
        found |= inputs[i] == offset;
    }
    return found;
}

/* What is the same in all lanes of a block. */
typedef struct tool_kind {
    bool chamfers;
    bool conical;
    bool necked;
    bool ductile;
} tool_kind;

static tool_kind kind_of(const bite_block *block)
{
    const bite_cut *cut = block->cut;
    tool_kind kind = {
        .chamfers = cut->operation == BITE_CHAMFER,
        .conical = cut->operation == BITE_CHAMFER || bite_cut_is_groove(cut),
        .necked = !isnan(cut->neck_diameter) && !isnan(cut->neck_length),
        .ductile = cut->tool_material == BITE_TOOL_HSS,
    };
    return kind;
}

/* The height of the load before it is capped, m: the middle of the depth, of a chamfer that of the
 * removed section. */
static void load_heights(const bite_block *block, tool_kind kind, double *load)
{
    const double *depth = BITE_ROW(block, depth);
    if (!kind.chamfers) {
        BITE_EACH_LANE(k, block)
        {
            load[k] = 0.5 * depth[k];
        }
        return;
    }
    const double *below = BITE_ROW(block, tip_below);
    BITE_EACH_LANE(k, block)
    {
        bite_chamfer_shape shape = {.depth = depth[k], .tip_below = below[k]};
        load[k] = bite_chamfer_load(&shape);
    }
}

/* A row that is indexed in place has no vector form. */
BITE_FORMULA double lane_of(const double *row, int k)
{
    return row[k];
}

/* The tool of a lane; conical and necked are constants where this is inlined. */
BITE_FORMULA bite_tool_body lane_body(const bite_block *block, bool conical, bool necked,
                                      const double *load, int k)
{
    bite_tool_body tool;
    tool.diameter = lane_of(BITE_ROW(block, diameter), k);
    tool.stickout = lane_of(BITE_ROW(block, stickout), k);
    tool.flute_length = lane_of(BITE_ROW(block, flute_length), k);
    tool.neck_diameter = lane_of(BITE_ROW(block, neck_diameter), k);
    tool.neck_length = lane_of(BITE_ROW(block, neck_length), k);
    tool.shank_diameter = lane_of(BITE_ROW(block, shank_diameter), k);
    tool.taper = lane_of(BITE_ROW(block, taper), k);
    tool.tip_diameter = lane_of(BITE_ROW(block, tip_diameter), k);
    tool.stiff_share = lane_of(BITE_ROW(block, stiff_share), k);
    tool.core_share = lane_of(BITE_ROW(block, core_share), k);
    tool.load = load[k];
    tool.modulus = lane_of(BITE_ROW(block, tool_modulus), k);
    tool.poisson = lane_of(BITE_ROW(block, tool_poisson), k);
    tool.machine_stiffness = lane_of(BITE_ROW(block, machine_stiffness), k);
    tool.conical = conical;
    tool.ductile = false;
    if (!necked) {
        tool.neck_diameter = tool.neck_length = (double)NAN;
    }
    return tool;
}

/* A stage for one kind of tool: the number and the forms of its steps are constants. */
BITE_FORMULA void fill_body(const bite_block *restrict block, bool conical, bool necked,
                            const double *restrict load, bite_block_segment *restrict segment)
{
    const double *density = BITE_ROW(block, tool_density);
    const double *conductivity = BITE_ROW(block, tool_conductivity);
    const double *cooling = BITE_ROW(block, cooling);
    BITE_EACH_LANE(k, block)
    {
        bite_tool_body tool = lane_body(block, conical, necked, load, k);
        bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
        segment->compliance[k] = deflection.compliance;
        segment->tool_compliance[k] = deflection.tool;
        segment->slope[k] = deflection.slope;
        segment->load[k] = deflection.load;
        segment->tool_frequency[k] =
            bite_tool_mode_bent(&deflection.shaft, tool.modulus, density[k]);
    }
    BITE_EACH_LANE(k, block)
    {
        bite_shaft shaft;
        bite_tool_body tool = lane_body(block, conical, necked, load, k);
        bite_tool_shaft_init(&tool, tool.core_share, &shaft);
        bite_fin fin =
            bite_shaft_fin(&shaft, bite_tool_cylinders(conical), conductivity[k], cooling[k]);
        segment->fin_resistance[k] = fin.resistance;
        segment->fin_air_share[k] = fin.air_share;
    }
}

BITE_IN_LANES void bite_block_tool(const bite_block *restrict block,
                                   bite_block_segment *restrict segment)
{
    bite_lanes load;
    tool_kind kind = kind_of(block);
    load_heights(block, kind, load);
    if (kind.conical) {
        if (kind.necked) {
            fill_body(block, true, true, load, segment);
        } else {
            fill_body(block, true, false, load, segment);
        }
    } else if (kind.necked) {
        fill_body(block, false, true, load, segment);
    } else {
        fill_body(block, false, false, load, segment);
    }
}

void bite_block_tool_alike(const bite_block *restrict block, bite_block_segment *restrict segment)
{
    double *const rows[] = {
        segment->compliance,     segment->tool_compliance, segment->slope,        segment->load,
        segment->tool_frequency, segment->fin_resistance,  segment->fin_air_share};
    bite_lanes load;
    tool_kind kind = kind_of(block);
    load_heights(block, kind, load);
    bite_tool_body tool = lane_body(block, kind.conical, kind.necked, load, 0);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    bite_shaft shaft;
    bite_tool_shaft_init(&tool, tool.core_share, &shaft);
    bite_fin fin =
        bite_shaft_fin(&shaft, bite_tool_cylinders(kind.conical),
                       BITE_ROW(block, tool_conductivity)[0], BITE_ROW(block, cooling)[0]);
    const double found[] = {
        deflection.compliance,
        deflection.tool,
        deflection.slope,
        deflection.load,
        bite_tool_mode_bent(&deflection.shaft, tool.modulus, BITE_ROW(block, tool_density)[0]),
        fin.resistance,
        fin.air_share};
    for (size_t i = 0; i < sizeof found / sizeof *found; i++) {
        BITE_EACH_LANE(k, block)
        {
            rows[i][k] = found[i];
        }
    }
}

BITE_FORMULA void fill_stress(const bite_block *restrict block, bool conical, bool necked,
                              bool ductile, const double *restrict load,
                              const double *restrict side, const double *restrict torque,
                              double *restrict stress)
{
    BITE_EACH_LANE(k, block)
    {
        bite_tool_body tool = lane_body(block, conical, necked, load, k);
        tool.ductile = ductile;
        stress[k] = bite_tool_stress(&tool, side[k], torque[k]);
    }
}

BITE_IN_LANES void bite_block_stress(const bite_block *restrict block, const double *restrict side,
                                     const double *restrict torque, double *restrict stress)
{
    bite_lanes load;
    tool_kind kind = kind_of(block);
    load_heights(block, kind, load);
    if (kind.conical) {
        if (kind.ductile) {
            fill_stress(block, true, kind.necked, true, load, side, torque, stress);
        } else {
            fill_stress(block, true, kind.necked, false, load, side, torque, stress);
        }
    } else if (kind.ductile) {
        fill_stress(block, false, kind.necked, true, load, side, torque, stress);
    } else {
        fill_stress(block, false, kind.necked, false, load, side, torque, stress);
    }
}
