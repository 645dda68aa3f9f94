/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged record as a document of QIF 3.0. The order of the elements is that of the schema
 * (tests/report/inspection/qif/README.md). */
#include "core/report/inspection/qif.h"
#include "core/base/checksum.h"
#include "core/report/html.h"
#include "core/report/inspection/qif_characteristic.h"
#include "core/report/inspection/size_text.h"
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- head ---- */

/* An element with a text, or nothing if it is not stated. */
static void element(bite_page *page, const char *name, const char *text)
{
    if (text[0] != 0) {
        bite_html_put(page, "<%s>%s</%s>", name, text, name);
    }
}

/* A name that is made of what the record holds, in the form of a UUID of version 8 (RFC 9562): the
 * same record gives the same document. */
static void write_name(const bite_inspection *inspection, bite_page *page)
{
    const struct bite_record *record = inspection->record;
    const char *texts[] = {record->part_number, record->part_name, record->report_number,
                           record->job};
    uint32_t sums[4];
    char text[64];
    for (size_t i = 0; i < 4; i++) {
        sums[i] = bite_checksum(texts[i], strlen(texts[i])) ^ (uint32_t)(i * 0x9e3779b9u);
    }
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *reading = &record->readings[i];
        char line[96];
        int length =
            snprintf(line, sizeof line, "%" PRIu64 " %" PRIu32 " %" PRIu32 " %.40s", reading->line,
                     reading->characteristic, reading->state, reading->text);
        size_t size = length < (int)sizeof line ? (size_t)length : sizeof line - 1;
        sums[i % 4] = sums[i % 4] * 31u + bite_checksum(line, size);
    }
    sums[0] ^= record->head_checksum;
    sums[1] ^= page->units; /* in other units it is another document */
    (void)snprintf(text, sizeof text,
                   "%08" PRIx32 "-%04" PRIx32 "-8%03" PRIx32 "-%04" PRIx32 "-%04" PRIx32
                   "%08" PRIx32,
                   sums[0], sums[1] >> 16, sums[1] & 0xfffu, (sums[2] >> 16 & 0x3fffu) | 0x8000u,
                   sums[2] & 0xffffu, sums[3]);
    bite_html_put(page, "<QPId>%s</QPId>\n", text);
}

static void write_head(const bite_qif *qif)
{
    const struct bite_record *record = qif->inspection->record;
    bite_page *page = qif->page;
    int inch = page->units == BITE_INCH;
    write_name(qif->inspection, page);
    bite_html_put(page, "<Header><Application><Name>coolbite %s</Name></Application>",
                  bite_version());
    bite_html_put(page,
                  "<Description>Inspection of %s %s%s%s</Description><Scope>Results</Scope>"
                  "</Header>\n",
                  record->part_number, record->part_name, record->customer[0] == 0 ? "" : " for ",
                  record->customer);
    bite_html_put(page,
                  "<StandardsDefinitions n=\"1\"><Standard id=\"%s\"><Organization>"
                  "<StandardsOrganizationEnum>ISO</StandardsOrganizationEnum></Organization>"
                  "<Designator>14253-1</Designator><Year>2017</Year></Standard>"
                  "</StandardsDefinitions>\n",
                  bite_html_count(qif->standard).text);
    bite_html_put(page,
                  "<FileUnits><PrimaryUnits><LinearUnit><SIUnitName>meter</SIUnitName>"
                  "<UnitName>%s</UnitName><UnitConversion><Factor>%s</Factor>"
                  "</UnitConversion></LinearUnit></PrimaryUnits></FileUnits>\n",
                  inch ? "inch" : "mm", inch ? "0.0254" : "0.001");
}

static void write_devices(const bite_qif *qif)
{
    const struct bite_record *record = qif->inspection->record;
    bite_page *page = qif->page;
    bite_html_put(page, "<MeasurementResources><MeasurementDevices n=\"%s\">\n",
                  bite_html_count((double)record->characteristic_count).text);
    for (size_t i = 0; i < record->characteristic_count; i++) {
        const bite_characteristic *characteristic = &record->characteristics[i];
        const char *title = characteristic->instrument_title;
        const char *name = title[0] != 0 ? title : characteristic->instrument;
        bite_html_put(page, "<MeasurementDevice id=\"%s\"><Name>%s</Name></MeasurementDevice>\n",
                      bite_qif_id(qif, BITE_QIF_DEVICE, i).text,
                      name[0] == 0 ? "not stated" : name);
    }
    bite_page_text(page, "</MeasurementDevices></MeasurementResources>\n");
}

static void write_product(const bite_qif *qif)
{
    const struct bite_record *record = qif->inspection->record;
    bite_html_put(qif->page, "<Product><PartSet n=\"1\"><Part id=\"%s\" label=\"%s\">",
                  bite_html_count(qif->part).text, record->part_name);
    element(qif->page, "ModelNumber", record->part_number);
    element(qif->page, "Version", record->revision);
    bite_page_text(qif->page, "</Part></PartSet></Product>\n");
}

/* ---- results ---- */

static const char *status_of(uint32_t finding)
{
    static const char *const words[BITE_FINDING_COUNT] = {
        "UNKNOWN", "PASS", "UNKNOWN", "UNKNOWN", "FAIL"}; /* not complete, not proven: unknown */
    return words[finding];
}

static void write_results_of(const bite_qif *qif, size_t part)
{
    const bite_part_result *result = &qif->inspection->parts[part];
    bite_page *page = qif->page;
    bite_html_put(page,
                  "<MeasurementResults id=\"%s\"><MeasuredCharacteristics>"
                  "<CharacteristicMeasurements n=\"%s\">\n",
                  bite_qif_id(qif, BITE_QIF_RESULTS, part).text,
                  bite_html_count((double)result->count).text);
    bite_qif_write_measurements(qif, part);
    bite_html_put(page,
                  "</CharacteristicMeasurements></MeasuredCharacteristics><InspectionStatus>"
                  "<InspectionStatusEnum>%s</InspectionStatusEnum></InspectionStatus>"
                  "<ActualComponentIds n=\"1\"><Id>%s</Id></ActualComponentIds>"
                  "</MeasurementResults>\n",
                  status_of(result->finding), bite_qif_id(qif, BITE_QIF_COMPONENT, part).text);
}

static void write_components(const bite_qif *qif)
{
    const bite_inspection *inspection = qif->inspection;
    const char *lot = inspection->record->lot;
    bite_page *page = qif->page;
    bite_html_string count = bite_html_count((double)inspection->part_count);
    bite_html_put(page, "<ActualComponentSets n=\"1\"><ActualComponentSet n=\"%s\">\n", count.text);
    for (size_t i = 0; i < inspection->part_count; i++) {
        bite_html_put(page,
                      "<ActualComponent id=\"%s\"><Status><InspectionStatusEnum>%s"
                      "</InspectionStatusEnum></Status><Traceability><SampleNumber>%s"
                      "</SampleNumber>",
                      bite_qif_id(qif, BITE_QIF_COMPONENT, i).text,
                      status_of(inspection->parts[i].finding),
                      bite_html_count(inspection->parts[i].part).text);
        element(page, "LotNumber", lot);
        bite_page_text(page, "</Traceability></ActualComponent>\n");
    }
    bite_page_text(page, "</ActualComponentSet></ActualComponentSets>\n");
}

static void write_traceability(const bite_qif *qif)
{
    const bite_inspection *inspection = qif->inspection;
    const struct bite_record *record = inspection->record;
    bite_page *page = qif->page;
    bite_page_text(page, "<InspectionTraceability>");
    if (record->organization[0] != 0) {
        bite_html_put(page, "<InspectingOrganization><Name>%s</Name></InspectingOrganization>",
                      record->organization);
    }
    element(page, "PurchaseOrderNumber", record->order);
    element(page, "ReportNumber", record->report_number);
    if (isfinite(inspection->first_time)) {
        element(page, "InspectionStart", bite_moment_text(inspection->first_time).text);
        element(page, "InspectionEnd", bite_moment_text(inspection->last_time).text);
    }
    if (inspection->person_count == 1) {
        bite_html_put(page, "<InspectionOperator><Name>%s</Name></InspectionOperator>",
                      inspection->persons[0]);
    }
    bite_page_text(page, "</InspectionTraceability>\n");
}

static void write_results(const bite_qif *qif)
{
    const bite_inspection *inspection = qif->inspection;
    bite_page *page = qif->page;
    bite_html_put(page, "<Results><MeasurementResultsSet n=\"%s\">\n",
                  bite_html_count((double)inspection->part_count).text);
    for (size_t i = 0; i < inspection->part_count; i++) {
        write_results_of(qif, i);
    }
    bite_page_text(page, "</MeasurementResultsSet>\n");
    write_components(qif);
    write_traceability(qif);
    bite_page_text(page, "</Results>\n");
}

bite_status bite_inspection_qif(const bite_inspection *inspection, bite_page *page,
                                bite_error *error)
{
    bite_qif qif;
    bite_status status = bite_qif_check_sizes(inspection, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_qif_number(inspection, page, &qif);
    bite_html_put(page,
                  "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<QIFDocument "
                  "xmlns=\"http://qifstandards.org/xsd/qif3\" versionQIF=\"3.0.0\" "
                  "idMax=\"%s\">\n",
                  bite_html_count(qif.last).text);
    write_head(&qif);
    if (inspection->record->characteristic_count > 0) { /* no list may be empty */
        write_devices(&qif);
    }
    write_product(&qif);
    if (inspection->record->characteristic_count > 0) {
        bite_qif_write_characteristics(&qif);
    }
    if (inspection->part_count > 0) {
        write_results(&qif);
    }
    bite_page_text(page, "</QIFDocument>\n");
    return bite_page_close(page, error);
}
