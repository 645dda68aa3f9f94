/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every member of bite_cut with invalid values: each is refused with an error that names the
 * member; none crashes, and none gives a clear cut. */
#include "core/cut/input_check.h"
#include "core/names/inputs.h"
#include "core/names/registry.h"
#include "tests/support/hostile_numbers.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

/* ---- cuts to start from: one for each branch of the physics ---- */

#define STARTS 6

static bite_cut start(int which)
{
    uint64_t seed = 77;
    bite_cut cut = which == 0 ? bite_test_acrylic() : bite_test_bounded(&seed);
    switch (which) {
    case 2: /* a ball end mill in a corner */
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
    case 5: /* the power law, and a helical entry */
        cut.pressure = BITE_PRESSURE_POWER;
        cut.pressure_exponent = 0.25;
        cut.entry = BITE_ENTRY_HELIX;
        break;
    default:
        break;
    }
    return cut;
}

/* Runs a pass and returns its status. In a good result every limit that applies was computed from
 * valid numbers. */
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
                      "%s = %g is refused without a message", what, tried);
        ck_assert_int_eq(error->status, (int)status);
        return status;
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result.limits[i];
        ck_assert_msg(!limit->applies || (isfinite(limit->utilization) && !isnan(limit->demand) &&
                                          !isnan(limit->capacity)),
                      "%s = %g: %s is judged by an invalid number", what, tried,
                      bite_limit_name((bite_limit_id)i));
    }
    return status;
}

/* ---- the list of members is complete ---- */

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

/* A member that is in no list would not be checked. */
START_TEST(every_member_is_in_a_list)
{
    size_t curves = offsetof(bite_cut, heat_capacity_curve);
    size_t later = curves + bite_curve_input_count * sizeof(bite_curve); /* numbers again */
    for (size_t at = offsetof(bite_cut, side); at < offsetof(bite_cut, spindle_speed);
         at += sizeof(uint32_t)) {
        ck_assert_msg(is_word(at) || at == offsetof(bite_cut, reserved),
                      "the word at byte %zu of bite_cut is in no list", at);
    }
    /* the figures of a plugin, and where its limits are, stand behind all of them */
    for (size_t at = offsetof(bite_cut, spindle_speed); at < offsetof(bite_cut, own_figure);
         at += sizeof(double)) {
        ck_assert_msg(is_number(at) || (at >= curves && at < later),
                      "the number at byte %zu of bite_cut is in no list", at);
    }
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

/* 0 says that there is none; a floor of 1e-315 m divided by the cube of its thickness, which is 0.
 */
START_TEST(vanishing_sizes_are_refused)
{
    static const double vanishing[] = {4.9e-324, 3.1498363955070294e-315, 1e-300, 1e-20};
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        int may_be_none = input->words == 0 && input->least == 0.0;
        for (size_t k = 0; may_be_none && k < sizeof vanishing / sizeof *vanishing; k++) {
            bite_cut cut = start(_i);
            bite_error error;
            bite_verdict verdict;
            if (!(vanishing[k] < 1e-12 * input->most)) {
                continue;
            }
            *bite_input_number(&cut, input) = vanishing[k];
            ck_assert_msg(pass(&cut, input->name, vanishing[k], &error, &verdict) ==
                              BITE_OUT_OF_RANGE,
                          "%s took %g", input->name, vanishing[k]);
            ck_assert_str_eq(error.key, input->name);
            ck_assert_ptr_nonnull(strstr(error.message, "; 0, or at least "));
        }
    }
}
END_TEST

START_TEST(invalid_words_are_refused)
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

START_TEST(invalid_sizes_are_refused)
{
    const uint32_t size = (uint32_t)sizeof(bite_cut);
    const uint32_t sizes[] = {0, 1, 16, size - 1, size + 1, 65544, UINT32_MAX};
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

/* Linear over the range of its values, 300 K to 400 K. */
static void fill_curve(bite_curve *curve, const bite_curve_input *row, uint32_t count)
{
    curve->count = count;
    for (uint32_t i = 0; i < count; i++) {
        double share = (i + 1.0) / (count + 1.0);
        curve->temperature[i] = 300.0 + 100.0 * share;
        curve->value[i] = row->least * pow(row->most / row->least, share);
    }
}

START_TEST(good_curves_are_accepted)
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

START_TEST(unordered_curves_are_refused)
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

START_TEST(invalid_point_counts_are_refused)
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
        curve_of(&cut, row)->temperature[2] = (double)NAN; /* after the last point: not used */
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

/* Random bits in any of the members: most are refused, and none does harm. */
START_TEST(random_bits_do_no_harm)
{
    uint64_t seed = 20260801;
    int accepted = 0;
    for (int i = 0; i < 40000; i++) {
        bite_cut cut = start(i % STARTS);
        /* all but the pointer to the limits of a plugin, which the library alone fills */
        size_t words = (offsetof(bite_cut, own) - offsetof(bite_cut, side)) / sizeof(uint32_t);
        for (int k = 0; k < 1 + i % 3; k++) {
            uint32_t garbage = (uint32_t)bits(&seed);
            size_t at = offsetof(bite_cut, side) + bits(&seed) % words * sizeof garbage;
            memcpy((char *)&cut + at, &garbage, sizeof garbage);
        }
        bite_error error;
        bite_verdict verdict;
        accepted += pass(&cut, "garbage", i, &error, &verdict) == BITE_OK;
    }
    ck_assert_int_gt(accepted, 100); /* random low bits of a double hardly change it */
}
END_TEST

/* ---- what comes out ---- */

START_TEST(invalid_values_are_not_an_answer)
{
    static const bite_value_id may_be_nan[] = {BITE_PART_TEMPERATURE,
                                               BITE_WALL_ERROR,
                                               BITE_ROUGHNESS_FLOOR,
                                               BITE_ROUGHNESS_WALL,
                                               BITE_STABILITY_DEPTH,
                                               BITE_TIP_FREQUENCY,
                                               BITE_HAZE,
                                               BITE_TOOL_LIFE,
                                               BITE_SURFACE_SPEED_SMALL,
                                               BITE_WALL_CLIMB,
                                               BITE_WALL_CONVENTIONAL,
                                               BITE_FLOW_TEMPERATURE,
                                               BITE_STABILITY_DEPTH_TOOL};
    bite_cut cut = start(1);
    bite_result result = bite_test_pass(&cut);
    double values[BITE_VALUE_COUNT];
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        values[i] = result.values[i].value;
    }
    ck_assert_int_eq(bite_check_values(values, 1, true, NULL), BITE_OK);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        int may_be = 0;
        for (size_t k = 0; k < sizeof may_be_nan / sizeof *may_be_nan; k++) {
            may_be |= may_be_nan[k] == (bite_value_id)i;
        }
        for (size_t k = 0; k < 3; k++) {
            bite_error error = BITE_ERROR_INIT;
            double saved = values[i];
            values[i] = hostile[k];
            ck_assert_msg(bite_check_values(values, 1, true, &error) ==
                              (may_be ? BITE_OK : BITE_NO_ANSWER),
                          "%s", bite_value_name((bite_value_id)i));
            ck_assert_str_eq(error.key, may_be ? "" : bite_value_name((bite_value_id)i));
            values[i] = saved;
        }
    }
    /* without a cutting pressure the forces are unknown */
    values[BITE_FORCE_SIDE_PEAK] = values[BITE_CHIP_TEMPERATURE] = (double)NAN;
    ck_assert_int_eq(bite_check_values(values, 1, false, NULL), BITE_OK);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("check");
    TCase *cut = tcase_create("a cut");
    tcase_set_timeout(cut, 120);
    tcase_add_test(cut, every_member_is_in_a_list);
    tcase_add_loop_test(cut, hostile_numbers_are_refused, 0, STARTS);
    tcase_add_loop_test(cut, vanishing_sizes_are_refused, 0, STARTS);
    tcase_add_loop_test(cut, invalid_words_are_refused, 0, STARTS);
    tcase_add_test(cut, invalid_sizes_are_refused);
    tcase_add_loop_test(cut, good_curves_are_accepted, 0, STARTS);
    tcase_add_loop_test(cut, hostile_points_are_refused, 0, STARTS);
    tcase_add_test(cut, unordered_curves_are_refused);
    tcase_add_test(cut, invalid_point_counts_are_refused);
    tcase_add_test(cut, random_bits_do_no_harm);
    tcase_add_test(cut, invalid_values_are_not_an_answer);
    suite_add_tcase(suite, cut);
    return bite_test_run(suite);
}
