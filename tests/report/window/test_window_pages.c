/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window as text, CSV and JSON: points that are no valid cut, axes of counts and of temperatures,
 * and axes that are refused. */
#include "tests/report/report_output.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MM 1e-3

static bite_answer *answer;
static report_output output;

static void begin(void)
{
    static const char *const typed[][2] = {{"spindle_speed", "12000rpm"},
                                           {"feed_rate", "400mm/min"},
                                           {"depth", "0.2mm"},
                                           {"width", "0.4mm"},
                                           {"stickout", "6mm"},
                                           {"flutes", "2"}};
    open_library();
    answer = answer_of_typed(library, typed, sizeof typed / sizeof *typed, BITE_DRAWS_NONE);
}

static void end(void)
{
    report_output_free(&output);
    bite_answer_free(answer);
    close_library();
}

static bite_window_options options_of(const char *across, double least, double most, const char *up,
                                      double up_least, double up_most)
{
    bite_window_options options;
    bite_window_options_init(&options);
    options.columns = 25;
    options.rows = 9;
    options.across = across;
    options.across_least = least;
    options.across_most = most;
    options.up = up;
    options.up_least = up_least;
    options.up_most = up_most;
    return options;
}

static bite_window *window_of(const bite_window_options *options)
{
    bite_window *window = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_window_new(answer, options, &window, &error) == BITE_OK, "%s: %s", error.key,
                  error.message);
    return window;
}

static void write_as(const bite_window *window, uint32_t format, uint32_t units)
{
    bite_style style = report_style(format, units);
    style.columns = 80;
    report_output_free(&output);
    ck_assert_int_eq(bite_window_write(window, &style, report_output_add, &output, NULL), BITE_OK);
}

/* A tool of 0.8 mm cuts no wider than that. */
START_TEST(points_that_are_no_cut)
{
    bite_window_options options =
        options_of("width", 0.1 * MM, 1.6 * MM, "depth", 0.05 * MM, 2.0 * MM);
    bite_window *window = window_of(&options);
    write_as(window, BITE_TEXT, BITE_METRIC);
    report_output_has(&output, "up: depth, mm; across: width, mm ");
    report_output_has(&output, "; blank: no valid cut ");
    report_output_has(&output, "each limit alone is clear from width 0.1 mm to 0.");
    write_as(window, BITE_CSV, BITE_METRIC);
    report_output_has(&output, "width [mm],depth [mm],verdict,foremost,");
    size_t lines = 0;
    size_t wide = 0;
    for (const char *at = output.text; (at = strstr(at, "\r\n")) != NULL && at[2] != 0;) {
        at += 2;
        double width = strtod(at, NULL);
        const char *verdict = strchr(strchr(at, ',') + 1, ',') + 1;
        int none = strncmp(verdict, "not_judged,,,", 13) == 0;
        ck_assert_msg(none == (width > 0.8 * 1.000001), "%.80s", at);
        wide += none != 0;
        lines++;
    }
    ck_assert_uint_eq(lines, 25 * 9);
    ck_assert(wide > 25 && wide < 25 * 8);
    write_as(window, BITE_JSON, BITE_METRIC);
    json_t *root = report_output_json(&output);
    json_decref(root);
    bite_window_free(window);
}
END_TEST

START_TEST(axes_of_counts_and_temperatures)
{
    bite_window_options options =
        options_of("room_temperature", 283.15, 313.15, "flutes", 1.0, 4.0);
    bite_window *window = window_of(&options);
    write_as(window, BITE_TEXT, BITE_METRIC);
    report_output_has(&output, "up: flutes; across: room temperature, degC ");
    report_output_has(&output, " 15 20 25 30 35 40 ");
    report_output_has(&output, "At 20 degC and flutes 2: ");
    report_output_lacks(&output, "no valid cut");
    write_as(window, BITE_TEXT, BITE_INCH);
    report_output_has(&output, "across: room temperature, degF ");
    report_output_has(&output, "At 68 degF and flutes 2: ");
    write_as(window, BITE_CSV, BITE_INCH);
    report_output_has(&output, "room_temperature [degF],flutes,verdict,");
    report_output_has(&output, "50,1,clear,");
    report_output_has(&output, "104,4,clear,");
    write_as(window, BITE_HTML, BITE_METRIC);
    report_output_has(&output, "room temperature");
    write_as(window, BITE_SVG, BITE_METRIC);
    report_output_has(&output, "room temperature, degC");
    bite_window_free(window);
}
END_TEST

START_TEST(axes_that_are_refused)
{
    const struct {
        bite_window_options options;
        bite_status status;
    } bad[] = {
        {options_of("side", 0.0, 0.0, NULL, 0.0, 0.0), BITE_BAD_ARGUMENT},
        {options_of("no_such", 0.0, 0.0, NULL, 0.0, 0.0), BITE_UNKNOWN_NAME},
        {options_of("tolerance", 0.0, 0.0, NULL, 0.0, 0.0), BITE_MISSING},
        {options_of("flutes", 2.0, 2.0, NULL, 0.0, 0.0), BITE_OUT_OF_RANGE},
        {options_of("depth", 2.0 * MM, 1.0 * MM, NULL, 0.0, 0.0), BITE_OUT_OF_RANGE},
        {options_of("depth", 0.0, 0.0, "depth", 0.0, 0.0), BITE_BAD_ARGUMENT},
        {options_of("depth", (double)INFINITY, 1.0, NULL, 0.0, 0.0), BITE_OUT_OF_RANGE},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        bite_window *window = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_status status = bite_window_new(answer, &bad[i].options, &window, &error);
        ck_assert_msg(status == bad[i].status, "%zu: %s: %s", i, bite_status_name(status),
                      error.message);
        ck_assert_ptr_null(window);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("window_pages");
    tcase_add_unchecked_fixture(tests, begin, end);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, points_that_are_no_cut);
    tcase_add_test(tests, axes_of_counts_and_temperatures);
    tcase_add_test(tests, axes_that_are_refused);
    Suite *suite = suite_create("window_pages");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
