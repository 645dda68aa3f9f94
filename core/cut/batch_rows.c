/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The rows of a batch become lanes of a block.
 *
 * A row is plain if it gives all inputs, each within its range. A plain row differs from the last
 * row that was checked as a whole, the base, in its inputs and in what follows from them. Where
 * nothing follows, the columns of many rows are copied to the lanes and checked there; otherwise
 * row by row. A row that is not plain is checked as a whole, which says what is wrong, and so is
 * the plain row after it, the next base.
 *
 * A block is evaluated when it is full, or when the next row differs in more than numbers: in its
 * flutes, in the form of its tool, or in what is given.
 */
#include "core/cut/batch_worker.h"
#include "core/cut/block/lane_match.h"
#include "core/cut/defaults.h"
#include "core/cut/input_check.h"
#include "core/cut/pass.h"
#include "core/names/registry.h"
#include <math.h>
#include <string.h>

/* ---- blocks ---- */

static double *number_at(bite_cut *cut, size_t offset)
{
    return (double *)(void *)((char *)cut + offset);
}

/* Makes room for the base, in a new block if it does not fit into this one. */
static void make_room(const bite_batch_work *work, bite_batch_worker *worker,
                      bite_block_space *space, int fits)
{
    const bite_batch *batch = work->batch;
    if (worker->count == BITE_LANES || !fits) {
        bite_batch_evaluate(work, worker, space);
    }
    if (worker->count > 0) {
        return;
    }
    if (!worker->started || worker->mixed || !fits) {
        worker->first = worker->base;
        bite_block_start(space, &worker->first, batch->varied, batch->varied_count);
    }
    worker->started = 1;
    worker->mixed = 0;
}

/* Puts the base into the next lane. */
static void put_base(const bite_batch *batch, bite_batch_worker *worker, bite_block_space *space,
                     int whole, size_t row)
{
    bite_cut *full = &worker->base.full;
    size_t k = worker->count++;
    worker->rows[k] = row;
    space->block.tolerance[k] = worker->base.requested.tolerance;
    space->block.finish[k] = worker->base.requested.finish;
    for (size_t i = 0; whole && i < BITE_BLOCK_ROWS; i++) {
        space->block.number[i][k] = (&full->spindle_speed)[i];
    }
    for (size_t i = 0; !whole && i < batch->varied_count; i++) {
        bite_block_row(&space->block, batch->varied[i])[k] = *number_at(full, batch->varied[i]);
    }
    if (whole && k > 0) { /* lane 0 has just been filled with all members of the base */
        bite_block_vary_all(space);
        worker->mixed = 1;
    }
}

/* ---- one row ---- */

static int is_plain(const bite_batch_work *work, size_t row)
{
    const bite_batch *batch = work->batch;
    int plain = 1;
    for (size_t i = 0; i < batch->input_count; i++) {
        double number = work->in[i].data[row * work->in[i].stride];
        plain &= bite_input_accepts(batch->inputs[i], number);
    }
    return plain;
}

static void read_row(const bite_batch_work *work, size_t row, bite_cut *cut)
{
    for (size_t i = 0; i < work->batch->input_count; i++) {
        *number_at(cut, work->batch->varied[i]) = work->in[i].data[row * work->in[i].stride];
    }
}

/* Checks a row as a whole; if all its numbers are given, it is the base of the next ones. */
static bite_status check_row(const bite_batch_work *work, bite_batch_worker *worker, size_t row,
                             int plain)
{
    bite_checked_cut checked;
    bite_cut cut = work->batch->cut;
    read_row(work, row, &cut);
    bite_status status = bite_checked_cut_init(&cut, &checked, NULL);
    if (status == BITE_OK) {
        worker->base = checked;
        worker->has_base = plain;
        worker->started = 0;
    }
    return status;
}

/* The base with the numbers of a plain row. */
static bite_status change_base(const bite_batch_work *work, bite_batch_worker *worker, size_t row)
{
    const bite_batch *batch = work->batch;
    bite_cut *full = &worker->base.full;
    read_row(work, row, full);
    read_row(work, row, &worker->base.requested);
    if (batch->varied_count > batch->input_count) {
        bite_defaults_follow_on(full, batch->varied + batch->input_count,
                                batch->varied_count - batch->input_count);
    }
    return bite_check_together(full, NULL);
}

static void put_row(const bite_batch_work *work, bite_batch_worker *worker, bite_block_space *space,
                    size_t row)
{
    int plain = is_plain(work, row);
    int changes = plain && worker->has_base;
    bite_status status =
        changes ? change_base(work, worker, row) : check_row(work, worker, row, plain);
    if (status != BITE_OK) {
        bite_batch_refuse(work, row, status);
        return;
    }
    const bite_cut *first = &worker->first.full;
    const bite_cut *base = &worker->base.full;
    int whole = !changes || worker->mixed;
    int empty = worker->count == 0 && !worker->started;
    make_room(
        work, worker, space,
        empty || (bite_cut_same_form(first, base) && (!whole || bite_cut_same_given(first, base))));
    put_base(work->batch, worker, space, whole, row);
}

/* ---- many rows ---- */

/* Copies count rows of the columns to the lanes from `lane` on. */
static void copy_columns(const bite_batch_work *work, bite_block *block, size_t row, size_t count,
                         size_t lane)
{
    const bite_batch *batch = work->batch;
    for (size_t i = 0; i < batch->input_count; i++) {
        size_t stride = work->in[i].stride;
        const double *data = work->in[i].data + row * stride;
        double *lanes = bite_block_row(block, batch->varied[i]) + lane;
        for (size_t k = 0; k < count; k++) {
            lanes[k] = data[k * stride];
        }
        if (batch->varied[i] == offsetof(bite_cut, tolerance)) {
            memcpy(block->tolerance + lane, lanes, count * sizeof *lanes);
        } else if (batch->varied[i] == offsetof(bite_cut, finish)) {
            memcpy(block->finish + lane, lanes, count * sizeof *lanes);
        }
    }
}

/* Marks lanes whose row is not plain, or whose numbers do not fit together; lanes that are not used
 * may be marked too. */
BITE_IN_LANES static void mark_faults(const bite_batch *restrict batch,
                                      const bite_block *restrict block, double *restrict fault)
{
    const double *diameter = BITE_ROW(block, diameter);
    const double *width = BITE_ROW(block, width);
    const double *neck = BITE_ROW(block, neck_diameter);
    for (int k = 0; k < BITE_LANES; k++) {
        int wide = bite_is_wider(width[k], diameter[k]) | bite_is_wider(neck[k], diameter[k]);
        fault[k] = wide ? 1.0 : 0.0;
    }
    for (size_t i = 0; i < batch->input_count; i++) {
        const double *row = block->number[batch->varied[i] / sizeof(double) - BITE_BLOCK_FIRST];
        double least = batch->inputs[i]->least;
        double most = batch->inputs[i]->most;
        double grain = bite_input_grain(batch->inputs[i]);
        for (int k = 0; k < BITE_LANES; k++) {
            int within = (row[k] >= least) & (row[k] <= most);
            within &= (row[k] == 0.0) | (fabs(row[k]) >= grain);
            fault[k] = within ? fault[k] : 1.0;
        }
    }
}

/* Puts plain rows from which nothing follows into lanes, as many as there are in a sequence and
 * places for. Returns how many. */
static size_t put_plain(const bite_batch_work *work, bite_batch_worker *worker,
                        bite_block_space *space, size_t row, size_t end)
{
    bite_lanes fault;
    make_room(work, worker, space, 1);
    size_t lane = worker->count;
    size_t places = BITE_LANES - lane;
    size_t most = end - row < places ? end - row : places;
    copy_columns(work, &space->block, row, most, lane);
    mark_faults(work->batch, &space->block, fault);
    size_t count = 0;
    while (count < most && fault[lane + count] == 0.0) {
        worker->rows[lane + count] = row + count;
        count++;
    }
    worker->count += count;
    return count;
}

size_t bite_batch_put(const bite_batch_work *work, bite_batch_worker *worker,
                      bite_block_space *space, size_t row, size_t end)
{
    size_t count = 0;
    if (worker->has_base && !worker->mixed && !work->batch->follows) {
        count = put_plain(work, worker, space, row, end);
    }
    if (count == 0) {
        put_row(work, worker, space, row);
        count = 1;
    }
    return row + count;
}
