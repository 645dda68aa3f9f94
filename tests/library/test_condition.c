/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conditions of cautions: what is true, what is refused and where, and that no text takes long. */
#include "core/library/condition.h"
#include "core/library/judged_name.h"
#include "core/units/dimension.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A cut: depth 2 mm, width 1 mm, diameter 3 mm, 0.05 mm/tooth, 200 Hz, flood, acrylic/cast. */
static double number(void *user, const char *name)
{
    static const struct {
        const char *name;
        double value;
    } known[] = {{"depth", 2e-3},        {"width", 1e-3},
                 {"diameter", 3e-3},     {"chip_load", 5e-5},
                 {"spindle_speed", 200}, {"transition", 378.15},
                 {"softening", 353.15},  {"chip_packing.utilization", 0.5}};
    (void)user;
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        if (strcmp(known[i].name, name) == 0) {
            return known[i].value;
        }
    }
    return (double)NAN;
}

static const char *choice(void *user, const char *name)
{
    (void)user;
    return strcmp(name, "coolant") == 0 ? "flood"
           : strcmp(name, "grade") == 0 ? "cast"
           : strcmp(name, "side") == 0  ? "climb"
                                        : NULL;
}

static const bite_case_view view = {NULL, number, choice, NULL, NULL};

static bite_status read(bite_arena *arena, const char *text, const bite_condition **condition,
                        bite_error *error)
{
    return bite_condition_read(arena, text, NULL, 0, condition, error);
}

START_TEST(truth)
{
    static const struct {
        const char *text;
        bool holds;
    } cases[] = {
        {"", true},
        {"depth above 1mm", true},
        {"depth above 2 mm", false},
        {"depth at least 2 mm", true},
        {"depth at most 1.9mm", false},
        {"depth below diameter", true},
        {"1mm below depth", true},
        {"coolant is flood", true},
        {"coolant is FLOOD", true},
        {"coolant is flood or mist", true},
        {"coolant is air or mist", false},
        {"coolant is not none or air", true},
        {"coolant is not none or flood", false},
        {"coolant is none or depth above 1mm", true},
        {"coolant is none and depth above 1mm", false},
        {"coolant is none or mist and depth above 1mm", false},
        {"coolant is none or mist or depth above 1mm", true},
        {"depth above 5mm or coolant is flood and depth above 1mm", true},
        {"depth above 1mm or coolant is none and depth above 5mm", true},
        {"coolant is none and depth above 1mm or coolant is flood", true},
        {"coolant is none and depth above 1mm or coolant is flood and depth above 5mm", false},
        {"depth * width above 1.9 mm2", true},
        {"depth * width above 2.1 mm2", false},
        {"depth * width above 0.003 in2", true},
        {"depth above 0.5 * diameter", true},
        {"depth above 0.7 * diameter", false},
        {"depth / diameter above 0.66", true},
        {"depth / diameter below 67 %", true},
        {"depth * width * diameter above 5 mm2 * 1mm", true},
        {"depth * width * diameter above 7 mm2 * 1mm", false},
        {"chip_load * spindle_speed above 500 mm/min", true},
        {"chip_load * spindle_speed above 700 mm/min", false},
        {"softening / transition above 0.9", true},
        {"softening below transition", true},
        {"chip_packing.utilization at least 50 %", true},
        {"  depth  above  1mm  ", true},
        {"depth above .5 * diameter", true},
        {"depth above +.7 * diameter", false},
        {"-1 * depth below 0 * diameter", true},
        {"softening / 2 above 170 K", true},
        {"softening / 2 above 180 k", false},
        {"depth at least 2mm or depth above 5mm", true},
        {"chip_packing.demand above 1", false}, /* not known to this cut */
        {"chip_packing.capacity above 1", false},
        {"chip_packing.chance above 50 %", false},
        /* not known: false, whichever way it is compared, and only that comparison */
        {"hole_diameter above 1mm", false},
        {"hole_diameter at most 1mm", false},
        {"hole_diameter * depth below 1 mm2", false},
        {"hole_diameter above 1mm or depth above 1mm", true},
        {"tool_material is carbide", false},
        {"tool_material is not carbide", true},
        {"grade is cast", true},
        {"grade is not extruded and family is acrylic", false},
    };
    bite_arena *arena = bite_arena_new(bite_memory_default());
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const bite_condition *condition = NULL;
        bite_error error = BITE_ERROR_INIT;
        static const bite_field figures[] = {
            {"transition", BITE_FIELD_FIGURE, BITE_KIND_TEMPERATURE, 0, 1e4, NULL}};
        ck_assert_msg(bite_condition_read(arena, cases[i].text, figures, 1, &condition, &error) ==
                          BITE_OK,
                      "%s: %s (%s)", cases[i].text, error.message, error.hint);
        ck_assert_msg(bite_condition_holds(condition, &view, NULL, NULL) == cases[i].holds, "%s",
                      cases[i].text);
    }
    const bite_condition *condition = NULL;
    ck_assert_int_eq(read(arena, "grade is soft and family is toy", &condition, NULL), BITE_OK);
    ck_assert(bite_condition_holds(condition, &view, "soft", "toy"));
    ck_assert(!bite_condition_holds(condition, &view, NULL, "toy"));
    bite_arena_free(arena);
}
END_TEST

START_TEST(each_wrong_form_has_its_message_and_column)
{
    static const struct {
        const char *text;
        uint32_t column;
        const char *says;
    } cases[] = {
        {"depht above 1mm", 1, "did you mean depth?"},
        {"depth above dimeter", 13, "did you mean diameter?"},
        {"depth above 12degC", 13, "a length"},
        {"depth above 12", 13, "bare number"},
        {"depth above", 12, "missing here"},
        {"depth above and width above 1mm", 13, "missing here"},
        {"above 1mm", 1, "missing here"},
        {"and depth above 1mm", 1, "missing here"},
        {"depth above 1mm and", 20, "missing here"},
        {"depth above 1mm or or width above 1mm", 20, "missing here"},
        {"depth above 1mm width above 1mm", 13, "mm width"},
        {"depth", 1, "cannot be read"},
        {"depth > 1mm", 1, "write above"},
        {"coolant = flood", 1, "write is"},
        {"coolant is", 11, "one value"},
        {"coolant is not", 15, "one value"},
        {"coolant is floood", 12, "did you mean flood?"},
        {"coolant is lava", 12, "coolbite explain coolant"},
        {"coolant is flood or mits", 21, "did you mean mist?"},
        {"coolant is flood mist", 12, "one value"},
        {"coolant is flood or wet mist", 21, "neither a number"},
        {"coolant above 3", 1, "neither a number"},
        {"depth is 3mm", 1, "compare a number by above"},
        {"colour is red", 1, "is not a word of a judged cut"},
        {"depth * width above 2mm", 21, "a length"},
        {"depth * width above 2 N", 21, "a force"},
        {"depth * width above diameter", 21, "different units"},
        {"depth above width * diameter", 13, "different units"},
        {"depth * above 1mm", 9, "missing here"},
        {"* depth above 1mm", 1, "missing here"},
        {"depth * widht above 1 mm2", 9, "did you mean width?"},
        {"depth * width * diameter * diameter above 3mm", 43, "as a product"},
        {"( depth above 1mm )", 1, "no brackets"},
        {"softening above surface_rise_typo", 17, "neither"},
        {"softening * 2 above 20 degC", 21, "K"},
        {"1mm above 2mm", 1, "no side"},
        {"chip_packing above 1", 1, "neither"},
        {"chip_packing.colour above 1", 1, "neither"},
        {"chip_load.demand above 1", 1, "neither"},
        {"no_such_limit.demand above 1", 1, "neither"},
        {"a_name_that_is_longer_than_any_name_of_a_limit_could_ever_be_in_any_table.demand above 1",
         1, "neither"},
        {"side above 1", 1, "neither"},
        {"depth * width", 1, "cannot be read"},
        {"depth * 2mm width above 1mm2", 9, "is not a unit"},
        {"depth * 2mmm above 1mm2", 9, "did you mean mm?"},
        {"depth * -x above 1mm2", 9, "neither"},
        {"depth * . above 1mm2", 9, "neither"},
        {"depth above nan", 13, "neither"},
        {"depth above 1e999 mm", 13, "too large"},
    };
    static char wrong[8000];
    bite_arena *arena = bite_arena_new(bite_memory_default());
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const bite_condition *condition = NULL;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(read(arena, cases[i].text, &condition, &error) == BITE_BAD_FILE, "%s",
                      cases[i].text);
        if (error.column != cases[i].column ||
            (error.hint[0] == 0 && strstr(error.message, "too large") == NULL) ||
            (strstr(error.message, cases[i].says) == NULL &&
             strstr(error.hint, cases[i].says) == NULL)) {
            size_t used = strlen(wrong);
            (void)snprintf(wrong + used, sizeof wrong - used, "%s: column %u: %s (%s)\n",
                           cases[i].text, error.column, error.message, error.hint);
        }
    }
    ck_assert_msg(wrong[0] == 0, "%s", wrong);
    bite_arena_free(arena);
}
END_TEST

/* Temperatures are compared with temperatures, rises with rises. */
START_TEST(a_temperature_is_no_rise)
{
    static const bite_field figures[] = {
        {"warm", BITE_FIELD_FIGURE, BITE_KIND_TEMPERATURE, 0, 1e4, NULL},
        {"by", BITE_FIELD_FIGURE, BITE_KIND_RISE, 0, 1e4, NULL}};
    bite_arena *arena = bite_arena_new(bite_memory_default());
    const bite_condition *condition = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_condition_read(arena, "warm above by", figures, 2, &condition, &error),
                     BITE_BAD_FILE);
    ck_assert_str_eq(error.message, "a temperature is compared with a temperature rise");
    ck_assert_int_eq(bite_condition_read(arena, "by above 20 K", figures, 2, &condition, &error),
                     BITE_OK);
    bite_arena_free(arena);
}
END_TEST

/* Long texts of any shape end, well or not, before the test runs out of time, which a square of
 * their length would not; memory is some hundred bytes a word. */
START_TEST(no_text_takes_long)
{
    static const char *const parts[] = {
        "or ", "and ", "( ",        "depth * ", "coolant is flood or ",
        "is ", "not ", "at least ", "* ",       "depth above 1mm or ",
        "x ",  "1 / "};
    size_t size = (size_t)1 << 20;
    char *text = malloc(size + 40);
    ck_assert_ptr_nonnull(text);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        bite_test_memory memory = {0};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_arena *arena = bite_arena_new(&allocator);
        size_t used = 0;
        while (used < size) {
            strcpy(text + used, parts[i]);
            used += strlen(parts[i]);
        }
        const bite_condition *condition = NULL;
        bite_error error = BITE_ERROR_INIT;
        (void)read(arena, text, &condition, &error);
        ck_assert_msg(memory.held < 64 * size, "%s: %zu bytes", parts[i], memory.held);
        bite_arena_free(arena);
    }
    free(text);
}
END_TEST

START_TEST(dimensions_follow_from_units)
{
    static const struct {
        bite_kind kind;
        bite_dimension dimension;
    } cases[] = {{BITE_KIND_NUMBER, {0, 0, 0, 0}},
                 {BITE_KIND_ANGLE, {0, 0, 0, 0}},
                 {BITE_KIND_FRACTION, {0, 0, 0, 0}},
                 {BITE_KIND_PER_ANGLE, {0, 0, 0, 0}},
                 {BITE_KIND_LENGTH, {1, 0, 0, 0}},
                 {BITE_KIND_TOOTH_FEED, {1, 0, 0, 0}},
                 {BITE_KIND_AREA, {2, 0, 0, 0}},
                 {BITE_KIND_ROTATION, {0, 0, -1, 0}},
                 {BITE_KIND_FREQUENCY, {0, 0, -1, 0}},
                 {BITE_KIND_SPEED, {1, 0, -1, 0}},
                 {BITE_KIND_SURFACE_SPEED, {1, 0, -1, 0}},
                 {BITE_KIND_ACCELERATION, {1, 0, -2, 0}},
                 {BITE_KIND_TEMPERATURE, {0, 0, 0, 1}},
                 {BITE_KIND_RISE, {0, 0, 0, 1}},
                 {BITE_KIND_FORCE, {1, 1, -2, 0}},
                 {BITE_KIND_STRESS, {-1, 1, -2, 0}},
                 {BITE_KIND_POWER, {2, 1, -3, 0}},
                 {BITE_KIND_TORQUE, {2, 1, -2, 0}},
                 {BITE_KIND_TIME, {0, 0, 1, 0}},
                 {BITE_KIND_STIFFNESS, {0, 1, -2, 0}},
                 {BITE_KIND_EDGE_FORCE, {0, 1, -2, 0}},
                 {BITE_KIND_SURFACE_ENERGY, {0, 1, -2, 0}},
                 {BITE_KIND_DENSITY, {-3, 1, 0, 0}},
                 {BITE_KIND_HEAT_CAPACITY, {2, 0, -2, -1}},
                 {BITE_KIND_CONDUCTIVITY, {1, 1, -3, -1}},
                 {BITE_KIND_EXPANSION, {0, 0, 0, -1}},
                 {BITE_KIND_HEAT_TRANSFER, {0, 1, -3, -1}},
                 {BITE_KIND_REMOVAL_RATE, {3, 0, -1, 0}},
                 {BITE_KIND_SPECIFIC_ENERGY, {-1, 1, -2, 0}}};
    ck_assert_uint_eq(sizeof cases / sizeof *cases, BITE_KIND_COUNT);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_msg(bite_dimension_equal(bite_dimension_of(cases[i].kind), cases[i].dimension),
                      "kind %d", (int)cases[i].kind);
    }
}
END_TEST

START_TEST(each_failing_allocation_is_reported)
{
    for (size_t n = 1; n < 100; n++) {
        bite_test_memory memory = {.fail_at = n};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_arena *arena = bite_arena_new(&allocator);
        const bite_condition *condition = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_status status =
            arena == NULL
                ? BITE_NO_MEMORY
                : read(arena, "depth * width above 1 mm2 or coolant is flood", &condition, &error);
        bite_arena_free(arena);
        ck_assert_uint_eq(memory.held, 0);
        if (status == BITE_OK) {
            return;
        }
        ck_assert_int_eq(status, BITE_NO_MEMORY);
    }
    ck_abort_msg("100 allocations are not enough for a condition");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("condition");
    TCase *tests = tcase_create("condition");
    tcase_add_test(tests, truth);
    tcase_add_test(tests, each_wrong_form_has_its_message_and_column);
    tcase_add_test(tests, a_temperature_is_no_rise);
    tcase_add_test(tests, no_text_takes_long);
    tcase_add_test(tests, dimensions_follow_from_units);
    tcase_add_test(tests, each_failing_allocation_is_reported);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
