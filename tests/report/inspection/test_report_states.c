/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a report says of the state of a record: damage, sizes with one limit, decimals, offsets of
 * the next cut. */
#include "core/inspection/inspection_result.h"
#include "tests/inspection/measured_record.h"
#include "tests/report/report_output.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MM 1e-3
#define UM 1e-6
#define NONE ((double)NAN)

static measured_record *made;
static report_output output;

static void begin(void)
{
    made = measured_record_new();
}

static void end(void)
{
    report_output_free(&output);
    free(made);
}

static void report(uint32_t format, uint32_t units)
{
    bite_style style = report_style(format, units);
    bite_error error = BITE_ERROR_INIT;
    report_output_free(&output);
    ck_assert_msg(bite_record_report_write(&made->record, &style, report_output_add, &output,
                                           &error) == BITE_OK,
                  "%s", error.message);
}

static void has(const char *words)
{
    report_output_has(&output, words);
}

static void lacks(const char *words)
{
    report_output_lacks(&output, words);
}

/* ---- the record ---- */

START_TEST(damage_is_told)
{
    static bite_record_damage damages[] = {
        {31, 31, 33, 0, "the checksum of the line is wrong", "hint"},
        {35, 36, 37, 1, "lines 35 to 36 are missing before this one", "hint"}};
    begin();
    measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
    measured_reading(made, 1, 10.0);
    made->record.count = 1.0;
    made->record.damages = damages;
    made->record.damage_count = 2;
    made->record.torn_line = 40;
    report(BITE_HTML, BITE_METRIC);
    has("<li>Line 33: the checksum of the line is wrong (not settled)</li>");
    has("<li>Line 37: lines 35 to 36 are missing before this one (settled)</li>");
    has("1 place of the record cannot be read, and nobody has settled it");
    has("The last line of the record was cut off and does not count.");
    has("NOT PROVEN");
    report(BITE_TEXT, BITE_METRIC);
    has("NOT PROVEN");
    has("1 of 1 part was measured.");
    damages[0].settled = 1;
    report(BITE_TEXT, BITE_METRIC);
    has("CONFORMS");
    lacks("cannot be read");
    end();
}
END_TEST

/* More characteristics than the first sheet has rows for stand on the second. */
START_TEST(many_characteristics)
{
    begin();
    for (uint32_t i = 0; i < 16; i++) {
        measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
        measured_reading(made, 1, 10.0);
    }
    report(BITE_HTML, BITE_METRIC);
    has("<h3>Characteristics</h3>");
    const char *results = strstr(output.text, "id=\"results\"");
    const char *table = strstr(output.text, "Characteristic Designator");
    ck_assert_ptr_nonnull(results);
    ck_assert(table > results);
    ck_assert_ptr_null(strstr(table + 1, "Characteristic Designator"));
    end();
}
END_TEST

/* The parts of a large lot are drawn as far as marks can be told apart. */
START_TEST(more_parts_than_are_drawn)
{
    begin();
    measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
    for (uint32_t part = 1; part <= 1600; part++) {
        measured_reading(made, part, 10.0 + 0.001 * (part % 7));
    }
    report(BITE_HTML, BITE_METRIC);
    has("1600 parts, 1600 readings.");
    has("; the first 1500 parts are drawn.");
    end();
}
END_TEST

/* What no temperature uncertainty is stated for has that of the corrections: 1 K either way, any
 * value as likely, 1/sqrt(3) = 0.577 K. */
START_TEST(the_uncertainty_of_temperatures_is_the_one_that_counts)
{
    begin();
    measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
    measured_reading(made, 1, 10.0)->temperature = 295.15;
    report(BITE_HTML, BITE_METRIC);
    has("Parts at 22.0 degC to 22.0 degC (standard uncertainty of a temperature 0.577 K)");
    report(BITE_JSON, BITE_METRIC);
    json_t *root = report_output_json(&output);
    bite_assert_near(report_number(root, "environment.temperature_uncertainty"), 1.0 / sqrt(3.0),
                     1e-5); /* six digits are written */
    json_decref(root);
    made->record.temperature_uncertainty = 0.25;
    report(BITE_HTML, BITE_INCH);
    has("Parts at 71.6 degF to 71.6 degF (standard uncertainty of a temperature 0.25 K)");
    made->readings[0].temperature = NONE;
    report(BITE_JSON, BITE_METRIC);
    root = report_output_json(&output);
    ck_assert(json_is_null(report_member(root, "environment.temperature_uncertainty")));
    json_decref(root);
    end();
}
END_TEST

/* ---- limits, sizes, process ---- */

START_TEST(one_limit)
{
    begin();
    measured_characteristic(made, "depth", BITE_MEASURED_DEPTH, 5.0, 4.9, NONE, 0.002);
    for (uint32_t part = 1; part <= 12; part++) {
        measured_reading(made, part, 5.0 + 0.01 * (part % 5));
    }
    report(BITE_TEXT, BITE_METRIC);
    has("limits at least 4.900 mm; mean 5.019, least 5.000, most 5.040");
    has("Cpk ");
    has("parts in order of number");
    report(BITE_HTML, BITE_METRIC);
    has("<td class=\"tight\">part number</td><td class=\"n\">-</td>"); /* no Cp of one limit */
    for (size_t i = 0; i < made->record.reading_count; i++) {
        made->readings[i].time = 1.0e9 + 60.0 * (double)(made->record.reading_count - i);
    }
    report(BITE_TEXT, BITE_METRIC);
    has("parts in order of time");
    report(BITE_HTML, BITE_METRIC);
    has("part, in the order of time");
    end();
}
END_TEST

/* Without an uncertainty nothing is proven, and no risk can be told. */
START_TEST(no_uncertainty)
{
    begin();
    measured_characteristic(made, "width", BITE_MEASURED_OUTSIDE, 5.0, 4.9, 5.1, NONE);
    for (uint32_t part = 1; part <= 12; part++) {
        measured_reading(made, part, 5.0 + 0.01 * (part % 5));
    }
    report(BITE_TEXT, BITE_METRIC);
    has("NOT PROVEN");
    has("guard band -, uncertainty of a reading -; least chance that a part conforms -");
    report(BITE_HTML, BITE_METRIC);
    has("; the uncertainty is not known, so nothing is proven.");
    has("the uncertainty of the readings is not known (prior unknown)");
    has("<td class=\"n\">-</td><td class=\"n\">-</td><td class=\"n\">-</td></tr>");
    measured_reading(made, 13, 5.2); /* what lies outside does not conform by the reading itself */
    report(BITE_TEXT, BITE_METRIC);
    has("NOT PROVEN");
    end();
}
END_TEST

/* Digits end where a size has no more of them to show; a huge one keeps nine. */
START_TEST(large_and_fine_sizes)
{
    begin();
    measured_characteristic(made, "way", BITE_MEASURED_OUTSIDE, 10.0, NONE, NONE, NONE);
    measured_reading(made, 1, 1e19);
    report(BITE_TEXT, BITE_METRIC);
    has("limits no limits: reported only; mean 1e+19, ");
    end();
    begin();
    measured_characteristic(made, "gauge", BITE_MEASURED_OUTSIDE, 10.0, 9.9995, 10.0005, 0.00002);
    measured_reading(made, 1, 10.0001);
    report(BITE_TEXT, BITE_METRIC);
    has("limits 9.99950 to 10.00050 mm; mean 10.00010,");
    has("guard band 0.033 um, uncertainty of a reading 0.02 um");
    end();
    begin(); /* 15/64 in has no end of decimals as mm, nor 0.1 mm as inches */
    measured_characteristic(made, "hole", BITE_MEASURED_INSIDE, 5.953125, 5.853125, NONE, NONE);
    measured_reading(made, 1, 5.9);
    report(BITE_TEXT, BITE_METRIC);
    has("limits at least 5.853 mm; mean 5.900,");
    report(BITE_TEXT, BITE_INCH);
    has("limits at least 0.2304 in; mean 0.2323,");
    made->characteristics[0].resolution = 1e-6; /* each digit of a display is shown */
    made->readings[0].value_20 = 5.9004 * MM;
    report(BITE_TEXT, BITE_METRIC);
    has("limits at least 5.853 mm; mean 5.900,");
    end();
}
END_TEST

/* ---- the next cut ---- */

static void several(double first, double step, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        measured_reading(made, i + 1, first + step * i);
    }
}

/* By hand. Outside, 10.06 of 10 mm: 0.06 too large, 30 um on each of two walls: the radius is
 * offset by -30 um, the diameter by -60. Inside, 9.94: the same material is left. Depth 4.97 of 5:
 * the floor is 30 um too high: the tool goes down by 30 um. */
START_TEST(offsets_in_words)
{
    static const struct {
        bite_measured measures;
        double nominal;
        double value;
        double wall[2]; /* um, predicted */
        const char *mean;
        const char *match;
        const char *next;
    } cases[] = {
        {BITE_MEASURED_OUTSIDE,
         10.0,
         10.06,
         {20, 40},
         "the mean is 10.060 mm, +0.060 mm from the target of 10.000 mm (standard uncertainty 4 "
         "um), that is 30 um of material left on each wall.",
         "The wall error predicted for the pass, 20 um to 40 um, covers it: the cut bends as "
         "calculated.",
         "Next cut: add -0.030 mm to the wear offset of the tool's radius, or -0.060 mm if the "
         "control takes the diameter."},
        {BITE_MEASURED_INSIDE,
         10.0,
         9.94,
         {2, 5},
         "-0.060 mm from the target of 10.000 mm (standard uncertainty 4 um), that is 30 um of "
         "material left on each wall.",
         "The wall error predicted for the pass, 2 um to 5 um, does not cover it: 25 um on each "
         "wall come from the tool's size, its wear or its runout.",
         "Next cut: add -0.030 mm to the wear offset of the tool's radius, or -0.060 mm if"},
        {BITE_MEASURED_OUTSIDE,
         10.0,
         9.94,
         {2, 28},
         "that is 30 um of material taken too much on each wall.",
         "It is 2 um more than the wall error predicted for the pass, 2 um to 28 um, which is "
         "within its uncertainty.",
         "Next cut: add +0.030 mm to the wear offset of the tool's radius, or +0.060 mm if"},
        {BITE_MEASURED_DEPTH,
         5.0,
         4.97,
         {2, 5},
         "that is 30 um of material left on the floor or face.",
         NULL,
         "Next cut: add -0.030 mm to the wear offset of the tool's length. Positive lifts the "
         "tool: floors and faces rise."},
        {BITE_MEASURED_HEIGHT,
         5.0,
         5.003,
         {2, 5},
         "that is 3 um of material left on the floor or face.",
         NULL,
         "Next cut: leave the offset as it is; the deviation is not beyond twice its uncertainty"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        begin();
        bite_characteristic *size =
            measured_characteristic(made, "size", cases[i].measures, cases[i].nominal,
                                    cases[i].nominal - 0.1, cases[i].nominal + 0.1, 0.004);
        size->wall_error_low = cases[i].wall[0] * UM;
        size->wall_error_high = cases[i].wall[1] * UM;
        several(cases[i].value, 0.0, 3);
        report(BITE_TEXT, BITE_METRIC);
        has(cases[i].mean);
        has(cases[i].next);
        has("Spread from part to part: 0 um (standard deviation), of which 0 um is more than the "
            "instrument explains.");
        if (cases[i].match != NULL) {
            has(cases[i].match);
        } else {
            lacks("wall error predicted");
        }
        lacks("drifts");
        end();
    }
}
END_TEST

/* Each part is 2 um smaller: a wearing tool of an inside size. One part alone has no spread. */
START_TEST(a_drift_is_told_and_one_part_has_none)
{
    begin();
    measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.0005);
    several(10.0, -0.002, 10);
    report(BITE_TEXT, BITE_METRIC);
    has("The size drifts by -2 um with each part, more than three times the uncertainty of that");
    has("The next part would have 9.980 mm.");
    made->record.reading_count = 1;
    report(BITE_TEXT, BITE_METRIC);
    lacks("Spread from part to part");
    lacks("drifts");
    has("1 part measured;");
    end();
}
END_TEST

/* A size of a pass that is proven either way is an observed cut; its line has as many columns. */
START_TEST(observed_cuts)
{
    begin();
    made->record.material = "acrylic/cast, \"clear\"";
    made->record.machine = "bench-24k";
    made->record.job = "plate.ini";
    bite_characteristic *size =
        measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
    several(10.0, 0.0, 3);
    report(BITE_HTML, BITE_METRIC);
    lacks("Observed cuts"); /* the pass is not stated */
    size->pass = 3;
    size->tool = "2 mm";
    report(BITE_HTML, BITE_METRIC);
    has("<code>M1,A,acrylic/cast clear ,2,,,,,,,,,bench-24k,ok,square,,measured: plate.ini,,,"
        "</code>");
    size->tool = "tmf-1";
    made->record.machine = "the big one";
    made->record.report_number = "R-9";
    made->readings[0].value = made->readings[0].value_20 = 10.5 * MM;
    report(BITE_HTML, BITE_METRIC);
    has("<code>M1,A,acrylic/cast clear ,,,,,,,,,,,size_error,square,,measured: R-9,,,</code>");
    made->readings[0].value = made->readings[0].value_20 = 10.1 * MM; /* in the guard band */
    report(BITE_HTML, BITE_METRIC);
    lacks("Observed cuts");
    end();
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("report_states");
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, damage_is_told);
    tcase_add_test(tests, many_characteristics);
    tcase_add_test(tests, more_parts_than_are_drawn);
    tcase_add_test(tests, the_uncertainty_of_temperatures_is_the_one_that_counts);
    tcase_add_test(tests, one_limit);
    tcase_add_test(tests, no_uncertainty);
    tcase_add_test(tests, large_and_fine_sizes);
    tcase_add_test(tests, offsets_in_words);
    tcase_add_test(tests, a_drift_is_told_and_one_part_has_none);
    tcase_add_test(tests, observed_cuts);
    Suite *suite = suite_create("report_states");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
