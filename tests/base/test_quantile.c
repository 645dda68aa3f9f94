/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The k-th smallest number is the one that a sort finds. */
#include "core/base/quantile.h"
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

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Few and many numbers: all different, mostly equal, rising and falling. */
START_TEST(the_kth_is_that_of_a_sort)
{
    enum { MOST = 3000 };
    static double numbers[MOST];
    static double sorted[MOST];
    static double scratch[MOST];
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
        double copied = bite_quantile_select_copy(numbers, count, k, scratch);
        double found = bite_quantile_select(numbers, count, k);
        ck_assert(copied == found);
        ck_assert(found == sorted[k]);
        for (size_t i = 0; i < count; i++) {
            ck_assert(i < k ? numbers[i] <= found : numbers[i] >= found);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("quantile");
    TCase *tests = tcase_create("quantile");
    tcase_set_timeout(tests, 120);
    tcase_add_loop_test(tests, the_kth_is_that_of_a_sort, 0, 4);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
