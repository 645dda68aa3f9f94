/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The choice of settings: it keeps its limits and what was given, and reports what restricts it. */
#include "core/names/registry.h"
#include "core/request/answer.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static bite_request *request_of(const char *grade)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, grade, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "1/32in", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "tolerance", "0.05mm", NULL), BITE_OK);
    return request;
}

static bite_choice *choose_by(const bite_request *request, uint32_t goal, const char *const *tools,
                              size_t count, size_t draws)
{
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = goal;
    options.tools = tools;
    options.tool_count = count;
    options.draws = draws;
    bite_error error = BITE_ERROR_INIT;
    bite_choice *choice = NULL;
    ck_assert_msg(bite_choice_new(request, &options, &choice, &error) == BITE_OK, "%s (%s)",
                  error.message, error.hint);
    return choice;
}

static bite_choice *choose(const bite_request *request, uint32_t goal, const char *const *tools,
                           size_t count)
{
    return choose_by(request, goal, tools, count, 1024);
}

static const bite_result *result_of(const bite_choice *choice)
{
    return bite_answer_result(bite_choice_answer(choice));
}

/* The passes add up to the depth, and at least one limit restricts the choice. */
START_TEST(choice_is_clear_for_every_goal_and_material)
{
    static const char *const grades[] = {"acrylic/cast", "polycarbonate", "6061"};
    bite_request *request = request_of(grades[_i / BITE_TEST_GOALS]);
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "0.6mm", NULL), BITE_OK);
    bite_choice *choice = choose(request, bite_test_goal((size_t)_i), NULL, 0);
    const bite_result *result = result_of(choice);
    bite_limit_id limit = BITE_LIMIT_COUNT;
    double gain = 0.0;
    ck_assert_uint_eq(result->verdict, BITE_CLEAR);
    ck_assert(result->chance < 0.10);
    ck_assert_uint_ge(bite_choice_passes(choice), 1);
    ck_assert(bite_choice_active_limit(choice, 0, &limit, &gain));
    for (size_t i = 0; bite_choice_active_limit(choice, i, &limit, &gain); i++) {
        /* numbers that do not move when a limit is added */
        ck_assert_msg(limit < BITE_LIMIT_COUNT || limit == 1000 || limit == 1001, "%d", (int)limit);
        ck_assert(limit != BITE_LIMIT_GOAL || bite_test_goal((size_t)_i) != BITE_GOAL_FAST);
    }
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* A step is chosen, and no step that was fixed by hand is better. */
START_TEST(choice_keeps_to_spindle_steps)
{
    static const double steps[] = {50.0, 80.0, 130.0, 210.0};
    static const char *const typed[] = {"3000rpm", "4800rpm", "7800rpm", "12600rpm"};
    bite_request *request = request_of("acrylic/cast");
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_FAST;
    options.draws = 1024;
    options.confidence = 0.90;
    options.steps = steps;
    options.step_count = 4;
    bite_choice *choice = NULL;
    ck_assert_int_eq(bite_request_set(request, "depth", "0.1mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    double speed = result_of(choice)->values[BITE_SPINDLE_SPEED].value;
    double removed = result_of(choice)->values[BITE_REMOVAL_RATE].value;
    int among = 0;
    ck_assert_uint_eq(result_of(choice)->verdict, BITE_CLEAR);
    bite_choice_free(choice);
    for (int i = 0; i < 4; i++) {
        among |= fabs(speed - steps[i]) < 1e-6;
        ck_assert_int_eq(bite_request_set(request, "spindle_speed", typed[i], NULL), BITE_OK);
        choice = choose(request, BITE_GOAL_FAST, NULL, 0);
        ck_assert(result_of(choice)->verdict != BITE_CLEAR ||
                  result_of(choice)->values[BITE_REMOVAL_RATE].value <= removed * (1.0 + 1e-9));
        bite_choice_free(choice);
    }
    ck_assert(among);
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL),
                     BITE_BAD_ARGUMENT); /* a speed and steps */
    options.steps = NULL;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_BAD_ARGUMENT);
    bite_request_free(request);
}
END_TEST

START_TEST(choice_keeps_given_values)
{
    ck_assert_uint_le(bite_input_count(), BITE_INPUTS_MAX); /* each has its place */
    bite_request *request = request_of("acrylic/cast");
    ck_assert_int_eq(bite_request_set(request, "depth", "0.1mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "9000rpm", NULL), BITE_OK);
    bite_choice *choice = choose(request, BITE_GOAL_COOL, NULL, 0);
    bite_assert_near(result_of(choice)->values[BITE_SPINDLE_SPEED].value, 150.0, 1e-9);
    bite_choice_free(choice);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "0.01mm/tooth", NULL), BITE_OK);
    choice = choose(request, BITE_GOAL_COOL, NULL, 0);
    bite_assert_near(result_of(choice)->values[BITE_CHIP_LOAD].value, 10e-6, 1e-6);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

START_TEST(each_goal_is_best_by_its_own_measure)
{
    bite_request *request = request_of("acrylic/cast");
    ck_assert_int_eq(bite_request_set(request, "depth", "0.15mm", NULL), BITE_OK);
    bite_choice *cool = choose(request, BITE_GOAL_COOL, NULL, 0);
    bite_choice *fast = choose(request, BITE_GOAL_FAST, NULL, 0);
    const bite_value *a = result_of(cool)->values;
    const bite_value *b = result_of(fast)->values;
    /* rounding to what is typed and the margins' rounds move either by a percent or so */
    ck_assert(a[BITE_SURFACE_TEMPERATURE].value <= b[BITE_SURFACE_TEMPERATURE].value + 0.5);
    ck_assert(b[BITE_REMOVAL_RATE].value >= 0.95 * a[BITE_REMOVAL_RATE].value);
    /* cool is half of the margin up to softening, or a tenth above the least possible; then speed
     * counts */
    const bite_limit *soft = &result_of(cool)->limits[BITE_LIMIT_SOFTENING];
    ck_assert_double_le(soft->utilization, 0.6);
    ck_assert_double_gt(a[BITE_REMOVAL_RATE].value, 0.0);
    bite_choice_free(cool);
    bite_choice_free(fast);
    bite_request_free(request);
}
END_TEST

/* The feed per tooth is within the usual range, the spindle is not slow where a faster one
 * is as cool, and a reach that no setting can mend does not spoil the settings. */
START_TEST(choice_is_usual_in_shops)
{
    static const struct {
        const char *grade;
        const char *tool;
        const char *machine;
        const char *deep;
        double least; /* mm/min */
        double tooth; /* most, diameters */
    } all[] = {
        {"polycarbonate", "1mm", "small-vmc", "3mm", 300.0, 0.05},
        {"polycarbonate", "6mm", "small-vmc", "3mm", 1000.0, 0.05},
        {"acrylic/cast", "1mm", "small-vmc", "2mm", 50.0, 0.05},
        {"6061", "1mm", "small-vmc", "3mm", 200.0, 0.03},
        {"6061", "3mm", "bench-24k", "3mm", 800.0, 0.03},
        {"brass/c360", "6mm", "small-vmc", "3mm", 800.0, 0.03},
        {"polycarbonate", "0.5mm", "bench-24k", "3mm", 100.0, 0.05}, /* deeper than it reaches */
        {"6061", "0.5mm", "bench-24k", "3mm", 100.0, 0.05},
        {"wood/mdf", "3mm", "bench-24k", "3mm", 1000.0, 0.05}, /* what does not melt is cut fast */
        {"glass-laminate/g10", "1mm", "bench-24k", "2mm", 300.0, 0.05},
        {"graphite/electrode", "3mm", "bench-24k", "2mm", 800.0, 0.05},
        {"6061", "drill 4mm", "small-vmc", "3mm", 300.0, 0.015}, /* of each of two lips */
    };
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        bite_request *request = NULL;
        const char *tool = strncmp(all[i].tool, "drill ", 6) == 0 ? all[i].tool + 6 : all[i].tool;
        ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
        ck_assert_int_eq(bite_request_use(request, BITE_GRADES, all[i].grade, NULL), BITE_OK);
        ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, tool, NULL), BITE_OK);
        ck_assert_int_eq(
            bite_request_set(request, "operation", tool == all[i].tool ? "mill" : "drill", NULL),
            BITE_OK);
        ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, all[i].machine, NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "feature_depth", all[i].deep, NULL), BITE_OK);
        bite_choice *choice = choose(request, BITE_GOAL_USUAL, NULL, 0);
        const bite_value *values = result_of(choice)->values;
        double feed = 60e3 * values[BITE_FEED_RATE].value;
        double tooth = values[BITE_CHIP_LOAD].value / bite_choice_answer(choice)->full.diameter;
        ck_assert_msg(feed >= all[i].least, "%s %s: %.3g mm/min", all[i].grade, all[i].tool, feed);
        ck_assert_msg(tooth <= 1.05 * all[i].tooth, "%s %s: %.3g D", all[i].grade, all[i].tool,
                      tooth);
        bite_choice_free(choice);
        bite_request_free(request);
    }
}
END_TEST

/* In one of these three cases few draws once recommended a change that raises the chance. */
START_TEST(single_change_never_raises_the_chance)
{
    static const struct {
        const char *grade;
        const char *tool;
        const char *spindle;
        const char *feed;
    } all[] = {{"acrylic/extruded", "1mm", "5000rpm", "600mm/min"},
               {"acrylic/cast", "0.5mm", "9000rpm", "300mm/min"},
               {"acrylic/cast", "1mm", "5000rpm", "600mm/min"}};
    bite_answer *answer = NULL;
    bite_request *request = request_of(all[_i].grade);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "desktop-light", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, all[_i].tool, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", all[_i].spindle, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", all[_i].feed, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "0.25mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "side", "conventional", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 4096, 0.90, &answer, NULL), BITE_OK);
    const bite_change *change = &answer->change;
    ck_assert_msg(change->input == BITE_NO_INPUT || change->after <= change->before,
                  "from %g to %g", change->before, change->after);
    bite_answer_free(answer);
    bite_request_free(request);
}
END_TEST

/* Once the goal is met, at least a tenth of the removal rate of the fast goal is reached. A limit
 * that no setting can ease, such as chip packing in a slot, must not leave a very slow feed. */
START_TEST(met_goal_is_followed_by_removal_rate)
{
    static const struct {
        const char *grade;
        const char *tool;
        uint32_t goal;
    } all[] = {{"wood/mdf", "1mm", BITE_GOAL_GENTLE},
               {"wood/mdf", "3mm", BITE_GOAL_FINE},
               {"wood/hardwood", "3mm", BITE_GOAL_FINE},
               {"graphite/electrode", "1mm", BITE_GOAL_GENTLE},
               {"graphite/electrode", "3mm", BITE_GOAL_COOL},
               {"glass-laminate/g10", "1mm", BITE_GOAL_COOL},
               {"polycarbonate", "1mm", BITE_GOAL_GENTLE},
               {"6061", "3mm", BITE_GOAL_GENTLE},
               {"6061", "1mm", BITE_GOAL_COOL},
               {"304", "3mm", BITE_GOAL_COOL}};
    bite_request *request = request_of(all[_i].grade);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, all[_i].tool, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "2mm", NULL), BITE_OK);
    bite_choice *one = choose(request, all[_i].goal, NULL, 0);
    bite_choice *fast = choose(request, BITE_GOAL_FAST, NULL, 0);
    double a = result_of(one)->values[BITE_REMOVAL_RATE].value;
    double b = result_of(fast)->values[BITE_REMOVAL_RATE].value;
    ck_assert_msg(a >= 0.1 * b, "%s, %s: %.3g of %.3g m3/s", all[_i].grade, all[_i].tool, a, b);
    bite_choice_free(one);
    bite_choice_free(fast);
    bite_request_free(request);
}
END_TEST

START_TEST(choice_compares_several_tools)
{
    static const char *const tools[] = {"0.5mm", "3mm", "1mm"};
    bite_request *request = request_of("6061");
    ck_assert_int_eq(bite_request_set(request, "inside_radius", "0.6mm", NULL), BITE_OK);
    bite_choice *choice = choose(request, BITE_GOAL_USUAL, tools, 3);
    /* three millimetres do not fit into the corner */
    ck_assert(result_of(choice)->limits[BITE_LIMIT_CORNER].utilization < 1.0);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* No settings keep a tenth of a micrometre with a long tool in a slow, deep slot. */
START_TEST(choice_reports_limits_in_conflict)
{
    bite_request *request = request_of("6061");
    bite_limit_id limit = BITE_LIMIT_COUNT;
    double gain = 0.0;
    ck_assert_int_eq(bite_request_set(request, "tolerance", "0.1um", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "0.8mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "stickout", "15mm", NULL), BITE_OK);
    bite_choice *choice = choose(request, BITE_GOAL_FAST, NULL, 0);
    ck_assert_uint_eq(result_of(choice)->verdict, BITE_OVER);
    ck_assert(bite_choice_active_limit(choice, 0, &limit, &gain) && isnan(gain));
    ck_assert_uint_eq(limit, BITE_LIMIT_DEFLECTION); /* the likeliest first */
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* The shallowest feature there is, and one that is beyond the reach of every tool. */
START_TEST(choice_handles_extreme_features)
{
    static const char *const depths[] = {"1um", "300mm"};
    for (int i = 0; i < 2; i++) {
        bite_request *request = request_of("acrylic/cast");
        ck_assert_int_eq(bite_request_set(request, "feature_depth", depths[i], NULL), BITE_OK);
        bite_choice *choice = choose(request, BITE_GOAL_COOL, NULL, 0);
        ck_assert_uint_ge(bite_choice_passes(choice), 1);
        ck_assert(i == 0 || result_of(choice)->verdict == BITE_OVER);
        bite_choice_free(choice);
        bite_request_free(request);
    }
}
END_TEST

static double value_of(const bite_choice *choice, const char *input)
{
    const bite_answer *answer = bite_choice_answer(choice);
    ck_assert_ptr_nonnull(answer);
    return *bite_input_number_of(&answer->full, bite_input_find(input));
}

/* Passes over depth and width remove the feature, none wider than the tool. They may be more in
 * total than with the widest possible pass given only if they remove as much, within the few
 * percent that few draws can resolve. */
START_TEST(feature_width_is_divided_into_passes)
{
    static const char *const grades[] = {"acrylic/cast", "6061"};
    static const double widths[] = {0.3e-3, 2e-3};
    static const char *const typed[] = {"0.3mm", "2mm"};
    static const char *const widest[] = {"0.3mm", "0.667mm"};
    uint32_t goal = bite_test_goal((size_t)_i);
    for (int i = 0; i < 2; i++) {
        bite_request *request = request_of(grades[_i / BITE_TEST_GOALS]);
        ck_assert_int_eq(bite_request_set(request, "feature_depth", "0.6mm", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "feature_width", typed[i], NULL), BITE_OK);
        bite_choice *choice = choose_by(request, goal, NULL, 0, 0); /* as many draws as are shown */
        size_t down = bite_choice_passes(choice);
        size_t side = bite_choice_side_passes(choice);
        double width = value_of(choice, "width");
        double removed = result_of(choice)->values[BITE_REMOVAL_RATE].value;
        ck_assert_uint_eq(result_of(choice)->verdict, BITE_CLEAR);
        ck_assert(width <= 0.79375e-3 * (1.0 + 1e-9));
        ck_assert(width * (double)side >= widths[i] * (1.0 - 1e-9) &&
                  width * ((double)side - 1.0) < widths[i]);
        ck_assert(value_of(choice, "depth") * (double)down >= 0.6e-3 * (1.0 - 1e-9));
        bite_choice_free(choice);
        ck_assert_int_eq(bite_request_set(request, "width", widest[i], NULL), BITE_OK);
        bite_choice *given = choose(request, goal, NULL, 0);
        bite_assert_near(value_of(given, "width"), strtod(widest[i], NULL) * 1e-3, 1e-12);
        ck_assert_uint_eq(bite_choice_side_passes(given), i == 0 ? 1 : 3);
        ck_assert(result_of(given)->verdict != BITE_CLEAR ||
                  down * side <= bite_choice_passes(given) * bite_choice_side_passes(given) ||
                  removed > 0.95 * result_of(given)->values[BITE_REMOVAL_RATE].value);
        bite_choice_free(given);
        bite_request_free(request);
    }
}
END_TEST

/* A drill has no width to divide, which is reported. */
START_TEST(width_is_divided_at_a_fixed_depth)
{
    bite_request *request = request_of("6061");
    ck_assert_int_eq(bite_request_set(request, "depth", "0.2mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_width", "0.79375mm", NULL), BITE_OK);
    bite_choice *choice = choose(request, BITE_GOAL_GENTLE, NULL, 0);
    ck_assert_uint_eq(bite_choice_passes(choice), 1);
    ck_assert(value_of(choice, "width") * (double)bite_choice_side_passes(choice) >=
              0.79375e-3 * (1.0 - 1e-9));
    bite_assert_near(value_of(choice, "depth"), 0.2e-3, 1e-12);
    bite_choice_free(choice);
    ck_assert_int_eq(bite_request_set(request, "operation", "drill", NULL), BITE_OK);
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_GENTLE;
    options.draws = 64;
    options.confidence = 0.90;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "feature_width");
    ck_assert_uint_eq(bite_choice_side_passes(NULL), 0);
    bite_request_free(request);
}
END_TEST

/* A cut without a width of its own has that of the feature, divided into equal passes if the
 * feature is wider than the tool. */
START_TEST(cut_of_a_wide_feature_has_equal_passes)
{
    static const struct {
        const char *feature;
        double width;
    } cases[] = {
        {"0.3mm", 0.3e-3}, {"0.79375mm", 0.79375e-3}, {"0.8mm", 0.4e-3}, {"2mm", 2e-3 / 3.0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_request *request = request_of("acrylic/cast");
        bite_answer *answer = NULL;
        ck_assert_int_eq(bite_request_set(request, "spindle_speed", "12000rpm", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "feed_rate", "300mm/min", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "feature_width", cases[i].feature, NULL),
                         BITE_OK);
        ck_assert_int_eq(bite_answer_new(request, BITE_DRAWS_NONE, 0.90, &answer, NULL), BITE_OK);
        bite_assert_near(answer->full.width, cases[i].width, 1e-12);
        ck_assert(strstr(bite_answer_source(answer, "width"), "common-practice") != NULL);
        bite_answer_free(answer);
        bite_request_free(request);
    }
}
END_TEST

START_TEST(choice_refuses_bad_calls)
{
    bite_request *request = request_of("6061");
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.draws = 64;
    bite_choice *choice = NULL;
    bite_error error = BITE_ERROR_INIT;
    options.goal = 99;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, &error), BITE_BAD_ARGUMENT);
    options.goal = BITE_GOAL_FAST;
    options.confidence = 2.0;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, &error), BITE_BAD_ARGUMENT);
    options.confidence = 0.90;
    static const char *const nothing[] = {"no-such-tool"};
    options.tools = nothing;
    options.tool_count = 1;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, &error), BITE_UNKNOWN_NAME);
    ck_assert_ptr_null(choice);
    ck_assert_ptr_null(bite_choice_answer(NULL));
    bite_choice_free(NULL);
    bite_request_free(request);
}
END_TEST

typedef struct choosing {
    const bite_request *request;
    bite_choice_options options;
} choosing;

static bite_status choose_once(void *with, bite_error *error)
{
    const choosing *what = with;
    bite_choice *choice = NULL;
    bite_status status = bite_choice_new(what->request, &what->options, &choice, error);
    ck_assert((status == BITE_OK) == (choice != NULL));
    bite_choice_free(choice);
    return status;
}

/* A choice says that memory failed, rather than that there is none. Every request for memory at
 * first, then in steps of a twentieth, for each try takes longer than the one before. */
START_TEST(choice_reports_failed_allocations)
{
    static const char *const tools[] = {"1/32in", "2mm"};
    static const uint32_t goals[] = {BITE_GOAL_FAST, BITE_GOAL_GENTLE};
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_library *shared = library;
    library = bite_test_shop_open(&shop, &allocator);
    bite_request *request = request_of("acrylic/cast");
    choosing what;
    bite_choice_options_init(&what.options);
    what.request = request;
    what.options.goal = goals[_i];
    what.options.tools = tools;
    what.options.tool_count = 2;
    what.options.draws = 16;
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "0.9mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_width", "6mm", NULL), BITE_OK);
    ck_assert_int_eq(choose_once(&what, NULL), BITE_OK); /* reads what the library keeps */
    bite_test_fail_allocations(&memory, 20, 10, choose_once, &what);
    bite_request_free(request);
    bite_library_close(library);
    ck_assert_uint_eq(memory.held, 0);
    library = shared;
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("choice");
    TCase *choice = tcase_create("choice");
    tcase_add_checked_fixture(choice, open_library, close_library);
    tcase_add_loop_test(choice, choice_is_clear_for_every_goal_and_material, 0,
                        3 * BITE_TEST_GOALS);
    tcase_add_test(choice, choice_keeps_given_values);
    tcase_add_test(choice, choice_keeps_to_spindle_steps);
    tcase_add_test(choice, each_goal_is_best_by_its_own_measure);
    tcase_add_test(choice, choice_is_usual_in_shops);
    tcase_add_loop_test(choice, single_change_never_raises_the_chance, 0, 3);
    tcase_add_loop_test(choice, met_goal_is_followed_by_removal_rate, 0, 10);
    tcase_add_test(choice, choice_compares_several_tools);
    tcase_add_test(choice, choice_reports_limits_in_conflict);
    tcase_add_test(choice, choice_handles_extreme_features);
    tcase_add_loop_test(choice, feature_width_is_divided_into_passes, 0, 2 * BITE_TEST_GOALS);
    tcase_add_test(choice, width_is_divided_at_a_fixed_depth);
    tcase_add_test(choice, cut_of_a_wide_feature_has_equal_passes);
    tcase_add_test(choice, choice_refuses_bad_calls);
    tcase_add_loop_test(choice, choice_reports_failed_allocations, 0, 2);
    tcase_set_timeout(choice, 120);
    suite_add_tcase(suite, choice);
    return bite_test_run(suite);
}
