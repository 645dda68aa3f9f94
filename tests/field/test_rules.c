/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Public reports without numbers, against the rules for fluids, warp and workholding that they
 * concern. */
#include "core/job/fluid_compatibility.h"
#include "core/library/collection.h"
#include "core/library/material.h"
#include "core/physics/elastic/warp.h"
#include "tests/reference/csv.h"
#include "tests/support/open_library.h"
#include <string.h>

static bite_csv table;

static void setup(void)
{
    char path[4096];
    open_library();
    bite_test_source(path, sizeof path, "tests/field/rules.csv");
    table = bite_csv_read(path);
}

static void teardown(void)
{
    bite_csv_free(&table);
    close_library();
}

/* The effect of a fluid on a machined, unannealed part. */
static void hold_fluid(const char *id, const char *material, const char *thing,
                       const char *expected)
{
    const bite_material *entry = NULL;
    const bite_item_record *fluid = NULL;
    bite_fluid_rating result;
    ck_assert_int_eq(bite_library_grade(library, material, &entry, NULL), BITE_OK);
    ck_assert_int_eq(bite_fluid_find(library, thing, &fluid, NULL), BITE_OK);
    ck_assert_int_eq(bite_fluid_rate(library, fluid, entry, 0, &result, NULL), BITE_OK);
    ck_assert_msg(strcmp(bite_rating_name(result.rating), expected) == 0, "%s: %s on %s is %s", id,
                  thing, material, bite_rating_name(result.rating));
}

/* The part is hollow on the face from which more was removed, by the material's own figures, and
 * flat if as much was removed from both. */
static void hold_warp(const char *id, const char *material)
{
    const bite_material *entry = NULL;
    ck_assert_int_eq(bite_library_grade(library, material, &entry, NULL), BITE_OK);
    double modulus = bite_item_field(&entry->record, "modulus")->value;
    double poisson = bite_item_field(&entry->record, "poisson")->value;
    double stress = bite_item_field(&entry->record, "skin_stress")->value;
    ck_assert_msg(bite_warp_layers(modulus, poisson, stress, 3e-3, 1e-3, 0.2e-3) > 0.0,
                  "%s: the top is hollow", id);
    ck_assert_msg(bite_warp_layers(modulus, poisson, stress, 3e-3, 0.2e-3, 1e-3) < 0.0,
                  "%s: the bottom is hollow", id);
    ck_assert_double_eq(bite_warp_layers(modulus, poisson, stress, 3e-3, 0.5e-3, 0.5e-3), 0.0);
}

/* An ordinary slot in a part of such a small area: the vacuum limit is over. */
static void hold_vacuum(const char *id, const char *material, const char *area,
                        const char *expected)
{
    static const char *const typed[][2] = {
        {"spindle_speed", "12000rpm"}, {"feed_rate", "900mm/min"}, {"depth", "1mm"}};
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, material, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_HOLDS, "vacuum", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "bond_area", area, NULL), BITE_OK);
    for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
        ck_assert_int_eq(bite_request_set(request, typed[i][0], typed[i][1], NULL), BITE_OK);
    }
    ck_assert_int_eq(bite_answer_new(request, 512, 0.95, &answer, NULL), BITE_OK);
    const bite_limit *limit = &bite_answer_result(answer)->limits[BITE_LIMIT_HOLD];
    ck_assert(limit->applies);
    ck_assert_msg(strcmp(bite_verdict_name((bite_verdict)limit->verdict), expected) == 0,
                  "%s: hold is %s (%g)", id, bite_verdict_name((bite_verdict)limit->verdict),
                  limit->utilization);
    bite_answer_free(answer);
    bite_request_free(request);
}

START_TEST(rules_agree_with_public_reports)
{
    ck_assert_uint_gt(table.count, 1);
    for (size_t i = 1; i < table.count; i++) {
        const char *id = bite_csv_cell(&table, i, "id");
        const char *rule = bite_csv_cell(&table, i, "rule");
        const char *material = bite_csv_cell(&table, i, "material");
        const char *thing = bite_csv_cell(&table, i, "thing");
        const char *expected = bite_csv_cell(&table, i, "expected");
        if (strcmp(rule, "fluid") == 0) {
            hold_fluid(id, material, thing, expected);
        } else if (strcmp(rule, "warp") == 0) {
            hold_warp(id, material);
        } else if (strcmp(rule, "vacuum") == 0) {
            hold_vacuum(id, material, thing, expected);
        } else {
            ck_abort_msg("%s: no rule is called %s", id, rule);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("rules");
    TCase *tests = tcase_create("all");
    tcase_add_unchecked_fixture(tests, setup, teardown);
    tcase_add_test(tests, rules_agree_with_public_reports);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
