/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of a window: its grid is that of the window, no text of a table becomes markup, and it
 * asks nothing of a network. */
#include "core/report/window/html.h"
#include "core/search/operating_window.h"
#include "tests/support/open_library.h"
#include "tests/support/paper.h"
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bite_test_paper sheet;

static bite_status write_page(const bite_window *window, bite_units units)
{
    bite_style style = {
        .struct_size = (uint32_t)sizeof style, .format = BITE_HTML, .units = (uint32_t)units};
    bite_test_paper_start(&sheet, sheet.refuse);
    return bite_window_write(window, &style, bite_test_paper_take, &sheet, NULL);
}

static size_t times(const char *what)
{
    return bite_test_paper_times(&sheet, what);
}

static bite_answer *answer_of(size_t draws)
{
    static const char *const typed[][2] = {
        {"spindle_speed", "12000rpm"}, {"feed_rate", "400mm/min"}, {"depth", "0.2mm"},
        {"stickout", "6mm"},           {"tolerance", "0.05mm"},    {"inside_radius", "0.3mm"}};
    return answer_of_typed(library, typed, sizeof typed / sizeof *typed, draws);
}

static bite_window *window_of(const bite_answer *answer, const char *across, const char *up)
{
    bite_window_options options;
    bite_window_options_init(&options);
    options.columns = 13;
    options.rows = 9;
    options.across = across;
    options.up = up;
    bite_window *window = NULL;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    return window;
}

static json_t *grid_of_page(void)
{
    char *from = strstr(sheet.text, "id=\"grid\">");
    ck_assert_ptr_nonnull(from);
    from += strlen("id=\"grid\">");
    char *end = strstr(from, "</script>");
    ck_assert_ptr_nonnull(end);
    json_t *grid = json_loadb(from, (size_t)(end - from), JSON_REJECT_DUPLICATES, NULL);
    ck_assert_ptr_nonnull(grid);
    return grid;
}

static json_t *cell(json_t *object, const char *key, size_t across, size_t up)
{
    json_t *all = json_object_get(object, key);
    return json_is_array(all) ? json_array_get(json_array_get(all, up), across) : all;
}

static void check_share(const json_t *written, double share)
{
    if (isnan(share)) {
        ck_assert(json_is_null(written));
    } else {
        ck_assert_int_eq(json_integer_value(written),
                         (json_int_t)fmin(round(100.0 * share), 9999.0));
    }
}

static uint32_t limit_named(const char *name)
{
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (strcmp(bite_limit_name((bite_limit_id)i), name) == 0) {
            return i;
        }
    }
    return BITE_LIMIT_COUNT;
}

/* Every percentage, verdict and binding limit is that of the window. */
START_TEST(grid_of_the_page_is_that_of_the_window)
{
    static const char letters[] = "nctonn";
    bite_answer *answer = answer_of(256);
    bite_window *window = window_of(answer, NULL, NULL);
    ck_assert_int_eq(write_page(window, (bite_units)_i), BITE_OK);
    json_t *grid = grid_of_page();
    json_t *limits = json_object_get(grid, "limits");
    ck_assert_uint_eq(json_array_size(json_object_get(grid, "across")), 13);
    ck_assert_uint_eq(json_array_size(json_object_get(grid, "up")), 9);
    size_t fixed = 0;
    for (size_t i = 0; i < json_array_size(limits); i++) {
        json_t *one = json_array_get(limits, i);
        uint32_t limit = limit_named(json_string_value(json_object_get(one, "name")));
        ck_assert_uint_lt(limit, BITE_LIMIT_COUNT);
        fixed += json_is_true(json_object_get(one, "fixed"));
        ck_assert_int_eq(json_is_true(json_object_get(one, "fixed")), (int)window->fixed[limit]);
        for (size_t up = 0; up < 9; up++) {
            for (size_t across = 0; across < 13; across++) {
                check_share(cell(one, "use", across, up),
                            bite_window_utilization(window, limit, across, up));
                check_share(cell(one, "chance", across, up),
                            bite_window_chance(window, limit, across, up));
            }
        }
    }
    ck_assert_uint_gt(fixed, 0);
    ck_assert_str_eq(json_string_value(json_object_get(grid, "everywhere")), "corner");
    for (size_t up = 0; up < 9; up++) {
        const char *all = json_string_value(json_array_get(json_object_get(grid, "verdict"), up));
        const char *moving = json_string_value(json_array_get(json_object_get(grid, "moving"), up));
        for (size_t across = 0; across < 13; across++) {
            uint32_t worst = BITE_LIMIT_COUNT;
            bite_verdict verdict = bite_window_verdict(window, across, up, BITE_WINDOW_MOVING);
            ck_assert_int_eq(all[across], letters[bite_window_verdict(window, across, up, 0)]);
            ck_assert_int_eq(all[across], 'o'); /* the tool is too thick for the corner */
            ck_assert_int_eq(moving[across], letters[verdict]);
            (void)bite_window_worst(
                window, across, up,
                BITE_WINDOW_MOVING | (verdict == BITE_OVER ? 0 : BITE_WINDOW_MARGIN), &worst);
            size_t at = (size_t)json_integer_value(cell(grid, "binds", across, up));
            ck_assert_str_eq(json_string_value(json_object_get(json_array_get(limits, at), "name")),
                             bite_limit_name((bite_limit_id)worst));
        }
    }
    ck_assert_uint_eq(times(" um") + times(" thou"), 0);
    json_decref(grid);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

/* Names of materials and machines come from tables that anybody may write. */
START_TEST(names_do_not_become_markup)
{
    static const char hostile[] = "</title><script>alert(1)</script>&\"' \xe2\x80\xae\x01";
    bite_answer *answer = answer_of(BITE_DRAWS_NONE);
    bite_window *window = window_of(answer, NULL, NULL);
    bite_item_record machine = *answer->request.machine;
    const bite_item_record *own = answer->request.machine;
    machine.name = hostile;
    answer->request.machine = &machine;
    ck_assert_int_eq(write_page(window, BITE_METRIC), BITE_OK);
    answer->request.machine = own;
    ck_assert_uint_eq(times("<script"), 2); /* the grid, and the page's own */
    ck_assert_uint_eq(times("</script>"), 2);
    ck_assert_uint_eq(times("</title>"), times("<title"));
    ck_assert_uint_eq(times("\xe2\x80\xae") + times("\x01"), 0);
    ck_assert_uint_eq(times("&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt;&amp;&quot;&#39;"),
                      2);
    /* nothing from outside: no address at all */
    ck_assert_uint_eq(times("http") - times("http-equiv"), 0);
    ck_assert_uint_eq(times(" src=") + times(" href=") + times("@import"), 0);
    ck_assert_uint_eq(times("url("), times("url(#"));
    ck_assert_uint_eq(times("default-src 'none'"), 1);
    ck_assert_uint_eq(times("unsafe-inline") + times("unsafe-eval"), 0);
    ck_assert_uint_eq(times(" onclick") + times(" onload") + times(" style="), 0);
    json_t *grid = grid_of_page(); /* without draws there are no chances */
    json_t *first = json_array_get(json_object_get(grid, "limits"), 0);
    ck_assert(json_is_null(cell(first, "chance", 0, 0)));
    json_decref(grid);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

/* Any two inputs: lengths, whole numbers, temperatures. */
START_TEST(any_axes_have_a_page)
{
    static const char *const axes[][2] = {
        {"depth", "stickout"}, {"flutes", "feed_rate"}, {"room_temperature", "spindle_speed"}};
    bite_answer *answer = answer_of(BITE_DRAWS_NONE);
    bite_window *window = window_of(answer, axes[_i][0], axes[_i][1]);
    ck_assert_int_eq(write_page(window, BITE_INCH), BITE_OK);
    json_t *grid = grid_of_page();
    ck_assert_uint_eq(json_array_size(json_object_get(grid, "across")), window->across.count);
    ck_assert_uint_eq(times("nan") + times("inf,"), 0);
    json_decref(grid);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

START_TEST(failing_sinks_are_reported)
{
    bite_answer *answer = answer_of(BITE_DRAWS_NONE);
    bite_window *window = window_of(answer, NULL, NULL);
    sheet.refuse = 0;
    ck_assert_int_eq(write_page(window, BITE_METRIC), BITE_OK);
    size_t all = sheet.calls;
    for (sheet.refuse = 1; sheet.refuse <= all; sheet.refuse += 1 + all / 20) {
        ck_assert_int_eq(write_page(window, BITE_METRIC), BITE_CANNOT_WRITE);
    }
    sheet.refuse = 0;
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("page of a window");
    TCase *tests = tcase_create("page of a window");
    tcase_add_checked_fixture(tests, open_library, close_library);
    tcase_set_timeout(tests, 120);
    tcase_add_loop_test(tests, grid_of_the_page_is_that_of_the_window, BITE_METRIC, BITE_INCH + 1);
    tcase_add_test(tests, names_do_not_become_markup);
    tcase_add_loop_test(tests, any_axes_have_a_page, 0, 3);
    tcase_add_test(tests, failing_sinks_are_reported);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
