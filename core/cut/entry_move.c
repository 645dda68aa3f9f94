/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The entry move: plunge, ramp and helix. */
#include "core/cut/entry_move.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/geometry/kinematics.h"
#include <math.h>

double bite_entry_feed(const bite_cut *cut)
{
    return bite_entry_feed_of(cut->entry_feed, cut->feed_rate, cut->entry == BITE_ENTRY_PLUNGE);
}

static void plunge(const bite_cut *entry, bite_segment *segment)
{
    bite_pressure pressure;
    double wide = bite_cutting_diameter(entry); /* of a conical tool: at the surface of the part */
    double radius = 0.5 * wide;
    double feed = bite_kinematics_tooth_feed(entry->feed_rate, entry->spindle_speed, entry->flutes);
    bite_segment_blank(segment);
    segment->engaged = 1.0;
    segment->packing = entry->depth / wide;
    segment->heavy_chip = feed;
    segment->value[BITE_CHIP_LOAD] = feed;
    segment->value[BITE_CHIP_THICKNESS_LEAST] = bite_cut_least_chip(entry);
    double speed = M_PI * wide * entry->spindle_speed;
    if (!bite_cut_pressure(entry, fmax(feed, bite_cut_least_chip(entry)) / speed, &pressure)) {
        return;
    }
    double tangential = (pressure.tangential * feed + pressure.edge_tangential) * radius;
    double thrust = entry->flutes * (pressure.radial * feed + pressure.edge_radial) * radius;
    double torque = entry->flutes * tangential * 0.5 * radius;
    double step =
        entry->flutes > 1.0 ? fmin(feed, entry->runout * sin(M_PI / entry->flutes)) : feed;
    double side = pressure.tangential * step * radius +
                  (entry->flutes > 1.0 ? 0.0 : pressure.edge_tangential * radius);
    bite_tool_body tool = bite_cut_tool_body(entry);
    double core = entry->core_share * wide;
    segment->torque_mean = torque;
    segment->value[BITE_EDGE_LOAD] = pressure.tangential * feed + pressure.edge_tangential;
    segment->value[BITE_TORQUE_PEAK] = torque;
    segment->value[BITE_POWER_MEAN] = 2.0 * M_PI * entry->spindle_speed * torque;
    segment->value[BITE_TOOL_STRESS] =
        bite_tool_stress(&tool, side, torque) + thrust / (0.25 * M_PI * core * core);
}

/* On a helix the tool cuts the floor of the last turn alone. Its centre moves on a circle of at
 * most half the diameter as radius, or a core would be left: a turn descends by pi D tan(slope),
 * and never by more than the pass. */
static double helix_depth(const bite_cut *cut)
{
    return fmin(cut->depth, M_PI * bite_cutting_diameter(cut) * tan(cut->ramp_angle));
}

/* The depth under the tool grows from nothing to its greatest while the centre descends by as much,
 * and then stays: over the whole descent its mean is this share of the greatest, half of it on a
 * ramp. The chips that lie in the cut are those of the mean (estimate: chips move from where the
 * slot is deep to where it is shallow). */
static double mean_depth_share(double greatest, double descent)
{
    return 1.0 - 0.5 * greatest / descent;
}

void bite_entry_cut(const bite_cut *cut, bite_cut *entry, bite_segment_cache *cache,
                    bite_segment *segment)
{
    *entry = *cut;
    entry->feed_rate = bite_entry_feed(cut);
    if (cut->entry == BITE_ENTRY_PLUNGE) {
        plunge(entry, segment);
        return;
    }
    if (cut->entry == BITE_ENTRY_HELIX) {
        entry->depth = helix_depth(cut);
    }
    entry->feed_rate *= cos(cut->ramp_angle);
    bite_segment_compute_cached(
        entry, bite_engagement_straight(entry->diameter, entry->diameter, (bite_side)entry->side),
        cache, segment);
    segment->packing *= mean_depth_share(entry->depth, cut->depth);
}
