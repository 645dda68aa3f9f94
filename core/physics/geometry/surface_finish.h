/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marks that feed and shape leave on wall and floor. */
#ifndef BITE_PHYSICS_GEOMETRY_SURFACE_FINISH_H
#define BITE_PHYSICS_GEOMETRY_SURFACE_FINISH_H

/** Height of the marks on the wall of a side cut: fz^2/(4 D). m (Ghosh and Mallik, problem 4.25).
 */
double bite_finish_wall(double tooth_feed, double diameter);
/** Height on a floor cut by a corner radius r: fz^2/(8 r); its Ra: fz^2/(32 r) (Ghosh and
 * Mallik 4.24; Groover ex. 23.2). */
double bite_finish_corner(double tooth_feed, double corner_radius);
/** Height on a floor cut by end teeth that are dished by an angle (rad): fz tan(dish). */
double bite_finish_dished(double tooth_feed, double dish);
/** Share of light that marks of height Rt scatter on their way through, at most: 1 - exp(-(2 pi (n
 * - 1) Rq/lambda)^2), Rq = 0.3 Rt of a parabola or saw tooth, lambda 550 nm (total integrated
 * scatter; memory). Wide marks bend it by little. */
double bite_finish_haze(double height, double refraction);

#endif
