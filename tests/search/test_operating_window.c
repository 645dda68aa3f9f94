/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The operating window: it agrees with the pass at every point, and survives bad calls and a lack
 * of memory. */
#include "core/names/registry.h"
#include "core/search/operating_window.h"
#include "core/search/remedy.h"
#include "core/uncertainty/monte_carlo.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <string.h>

static bite_answer *answer_of(const bite_library *of, size_t draws)
{
    static const char *const typed[][2] = {{"spindle_speed", "12000rpm"},
                                           {"feed_rate", "200mm/min"},
                                           {"depth", "0.2mm"},
                                           {"stickout", "6mm"},
                                           {"tolerance", "0.05mm"}};
    return answer_of_typed(of, typed, sizeof typed / sizeof *typed, draws);
}

static bite_window_options options_of(uint32_t columns, uint32_t rows)
{
    bite_window_options options;
    bite_window_options_init(&options);
    options.columns = columns;
    options.rows = rows;
    return options;
}

/* The point in use is inside; without draws there are no margins. */
START_TEST(window_agrees_with_the_pass_at_every_point)
{
    bite_answer *answer = answer_of(library, 256);
    bite_window_options options = options_of(9, 7);
    bite_window *window = NULL;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    for (size_t up = 0; up < 7; up++) {
        for (size_t across = 0; across < 9; across++) {
            bite_cut cut = answer->full;
            bite_result result = {0};
            result.struct_size = (uint32_t)sizeof result;
            cut.tolerance = answer->requested.tolerance;
            cut.finish = answer->requested.finish;
            cut.spindle_speed = bite_axis_at(&window->across, (double)across / 8.0);
            cut.feed_rate = bite_axis_at(&window->up, (double)up / 6.0);
            ck_assert_int_eq(bite_cut_pass(&cut, &result, NULL), BITE_OK);
            double worst = 0.0;
            for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
                double utilization = bite_window_utilization(window, i, across, up);
                /* other places in a block may round the last digit otherwise */
                ck_assert(result.limits[i].applies
                              ? fabs(utilization - result.limits[i].utilization) <=
                                    1e-12 * result.limits[i].utilization
                              : isnan(utilization));
                ck_assert_double_ge(bite_window_margin(window, i, across, up), 1.0);
                worst = result.limits[i].applies && !result.limits[i].advisory
                            ? fmax(worst, utilization)
                            : worst;
            }
            ck_assert((bite_window_verdict(window, across, up, 0) == BITE_OVER) == (worst > 1.0));
        }
    }
    double share = bite_axis_share(&window->across, window->across.here);
    ck_assert(share > 0.0 && share < 1.0);
    bite_assert_near(bite_axis_at(&window->across, share), 200.0, 1e-12);
    bite_window_free(window);
    bite_answer_free(answer);
    answer = answer_of(library, BITE_DRAWS_NONE);
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    ck_assert_double_eq(bite_window_margin(window, BITE_LIMIT_SOFTENING, 3, 3), 1.0);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

/* A limit that speed and feed do not enter is the same everywhere, and does not hide what they can
 * change. */
START_TEST(limits_that_the_axes_do_not_change_are_fixed)
{
    bite_answer *answer = answer_of(library, 256);
    bite_window_options options = options_of(9, 7);
    bite_window *window = NULL;
    *bite_input_number(&answer->full, bite_input_find("inside_radius")) = 0.3e-3;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    ck_assert_uint_eq(window->fixed[BITE_LIMIT_CORNER], 1); /* a tool of 0.4 mm radius */
    ck_assert_uint_eq(window->fixed[BITE_LIMIT_REACH], 1);
    ck_assert_uint_eq(window->fixed[BITE_LIMIT_SPINDLE_FAST], 0);
    ck_assert_uint_eq(window->fixed[BITE_LIMIT_SOFTENING], 0);
    ck_assert_int_eq(bite_window_fixed_verdict(window, BITE_LIMIT_CORNER), BITE_OVER);
    ck_assert_int_eq(bite_window_fixed_verdict(window, BITE_LIMIT_REACH), BITE_CLEAR);
    size_t differ = 0;
    for (size_t up = 0; up < 7; up++) {
        for (size_t across = 0; across < 9; across++) {
            uint32_t limit = BITE_LIMIT_COUNT;
            ck_assert_int_eq(bite_window_verdict(window, across, up, 0), BITE_OVER);
            differ += bite_window_verdict(window, across, up, BITE_WINDOW_MOVING) != BITE_OVER;
            (void)bite_window_worst(window, across, up, BITE_WINDOW_MOVING, &limit);
            ck_assert_uint_lt(limit, BITE_LIMIT_COUNT);
            ck_assert_uint_eq(window->fixed[limit], 0);
        }
    }
    ck_assert_uint_gt(differ, 10);
    bite_window_free(window);
    /* with the depth on an axis the reach is no longer fixed */
    options.across = "stickout";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    ck_assert_uint_eq(window->fixed[BITE_LIMIT_REACH], 0);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

/* The chance at a place is that of draws made there, to a tenth: a node has 128 draws, and few
 * limits scatter quite lognormally between them. It is above 5 % where the limit is tight. */
START_TEST(chance_is_that_of_draws_at_the_place)
{
    bite_answer *answer = answer_of(library, 4096);
    bite_window_options options = options_of(9, 7);
    bite_window *window = NULL;
    size_t compared = 0;
    size_t between = 0;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    for (size_t i = 0; i < 63; i += 2) {
        bite_cut cut = answer->full;
        bite_result result = {0};
        const bite_sampling sampling = {.draws = 1024, .seed = 7, .confidence = 0.95};
        result.struct_size = (uint32_t)sizeof result;
        cut.spindle_speed = bite_axis_at(&window->across, (double)(i % 9) / 8.0);
        cut.feed_rate = bite_axis_at(&window->up, (double)(i / 9) / 6.0);
        ck_assert_int_eq(bite_monte_carlo_run(&cut, answer->spreads, answer->spread_count,
                                              &sampling, &result, NULL),
                         BITE_OK);
        for (uint32_t k = 0; k < BITE_LIMIT_COUNT; k++) {
            double chance = bite_window_chance(window, k, i % 9, i / 9);
            double margin = bite_window_margin(window, k, i % 9, i / 9);
            double utilization = bite_window_utilization(window, k, i % 9, i / 9);
            if (!result.limits[k].applies || isnan(chance)) {
                continue;
            }
            ck_assert_double_ge(chance, 0.0);
            ck_assert_double_le(chance, 1.0);
            ck_assert_msg(fabs(chance - result.limits[k].chance) <= 0.1, "%s at %zu: %g, drawn %g",
                          bite_limit_name((bite_limit_id)k), i, chance, result.limits[k].chance);
            ck_assert(utilization * margin > 1.0 ? chance >= 0.05 : chance <= 0.05);
            compared++;
            between += chance > 0.02 && chance < 0.98;
        }
    }
    ck_assert_uint_gt(compared, 300);
    ck_assert_uint_gt(between, 20);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

START_TEST(window_refuses_bad_axes)
{
    bite_answer *answer = answer_of(library, 64);
    bite_window *window = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_window_options options = options_of(1, 7);
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    options = options_of(401, 401);
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    options = options_of(0, 0);
    options.across = "side";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    options.across = "nothing";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_UNKNOWN_NAME);
    options.across = "finish";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_MISSING);
    options.across = "feed_rate";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    options.across = "depth";
    options.across_least = -1.0;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_OUT_OF_RANGE);
    options.struct_size = 1;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    ck_assert_ptr_null(window);
    bite_answer_free(answer);
    bite_window_free(NULL);
}
END_TEST

START_TEST(axis_of_whole_numbers_has_whole_steps)
{
    bite_answer *answer = answer_of(library, 64);
    bite_window_options options = options_of(0, 9);
    bite_window *window = NULL;
    bite_error error = BITE_ERROR_INIT;
    options.across = "flutes";
    options.across_least = 1.0;
    options.across_most = 4.0;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_OK);
    ck_assert_uint_eq(window->across.count, 4);
    for (size_t i = 0; i < 4; i++) {
        ck_assert_double_eq(bite_axis_at(&window->across, (double)i / 3.0), 1.0 + (double)i);
        ck_assert(bite_window_verdict(window, i, 4, 0) != BITE_NOT_JUDGED);
    }
    /* one tooth bears twice the runout of two */
    bite_assert_near(bite_window_utilization(window, BITE_LIMIT_RUNOUT, 1, 4),
                     2.0 * bite_window_utilization(window, BITE_LIMIT_RUNOUT, 0, 4), 1e-6);
    bite_window_free(window);
    options.across_most = 2.5;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_OUT_OF_RANGE);
    bite_answer_free(answer);
}
END_TEST

static int swallow(void *user, const char *text, size_t size)
{
    size_t *left = user;
    (void)text;
    if (size > *left) {
        return 1;
    }
    *left -= size;
    return 0;
}

/* In every format, wherever the sink stops. */
START_TEST(writers_report_a_sink_that_refuses)
{
    bite_answer *answer = answer_of(library, 64);
    bite_window_options options = options_of(21, 17);
    bite_window *window = NULL;
    bite_diagnosis *diagnosis = NULL;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    ck_assert_int_eq(bite_diagnosis_new(answer, "strings", &diagnosis, NULL), BITE_OK);
    bite_style style = {.struct_size = (uint32_t)sizeof style, .format = (uint32_t)_i};
    size_t whole = 1u << 24;
    ck_assert_int_eq(bite_window_write(window, &style, swallow, &whole, NULL), BITE_OK);
    size_t size = (1u << 24) - whole;
    ck_assert_uint_gt(size, 500);
    for (size_t capacity = 0; capacity < size; capacity += 1 + size / 50) {
        size_t left = capacity;
        ck_assert_int_eq(bite_window_write(window, &style, swallow, &left, NULL),
                         BITE_CANNOT_WRITE);
    }
    size_t little = 100;
    bite_status status = bite_diagnosis_write(diagnosis, &style, swallow, &little, NULL);
    ck_assert_int_eq(status, style.format > BITE_JSON ? BITE_BAD_ARGUMENT : BITE_CANNOT_WRITE);
    bite_diagnosis_free(diagnosis);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

/* Ends that no shop has: each format writes a window over them, and its ticks and points are
 * numbers within it. */
START_TEST(axes_may_have_any_ends)
{
    static const double ends[][2] = {{4.9e-324, 1.0},    {4.9e-324, 1e-323}, {1e-320, 2e-320},
                                     {1e-300, 10.0},     {1e-13, 10.0},      {0.0, 4.9e-324},
                                     {1.0, 1.0 + 2e-16}, {0.0, 10.0},        {1e-9, 10.0}};
    bite_answer *answer = answer_of(library, BITE_DRAWS_NONE);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        bite_window_options options = options_of(5, 4);
        bite_window *window = NULL;
        options.across = "recutting";
        options.across_least = ends[i][0];
        options.across_most = ends[i][1];
        ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
        ck_assert_double_eq(bite_axis_at(&window->across, 0.0), ends[i][0]);
        ck_assert(isfinite(bite_axis_share(&window->across, ends[i][0])));
        ck_assert(isfinite(bite_axis_share(&window->across, ends[i][1])));
        for (uint32_t format = BITE_TEXT; format <= BITE_HTML; format++) {
            bite_style style = {.struct_size = (uint32_t)sizeof style, .format = format};
            size_t left = 1u << 24;
            ck_assert_int_eq(bite_window_write(window, &style, swallow, &left, NULL), BITE_OK);
            ck_assert_uint_lt(left, (1u << 24) - 500);
        }
        bite_window_free(window);
    }
    bite_answer_free(answer);
}
END_TEST

/* Nothing is leaked either. */
START_TEST(window_reports_every_failed_allocation)
{
    for (size_t fail = 1; fail < 400; fail++) {
        bite_test_memory memory = {0};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library *of = bite_test_shop_open(&shop, &allocator);
        bite_answer *answer = answer_of(of, 64);
        bite_window_options options = options_of(9, 7);
        bite_style style = {.struct_size = (uint32_t)sizeof style, .format = BITE_SVG};
        bite_window *window = NULL;
        size_t capacity = 1u << 24;
        memory.calls = 0;
        memory.fail_at = fail;
        bite_status status = bite_window_new(answer, &options, &window, NULL);
        status = status != BITE_OK ? status
                                   : bite_window_write(window, &style, swallow, &capacity, NULL);
        size_t calls = memory.calls;
        memory.fail_at = 0;
        bite_window_free(window);
        bite_answer_free(answer);
        bite_library_close(of);
        ck_assert_uint_eq(memory.held, 0);
        if (fail > calls) {
            ck_assert_int_eq(status, BITE_OK);
            return;
        }
        ck_assert_int_eq(status, BITE_NO_MEMORY);
    }
    ck_abort_msg("memory never sufficed");
}
END_TEST

/* A clear point is inside its own range along either axis. Its neighbours are judged with the other
 * axis at the point, not half a step off: a full slot is at the end of its axis, and the spindle
 * speed may lie between grid points. */
START_TEST(clear_range_contains_the_point_in_use)
{
    static const struct {
        const char *operation;
        const char *across;
        const char *up;
        const char *spindle;
        double wide[2]; /* most over least, at least */
    } cases[] = {{"mill", "depth", "width", "18000rpm", {2.0, 2.0}},
                 {"mill", "spindle_speed", "feed_rate", "24000rpm", {2.0, 2.0}},
                 {"drill", "spindle_speed", "feed_rate", "24000rpm", {2.0, 2.0}}};
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_window *window = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "6061", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "operation", cases[_i].operation, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "coolant", "air", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", cases[_i].spindle, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "900mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "0.45mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 256, 0.95, &answer, NULL), BITE_OK);
    ck_assert_uint_eq(answer->result.verdict, BITE_CLEAR);
    bite_window_options options = options_of(0, 0);
    options.across = cases[_i].across;
    options.up = cases[_i].up;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    for (int up = 0; up < 2; up++) {
        const bite_axis *axis = up ? &window->up : &window->across;
        double least = 0.0;
        double most = 0.0;
        ck_assert_int_eq(bite_window_clear(window, up, &least, &most), 1);
        ck_assert(least <= axis->here && axis->here <= most);
        ck_assert(least >= axis->least * (1.0 - 1e-12) && most <= axis->most * (1.0 + 1e-12));
        ck_assert_double_ge(most / least, cases[_i].wide[up]);
        if (axis->input == bite_input_find("width")) {
            bite_assert_near(axis->most, 3e-3, 1e-12); /* no cut is wider than the tool */
        }
        if (axis->here == 400.0) {
            ck_assert_double_eq(most, axis->here); /* the fastest spindle speed */
        }
    }
    bite_window_free(window);
    bite_answer_free(answer);
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("window");
    TCase *window = tcase_create("window");
    tcase_add_checked_fixture(window, open_library, close_library);
    tcase_add_test(window, window_agrees_with_the_pass_at_every_point);
    tcase_add_test(window, limits_that_the_axes_do_not_change_are_fixed);
    tcase_add_test(window, chance_is_that_of_draws_at_the_place);
    tcase_add_test(window, window_refuses_bad_axes);
    tcase_add_loop_test(window, writers_report_a_sink_that_refuses, BITE_TEXT, BITE_SVG + 1);
    tcase_add_test(window, axes_may_have_any_ends);
    tcase_add_test(window, window_reports_every_failed_allocation);
    tcase_add_test(window, axis_of_whole_numbers_has_whole_steps);
    tcase_add_loop_test(window, clear_range_contains_the_point_in_use, 0, 3);
    tcase_set_timeout(window, 120);
    suite_add_tcase(suite, window);
    return bite_test_run(suite);
}
