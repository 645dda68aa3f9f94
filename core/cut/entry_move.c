/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The way in: plunge, ramp and helix. */
#include "core/cut/entry_move.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/geometry/kinematics.h"
#include <math.h>

static const double plunge_share = 1.0 / 3.0;
static const double ramp_share = 0.5;

double bite_entry_feed(const bite_cut *cut)
{
    if (!isnan(cut->entry_feed)) {
        return cut->entry_feed;
    }
    return cut->feed_rate * (cut->entry == BITE_ENTRY_PLUNGE ? plunge_share : ramp_share);
}

static void plunge(const bite_cut *way, bite_segment *out)
{
    bite_pressure pressure;
    double radius = 0.5 * way->diameter;
    double feed = bite_kinematics_tooth_feed(way->feed_rate, way->spindle_speed, way->flutes);
    bite_segment_blank(out);
    out->engaged = 1.0;
    out->packing = way->depth / way->diameter;
    out->heavy_chip = feed;
    out->value[BITE_CHIP_LOAD] = feed;
    out->value[BITE_CHIP_THICKNESS_LEAST] = bite_cut_least_chip(way);
    if (!bite_cut_pressure(way, &pressure)) {
        return;
    }
    double tangential = (pressure.tangential * feed + pressure.edge_tangential) * radius;
    double thrust = way->flutes * (pressure.radial * feed + pressure.edge_radial) * radius;
    double torque = way->flutes * tangential * 0.5 * radius;
    double step = way->flutes > 1.0 ? fmin(feed, way->runout * sin(M_PI / way->flutes)) : feed;
    double side = pressure.tangential * step * radius +
                  (way->flutes > 1.0 ? 0.0 : pressure.edge_tangential * radius);
    bite_tool_body tool = bite_cut_tool_body(way);
    double core = way->core_share * way->diameter;
    out->torque_mean = torque;
    out->value[BITE_TORQUE_PEAK] = torque;
    out->value[BITE_POWER_MEAN] = 2.0 * M_PI * way->spindle_speed * torque;
    out->value[BITE_TOOL_STRESS] =
        bite_tool_stress(&tool, side, torque) + thrust / (0.25 * M_PI * core * core);
}

/* A helix has the tool in the floor of its last turn alone. Its middle goes round at half the
 * diameter at most, or a core would stand: a turn goes down pi D tan(slope), and never more than
 * the pass. */
static double helix_depth(const bite_cut *cut)
{
    return fmin(cut->depth, M_PI * cut->diameter * tan(cut->ramp_angle));
}

void bite_entry_cut(const bite_cut *cut, bite_cut *way, bite_segment_cache *cache,
                    bite_segment *out)
{
    *way = *cut;
    way->feed_rate = bite_entry_feed(cut);
    if (cut->entry == BITE_ENTRY_PLUNGE) {
        plunge(way, out);
        return;
    }
    if (cut->entry == BITE_ENTRY_HELIX) {
        way->depth = helix_depth(cut);
    }
    way->feed_rate *= cos(cut->ramp_angle);
    bite_segment_compute_cached(
        way, bite_engagement_straight(way->diameter, way->diameter, (bite_side)way->side), cache,
        out);
}
