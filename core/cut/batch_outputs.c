/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outputs of a batch: a block is evaluated, and its rows become parts of columns. */
#include "core/cut/batch_worker.h"
#include "core/cut/input_check.h"
#include "core/cut/pass.h"
#include <math.h>
#include <string.h>

/* What the outputs of a block need beside its space: lanes. */
typedef struct judgement {
    bite_lanes missing; /* 1: a value is not a number that must be one */
    bite_lanes verdict;
    bite_lanes worst;
    bite_status status[BITE_LANES];
} judgement;

static void write_status(const bite_batch_work *work, size_t row, bite_status status)
{
    if (work->status != NULL) {
        work->status[row] = (uint32_t)status;
    }
}

void bite_batch_refuse(const bite_batch_work *work, size_t row, bite_status status)
{
    write_status(work, row, status);
    for (size_t i = 0; i < work->batch->output_count; i++) {
        work->out[i].data[row * work->out[i].stride] = (double)NAN;
    }
}

/* The verdict is found where it is asked for, and where a number is missing that a cut which is
 * over need not have. */
static void judge(const bite_batch_work *work, bite_batch_worker *worker, bite_block_space *space,
                  judgement *found)
{
    int judges = work->batch->judges;
    int missing = 0;
    bite_check_lanes(&space->block, space->straight.value, space->pressure, found->missing);
    for (size_t k = 0; k < worker->count; k++) {
        found->status[k] = BITE_OK;
        missing |= found->missing[k] > 0.0;
    }
    if (missing && !judges) {
        bite_block_evaluate(space, worker->count, NULL); /* with all limits */
    }
    for (size_t k = 0; (missing || judges) && k < worker->count; k++) {
        if (judges || found->missing[k] > 0.0) {
            found->status[k] =
                bite_block_result_of(space, k, &worker->first.full, &worker->result, NULL);
            found->verdict[k] = worker->result.verdict;
            found->worst[k] = worker->result.worst;
        }
    }
}

/* Lanes of a limit's demand or capacity where it applies, NaN elsewhere. */
static void where_used(const bite_block_limits_result *limits, uint32_t id,
                       const double *restrict row, size_t count, double *restrict lanes)
{
    for (size_t k = 0; k < count; k++) {
        int used = limits->applies[id] && !isnan(limits->utilization[id][k]);
        lanes[k] = used ? row[k] : (double)NAN;
    }
}

/* The lanes of an output; room: where they are written if no row of the space holds them. */
static const double *lanes_of(const bite_batch_output *output, const bite_block_space *space,
                              const judgement *found, size_t count, double *room)
{
    uint32_t id = output->id;
    switch (output->kind) {
    case BITE_BATCH_VALUE:
        return space->straight.value[id];
    case BITE_BATCH_UTILIZATION: /* NaN where the limit does not apply */
        return space->limits.utilization[id];
    case BITE_BATCH_DEMAND:
        where_used(&space->limits, id, space->limits.demand[id], count, room);
        return room;
    case BITE_BATCH_CAPACITY:
        where_used(&space->limits, id, space->limits.capacity[id], count, room);
        return room;
    case BITE_BATCH_VERDICT:
        return found->verdict;
    default:
        return found->worst;
    }
}

static void write_lanes(const bite_result_column *out, const size_t *rows, size_t count,
                        const double *lanes)
{
    if (out->stride == 1 && rows[count - 1] - rows[0] == count - 1) {
        memcpy(out->data + rows[0], lanes, count * sizeof *lanes);
        return;
    }
    for (size_t k = 0; k < count; k++) {
        out->data[rows[k] * out->stride] = lanes[k];
    }
}

void bite_batch_evaluate(const bite_batch_work *work, bite_batch_worker *worker,
                         bite_block_space *space)
{
    const bite_batch *batch = work->batch;
    judgement found;
    bite_lanes room;
    if (worker->count == 0) {
        return;
    }
    bite_block_evaluate(space, worker->count, batch->judges ? NULL : batch->wanted);
    judge(work, worker, space, &found);
    for (size_t i = 0; i < batch->output_count; i++) {
        const double *lanes = lanes_of(&batch->outputs[i], space, &found, worker->count, room);
        write_lanes(&work->out[i], worker->rows, worker->count, lanes);
    }
    for (size_t k = 0; k < worker->count; k++) {
        if (found.status[k] != BITE_OK) {
            bite_batch_refuse(work, worker->rows[k], found.status[k]);
        } else {
            write_status(work, worker->rows[k], BITE_OK);
        }
    }
    worker->count = 0;
}
