/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reference rows on kinematics, engagement, corners and marks. */
#include "core/job/move_time.h"
#include "core/physics/geometry/chip_hinges.h"
#include "core/physics/geometry/chip_thickness.h"
#include "core/physics/geometry/engagement.h"
#include "core/physics/geometry/kinematics.h"
#include "core/physics/geometry/surface_finish.h"
#include "tests/reference/check.h"
#include "tests/reference/textbook/motion.h"
#include "tests/support/test_engagement.h"
#include <math.h>

#define IN(name) bite_in(given, name)

static int spindle_speed(const bite_given *given, double *out)
{
    out[0] = bite_kinematics_spindle_speed(IN("D"), IN("v"));
    return 1;
}

static int spindle_speeds(const bite_given *given, double *out)
{
    for (int i = 1; i <= 2; i++) {
        out[i - 1] =
            bite_kinematics_spindle_speed(bite_in_at(given, "D", i), bite_in_at(given, "v", i));
    }
    return 2;
}

static int surface_speed(const bite_given *given, double *out)
{
    out[0] = bite_kinematics_surface_speed(IN("D"), IN("n"));
    return 1;
}

static int feed_rate(const bite_given *given, double *out)
{
    out[0] = bite_kinematics_feed_rate(IN("fz"), IN("n"), IN("z"));
    return 1;
}

static int tooth_feed(const bite_given *given, double *out)
{
    out[0] = bite_kinematics_tooth_feed(IN("vf"), IN("n"), IN("z"));
    return 1;
}

static int spindle_of_feed(const bite_given *given, double *out)
{
    /* fz = vf/(n z) solved for n: the feed per tooth at one turn a second over fz */
    out[0] = bite_kinematics_tooth_feed(IN("vf"), 1.0, IN("z")) / IN("fz");
    return 1;
}

static int feed_of_speed(const bite_given *given, double *out)
{
    out[0] = bite_kinematics_feed_rate(IN("fz"), bite_kinematics_spindle_speed(IN("D"), IN("v")),
                                       IN("z"));
    return 1;
}

static int removal_rate(const bite_given *given, double *out)
{
    out[0] = bite_kinematics_removal_rate(IN("ap"), IN("ae"), IN("vf"));
    return 1;
}

static double feed_by_teeth(const bite_given *given)
{
    return bite_kinematics_feed_rate(IN("fz"), IN("n"), IN("z"));
}

static int removal_by_teeth(const bite_given *given, double *out)
{
    out[0] = bite_kinematics_removal_rate(IN("d"), IN("w"), feed_by_teeth(given));
    return 1;
}

static int run_in_side(const bite_given *given, double *out)
{
    out[0] = textbook_kinematics_run_in_side(IN("D"), IN("a"));
    return 1;
}

static int travel_side(const bite_given *given, double *out)
{
    out[0] = IN("L") + textbook_kinematics_run_in_side(IN("D"), IN("a"));
    return 1;
}

static int pass_time(const bite_given *given, double *out)
{
    const double acceleration = 1e15; /* the rows have no ramps */
    out[0] = bite_move_time_rest(IN("L") + IN("A"), IN("vf"), acceleration);
    return 1;
}

static int pass_time_side(const bite_given *given, double *out)
{
    out[0] = (IN("L") + textbook_kinematics_run_in_side(IN("D"), IN("a"))) / IN("vf");
    return 1;
}

static int pass_time_face(const bite_given *given, double *out)
{
    out[0] = (IN("L") + textbook_kinematics_run_in_face(IN("D"), IN("w"))) / feed_by_teeth(given);
    return 1;
}

/* speed, feed, run-in, time, removal of a whole pass */
static int whole_pass(const bite_given *given, double run_in, double *out)
{
    out[0] = bite_kinematics_spindle_speed(IN("D"), IN("v"));
    out[1] = bite_kinematics_feed_rate(IN("fz"), out[0], IN("z"));
    out[2] = run_in;
    out[3] = (IN("L") + run_in) / out[1];
    out[4] = bite_kinematics_removal_rate(IN("d"), IN("w"), out[1]);
    return 5;
}

static int pass_side(const bite_given *given, double *out)
{
    return whole_pass(given, textbook_kinematics_run_in_side(IN("D"), IN("d")), out);
}

static int pass_face(const bite_given *given, double *out)
{
    return whole_pass(given, textbook_kinematics_run_in_face(IN("D"), IN("w")), out);
}

static int marks_wall(const bite_given *given, double *out)
{
    out[0] = bite_finish_wall(bite_kinematics_tooth_feed(IN("vf"), IN("n"), IN("z")), IN("D"));
    return 1;
}

/* A dish so steep that the corner radius alone makes the marks, rad. */
static const double steep = 1.0;

static int marks_corner(const bite_given *given, double *out)
{
    out[0] = bite_finish_floor(IN("f"), IN("r"), steep);
    return 1;
}

static int marks_corner_mean(const bite_given *given, double *out)
{
    out[0] = 0.25 * bite_finish_floor(IN("f"), IN("r"), steep); /* Ra: a quarter of the height */
    return 1;
}

static int engagement(const bite_given *given, double *out)
{
    bite_arc arc = bite_engagement_straight(IN("D"), IN("ae"), BITE_CLIMB);
    out[0] = bite_engagement_span(arc);
    out[1] = IN("fz") * bite_engagement_sine_most(arc);
    out[2] = IN("fz") * bite_engagement_sine_mean(arc);
    out[3] = IN("fz") *
             sqrt(IN("ae") /
                  IN("D")); /* the approximation that the row gives beside the exact formula */
    out[4] = 1.0 / bite_engagement_sine_most(arc);
    return 5;
}

static int ball_diameters(const bite_given *given, double *out)
{
    for (int i = 1; i <= 4; i++) {
        double diameter = bite_in_at(given, "D", i);
        out[i - 1] =
            bite_kinematics_effective_diameter(diameter, 0.5 * diameter, bite_in_at(given, "a", i));
    }
    return 4;
}

static int ball_tilted(const bite_given *given, double *out)
{
    out[0] = textbook_kinematics_tilted_diameter(IN("D"), IN("ap"), IN("tilt"));
    return 1;
}

static int corner_diameter(const bite_given *given, double *out)
{
    out[0] = bite_kinematics_effective_diameter(IN("D"), IN("r"), IN("ap"));
    return 1;
}

static int cusps(const bite_given *given, double *out)
{
    for (int i = 1; i <= 3; i++) {
        double radius = bite_in_at(given, "R", i);
        double step = bite_in_at(given, "s", i);
        out[2 * i - 2] = textbook_finish_cusp(radius, step);
        out[2 * i - 1] = step * step / (8.0 * radius);
    }
    return 6;
}

static int corner(const bite_given *given, double *out)
{
    double diameter = 2.0 * IN("r");
    bite_arc straight = bite_engagement_straight(diameter, IN("a"), BITE_CLIMB);
    bite_arc turn = bite_engagement_corner(diameter, IN("a"), BITE_CLIMB, IN("R"));
    out[0] = bite_engagement_corner_width(diameter, IN("a"), IN("R"));
    out[1] = out[0] / IN("a");
    out[2] = bite_engagement_span(straight);
    out[3] = bite_engagement_span(turn);
    out[4] = bite_engagement_sine_most(turn) / bite_engagement_sine_most(straight);
    return 5;
}

static int runout_steps(const bite_given *given, double *out)
{
    for (int z = 2; z <= 4; z++) {
        out[z - 2] =
            (bite_chip_heavy(IN("fz"), z, bite_chip_step_share(z) * IN("TIR")) - IN("fz")) /
            IN("TIR");
    }
    return 3;
}

/* The TIR/fz from which the lighter of two teeth removes nothing: it first touches the work where
 * the sine of its angle is this ratio times a constant. */
static int single_tooth_from(const bite_given *given, double *out)
{
    bite_chip_hinges hinges;
    (void)given;
    bite_chip_hinges_init(&hinges, 2, 0);
    double one = hinges.hinge[hinges.first[0]].at;
    double other = hinges.hinge[hinges.first[1]].at;
    out[0] = 1.0 / fmax(one, other);
    return 1;
}

const bite_check bite_checks_motion[] = {
    {"spindle_speed", spindle_speed, "bite_kinematics_spindle_speed"},
    {"spindle_speeds", spindle_speeds, "bite_kinematics_spindle_speed"},
    {"surface_speed", surface_speed, "bite_kinematics_surface_speed"},
    {"feed_rate", feed_rate, "bite_kinematics_feed_rate"},
    {"tooth_feed", tooth_feed, "bite_kinematics_tooth_feed"},
    {"spindle_of_feed", spindle_of_feed, "bite_kinematics_tooth_feed"},
    {"feed_of_speed", feed_of_speed, "bite_kinematics_feed_rate"},
    {"removal_rate", removal_rate, "bite_kinematics_removal_rate"},
    {"removal_by_teeth", removal_by_teeth, "bite_kinematics_removal_rate"},
    {"run_in_side", run_in_side, "textbook_kinematics_run_in_side"},
    {"travel_side", travel_side, "textbook_kinematics_run_in_side"},
    {"pass_time", pass_time, "bite_move_time_rest"},
    {"pass_time_side", pass_time_side, "textbook_kinematics_run_in_side"},
    {"pass_time_face", pass_time_face, "textbook_kinematics_run_in_face"},
    {"pass_side", pass_side, "textbook_kinematics_run_in_side"},
    {"pass_face", pass_face, "textbook_kinematics_run_in_face"},
    {"marks_wall", marks_wall, "bite_finish_wall"},
    {"marks_corner", marks_corner, "bite_finish_floor"},
    {"marks_corner_mean", marks_corner_mean, "bite_finish_floor"},
    {"engagement", engagement, "bite_engagement_span_of_width"},
    {"ball_diameters", ball_diameters, "bite_kinematics_effective_diameter"},
    {"ball_tilted", ball_tilted, "textbook_kinematics_tilted_diameter"},
    {"corner_diameter", corner_diameter, "bite_kinematics_effective_diameter"},
    {"cusps", cusps, "textbook_finish_cusp"},
    {"corner", corner, "bite_engagement_span_in_corner"},
    {"runout_steps", runout_steps, "bite_chip_heavy"},
    {"single_tooth_from", single_tooth_from, "bite_chip_hinges_init"},
};
const size_t bite_checks_motion_count = BITE_COUNT(bite_checks_motion);
