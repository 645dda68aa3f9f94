/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conversions from a cut to the inputs of the formulas in core/physics. */
#ifndef BITE_CUT_PHYSICS_INPUTS_H
#define BITE_CUT_PHYSICS_INPUTS_H

#include "core/base/lane_math.h"
#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/force/chamfer_cone.h"
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/force/v_groove.h"
#include <coolbite/coolbite.h>

/* All of these need a cut with its defaults filled. */

/** The tool and the machine behind it, loaded at the middle of the depth (of a chamfer: of the
 * removed section). */
bite_tool_body bite_cut_tool_body(const bite_cut *cut);

/** How the material softens with time; transition NaN: it is not a polymer. */
bite_softening_law bite_cut_softening(const bite_cut *cut);

/** rho c of the work at the start temperature, J/(m3 K). */
double bite_cut_volumetric_heat(const bite_cut *cut);

/** The cutting pressure of the material. shear_time: mean chip thickness/surface speed, s. False:
 * the material has none. */
bool bite_cut_pressure(const bite_cut *cut, double shear_time, bite_pressure *pressure);

/** Radius of the edge as it is in use, m. */
double bite_cut_edge_radius(const bite_cut *cut);

/** The largest published feed per tooth of a material with a tool, m, from that of a tool of one
 * flute and 6.35 mm: more flutes share the section that clears the chip (estimate). */
BITE_FORMULA double bite_charted_feed(double chip, double exponent, double diameter, double flutes)
{
    const double charted_diameter = 6.35e-3; /* of the tools that charts are for */
    return chip * bite_power_of(diameter / charted_diameter, exponent) / sqrt(flutes);
}

/** The same of a cut; NaN: none is known. */
double bite_cut_charted_feed(const bite_cut *cut);

/** The edge speed that the tool bears for long, m/s, from that in a slot. A tooth that is out of
 * the cut for most of the turn bears a higher speed: 1.5 to 2 times in light radial passes (memory;
 * one maker's table has 1.48 at ae/D 0.05 falling to 1 at 0.5). engaged: width/diameter, 0 to 1. */
BITE_FORMULA double bite_tool_speed_limit(double in_slot, double engaged)
{
    return (1.0 + 0.75 * (1.0 - bite_smaller(engaged / 0.5, 1.0))) * in_slot;
}

/** The same of a cut. */
double bite_cut_tool_speed_limit(const bite_cut *cut, double engaged);

bite_chamfer_shape bite_cut_chamfer_shape(const bite_cut *cut);

/** The cone of a chamfer along a straight edge. */
bite_cone bite_cut_cone(const bite_cut *cut);

/** Whether the tool goes straight down its own axis: a drill, a tap or a reamer. */
bool bite_cut_is_axial(const bite_cut *cut);

/** Whether the cut is a groove milled with a cone: a mill whose taper was given. */
bool bite_cut_is_groove(const bite_cut *cut);

bite_groove bite_cut_groove(const bite_cut *cut);

/** The largest diameter that cuts, m: of a cone where it leaves the part, else the tool's. */
double bite_cutting_diameter(const bite_cut *cut);

#endif
