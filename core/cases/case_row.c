/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row of text in a request: what the row before has changed is that of the plan again, then the
 * fields are set. Records stay until a row names others, for to find them takes as long as a cut.
 */
#include "core/cases/case_row.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/cases/json_object.h"
#include "core/names/inputs.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

void bite_case_worker_start(const bite_case_plan *plan, bite_case_worker *worker)
{
    worker->request = plan->request;
    worker->touched_count = 0;
    worker->has_base = 0;
    worker->learned_count = 0;
    worker->lanes.count = 0;
    memset(worker->records, 0, sizeof worker->records);
}

/* ---- records ---- */

static void restore_record(const bite_request *from, bite_collection collection, bite_request *to)
{
    switch (collection) {
    case BITE_GRADES:
        to->grade = from->grade;
        to->grade_match = from->grade_match;
        memcpy(to->grade_name, from->grade_name, sizeof to->grade_name);
        break;
    case BITE_TOOLS:
        to->tool = from->tool;
        memcpy(to->tool_name, from->tool_name, sizeof to->tool_name);
        break;
    case BITE_HOLDERS:
        to->holder = from->holder;
        break;
    case BITE_MACHINES:
        to->machine = from->machine;
        break;
    case BITE_HOLDS:
        to->hold = from->hold;
        break;
    default: /* BITE_THREADS is the last collection that a column may name */
        to->thread = from->thread;
        break;
    }
}

/* Notes that the row sets an input; once, for two values would have an order. */
static bite_status touch(bite_case_worker *worker, const bite_input *input,
                         const bite_case_column *column, bite_error *error)
{
    for (size_t i = 0; i < worker->touched_count; i++) {
        if (worker->touched[i] == input) {
            return bite_case_column_refuse_second(column, error);
        }
    }
    worker->touched[worker->touched_count++] = input;
    return BITE_OK;
}

/* Instead of a name: the record is in use, and found anew in each row. */
static const char no_name[] = "\n";

/* A tool that is named by its diameter is an input, which each row sets anew. */
static bite_status use_record(const bite_case_column *column, const char *name,
                              bite_case_worker *worker, bite_error *error)
{
    bite_collection collection = column->collection;
    char *current = worker->records[collection];
    bite_request *request = &worker->request;
    int is_size = collection == BITE_TOOLS && bite_request_is_diameter(name);
    if (worker->named[collection]) {
        return bite_case_column_refuse_second(column, error);
    }
    worker->named[collection] = 1;
    bite_status status =
        is_size ? touch(worker, bite_input_find("diameter"), column, error) : BITE_OK;
    if (status != BITE_OK) {
        return status;
    }
    if (!is_size && strcmp(current, name) == 0) {
        return BITE_OK;
    }
    if (!is_size || request->tool != NULL) {
        worker->has_base = 0;
    }
    status = bite_request_use(request, collection, name, error);
    int kept = status == BITE_OK && !is_size && strlen(name) < BITE_TYPED_MAX;
    (void)snprintf(current, BITE_TYPED_MAX, "%s", kept ? name : no_name);
    if (status != BITE_OK) {
        bite_error_key(error, "%s", column->name);
    }
    return status;
}

/* ---- a row ---- */

static void start_row(const bite_case_plan *plan, bite_case_worker *worker)
{
    for (size_t i = 0; i < worker->touched_count; i++) {
        size_t at = bite_input_index(worker->touched[i]);
        worker->request.typed[at] = plan->request.typed[at];
    }
    worker->touched_count = 0;
    memset(worker->named, 0, sizeof worker->named);
}

/* A record that the row does not name is that of the plan. */
static void end_row(const bite_case_plan *plan, bite_case_worker *worker)
{
    for (size_t i = 0; i < sizeof worker->named; i++) {
        if (worker->records[i][0] != 0 && !worker->named[i]) {
            restore_record(&plan->request, (bite_collection)i, &worker->request);
            worker->records[i][0] = 0;
            worker->has_base = 0;
        }
    }
    for (size_t i = 0; i < plan->word_input_count; i++) {
        size_t at = bite_input_index(plan->word_inputs[i]);
        const bite_typed_input *typed = &worker->request.typed[at];
        uint32_t word = typed->given ? typed->word + 1 : 0;
        worker->has_base = worker->has_base && worker->words[i] == word;
        worker->words[i] = word;
    }
}

static bite_status put_field(const bite_case_column *column, const bite_case_field *field,
                             bite_case_worker *worker, bite_error *error)
{
    if (column->kind == BITE_CASE_CARRIED) {
        return BITE_OK;
    }
    if (column->kind != BITE_CASE_RECORD) {
        bite_status status = touch(worker, column->input, column, error);
        return status == BITE_OK ? bite_case_column_put(column, field, &worker->request, error)
                                 : status;
    }
    if (field->text == NULL) {
        bite_error_set(error, BITE_BAD_QUANTITY, "a number; a name was expected");
        bite_error_key(error, "%s", column->name);
        return BITE_BAD_QUANTITY;
    }
    return use_record(column, field->text, worker, error);
}

static bite_status read_csv(const bite_case_plan *plan, const bite_case_row *row,
                            bite_case_worker *worker, bite_error *error)
{
    size_t count = 0;
    memcpy(worker->copy, row->text, row->size + 1);
    bite_status status = bite_case_line_split(worker->copy, worker->fields, &count, error);
    if (status == BITE_OK && count != plan->column_count) {
        bite_error_set(error, BITE_BAD_FILE, "%zu fields; the first line has %zu", count,
                       plan->column_count);
        bite_error_hint(error, "a comma separates fields; decimals have a point");
        status = BITE_BAD_FILE;
    }
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        const bite_case_field field = {worker->fields[i], (double)NAN};
        if (field.text[0] != 0) { /* otherwise it is not given */
            status = put_field(&plan->columns[i], &field, worker, error);
        }
    }
    return status;
}

/* The column of a key, which is learned where it is met first; NULL: an error was set. */
static const bite_case_column *column_of(const bite_case_plan *plan, const char *key,
                                         bite_case_worker *worker, bite_error *error)
{
    for (size_t i = 0; i < worker->learned_count; i++) {
        if (strcmp(worker->learned[i].name, key) == 0) {
            return &worker->learned[i];
        }
    }
    size_t at = worker->learned_count < BITE_CASE_COLUMNS_MAX ? worker->learned_count : 0;
    if (bite_case_column_read(key, strlen(key), plan->words, plan->word_count, &worker->learned[at],
                              error) != BITE_OK) {
        return NULL;
    }
    worker->learned_count = at + 1 > worker->learned_count ? at + 1 : worker->learned_count;
    for (size_t i = 0; i < plan->result_count; i++) {
        if (strcmp(plan->results[i].name, key) == 0) {
            worker->learned_count = at; /* forgotten: it is refused in each row */
            bite_error_set(error, BITE_BAD_FILE, "it is a result too");
            bite_error_key(error, "%s", key);
            bite_error_hint(error, "leave it out of the results");
            return NULL;
        }
    }
    return &worker->learned[at];
}

static bite_status put_member(const bite_case_plan *plan, const char *key, const json_t *value,
                              bite_case_worker *worker, bite_error *error)
{
    const bite_case_column *column = column_of(plan, key, worker, error);
    bite_case_field field = {json_string_value(value), json_number_value(value)};
    if (column == NULL) {
        return BITE_BAD_FILE;
    }
    if (json_is_null(value) || column->kind == BITE_CASE_CARRIED) {
        return BITE_OK;
    }
    if (json_is_boolean(value) && column->kind == BITE_CASE_WORD) {
        field.text = json_is_true(value) ? "yes" : "no";
    } else if (!json_is_string(value) && !json_is_number(value)) {
        bite_error_set(error, BITE_BAD_FILE, "a text or a number was expected");
        bite_error_key(error, "%s", column->name);
        return BITE_BAD_FILE;
    }
    return put_field(column, &field, worker, error);
}

static bite_status read_json(const bite_case_plan *plan, const bite_case_row *row,
                             bite_case_worker *worker, bite_error *error)
{
    json_t *object = NULL;
    size_t position = 0;
    bite_status status = bite_json_object_read(row->text, row->size, 0, &object, &position, error);
    if (status == BITE_BAD_FILE) {
        bite_error_hint(error, "each line is an object, such as {\"feed\": \"400mm/min\"}");
    }
    for (void *at = json_object_iter(object); status == BITE_OK && at != NULL;
         at = json_object_iter_next(object, at)) {
        status =
            put_member(plan, json_object_iter_key(at), json_object_iter_value(at), worker, error);
    }
    json_decref(object);
    return status;
}

bite_status bite_case_row_read(const bite_case_plan *plan, const bite_case_row *row,
                               bite_case_worker *worker, bite_error *error)
{
    bite_status status = BITE_OK;
    bite_text_fault fault =
        row->text == NULL ? BITE_TEXT_SOUND : bite_text_check(row->text, row->size, "\t", NULL);
    bite_error_clear(error);
    start_row(plan, worker);
    if (row->text == NULL) {
        status = bite_error_set(error, BITE_BAD_FILE, "a line of more than %d bytes",
                                BITE_CASE_LINE_MAX);
    } else if (fault != BITE_TEXT_SOUND) {
        status =
            bite_error_set(error, BITE_BAD_FILE, "the line has %s", bite_text_fault_name(fault));
    } else {
        status = plan->format == BITE_JSON ? read_json(plan, row, worker, error)
                                           : read_csv(plan, row, worker, error);
    }
    end_row(plan, worker);
    return status;
}
