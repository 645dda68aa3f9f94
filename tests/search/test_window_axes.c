/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The axes of an operating window: where they begin and end if nobody says so, their steps, and
 * what cannot be an axis. */
#include "core/search/window_axis.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct axis_case {
    const char *machine;
    const char *tool;
    const char *typed[6][2];
    const char *axis;
    double least; /* mm, mm/min, rpm, K or a number */
    double most;
    double unit;
    int logarithmic;
} axis_case;

static bite_answer *judge(const axis_case *of)
{
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "6061", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, of->machine, NULL), BITE_OK);
    if (of->tool != NULL) {
        ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, of->tool, NULL), BITE_OK);
    }
    for (size_t i = 0; i < 6 && of->typed[i][0] != NULL; i++) {
        if (strcmp(of->typed[i][0], "use thread") == 0) {
            ck_assert_int_eq(bite_request_use(request, BITE_THREADS, of->typed[i][1], NULL),
                             BITE_OK);
        } else {
            ck_assert_int_eq(bite_request_set(request, of->typed[i][0], of->typed[i][1], NULL),
                             BITE_OK);
        }
    }
    ck_assert_msg(bite_answer_new(request, BITE_DRAWS_NONE, 0.95, &answer, &error) == BITE_OK, "%s",
                  error.message);
    bite_request_free(request);
    return answer;
}

#define MM 1e-3
#define MM_MIN (1e-3 / 60.0)
#define RPM (1.0 / 60.0)
#define AT_12000                                                                                   \
    {                                                                                              \
        "spindle_speed", "12000rpm"                                                                \
    }
#define AT_200                                                                                     \
    {                                                                                              \
        "feed_rate", "200mm/min"                                                                   \
    }
#define DEEP                                                                                       \
    {                                                                                              \
        "depth", "0.2mm"                                                                           \
    }

/* A quarter to four times, but for
 *   temperatures, 30 K either way;
 *   speeds, over those of the machine and a twentieth more, or to two and a half times;
 *   feeds, a tenth to ten times, or to 1.3 times what the machine can: 3900 mm/min;
 *   what no cut can exceed: its diameter for a width, the edge of a cone for a depth: (6 - 0.4)/2
 *   mm less what is below a chamfer of 45 deg, and (3.175 - 0.2)/2/tan 15 deg of a groove. */
static const axis_case cases[] = {
    {"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "room_temperature", 263.15, 323.15, 1.0, 0},
    {"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "depth", 0.05, 0.8, MM, 1},
    {"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "feed_rate", 20.0, 2000.0, MM_MIN, 1},
    {"bench-24k",
     "2mm",
     {AT_12000, {"feed_rate", "1000mm/min"}, DEEP},
     "feed_rate",
     100.0,
     3900.0,
     MM_MIN,
     1},
    {"bare",
     "2mm",
     {AT_12000, {"feed_rate", "1000mm/min"}, DEEP},
     "feed_rate",
     100.0,
     10000.0,
     MM_MIN,
     1},
    {"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "spindle_speed", 3000.0, 25200.0, RPM, 1},
    {"bare", "2mm", {AT_12000, AT_200, DEEP}, "spindle_speed", 3000.0, 30000.0, RPM, 1},
    {"bench-24k",
     "2mm",
     {AT_12000, AT_200, DEEP, {"tool_turn_limit", "16000rpm"}},
     "spindle_speed",
     3000.0,
     16800.0,
     RPM,
     1},
    {"bare",
     "2mm",
     {AT_12000, AT_200, DEEP, {"spindle_slowest", "0rpm"}, {"spindle_fastest", "20000rpm"}},
     "spindle_speed",
     3000.0,
     21000.0,
     RPM,
     1},
    {"bare",
     "2mm",
     {AT_12000, AT_200, DEEP, {"spindle_slowest", "10rpm"}, {"spindle_fastest", "20000rpm"}},
     "spindle_speed",
     210.0,
     21000.0,
     RPM,
     1},
    {"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "width", 0.5, 2.0, MM, 1},
    {"bench-24k", "2mm", {AT_12000, AT_200, DEEP, {"width", "0.3mm"}}, "width", 0.075, 1.2, MM, 1},
    {"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "flutes", 1.0, 8.0, 1.0, 0},
    {"bench-24k",
     "cm-6-90",
     {AT_12000, AT_200, {"operation", "chamfer"}, {"depth", "1mm"}, {"tip_below", "0.3mm"}},
     "depth",
     0.25,
     2.5,
     MM,
     1},
    {"bench-24k",
     "cm-6-90",
     {AT_12000, AT_200, {"operation", "chamfer"}, {"depth", "0.5mm"}, {"tip_below", "0.3mm"}},
     "depth",
     0.125,
     2.0,
     MM,
     1},
    {"bench-24k", "vg-30-02", {AT_12000, AT_200, {"depth", "2mm"}}, "depth", 0.5, 5.5514256, MM, 1},
    {"bench-24k", "vg-30-02", {AT_12000, AT_200, {"depth", "1mm"}}, "depth", 0.25, 4.0, MM, 1},
};

START_TEST(ends_by_default)
{
    const axis_case *of = &cases[_i];
    bite_answer *answer = judge(of);
    bite_axis axis;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_axis_make(answer, of->axis, (double)NAN, (double)NAN, &axis, &error) ==
                      BITE_OK,
                  "%s", error.message);
    bite_assert_near(axis.least / of->unit, of->least, 1e-8);
    bite_assert_near(axis.most / of->unit, of->most, 1e-8);
    ck_assert_int_eq(axis.logarithmic != 0, of->logarithmic);
    bite_answer_free(answer);
}
END_TEST

/* What is no axis here: the error names it, and says why. */
static const struct {
    axis_case cut;
    double least;
    double most;
    bite_status status;
    const char *says;
} refused[] = {
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "sped", 0, 0, 0, 0},
     NAN,
     NAN,
     BITE_UNKNOWN_NAME,
     "sped is not an input"},
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "coolant", 0, 0, 0, 0},
     NAN,
     NAN,
     BITE_BAD_ARGUMENT,
     "coolant takes words"},
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "pitch", 0, 0, 0, 0},
     NAN,
     NAN,
     BITE_BAD_ARGUMENT,
     "pitch has no effect in this operation"},
    {{"bench-24k",
      NULL,
      {{"spindle_speed", "300rpm"}, {"operation", "tap"}, {"use thread", "M3"}, {"depth", "4mm"}},
      "feed_rate",
      0,
      0,
      0,
      0},
     NAN,
     NAN,
     BITE_BAD_ARGUMENT,
     "feed_rate follows from the pitch when tapping"},
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "finish", 0, 0, 0, 0},
     NAN,
     NAN,
     BITE_MISSING,
     "finish was not given"},
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "flutes", 0, 0, 0, 0},
     1.5,
     NAN,
     BITE_OUT_OF_RANGE,
     "begin and end at whole numbers"},
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "flutes", 0, 0, 0, 0},
     NAN,
     3.5,
     BITE_OUT_OF_RANGE,
     "begin and end at whole numbers"},
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "depth", 0, 0, 0, 0},
     1e-3,
     1e-3,
     BITE_OUT_OF_RANGE,
     "empty or exceeds the range"},
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "depth", 0, 0, 0, 0},
     -1e-3,
     1e-3,
     BITE_OUT_OF_RANGE,
     "empty or exceeds the range"},
    {{"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "depth", 0, 0, 0, 0},
     1e-3,
     1e3,
     BITE_OUT_OF_RANGE,
     "empty or exceeds the range"},
};

START_TEST(what_is_no_axis)
{
    bite_answer *answer = judge(&refused[_i].cut);
    bite_axis axis;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_axis_make(answer, refused[_i].cut.axis, refused[_i].least,
                                    refused[_i].most, &axis, &error),
                     refused[_i].status);
    ck_assert_msg(strstr(error.message, refused[_i].says) != NULL, "%s", error.message);
    ck_assert_str_eq(error.key, "axis");
    bite_answer_free(answer);
}
END_TEST

/* Depths from 0.05 to 0.8 mm have equal steps in their logarithm, from 0.1 to 0.3 mm equal ones; an
 * end that is stated stands. A number of flutes has one point for each. */
START_TEST(steps_of_an_axis)
{
    const axis_case cut = {"bench-24k", "2mm", {AT_12000, AT_200, DEEP}, "depth", 0, 0, 0, 0};
    bite_answer *answer = judge(&cut);
    bite_axis axis;
    ck_assert_int_eq(bite_axis_make(answer, "depth", (double)NAN, (double)NAN, &axis, NULL),
                     BITE_OK);
    bite_assert_near(bite_axis_at(&axis, 0.5), 0.2e-3, 1e-12);
    bite_assert_near(bite_axis_share(&axis, 0.1e-3), 0.25, 1e-12);
    axis.count = bite_axis_points(&axis, 9, 5);
    ck_assert_uint_eq(axis.count, 9);
    ck_assert_uint_eq(bite_axis_nearest(&axis), 4);
    ck_assert_int_eq(bite_axis_make(answer, "depth", 0.1e-3, 0.3e-3, &axis, NULL), BITE_OK);
    ck_assert_uint_eq(axis.logarithmic, 0);
    bite_assert_near(bite_axis_at(&axis, 0.25), 0.15e-3, 1e-12);
    bite_assert_near(bite_axis_share(&axis, 0.25e-3), 0.75, 1e-12);
    axis.count = bite_axis_points(&axis, 0, 5);
    ck_assert_uint_eq(axis.count, 5);
    ck_assert_uint_eq(bite_axis_nearest(&axis), 2);
    ck_assert_int_eq(bite_axis_make(answer, "depth", 0.5e-3, 0.9e-3, &axis, NULL), BITE_OK);
    axis.count = 5; /* the point in use is below it */
    ck_assert_uint_eq(bite_axis_nearest(&axis), 0);
    ck_assert_int_eq(bite_axis_make(answer, "flutes", 1.0, 4.0, &axis, NULL), BITE_OK);
    ck_assert_uint_eq(bite_axis_points(&axis, 9, 5), 4);
    ck_assert_double_eq(bite_axis_at(&axis, 0.4), 2.0);
    bite_answer_free(answer);
}
END_TEST

/* And a machine of which nobody stated anything. */
static void open_with_bare_machine(void)
{
    static const char bare[] =
        "\n[machine.bare]\ntitle = the mill in the corner\nsource = memory\n";
    char path[600];
    open_library();
    (void)snprintf(path, sizeof path, "%s/machines.ini", shop.tables);
    FILE *file = fopen(path, "a");
    ck_assert_msg(file != NULL, "%s", path);
    ck_assert_int_ge(fputs(bare, file), 0);
    ck_assert_int_eq(fclose(file), 0);
    bite_library_close(library);
    library = bite_test_shop_open(&shop, NULL);
}

int main(void)
{
    Suite *suite = suite_create("window axes");
    TCase *tests = tcase_create("window axes");
    tcase_add_unchecked_fixture(tests, open_with_bare_machine, close_library);
    tcase_add_loop_test(tests, ends_by_default, 0, (int)(sizeof cases / sizeof *cases));
    tcase_add_loop_test(tests, what_is_no_axis, 0, (int)(sizeof refused / sizeof *refused));
    tcase_add_test(tests, steps_of_an_axis);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
