/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of a chunk as text: what was read, the results, and what was wrong. */
#include "core/cases/case_text.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/cases/case_line.h"
#include "core/report/csv.h"
#include "core/report/json.h"
#include "core/report/text_page.h"
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define DIGITS 9 /* more than any input is known to */
#define FAULT_SIZE 640

/* The column of what is wrong with a row. */
static const char fault_name[] = "fault";

/* ---- text that grows ---- */

void bite_case_text_add(const bite_allocator *allocator, bite_case_text *out, const char *text,
                        size_t size)
{
    if (out->size + size > out->room && !out->failed) {
        size_t room = 2 * (out->size + size) + 4096;
        char *grown = bite_memory_grow(allocator, out->text, room, 1);
        out->failed = grown == NULL;
        out->text = grown == NULL ? out->text : grown;
        out->room = grown == NULL ? out->room : room;
    }
    if (!out->failed) {
        memcpy(out->text + out->size, text, size);
        out->size += size;
    }
}

static void add(const bite_case_plan *plan, bite_case_text *out, const char *text)
{
    bite_case_text_add(&plan->allocator, out, text, strlen(text));
}

/* ---- CSV ---- */

typedef struct field_sink {
    const bite_allocator *allocator;
    bite_case_text *out;
} field_sink;

static int add_part(void *user, const char *text, size_t size)
{
    const field_sink *sink = user;
    bite_case_text_add(sink->allocator, sink->out, text, size);
    return 0;
}

static void add_field(const bite_case_plan *plan, bite_case_text *out, int first, const char *text)
{
    field_sink sink = {&plan->allocator, out};
    bite_page page; /* of which a field needs the writer alone */
    bite_writer_start(&page.writer, add_part, &sink);
    bite_csv_field(&page, first, text);
    (void)bite_writer_end(&page.writer);
}

static void add_number(const bite_case_plan *plan, bite_case_text *out, double number)
{
    char text[40] = "";
    if (isfinite(number)) {
        (void)bite_number_write(number, DIGITS, text, sizeof text);
    }
    add(plan, out, text);
}

static void write_csv_results(const bite_case_plan *plan, const double *numbers, const char *worst,
                              const char *fault, bite_case_text *out)
{
    for (size_t i = 0; i < plan->result_count; i++) {
        const bite_case_result *column = &plan->results[i];
        const char *word = bite_case_result_word(column, numbers[i], worst);
        add(plan, out, ",");
        if (word != NULL) {
            add(plan, out, word);
        } else {
            add_number(plan, out, (numbers[i] - column->offset) / column->scale);
        }
    }
    add_field(plan, out, 0, fault);
    add(plan, out, "\n");
}

/* Whether a field of a line could be taken for a formula, and so must not be repeated as it is. */
static bool holds_formula(const char *line)
{
    for (const char *at = line; at != NULL; at = strchr(at, ',')) {
        at += *at == ',';
        if (bite_csv_is_formula(at + strspn(at, " \t\""))) {
            return true;
        }
    }
    return false;
}

/* Repeats a line that can be split: as it is, or field by field if it holds a formula. */
static void repeat_line(const bite_case_plan *plan, const char *line, bite_case_worker *worker,
                        bite_case_text *out)
{
    bite_error ignored;
    size_t count = 0;
    if (!holds_formula(line)) {
        add(plan, out, line);
        return;
    }
    bite_error_clear(&ignored);
    memcpy(worker->copy, line, strlen(line) + 1);
    (void)bite_case_line_split(worker->copy, worker->fields, &count, &ignored);
    for (size_t i = 0; i < count; i++) {
        add_field(plan, out, i == 0, worker->fields[i]);
    }
}

/* The fields, if they are as many as there are columns; otherwise none. */
static void write_csv_fields(const bite_case_plan *plan, const bite_case_row *row, int readable,
                             bite_case_worker *worker, bite_case_text *out)
{
    if (readable) {
        repeat_line(plan, row->text, worker, out);
        return;
    }
    for (size_t i = 1; i < plan->column_count; i++) {
        add(plan, out, ",");
    }
}

void bite_case_head_write(const bite_case_plan *plan, const char *line, bite_case_worker *worker,
                          bite_case_text *out)
{
    char name[BITE_CASE_NAME_MAX + 48];
    if (plan->format == BITE_JSON) {
        return;
    }
    repeat_line(plan, line, worker, out);
    for (size_t i = 0; i < plan->result_count; i++) {
        const bite_case_result *column = &plan->results[i];
        (void)snprintf(name, sizeof name, column->unit[0] == 0 ? "%.64s" : "%.64s [%.32s]",
                       column->name, column->unit);
        add_field(plan, out, 0, name);
    }
    add_field(plan, out, 0, fault_name);
    add(plan, out, "\n");
}

/* ---- JSON lines ---- */

static void add_json_text(const bite_case_plan *plan, bite_case_text *out, const char *text)
{
    json_t *string = json_string(text);
    char *dumped = string == NULL ? NULL : json_dumps(string, JSON_ENCODE_ANY);
    out->failed |= dumped == NULL;
    add(plan, out, dumped == NULL ? "" : dumped);
    json_decref(string);
    bite_json_text_free(dumped);
}

static void add_json_member(const bite_case_plan *plan, bite_case_text *out, const char *name,
                            int first)
{
    add(plan, out, first ? "\"" : ", \"");
    add(plan, out, name); /* of a result: no character that JSON escapes */
    add(plan, out, "\": ");
}

/* The object of the row without its last brace, so that it stays as it was. */
static int write_json_start(const bite_case_plan *plan, const bite_case_row *row, int readable,
                            bite_case_text *out)
{
    size_t size = readable ? row->size : 0;
    while (size > 0 && row->text[size - 1] != '}') {
        size--;
    }
    if (size == 0) {
        add(plan, out, "{");
        return 1;
    }
    size--;
    while (size > 0 && (row->text[size - 1] == ' ' || row->text[size - 1] == '\t')) {
        size--;
    }
    bite_case_text_add(&plan->allocator, out, row->text, size);
    return row->text[size - 1] == '{';
}

static void write_json(const bite_case_plan *plan, const bite_case_row *row, int readable,
                       const double *numbers, const char *worst, const char *fault,
                       bite_case_text *out)
{
    int first = write_json_start(plan, row, readable, out);
    for (size_t i = 0; i < plan->result_count && fault[0] == 0; i++, first = 0) {
        const char *word = bite_case_result_word(&plan->results[i], numbers[i], worst);
        add_json_member(plan, out, plan->results[i].name, first);
        if (word != NULL) {
            add_json_text(plan, out, word);
        } else if (isfinite(numbers[i])) {
            add_number(plan, out, numbers[i]);
        } else {
            add(plan, out, "null");
        }
    }
    if (fault[0] != 0) {
        add_json_member(plan, out, fault_name, first);
        add_json_text(plan, out, fault);
    }
    add(plan, out, "}\n");
}

/* ---- a chunk ---- */

void bite_case_fault_text(const bite_error *error, char *to, size_t size)
{
    (void)snprintf(to, size, "%s%s%s%s%s", error->key, error->key[0] == 0 ? "" : ": ",
                   error->message, error->hint[0] == 0 ? "" : "; ", error->hint);
}

static int keep_error(const bite_case_plan *plan, const bite_error *error, bite_case_chunk *chunk)
{
    if (chunk->errors == NULL) {
        chunk->errors = bite_memory_new(&plan->allocator, chunk->count, sizeof *chunk->errors);
    }
    if (chunk->errors == NULL) {
        return 0;
    }
    chunk->errors[chunk->error_count++] = *error;
    return 1;
}

/* Whether a row can be repeated as it is: it has the form of its format, and no member of its own
 * for what is wrong. */
static int is_readable(const bite_case_row *row, bite_status status, const bite_error *error)
{
    int malformed = status == BITE_BAD_FILE && error->key[0] == 0;
    return row->text != NULL && !malformed && strcmp(error->key, fault_name) != 0;
}

void bite_case_chunk_write(const bite_case_plan *plan, bite_case_worker *worker,
                           bite_case_chunk *chunk)
{
    for (size_t i = 0; i < chunk->count && !chunk->no_memory; i++) {
        char fault[FAULT_SIZE] = "";
        const bite_case_row *row = &chunk->rows[i];
        bite_error error = worker->error[i];
        bite_status status = worker->status[i];
        int readable = is_readable(row, status, &error);
        if (status != BITE_OK) {
            bite_error_place(&error, NULL, (uint32_t)row->line, 0);
            bite_case_fault_text(&error, fault, sizeof fault);
            chunk->no_memory |= status == BITE_NO_MEMORY || !keep_error(plan, &error, chunk);
        } else {
            chunk->verdicts[worker->verdict[i]]++;
        }
        if (plan->format == BITE_JSON) {
            write_json(plan, row, readable, worker->numbers[i], worker->worst[i], fault,
                       &chunk->out);
        } else {
            write_csv_fields(plan, row, readable, worker, &chunk->out);
            write_csv_results(plan, worker->numbers[i], worker->worst[i], fault, &chunk->out);
        }
    }
    chunk->no_memory |= chunk->out.failed;
}
