/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut: settle the ask, run the pass, hear the family. */
#include "core/request/answer.h"
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

static const char pressure_is_estimate[] =
    "estimate: the cutting pressure of this grade is no measured one; see show for its reasoning";

/* Values and rows that stand or fall with the cutting pressure. */
static const uint8_t value_by_pressure[BITE_VALUE_COUNT] = {
    [BITE_FORCE_TANGENTIAL_PEAK] = 1,
    [BITE_FORCE_SIDE_PEAK] = 1,
    [BITE_FORCE_SIDE_MEAN] = 1,
    [BITE_FORCE_LIFT_PEAK] = 1,
    [BITE_TORQUE_PEAK] = 1,
    [BITE_POWER_MEAN] = 1,
    [BITE_SPECIFIC_ENERGY] = 1,
    [BITE_CHIP_TEMPERATURE] = 1,
    [BITE_SURFACE_TEMPERATURE] = 1,
    [BITE_FILM_TEMPERATURE] = 1,
    [BITE_TOOL_TEMPERATURE] = 1,
    [BITE_PART_TEMPERATURE] = 1,
    [BITE_PREHEAT] = 1,
    [BITE_HEAT_TO_PART] = 1,
    [BITE_DEFLECTION_TIP] = 1,
    [BITE_WALL_ERROR] = 1,
    [BITE_TOOL_STRESS] = 1,
    [BITE_STABILITY_DEPTH] = 1,
};
static const uint8_t row_by_pressure[BITE_LIMIT_COUNT] = {
    [BITE_LIMIT_POWER] = 1,
    [BITE_LIMIT_TORQUE] = 1,
    [BITE_LIMIT_TOOL_BREAK] = 1,
    [BITE_LIMIT_DEFLECTION] = 1,
    [BITE_LIMIT_SOFTENING] = 1,
    [BITE_LIMIT_CHIP_WELD] = 1,
    [BITE_LIMIT_CHATTER] = 1,
    [BITE_LIMIT_CRAZE] = 1,
    [BITE_LIMIT_BOND_SIDE] = 1,
    [BITE_LIMIT_BOND_LIFT] = 1,
    [BITE_LIMIT_BOND_HEAT] = 1,
    [BITE_LIMIT_PART_BEND] = 1,
    [BITE_LIMIT_TOOL_GROSS_BEND] = 1,
    [BITE_LIMIT_PART_GROSS_BEND] = 1,
};

/* Draws of what is shown; the seed has no meaning but that it stays. */
static const size_t draws_usual = 4096;
static const uint64_t seed_usual = 20261125;

static bite_status judge(bite_answer *answer, size_t draws, double confidence, bite_error *error)
{
    bite_status status = bite_request_resolve(&answer->request, &answer->requested, &answer->full,
                                              answer->provenance, error);
    if (status != BITE_OK) {
        return status;
    }
    answer->result.struct_size = (uint32_t)sizeof answer->result;
    if (draws == BITE_DRAWS_NONE) {
        status = bite_cut_pass(&answer->requested, &answer->result, error);
        answer->result.values[BITE_TIP_FREQUENCY].value = bite_tool_first_frequency(&answer->full);
    } else {
        status = bite_spreads_collect(&answer->request, &answer->full, answer->provenance,
                                      answer->spreads, &answer->spread_count, error);
        if (status == BITE_OK) {
            size_t all = draws == 0 ? draws_usual : draws;
            answer->over = all > BITE_DRAWS_MAX ? NULL : bite_arena_alloc(answer->arena, all, 1);
            bite_sampling sampling = {.draws = all,
                                      .seed = seed_usual,
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
    }
    return status == BITE_OK ? bite_answer_collect_cautions(answer, error) : status;
}

bite_status bite_answer_new(const bite_request *request, size_t draws, double confidence,
                            bite_answer **answer, bite_error *error)
{
    bite_error_clear(error);
    if (request == NULL || answer == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an ask and a place for the answer were expected");
    }
    bite_status status = bite_check_draws_wished(draws, confidence, error);
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
    fresh->confidence = confidence;
    status = judge(fresh, draws, confidence, error);
    if (status != BITE_OK) {
        bite_arena_free(arena);
        return status;
    }
    *answer = fresh;
    return BITE_OK;
}

bite_status bite_change_judge(const bite_answer *answer, bite_change *change, bite_result *result,
                              bite_error *error)
{
    const bite_input *input = bite_input_at(change->input);
    bite_spread kept[BITE_SPREAD_MAX];
    bite_cut cut = answer->full;
    size_t draws = answer->result.draws < draws_usual ? answer->result.draws : draws_usual;
    memset(result, 0, sizeof *result);
    result->struct_size = (uint32_t)sizeof *result;
    change->before = change->after = (double)NAN;
    if (draws == 0) {
        bite_result_init(result);
        return BITE_OK;
    }
    if (input->words > 0) {
        *bite_input_choice(&cut, input) = change->word;
        cut.cooling = (double)NAN; /* follows the coolant */
    } else {
        *bite_input_number(&cut, input) = change->to;
    }
    size_t count = bite_spreads_except(answer->spreads, answer->spread_count, input, kept);
    bite_sampling sampling = {.draws = draws,
                              .seed = seed_usual,
                              .confidence = 0.95,
                              .threads = answer->request.threads,
                              .limits_only = 1};
    bite_status status = bite_monte_carlo_run(&cut, kept, count, &sampling, result, error);
    if (status == BITE_OK) {
        change->before = answer->result.chance;
        change->after = result->chance;
    }
    return status;
}

uint32_t bite_answer_worst_advisory(const bite_result *result)
{
    uint32_t worst = BITE_LIMIT_COUNT;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        int likely = isnan(limit->chance) ? limit->utilization > 1.0 : limit->chance > 0.5;
        if (limit->applies && limit->advisory && likely &&
            (worst == BITE_LIMIT_COUNT || limit->utilization > result->limits[worst].utilization)) {
            worst = i;
        }
    }
    return worst;
}

int bite_answer_tight_by_utilization(const bite_answer *answer, bite_limit_id limit)
{
    const bite_limit *judged = &answer->result.limits[limit];
    return judged->applies && judged->verdict == BITE_TIGHT &&
           judged->chance < 1.0 - answer->confidence; /* NaN without draws */
}

void bite_answer_free(bite_answer *answer)
{
    if (answer != NULL) {
        bite_arena_free(answer->arena);
    }
}

const bite_result *bite_answer_result(const bite_answer *answer)
{
    return answer == NULL ? NULL : &answer->result;
}

size_t bite_answer_caution_count(const bite_answer *answer)
{
    return answer == NULL ? 0 : answer->caution_count;
}

bite_status bite_answer_caution(const bite_answer *answer, size_t index, bite_caution *caution,
                                bite_error *error)
{
    bite_error_clear(error);
    if (answer == NULL || caution == NULL || index >= answer->caution_count) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an answer, and the index of one of its cautions, were expected");
    }
    *caution = answer->cautions[index].caution;
    return BITE_OK;
}

/* What helps where the way in governs: the cut's own depth and feed have nothing to do with it. */
static const char *const helps_on_the_way_in[BITE_LIMIT_COUNT] = {
    [BITE_LIMIT_FEED_FAST] = "Go in more slowly: less entry feed.",
    [BITE_LIMIT_POWER] = "Go in more slowly (less entry feed), or wind in at a lower slope.",
    [BITE_LIMIT_TORQUE] = "Go in more slowly (less entry feed), or wind in at a lower slope.",
    [BITE_LIMIT_TOOL_BREAK] = "Go in more slowly (less entry feed), wind in at a lower slope, "
                              "shorten the stick-out, lessen runout.",
    [BITE_LIMIT_CHIP_PACKING] =
        "Blow the chips away, wind in at a lower slope, or come in from beside.",
};

const char *bite_answer_advice(const bite_answer *answer, bite_limit_id limit)
{
    const bite_definition *definition = bite_registry_limit(limit);
    if (answer == NULL || definition == NULL || answer->result.limits[limit].verdict < BITE_TIGHT) {
        return "";
    }
    int way_in = answer->result.limits[limit].in_corner == 2 && helps_on_the_way_in[limit] != NULL;
    return way_in ? helps_on_the_way_in[limit] : definition->helps;
}

const char *bite_answer_value_source(const bite_answer *answer, bite_value_id id)
{
    const bite_definition *definition = bite_registry_output(id);
    if (definition == NULL) {
        return "";
    }
    return value_by_pressure[id] && answer->full.pressure == BITE_PRESSURE_STRENGTH
               ? pressure_is_estimate
               : definition->source;
}

const char *bite_answer_limit_source(const bite_answer *answer, bite_limit_id id)
{
    const bite_definition *definition = bite_registry_limit(id);
    if (definition == NULL) {
        return "";
    }
    return row_by_pressure[id] && answer->full.pressure == BITE_PRESSURE_STRENGTH
               ? pressure_is_estimate
               : definition->source;
}

const char *bite_answer_source(const bite_answer *answer, const char *name)
{
    if (answer == NULL || name == NULL) {
        return "";
    }
    const bite_input *input = bite_input_find(name);
    if (input != NULL) {
        return answer->provenance[bite_input_index(input)].source;
    }
    uint32_t id = 0;
    uint32_t is_limit = 0;
    if (bite_registry_find(name, &id, &is_limit) == NULL) {
        return "";
    }
    return is_limit ? bite_answer_limit_source(answer, (bite_limit_id)id)
                    : bite_answer_value_source(answer, (bite_value_id)id);
}
