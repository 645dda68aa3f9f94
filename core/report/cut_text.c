/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut as plain text: what to enter at the machine, the limits by utilization,
 * temperatures, cautions, and the defaults used. */
#include "core/report/cut_text.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/library/material.h"
#include "core/names/measurements.h"
#include "core/names/registry.h"
#include "core/report/choice_text.h"
#include "core/report/cut_json.h"
#include "core/report/limit_table.h"
#include "core/report/text_page.h"
#include "core/request/answer.h"
#include "core/request/cautions.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define LIMITS_SHOWN 6
#define PAGE_LINES 24

#define DANGER 3
static const char *const severities[] = {"", "Note", "Caution", [DANGER] = "DANGER"};

/* Inputs whose default value matters to a machinist. The JSON and `show` have all others. */
static const char *const shown_defaults[] = {
    "flutes",      "depth",  "width",    "coolant",
    "edge_radius", "runout", "stickout", "machine_stiffness"};

/* The kind of tool by its operation. */
static const char *const tool_kinds[] = {"tool", "drill", "chamfer mill", "tap", "reamer"};

void bite_answer_title_text(bite_page *page, const bite_answer *answer, char *to, size_t size)
{
    char diameter[40];
    const bite_cut *cut = &answer->full;
    char machine[80] = "";
    bite_page_quantity(page, cut->diameter, BITE_KIND_LENGTH, diameter, sizeof diameter);
    if (answer->request.machine != NULL) {
        bool of_shop = (answer->request.shop_keys & 1u << BITE_SHOP_MACHINE) != 0;
        (void)snprintf(machine, sizeof machine, "%.70s%s", answer->request.machine->name,
                       of_shop ? "*" : "");
    }
    (void)snprintf(to, size, "%s%s, %s %s %s, %d flute%s, %s, %s",
                   answer->request.grade->record.name,
                   answer->request.grade_match != BITE_MATCH_GRADE ? "*" : "", diameter,
                   bite_answer_word(answer, "tool_material"),
                   bite_answer_groove_width(answer) > 0.0 ? "cone" : tool_kinds[cut->operation],
                   (int)cut->flutes, cut->flutes > 1.0 ? "s" : "",
                   answer->request.machine == NULL ? "bench-24k*" : machine,
                   cut->coolant == BITE_COOLANT_NONE ? "dry" : bite_answer_word(answer, "coolant"));
}

static void head(bite_page *page, const bite_answer *answer)
{
    char line[520];
    bite_answer_title_text(page, answer, line, sizeof line);
    bite_page_wrap(page, "", "  ", line);
}

/* The width of cut; for a chamfer the position of the tool; for an engraved groove its shape. */
static void write_across(bite_page *page, const bite_answer *answer, char *to, size_t size)
{
    const bite_cut *cut = &answer->full;
    char first[40];
    char second[40];
    char third[40];
    if (cut->operation == BITE_CHAMFER) {
        bite_page_quantity(page, cut->taper, BITE_KIND_ANGLE, first, sizeof first);
        bite_page_quantity(page, cut->depth + cut->tip_below, BITE_KIND_LENGTH, second,
                           sizeof second);
        bite_page_quantity(page, bite_answer_cone_radius(answer), BITE_KIND_LENGTH, third,
                           sizeof third);
        (void)snprintf(to, size, "chamfer of %s: tip %s below the top, axis %s from the wall",
                       first, second, third);
    } else if (bite_answer_groove_width(answer) > 0.0) {
        bite_page_quantity(page, 2.0 * cut->taper, BITE_KIND_ANGLE, first, sizeof first);
        bite_page_quantity(page, bite_answer_groove_width(answer), BITE_KIND_LENGTH, second,
                           sizeof second);
        (void)snprintf(to, size, "a groove of %s, %s wide at the top", first, second);
    } else if (cut->operation == BITE_TAP) {
        bite_page_quantity(page, cut->pitch, BITE_KIND_LENGTH, first, sizeof first);
        bite_page_quantity(page, cut->hole_diameter, BITE_KIND_LENGTH, second, sizeof second);
        (void)snprintf(to, size, "pitch %s, in a hole of %s", first, second);
    } else if (cut->operation == BITE_REAM) {
        bite_page_quantity(page, cut->hole_diameter, BITE_KIND_LENGTH, first, sizeof first);
        (void)snprintf(to, size, "in a hole of %s", first);
    } else if (cut->operation == BITE_DRILL_HOLE || isnan(cut->width)) {
        (void)snprintf(to, size, "%s",
                       cut->operation == BITE_DRILL_HOLE ? "each peck" : "full slot");
    } else {
        bite_page_quantity(page, cut->width, BITE_KIND_LENGTH, first, sizeof first);
        (void)snprintf(to, size, "width %s", first);
    }
}

void bite_entry_text(bite_page *page, const bite_answer *answer, char *to, size_t size)
{
    const bite_cut *cut = &answer->full;
    char angle[40];
    char feed[40];
    to[0] = 0;
    if (cut->operation != BITE_MILL || cut->entry == BITE_ENTRY_OUTSIDE) {
        return;
    }
    bite_page_quantity(page, bite_answer_entry_feed(answer), BITE_KIND_SPEED, feed, sizeof feed);
    bite_page_quantity(page, cut->ramp_angle, BITE_KIND_ANGLE, angle, sizeof angle);
    if (cut->entry == BITE_ENTRY_PLUNGE) {
        (void)snprintf(to, size, "; plunge in at %s", feed);
    } else {
        (void)snprintf(to, size, "; %s in at %s, %s",
                       cut->entry == BITE_ENTRY_HELIX ? "helix" : "ramp", angle, feed);
    }
}

static void write_enter_line(bite_page *page, const bite_answer *answer)
{
    char spindle[40];
    char feed[40];
    char depth[40];
    char across[200];
    char entry[120];
    char line[520];
    const bite_cut *cut = &answer->full;
    bite_entry_text(page, answer, entry, sizeof entry);
    bite_page_quantity(page, cut->spindle_speed, BITE_KIND_ROTATION, spindle, sizeof spindle);
    bite_page_quantity(page, cut->feed_rate, BITE_KIND_SPEED, feed, sizeof feed);
    bite_page_quantity(page, cut->depth, BITE_KIND_LENGTH, depth, sizeof depth);
    write_across(page, answer, across, sizeof across);
    (void)snprintf(
        line, sizeof line, "spindle %s,  feed %s,  depth %s%s,  %s%s%s", spindle, feed, depth,
        answer->provenance[bite_input_index(bite_input_find("depth"))].origin == BITE_ORIGIN_USER
            ? ""
            : "*",
        across,
        answer->provenance[bite_input_index(bite_input_find("width"))].origin == BITE_ORIGIN_DEFAULT
            ? "*"
            : "",
        entry);
    bite_page_wrap_tinted(page, 4, "Enter  ", "  ", line);
}

/* True if every limit is clear on its own and only their joint chance makes the cut tight. */
static int tight_together(const bite_result *result)
{
    return result->verdict == BITE_TIGHT && bite_answer_limits_verdict(result) == BITE_CLEAR;
}

void bite_advisory_text(const bite_answer *answer, char *to, size_t size)
{
    const bite_result *result = &answer->result;
    uint32_t worst = bite_answer_worst_advisory(result);
    char use[24];
    to[0] = 0;
    if (worst < BITE_LIMIT_COUNT) {
        (void)bite_page_percent(result->limits[worst].utilization, use, sizeof use);
        (void)snprintf(to, size, "; advisory: %s %s %%",
                       bite_cut_limit_name(&answer->full, (bite_limit_id)worst), use);
    }
}

/* Where in the path a limit is judged, by its in_corner. */
static const char *const places[] = {"", ", in the inside corner", ", at entry"};

/* An unknown verdict is shown in the colour of a tight one. */
static int tint_of(uint32_t verdict)
{
    return verdict == BITE_UNKNOWN ? BITE_TIGHT : (int)verdict;
}

/* Lists the figures without which the cut could not be judged. */
static void missing_line(bite_page *page, const bite_answer *answer)
{
    char line[200] = "";
    const char *figure = bite_answer_missing(answer, 0);
    for (size_t i = 1; figure != NULL; figure = bite_answer_missing(answer, i++)) {
        size_t used = strlen(line);
        (void)snprintf(line + used, sizeof line - used, "%s%s", i > 1 ? ", " : "", figure);
    }
    if (line[0] != 0) {
        bite_page_wrap_tinted(page, BITE_TIGHT, "Missing  ", "  ", line);
    }
}

static void verdict_line(bite_page *page, const bite_answer *answer)
{
    static const char *const titles[] = {"NOT JUDGED  ", "CLEAR  ", "TIGHT  ", "OVER  ",
                                         "UNKNOWN  "};
    const bite_result *result = &answer->result;
    const bite_limit *worst = &result->limits[result->worst];
    char line[320];
    char advised[80];
    char use[24];
    char chance[24];
    (void)bite_page_percent(worst->utilization, use, sizeof use);
    (void)bite_page_percent(result->chance, chance, sizeof chance);
    int used = snprintf(line, sizeof line, "%s uses %s %% of its capacity%s%s",
                        bite_cut_limit_name(&answer->full, (bite_limit_id)result->worst), use,
                        worst->utilization < 0.005 ? " at best estimates" : "",
                        places[worst->in_corner < 3 ? worst->in_corner : 0]);
    if (result->draws > 0) {
        (void)snprintf(line + used, sizeof line - (size_t)used,
                       "; chance of exceeding a limit: %s %%%s", chance,
                       tight_together(result) ? ", no limit is tight alone" : "");
    }
    bite_advisory_text(answer, advised, sizeof advised);
    (void)strncat(line, advised, sizeof line - strlen(line) - 1);
    bite_page_wrap_tinted(page, tint_of(result->verdict), titles[result->verdict], "  ", line);
    missing_line(page, answer);
}

static void band_text(bite_page *page, const bite_value *band, char *to, size_t size)
{
    char value[40];
    char low[40];
    char high[40];
    bite_page_quantity(page, band->value, BITE_KIND_TEMPERATURE, value, sizeof value);
    (void)snprintf(to, size, "%s", value);
    if (band->low < band->high) {
        bite_page_quantity(page, band->low, BITE_KIND_TEMPERATURE, low, sizeof low);
        bite_page_quantity(page, band->high, BITE_KIND_TEMPERATURE, high, sizeof high);
        (void)snprintf(to, size, "%s (%.*s to %.*s)", value, (int)strcspn(low, " "), low,
                       (int)strcspn(high, " "), high);
    }
}

/* What the temperature of the surface is compared with: of a polymer the temperature at which it
 * would flow in the time for which it stays warm, of a board the limit for the moment under the
 * edge. */
static void temperature_limit(bite_page *page, const bite_answer *answer, char *to, size_t size)
{
    uint32_t substance = answer->full.substance;
    int polymer = substance == BITE_AMORPHOUS || substance == BITE_CRYSTALLINE;
    double limit =
        polymer ? answer->result.values[BITE_FLOW_TEMPERATURE].value : answer->full.softening;
    char text[40];
    to[0] = 0;
    if (substance != BITE_METAL && !isnan(limit)) {
        bite_page_quantity(page, limit, BITE_KIND_TEMPERATURE, text, sizeof text);
        (void)snprintf(to, size, "; %s %s",
                       !polymer                      ? "limit"
                       : substance == BITE_AMORPHOUS ? "flows at"
                                                     : "melts at",
                       text);
    }
}

static void temperatures(bite_page *page, const bite_answer *answer)
{
    const bite_value *values = answer->result.values;
    int board = answer->full.substance >= BITE_THERMOSET;
    char line[520];
    char surface[140];
    char tool[140];
    char limit[80];
    if (isnan(values[BITE_SURFACE_TEMPERATURE].value)) {
        return;
    }
    band_text(page, &values[board ? BITE_FLASH_TEMPERATURE : BITE_SURFACE_TEMPERATURE], surface,
              sizeof surface);
    bite_page_quantity(page, values[BITE_TOOL_TEMPERATURE].value, BITE_KIND_TEMPERATURE, tool,
                       sizeof tool);
    temperature_limit(page, answer, limit, sizeof limit);
    (void)snprintf(line, sizeof line, "surface %s%s, tool %s%s", board ? "under the edge " : "",
                   surface, tool, limit);
    bite_page_wrap(page, "Temperature: ", "  ", line);
}

/* The one change that helps most, and the one input that would narrow the answer most. */
static void first_things(bite_page *page, const bite_answer *answer, int has_change)
{
    const bite_change *change = &answer->change;
    const bite_input *input = bite_input_at(change->input);
    const bite_input *widest = bite_cut_input_at(&answer->full, answer->result.widest[0]);
    char line[300];
    if (has_change) { /* a choice named the one that makes it clear */
    } else if (change->input != BITE_NO_INPUT && input != NULL) {
        char before[24];
        char after[24];
        char name[48];
        char from[48];
        char to[48];
        (void)bite_page_percent(change->before, before, sizeof before);
        (void)bite_page_percent(change->after, after, sizeof after);
        bite_page_plain(input->name, name, sizeof name);
        if (input->words > 0) {
            (void)snprintf(from, sizeof from, "%s", bite_answer_word(answer, input->name));
            (void)snprintf(to, sizeof to, "%s", bite_input_word(input, change->word));
        } else {
            bite_page_quantity(page, change->from, (bite_kind)input->kind, from, sizeof from);
            bite_change_quantity_text(change->to, (bite_kind)input->kind, page->units, to,
                                      sizeof to);
        }
        (void)snprintf(line, sizeof line,
                       "%s from %s to %s, because of %s: the chance goes from %s to %s %%", name,
                       from, to, bite_cut_limit_name(&answer->full, (bite_limit_id)change->limit),
                       before, after);
        bite_page_wrap(page, "Change first: ", "  ", line);
    } else if (bite_answer_advice(answer, (bite_limit_id)answer->result.worst)[0] != 0) {
        bite_page_wrap(page, "Change first: ", "  ",
                       bite_answer_advice(answer, (bite_limit_id)answer->result.worst));
    }
    if (widest != NULL && bite_measurement_advice(widest->name)[0] != 0) {
        bite_page_wrap(page, "Measure first: ", "  ", bite_measurement_advice(widest->name));
    } else if (widest != NULL && answer->result.widest[0] >= bite_input_count()) {
        (void)snprintf(line, sizeof line, "%s, %s", widest->name, widest->summary);
        bite_page_wrap(page, "Measure first: ", "  ", line);
    }
}

static void advice(bite_page *page, const bite_answer *answer)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const char *text = bite_answer_advice(answer, (bite_limit_id)i);
        if (text[0] != 0 && answer->result.limits[i].applies) {
            char first[40];
            (void)snprintf(first, sizeof first,
                           "%s: ", bite_cut_limit_name(&answer->full, (bite_limit_id)i));
            bite_page_wrap(page, first, "  ", text);
        }
    }
}

/* An estimate of the lines that a text fills. */
static size_t lines_of(const bite_page *page, const char *text)
{
    size_t columns = bite_text_columns(text, strlen(text)) + 10;
    return columns / (page->columns - 10) + 1;
}

/* Whether a caution says that the answer was made without a part of what the shop relies on. */
static int tells_a_gap(const bite_caution *caution)
{
    return strcmp(caution->name, "plugin_missing") == 0 ||
           strcmp(caution->name, "table_left_out") == 0;
}

/* The most severe first. On the short page those that do not fit are counted; every danger, and
 * what the answer lacks, is always shown, however long the page becomes. */
static void cautions(bite_page *page, const bite_answer *answer, int all, int sources)
{
    size_t left_out = 0;
    for (size_t i = 0; i < answer->caution_count; i++) {
        const bite_worded_caution *worded = &answer->cautions[i];
        char first[24];
        const char *text = page->units == BITE_INCH ? worded->inch : worded->caution.text;
        uint32_t severity = worded->caution.severity < 4 ? worded->caution.severity : 0;
        if (!all && i > 0 && severity < DANGER && !tells_a_gap(&worded->caution) &&
            page->lines + lines_of(page, text) >= PAGE_LINES) {
            left_out++;
            continue;
        }
        (void)snprintf(first, sizeof first, "%s: ", severities[severity]);
        bite_page_wrap(page, first, "  ", text);
        if (sources) {
            bite_page_wrap(page, "  [", "   ", worded->caution.source);
        }
    }
    if (left_out > 0) {
        char line[80];
        (void)snprintf(line, sizeof line, "%zu more caution%s: show with --rows", left_out,
                       left_out > 1 ? "s" : "");
        bite_page_line(page, line);
    }
}

static void append(char *to, size_t size, const char *text)
{
    size_t used = strlen(to);
    if (used + strlen(text) + 3 < size) {
        (void)snprintf(to + used, size - used, "%s%s", used > 0 ? ", " : "", text);
    }
}

static void write_defaults(bite_page *page, const bite_answer *answer)
{
    char line[1100];
    bite_grade_match_text(answer->request.grade, answer->request.grade_match,
                          answer->request.grade_name, line, sizeof line);
    for (size_t i = 0; i < sizeof shown_defaults / sizeof *shown_defaults; i++) {
        const bite_input *input = bite_input_find(shown_defaults[i]);
        uint32_t origin =
            input == NULL ? BITE_ORIGIN_USER : answer->provenance[bite_input_index(input)].origin;
        if (origin == BITE_ORIGIN_USER || origin == BITE_ORIGIN_SHOP ||
            origin == BITE_ORIGIN_NONE) {
            continue;
        }
        char text[64];
        char part[120];
        if (input->words > 0) {
            (void)snprintf(text, sizeof text, "%s", bite_answer_word(answer, input->name));
        } else {
            bite_page_quantity(page, *bite_input_number_of(&answer->full, input),
                               (bite_kind)input->kind, text, sizeof text);
        }
        char name[48];
        bite_page_plain(input->name, name, sizeof name);
        (void)snprintf(part, sizeof part, "%s %s", name, text);
        append(line, sizeof line, part);
    }
    if (answer->request.machine == NULL) {
        append(line, sizeof line, "machine bench-24k");
    }
    if (line[0] != 0) {
        bite_page_wrap(page, "* Defaults used: ", "  ", line);
    }
    if (bite_shop_list(answer->request.shop, answer->request.shop_keys, line, sizeof line)) {
        char first[1700];
        (void)snprintf(first, sizeof first, "* From %.500s: %s", answer->request.shop->shown, line);
        bite_page_wrap(page, "", "  ", first);
    }
}

static void sources_of(bite_page *page, const bite_answer *answer)
{
    bite_page_line(page, "");
    bite_page_line(page, "Sources");
    size_t count = bite_input_count() + BITE_OWN_FIGURES; /* with those of a plugin */
    for (size_t i = 0; i < count && i < BITE_INPUTS_MAX; i++) {
        const bite_provenance *provenance = &answer->provenance[i];
        if (provenance->source != NULL && provenance->source[0] != 0) {
            char first[64];
            (void)snprintf(first, sizeof first,
                           "  %s: ", bite_cut_input_at(&answer->full, i)->name);
            bite_page_wrap(page, first, "    ", provenance->source);
        }
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        char first[64];
        const char *name = bite_cut_limit_name(&answer->full, (bite_limit_id)i);
        if (name == NULL) {
            continue;
        }
        (void)snprintf(first, sizeof first, "  %s: ", name);
        bite_page_wrap(page, first, "    ", bite_answer_limit_source(answer, (bite_limit_id)i));
    }
}

bite_status bite_answer_text(const bite_answer *answer, const bite_choice *choice,
                             const bite_style *style, bite_sink sink, void *user, bite_error *error)
{
    bite_page page;
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    int all = style != NULL && style->all_limits != 0;
    int with_sources = style != NULL && style->sources != 0;
    head(&page, answer);
    write_enter_line(&page, answer);
    size_t before = page.lines;
    verdict_line(&page, answer);
    /* a verdict of two lines takes the place of the last limit, not of a caution */
    int most = page.lines > before + 1 ? LIMITS_SHOWN - 1 : LIMITS_SHOWN;
    if (choice != NULL) {
        bite_choice_text_lines(&page, choice);
    }
    bite_page_limits(&page, answer, all, most);
    temperatures(&page, answer);
    first_things(&page, answer, choice != NULL && choice->freeing[0].change.what != NULL);
    if (all) {
        advice(&page, answer);
    }
    write_defaults(&page, answer);
    cautions(&page, answer, all, with_sources);
    if (with_sources) {
        sources_of(&page, answer);
    }
    return bite_page_close(&page, error);
}

bite_status bite_answer_write(const bite_answer *answer, const bite_style *style, bite_sink sink,
                              void *user, bite_error *error)
{
    bite_error_clear(error);
    bite_page page;
    if (answer == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an answer was expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    return style != NULL && style->format == BITE_JSON
               ? bite_answer_json(answer, style, sink, user, error)
               : bite_answer_text(answer, NULL, style, sink, user, error);
}
