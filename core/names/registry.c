/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looking up the vocabulary. */
#include "core/names/registry.h"
#include "core/base/text.h"
#include "core/names/inputs.h"
#include "core/names/limits.h"
#include "core/names/outputs.h"
#include "core/names/registry_tables.h"
#include <string.h>

size_t bite_input_count(void)
{
    return bite_input_table_count;
}

const bite_input *bite_input_at(size_t index)
{
    return index < bite_input_table_count ? &bite_input_table[index] : NULL;
}

const bite_input *bite_input_find(const char *name)
{
    for (size_t i = 0; name != NULL && i < bite_input_table_count; i++) {
        if (strcmp(bite_input_table[i].name, name) == 0) {
            return &bite_input_table[i];
        }
    }
    return NULL;
}

size_t bite_input_index(const bite_input *input)
{
    return (size_t)(input - bite_input_table);
}

const char *bite_input_word(const bite_input *input, uint32_t index)
{
    for (size_t i = 0; input != NULL && index < input->words && i < bite_input_word_count; i++) {
        if (strcmp(bite_input_word_table[i].input, input->name) == 0) {
            return bite_input_word_table[i].words[index];
        }
    }
    return NULL;
}

double *bite_input_number(bite_cut *cut, const bite_input *input)
{
    return (double *)(void *)((char *)cut + input->offset);
}

const double *bite_input_number_of(const bite_cut *cut, const bite_input *input)
{
    return (const double *)(const void *)((const char *)cut + input->offset);
}

uint32_t *bite_input_choice(bite_cut *cut, const bite_input *input)
{
    return (uint32_t *)(void *)((char *)cut + input->offset);
}

const uint32_t *bite_input_choice_of(const bite_cut *cut, const bite_input *input)
{
    return (const uint32_t *)(const void *)((const char *)cut + input->offset);
}

const bite_definition *bite_registry_output(bite_value_id id)
{
    return (unsigned)id < BITE_VALUE_COUNT ? &bite_output_table[id] : NULL;
}

const bite_definition *bite_registry_limit(bite_limit_id id)
{
    return (unsigned)id < BITE_LIMIT_COUNT ? &bite_limit_table[id] : NULL;
}

const bite_definition *bite_registry_find(const char *name, uint32_t *id, uint32_t *is_limit)
{
    for (uint32_t i = 0; i < BITE_VALUE_COUNT; i++) {
        if (strcmp(bite_output_table[i].name, name) == 0) {
            *id = i;
            *is_limit = 0;
            return &bite_output_table[i];
        }
    }
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (strcmp(bite_limit_table[i].name, name) == 0) {
            *id = i;
            *is_limit = 1;
            return &bite_limit_table[i];
        }
    }
    return NULL;
}

static const char *any_name(size_t at, const void *list)
{
    (void)list;
    if (at < bite_input_table_count) {
        return bite_input_table[at].name;
    }
    at -= bite_input_table_count;
    return at < BITE_VALUE_COUNT ? bite_output_table[at].name
                                 : bite_limit_table[at - BITE_VALUE_COUNT].name;
}

const char *bite_registry_nearest(const char *name)
{
    return bite_text_nearest(name, bite_input_table_count + BITE_VALUE_COUNT + BITE_LIMIT_COUNT,
                             any_name, NULL);
}

const char *bite_value_name(bite_value_id id)
{
    return (unsigned)id < BITE_VALUE_COUNT ? bite_output_table[id].name : NULL;
}

const char *bite_value_unit(bite_value_id id)
{
    return (unsigned)id < BITE_VALUE_COUNT ? bite_output_table[id].unit : NULL;
}

bite_kind bite_value_kind(bite_value_id id)
{
    return (unsigned)id < BITE_VALUE_COUNT ? (bite_kind)bite_output_table[id].kind
                                           : BITE_KIND_NUMBER;
}

const char *bite_limit_name(bite_limit_id id)
{
    return (unsigned)id < BITE_LIMIT_COUNT ? bite_limit_table[id].name : NULL;
}

const char *bite_limit_unit(bite_limit_id id)
{
    return (unsigned)id < BITE_LIMIT_COUNT ? bite_limit_table[id].unit : NULL;
}

bite_kind bite_limit_kind(bite_limit_id id)
{
    return (unsigned)id < BITE_LIMIT_COUNT ? (bite_kind)bite_limit_table[id].kind
                                           : BITE_KIND_NUMBER;
}

const char *bite_limit_why(uint32_t why)
{
    static const char *const texts[BITE_WHY_COUNT] = {
        [BITE_WHY_APPLIES] = "",
        [BITE_WHY_NOT_GIVEN] = "an input that it needs was not given",
        [BITE_WHY_NO_DATA] = "the tables have no figure for it",
        [BITE_WHY_ONE_FLUTE] = "needs two teeth or more",
        [BITE_WHY_NOT_A_METAL] = "asked of metals alone",
        [BITE_WHY_METAL] = "metals do not soften at shop temperatures",
        [BITE_WHY_DOES_NOT_WELD] = "this material's chips do not weld",
        [BITE_WHY_DOES_NOT_WEAR] = "an unfilled plastic hardly wears an edge",
        [BITE_WHY_DRILL] = "asked of milling alone",
        [BITE_WHY_CHAMFER] = "asked of walls and slots, not of a chamfer",
        [BITE_WHY_TOLERANCE] = "a tolerance was given, and judges by itself",
        [BITE_WHY_DOES_NOT_CRAZE] = "this material does not craze",
    };
    return why < BITE_WHY_COUNT ? texts[why] : "unknown reason";
}

const char *bite_verdict_name(bite_verdict verdict)
{
    static const char *const names[] = {"not_judged", "clear", "tight", "over"};
    return (unsigned)verdict < sizeof names / sizeof *names ? names[verdict] : "not_judged";
}
