/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reference rows on milling forces, power, and shafts. */
#include "core/physics/elastic/stepped_shaft.h"
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/force/square_end_mill.h"
#include "tests/reference/check.h"
#include "tests/support/test_physics.h"
#include <math.h>

#define IN(name) bite_in(given, name)

static void form(const bite_given *given, bite_force *force)
{
    bite_pressure pressure = {IN("Kt"), IN("Kr"), IN("Ka"), IN("Et"), IN("Er"), IN("Ea"), 0.0};
    bite_arc arc = {IN("enter"), IN("leave"), 0.0};
    bite_chip chip;
    bite_chip_init(&chip, arc, IN("fz"), (int)IN("z"), 0.0, 0.0);
    bite_force_init(force, &chip, &pressure, IN("ap"), IN("D"), IN("helix"));
}

static int force_mean(const bite_given *given, double *out)
{
    bite_force force;
    form(given, &force);
    out[0] = force.mean.x;
    out[1] = force.mean.y;
    out[2] = force.mean.lift;
    out[3] = force.mean.tangential;
    return 4;
}

static int force_mean_xyz(const bite_given *given, double *out)
{
    return force_mean(given, out) - 1;
}

static int force_peaks(const bite_given *given, double *out)
{
    bite_force force;
    form(given, &force);
    bite_force_peaks peaks = force.peaks;
    out[0] = peaks.side;
    out[1] = peaks.tangential;
    return 2;
}

static int force_peak_side(const bite_given *given, double *out)
{
    return force_peaks(given, out) - 1;
}

/* The ranges of Fx and Fy by a fine walk over a tooth's pitch; the peaks by the engine's own
 * search. */
static int force_peaks_all(const bite_given *given, double *out)
{
    bite_force force;
    form(given, &force);
    bite_force_peaks peaks = force.peaks;
    double pitch = 2.0 * M_PI / force.edges.flutes;
    out[0] = peaks.side;
    out[1] = out[3] = INFINITY;
    out[2] = out[4] = -INFINITY;
    for (int i = 0; i < 20000; i++) {
        bite_load load = bite_test_force_at(&force, pitch * i / 20000.0);
        out[1] = fmin(out[1], load.x);
        out[2] = fmax(out[2], load.x);
        out[3] = fmin(out[3], load.y);
        out[4] = fmax(out[4], load.y);
    }
    out[5] = peaks.lift;
    out[6] = peaks.tangential;
    return 7;
}

static int force_power(const bite_given *given, double *out)
{
    bite_force force;
    form(given, &force);
    double spindle = IN("v") / (M_PI * IN("D"));
    double removal = IN("ap") * IN("D") * IN("fz") * IN("z") * spindle;
    out[0] = force.mean.tangential * IN("v");
    out[1] = force.mean.tangential * 0.5 * IN("D");
    out[2] = out[0] / removal;
    return 3;
}

static int power(const bite_given *given, double *out)
{
    out[0] = IN("u") * IN("Q");
    return 1;
}

static int torque(const bite_given *given, double *out)
{
    out[0] = IN("P") / (2.0 * M_PI * IN("n"));
    return 1;
}

static int power_torque(const bite_given *given, double *out)
{
    out[0] = IN("u") * IN("Q");
    out[1] = out[0] / (2.0 * M_PI * IN("n"));
    return 2;
}

static int power_efficiency(const bite_given *given, double *out)
{
    out[0] = IN("u") * IN("w") * IN("d") * IN("fz") * IN("z") * IN("n");
    out[1] = out[0] / IN("eta");
    return 2;
}

static int power_of_cut(const bite_given *given, double *out)
{
    out[0] = IN("kc") * IN("ae") * IN("ap") * IN("vf");
    return 1;
}

static int force_of_power(const bite_given *given, double *out)
{
    (void)power_of_cut(given, out);
    out[0] /= IN("v");
    return 1;
}

static int power_of_force(const bite_given *given, double *out)
{
    out[0] = IN("F") * IN("v");
    return 1;
}

static int force_by_speed(const bite_given *given, double *out)
{
    out[0] = IN("P") / IN("v");
    return 1;
}

static int energy_of_force(const bite_given *given, double *out)
{
    out[0] = IN("F") / (IN("t") * IN("w"));
    return 1;
}

static int power_law(const bite_given *given, double *out)
{
    double pressure = bite_pressure_power_law(IN("kc"), IN("mc"), IN("h")) / IN("h");
    out[0] = pressure * IN("w") * IN("d") * IN("vf");
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

/* A spread load as the sum of point loads: five-point Gauss, exact for the fourth power that a
 * cantilever makes. */
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

/* What the cone adds to the bending of what stands before it. */
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
    {"force_mean", force_mean},
    {"force_mean_xyz", force_mean_xyz},
    {"force_peaks", force_peaks},
    {"force_peak_side", force_peak_side},
    {"force_peaks_all", force_peaks_all},
    {"force_power", force_power},
    {"power", power},
    {"torque", torque},
    {"power_torque", power_torque},
    {"power_efficiency", power_efficiency},
    {"power_of_cut", power_of_cut},
    {"force_of_power", force_of_power},
    {"power_of_force", power_of_force},
    {"force_by_speed", force_by_speed},
    {"energy_of_force", energy_of_force},
    {"power_law", power_law},
    {"beam_tip", beam_tip},
    {"beam_inside", beam_inside},
    {"beam_spread", beam_spread},
    {"shaft_parts", shaft_parts},
    {"shaft_total", shaft_total},
    {"shaft_cone", shaft_cone},
    {"stress_all", stress_all},
    {"stress_bending", stress_bending},
};
const size_t bite_checks_force_count = BITE_COUNT(bite_checks_force);
