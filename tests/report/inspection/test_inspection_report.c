/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report of a record: it contains everything of the record in each format, no text becomes
 * markup, nothing that is missing is invented, and bad calls, failing sinks and missing memory are
 * reported. */
#include "core/inspection/inspection_result.h"
#include "tests/inspection/measured_kinds.h"
#include "tests/report/job/markup_reader.h"
#include "tests/statistics/reference_readings.h"
#include "tests/support/paper.h"
#include "tests/support/support.h"
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *write_to;
static const measured_kind *write_kind;
static bite_style write_style = {.struct_size = (uint32_t)sizeof write_style, .format = BITE_HTML};

/* ---- a sink ---- */

static bite_test_paper sheet;

static bite_status written(const struct bite_record *record, bite_format format, bite_units units,
                           size_t refuse)
{
    bite_error error = BITE_ERROR_INIT;
    const bite_style style = {.struct_size = (uint32_t)sizeof style,
                              .format = (uint32_t)format,
                              .units = (uint32_t)units};
    sheet.most = 1u << 20;
    bite_test_paper_start(&sheet, refuse);
    bite_status status =
        bite_record_report_write(record, &style, bite_test_paper_take, &sheet, &error);
    ck_assert_int_eq(error.status, status);
    return status;
}

static void assert_contains(const char *what)
{
    ck_assert_msg(strstr(sheet.text, what) != NULL, "the report does not have: %s", what);
}

static void assert_lacks(const char *what)
{
    ck_assert_msg(strstr(sheet.text, what) == NULL, "the report has: %s", what);
}

static void check_markup(void)
{
    char fault[200];
    ck_assert_msg(bite_test_markup(sheet.text, fault, sizeof fault), "%s", fault);
}

static size_t times(const char *what)
{
    return bite_test_paper_times(&sheet, what);
}

START_TEST(page_contains_all_of_the_record)
{
    static const char *const said[] = {"DOES NOT CONFORM",
                                       "HI-2041",
                                       "cover lens &lt;left&gt;",
                                       "HI-2041 &amp; sheet 2",
                                       "R-0042",
                                       "PO 5521",
                                       "Corner Bench Works (made up)",
                                       "Halden Instruments (made up)",
                                       "acrylic/cast",
                                       "L-17",
                                       "All readings of this record are invented",
                                       "Part Number",
                                       "FAI Report Number",
                                       "P.O. Number",
                                       "Certificate of Conformance Number",
                                       "Inspected by",
                                       "Customer Approval",
                                       "ISO 14253-1",
                                       "JCGM 106",
                                       "length over both ends",
                                       "digits swapped",
                                       "chip under the anvil",
                                       "12 of 12 parts were measured",
                                       "Fewer readings than planned",
                                       "3 of 4",
                                       "1 reading skipped, 0 withdrawn, 1 corrected later",
                                       "feeler gauges on a surface plate",
                                       "R. Okafor, M. Lind",
                                       "Cpk",
                                       "prior",
                                       "guard band",
                                       "M1,A,acrylic/cast,3,",
                                       "counter(pages)"};
    bite_units units = (bite_units)_i;
    measured_record *made = measured_example(units);
    ck_assert_int_eq(written(&made->record, BITE_HTML, units, 0), BITE_OK);
    check_markup();
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        assert_contains(said[i]);
    }
    assert_contains(units == BITE_INCH ? "72.5 degF" : "22.5 degC");
    assert_contains(units == BITE_INCH ? "1.49409 to 1.49803 in" : "37.950 to 38.050 mm");
    assert_lacks("<script");
    ck_assert_uint_eq(times("http") - times("http-equiv"), 0);
    ck_assert_uint_eq(times("<section class=\"sheet\""), 5);
    ck_assert_uint_eq(times("<svg class=\"plot\""), 4);   /* three plots and their key */
    ck_assert_uint_eq(times("class=\"finding bad\""), 4); /* twice of the size, part, reading */
    ck_assert_uint_eq(times("Section 5 of 5."), 1);
    free(made);
}
END_TEST

START_TEST(texts_do_not_become_markup)
{
    static const char hostile[] = "<b onload=\"x\">&amp;'\x1b[31m\xe2\x80\xae \xff]]>--></title>";
    measured_record *made = measured_example(BITE_METRIC);
    const char **texts[] = {&made->record.part_name,
                            &made->record.note,
                            &made->record.customer,
                            &made->record.report_number,
                            &made->record.path,
                            &made->characteristics[0].what,
                            &made->characteristics[0].tool,
                            &made->characteristics[1].instrument_title,
                            &made->readings[0].person,
                            &made->readings[0].note,
                            &made->readings[25].note};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        *texts[i] = hostile;
    }
    ck_assert_int_eq(written(&made->record, BITE_HTML, BITE_METRIC, 0), BITE_OK);
    check_markup();
    assert_lacks("<b onload");
    assert_lacks("\x1b");
    assert_lacks("\xe2\x80\xae");
    ck_assert_int_eq(written(&made->record, BITE_QIF, BITE_METRIC, 0), BITE_OK);
    assert_lacks("<b onload");
    assert_lacks("\xff");
    ck_assert_int_eq(written(&made->record, BITE_TEXT, BITE_METRIC, 0), BITE_OK);
    ck_assert_int_eq(written(&made->record, BITE_CSV, BITE_METRIC, 0), BITE_OK);
    assert_contains("\"<b onload=\"\"x\"\">"); /* a field in quotes */
    free(made);
}
END_TEST

/* Nothing stated but the sizes: no invented number, in no format. */
START_TEST(missing_values_are_not_invented)
{
    measured_record *made = measured_record_new();
    const double nan = (double)NAN;
    measured_characteristic(made, "bare", BITE_MEASURED_COUNT, nan, nan, nan, nan);
    measured_reading(made, 1, 3.0);
    for (uint32_t format = BITE_TEXT; format <= BITE_QIF; format++) {
        if (format == BITE_SVG) {
            continue;
        }
        ck_assert_int_eq(written(&made->record, (bite_format)format, BITE_METRIC, 0), BITE_OK);
        assert_lacks("nan");
        assert_lacks("NaN");
        assert_lacks("inf");
        if (format == BITE_HTML) {
            check_markup();
            assert_contains("NOT JUDGED");
            assert_contains("no limits: reported only");
            assert_contains("No temperature was noted");
        }
    }
    made->record.reading_count = 0;
    made->record.characteristic_count = 0;
    for (uint32_t format = BITE_TEXT; format <= BITE_QIF; format++) {
        if (format != BITE_SVG) {
            ck_assert_int_eq(written(&made->record, (bite_format)format, BITE_METRIC, 0), BITE_OK);
        }
    }
    free(made);
}
END_TEST

/* ---- JSON ---- */

static json_t *parsed(void)
{
    json_error_t fault;
    json_t *root = json_loads(sheet.text, 0, &fault);
    ck_assert_msg(root != NULL, "%d: %s", fault.line, fault.text);
    return root;
}

static json_t *characteristic_of(const json_t *root, size_t index)
{
    return json_array_get(json_object_get(root, "characteristics"), index);
}

START_TEST(json_holds_what_was_found)
{
    measured_record *made = measured_example(BITE_METRIC);
    ck_assert_int_eq(written(&made->record, BITE_JSON, BITE_METRIC, 0), BITE_OK);
    json_t *root = parsed();
    ck_assert_int_eq(json_integer_value(json_object_get(root, "schema")), 1);
    ck_assert_str_eq(json_string_value(json_object_get(root, "finding")), "does not conform");
    ck_assert(json_is_null(json_object_get(json_object_get(root, "record"), "serial")));
    json_t *flatness = characteristic_of(root, 2);
    ck_assert(json_is_null(json_object_get(flatness, "lower")));
    ck_assert(json_is_null(json_object_get(flatness, "capability")));
    ck_assert(json_is_null(json_object_get(flatness, "risk")));
    ck_assert_str_eq(json_string_value(json_object_get(flatness, "finding")), "not proven");
    json_t *readings = json_object_get(characteristic_of(root, 1), "readings");
    ck_assert_uint_eq(json_array_size(readings), 14); /* also those that do not stand */
    json_t *skipped = json_array_get(readings, 13);
    ck_assert_str_eq(json_string_value(json_object_get(skipped, "state")), "skipped");
    ck_assert(json_is_null(json_object_get(skipped, "value")));
    json_t *cut = json_object_get(characteristic_of(root, 0), "next_cut");
    ck_assert_double_lt(json_real_value(json_object_get(cut, "radius_wear")), 0.0);
    ck_assert(json_is_null(json_object_get(cut, "length_wear")));
    json_decref(root);
    free(made);
}
END_TEST

static double share_of(const json_t *gauge, const char *study)
{
    const json_t *by = json_object_get(gauge, study);
    return 100.0 * json_real_value(json_object_get(json_object_get(by, "gauge"), "share"));
}

/* The published study (its source stands in reference_readings.h), moved up by 10 mm, because a
 * size is not negative. */
START_TEST(json_of_a_published_gauge_study)
{
    static const char *const names[] = {"A", "B", "C"};
    measured_record *made = measured_record_new();
    measured_characteristic(made, "size", BITE_MEASURED_OUTSIDE, 10.0, 5.0, 15.0, 0.001);
    for (size_t i = 0; i < 90; i++) {
        bite_reading *reading =
            measured_reading(made, (uint32_t)(i / 3 % 10 + 1), 10.0 + gauge_with_parts[i]);
        reading->person = names[i / 30];
        reading->trial = (uint32_t)(i % 3 + 1);
    }
    ck_assert_int_eq(written(&made->record, BITE_JSON, BITE_METRIC, 0), BITE_OK);
    json_t *root = parsed();
    const json_t *gauge = json_object_get(characteristic_of(root, 0), "gauge_study");
    const json_t *variance = json_object_get(gauge, "by_variance");
    const json_t *ranges = json_object_get(gauge, "by_ranges");
    ck_assert_double_eq_tol(share_of(gauge, "by_variance"), 27.86, 0.005);
    ck_assert_double_eq_tol(share_of(gauge, "by_ranges"), 26.68, 0.005);
    ck_assert_int_eq(json_integer_value(json_object_get(variance, "distinct_categories")), 4);
    ck_assert_int_eq(json_integer_value(json_object_get(ranges, "distinct_categories")), 5);
    ck_assert(json_is_true(json_object_get(variance, "pooled")));
    json_decref(root);
    ck_assert_int_eq(written(&made->record, BITE_HTML, BITE_METRIC, 0), BITE_OK);
    check_markup();
    assert_contains("Gauge study of size: 3 persons, 10 parts, 3 trials");
    assert_contains("27.86");
    assert_contains("26.68");
    free(made);
}
END_TEST

/* Components whose estimates are negative are shown as such. */
START_TEST(negative_components_are_shown)
{
    static const char *const names[] = {"A", "B", "C"};
    measured_record *made = measured_record_new();
    measured_characteristic(made, "size", BITE_MEASURED_OUTSIDE, 10.0, 5.0, 15.0, 0.001);
    for (size_t i = 0; i < 90; i++) {
        bite_reading *reading =
            measured_reading(made, (uint32_t)(i / 3 % 10 + 1), gauge_without_parts[i]);
        reading->person = names[i / 30];
    }
    ck_assert_int_eq(written(&made->record, BITE_JSON, BITE_METRIC, 0), BITE_OK);
    json_t *root = parsed();
    const json_t *by =
        json_object_get(json_object_get(characteristic_of(root, 0), "gauge_study"), "by_variance");
    const json_t *parts = json_object_get(by, "parts");
    ck_assert_double_lt(json_real_value(json_object_get(parts, "variance")), 0.0);
    ck_assert_double_eq(json_real_value(json_object_get(parts, "deviation")), 0.0);
    json_decref(root);
    ck_assert_int_eq(written(&made->record, BITE_HTML, BITE_METRIC, 0), BITE_OK);
    assert_contains("(negative)");
    free(made);
}
END_TEST

START_TEST(csv_has_a_line_for_each_reading)
{
    measured_record *made = measured_example(BITE_INCH);
    ck_assert_int_eq(written(&made->record, BITE_CSV, BITE_INCH, 0), BITE_OK);
    ck_assert_uint_eq(times("\r\n"), 1 + made->record.reading_count);
    assert_contains(",in,");
    assert_contains("corrected later");
    free(made);
}
END_TEST

START_TEST(qif_has_each_part_and_each_status)
{
    measured_record *made = measured_example(BITE_METRIC);
    ck_assert_int_eq(written(&made->record, BITE_QIF, BITE_METRIC, 0), BITE_OK);
    ck_assert_uint_eq(times("<MeasurementResults id="), 12);
    ck_assert_uint_eq(times("CharacteristicMeasurement id="), 12 + 13 + 3 + 12);
    ck_assert_uint_eq(times("<CharacteristicStatusEnum>FAIL<"), 1);
    ck_assert_uint_eq(times("<CharacteristicStatusEnum>INDETERMINATE<"), 2);
    ck_assert_uint_eq(times("<CharacteristicStatusEnum>NOT_ANALYZED<"), 1); /* skipped */
    ck_assert_uint_eq(times("<Value combinedUncertainty=\"0.005000\" meanError=\"0\">"), 12);
    assert_contains("<Description>read nothing; chip under the anvil, wiped and read again<");
    assert_lacks("0.468"); /* what was corrected is not a result */
    free(made);
}
END_TEST

/* What the document says of itself: an element of a list for each that the list says it has, no id
 * above the largest that it states, and that one is there. */
static void check_counts_and_ids(const char *kind)
{
    unsigned long largest = 0;
    for (const char *at = sheet.text; (at = strstr(at, " id=\"")) != NULL; at += 5) {
        unsigned long id = strtoul(at + 5, NULL, 10);
        largest = id > largest ? id : largest;
    }
    const char *stated = strstr(sheet.text, " idMax=\"");
    ck_assert_ptr_nonnull(stated);
    ck_assert_msg(strtoul(stated + 8, NULL, 10) == largest, "%s: the largest id is %lu", kind,
                  largest);
    ck_assert_msg(strstr(sheet.text, " n=\"0\"") == NULL, "%s: an empty list", kind);
}

START_TEST(qif_of_every_kind_of_record)
{
    const measured_kind *kind = &measured_kinds[_i];
    for (bite_units units = BITE_METRIC; units <= BITE_INCH; units++) {
        measured_record *made = kind->make(units);
        ck_assert_int_eq(written(&made->record, BITE_QIF, units, 0), BITE_OK);
        check_counts_and_ids(kind->name);
        free(made);
    }
}
END_TEST

START_TEST(qif_holds_the_revision_and_a_name_of_its_own)
{
    char names[2][40];
    measured_record *made = measured_example(BITE_METRIC);
    for (bite_units units = BITE_METRIC; units <= BITE_INCH; units++) {
        ck_assert_int_eq(written(&made->record, BITE_QIF, units, 0), BITE_OK);
        assert_contains("<ModelNumber>HI-2041</ModelNumber><Version>B</Version>");
        const char *name = strstr(sheet.text, "<QPId>");
        ck_assert_ptr_nonnull(name);
        (void)snprintf(names[units], sizeof names[units], "%.36s", name + 6);
    }
    ck_assert_str_ne(names[BITE_METRIC], names[BITE_INCH]);
    free(made);
}
END_TEST

/* xs:decimal: no exponent, and 18 digits. */
START_TEST(qif_of_large_sizes)
{
    bite_error error = BITE_ERROR_INIT;
    const bite_style style = {.struct_size = (uint32_t)sizeof style, .format = BITE_QIF};
    const double refused[] = {1e12, -1e12, 1e300, -1e300};
    measured_record *made = measured_record_new();
    measured_characteristic(made, "width", BITE_MEASURED_OUTSIDE, 10.0, 9.9, 10.1, 0.004);
    bite_reading *reading = measured_reading(made, 1, 1e9);
    ck_assert_int_eq(written(&made->record, BITE_QIF, BITE_METRIC, 0), BITE_OK);
    assert_contains("meanError=\"0\">1000000000.000000</Value>");
    ck_assert_int_eq(written(&made->record, BITE_QIF, BITE_INCH, 0), BITE_OK);
    assert_contains("meanError=\"0\">39370078.7401575</Value>");
    made->record.path = "shop/wide.record";
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        for (size_t k = 0; k < 2; k++) { /* the size, and its uncertainty */
            reading->value_20 = (k == 0 ? refused[i] : 10.0) * 1e-3;
            reading->uncertainty_20 = fabs(k == 1 ? refused[i] : 0.004) * 1e-3;
            bite_test_paper_start(&sheet, 0);
            ck_assert_int_eq(bite_record_report_write(&made->record, &style, bite_test_paper_take,
                                                      &sheet, &error),
                             BITE_OUT_OF_RANGE);
            ck_assert_uint_eq(sheet.size, 0);
            ck_assert_str_eq(error.message, "a reading of 1000000000.000 mm is too large for QIF");
            ck_assert_str_eq(error.file, "shop/wide.record");
            ck_assert_uint_eq(error.line, 10);
            ck_assert_int_eq(written(&made->record, BITE_JSON, BITE_METRIC, 0), BITE_OK);
        }
    }
    reading->state = BITE_READING_REPLACED; /* is not written */
    ck_assert_int_eq(written(&made->record, BITE_QIF, BITE_METRIC, 0), BITE_OK);
    free(made);
}
END_TEST

/* ---- calls ---- */

START_TEST(bad_calls_are_refused)
{
    measured_record *made = measured_example(BITE_METRIC);
    bite_error error = BITE_ERROR_INIT;
    bite_style style = {.struct_size = (uint32_t)sizeof style, .format = BITE_HTML};
    ck_assert_int_eq(bite_record_report_write(NULL, &style, bite_test_paper_take, &sheet, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(
        bite_record_report_write(&made->record, NULL, bite_test_paper_take, &sheet, &error),
        BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_record_report_write(&made->record, &style, NULL, NULL, &error),
                     BITE_BAD_ARGUMENT);
    style.format = BITE_SVG;
    ck_assert_int_eq(
        bite_record_report_write(&made->record, &style, bite_test_paper_take, &sheet, &error),
        BITE_BAD_ARGUMENT);
    style.format = BITE_QIF + 1;
    ck_assert_int_eq(
        bite_record_report_write(&made->record, &style, bite_test_paper_take, &sheet, &error),
        BITE_BAD_ARGUMENT);
    style.format = BITE_QIF;
    style.units = 7;
    ck_assert_int_eq(
        bite_record_report_write(&made->record, &style, bite_test_paper_take, &sheet, &error),
        BITE_BAD_ARGUMENT);
    free(made);
}
END_TEST

START_TEST(failing_sinks_are_reported)
{
    measured_record *made = measured_example(BITE_METRIC);
    for (uint32_t format = BITE_TEXT; format <= BITE_QIF; format++) {
        if (format == BITE_SVG) {
            continue;
        }
        ck_assert_int_eq(written(&made->record, (bite_format)format, BITE_METRIC, 0), BITE_OK);
        size_t calls = sheet.calls;
        for (size_t at = 1; at <= calls; at += 1 + calls / 40) {
            ck_assert_int_eq(written(&made->record, (bite_format)format, BITE_METRIC, at),
                             BITE_CANNOT_WRITE);
            ck_assert_uint_eq(sheet.calls, at); /* it is not called again */
        }
    }
    free(made);
}
END_TEST

/* For the tests with a browser and with a schema. */
START_TEST(write_report)
{
    measured_record *made = write_kind->make((bite_units)write_style.units);
    ck_assert_int_eq(
        written(&made->record, (bite_format)write_style.format, (bite_units)write_style.units, 0),
        BITE_OK);
    bite_test_write(write_to, sheet.text, sheet.size);
    free(made);
}
END_TEST

int main(int count, char **words)
{
    static const char *const formats[] = {"text", "json", "csv", "svg", "html", "qif"};
    if (count == 2 && strcmp(words[1], "--kinds") == 0) {
        for (size_t i = 0; i < measured_kind_count; i++) {
            (void)puts(measured_kinds[i].name);
        }
        return 0;
    }
    Suite *suite = suite_create("inspection report");
    TCase *all = tcase_create("inspection report");
    tcase_set_timeout(all, 120);
    suite_add_tcase(suite, all);
    if (count >= 5 && strcmp(words[1], "--write") == 0) {
        write_to = words[2];
        write_kind = measured_kind_find(count == 5 ? "example" : words[5]);
        if (write_kind == NULL) {
            srunner_free(srunner_create(suite));
            return 64;
        }
        for (uint32_t i = 0; i < sizeof formats / sizeof *formats; i++) {
            write_style.format = strcmp(words[3], formats[i]) == 0 ? i : write_style.format;
        }
        write_style.units = strcmp(words[4], "inch") == 0 ? BITE_INCH : BITE_METRIC;
        tcase_add_test(all, write_report);
        return bite_test_run(suite);
    }
    tcase_add_loop_test(all, page_contains_all_of_the_record, BITE_METRIC, BITE_INCH + 1);
    tcase_add_test(all, texts_do_not_become_markup);
    tcase_add_test(all, missing_values_are_not_invented);
    tcase_add_test(all, json_holds_what_was_found);
    tcase_add_test(all, json_of_a_published_gauge_study);
    tcase_add_test(all, negative_components_are_shown);
    tcase_add_test(all, csv_has_a_line_for_each_reading);
    tcase_add_test(all, qif_has_each_part_and_each_status);
    tcase_add_loop_test(all, qif_of_every_kind_of_record, 0, (int)measured_kind_count);
    tcase_add_test(all, qif_holds_the_revision_and_a_name_of_its_own);
    tcase_add_test(all, qif_of_large_sizes);
    tcase_add_test(all, bad_calls_are_refused);
    tcase_add_test(all, failing_sinks_are_reported);
    return bite_test_run(suite);
}
