/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inputs, tools and operations that cannot be true together: what is refused, at which input, and
 * why; and what is accepted beside it. */
#include "tests/request/request_pairs.h"
#include <string.h>

#define PAIRS (REQUEST_PAIRS - 2)
#define COUNT(list) (sizeof list / sizeof *list)

/* Judges acrylic at 12000 rpm with these pairs of names and values, ended by NULL. */
static bite_status judge(const char *const (*pairs)[2], bite_error *error)
{
    const char *all[REQUEST_PAIRS][2] = {{"material", "acrylic/cast"},
                                         {"spindle_speed", "12000rpm"}};
    for (size_t i = 0; i + 2 < REQUEST_PAIRS && i < PAIRS && pairs[i][0] != NULL; i++) {
        all[i + 2][0] = pairs[i][0];
        all[i + 2][1] = pairs[i][1];
    }
    bite_answer *answer = answer_of_pairs(library, (const char *const(*)[2])all, error);
    bite_status status = answer == NULL ? (bite_status)error->status : BITE_OK;
    bite_answer_free(answer);
    return status;
}

#define MILL                                                                                       \
    {"tool", "em-3-2"},                                                                            \
    {                                                                                              \
        "feed_rate", "300mm/min"                                                                   \
    }

START_TEST(what_has_no_effect_is_refused)
{
    static const struct {
        const char *pairs[PAIRS][2];
        const char *key;
        const char *message;
        const char *hint;
    } cases[] = {
        {{MILL, {"wall_length", "20mm"}},
         "wall_length",
         "wall_length has no effect without wall_thickness",
         "(--wall)"},
        {{MILL, {"floor_length", "20mm"}},
         "floor_length",
         "floor_length has no effect without floor_span",
         "shorter span"},
        {{MILL, {"bridge_thickness", "2mm"}},
         "bridge_thickness",
         "bridge_thickness has no effect without bridge_span",
         "span of the bridge"},
        {{MILL, {"spring_passes", "1"}},
         "spring_passes",
         "spring_passes has no effect without width",
         "width of the side cut"},
        {{MILL, {"entry_feed", "50mm/min"}},
         "entry_feed",
         "entry_feed has no effect when the tool enters from outside the part",
         "plunge, ramp or helix"},
        {{MILL, {"ramp_angle", "3deg"}},
         "ramp_angle",
         "ramp_angle has no effect when the tool enters from outside the part",
         "plunge, ramp or helix"},
        {{MILL, {"tip_diameter", "0.2mm"}},
         "tip_diameter",
         "tip_diameter has no effect without taper",
         "taper of the cone"},
        {{MILL, {"pitch", "0.5mm"}}, "pitch", "pitch has no effect in operation mill", "tap"},
        {{{"tool", "3mm"}, {"feed_rate", "100mm/min"}, {"operation", "drill"}, {"width", "1mm"}},
         "width",
         "width has no effect in operation drill",
         "use operation mill"},
        {{{"thread", "M3"}, {"side", "climb"}},
         "side",
         "side has no effect in operation tap",
         "a hole has no side"},
        {{{"tool", "6mm"}, {"feed_rate", "100mm/min"}, {"operation", "ream"}, {"blind", "yes"}},
         "blind",
         "blind has no effect in operation ream",
         "always closed to its chips"},
        {{MILL, {"thread", "M3"}, {"operation", "mill"}},
         "thread",
         "the thread M3 has no effect in operation mill",
         "use operation tap"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_status status = judge(cases[i].pairs, &error);
        ck_assert_msg(status == BITE_OUT_OF_RANGE, "%s: %s: %s", cases[i].message,
                      bite_status_name(status), error.message);
        ck_assert_str_eq(error.key, cases[i].key);
        ck_assert_str_eq(error.message, cases[i].message);
        ck_assert_msg(strstr(error.hint, cases[i].hint) != NULL, "%s: %s", cases[i].message,
                      error.hint);
    }
}
END_TEST

START_TEST(sizes_that_contradict_each_other_are_refused)
{
    static const struct {
        const char *pairs[PAIRS][2];
        const char *key; /* "": accepted */
        const char *message;
    } cases[] = {
        {{MILL, {"depth", "2mm"}, {"feature_depth", "1.9mm"}},
         "depth",
         "depth of 2 mm is more than feature_depth of 1.9 mm"},
        {{MILL, {"depth", "2.005mm"}, {"feature_depth", "2mm"}}, "", ""}, /* rounded up */
        {{MILL, {"width", "2mm"}, {"feature_width", "1mm"}},
         "width",
         "width of 2 mm is more than feature_width of 1 mm"},
        {{MILL, {"spindle_slowest", "20000rpm"}, {"spindle_fastest", "12000rpm"}},
         "spindle_slowest",
         "spindle_slowest of 20000 rpm is more than spindle_fastest of 12000 rpm"},
        {{{"tool", "cm-6-90"},
          {"operation", "chamfer"},
          {"feed_rate", "300mm/min"},
          {"depth", "1mm"},
          {"feature_depth", "2mm"}},
         "feature_depth",
         "feature_depth of 2 mm differs from depth of 1 mm, but a chamfer is cut in one pass"},
        {{{"tool", "vg-60-01"},
          {"feed_rate", "300mm/min"},
          {"depth", "0.1mm"},
          {"feature_depth", "0.2mm"}},
         "feature_depth",
         "feature_depth of 0.2 mm differs from depth of 0.1 mm, but a groove milled with a cone is "
         "cut in one pass"},
        {{{"thread", "M3"}, {"depth", "4mm"}, {"feature_depth", "6mm"}},
         "feature_depth",
         "feature_depth of 6 mm differs from depth of 4 mm, but a tapped hole is cut in one pass"},
        {{{"tool", "6mm"},
          {"operation", "ream"},
          {"feed_rate", "100mm/min"},
          {"depth", "4mm"},
          {"feature_depth", "6mm"}},
         "feature_depth",
         "feature_depth of 6 mm differs from depth of 4 mm, but a reamed hole is cut in one pass"},
        {{{"thread", "M3"}, {"hole_diameter", "3.2mm"}},
         "hole_diameter",
         "hole_diameter of 3.2 mm is more than diameter of 3 mm"},
        {{MILL, {"depth", "2mm"}, {"floor_thickness", "2mm"}, {"stock_thickness", "3mm"}},
         "depth",
         "depth of 2 mm, with the floor_thickness under it, is more than stock_thickness of 3 mm"},
        {{MILL, {"depth", "2mm"}, {"floor_thickness", "1mm"}, {"stock_thickness", "3mm"}}, "", ""},
        {{MILL, {"feature_depth", "5mm"}, {"depth", "1mm"}, {"part_thickness", "3mm"}},
         "feature_depth",
         "feature_depth of 5 mm is more than part_thickness of 3 mm"},
        {{MILL, {"feature_depth", "3.9mm"}, {"depth", "1mm"}, {"part_thickness", "3mm"}}, "", ""},
        {{MILL,
          {"feature_depth", "4.2mm"},
          {"depth", "1mm"},
          {"stock_thickness", "3mm"},
          {"stock_tolerance", "0.3mm"}},
         "",
         ""}, /* delivered thicker, and 1 mm into what lies under it */
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_status status = judge(cases[i].pairs, &error);
        ck_assert_msg(status == (cases[i].key[0] == 0 ? BITE_OK : BITE_OUT_OF_RANGE),
                      "case %zu: %s: %s", i, bite_status_name(status), error.message);
        ck_assert_str_eq(error.key, cases[i].key);
        ck_assert_str_eq(error.message, cases[i].message);
        ck_assert_uint_eq(error.hint[0] != 0, cases[i].key[0] != 0);
    }
}
END_TEST

START_TEST(a_tap_advances_by_its_pitch)
{
    static const struct {
        const char *feed;
        const char *says; /* "": accepted */
    } cases[] = {{"0.05mm/tooth", "it has no feed per tooth"},
                 {"300mm/min", "would strip the thread or break the tap"},
                 {"600mm/min", "the feed is 2 times the pitch each turn"},
                 {"305mm/min", ""},
                 {"295mm/min", ""}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        /* M3 x 0.5 at 600 rpm: 300 mm/min */
        const char *pairs[PAIRS][2] = {
            {"thread", "M3"},
            {"spindle_speed", strstr(cases[i].says, "strip") ? "900rpm" : "600rpm"},
            {"depth", "5mm"},
            {"feed_rate", cases[i].feed}};
        bite_error error = BITE_ERROR_INIT;
        bite_status status = judge((const char *const(*)[2])pairs, &error);
        ck_assert_msg(status == (cases[i].says[0] == 0 ? BITE_OK : BITE_OUT_OF_RANGE), "%s: %s",
                      cases[i].feed, error.message);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL, "%s: %s", cases[i].feed,
                      error.message);
        if (cases[i].says[0] != 0) {
            ck_assert_str_eq(error.key, "feed_rate");
            ck_assert_str_eq(error.hint, "leave the feed out: it follows from the thread");
        }
    }
}
END_TEST

START_TEST(a_tool_does_what_it_is_made_for)
{
    static const struct {
        const char *pairs[PAIRS][2];
        bite_status status;
        const char *key;
        const char *message;
        const char *hint;
    } cases[] = {
        {{{"tool", "drill-3.3"}, {"operation", "mill"}, {"feed_rate", "100mm/min"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "drill-3.3 is made to drill; it does not mill",
         "use operation drill, or another tool"},
        {{{"tool", "drill-3.3"}, {"thread", "M4"}, {"operation", "tap"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "drill-3.3 is made to drill; it does not tap",
         "use operation drill, or another tool"},
        {{{"tool", "3mm"}, {"operation", "tap"}},
         BITE_MISSING,
         "thread",
         "no thread was named, and no pitch was given",
         "for example M3 or 1/4-20; list threads shows all of them"},
        {{{"tool", "em-3-2"}, {"thread", "M3"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "em-3-2 is an end mill; it does not tap",
         "leave the tool out: the tap is that of the thread"},
        {{{"tool", "em-3-2"}, {"operation", "ream"}, {"feed_rate", "100mm/min"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "em-3-2 is an end mill; it does not ream",
         "name the reamer by its diameter, for example 6mm"},
        {{{"tool", "4mm"}, {"thread", "M3"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "the tool is not a tap of the thread M3",
         "leave the tool out: the tap is that of the thread"},
        {{{"tool", "cm-6-90"}, {"feed_rate", "300mm/min"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "cm-6-90 is a chamfer mill, which cuts chamfers only",
         "use operation chamfer or another tool"},
        {{{"tool", "vg-60-01"}, {"operation", "drill"}, {"feed_rate", "300mm/min"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "vg-60-01 engraves; it does not drill",
         "use operation mill or chamfer, or another tool"},
        {{{"tool", "tm-2.1"}, {"feed_rate", "300mm/min"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "tm-2.1 is a thread mill, which cuts threads only",
         "ask coolbite show THREAD --material acrylic/cast --tool tm-2.1, or name it in a job, in "
         "a pass with work = thread-mill"},
        {{{"tool", "tm-2.1"}, {"thread", "#6-32"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "tm-2.1 is a thread mill, which cuts threads only",
         "ask coolbite show no6-32 --material acrylic/cast --tool tm-2.1,"},
        {{{"tool", "tm-2.1"}, {"thread", "m3x0.5"}},
         BITE_OUT_OF_RANGE,
         "tool",
         "tm-2.1 is a thread mill, which cuts threads only",
         "ask coolbite show M3 --material acrylic/cast"},
        {{{"tool", "3mm"}, {"thread", "M3"}}, BITE_OK, "", "", ""},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_status status = judge(cases[i].pairs, &error);
        ck_assert_msg(status == cases[i].status, "case %zu: %s: %s", i, bite_status_name(status),
                      error.message);
        ck_assert_str_eq(error.key, cases[i].key);
        ck_assert_str_eq(error.message, cases[i].message);
        ck_assert_msg(strstr(error.hint, cases[i].hint) != NULL, "case %zu: %s", i, error.hint);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("request_refusals");
    TCase *tests = tcase_create("request_refusals");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, what_has_no_effect_is_refused);
    tcase_add_test(tests, sizes_that_contradict_each_other_are_refused);
    tcase_add_test(tests, a_tap_advances_by_its_pitch);
    tcase_add_test(tests, a_tool_does_what_it_is_made_for);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
