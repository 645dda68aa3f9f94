/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limit that represents a pass: the likeliest to be exceeded, or without chances the fullest.
 */
#include "core/job/foremost_limit.h"
#include "tests/support/support.h"
#include <math.h>
#include <string.h>

static bite_result result_of(void)
{
    bite_result result;
    memset(&result, 0, sizeof result);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        result.limits[i].applies = 1;
        result.limits[i].utilization = 0.1;
        result.limits[i].chance = (double)NAN;
    }
    result.worst = BITE_LIMIT_WEAR;
    return result;
}

START_TEST(the_fullest_of_those_that_bind)
{
    double chance = 0.0;
    bite_result result = result_of();
    result.limits[BITE_LIMIT_TOOL_BREAK].utilization = 0.7;
    result.limits[BITE_LIMIT_DEFLECTION].utilization = 0.9; /* advises only */
    result.limits[BITE_LIMIT_DEFLECTION].advisory = 1;
    result.limits[BITE_LIMIT_CHATTER].utilization = 0.8; /* does not apply */
    result.limits[BITE_LIMIT_CHATTER].applies = 0;
    ck_assert_uint_eq(bite_foremost_limit(&result, &chance), BITE_LIMIT_TOOL_BREAK);
    ck_assert(isnan(chance));
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        result.limits[i].applies = 0;
    }
    ck_assert_uint_eq(bite_foremost_limit(&result, &chance), BITE_LIMIT_WEAR); /* the worst */
}
END_TEST

/* A chance below 0.05 % would be shown as 0.0 %: it is none. */
START_TEST(the_likeliest_before_the_fullest)
{
    double chance = 0.0;
    bite_result result = result_of();
    result.limits[BITE_LIMIT_TOOL_BREAK].utilization = 0.7;
    result.limits[BITE_LIMIT_WEAR].chance = 4e-4;
    ck_assert_uint_eq(bite_foremost_limit(&result, &chance), BITE_LIMIT_TOOL_BREAK);
    ck_assert(isnan(chance));
    result.limits[BITE_LIMIT_FEED_TOOTH].chance = 6e-4;
    result.limits[BITE_LIMIT_FEED_TOOTH].utilization = 0.2;
    result.limits[BITE_LIMIT_CHATTER].chance = 0.3;
    result.limits[BITE_LIMIT_CHATTER].advisory = 1;
    ck_assert_uint_eq(bite_foremost_limit(&result, &chance), BITE_LIMIT_FEED_TOOTH);
    ck_assert_double_eq(chance, 6e-4);
    result.limits[BITE_LIMIT_WEAR].chance = 0.02;
    ck_assert_uint_eq(bite_foremost_limit(&result, &chance), BITE_LIMIT_WEAR);
    ck_assert_double_eq(chance, 0.02);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("foremost limit");
    TCase *tests = tcase_create("foremost limit");
    tcase_add_test(tests, the_fullest_of_those_that_bind);
    tcase_add_test(tests, the_likeliest_before_the_fullest);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
