/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The share of its own heat that a cutter meets again, against finite volumes of our own. */
#include "core/cut/walk.h"
#include "tests/cut/walk_oracle.h"
#include "tests/support.h"
#include <math.h>

/* In one dimension all of the heat comes back, whatever the layer: exactly the heat balance of a moving half-space. */
START_TEST(one_dimension_gives_all_back)
{
    for (double fourier = 0.05; fourier < 4.0; fourier *= 2.0) {
        walk_1d got = walk_oracle_1d(fourier, 200, 6);
        bite_assert_near(got.met, 1.0, 1e-3);
    }
}
END_TEST

/* The surface that stays feels the preheat when a layer is thin against what the heat reaches between two teeth, and not when it is
 * thick. */
START_TEST(deeper_layer_feels_part_of_it)
{
    double last = 0.0;
    for (double fourier = 0.05; fourier < 4.0; fourier *= 2.0) {
        walk_1d got = walk_oracle_1d(fourier, 200, 6);
        double share = got.surface / got.preheat;
        ck_assert(share > last);
        ck_assert(bite_walk_surface(fourier) > bite_walk_surface(0.5 * fourier));
        ck_assert_double_eq_tol(bite_walk_surface(fourier), share, 0.1);
        last = share;
    }
}
END_TEST

/* A slot through a plate, seen from above; the claim of the fit is 5 %. */
START_TEST(two_dimensions)
{
    static const double peclets[] = {3.0, 10.0, 30.0, 100.0};
    double coarse = walk_oracle_2d(peclets[_i], 12);
    double fine = walk_oracle_2d(peclets[_i], 24);
    double limit = fine + (fine - coarse); /* first order in the cell: the staircase of the front */
    ck_assert_double_eq_tol(bite_walk_share(peclets[_i], 0.0) / limit, 1.0, 0.05);
}
END_TEST

START_TEST(limits)
{
    double last = 0.0;
    for (double peclet = 0.01; peclet < 1e5; peclet *= 3.0) {
        double share = bite_walk_share(peclet, 0.0);
        ck_assert(share > last && share < 1.0);
        ck_assert(bite_walk_share(peclet, 0.5) < share);
        last = share;
    }
    ck_assert(bite_walk_surface(1e-6) < 1e-6 && bite_walk_surface(1e6) > 1.0 - 1e-6);
    bite_assert_near(bite_walk_peclet(2.0, 3.0, 100.0, 6.0), 1.0, 1e-12);
    ck_assert(bite_walk_peclet(2.0, 3.0, 1.0, 6.0) < 1.0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("walk");
    TCase *tests = tcase_create("walk");
    tcase_add_test(tests, one_dimension_gives_all_back);
    tcase_add_test(tests, deeper_layer_feels_part_of_it);
    tcase_add_loop_test(tests, two_dimensions, 0, 4);
    tcase_add_test(tests, limits);
    tcase_set_timeout(tests, 300);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
