/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What programs look up: each input, value, limit, word and status has a name of its own and is
 * found by it; what does not exist has none. */
#include "tests/support/support.h"
#include <math.h>
#include <string.h>

START_TEST(inputs_are_found_by_their_names)
{
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        ck_assert_ptr_nonnull(input);
        ck_assert_ptr_eq(bite_input_find(input->name), input);
        ck_assert_ptr_eq(bite_cut_input_at(NULL, i), input);
        for (uint32_t k = 0; k < input->words; k++) {
            ck_assert_ptr_nonnull(bite_input_word(input, k));
            for (uint32_t m = 0; m < k; m++) {
                ck_assert_str_ne(bite_input_word(input, m), bite_input_word(input, k));
            }
        }
        ck_assert_ptr_null(bite_input_word(input, input->words));
    }
    bite_cut cut;
    bite_cut_init(&cut);
    ck_assert_ptr_null(bite_input_at(bite_input_count()));
    ck_assert_ptr_null(bite_cut_input_at(&cut, bite_input_count())); /* no plugin, no figures */
    ck_assert_ptr_null(bite_cut_input_at(NULL, SIZE_MAX));
    ck_assert_ptr_null(bite_input_find("colour"));
    ck_assert_ptr_null(bite_input_word(NULL, 0));
    ck_assert_ptr_null(bite_input_word(bite_input_find("depth"), 0));
    ck_assert_str_eq(bite_input_word(bite_input_find("side"), BITE_CONVENTIONAL), "conventional");
}
END_TEST

START_TEST(values_and_limits_have_names_and_units)
{
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        ck_assert_ptr_nonnull(bite_value_name((bite_value_id)i));
        ck_assert_ptr_nonnull(bite_value_unit((bite_value_id)i));
        for (int k = 0; k < i; k++) {
            ck_assert_str_ne(bite_value_name((bite_value_id)i), bite_value_name((bite_value_id)k));
        }
    }
    for (int i = 0; i < BITE_LIMIT_OWN_1; i++) {
        bite_limit_id id = (bite_limit_id)i;
        ck_assert_ptr_nonnull(bite_limit_name(id));
        ck_assert_str_eq(bite_cut_limit_name(NULL, id), bite_limit_name(id));
        ck_assert_str_eq(bite_cut_limit_unit(NULL, id), bite_limit_unit(id));
        ck_assert_uint_eq(bite_cut_limit_kind(NULL, id), bite_limit_kind(id));
        for (int k = 0; k < i; k++) {
            ck_assert_str_ne(bite_limit_name(id), bite_limit_name((bite_limit_id)k));
        }
    }
    ck_assert_str_eq(bite_value_name(BITE_CHIP_LOAD), "chip_load");
    ck_assert_str_eq(bite_value_unit(BITE_CHIP_LOAD), "m");
    ck_assert_uint_eq(bite_value_kind(BITE_CHIP_LOAD), BITE_KIND_TOOTH_FEED);
    ck_assert_str_eq(bite_limit_name(BITE_LIMIT_DEFLECTION), "deflection");
    ck_assert_str_eq(bite_limit_unit(BITE_LIMIT_DEFLECTION), "m");
}
END_TEST

/* Of a newer library, and of limits that no plugin has. */
START_TEST(what_does_not_exist_has_no_name)
{
    bite_cut cut;
    bite_cut_init(&cut);
    const int unknown[] = {-1, BITE_VALUE_COUNT, 999};
    for (size_t i = 0; i < sizeof unknown / sizeof *unknown; i++) {
        bite_value_id value = (bite_value_id)unknown[i];
        ck_assert_ptr_null(bite_value_name(value));
        ck_assert_ptr_null(bite_value_unit(value));
        ck_assert_uint_eq(bite_value_kind(value), BITE_KIND_NUMBER);
    }
    const int limits[] = {-1, BITE_LIMIT_OWN_1, BITE_LIMIT_OWN_4, BITE_LIMIT_COUNT, 999};
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++) {
        bite_limit_id limit = (bite_limit_id)limits[i];
        ck_assert_ptr_null(bite_cut_limit_name(&cut, limit));
        ck_assert_ptr_null(bite_cut_limit_unit(&cut, limit));
        ck_assert_uint_eq(bite_cut_limit_kind(&cut, limit), BITE_KIND_NUMBER);
        ck_assert_ptr_null(bite_cut_limit_name(NULL, limit));
    }
    ck_assert_ptr_null(bite_limit_name(BITE_LIMIT_COUNT));
    ck_assert_ptr_null(bite_limit_unit((bite_limit_id)-1));
    ck_assert_uint_eq(bite_limit_kind(BITE_LIMIT_COUNT), BITE_KIND_NUMBER);
    ck_assert_str_eq(bite_limit_why(BITE_WHY_COUNT), "unknown reason");
    ck_assert_str_eq(bite_verdict_name((bite_verdict)99), "not_judged");
    ck_assert_str_eq(bite_verdict_name(BITE_TIGHT), "tight");
    for (uint32_t i = 0; i < BITE_WHY_COUNT; i++) {
        ck_assert_str_ne(bite_limit_why(i), "unknown reason");
    }
}
END_TEST

START_TEST(every_status_has_a_name_and_a_text)
{
    for (int i = 0; i <= BITE_STOPPED; i++) {
        ck_assert_int_eq(strncmp(bite_status_name((bite_status)i), "BITE_", 5), 0);
        ck_assert_uint_gt(strlen(bite_status_text((bite_status)i)), 3);
        for (int k = 0; k < i; k++) {
            ck_assert_str_ne(bite_status_name((bite_status)i), bite_status_name((bite_status)k));
        }
    }
    const int unknown[] = {-1, BITE_STOPPED + 1};
    for (size_t i = 0; i < 2; i++) {
        ck_assert_str_eq(bite_status_name((bite_status)unknown[i]), "BITE_UNKNOWN");
        ck_assert_str_eq(bite_status_text((bite_status)unknown[i]), "unknown status");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("names");
    TCase *tests = tcase_create("names");
    tcase_add_test(tests, inputs_are_found_by_their_names);
    tcase_add_test(tests, values_and_limits_have_names_and_units);
    tcase_add_test(tests, what_does_not_exist_has_no_name);
    tcase_add_test(tests, every_status_has_a_name_and_a_text);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
