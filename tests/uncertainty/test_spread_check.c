/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spreads, draws and confidence with invalid values: each is refused with an error that names it.
 */
#include "core/cut/input_check.h"
#include "core/names/inputs.h"
#include "core/names/registry.h"
#include "tests/support/hostile_numbers.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

static bite_status band(const bite_spread *spreads, size_t count, size_t draws, double confidence,
                        bite_error *error)
{
    bite_error clean = BITE_ERROR_INIT;
    bite_cut cut = bite_test_acrylic();
    bite_result result;
    memset(&result, 0, sizeof result);
    result.struct_size = (uint32_t)sizeof result;
    *error = clean;
    return bite_cut_band(&cut, spreads, count, draws, 1, confidence, &result, error);
}

static bite_spread good_spread(void)
{
    const bite_input *input = bite_input_find("runout");
    bite_spread spread = {
        (uint32_t)bite_input_index(input), BITE_SHAPE_LEVEL, 0, 0, 1e-6, 20e-6, 0.0};
    return spread;
}

START_TEST(hostile_spreads_are_refused)
{
    bite_error error;
    bite_spread spread = good_spread();
    ck_assert_int_eq(band(&spread, 1, 64, 0.95, &error), BITE_OK);
    for (uint32_t shape = BITE_SHAPE_LEVEL; shape <= BITE_SHAPE_LOGNORMAL; shape++) {
        for (size_t k = 0; k < HOSTILE; k++) {
            int near = fabs(hostile[k]) <= 1.0; /* valid on the right side of the estimate */
            spread = good_spread();
            spread.shape = shape;
            spread.low = hostile[k];
            bite_status status = band(&spread, 1, 64, 0.95, &error);
            ck_assert_msg(status == BITE_BAD_ARGUMENT || (near && status == BITE_OK),
                          "low accepted %g", hostile[k]);
            spread = good_spread();
            spread.shape = shape;
            spread.high = hostile[k];
            ck_assert_msg(band(&spread, 1, 64, 0.95, &error) == BITE_BAD_ARGUMENT,
                          "high accepted %g", hostile[k]);
            ck_assert_str_eq(error.key, "runout");
            spread = good_spread();
            spread.shape = shape;
            spread.together = hostile[k];
            status = band(&spread, 1, 64, 0.95, &error);
            ck_assert_msg(status == BITE_BAD_ARGUMENT || (hostile[k] >= 0.0 && hostile[k] <= 1.0),
                          "together accepted %g", hostile[k]);
        }
    }
}
END_TEST

START_TEST(invalid_spreads_are_refused)
{
    static const uint32_t words[] = {8, 4000000, UINT32_MAX};
    bite_error error;
    bite_spread spread = good_spread();
    for (size_t k = 0; k < sizeof words / sizeof *words; k++) {
        spread = good_spread();
        spread.shape = words[k];
        ck_assert_int_eq(band(&spread, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
        spread = good_spread();
        spread.group = words[k];
        ck_assert_int_eq(band(&spread, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
        spread = good_spread();
        spread.reserved = words[k];
        ck_assert_int_eq(band(&spread, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
        spread = good_spread();
        spread.input = (uint32_t)bite_input_count() + words[k] / 2;
        ck_assert_int_eq(band(&spread, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    }
    spread = good_spread();
    spread.input = (uint32_t)bite_input_index(bite_input_find("side"));
    ck_assert_int_eq(band(&spread, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    spread.input = (uint32_t)bite_input_index(
        bite_input_find("tolerance")); /* not given, so it cannot scatter */
    ck_assert_int_eq(band(&spread, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(band(NULL, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    spread = good_spread();
    ck_assert_int_eq(band(&spread, BITE_SPREAD_MAX + 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(band(&spread, SIZE_MAX, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(band(NULL, 0, 64, 0.95, &error), BITE_OK);
}
END_TEST

START_TEST(invalid_draws_and_confidence_are_refused)
{
    static const size_t draws[] = {0, 1, 15, BITE_DRAWS_MAX + 1, SIZE_MAX};
    bite_error error;
    bite_spread spread = good_spread();
    for (size_t k = 0; k < sizeof draws / sizeof *draws; k++) {
        ck_assert_int_eq(band(&spread, 1, draws[k], 0.95, &error), BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.key, "draws");
    }
    for (size_t k = 0; k < HOSTILE; k++) {
        if (hostile[k] == 0.0) { /* the usual confidence */
            continue;
        }
        ck_assert_int_eq(band(&spread, 1, 64, hostile[k], &error), BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.key, "confidence");
    }
}
END_TEST

/* Both ends are valid, also with the rounding error of a quantity in percent. */
START_TEST(confidence_at_its_ends)
{
    static const char *const ends[] = {"50%", "0.5", "99.9%", "0.999"};
    static const double outside[] = {0.4999, 0.49999999, 0.99900001, 0.9991};
    bite_error error = BITE_ERROR_INIT;
    for (size_t k = 0; k < sizeof ends / sizeof *ends; k++) {
        double confidence = 0.0;
        ck_assert_int_eq(bite_quantity_read(ends[k], BITE_KIND_FRACTION, &confidence, &error),
                         BITE_OK);
        ck_assert_msg(bite_check_draws(64, confidence, &error) == BITE_OK, "%s", ends[k]);
    }
    for (size_t k = 0; k < sizeof outside / sizeof *outside; k++) {
        ck_assert_int_eq(bite_check_draws(64, outside[k], &error), BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.key, "confidence");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("spread check");
    TCase *spreads = tcase_create("spreads");
    tcase_add_test(spreads, hostile_spreads_are_refused);
    tcase_add_test(spreads, invalid_spreads_are_refused);
    tcase_add_test(spreads, invalid_draws_and_confidence_are_refused);
    tcase_add_test(spreads, confidence_at_its_ends);
    suite_add_tcase(suite, spreads);
    return bite_test_run(suite);
}
