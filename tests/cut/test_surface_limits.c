/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits and values of a cut surface: crazing, and the haze of a clear part. */
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* A skin that stays cool keeps no tension; one that relaxes completely keeps E alpha dT/(1 - nu),
 * which is compared with the crazing stress of acrylic. */
START_TEST(crazing_begins_when_stress_relaxes)
{
    bite_cut cut = bite_test_part_cut();
    ck_assert_double_eq(bite_test_utilization(&cut, BITE_LIMIT_CRAZE), 0.0);
    cut.width = (double)NAN;
    cut.spindle_speed = 400.0;
    cut.feed_rate = 20e-3 / 60.0;
    bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_CRAZE);
    bite_assert_near(limit.demand, 3.3e9 * 70e-6 * (378.15 - 20.0 - 293.15) / (1.0 - 0.37), 1e-12);
    ck_assert_uint_eq(limit.verdict, BITE_OVER);
    cut.relaxing = 600.0;
    ck_assert_double_eq(bite_test_utilization(&cut, BITE_LIMIT_CRAZE), 0.0);
    cut.substance = BITE_METAL;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_CRAZE).why, BITE_WHY_DOES_NOT_CRAZE);
}
END_TEST

/* Only clear parts have a haze; finer marks scatter a smaller share of the light. */
START_TEST(haze_falls_with_finer_marks)
{
    bite_cut cut = bite_test_part_cut();
    double before = 1.0;
    for (double feed = 0.02; feed > 1e-5; feed *= 0.5) {
        cut.feed_rate = feed;
        double haze = bite_test_pass(&cut).values[BITE_HAZE].value;
        ck_assert_msg(haze > 0.0 && haze <= before, "%g after %g", haze, before);
        before = haze;
    }
    cut.refraction = (double)NAN;
    ck_assert(isnan(bite_test_pass(&cut).values[BITE_HAZE].value));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("surface limits");
    TCase *limits = tcase_create("surface limits");
    tcase_add_test(limits, crazing_begins_when_stress_relaxes);
    tcase_add_test(limits, haze_falls_with_finer_marks);
    tcase_set_timeout(limits, 120);
    suite_add_tcase(suite, limits);
    return bite_test_run(suite);
}
