/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the public reports of tests/field/cases.csv and judges each with the engine. */
#include "tests/field/field_cases.h"
#include "tests/reference/csv.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define CASES_MOST 256
#define DRAWS 1024

const field_outcome field_outcomes[] = {
    {"melt",
     {BITE_LIMIT_SOFTENING, BITE_LIMIT_CHIP_WELD, BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_COUNT}},
    {"weld_chips", {BITE_LIMIT_CHIP_WELD, BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_COUNT}},
    /* a burnt or worn edge and clogged flutes break a tool too */
    {"tool_break",
     {BITE_LIMIT_TOOL_BREAK, BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_RUBBING, BITE_LIMIT_EDGE_SPEED,
      BITE_LIMIT_CHIP_WELD, BITE_LIMIT_COUNT}},
    {"stall", {BITE_LIMIT_TORQUE, BITE_LIMIT_POWER, BITE_LIMIT_COUNT}},
    {"size_error",
     {BITE_LIMIT_DEFLECTION, BITE_LIMIT_FEED_FAST, BITE_LIMIT_TOOL_GROSS_BEND, BITE_LIMIT_COUNT}},
    {"poor_finish",
     {BITE_LIMIT_FINISH, BITE_LIMIT_RUBBING, BITE_LIMIT_RUNOUT, BITE_LIMIT_FEED_FAST,
      BITE_LIMIT_COUNT}},
    {"rub", {BITE_LIMIT_RUBBING, BITE_LIMIT_RUNOUT, BITE_LIMIT_COUNT}},
};
#define OUTCOMES (sizeof field_outcomes / sizeof *field_outcomes)

static bite_csv table;
field_case field_cases[CASES_MOST];
size_t field_case_count;

const char *field_cell(size_t row, const char *column)
{
    return bite_csv_cell(&table, row, column);
}

/* Sets an input if the author gave it. Returns 0 if it was refused. */
static int set_input(bite_request *request, const char *input, const char *number, const char *unit,
                     field_case *report)
{
    char text[64];
    bite_error error = BITE_ERROR_INIT;
    if (number[0] == 0) {
        return 1;
    }
    (void)snprintf(text, sizeof text, "%s%s", number, unit);
    if (bite_request_set(request, input, text, &error) == BITE_OK) {
        return 1;
    }
    (void)snprintf(report->why, sizeof report->why, "%.190s", error.message);
    return 0;
}

/* Sets the inputs of the column "more": "input=quantity", separated by blanks. */
static int set_more(bite_request *request, const char *more, field_case *report)
{
    char text[200];
    (void)snprintf(text, sizeof text, "%.199s", more);
    for (char *rest = text, *word = strtok_r(text, " ", &rest); word != NULL;
         word = strtok_r(NULL, " ", &rest)) {
        char *equals = strchr(word, '=');
        ck_assert_msg(equals != NULL, "%s: '%s' is not input=quantity", report->id, word);
        *equals = 0;
        if (!set_input(request, word, equals + 1, "", report)) {
            return 0;
        }
    }
    return 1;
}

/* The machine is given the author's spindle speed if its own is slower. */
static void reach_speed(bite_request *request, const char *rpm)
{
    bite_cut cut;
    char text[64];
    bite_cut_init(&cut);
    if (bite_request_cut(request, &cut, NULL) == BITE_OK &&
        cut.spindle_speed > cut.spindle_fastest) {
        (void)snprintf(text, sizeof text, "%srpm", rpm);
        ck_assert_int_eq(bite_request_set(request, "spindle_fastest", text, NULL), BITE_OK);
    }
}

/* ap_most_mm is the largest depth that the author allowed: the default depth is used, but never
 * more than that, or with limit_is_depth the largest depth itself. */
static int set_depth(bite_request *request, size_t row, int limit_is_depth, field_case *report)
{
    const char *most = field_cell(row, "ap_most_mm");
    bite_cut cut;
    bite_cut_init(&cut);
    if (most[0] == 0) {
        return set_input(request, "depth", field_cell(row, "ap_mm"), "mm", report);
    }
    ck_assert_int_eq(bite_request_cut(request, &cut, NULL), BITE_OK);
    return limit_is_depth || cut.depth > 1e-3 * strtod(most, NULL)
               ? set_input(request, "depth", most, "mm", report)
               : 1;
}

static int set_inputs(bite_request *request, size_t row, int limit_is_depth, field_case *report)
{
    bite_error error = BITE_ERROR_INIT;
    const char *machine = field_cell(row, "machine");
    if (bite_request_use(request, BITE_GRADES, field_cell(row, "grade"), &error) != BITE_OK ||
        (machine[0] != 0 && bite_request_use(request, BITE_MACHINES, machine, &error) != BITE_OK)) {
        (void)snprintf(report->why, sizeof report->why, "%.190s", error.message);
        return 0;
    }
    if (!set_input(request, "diameter", field_cell(row, "tool_mm"), "mm", report) ||
        !set_input(request, "flutes", field_cell(row, "flutes"), "", report) ||
        !set_input(request, "spindle_speed", field_cell(row, "rpm"), "rpm", report) ||
        !set_input(request, "feed_rate", field_cell(row, "feed_mm_min"), "mm/min", report) ||
        !set_input(request, "width", field_cell(row, "ae_mm"), "mm", report) ||
        !set_input(request, "stickout", field_cell(row, "stickout_mm"), "mm", report) ||
        !set_input(request, "coolant", field_cell(row, "coolant"), "", report) ||
        !set_input(request, "entry", field_cell(row, "entry"), "", report) ||
        !set_input(request, "entry_feed", field_cell(row, "entry_feed_mm_min"), "mm/min", report) ||
        !set_more(request, field_cell(row, "more"), report) ||
        !set_depth(request, row, limit_is_depth, report)) {
        return 0;
    }
    reach_speed(request, field_cell(row, "rpm"));
    return 1;
}

/* Notes the value that was assumed for each input that the author could have given, and for those
 * that misses depend on. */
static void note_assumed(const bite_request *request, field_case *report)
{
    static const struct {
        const char *column; /* the input is given if it is not empty; "": no column */
        const char *input;
        const char *unset; /* the text for NaN */
    } inputs[] = {{"flutes", "flutes", "?"},    {"ap_mm", "depth", "?"},
                  {"ae_mm", "width", "a slot"}, {"stickout_mm", "stickout", "?"},
                  {"", "edge_radius", "?"},     {"", "runout", "?"}};
    bite_cut cut;
    size_t at = 0;
    bite_cut_init(&cut);
    ck_assert_int_eq(bite_request_cut(request, &cut, NULL), BITE_OK);
    for (size_t i = 0; i < sizeof inputs / sizeof *inputs; i++) {
        const bite_input *input = bite_input_find(inputs[i].input);
        int given = inputs[i].column[0] != 0 && field_cell(report->row, inputs[i].column)[0] != 0;
        char text[40];
        size_t length = 0;
        double value;
        if (given || strstr(field_cell(report->row, "more"), inputs[i].input) != NULL) {
            continue;
        }
        memcpy(&value, (const char *)&cut + input->offset, sizeof value);
        (void)snprintf(text, sizeof text, "%s", inputs[i].unset);
        if (!isnan(value)) {
            ck_assert_int_eq(bite_quantity_write(value, (bite_kind)input->kind, BITE_METRIC, text,
                                                 sizeof text, &length, NULL),
                             BITE_OK);
        }
        at += (size_t)snprintf(report->assumed + at, sizeof report->assumed - at, "%s%s %s",
                               at > 0 ? ", " : "", inputs[i].input, text);
    }
}

void field_judge(size_t row, int limit_is_depth, field_case *report)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    if (field_cell(row, "grade")[0] == 0) {
        (void)snprintf(report->why, sizeof report->why, "no table of %.100s yet",
                       field_cell(row, "said_material"));
        return;
    }
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    if (set_inputs(request, row, limit_is_depth, report)) {
        bite_status status = bite_answer_new(request, DRAWS, 0.95, &answer, &error);
        report->judged = status == BITE_OK;
        report->scored = report->judged && strcmp(field_cell(row, "evidence"), "C") != 0;
        if (report->judged) {
            report->result = *bite_answer_result(answer);
            note_assumed(request, report);
        } else {
            (void)snprintf(report->why, sizeof report->why, "%.190s", error.message);
        }
    }
    bite_answer_free(answer);
    bite_request_free(request);
}

static int kind_of(const char *outcome)
{
    for (size_t i = 0; i < OUTCOMES; i++) {
        if (strcmp(field_outcomes[i].outcome, outcome) == 0) {
            return (int)i;
        }
    }
    return strcmp(outcome, "ok") == 0 ? -1 : -2;
}

void field_judge_all(void)
{
    char path[4096];
    open_library();
    bite_test_source(path, sizeof path, "tests/field/cases.csv");
    table = bite_csv_read(path);
    for (size_t row = 1; row < table.count && field_case_count < CASES_MOST; row++) {
        field_case *report = &field_cases[field_case_count++];
        report->id = field_cell(row, "id");
        report->row = row;
        report->outcome = field_cell(row, "outcome");
        report->source = field_cell(row, "source");
        report->kind = kind_of(report->outcome);
        field_judge(row, 0, report);
    }
}

void field_close(void)
{
    bite_csv_free(&table);
    close_library();
}
