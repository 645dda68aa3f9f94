/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions about numbers that no shop runs, with the slip that they look like; beside each case one
 * of the usual size, of which nothing is said. */
#include "core/request/answer.h"
#include "tests/request/request_pairs.h"
#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)
#define MATERIAL                                                                                   \
    {                                                                                              \
        "material", "acrylic/cast"                                                                 \
    }
#define SPEED                                                                                      \
    {                                                                                              \
        "spindle_speed", "12000rpm"                                                                \
    }
#define FEED                                                                                       \
    {                                                                                              \
        "feed_rate", "0.02mm/tooth"                                                                \
    }

typedef struct caution_case {
    const char *pairs[REQUEST_PAIRS][2];
    const char *name;
    const char *says; /* NULL: nothing is said */
} caution_case;

static void check_cautions(const caution_case *cases, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_answer *answer = answer_of_pairs(library, cases[i].pairs, &error);
        ck_assert_msg(answer != NULL, "case %zu: %s: %s", i, error.key, error.message);
        const char *text = caution_named(answer, cases[i].name);
        ck_assert_msg((text != NULL) == (cases[i].says != NULL), "case %zu: %s", i,
                      text == NULL ? "nothing is said" : text);
        ck_assert_msg(text == NULL || strstr(text, cases[i].says) != NULL, "case %zu: %s", i, text);
        bite_answer_free(answer);
    }
}

START_TEST(a_feed_far_outside_names_its_slips)
{
    static const caution_case cases[] = {
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED}, "slip_feed", NULL},
        {{MATERIAL, {"tool", "3mm"}, SPEED, {"feed_rate", "1mm/tooth"}},
         "slip_feed",
         "A feed of 1 mm/tooth is far more than a tool of 3 mm is run at: is there a zero too "
         "many, "
         "were millimetres entered as inches, or a feed per minute as a feed per second?"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, {"feed_rate", "2.5mm/tooth"}},
         "slip_feed",
         "is run at: were millimetres entered as inches, or"},
        {{MATERIAL, {"tool", "3mm"}, {"spindle_speed", "600rpm"}, {"feed_rate", "8mm/tooth"}},
         "slip_feed",
         "is run at: was a feed per minute entered as a feed per second?"},
        {{MATERIAL, {"tool", "2mm"}, {"spindle_speed", "600rpm"}, {"feed_rate", "9mm/tooth"}},
         "slip_feed",
         "is run at: is the feed right?"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, {"feed_rate", "0.3um/tooth"}},
         "slip_feed",
         "far less than a tool of 3 mm is run at: is a zero missing, or was a feed per second"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, {"feed_rate", "0.09um/tooth"}},
         "slip_feed",
         "is run at: was a feed per second entered as a feed per minute?"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, {"feed_rate", "0.015um/tooth"}},
         "slip_feed",
         "far less than a tool of 3 mm is run at: is the feed right?"},
    };
    check_cautions(cases, COUNT(cases));
}
END_TEST

START_TEST(speeds_depths_and_runouts_far_outside)
{
    static const caution_case cases[] = {
        {{MATERIAL, {"tool", "25mm"}, {"spindle_speed", "30000rpm"}, FEED},
         "slip_speed",
         "No shop runs a surface speed of 2356 m/min: is there a zero too many"},
        {{MATERIAL, {"tool", "25mm"}, {"spindle_speed", "12000rpm"}, FEED}, "slip_speed", NULL},
        {{MATERIAL, {"tool", "3mm"}, {"spindle_speed", "120rpm"}, FEED},
         "slip_speed",
         "A surface speed of 1.131 m/min at 120 rpm is very slow: is a zero missing?"},
        {{MATERIAL, {"tool", "3mm"}, {"spindle_speed", "240rpm"}, FEED}, "slip_speed", NULL},
        {{MATERIAL, {"tool", "0.4mm"}, {"spindle_speed", "1000rpm"}, FEED}, "slip_speed", NULL},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"depth", "13mm"}},
         "slip_depth",
         "A depth of 13 mm is more than four diameters in one pass"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"depth", "11.9mm"}}, "slip_depth", NULL},
        {{MATERIAL,
          {"tool", "6mm"},
          {"operation", "ream"},
          {"spindle_speed", "600rpm"},
          FEED,
          {"depth", "30mm"}},
         "slip_depth",
         NULL}, /* that of the whole hole */
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"runout", "0.15mm"}},
         "slip_runout",
         "A runout of 0.15 mm means a bent tool"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"runout", "0.05mm"}}, "slip_runout", NULL},
    };
    check_cautions(cases, COUNT(cases));
}
END_TEST

START_TEST(entry_tolerance_teeth_and_chamfers)
{
    static const caution_case cases[] = {
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED}, "entry", "Most small tools break on entry"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"width", "3mm"}},
         "entry",
         "Most small tools break on entry"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"width", "1mm"}}, "entry", NULL},
        {{MATERIAL, {"tool", "6mm"}, SPEED, FEED}, "entry", NULL},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"entry", "outside"}}, "entry", NULL},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"operation", "drill"}}, "entry", NULL},
        {{MATERIAL,
          {"tool", "3mm"},
          SPEED,
          {"feed_rate", "480mm/min"},
          {"entry", "plunge"},
          {"entry_feed", "480mm/min"}},
         "entry",
         "The plunge feed is high for the side feed of 480 mm/min"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"entry", "plunge"}}, "entry", NULL},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"tolerance", "2um"}, {"runout", "10um"}},
         "tolerance",
         "A tolerance of 2 um is less than the runout of 0.01 mm"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"tolerance", "20um"}, {"runout", "10um"}},
         "tolerance",
         NULL},
        {{MATERIAL,
          {"tool", "3mm"},
          SPEED,
          FEED,
          {"tolerance", "2um"},
          {"runout", "10um"},
          {"operation", "drill"}},
         "tolerance",
         NULL},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"flutes", "2"}, {"runout", "50um"}},
         "one_tooth",
         "With a runout of 0.05 mm and a feed of 20 um/tooth for each tooth"},
        {{MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"flutes", "1"}, {"runout", "50um"}},
         "one_tooth",
         NULL},
        {{MATERIAL,
          {"tool", "cm-6-90"},
          {"operation", "chamfer"},
          SPEED,
          FEED,
          {"depth", "1mm"},
          {"tip_below", "0.01mm"}},
         "small_end",
         "at its lower end: set the tip deeper below the chamfer"},
        {{MATERIAL,
          {"tool", "cm-6-90"},
          {"operation", "chamfer"},
          SPEED,
          FEED,
          {"depth", "0.5mm"},
          {"tip_below", "1.5mm"}},
         "small_end",
         NULL},
    };
    check_cautions(cases, COUNT(cases));
}
END_TEST

START_TEST(what_is_told_of_a_hole)
{
    static const caution_case cases[] = {
        {{MATERIAL, {"thread", "M3"}, {"spindle_speed", "600rpm"}},
         "synchronous",
         "The feed is 0.5 mm each turn at any speed."},
        {{MATERIAL, {"thread", "M3"}, {"spindle_speed", "600rpm"}},
         "tap-kind",
         "Through hole: a spiral point pushes the chips ahead"},
        {{MATERIAL, {"thread", "M3"}, {"spindle_speed", "600rpm"}, {"blind", "yes"}},
         "tap-kind",
         "Blind hole: spiral flutes lift the chips."},
        {{MATERIAL, {"thread", "M3"}, {"spindle_speed", "600rpm"}}, "tapping", ""},
        {{MATERIAL, {"tool", "6mm"}, {"operation", "ream"}, {"spindle_speed", "600rpm"}, FEED},
         "synchronous",
         NULL},
        {{MATERIAL, {"tool", "3mm"}, {"operation", "drill"}, SPEED, FEED}, "drilling", ""},
        {{MATERIAL, {"tool", "3mm"}, {"operation", "drill"}, SPEED, FEED},
         "drill-point",
         "A point of 118 deg digs in and breaks out"},
        {{MATERIAL, {"tool", "3mm"}, {"operation", "drill"}, SPEED, FEED, {"point_angle", "60deg"}},
         "drill-point",
         NULL},
        {{{"material", "6061-T6"}, {"tool", "3mm"}, {"operation", "drill"}, SPEED, FEED},
         "drill-point",
         NULL},
    };
    check_cautions(cases, COUNT(cases));
}
END_TEST

/* What conditions of cautions read of an answer, and what programs ask of it. */
START_TEST(numbers_and_words_of_an_answer)
{
    static const char *const pairs[REQUEST_PAIRS][2] = {
        MATERIAL, {"tool", "3mm"}, SPEED, FEED, {"tolerance", "20um"}};
    static const struct {
        const char *name;
        bite_kind kind;
        double value; /* NaN: none */
    } cases[] = {{"diameter", BITE_KIND_LENGTH, 3e-3},
                 {"chip_load", BITE_KIND_TOOTH_FEED, 20e-6},
                 {"deflection.capacity", BITE_KIND_LENGTH, 10e-6}, /* half of the tolerance */
                 {"deflection.chance", BITE_KIND_FRACTION, (double)NAN},
                 {"deflection.colour", BITE_KIND_FRACTION, (double)NAN},
                 {"deflection", BITE_KIND_COUNT, (double)NAN},
                 {"chip_load.demand", BITE_KIND_COUNT, (double)NAN},
                 {"side", BITE_KIND_COUNT, (double)NAN},
                 {"title", BITE_KIND_COUNT, (double)NAN},
                 {"no_such_number", BITE_KIND_COUNT, (double)NAN},
                 {"a_name_that_is_longer_than_any_name_of_the_registry_could_ever_be_in_a_"
                  "caution_or_anywhere_else",
                  BITE_KIND_COUNT, (double)NAN}};
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = answer_of_pairs(library, pairs, &error);
    ck_assert_msg(answer != NULL, "%s", error.message);
    double low;
    double high;
    bite_kind kind;
    for (size_t i = 0; i < COUNT(cases); i++) {
        double value = bite_answer_number(answer, cases[i].name, &kind, &low, &high);
        ck_assert_msg(isnan(cases[i].value) ? isnan(value)
                                            : fabs(value - cases[i].value) < 1e-9 * value,
                      "%s is %g", cases[i].name, value);
        ck_assert_msg(kind == cases[i].kind, "%s: kind %d", cases[i].name, (int)kind);
    }
    double utilization = bite_answer_number(answer, "deflection.utilization", &kind, &low, &high);
    double demand = bite_answer_number(answer, "deflection.demand", &kind, &low, &high);
    bite_assert_near(demand / 10e-6, utilization, 1e-9);
    ck_assert_str_eq(bite_answer_word(answer, "grade"), "cast");
    ck_assert_str_eq(bite_answer_word(answer, "family"), "acrylic");
    ck_assert_str_eq(bite_answer_word(answer, "machine"), "bench-24k"); /* the usual one */
    ck_assert_str_eq(bite_answer_word(answer, "side"), "climb");
    ck_assert_ptr_null(bite_answer_word(answer, "diameter"));
    ck_assert_ptr_null(bite_answer_word(answer, "colour"));
    ck_assert_str_eq(bite_answer_source(NULL, "depth"), "");
    ck_assert_str_eq(bite_answer_source(answer, NULL), "");
    ck_assert_str_eq(bite_answer_source(answer, "no_such_number"), "");
    ck_assert_str_ne(bite_answer_source(answer, "chip_load"), "");
    ck_assert_str_ne(bite_answer_source(answer, "deflection"), "");
    ck_assert_str_ne(bite_answer_source(answer, "tensile_strength"), "");
    ck_assert_str_eq(bite_answer_limit_source(answer, BITE_LIMIT_COUNT), "");
    ck_assert_str_eq(bite_answer_value_source(answer, BITE_VALUE_COUNT), "");
    ck_assert_str_eq(bite_answer_advice(NULL, BITE_LIMIT_POWER), "");
    ck_assert_str_eq(bite_answer_advice(answer, BITE_LIMIT_COUNT), "");
    bite_caution caution = {"kept", NULL, NULL, 0, 0};
    ck_assert_uint_eq(bite_answer_caution_count(NULL), 0);
    ck_assert_int_eq(bite_answer_caution(NULL, 0, &caution, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_answer_caution(answer, 0, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(
        bite_answer_caution(answer, bite_answer_caution_count(answer), &caution, &error),
        BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "an answer and the index of one of its cautions were expected");
    ck_assert_str_eq(caution.name, "kept");
    bite_answer_free(answer);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plausibility");
    TCase *tests = tcase_create("plausibility");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, a_feed_far_outside_names_its_slips);
    tcase_add_test(tests, speeds_depths_and_runouts_far_outside);
    tcase_add_test(tests, entry_tolerance_teeth_and_chamfers);
    tcase_add_test(tests, what_is_told_of_a_hole);
    tcase_add_test(tests, numbers_and_words_of_an_answer);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
