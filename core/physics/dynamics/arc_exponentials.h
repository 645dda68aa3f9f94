/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Integrals of exponentials times Legendre polynomials over an arc, four exponents at a time.
 *
 * With the Legendre polynomials P over -1 to 1 the integral of P_a(x) exp(z x) is 2 i_a(z); that of
 * P_a(x) P_b(y) exp(z (x - y)) over x < y is 2 (-1)^(a+b+1) k_a(z) i_b(z) for a < b, k without its
 * factor pi/2, and for b < a it is (-1)^(a+b) times that of b and a (derived here from the
 * recurrences of both). i and k are the modified spherical Bessel functions.
 */
#ifndef BITE_PHYSICS_DYNAMICS_ARC_EXPONENTIALS_H
#define BITE_PHYSICS_DYNAMICS_ARC_EXPONENTIALS_H

#include "core/physics/dynamics/stability_lobes.h"

/** Legendre polynomials: most of them. */
#define BITE_ARC_ORDER_MAX 20
/** Two exponentials of each mode: those of the mode times exp(-+2 pi i n t). */
#define BITE_ARC_EXPONENTIALS (2 * BITE_MODES_MAX)

typedef struct bite_arc_exponentials {
    int count;
    double real[BITE_ARC_EXPONENTIALS]; /* z: the exponent over half of the arc */
    double imaginary[BITE_ARC_EXPONENTIALS];
    double weight_real[BITE_ARC_EXPONENTIALS];
    double weight_imaginary[BITE_ARC_EXPONENTIALS];
} bite_arc_exponentials;

/** The factors of the entries of each exponential: (-1)^b n_b i_b of the second polynomial, n its
 * normalization, and weight n_a i_a, weight (-1)^a n_a k_a/2 of the first one; and the entries on
 * the diagonal of what is to come. */
typedef struct bite_arc_factors {
    double second_real[BITE_ARC_EXPONENTIALS][BITE_ARC_ORDER_MAX];
    double second_imaginary[BITE_ARC_EXPONENTIALS][BITE_ARC_ORDER_MAX];
    double first_real[BITE_ARC_EXPONENTIALS][BITE_ARC_ORDER_MAX];
    double first_imaginary[BITE_ARC_EXPONENTIALS][BITE_ARC_ORDER_MAX];
    double to_come_real[BITE_ARC_EXPONENTIALS][BITE_ARC_ORDER_MAX];
    double to_come_imaginary[BITE_ARC_EXPONENTIALS][BITE_ARC_ORDER_MAX];
    double diagonal[BITE_ARC_EXPONENTIALS][BITE_ARC_ORDER_MAX];
} bite_arc_factors;

/** All entries of the exponentials are read, also those beyond their count. */
void bite_arc_factors_set(const bite_arc_exponentials *these, int order, bite_arc_factors *factors);

#endif
