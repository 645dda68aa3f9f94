/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every fluid on every material in words: what is said follows from its ratings, and nothing else
 * is said. */
#include "core/library/item.h"
#include "core/library/material.h"
#include "tests/report/report_output.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static report_output output;

static const char *const shown[] = {"safe", "RISK", "NO", "unknown"};

/* A line begins with its name, which stands at the left after two blanks. */
static int says(const char *name)
{
    char line[80];
    (void)snprintf(line, sizeof line, "\n  %s  ", name);
    return strstr(output.text, line) != NULL;
}

static void expect(const bite_compatibility *pair, const char *name, int wanted)
{
    ck_assert_msg(says(name) == (wanted != 0), "%s on %s: \"%s\" is %s: %.1500s", pair->fluid,
                  pair->material, name, wanted ? "missing" : "said", output.text);
}

static const char *annealing(const bite_compatibility *pair)
{
    return pair->annealed == pair->machined ? "annealing changes nothing"
           : pair->annealed == BITE_RATED_SAFE
               ? "annealing makes it safe, if the part then carries "
                 "no load and no thread or press fit"
               : "annealing lowers the danger, but does not make "
                 "it safe";
}

static void check_pair(const bite_compatibility *pair, uint32_t substance)
{
    char head[200];
    int glassy = substance == BITE_AMORPHOUS;
    int plastic = glassy || substance == BITE_CRYSTALLINE;
    int known = pair->machined != BITE_RATED_UNKNOWN && pair->annealed != BITE_RATED_UNKNOWN;
    int open = pair->machined == BITE_RATED_RISK || pair->machined == BITE_RATED_UNKNOWN;
    (void)snprintf(head, sizeof head, "%s: %s on %s", shown[pair->machined], pair->title,
                   pair->material);
    ck_assert_msg(strncmp(output.text, head, strlen(head)) == 0, "%.100s", output.text);
    expect(pair, "as machined", glassy);
    expect(pair, "rating", !glassy);
    int states = glassy || pair->annealed != pair->machined;
    expect(pair, "annealed since", states);
    expect(pair, "annealing", states && known);
    if (states && known) {
        report_output_has(&output, annealing(pair));
    }
    expect(pair, "unstressed sheet", glassy || pair->sheet != BITE_RATED_UNKNOWN);
    expect(pair, "another source says", pair->other != BITE_RATED_UNKNOWN);
    expect(pair, "another table says", 0);
    expect(pair, "watch for", !isnan(pair->watch));
    expect(pair, "look for", isnan(pair->watch) && pair->signs[0] != 0);
    expect(pair, "try first", plastic && open);
    expect(pair, "hazard to people", pair->machined != BITE_RATED_NO && pair->hazard[0] != 0);
    if (pair->machined == BITE_RATED_SAFE) {
        expect(pair, "safe instead", 0);
    }
    if (pair->machined == BITE_RATED_UNKNOWN && pair->reason[0] == 0) {
        report_output_has(&output, glassy ? "as machined not stated" : "rating not stated");
    }
}

/* Each fluid on the first grades of all families: a metal, a board, a wax, plastics of both kinds.
 */
START_TEST(every_pair_says_what_is_rated)
{
    size_t families = bite_library_count(library, BITE_FAMILIES);
    size_t fluids = bite_library_count(library, BITE_FLUIDS);
    size_t ratings[4] = {0, 0, 0, 0};
    bite_style style = report_style(BITE_TEXT, BITE_METRIC);
    ck_assert_uint_gt(families, 30);
    for (size_t i = 0; i < families; i++) {
        bite_item family;
        const bite_material *grade = NULL;
        ck_assert_int_eq(bite_library_item(library, BITE_FAMILIES, i, &family, NULL), BITE_OK);
        ck_assert_int_eq(bite_library_grade(library, family.name, &grade, NULL), BITE_OK);
        uint32_t substance = bite_item_word(&grade->record, "substance", BITE_METAL);
        for (size_t k = 0; k < fluids; k++) {
            bite_item fluid;
            bite_compatibility pair = {.struct_size = (uint32_t)sizeof pair};
            ck_assert_int_eq(bite_library_item(library, BITE_FLUIDS, k, &fluid, NULL), BITE_OK);
            ck_assert_int_eq(bite_compatibility_find(library, fluid.name, family.name, &pair, NULL),
                             BITE_OK);
            report_output_free(&output);
            ck_assert_int_eq(bite_compatibility_write(library, fluid.name, family.name, &style,
                                                      report_output_add, &output, NULL),
                             BITE_OK);
            check_pair(&pair, substance);
            ratings[pair.machined]++;
        }
    }
    for (size_t i = 0; i < 4; i++) {
        ck_assert_msg(i == BITE_RATED_UNKNOWN || ratings[i] > 0, "no pair is rated %s", shown[i]);
    }
    report_output_free(&output);
}
END_TEST

/* The list of a material has the refused fluids first, in text as in CSV. */
START_TEST(lists_of_materials)
{
    static const struct {
        const char *material;
        const char *head;
    } cases[] = {
        {"acrylic/cast", "Fluids on acrylic/cast, as machined and not annealed since: NO "},
        {"6061", "Fluids on aluminium/6061-t6: NO "}};
    for (size_t i = 0; i < 2; i++) {
        bite_style style = report_style(BITE_TEXT, BITE_METRIC);
        size_t lines = 0;
        report_output_free(&output);
        ck_assert_int_eq(bite_compatibility_list_write(library, cases[i].material, &style,
                                                       report_output_add, &output, NULL),
                         BITE_OK);
        report_output_has(&output, cases[i].head);
        const char *safe = strstr(output.text, "\nsafe");
        const char *no = strstr(output.text, "\nNO");
        ck_assert(no != NULL && safe != NULL && no < safe);
        ck_assert_ptr_null(strstr(safe, "\nNO"));
        style.format = BITE_CSV;
        report_output_free(&output);
        ck_assert_int_eq(bite_compatibility_list_write(library, cases[i].material, &style,
                                                       report_output_add, &output, NULL),
                         BITE_OK);
        for (const char *at = output.text; (at = strstr(at, "\r\n")) != NULL; at += 2) {
            lines++;
        }
        ck_assert_uint_eq(lines, bite_library_count(library, BITE_FLUIDS) + 1);
        ck_assert_ptr_nonnull(strstr(output.text, ",safe,safe,"));
    }
    ck_assert_int_eq(bite_compatibility_list_write(library, "6061", NULL, NULL, NULL, NULL),
                     BITE_BAD_ARGUMENT);
    report_output_free(&output);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("compatibility_text");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, every_pair_says_what_is_rated);
    tcase_add_test(tests, lists_of_materials);
    Suite *suite = suite_create("compatibility_text");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
