/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut: its results, cautions and sources, by index and by name. */
#include "core/request/answer.h"
#include "core/base/error.h"
#include "core/cut/entry_move.h"
#include "core/cut/limits.h"
#include "core/cut/physics_inputs.h"
#include "core/library/collection.h"
#include "core/names/own_limits.h"
#include "core/names/registry.h"
#include "core/request/resolve.h"
#include <math.h>
#include <string.h>

#define NAME_MOST 64 /* bytes of a public name */

static const char pressure_is_estimate[] =
    "estimate: the cutting pressure of this grade was not measured; show gives the reasoning";

/* Values and limits that depend on the cutting pressure. */
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
static const uint8_t limit_by_pressure[BITE_LIMIT_COUNT] = {
    [BITE_LIMIT_POWER] = 1,           [BITE_LIMIT_TORQUE] = 1,    [BITE_LIMIT_TOOL_BREAK] = 1,
    [BITE_LIMIT_DEFLECTION] = 1,      [BITE_LIMIT_SOFTENING] = 1, [BITE_LIMIT_CHIP_WELD] = 1,
    [BITE_LIMIT_CHATTER] = 1,         [BITE_LIMIT_CRAZE] = 1,     [BITE_LIMIT_HOLD] = 1,
    [BITE_LIMIT_BOND_HEAT] = 1,       [BITE_LIMIT_PART_BEND] = 1, [BITE_LIMIT_TOOL_GROSS_BEND] = 1,
    [BITE_LIMIT_PART_GROSS_BEND] = 1,
};

bite_verdict bite_answer_limits_verdict(const bite_result *result)
{
    uint32_t worst;
    return bite_limits_verdict(result->limits, BITE_LIMIT_COUNT, &worst);
}

double bite_answer_groove_width(const bite_answer *answer)
{
    return bite_cut_is_groove(&answer->full) ? bite_cutting_diameter(&answer->full) : 0.0;
}

double bite_answer_cone_radius(const bite_answer *answer)
{
    return bite_cut_cone(&answer->full).small;
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
                              "an answer and the index of one of its cautions were expected");
    }
    *caution = answer->cautions[index].caution;
    return BITE_OK;
}

/* What helps if the entry move governs: the depth and feed of the cut itself do not matter then. */
static const char *const helps_on_entry[BITE_LIMIT_COUNT] = {
    [BITE_LIMIT_FEED_FAST] = "Enter more slowly: reduce the entry feed.",
    [BITE_LIMIT_POWER] = "Enter more slowly (less entry feed), or spiral in at a lower slope.",
    [BITE_LIMIT_TORQUE] = "Enter more slowly (less entry feed), or spiral in at a lower slope.",
    [BITE_LIMIT_TOOL_BREAK] = "Enter more slowly (less entry feed), spiral in at a lower slope, "
                              "shorten the stick-out, or reduce the runout.",
    [BITE_LIMIT_CHIP_PACKING] =
        "Blow the chips away, spiral in at a lower slope, or enter from the side.",
};

const char *bite_answer_advice(const bite_answer *answer, bite_limit_id limit)
{
    const bite_definition *definition =
        answer == NULL ? NULL : bite_cut_limit(&answer->full, limit);
    if (definition == NULL || answer->result.limits[limit].verdict < BITE_TIGHT) {
        return "";
    }
    int on_entry = answer->result.limits[limit].in_corner == 2 && helps_on_entry[limit] != NULL;
    return on_entry ? helps_on_entry[limit] : definition->helps;
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
    const bite_definition *definition = bite_cut_limit(&answer->full, id);
    if (definition == NULL) {
        return "";
    }
    return limit_by_pressure[id] && answer->full.pressure == BITE_PRESSURE_STRENGTH
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
    if (bite_own_limit_find(&answer->full, name, &id) != NULL) {
        return bite_answer_limit_source(answer, (bite_limit_id)id);
    }
    if (bite_registry_find(name, &id, &is_limit) == NULL) {
        const bite_field_value *figure = bite_item_field(&answer->request.grade->record, name);
        return figure == NULL || figure->source == NULL ? "" : figure->source;
    }
    return is_limit ? bite_answer_limit_source(answer, (bite_limit_id)id)
                    : bite_answer_value_source(answer, (bite_value_id)id);
}

double bite_answer_number(const bite_answer *answer, const char *name, bite_kind *kind, double *low,
                          double *high)
{
    *kind = BITE_KIND_COUNT;
    *low = *high = (double)NAN;
    const bite_input *input = bite_input_find(name);
    if (input != NULL && input->words == 0) {
        const bite_provenance *provenance = &answer->provenance[bite_input_index(input)];
        *kind = (bite_kind)input->kind;
        *low = provenance->low;
        *high = provenance->high;
        return *bite_input_number_of(&answer->full, input);
    }
    char limit_name[NAME_MOST];
    const char *point = strchr(name, '.');
    size_t length = point == NULL ? strlen(name) : (size_t)(point - name);
    if (length >= sizeof limit_name) {
        return (double)NAN;
    }
    memcpy(limit_name, name, length);
    limit_name[length] = 0;
    uint32_t id = 0;
    uint32_t is_limit = 0;
    const bite_definition *definition = bite_registry_find(limit_name, &id, &is_limit);
    if (definition == NULL) {
        definition = bite_own_limit_find(&answer->full, limit_name, &id);
        is_limit = definition != NULL;
    }
    if (definition != NULL && is_limit && point != NULL) {
        const bite_limit *at = &answer->result.limits[id];
        int amount = strcmp(point, ".demand") == 0 || strcmp(point, ".capacity") == 0;
        *kind = amount ? (bite_kind)definition->kind : BITE_KIND_FRACTION;
        return strcmp(point, ".demand") == 0        ? at->demand
               : strcmp(point, ".capacity") == 0    ? at->capacity
               : strcmp(point, ".utilization") == 0 ? at->utilization
               : strcmp(point, ".chance") == 0      ? at->chance
                                                    : (double)NAN; /* no such point */
    }
    if (definition != NULL && !is_limit && point == NULL) {
        const bite_value *value = &answer->result.values[id];
        *kind = (bite_kind)definition->kind;
        *low = value->low;
        *high = value->high;
        return value->value;
    }
    const bite_field_value *field_value = bite_item_field(&answer->request.grade->record, name);
    if (field_value != NULL && field_value->field->type == BITE_FIELD_FIGURE) {
        *kind = (bite_kind)field_value->field->kind;
        *low = field_value->low;
        *high = field_value->high;
        return field_value->value;
    }
    return (double)NAN;
}

const char *bite_answer_word(const bite_answer *answer, const char *name)
{
    if (strcmp(name, "grade") == 0) {
        const char *slash = strchr(answer->request.grade->record.name, '/');
        return slash == NULL ? answer->request.grade->record.name : slash + 1;
    }
    if (strcmp(name, "family") == 0) {
        return answer->request.grade->family_name;
    }
    if (strcmp(name, "machine") == 0) {
        return answer->request.machine == NULL ? bite_usual_machine : answer->request.machine->name;
    }
    const bite_input *input = bite_input_find(name);
    if (input == NULL || input->words == 0) {
        return NULL;
    }
    return bite_input_word(input, *bite_input_choice((bite_cut *)(uintptr_t)&answer->full, input));
}

const char *bite_answer_missing(const bite_answer *answer, size_t index)
{
    return answer->result.not_judged > 0 ? bite_cut_missing_figure(&answer->full, index) : NULL;
}

double bite_answer_entry_feed(const bite_answer *answer)
{
    return bite_entry_feed(&answer->full);
}
