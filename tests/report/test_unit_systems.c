/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Requests in inches and in millimetres are the same, and each answer is written in its own
 * units. */
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* A request that a shop could make, in SI units. */
typedef struct question {
    const char *grade;
    double diameter;
    double spindle; /* 1/s */
    double feed;    /* m/s */
    double depth;
    double width; /* NaN: a slot */
    double stickout;
    double tolerance;
    double room; /* K */
    int flutes;
    int speed_by_surface; /* the spindle is entered as a surface speed, the feed as a feed per tooth
                           */
} question;

static question random_question(uint64_t *seed)
{
    static const char *const grades[] = {"acrylic/cast", "acrylic/extruded", "polycarbonate",
                                         "6061"};
    question of;
    of.grade = grades[(int)bite_test_between(seed, 0.0, 4.0)];
    of.diameter = bite_test_decades(seed, 0.3e-3, 8e-3);
    of.spindle = bite_test_decades(seed, 60.0, 400.0);
    of.flutes = (int)bite_test_between(seed, 1.0, 5.0);
    of.feed = of.spindle * of.flutes * of.diameter * bite_test_decades(seed, 0.003, 0.03);
    of.depth = of.diameter * bite_test_decades(seed, 0.1, 1.2);
    of.width = bite_test_between(seed, 0.0, 1.0) < 0.4
                   ? (double)NAN
                   : of.diameter * bite_test_between(seed, 0.05, 0.9);
    of.stickout = of.diameter * 3.0 + bite_test_between(seed, 6e-3, 14e-3);
    of.tolerance = bite_test_decades(seed, 0.01e-3, 0.2e-3);
    of.room = bite_test_between(seed, 285.0, 305.0);
    of.speed_by_surface = bite_test_between(seed, 0.0, 1.0) < 0.5;
    return of;
}

static void put(bite_request *request, const char *input, double number, const char *unit)
{
    char text[64];
    bite_error error = BITE_ERROR_INIT;
    (void)snprintf(text, sizeof text, "%.17g%s", number, unit);
    ck_assert_msg(bite_request_set(request, input, text, &error) == BITE_OK, "%s %s: %s", input,
                  text, error.message);
}

static bite_request *ask_in(const question *of, int inch)
{
    const double length = inch ? 25.4e-3 : 1e-3;
    const char *unit = inch ? "in" : "mm";
    bite_request *request = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_msg(bite_request_use(request, BITE_GRADES, of->grade, &error) == BITE_OK, "%s",
                  error.message);
    put(request, "diameter", of->diameter / length, unit);
    put(request, "flutes", of->flutes, "");
    put(request, "depth", of->depth / length, unit);
    if (!isnan(of->width)) {
        put(request, "width", of->width / length, unit);
    }
    put(request, "stickout", of->stickout / length, unit);
    put(request, "tolerance", of->tolerance / (inch ? 25.4e-6 : 1e-6), inch ? "thou" : "um");
    put(request, "room_temperature", inch ? (of->room - 273.15) * 1.8 + 32.0 : of->room - 273.15,
        inch ? "degF" : "degC");
    if (of->speed_by_surface) {
        double speed = M_PI * of->diameter * of->spindle * 60.0;
        put(request, "spindle_speed", inch ? speed / 0.3048 : speed, inch ? "sfm" : "m/min");
        put(request, "feed_rate", of->feed / (of->spindle * of->flutes) / (inch ? 25.4e-6 : 1e-3),
            inch ? "thou/tooth" : "mm/tooth");
    } else {
        put(request, "spindle_speed", of->spindle * 60.0, "rpm");
        put(request, "feed_rate", of->feed * 60.0 / length, inch ? "in/min" : "mm/min");
    }
    return request;
}

static bite_answer *answer_of(const question *of, int inch, size_t draws)
{
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    bite_request *request = ask_in(of, inch);
    ck_assert_msg(bite_answer_new(request, draws, 0.95, &answer, &error) == BITE_OK, "%s (%s)",
                  error.message, error.hint);
    bite_request_free(request);
    return answer;
}

static void same(double a, double b, const char *what, double within)
{
    /* a depth at which nothing chatters is infinite in both */
    ck_assert_msg((isnan(a) && isnan(b)) || a == b ||
                      fabs(a - b) <= within * fmax(fabs(a), fabs(b)) + 1e-300,
                  "%s: %.17g and %.17g", what, a, b);
}

static void same_result(const bite_result *a, const bite_result *b)
{
    ck_assert_uint_eq(a->verdict, b->verdict);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        const char *name = bite_value_name((bite_value_id)i);
        /* the tolerance of the search for the lobe at this speed */
        int searched = i == BITE_STABILITY_DEPTH || i == BITE_STABILITY_DEPTH_TOOL;
        same(a->values[i].value, b->values[i].value, name, searched ? 1e-7 : 1e-9);
        same(a->values[i].low, b->values[i].low, name, 1e-7);
        same(a->values[i].high, b->values[i].high, name, 1e-7);
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const char *name = bite_limit_name((bite_limit_id)i);
        ck_assert_uint_eq(a->limits[i].applies, b->limits[i].applies);
        int searched = i == BITE_LIMIT_CHATTER || i == BITE_LIMIT_CHATTER_TOOL;
        same(a->limits[i].demand, b->limits[i].demand, name, 1e-9);
        same(a->limits[i].capacity, b->limits[i].capacity, name, searched ? 1e-7 : 1e-9);
        ck_assert_msg(isnan(a->limits[i].chance) == isnan(b->limits[i].chance), "%s", name);
        /* a draw exactly at the limit may fall to either side by rounding: one at most */
        ck_assert_msg(isnan(a->limits[i].chance) ||
                          fabs(a->limits[i].chance - b->limits[i].chance) <= 1.0 / a->draws + 1e-12,
                      "%s", name);
    }
}

START_TEST(both_unit_systems_give_one_answer)
{
    uint64_t seed = 77;
    for (int i = 0; i < 2000; i++) {
        question of = random_question(&seed);
        bite_answer *metric = answer_of(&of, 0, i % 20 == 0 ? 64 : BITE_DRAWS_NONE);
        bite_answer *inch = answer_of(&of, 1, i % 20 == 0 ? 64 : BITE_DRAWS_NONE);
        same_result(bite_answer_result(metric), bite_answer_result(inch));
        bite_answer_free(metric);
        bite_answer_free(inch);
    }
}
END_TEST

/* ---- output ---- */

typedef struct text {
    size_t used;
    char bytes[1 << 16];
} text;

static int keep(void *user, const char *part, size_t size)
{
    text *to = user;
    if (to->used + size >= sizeof to->bytes) {
        return 1;
    }
    memcpy(to->bytes + to->used, part, size);
    to->used += size;
    to->bytes[to->used] = 0;
    return 0;
}

static void write_as(const bite_answer *answer, bite_format format, bite_units units, text *to)
{
    bite_style style = {0};
    bite_error error = BITE_ERROR_INIT;
    style.struct_size = (uint32_t)sizeof style;
    style.format = format;
    style.units = units;
    style.all_limits = 1;
    to->used = 0;
    ck_assert_msg(bite_answer_write(answer, &style, keep, to, &error) == BITE_OK, "%s",
                  error.message);
}

/* A number, a blank and this unit, followed by a character that is not a letter. */
static int has_unit(const char *bytes, const char *unit)
{
    size_t length = strlen(unit);
    for (const char *at = strstr(bytes, unit); at != NULL; at = strstr(at + 1, unit)) {
        char after = at[length];
        int ends = strchr(" ,;.)\n", after) != NULL;
        if (at > bytes + 1 && at[-1] == ' ' && at[-2] >= '0' && at[-2] <= '9' && ends) {
            return 1;
        }
    }
    return 0;
}

static void none_of(const char *bytes, const char *const *units, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        ck_assert_msg(!has_unit(bytes, units[i]), "a unit of the other system, %s, is in\n%s",
                      units[i], bytes);
    }
}

START_TEST(text_is_in_one_unit_system)
{
    static const char *const metric_units[] = {"mm", "um", "mm/min", "m/min", "degC", "K",   "MPa",
                                               "N",  "Nm", "N m",    "W",     "kW",   "N/um"};
    static const char *const inch_units[] = {"in",  "thou", "in/min", "sfm",    "degF",
                                             "ksi", "lbf",  "hp",     "lbf/in", "in-lbf"};
    static text written;
    uint64_t seed = 78;
    for (int i = 0; i < 200; i++) {
        question of = random_question(&seed);
        bite_answer *answer = answer_of(&of, 0, 32);
        write_as(answer, BITE_TEXT, BITE_METRIC, &written);
        none_of(written.bytes, inch_units, sizeof inch_units / sizeof *inch_units);
        write_as(answer, BITE_TEXT, BITE_INCH, &written);
        none_of(written.bytes, metric_units, sizeof metric_units / sizeof *metric_units);
        bite_answer_free(answer);
    }
}
END_TEST

/* JSON is in SI units: only the values to enter and the texts follow the unit system. */
START_TEST(json_differs_only_in_values_to_enter)
{
    static const char *const parts[] = {"verdict", "chance", "values", "limits", "measure_first"};
    static text written;
    uint64_t seed = 79;
    for (int i = 0; i < 50; i++) {
        question of = random_question(&seed);
        json_t *roots[2];
        bite_answer *answer = answer_of(&of, 1, 32);
        for (int k = 0; k < 2; k++) {
            write_as(answer, BITE_JSON, k ? BITE_INCH : BITE_METRIC, &written);
            roots[k] = json_loadb(written.bytes, written.used, 0, NULL);
            ck_assert_ptr_nonnull(roots[k]);
        }
        for (size_t k = 0; k < sizeof parts / sizeof *parts; k++) {
            json_t *part = json_object_get(roots[0], parts[k]);
            ck_assert_msg(part != NULL && json_equal(part, json_object_get(roots[1], parts[k])),
                          "%s differs", parts[k]);
        }
        double metric =
            json_number_value(json_object_get(json_object_get(roots[0], "enter"), "feed"));
        double inch =
            json_number_value(json_object_get(json_object_get(roots[1], "enter"), "feed"));
        bite_assert_near(metric, 25.4 * inch, 1e-9);
        json_decref(roots[0]);
        json_decref(roots[1]);
        bite_answer_free(answer);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("units");
    TCase *units = tcase_create("units");
    tcase_add_checked_fixture(units, open_library, close_library);
    tcase_add_test(units, both_unit_systems_give_one_answer);
    tcase_add_test(units, text_is_in_one_unit_system);
    tcase_add_test(units, json_differs_only_in_values_to_enter);
    tcase_set_timeout(units, 300);
    suite_add_tcase(suite, units);
    return bite_test_run(suite);
}
