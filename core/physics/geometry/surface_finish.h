/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feed marks on wall and floor. */
#ifndef BITE_PHYSICS_GEOMETRY_SURFACE_FINISH_H
#define BITE_PHYSICS_GEOMETRY_SURFACE_FINISH_H

/** Height of the marks on the wall of a side cut: fz^2/(4 D). m (Ghosh and Mallik, problem 4.25).
 */
double bite_finish_wall(double tooth_feed, double diameter);
/** Height on a floor cut by a corner radius r: fz^2/(8 r) (Ghosh and Mallik 4.24). */
double bite_finish_corner(double tooth_feed, double corner_radius);
/** Height on a floor cut by end teeth that are dished by an angle (rad): fz tan(dish). */
double bite_finish_dished(double tooth_feed, double dish);
/** Height on a floor: of the corner radius's arcs, but not above the marks of the dished end teeth
 * that follow it, which a small radius does not reach. corner_radius: 0 for a sharp corner. */
double bite_finish_floor(double tooth_feed, double corner_radius, double dish);
/** Share of the transmitted light that marks of height Rt scatter, at most: 1 - exp(-(2 pi (n
 * - 1) Rq/lambda)^2), Rq = 0.3 Rt of a parabola or saw tooth, lambda 550 nm (total integrated
 * scatter; memory). Wide marks deflect it only slightly. */
double bite_finish_haze(double height, double refraction);

#endif
