/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The characteristic equation of the waves of arc_waves.h as a polynomial of the load x and of
 * v = exp(-i turn).
 *
 * det(1 - x A(v)) has double poles where the free vibration of a mode repeats itself from tooth to
 * tooth. Without them it is N(x, v) = det(1 - x A(v)) product of (1 - d v)^2 (1 - d' v)^2, d and d'
 * the decays of a mode from tooth to tooth: an entire function of v with real coefficients, which
 * fall faster than any power from some 4 per mode on (derived here). A few turns therefore
 * determine it everywhere, and for each of them the determinant is a polynomial of the load. Waves
 * grow from tooth to tooth at the zeros within |v| < 1.
 */
#ifndef BITE_PHYSICS_DYNAMICS_WAVE_POLYNOMIAL_H
#define BITE_PHYSICS_DYNAMICS_WAVE_POLYNOMIAL_H

#include "core/physics/dynamics/arc_waves.h"
#include "core/physics/dynamics/characteristic_lanes.h"

/** Turns from 0 to pi, a multiple of BITE_WAVE_LANES. */
#define BITE_WAVE_SAMPLES_MAX 24
#define BITE_WAVE_POWERS (2 * BITE_WAVE_SAMPLES_MAX)

/** Most turns at once. */
#define BITE_WAVE_TURNS_MAX 40

/** Powers of the load, in whole lanes. */
#define BITE_LOAD_LANES (BITE_LOAD_POWERS + BITE_WAVE_LANES - 1)

typedef struct bite_wave_polynomial {
    int powers;      /* of v: 0 to powers - 1 */
    int load_powers; /* of the load, in its unit: 0 to load_powers - 1 */
    double coefficient[BITE_LOAD_LANES][BITE_WAVE_POWERS];
} bite_wave_polynomial;

/** Working memory, owned by the caller; it need not be initialized. */
typedef struct bite_wave_room {
    bite_lane_minors minors;
    double real[BITE_WAVE_SAMPLES_MAX + 1][BITE_LOAD_LANES];
    double imaginary[BITE_WAVE_SAMPLES_MAX + 1][BITE_LOAD_LANES];
} bite_wave_room;

/** order: of the part of the matrices to use. samples: of turns, a multiple of BITE_WAVE_LANES up
 * to BITE_WAVE_SAMPLES_MAX. unit: of the loads, N/m. */
void bite_wave_polynomial_set(const bite_arc_waves *waves, int order, double unit, int samples,
                              bite_lane_matrices *matrices, bite_wave_room *room,
                              bite_wave_polynomial *polynomial);

/** Coefficients of the powers of v at BITE_WAVE_LANES loads, in the unit. */
void bite_wave_polynomial_load(const bite_wave_polynomial *polynomial, const double *load,
                               bite_lane_vector *coefficient);

/** A turn, with what does not depend on the load. */
typedef struct bite_wave_turn {
    double turn;
    double cosine;
    double sine;
    bite_complex poles; /* product of (1 - d v)^2 (1 - d' v)^2 */
} bite_wave_turn;

void bite_wave_turns_set(const bite_arc_waves *waves, const double *turn, int count,
                         bite_wave_turn *turns);

/** The turn in the middle of two others. */
void bite_wave_turn_between(const bite_arc_waves *waves, const bite_wave_turn *low,
                            const bite_wave_turn *high, bite_wave_turn *middle);

/** det(1 - x A(v)) of all lanes of the coefficients, times a positive number. value: real and
 * imaginary parts of the determinants at each turn. */
void bite_wave_determinants(const bite_lane_vector *coefficient, int powers,
                            const bite_wave_turn *turns, int count, bite_lane_vector (*value)[2]);

/** det(1 - load A) of four turns, each with its load b K, N/m, with the whole matrices. */
void bite_wave_exact(const bite_arc_waves *waves, const double *turn, const double *load,
                     bite_lane_matrices *room, bite_lane_complex *value);

/** N at a turn and a load, in the unit, and its derivatives. */
typedef struct bite_wave_point {
    bite_complex value;
    bite_complex by_turn;
    bite_complex by_load;
} bite_wave_point;

bite_wave_point bite_wave_polynomial_at(const bite_wave_polynomial *polynomial, double turn,
                                        double load);

#endif
