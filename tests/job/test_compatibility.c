/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fluid on a material, without a job: names, ratings, conflicts, and what is written of them. */
#include "tests/support/open_library.h"
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static bite_compatibility pair_of(const char *fluid, const char *material)
{
    bite_compatibility pair = {.struct_size = (uint32_t)sizeof pair};
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_compatibility_find(library, fluid, material, &pair, &error);
    ck_assert_msg(status == BITE_OK, "%s on %s: %s", fluid, material, error.message);
    return pair;
}

/* What a shop calls a fluid: case, blanks and underscores do not matter. */
START_TEST(fluids_have_the_names_of_a_shop)
{
    static const char *const names[][2] = {{"IPA", "isopropanol"},
                                           {"isopropyl alcohol", "isopropanol"},
                                           {"Rubbing Alcohol", "isopropanol"},
                                           {"meths", "ethanol"},
                                           {"methylated spirit", "ethanol"},
                                           {"methylated_spirits", "ethanol"},
                                           {"white spirit", "naphtha"},
                                           {"kerosene", "naphtha"},
                                           {"penetrating oil", "penetrating-oil"},
                                           {"dish soap", "soapy-water"},
                                           {"washing-up liquid", "soapy-water"},
                                           {"glass cleaner", "ammonia-cleaner"},
                                           {"brake cleaner", "degreaser"},
                                           {"bleach", "bleach"},
                                           {"gasoline", "petrol"},
                                           {"layout blue", "layout-dye"},
                                           {"MQL", "mist-lubricant"},
                                           {"compressed air", "air"}};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        ck_assert_str_eq(pair_of(names[i][0], "acrylic/cast").fluid, names[i][1]);
    }
}
END_TEST

/* No two fluids share a name: a second one would never be found. */
START_TEST(names_of_fluids_are_unique)
{
    for (size_t i = 0; i < bite_library_count(library, BITE_FLUIDS); i++) {
        bite_item item;
        ck_assert_int_eq(bite_library_item(library, BITE_FLUIDS, i, &item, NULL), BITE_OK);
        ck_assert_str_eq(pair_of(item.name, "acrylic/cast").fluid, item.name);
        ck_assert_str_eq(pair_of(item.title, "acrylic/cast").fluid, item.name);
    }
}
END_TEST

START_TEST(unknown_names_get_the_nearest)
{
    static const char *const wrong[][3] = {
        {"isoproponal", "acrylic/cast", "isopropanol"},
        {"methlyated-spirit", "acrylic/cast", "methylated-spirit"},
        {"acetone", "acrilic/cast", "acrylic"}};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        bite_compatibility pair = {.struct_size = (uint32_t)sizeof pair};
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(bite_compatibility_find(library, wrong[i][0], wrong[i][1], &pair, &error),
                         BITE_UNKNOWN_NAME);
        ck_assert_msg(strstr(error.hint, wrong[i][2]) != NULL, "%s: %s", wrong[i][0], error.hint);
        ck_assert_ptr_null(pair.fluid);
    }
    bite_compatibility pair = {.struct_size = 3};
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_compatibility_find(library, "ipa", "acrylic", &pair, &error),
                     BITE_BAD_ARGUMENT);
    pair.struct_size = (uint32_t)sizeof pair;
    ck_assert_int_eq(bite_compatibility_find(NULL, "ipa", "acrylic", &pair, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_compatibility_find(library, NULL, "acrylic", &pair, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_compatibility_find(library, "", "acrylic", &pair, NULL),
                     BITE_UNKNOWN_NAME);
}
END_TEST

/* Reference data of the project: what sheet makers and papers say, and where they disagree. */
START_TEST(ratings_are_those_of_the_sources)
{
    static const struct {
        const char *fluid;
        const char *material;
        uint32_t machined;
        uint32_t annealed;
        uint32_t sheet;
        uint32_t other;
    } known[] = {
        /* acrylic sheet maker: R/LR/N on unstressed sheet */
        {"isopropanol", "acrylic/cast", BITE_RATED_NO, BITE_RATED_RISK, BITE_RATED_RISK,
         BITE_RATED_UNKNOWN},
        {"acetone", "acrylic/cast", BITE_RATED_NO, BITE_RATED_NO, BITE_RATED_NO,
         BITE_RATED_UNKNOWN},
        {"methanol", "acrylic/cast", BITE_RATED_NO, BITE_RATED_NO, BITE_RATED_NO, BITE_RATED_RISK},
        {"heptane", "acrylic/cast", BITE_RATED_SAFE, BITE_RATED_SAFE, BITE_RATED_SAFE,
         BITE_RATED_UNKNOWN},
        {"ammonia", "acrylic/cast", BITE_RATED_NO, BITE_RATED_RISK, BITE_RATED_SAFE,
         BITE_RATED_SAFE},
        /* polycarbonate: makers list isopropanol as resistant, a moulder as a crack agent */
        {"isopropanol", "polycarbonate", BITE_RATED_RISK, BITE_RATED_SAFE, BITE_RATED_SAFE,
         BITE_RATED_RISK},
        {"ethanol", "polycarbonate", BITE_RATED_RISK, BITE_RATED_RISK, BITE_RATED_SAFE,
         BITE_RATED_SAFE},
        {"kerosene", "polycarbonate", BITE_RATED_RISK, BITE_RATED_SAFE, BITE_RATED_SAFE,
         BITE_RATED_RISK},
        {"caustic soda", "polycarbonate", BITE_RATED_NO, BITE_RATED_NO, BITE_RATED_NO,
         BITE_RATED_UNKNOWN},
        {"soap", "polycarbonate", BITE_RATED_SAFE, BITE_RATED_SAFE, BITE_RATED_SAFE,
         BITE_RATED_UNKNOWN},
    };
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        bite_compatibility pair = pair_of(known[i].fluid, known[i].material);
        ck_assert_msg(pair.machined == known[i].machined && pair.annealed == known[i].annealed &&
                          pair.sheet == known[i].sheet && pair.other == known[i].other,
                      "%s on %s: %u %u %u %u", known[i].fluid, known[i].material, pair.machined,
                      pair.annealed, pair.sheet, pair.other);
        ck_assert_int_ne(pair.source[0], 0);
        ck_assert(pair.other == BITE_RATED_UNKNOWN || pair.other_source[0] != 0);
        ck_assert(pair.sheet == BITE_RATED_UNKNOWN || pair.sheet_source[0] != 0);
    }
}
END_TEST

/* Of every pair: a refusal or a risk has a reason and a source; a glassy plastic also a time to
 * watch it, unless it is ruined at once; annealing never makes it worse. */
START_TEST(every_rating_has_its_reason)
{
    static const char *const glassy[] = {
        "acrylic/cast", "polycarbonate/sheet", "abs", "pei", "polystyrene", "petg", "pvc", "pla"};
    size_t rated = 0;
    for (size_t g = 0; g < bite_library_count(library, BITE_FAMILIES); g++) {
        bite_item family;
        ck_assert_int_eq(bite_library_item(library, BITE_FAMILIES, g, &family, NULL), BITE_OK);
        for (size_t i = 0; i < bite_library_count(library, BITE_FLUIDS); i++) {
            bite_item item;
            ck_assert_int_eq(bite_library_item(library, BITE_FLUIDS, i, &item, NULL), BITE_OK);
            bite_compatibility pair = pair_of(item.name, family.name);
            int harms = pair.machined == BITE_RATED_RISK || pair.machined == BITE_RATED_NO;
            ck_assert_msg(!harms || (pair.reason[0] != 0 && pair.source[0] != 0), "%s on %s",
                          item.name, family.name);
            ck_assert_msg(pair.machined == BITE_RATED_UNKNOWN || pair.annealed <= pair.machined,
                          "%s on %s", item.name, family.name);
            rated += pair.machined != BITE_RATED_UNKNOWN;
            for (size_t k = 0; k < sizeof glassy / sizeof *glassy; k++) {
                ck_assert_msg(strcmp(glassy[k], family.name) != 0 || !harms ||
                                  isfinite(pair.watch) || pair.signs[0] != 0 ||
                                  strstr(pair.reason, "at once") != NULL ||
                                  strcmp(item.name, "degreaser") == 0,
                              "%s on %s: no time to watch", item.name, family.name);
            }
        }
    }
    ck_assert_uint_gt(rated, 800);
}
END_TEST

static int gather(void *user, const char *text, size_t size)
{
    char *all = user;
    size_t used = strlen(all);
    if (used + size >= 60000) {
        return 1;
    }
    memcpy(all + used, text, size);
    all[used + size] = 0;
    return 0;
}

START_TEST(one_pair_is_written_in_three_formats)
{
    static char text[60000];
    bite_style style = {.struct_size = (uint32_t)sizeof style, .columns = 400};
    text[0] = 0;
    ck_assert_int_eq(
        bite_compatibility_write(library, "ipa", "acrylic/cast", &style, gather, text, NULL),
        BITE_OK);
    static const char *const words[] = {"NO: isopropyl alcohol on acrylic/cast",
                                        "machined edges craze",
                                        "72 h after the last contact",
                                        "raking light",
                                        "lowers the danger, but does not make it safe",
                                        "unstressed sheet",
                                        "RISK",
                                        "soapy water"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        ck_assert_msg(strstr(text, words[i]) != NULL, "%s: %s", words[i], text);
    }
    ck_assert_ptr_null(strstr(text, "flammable")); /* it is not going to be used */
    style.format = BITE_JSON;
    text[0] = 0;
    ck_assert_int_eq(
        bite_compatibility_write(library, "ipa", "acrylic/cast", &style, gather, text, NULL),
        BITE_OK);
    json_t *root = json_loads(text, 0, NULL);
    ck_assert_str_eq(json_string_value(json_object_get(root, "rating")), "no");
    ck_assert_str_eq(json_string_value(json_object_get(root, "annealed")), "risk");
    ck_assert(json_number_value(json_object_get(root, "watch")) == 72.0 * 3600.0);
    json_decref(root);
    style.format = BITE_CSV;
    text[0] = 0;
    ck_assert_int_eq(
        bite_compatibility_write(library, "ipa", "acrylic/cast", &style, gather, text, NULL),
        BITE_OK);
    ck_assert_ptr_nonnull(
        strstr(text, "\r\nisopropanol,isopropyl alcohol,coolant cleaner,acrylic/cast,no,risk,risk,"
                     "\"machined edges craze, often days later;"));
    style.format = BITE_HTML;
    ck_assert_int_eq(
        bite_compatibility_write(library, "ipa", "acrylic/cast", &style, gather, text, NULL),
        BITE_BAD_ARGUMENT);
    ck_assert_int_eq(
        bite_compatibility_write(library, "ipa", "acrylic/cast", NULL, NULL, NULL, NULL),
        BITE_BAD_ARGUMENT);
}
END_TEST

/* All fluids are listed once, the refused ones first. */
START_TEST(a_material_lists_all_fluids)
{
    static char text[60000];
    static const char *const order[] = {"no", "risk", "unknown", "safe"};
    bite_style style = {.struct_size = (uint32_t)sizeof style, .format = BITE_JSON};
    size_t at = 0;
    text[0] = 0;
    ck_assert_int_eq(
        bite_compatibility_list_write(library, "acrylic/cast", &style, gather, text, NULL),
        BITE_OK);
    json_t *root = json_loads(text, 0, NULL);
    const json_t *list = json_object_get(root, "fluids");
    ck_assert_uint_eq(json_array_size(list), bite_library_count(library, BITE_FLUIDS));
    for (size_t i = 0; i < json_array_size(list); i++) {
        const char *rating = json_string_value(json_object_get(json_array_get(list, i), "rating"));
        while (at < 4 && strcmp(order[at], rating) != 0) {
            at++;
        }
        ck_assert_uint_lt(at, 4);
    }
    json_decref(root);
    ck_assert_int_eq(bite_compatibility_list_write(library, "nonsense", &style, gather, text, NULL),
                     BITE_UNKNOWN_NAME);
    ck_assert_int_eq(bite_compatibility_list_write(library, NULL, &style, gather, text, NULL),
                     BITE_BAD_ARGUMENT);
}
END_TEST

START_TEST(ratings_have_words)
{
    ck_assert_str_eq(bite_rating_name(BITE_RATED_SAFE), "safe");
    ck_assert_str_eq(bite_rating_name(BITE_RATED_NO), "no");
    ck_assert_str_eq(bite_rating_name(BITE_RATED_UNKNOWN), "unknown");
    ck_assert_ptr_null(bite_rating_name(4));
    ck_assert_ptr_null(bite_rating_name(UINT32_MAX));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("compatibility");
    TCase *tests = tcase_create("compatibility");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, fluids_have_the_names_of_a_shop);
    tcase_add_test(tests, names_of_fluids_are_unique);
    tcase_add_test(tests, unknown_names_get_the_nearest);
    tcase_add_test(tests, ratings_are_those_of_the_sources);
    tcase_add_test(tests, every_rating_has_its_reason);
    tcase_add_test(tests, one_pair_is_written_in_three_formats);
    tcase_add_test(tests, a_material_lists_all_fluids);
    tcase_add_test(tests, ratings_have_words);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
