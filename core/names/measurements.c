/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a shop measures an input most cheaply. */
#include "core/names/measurements.h"
#include <stddef.h>
#include <string.h>

static const struct {
    const char *input;
    const char *method;
} methods[] = {
    {"runout", "the runout at the tip, with an indicator, turning the spindle by hand"},
    {"edge_radius", "the sharpness of the cutting edge and the width of its bright line, under a "
                    "loupe or a cheap microscope"},
    {"machine_stiffness",
     "the machine's stiffness: push the spindle nose with a spring scale against an indicator"},
    {"stickout", "the stick-out, with a rule"},
    {"tip_diameter", "the flat at the tip of the cone, under a loupe"},
    {"shear_strength", "the cutting pressure: draw a sharp edge of known width along a sheet's "
                       "edge on a scale, with the spindle locked, at four depths"},
    {"yield", "the edge force: draw a sharp edge of known width along a sheet's edge on a scale, "
              "with the spindle locked; extrapolate to zero depth"},
    {"pressure_t", "the cutting pressure, from the spindle power at two feeds"},
    {"edge_t", "the edge force, from the spindle power at two feeds, extrapolated to zero feed"},
    {"fracture_energy", "the edge force: draw a sharp edge of known width along a sheet's edge on "
                        "a scale, with the spindle locked; extrapolate to zero depth"},
    {"sublayer_share", "the temperature of the tool, two or three seconds after a pass"},
    {"edge_share", "the temperature of the tool, two or three seconds after a pass"},
    {"walk_share", "the temperature of the slot floor directly behind the tool"},
    {"skin_depth", "the temperature of the slot floor directly behind the tool"},
    {"cooling",
     "the temperature of the tool with and without air, two or three seconds after a pass"},
    {"room_temperature", "the room temperature"},
    {"packing_limit", "whether chips remain in the slot after a pass"},
    {"tool_strength", "the feeds and depths at which this tool broke: keep a record, since there "
                      "is no cheap measurement"},
    {"core_share", "the core of the tool, with a micrometer across the flute bottoms"},
    {"torque_limit", "the spindle load in a known cut, as its drive displays it"},
    {"power_limit", "the spindle load in a known cut, as its drive displays it"},
    {"feed_fastest", "the feed that the machine reaches: mill a small square at rising feeds and "
                     "note where its corners become round"},
};

const char *bite_measurement_advice(const char *input)
{
    for (size_t i = 0; i < sizeof methods / sizeof *methods; i++) {
        if (strcmp(methods[i].input, input) == 0) {
            return methods[i].method;
        }
    }
    return "";
}
