/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The vector exp agrees with the C library's. */
#include "core/base/vector_exp.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdint.h>

/* splitmix64, as in the tests of cuts */
static double between(uint64_t *seed, double low, double high)
{
    uint64_t z = *seed += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return low + (high - low) * (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

START_TEST(exp_agrees_with_the_c_library)
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

START_TEST(exp_is_clamped_at_the_ends)
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

int main(void)
{
    Suite *suite = suite_create("vector_exp");
    TCase *tests = tcase_create("vector_exp");
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, exp_agrees_with_the_c_library);
    tcase_add_test(tests, exp_is_clamped_at_the_ends);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
