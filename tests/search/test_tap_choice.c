/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a machine can tap a thread, and how slowly it would. */
#include "core/library/collection.h"
#include "core/library/material.h"
#include "core/request/answer.h"
#include "core/search/tap_choice.h"
#include "tests/support/open_library.h"
#include <math.h>

/* M3 in a hole of 2.5 mm. */
static bite_status choose(const char *grade, const char *machine, double length,
                          bite_tap_choice *tap, bite_error *error)
{
    const bite_material *material = NULL;
    ck_assert_int_eq(bite_library_grade(library, grade, &material, NULL), BITE_OK);
    const bite_thread_case thread = {library, material, machine, 3e-3, 0.5e-3, 2.5e-3, length};
    return bite_tap_choose(&thread, "M3", tap, error);
}

/* A machining centre turns slowly and taps aluminium; the spindle of a small mill turns at least
 * 3000 rpm, an edge speed of pi 3 mm x 50/s = 28.3 m/min, which a tap bears in aluminium and not in
 * stainless steel. Without a machine it is as on the usual one. */
START_TEST(machines_that_tap)
{
    static const struct {
        const char *grade;
        const char *machine;
        uint32_t serves;
    } cases[] = {{"6061", "small-vmc", 1},
                 {"304", "small-vmc", 1},
                 {"304", "bench-24k", 0},
                 {"304", NULL, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_tap_choice tap;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(choose(cases[i].grade, cases[i].machine, 4e-3, &tap, &error) == BITE_OK, "%s",
                      error.message);
        ck_assert_msg(tap.serves == cases[i].serves, "%zu: %u at %g rpm", i, tap.serves,
                      60.0 * tap.turns);
        ck_assert_double_gt(tap.turns, 0.0);
        if (!tap.serves) {
            bite_assert_near(60.0 * tap.turns, 3000.0, 1e-9);
            ck_assert_double_gt(tap.speed_share, 1.0);
        }
    }
}
END_TEST

/* A tap serves if its cut is clear or tight, and its edges are not too fast. */
START_TEST(taps_that_serve)
{
    static const struct {
        uint32_t verdict;
        uint32_t applies;
        double share;
        int serves;
    } cases[] = {{BITE_CLEAR, 0, NAN, 1},   {BITE_TIGHT, 0, NAN, 1}, {BITE_OVER, 0, NAN, 0},
                 {BITE_UNKNOWN, 0, NAN, 0}, {BITE_CLEAR, 1, 1.0, 1}, {BITE_CLEAR, 1, 1.001, 0},
                 {BITE_CLEAR, 0, 1.001, 1}, {BITE_OVER, 1, 0.5, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_result result = {.verdict = cases[i].verdict};
        result.limits[BITE_LIMIT_EDGE_SPEED].applies = cases[i].applies;
        result.limits[BITE_LIMIT_EDGE_SPEED].utilization = cases[i].share;
        ck_assert_msg(bite_tap_serves(&result) == cases[i].serves, "%zu", i);
    }
}
END_TEST

/* A thread that cannot be asked for has no tap; a machine that does not exist is a fault. */
START_TEST(threads_without_an_answer)
{
    bite_tap_choice tap;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(choose("6061", "small-vmc", 1e-9, &tap, &error), BITE_OK);
    ck_assert_uint_eq(tap.serves, 0);
    ck_assert_uint_eq(tap.verdict, BITE_OVER);
    ck_assert(isnan(tap.turns) && isnan(tap.speed_share));
    ck_assert_str_eq(error.message, "");
    ck_assert_int_eq(choose("6061", "no-such-mill", 4e-3, &tap, &error), BITE_UNKNOWN_NAME);
    ck_assert_uint_eq(tap.serves, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tap choice");
    TCase *tests = tcase_create("tap choice");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, machines_that_tap);
    tcase_add_test(tests, taps_that_serve);
    tcase_add_test(tests, threads_without_an_answer);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
