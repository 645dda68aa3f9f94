/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for motion and surface marks that the engine does not use. */
#include "tests/reference/textbook/motion.h"
#include <math.h>

double textbook_kinematics_tilted_diameter(double diameter, double depth, double tilt)
{
    double lean = tilt + acos(1.0 - 2.0 * depth / diameter);
    return lean >= 0.5 * M_PI ? diameter : diameter * sin(lean);
}

double textbook_kinematics_run_in_side(double diameter, double width)
{
    return sqrt(width * (diameter - width));
}

double textbook_kinematics_run_in_face(double diameter, double width)
{
    return 0.5 * (diameter - sqrt(diameter * diameter - width * width));
}

double textbook_finish_cusp(double ball_radius, double step)
{
    /* R - sqrt(R^2 - s^2/4) without cancellation for a small step */
    double quarter = 0.25 * step * step;
    return quarter / (ball_radius + sqrt(ball_radius * ball_radius - quarter));
}

double textbook_motion_arc_speed(double radius, double acceleration)
{
    return sqrt(acceleration * radius);
}

double textbook_motion_ramp(double speed, double acceleration, double jerk)
{
    double lag = acceleration / jerk;
    double time =
        speed >= acceleration * lag ? speed / acceleration + lag : 2.0 * sqrt(speed / jerk);
    return 0.5 * speed * time;
}

double textbook_length_at_20(double length, double expansion, double temperature)
{
    return length * (1.0 - expansion * (temperature - 293.15));
}
