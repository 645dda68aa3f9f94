/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Sobol sequence: each dimension and each pair of them is even, for any seed. */
#include "core/uncertainty/sobol.h"
#include "tests/support/support.h"
#include "tests/support/test_physics.h"
#include <gsl/gsl_qrng.h>
#include <math.h>
#include <string.h>

/* A digital net: of the first 2^k points each cell of each dimension contains one, for any seed. */
START_TEST(draws_fill_every_cell)
{
    enum { CELLS = 1024, DIMENSIONS = BITE_SOBOL_DIMENSIONS };
    static unsigned char seen[DIMENSIONS][CELLS];
    bite_sobol sobol;
    double point[DIMENSIONS];
    memset(seen, 0, sizeof seen);
    ck_assert(bite_sobol_init(&sobol, DIMENSIONS, 41 + (uint64_t)_i));
    for (int i = 0; i < CELLS; i++) {
        bite_test_sobol_next(&sobol, point);
        for (int k = 0; k < DIMENSIONS; k++) {
            ck_assert(point[k] > 0.0 && point[k] < 1.0);
            seen[k][(int)(point[k] * CELLS)]++;
        }
    }
    for (int k = 0; k < DIMENSIONS; k++) {
        for (int i = 0; i < CELLS; i++) {
            ck_assert_int_eq(seen[k][i], 1);
        }
    }
}
END_TEST

/* The points of the first two dimensions, which all lists of Sobol sequences share, are those of
 * GSL's generator, turned over by the shift; going on to a point skips none, in any dimension. */
START_TEST(points_are_sobols)
{
    enum { POINTS = 3000, SHARED = 2 };
    static bite_sobol sobol;
    static bite_sobol skipped;
    gsl_qrng *other = gsl_qrng_alloc(gsl_qrng_sobol, SHARED);
    uint32_t shift[BITE_SOBOL_DIMENSIONS];
    uint32_t digits[BITE_SOBOL_DIMENSIONS];
    uint32_t again[BITE_SOBOL_DIMENSIONS];
    double point[SHARED];
    ck_assert_ptr_nonnull(other);
    ck_assert(bite_sobol_init(&sobol, BITE_SOBOL_DIMENSIONS, 5));
    bite_sobol_digits(&sobol, shift); /* the first point is the origin, which GSL leaves out */
    for (uint32_t i = 1; i < POINTS; i++) {
        (void)gsl_qrng_get(other, point);
        bite_sobol_digits(&sobol, digits);
        ck_assert(bite_sobol_init(&skipped, BITE_SOBOL_DIMENSIONS, 5));
        bite_sobol_skip(&skipped, i / 2);
        bite_sobol_skip(&skipped, i);
        bite_sobol_digits(&skipped, again);
        ck_assert_mem_eq(digits, again, sizeof digits);
        for (int k = 0; k < SHARED; k++) {
            ck_assert_uint_eq(digits[k], (uint32_t)(point[k] * 0x1p30) ^ shift[k]);
        }
    }
    gsl_qrng_free(other);
}
END_TEST

enum { PAIR_POINTS = 1024 };
static double pair_points[PAIR_POINTS][BITE_SOBOL_DIMENSIONS];

static void fill_pair_points(uint64_t seed)
{
    static bite_sobol sobol;
    ck_assert(bite_sobol_init(&sobol, BITE_SOBOL_DIMENSIONS, seed));
    for (int i = 0; i < PAIR_POINTS; i++) {
        bite_test_sobol_next(&sobol, pair_points[i]);
    }
}

static double correlation(int k, int j)
{
    double sum = 0.0;
    for (int i = 0; i < PAIR_POINTS; i++) {
        sum += (pair_points[i][j] - 0.5) * (pair_points[i][k] - 0.5);
    }
    return 12.0 * sum / PAIR_POINTS;
}

/* The least and the largest number of points in a cell of a square grid. */
static void count_cells(int k, int j, int cells, int *least, int *most)
{
    int counts[64] = {0};
    for (int i = 0; i < PAIR_POINTS; i++) {
        counts[(int)(pair_points[i][j] * cells) * cells + (int)(pair_points[i][k] * cells)]++;
    }
    *least = PAIR_POINTS;
    *most = 0;
    for (int i = 0; i < cells * cells; i++) {
        *least = counts[i] < *least ? counts[i] : *least;
        *most = counts[i] > *most ? counts[i] : *most;
    }
}

/* Over 1024 points no two dimensions have a correlation above 0.06, and each of 16 cells of any two
 * has its 64. Of 64 cells a few pairs leave half empty, and have twice as many in the others: one
 * in forty, which is a property of the sequence. */
START_TEST(pairs_of_dimensions_are_even)
{
    int uneven = 0;
    fill_pair_points(77 + (uint64_t)_i);
    for (int k = 0; k < BITE_SOBOL_DIMENSIONS; k++) {
        for (int j = 0; j < k; j++) {
            int least;
            int most;
            ck_assert_msg(fabs(correlation(k, j)) < 0.06, "%d and %d: %g", j, k, correlation(k, j));
            count_cells(k, j, 4, &least, &most);
            ck_assert_msg(least == 64 && most == 64, "%d and %d: %d to %d", j, k, least, most);
            count_cells(k, j, 8, &least, &most);
            ck_assert_msg(most <= 32, "%d and %d: %d", j, k, most);
            uneven += most > 16;
        }
    }
    int pairs = BITE_SOBOL_DIMENSIONS * (BITE_SOBOL_DIMENSIONS - 1) / 2;
    ck_assert_msg(uneven <= pairs / 39, "%d of %d pairs are uneven", uneven, pairs);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("sobol");
    TCase *sequence = tcase_create("sequence");
    tcase_add_loop_test(sequence, draws_fill_every_cell, 0, 4);
    tcase_add_test(sequence, points_are_sobols);
    tcase_add_loop_test(sequence, pairs_of_dimensions_are_even, 0, 3);
    tcase_set_timeout(sequence, 120);
    suite_add_tcase(suite, sequence);
    return bite_test_run(suite);
}
