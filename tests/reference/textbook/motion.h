/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for motion and surface marks that the engine does not use: they verify reference rows.
 * SI units. */
#ifndef BITE_TESTS_REFERENCE_TEXTBOOK_MOTION_H
#define BITE_TESTS_REFERENCE_TEXTBOOK_MOTION_H

/** Diameter that cuts at depth ap, of a ball whose axis leans by `tilt` (rad) from the surface's
 * normal: D sin(tilt + acos(1 - 2 ap/D)), at most D. */
double textbook_kinematics_tilted_diameter(double diameter, double depth, double tilt);

/** Speed on an arc: sqrt(a r). */
double textbook_motion_arc_speed(double radius, double acceleration);
/** Distance of a ramp from rest with limited jerk: v T/2, T = v/a + a/j, or 2 sqrt(v/j) if the
 * acceleration is not reached. */
double textbook_motion_ramp(double speed, double acceleration, double jerk);

/** A length converted to 20 degC (ISO 1): L (1 - alpha (T - 20)); temperature in K. */
double textbook_length_at_20(double length, double expansion, double temperature);

/** Distance that the cutter's centre travels from first contact to full width: side cut sqrt(ae (D
 * - ae)); face cut (D - sqrt(D^2 - w^2))/2. */
double textbook_kinematics_run_in_side(double diameter, double width);
double textbook_kinematics_run_in_face(double diameter, double width);

/** Cusp between two passes of a ball a step apart: R - sqrt(R^2 - s^2/4), s <= 2 R. */
double textbook_finish_cusp(double ball_radius, double step);

#endif
