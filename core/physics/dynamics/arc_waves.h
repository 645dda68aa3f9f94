/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Waves of the chip thickness along the arc of contact of a tool whose modes are the same along
 * both axes: the operator that gives the waves that a wave of one tooth leads to.
 *
 * At the limit of stability the motion x is multiplied by exp(i turn) from tooth to tooth. The wave
 * h of the chip thickness at the time t within the arc is then (derived here)
 *
 *   h(t) = b K (1 - exp(-i turn)) * integral over the arc of G(t - s) c(t - s) h(s) ds,
 *   c(t) = -(sin(2 pi n t) + r cos(2 pi n t)), normal times force direction of two teeth,
 *   G(t) = sum over the modes and over k >= 0 of exp(-i k turn) g(t + k period), g = 0 before 0,
 *
 * with g the response to an impulse, of which the sum has a closed form: this contains all of the
 * free vibration between two cuts, and also teeth that cut at the same time. So 1/(b K) is an
 * eigenvalue of an operator on the arc alone. With Gauss points it becomes a small matrix
 * (Nystrom's method): on the arc G is a sum of exponentials, for which Gauss's weights are exact
 * to rounding from a few points on, less the response to the part of the wave that is still to
 * come, for which the product is integrated as a polynomial through the points.
 *
 * The same equation is known as the multi-frequency solution if it is expanded in harmonics of the
 * tooth passing frequency (Budak and Altintas 1998; memory), which needs many more of them in
 * light cuts than there are points here.
 */
#ifndef BITE_PHYSICS_DYNAMICS_ARC_WAVES_H
#define BITE_PHYSICS_DYNAMICS_ARC_WAVES_H

#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/dynamics/stability_lobes.h"

#define BITE_ARC_POINTS_MAX 24
#define BITE_ARC_ENTRIES (BITE_ARC_POINTS_MAX * BITE_ARC_POINTS_MAX)
#define BITE_ARC_LANES 4

typedef struct bite_complex {
    double real;
    double imaginary;
} bite_complex;

/** The parts of the operator that do not depend on the turn. Working memory of the caller. */
typedef struct bite_arc_waves {
    int count; /* of points; a matrix has count^2 entries, row by row */
    int modes;
    double period;                      /* s, from tooth to tooth */
    double time[BITE_ARC_POINTS_MAX];   /* s, of the points */
    bite_complex decay[BITE_MODES_MAX]; /* exp((-zeta wn + i wd) period) of a mode */
    double natural[BITE_MODES_MAX];     /* rad/s */
    double damping[BITE_MODES_MAX];     /* zeta */
    double cosine[BITE_MODES_MAX][BITE_ARC_ENTRIES];
    double sine[BITE_MODES_MAX][BITE_ARC_ENTRIES];
    double to_come[BITE_ARC_ENTRIES]; /* of all modes */
} bite_arc_waves;

/** The operator at a turn, or its derivative: coefficients of the parts above. */
typedef struct bite_wave_factors {
    bite_complex cosine[BITE_MODES_MAX];
    bite_complex sine[BITE_MODES_MAX];
    bite_complex to_come;
} bite_wave_factors;

/** Number of points needed for some 0.5 % at about a depth, m; more than BITE_ARC_POINTS_MAX: too
 * many waves in one cut. Of the cut the span, the speed and the pressure matter. */
double bite_arc_points(const bite_axis_modes *modes, const bite_excitation *cut, double depth);

/** modes: of one axis, their beta 0. ratio: r, radial/tangential; teeth: z; count: of points, 2 to
 * BITE_ARC_POINTS_MAX. */
void bite_arc_waves_set(const bite_axis_modes *modes, double span, double ratio, double teeth,
                        double speed, int count, bite_arc_waves *waves);

/** slope: the derivative with respect to the turn; NULL: not wanted. */
void bite_wave_factors_at(const bite_arc_waves *waves, double turn, bite_wave_factors *factors,
                          bite_wave_factors *slope);

/** The matrix, m/N times m2: its eigenvalues are 1/(b K). */
void bite_arc_matrix(const bite_arc_waves *waves, const bite_wave_factors *factors,
                     bite_complex *matrix);

/** Room of bite_arc_determinants. */
typedef struct bite_determinant_room {
    double real[BITE_ARC_ENTRIES][BITE_ARC_LANES];
    double imaginary[BITE_ARC_ENTRIES][BITE_ARC_LANES];
} bite_determinant_room;

/** det(1 - load A) for BITE_ARC_LANES turns, each with its load b K, N/m. */
void bite_arc_determinants(const bite_arc_waves *waves, const double *turn, const double *load,
                           bite_determinant_room *room, bite_complex *determinant);

#endif
