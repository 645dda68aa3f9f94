/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Integrals of exponentials times Legendre polynomials. */
#include "core/physics/dynamics/arc_exponentials.h"
#include "core/physics/dynamics/lane_vector.h"

/* Where Miller's recurrence begins, beyond the last function that is wanted. */
#define BEYOND 10
#define FUNCTIONS (BITE_ARC_ORDER_MAX + 1)
#define LANES BITE_WAVE_LANES

/* Modified spherical Bessel functions of four exponents. */
typedef struct arc_functions {
    bite_lane_complex first[FUNCTIONS];  /* i */
    bite_lane_complex second[FUNCTIONS]; /* k */
} arc_functions;

/* i_0 to i_order downwards, by the sum of (2 l + 1) i_l = exp(z). */
BITE_FORMULA void set_first(const bite_lane_complex *over, const bite_lane_complex *power,
                            int order, bite_lane_complex *first)
{
    bite_lane_complex above, here, sum, scaled, below;
    above.real = above.imaginary = here.imaginary = 0.0 * power->real;
    here.real = above.real + 1e-140;
    sum = above;
    for (int l = order + BEYOND; l >= 0; l--) {
        if (l <= order) {
            first[l] = here;
        }
        bite_lane_scaled(2 * l + 1, &here, &scaled);
        bite_lane_sum(&sum, &scaled, &sum);
        bite_lane_product(&scaled, over, &below);
        bite_lane_sum(&above, &below, &below);
        above = here;
        here = below;
    }
    bite_lane_reciprocal(&sum, &sum);
    bite_lane_product(&sum, power, &sum);
    for (int l = 0; l <= order; l++) {
        bite_lane_product(&first[l], &sum, &first[l]);
    }
}

/* k_0 to k_order upwards. */
BITE_FORMULA void set_second(const bite_lane_complex *over, const bite_lane_complex *power,
                             int order, bite_lane_complex *second)
{
    bite_lane_complex scaled;
    bite_lane_reciprocal(power, &scaled);
    bite_lane_product(&scaled, over, &second[0]);
    bite_lane_product(&second[0], over, &scaled);
    bite_lane_sum(&second[0], &scaled, &second[1]);
    for (int l = 1; l < order; l++) {
        bite_lane_scaled(2 * l + 1, over, &scaled);
        bite_lane_product(&scaled, &second[l], &scaled);
        bite_lane_sum(&scaled, &second[l - 1], &second[l + 1]);
    }
}

/* Of the exponentials from `from` on. */
BITE_FORMULA void set_factors(const bite_lane_complex *z, const bite_lane_complex *weight,
                              const arc_functions *at, int order, int from,
                              bite_arc_factors *factors)
{
    for (int a = 0; a < order; a++) {
        const bite_lane_complex *i = &at->first[a];
        const bite_lane_complex *k = &at->second[a];
        double norm = sqrt(a + 0.5);
        double turned = a % 2 == 0 ? norm : -norm;
        bite_lane_complex first, rest, sum, other;
        bite_lane_product(weight, i, &first);
        bite_lane_product(weight, k, &rest);
        /* k of order -1 is that of order 0 */
        bite_lane_product(k, i + 1, &sum);
        bite_lane_product(a > 0 ? k - 1 : k, i, &other);
        bite_lane_sum(&sum, &other, &sum);
        bite_lane_product(z, &sum, &sum);
        bite_lane_product(weight, &sum, &sum);
        for (int l = 0; l < LANES; l++) {
            factors->second_real[from + l][a] = turned * i->real[l];
            factors->second_imaginary[from + l][a] = turned * i->imaginary[l];
            factors->first_real[from + l][a] = norm * first.real[l];
            factors->first_imaginary[from + l][a] = norm * first.imaginary[l];
            factors->to_come_real[from + l][a] = 0.5 * turned * rest.real[l];
            factors->to_come_imaginary[from + l][a] = 0.5 * turned * rest.imaginary[l];
            factors->diagonal[from + l][a] = -0.25 * sum.imaginary[l];
        }
    }
}

BITE_IN_LANES void bite_arc_factors_set(const bite_arc_exponentials *these, int order,
                                        bite_arc_factors *factors)
{
    double power_real[BITE_ARC_EXPONENTIALS]; /* exp(z) */
    double power_imaginary[BITE_ARC_EXPONENTIALS];
    /* one function in each loop: for both cosine and sine of one number the compiler takes one that
     * has no vector form */
    for (int e = 0; e < BITE_ARC_EXPONENTIALS; e++) {
        power_real[e] = cos(these->imaginary[e]);
    }
    for (int e = 0; e < BITE_ARC_EXPONENTIALS; e++) {
        power_imaginary[e] = sin(these->imaginary[e]);
    }
    for (int e = 0; e < BITE_ARC_EXPONENTIALS; e++) {
        double size = exp(these->real[e]);
        power_real[e] *= size;
        power_imaginary[e] *= size;
    }
    for (int from = 0; from < these->count; from += LANES) {
        arc_functions functions;
        bite_lane_complex z, over, weight, power;
        for (int l = 0; l < LANES; l++) {
            z.real[l] = these->real[from + l];
            z.imaginary[l] = these->imaginary[from + l];
            weight.real[l] = these->weight_real[from + l];
            weight.imaginary[l] = these->weight_imaginary[from + l];
            power.real[l] = power_real[from + l];
            power.imaginary[l] = power_imaginary[from + l];
        }
        bite_lane_reciprocal(&z, &over);
        set_first(&over, &power, order, functions.first);
        set_second(&over, &power, order, functions.second);
        set_factors(&z, &weight, &functions, order, from, factors);
    }
}
