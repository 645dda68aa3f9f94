/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depth above which a cut chatters, from the measured modes or, without them, from the modes of
 * frame, spindle and tool. */
#include "core/cut/chatter_depth.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/mode_stability.h"
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

/* Depth above which the cut chatters, m, from the measured modes. */
static double stability_measured(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                                 double ratio, bite_segment_cache *cache,
                                 const bite_segment *segment)
{
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

static double stability_of(const bite_vibration_mode *mode, const bite_direction_root roots[2],
                           const bite_excitation *excitation)
{
    return bite_mode_damped_depth(bite_mode_depth(roots, mode, excitation), mode, excitation);
}

/* The least depth over the modes of the frame, of the spindle with its holder, and of the tool,
 * each alone. Frame and spindle: stiffness and frequency of a class of machines; tool: of its own
 * bending. */
void bite_segment_fill_chatter(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                               const bite_tool_deflection *deflection, bite_segment_cache *cache,
                               bite_segment *segment)
{
    /* share of the normal force on a cone that acts across the axis */
    double radial_share = cut->operation == BITE_CHAMFER ? cos(cut->taper) : 1.0;
    double ratio = radial_share * bite_pressure_ratio(cut->pressure_r, pressure);
    double *value = segment->value;
    if (bite_cut_has_measured_modes(cut)) {
        value[BITE_STABILITY_DEPTH] = stability_measured(cut, arc, pressure, ratio, cache, segment);
        return;
    }
    const bite_direction_root *roots = bite_segment_cache_roots(cache, arc, ratio);
    double stiffness = cut->machine_stiffness;
    double frequency = bite_fin_cache_frequency(cache->fin, cut, &deflection->shaft);
    bite_vibration_mode frame = {cut->frame_frequency, stiffness / cut->frame_share,
                                 cut->frame_damping};
    bite_vibration_mode spindle = {cut->spindle_frequency, stiffness / (1.0 - cut->frame_share),
                                   cut->spindle_damping};
    bite_vibration_mode tool = {cut->tool_frequency_share * frequency, 1.0 / deflection->tool,
                                cut->tool_damping};
    bite_excitation excitation = {
        .teeth = cut->flutes,
        .speed = cut->spindle_speed,
        .tangential = pressure->tangential,
        .span = bite_engagement_span(arc),
        .surface_speed = value[BITE_SURFACE_SPEED],
        .edge_radius = bite_cut_edge_radius(cut),
    };
    double least = stability_of(&tool, roots, &excitation);
    value[BITE_STABILITY_DEPTH_TOOL] = least;
    least = fmin(least, stability_of(&spindle, roots, &excitation));
    value[BITE_STABILITY_DEPTH] = fmin(least, stability_of(&frame, roots, &excitation));
}
