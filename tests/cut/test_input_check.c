/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every member of bite_cut with numbers that are none: a refusal that names it, never a crash and
 * never a clear cut. */
#include "core/cut/input_check.h"
#include "core/names/inputs.h"
#include "core/names/registry.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <float.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

static const double hostile[] = {
    (double)NAN,
    (double)INFINITY,
    -(double)INFINITY,
    DBL_MAX,
    -DBL_MAX,
    1e300,
    -1e300,
    1e30,
    -1e30,
    -1.0,
    0.0,
    -0.0,
    DBL_MIN,
    5e-324,
    -5e-324,
};
#define HOSTILE (sizeof hostile / sizeof *hostile)

/* ---- cuts to start from: one for each way through the physics ---- */

#define STARTS 6

static bite_cut start(int which)
{
    uint64_t seed = 77;
    bite_cut cut = which == 0 ? bite_test_acrylic() : bite_test_bounded(&seed);
    switch (which) {
    case 2: /* a ball in a corner */
        cut = bite_test_acrylic();
        cut.corner_radius = 0.5 * cut.diameter;
        cut.width = 0.3 * cut.diameter;
        cut.inside_radius = 0.7 * cut.diameter;
        break;
    case 3:
        cut = bite_test_acrylic();
        cut.operation = BITE_DRILL_HOLE;
        break;
    case 4:
        cut = bite_test_acrylic();
        cut.operation = BITE_CHAMFER;
        cut.depth = 0.1e-3;
        break;
    case 5: /* the power law, and a helix on the way in */
        cut.pressure = BITE_PRESSURE_POWER;
        cut.pressure_exponent = 0.25;
        cut.entry = BITE_ENTRY_HELIX;
        break;
    default:
        break;
    }
    return cut;
}

/* Passes; returns the status. A good answer has no number that is none where a limit was judged by
 * it. */
static bite_status pass(const bite_cut *cut, const char *what, double tried, bite_error *error,
                        bite_verdict *verdict)
{
    bite_error clean = BITE_ERROR_INIT;
    bite_result result;
    memset(&result, 0, sizeof result);
    result.struct_size = (uint32_t)sizeof result;
    *error = clean;
    bite_status status = bite_cut_pass(cut, &result, error);
    *verdict = status == BITE_OK ? (bite_verdict)result.verdict : BITE_NOT_JUDGED;
    if (status != BITE_OK) {
        ck_assert_msg(strlen(error->message) > 5 && strlen(error->key) > 2,
                      "%s = %g is refused without words", what, tried);
        ck_assert_int_eq(error->status, (int)status);
        return status;
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result.limits[i];
        ck_assert_msg(!limit->applies || (isfinite(limit->utilization) && !isnan(limit->demand) &&
                                          !isnan(limit->capacity)),
                      "%s = %g: %s is judged by no number", what, tried,
                      bite_limit_name((bite_limit_id)i));
    }
    return status;
}

/* ---- the list of members is whole ---- */

static int is_number(size_t offset)
{
    for (size_t i = 0; i < bite_input_count(); i++) {
        if (bite_input_at(i)->offset == offset && bite_input_at(i)->words == 0) {
            return 1;
        }
    }
    return 0;
}

static int is_word(size_t offset)
{
    for (size_t i = 0; i < bite_input_count(); i++) {
        if (bite_input_at(i)->offset == offset && bite_input_at(i)->words > 0) {
            return 1;
        }
    }
    return 0;
}

/* What no list names would be checked by nobody. */
START_TEST(every_member_has_a_row)
{
    size_t curves = offsetof(bite_cut, heat_capacity_curve);
    for (size_t at = offsetof(bite_cut, side); at < offsetof(bite_cut, spindle_speed);
         at += sizeof(uint32_t)) {
        ck_assert_msg(is_word(at) || at == offsetof(bite_cut, reserved),
                      "the word at byte %zu of bite_cut has no row", at);
    }
    for (size_t at = offsetof(bite_cut, spindle_speed); at < curves; at += sizeof(double)) {
        ck_assert_msg(is_number(at), "the number at byte %zu of bite_cut has no row", at);
    }
    ck_assert_uint_eq(curves + bite_curve_input_count * sizeof(bite_curve), sizeof(bite_cut));
    for (size_t i = 0; i < bite_curve_input_count; i++) {
        ck_assert_uint_eq(bite_curve_inputs[i].offset, curves + i * sizeof(bite_curve));
    }
}
END_TEST

/* ---- numbers ---- */

START_TEST(hostile_numbers_are_refused)
{
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        for (size_t k = 0; input->words == 0 && k < HOSTILE; k++) {
            bite_cut cut = start(_i);
            bite_error error;
            bite_verdict verdict;
            *bite_input_number(&cut, input) = hostile[k];
            bite_status status = pass(&cut, input->name, hostile[k], &error, &verdict);
            int sensible = hostile[k] >= input->least && hostile[k] <= input->most;
            if (isnan(hostile[k])) {
                ck_assert_msg(input->needed == 0 || status == BITE_MISSING, "%s: %d", input->name,
                              (int)status);
            } else if (!sensible) {
                ck_assert_msg(status == BITE_OUT_OF_RANGE, "%s took %g", input->name, hostile[k]);
                ck_assert_str_eq(error.key, input->name);
            }
            ck_assert_msg(verdict != BITE_CLEAR || isfinite(hostile[k]) || isnan(hostile[k]),
                          "%s = %g is clear", input->name, hostile[k]);
        }
    }
}
END_TEST

START_TEST(words_that_are_none_are_refused)
{
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        const uint32_t words[] = {input->words, input->words + 1, 4000000, 0x80000000u, UINT32_MAX};
        for (size_t k = 0; input->words > 0 && k < sizeof words / sizeof *words; k++) {
            bite_cut cut = start(_i);
            bite_error error;
            bite_verdict verdict;
            *bite_input_choice(&cut, input) = words[k];
            ck_assert_int_eq(pass(&cut, input->name, words[k], &error, &verdict),
                             BITE_BAD_ARGUMENT);
            ck_assert_str_eq(error.key, input->name);
        }
    }
}
END_TEST

START_TEST(sizes_that_are_none_are_refused)
{
    const uint32_t size = (uint32_t)sizeof(bite_cut);
    const uint32_t sizes[] = {0, 1, size - 1, size + 1, 2 * size, UINT32_MAX};
    for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
        bite_cut cut = start(0);
        bite_error error;
        bite_verdict verdict;
        cut.struct_size = sizes[k];
        ck_assert_int_eq(pass(&cut, "struct_size", sizes[k], &error, &verdict), BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.key, "struct_size");
    }
    bite_cut_init(NULL);
}
END_TEST

/* ---- curves ---- */

static bite_curve *curve_of(bite_cut *cut, const bite_curve_input *row)
{
    return (bite_curve *)(void *)((char *)cut + row->offset);
}

/* Straight over the range of its values, 300 K to 400 K. */
static void fill_curve(bite_curve *curve, const bite_curve_input *row, uint32_t count)
{
    curve->count = count;
    for (uint32_t i = 0; i < count; i++) {
        double share = (i + 1.0) / (count + 1.0);
        curve->temperature[i] = 300.0 + 100.0 * share;
        curve->value[i] = row->least * pow(row->most / row->least, share);
    }
}

START_TEST(good_curves_are_taken)
{
    for (size_t i = 0; i < bite_curve_input_count; i++) {
        for (uint32_t count = 0; count <= BITE_CURVE_POINTS; count++) {
            bite_cut cut = start(_i);
            bite_error error;
            bite_verdict verdict;
            fill_curve(curve_of(&cut, &bite_curve_inputs[i]), &bite_curve_inputs[i], count);
            ck_assert_int_eq(pass(&cut, bite_curve_inputs[i].name, count, &error, &verdict),
                             BITE_OK);
        }
    }
}
END_TEST

START_TEST(hostile_points_are_refused)
{
    for (size_t i = 0; i < bite_curve_input_count; i++) {
        const bite_curve_input *row = &bite_curve_inputs[i];
        for (size_t k = 0; k < 2 * HOSTILE; k++) {
            for (uint32_t at = 0; at < BITE_CURVE_POINTS; at++) {
                bite_cut cut = start(_i);
                bite_error error;
                bite_verdict verdict;
                bite_curve *curve = curve_of(&cut, row);
                fill_curve(curve, row, BITE_CURVE_POINTS);
                double *member = k < HOSTILE ? curve->temperature : curve->value;
                member[at] = hostile[k % HOSTILE];
                bite_status status = pass(&cut, row->name, member[at], &error, &verdict);
                ck_assert_msg(status == BITE_BAD_ARGUMENT || status == BITE_OUT_OF_RANGE,
                              "%s, point %u: took %g", row->name, at, member[at]);
                ck_assert_str_eq(error.key, row->name);
            }
        }
    }
}
END_TEST

START_TEST(curves_of_no_order_are_refused)
{
    for (size_t i = 0; i < bite_curve_input_count; i++) {
        const bite_curve_input *row = &bite_curve_inputs[i];
        for (uint32_t at = 1; at < BITE_CURVE_POINTS; at++) {
            bite_cut cut = start(0);
            bite_error error;
            bite_verdict verdict;
            bite_curve *curve = curve_of(&cut, row);
            fill_curve(curve, row, BITE_CURVE_POINTS);
            curve->temperature[at] = curve->temperature[at - 1];
            ck_assert_int_eq(pass(&cut, row->name, at, &error, &verdict), BITE_BAD_ARGUMENT);
            curve->temperature[at] = curve->temperature[at - 1] - 1.0;
            ck_assert_int_eq(pass(&cut, row->name, at, &error, &verdict), BITE_BAD_ARGUMENT);
            ck_assert_str_eq(error.key, row->name);
        }
    }
}
END_TEST

START_TEST(absurd_counts_of_points_are_refused)
{
    static const uint32_t counts[] = {BITE_CURVE_POINTS + 1, 4000000, 0x80000000u, UINT32_MAX};
    for (size_t i = 0; i < bite_curve_input_count; i++) {
        const bite_curve_input *row = &bite_curve_inputs[i];
        for (size_t k = 0; k < sizeof counts / sizeof *counts; k++) {
            bite_cut cut = start(0);
            bite_error error;
            bite_verdict verdict;
            fill_curve(curve_of(&cut, row), row, BITE_CURVE_POINTS);
            curve_of(&cut, row)->count = counts[k];
            ck_assert_int_eq(pass(&cut, row->name, counts[k], &error, &verdict), BITE_BAD_ARGUMENT);
            ck_assert_str_eq(error.key, row->name);
        }
        bite_cut cut = start(0);
        bite_error error;
        bite_verdict verdict;
        fill_curve(curve_of(&cut, row), row, 2);
        curve_of(&cut, row)->temperature[2] = (double)NAN; /* behind count: nobody's */
        ck_assert_int_eq(pass(&cut, row->name, 2, &error, &verdict), BITE_OK);
        curve_of(&cut, row)->reserved = 1;
        ck_assert_int_eq(pass(&cut, row->name, 2, &error, &verdict), BITE_BAD_ARGUMENT);
    }
}
END_TEST

/* ---- all at once ---- */

static uint64_t bits(uint64_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

/* A caller's rubbish in any of the members: most of it is refused, none of it does harm. */
START_TEST(random_bits_do_no_harm)
{
    uint64_t seed = 20260801;
    int taken = 0;
    for (int i = 0; i < 40000; i++) {
        bite_cut cut = start(i % STARTS);
        size_t words = (sizeof cut - offsetof(bite_cut, side)) / sizeof(uint32_t);
        for (int k = 0; k < 1 + i % 3; k++) {
            uint32_t rubbish = (uint32_t)bits(&seed);
            size_t at = offsetof(bite_cut, side) + bits(&seed) % words * sizeof rubbish;
            memcpy((char *)&cut + at, &rubbish, sizeof rubbish);
        }
        bite_error error;
        bite_verdict verdict;
        taken += pass(&cut, "rubbish", i, &error, &verdict) == BITE_OK;
    }
    ck_assert_int_gt(taken, 100); /* the lower half of a number is no rubbish at all */
}
END_TEST

/* ---- what comes out ---- */

START_TEST(values_that_are_none_are_no_answer)
{
    static const bite_value_id may_be_none[] = {BITE_PART_TEMPERATURE,
                                                BITE_WALL_ERROR,
                                                BITE_ROUGHNESS_FLOOR,
                                                BITE_ROUGHNESS_WALL,
                                                BITE_STABILITY_DEPTH,
                                                BITE_TIP_FREQUENCY,
                                                BITE_HAZE,
                                                BITE_TOOL_LIFE,
                                                BITE_SURFACE_SPEED_SMALL};
    bite_cut cut = start(1);
    bite_result result = bite_test_pass(&cut);
    double values[BITE_VALUE_COUNT];
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        values[i] = result.values[i].value;
    }
    ck_assert_int_eq(bite_check_values(&cut, values, NULL), BITE_OK);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        int may_be = 0;
        for (size_t k = 0; k < sizeof may_be_none / sizeof *may_be_none; k++) {
            may_be |= may_be_none[k] == (bite_value_id)i;
        }
        for (size_t k = 0; k < 3; k++) {
            bite_error error = BITE_ERROR_INIT;
            double kept = values[i];
            values[i] = hostile[k];
            ck_assert_int_eq(bite_check_values(&cut, values, &error),
                             may_be ? BITE_OK : BITE_NO_ANSWER);
            ck_assert_str_eq(error.key, may_be ? "" : bite_value_name((bite_value_id)i));
            values[i] = kept;
        }
    }
    cut.pressure = BITE_PRESSURE_NONE; /* then nobody knows the forces */
    values[BITE_FORCE_SIDE_PEAK] = values[BITE_CHIP_TEMPERATURE] = (double)NAN;
    ck_assert_int_eq(bite_check_values(&cut, values, NULL), BITE_OK);
}
END_TEST

/* ---- spreads ---- */

static bite_status band(const bite_spread *spreads, size_t count, size_t draws, double confidence,
                        bite_error *error)
{
    bite_error clean = BITE_ERROR_INIT;
    bite_cut cut = start(0);
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
            int near = fabs(hostile[k]) <=
                       1.0; /* within the reach of a spread, if on the right side of the estimate */
            spread = good_spread();
            spread.shape = shape;
            spread.low = hostile[k];
            bite_status status = band(&spread, 1, 64, 0.95, &error);
            ck_assert_msg(status == BITE_BAD_ARGUMENT || (near && status == BITE_OK), "low took %g",
                          hostile[k]);
            spread = good_spread();
            spread.shape = shape;
            spread.high = hostile[k];
            ck_assert_msg(band(&spread, 1, 64, 0.95, &error) == BITE_BAD_ARGUMENT, "high took %g",
                          hostile[k]);
            ck_assert_str_eq(error.key, "runout");
            spread = good_spread();
            spread.shape = shape;
            spread.together = hostile[k];
            status = band(&spread, 1, 64, 0.95, &error);
            ck_assert_msg(status == BITE_BAD_ARGUMENT || (hostile[k] >= 0.0 && hostile[k] <= 1.0),
                          "together took %g", hostile[k]);
        }
    }
}
END_TEST

START_TEST(spreads_that_are_none_are_refused)
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
        bite_input_find("tolerance")); /* not given: there is nothing to scatter about */
    ck_assert_int_eq(band(&spread, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(band(NULL, 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    spread = good_spread();
    ck_assert_int_eq(band(&spread, BITE_SPREAD_MAX + 1, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(band(&spread, SIZE_MAX, 64, 0.95, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(band(NULL, 0, 64, 0.95, &error), BITE_OK);
}
END_TEST

START_TEST(draws_and_confidence)
{
    static const size_t draws[] = {0, 1, 15, BITE_DRAWS_MAX + 1, SIZE_MAX};
    bite_error error;
    bite_spread spread = good_spread();
    for (size_t k = 0; k < sizeof draws / sizeof *draws; k++) {
        ck_assert_int_eq(band(&spread, 1, draws[k], 0.95, &error), BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.key, "draws");
    }
    for (size_t k = 0; k < HOSTILE; k++) {
        ck_assert_int_eq(band(&spread, 1, 64, hostile[k], &error), BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.key, "confidence");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("check");
    TCase *cut = tcase_create("a cut");
    tcase_set_timeout(cut, 120);
    tcase_add_test(cut, every_member_has_a_row);
    tcase_add_loop_test(cut, hostile_numbers_are_refused, 0, STARTS);
    tcase_add_loop_test(cut, words_that_are_none_are_refused, 0, STARTS);
    tcase_add_test(cut, sizes_that_are_none_are_refused);
    tcase_add_loop_test(cut, good_curves_are_taken, 0, STARTS);
    tcase_add_loop_test(cut, hostile_points_are_refused, 0, STARTS);
    tcase_add_test(cut, curves_of_no_order_are_refused);
    tcase_add_test(cut, absurd_counts_of_points_are_refused);
    tcase_add_test(cut, random_bits_do_no_harm);
    tcase_add_test(cut, values_that_are_none_are_no_answer);
    suite_add_tcase(suite, cut);
    TCase *spreads = tcase_create("spreads");
    tcase_add_test(spreads, hostile_spreads_are_refused);
    tcase_add_test(spreads, spreads_that_are_none_are_refused);
    tcase_add_test(spreads, draws_and_confidence);
    suite_add_tcase(suite, spreads);
    return bite_test_run(suite);
}
