/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Many passes that are like one cut, except for some of its numbers.
 *
 * Rows are gathered into blocks. A row whose numbers decide no default of another member is a copy
 * of the last row that was checked as a whole, with its own numbers; any other row is checked as a
 * whole and has its defaults filled. A block is evaluated when it is full, or when the next row
 * differs in more than numbers: in its flutes, in the form of its tool, or in what is given.
 */
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/base/thread_pool.h"
#include "core/cut/defaults.h"
#include "core/cut/input_check.h"
#include "core/cut/pass.h"
#include "core/names/registry.h"
#include <math.h>
#include <stdatomic.h>
#include <string.h>

/* Rows of a chunk of work: threads take the next chunk until none is left. */
#define CHUNK (16 * BITE_LANES)

struct bite_batch {
    bite_allocator allocator;
    bite_cut cut;
    size_t input_count;
    size_t output_count;
    int checks_all; /* 1: an input varies from which defaults follow, or the form of the tool */
    int judges;     /* 1: an output needs the verdict */
    const bite_input **inputs;
    size_t *offsets; /* of the inputs in bite_cut */
    bite_batch_output *outputs;
};

/* Working memory of a thread. */
typedef struct batch_worker {
    bite_checked_cut base;  /* the last row that was checked as a whole */
    bite_checked_cut first; /* of the block: its words, and what is given */
    size_t rows[BITE_LANES];
    bite_result result;
    size_t count; /* lanes that wait for their evaluation */
    int has_base;
    int started; /* 1: rows that do not vary are those of `first` in all lanes */
} batch_worker;

typedef struct batch_run {
    const bite_batch *batch;
    const bite_column *in;
    const bite_result_column *out;
    uint32_t *status;
    const volatile int *stop;
    atomic_int stopped;
    size_t rows;
    bite_block_space *spaces;
    batch_worker *workers;
} batch_run;

/* ---- the outputs of a row ---- */

static void write_row(const batch_run *run, size_t row, bite_status status)
{
    if (run->status != NULL) {
        run->status[row] = (uint32_t)status;
    }
}

static void refuse_row(const batch_run *run, size_t row, bite_status status)
{
    write_row(run, row, status);
    for (size_t i = 0; i < run->batch->output_count; i++) {
        run->out[i].data[row * run->out[i].stride] = (double)NAN;
    }
}

static double output_of(const bite_batch_output *output, const bite_block_space *space, size_t lane,
                        const bite_result *result)
{
    const bite_block_limits_result *limits = &space->limits;
    uint32_t id = output->id;
    int applies = output->kind == BITE_BATCH_VALUE || output->kind >= BITE_BATCH_VERDICT ||
                  (limits->applies[id] && !isnan(limits->utilization[id][lane]));
    switch (output->kind) {
    case BITE_BATCH_VALUE:
        return space->straight.value[id][lane];
    case BITE_BATCH_UTILIZATION:
        return applies ? limits->utilization[id][lane] : (double)NAN;
    case BITE_BATCH_DEMAND:
        return applies ? limits->demand[id][lane] : (double)NAN;
    case BITE_BATCH_CAPACITY:
        return applies ? limits->capacity[id][lane] : (double)NAN;
    case BITE_BATCH_VERDICT:
        return result->verdict;
    default:
        return result->worst;
    }
}

/* The verdict is found where it is asked for, and where a number is missing that a cut which is
 * over need not have. */
static bite_status judge_lane(const bite_batch *batch, const bite_block_space *space, size_t lane,
                              const bite_cut *full, bite_result *result)
{
    bite_status status =
        bite_check_values(&space->straight.value[0][lane], BITE_LANES, space->pressure, NULL);
    return batch->judges || status != BITE_OK
               ? bite_block_result_of(space, lane, full, result, NULL)
               : BITE_OK;
}

static void evaluate_lanes(const batch_run *run, batch_worker *worker, bite_block_space *space)
{
    const bite_batch *batch = run->batch;
    if (worker->count == 0) {
        return;
    }
    bite_block_evaluate(space, worker->count, NULL);
    for (size_t k = 0; k < worker->count; k++) {
        size_t row = worker->rows[k];
        bite_status status = judge_lane(batch, space, k, &worker->first.full, &worker->result);
        if (status != BITE_OK) {
            refuse_row(run, row, status);
            continue;
        }
        write_row(run, row, BITE_OK);
        for (size_t i = 0; i < batch->output_count; i++) {
            run->out[i].data[row * run->out[i].stride] =
                output_of(&batch->outputs[i], space, k, &worker->result);
        }
    }
    worker->count = 0;
}

/* ---- the inputs of a row ---- */

/* Whether two cuts belong into one block. They have the same words and curves. */
static int same_kind(const bite_cut *one, const bite_cut *other)
{
    const double *a = &one->spindle_speed;
    const double *b = &other->spindle_speed;
    int same =
        one->flutes == other->flutes && (one->corner_radius > 0.0) == (other->corner_radius > 0.0);
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        same &= isnan(a[i]) == isnan(b[i]);
    }
    return same;
}

/* Whether all numbers of a row are given and within their ranges: otherwise the row is checked as a
 * whole, which says what is wrong. */
static int is_plain(const batch_run *run, size_t row)
{
    const bite_batch *batch = run->batch;
    int plain = 1;
    for (size_t i = 0; i < batch->input_count; i++) {
        double number = run->in[i].data[row * run->in[i].stride];
        plain &= number >= batch->inputs[i]->least && number <= batch->inputs[i]->most;
    }
    return plain;
}

static void read_row(const batch_run *run, size_t row, bite_cut *cut)
{
    for (size_t i = 0; i < run->batch->input_count; i++) {
        *bite_input_number(cut, run->batch->inputs[i]) = run->in[i].data[row * run->in[i].stride];
    }
}

/* Checks a row as a whole, and makes it the base of the next ones if all its numbers are given. */
static bite_status check_row(const batch_run *run, batch_worker *worker, size_t row, int plain)
{
    bite_checked_cut checked;
    bite_cut cut = run->batch->cut;
    read_row(run, row, &cut);
    bite_status status = bite_checked_cut_init(&cut, &checked, NULL);
    if (status == BITE_OK) {
        worker->base = checked;
        worker->has_base = plain;
        worker->started = 0;
    }
    return status;
}

/* The numbers of a row on the base, whose defaults they do not change. */
static bite_status copy_row(const batch_run *run, batch_worker *worker, size_t row)
{
    read_row(run, row, &worker->base.full);
    read_row(run, row, &worker->base.requested);
    return bite_check_together(&worker->base.full, NULL);
}

static void start_lanes(const batch_run *run, batch_worker *worker, bite_block_space *space)
{
    if (!worker->started) {
        worker->first = worker->base;
        bite_block_start(space, &worker->first, run->batch->offsets, run->batch->input_count);
        worker->started = 1;
    }
}

/* whole: 1 if the row may differ from the first one of the block in any number. */
static void put_lane(const batch_run *run, batch_worker *worker, bite_block_space *space, int whole,
                     size_t row)
{
    const bite_batch *batch = run->batch;
    const bite_cut *full = &worker->base.full;
    size_t k = worker->count++;
    worker->rows[k] = row;
    space->block.tolerance[k] = worker->base.requested.tolerance;
    space->block.finish[k] = worker->base.requested.finish;
    for (size_t i = 0; whole && i < BITE_BLOCK_ROWS; i++) {
        space->block.number[i][k] = (&full->spindle_speed)[i];
    }
    for (size_t i = 0; !whole && i < batch->input_count; i++) {
        bite_block_row(&space->block, batch->offsets[i])[k] =
            *bite_input_number_of(full, batch->inputs[i]);
    }
    if (whole) { /* the next block starts afresh */
        space->work.tool_alike = 0;
        worker->started = 0;
    }
}

static void add_row(const batch_run *run, batch_worker *worker, bite_block_space *space, size_t row)
{
    int plain = is_plain(run, row);
    int copies = plain && worker->has_base && !run->batch->checks_all;
    bite_status status = copies ? copy_row(run, worker, row) : check_row(run, worker, row, plain);
    if (status != BITE_OK) {
        refuse_row(run, row, status);
        return;
    }
    if (worker->count == BITE_LANES ||
        (worker->count > 0 && !copies && !same_kind(&worker->first.full, &worker->base.full))) {
        evaluate_lanes(run, worker, space);
    }
    if (worker->count == 0) {
        start_lanes(run, worker, space);
    }
    put_lane(run, worker, space, !copies, row);
}

static void run_chunk(void *work, size_t chunk, size_t index)
{
    batch_run *run = work;
    batch_worker *worker = &run->workers[index];
    bite_block_space *space = &run->spaces[index];
    size_t row = chunk * CHUNK;
    size_t end = row + CHUNK < run->rows ? row + CHUNK : run->rows;
    worker->count = 0;
    worker->has_base = 0;
    worker->started = 0;
    int stops = run->stop != NULL && *run->stop != 0;
    if (stops) {
        atomic_store(&run->stopped, 1);
    }
    for (; row < end; row++) {
        if (stops) {
            refuse_row(run, row, BITE_STOPPED);
        } else {
            add_row(run, worker, space, row);
        }
    }
    evaluate_lanes(run, worker, space);
}

static bite_status check_columns(const bite_batch *batch, size_t rows, const bite_column *in,
                                 const bite_result_column *out, bite_error *error)
{
    int valid = batch != NULL && (batch->input_count == 0 || in != NULL) &&
                (batch->output_count == 0 || out != NULL);
    for (size_t i = 0; valid && i < batch->input_count; i++) {
        valid = in[i].data != NULL || rows == 0;
    }
    for (size_t i = 0; valid && i < batch->output_count; i++) {
        valid = (out[i].data != NULL || rows == 0) && out[i].stride > 0;
    }
    return valid ? BITE_OK
                 : bite_error_set(error, BITE_BAD_ARGUMENT,
                                  "the batch, a column or its data is NULL, or the stride of an "
                                  "output is 0");
}

bite_status bite_batch_run(const bite_batch *batch, size_t rows, const bite_column *in,
                           const bite_result_column *out, uint32_t *status, size_t threads,
                           const volatile int *stop, bite_error *error)
{
    bite_error_clear(error);
    bite_status result = check_columns(batch, rows, in, out, error);
    if (result != BITE_OK || rows == 0) {
        return result;
    }
    size_t chunks = (rows + CHUNK - 1) / CHUNK;
    size_t workers = threads < 1 ? 1 : threads > BITE_THREADS_MAX ? BITE_THREADS_MAX : threads;
    workers = workers < chunks ? workers : chunks;
    batch_run run = {.batch = batch,
                     .in = in,
                     .out = out,
                     .status = status,
                     .stop = stop,
                     .rows = rows,
                     .spaces = bite_block_spaces_new(&batch->allocator, workers),
                     .workers =
                         bite_memory_grow(&batch->allocator, NULL, workers, sizeof(batch_worker))};
    if (run.spaces == NULL || run.workers == NULL) {
        result = bite_error_set(error, BITE_NO_MEMORY, "no memory for a batch");
    } else {
        bite_thread_pool_run(chunks, workers, run_chunk, &run);
        if (atomic_load(&run.stopped)) {
            result = bite_error_set(error, BITE_STOPPED, "the batch was stopped");
        }
    }
    bite_block_spaces_free(&batch->allocator, run.spaces);
    bite_memory_free(&batch->allocator, run.workers);
    return result;
}

/* ---- a batch ---- */

static bite_status bad_batch(bite_error *error, const char *what)
{
    return bite_error_set(error, BITE_BAD_ARGUMENT, "%s", what);
}

static bite_status check_outputs(const bite_batch_output *outputs, size_t count, bite_error *error)
{
    for (size_t i = 0; i < count; i++) {
        uint32_t kind = outputs[i].kind;
        uint32_t most = kind == BITE_BATCH_VALUE      ? BITE_VALUE_COUNT
                        : kind <= BITE_BATCH_CAPACITY ? BITE_LIMIT_COUNT
                                                      : 1;
        if (kind > BITE_BATCH_WORST || outputs[i].id >= most) {
            return bad_batch(error, "an output of the batch has an unknown kind or id");
        }
    }
    return BITE_OK;
}

static bite_status check_inputs(const uint32_t *inputs, size_t count, bite_error *error)
{
    for (size_t i = 0; i < count; i++) {
        const bite_input *input = bite_input_at(inputs[i]);
        if (input == NULL || input->words > 0) {
            return bad_batch(error, "an input of the batch is not a number of a cut");
        }
        for (size_t j = 0; j < i; j++) {
            if (inputs[j] == inputs[i]) {
                bite_error_set(error, BITE_BAD_ARGUMENT, "an input of the batch is named twice");
                bite_error_key(error, "%s", input->name);
                return BITE_BAD_ARGUMENT;
            }
        }
    }
    return BITE_OK;
}

static int allocate(bite_batch *batch)
{
    batch->inputs =
        bite_memory_new(&batch->allocator, batch->input_count + 1, sizeof *batch->inputs);
    batch->offsets =
        bite_memory_new(&batch->allocator, batch->input_count + 1, sizeof *batch->offsets);
    batch->outputs =
        bite_memory_new(&batch->allocator, batch->output_count + 1, sizeof *batch->outputs);
    return batch->inputs != NULL && batch->offsets != NULL && batch->outputs != NULL;
}

static void fill_batch(bite_batch *batch, const uint32_t *inputs, const bite_batch_output *outputs)
{
    for (size_t i = 0; i < batch->input_count; i++) {
        batch->inputs[i] = bite_input_at(inputs[i]);
        batch->offsets[i] = batch->inputs[i]->offset;
        batch->checks_all |= bite_defaults_follow(&batch->cut, batch->offsets[i]) ||
                             batch->offsets[i] == offsetof(bite_cut, corner_radius);
    }
    for (size_t i = 0; i < batch->output_count; i++) {
        batch->outputs[i] = outputs[i];
        batch->judges |= outputs[i].kind >= BITE_BATCH_VERDICT;
    }
}

bite_status bite_batch_new(const bite_allocator *allocator, const bite_cut *cut,
                           const uint32_t *inputs, size_t input_count,
                           const bite_batch_output *outputs, size_t output_count,
                           bite_batch **batch, bite_error *error)
{
    const bite_allocator *memory = allocator == NULL ? bite_memory_default() : allocator;
    bite_error_clear(error);
    if (batch == NULL || cut == NULL || cut->struct_size != sizeof *cut ||
        (input_count > 0 && inputs == NULL) || (output_count > 0 && outputs == NULL)) {
        return bad_batch(error, "an argument of the batch is NULL, or the cut's struct_size is not "
                                "this library's");
    }
    bite_status status = check_inputs(inputs, input_count, error);
    status = status == BITE_OK ? check_outputs(outputs, output_count, error) : status;
    if (status != BITE_OK) {
        return status;
    }
    bite_batch *fresh = bite_memory_new(memory, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a batch");
    }
    fresh->allocator = *memory;
    fresh->cut = *cut;
    fresh->input_count = input_count;
    fresh->output_count = output_count;
    if (!allocate(fresh)) {
        bite_batch_free(fresh);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a batch");
    }
    fill_batch(fresh, inputs, outputs);
    *batch = fresh;
    return BITE_OK;
}

void bite_batch_free(bite_batch *batch)
{
    if (batch != NULL) {
        bite_allocator allocator = batch->allocator;
        bite_memory_free(&allocator, batch->inputs);
        bite_memory_free(&allocator, batch->offsets);
        bite_memory_free(&allocator, batch->outputs);
        bite_memory_free(&allocator, batch);
    }
}
