/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An inspection report as a web page. The first sheet states the verdict and can be filed alone;
 * its fields have the names of first-article practice (AS9102) where that has them. */
#include "core/report/inspection/html.h"
#include "core/inspection/reading_value.h"
#include "core/report/inspection/html_plot.h"
#include "core/report/inspection/html_style.h"
#include "core/report/inspection/html_tables.h"
#include "core/report/inspection/words.h"
#include "core/report/style_check.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Characteristics on the first sheet; more are on the second one. */
#define FIRST_SHEET_ROWS 14

/* ---- the first sheet ---- */

static void field(bite_page *page, const char *name, const char *text)
{
    bite_html_put(page, "<div><dt>%s</dt><dd>%s</dd></div>\n", name, text);
}

static void identification(bite_inspection_page *html)
{
    const struct bite_record *record = html->inspection->record;
    const struct {
        const char *name;
        const char *text;
    } fields[] = {{"Part Number", record->part_number},
                  {"Part Name", record->part_name},
                  {"Part Revision Level", record->revision},
                  {"Serial Number", record->serial},
                  {"Drawing Number", record->drawing},
                  {"FAI Report Number", record->report_number},
                  {"Organization Name", record->organization},
                  {"Customer", record->customer},
                  {"P.O. Number", record->order},
                  {"Material", record->material},
                  {"Lot", record->lot},
                  {"Certificate of Conformance Number", record->certificate},
                  {"Manufacturing Process Reference", record->job},
                  {"Machine", record->machine}};
    bite_page *page = &html->page;
    char quantity[100];
    (void)snprintf(quantity, sizeof quantity, "%.40s ordered, %zu measured",
                   bite_html_count(record->count).text, html->inspection->part_count);
    bite_page_text(page, "<dl class=\"fields\">\n");
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        field(page, fields[i].name, fields[i].text);
    }
    field(page, "Quantity", quantity);
    bite_page_text(page, "</dl>\n");
}

static void verdict(bite_inspection_page *html)
{
    bite_page *page = &html->page;
    bite_sentences sentences;
    memset(&sentences, 0, sizeof sentences);
    bite_lot_sentences(html->inspection, &sentences);
    bite_html_put(page, "<div class=\"verdict\"><strong>%s</strong><div>\n",
                  bite_lot_verdict(html->inspection->finding));
    for (size_t i = 0; i < sentences.count; i++) {
        bite_html_put(page, "<p>%s</p>\n", sentences.text[i]);
    }
    bite_page_text(page, "</div></div>\n");
    if (html->inspection->record->note[0] != 0) {
        bite_html_put(page, "<p class=\"note\">%s</p>\n", html->inspection->record->note);
    }
}

/* Findings that the instrument's force puts in doubt. */
static void cautions(bite_inspection_page *html)
{
    for (size_t i = 0; i < html->inspection->record->characteristic_count; i++) {
        const bite_size_form form = bite_inspection_form(html, i);
        bite_sentences sentences;
        sentences.count = 0;
        bite_pressed_sentence(&form, &html->inspection->record->characteristics[i],
                              &html->inspection->characteristics[i], &sentences);
        if (sentences.count > 0) {
            bite_html_put(&html->page, "<p class=\"note\">%s</p>\n", sentences.text[0]);
        }
    }
}

static void signatures(bite_page *page)
{
    static const char *const names[] = {"Inspected by", "Reviewed by", "Customer Approval"};
    bite_page_text(page, "<div class=\"sign\">\n");
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        bite_html_put(page,
                      "<b>%s</b><span><small>Name</small></span><span><small>Signature</small>"
                      "</span><span><small>Date</small></span>\n",
                      names[i]);
    }
    bite_page_text(page, "</div>\n");
}

static void first_sheet(bite_inspection_page *html)
{
    bite_page *page = &html->page;
    bite_inspection_sheet(html, "Inspection report", "report");
    verdict(html);
    identification(html);
    if (html->inspection->record->characteristic_count <= FIRST_SHEET_ROWS) {
        bite_inspection_plan_table(html);
    }
    cautions(html);
    bite_html_put(page, "<p class=\"small\">%s</p>\n", bite_decision_rule);
    signatures(page);
    bite_inspection_sheet_end(html);
}

/* ---- results ---- */

static void results_sheet(bite_inspection_page *html)
{
    const bite_inspection *inspection = html->inspection;
    bite_page *page = &html->page;
    bite_inspection_sheet(html, "Results", "results");
    if (inspection->record->characteristic_count > FIRST_SHEET_ROWS) {
        bite_page_text(page, "<h3>Characteristics</h3>\n");
        bite_inspection_plan_table(html);
    }
    bite_page_text(page, "<h3>Parts measured, by characteristic</h3>\n");
    bite_inspection_statistics_table(html);
    bite_page_text(page, "<p class=\"small\">Sizes at 20 degC. Chance: that the size of the part "
                         "conforms, nothing else known of it (JCGM 106, 7); with spread: knowing "
                         "how the sizes of the other parts lie. The least of the parts is shown. "
                         "If a part was read several times, its mean counts for mean and deviation "
                         "and its worst reading for the finding.</p>\n<h3>Process</h3>\n");
    bite_inspection_capability_table(html);
    bite_inspection_gauge_tables(html);
    bite_page_text(page, "<h3>Parts</h3>\n");
    bite_inspection_parts_table(html);
    bite_inspection_sheet_end(html);
}

static void plots_sheet(bite_inspection_page *html)
{
    const struct bite_record *record = html->inspection->record;
    bite_page *page = &html->page;
    bite_inspection_sheet(html, "Characteristics and their readings", "readings");
    bite_inspection_plot_key(html);
    for (size_t i = 0; i < record->characteristic_count; i++) {
        const bite_characteristic *characteristic = &record->characteristics[i];
        bite_html_put(page, "<h3>%s. %s ", bite_html_count(characteristic->number).text,
                      characteristic->what);
        bite_inspection_finding(html, html->inspection->characteristics[i].finding);
        bite_page_text(page, "</h3>\n");
        if (html->inspection->characteristics[i].part_count == 0) {
            bite_page_text(page, "<p>No reading stands.</p>\n");
        }
        bite_inspection_plot(html, i);
        bite_inspection_readings_table(html, i);
    }
    bite_inspection_closed_table(html);
    bite_inspection_sheet_end(html);
}

static void environment(bite_inspection_page *html)
{
    const bite_inspection *inspection = html->inspection;
    bite_page *page = &html->page;
    bite_html_put(page, "<p>Readings from %s to %s.", bite_moment_text(inspection->first_time).text,
                  bite_moment_text(inspection->last_time).text);
    if (isnan(inspection->coldest)) {
        bite_page_text(page, " No temperature was noted: the readings count as taken at 20 degC, "
                             "which is not proven.");
    } else {
        bite_html_put(page, " Parts at %s to %s",
                      bite_temperature_text(inspection->coldest, page->units).text,
                      bite_temperature_text(inspection->warmest, page->units).text);
        bite_html_put(
            page,
            " (standard uncertainty of a temperature %s K); readings are corrected "
            "to 20 degC with the expansion of part and instrument.",
            bite_plain_number(bite_reading_temperature_uncertainty(inspection->record), 3).text);
    }
    bite_page_text(page, "</p>\n<p>Readings by: ");
    for (size_t i = 0; i < inspection->person_count; i++) {
        bite_html_put(page, i == 0 ? "%s" : ", %s", inspection->persons[i]);
    }
    bite_page_text(page, inspection->person_count == 0 ? "not stated.</p>\n" : ".</p>\n");
}

static void instruments_sheet(bite_inspection_page *html)
{
    const struct bite_record *record = html->inspection->record;
    bite_page *page = &html->page;
    bite_inspection_sheet(html, "Instruments and environment", "instruments");
    bite_inspection_instruments_table(html);
    bite_page_text(page, "<p class=\"small\">Pressed by: what the instrument's force takes off the "
                         "reading of this part, as calculated; it is not corrected and not part of "
                         "the uncertainty. A calibration certificate and a gauge study of the shop "
                         "replace the uncertainties of the tables.</p>\n<h3>Environment</h3>\n");
    environment(html);
    if (record->damage_count > 0) {
        bite_page_text(page, "<h3>Places of the record that cannot be read</h3>\n<ul>\n");
        for (size_t i = 0; i < record->damage_count; i++) {
            bite_html_put(
                page, "<li>Line %s: %s (%s)</li>\n", bite_html_count(record->damages[i].place).text,
                record->damages[i].message, record->damages[i].settled ? "settled" : "not settled");
        }
        bite_page_text(page, "</ul>\n");
    }
    bite_inspection_sheet_end(html);
}

/* ---- for the shop ---- */

static void feedback(bite_inspection_page *html, size_t index)
{
    const bite_characteristic *characteristic = &html->inspection->record->characteristics[index];
    const bite_size_form form = bite_inspection_form(html, index);
    bite_page *page = &html->page;
    bite_sentences sentences;
    memset(&sentences, 0, sizeof sentences);
    bite_offset_sentences(&form, characteristic, &html->inspection->characteristics[index].offset,
                          &sentences);
    if (sentences.count == 0) {
        return;
    }
    bite_html_put(page, "<h3>%s. %s", bite_html_count(characteristic->number).text,
                  characteristic->what);
    if (characteristic->pass_title[0] != 0) {
        bite_html_put(page, ", made by: %s", characteristic->pass_title);
    }
    if (characteristic->tool[0] != 0) {
        bite_html_put(page, ", tool %s", characteristic->tool);
    }
    bite_page_text(page, "</h3>\n<ul>\n");
    for (size_t i = 0; i < sentences.count; i++) {
        bite_html_put(page, "<li>%s</li>\n", sentences.text[i]);
    }
    bite_page_text(page, "</ul>\n");
}

static void observations(bite_inspection_page *html)
{
    char line[BITE_SENTENCE_MAX];
    size_t count = 0;
    bite_page *page = &html->page;
    for (size_t i = 0; i < html->inspection->record->characteristic_count; i++) {
        bite_observation_line(html->inspection, i, line);
        if (line[0] != 0) {
            if (count++ == 0) {
                bite_html_put(page,
                              "<h3>Observed cuts</h3>\n<p>Lines for tests/field/cases.csv, by "
                              "which the shared inputs are calibrated; fill in what is empty from "
                              "the job's sheet.</p>\n<p><code>%s</code></p>\n",
                              bite_observation_columns);
            }
            bite_html_put(page, "<p><code>%s</code></p>\n", line);
        }
    }
}

static void shop_sheet(bite_inspection_page *html)
{
    bite_page *page = &html->page;
    bite_inspection_sheet(html, "For the shop: the next cut", "shop");
    bite_page_text(page, "<p>What the sizes say of the cut. An offset moves the mean; it does not "
                         "reduce the spread. Check the first part after a change, and follow the "
                         "machine's manual for the sign and unit of its wear offsets.</p>\n");
    for (size_t i = 0; i < html->inspection->record->characteristic_count; i++) {
        feedback(html, i);
    }
    observations(html);
    bite_inspection_sheet_end(html);
}

static void whole(bite_inspection_page *html)
{
    const struct bite_record *record = html->inspection->record;
    bite_page *page = &html->page;
    bite_html_begin(page, NULL, NULL);
    bite_html_put(page, "<title>Inspection report %s %s</title>\n<style>\n", record->part_number,
                  record->part_name);
    for (size_t i = 0; bite_inspection_style[i] != NULL; i++) {
        bite_page_text(page, bite_inspection_style[i]);
    }
    bite_page_text(page, "</style>\n</head>\n<body>\n");
    bite_inspection_plot_pattern(html);
    bite_page_text(page, "<main>\n");
    first_sheet(html);
    results_sheet(html);
    plots_sheet(html);
    instruments_sheet(html);
    shop_sheet(html);
    bite_page_text(page, "</main>\n</body>\n</html>\n");
}

bite_status bite_inspection_html(const bite_inspection *inspection, const bite_style *style,
                                 bite_sink sink, void *user, bite_error *error)
{
    bite_inspection_page html;
    bite_style plain = bite_style_copy(style);
    memset(&html, 0, sizeof html);
    plain.format = BITE_TEXT;
    if (!bite_page_open(&html.page, &plain, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    html.inspection = inspection;
    html.sheets = 5;
    whole(&html);
    return bite_page_close(&html.page, error);
}
