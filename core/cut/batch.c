/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many passes that are like one cut, except for some of its numbers: columns in, columns out. */
#include "core/cut/batch.h"
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/base/thread_pool.h"
#include "core/cut/batch_worker.h"
#include "core/cut/defaults.h"
#include "core/cut/pass.h"
#include "core/cut/physics_inputs.h"
#include "core/names/registry.h"
#include <math.h>
#include <string.h>

/* Rows of a chunk of work: threads take the next chunk until none is left. */
#define CHUNK (16 * BITE_LANES)

static void run_chunk(void *shared, size_t chunk, size_t index)
{
    bite_batch_work *work = shared;
    bite_batch_worker *worker = &work->workers[index];
    bite_block_space *space = &work->spaces[index];
    size_t row = chunk * CHUNK;
    size_t end = row + CHUNK < work->rows ? row + CHUNK : work->rows;
    worker->count = 0;
    worker->has_base = worker->started = worker->mixed = 0;
    if (bite_stop_asked(work->stop) || bite_watch_step(work->watch, 0)) {
        atomic_store(&work->stopped, 1);
        for (; row < end; row++) {
            bite_batch_refuse(work, row, BITE_STOPPED);
        }
        return;
    }
    while (row < end) {
        row = bite_batch_put(work, worker, space, row, end);
    }
    bite_batch_evaluate(work, worker, space);
    (void)bite_watch_step(work->watch, (uint64_t)(end - chunk * CHUNK));
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

bite_status bite_batch_run_watched(const bite_batch *batch, size_t rows, const bite_column *in,
                                   const bite_result_column *out, uint32_t *status, size_t threads,
                                   const volatile int *stop, bite_watch *watch, bite_error *error)
{
    bite_error_clear(error);
    bite_status result = check_columns(batch, rows, in, out, error);
    if (result != BITE_OK || rows == 0) {
        return result;
    }
    size_t chunks = (rows + CHUNK - 1) / CHUNK;
    size_t workers = threads < 1 ? 1 : threads > BITE_THREADS_MAX ? BITE_THREADS_MAX : threads;
    workers = workers < chunks ? workers : chunks;
    bite_batch_work work = {
        .batch = batch,
        .in = in,
        .out = out,
        .status = status,
        .stop = stop,
        .watch = watch,
        .rows = rows,
        .spaces = bite_block_spaces_new(&batch->allocator, workers),
        .workers = bite_memory_grow(&batch->allocator, NULL, workers, sizeof(bite_batch_worker))};
    if (work.spaces == NULL || work.workers == NULL) {
        result = bite_error_set(error, BITE_NO_MEMORY, "no memory for a batch");
    } else {
        bite_watch_expect(watch, rows);
        bite_thread_pool_run(chunks, workers, run_chunk, &work);
        if (atomic_load(&work.stopped)) {
            result = bite_error_set(error, BITE_STOPPED, "the batch was stopped");
        }
    }
    bite_block_spaces_free(&batch->allocator, work.spaces);
    bite_memory_free(&batch->allocator, work.workers);
    return result;
}

bite_status bite_batch_run(const bite_batch *batch, size_t rows, const bite_column *in,
                           const bite_result_column *out, uint32_t *status, size_t threads,
                           const volatile int *stop, bite_error *error)
{
    return bite_batch_run_watched(batch, rows, in, out, status, threads, stop, NULL, error);
}

bite_status bite_batch_run_with(const bite_batch *batch, size_t rows, const bite_column *in,
                                const bite_result_column *out, uint32_t *status,
                                const bite_batch_options *options, bite_error *error)
{
    bite_batch_options own;
    bite_watch watch;
    bite_error_clear(error);
    bite_status result =
        bite_struct_read(&bite_struct_batch_options, options, &own, "options", error);
    if (result != BITE_OK) {
        return result;
    }
    bite_watch_start(&watch, own.progress, own.progress_user);
    result =
        bite_batch_run_watched(batch, rows, in, out, status, own.threads, own.stop, &watch, error);
    return bite_watch_end(&watch, result, error);
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
    batch->varied = bite_memory_new(&batch->allocator, batch->input_count + BITE_FOLLOWERS_MAX,
                                    sizeof *batch->varied);
    batch->outputs =
        bite_memory_new(&batch->allocator, batch->output_count + 1, sizeof *batch->outputs);
    return batch->inputs != NULL && batch->varied != NULL && batch->outputs != NULL;
}

/* Appends the members that follow from an input, and are not inputs themselves. */
static void add_followers(bite_batch *batch)
{
    size_t followers[BITE_FOLLOWERS_MAX];
    size_t count = bite_defaults_followers(&batch->cut, followers);
    batch->varied_count = batch->input_count;
    for (size_t i = 0; batch->follows && i < count; i++) {
        int is_input = 0;
        for (size_t j = 0; j < batch->input_count; j++) {
            is_input |= batch->varied[j] == followers[i];
        }
        batch->varied[batch->varied_count] = followers[i];
        batch->varied_count += !is_input;
    }
}

static void fill_batch(bite_batch *batch, const uint32_t *inputs, const bite_batch_output *outputs)
{
    int conical = batch->cut.operation == BITE_CHAMFER || bite_cut_is_groove(&batch->cut);
    for (size_t i = 0; i < batch->input_count; i++) {
        size_t offset = bite_input_at(inputs[i])->offset;
        batch->inputs[i] = bite_input_at(inputs[i]);
        batch->varied[i] = offset;
        /* a cone's numbers are checked together row by row */
        batch->follows |= bite_defaults_follow(&batch->cut, offset) ||
                          offset == offsetof(bite_cut, corner_radius) ||
                          offset == offsetof(bite_cut, floor_thickness) ||
                          (conical && offset == offsetof(bite_cut, tip_below));
    }
    add_followers(batch);
    for (size_t i = 0; i < batch->output_count; i++) {
        batch->outputs[i] = outputs[i];
        batch->judges |= outputs[i].kind >= BITE_BATCH_VERDICT;
        if (outputs[i].kind >= BITE_BATCH_UTILIZATION && outputs[i].kind <= BITE_BATCH_CAPACITY) {
            batch->wanted[outputs[i].id] = 1;
        }
    }
}

bite_status bite_batch_new(const bite_allocator *allocator, const bite_cut *cut,
                           const uint32_t *inputs, size_t input_count,
                           const bite_batch_output *outputs, size_t output_count,
                           bite_batch **batch, bite_error *error)
{
    const bite_allocator *memory = allocator == NULL ? bite_memory_default() : allocator;
    bite_error_clear(error);
    if (batch == NULL || cut == NULL || (input_count > 0 && inputs == NULL) ||
        (output_count > 0 && outputs == NULL)) {
        return bad_batch(error, "an argument of the batch is NULL");
    }
    bite_status status = bite_struct_check(&bite_struct_cut, cut, "cut", error);
    status = status == BITE_OK ? check_inputs(inputs, input_count, error) : status;
    status = status == BITE_OK ? check_outputs(outputs, output_count, error) : status;
    if (status != BITE_OK) {
        return status;
    }
    bite_batch *fresh = bite_memory_new(memory, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a batch");
    }
    fresh->allocator = *memory;
    (void)bite_cut_read(cut, &fresh->cut, NULL); /* it was checked */
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
        bite_memory_free(&allocator, batch->varied);
        bite_memory_free(&allocator, batch->outputs);
        bite_memory_free(&allocator, batch);
    }
}
