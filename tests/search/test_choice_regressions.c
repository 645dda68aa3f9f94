/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Regressions of the choice: it is not beaten by fewer tools, by a value fixed by hand, or by
 * knowing more. Each case was once chosen worse. */
#include "core/request/answer.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* An input or a record, as it is entered. */
typedef struct typed {
    const char *name;
    const char *text;
} typed;

#define TYPED_MOST 12

static bite_request *request_of(const typed *inputs)
{
    static const struct {
        const char *name;
        bite_collection shelf;
    } things[] = {{"material", BITE_GRADES},
                  {"tool", BITE_TOOLS},
                  {"machine", BITE_MACHINES},
                  {"coolant", BITE_COOLANTS}};
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    for (const typed *at = inputs; at->name != NULL; at++) {
        bite_error error = BITE_ERROR_INIT;
        int used = 0;
        for (size_t i = 0; i < sizeof things / sizeof *things; i++) {
            if (strcmp(at->name, things[i].name) == 0) {
                ck_assert_int_eq(bite_request_use(request, things[i].shelf, at->text, &error),
                                 BITE_OK);
                used = 1;
            }
        }
        ck_assert_msg(used || bite_request_set(request, at->name, at->text, &error) == BITE_OK,
                      "%s: %s", at->name, error.message);
    }
    return request;
}

static bite_choice *choose(const bite_request *request, uint32_t goal, const char *const *tools,
                           size_t count)
{
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = goal;
    options.tools = tools;
    options.tool_count = count;
    bite_error error = BITE_ERROR_INIT;
    bite_choice *choice = NULL;
    ck_assert_msg(bite_choice_new(request, &options, &choice, &error) == BITE_OK, "%s (%s)",
                  error.message, error.hint);
    return choice;
}

static const bite_result *result_of(const bite_choice *choice)
{
    return bite_answer_result(bite_choice_answer(choice));
}

static double removal_of(const bite_choice *choice)
{
    return result_of(choice)->values[BITE_REMOVAL_RATE].value;
}

static double feed_of(const bite_choice *choice)
{
    return result_of(choice)->values[BITE_FEED_RATE].value;
}

/* The choice among several tools is as good as that with the best of them alone. */
START_TEST(more_tools_never_worsen_the_choice)
{
    static const struct {
        typed inputs[TYPED_MOST];
        const char *tools[3];
    } cases[] = {
        {{{"material", "plywood"},
          {"machine", "small-vmc"},
          {"coolant", "mist"},
          {"feature_depth", "2mm"},
          {"finish", "1um"}},
         {"2mm", "3mm", "6mm"}},
        {{{"material", "phenolic-laminate/paper"},
          {"machine", "board-mill"},
          {"feature_depth", "2mm"},
          {"feature_width", "1.5mm"},
          {"floor_thickness", "0.6mm"},
          {"blind", "yes"}},
         {"1mm", "6mm", "0.8mm"}},
        {{{"material", "304"},
          {"machine", "desktop-light"},
          {"coolant", "air"},
          {"feature_depth", "2mm"},
          {"inside_radius", "1.2mm"},
          {"blind", "yes"},
          {"tolerance", "0.03mm"}},
         {"2mm", "1.5mm", "1mm"}},
    };
    bite_request *request = request_of(cases[_i].inputs);
    bite_choice *all = choose(request, BITE_GOAL_FAST, cases[_i].tools, 3);
    for (int i = 0; i < 3; i++) {
        bite_choice *alone = choose(request, BITE_GOAL_FAST, &cases[_i].tools[i], 1);
        ck_assert_uint_le(result_of(all)->verdict, result_of(alone)->verdict);
        ck_assert(result_of(alone)->verdict != BITE_CLEAR ||
                  removal_of(all) >= removal_of(alone) * (1.0 - 1e-9));
        bite_choice_free(alone);
    }
    bite_choice_free(all);
    bite_request_free(request);
}
END_TEST

/* A limit that no setting can ease is reported; the feed is still one that a shop would run, not
 * the least there is. */
START_TEST(impossible_limit_does_not_slow_the_feed)
{
    static const typed inputs[] = {{"material", "6061"},
                                   {"tool", "3mm"},
                                   {"machine", "bench-24k"},
                                   {"depth", "2mm"},
                                   {NULL, NULL}};
    bite_request *request = request_of(inputs);
    bite_choice *choice = choose(request, BITE_GOAL_FAST, NULL, 0);
    bite_limit_id limit = BITE_LIMIT_COUNT;
    double gain = 0.0;
    ck_assert_uint_eq(result_of(choice)->verdict, BITE_OVER);
    ck_assert(bite_choice_active_limit(choice, 0, &limit, &gain));
    ck_assert_uint_eq(limit, BITE_LIMIT_CHIP_PACKING);
    ck_assert(feed_of(choice) > 0.2 / 60.0); /* 9 mm/min once */
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

START_TEST(impossible_sizes_are_reported_first)
{
    static const typed inputs[] = {{"material", "6061"},
                                   {"tool", "6mm"},
                                   {"feature_depth", "3mm"},
                                   {"inside_radius", "2mm"},
                                   {NULL, NULL}};
    bite_request *request = request_of(inputs);
    bite_choice *choice = choose(request, BITE_GOAL_FAST, NULL, 0);
    bite_limit_id limit = BITE_LIMIT_COUNT;
    double gain = 0.0;
    ck_assert(bite_choice_active_limit(choice, 0, &limit, &gain));
    ck_assert_uint_eq(limit, BITE_LIMIT_CORNER);
    ck_assert(feed_of(choice) > 0.2 / 60.0);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* Fixed by hand, these values were once clear or faster when the choice was not. */
static const struct {
    typed inputs[TYPED_MOST];
    typed by_hand;
    uint32_t goal;
    double short_of; /* share of what is removed with it; the rest is for rounding and the steps
                        of the search */
} once_worse[] = {
    {{{"material", "mdf"}, {"tool", "6mm"}, {"machine", "trim-router"}, {"feature_depth", "18mm"}},
     {"depth", "2.25mm"},
     BITE_GOAL_FAST,
     0.95},
    {{{"material", "peek"},
      {"tool", "6mm"},
      {"machine", "bench-24k"},
      {"coolant", "flood"},
      {"feature_depth", "12mm"},
      {"feature_width", "10.2mm"},
      {"inside_radius", "7.2mm"},
      {"tolerance", "0.03mm"}},
     {"width", "5.1mm"},
     BITE_GOAL_COOL,
     0.9},
    {{{"material", "7075"},
      {"tool", "1mm"},
      {"machine", "small-vmc"},
      {"feature_depth", "2mm"},
      {"feature_width", "0.5mm"}},
     {"depth", "0.125mm"},
     BITE_GOAL_FINE,
     0.85},
    {{{"material", "copper"},
      {"tool", "3mm"},
      {"machine", "bench-24k"},
      {"tolerance", "0.03mm"},
      {"feature_depth", "6mm"}},
     {"depth", "0.3mm"},
     BITE_GOAL_GENTLE,
     0.85},
    {{{"material", "acrylic/cast"},
      {"machine", "board-mill"},
      {"tool", "2mm"},
      {"feature_depth", "3.57mm"},
      {"feature_width", "3.17mm"},
      {"side", "climb"},
      {"feed_rate", "0.0105mm/tooth"}},
     {"width", "0.7925mm"},
     BITE_GOAL_FAST,
     0.95},
    {{{"material", "copper"},
      {"machine", "board-mill"},
      {"tool", "1mm"},
      {"flutes", "4"},
      {"feature_depth", "2.14mm"},
      {"feature_width", "0.218mm"},
      {"side", "climb"},
      {"finish", "3.2um"}},
     {"depth", "0.1647mm"},
     BITE_GOAL_GENTLE,
     0.85},
};

/* The highest utilization that a binding limit has at the confidence. */
static double worst_of(const bite_choice *choice)
{
    double worst = 0.0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result_of(choice)->limits[i];
        if (limit->applies && !limit->advisory) {
            worst = fmax(worst, limit->utilization_high);
        }
    }
    return worst;
}

/* A gentle choice that is slower must be gentler. */
START_TEST(choice_is_not_beaten_by_a_fixed_value)
{
    typed with[TYPED_MOST + 1];
    size_t count = 0;
    while (once_worse[_i].inputs[count].name != NULL) {
        with[count] = once_worse[_i].inputs[count];
        count++;
    }
    with[count] = once_worse[_i].by_hand;
    with[count + 1].name = NULL;
    bite_request *free_request = request_of(once_worse[_i].inputs);
    bite_request *fixed_request = request_of(with);
    bite_choice *chosen = choose(free_request, once_worse[_i].goal, NULL, 0);
    bite_choice *by_hand = choose(fixed_request, once_worse[_i].goal, NULL, 0);
    ck_assert_uint_eq(result_of(chosen)->verdict, BITE_CLEAR);
    int gentler = once_worse[_i].goal == BITE_GOAL_GENTLE && worst_of(chosen) < worst_of(by_hand);
    ck_assert(result_of(by_hand)->verdict != BITE_CLEAR || gentler ||
              removal_of(chosen) >= once_worse[_i].short_of * removal_of(by_hand));
    bite_choice_free(chosen);
    bite_choice_free(by_hand);
    bite_request_free(free_request);
    bite_request_free(fixed_request);
}
END_TEST

/* Each peck costs time out of the hole and back that the feed does not show: no hundred pecks for a
 * hole of 2 mm. */
START_TEST(hole_has_few_pecks)
{
    static const typed inputs[] = {{"material", "carbon-laminate"}, {"tool", "0.8mm"},
                                   {"machine", "bench-24k"},        {"operation", "drill"},
                                   {"feature_depth", "2mm"},        {NULL, NULL}};
    bite_request *request = request_of(inputs);
    bite_choice *choice = choose(request, BITE_GOAL_FAST, NULL, 0);
    /* no speed of this machine is slow enough to be clear of scorching */
    ck_assert_uint_le(result_of(choice)->verdict, BITE_TIGHT);
    ck_assert(result_of(choice)->chance < 0.2);
    ck_assert_uint_le(bite_choice_passes(choice), 12);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* A hole is as wide as its drill, so the table cannot choose it; named drills can be compared. */
START_TEST(drill_is_chosen_only_by_name)
{
    static const typed inputs[] = {
        {"material", "6061"}, {"operation", "drill"}, {"feature_depth", "3mm"}, {NULL, NULL}};
    static const char *const any[] = {"any"};
    static const char *const two[] = {"2mm", "3mm"};
    bite_request *request = request_of(inputs);
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_FAST;
    options.tools = any;
    options.tool_count = 1;
    options.draws = 64;
    options.confidence = 0.90;
    bite_choice *choice = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "tool");
    choice = choose(request, BITE_GOAL_FAST, two, 2);
    ck_assert_uint_eq(result_of(choice)->verdict, BITE_CLEAR);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* Tools that do not fit into the corner rank last, however fast they are. */
START_TEST(tool_that_fits_the_corner_is_chosen)
{
    static const typed inputs[] = {{"material", "6061"},     {"machine", "bench-24k"},
                                   {"coolant", "air"},       {"feature_depth", "3mm"},
                                   {"inside_radius", "1mm"}, {NULL, NULL}};
    static const char *const any[] = {"any"};
    bite_request *request = request_of(inputs);
    bite_choice *choice = choose(request, BITE_GOAL_FAST, any, 1);
    ck_assert_uint_eq(result_of(choice)->verdict, BITE_CLEAR);
    ck_assert(result_of(choice)->limits[BITE_LIMIT_CORNER].utilization <= 1.0);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* The fastest of the steps that meet the goal is chosen. For the gentle goal utilizations include
 * margins that differ from step to step. */
START_TEST(spindle_steps_are_not_slower_than_one_of_them)
{
    static const typed inputs[] = {
        {"material", "titanium/grade-2"}, {"machine", "small-vmc"}, {"tool", "1.5mm"},
        {"feature_depth", "3.75mm"},      {"coolant", "flood"},     {NULL, NULL}};
    static const double steps[] = {1100.0 / 60.0, 2300.0 / 60.0, 4700.0 / 60.0, 9000.0 / 60.0,
                                   16000.0 / 60.0};
    bite_request *request = request_of(inputs);
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_GENTLE;
    options.confidence = 0.90;
    options.steps = steps;
    options.step_count = 5;
    bite_choice *all = NULL;
    bite_choice *one = NULL;
    ck_assert_int_eq(bite_choice_new(request, &options, &all, NULL), BITE_OK);
    options.steps = &steps[3];
    options.step_count = 1;
    ck_assert_int_eq(bite_choice_new(request, &options, &one, NULL), BITE_OK);
    ck_assert_uint_eq(result_of(all)->verdict, BITE_CLEAR);
    ck_assert_uint_eq(result_of(one)->verdict, BITE_CLEAR);
    ck_assert(removal_of(all) >= removal_of(one) * (1.0 - 1e-9));
    bite_choice_free(all);
    bite_choice_free(one);
    bite_request_free(request);
}
END_TEST

START_TEST(clear_by_one_goal_is_clear_by_all)
{
    static const typed inputs[] = {
        {"material", "pet/semi-crystalline"}, {"machine", "board-mill"}, {"tool", "3.175mm"},
        {"feature_depth", "4.76mm"},          {"tolerance", "0.05mm"},   {NULL, NULL}};
    bite_request *request = request_of(inputs);
    bite_choice *choice = choose(request, bite_test_goal((size_t)_i), NULL, 0);
    ck_assert_uint_eq(result_of(choice)->verdict, BITE_CLEAR);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* A hole in acrylic needs a cutting edge slower than any that is searched for an end mill. */
START_TEST(slow_drill_speeds_are_searched)
{
    static const typed inputs[] = {
        {"material", "acrylic/cast"}, {"machine", "small-vmc"}, {"tool", "3mm"},
        {"operation", "drill"},       {"feature_depth", "9mm"}, {NULL, NULL}};
    bite_request *request = request_of(inputs);
    bite_choice *choice = choose(request, BITE_GOAL_USUAL, NULL, 0);
    ck_assert_uint_eq(result_of(choice)->verdict, BITE_CLEAR);
    ck_assert_uint_le(bite_choice_passes(choice), 6);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* A runout given as its default value is known more exactly, so it must not cost feed. */
START_TEST(given_runout_does_not_cost_feed)
{
    static const typed inputs[] = {{"material", "6061"},          {"machine", "small-vmc"},
                                   {"tool", "3.175mm"},           {"feature_depth", "6.35mm"},
                                   {"feature_width", "0.9525mm"}, {NULL, NULL}};
    bite_request *request = request_of(inputs);
    bite_choice *taken = choose(request, BITE_GOAL_FAST, NULL, 0);
    ck_assert_int_eq(bite_request_set(request, "runout", "8um", NULL), BITE_OK);
    bite_choice *typed_in = choose(request, BITE_GOAL_FAST, NULL, 0);
    ck_assert_uint_eq(result_of(typed_in)->verdict, BITE_CLEAR);
    ck_assert(removal_of(typed_in) >= 0.9 * removal_of(taken)); /* half, once */
    bite_choice_free(taken);
    bite_choice_free(typed_in);
    bite_request_free(request);
}
END_TEST

/* A pass that may use a quarter of the allowed chance is not many times slower for it, where only a
 * crawl would be within that quarter: it uses more. */
START_TEST(share_of_the_chance_does_not_make_a_pass_crawl)
{
    static const struct {
        typed inputs[TYPED_MOST];
        uint32_t goal;
    } cases[] = {
        {{{"material", "acrylic/cast"},
          {"machine", "knee-mill"},
          {"entry", "plunge"},
          {"tool", "3mm"},
          {"depth", "1.2mm"},
          {"tolerance", "0.2mm"}},
         BITE_GOAL_GENTLE},
        {{{"material", "plywood"},
          {"machine", "small-vmc"},
          {"operation", "chamfer"},
          {"tool", "cm-6-90"},
          {"depth", "0.461mm"},
          {"coolant", "mist"},
          {"tolerance", "0.2mm"}},
         BITE_GOAL_COOL},
    };
    bite_request *request = request_of(cases[_i].inputs);
    request->scope = BITE_SCOPE_SETTINGS;
    bite_choice *whole = choose(request, cases[_i].goal, NULL, 0);
    request->chance_share = 0.25;
    bite_choice *share = choose(request, cases[_i].goal, NULL, 0);
    ck_assert_uint_eq(result_of(whole)->verdict, BITE_CLEAR);
    ck_assert_uint_eq(result_of(share)->verdict, BITE_CLEAR);
    ck_assert(removal_of(share) >= 0.4 * removal_of(whole)); /* a ninth and less, once */
    bite_choice_free(whole);
    bite_choice_free(share);
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("best");
    TCase *best = tcase_create("best");
    tcase_add_checked_fixture(best, open_library, close_library);
    tcase_add_loop_test(best, more_tools_never_worsen_the_choice, 0, 3);
    tcase_add_test(best, impossible_limit_does_not_slow_the_feed);
    tcase_add_test(best, impossible_sizes_are_reported_first);
    tcase_add_loop_test(best, choice_is_not_beaten_by_a_fixed_value, 0,
                        (int)(sizeof once_worse / sizeof *once_worse));
    tcase_add_test(best, hole_has_few_pecks);
    tcase_add_test(best, drill_is_chosen_only_by_name);
    tcase_add_test(best, tool_that_fits_the_corner_is_chosen);
    tcase_add_test(best, spindle_steps_are_not_slower_than_one_of_them);
    tcase_add_loop_test(best, clear_by_one_goal_is_clear_by_all, 0, BITE_TEST_GOALS);
    tcase_add_test(best, slow_drill_speeds_are_searched);
    tcase_add_test(best, given_runout_does_not_cost_feed);
    tcase_add_loop_test(best, share_of_the_chance_does_not_make_a_pass_crawl, 0, 2);
    tcase_set_timeout(best, 120);
    suite_add_tcase(suite, best);
    return bite_test_run(suite);
}
