/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Powers in lanes against the C library's; the k-th of many numbers against a sort. */
#include "core/base/quantile.h"
#include "core/base/vector_exp.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

/* splitmix64, as in the tests of cuts */
static double between(uint64_t *seed, double low, double high)
{
    uint64_t z = *seed += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return low + (high - low) * (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

START_TEST(powers_are_the_librarys)
{
    uint64_t seed = 7;
    for (int i = 0; i < 200000; i++) {
        double x[2 * BITE_VECTOR_WIDTH];
        double power[2 * BITE_VECTOR_WIDTH];
        double wide = i % 3 == 0 ? 0.4 : i % 3 == 1 ? 5.0 : 690.0;
        for (int k = 0; k < 2 * BITE_VECTOR_WIDTH; k++) {
            x[k] = between(&seed, -wide, wide);
        }
        bite_vector_exp(x, power, 2 * BITE_VECTOR_WIDTH);
        for (int k = 0; k < 2 * BITE_VECTOR_WIDTH; k++) {
            bite_assert_near(power[k], exp(x[k]), 5e-16);
        }
    }
}
END_TEST

START_TEST(powers_at_the_ends)
{
    const double x[BITE_VECTOR_WIDTH] = {
        0.0, -0.0, (double)NAN, (double)INFINITY, -(double)INFINITY, 1e9, 700.0, -700.0};
    double power[BITE_VECTOR_WIDTH];
    bite_vector_exp(x, power, BITE_VECTOR_WIDTH);
    ck_assert(power[0] == 1.0 && power[1] == 1.0 && isnan(power[2]));
    ck_assert(power[3] == power[6] && power[5] == power[6] && power[4] == power[7]);
    bite_assert_near(power[6], exp(700.0), 5e-16);
    bite_assert_near(power[7], exp(-700.0), 5e-16);
}
END_TEST

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Of few and many, all different and mostly alike, sorted either way. */
START_TEST(the_kth_is_where_a_sort_has_it)
{
    enum { MOST = 3000 };
    static double numbers[MOST];
    static double sorted[MOST];
    static double capacity[MOST];
    uint64_t seed = 70 + (uint64_t)_i;
    for (int round = 0; round < 300; round++) {
        size_t count = 1 + (size_t)between(&seed, 0.0, round % 2 ? MOST : 20.0);
        size_t k = (size_t)between(&seed, 0.0, (double)count);
        for (size_t i = 0; i < count; i++) {
            double any = between(&seed, 0.0, 1.0);
            numbers[i] = _i == 0   ? any
                         : _i == 1 ? floor(5.0 * any)
                         : _i == 2 ? (double)i
                                   : -(double)i;
            sorted[i] = numbers[i];
        }
        qsort(sorted, count, sizeof *sorted, ascending);
        double beside = bite_quantile_select_neighbour(numbers, count, k, capacity);
        double found = bite_quantile_select(numbers, count, k);
        ck_assert(beside == found);
        ck_assert(found == sorted[k]);
        for (size_t i = 0; i < count; i++) {
            ck_assert(i < k ? numbers[i] <= found : numbers[i] >= found);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("lanes");
    TCase *lanes = tcase_create("lanes");
    tcase_add_test(lanes, powers_are_the_librarys);
    tcase_add_test(lanes, powers_at_the_ends);
    tcase_add_loop_test(lanes, the_kth_is_where_a_sort_has_it, 0, 4);
    tcase_set_timeout(lanes, 120);
    suite_add_tcase(suite, lanes);
    return bite_test_run(suite);
}
