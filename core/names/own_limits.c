/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits and figures of a family's plugin, by id and by name. */
#include "core/names/own_limits.h"
#include "core/names/inputs.h"
#include "core/names/registry.h"
#include <string.h>

const bite_own_limit *bite_own_limit_at(const bite_own_limits *own, bite_limit_id id)
{
    size_t slot = (size_t)id - BITE_LIMIT_OWN_1;
    return own != NULL && bite_limit_is_own(id) && slot < own->limit_count ? &own->limits[slot]
                                                                           : NULL;
}

int bite_own_limits_read(const bite_own_limits *own, size_t offset)
{
    for (size_t i = 0; own != NULL && i < own->limit_count; i++) {
        const bite_own_limit *limit = &own->limits[i];
        for (size_t k = 0; k < limit->number_count; k++) {
            if (limit->numbers[k].place == BITE_OWN_INPUT && limit->numbers[k].index == offset) {
                return 1;
            }
        }
    }
    return 0;
}

const bite_definition *bite_cut_limit(const bite_cut *cut, bite_limit_id id)
{
    if (!bite_limit_is_own(id)) {
        return bite_registry_limit(id);
    }
    const bite_own_limit *limit = cut == NULL ? NULL : bite_own_limit_at(cut->own, id);
    return limit == NULL ? NULL : &limit->definition;
}

const bite_definition *bite_own_limit_find(const bite_cut *cut, const char *name, uint32_t *id)
{
    for (bite_limit_id at = BITE_LIMIT_OWN_1; at <= BITE_LIMIT_OWN_4; at++) {
        const bite_definition *definition = bite_cut_limit(cut, at);
        if (definition != NULL && strcmp(definition->name, name) == 0) {
            *id = at;
            return definition;
        }
    }
    return NULL;
}

const char *bite_cut_limit_name(const bite_cut *cut, bite_limit_id id)
{
    const bite_definition *definition = bite_cut_limit(cut, id);
    return definition == NULL ? NULL : definition->name;
}

const char *bite_cut_limit_unit(const bite_cut *cut, bite_limit_id id)
{
    const bite_definition *definition = bite_cut_limit(cut, id);
    return definition == NULL ? NULL : definition->unit;
}

bite_kind bite_cut_limit_kind(const bite_cut *cut, bite_limit_id id)
{
    const bite_definition *definition = bite_cut_limit(cut, id);
    return definition == NULL ? BITE_KIND_NUMBER : (bite_kind)definition->kind;
}

const bite_input *bite_cut_input_at(const bite_cut *cut, size_t index)
{
    size_t slot = index - bite_input_table_count;
    if (index < bite_input_table_count) {
        return bite_input_at(index);
    }
    return cut != NULL && cut->own != NULL && slot < cut->own->figure_count
               ? &cut->own->figures[slot]
               : NULL;
}
