/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times of moves, and speeds around corners. */
#include "core/job/move_time.h"
#include <math.h>

double bite_move_time_rest(double length, double speed, double acceleration)
{
    return length >= speed * speed / acceleration ? length / speed + speed / acceleration
                                                  : 2.0 * sqrt(length / acceleration);
}

double bite_move_time_between(double length, double speed, double acceleration, double enter,
                              double leave)
{
    double low = fmin(enter, leave);
    double high = fmin(fmax(enter, leave), sqrt(low * low + 2.0 * acceleration * length));
    enter = low; /* speeding up and slowing down take the same time */
    leave = high;
    double top =
        fmin(speed, sqrt(0.5 * (2.0 * acceleration * length + enter * enter + leave * leave)));
    if (top <= 0.0) {
        return 0.0;
    }
    top = fmax(top, high);
    double ramps = (2.0 * top * top - enter * enter - leave * leave) / (2.0 * acceleration);
    return (2.0 * top - enter - leave) / acceleration + fmax(0.0, length - ramps) / top;
}

static double ramp_time(double speed, double acceleration, double jerk)
{
    return speed >= acceleration * acceleration / jerk ? speed / acceleration + acceleration / jerk
                                                       : 2.0 * sqrt(speed / jerk);
}

double bite_move_time_jerk(double length, double speed, double acceleration, double jerk)
{
    double ramp = ramp_time(speed, acceleration, jerk);
    if (length >= speed * ramp) {
        return length / speed + ramp;
    }
    double lag = acceleration / jerk;
    double top = 0.5 * acceleration * (sqrt(lag * lag + 4.0 * length / acceleration) - lag);
    if (top < acceleration * lag) { /* the acceleration is not reached either */
        top = cbrt(0.25 * length * length * jerk);
    }
    return 2.0 * ramp_time(top, acceleration, jerk);
}

double bite_move_time_corner(double angle, double deviation, double acceleration)
{
    double sine = sin(0.5 * angle);
    return sine >= 1.0 ? INFINITY : sqrt(acceleration * deviation * sine / (1.0 - sine));
}

double bite_move_time_loop(double length, double corners, double speed, double acceleration,
                           double corner_speed)
{
    double round = fmin(speed, corner_speed);
    return corners * bite_move_time_between(length / corners, speed, acceleration, round, round);
}
