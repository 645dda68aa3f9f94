/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the tool: surface speed, breakage, gross deflection, reach, chatter and wear. */
#include "core/cut/limits_tool.h"
#include "core/cut/chatter_depth.h"
#include "core/cut/gross_deflection.h"
#include "core/cut/physics_inputs.h"
#include <math.h>

void bite_limit_edge_speed(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->segment->value[BITE_SURFACE_SPEED],
                   bite_cut_tool_speed_limit(limit->cut, limit->segment->engaged));
    limit->advisory = 1; /* exceeding it wears the tool but does not spoil the part */
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
}

void bite_limit_tool_break(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->segment->value[BITE_TOOL_STRESS], limit->cut->tool_strength);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
}

/* Share of its diameter by which a tool may bend (estimate): one that bends by more than a tenth of
 * it no longer behaves as a slender rod on a rigid edge. */
static const double bending_share = 0.1;

void bite_limit_tool_gross_bend(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->segment->wall_bend,
                   bite_gross_deflection_capacity(limit->cut->diameter, bending_share,
                                                  bite_gross_deflection_width(limit)));
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
    bite_gross_deflection_omit_if_toleranced(limit);
}

/* The pass must lie within the flutes, the feature within flutes and neck; a chamfer within the
 * cone, the part below the chamfer included. */
void bite_limit_reach(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double neck = isnan(cut->neck_length) || isnan(cut->neck_diameter) ? 0.0 : cut->neck_length;
    double flutes = fmin(cut->flute_length, cut->stickout);
    double whole = fmin(cut->flute_length + neck, cut->stickout);
    bite_limit_set(limit, cut->depth, flutes);
    if (cut->operation == BITE_CHAMFER) {
        bite_limit_set(limit, cut->depth + cut->tip_below, flutes);
    } else if (!isnan(cut->feature_depth) && cut->feature_depth / whole > cut->depth / flutes) {
        bite_limit_set(limit, cut->feature_depth, whole);
    }
}

/* Factor on the load that a tooth withstands at this depth: published chip loads are derated to
 * 0.75 and 0.5 at depths of two and three diameters. */
static double depth_derating(double depth_share)
{
    return fmax(0.25, fmin(1.0, 1.25 - 0.25 * depth_share));
}

/* A tooth whose height and root are proportional to D is a short beam: sigma = c f/D, c about 22, f
 * the edge load. Teeth are thinner if there are more of them, and have fewer flaws if they are
 * small. */
void bite_limit_feed_tooth(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double diameter = bite_cutting_diameter(cut);
    double capacity = cut->tooth_strength * diameter * pow(cut->flutes, -0.15) *
                      pow(6e-3 / diameter, 0.25) * depth_derating(cut->depth / diameter);
    bite_limit_set(limit, limit->segment->value[BITE_EDGE_LOAD], capacity);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
}

/* A cut slightly above the linear limit vibrates but is acceptable: the capacity is several times
 * that limit, unless the modes were measured. */
static void set_chatter(bite_limit_case *limit, double depth)
{
    int measured = bite_cut_has_measured_modes(limit->cut);
    bite_limit_set(limit, limit->cut->depth, measured ? depth : limit->cut->stable_share * depth);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
}

/* Advisory unless the modes were measured, since those of frame and spindle are of a class of
 * machines. */
void bite_limit_chatter(bite_limit_case *limit)
{
    set_chatter(limit, limit->segment->value[BITE_STABILITY_DEPTH]);
    limit->advisory = bite_cut_has_measured_modes(limit->cut) ? 0U : 1U;
}

void bite_limit_chatter_tool(bite_limit_case *limit)
{
    set_chatter(limit, limit->segment->value[BITE_STABILITY_DEPTH_TOOL]);
    if (bite_cut_has_measured_modes(limit->cut)) {
        bite_limit_omit(limit, BITE_WHY_MEASURED);
    }
}

void bite_limit_wear(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    bite_limit_set(limit, cut->path_length / cut->feed_rate, limit->segment->value[BITE_TOOL_LIFE]);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
    bite_limit_require(limit, limit->demand, BITE_WHY_NOT_GIVEN);
    if (isnan(limit->capacity) &&
        (cut->substance == BITE_AMORPHOUS || cut->substance == BITE_CRYSTALLINE)) {
        bite_limit_omit(limit, BITE_WHY_DOES_NOT_WEAR);
    }
}
