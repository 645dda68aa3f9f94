/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a choice says that it is restricted by. */
#include "core/search/choice.h"
#include "tests/search/search_request.h"
#include "tests/support/open_library.h"
#include <math.h>

enum { INPUTS = 10, NAMED = 4, NONE = -1 };

/* Requests, and all limits that are named, in ascending order. The first is as
 * fast as its spindle, with room in its chip; the second also has the largest feed per tooth that
 * shops run; the third nearly uses what its teeth withstand; the fourth the fastest feed, and the
 * bending of a thin tool; the last uses the four fifths of a limit that a gentle cut may. */
static const struct {
    uint32_t goal;
    search_input inputs[INPUTS];
    int limits[NAMED]; /* up to NONE */
} cases[] = {
    {BITE_GOAL_FAST,
     {{"material", "6061"}, {"tool", "6mm"}, {"depth", "0.5mm"}, {"machine", "small-vmc"}},
     {BITE_LIMIT_SPINDLE_FAST, NONE}},
    {BITE_GOAL_FAST,
     {{"material", "6061"},
      {"tool", "3mm"},
      {"stickout", "20mm"},
      {"depth", "1mm"},
      {"width", "0.1mm"},
      {"machine", "small-vmc"}},
     {BITE_LIMIT_SPINDLE_FAST, BITE_LIMIT_LARGEST_TOOTH, NONE}},
    {BITE_GOAL_FAST,
     {{"material", "304"},
      {"tool", "6mm"},
      {"depth", "0.2mm"},
      {"width", "2mm"},
      {"machine", "small-vmc"}},
     {BITE_LIMIT_SPINDLE_FAST, BITE_LIMIT_FEED_TOOTH, NONE}},
    {BITE_GOAL_FAST,
     {{"material", "polycarbonate"},
      {"tool", "2mm"},
      {"feature_depth", "6mm"},
      {"feature_width", "2mm"},
      {"tolerance", "0.02mm"}},
     {BITE_LIMIT_FEED_FAST, BITE_LIMIT_DEFLECTION, BITE_LIMIT_REACH, NONE}},
    {BITE_GOAL_GENTLE,
     {{"material", "6061"}, {"tool", "6mm"}, {"depth", "0.5mm"}, {"machine", "small-vmc"}},
     {BITE_LIMIT_SPINDLE_FAST, BITE_LIMIT_FEED_TOOTH, BITE_LIMIT_GOAL, NONE}},
};
enum { CASES = sizeof cases / sizeof *cases };

static bite_choice *choose(int at)
{
    search_request made;
    search_request_begin(cases[at].goal, &made);
    search_request_put_all(&made, cases[at].inputs, INPUTS);
    bite_choice_options options;
    bite_choice *choice = NULL;
    bite_choice_options_init(&options);
    options.goal = cases[at].goal;
    options.draws = 256;
    options.beyond_charts = 1;
    ck_assert_int_eq(bite_choice_new(made.request, &options, &choice, NULL), BITE_OK);
    search_request_end(&made);
    return choice;
}

START_TEST(what_restricts_is_named)
{
    bite_choice *choice = choose(_i);
    const int *expected = cases[_i].limits;
    bite_limit_id limit = BITE_LIMIT_COUNT;
    double gain = -1.0;
    size_t named = 0;
    for (int id = 0; id <= BITE_LIMIT_GOAL; id++) {
        for (size_t i = 0; bite_choice_active_limit(choice, i, &limit, &gain); i++) {
            if ((int)limit == id) {
                ck_assert_msg(expected[named] == id, "%d, not %d", id, expected[named]);
                ck_assert(isnan(gain) || gain >= 0.0);
                named++;
            }
        }
    }
    ck_assert_int_eq(expected[named], NONE);
    bite_choice_free(choice);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("active limits");
    TCase *tests = tcase_create("active limits");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, what_restricts_is_named, 0, CASES);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
