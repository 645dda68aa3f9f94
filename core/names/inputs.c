/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inputs: one entry for each member of bite_cut. The ranges cover whatever a shop could run; the
 * fallbacks are common values. */
#include "core/names/inputs.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

#define UM 1e-6
#define MM 1e-3
#define DEG 0.017453292519943295
#define RPM (1.0 / 60.0)
#define MM_MIN (1e-3 / 60.0)
#define CELSIUS 273.15
#define NONE ((double)NAN) /* no fallback, or one that depends on other inputs */

#define MOTION BITE_GROUP_MOTION
#define TOOL BITE_GROUP_TOOL
#define MACHINE BITE_GROUP_MACHINE
#define PART BITE_GROUP_PART
#define MATERIAL BITE_GROUP_MATERIAL
#define MODEL BITE_GROUP_MODEL

/* An entry's name and offset both follow from the member. */
#define AT(member) .name = #member, .offset = offsetof(bite_cut, member)

/* A figure of a plugin. Its name is the last one by letter, so that the dimensions of other inputs
 * do not depend on it. */
#define OWN(slot)                                                                                  \
    {                                                                                              \
        .name = "~own_" #slot, .offset = offsetof(bite_cut, own_figure[slot]), .unit = "",         \
        .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = -1e30, .most = 1e30,                 \
        .fallback = NONE, .summary = "a figure of the family's plugin"                             \
    }

static const char *const sides[] = {"climb", "conventional"};
static const char *const coolants[] = {"none", "air", "mist", "flood"};
static const char *const tool_materials[] = {"carbide", "hss", "diamond"};
static const char *const pressures[] = {"none", "edge", "power", "strength"};
static const char *const substances[] = {"metal", "amorphous", "crystalline", "thermoset",
                                         "mineral"};
static const char *const chip_forms[] = {"unstated", "soft", "tough", "short", "dust"};
static const char *const entries[] = {"outside", "plunge", "ramp", "helix"};
static const char *const operations[] = {"mill", "drill", "chamfer", "tap", "ream"};
static const char *const wall_ends[] = {"free", "held"};
static const char *const no_yes[] = {"no", "yes"};

const bite_input bite_input_table[] = {
    {AT(side), .unit = "", .kind = BITE_KIND_NUMBER, .group = MOTION, .least = 0, .most = 1,
     .fallback = NONE, .words = 2, .summary = "direction of a side cut"},
    {AT(coolant), .unit = "", .kind = BITE_KIND_NUMBER, .group = MOTION, .least = 0, .most = 3,
     .fallback = NONE, .words = 4, .summary = "what cools the tool and clears the chips"},
    {AT(tool_material), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 0, .most = 2,
     .fallback = NONE, .words = 3, .summary = "material of the tool"},
    {AT(pressure), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0, .most = 3,
     .fallback = NONE, .words = 4, .summary = "how the cutting pressure of the grade is stated"},
    {AT(substance), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0, .most = 4,
     .fallback = NONE, .words = 5,
     .summary = "class of the material; decides which limits are checked"},
    {AT(chip_form), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0, .most = 4,
     .fallback = NONE, .words = 5, .summary = "form of a metal's chips: how they leave the cut"},
    {AT(blind), .unit = "", .kind = BITE_KIND_NUMBER, .group = MOTION, .least = 0, .most = 1,
     .fallback = NONE, .words = 2,
     .summary = "whether the slot is closed, so that chips can leave only upwards"},
    {AT(entry), .unit = "", .kind = BITE_KIND_NUMBER, .group = MOTION, .least = 0, .most = 3,
     .fallback = NONE, .words = 4, .summary = "how the tool enters the material"},
    {AT(operation), .unit = "", .kind = BITE_KIND_NUMBER, .group = MOTION, .least = 0, .most = 4,
     .fallback = NONE, .words = 5,
     .summary = "what the tool does; for a drill, depth is that of a peck and feature_depth "
                "that of the hole; for a chamfer, depth is its leg; for a tap or reamer, that of "
                "the thread or hole"},
    {AT(wall_ends), .unit = "", .kind = BITE_KIND_NUMBER, .group = PART, .least = 0, .most = 1,
     .fallback = NONE, .words = 2,
     .summary = "ends of the thin wall: free, or held by the other walls of a pocket"},
    {AT(spindle_speed), .unit = "1/s", .kind = BITE_KIND_ROTATION, .group = MOTION,
     .least = 1 * RPM, .most = 500000 * RPM, .fallback = NONE, .needed = 1,
     .summary = "n, spindle speed"},
    {AT(feed_rate), .unit = "m/s", .kind = BITE_KIND_SPEED, .group = MOTION, .least = 0.1 * MM_MIN,
     .most = 60000 * MM_MIN, .fallback = NONE, .needed = 1,
     .summary = "vf, feed rate of the tool's centre"},
    {AT(depth), .unit = "m", .kind = BITE_KIND_LENGTH, .group = MOTION, .least = 1 * UM,
     .most = 100 * MM, .fallback = NONE, .needed = 1, .summary = "ap, axial depth of this pass"},
    {AT(width), .unit = "m", .kind = BITE_KIND_LENGTH, .group = MOTION, .least = 1 * UM,
     .most = 50 * MM, .fallback = NONE,
     .summary = "ae, width of the cut; if left out: from feature_width, or a full slot if "
                "that is left out too"},
    {AT(path_length), .unit = "m", .kind = BITE_KIND_LENGTH, .group = MOTION, .least = 0.1 * MM,
     .most = 100, .fallback = NONE,
     .summary = "length of the pass; if left out: long enough to warm up"},
    {AT(entry_feed), .unit = "m/s", .kind = BITE_KIND_SPEED, .group = MOTION, .least = 0.1 * MM_MIN,
     .most = 60000 * MM_MIN, .fallback = NONE,
     .summary = "feed rate along the entry move; if left out: a third of feed_rate in a "
                "plunge, otherwise half of it"},
    {AT(ramp_angle), .unit = "rad", .kind = BITE_KIND_ANGLE, .group = MOTION, .least = 0.1 * DEG,
     .most = 45 * DEG, .fallback = 3 * DEG, .summary = "slope angle of a ramp or helix entry"},
    {AT(tip_below), .unit = "m", .kind = BITE_KIND_LENGTH, .group = MOTION, .least = 0,
     .most = 50 * MM, .fallback = NONE,
     .summary = "distance from the lower end of a chamfer down to the tip of the tool; if "
                "left out: a quarter of the depth"},
    {AT(spring_passes), .unit = "", .kind = BITE_KIND_NUMBER, .group = MOTION, .least = 0,
     .most = 3, .fallback = 0, .whole = 1,
     .summary = "laps of a side cut that are repeated at the same setting: they take off what the "
                "tool and a thin wall sprang back by"},
    {AT(diameter), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 50 * UM,
     .most = 50 * MM, .fallback = NONE, .needed = 1, .summary = "D, tool diameter"},
    {AT(point_angle), .unit = "rad", .kind = BITE_KIND_ANGLE, .group = TOOL, .least = 40 * DEG,
     .most = 180 * DEG, .fallback = 118 * DEG, .summary = "point angle of a drill"},
    {AT(flutes), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 1, .most = 16,
     .fallback = 2, .whole = 1, .summary = "z, number of teeth"},
    {AT(corner_radius), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 0,
     .most = 25 * MM, .fallback = NONE,
     .summary = "corner radius of the tool; half the diameter makes a ball end"},
    {AT(helix), .unit = "rad", .kind = BITE_KIND_ANGLE, .group = TOOL, .least = -70 * DEG,
     .most = 70 * DEG, .fallback = 30 * DEG,
     .summary = "helix angle; negative: left-hand, pushes the part down"},
    {AT(rake), .unit = "rad", .kind = BITE_KIND_ANGLE, .group = TOOL, .least = -30 * DEG,
     .most = 40 * DEG, .fallback = 10 * DEG, .summary = "rake angle of the edge"},
    {AT(edge_radius), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 0.05 * UM,
     .most = 200 * UM, .fallback = NONE,
     .summary = "re, radius of the new cutting edge, or as measured in use"},
    {AT(edge_wear), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 0.5, .most = 20,
     .fallback = NONE,
     .summary = "edge radius in use / that of the new edge; if left out: 1 if edge_radius is "
                "given, otherwise that of a tool in mid life"},
    {AT(runout), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 0, .most = 1 * MM,
     .fallback = 10 * UM, .summary = "total indicated runout at the tip"},
    {AT(flute_length), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 0.05 * MM,
     .most = 200 * MM, .fallback = NONE, .summary = "length of the fluted part"},
    {AT(neck_diameter), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 0.02 * MM,
     .most = 50 * MM, .fallback = NONE, .summary = "diameter of a neck behind the flutes"},
    {AT(neck_length), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 0,
     .most = 200 * MM, .fallback = NONE, .summary = "length of the neck"},
    {AT(shank_diameter), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 0.05 * MM,
     .most = 60 * MM, .fallback = NONE, .summary = "shank diameter"},
    {AT(stickout), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 0.2 * MM,
     .most = 300 * MM, .fallback = NONE, .summary = "distance from the holder's face to the tip"},
    {AT(stiff_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 0.3, .most = 1,
     .fallback = 0.80, .summary = "diameter of a plain shaft as stiff as the fluted part / D"},
    {AT(core_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 0.2, .most = 1,
     .fallback = 0.65, .summary = "core diameter / D, for strength and heat"},
    {AT(tool_modulus), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = TOOL, .least = 10e9,
     .most = 1200e9, .fallback = NONE, .summary = "E, Young's modulus of the tool"},
    {AT(tool_poisson), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 0,
     .most = 0.49, .fallback = NONE, .summary = "Poisson's ratio of the tool"},
    {AT(tool_strength), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = TOOL, .least = 10e6,
     .most = 10e9, .fallback = NONE, .summary = "largest stress that the tool can bear"},
    {AT(tooth_strength), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = TOOL, .least = 1e6,
     .most = 1e9, .fallback = NONE,
     .summary = "edge load that one tooth withstands / D, for one flute at D = 6 mm"},
    {AT(tool_damping), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 1e-4,
     .most = 0.5, .fallback = 0.05, .summary = "damping ratio of the tool's own bending"},
    {AT(tool_frequency_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 0.1,
     .most = 1, .fallback = 0.8,
     .summary = "frequency of that bending in a holder / clamped rigidly"},
    {AT(tool_conductivity), .unit = "W/m/K", .kind = BITE_KIND_CONDUCTIVITY, .group = TOOL,
     .least = 0.5, .most = 2500, .fallback = NONE, .summary = "thermal conductivity of the tool"},
    {AT(tool_density), .unit = "kg/m3", .kind = BITE_KIND_DENSITY, .group = TOOL, .least = 1000,
     .most = 25000, .fallback = NONE, .summary = "density of the tool"},
    {AT(tool_heat_capacity), .unit = "J/kg/K", .kind = BITE_KIND_HEAT_CAPACITY, .group = TOOL,
     .least = 50, .most = 3000, .fallback = NONE, .summary = "specific heat capacity of the tool"},
    {AT(tool_speed_limit), .unit = "m/s", .kind = BITE_KIND_SURFACE_SPEED, .group = TOOL,
     .least = 0.01, .most = 200, .fallback = NONE,
     .summary = "largest surface speed for this edge in this material, in a slot"},
    {AT(tool_turn_limit), .unit = "1/s", .kind = BITE_KIND_ROTATION, .group = TOOL,
     .least = 1 * RPM, .most = 500000 * RPM, .fallback = NONE,
     .summary = "speed limit marked on the tool or the holder"},
    {AT(taper), .unit = "rad", .kind = BITE_KIND_ANGLE, .group = TOOL, .least = 1 * DEG,
     .most = 80 * DEG, .fallback = 45 * DEG,
     .summary = "half angle of a chamfer tool's cone, between its edge and its axis"},
    {AT(tip_diameter), .unit = "m", .kind = BITE_KIND_LENGTH, .group = TOOL, .least = 1 * UM,
     .most = 50 * MM, .fallback = NONE,
     .summary = "diameter of the flat at the tip of that cone; if left out: a tenth of D"},
    {AT(tap_lead), .unit = "", .kind = BITE_KIND_NUMBER, .group = TOOL, .least = 1, .most = 12,
     .fallback = NONE,
     .summary = "threads in the chamfer of a tap; if left out: 2.5 in a blind hole, otherwise 5"},
    {AT(spindle_slowest), .unit = "1/s", .kind = BITE_KIND_ROTATION, .group = MACHINE, .least = 0,
     .most = 500000 * RPM, .fallback = NONE, .summary = "lowest spindle speed"},
    {AT(spindle_fastest), .unit = "1/s", .kind = BITE_KIND_ROTATION, .group = MACHINE,
     .least = 1 * RPM, .most = 500000 * RPM, .fallback = NONE, .summary = "highest spindle speed"},
    {AT(feed_fastest), .unit = "m/s", .kind = BITE_KIND_SPEED, .group = MACHINE,
     .least = 1 * MM_MIN, .most = 200000 * MM_MIN, .fallback = NONE,
     .summary = "highest feed rate at which the machine keeps to the path"},
    {AT(acceleration), .unit = "m/s2", .kind = BITE_KIND_ACCELERATION, .group = MACHINE,
     .least = 0.001, .most = 200, .fallback = NONE, .summary = "acceleration of the axes"},
    {AT(power_limit), .unit = "W", .kind = BITE_KIND_POWER, .group = MACHINE, .least = 0.1,
     .most = 200e3, .fallback = NONE, .summary = "continuous power at the cutter"},
    {AT(torque_limit), .unit = "N m", .kind = BITE_KIND_TORQUE, .group = MACHINE, .least = 1e-4,
     .most = 5000, .fallback = NONE, .summary = "torque at the cutter, at and above torque_speed"},
    {AT(torque_speed), .unit = "1/s", .kind = BITE_KIND_ROTATION, .group = MACHINE,
     .least = 1 * RPM, .most = 500000 * RPM, .fallback = NONE,
     .summary = "speed below which the torque falls"},
    {AT(torque_exponent), .unit = "", .kind = BITE_KIND_NUMBER, .group = MACHINE, .least = 0,
     .most = 5, .fallback = NONE, .summary = "how it falls: (n/torque_speed)^exponent"},
    {AT(machine_stiffness), .unit = "N/m", .kind = BITE_KIND_STIFFNESS, .group = MACHINE,
     .least = 1e3, .most = 1e10, .fallback = 5e6,
     .summary = "stiffness of holder and machine, pushed at the holder"},
    {AT(cooling), .unit = "W/m2/K", .kind = BITE_KIND_HEAT_TRANSFER, .group = MACHINE, .least = 0,
     .most = 1e5, .fallback = NONE, .summary = "heat transfer coefficient of the tool's surface"},
    {AT(surface_cooling), .unit = "W/m2/K", .kind = BITE_KIND_HEAT_TRANSFER, .group = MACHINE,
     .least = 0, .most = 1e5, .fallback = NONE,
     .summary = "heat transfer coefficient of the cut surface and of chips"},
    {AT(room_temperature), .unit = "K", .kind = BITE_KIND_TEMPERATURE, .group = MACHINE,
     .least = CELSIUS - 20, .most = CELSIUS + 60, .fallback = CELSIUS + 20,
     .summary = "temperature of the room and of the stock"},
    {AT(holder_temperature), .unit = "K", .kind = BITE_KIND_TEMPERATURE, .group = MACHINE,
     .least = CELSIUS - 20, .most = CELSIUS + 120, .fallback = NONE,
     .summary = "temperature of the holder; if left out: 5 K above the room"},
    {AT(frame_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MACHINE, .least = 0.05,
     .most = 0.95, .fallback = 0.6,
     .summary = "share of the machine's compliance that is the frame's"},
    {AT(frame_frequency), .unit = "Hz", .kind = BITE_KIND_FREQUENCY, .group = MACHINE, .least = 1,
     .most = 1e5, .fallback = 90, .summary = "frequency of the frame"},
    {AT(frame_damping), .unit = "", .kind = BITE_KIND_NUMBER, .group = MACHINE, .least = 1e-4,
     .most = 0.5, .fallback = 0.05, .summary = "damping ratio of the frame"},
    {AT(spindle_frequency), .unit = "Hz", .kind = BITE_KIND_FREQUENCY, .group = MACHINE, .least = 1,
     .most = 1e5, .fallback = 800,
     .summary = "frequency of spindle and holder, which have the rest of the compliance"},
    {AT(spindle_damping), .unit = "", .kind = BITE_KIND_NUMBER, .group = MACHINE, .least = 1e-4,
     .most = 0.5, .fallback = 0.04, .summary = "damping ratio of spindle and holder"},
    {AT(mode_frequency), .unit = "Hz", .kind = BITE_KIND_FREQUENCY, .group = MACHINE, .least = 1,
     .most = 1e6, .fallback = NONE, .summary = "measured frequency of the mode that chatters"},
    {AT(mode_stiffness), .unit = "N/m", .kind = BITE_KIND_STIFFNESS, .group = MACHINE, .least = 1e3,
     .most = 1e10, .fallback = NONE,
     .summary = "stiffness of that mode at the tip; if left out: that of the machine"},
    {AT(mode_damping), .unit = "", .kind = BITE_KIND_NUMBER, .group = MACHINE, .least = 1e-4,
     .most = 0.5, .fallback = 0.03, .summary = "damping ratio of that mode"},
    {AT(mode2_frequency), .unit = "Hz", .kind = BITE_KIND_FREQUENCY, .group = MACHINE, .least = 1,
     .most = 1e6, .fallback = NONE, .summary = "measured frequency of a second mode"},
    {AT(mode2_stiffness), .unit = "N/m", .kind = BITE_KIND_STIFFNESS, .group = MACHINE,
     .least = 1e3, .most = 1e10, .fallback = NONE,
     .summary = "stiffness of the second mode at the tip; if left out: that of the machine"},
    {AT(mode2_damping), .unit = "", .kind = BITE_KIND_NUMBER, .group = MACHINE, .least = 1e-4,
     .most = 0.5, .fallback = 0.03, .summary = "damping ratio of the second mode"},
    {AT(mode3_frequency), .unit = "Hz", .kind = BITE_KIND_FREQUENCY, .group = MACHINE, .least = 1,
     .most = 1e6, .fallback = NONE, .summary = "measured frequency of a third mode"},
    {AT(mode3_stiffness), .unit = "N/m", .kind = BITE_KIND_STIFFNESS, .group = MACHINE,
     .least = 1e3, .most = 1e10, .fallback = NONE,
     .summary = "stiffness of the third mode at the tip; if left out: that of the machine"},
    {AT(mode3_damping), .unit = "", .kind = BITE_KIND_NUMBER, .group = MACHINE, .least = 1e-4,
     .most = 0.5, .fallback = 0.03, .summary = "damping ratio of the third mode"},
    {AT(tolerance), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 0.1 * UM,
     .most = 10 * MM, .fallback = 0.1 * MM, .summary = "tolerance, plus or minus"},
    {AT(finish), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 1e-9,
     .most = 1 * MM, .fallback = NONE, .summary = "required roughness Ra"},
    {AT(inside_radius), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 1, .fallback = NONE, .summary = "smallest inside corner radius of the part"},
    {AT(feature_depth), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 1 * UM,
     .most = 300 * MM, .fallback = NONE, .summary = "depth of the whole feature"},
    {AT(floor_thickness), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 0,
     .most = 1, .fallback = NONE,
     .summary = "thickness left under the tool; 0: the tool cuts through"},
    {AT(wall_thickness), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 1, .fallback = NONE, .summary = "thickness of the thin wall beside the cut"},
    {AT(wall_height), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 1, .fallback = NONE,
     .summary = "height of that wall; if left out: the depth of the feature"},
    {AT(wall_length), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 10, .fallback = NONE,
     .summary = "length of that wall between its ends; if left out: long"},
    {AT(floor_span), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 10, .fallback = NONE,
     .summary = "short side of a floor that is not supported from below"},
    {AT(floor_length), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 10, .fallback = NONE, .summary = "long side of that floor; if left out: long"},
    {AT(gap), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM, .most = 10,
     .fallback = NONE, .summary = "narrowest passage that the tool must go through"},
    {AT(bond_area), .unit = "m2", .kind = BITE_KIND_AREA, .group = PART, .least = 1e-9, .most = 10,
     .fallback = NONE, .summary = "bonded area left under the part at the end of the cut"},
    {AT(bond_width), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 10, .fallback = NONE,
     .summary = "shorter side of that area; if left out: the area is a square"},
    {AT(bond_shear), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = PART, .least = 10,
     .most = 1e9, .fallback = NONE,
     .summary = "shear strength of the bond, for a minute at 23 degC"},
    {AT(bond_pull), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = PART, .least = 10, .most = 1e9,
     .fallback = NONE, .summary = "tensile strength of the bond over its area, likewise"},
    {AT(bond_exponent), .unit = "", .kind = BITE_KIND_NUMBER, .group = PART, .least = 0, .most = 1,
     .fallback = NONE, .summary = "m in time^-m, the strength of the bond over time"},
    {AT(bond_halving), .unit = "K", .kind = BITE_KIND_RISE, .group = PART, .least = 1, .most = 1000,
     .fallback = NONE, .summary = "temperature rise that halves the strength of the bond"},
    {AT(bond_modulus), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = PART, .least = 1e3,
     .most = 100e9, .fallback = NONE, .summary = "Young's modulus of the bond's soft layer"},
    {AT(bond_thickness), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 1 * UM,
     .most = 0.05, .fallback = NONE, .summary = "thickness of that layer"},
    {AT(bond_limit), .unit = "K", .kind = BITE_KIND_TEMPERATURE, .group = PART, .least = 250,
     .most = 1000, .fallback = NONE, .summary = "temperature above which the bond fails"},
    {AT(bond_temperature), .unit = "K", .kind = BITE_KIND_TEMPERATURE, .group = PART, .least = 250,
     .most = 1000, .fallback = NONE,
     .summary = "temperature of the bond; if left out: as computed from the floor, or the room's"},
    {AT(bond_force), .unit = "", .kind = BITE_KIND_NUMBER, .group = PART, .least = 0.5, .most = 5,
     .fallback = 1.1, .summary = "factor on the force at the bond, for ringing"},
    {AT(load_time), .unit = "s", .kind = BITE_KIND_TIME, .group = PART, .least = 1, .most = 1e7,
     .fallback = 60, .summary = "time for which the bond has been under load"},
    {AT(flatness), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 1 * UM,
     .most = 0.1, .fallback = NONE, .summary = "required flatness of the part once it is released"},
    {AT(part_span), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 100 * UM,
     .most = 10, .fallback = NONE, .summary = "longest side of the part"},
    {AT(part_thickness), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 1, .fallback = NONE, .summary = "thickest section of the part"},
    {AT(stock_thickness), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 1, .fallback = NONE, .summary = "nominal thickness of the sheet before the cut"},
    {AT(stock_tolerance), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 0,
     .most = 0.1, .fallback = NONE,
     .summary = "plus or minus tolerance of that thickness; if the sheet was measured: its "
                "spread"},
    {AT(skim), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 0, .most = 0.1,
     .fallback = NONE, .summary = "least thickness to be removed from both faces together"},
    {AT(removed_top), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 0, .most = 1,
     .fallback = NONE, .summary = "thickness removed from the top face by all passes"},
    {AT(removed_below), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 0, .most = 1,
     .fallback = NONE, .summary = "thickness removed from the bottom face by all passes"},
    {AT(face_strain), .unit = "", .kind = BITE_KIND_FRACTION, .group = PART, .least = 0,
     .most = 0.05, .fallback = NONE,
     .summary = "strain by which one face is longer than the other, from heat or moisture"},
    {AT(bridge_span), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 1, .fallback = NONE,
     .summary = "length of a strip left between two cuts, held at both ends"},
    {AT(bridge_width), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 1, .fallback = NONE,
     .summary = "width of that strip along the tool's axis; if left out: the depth of the "
                "pass"},
    {AT(bridge_thickness), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 1, .fallback = NONE,
     .summary = "thickness of that strip in the direction of the side force"},
    {AT(feature_width), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 1 * UM,
     .most = 1, .fallback = NONE,
     .summary = "stock to be removed sideways over the whole feature; if width is left out: "
                "in equal passes no wider than the tool"},
    {AT(hole_diameter), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 50 * UM,
     .most = 50 * MM, .fallback = NONE,
     .summary = "diameter of the hole before it is tapped or reamed; if left out: from "
                "thread_share or ream_stock"},
    {AT(pitch), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 50 * UM,
     .most = 8 * MM, .fallback = NONE, .summary = "P, pitch of the thread to be tapped"},
    {AT(thread_share), .unit = "", .kind = BITE_KIND_FRACTION, .group = PART, .least = 0.3,
     .most = 1, .fallback = 0.75,
     .summary = "height of the thread / that of a full one (0.65 pitch): the percent of thread"},
    {AT(ream_stock), .unit = "m", .kind = BITE_KIND_LENGTH, .group = PART, .least = 10 * UM,
     .most = 3 * MM, .fallback = NONE,
     .summary = "stock on the diameter that is left for a reamer; if left out: by its diameter"},
    {AT(density), .unit = "kg/m3", .kind = BITE_KIND_DENSITY, .group = MATERIAL, .least = 100,
     .most = 25000, .fallback = NONE, .needed = 1, .summary = "density"},
    {AT(heat_capacity), .unit = "J/kg/K", .kind = BITE_KIND_HEAT_CAPACITY, .group = MATERIAL,
     .least = 50, .most = 6000, .fallback = NONE, .needed = 1, .summary = "specific heat capacity"},
    {AT(conductivity), .unit = "W/m/K", .kind = BITE_KIND_CONDUCTIVITY, .group = MATERIAL,
     .least = 0.01, .most = 2500, .fallback = NONE, .needed = 1, .summary = "thermal conductivity"},
    {AT(chip_ratio), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 1,
     .most = 10, .fallback = 1.6,
     .summary = "chip thickness after / before the cut; sets the shear angle"},
    {AT(heat_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0.1,
     .most = 1, .fallback = 0.75, .summary = "share of the plastic work that turns into heat"},
    {AT(friction_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0,
     .most = 0.8, .fallback = 0.3,
     .summary = "share of the cutting work that is friction on the rake face"},
    {AT(sublayer_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0.01,
     .most = 1, .fallback = 0.35,
     .summary = "share of the friction heat that reaches the interface"},
    {AT(pressure_t), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = MATERIAL, .least = 1e6,
     .most = 20e9, .fallback = NONE,
     .summary = "K, cutting pressure (power law: at a chip of 1 mm)"},
    {AT(pressure_r), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = MATERIAL, .least = 0,
     .most = 20e9, .fallback = NONE, .summary = "radial cutting pressure; if left out: 0.3 K"},
    {AT(pressure_a), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = MATERIAL, .least = 0,
     .most = 20e9, .fallback = NONE,
     .summary = "axial cutting pressure; if left out: from the helix"},
    {AT(edge_t), .unit = "N/m", .kind = BITE_KIND_EDGE_FORCE, .group = MATERIAL, .least = 0,
     .most = 1e6, .fallback = NONE, .summary = "Ke, tangential edge force per length of edge"},
    {AT(edge_r), .unit = "N/m", .kind = BITE_KIND_EDGE_FORCE, .group = MATERIAL, .least = 0,
     .most = 1e6, .fallback = NONE, .summary = "radial edge force; if left out: 1.2 Ke"},
    {AT(edge_a), .unit = "N/m", .kind = BITE_KIND_EDGE_FORCE, .group = MATERIAL, .least = 0,
     .most = 1e6, .fallback = NONE, .summary = "axial edge force; if left out: none"},
    {AT(edge_reference), .unit = "m", .kind = BITE_KIND_LENGTH, .group = MATERIAL,
     .least = 0.1 * UM, .most = 200 * UM, .fallback = 10 * UM,
     .summary = "edge radius of the tools with which Ke was measured"},
    {AT(pressure_exponent), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0,
     .most = 0.8, .fallback = NONE, .summary = "mc, exponent of the power law"},
    {AT(pressure_rake), .unit = "1/rad", .kind = BITE_KIND_PER_ANGLE, .group = MATERIAL, .least = 0,
     .most = 4, .fallback = NONE, .summary = "fall of K with rake"},
    {AT(pressure_rake_at), .unit = "rad", .kind = BITE_KIND_ANGLE, .group = MATERIAL,
     .least = -30 * DEG, .most = 40 * DEG, .fallback = 10 * DEG,
     .summary = "rake at which K was measured"},
    {AT(pressure_temperature), .unit = "K", .kind = BITE_KIND_TEMPERATURE, .group = MATERIAL,
     .least = 200, .most = 800, .fallback = CELSIUS + 23,
     .summary = "temperature at which K was measured"},
    {AT(shear_strength), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = MATERIAL, .least = 0.1e6,
     .most = 5e9, .fallback = NONE,
     .summary = "mean stress on the shear plane at cutting strain rates"},
    {AT(yield), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = MATERIAL, .least = 0.1e6,
     .most = 5e9, .fallback = NONE, .summary = "flow stress at the edge at cutting strain rates"},
    {AT(friction), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0.01,
     .most = 2, .fallback = NONE, .summary = "coefficient of friction on the tool"},
    {AT(fracture_energy), .unit = "J/m2", .kind = BITE_KIND_SURFACE_ENERGY, .group = MATERIAL,
     .least = 0, .most = 1e6, .fallback = NONE, .summary = "energy per area of new surface"},
    {AT(minimum_chip), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0.01,
     .most = 2, .fallback = 0.35, .summary = "minimum chip thickness / edge radius"},
    {AT(hardening), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0, .most = 2,
     .fallback = 0,
     .summary = "degree of work hardening of the cut skin: the chip must be thicker by 0.7 of it"},
    {AT(transition), .unit = "K", .kind = BITE_KIND_TEMPERATURE, .group = MATERIAL, .least = 100,
     .most = 2500, .fallback = NONE,
     .summary = "glass transition, or melting point if crystalline"},
    {AT(wlf_c1), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 5, .most = 60,
     .fallback = NONE, .summary = "C1 of the shift of time with temperature of a glassy polymer"},
    {AT(wlf_c2), .unit = "K", .kind = BITE_KIND_RISE, .group = MATERIAL, .least = 20, .most = 200,
     .fallback = NONE, .summary = "C2 of the same shift"},
    {AT(tack_decades), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0,
     .most = 10, .fallback = NONE,
     .summary =
         "powers of ten in time by which chips of a glassy polymer clog later than they flow"},
    {AT(softening), .unit = "K", .kind = BITE_KIND_TEMPERATURE, .group = MATERIAL, .least = 250,
     .most = 2000, .fallback = NONE,
     .summary = "shop limit of the grade for the temperature of its surface"},
    {AT(welding), .unit = "K", .kind = BITE_KIND_TEMPERATURE, .group = MATERIAL, .least = 250,
     .most = 2500, .fallback = NONE,
     .summary = "temperature above which the chip sticks to the tool"},
    {AT(packing_limit), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0.01,
     .most = 10, .fallback = NONE, .summary = "ap/D of a slot that one flute can still clear dry"},
    {AT(charted_chip), .unit = "m", .kind = BITE_KIND_LENGTH, .group = MATERIAL, .least = 1e-6,
     .most = 0.01, .fallback = NONE,
     .summary = "largest published feed per tooth of a tool of one flute and 6.35 mm"},
    {AT(charted_exponent), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0,
     .most = 2, .fallback = NONE,
     .summary = "exponent of the growth of charted_chip with the diameter"},
    {AT(modulus), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = MATERIAL, .least = 1e6,
     .most = 1200e9, .fallback = NONE, .summary = "E, Young's modulus of the material"},
    {AT(poisson), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0, .most = 0.49,
     .fallback = NONE, .summary = "Poisson's ratio of the material"},
    {AT(expansion), .unit = "1/K", .kind = BITE_KIND_EXPANSION, .group = MATERIAL, .least = 0,
     .most = 1e-3, .fallback = NONE, .summary = "coefficient of thermal expansion"},
    {AT(crazing), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = MATERIAL, .least = 0.1e6,
     .most = 1e9, .fallback = NONE,
     .summary = "stress that the material bears for a long time without crazing"},
    {AT(chip_edge), .unit = "m", .kind = BITE_KIND_LENGTH, .group = MATERIAL, .least = 1 * UM,
     .most = 10 * MM, .fallback = NONE, .summary = "chip thickness at which exit edges break out"},
    {AT(refraction), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 1, .most = 4,
     .fallback = NONE, .summary = "refractive index of a clear material"},
    {AT(taylor_speed), .unit = "m/s", .kind = BITE_KIND_SURFACE_SPEED, .group = MATERIAL,
     .least = 0.01, .most = 1000, .fallback = NONE,
     .summary = "surface speed at which a carbide edge lasts one minute"},
    {AT(taylor_exponent), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0.02,
     .most = 1, .fallback = NONE, .summary = "n in v T^n = C"},
    {AT(skin_stress), .unit = "Pa", .kind = BITE_KIND_STRESS, .group = MATERIAL, .least = 0,
     .most = 1e9, .fallback = NONE, .summary = "stress in the skins of the sheet as delivered"},
    {AT(bond_adhesion), .unit = "", .kind = BITE_KIND_FRACTION, .group = MATERIAL, .least = 0.01,
     .most = 2, .fallback = 1,
     .summary = "share of its strength that tape or glue reaches on this material"},
    {AT(skin_depth), .unit = "", .kind = BITE_KIND_NUMBER, .group = MATERIAL, .least = 0.1,
     .most = 10, .fallback = 1, .summary = "depth of the ploughed skin / edge radius"},
    {AT(edge_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0.01, .most = 1,
     .fallback = 0.4,
     .summary = "fraction of sublayer_share that applies to the energy of the edge"},
    {AT(walk_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0, .most = 3,
     .fallback = 1, .summary = "factor on the share of its own heat that the cutter meets again"},
    {AT(spring_back), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0, .most = 2,
     .fallback = 0.2, .summary = "height by which the surface springs back / edge radius"},
    {AT(rub_heat), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0, .most = 2,
     .fallback = 0.5, .summary = "heat of a rub on that surface / heat of a cut"},
    {AT(wall_heat), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0.1, .most = 10,
     .fallback = 1, .summary = "factor on the sustained rise of wall and floor"},
    {AT(rub_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0.05, .most = 5,
     .fallback = 0.5, .summary = "chip thickness below which the edge rubs / edge radius"},
    {AT(runout_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0.01,
     .most = 2, .fallback = 0.15, .summary = "runout that breaks a tool / D"},
    {AT(stable_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0.1,
     .most = 50, .fallback = 6,
     .summary = "depth at which chatter is heard / at which vibration begins to grow"},
    {AT(chip_bulk), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 1, .most = 50,
     .fallback = NONE,
     .summary =
         "space that a chip takes in its flute / its solid volume; if left out: by chip_form"},
    {AT(packing_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0.1,
     .most = 10, .fallback = 1, .summary = "factor on the depth that flutes clear"},
    {AT(plunge_share), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0.01,
     .most = 5, .fallback = 0.4,
     .summary = "plunge feed above which small tools break / side feed"},
    {AT(recutting), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0, .most = 10,
     .fallback = 0.4, .summary = "work of cutting the chips of a full flute again / cutting work"},
    {AT(tap_drag), .unit = "", .kind = BITE_KIND_NUMBER, .group = MODEL, .least = 0.1, .most = 10,
     .fallback = 1.2,
     .summary = "torque of a tap / that of its cutting teeth: flanks that rub, chips"},
    /* behind those that are counted: figures of a plugin, for their draws */
    OWN(0),
    OWN(1),
    OWN(2),
    OWN(3),
    OWN(4),
    OWN(5),
    OWN(6),
    OWN(7),
};
const size_t bite_input_table_count =
    sizeof bite_input_table / sizeof *bite_input_table - BITE_OWN_FIGURES;

/* The words of the inputs that are a choice, by the values of their enums in coolbite.h. */
static const struct {
    const char *input;
    const char *const *words;
} choices[] = {
    {"side", sides},           {"coolant", coolants},     {"tool_material", tool_materials},
    {"pressure", pressures},   {"substance", substances}, {"blind", no_yes},
    {"entry", entries},        {"operation", operations}, {"wall_ends", wall_ends},
    {"chip_form", chip_forms},
};

/* The values of strength_curve are relative to the strength at pressure_temperature. */
const bite_curve_input bite_curve_inputs[] = {
    {"heat_capacity_curve", offsetof(bite_cut, heat_capacity_curve), 50, 6000,
     BITE_KIND_HEAT_CAPACITY, 0},
    {"strength_curve", offsetof(bite_cut, strength_curve), 0.001, 100, BITE_KIND_NUMBER, 0},
};
const size_t bite_curve_input_count = sizeof bite_curve_inputs / sizeof *bite_curve_inputs;

size_t bite_input_count(void)
{
    return bite_input_table_count;
}

const bite_input *bite_input_at(size_t index)
{
    return index < bite_input_table_count ? &bite_input_table[index] : NULL;
}

const bite_input *bite_input_entry(size_t index)
{
    return index < bite_input_table_count + BITE_OWN_FIGURES ? &bite_input_table[index] : NULL;
}

/* The first letters are compared by themselves: they differ in most names, and a call for each name
 * would take a quarter of the time of a row of cases. */
const bite_input *bite_input_find(const char *name)
{
    for (size_t i = 0; name != NULL && i < bite_input_table_count; i++) {
        const char *own = bite_input_table[i].name;
        if (own[0] == name[0] && own[1] == name[1] && strcmp(own, name) == 0) {
            return &bite_input_table[i];
        }
    }
    return NULL;
}

size_t bite_input_index(const bite_input *input)
{
    return (size_t)(input - bite_input_table);
}

const char *bite_input_word(const bite_input *input, uint32_t index)
{
    for (size_t i = 0;
         input != NULL && index < input->words && i < sizeof choices / sizeof *choices; i++) {
        if (strcmp(choices[i].input, input->name) == 0) {
            return choices[i].words[index];
        }
    }
    return NULL;
}

double *bite_input_number(bite_cut *cut, const bite_input *input)
{
    return (double *)(void *)((char *)cut + input->offset);
}

const double *bite_input_number_of(const bite_cut *cut, const bite_input *input)
{
    return (const double *)(const void *)((const char *)cut + input->offset);
}

uint32_t *bite_input_choice(bite_cut *cut, const bite_input *input)
{
    return (uint32_t *)(void *)((char *)cut + input->offset);
}

const uint32_t *bite_input_choice_of(const bite_cut *cut, const bite_input *input)
{
    return (const uint32_t *)(const void *)((const char *)cut + input->offset);
}
