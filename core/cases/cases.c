/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cases: cuts that differ from a request in some inputs, one a line of text. The text comes in
 * pieces; whole lines are collected until they are worth the threads, and judged in chunks. */
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/thread_pool.h"
#include "core/base/watch.h"
#include "core/cases/case_judge.h"
#include "core/cases/case_row.h"
#include "core/cases/case_text.h"
#include "core/cut/input_check.h"
#include <math.h>
#include <string.h>

/* Bytes that are collected for each thread: some hundred rows or more. */
#define COLLECTED ((size_t)65536)
/* Rows that are judged at a time for each thread. */
#define ROWS ((size_t)(16 * BITE_CASE_CHUNK))

struct bite_cases {
    bite_case_plan plan;
    bite_sink sink;
    void *user;
    void (*refused)(void *user, const bite_error *error);
    void *refused_user;
    const volatile int *stop;
    size_t threads;
    bite_case_text held; /* text that is not yet judged */
    int too_long;        /* 1: the line in it is too long; the rest of it is dropped */
    int started;         /* 1: the first line has been read */
    uint64_t line;       /* of the first byte that is held */
    bite_case_worker *workers;
    bite_block_space *spaces;
    bite_case_row *rows;
    size_t row_count;
    bite_case_chunk *chunks;
    bite_case_summary summary;
    bite_status status; /* of the first failure; nothing more is done */
};

/* ---- judging what is collected ---- */

static void run_chunk(void *shared, size_t at, size_t worker)
{
    bite_cases *cases = shared;
    bite_case_chunk_run(&cases->plan, &cases->workers[worker], &cases->chunks[at]);
}

static bite_status write_out(bite_cases *cases, const bite_case_text *text, bite_error *error)
{
    if (text->size > 0 && cases->sink(cases->user, text->text, text->size) != 0) {
        return bite_error_set(error, BITE_CANNOT_WRITE, "the results could not be written");
    }
    return BITE_OK;
}

/* Hands on what a chunk has made, and empties it. */
static bite_status finish_chunk(bite_cases *cases, bite_case_chunk *chunk, bite_error *error)
{
    bite_status status = BITE_OK;
    if (chunk->no_memory) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for cases");
    }
    status = status == BITE_OK ? write_out(cases, &chunk->out, error) : status;
    for (size_t i = 0; status == BITE_OK && cases->refused != NULL && i < chunk->error_count; i++) {
        cases->refused(cases->refused_user, &chunk->errors[i]);
    }
    cases->summary.rows += chunk->count;
    cases->summary.refused += chunk->error_count;
    for (size_t i = 0; i <= BITE_UNKNOWN; i++) {
        cases->summary.verdicts[i] += chunk->verdicts[i];
        chunk->verdicts[i] = 0;
    }
    bite_memory_free(&cases->plan.allocator, chunk->errors);
    chunk->errors = NULL;
    chunk->error_count = 0;
    chunk->out.size = 0;
    return status;
}

static bite_status judge_rows(bite_cases *cases, bite_error *error)
{
    bite_status status = BITE_OK;
    size_t chunks = (cases->row_count + BITE_CASE_CHUNK - 1) / BITE_CASE_CHUNK;
    if (bite_stop_asked(cases->stop)) {
        return bite_error_set(error, BITE_STOPPED, "the cases were stopped");
    }
    for (size_t i = 0; i < chunks; i++) {
        size_t first = i * BITE_CASE_CHUNK;
        size_t left = cases->row_count - first;
        cases->chunks[i].rows = cases->rows + first;
        cases->chunks[i].count = left < BITE_CASE_CHUNK ? left : BITE_CASE_CHUNK;
    }
    bite_thread_pool_run(chunks, cases->threads, run_chunk, cases);
    for (size_t i = 0; i < chunks && status == BITE_OK; i++) {
        status = finish_chunk(cases, &cases->chunks[i], error);
    }
    cases->row_count = 0;
    return status;
}

/* ---- lines ---- */

static int is_blank(const char *text, size_t size)
{
    return strspn(text, " \t") == size;
}

/* A column is named once, and is no result. */
static bite_status check_column(const bite_case_plan *plan, size_t at, bite_error *error)
{
    const bite_case_column *column = &plan->columns[at];
    int twice = 0;
    int result = strcmp(column->name, "fault") == 0;
    for (size_t i = 0; i < at; i++) {
        const bite_case_column *other = &plan->columns[i];
        int same = column->kind == BITE_CASE_RECORD ? column->collection == other->collection
                                                    : column->input == other->input;
        twice |= column->kind == BITE_CASE_CARRIED ? strcmp(column->name, other->name) == 0
                                                   : column->kind == other->kind && same;
    }
    for (size_t i = 0; i < plan->result_count; i++) {
        result |= strcmp(column->name, plan->results[i].name) == 0;
    }
    if (!twice && !result) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_BAD_FILE,
                   twice ? "the input of this column is named twice" : "it is a result too");
    bite_error_key(error, "%s", column->name);
    bite_error_hint(error, twice ? "leave one of the columns out" : "leave it out of the results");
    return BITE_BAD_FILE;
}

/* The first line of a CSV names the columns. */
static bite_status read_head(bite_cases *cases, const char *line, bite_error *error)
{
    bite_case_plan *plan = &cases->plan;
    char *copy = cases->workers[0].copy;
    char **fields = cases->workers[0].fields;
    size_t count = 0;
    memcpy(copy, line, strlen(line) + 1);
    bite_status status = bite_case_line_split(copy, fields, &count, error);
    if (status == BITE_OK && count == 1 && strpbrk(line, ";\t") != NULL) {
        status = bite_error_set(error, BITE_BAD_FILE, "one column only");
        bite_error_hint(error, "separate columns by commas, not by semicolons or tabs");
    }
    plan->columns = bite_memory_new(&plan->allocator, count + 1, sizeof *plan->columns);
    if (status == BITE_OK && plan->columns == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for cases");
    }
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        bite_case_column *column = &plan->columns[i];
        status = bite_case_column_read(fields[i], strlen(fields[i]), plan->words, plan->word_count,
                                       column, error);
        status = status == BITE_OK ? check_column(plan, i, error) : status;
        plan->column_count = i + 1;
    }
    if (status == BITE_OK) {
        bite_case_text head = {NULL, 0, 0, 0};
        bite_case_head_write(plan, line, &cases->workers[0], &head);
        status = head.failed ? bite_error_set(error, BITE_NO_MEMORY, "no memory for cases")
                             : write_out(cases, &head, error);
        bite_memory_free(&plan->allocator, head.text);
    }
    if (status != BITE_OK) {
        bite_error_place(error, NULL, (uint32_t)cases->line, 0);
    }
    return status;
}

/* A line that is ended by 0, or NULL for one that was too long. */
static bite_status take_line(bite_cases *cases, char *line, size_t size, bite_error *error)
{
    bite_status status = BITE_OK;
    if (line != NULL && size > 0 && line[size - 1] == '\r') {
        line[--size] = 0;
    }
    if (cases->line == 1 && line != NULL && size >= 3 && memcmp(line, "\xef\xbb\xbf", 3) == 0) {
        line += 3; /* a byte order mark */
        size -= 3;
    }
    if (line == NULL || !is_blank(line, size)) {
        if (!cases->started && cases->plan.format == BITE_CSV) {
            status = line == NULL
                         ? bite_error_set(error, BITE_BAD_FILE, "the first line is too long")
                         : read_head(cases, line, error);
        } else {
            const bite_case_row row = {line, size, cases->line};
            cases->rows[cases->row_count++] = row;
            status = cases->row_count == ROWS * cases->threads ? judge_rows(cases, error) : BITE_OK;
        }
        cases->started = 1;
    }
    cases->line++;
    return status;
}

/* Judges the whole lines that are held; last: the end of the text ends a line too. */
static bite_status take_held(bite_cases *cases, int last, bite_error *error)
{
    bite_case_text *held = &cases->held;
    bite_status status = BITE_OK;
    size_t at = 0;
    while (status == BITE_OK && at < held->size) {
        char *line = held->text + at;
        size_t left = held->size - at;
        char *end = memchr(line, '\n', left);
        if (end == NULL && !last) {
            break;
        }
        size_t size = end == NULL ? left : (size_t)(end - line);
        int dropped = cases->too_long || size > BITE_CASE_LINE_MAX;
        line[size] = 0; /* held has room for one more byte */
        cases->too_long = 0;
        status = take_line(cases, dropped ? NULL : line, size, error);
        at += size + (end != NULL);
    }
    if (status == BITE_OK && cases->row_count > 0) {
        status = judge_rows(cases, error); /* the rows are in the text that is held */
    }
    memmove(held->text, held->text + at, held->size - at);
    held->size -= at;
    if (held->size > BITE_CASE_LINE_MAX) {
        cases->too_long = 1;
        held->size = 0;
    }
    return status;
}

static bite_status check_state(bite_cases *cases, int valid, bite_error *error)
{
    bite_error_clear(error);
    if (cases == NULL || !valid) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "cases and a text were expected");
    }
    if (cases->status != BITE_OK) {
        return bite_error_set(error, cases->status, "the cases have ended");
    }
    return BITE_OK;
}

bite_status bite_cases_push(bite_cases *cases, const char *text, size_t size, bite_error *error)
{
    bite_status status = check_state(cases, text != NULL || size == 0, error);
    while (status == BITE_OK && size > 0) {
        size_t room = COLLECTED * cases->threads + 1;
        size_t part = room - cases->held.size < size ? room - cases->held.size : size;
        memcpy(cases->held.text + cases->held.size, text, part);
        cases->held.size += part;
        text += part;
        size -= part;
        if (cases->held.size >= room) {
            status = take_held(cases, 0, error);
        }
    }
    if (cases != NULL) {
        cases->status = status;
    }
    return status;
}

bite_status bite_cases_end(bite_cases *cases, bite_error *error)
{
    bite_status status = check_state(cases, 1, error);
    status = status == BITE_OK ? take_held(cases, 1, error) : status;
    if (status == BITE_OK && !cases->started && cases->plan.format == BITE_CSV) {
        status = bite_error_set(error, BITE_BAD_FILE, "there is no line with the names of columns");
    }
    if (cases != NULL) {
        cases->status = status == BITE_OK ? BITE_BAD_ARGUMENT : status;
    }
    return status;
}

void bite_cases_summary(const bite_cases *cases, bite_case_summary *summary)
{
    if (cases != NULL && bite_struct_is_sound(&bite_struct_case_summary, summary)) {
        bite_struct_write(&bite_struct_case_summary, &cases->summary, summary);
    }
}

/* ---- new and free ---- */

static bite_status read_results(bite_cases *cases, const bite_case_options *options,
                                bite_error *error)
{
    bite_case_plan *plan = &cases->plan;
    int drawn = plan->draws != BITE_DRAWS_NONE;
    const char *const *names =
        options->results == NULL ? bite_case_results_usual(drawn) : options->results;
    for (size_t i = 0; options->results == NULL ? names[i] != NULL : i < options->result_count;
         i++) {
        bite_status status = BITE_OK;
        if (i == BITE_CASE_RESULT_MAX) {
            return bite_error_set(error, BITE_OUT_OF_RANGE, "more than %d results",
                                  BITE_CASE_RESULT_MAX);
        }
        if (names[i] == NULL) {
            return bite_error_set(error, BITE_BAD_ARGUMENT, "the name of a result is missing");
        }
        status = bite_case_result_read(names[i], (bite_units)plan->units, drawn,
                                       &plan->results[plan->result_count], error);
        if (status != BITE_OK) {
            return status;
        }
        for (size_t j = 0; j < plan->result_count; j++) {
            if (strcmp(plan->results[j].name, names[i]) == 0) {
                bite_error_set(error, BITE_BAD_ARGUMENT, "the result %.60s is named twice",
                               names[i]);
                bite_error_key(error, "%.60s", names[i]);
                return BITE_BAD_ARGUMENT;
            }
        }
        plan->result_count++;
    }
    return BITE_OK;
}

static bite_status check_options(const bite_request *request, const bite_case_options *options,
                                 bite_sink sink, bite_cases **cases, bite_error *error)
{
    if (request == NULL || options == NULL || sink == NULL || cases == NULL ||
        (options->format != BITE_CSV && options->format != BITE_JSON) ||
        options->units > BITE_INCH || (options->word_count > 0 && options->words == NULL)) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a request, options of this library with the format CSV or JSON, a "
                              "sink and a place for the cases were expected");
    }
    for (size_t i = 0; i < options->word_count; i++) {
        if (options->words[i].word == NULL || options->words[i].input == NULL) {
            return bite_error_set(error, BITE_BAD_ARGUMENT, "a word and its input were expected");
        }
    }
    size_t draws = options->draws == 0 ? BITE_DRAWS_NONE : options->draws;
    return bite_check_draws_wished(draws, options->confidence, error);
}

static void fill_plan(const bite_request *request, const bite_case_options *options,
                      bite_case_plan *plan)
{
    plan->allocator = request->allocator;
    plan->request = *request;
    plan->request.threads = 1;
    plan->request.skip_change = 1;
    plan->format = options->format;
    plan->units = options->units;
    plan->draws = options->draws == 0 ? BITE_DRAWS_NONE : options->draws;
    plan->confidence = bite_confidence_or_usual(options->confidence);
    plan->words = options->words;
    plan->word_count = options->word_count;
    for (size_t i = 0; i < bite_input_count() && i < BITE_INPUTS_MAX; i++) {
        if (bite_input_at(i)->words > 0) {
            plan->word_inputs[plan->word_input_count++] = bite_input_at(i);
        }
    }
}

static int allocate(bite_cases *cases)
{
    const bite_allocator *allocator = &cases->plan.allocator;
    size_t rows = ROWS * cases->threads;
    cases->held.room = COLLECTED * cases->threads + BITE_CASE_LINE_MAX + 2;
    cases->held.text = bite_memory_new(allocator, cases->held.room, 1);
    cases->workers = bite_memory_new(allocator, cases->threads, sizeof *cases->workers);
    cases->spaces = bite_block_spaces_new(allocator, cases->threads);
    cases->rows = bite_memory_new(allocator, rows, sizeof *cases->rows);
    cases->chunks = bite_memory_new(allocator, rows / BITE_CASE_CHUNK, sizeof *cases->chunks);
    if (cases->held.text == NULL || cases->workers == NULL || cases->spaces == NULL ||
        cases->rows == NULL || cases->chunks == NULL) {
        return 0;
    }
    for (size_t i = 0; i < cases->threads; i++) {
        bite_case_worker_start(&cases->plan, &cases->workers[i]);
        cases->workers[i].lanes.space = &cases->spaces[i];
        cases->workers[i].result.struct_size = (uint32_t)sizeof(bite_result);
    }
    return 1;
}

bite_status bite_cases_new(const bite_request *request, const bite_case_options *given,
                           bite_sink sink, void *user, bite_cases **cases, bite_error *error)
{
    bite_case_options own;
    const bite_case_options *options = given == NULL ? NULL : &own;
    bite_error_clear(error);
    bite_status status = bite_struct_read(&bite_struct_case_options, given, &own, "options", error);
    status = status != BITE_OK ? status : check_options(request, options, sink, cases, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_cases *fresh = bite_memory_new(&request->allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for cases");
    }
    fill_plan(request, options, &fresh->plan);
    fresh->sink = sink;
    fresh->user = user;
    fresh->refused = options->refused;
    fresh->refused_user = options->refused_user;
    fresh->stop = options->stop;
    fresh->threads = options->threads < 1                  ? 1
                     : options->threads > BITE_THREADS_MAX ? BITE_THREADS_MAX
                                                           : options->threads;
    fresh->line = 1;
    status = read_results(fresh, options, error);
    if (status == BITE_OK && !allocate(fresh)) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for cases");
    }
    if (status != BITE_OK) {
        bite_cases_free(fresh);
        return status;
    }
    *cases = fresh;
    return BITE_OK;
}

void bite_cases_free(bite_cases *cases)
{
    if (cases == NULL) {
        return;
    }
    bite_allocator allocator = cases->plan.allocator;
    for (size_t i = 0; cases->chunks != NULL && i < ROWS * cases->threads / BITE_CASE_CHUNK; i++) {
        bite_memory_free(&allocator, cases->chunks[i].out.text);
        bite_memory_free(&allocator, cases->chunks[i].errors);
    }
    bite_memory_free(&allocator, cases->chunks);
    bite_memory_free(&allocator, cases->rows);
    bite_block_spaces_free(&allocator, cases->spaces);
    bite_memory_free(&allocator, cases->workers);
    bite_memory_free(&allocator, cases->held.text);
    bite_memory_free(&allocator, cases->plan.columns);
    bite_memory_free(&allocator, cases);
}
