/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depth above which a cut chatters, from the measured modes or from those of machine and tool.
 */
#include "core/cut/chatter_depth.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/semi_discretization.h"
#include "core/physics/dynamics/stability_lobes.h"
#include "core/physics/dynamics/tool_modes.h"
#include <math.h>

/* Below this width over diameter the zero-order solution errs by a tenth and more. */
static const double light_width = 0.4;
static const double delay_precision = 1e-4;

int bite_cut_has_measured_modes(const bite_cut *cut)
{
    return !isnan(cut->mode_frequency) || !isnan(cut->mode2_frequency) ||
           !isnan(cut->mode3_frequency);
}

/* The measured modes, assumed to be the same along both axes. */
static bite_axis_modes measured_modes(const bite_cut *cut)
{
    const double measured[][3] = {{cut->mode_frequency, cut->mode_stiffness, cut->mode_damping},
                                  {cut->mode2_frequency, cut->mode2_stiffness, cut->mode2_damping},
                                  {cut->mode3_frequency, cut->mode3_stiffness, cut->mode3_damping}};
    bite_axis_modes axis = {.count = 0};
    for (size_t i = 0; i < sizeof measured / sizeof *measured; i++) {
        if (!isnan(measured[i][0])) {
            double stiffness = isnan(measured[i][1]) ? cut->machine_stiffness : measured[i][1];
            axis.modes[axis.count++] = bite_mode_plain(measured[i][0], stiffness, measured[i][2]);
        }
    }
    return axis;
}

/* The mode of the tool itself: its damping over that of machine and part (memory: solid tools in
 * collets 0.5 to 3 %), and the amplitude from which a shop calls it chatter: as high as the chip is
 * thick, so that teeth leave the cut, or 10 um either way (estimate). */
static const double tool_damping_share = 0.5;
static const double chatter_amplitude = 10e-6;

/* Depth that the modes of the machine and of the tool allow; by_stiffness: depth for each N/m of
 * stiffness; slope: share/damping. Small tools vibrate at many kHz: the waves that they cut are
 * short, and the flank rubs on them, which damps the vibration. The waves of a long tool are not
 * short. */
static double stability_of_both(const bite_cut *cut, bite_arc arc,
                                const bite_tool_deflection *deflection, double slope,
                                double by_stiffness, bite_segment_cache *cache,
                                const bite_segment *segment)
{
    double tool_stiffness = tool_damping_share / deflection->tool;
    double machine = isnan(cut->mode_stiffness) ? cut->machine_stiffness : cut->mode_stiffness;
    double machine_depth = machine * by_stiffness;
    if (tool_stiffness >= machine) {
        return machine_depth;
    }
    bite_ripple waves = {segment->value[BITE_SURFACE_SPEED] /
                             bite_fin_cache_frequency(cache->fin, cut, &deflection->shaft),
                         fmin(chatter_amplitude, 0.5 * segment->value[BITE_CHIP_THICKNESS_MAX]),
                         cut->edge_radius};
    return fmin(machine_depth,
                tool_stiffness * by_stiffness * bite_chatter_damped_by_flank(&waves, arc, slope));
}

/* If no mode was measured, no frequency can be trusted: the worst speed counts, for the mode of the
 * machine and for that of the tool. */
static double stability_unmeasured(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                                   double ratio, const bite_tool_deflection *deflection,
                                   bite_segment_cache *cache, const bite_segment *segment)
{
    double share =
        bite_chatter_share(bite_segment_cache_roots(cache, arc, ratio), cut->mode_damping);
    return stability_of_both(cut, arc, deflection, share / cut->mode_damping,
                             share / (cut->flutes * pressure->tangential), cache, segment);
}

double bite_cut_chatter_depth(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                              const bite_tool_deflection *deflection, bite_segment_cache *cache,
                              const bite_segment *segment)
{
    double radial_share =
        cut->operation == BITE_CHAMFER
            ? cos(cut->taper)
            : 1.0; /* share of the normal force on a cone that acts across the axis */
    double ratio = radial_share * bite_pressure_ratio(cut->pressure_r, pressure);
    if (!bite_cut_has_measured_modes(cut)) {
        return stability_unmeasured(cut, arc, pressure, ratio, deflection, cache, segment);
    }
    bite_chatter_case problem = {
        .arc = arc, .teeth = cut->flutes, .tangential = pressure->tangential, .ratio = ratio};
    problem.x = problem.y = measured_modes(cut);
    double depth = bite_chatter_at(&problem, cut->spindle_speed);
    bite_semidiscrete_room workspace = {cache->scratch->delay, sizeof cache->scratch->delay /
                                                                   sizeof *cache->scratch->delay};
    return segment->engaged < light_width && isfinite(depth)
               ? bite_semidiscrete_limit(&problem, depth, cut->spindle_speed,
                                         BITE_SEGMENT_SEMIDISCRETE_STEPS, delay_precision,
                                         workspace)
               : depth;
}
