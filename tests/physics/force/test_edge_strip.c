/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Means over a part of a strip of an edge against the integrals of sine and cosine. */
#include "core/physics/force/edge_strip.h"
#include "tests/support/support.h"
#include <math.h>

/* The mean over from - half to from + half, with b the angle there: of sin b, -d(cos b)/2 half; of
 * sin^2 b, 1/2 - sin(2 half) cos(2 from)/(4 half); of sin b cos b, sin(2 half) sin(2 from)/(4
 * half). Series about the middle leave an error of the order of turn^7/7! and half^4/5!. */
START_TEST(means_are_those_of_the_integrals)
{
    static const double middles[] = {-0.4, 0.0, 0.7, 1.5, 2.6};
    static const double turns[] = {-0.3, -0.05, 0.0, 0.1, 0.3};
    static const double halves[] = {0.01, 0.05, 0.1};
    for (int i = 0; i < 5; i++) {
        for (int k = 0; k < 5; k++) {
            for (int n = 0; n < 3; n++) {
                double at = middles[i] + turns[k];
                double half = halves[n];
                double error = 2e-7 + 0.5 * half * half * half * half;
                bite_strip_means means =
                    bite_strip_means_of(sin(middles[i]), cos(middles[i]), turns[k], half);
                double doubled = sin(2.0 * half) / (4.0 * half);
                ck_assert_double_eq_tol(means.sine, sin(at) * sin(half) / half, error);
                ck_assert_double_eq_tol(means.cosine, cos(at) * sin(half) / half, error);
                ck_assert_double_eq_tol(means.sine_sine, 0.5 - doubled * cos(2.0 * at), error);
                ck_assert_double_eq_tol(means.sine_cosine, doubled * sin(2.0 * at), error);
                ck_assert_double_eq_tol(means.middle, sin(at), 2e-7);
            }
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("edge strip");
    TCase *tests = tcase_create("edge strip");
    tcase_add_test(tests, means_are_those_of_the_integrals);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
