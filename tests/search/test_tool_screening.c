/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Of all tools of the tables a few are searched, those that estimates rank best: the one that is
 * chosen is compared with every tool searched by itself. */
#include "core/search/choice.h"
#include "tests/search/search_request.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include <math.h>

enum { INPUTS = 6, DRAWS = 256 };

static const search_input requests[][INPUTS] = {
    {{"material", "6061"}, {"machine", "small-vmc"}, {"feature_depth", "3mm"}},
    {{"material", "304"}, {"machine", "small-vmc"}, {"feature_depth", "2mm"}},
    {{"material", "1018"}, {"machine", "small-vmc"}, {"feature_depth", "4mm"}, {"gap", "3.5mm"}},
};
enum { REQUESTS = sizeof requests / sizeof *requests };

/* What estimates may miss. */
static const double most_slower = 1.06;

/* The choice among one named tool, or all of them. NULL: the tool does not serve. */
static bite_choice *choice_of(const bite_request *request, const char *tool)
{
    bite_choice_options options;
    bite_choice *choice = NULL;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_FAST;
    options.effort = BITE_EFFORT_QUICK;
    options.draws = DRAWS;
    options.confidence = 0.9;
    options.tools = &tool;
    options.tool_count = 1;
    return bite_choice_new(request, &options, &choice, NULL) == BITE_OK ? choice : NULL;
}

/* The time that a unit of length takes with all passes; of a slot, a unit of area. */
static double time_of(const bite_choice *choice)
{
    const bite_cut *full = &choice->answer->full;
    double wide = isnan(full->width) ? full->diameter : 1.0;
    return choice->best.passes * fmax(1.0, choice->best.side_passes) / (choice->best.feed * wide);
}

START_TEST(no_tool_by_itself_is_much_faster)
{
    search_request made;
    search_request_begin(BITE_GOAL_FAST, &made);
    search_request_put_all(&made, requests[_i], INPUTS);
    bite_choice *any = choice_of(made.request, "any");
    ck_assert_ptr_nonnull(any);
    ck_assert(any->clear);
    size_t count = bite_library_count(library, BITE_TOOLS);
    size_t clear = 0;
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        ck_assert_int_eq(bite_library_item(library, BITE_TOOLS, i, &item, NULL), BITE_OK);
        bite_choice *alone = choice_of(made.request, item.name);
        if (alone != NULL && alone->clear) {
            clear++;
            ck_assert_msg(time_of(any) < most_slower * time_of(alone), "%s: %s takes %.2f times",
                          made.line, any->best.tool, time_of(any) / time_of(alone));
        }
        bite_choice_free(alone);
    }
    ck_assert_uint_ge(clear, 3);
    bite_choice_free(any);
    search_request_end(&made);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tool screening");
    TCase *tests = tcase_create("tool screening");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, no_tool_by_itself_is_much_faster, 0, REQUESTS);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
