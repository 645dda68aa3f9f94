/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut as plain text: what to type in, the limits by use, temperatures, cautions, and what was taken as usual. */
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/base/unit.h"
#include "core/base/vocabulary.h"
#include "core/job/answer.h"
#include "core/sheet/answer.h"
#include "core/sheet/page.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define FOREMOST 6
#define BAR 12

static const char *const words[] = {"not judged", "clear", "tight", "over"};
static const char *const severities[] = {"", "note", "care", "DANGER"};

/* Inputs whose usual value a machinist would want to know of; the rest stands in the JSON and in show. */
static const char *const worth_saying[] = {"flutes", "edge_radius", "runout", "stickout", "flute_length",    "machine_stiffness",
                                           "depth",  "coolant",     "helix",  "rake",     "room_temperature"};

static void head(bite_page *page, const bite_answer *answer)
{
    char diameter[40];
    char line[400];
    const bite_cut *cut = &answer->full;
    bite_page_quantity(page, cut->diameter, BITE_KIND_LENGTH, diameter, sizeof diameter);
    (void)snprintf(line, sizeof line, "%s, %s %s tool, %d flute%s, %s, %s", answer->ask.grade->thing.name, diameter,
                   bite_answer_choice(answer, "tool_material"), (int)cut->flutes, cut->flutes > 1.0 ? "s" : "",
                   answer->ask.machine == NULL ? "bench-24k*" : answer->ask.machine->name,
                   cut->coolant == BITE_COOLANT_NONE ? "dry" : bite_answer_choice(answer, "coolant"));
    bite_page_wrap(page, "", "  ", line);
}

static void enter(bite_page *page, const bite_answer *answer)
{
    char spindle[40];
    char feed[40];
    char depth[40];
    char width[40];
    char line[400];
    const bite_cut *cut = &answer->full;
    bite_page_quantity(page, cut->spindle_speed, BITE_KIND_ROTATION, spindle, sizeof spindle);
    bite_page_quantity(page, cut->feed_rate, BITE_KIND_SPEED, feed, sizeof feed);
    bite_page_quantity(page, cut->depth, BITE_KIND_LENGTH, depth, sizeof depth);
    bite_page_quantity(page, cut->width, BITE_KIND_LENGTH, width, sizeof width);
    (void)snprintf(line, sizeof line, "spindle %s   feed %s   depth %s%s   %s%s", spindle, feed, depth,
                   answer->account[bite_input_index(bite_input_find("depth"))].origin == BITE_FROM_USER ? "" : "*",
                   isnan(cut->width) ? "full slot" : "width ", isnan(cut->width) ? "" : width);
    bite_page_tint(page, 4, "Type in  ");
    bite_page_line(page, line);
}

/* Indices of rows, those that apply first, by falling use; advisory rows behind the binding ones of equal use. */
static int sorted_rows(const bite_result *result, int *order)
{
    int count = 0;
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        if (!result->rows[i].applies) {
            continue;
        }
        int at = count++;
        while (at > 0 && result->rows[order[at - 1]].use < result->rows[i].use) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = i;
    }
    return count;
}

/* Percent without decimals, but for what is under one. */
static size_t write_share(double use, char *to, size_t size)
{
    double percent = fmin(100.0 * use, 99999.0);
    return percent < 1.0 ? bite_number_write(percent, 1, to, size) : bite_number_write(round(percent), 6, to, size);
}

static void verdict_line(bite_page *page, const bite_answer *answer)
{
    const bite_result *result = &answer->result;
    char line[200];
    char use[24];
    const bite_row *worst = &result->rows[result->worst];
    (void)write_share(worst->use, use, sizeof use);
    (void)snprintf(line, sizeof line, "  %s uses %s %% of its room%s\n", bite_row_name((bite_row_id)result->worst), use,
                   worst->in_corner ? ", in the inside corner" : "");
    static const char *const shout[] = {"NOT JUDGED", "CLEAR", "TIGHT", "OVER"};
    bite_page_tint(page, (int)result->verdict, shout[result->verdict]);
    bite_page_text(page, line);
}

static void one_row(bite_page *page, const bite_answer *answer, int id)
{
    const bite_row *row = &answer->result.rows[id];
    char demand[40];
    char room[40];
    char use[40];
    bite_kind kind = bite_row_kind((bite_row_id)id);
    bite_page_quantity(page, row->demand, kind, demand, sizeof demand);
    bite_page_quantity(page, row->room, kind, room, sizeof room);
    size_t length = write_share(row->use, use, sizeof use - 3);
    memcpy(use + length, " %", 3);
    bite_page_text(page, "  ");
    bite_page_pad(page, bite_row_name((bite_row_id)id), 13);
    bite_page_pad_left(page, demand, 12);
    bite_page_text(page, " of ");
    bite_page_pad(page, room, 12);
    bite_page_pad_left(page, use, 7);
    bite_page_text(page, "  ");
    if (page->columns >= 78) {
        bite_page_bar(page, row->use, BAR);
        bite_page_text(page, " ");
    }
    bite_page_tint(page, (int)row->verdict, words[row->verdict]);
    bite_page_line(page, row->advisory ? " (advice)" : row->in_corner ? " (corner)" : "");
}

static void list_names(bite_page *page, const char *title, const char *names)
{
    if (names[0] != 0) {
        char line[600];
        (void)snprintf(line, sizeof line, "%s %s", title, names);
        bite_page_wrap(page, "  ", "    ", line);
    }
}

static void append(char *to, size_t size, const char *text)
{
    size_t used = strlen(to);
    if (used + strlen(text) + 3 < size) {
        (void)snprintf(to + used, size - used, "%s%s", used > 0 ? ", " : "", text);
    }
}

static void rows(bite_page *page, const bite_answer *answer, int all)
{
    int order[BITE_ROW_COUNT];
    int count = sorted_rows(&answer->result, order);
    char rest[400] = "";
    char open[400] = "";
    for (int i = 0; i < count; i++) {
        if (all || i < FOREMOST) {
            one_row(page, answer, order[i]);
        } else {
            append(rest, sizeof rest, bite_row_name((bite_row_id)order[i]));
        }
    }
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        if (!answer->result.rows[i].applies) {
            append(open, sizeof open, bite_row_name((bite_row_id)i));
        }
    }
    list_names(page, "less used:", rest);
    list_names(page, "not asked or no data:", open);
}

static void temperatures(bite_page *page, const bite_answer *answer)
{
    static const struct {
        bite_value_id id;
        const char *word;
    } shown[] = {{BITE_SURFACE_TEMPERATURE, "surface"},
                 {BITE_CHIP_TEMPERATURE, "chip"},
                 {BITE_TOOL_TEMPERATURE, "tool"},
                 {BITE_PART_TEMPERATURE, "part at its bond"}};
    char line[300] = "";
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++) {
        double value = answer->result.values[shown[i].id].value;
        char text[40];
        char part[80];
        if (!isnan(value)) {
            bite_page_quantity(page, value, BITE_KIND_TEMPERATURE, text, sizeof text);
            (void)snprintf(part, sizeof part, "%s %s", shown[i].word, text);
            append(line, sizeof line, part);
        }
    }
    if (!isnan(answer->full.softening)) {
        char text[40];
        char part[80];
        bite_page_quantity(page, answer->full.softening, BITE_KIND_TEMPERATURE, text, sizeof text);
        (void)snprintf(part, sizeof part, "the grade's shop limit is %s", text);
        append(line, sizeof line, part);
    }
    if (line[0] != 0) {
        bite_page_wrap(page, "Heat: ", "  ", line);
    }
}

static void advice(bite_page *page, const bite_answer *answer)
{
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        const char *text = bite_answer_advice(answer, (bite_row_id)i);
        if (text[0] != 0 && answer->result.rows[i].applies) {
            char first[40];
            (void)snprintf(first, sizeof first, "%s: ", bite_row_name((bite_row_id)i));
            bite_page_wrap(page, first, "  ", text);
        }
    }
}

static void cautions(bite_page *page, const bite_answer *answer, int sources)
{
    for (size_t i = 0; i < answer->said_count; i++) {
        const bite_said *said = &answer->said[i];
        char first[24];
        uint32_t severity = said->caution.severity < 4 ? said->caution.severity : 0;
        (void)snprintf(first, sizeof first, "%s: ", severities[severity]);
        bite_page_wrap(page, first, "  ", page->units == BITE_INCH ? said->inch : said->caution.text);
        if (sources) {
            bite_page_wrap(page, "  [", "   ", said->caution.source);
        }
    }
}

static void assumed(bite_page *page, const bite_answer *answer)
{
    char line[900] = "";
    for (size_t i = 0; i < sizeof worth_saying / sizeof *worth_saying; i++) {
        const bite_input *input = bite_input_find(worth_saying[i]);
        if (input == NULL || answer->account[bite_input_index(input)].origin == BITE_FROM_USER) {
            continue;
        }
        char text[64];
        char part[120];
        if (input->words > 0) {
            (void)snprintf(text, sizeof text, "%s", bite_answer_choice(answer, input->name));
        } else {
            bite_page_quantity(page, *bite_input_number_of(&answer->full, input), (bite_kind)input->kind, text, sizeof text);
        }
        (void)snprintf(part, sizeof part, "%s %s", input->name, text);
        append(line, sizeof line, part);
    }
    if (answer->ask.machine == NULL) {
        append(line, sizeof line, "machine bench-24k");
    }
    if (line[0] != 0) {
        bite_page_wrap(page, "* taken, not given: ", "  ", line);
    }
}

static void sources_of(bite_page *page, const bite_answer *answer)
{
    bite_page_line(page, "");
    bite_page_line(page, "Sources");
    size_t count = bite_input_count();
    for (size_t i = 0; i < count && i < BITE_INPUTS_MOST; i++) {
        const bite_account *account = &answer->account[i];
        if (account->source != NULL && account->source[0] != 0) {
            char first[64];
            (void)snprintf(first, sizeof first, "  %s: ", bite_input_at(i)->name);
            bite_page_wrap(page, first, "    ", account->source);
        }
    }
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        char first[64];
        (void)snprintf(first, sizeof first, "  %s: ", bite_row_name((bite_row_id)i));
        bite_page_wrap(page, first, "    ", bite_answer_row_source(answer, (bite_row_id)i));
    }
}

bite_status bite_answer_text(const bite_answer *answer, const bite_style *style, bite_sink sink, void *user, bite_error *error)
{
    bite_page page;
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    int all = style != NULL && style->rows != 0;
    int with_sources = style != NULL && style->sources != 0;
    head(&page, answer);
    enter(&page, answer);
    verdict_line(&page, answer);
    rows(&page, answer, all);
    temperatures(&page, answer);
    advice(&page, answer);
    cautions(&page, answer, with_sources);
    assumed(&page, answer);
    if (with_sources) {
        sources_of(&page, answer);
    }
    return bite_page_close(&page, error);
}

bite_status bite_answer_write(const bite_answer *answer, const bite_style *style, bite_sink sink, void *user, bite_error *error)
{
    bite_error_clear(error);
    bite_page page;
    if (answer == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an answer was expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    return style != NULL && style->format == BITE_JSON ? bite_answer_json(answer, style, sink, user, error)
                                                       : bite_answer_text(answer, style, sink, user, error);
}
