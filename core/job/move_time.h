/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times of moves, and speeds around corners. SI. */
#ifndef BITE_JOB_MOVE_TIME_H
#define BITE_JOB_MOVE_TIME_H

/** Time from rest to rest with a constant acceleration: L/v + v/a, or 2 sqrt(L/a) if v is not
 * reached. */
double bite_move_time_rest(double length, double speed, double acceleration);

/** Time between two speeds, each at most `speed`; if the length is too short for the change, the
 * final speed is the one that the length allows. */
double bite_move_time_between(double length, double speed, double acceleration, double enter,
                              double leave);

/** Time from rest to rest with a limited jerk, m/s3: a ramp takes T = v/a + a/j (2 sqrt(v/j) if a
 * is not reached) and a distance of v T/2; L/v + T if L >= v T, otherwise twice the ramp to the
 * speed whose v T is L. */
double bite_move_time_jerk(double length, double speed, double acceleration, double jerk);

/** The speed around a corner of an inside angle (pi: straight) that may be cut short by a
 * deviation: sqrt(a R), R = d sin(th/2)/(1 - sin(th/2)) for the arc that touches both sides. */
double bite_move_time_corner(double angle, double deviation, double acceleration);

/** Time for a closed path of equal sides, from corner to corner at the corner speed. */
double bite_move_time_loop(double length, double corners, double speed, double acceleration,
                           double corner_speed);

#endif
