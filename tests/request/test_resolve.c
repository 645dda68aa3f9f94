/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a request is completed to: usual depths, entries and holes, the layers of a bond, and what
 * is left where a table of the shop is missing. */
#include "tests/library/private_library.h"
#include "tests/request/request_pairs.h"
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define COUNT(list) (sizeof list / sizeof *list)
#define ACRYLIC                                                                                    \
    {                                                                                              \
        "material", "acrylic/cast"                                                                 \
    }
#define ALUMINIUM                                                                                  \
    {                                                                                              \
        "material", "6061-T6"                                                                      \
    }
#define SPEED                                                                                      \
    {                                                                                              \
        "spindle_speed", "6000rpm"                                                                 \
    }

static bite_cut cut_of(const bite_library *of, const char *const (*pairs)[2])
{
    bite_cut cut;
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = request_of_pairs(of, pairs, &error);
    ck_assert_msg(request != NULL, "%s: %s", error.key, error.message);
    ck_assert_msg(bite_request_cut(request, &cut, &error) == BITE_OK, "%s: %s", error.key,
                  error.message);
    bite_request_free(request);
    return cut;
}

START_TEST(a_pass_is_as_deep_as_usual)
{
    static const struct {
        const char *pairs[REQUEST_PAIRS][2];
        double depth; /* mm */
    } cases[] = {
        {{ACRYLIC, {"tool", "3mm"}}, 1.5},
        {{ALUMINIUM, {"tool", "3mm"}}, 0.45},
        {{ACRYLIC, {"tool", "3mm"}, {"feature_depth", "1mm"}}, 1.0},
        {{ACRYLIC, {"tool", "3mm"}, {"operation", "drill"}, {"feature_depth", "9mm"}}, 3.0},
        {{ACRYLIC, {"tool", "cm-6-90"}, {"operation", "chamfer"}}, 0.6},
        {{ACRYLIC, {"tool", "cm-6-90"}, {"operation", "chamfer"}, {"feature_depth", "1mm"}}, 1.0},
        {{ACRYLIC, {"tool", "vg-60-01"}, {"feature_depth", "0.2mm"}}, 0.2},
        {{ACRYLIC, {"tool", "6mm"}, {"operation", "ream"}, {"feature_depth", "20mm"}}, 20.0},
        {{ACRYLIC, {"thread", "M3"}}, 3.0},
        {{ACRYLIC, {"thread", "M3"}, {"feature_depth", "5mm"}}, 5.0},
    };
    bite_library *of = open_private_library(NULL);
    for (size_t i = 0; i < COUNT(cases); i++) {
        bite_cut cut = cut_of(of, cases[i].pairs);
        ck_assert_msg(fabs(cut.depth - 1e-3 * cases[i].depth) < 1e-9, "case %zu: %g", i, cut.depth);
    }
    bite_library_close(of);
}
END_TEST

START_TEST(a_closed_feature_is_entered_down_a_slope)
{
    static const struct {
        const char *pairs[REQUEST_PAIRS][2];
        uint32_t entry;
    } cases[] = {
        {{ACRYLIC, {"tool", "3mm"}}, BITE_ENTRY_OUTSIDE},
        {{ACRYLIC, {"tool", "3mm"}, {"blind", "yes"}}, BITE_ENTRY_RAMP},
        {{ACRYLIC, {"tool", "3mm"}, {"blind", "yes"}, {"feature_width", "3.02mm"}},
         BITE_ENTRY_RAMP},
        {{ACRYLIC, {"tool", "3mm"}, {"blind", "yes"}, {"feature_width", "4mm"}}, BITE_ENTRY_HELIX},
        {{ACRYLIC, {"tool", "3mm"}, {"blind", "yes"}, {"feature_width", "7mm"}}, BITE_ENTRY_RAMP},
        {{ACRYLIC, {"tool", "3mm"}, {"blind", "yes"}, {"entry", "plunge"}}, BITE_ENTRY_PLUNGE},
        {{ACRYLIC, {"tool", "vg-60-01"}, {"blind", "yes"}}, BITE_ENTRY_OUTSIDE},
        {{ACRYLIC, {"thread", "M3"}, {"blind", "yes"}}, BITE_ENTRY_OUTSIDE},
    };
    bite_library *of = open_private_library(NULL);
    for (size_t i = 0; i < COUNT(cases); i++) {
        bite_cut cut = cut_of(of, cases[i].pairs);
        ck_assert_msg(cut.entry == cases[i].entry, "case %zu: %u", i, cut.entry);
    }
    bite_library_close(of);
}
END_TEST

START_TEST(speeds_follow_from_the_tool)
{
    static const char *const plain[REQUEST_PAIRS][2] = {ACRYLIC,
                                                        {"tool", "3mm"},
                                                        {"flutes", "2"},
                                                        {"spindle_speed", "45m/min"},
                                                        {"feed_rate", "0.02mm/tooth"}};
    static const char *const chamfer[REQUEST_PAIRS][2] = {
        ACRYLIC,          {"tool", "cm-6-90"},  {"operation", "chamfer"},
        {"depth", "1mm"}, {"tip_below", "1mm"}, {"spindle_speed", "45m/min"}};
    static const char *const tap[REQUEST_PAIRS][2] = {
        ALUMINIUM, {"thread", "M3"}, {"spindle_speed", "600rpm"}};
    bite_library *of = open_private_library(NULL);
    bite_cut cut = cut_of(of, plain);
    bite_assert_near(cut.spindle_speed, 0.75 / (M_PI * 3e-3), 1e-12);
    bite_assert_near(cut.feed_rate, 0.02e-3 * 2.0 * cut.spindle_speed, 1e-12);
    cut = cut_of(of, chamfer); /* 0.4 mm at the tip, 2 mm up a cone of 45 degrees: 4.4 mm */
    bite_assert_near(cut.spindle_speed, 0.75 / (M_PI * (cut.tip_diameter + 4e-3)), 1e-9);
    cut = cut_of(of, tap);
    bite_assert_near(cut.feed_rate, 0.5e-3 * 10.0, 1e-12);
    ck_assert_uint_eq(cut.operation, BITE_TAP);
    ck_assert_uint_eq(cut.tool_material, BITE_TOOL_HSS);
    bite_assert_near(cut.hole_diameter, 2.5e-3, 1e-12); /* the drill of every chart */
    bite_library_close(of);
}
END_TEST

/* A carbide tap runs at twice the speed of one of high-speed steel; a thread without a drill of
 * its size has the computed hole. */
START_TEST(taps_of_other_materials_and_sizes)
{
    static const char *const steel[REQUEST_PAIRS][2] = {ALUMINIUM, {"thread", "M3"}, SPEED};
    static const char *const carbide[REQUEST_PAIRS][2] = {
        ALUMINIUM, {"thread", "M3"}, SPEED, {"tool_material", "carbide"}};
    static const char *const odd[REQUEST_PAIRS][2] = {
        ALUMINIUM, {"tool", "40mm"}, {"operation", "tap"}, {"pitch", "4mm"}, SPEED};
    static const char *const stated[REQUEST_PAIRS][2] = {
        ALUMINIUM, {"thread", "M3"}, SPEED, {"hole_diameter", "2.6mm"}};
    bite_library *of = open_private_library(NULL);
    bite_assert_near(cut_of(of, carbide).tool_speed_limit, 2.0 * cut_of(of, steel).tool_speed_limit,
                     1e-12);
    bite_cut cut = cut_of(of, odd);
    ck_assert_double_gt(cut.hole_diameter, 35e-3);
    ck_assert_double_lt(cut.hole_diameter, 38e-3);
    bite_assert_near(cut_of(of, stated).hole_diameter, 2.6e-3, 1e-12);
    bite_library_close(of);
}
END_TEST

static const char holds[] =
    "[format]\nkind = holds\nversion = 1\n"
    "[layer.paper]\nsource = memory\nbond_shear = 0.1 MPa\nbond_pull = 0.5 MPa\n"
    "bond_modulus = 1 MPa\nthickness = 0.1 mm\nbond_limit = 60 degC\nbond_exponent = 0.2\n"
    "[layer.glue]\nsource = memory\nbond_shear = 0.4 MPa\nbond_pull = 0.3 MPa\n"
    "bond_modulus = 4 MPa\nthickness = 0.2 mm\nbond_limit = 80 degC\nbond_exponent = 0.1\n"
    "[layer.hard]\nsource = memory\nbond_shear = 2 MPa\nthickness = 0.1 mm\n"
    "[layer.bare]\nsource = memory\nbond_pull = 0.2 MPa\n"
    "[hold.both]\nsource = memory\nlayers = paper  glue\n"
    "[hold.stiff]\nsource = memory\nlayers = hard paper\n"
    "[hold.pulls]\nsource = memory\nlayers = bare\n"
    "[hold.own]\nsource = memory\nlayers = paper\nbond_shear = 0.7 MPa\n"
    "[hold.lost]\nsource = memory\nlayers = paper foil\n";

/* The weakest layer counts, in shear, tension and heat each on its own; it is as thick as it would
 * be if it gave as much as all of them: 0.1 mm at 1 MPa and 0.2 mm at 4 MPa give as 0.15 mm. */
START_TEST(a_bond_is_as_strong_as_its_weakest_layer)
{
    static const struct {
        const char *hold;
        double shear; /* MPa; NaN: not stated */
        double pull;
        double thickness; /* mm */
        double exponent;
    } cases[] = {{"both", 0.1, 0.3, 0.15, 0.2},
                 {"stiff", 0.1, 0.5, (double)NAN, 0.2},
                 {"pulls", (double)NAN, 0.2, (double)NAN, (double)NAN},
                 {"own", 0.7, 0.5, 0.1, 0.2}};
    write_table("workholding.ini", holds);
    bite_library *of = open_private_library(NULL);
    for (size_t i = 0; i < COUNT(cases); i++) {
        const char *pairs[REQUEST_PAIRS][2] = {
            ACRYLIC, {"tool", "3mm"}, SPEED, {"hold", cases[i].hold}};
        bite_cut cut = cut_of(of, (const char *const(*)[2])pairs);
        const double got[] = {cut.bond_shear * 1e-6, cut.bond_pull * 1e-6, cut.bond_thickness * 1e3,
                              cut.bond_exponent};
        const double want[] = {cases[i].shear, cases[i].pull, cases[i].thickness,
                               cases[i].exponent};
        for (size_t k = 0; k < COUNT(got); k++) {
            ck_assert_msg(isnan(want[k]) ? isnan(got[k]) : fabs(got[k] - want[k]) < 1e-9 * want[k],
                          "%s, figure %zu: %g", cases[i].hold, k, got[k]);
        }
    }
    const char *pairs[REQUEST_PAIRS][2] = {ACRYLIC, {"tool", "3mm"}, SPEED, {"hold", "lost"}};
    bite_error error = BITE_ERROR_INIT;
    bite_cut cut;
    bite_request *request = request_of_pairs(of, (const char *const(*)[2])pairs, &error);
    ck_assert_ptr_nonnull(request);
    ck_assert_int_eq(bite_request_cut(request, &cut, &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.message, "there is no layer named foil");
    bite_request_free(request);
    bite_library_close(of);
}
END_TEST

/* A shop that keeps tables of its own without some of the files still gets an answer: what they
 * would have stated is that of the physics. */
START_TEST(missing_tables_leave_the_defaults)
{
    static const char *const mill[REQUEST_PAIRS][2] = {
        ACRYLIC, {"tool", "3mm"}, SPEED, {"feed_rate", "200mm/min"}};
    static const char *const ream[REQUEST_PAIRS][2] = {ALUMINIUM,
                                                       {"tool", "6mm"},
                                                       {"operation", "ream"},
                                                       {"spindle_speed", "600rpm"},
                                                       {"feed_rate", "100mm/min"}};
    static const char *const files[] = {"machines.ini", "coolants.ini", "hole_work.ini",
                                        "tools.ini",    "drills.ini",   "uncertainty.ini"};
    bite_library *of = open_private_library(NULL);
    double slow = cut_of(of, ream).tool_speed_limit;
    ck_assert_double_lt(cut_of(of, mill).spindle_fastest, 1e6 / 60.0);
    bite_library_close(of);
    for (size_t i = 0; i < COUNT(files); i++) {
        char path[700];
        (void)snprintf(path, sizeof path, "%s/%s", tables, files[i]);
        ck_assert_int_eq(unlink(path), 0);
    }
    of = open_private_library(NULL);
    bite_cut cut = cut_of(of, mill);
    ck_assert(isnan(cut.spindle_fastest) && isnan(cut.power_limit));
    ck_assert_uint_eq(cut.coolant, BITE_COOLANT_NONE);
    ck_assert_double_gt(cut.cooling, 0.0); /* from the word */
    ck_assert_double_gt(cut.tool_modulus, 1e11);
    ck_assert_double_ne(cut_of(of, ream).tool_speed_limit, slow); /* that of the grade */
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = answer_of_pairs(of, mill, &error);
    ck_assert_msg(answer != NULL, "%s: %s", error.key, error.message);
    ck_assert_uint_eq(bite_answer_result(answer)->limits[BITE_LIMIT_POWER].applies, 0);
    bite_answer_free(answer);
    answer = answer_of_pairs(of, ream, &error);
    ck_assert_msg(answer != NULL, "%s: %s", error.key, error.message);
    ck_assert_ptr_null(caution_named(answer, "reaming"));
    bite_answer_free(answer);
    bite_library_close(of);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("resolve");
    TCase *tests = tcase_create("resolve");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, a_pass_is_as_deep_as_usual);
    tcase_add_test(tests, a_closed_feature_is_entered_down_a_slope);
    tcase_add_test(tests, speeds_follow_from_the_tool);
    tcase_add_test(tests, taps_of_other_materials_and_sizes);
    tcase_add_test(tests, a_bond_is_as_strong_as_its_weakest_layer);
    tcase_add_test(tests, missing_tables_leave_the_defaults);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
