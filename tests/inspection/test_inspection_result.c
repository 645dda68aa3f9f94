/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a record proves: findings at guard bands, of parts and lots, spreads, gauge studies, and the
 * offsets of the next cut. */
#include "core/inspection/inspection_result.h"
#include "tests/inspection/measured_record.h"
#include "tests/statistics/reference_readings.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MM 1e-3
#define UM 1e-6
static const double nan_ = (double)NAN;

static bite_inspection *judged(const measured_record *made)
{
    bite_inspection *inspection = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_inspection_new(&made->record, &inspection, &error), BITE_OK);
    return inspection;
}

/* A record with one characteristic of 3.00 +- 0.05 mm, read with u = 0.005 mm. */
static measured_record *three_millimetres(double lower, double upper, double uncertainty)
{
    measured_record *made = measured_record_new();
    measured_characteristic(made, "size", BITE_MEASURED_OUTSIDE, 3.0, lower, upper, uncertainty);
    return made;
}

static uint32_t finding_of(double lower, double upper, double uncertainty, double reading)
{
    measured_record *made = three_millimetres(lower, upper, uncertainty);
    measured_reading(made, 1, reading);
    bite_inspection *inspection = judged(made);
    uint32_t finding = inspection->readings[0].finding;
    ck_assert_uint_eq(inspection->finding, finding);
    ck_assert_uint_eq(inspection->characteristics[0].finding, finding);
    ck_assert_uint_eq(inspection->parts[0].finding, finding);
    bite_inspection_free(inspection);
    free(made);
    return finding;
}

/* 3.00 +- 0.05 mm, u = 0.005 mm: accepted between 2.9582 and 3.0418 (published example, see
 * tests/statistics). */
START_TEST(guard_bands_decide_on_two_sides_and_on_one)
{
    ck_assert_uint_eq(finding_of(2.95, 3.05, 0.005, 2.9583), BITE_FINDING_CONFORMS);
    ck_assert_uint_eq(finding_of(2.95, 3.05, 0.005, 2.9581), BITE_FINDING_NOT_PROVEN);
    ck_assert_uint_eq(finding_of(2.95, 3.05, 0.005, 2.9419), BITE_FINDING_NOT_PROVEN);
    ck_assert_uint_eq(finding_of(2.95, 3.05, 0.005, 2.9417), BITE_FINDING_DOES_NOT);
    ck_assert_uint_eq(finding_of(2.95, 3.05, 0.005, 3.0417), BITE_FINDING_CONFORMS);
    ck_assert_uint_eq(finding_of(2.95, 3.05, 0.005, 3.0419), BITE_FINDING_NOT_PROVEN);
    ck_assert_uint_eq(finding_of(nan_, 3.05, 0.005, 1.0), BITE_FINDING_CONFORMS);
    ck_assert_uint_eq(finding_of(nan_, 3.05, 0.005, 3.06), BITE_FINDING_DOES_NOT);
    ck_assert_uint_eq(finding_of(2.95, nan_, 0.005, 2.951), BITE_FINDING_NOT_PROVEN);
    ck_assert_uint_eq(finding_of(2.95, nan_, 0.005, 9.0), BITE_FINDING_CONFORMS);
    ck_assert_uint_eq(finding_of(nan_, nan_, 0.005, 3.0), BITE_FINDING_NONE);
    /* without an uncertainty nothing is proven, not even the grossest fault */
    ck_assert_uint_eq(finding_of(2.95, 3.05, nan_, 3.0), BITE_FINDING_NOT_PROVEN);
    ck_assert_uint_eq(finding_of(2.95, 3.05, nan_, 9.0), BITE_FINDING_NOT_PROVEN);
}
END_TEST

/* JCGM 106, 7.4: y = 13.6, u = 1.8, limits 12.5 and 16.3: 0.6626. */
START_TEST(the_chance_is_the_published_one)
{
    measured_record *made = three_millimetres(12.5, 16.3, 1.8);
    measured_reading(made, 1, 13.6);
    bite_inspection *inspection = judged(made);
    ck_assert_double_eq_tol(inspection->readings[0].chance, 0.66263, 5e-6);
    ck_assert(isnan(inspection->readings[0].chance_known));
    ck_assert_uint_eq(inspection->characteristics[0].spread, BITE_SPREAD_FEW);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

/* With a prior the chance is that of the product of two normals, integrated here in steps. */
START_TEST(what_the_other_parts_show_moves_the_chance)
{
    measured_record *made = three_millimetres(2.95, 3.05, 0.01);
    for (int i = 0; i < 30; i++) {
        measured_reading(made, (uint32_t)i + 1, 3.0 + 0.02 * sin(1.7 * i));
    }
    made->readings[0].value_20 = 3.045 * MM;
    bite_inspection *inspection = judged(made);
    const bite_characteristic_result *result = &inspection->characteristics[0];
    ck_assert_uint_eq(result->spread, BITE_SPREAD_KNOWN);
    double mean = result->moments.mean / MM;
    double spread = sqrt(result->moments.deviation * result->moments.deviation / MM / MM - 1e-4);
    double in = 0.0;
    double all = 0.0;
    for (double size = 2.8; size < 3.2; size += 1e-6) {
        double a = (size - mean) / spread;
        double b = (size - 3.045) / 0.01;
        double weight = exp(-0.5 * (a * a + b * b));
        all += weight;
        in += size >= 2.95 && size <= 3.05 ? weight : 0.0;
    }
    ck_assert_double_eq_tol(inspection->readings[0].chance_known, in / all, 1e-4);
    ck_assert_double_gt(inspection->readings[0].chance_known, inspection->readings[0].chance);
    ck_assert(result->has_risk);
    ck_assert_double_gt(result->risk.false_reject, result->risk.false_accept);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

START_TEST(a_gauge_that_hides_the_parts_leaves_the_prior_unknown)
{
    measured_record *made = three_millimetres(2.95, 3.05, 0.02);
    for (uint32_t i = 0; i < 12; i++) {
        measured_reading(made, i + 1, 3.0 + 0.001 * (i % 3));
    }
    bite_inspection *inspection = judged(made);
    ck_assert_uint_eq(inspection->characteristics[0].spread, BITE_SPREAD_HIDDEN);
    ck_assert(!inspection->characteristics[0].has_risk);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

/* A repeat may be another place of the part: the worst counts, the mean does not excuse it. */
START_TEST(the_worst_reading_of_a_part_decides)
{
    measured_record *made = three_millimetres(2.95, 3.05, 0.005);
    measured_reading(made, 1, 2.90);
    measured_reading(made, 1, 3.03)->trial = 2;
    measured_reading(made, 1, 3.03)->trial = 3;
    measured_reading(made, 2, 3.00);
    bite_inspection *inspection = judged(made);
    const bite_characteristic_result *result = &inspection->characteristics[0];
    ck_assert_uint_eq(result->part_count, 2);
    ck_assert_uint_eq(result->parts[0].finding, BITE_FINDING_DOES_NOT);
    ck_assert_double_eq_tol(result->parts[0].value, 2.98666667 * MM, 1e-10);
    ck_assert_uint_eq(result->parts[1].finding, BITE_FINDING_CONFORMS);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_DOES_NOT);
    ck_assert_uint_eq(inspection->found[BITE_FINDING_DOES_NOT], 1);
    ck_assert_uint_eq(inspection->found[BITE_FINDING_CONFORMS], 1);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

START_TEST(readings_that_do_not_stand_are_counted_and_do_not_judge)
{
    measured_record *made = three_millimetres(2.95, 3.05, 0.005);
    measured_reading(made, 1, 9.0)->state = BITE_READING_REPLACED;
    measured_reading(made, 1, 3.0);
    measured_reading(made, 2, 9.0)->state = BITE_READING_WITHDRAWN;
    bite_reading *skipped = measured_reading(made, 2, nan_);
    skipped->state = BITE_READING_SKIPPED;
    made->record.count = 2.0;
    bite_inspection *inspection = judged(made);
    ck_assert_uint_eq(inspection->stands, 1);
    ck_assert_uint_eq(inspection->replaced, 1);
    ck_assert_uint_eq(inspection->withdrawn, 1);
    ck_assert_uint_eq(inspection->skipped, 1);
    ck_assert_uint_eq(inspection->part_count, 1);
    ck_assert_uint_eq(inspection->missing, 1);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_INCOMPLETE);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

/* Of 12 parts each 5th is measured: 1, 6, 11, and the last. */
START_TEST(fewer_parts_than_planned_are_not_complete)
{
    measured_record *made = three_millimetres(2.95, 3.05, 0.005);
    made->characteristics[0].every = 5;
    made->record.count = 12.0;
    measured_reading(made, 1, 3.0);
    measured_reading(made, 2, 3.0); /* not planned */
    measured_reading(made, 6, 3.0);
    measured_reading(made, 12, 3.0);
    bite_inspection *inspection = judged(made);
    ck_assert_uint_eq(inspection->characteristics[0].planned, 4);
    ck_assert_uint_eq(inspection->characteristics[0].missing, 1);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_INCOMPLETE);
    bite_inspection_free(inspection);
    measured_reading(made, 11, 3.0);
    inspection = judged(made);
    ck_assert_uint_eq(inspection->characteristics[0].missing, 0);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_CONFORMS);
    bite_inspection_free(inspection);
    free(made);
    ck_assert_uint_eq(bite_planned_parts(1.0, 5), 1);
    ck_assert_uint_eq(bite_planned_parts(11.0, 5), 3);
    ck_assert_uint_eq(bite_planned_parts(nan_, 5), 0);
    ck_assert_uint_eq(bite_planned_parts(1e300, 5), 0);
}
END_TEST

/* Without a count of parts too, a part that lacks a size leaves the lot incomplete. */
START_TEST(a_part_that_lacks_a_size_is_not_complete)
{
    measured_record *made = three_millimetres(2.95, 3.05, 0.005);
    measured_reading(made, 1, 3.0);
    measured_reading(made, 2, 3.0);
    measured_characteristic(made, "other", BITE_MEASURED_OUTSIDE, 3.0, 2.95, 3.05, 0.005);
    measured_reading(made, 1, 3.0);
    bite_inspection *inspection = judged(made);
    ck_assert_uint_eq(inspection->parts[0].finding, BITE_FINDING_CONFORMS);
    ck_assert_uint_eq(inspection->parts[1].finding, BITE_FINDING_INCOMPLETE);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_INCOMPLETE);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

START_TEST(a_damaged_record_proves_no_conformity)
{
    measured_record *made = three_millimetres(2.95, 3.05, 0.005);
    bite_record_damage damage = {7, 7, 7, 0, "a checksum is wrong", ""};
    measured_reading(made, 1, 3.0);
    made->record.damages = &damage;
    made->record.damage_count = 1;
    bite_inspection *inspection = judged(made);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_NOT_PROVEN);
    ck_assert_uint_eq(inspection->unsettled, 1);
    bite_inspection_free(inspection);
    damage.settled = 1;
    inspection = judged(made);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_CONFORMS);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

START_TEST(an_empty_record_is_not_judged)
{
    measured_record *made = measured_record_new();
    bite_inspection *inspection = judged(made);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_NONE);
    bite_inspection_free(inspection);
    measured_characteristic(made, "size", BITE_MEASURED_OUTSIDE, 3.0, 2.95, 3.05, 0.005);
    made->record.count = 4.0;
    inspection = judged(made);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_NONE);
    ck_assert_uint_eq(inspection->missing, 4);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

START_TEST(what_is_judged_by_eye_has_no_chance)
{
    measured_record *made = measured_record_new();
    bite_characteristic *clear =
        measured_characteristic(made, "clear", BITE_MEASURED_APPEARANCE, nan_, nan_, nan_, nan_);
    clear->judged = 1;
    measured_reading(made, 1, 1000.0); /* 1: accepted */
    measured_reading(made, 2, 0.0);
    bite_inspection *inspection = judged(made);
    ck_assert_uint_eq(inspection->parts[0].finding, BITE_FINDING_CONFORMS);
    ck_assert_uint_eq(inspection->parts[1].finding, BITE_FINDING_DOES_NOT);
    ck_assert(isnan(inspection->readings[0].chance));
    ck_assert(!inspection->characteristics[0].has_capability);
    ck_assert_uint_eq(inspection->characteristics[0].offset.kind, BITE_OFFSET_NONE);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

/* The readings of a published study as a record, in the order of the trials: they are put in order
 * by person, part and trial. */
START_TEST(a_record_of_a_gauge_study_gives_the_published_shares)
{
    static const char *const names[] = {"A", "B", "C"};
    measured_record *made = three_millimetres(nan_, nan_, 0.001);
    for (uint32_t trial = 0; trial < 3; trial++) {
        for (uint32_t person = 0; person < 3; person++) {
            for (uint32_t part = 10; part > 0; part--) {
                bite_reading *reading = measured_reading(
                    made, part, 10.0 + gauge_with_parts[(person * 10 + part - 1) * 3 + trial]);
                reading->person = names[person];
                reading->trial = trial + 1;
            }
        }
    }
    bite_inspection *inspection = judged(made);
    const bite_gauge_result *gauge = &inspection->characteristics[0].gauge;
    ck_assert_uint_eq(gauge->state, BITE_GAUGE_STUDIED);
    ck_assert_uint_eq(gauge->persons, 3);
    ck_assert_uint_eq(gauge->parts, 10);
    ck_assert_uint_eq(gauge->trials, 3);
    ck_assert_double_eq_tol(100.0 * gauge->variance.gauge.share, 27.86, 0.005);
    ck_assert_uint_eq(gauge->variance.categories, 4);
    ck_assert_double_eq_tol(100.0 * gauge->ranges.gauge.share, 26.68, 0.005);
    ck_assert_uint_eq(gauge->ranges.categories, 5);
    bite_inspection_free(inspection);
    made->readings[5].state = BITE_READING_WITHDRAWN;
    inspection = judged(made);
    ck_assert_uint_eq(inspection->characteristics[0].gauge.state, BITE_GAUGE_UNEVEN);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

START_TEST(capability_follows_the_order_of_time)
{
    measured_record *made = three_millimetres(2.9, 3.1, 0.001);
    for (uint32_t i = 0; i < 12; i++) { /* read in the order 12, 11 ..: by number it would jump */
        static const double values[] = {1, 7, 2, 8, 3, 9, 4, 10, 5, 11, 6, 12};
        bite_reading *reading = measured_reading(made, i + 1, 3.0 + 0.001 * values[i]);
        reading->time = 1e9 + values[i];
    }
    bite_inspection *inspection = judged(made);
    const bite_characteristic_result *result = &inspection->characteristics[0];
    ck_assert_uint_eq(result->by_time, 1);
    ck_assert_uint_eq(result->parts[1].part, 3);
    ck_assert(result->has_capability);
    /* one micrometre from part to part: its mean over d2 = 2/sqrt(pi) */
    ck_assert_double_eq_tol(result->capability.within, 1.0 * UM * sqrt(M_PI) / 2.0, 1e-12);
    made->readings[3].time = nan_;
    bite_inspection_free(inspection);
    inspection = judged(made);
    ck_assert_uint_eq(inspection->characteristics[0].by_time, 0);
    ck_assert_uint_eq(inspection->characteristics[0].parts[1].part, 2);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

/* Readings of a list have one time: then the number of the part is the order. One reading of an
 * uncertainty that is not known leaves that of the size unknown. */
START_TEST(equal_times_and_unequal_uncertainties)
{
    measured_record *made = three_millimetres(2.9, 3.1, 0.001);
    for (uint32_t part = 12; part > 0; part--) {
        measured_reading(made, part, 3.0 + 0.001 * part)->time = 1e9;
    }
    bite_inspection *inspection = judged(made);
    const bite_characteristic_result *result = &inspection->characteristics[0];
    ck_assert_uint_eq(result->by_time, 1);
    for (uint32_t i = 0; i < 12; i++) {
        ck_assert_uint_eq(result->parts[i].part, i + 1);
    }
    bite_assert_near(result->uncertainty, 1.0 * UM, 1e-9);
    bite_inspection_free(inspection);
    made->readings[5].uncertainty_20 = nan_;
    inspection = judged(made);
    ck_assert_double_nan(inspection->characteristics[0].uncertainty);
    ck_assert_double_nan(inspection->characteristics[0].guard);
    ck_assert_uint_eq(inspection->characteristics[0].found[BITE_FINDING_NOT_PROVEN], 1);
    ck_assert_uint_eq(inspection->characteristics[0].found[BITE_FINDING_CONFORMS], 11);
    ck_assert_uint_eq(inspection->finding, BITE_FINDING_NOT_PROVEN);
    bite_inspection_free(inspection);
    free(made);
}
END_TEST

static bite_wear_offset offset_of(bite_measured measures, const double *parts, size_t count)
{
    bite_wear_offset offset;
    const bite_offset_question question = {parts,     count,    measures, 10.0 * MM, 9.9 * MM,
                                           10.1 * MM, 1.0 * UM, 5.0 * UM, 2.0 * UM,  8.0 * UM};
    bite_wear_offset_of(&question, &offset);
    return offset;
}

/* An outside size that is too large and an inside size that is too small have material left: both
 * need the same, less radius. */
START_TEST(offsets_have_the_sign_of_a_control)
{
    const double large[] = {10.041 * MM, 10.039 * MM, 10.040 * MM};
    const double small[] = {9.961 * MM, 9.959 * MM, 9.960 * MM};
    bite_wear_offset offset = offset_of(BITE_MEASURED_OUTSIDE, large, 3);
    ck_assert_double_eq_tol(offset.left, 20.0 * UM, 1e-9);
    ck_assert_double_eq_tol(offset.radius, -20.0 * UM, 1e-9);
    ck_assert_double_eq_tol(offset.diameter, -40.0 * UM, 1e-9);
    ck_assert(isnan(offset.length));
    ck_assert_uint_eq(offset.match, BITE_MATCH_BEYOND);
    ck_assert_double_eq_tol(offset.unexplained, 12.0 * UM, 1e-9);
    ck_assert_double_eq_tol(offset.spread, 1.0 * UM, 1e-9);
    offset = offset_of(BITE_MEASURED_INSIDE, small, 3);
    ck_assert_double_eq_tol(offset.left, 20.0 * UM, 1e-9);
    ck_assert_double_eq_tol(offset.radius, -20.0 * UM, 1e-9);
    offset = offset_of(BITE_MEASURED_INSIDE, large, 3);
    ck_assert_double_eq_tol(offset.radius, 20.0 * UM, 1e-9);
    offset = offset_of(BITE_MEASURED_DEPTH, small, 3); /* too shallow: the tool goes down */
    ck_assert_double_eq_tol(offset.length, -40.0 * UM, 1e-9);
    ck_assert(isnan(offset.radius));
    offset = offset_of(BITE_MEASURED_THICKNESS, large, 3);
    ck_assert_double_eq_tol(offset.length, -40.0 * UM, 1e-9);
    offset = offset_of(BITE_MEASURED_FLATNESS, large, 3);
    ck_assert_uint_eq(offset.kind, BITE_OFFSET_NONE);
}
END_TEST

START_TEST(noise_is_not_corrected_and_a_drift_is_seen)
{
    const double noise[] = {10.010 * MM, 9.985 * MM, 10.015 * MM, 9.992 * MM};
    double drift[10];
    bite_wear_offset offset = offset_of(BITE_MEASURED_OUTSIDE, noise, 4);
    ck_assert_uint_eq(offset.corrects, 0);
    ck_assert_double_eq(offset.radius, 0.0);
    ck_assert_uint_eq(offset.match, BITE_MATCH_WITHIN);
    for (int i = 0; i < 10; i++) {
        drift[i] = (10.0 + 0.002 * i + (i % 2 ? 0.0005 : -0.0005)) * MM;
    }
    offset = offset_of(BITE_MEASURED_OUTSIDE, drift, 10);
    ck_assert_uint_eq(offset.drifts, 1);
    ck_assert_double_eq_tol(offset.drift, 2.0 * UM, 0.1 * UM);
    ck_assert_double_eq_tol(offset.mean, 10.009 * MM, 1e-9);
    ck_assert_double_eq_tol(offset.expected, 10.020 * MM, 0.5 * UM); /* of the eleventh part */
    ck_assert_double_eq_tol(offset.radius, -10.0 * UM, 0.25 * UM);
    offset = offset_of(BITE_MEASURED_OUTSIDE, drift, 5);
    ck_assert(isnan(offset.drift) && offset.drifts == 0);
    offset = offset_of(BITE_MEASURED_OUTSIDE, drift, 0);
    ck_assert_uint_eq(offset.kind, BITE_OFFSET_NONE);
}
END_TEST

static bite_status judge_once(void *with, bite_error *error)
{
    bite_inspection *inspection = NULL;
    bite_status status = bite_inspection_new(with, &inspection, error);
    bite_inspection_free(inspection);
    return status;
}

START_TEST(memory_that_runs_out_is_reported)
{
    bite_test_memory memory = {0};
    measured_record *made = measured_example(BITE_METRIC);
    made->record.allocator = bite_test_allocator(&memory);
    bite_test_fail_allocations(&memory, 1000, 1, judge_once, &made->record);
    free(made);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("inspection result");
    TCase *all = tcase_create("inspection result");
    suite_add_tcase(suite, all);
    tcase_add_test(all, guard_bands_decide_on_two_sides_and_on_one);
    tcase_add_test(all, the_chance_is_the_published_one);
    tcase_add_test(all, what_the_other_parts_show_moves_the_chance);
    tcase_add_test(all, a_gauge_that_hides_the_parts_leaves_the_prior_unknown);
    tcase_add_test(all, the_worst_reading_of_a_part_decides);
    tcase_add_test(all, readings_that_do_not_stand_are_counted_and_do_not_judge);
    tcase_add_test(all, fewer_parts_than_planned_are_not_complete);
    tcase_add_test(all, a_part_that_lacks_a_size_is_not_complete);
    tcase_add_test(all, a_damaged_record_proves_no_conformity);
    tcase_add_test(all, an_empty_record_is_not_judged);
    tcase_add_test(all, what_is_judged_by_eye_has_no_chance);
    tcase_add_test(all, a_record_of_a_gauge_study_gives_the_published_shares);
    tcase_add_test(all, capability_follows_the_order_of_time);
    tcase_add_test(all, equal_times_and_unequal_uncertainties);
    tcase_add_test(all, offsets_have_the_sign_of_a_control);
    tcase_add_test(all, noise_is_not_corrected_and_a_drift_is_seen);
    tcase_add_test(all, memory_that_runs_out_is_reported);
    return bite_test_run(suite);
}
