/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutting pressure of a block of cuts, in the linear edge form. */
#include "core/cut/block/pressure_block.h"
#include "core/cut/block/material_rows.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/force/orthogonal_cutting.h"

/* Factors on the terms of the figures, by the state of the stock and of the edge. */
typedef struct factor_rows {
    bite_lanes cutting;
    bite_lanes edge;
} factor_rows;

/* What of the pressure is known of all cuts. */
BITE_FORMULA bool is_known(const bite_cut *cut)
{
    bite_pressure_inputs inputs = {
        .form = cut->pressure,
        .tangential = cut->pressure_t,
        .edge_tangential = cut->edge_t,
        .exponent = cut->pressure_exponent,
        .shear_strength = cut->shear_strength,
        .fracture_energy = cut->fracture_energy,
        .yield = cut->yield,
        .friction = cut->friction,
    };
    return bite_pressure_known(&inputs);
}

/* The strength of the stock at its temperature, unless the material is braked by its own heat. */
BITE_FORMULA void fill_strength(const bite_block *restrict block, bool softens,
                                factor_rows *restrict factor)
{
    const bite_curve *curve = &block->cut->strength_curve;
    if (!softens && curve->count > 0) {
        bite_lanes reference;
        bite_block_curve_at(block, curve, BITE_ROW(block, room_temperature), factor->cutting);
        bite_block_curve_at(block, curve, BITE_ROW(block, pressure_temperature), reference);
        BITE_EACH_LANE(k, block)
        {
            factor->cutting[k] /= reference[k];
        }
    } else {
        BITE_EACH_LANE(k, block)
        {
            factor->cutting[k] = 1.0;
        }
    }
}

BITE_FORMULA void fill_factors(const bite_block *restrict block,
                               const bite_block_segment *restrict segment, bool softens,
                               factor_rows *restrict factor)
{
    fill_strength(block, softens, factor);
    if (!isnan(block->cut->pressure_rake)) {
        BITE_EACH_LANE(k, block)
        {
            factor->cutting[k] *= bite_pressure_rake_factor(BITE_ROW(block, pressure_rake)[k],
                                                            BITE_ROW(block, rake)[k],
                                                            BITE_ROW(block, pressure_rake_at)[k]);
        }
    }
    bool strength = block->cut->pressure == BITE_PRESSURE_STRENGTH;
    BITE_EACH_LANE(k, block)
    {
        double scale =
            bite_pressure_edge_scale(segment->edge_radius[k], BITE_ROW(block, edge_reference)[k]);
        factor->edge[k] = strength ? 1.0 : scale;
    }
}

/* Figures of the strength of a material. */
BITE_FORMULA void fill_from_strength(const bite_block *restrict block,
                                     const factor_rows *restrict factor,
                                     bite_block_segment *restrict segment)
{
    BITE_EACH_LANE(k, block)
    {
        double fracture = BITE_PRESSURE_TOUGHNESS_SHARE * BITE_ROW(block, fracture_energy)[k];
        bite_pressure_terms terms = bite_pressure_of_strength(
            factor->cutting[k] * BITE_ROW(block, shear_strength)[k], BITE_ROW(block, friction)[k],
            BITE_ROW(block, pressure_rake_at)[k], fracture, BITE_ROW(block, yield)[k],
            segment->edge_radius[k]);
        segment->tangential[k] = terms.cutting;
        segment->edge_tangential[k] = terms.edge;
        segment->fracture[k] = fracture;
    }
}

/* From the start to where the material flows, K: in the tests that the figures come from, and in
 * this cut. */
typedef struct margin_rows {
    bite_lanes reference;
    bite_lanes here;
} margin_rows;

BITE_FORMULA void fill_margins(const bite_block *restrict block,
                               const bite_block_segment *restrict segment,
                               const bite_softening_law *kind, margin_rows *restrict margin)
{
    bite_lanes time;
    bool glassy = !isnan(kind->c1);
    BITE_EACH_LANE(k, block)
    {
        time[k] = bite_larger(segment->value[BITE_CHIP_THICKNESS_MEAN][k],
                              segment->value[BITE_CHIP_THICKNESS_LEAST][k]) /
                  segment->value[BITE_SURFACE_SPEED][k];
    }
    bite_block_flow(block, kind, time, margin->here);
    BITE_EACH_LANE(k, block)
    {
        bite_softening_law law = bite_block_law(block, k);
        double softened = bite_softening_glassy(&law, BITE_PRESSURE_REFERENCE_TIME, 0.0);
        double flow = glassy ? softened : law.transition;
        margin->reference[k] = flow - BITE_ROW(block, pressure_temperature)[k];
        margin->here[k] -= BITE_ROW(block, room_temperature)[k];
    }
}

/* The brake of a chip's own heat. */
BITE_FORMULA void brake(const bite_block *restrict block, const bite_softening_law *kind,
                        bite_block_segment *restrict segment)
{
    margin_rows margin;
    bite_lanes volumetric;
    fill_margins(block, segment, kind, &margin);
    bite_block_volumetric_heat(block, volumetric);
    BITE_EACH_LANE(k, block)
    {
        double heating = BITE_ROW(block, heat_share)[k] *
                         (1.0 - BITE_ROW(block, friction_share)[k]) / volumetric[k];
        segment->tangential[k] = bite_pressure_braked(segment->tangential[k], heating,
                                                      margin.reference[k], margin.here[k]);
    }
}

/* Figures of the pressure itself. */
BITE_FORMULA void fill_from_pressure(const bite_block *restrict block,
                                     const factor_rows *restrict factor,
                                     bite_block_segment *restrict segment)
{
    if (block->cut->pressure == BITE_PRESSURE_POWER) {
        BITE_EACH_LANE(k, block)
        {
            bite_pressure_terms terms = bite_pressure_chord(BITE_ROW(block, pressure_t)[k],
                                                            BITE_ROW(block, pressure_exponent)[k]);
            segment->tangential[k] = terms.cutting * factor->cutting[k];
            segment->edge_tangential[k] = terms.edge * factor->edge[k];
            segment->fracture[k] = 0.0;
        }
    } else {
        BITE_EACH_LANE(k, block)
        {
            segment->tangential[k] = BITE_ROW(block, pressure_t)[k] * factor->cutting[k];
            segment->edge_tangential[k] = BITE_ROW(block, edge_t)[k] * factor->edge[k];
            segment->fracture[k] = 0.0;
        }
    }
}

BITE_FORMULA void fill_axial(const bite_block *restrict block, const factor_rows *restrict factor,
                             bite_block_segment *restrict segment)
{
    if (isnan(block->cut->pressure_a)) {
        BITE_EACH_LANE(k, block)
        {
            segment->axial[k] =
                bite_pressure_oblique(BITE_ROW(block, friction)[k], BITE_ROW(block, rake)[k],
                                      BITE_ROW(block, helix)[k]) *
                segment->tangential[k];
        }
    } else {
        BITE_EACH_LANE(k, block)
        {
            segment->axial[k] = bite_pressure_helix_sign(BITE_ROW(block, helix)[k]) *
                                factor->cutting[k] * BITE_ROW(block, pressure_a)[k];
        }
    }
}

BITE_FORMULA void fill_others(const bite_block *restrict block, const factor_rows *restrict factor,
                              bite_block_segment *restrict segment)
{
    BITE_EACH_LANE(k, block)
    {
        segment->radial[k] = bite_pressure_radial(
            factor->cutting[k] * BITE_ROW(block, pressure_r)[k], segment->tangential[k]);
        segment->edge_radial[k] = bite_pressure_edge_radial(
            factor->edge[k] * BITE_ROW(block, edge_r)[k], segment->edge_tangential[k]);
        segment->edge_axial[k] = bite_pressure_edge_axial(
            factor->edge[k] * BITE_ROW(block, edge_a)[k], BITE_ROW(block, helix)[k]);
    }
    fill_axial(block, factor, segment);
}

BITE_IN_LANES bool bite_block_pressure(const bite_block *restrict block,
                                       bite_block_segment *restrict segment)
{
    factor_rows factor;
    const bite_cut *cut = block->cut;
    if (!is_known(cut)) {
        return false;
    }
    bite_softening_law kind = bite_cut_softening(cut);
    bool softens = !isnan(kind.transition);
    fill_factors(block, segment, softens, &factor);
    if (cut->pressure == BITE_PRESSURE_STRENGTH) {
        fill_from_strength(block, &factor, segment);
        if (softens) {
            brake(block, &kind, segment);
        }
    } else {
        fill_from_pressure(block, &factor, segment);
    }
    fill_others(block, &factor, segment);
    return true;
}
