/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the public reports of tests/field/cases.csv and the recipes of tests/field/everyday.csv,
 * and judges each with the engine. */
#include "tests/field/field_cases.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define CASES_MOST 256
#define DRAWS 1024
#define CONFIDENCE 0.9 /* the usual one of the command */

const field_outcome field_outcomes[] = {
    {"melt",
     {BITE_LIMIT_SOFTENING, BITE_LIMIT_CHIP_WELD, BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_COUNT}},
    {"weld_chips", {BITE_LIMIT_CHIP_WELD, BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_COUNT}},
    /* a burnt or worn edge, clogged flutes and a tool that whips break it too */
    {"tool_break",
     {BITE_LIMIT_TOOL_BREAK, BITE_LIMIT_FEED_TOOTH, BITE_LIMIT_UNPROVEN, BITE_LIMIT_CHATTER_TOOL,
      BITE_LIMIT_RUNOUT, BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_RUBBING, BITE_LIMIT_EDGE_SPEED,
      BITE_LIMIT_CHIP_WELD, BITE_LIMIT_COUNT}},
    {"stall", {BITE_LIMIT_TORQUE, BITE_LIMIT_POWER, BITE_LIMIT_COUNT}},
    {"size_error",
     {BITE_LIMIT_DEFLECTION, BITE_LIMIT_FEED_FAST, BITE_LIMIT_TOOL_GROSS_BEND, BITE_LIMIT_COUNT}},
    {"poor_finish",
     {BITE_LIMIT_FINISH, BITE_LIMIT_RUBBING, BITE_LIMIT_RUNOUT, BITE_LIMIT_FEED_FAST,
      BITE_LIMIT_CHATTER_TOOL, BITE_LIMIT_COUNT}},
    {"rub", {BITE_LIMIT_RUBBING, BITE_LIMIT_RUNOUT, BITE_LIMIT_COUNT}},
    {"burn",
     {BITE_LIMIT_SOFTENING, BITE_LIMIT_RUBBING, BITE_LIMIT_EDGE_SPEED, BITE_LIMIT_CHIP_WELD,
      BITE_LIMIT_COUNT}},
    {"bond_let_go", {BITE_LIMIT_HOLD, BITE_LIMIT_BOND_HEAT, BITE_LIMIT_COUNT}},
    {"chatter", {BITE_LIMIT_CHATTER_TOOL, BITE_LIMIT_CHATTER, BITE_LIMIT_COUNT}},
    {"chip_edge", {BITE_LIMIT_EDGE_CHIP, BITE_LIMIT_COUNT}},
};
const size_t field_outcome_count = sizeof field_outcomes / sizeof *field_outcomes;

static bite_csv tables[FIELD_COLLECTIONS];
field_case field_cases[CASES_MOST];
size_t field_case_count;

const char *field_cell(const field_case *report, const char *column)
{
    return bite_csv_cell(report->table, report->row, column);
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

/* The machine is given the author's spindle speed if its own range does not hold it. */
static void reach_speed(bite_request *request, const char *rpm)
{
    bite_cut cut;
    char text[64];
    bite_cut_init(&cut);
    if (bite_request_cut(request, &cut, NULL) != BITE_OK) {
        return;
    }
    (void)snprintf(text, sizeof text, "%srpm", rpm);
    if (cut.spindle_speed > cut.spindle_fastest) {
        ck_assert_int_eq(bite_request_set(request, "spindle_fastest", text, NULL), BITE_OK);
    }
    if (cut.spindle_speed < cut.spindle_slowest) {
        ck_assert_int_eq(bite_request_set(request, "spindle_slowest", text, NULL), BITE_OK);
    }
}

/* ap_most_mm is the largest depth that the author allowed: the default depth is used, but never
 * more than that, or with limit_is_depth the largest depth itself. */
static int set_depth(bite_request *request, int limit_is_depth, field_case *report)
{
    const char *most = field_cell(report, "ap_most_mm");
    bite_cut cut;
    bite_cut_init(&cut);
    if (most[0] == 0) {
        return set_input(request, "depth", field_cell(report, "ap_mm"), "mm", report);
    }
    ck_assert_int_eq(bite_request_cut(request, &cut, NULL), BITE_OK);
    return limit_is_depth || cut.depth > 1e-3 * strtod(most, NULL)
               ? set_input(request, "depth", most, "mm", report)
               : 1;
}

static int set_inputs(bite_request *request, int limit_is_depth, field_case *report)
{
    bite_error error = BITE_ERROR_INIT;
    const char *machine = field_cell(report, "machine");
    if (bite_request_use(request, BITE_GRADES, field_cell(report, "grade"), &error) != BITE_OK ||
        (machine[0] != 0 && bite_request_use(request, BITE_MACHINES, machine, &error) != BITE_OK)) {
        (void)snprintf(report->why, sizeof report->why, "%.190s", error.message);
        return 0;
    }
    if (!set_input(request, "diameter", field_cell(report, "tool_mm"), "mm", report) ||
        !set_input(request, "flutes", field_cell(report, "flutes"), "", report) ||
        !set_input(request, "spindle_speed", field_cell(report, "rpm"), "rpm", report) ||
        !set_input(request, "feed_rate", field_cell(report, "feed_mm_min"), "mm/min", report) ||
        !set_input(request, "width", field_cell(report, "ae_mm"), "mm", report) ||
        !set_input(request, "stickout", field_cell(report, "stickout_mm"), "mm", report) ||
        !set_input(request, "coolant", field_cell(report, "coolant"), "", report) ||
        !set_input(request, "entry", field_cell(report, "entry"), "", report) ||
        !set_input(request, "entry_feed", field_cell(report, "entry_feed_mm_min"), "mm/min",
                   report) ||
        !set_more(request, field_cell(report, "more"), report) ||
        !set_depth(request, limit_is_depth, report)) {
        return 0;
    }
    reach_speed(request, field_cell(report, "rpm"));
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
        int given = inputs[i].column[0] != 0 && field_cell(report, inputs[i].column)[0] != 0;
        char text[40];
        size_t length = 0;
        double value;
        if (given || strstr(field_cell(report, "more"), inputs[i].input) != NULL) {
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

bite_request *field_request(int limit_is_depth, field_case *report)
{
    bite_request *request = NULL;
    if (field_cell(report, "grade")[0] == 0) {
        (void)snprintf(report->why, sizeof report->why, "no table of %.100s yet",
                       field_cell(report, "said_material"));
        return NULL;
    }
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    if (!set_inputs(request, limit_is_depth, report)) {
        bite_request_free(request);
        return NULL;
    }
    return request;
}

void field_judge(int limit_is_depth, field_case *report)
{
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    bite_request *request = field_request(limit_is_depth, report);
    if (request == NULL) {
        return;
    }
    report->judged = bite_answer_new(request, DRAWS, CONFIDENCE, &answer, &error) == BITE_OK;
    report->scored = report->judged && strcmp(field_cell(report, "evidence"), "C") != 0;
    if (report->judged) {
        report->result = *bite_answer_result(answer);
        note_assumed(request, report);
    } else {
        (void)snprintf(report->why, sizeof report->why, "%.190s", error.message);
    }
    bite_answer_free(answer);
    bite_request_free(request);
}

static int kind_of(const char *outcome)
{
    for (size_t i = 0; i < field_outcome_count; i++) {
        if (strcmp(field_outcomes[i].outcome, outcome) == 0) {
            return (int)i;
        }
    }
    ck_assert_msg(strcmp(outcome, "ok") == 0, "no limits are listed for the outcome %s", outcome);
    return -1;
}

const char *const field_material_names[FIELD_MATERIALS] = {
    "all", "acrylic", "other plastics", "aluminium", "other metals", "boards and wood"};

static field_material material_of(const char *grade)
{
    static const struct {
        const char *family;
        field_material material;
    } families[] = {{"acrylic", FIELD_ACRYLIC},      {"aluminium", FIELD_ALUMINIUM},
                    {"brass", FIELD_METAL},          {"stainless", FIELD_METAL},
                    {"steel", FIELD_METAL},          {"titanium", FIELD_METAL},
                    {"wood", FIELD_BOARD},           {"tooling-board", FIELD_BOARD},
                    {"glass-laminate", FIELD_BOARD}, {"phenolic-laminate", FIELD_BOARD},
                    {"carbon-laminate", FIELD_BOARD}};
    for (size_t i = 0; i < sizeof families / sizeof *families; i++) {
        size_t length = strlen(families[i].family);
        if (strncmp(grade, families[i].family, length) == 0 &&
            (grade[length] == 0 || grade[length] == '/')) {
            return families[i].material;
        }
    }
    return FIELD_PLASTIC;
}

void field_read(const char *name, field_collection collection)
{
    char path[4096];
    bite_csv *table = &tables[collection];
    bite_test_source(path, sizeof path, name);
    *table = bite_csv_read(path);
    for (size_t row = 1; row < table->count; row++) {
        ck_assert_uint_lt(field_case_count, CASES_MOST);
        field_case *report = &field_cases[field_case_count++];
        report->table = table;
        report->row = row;
        report->collection = collection;
        report->id = field_cell(report, "id");
        report->outcome = field_cell(report, "outcome");
        report->source = field_cell(report, "source");
        report->kind = kind_of(report->outcome);
        report->material = material_of(field_cell(report, "grade"));
    }
}

void field_open(void)
{
    open_library();
    field_read("tests/field/cases.csv", FIELD_REPORTS);
    field_read("tests/field/everyday.csv", FIELD_RECIPES);
}

void field_judge_all(void)
{
    for (size_t i = 0; i < field_case_count; i++) {
        field_judge(0, &field_cases[i]);
    }
}

void field_close(void)
{
    for (size_t i = 0; i < FIELD_COLLECTIONS; i++) {
        bite_csv_free(&tables[i]); /* also of a table that was not read */
    }
    close_library();
}
