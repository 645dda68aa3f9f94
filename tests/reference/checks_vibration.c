/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chatter and vibrating beams against computed and published values. Lengths in mm, frequencies in
 * Hz, speeds in 1/min as in the rows. */
#include "core/physics/dynamics/equal_axes_lobes.h"
#include "core/physics/dynamics/stability_lobes.h"
#include "core/physics/dynamics/tool_modes.h"
#include "tests/reference/check.h"
#include "tests/reference/textbook/frequency_sweep.h"
#include "tests/reference/textbook/semi_discretization.h"
#include "tests/reference/textbook/vibration.h"
#include "tests/support/test_physics.h"
#include <math.h>
#include <string.h>

#define IN(name) bite_in(given, name)

/* The benchmark tool with one mode (922 Hz, 0.03993 kg), along x only or along both axes. */
static bite_chatter_case benchmark(const bite_given *given)
{
    bite_chatter_case problem;
    memset(&problem, 0, sizeof problem);
    double natural = 2.0 * M_PI * IN("f");
    problem.teeth = IN("N");
    problem.tangential = IN("Kt");
    problem.ratio = IN("Kn") / IN("Kt");
    double span = acos(1.0 - 2.0 * IN("ae"));
    problem.arc.enter = M_PI - span; /* down */
    problem.arc.leave = M_PI;
    problem.x.count = 1;
    problem.x.modes[0] = bite_mode_plain(IN("f"), IN("m") * natural * natural, IN("zeta"));
    problem.y = problem.x;
    problem.y.count = IN("axes") > 1.5 ? 1 : 0;
    return problem;
}

static int mode_stiffness(const bite_given *given, double *out)
{
    bite_mode mode = bite_mode_plain(IN("f"), IN("m") * pow(2.0 * M_PI * IN("f"), 2.0), 0.01);
    out[0] = mode.natural * mode.natural / mode.alpha;
    return 1;
}

/* A turning tool oriented against its cut: 2 k zeta (1 + zeta)/(Kf cos^2) is the minimum width of
 * the zero-order solution for one force direction. */
static int turning_least(const bite_given *given, double *out)
{
    out[0] = 1e3 * 2.0 * IN("k") * IN("zeta") * (1.0 + IN("zeta")) /
             (IN("Kf") * 1e6 * pow(cos(IN("theta") * M_PI / 180.0), 2.0));
    return 1;
}

static int zero_least(const bite_given *given, double *out)
{
    bite_chatter_case problem = benchmark(given);
    double frequency = 0.0;
    out[0] = 1e3 * textbook_chatter_least(&problem, &frequency);
    out[1] = frequency;
    return 2;
}

/* The minimum over the speeds of one lobe; it is the same for every lobe. */
static int zero_least_depth(const bite_given *given, double *out)
{
    enum { SPEEDS = 4000 };
    bite_chatter_case problem = benchmark(given);
    double least = INFINITY;
    for (int i = 0; i <= SPEEDS; i++) {
        double lobe = 3.0 + (double)i / SPEEDS; /* waves between teeth: one whole lobe */
        least = fmin(least, textbook_chatter_at(&problem, IN("f") / (IN("N") * lobe)));
    }
    out[0] = 1e3 * least;
    return 1;
}

/* The least over the speeds of the closed form for one mode that is the same along both axes, which
 * the engine uses if nothing was measured. */
static int zero_alike(const bite_given *given, double *out)
{
    bite_chatter_case problem = benchmark(given);
    double stiffness =
        problem.x.modes[0].natural * problem.x.modes[0].natural / problem.x.modes[0].alpha;
    out[0] = 1e3 * bite_test_equal_axes_depth(problem.arc, problem.teeth, problem.tangential,
                                              problem.ratio, stiffness, IN("zeta"));
    return 1;
}

/* For the number of steps in the tables, with one or two modes. */
static textbook_semidiscrete_room room(void)
{
    static double numbers[TEXTBOOK_SEMIDISCRETE_SIZE(4, 640)];
    textbook_semidiscrete_room of = {numbers, sizeof numbers / sizeof *numbers};
    return of;
}

static int growth(const bite_given *given, double *out)
{
    bite_chatter_case problem = benchmark(given);
    int steps = (int)IN("steps");
    double speed = IN("n") / 60.0;
    double fine =
        textbook_semidiscrete_growth(&problem, 1e-3 * IN("ap"), speed, steps, 1e-10, room());
    if (IN("limit") > 0.5) { /* the error falls with the square of the steps: the limit */
        double coarse = textbook_semidiscrete_growth(&problem, 1e-3 * IN("ap"), speed, steps / 2,
                                                     1e-10, room());
        fine += (fine - coarse) / 3.0;
    }
    out[0] = fine;
    return 1;
}

/* Semi-discretization, extrapolated from m and m/2. */
static int delay_limit(const bite_given *given, double *out)
{
    bite_chatter_case problem = benchmark(given);
    int steps = (int)IN("steps");
    double fine = textbook_semidiscrete_limit(&problem, 1e-3 * IN("guess"), IN("n") / 60.0, steps,
                                              1e-8, room());
    double coarse =
        textbook_semidiscrete_limit(&problem, fine, IN("n") / 60.0, steps / 2, 1e-8, room());
    out[0] = 1e3 * (fine + (fine - coarse) / 3.0);
    return 1;
}

/* The mode is the same along both axes. */
static int zero_and_delay(const bite_given *given, double *out)
{
    bite_chatter_case problem = benchmark(given);
    bite_direction_root roots[2];
    bite_mode_roots(problem.arc, problem.ratio, roots);
    out[0] = 1e3 * bite_equal_axes_depth(&problem.x, roots, problem.teeth, problem.tangential,
                                         IN("n") / 60.0);
    return 1 + delay_limit(given, out + 1);
}

/* Altintas 2012, p. 162: two modes an axis by their residues; alpha = 2 (zeta wn sigma - wd nu),
 * beta = 2 sigma. */
static bite_mode by_residue(double frequency, double damping, double real, double imaginary)
{
    double natural = 2.0 * M_PI * frequency;
    double damped = natural * sqrt(1.0 - damping * damping);
    bite_mode mode = {natural, damping, 2.0 * (damping * natural * real - damped * imaginary),
                      2.0 * real};
    return mode;
}

static bite_chatter_case two_modes(double from, double to)
{
    bite_chatter_case problem;
    memset(&problem, 0, sizeof problem);
    problem.arc.enter = from;
    problem.arc.leave = to;
    problem.teeth = 2.0;
    problem.tangential = 1319.4e6;
    problem.ratio = 788.8 / 1319.4;
    problem.x.count = problem.y.count = 2;
    problem.x.modes[0] = by_residue(452.77, 0.123718, 9.202966e-5, -1.862195e-4);
    problem.x.modes[1] = by_residue(1448.53, 0.01651, -4.181562e-5, -3.043618e-4);
    problem.y.modes[0] = by_residue(516.17, 0.0243, -2.3929e-6, -1.721539e-4);
    problem.y.modes[1] = by_residue(1407.64, 0.0324, 4.055052e-5, -3.618808e-4);
    return problem;
}

static int two_modes_at(const bite_given *given, double *out)
{
    bite_chatter_case problem = two_modes(0.5 * M_PI, M_PI);
    out[0] = 1e3 * textbook_chatter_at(&problem, IN("n") / 60.0);
    return 1;
}

static int two_modes_least(const bite_given *given, double *out)
{
    bite_chatter_case problem =
        IN("up") > 0.5 ? two_modes(0.0, 0.5 * M_PI) : two_modes(0.5 * M_PI, M_PI);
    out[0] = 1e3 * textbook_chatter_least(&problem, &out[1]);
    return 2;
}

static int directions(const bite_given *given, double *out)
{
    bite_arc arc = {0.5 * M_PI, M_PI, 0.0};
    textbook_chatter_directions(arc, IN("Kr") / IN("Kt"), out);
    return 4;
}

static int weck(const bite_given *given, double *out)
{
    bite_chatter_case problem;
    memset(&problem, 0, sizeof problem);
    problem.arc.leave = 0.5 * M_PI;
    problem.teeth = IN("N");
    problem.tangential = IN("Kt");
    problem.ratio = IN("Kr");
    problem.x.count = problem.y.count = 1;
    problem.x.modes[0] = bite_mode_plain(IN("fx"), IN("kx"), IN("zx"));
    problem.y.modes[0] = bite_mode_plain(IN("fy"), IN("ky"), IN("zy"));
    out[0] = 1e3 * textbook_chatter_least(&problem, &out[1]);
    return 2;
}

static int beam_root(const bite_given *given, double *out)
{
    out[0] = textbook_cantilever_root((int)IN("mode"));
    return 1;
}

/* Equivalent mass at the tip: k/w1^2 of the beam's own mass. */
static int beam_mass(const bite_given *given, double *out)
{
    (void)given;
    const double density = 7800.0; /* for any beam */
    const double modulus = 210e9;
    bite_shaft shaft = {1, {{0.1, 0.01, 0.01}}};
    double mass = density * 0.25 * M_PI * 0.01 * 0.01 * 0.1;
    double circular = 2.0 * M_PI * bite_tool_mode_frequency(&shaft, modulus, density, 1);
    double stiffness = 1.0 / bite_shaft_bend(&shaft, modulus, 0.3, 0.0).bending;
    out[0] = stiffness / (circular * circular * mass);
    return 1;
}

static bite_shaft shaft_of(const bite_given *given)
{
    bite_shaft shaft;
    memset(&shaft, 0, sizeof shaft);
    for (int i = (int)IN("count"); i >= 1; i--) { /* the rows give the clamped end first */
        bite_step step = {1e-3 * bite_in_at(given, "L", i), 1e-3 * bite_in_at(given, "d", i),
                          1e-3 * bite_in_at(given, "d", i)};
        shaft.steps[shaft.count++] = step;
    }
    return shaft;
}

static int beam(const bite_given *given, double *out)
{
    bite_shaft shaft = shaft_of(given);
    out[0] = bite_tool_mode_frequency(&shaft, IN("E") * 1e9, IN("rho"), 1);
    out[1] = 1e-6 / bite_shaft_bend(&shaft, IN("E") * 1e9, 0.22, 0.0).bending;
    return 2;
}

static int stepped_beam(const bite_given *given, double *out)
{
    bite_shaft shaft = shaft_of(given);
    out[0] = 1e-6 / bite_shaft_bend(&shaft, IN("E") * 1e9, 0.22, 0.0).bending;
    out[1] = bite_tool_mode_frequency(&shaft, IN("E") * 1e9, IN("rho"), 1);
    out[2] = bite_tool_mode_frequency(&shaft, IN("E") * 1e9, IN("rho"), 2);
    return 3;
}

const bite_check bite_checks_vibration[] = {
    {"mode_stiffness", mode_stiffness, "bite_mode_plain"},
    {"turning_least", turning_least, NULL},
    {"zero_least", zero_least, "textbook_chatter_least"},
    {"zero_least_depth", zero_least_depth, "textbook_chatter_at"},
    {"zero_alike", zero_alike, "bite_mode_root_reciprocal"},
    {"growth", growth, "textbook_semidiscrete_growth"},
    {"delay_limit", delay_limit, "textbook_semidiscrete_limit"},
    {"zero_and_delay", zero_and_delay, "textbook_semidiscrete_limit"},
    {"two_modes_at", two_modes_at, "textbook_chatter_at"},
    {"two_modes_least", two_modes_least, "textbook_chatter_least"},
    {"directions", directions, "textbook_chatter_directions"},
    {"weck", weck, "textbook_chatter_least"},
    {"beam_root", beam_root, "textbook_cantilever_root"},
    {"beam_mass", beam_mass, "bite_tool_mode_frequency"},
    {"beam", beam, "bite_shaft_bend"},
    {"stepped_beam", stepped_beam, "bite_shaft_bend"},
};
const size_t bite_checks_vibration_count = BITE_COUNT(bite_checks_vibration);
