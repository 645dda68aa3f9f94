/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chance of chatter over the stick-out of a tool: at one speed there are lobes, but what is not
 * known about the modes smooths them. */
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>

static void set(bite_request *request, const char *input, const char *quantity)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_request_set(request, input, quantity, &error) == BITE_OK, "%s: %s", input,
                  error.message);
}

/* A 1/4 in end mill with three flutes, 0.1 in deep in 6061. */
static bite_request *quarter_inch_mill(void)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, &error), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "aluminium/6061-t6", &error), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", &error), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "6.35mm", &error), BITE_OK);
    set(request, "flutes", "3");
    set(request, "spindle_speed", "10000rpm");
    set(request, "feed_rate", "0.05mm/tooth");
    set(request, "depth", "2.54mm");
    set(request, "width", "3.175mm");
    return request;
}

static double chance_at(bite_request *request, double stickout, bite_limit_id limit)
{
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_set_number(request, "stickout", stickout, &error), BITE_OK);
    ck_assert_msg(bite_answer_new(request, 256, 0.9, &answer, &error) == BITE_OK, "%s",
                  error.message);
    double chance = bite_answer_result(answer)->limits[limit].chance;
    bite_answer_free(answer);
    return chance;
}

/* In steps of 2 % from 25 to 76 mm the chance grows from nearly none to most, by at most 0.1 at
 * once and with no fall of more than 0.04. */
START_TEST(chance_of_chatter_grows_with_stickout)
{
    bite_request *request = quarter_inch_mill();
    double before = (double)NAN;
    double rise = 0.0;
    double fall = 0.0;
    for (double stickout = 25e-3; stickout < 77e-3; stickout *= 1.02) {
        double chance = chance_at(request, stickout, BITE_LIMIT_CHATTER_TOOL);
        ck_assert(!isnan(before) || chance < 0.05);
        rise = fmax(rise, chance - before); /* fmax passes over the first NaN */
        fall = fmax(fall, before - chance);
        before = chance;
    }
    bite_request_free(request);
    ck_assert_msg(before > 0.7, "%g at the longest", before);
    ck_assert_msg(rise < 0.1 && fall < 0.04, "largest rise %g, largest fall %g", rise, fall);
}
END_TEST

/* Modes of a class of machines advise, until chatter is nearly sure. */
START_TEST(nearly_sure_chatter_binds)
{
    static const double stickouts[] = {50e-3, 150e-3};
    bite_request *request = quarter_inch_mill();
    for (int i = 0; i < 2; i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_answer *answer = NULL;
        ck_assert_int_eq(bite_request_set_number(request, "stickout", stickouts[i], &error),
                         BITE_OK);
        ck_assert_int_eq(bite_answer_new(request, 256, 0.9, &answer, &error), BITE_OK);
        bite_limit chatter = bite_answer_result(answer)->limits[BITE_LIMIT_CHATTER];
        ck_assert_uint_eq(chatter.advisory, i == 0);
        ck_assert(i == 0 ? chatter.chance < 0.9 : chatter.chance >= 0.9);
        bite_answer_free(answer);
    }
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("chatter chance");
    TCase *chatter = tcase_create("chatter chance");
    tcase_add_checked_fixture(chatter, open_library, close_library);
    tcase_add_test(chatter, chance_of_chatter_grows_with_stickout);
    tcase_add_test(chatter, nearly_sure_chatter_binds);
    tcase_set_timeout(chatter, 120);
    suite_add_tcase(suite, chatter);
    return bite_test_run(suite);
}
