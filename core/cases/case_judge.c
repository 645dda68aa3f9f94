/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of a chunk: read, computed side by side, and written in their order. */
#include "core/cases/case_judge.h"
#include "core/base/error.h"
#include "core/cases/case_row.h"
#include "core/cases/case_text.h"
#include "core/cut/pass.h"
#include "core/request/answer.h"
#include "core/request/judge.h"
#include "core/request/resolve.h"
#include <math.h>
#include <string.h>

/* What is known of a cut before its block is computed: its inputs, and the frequency of its tool,
 * which a block does not compute. */
static int is_of_cut(const bite_case_result *column)
{
    return column->kind == BITE_CASE_INPUT ||
           (column->kind == BITE_CASE_VALUE && column->id == BITE_TIP_FREQUENCY);
}

static void take_cut(const bite_case_plan *plan, const bite_cut *full, double *numbers)
{
    for (size_t i = 0; i < plan->result_count; i++) {
        const bite_case_result *column = &plan->results[i];
        if (is_of_cut(column)) {
            numbers[i] = column->kind == BITE_CASE_INPUT ? bite_case_result_of(column, NULL, full)
                                                         : bite_tool_first_frequency(full);
        }
    }
}

static void take_result(const bite_case_plan *plan, bite_case_worker *worker, size_t row,
                        const bite_cut *full, const bite_result *result)
{
    worker->verdict[row] = result->verdict;
    worker->worst[row] = bite_cut_limit_name(full, (bite_limit_id)result->worst);
    for (size_t i = 0; i < plan->result_count; i++) {
        if (!is_of_cut(&plan->results[i])) {
            worker->numbers[row][i] = bite_case_result_of(&plan->results[i], result, NULL);
        }
    }
}

/* ---- without draws: side by side ---- */

static void evaluate(const bite_case_plan *plan, bite_case_worker *worker)
{
    bite_cut_lanes_evaluate(&worker->lanes);
    for (size_t k = 0; k < worker->lanes.count; k++) {
        size_t row = worker->waiting[k];
        bite_error_clear(&worker->error[row]);
        worker->status[row] =
            bite_cut_lanes_result(&worker->lanes, k, &worker->result, &worker->error[row]);
        if (worker->status[row] == BITE_OK) {
            take_result(plan, worker, row, &worker->lanes.first.full, &worker->result);
        }
    }
    worker->lanes.count = 0;
}

static void put(const bite_case_plan *plan, bite_case_worker *worker, size_t row)
{
    if (!bite_cut_lanes_put(&worker->lanes, &worker->checked)) {
        evaluate(plan, worker);
        (void)bite_cut_lanes_put(&worker->lanes, &worker->checked); /* the block is empty */
    }
    worker->waiting[worker->lanes.count - 1] = row;
    take_cut(plan, &worker->checked.full, worker->numbers[row]);
}

static bite_status resolve(bite_case_worker *worker, bite_error *error)
{
    bite_cut requested;
    bite_status status = BITE_OK;
    if (!worker->has_base) {
        status = bite_request_resolve_records(&worker->request, &worker->base,
                                              worker->base_provenance, error);
        worker->has_base = status == BITE_OK;
    }
    if (status == BITE_OK) {
        requested = worker->base;
        memcpy(worker->provenance, worker->base_provenance, sizeof worker->provenance);
        status =
            bite_request_resolve_given(&worker->request, &requested, worker->provenance, error);
    }
    return status == BITE_OK ? bite_checked_cut_init(&requested, &worker->checked, error) : status;
}

/* ---- with draws: one answer a row ---- */

static bite_status draw(const bite_case_plan *plan, bite_case_worker *worker, size_t row,
                        bite_error *error)
{
    bite_answer *answer = NULL;
    bite_status status =
        bite_answer_new(&worker->request, plan->draws, plan->confidence, &answer, error);
    if (status == BITE_OK) {
        take_cut(plan, &answer->full, worker->numbers[row]);
        take_result(plan, worker, row, &answer->full, &answer->result);
    }
    bite_answer_free(answer);
    return status;
}

void bite_case_chunk_run(const bite_case_plan *plan, bite_case_worker *worker,
                         bite_case_chunk *chunk)
{
    for (size_t row = 0; row < chunk->count; row++) {
        bite_error *error = &worker->error[row];
        error->struct_size = (uint32_t)sizeof *error;
        for (size_t i = 0; i < plan->result_count; i++) {
            worker->numbers[row][i] = (double)NAN;
        }
        bite_status status = bite_case_row_read(plan, &chunk->rows[row], worker, error);
        if (status == BITE_OK && plan->draws != BITE_DRAWS_NONE) {
            status = draw(plan, worker, row, error);
        } else if (status == BITE_OK) {
            status = resolve(worker, error);
            if (status == BITE_OK) {
                put(plan, worker, row);
            }
        }
        worker->status[row] = status;
    }
    evaluate(plan, worker);
    bite_case_chunk_write(plan, worker, chunk);
}
