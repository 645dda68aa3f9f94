/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges a request: resolves it, runs the pass and its draws, and collects the cautions. */
#include "core/request/judge.h"
#include "core/base/error.h"
#include "core/cut/input_check.h"
#include "core/cut/pass.h"
#include "core/names/registry.h"
#include "core/request/cautions.h"
#include "core/request/input_spread.h"
#include "core/request/resolve.h"
#include "core/uncertainty/monte_carlo.h"
#include <math.h>
#include <string.h>

/* Draws of the results that are shown. The seed is arbitrary but fixed, so that results repeat. */
static const size_t draws_default = 4096;
static const uint64_t seed_default = BITE_ANSWER_SEED;

size_t bite_answer_draws(size_t draws)
{
    return draws == 0 ? draws_default : draws;
}

static bite_status judge(bite_answer *answer, size_t draws, double confidence, bite_error *error)
{
    bite_status status = bite_request_resolve(&answer->request, &answer->requested, &answer->full,
                                              answer->provenance, error);
    if (status != BITE_OK) {
        return status;
    }
    answer->result.struct_size = (uint32_t)sizeof answer->result;
    if (draws == BITE_DRAWS_NONE) {
        status = bite_cut_pass_with(&answer->request.allocator, &answer->requested, &answer->result,
                                    error);
        answer->result.values[BITE_TIP_FREQUENCY].value = bite_tool_first_frequency(&answer->full);
    } else {
        status = bite_spreads_collect(&answer->request, &answer->full, answer->provenance,
                                      answer->spreads, &answer->spread_count, error);
        if (status == BITE_OK) {
            size_t all = bite_answer_draws(draws);
            answer->over = all > BITE_DRAWS_MAX ? NULL : bite_arena_alloc(answer->arena, all, 1);
            if (answer->over == NULL && all <= BITE_DRAWS_MAX) { /* more are refused below */
                return bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
            }
            bite_sampling sampling = {.draws = all,
                                      .seed = seed_default,
                                      .confidence = confidence,
                                      .threads = answer->request.threads,
                                      .over = answer->over};
            status = bite_monte_carlo_run(&answer->requested, answer->spreads, answer->spread_count,
                                          &sampling, &answer->result, error);
        }
    }
    bite_change none = {BITE_NO_INPUT, 0, 0, 0, (double)NAN, (double)NAN, (double)NAN, (double)NAN};
    answer->change = none;
    if (status == BITE_OK && !answer->request.skip_change) {
        status = bite_change_find(&answer->full, answer->spreads, answer->spread_count, confidence,
                                  answer->request.threads, &answer->result, &answer->change);
        if (status != BITE_OK) {
            return bite_error_set(error, status, "single changes cannot be tried: %s",
                                  bite_status_text(status));
        }
    }
    return status == BITE_OK ? bite_answer_collect_cautions(answer, error) : status;
}

bite_status bite_answer_new(const bite_request *request, size_t draws, double confidence,
                            bite_answer **answer, bite_error *error)
{
    bite_error_clear(error);
    if (request == NULL || answer == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a request and a place for the answer were expected");
    }
    bite_status status = bite_check_draws_wished(draws, confidence, error);
    if (status == BITE_OK && bite_watch_step(request->watch, 0)) {
        status = BITE_NO_MEMORY;
    }
    if (status != BITE_OK) {
        return status;
    }
    bite_arena *arena = bite_arena_new(&request->allocator);
    bite_answer *fresh = arena == NULL ? NULL : bite_arena_alloc(arena, 1, sizeof *fresh);
    if (fresh == NULL) {
        bite_arena_free(arena);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for an answer");
    }
    fresh->arena = arena;
    fresh->request = *request;
    fresh->confidence = bite_confidence_or_usual(confidence);
    status = judge(fresh, draws, fresh->confidence, error);
    if (status == BITE_OK && bite_arena_failed(arena)) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for an answer");
    }
    if (status != BITE_OK) {
        bite_arena_free(arena);
        return status;
    }
    fresh->request.watch = NULL; /* the call that is watched ends before the answer */
    *answer = fresh;
    return BITE_OK;
}

/* Applies a change to a cut, and copies the spreads that then remain. Returns their number. */
static size_t apply_change(const bite_answer *answer, const bite_change *change, bite_cut *cut,
                           bite_spread *remaining)
{
    if (change->input == BITE_NO_INPUT) {
        memcpy(remaining, answer->spreads, answer->spread_count * sizeof *remaining);
        return answer->spread_count;
    }
    const bite_input *input = bite_input_at(change->input);
    if (input->words > 0) {
        *bite_input_choice(cut, input) = change->word;
        bite_change_settle(cut, input);
    } else {
        *bite_input_number(cut, input) = change->to;
    }
    return bite_spreads_except(answer->spreads, answer->spread_count, input, remaining);
}

bite_status bite_change_judge(const bite_answer *answer, bite_change *change,
                              const unsigned char *wanted, double *wanted_chance,
                              bite_result *result, bite_error *error)
{
    bite_spread remaining[BITE_SPREAD_MAX];
    bite_cut cut = answer->full;
    size_t wanted_over = 0;
    size_t draws = answer->result.draws < draws_default ? answer->result.draws : draws_default;
    memset(result, 0, sizeof *result);
    result->struct_size = (uint32_t)sizeof *result;
    change->before = change->after = *wanted_chance = (double)NAN;
    if (draws == 0) {
        bite_result_clear(result);
        return BITE_OK;
    }
    size_t count = apply_change(answer, change, &cut, remaining);
    bite_sampling sampling = {.draws = draws,
                              .seed = seed_default,
                              .confidence = 0.90,
                              .threads = answer->request.threads,
                              .limits_only = 1,
                              .wanted = wanted,
                              .wanted_over = &wanted_over};
    bite_status status = bite_monte_carlo_run(&cut, remaining, count, &sampling, result, error);
    if (status == BITE_OK) {
        change->before = answer->result.chance;
        change->after = result->chance;
        *wanted_chance = (double)wanted_over / (double)draws;
    }
    return status;
}
