/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cut that cannot be judged is not clear: the verdict is unknown, and the missing figures are
 * named. */
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

static void ck_counts(const bite_result *result)
{
    uint32_t places = 0; /* for limits of a plugin that the family does not have */
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        places += result->limits[i].why == BITE_WHY_NO_LIMIT;
    }
    ck_assert_uint_le(places, BITE_LIMIT_OWN_4 - BITE_LIMIT_OWN_1 + 1);
    ck_assert_uint_eq(result->judged + result->not_applicable + result->not_judged + places,
                      BITE_LIMIT_COUNT);
}

static int is_missing(const bite_cut *cut, const char *figure)
{
    for (size_t i = 0; bite_cut_missing_figure(cut, i) != NULL; i++) {
        if (strcmp(bite_cut_missing_figure(cut, i), figure) == 0) {
            return 1;
        }
    }
    return 0;
}

/* A figure that a limit of the substance needs is missing: unknown, unless another limit is over.
 */
START_TEST(missing_figures_make_a_verdict_unknown)
{
    bite_cut cut = bite_test_acrylic();
    bite_result result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.not_judged, 0);
    ck_assert_ptr_null(bite_cut_missing_figure(&cut, 0));
    ck_counts(&result);
    cut.transition = (double)NAN;
    result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.verdict, BITE_UNKNOWN);
    ck_assert_uint_eq(result.not_judged, 2); /* softening and chip_weld */
    ck_assert_str_eq(bite_cut_missing_figure(&cut, 0), "transition");
    ck_assert_ptr_null(bite_cut_missing_figure(&cut, 1));
    ck_counts(&result);
    cut.packing_limit = cut.yield = (double)NAN;
    result = bite_test_pass(&cut);
    ck_assert(is_missing(&cut, "yield") && is_missing(&cut, "packing_limit") &&
              is_missing(&cut, "transition"));
    ck_assert_uint_eq(result.not_judged, 5); /* tool_break, feed_tooth and chip_packing as well */
    ck_counts(&result);
    cut.spindle_fastest = 0.5 * cut.spindle_speed;
    result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.verdict, BITE_OVER);
    ck_counts(&result);
    ck_assert_ptr_null(bite_cut_missing_figure(NULL, 0));
}
END_TEST

/* A metal has no transition and needs none. */
START_TEST(metals_need_no_transition)
{
    bite_cut cut = bite_test_acrylic();
    cut.substance = BITE_METAL;
    cut.transition = cut.welding = cut.softening = (double)NAN;
    bite_result result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.not_judged, 0);
    ck_counts(&result);
    cut.pressure = BITE_PRESSURE_NONE;
    result = bite_test_pass(&cut);
    ck_assert_uint_eq(result.verdict, BITE_UNKNOWN);
    ck_assert_str_eq(bite_cut_missing_figure(&cut, 0), "pressure");
    ck_counts(&result);
}
END_TEST

/* ---- a material of three figures, and the shipped ones ---- */

static const char three_figures[] =
    "[format]\nkind = material\nversion = 1\n\n"
    "[family]\nname = chalk\ntitle = Chalk\nsummary = made up\ndefault = plain\n\n"
    "[grade.plain]\ntitle = plain\nsummary = made up for this test\nsubstance = amorphous\n"
    "density = 1100 kg/m3\ndensity.source = estimate: made up\n"
    "heat_capacity = 1400 J/kg/K\nheat_capacity.source = estimate: made up\n"
    "conductivity = 0.2 W/m/K\nconductivity.source = estimate: made up\n";

static bite_answer *answer_for(const char *grade)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, &error), BITE_OK);
    ck_assert_msg(bite_request_use(request, BITE_GRADES, grade, &error) == BITE_OK, "%s: %s", grade,
                  error.message);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", &error), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "12000rpm", &error), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "400mm/min", &error), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "0.3mm", &error), BITE_OK);
    ck_assert_msg(bite_answer_new(request, BITE_DRAWS_NONE, 0.9, &answer, &error) == BITE_OK,
                  "%s: %s", grade, error.message);
    bite_request_free(request);
    return answer;
}

START_TEST(three_figures_are_not_enough)
{
    char path[700];
    char command[3000];
    char program[1200];
    bite_test_shop_make(&shop);
    (void)snprintf(path, sizeof path, "%s/materials/chalk.ini", shop.tables);
    bite_test_write(path, three_figures, sizeof three_figures - 1);
    library = bite_test_shop_open(&shop, NULL);
    bite_answer *answer = answer_for("chalk/plain");
    const bite_result *result = bite_answer_result(answer);
    ck_assert_uint_eq(result->verdict, BITE_UNKNOWN);
    ck_assert_uint_eq(result->not_judged, 5);
    ck_counts(result);
    bite_answer_free(answer);
    /* the command says which figures are missing, and exits with 3 */
    bite_test_build(program, sizeof program, "coolbite");
    (void)snprintf(command, sizeof command,
                   "COOLBITE_TABLE_PATH='%s' COOLBITE_FAMILY_PATH='%s' '%s' cut --material chalk "
                   "--tool 3mm --spindle 12000rpm --feed 400mm/min --depth 0.3mm >'%s/out'",
                   shop.tables, shop.families, program, shop.root);
    int status = system(command);
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), 3);
    (void)snprintf(path, sizeof path, "%s/out", shop.root);
    FILE *out = fopen(path, "r");
    ck_assert_ptr_nonnull(out);
    char text[20000];
    text[fread(text, 1, sizeof text - 1, out)] = 0;
    (void)fclose(out);
    ck_assert_msg(strstr(text, "pressure") != NULL && strstr(text, "packing_limit") != NULL &&
                      strstr(text, "transition") != NULL,
                  "the missing figures are not named: %s", text);
    close_library();
}
END_TEST

/* Every grade that is shipped can be judged. */
START_TEST(shipped_grades_lack_no_figure)
{
    open_library();
    bite_error error = BITE_ERROR_INIT;
    int seen = 0;
    for (size_t i = 0; i < bite_library_count(library, BITE_GRADES); i++) {
        bite_item item;
        ck_assert_int_eq(bite_library_item(library, BITE_GRADES, i, &item, &error), BITE_OK);
        bite_answer *answer = answer_for(item.name);
        const bite_result *result = bite_answer_result(answer);
        ck_assert_msg(result->not_judged == 0, "%s lacks figures", item.name);
        ck_counts(result);
        bite_answer_free(answer);
        seen++;
    }
    ck_assert_int_gt(seen, 30);
    close_library();
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("unknown verdict");
    TCase *unknown = tcase_create("unknown verdict");
    tcase_add_test(unknown, missing_figures_make_a_verdict_unknown);
    tcase_add_test(unknown, metals_need_no_transition);
    tcase_add_test(unknown, three_figures_are_not_enough);
    tcase_add_test(unknown, shipped_grades_lack_no_figure);
    tcase_set_timeout(unknown, 120);
    suite_add_tcase(suite, unknown);
    return bite_test_run(suite);
}
