/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a shop measures an input most cheaply. */
#include "core/names/measurements.h"
#include <stddef.h>
#include <string.h>

#define TAP_TOOL                                                                                   \
    "how the tool rings: tap its tip, record the sound, and give its pitch as mode_frequency and " \
    "its decay as mode_damping"
#define TAP_MACHINE                                                                                \
    "how the machine rings: tap the spindle nose with a soft hammer and record its motion with a " \
    "phone; give its frequency as mode_frequency and its decay as mode_damping"
#define BEHIND_TOOL "the temperature of the slot floor directly behind the tool"
#define BOND                                                                                       \
    "the strength of the bond: stick down a scrap of known area and pull it off with a spring "    \
    "scale, after as long a time as the cut takes"

static const struct {
    const char *input;
    const char *method;
} methods[] = {
    {"runout", "the runout at the tip, with an indicator, turning the spindle by hand"},
    {"edge_radius", "the sharpness of the cutting edge and the width of its bright line, under a "
                    "loupe or a cheap microscope"},
    {"edge_wear", "the cutting edge as it is now, under a loupe: the width of its bright line is "
                  "about its radius, to be given as edge_radius"},
    {"rub_share", "the feed at which the chips of this tool turn to dust"},
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
    {"walk_share", BEHIND_TOOL},
    {"skin_depth", BEHIND_TOOL},
    {"wall_heat", BEHIND_TOOL},
    {"spring_back", BEHIND_TOOL},
    {"rub_heat", BEHIND_TOOL},
    {"surface_cooling",
     "the temperature of the slot floor with and without air, directly behind the tool"},
    {"tack_decades", "whether the chips of a trial slot come out loose or stuck together"},
    {"recutting", "whether the chips of a trial slot come out loose or stuck together"},
    {"cooling",
     "the temperature of the tool with and without air, two or three seconds after a pass"},
    {"room_temperature", "the room temperature"},
    {"packing_limit", "whether chips remain in the slot after a pass"},
    {"tool_strength", "the feeds and depths at which this tool broke: keep a record, since there "
                      "is no cheap measurement"},
    {"tooth_strength", "the feeds per tooth at which edges of this tool chipped: keep a record, "
                       "since there is no cheap measurement"},
    {"core_share", "the core of the tool, with a micrometer across the flute bottoms"},
    {"stable_share", "the depth at which this cut begins to chatter: deepen a trial slot by steps"},
    {"tool_frequency_share", TAP_TOOL},
    {"tool_damping", TAP_TOOL},
    {"spindle_frequency", TAP_MACHINE},
    {"spindle_damping", TAP_MACHINE},
    {"frame_frequency", TAP_MACHINE},
    {"frame_damping", TAP_MACHINE},
    {"frame_share", TAP_MACHINE},
    {"bond_shear", BOND},
    {"bond_pull", BOND},
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
