/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A Sobol sequence with a digital shift, and the values of uncertain inputs at its points. */
#include "core/uncertainty/sobol.h"
#include "core/base/lane_math.h"
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <string.h>

/* Standard normal deviate of 95 %. */
static const double deviate_95 = 1.6448536269514722;

/* For each dimension the degree and the inner coefficients of a primitive polynomial, and the first
 * odd numbers of its recurrence: the first dimensions of Joe and Kuo's list new-joe-kuo-6 (2008,
 * SIAM Journal on Scientific Computing 30, 2635), optimized for uniform pairs of dimensions, but
 * for its 76th, which has a correlation of 0.19 with the 37th over 1024 points; the 81st stands
 * there. Those of Algorithm 659 (Bratley and Fox 1988), which GSL uses, end at 40, and two of their
 * pairs have a correlation of 0.75 over 512 points. */
#define DEGREE_MOST 9
static const struct {
    uint8_t degree;
    uint8_t inner;
    uint16_t first[DEGREE_MOST];
} recurrences[BITE_SOBOL_DIMENSIONS] = {{0, 0, {0}},
                                        {1, 0, {1}},
                                        {2, 1, {1, 3}},
                                        {3, 1, {1, 3, 1}},
                                        {3, 2, {1, 1, 1}},
                                        {4, 1, {1, 1, 3, 3}},
                                        {4, 4, {1, 3, 5, 13}},
                                        {5, 2, {1, 1, 5, 5, 17}},
                                        {5, 4, {1, 1, 5, 5, 5}},
                                        {5, 7, {1, 1, 7, 11, 19}},
                                        {5, 11, {1, 1, 5, 1, 1}},
                                        {5, 13, {1, 1, 1, 3, 11}},
                                        {5, 14, {1, 3, 5, 5, 31}},
                                        {6, 1, {1, 3, 3, 9, 7, 49}},
                                        {6, 13, {1, 1, 1, 15, 21, 21}},
                                        {6, 16, {1, 3, 1, 13, 27, 49}},
                                        {6, 19, {1, 1, 1, 15, 7, 5}},
                                        {6, 22, {1, 3, 1, 15, 13, 25}},
                                        {6, 25, {1, 1, 5, 5, 19, 61}},
                                        {7, 1, {1, 3, 7, 11, 23, 15, 103}},
                                        {7, 4, {1, 3, 7, 13, 13, 15, 69}},
                                        {7, 7, {1, 1, 3, 13, 7, 35, 63}},
                                        {7, 8, {1, 3, 5, 9, 1, 25, 53}},
                                        {7, 14, {1, 3, 1, 13, 9, 35, 107}},
                                        {7, 19, {1, 3, 1, 5, 27, 61, 31}},
                                        {7, 21, {1, 1, 5, 11, 19, 41, 61}},
                                        {7, 28, {1, 3, 5, 3, 3, 13, 69}},
                                        {7, 31, {1, 1, 7, 13, 1, 19, 1}},
                                        {7, 32, {1, 3, 7, 5, 13, 19, 59}},
                                        {7, 37, {1, 1, 3, 9, 25, 29, 41}},
                                        {7, 41, {1, 3, 5, 13, 23, 1, 55}},
                                        {7, 42, {1, 3, 7, 3, 13, 59, 17}},
                                        {7, 50, {1, 3, 1, 3, 5, 53, 69}},
                                        {7, 55, {1, 1, 5, 5, 23, 33, 13}},
                                        {7, 56, {1, 1, 7, 7, 1, 61, 123}},
                                        {7, 59, {1, 1, 7, 9, 13, 61, 49}},
                                        {7, 62, {1, 3, 3, 5, 3, 55, 33}},
                                        {8, 14, {1, 3, 1, 15, 31, 13, 49, 245}},
                                        {8, 21, {1, 3, 5, 15, 31, 59, 63, 97}},
                                        {8, 22, {1, 3, 1, 11, 11, 11, 77, 249}},
                                        {8, 38, {1, 3, 1, 11, 27, 43, 71, 9}},
                                        {8, 47, {1, 1, 7, 15, 21, 11, 81, 45}},
                                        {8, 49, {1, 3, 7, 3, 25, 31, 65, 79}},
                                        {8, 50, {1, 3, 1, 1, 19, 11, 3, 205}},
                                        {8, 52, {1, 1, 5, 9, 19, 21, 29, 157}},
                                        {8, 56, {1, 3, 7, 11, 1, 33, 89, 185}},
                                        {8, 67, {1, 3, 3, 3, 15, 9, 79, 71}},
                                        {8, 70, {1, 3, 7, 11, 15, 39, 119, 27}},
                                        {8, 84, {1, 1, 3, 1, 11, 31, 97, 225}},
                                        {8, 97, {1, 1, 1, 3, 23, 43, 57, 177}},
                                        {8, 103, {1, 3, 7, 7, 17, 17, 37, 71}},
                                        {8, 115, {1, 3, 1, 5, 27, 63, 123, 213}},
                                        {8, 122, {1, 1, 3, 5, 11, 43, 53, 133}},
                                        {9, 8, {1, 3, 5, 5, 29, 17, 47, 173, 479}},
                                        {9, 13, {1, 3, 3, 11, 3, 1, 109, 9, 69}},
                                        {9, 16, {1, 1, 1, 5, 17, 39, 23, 5, 343}},
                                        {9, 22, {1, 3, 1, 5, 25, 15, 31, 103, 499}},
                                        {9, 25, {1, 1, 1, 11, 11, 17, 63, 105, 183}},
                                        {9, 44, {1, 1, 5, 11, 9, 29, 97, 231, 363}},
                                        {9, 47, {1, 1, 5, 15, 19, 45, 41, 7, 383}},
                                        {9, 52, {1, 3, 7, 7, 31, 19, 83, 137, 221}},
                                        {9, 55, {1, 1, 1, 3, 23, 15, 111, 223, 83}},
                                        {9, 59, {1, 1, 5, 13, 31, 15, 55, 25, 161}},
                                        {9, 62, {1, 1, 3, 13, 25, 47, 39, 87, 257}},
                                        {9, 67, {1, 1, 1, 11, 21, 53, 125, 249, 293}},
                                        {9, 74, {1, 1, 7, 11, 11, 7, 57, 79, 323}},
                                        {9, 81, {1, 1, 5, 5, 17, 13, 81, 3, 131}},
                                        {9, 82, {1, 1, 7, 13, 23, 7, 65, 251, 475}},
                                        {9, 87, {1, 3, 5, 1, 9, 43, 3, 149, 11}},
                                        {9, 91, {1, 1, 3, 13, 31, 13, 13, 255, 487}},
                                        {9, 94, {1, 3, 3, 1, 5, 63, 89, 91, 127}},
                                        {9, 103, {1, 1, 3, 3, 1, 19, 123, 127, 237}},
                                        {9, 104, {1, 1, 5, 7, 23, 31, 37, 243, 289}},
                                        {9, 109, {1, 1, 5, 11, 17, 53, 117, 183, 491}},
                                        {9, 122, {1, 1, 1, 5, 1, 13, 13, 209, 345}},
                                        {9, 152, {1, 1, 3, 5, 5, 57, 15, 13, 159}},
                                        {9, 137, {1, 3, 1, 11, 7, 43, 81, 207, 175}},
                                        {9, 138, {1, 3, 1, 1, 15, 27, 63, 255, 49}},
                                        {9, 143, {1, 3, 5, 3, 27, 61, 105, 171, 305}},
                                        {9, 145, {1, 1, 5, 3, 1, 3, 57, 249, 149}}};

/* splitmix64 (public domain, Vigna): the shifts of a seed, the same on every machine. */
static uint32_t shift_of(uint64_t *seed)
{
    uint64_t z = *seed += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    z ^= z >> 31;
    return (uint32_t)(z >> (64 - BITE_SOBOL_DIGITS));
}

/* v_k = a_1 v_(k-1) ^ ... ^ v_(k-d) ^ v_(k-d)/2^d; for degree 0 the binary digits themselves. */
static void fill_directions(bite_sobol *sobol, unsigned dimension)
{
    int degree = recurrences[dimension].degree;
    for (int k = 0; k < BITE_SOBOL_DIGITS; k++) {
        uint32_t v = 1U << (BITE_SOBOL_DIGITS - 1 - k);
        if (k < degree) {
            v *= recurrences[dimension].first[k];
        } else if (degree > 0) {
            uint32_t far = sobol->direction[k - degree][dimension];
            v = far ^ (far >> degree);
            for (int i = 1; i < degree; i++) {
                v ^= recurrences[dimension].inner >> (degree - 1 - i) & 1
                         ? sobol->direction[k - i][dimension]
                         : 0U;
            }
        }
        sobol->direction[k][dimension] = v;
    }
}

int bite_sobol_init(bite_sobol *sobol, unsigned dimensions, uint64_t seed)
{
    if (dimensions == 0 || dimensions > BITE_SOBOL_DIMENSIONS) {
        return 0;
    }
    memset(sobol, 0, sizeof *sobol);
    sobol->dimensions = dimensions;
    for (unsigned i = 0; i < dimensions; i++) {
        sobol->digits[i] = shift_of(&seed);
        fill_directions(sobol, i);
    }
    return 1;
}

/* Numbers of a SIMD lane. */
#define SOBOL_LANES 8

/* Applies a direction number by exclusive or, in whole SIMD lanes: the lanes beyond the dimensions
 * are 0. */
static void apply_direction(bite_sobol *sobol, int direction)
{
    for (unsigned from = 0; from < sobol->dimensions; from += SOBOL_LANES) {
        uint32_t digits[SOBOL_LANES];
        uint32_t change[SOBOL_LANES];
        memcpy(digits, sobol->digits + from, sizeof digits);
        memcpy(change, sobol->direction[direction] + from, sizeof change);
        for (unsigned i = 0; i < SOBOL_LANES; i++) {
            digits[i] ^= change[i];
        }
        memcpy(sobol->digits + from, digits, sizeof digits);
    }
}

/* In Gray code order successive points differ by one direction number: that of the lowest 0 bit of
 * the current index. */
static void advance(bite_sobol *sobol)
{
    apply_direction(sobol, __builtin_ctz(~sobol->next));
    sobol->next++;
}

void bite_sobol_skip(bite_sobol *sobol, uint32_t to)
{
    uint32_t differ = (sobol->next ^ sobol->next >> 1) ^ (to ^ to >> 1);
    for (int k = 0; k < BITE_SOBOL_DIGITS; k++) {
        if (differ >> k & 1U) {
            apply_direction(sobol, k);
        }
    }
    sobol->next = to;
}

void bite_sobol_digits(bite_sobol *sobol, uint32_t digits[BITE_SOBOL_DIMENSIONS])
{
    memcpy(digits, sobol->digits, sizeof sobol->digits);
    advance(sobol);
}

double bite_normal_deviate(double probability)
{
    return gsl_cdf_ugaussian_Pinv(probability);
}

bite_scatter bite_scatter_init(const bite_spread *spread, double best)
{
    bite_scatter scatter = {best, 0.0, 0.0, spread->shape, 0};
    if (spread->shape == BITE_SHAPE_LEVEL) {
        scatter.best = spread->low;
        scatter.up = spread->high - spread->low;
    } else if (spread->shape == BITE_SHAPE_LOGNORMAL) {
        scatter.down = log(best / spread->low) / deviate_95;
        scatter.up = log(spread->high / best) / deviate_95;
    } else {
        scatter.down = (best - spread->low) / deviate_95;
        scatter.up = (spread->high - best) / deviate_95;
    }
    return scatter;
}

/* The deviate times the width of its side. */
BITE_FORMULA double scattered(const bite_scatter *scatter, double deviate)
{
    return deviate < 0.0 ? deviate * scatter->down : deviate * scatter->up;
}

BITE_IN_LANES static void fill_level(const bite_scatter *restrict scatter,
                                     const double *restrict deviates, size_t count,
                                     double *restrict values)
{
    for (size_t i = 0; i < count; i++) {
        double share = 0.5 * erfc(-M_SQRT1_2 * deviates[i]);
        values[i] = scatter->best + share * scatter->up;
    }
}

BITE_IN_LANES static void fill_normal(const bite_scatter *restrict scatter,
                                      const double *restrict deviates, size_t count,
                                      double *restrict values)
{
    for (size_t i = 0; i < count; i++) {
        values[i] = scatter->best + scattered(scatter, deviates[i]);
    }
}

BITE_IN_LANES static void fill_lognormal(const bite_scatter *restrict scatter,
                                         const double *restrict deviates, size_t count,
                                         double *restrict values)
{
    for (size_t i = 0; i < count; i++) {
        values[i] = scatter->best * exp(scattered(scatter, deviates[i]));
    }
}

void bite_scatter_values(const bite_scatter *scatter, const double *deviates, size_t count,
                         double *values)
{
    if (scatter->shape == BITE_SHAPE_LEVEL) {
        fill_level(scatter, deviates, count, values);
    } else if (scatter->shape == BITE_SHAPE_LOGNORMAL) {
        fill_lognormal(scatter, deviates, count, values);
    } else {
        fill_normal(scatter, deviates, count, values);
    }
}
