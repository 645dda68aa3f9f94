/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reference rows on milling forces, power, and shafts. */
#include "core/physics/elastic/stepped_shaft.h"
#include "core/physics/geometry/kinematics.h"
#include "tests/oracle/closed_forms/chip_pieces.h"
#include "tests/oracle/closed_forms/square_end_mill.h"
#include "tests/reference/check.h"
#include "tests/support/test_mill.h"
#include "tests/support/test_physics.h"
#include <math.h>

#define IN(name) bite_in(given, name)

static bite_test_mill mill_of(const bite_given *given)
{
    bite_test_mill mill = {
        .diameter = IN("D"),
        .depth = IN("ap"),
        .helix = IN("helix"),
        .feed = IN("fz"),
        .flutes = (int)IN("z"),
        .arc = {IN("enter"), IN("leave"), 0.0},
        .pressure = {IN("Kt"), IN("Kr"), IN("Ka"), IN("Et"), IN("Er"), IN("Ea"), 0.0},
    };
    return mill;
}

static int force_mean(const bite_given *given, double *out)
{
    bite_block_force force;
    bite_test_mill mill = mill_of(given);
    bite_test_mill_forces(&mill, &force);
    out[0] = force.mean_x[0];
    out[1] = force.mean_y[0];
    out[2] = force.mean_lift[0];
    out[3] = force.mean_tangential[0];
    return 4;
}

static int force_mean_xyz(const bite_given *given, double *out)
{
    return force_mean(given, out) - 1;
}

static int force_peaks(const bite_given *given, double *out)
{
    bite_block_force force;
    bite_test_mill mill = mill_of(given);
    bite_test_mill_forces(&mill, &force);
    out[0] = force.peak_side[0];
    out[1] = force.peak_tangential[0];
    return 2;
}

static int force_peak_side(const bite_given *given, double *out)
{
    return force_peaks(given, out) - 1;
}

/* The ranges of Fx and Fy in small steps over a tooth's pitch, by the closed forms; the peaks by
 * the engine. */
static int force_peaks_all(const bite_given *given, double *out)
{
    bite_force force;
    bite_chip chip;
    bite_block_force lanes;
    bite_test_mill mill = mill_of(given);
    bite_test_mill_forces(&mill, &lanes);
    bite_chip_init(&chip, mill.arc, mill.feed, mill.flutes, 0.0);
    bite_force_init(&force, &chip, &mill.pressure, &mill.pressure, mill.depth, mill.diameter,
                    mill.helix);
    double pitch = 2.0 * M_PI / mill.flutes;
    out[0] = lanes.peak_side[0];
    out[1] = out[3] = INFINITY;
    out[2] = out[4] = -INFINITY;
    for (int i = 0; i < 20000; i++) {
        bite_load load = bite_test_force_at(&force, pitch * i / 20000.0);
        out[1] = fmin(out[1], load.x);
        out[2] = fmax(out[2], load.x);
        out[3] = fmin(out[3], load.y);
        out[4] = fmax(out[4], load.y);
    }
    out[5] = lanes.peak_lift[0];
    out[6] = lanes.peak_tangential[0];
    return 7;
}

static int force_power(const bite_given *given, double *out)
{
    bite_block_force force;
    bite_test_mill mill = mill_of(given);
    bite_test_mill_forces(&mill, &force);
    double spindle = IN("v") / (M_PI * IN("D"));
    double removal = IN("ap") * IN("D") * IN("fz") * IN("z") * spindle;
    out[0] = force.mean_tangential[0] * IN("v");
    out[1] = force.mean_torque[0];
    out[2] = out[0] / removal;
    return 3;
}

/* The engine's end mill in a full slot, with a constant pressure and no edge force. Its mean
 * tangential force over a turn depends only on pressure and removal rate, so any mill will do. */
typedef struct slotting {
    double diameter;
    double flutes;
    double tooth_feed;
    double depth;
} slotting;

static double mean_tangential(const slotting *mill, double pressure)
{
    bite_block_force force;
    bite_test_mill slot = {
        .diameter = mill->diameter,
        .depth = mill->depth,
        .feed = mill->tooth_feed,
        .flutes = (int)mill->flutes,
        .arc = {0.0, M_PI, 0.0},
        .pressure = {pressure, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0},
    };
    bite_test_mill_forces(&slot, &force);
    return force.mean_tangential[0];
}

static double slotting_power(const slotting *mill, double pressure, double spindle_speed)
{
    return mean_tangential(mill, pressure) *
           bite_kinematics_surface_speed(mill->diameter, spindle_speed);
}

/* A mill of 10 mm with one tooth that removes Q; rows that give only Q name no mill. */
static slotting removing(double removal_rate, double spindle_speed)
{
    slotting mill = {10e-3, 1.0, 10e-6, 0.0};
    mill.depth = removal_rate / (mill.diameter * mill.tooth_feed * spindle_speed);
    return mill;
}

static int power(const bite_given *given, double *out)
{
    const double spindle_speed = 100.0; /* any */
    slotting mill = removing(IN("Q"), spindle_speed);
    out[0] = slotting_power(&mill, IN("u"), spindle_speed);
    return 1;
}

/* A power at a removal rate is a pressure. */
static int torque(const bite_given *given, double *out)
{
    const double removal_rate = 1e-6; /* any */
    slotting mill = removing(removal_rate, IN("n"));
    out[0] = mean_tangential(&mill, IN("P") / removal_rate) * 0.5 * mill.diameter;
    return 1;
}

static int power_torque(const bite_given *given, double *out)
{
    slotting mill = removing(IN("Q"), IN("n"));
    out[0] = slotting_power(&mill, IN("u"), IN("n"));
    out[1] = mean_tangential(&mill, IN("u")) * 0.5 * mill.diameter;
    return 2;
}

static int power_efficiency(const bite_given *given, double *out)
{
    slotting mill = {IN("w"), IN("z"), IN("fz"), IN("d")};
    out[0] = slotting_power(&mill, IN("u"), IN("n"));
    out[1] = out[0] / IN("eta");
    return 2;
}

/* A slot as wide as the cut. */
static slotting slot_of_cut(const bite_given *given, double spindle_speed)
{
    slotting mill = {IN("ae"), 1.0, 0.0, IN("ap")};
    mill.tooth_feed = bite_kinematics_tooth_feed(IN("vf"), spindle_speed, mill.flutes);
    return mill;
}

static int power_of_cut(const bite_given *given, double *out)
{
    const double spindle_speed = 100.0; /* any */
    slotting mill = slot_of_cut(given, spindle_speed);
    out[0] = slotting_power(&mill, IN("kc"), spindle_speed);
    return 1;
}

static int force_of_power(const bite_given *given, double *out)
{
    slotting mill = slot_of_cut(given, bite_kinematics_spindle_speed(IN("ae"), IN("v")));
    out[0] = mean_tangential(&mill, IN("kc"));
    return 1;
}

static int force_by_speed(const bite_given *given, double *out)
{
    const double removal_rate = 1e-6; /* any */
    slotting mill = removing(removal_rate, 1.0);
    double spindle_speed = bite_kinematics_spindle_speed(mill.diameter, IN("v"));
    mill = removing(removal_rate, spindle_speed);
    out[0] = mean_tangential(&mill, IN("P") / removal_rate);
    return 1;
}

static int power_of_force(const bite_given *given, double *out)
{
    out[0] = IN("F") * IN("v");
    return 1;
}

static int energy_of_force(const bite_given *given, double *out)
{
    out[0] = IN("F") / (IN("t") * IN("w"));
    return 1;
}

/* A solid round beam of the row's second moment. */
static bite_shaft beam(const bite_given *given)
{
    double diameter = pow(64.0 * IN("I") / M_PI, 0.25);
    bite_shaft shaft = {1, {{IN("L"), diameter, diameter}}};
    return shaft;
}

static int beam_tip(const bite_given *given, double *out)
{
    bite_shaft shaft = beam(given);
    out[0] = IN("F") * bite_shaft_bend(&shaft, IN("E"), 0.3, 0.0).bending;
    return 1;
}

static int beam_inside(const bite_given *given, double *out)
{
    bite_shaft shaft = beam(given);
    double beyond = IN("L") - IN("a");
    bite_yielding at = bite_shaft_bend(&shaft, IN("E"), 0.3, beyond);
    out[0] = IN("F") * (at.bending + at.slope * beyond);
    out[1] = IN("F") * at.slope;
    return 2;
}

/* A distributed load as a sum of point loads: five-point Gauss quadrature, exact for the fourth
 * power of a cantilever. */
static int beam_spread(const bite_given *given, double *out)
{
    static const double node[] = {-0.9061798459386640, -0.5384693101056831, 0.0, 0.5384693101056831,
                                  0.9061798459386640};
    static const double weight[] = {0.2369268850561891, 0.4786286704993665, 0.5688888888888889,
                                    0.4786286704993665, 0.2369268850561891};
    bite_shaft shaft = beam(given);
    double half = 0.5 * (IN("to") - IN("from"));
    double middle = 0.5 * (IN("to") + IN("from"));
    out[0] = 0.0;
    for (int i = 0; i < 5; i++) {
        double beyond = IN("L") - (middle + half * node[i]);
        bite_yielding at = bite_shaft_bend(&shaft, IN("E"), 0.3, beyond);
        out[0] += IN("w") * half * weight[i] * (at.bending + at.slope * beyond);
    }
    return 1;
}

static int shaft_parts(const bite_given *given, double *out)
{
    bite_shaft shaft = {1, {{IN("l1"), IN("d1"), IN("d1")}}};
    bite_yielding at = bite_shaft_bend(&shaft, IN("E"), IN("nu"), 0.0);
    out[0] = IN("F") * at.bending;
    out[1] = IN("F") * at.shear;
    out[2] = out[0] + out[1];
    out[3] = IN("F") / out[2];
    return 4;
}

static int shaft_total(const bite_given *given, double *out)
{
    bite_shaft shaft = {0, {{0, 0, 0}}};
    for (size_t i = 0; i < given->count; i++) {
        if (given->names[i][0] == 'l') {
            int at = (int)shaft.count + 1;
            double diameter = bite_in_at(given, "d", at);
            bite_step step = {bite_in_at(given, "l", at), diameter, diameter};
            shaft.steps[shaft.count++] = step;
        }
    }
    bite_yielding at = bite_shaft_bend(&shaft, IN("E"), IN("nu"), 0.0);
    out[0] = IN("F") * (at.bending + at.shear);
    out[1] = IN("F") / out[0];
    return 2;
}

/* The bending that the cone adds to the part in front of it. */
static int shaft_cone(const bite_given *given, double *out)
{
    bite_shaft with = {2, {{IN("before"), IN("d1"), IN("d1")}, {IN("length"), IN("d1"), IN("d2")}}};
    bite_shaft without = {1, {{IN("before"), IN("d1"), IN("d1")}}};
    out[0] = IN("F") * (bite_shaft_bend(&with, IN("E"), IN("nu"), 0.0).bending -
                        bite_shaft_bend(&without, IN("E"), IN("nu"), 0.0).bending);
    return 1;
}

static int stress_all(const bite_given *given, double *out)
{
    bite_shaft shaft = {1, {{IN("L"), IN("d"), IN("d")}}};
    out[0] = bite_shaft_stress(&shaft, 0.0, IN("F"), 0.0, 0);
    out[1] = bite_shaft_stress(&shaft, 0.0, 0.0, IN("T"), 0);
    out[2] = bite_shaft_stress(&shaft, 0.0, IN("F"), IN("T"), 1);
    out[3] = bite_shaft_stress(&shaft, 0.0, IN("F"), IN("T"), 0);
    return 4;
}

static int stress_bending(const bite_given *given, double *out)
{
    bite_shaft shaft = {1, {{IN("L"), IN("d"), IN("d")}}};
    out[0] = bite_shaft_stress(&shaft, 0.0, IN("F"), 0.0, 0);
    return 1;
}

const bite_check bite_checks_force[] = {
    {"force_mean", force_mean, "bite_block_square"},
    {"force_mean_xyz", force_mean_xyz, "bite_block_square"},
    {"force_peaks", force_peaks, "bite_block_square"},
    {"force_peak_side", force_peak_side, "bite_block_square"},
    {"force_peaks_all", force_peaks_all, "bite_block_square"},
    {"force_power", force_power, "bite_block_square"},
    {"power", power, "bite_block_square"},
    {"torque", torque, "bite_block_square"},
    {"power_torque", power_torque, "bite_block_square"},
    {"power_efficiency", power_efficiency, "bite_block_square"},
    {"power_of_cut", power_of_cut, "bite_block_square"},
    {"force_of_power", force_of_power, "bite_block_square"},
    {"power_of_force", power_of_force, NULL},
    {"force_by_speed", force_by_speed, "bite_block_square"},
    {"energy_of_force", energy_of_force, NULL},
    {"beam_tip", beam_tip, "bite_shaft_bend"},
    {"beam_inside", beam_inside, "bite_shaft_bend"},
    {"beam_spread", beam_spread, "bite_shaft_bend"},
    {"shaft_parts", shaft_parts, "bite_shaft_bend"},
    {"shaft_total", shaft_total, "bite_shaft_bend"},
    {"shaft_cone", shaft_cone, "bite_shaft_bend"},
    {"stress_all", stress_all, "bite_shaft_stress"},
    {"stress_bending", stress_bending, "bite_shaft_stress"},
};
const size_t bite_checks_force_count = BITE_COUNT(bite_checks_force);
