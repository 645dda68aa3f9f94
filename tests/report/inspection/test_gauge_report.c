/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a report says of the readings of several persons: a gauge study, or why there is none. */
#include "core/inspection/inspection_result.h"
#include "tests/inspection/measured_record.h"
#include "tests/report/report_output.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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

static void person_reads(uint32_t part, uint32_t trial, const char *person, double value)
{
    bite_reading *reading = measured_reading(made, part, value);
    reading->trial = trial;
    reading->person = person;
}

/* Readings of `persons` persons, `trials` of each part, that differ by some um. `crossed`: the
 * second person reads odd parts larger, which is an interaction. */
static void study(uint32_t persons, uint32_t parts, uint32_t trials, double crossed)
{
    static const char *const names[] = {"Ann", "Ben", "Cyd"};
    ck_assert_uint_le(persons, 3);
    for (uint32_t i = 0; i < persons * parts * trials; i++) {
        uint32_t person = i % persons;
        uint32_t part = i / persons % parts;
        uint32_t trial = i / (persons * parts);
        double value = 10.0 + 0.01 * (part * 7 % 5) + 0.001 * (trial * 3 % 4) + 0.0005 * person +
                       (person == 1 && part % 2 == 1 ? crossed : 0.0);
        person_reads(part + 1, trial + 1, names[person], value);
    }
}

START_TEST(a_study_by_ranges_is_of_few_parts)
{
    static const struct {
        uint32_t parts;
        int by_ranges;
    } cases[] = {{5, 1}, {120, 0}};
    for (size_t i = 0; i < 2; i++) {
        begin();
        measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
        study(2, cases[i].parts, 3, 0.0);
        report(BITE_TEXT, BITE_METRIC);
        has("gauge repeatability and reproducibility ");
        if (cases[i].by_ranges) {
            lacks(" - % by ranges");
            lacks("told apart by variance");
        } else {
            lacks(" by ranges");
            lacks("and 0 parts");
        }
        has(" parts told apart");
        report(BITE_HTML, BITE_METRIC);
        has("Gauge study of bore: 2 persons, ");
        if (cases[i].by_ranges) {
            has(" by variance, ");
        } else {
            has("<td class=\"n\">-</td><td class=\"n\">-</td>");
            lacks(" by ranges. ");
        }
        end();
    }
}
END_TEST

START_TEST(an_interaction_is_not_pooled)
{
    for (int crossed = 0; crossed <= 1; crossed++) {
        begin();
        measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, NONE, 0.002);
        study(3, 6, 3, crossed ? 0.02 : 0.0);
        report(BITE_HTML, BITE_METRIC);
        if (crossed) {
            has("<th scope=\"row\">persons x parts</th>");
            lacks("is pooled with the repeatability");
        } else {
            lacks("persons x parts");
            has("is pooled with the repeatability");
        }
        end();
    }
}
END_TEST

START_TEST(why_there_is_no_study)
{
    static const struct {
        uint32_t persons;
        uint32_t parts;
        uint32_t trials;
        const char *because;
    } cases[] = {{1, 5, 2, "readings of two or more persons are needed"},
                 {2, 1, 2, "two or more parts are needed"},
                 {2, 5, 1, "every person must read every part at least twice"},
                 {2, 5, 2, NULL},
                 {2, 1001, 1, "at most 100 persons and 1000 parts are studied"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        begin();
        measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
        study(cases[i].persons, cases[i].parts, cases[i].trials, 0.0);
        report(BITE_JSON, BITE_METRIC);
        json_t *root = report_output_json(&output);
        const json_t *because = report_member(root, "characteristics.0.gauge_study.none_because");
        ck_assert_pstr_eq(json_string_value(because), cases[i].because);
        json_decref(root);
        end();
    }
}
END_TEST

START_TEST(uneven_readings_are_no_study)
{
    begin();
    measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
    study(2, 4, 2, 0.0);
    person_reads(1, 3, "Ann", 10.002);
    report(BITE_JSON, BITE_METRIC);
    json_t *root = report_output_json(&output);
    ck_assert_str_eq(report_text(root, "characteristics.0.gauge_study.none_because"),
                     "every person must read every part equally often");
    json_decref(root);
    person_reads(5, 1, "Ann", 10.002); /* a part that the other has not read */
    report(BITE_JSON, BITE_METRIC);
    root = report_output_json(&output);
    ck_assert_str_eq(report_text(root, "characteristics.0.gauge_study.none_because"),
                     "every person must read every part at least twice");
    json_decref(root);
    end();
}
END_TEST

START_TEST(more_persons_than_are_studied)
{
    static char names[101][8];
    begin();
    measured_characteristic(made, "bore", BITE_MEASURED_INSIDE, 10.0, 9.9, 10.1, 0.002);
    for (uint32_t i = 0; i < 101; i++) {
        (void)snprintf(names[i], sizeof names[i], "P%u", i);
        person_reads(1, 1, names[i], 10.0);
        person_reads(2, 1, names[i], 10.01);
    }
    report(BITE_JSON, BITE_METRIC);
    json_t *root = report_output_json(&output);
    ck_assert_str_eq(report_text(root, "characteristics.0.gauge_study.none_because"),
                     "at most 100 persons and 1000 parts are studied");
    json_decref(root);
    report(BITE_HTML, BITE_METRIC); /* 100 of them are listed */
    has("P98, P99.</p>");
    end();
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("gauge_report");
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, a_study_by_ranges_is_of_few_parts);
    tcase_add_test(tests, an_interaction_is_not_pooled);
    tcase_add_test(tests, why_there_is_no_study);
    tcase_add_test(tests, uneven_readings_are_no_study);
    tcase_add_test(tests, more_persons_than_are_studied);
    Suite *suite = suite_create("gauge_report");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
