/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inputs and records that an answer used, for callers of the library. */
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/names/registry.h"
#include "core/request/answer.h"
#include "core/request/resolve.h"
#include "core/tables/provenance.h"
#include <math.h>
#include <string.h>

static int is_used(const bite_answer *answer, size_t input)
{
    return input < BITE_INPUTS_MAX && answer->provenance[input].origin != BITE_ORIGIN_NONE;
}

/* Inputs, and the figures of a plugin. */
static size_t input_places(void)
{
    return bite_input_count() + BITE_OWN_FIGURES;
}

size_t bite_answer_input_count(const bite_answer *answer)
{
    size_t used = 0;
    for (size_t i = 0; answer != NULL && i < input_places(); i++) {
        used += is_used(answer, i) ? 1 : 0;
    }
    return used;
}

static void split_source(const char *source, bite_used_input *used)
{
    bite_source_grade grade = BITE_GRADE_NONE;
    const char *where = source;
    if (!bite_source_read(source, &grade, &where)) {
        where = source;
    }
    used->grade = bite_source_grade_name(grade);
    used->source = where;
}

static void fill(const bite_answer *answer, size_t index, bite_used_input *used)
{
    const bite_input *input = bite_cut_input_at(&answer->full, index);
    const bite_provenance *provenance = &answer->provenance[index];
    used->input = (uint32_t)index;
    used->origin = provenance->origin;
    used->name = input->name;
    used->unit = input->unit;
    used->text = "";
    used->file = provenance->file;
    split_source(provenance->source, used);
    used->value = used->low = used->high = (double)NAN;
    if (input->words > 0) {
        const char *at = (const char *)&answer->full + input->offset;
        used->word = *(const uint32_t *)(const void *)at;
        used->text = bite_input_word(input, used->word);
    } else {
        used->value = *bite_input_number_of(&answer->full, input);
        used->low = isnan(provenance->low) ? used->value : provenance->low;
        used->high = isnan(provenance->high) ? used->value : provenance->high;
    }
}

static bite_status give(const bite_answer *answer, size_t index, bite_used_input *used,
                        bite_error *error)
{
    bite_used_input own;
    bite_status status = bite_struct_check(&bite_struct_used_input, used, "used", error);
    if (status == BITE_OK) {
        bite_used_input_init(&own);
        fill(answer, index, &own);
        bite_struct_write(&bite_struct_used_input, &own, used);
    }
    return status;
}

bite_status bite_answer_input(const bite_answer *answer, size_t index, bite_used_input *used,
                              bite_error *error)
{
    bite_error_clear(error);
    size_t left = index;
    for (size_t i = 0; answer != NULL && i < input_places(); i++) {
        if (is_used(answer, i) && left-- == 0) {
            return give(answer, i, used, error);
        }
    }
    return bite_error_set(error, BITE_BAD_ARGUMENT,
                          "an answer and the index of one of its inputs were expected");
}

bite_status bite_answer_input_find(const bite_answer *answer, const char *name,
                                   bite_used_input *used, bite_error *error)
{
    bite_error_clear(error);
    if (answer == NULL || name == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an answer and the name of an input were expected");
    }
    const bite_input *input = bite_input_find(name);
    bite_status status = BITE_OK;
    for (size_t i = bite_input_count(); i < input_places(); i++) {
        const bite_input *figure = bite_cut_input_at(&answer->full, i);
        if (figure != NULL && strcmp(figure->name, name) == 0) {
            return give(answer, i, used, error);
        }
    }
    if (input == NULL) {
        const char *near = bite_registry_nearest(name);
        status = bite_error_set(error, BITE_UNKNOWN_NAME, "there is no input named %.60s", name);
        bite_error_hint(error, near == NULL ? "explain lists the inputs" : "did you mean %s?",
                        near);
    } else if (!is_used(answer, bite_input_index(input))) {
        status = bite_error_set(error, BITE_MISSING, "the answer used no %s", input->name);
    }
    if (status != BITE_OK) {
        bite_error_key(error, "%.60s", name);
        return status;
    }
    return give(answer, bite_input_index(input), used, error);
}

static const char *name_of(const bite_item_record *record)
{
    return record == NULL ? NULL : record->name;
}

const char *bite_answer_record(const bite_answer *answer, bite_collection collection)
{
    if (answer == NULL) {
        return NULL;
    }
    const bite_request *request = &answer->request;
    switch (collection) {
    case BITE_FAMILIES:
        return request->grade->family_name;
    case BITE_GRADES:
        return request->grade->record.name;
    case BITE_TOOLS:
    case BITE_DRILLS:
        return request->tool_name[0] == 0 ? NULL : request->tool_name;
    case BITE_HOLDERS:
        return name_of(request->holder);
    case BITE_MACHINES:
        return request->machine == NULL ? bite_usual_machine : request->machine->name;
    case BITE_HOLDS:
        return name_of(request->hold);
    case BITE_THREADS:
        return name_of(request->thread);
    default:
        return NULL;
    }
}

const char *bite_answer_missing_figure(const bite_answer *answer, size_t index)
{
    return answer == NULL ? NULL : bite_answer_missing(answer, index);
}
