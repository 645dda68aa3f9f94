/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outputs: what each computed value is, by which equation, and from which source. */
#include "core/names/outputs.h"

#define KINEMATICS "handbook: DIN 6580 kinematics, as in any text on milling"
#define LINEAR_EDGE                                                                                \
    "paper: Budak, Altintas and Armarego 1996, linear edge model (recalled, re-derived and "       \
    "checked)"
#define HEAT_MODEL                                                                                 \
    "estimate: Weiner 1955 partition, contact impedances after Jaeger 1942, tool as a stepped "    \
    "fin; levels are uncalibrated"

const bite_definition bite_output_table[BITE_VALUE_COUNT] = {
    [BITE_SURFACE_SPEED] =
        {"surface_speed", "m/s", "surface speed of the edge",
         "vc = pi D n, at the cutting diameter; for a chamfer, at its largest diameter", KINEMATICS,
         "", BITE_KIND_SURFACE_SPEED, 0},
    [BITE_SPINDLE_SPEED] = {"spindle_speed", "1/s", "spindle speed to enter", "n = vc/(pi D)",
                            KINEMATICS, "", BITE_KIND_ROTATION, 0},
    [BITE_FEED_RATE] = {"feed_rate", "m/s", "feed rate of the tool's centre, to enter",
                        "vf = n z fz", KINEMATICS, "", BITE_KIND_SPEED, 0},
    [BITE_CHIP_LOAD] = {"chip_load", "m", "feed per tooth as programmed", "fz = vf/(n z)",
                        KINEMATICS, "", BITE_KIND_TOOTH_FEED, 0},
    [BITE_CHIP_LOAD_HEAVY] = {"chip_load_heavy", "m", "feed of the tooth that runout loads most",
                              "min(z fz, fz + TIR sin(pi/z))",
                              "paper: Kline and DeVor 1983 (recalled)", "", BITE_KIND_TOOTH_FEED,
                              0},
    [BITE_CHIP_LOAD_LIGHT] = {"chip_load_light", "m", "feed of the tooth that runout loads least",
                              "max(0, fz - TIR sin(pi/z))",
                              "paper: Kline and DeVor 1983 (recalled)", "", BITE_KIND_TOOTH_FEED,
                              0},
    [BITE_CHIP_THICKNESS_MAX] = {"chip_thickness_max", "m",
                                 "largest chip thickness at this engagement, without runout",
                                 "fz sin(phi_s), at most fz; cos(phi_s) = 1 - 2 ae/D", KINEMATICS,
                                 "", BITE_KIND_LENGTH, 0},
    [BITE_CHIP_THICKNESS_MEAN] = {"chip_thickness_mean", "m",
                                  "mean chip thickness over the arc of contact",
                                  "fz (cos phi_st - cos phi_ex)/(phi_ex - phi_st)", KINEMATICS, "",
                                  BITE_KIND_LENGTH, 0},
    [BITE_CHIP_THICKNESS_LEAST] = {"chip_thickness_least", "m",
                                   "chip thickness below which the edge rubs instead of cutting",
                                   "h_min = xi re",
                                   "paper: James and others 2014 (PMMA, xi 0.33); usual range 0.14 "
                                   "to 0.43, Cheng and others 2018",
                                   "", BITE_KIND_LENGTH, 0},
    [BITE_ENGAGEMENT] = {"engagement", "rad", "arc of contact", "phi_s = acos(1 - 2 ae/D)",
                         KINEMATICS, "", BITE_KIND_ANGLE, 0},
    [BITE_REMOVAL_RATE] = {"removal_rate", "m3/s", "volume removed per time",
                           "Q = ap ae vf; for a chamfer ap^2 tan(taper) vf/2", KINEMATICS, "",
                           BITE_KIND_REMOVAL_RATE, 0},
    [BITE_FORCE_TANGENTIAL_PEAK] =
        {"force_tangential_peak", "N", "largest sum of the tangential forces over one revolution",
         "sum of (K h + Ke) along the helix, with the tooth that runout loads most", LINEAR_EDGE,
         "", BITE_KIND_FORCE, 0},
    [BITE_FORCE_SIDE_PEAK] = {"force_side_peak", "N",
                              "largest force across the tool's axis over one revolution",
                              "largest |(Fx, Fy)|", LINEAR_EDGE, "", BITE_KIND_FORCE, 0},
    [BITE_FORCE_SIDE_MEAN] = {"force_side_mean", "N",
                              "magnitude of the mean force across the tool's axis",
                              "|mean (Fx, Fy)|", LINEAR_EDGE, "", BITE_KIND_FORCE, 0},
    [BITE_FORCE_LIFT_PEAK] = {"force_lift_peak", "N",
                              "largest force on the part along the axis; upwards is positive",
                              "sum of (Ka h + Kea) along the helix; a left-hand helix pushes down",
                              LINEAR_EDGE, "", BITE_KIND_FORCE, 0},
    [BITE_TORQUE_PEAK] = {"torque_peak", "N m", "largest torque over one revolution", "T = Ft R",
                          LINEAR_EDGE, "", BITE_KIND_TORQUE, 0},
    [BITE_POWER_MEAN] = {"power_mean", "W", "mean power at the cutter",
                         "P = mean Ft vc; with Ke = 0 this is K Q", LINEAR_EDGE, "",
                         BITE_KIND_POWER, 0},
    [BITE_SPECIFIC_ENERGY] = {"specific_energy", "J/m3", "energy per volume removed", "P/Q",
                              LINEAR_EDGE, "", BITE_KIND_SPECIFIC_ENERGY, 0},
    [BITE_CHIP_TEMPERATURE] =
        {"chip_temperature", "K", "mean temperature of the chip, friction included",
         "T_start + preheat + (1 - Gamma) u_s/(rho c) + friction heat kept by the "
         "chip",
         HEAT_MODEL, "", BITE_KIND_TEMPERATURE, 0},
    [BITE_SURFACE_TEMPERATURE] =
        {"surface_temperature", "K",
         "temperature of the finished wall or floor, whichever is warmer, sustained from tooth to "
         "tooth",
         "T_start + E1 phi/cbrt((d rho c/(M_l + w N))^3 + (e sqrt(pi t_t)/F)^3)", HEAT_MODEL, "",
         BITE_KIND_TEMPERATURE, 0},
    [BITE_FILM_TEMPERATURE] = {"film_temperature", "K",
                               "temperature of the film under the edge, close to the tool's",
                               "(e_t T_tool + e_w T_skin)/(e_t + e_w)", HEAT_MODEL, "",
                               BITE_KIND_TEMPERATURE, 0},
    [BITE_TOOL_TEMPERATURE] = {"tool_temperature", "K",
                               "temperature of the tool's body at the edge",
                               "balance of rake, flank and fin", HEAT_MODEL, "",
                               BITE_KIND_TEMPERATURE, 0},
    [BITE_PART_TEMPERATURE] =
        {"part_temperature", "K",
         "temperature of the part at its bond, behind the cut; needs floor_thickness",
         "Rosenthal's thin plate at D/2 + half the floor", HEAT_MODEL, "", BITE_KIND_TEMPERATURE,
         0},
    [BITE_PREHEAT] = {"preheat", "K",
                      "temperature rise above the room of the work that the next tooth meets",
                      "r Q_w/(rho c Q)", HEAT_MODEL, "", BITE_KIND_RISE, 0},
    [BITE_HEAT_TO_PART] = {"heat_to_part", "W", "heat that stays in the part", "(1 - r) Q_w",
                           HEAT_MODEL, "", BITE_KIND_POWER, 0},
    [BITE_DEFLECTION_TIP] =
        {"deflection_tip", "m", "deflection of the tip at the largest side force",
         "F (compliance of tool + machine)",
         "handbook: stepped cantilever with shear; fluted part 0.80 D, Kops and Vo 1990", "",
         BITE_KIND_LENGTH, 0},
    [BITE_WALL_ERROR] =
        {"wall_error", "m", "magnitude of the error of the worse of the finished walls",
         "the larger of |wall_climb| and |wall_conventional|",
         "handbook: stepped cantilever with shear; fluted part 0.80 D, Kops and Vo 1990", "",
         BITE_KIND_LENGTH, 0},
    [BITE_TOOL_STRESS] = {"tool_stress", "Pa", "largest stress in the tool",
                          "sigma/2 + sqrt(sigma^2/4 + tau^2) at core and steps",
                          "handbook: bending and torsion of a round shaft", "", BITE_KIND_STRESS,
                          0},
    [BITE_ROUGHNESS_FLOOR] = {"roughness_floor", "m", "height Rt of the feed marks on the floor",
                              "fz tan 2 deg; with a corner radius at most fz^2/(8 r)",
                              "memory: end teeth dished by two degrees; fz^2/(8 r) in any handbook",
                              "", BITE_KIND_LENGTH, 0},
    [BITE_ROUGHNESS_WALL] = {"roughness_wall", "m", "height Rt of the feed marks on the wall",
                             "fz^2/(4 D); for a chamfer fz^2 cos(taper)/(8 r) at its small end",
                             "handbook: Ghosh and Mallik, Manufacturing Science, problem 4.25", "",
                             BITE_KIND_LENGTH, 0},
    [BITE_STABILITY_DEPTH] =
        {"stability_depth", "m",
         "depth above which vibration grows at this speed: of the measured modes, or else the "
         "least of frame, spindle and tool",
         "4 pi k |D|/(2 sin(c - psi) z K |L|), divided by 1 - Z a/zeta, the flank's damping; for a "
         "measured mode in a light side cut: waves on the arc",
         "paper: Altintas and Budak 1995 (recalled, re-derived and checked); light cuts: derived, "
         "checked by Insperger and Stepan 2004 (recalled); modes of machine classes: memory",
         "", BITE_KIND_LENGTH, 0},
    [BITE_TIP_FREQUENCY] = {"tip_frequency", "Hz",
                            "first natural frequency of the tool, clamped in its holder",
                            "Euler and Bernoulli's beam by transfer matrices",
                            "handbook: vibration of beams", "", BITE_KIND_FREQUENCY, 0},
    [BITE_HAZE] = {"haze", "1",
                   "largest share of the light that the feed marks on a floor scatter; wide marks "
                   "deflect it only a little",
                   "1 - exp(-(2 pi (n - 1) Rq/lambda)^2), Rq = 0.3 Rt, lambda 550 nm",
                   "memory: total integrated scatter", "", BITE_KIND_FRACTION, 0},
    [BITE_TOOL_LIFE] = {"tool_life", "s", "time that the edge lasts",
                        "Taylor: T = 1 min (C/vc)^(1/n)",
                        "memory: Taylor's law, constants of turning tests", "", BITE_KIND_TIME, 0},
    [BITE_SURFACE_SPEED_SMALL] = {"surface_speed_small", "m/s",
                                  "surface speed of the edge at the small end of a chamfer",
                                  "pi (tip + 2 below tan(taper)) n", KINEMATICS, "",
                                  BITE_KIND_SURFACE_SPEED, 0},
    [BITE_FLASH_TEMPERATURE] = {"flash_temperature", "K",
                                "temperature of the skin under the edge, for about a tenth of a "
                                "millisecond; at most that at which the material flows at once",
                                "T_start + E1/(rho c (d^1.8 + (0.5 sqrt(pi a l_f/v))^1.8)^(1/1.8))",
                                HEAT_MODEL, "", BITE_KIND_TEMPERATURE, 0},
    [BITE_SURFACE_DWELL] = {"surface_dwell", "s", "time for which the finished surface stays warm",
                            "(M + N) f_r/vf", HEAT_MODEL, "", BITE_KIND_TIME, 0},
    [BITE_FLOW_TEMPERATURE] =
        {"flow_temperature", "K",
         "temperature at which the finished surface would flow within the time for which it stays "
         "warm; the melting point if crystalline",
         "Tg + C2 L/(C1 - L), L = lg(100 s/t)",
         "memory: Williams, Landel and Ferry 1955; constants of Ferry's tables", "",
         BITE_KIND_TEMPERATURE, 0},
    [BITE_WALL_CLIMB] =
        {"wall_climb", "m",
         "material that bending leaves on the wall that is climb milled (positive), or that "
         "bending and runout remove in excess (negative)",
         "Fy at the moment the edge finishes the wall x compliance, the worst over the heights, "
         "less TIR/2",
         "handbook: stepped cantilever with shear; fluted part 0.80 D, Kops and Vo 1990", "",
         BITE_KIND_LENGTH, 0},
    [BITE_WALL_CONVENTIONAL] = {"wall_conventional", "m",
                                "the same on the wall that is milled conventionally",
                                "as wall_climb, with Fy reversed",
                                "handbook: stepped cantilever with shear; fluted part 0.80 D, Kops "
                                "and Vo 1990",
                                "", BITE_KIND_LENGTH, 0},
    [BITE_EDGE_LOAD] = {"edge_load", "N/m", "load on the edge of the tooth that runout loads most",
                        "K h + Ke, h the thickest chip that it may cut", LINEAR_EDGE, "",
                        BITE_KIND_EDGE_FORCE, 0},
    [BITE_STABILITY_DEPTH_TOOL] =
        {"stability_depth_tool", "m", "depth above which the tool itself chatters at this speed",
         "as stability_depth, for k and f of the tool's bending",
         "paper: Altintas and Budak 1995 (recalled, re-derived and checked); the tool's mode: "
         "estimate",
         "", BITE_KIND_LENGTH, 0},
};
