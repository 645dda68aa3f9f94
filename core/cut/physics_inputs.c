/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conversions from a cut to the inputs of the formulas in core/physics. */
#include "core/cut/physics_inputs.h"
#include <math.h>

bite_tool_body bite_cut_tool_body(const bite_cut *cut)
{
    bool chamfers = cut->operation == BITE_CHAMFER;
    bite_chamfer_shape shape = bite_cut_chamfer_shape(cut);
    bite_tool_body tool = {
        .diameter = cut->diameter,
        .stickout = cut->stickout,
        .flute_length = cut->flute_length,
        .neck_diameter = cut->neck_diameter,
        .neck_length = cut->neck_length,
        .shank_diameter = cut->shank_diameter,
        .taper = cut->taper,
        .tip_diameter = cut->tip_diameter,
        .load = chamfers ? bite_chamfer_load(&shape) : 0.5 * cut->depth,
        .stiff_share = cut->stiff_share,
        .core_share = cut->core_share,
        .modulus = cut->tool_modulus,
        .poisson = cut->tool_poisson,
        .machine_stiffness = cut->machine_stiffness,
        .conical = chamfers || bite_cut_is_groove(cut),
        .ductile = cut->tool_material == BITE_TOOL_HSS,
    };
    return tool;
}

bite_softening_law bite_cut_softening(const bite_cut *cut)
{
    bite_softening_law law = {cut->transition, cut->wlf_c1, cut->wlf_c2};
    if (cut->substance != BITE_AMORPHOUS && cut->substance != BITE_CRYSTALLINE) {
        law.transition = law.c1 = (double)NAN;
    }
    if (cut->substance == BITE_CRYSTALLINE) {
        law.c1 = (double)NAN; /* it melts, however short the time */
    }
    return law;
}

double bite_cut_volumetric_heat(const bite_cut *cut)
{
    return cut->density *
           bite_curve_at(&cut->heat_capacity_curve, cut->room_temperature, cut->heat_capacity);
}

/* Borrows the strength curve of the cut. */
static bite_pressure_inputs pressure_inputs(const bite_cut *cut, double shear_time)
{
    bite_pressure_inputs inputs = {
        .form = cut->pressure,
        .tangential = cut->pressure_t,
        .radial = cut->pressure_r,
        .axial = cut->pressure_a,
        .edge_tangential = cut->edge_t,
        .edge_radial = cut->edge_r,
        .edge_axial = cut->edge_a,
        .exponent = cut->pressure_exponent,
        .shear_strength = cut->shear_strength,
        .fracture_energy = cut->fracture_energy,
        .yield = cut->yield,
        .friction = cut->friction,
        .rake_slope = cut->pressure_rake,
        .edge_radius = bite_cut_edge_radius(cut),
        .rake = cut->rake,
        .helix = cut->helix,
        .reference_edge_radius = cut->edge_reference,
        .reference_rake = cut->pressure_rake_at,
        .reference_temperature = cut->pressure_temperature,
        .start_temperature = cut->room_temperature,
        .softening = bite_cut_softening(cut),
        .shear_time = shear_time,
        .heating = cut->heat_share * (1.0 - cut->friction_share) / bite_cut_volumetric_heat(cut),
        .strength_curve = &cut->strength_curve,
    };
    return inputs;
}

bool bite_cut_pressure(const bite_cut *cut, double shear_time, bite_pressure *pressure)
{
    bite_pressure_inputs inputs = pressure_inputs(cut, shear_time);
    return bite_pressure_from(&inputs, pressure);
}

double bite_cut_edge_radius(const bite_cut *cut)
{
    return cut->edge_radius * cut->edge_wear;
}

double bite_cut_charted_feed(const bite_cut *cut)
{
    return bite_charted_feed(cut->charted_chip, cut->charted_exponent, cut->diameter, cut->flutes);
}

double bite_cut_tool_speed_limit(const bite_cut *cut, double engaged)
{
    return bite_tool_speed_limit(cut->tool_speed_limit, engaged);
}

bite_chamfer_shape bite_cut_chamfer_shape(const bite_cut *cut)
{
    bite_chamfer_shape shape = {cut->depth, cut->taper, cut->tip_diameter, cut->tip_below};
    return shape;
}

bite_cone bite_cut_cone(const bite_cut *cut)
{
    bite_chamfer_shape shape = bite_cut_chamfer_shape(cut);
    return bite_chamfer_cone(&shape);
}

bool bite_cut_is_axial(const bite_cut *cut)
{
    return cut->operation == BITE_DRILL_HOLE || cut->operation == BITE_TAP ||
           cut->operation == BITE_REAM;
}

bool bite_cut_is_groove(const bite_cut *cut)
{
    return cut->operation == BITE_MILL && !isnan(cut->taper);
}

bite_groove bite_cut_groove(const bite_cut *cut)
{
    bite_groove groove = {cut->depth, cut->taper, cut->tip_diameter};
    return groove;
}

double bite_cutting_diameter(const bite_cut *cut)
{
    if (bite_cut_is_groove(cut)) {
        bite_groove groove = bite_cut_groove(cut);
        return bite_groove_width(&groove);
    }
    return cut->operation == BITE_CHAMFER ? 2.0 * bite_cut_cone(cut).large : cut->diameter;
}
