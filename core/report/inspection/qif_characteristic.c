/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Characteristics of a document of QIF. */
#include "core/report/inspection/qif_characteristic.h"
#include "core/base/error.h"
#include "core/report/inspection/size_text.h"
#include "core/report/inspection/words.h"
#include <math.h>
#include <stdio.h>

/* ---- ids ---- */

void bite_qif_number(const bite_inspection *inspection, bite_page *page, bite_qif *qif)
{
    double characteristics = (double)inspection->record->characteristic_count;
    double readings = (double)inspection->record->reading_count;
    double parts = (double)inspection->part_count;
    const double counts[BITE_QIF_KINDS] = {[BITE_QIF_DEVICE] = characteristics,
                                           [BITE_QIF_DEFINITION] = characteristics,
                                           [BITE_QIF_NOMINAL] = characteristics,
                                           [BITE_QIF_ITEM] = characteristics,
                                           [BITE_QIF_MEASUREMENT] = parts > 0.0 ? readings : 0.0,
                                           [BITE_QIF_RESULTS] = parts,
                                           [BITE_QIF_COMPONENT] = parts};
    double next = 3.0;
    qif->inspection = inspection;
    qif->page = page;
    qif->standard = 1.0;
    qif->part = 2.0;
    for (size_t i = 0; i < BITE_QIF_KINDS; i++) {
        qif->first[i] = next;
        next += counts[i];
    }
    qif->last = next - 1.0;
}

bite_html_string bite_qif_id(const bite_qif *qif, bite_qif_kind kind, size_t index)
{
    return bite_html_count(qif->first[kind] + (double)index);
}

/* ---- kinds of characteristics ---- */

/* The name of its elements before "CharacteristicDefinition" and so on. */
static const char *name_of(const bite_characteristic *characteristic)
{
    static const char *const names[BITE_MEASURED_COUNT] = {
        [BITE_MEASURED_THICKNESS] = "Thickness", [BITE_MEASURED_OUTSIDE] = "Length",
        [BITE_MEASURED_INSIDE] = "Length",       [BITE_MEASURED_DEPTH] = "Depth",
        [BITE_MEASURED_HEIGHT] = "Height",       [BITE_MEASURED_FLATNESS] = "Flatness"};
    const char *name =
        characteristic->measures < BITE_MEASURED_COUNT ? names[characteristic->measures] : NULL;
    if (characteristic->judged) {
        return "UserDefinedAttribute";
    }
    if (characteristic->measures == BITE_MEASURED_FLATNESS && !(characteristic->upper > 0.0)) {
        return "UserDefinedLinear"; /* a flatness has a tolerance */
    }
    return name == NULL ? "UserDefinedLinear" : name;
}

static int is_user_defined(const bite_characteristic *characteristic)
{
    return name_of(characteristic)[0] == 'U';
}

/* ---- sizes ---- */

/* Sizes are xs:decimal: no exponent, and every program reads 18 digits of it but need not read more
 * (W3C XML Schema part 2, 3.2.3). With decimals to nm and a few nm these are a million km. */
static const double largest = 1e9; /* m */
static const bite_size_form forms[] = {
    [BITE_METRIC] = {"", 1e-3, 6, BITE_METRIC}, [BITE_INCH] = {"", 25.4e-3, 7, BITE_INCH}};

static bite_html_string decimal(const bite_qif *qif, double si)
{
    return bite_size_number(&forms[qif->page->units], si);
}

static int is_too_large(double size)
{
    return isfinite(size) && !(fabs(size) < largest);
}

bite_status bite_qif_check_sizes(const bite_inspection *inspection, bite_error *error)
{
    const struct bite_record *record = inspection->record;
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *reading = &record->readings[i];
        if (reading->state == BITE_READING_STANDS &&
            (is_too_large(reading->value_20) || is_too_large(reading->uncertainty_20))) {
            bite_error_set(error, BITE_OUT_OF_RANGE, "a reading of %.40s is too large for QIF",
                           reading->text);
            bite_error_place(error, record->path, (uint32_t)reading->line, 0);
            bite_error_hint(error, "sizes below 1e12 mm were expected: correct the reading, or "
                                   "choose another format");
            return BITE_OUT_OF_RANGE;
        }
    }
    return BITE_OK;
}

static void write_tolerance(const bite_qif *qif, const bite_characteristic *characteristic)
{
    bite_page *page = qif->page;
    if (isnan(characteristic->lower) && isnan(characteristic->upper)) {
        bite_page_text(page, "<NonTolerance>MEASURED</NonTolerance>");
        return;
    }
    bite_page_text(page, "<Tolerance>");
    if (!isnan(characteristic->upper)) {
        bite_html_put(page, "<MaxValue>%s</MaxValue>", decimal(qif, characteristic->upper).text);
    }
    if (!isnan(characteristic->lower)) {
        bite_html_put(page, "<MinValue>%s</MinValue>", decimal(qif, characteristic->lower).text);
    }
    bite_page_text(page, "<DefinedAsLimit>true</DefinedAsLimit></Tolerance>");
}

static void write_definition(const bite_qif *qif, size_t index)
{
    const bite_characteristic *characteristic = &qif->inspection->record->characteristics[index];
    const char *name = name_of(characteristic);
    bite_page *page = qif->page;
    bite_html_put(page, "<%sCharacteristicDefinition id=\"%s\"><Name>%s</Name>", name,
                  bite_qif_id(qif, BITE_QIF_DEFINITION, index).text, characteristic->what);
    if (name[0] == 'F') {
        bite_html_put(page, "<ToleranceValue>%s</ToleranceValue>",
                      decimal(qif, characteristic->upper).text);
    } else if (!characteristic->judged) {
        write_tolerance(qif, characteristic);
    }
    if (is_user_defined(characteristic)) {
        bite_html_put(page, "<WhatToMeasure>%s</WhatToMeasure>", characteristic->what);
    }
    bite_html_put(page, "</%sCharacteristicDefinition>\n", name);
}

static void write_nominal(const bite_qif *qif, size_t index)
{
    const bite_characteristic *characteristic = &qif->inspection->record->characteristics[index];
    const char *name = name_of(characteristic);
    bite_page *page = qif->page;
    bite_html_put(page,
                  "<%sCharacteristicNominal id=\"%s\"><CharacteristicDefinitionId>%s"
                  "</CharacteristicDefinitionId><Name>%s</Name>",
                  name, bite_qif_id(qif, BITE_QIF_NOMINAL, index).text,
                  bite_qif_id(qif, BITE_QIF_DEFINITION, index).text, characteristic->what);
    if (characteristic->judged) {
        bite_page_text(page, "<PassValues n=\"1\"><StringValue>accepted</StringValue></PassValues>"
                             "<FailValues n=\"1\"><StringValue>rejected</StringValue>"
                             "</FailValues>");
    } else if (name[0] != 'F' && !isnan(characteristic->nominal)) {
        bite_html_put(page, "<TargetValue>%s</TargetValue>",
                      decimal(qif, characteristic->nominal).text);
    }
    bite_html_put(page, "</%sCharacteristicNominal>\n", name);
}

static void write_item(const bite_qif *qif, size_t index)
{
    const bite_characteristic *characteristic = &qif->inspection->record->characteristics[index];
    const char *name = name_of(characteristic);
    bite_page *page = qif->page;
    bite_html_put(page,
                  "<%sCharacteristicItem id=\"%s\"><Name>%s</Name><CharacteristicDesignator>"
                  "<Designator>%s</Designator></CharacteristicDesignator>",
                  name, bite_qif_id(qif, BITE_QIF_ITEM, index).text, characteristic->what,
                  characteristic->designator[0] != 0
                      ? characteristic->designator
                      : bite_html_count(characteristic->number).text);
    bite_html_put(page,
                  "<MeasurementDeviceIds n=\"1\"><Id>%s</Id></MeasurementDeviceIds>"
                  "<CharacteristicNominalId>%s</CharacteristicNominalId></%sCharacteristicItem>\n",
                  bite_qif_id(qif, BITE_QIF_DEVICE, index).text,
                  bite_qif_id(qif, BITE_QIF_NOMINAL, index).text, name);
}

void bite_qif_write_characteristics(const bite_qif *qif)
{
    static const struct {
        const char *list;
        void (*write)(const bite_qif *qif, size_t index);
    } lists[] = {{"CharacteristicDefinitions", write_definition},
                 {"CharacteristicNominals", write_nominal},
                 {"CharacteristicItems", write_item}};
    size_t count = qif->inspection->record->characteristic_count;
    bite_html_put(qif->page, "<Characteristics><FormalStandardId>%s</FormalStandardId>\n",
                  bite_html_count(qif->standard).text);
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        bite_html_put(qif->page, "<%s n=\"%s\">\n", lists[i].list,
                      bite_html_count((double)count).text);
        for (size_t k = 0; k < count; k++) {
            lists[i].write(qif, k);
        }
        bite_html_put(qif->page, "</%s>\n", lists[i].list);
    }
    bite_page_text(qif->page, "</Characteristics>\n");
}

/* ---- measurements ---- */

/* What the schema has no element for. */
static void describe(const bite_qif *qif, const bite_reading *reading)
{
    bite_page *page = qif->page;
    bite_html_put(page, "<Description>read %s", reading->text[0] == 0 ? "nothing" : reading->text);
    if (reading->trial > 0) {
        bite_html_put(page, ", trial %s", bite_html_count(reading->trial).text);
    }
    if (reading->person[0] != 0) {
        bite_html_put(page, ", by %s", reading->person);
    }
    if (isfinite(reading->temperature)) {
        bite_html_put(page, ", part at %s",
                      bite_temperature_text(reading->temperature, BITE_METRIC).text);
    }
    if (reading->note[0] != 0) {
        bite_html_put(page, "; %s", reading->note);
    }
    bite_page_text(page, "</Description>");
}

static void write_value(const bite_qif *qif, const bite_characteristic *characteristic,
                        const bite_reading *reading)
{
    bite_page *page = qif->page;
    if (reading->state == BITE_READING_SKIPPED || !isfinite(reading->value_20)) {
        return;
    }
    if (characteristic->judged) {
        bite_html_put(page, "<Value>%s</Value>", reading->value > 0.5 ? "accepted" : "rejected");
        return;
    }
    if (isnan(reading->uncertainty_20)) {
        bite_html_put(page, "<Value>%s</Value>", decimal(qif, reading->value_20).text);
        return;
    }
    /* the known error is corrected, so that none is left; the schema wants both or neither */
    bite_html_put(page, "<Value combinedUncertainty=\"%s\" meanError=\"0\">%s</Value>",
                  decimal(qif, reading->uncertainty_20).text, decimal(qif, reading->value_20).text);
}

static void write_measurement(const bite_qif *qif, size_t reading_index, size_t part)
{
    static const char *const words[BITE_FINDING_COUNT] = {
        [BITE_FINDING_NONE] = "NOT_ANALYZED",
        [BITE_FINDING_CONFORMS] = "PASS",
        [BITE_FINDING_INCOMPLETE] = "INDETERMINATE",
        [BITE_FINDING_NOT_PROVEN] = "INDETERMINATE",
        [BITE_FINDING_DOES_NOT] = "FAIL"};
    const struct bite_record *record = qif->inspection->record;
    const bite_reading *reading = &record->readings[reading_index];
    size_t index = reading->characteristic;
    const char *name = name_of(&record->characteristics[index]);
    bite_page *page = qif->page;
    bite_html_put(page, "<%sCharacteristicMeasurement id=\"%s\">", name,
                  bite_qif_id(qif, BITE_QIF_MEASUREMENT, reading_index).text);
    describe(qif, reading);
    bite_html_put(page,
                  "<Status><CharacteristicStatusEnum>%s</CharacteristicStatusEnum></Status>"
                  "<CharacteristicItemId>%s</CharacteristicItemId>",
                  words[qif->inspection->readings[reading_index].finding],
                  bite_qif_id(qif, BITE_QIF_ITEM, index).text);
    if (isfinite(reading->time)) {
        bite_html_put(page, "<TimeStamp>%s</TimeStamp>", bite_moment_text(reading->time).text);
    }
    bite_html_put(page,
                  "<ActualComponentId>%s</ActualComponentId><MeasurementDeviceIds n=\"1\"><Id>%s"
                  "</Id></MeasurementDeviceIds>",
                  bite_qif_id(qif, BITE_QIF_COMPONENT, part).text,
                  bite_qif_id(qif, BITE_QIF_DEVICE, index).text);
    write_value(qif, &record->characteristics[index], reading);
    bite_html_put(page, "</%sCharacteristicMeasurement>\n", name);
}

void bite_qif_write_measurements(const bite_qif *qif, size_t part)
{
    const bite_inspection *inspection = qif->inspection;
    const bite_part_result *result = &inspection->parts[part];
    for (size_t i = 0; i < result->count; i++) {
        const bite_reading *reading = inspection->by_part[result->first + i];
        write_measurement(qif, (size_t)(reading - inspection->record->readings), part);
    }
}
