/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a machine takes for a move, and how fast it goes round a corner. SI. */
#ifndef BITE_JOB_MOVE_TIME_H
#define BITE_JOB_MOVE_TIME_H

/** From rest to rest with a constant acceleration: L/v + v/a, or 2 sqrt(L/a) where v is not
 * reached. */
double bite_move_time_rest(double length, double speed, double acceleration);

/** Between two speeds, each at most `speed`; where the length is too short for the change, the
 * change is what it allows. */
double bite_move_time_between(double length, double speed, double acceleration, double enter,
                              double leave);

/** From rest to rest with a limited jerk, m/s3: a ramp takes T = v/a + a/j (2 sqrt(v/j) where a is
 * not reached) and v T/2 of way; L/v + T where L >= v T, else twice the ramp to the speed whose v T
 * is L. */
double bite_move_time_jerk(double length, double speed, double acceleration, double jerk);

/** Speed round a corner of an inside angle (pi: straight) that may be cut short by a deviation:
 * sqrt(a R), R = d sin(th/2)/(1 - sin(th/2)) of the arc that touches both sides. */
double bite_move_time_corner(double angle, double deviation, double acceleration);

/** A closed path of equal sides, each from corner to corner at their speed. */
double bite_move_time_loop(double length, double corners, double speed, double acceleration,
                           double corner_speed);

#endif
