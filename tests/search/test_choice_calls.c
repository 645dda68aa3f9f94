/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Calls of a choice: which of several tools wins, and what is refused, with its reason. */
#include "core/base/struct_size.h"
#include "core/request/answer.h"
#include "core/search/choice.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <string.h>

static bite_request *request_of(const char *grade)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, grade, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    return request;
}

static void put(bite_request *request, const char *input, const char *text)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_request_set(request, input, text, &error) == BITE_OK, "%s: %s", input,
                  error.message);
}

static bite_choice *choose(const bite_request *request, const char *one, const char *two)
{
    const char *const tools[] = {one, two};
    bite_choice_options options;
    bite_choice *choice = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_FAST;
    options.tools = tools;
    options.tool_count = two == NULL ? 1 : 2;
    options.draws = 512;
    options.effort = BITE_EFFORT_QUICK;
    ck_assert_msg(bite_choice_new(request, &options, &choice, &error) == BITE_OK, "%s",
                  error.message);
    return choice;
}

static double most_used(const bite_result *result)
{
    double most = 0.0;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        most = limit->applies && !limit->advisory ? fmax(most, limit->utilization) : most;
    }
    return most;
}

/* Steel 1018 at 12000 rpm and 300 mm/min, as deep as is stated, with two tools, in whichever order:
 * the better verdict wins; of clear cuts the faster one, of tight ones the one with less chance of
 * trouble, of those that are over the one that is over by less. */
static const struct {
    const char *depth;
    const char *winner;
    const char *loser;
    uint32_t verdict; /* of the winner */
    uint32_t other;   /* of the loser */
} pairs[] = {
    {"0.05mm", "2mm", "1.5mm", BITE_CLEAR, BITE_CLEAR},
    {"0.05mm", "1.5mm", "1mm", BITE_CLEAR, BITE_TIGHT},
    {"0.3mm", "1.5mm", "1mm", BITE_TIGHT, BITE_TIGHT},
    {"1mm", "2mm", "1.5mm", BITE_TIGHT, BITE_OVER},
    {"1mm", "1.5mm", "1mm", BITE_OVER, BITE_OVER},
    {"4mm", "2mm", "1mm", BITE_OVER, BITE_OVER},
};

START_TEST(the_better_tool_wins)
{
    bite_request *request = request_of("1018");
    put(request, "spindle_speed", "12000rpm");
    put(request, "feed_rate", "300mm/min");
    put(request, "depth", pairs[_i].depth);
    bite_choice *winner = choose(request, pairs[_i].winner, NULL);
    bite_choice *loser = choose(request, pairs[_i].loser, NULL);
    const bite_result *won = bite_answer_result(winner->answer);
    const bite_result *lost = bite_answer_result(loser->answer);
    ck_assert_uint_eq(won->verdict, pairs[_i].verdict);
    ck_assert_uint_eq(lost->verdict, pairs[_i].other);
    if (won->verdict == lost->verdict) {
        ck_assert(won->verdict == BITE_CLEAR
                      ? won->values[BITE_REMOVAL_RATE].value > lost->values[BITE_REMOVAL_RATE].value
                  : won->verdict == BITE_TIGHT ? won->chance < lost->chance
                                               : most_used(won) < most_used(lost));
    }
    for (int turn = 0; turn < 2; turn++) {
        bite_choice *both = choose(request, turn == 0 ? pairs[_i].winner : pairs[_i].loser,
                                   turn == 0 ? pairs[_i].loser : pairs[_i].winner);
        ck_assert_str_eq(both->best.tool, pairs[_i].winner);
        ck_assert_uint_eq(both->tools, 2);
        ck_assert_uint_eq(bite_answer_result(both->answer)->verdict, won->verdict);
        bite_choice_free(both);
    }
    bite_choice_free(winner);
    bite_choice_free(loser);
    bite_request_free(request);
}
END_TEST

static void assert_refused(const bite_request *request, const bite_choice_options *options,
                           bite_status status, const char *key, const char *says)
{
    bite_choice *choice = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_choice_new(request, options, &choice, &error), status);
    ck_assert_ptr_null(choice);
    ck_assert_str_eq(error.key, key);
    ck_assert_msg(strstr(error.message, says) != NULL, "%s", error.message);
}

START_TEST(options_that_do_not_exist)
{
    bite_request *request = request_of("6061");
    bite_choice_options usual;
    bite_choice_options_init(&usual);
    for (int i = 0; i < 5; i++) {
        bite_choice_options options = usual;
        options.goal = i == 0 ? BITE_GOAL_COUNT : usual.goal;
        options.units = i == 1 ? BITE_INCH + 1 : usual.units;
        options.effort = i == 2 ? BITE_EFFORT_QUICK + 1 : usual.effort;
        options.beyond_charts = i == 3 ? 2 : 0;
        options.reserved = i == 4;
        assert_refused(request, &options, BITE_BAD_ARGUMENT, "options", "is not one that exists");
    }
    assert_refused(NULL, &usual, BITE_BAD_ARGUMENT, "options", "a request, and a place");
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_choice_new(request, &usual, NULL, &error), BITE_BAD_ARGUMENT);
    bite_request_free(request);
}
END_TEST

START_TEST(lists_that_are_not_complete)
{
    static const char *const tools[] = {"2mm", NULL};
    static const double steps[] = {100.0, NAN};
    static const double negative[] = {-100.0};
    bite_request *request = request_of("6061");
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.tool_count = 1;
    assert_refused(request, &options, BITE_BAD_ARGUMENT, "tools", "at most 1024 tools");
    options.tools = tools;
    options.tool_count = 1025;
    assert_refused(request, &options, BITE_BAD_ARGUMENT, "tools", "at most 1024 tools");
    options.tool_count = 2;
    assert_refused(request, &options, BITE_BAD_ARGUMENT, "tools", "tool 1 of the array is NULL");
    options.tool_count = 1;
    options.step_count = 1;
    assert_refused(request, &options, BITE_BAD_ARGUMENT, "steps", "at most 1024 spindle speeds");
    options.steps = steps;
    options.step_count = 1025;
    assert_refused(request, &options, BITE_BAD_ARGUMENT, "steps", "at most 1024 spindle speeds");
    options.step_count = 2;
    assert_refused(request, &options, BITE_OUT_OF_RANGE, "steps", "step 1 of the array");
    options.steps = negative;
    options.step_count = 1;
    assert_refused(request, &options, BITE_OUT_OF_RANGE, "steps", "step 0 of the array");
    options.steps = steps;
    put(request, "spindle_speed", "6000rpm");
    assert_refused(request, &options, BITE_BAD_ARGUMENT, "spindle_speed",
                   "both a spindle speed and steps");
    bite_request_free(request);
}
END_TEST

/* A hole is as wide as its tool: it is not chosen from the table. */
START_TEST(holes_name_their_tool)
{
    static const struct {
        const char *operation; /* NULL: a thread alone */
        const char *says;
        const char *hint;
    } holes[] = {
        {"drill", "a hole is as wide as its drill", "several may be named"},
        {"ream", "a hole is as wide as its reamer", "several may be named"},
        {"tap", "a tap is that of its thread", "name the thread, for example M3"},
        {NULL, "a tap is that of its thread", "name the thread, for example M3"},
    };
    static const char *const any[] = {"any"};
    for (size_t i = 0; i < sizeof holes / sizeof *holes; i++) {
        bite_request *request = request_of("6061");
        bite_choice_options options;
        bite_choice *choice = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_choice_options_init(&options);
        options.tools = any;
        options.tool_count = 1;
        if (holes[i].operation != NULL) {
            put(request, "operation", holes[i].operation);
        } else {
            ck_assert_int_eq(bite_request_use(request, BITE_THREADS, "M3", NULL), BITE_OK);
        }
        ck_assert_int_eq(bite_choice_new(request, &options, &choice, &error), BITE_OUT_OF_RANGE);
        ck_assert_str_eq(error.key, "tool");
        ck_assert_msg(strstr(error.message, holes[i].says) != NULL, "%s", error.message);
        ck_assert_msg(strstr(error.hint, holes[i].hint) != NULL, "%s", error.hint);
        bite_request_free(request);
    }
}
END_TEST

/* Callers of the first edition, whose options end before the progress, numbered the goals
 * otherwise: cool was 0, and usual 4. */
START_TEST(goals_of_the_first_edition)
{
    static const uint32_t goals[][2] = {
        {0, BITE_GOAL_COOL}, {4, BITE_GOAL_USUAL}, {BITE_GOAL_FAST, BITE_GOAL_FAST}};
    bite_request *request = request_of("acrylic/cast");
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "2mm", NULL), BITE_OK);
    put(request, "depth", "0.5mm");
    for (size_t i = 0; i < 3; i++) {
        bite_choice_options now;
        bite_choice *first = NULL;
        bite_choice *same = NULL;
        bite_choice_options_init(&now);
        now.draws = 256;
        now.effort = BITE_EFFORT_QUICK;
        bite_choice_options then = now;
        then.struct_size = (uint32_t)bite_struct_choice_options.least;
        then.goal = goals[i][0];
        now.goal = goals[i][1];
        ck_assert_int_eq(bite_choice_new(request, &then, &first, NULL), BITE_OK);
        ck_assert_int_eq(bite_choice_new(request, &now, &same, NULL), BITE_OK);
        ck_assert_double_eq(first->answer->full.feed_rate, same->answer->full.feed_rate);
        ck_assert_double_eq(first->answer->full.spindle_speed, same->answer->full.spindle_speed);
        bite_choice_free(first);
        bite_choice_free(same);
    }
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("choice calls");
    TCase *tests = tcase_create("choice calls");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, the_better_tool_wins, 0, (int)(sizeof pairs / sizeof *pairs));
    tcase_add_test(tests, options_that_do_not_exist);
    tcase_add_test(tests, lists_that_are_not_complete);
    tcase_add_test(tests, holes_name_their_tool);
    tcase_add_test(tests, goals_of_the_first_edition);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
