/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lookup in the one list of names. */
#include "core/names/registry.h"
#include "core/base/nearest_name.h"
#include "core/names/inputs.h"
#include "core/names/limits.h"
#include "core/names/outputs.h"
#include <string.h>

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

/* The names of all inputs, then of all outputs, then of all limits. */
static const char *name_at(size_t index, const void *list)
{
    (void)list;
    if (index < bite_input_table_count) {
        return bite_input_table[index].name;
    }
    index -= bite_input_table_count;
    return index < BITE_VALUE_COUNT ? bite_output_table[index].name
                                    : bite_limit_table[index - BITE_VALUE_COUNT].name;
}

const char *bite_registry_nearest(const char *name)
{
    return bite_text_nearest(name, bite_input_table_count + BITE_VALUE_COUNT + BITE_LIMIT_COUNT,
                             name_at, NULL);
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
        [BITE_WHY_NO_DATA] = "the tables have no value for it",
        [BITE_WHY_ONE_FLUTE] = "at least two teeth are needed",
        [BITE_WHY_NOT_A_METAL] = "checked for metals only",
        [BITE_WHY_METAL] = "metals do not soften at shop temperatures",
        [BITE_WHY_DOES_NOT_WELD] = "this material's chips do not weld",
        [BITE_WHY_DOES_NOT_WEAR] = "an unfilled plastic hardly wears the edge",
        [BITE_WHY_DRILL] = "checked for milling only",
        [BITE_WHY_CHAMFER] = "checked for walls and slots, not for a chamfer",
        [BITE_WHY_TOLERANCE] = "a tolerance was given and is checked instead",
        [BITE_WHY_MEASURED] = "the measured modes are checked instead",
        [BITE_WHY_NO_LIMIT] = "this family has no further limit",
        [BITE_WHY_NOT_ASKED] = "the family's plugin does not judge such a cut by it",
        [BITE_WHY_BAD_NUMBER] = "the family's plugin gave no usable number for it",
        [BITE_WHY_DOES_NOT_CRAZE] = "this material does not craze",
    };
    return why < BITE_WHY_COUNT ? texts[why] : "unknown reason";
}

const char *bite_verdict_name(bite_verdict verdict)
{
    static const char *const names[] = {"not_judged", "clear", "tight", "over", "unknown"};
    return (unsigned)verdict < sizeof names / sizeof *names ? names[verdict] : "not_judged";
}
