/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of an inspection report. */
#include "core/report/inspection/html_tables.h"
#include "core/report/inspection/words.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static void cell(bite_page *page, const char *text)
{
    bite_html_put(page, "<td>%s</td>", text);
}

static void number_cell(bite_page *page, const char *text)
{
    bite_html_put(page, "<td class=\"n\">%s</td>", text);
}

static void count_cell(bite_page *page, size_t count)
{
    number_cell(page, bite_html_count((double)count).text);
}

static void begin_table(bite_inspection_page *html, const char *const *columns)
{
    bite_page_text(&html->page, "<div class=\"wide\"><table>\n");
    bite_inspection_columns(html, columns);
}

static void end_table(bite_page *page)
{
    bite_page_text(page, "</tbody></table></div>\n");
}

/* The number and the name of a characteristic, at the head of its row. */
static void row_head(bite_page *page, const bite_characteristic *characteristic)
{
    bite_html_put(page, "<tr><td class=\"n\">%s</td><th scope=\"row\">%s</th>",
                  bite_html_count(characteristic->number).text, characteristic->what);
}

void bite_inspection_plan_table(bite_inspection_page *html)
{
    static const char *const columns[] = {"#Char. No.",
                                          "Characteristic",
                                          "Reference Location",
                                          "Characteristic Designator",
                                          "#Nominal",
                                          "Requirement",
                                          "Limits from",
                                          "#Parts",
                                          "Finding",
                                          NULL};
    const struct bite_record *record = html->inspection->record;
    bite_page *page = &html->page;
    begin_table(html, columns);
    for (size_t i = 0; i < record->characteristic_count; i++) {
        const bite_characteristic *characteristic = &record->characteristics[i];
        const bite_characteristic_result *result = &html->inspection->characteristics[i];
        const bite_size_form form = bite_inspection_form(html, i);
        char parts[80];
        (void)snprintf(parts, sizeof parts, result->planned > 0 ? "%zu of %zu" : "%zu",
                       result->part_count, result->planned);
        row_head(page, characteristic);
        cell(page, characteristic->zone);
        cell(page, characteristic->designator);
        number_cell(page, bite_size_text(&form, bite_stated_nominal(characteristic)).text);
        cell(page, bite_limits_text(&form, characteristic).text);
        cell(page, characteristic->limits_from);
        number_cell(page, parts);
        bite_page_text(page, "<td>");
        bite_inspection_finding(html, result->finding);
        bite_page_text(page, "</td></tr>\n");
    }
    end_table(page);
}

/* ---- statistics ---- */

/* Why there is no chance with spread. */
static void unknown_spreads(bite_inspection_page *html)
{
    const struct bite_record *record = html->inspection->record;
    for (size_t i = 0; i < record->characteristic_count; i++) {
        const bite_characteristic_result *result = &html->inspection->characteristics[i];
        const char *reason = bite_spread_reason(result->spread);
        if (!record->characteristics[i].judged && result->part_count > 0 && reason[0] != 0) {
            bite_html_put(&html->page, "<p class=\"small\">%s. %s: %s.</p>\n",
                          bite_html_count(record->characteristics[i].number).text,
                          record->characteristics[i].what, reason);
        }
    }
}

void bite_inspection_statistics_table(bite_inspection_page *html)
{
    static const char *const columns[] = {
        "#No.",     "Characteristic", "#Mean",           "#Std. deviation", "#Least",       "#Most",
        "#Conform", "#Not proven",    "#Do not conform", "#Least chance",   "#With spread", NULL};
    const struct bite_record *record = html->inspection->record;
    bite_page *page = &html->page;
    begin_table(html, columns);
    for (size_t i = 0; i < record->characteristic_count; i++) {
        const bite_characteristic_result *result = &html->inspection->characteristics[i];
        const bite_size_form form = bite_inspection_form(html, i);
        double chance = (double)NAN;
        double known = (double)NAN;
        for (size_t k = 0; k < result->part_count; k++) {
            chance = fmin(chance, result->parts[k].chance);
            known = fmin(known, result->parts[k].chance_known);
        }
        row_head(page, &record->characteristics[i]);
        number_cell(page, bite_size_number(&form, result->moments.mean).text);
        number_cell(page, bite_size_spread_text(&form, result->moments.deviation).text);
        number_cell(page, bite_size_number(&form, result->moments.least).text);
        number_cell(page, bite_size_number(&form, result->moments.most).text);
        count_cell(page, result->found[BITE_FINDING_CONFORMS]);
        count_cell(page, result->found[BITE_FINDING_NOT_PROVEN]);
        count_cell(page, result->found[BITE_FINDING_DOES_NOT]);
        number_cell(page, bite_chance_text(chance).text);
        number_cell(page, bite_chance_text(known).text);
        bite_page_text(page, "</tr>\n");
    }
    end_table(page);
    unknown_spreads(html);
}

static void index_cell(bite_page *page, const bite_capability_index *index)
{
    char text[120] = "-";
    if (!isnan(index->value)) {
        (void)snprintf(
            text, sizeof text, "%.20s (%.20s to %.20s)", bite_plain_number(index->value, 3).text,
            bite_plain_number(index->low, 3).text, bite_plain_number(index->high, 3).text);
    }
    number_cell(page, text);
}

static size_t capable(const bite_inspection *inspection)
{
    size_t count = 0;
    for (size_t i = 0; i < inspection->record->characteristic_count; i++) {
        count += inspection->characteristics[i].has_capability;
    }
    return count;
}

static void capability_row(bite_inspection_page *html, size_t index)
{
    const bite_characteristic_result *result = &html->inspection->characteristics[index];
    bite_page *page = &html->page;
    row_head(page, &html->inspection->record->characteristics[index]);
    count_cell(page, result->capability.count);
    bite_html_put(page, "<td class=\"tight\">%s</td>", result->by_time ? "time" : "part number");
    index_cell(page, &result->capability.cp);
    index_cell(page, &result->capability.cpk);
    index_cell(page, &result->capability.pp);
    index_cell(page, &result->capability.ppk);
    number_cell(page, result->has_risk ? bite_chance_text(result->risk.outside).text : "-");
    number_cell(page, result->has_risk ? bite_chance_text(result->risk.false_accept).text : "-");
    number_cell(page, result->has_risk ? bite_chance_text(result->risk.false_reject).text : "-");
    bite_page_text(page, "</tr>\n");
}

void bite_inspection_capability_table(bite_inspection_page *html)
{
    static const char *const columns[] = {
        "#No.",     "Characteristic",   "#Parts",           "Order", "#Cp", "#Cpk", "#Pp", "#Ppk",
        "#Outside", "#Consumer's risk", "#Producer's risk", NULL};
    const bite_inspection *inspection = html->inspection;
    bite_page *page = &html->page;
    if (capable(inspection) == 0) {
        bite_page_text(page, "<p>No characteristic has readings of ten parts, so that nothing is "
                             "said of the process. The chances assume nothing about the spread of "
                             "the parts (prior unknown).</p>\n");
        return;
    }
    begin_table(html, columns);
    for (size_t i = 0; i < inspection->record->characteristic_count; i++) {
        if (inspection->characteristics[i].has_capability) {
            capability_row(html, i);
        }
    }
    end_table(page);
    bite_page_text(
        page,
        "<p class=\"small\">In brackets the interval of 95 % confidence. Cp and Cpk are of "
        "the spread from one part to the next (moving ranges of two, subgroups of one part in "
        "the order stated), Pp and Ppk of that of all parts. The risks are those of the rule "
        "with its guard bands, if the sizes of the parts are normal with the mean of the "
        "readings and their spread less the instrument's (JCGM 106, 9): the chance that a "
        "part is outside its limits, that such a part is accepted, and that a good one is "
        "rejected.</p>\n");
}

/* ---- gauge studies ---- */

static void component_row(bite_page *page, const bite_size_form *form, const char *name,
                          const bite_variance_component *variance,
                          const bite_variance_component *ranges, double tolerance)
{
    bite_html_put(page, "<tr><th scope=\"row\">%s</th>", name);
    const bite_variance_component *both[] = {variance, ranges};
    for (size_t i = 0; i < 2; i++) {
        const bite_variance_component *component = both[i];
        if (component == NULL) {
            bite_page_text(page, "<td class=\"n\">-</td><td class=\"n\">-</td>");
            continue;
        }
        char text[120];
        (void)snprintf(text, sizeof text, "%.60s%s",
                       bite_size_spread_text(form, component->deviation).text,
                       component->estimate < 0.0 ? " (negative)" : "");
        number_cell(page, text);
        number_cell(page, isnan(component->share)
                              ? "-"
                              : bite_plain_number(100.0 * component->share, 4).text);
    }
    number_cell(page, isnan(tolerance)
                          ? "-"
                          : bite_plain_number(600.0 * variance->deviation / tolerance, 3).text);
    bite_page_text(page, "</tr>\n");
}

static void study_rows(bite_page *page, const bite_size_form *form, const bite_gauge_result *gauge,
                       double tolerance)
{
    const bite_gauge_study *a = &gauge->variance;
    const bite_gauge_study *b = gauge->has_ranges ? &gauge->ranges : NULL;
    component_row(page, form, "repeatability", &a->repeatability,
                  b == NULL ? NULL : &b->repeatability, tolerance);
    if (!a->pooled) {
        component_row(page, form, "persons x parts", &a->interaction, NULL, tolerance);
    }
    component_row(page, form, "persons", &a->persons, b == NULL ? NULL : &b->persons, tolerance);
    component_row(page, form, "reproducibility", &a->reproducibility,
                  b == NULL ? NULL : &b->reproducibility, tolerance);
    component_row(page, form, "repeatability and reproducibility", &a->gauge,
                  b == NULL ? NULL : &b->gauge, tolerance);
    component_row(page, form, "parts", &a->parts, b == NULL ? NULL : &b->parts, tolerance);
    component_row(page, form, "total", &a->total, b == NULL ? NULL : &b->total, tolerance);
}

static void gauge_table(bite_inspection_page *html, size_t index)
{
    static const char *const columns[] = {"Component",  "#By variance", "#% of total",
                                          "#By ranges", "#% of total",  "#% of tolerance",
                                          NULL};
    const bite_characteristic *characteristic = &html->inspection->record->characteristics[index];
    const bite_gauge_result *gauge = &html->inspection->characteristics[index].gauge;
    const bite_size_form form = bite_inspection_form(html, index);
    bite_page *page = &html->page;
    bite_html_put(page, "<h3>Gauge study of %s: %s persons, %s parts, %s trials</h3>\n",
                  characteristic->what, bite_html_count((double)gauge->persons).text,
                  bite_html_count((double)gauge->parts).text,
                  bite_html_count((double)gauge->trials).text);
    begin_table(html, columns);
    study_rows(page, &form, gauge, characteristic->upper - characteristic->lower);
    end_table(page);
    bite_html_put(page, "<p class=\"small\">Parts that the gauge tells apart: %s by variance",
                  bite_html_count(gauge->variance.categories).text);
    if (gauge->has_ranges) {
        bite_html_put(page, ", %s by ranges", bite_html_count(gauge->ranges.categories).text);
    }
    bite_html_put(page,
                  ". %sStandard deviations; a component whose estimated variance is negative "
                  "shows no effect and counts as 0. Share of tolerance: six standard "
                  "deviations over the distance of the limits.</p>\n",
                  gauge->variance.pooled ? "The interaction of persons and parts is insignificant "
                                           "and is pooled with the repeatability. "
                                         : "");
}

void bite_inspection_gauge_tables(bite_inspection_page *html)
{
    const bite_inspection *inspection = html->inspection;
    size_t studied = 0;
    for (size_t i = 0; i < inspection->record->characteristic_count; i++) {
        if (inspection->characteristics[i].gauge.state == BITE_GAUGE_STUDIED &&
            !inspection->record->characteristics[i].judged) {
            gauge_table(html, i);
            studied++;
        }
    }
    if (studied == 0) {
        bite_page_text(&html->page, "<p class=\"small\">There is no gauge study: it needs two or "
                                    "more persons who each read every part equally often, at least "
                                    "twice.</p>\n");
    }
}

/* ---- parts and readings ---- */

void bite_inspection_parts_table(bite_inspection_page *html)
{
    static const char *const columns[] = {"Part", "#Measured", "#Missing", "Finding", NULL};
    const bite_inspection *inspection = html->inspection;
    bite_page *page = &html->page;
    bite_page_text(page, "<p class=\"small\">Measured and missing: characteristics.</p>\n"
                         "<div class=\"wide parts\"><table class=\"small\">\n");
    bite_inspection_columns(html, columns);
    for (size_t i = 0; i < inspection->part_count; i++) {
        const bite_part_result *part = &inspection->parts[i];
        bite_html_put(page, "<tr><th scope=\"row\">%s</th>", bite_html_count(part->part).text);
        count_cell(page, part->measured);
        count_cell(page, part->missing);
        bite_page_text(page, "<td>");
        bite_inspection_finding(html, part->finding);
        bite_page_text(page, "</td></tr>\n");
    }
    end_table(page);
}

static void reading_row(bite_inspection_page *html, size_t characteristic,
                        const bite_reading *reading)
{
    const bite_inspection *inspection = html->inspection;
    const bite_size_form form = bite_inspection_form(html, characteristic);
    const bite_reading_result *result =
        &inspection->readings[reading - inspection->record->readings];
    int judged = inspection->record->characteristics[characteristic].judged != 0;
    bite_page *page = &html->page;
    bite_html_put(page, "<tr><th scope=\"row\">%s</th>", bite_html_count(reading->part).text);
    number_cell(page, bite_html_count(reading->trial).text);
    cell(page, reading->person);
    cell(page, bite_moment_text(reading->time).text);
    number_cell(page, judged ? (reading->value > 0.5 ? "accepted" : "rejected")
                             : bite_size_number(&form, reading->value).text);
    number_cell(page, bite_temperature_text(reading->temperature, page->units).text);
    number_cell(page, judged ? "-" : bite_size_number(&form, reading->value_20).text);
    number_cell(page, judged ? "-" : bite_size_spread_text(&form, reading->uncertainty_20).text);
    number_cell(page, bite_chance_text(result->chance).text);
    bite_page_text(page, "<td>");
    bite_inspection_finding(html, result->finding);
    bite_page_text(page, "</td>");
    cell(page, reading->note);
    bite_page_text(page, "</tr>\n");
}

void bite_inspection_readings_table(bite_inspection_page *html, size_t characteristic)
{
    static const char *const columns[] = {"Part",    "#Trial",       "By",          "Time",
                                          "#Read",   "#Temperature", "#At 20 degC", "#Uncertainty",
                                          "#Chance", "Finding",      "Note",        NULL};
    const bite_characteristic_result *result = &html->inspection->characteristics[characteristic];
    bite_page *page = &html->page;
    if (result->part_count == 0) {
        return;
    }
    bite_page_text(page, "<div class=\"wide\"><table class=\"small\">\n");
    bite_inspection_columns(html, columns);
    for (size_t i = 0; i < result->part_count; i++) {
        for (size_t k = 0; k < result->parts[i].count; k++) {
            reading_row(html, characteristic, result->readings[result->parts[i].first + k]);
        }
    }
    end_table(page);
}

void bite_inspection_closed_table(bite_inspection_page *html)
{
    static const char *const columns[] = {"#Line", "Characteristic", "#Part", "#Read", "By",
                                          "Time",  "State",          "Note",  NULL};
    const struct bite_record *record = html->inspection->record;
    bite_page *page = &html->page;
    if (html->inspection->skipped + html->inspection->withdrawn + html->inspection->replaced == 0) {
        return;
    }
    bite_page_text(page, "<h3>Skipped, withdrawn and corrected</h3>\n<div class=\"wide\"><table "
                         "class=\"small\">\n");
    bite_inspection_columns(html, columns);
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *reading = &record->readings[i];
        if (reading->state == BITE_READING_STANDS) {
            continue;
        }
        bite_html_put(page, "<tr><td class=\"n\">%s</td>",
                      bite_html_count((double)reading->line).text);
        cell(page, record->characteristics[reading->characteristic].what);
        number_cell(page, bite_html_count(reading->part).text);
        number_cell(page, reading->text);
        cell(page, reading->person);
        cell(page, bite_moment_text(reading->time).text);
        cell(page, bite_reading_state_word(reading->state));
        cell(page, reading->note);
        bite_page_text(page, "</tr>\n");
    }
    end_table(page);
}

/* ---- instruments ---- */

void bite_inspection_instruments_table(bite_inspection_page *html)
{
    static const char *const columns[] = {"#No.",
                                          "Characteristic",
                                          "Instrument",
                                          "#Resolution",
                                          "#Std. uncertainty of a reading",
                                          "#Guard band",
                                          "#Tolerance over 4 u",
                                          "#Pressed by",
                                          NULL};
    const struct bite_record *record = html->inspection->record;
    bite_page *page = &html->page;
    begin_table(html, columns);
    for (size_t i = 0; i < record->characteristic_count; i++) {
        const bite_characteristic *characteristic = &record->characteristics[i];
        const bite_characteristic_result *result = &html->inspection->characteristics[i];
        const bite_size_form form = bite_inspection_form(html, i);
        const char *title = characteristic->instrument_title;
        row_head(page, characteristic);
        cell(page, title[0] != 0 ? title : characteristic->instrument);
        number_cell(page, bite_size_text(&form, characteristic->resolution).text);
        number_cell(page, characteristic->judged
                              ? "-"
                              : bite_size_spread_text(&form, characteristic->uncertainty).text);
        number_cell(page, bite_size_spread_text(&form, result->guard).text);
        number_cell(page, bite_plain_number(result->ratio, 3).text);
        number_cell(page, characteristic->pressed > 0.0
                              ? bite_size_spread_text(&form, characteristic->pressed).text
                              : "-");
        bite_page_text(page, "</tr>\n");
    }
    end_table(page);
}
