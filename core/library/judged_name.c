/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names by which cautions speak of a judged cut. */
#include "core/library/judged_name.h"
#include "core/names/registry.h"
#include <string.h>

#define NAME_MOST 120

/* The limit that LIMIT.demand and the like are of; *part: what follows the point. */
static const bite_definition *limit_of(const char *name, const char **part)
{
    const char *point = strchr(name, '.');
    char limit[NAME_MOST];
    uint32_t id = 0;
    uint32_t is_limit = 0;
    if (point == NULL || (size_t)(point - name) >= sizeof limit) {
        return NULL;
    }
    memcpy(limit, name, (size_t)(point - name));
    limit[point - name] = 0;
    *part = point + 1;
    const bite_definition *definition = bite_registry_find(limit, &id, &is_limit);
    return is_limit ? definition : NULL;
}

bool bite_judged_number(const char *name, const bite_field *figures, size_t count, bite_kind *kind)
{
    uint32_t id = 0;
    uint32_t is_limit = 0;
    const char *part = "";
    const bite_input *input = bite_input_find(name);
    if (input != NULL && input->words == 0) {
        *kind = (bite_kind)input->kind;
        return true;
    }
    const bite_definition *definition = bite_registry_find(name, &id, &is_limit);
    if (definition != NULL && !is_limit) {
        *kind = (bite_kind)definition->kind;
        return true;
    }
    for (size_t i = 0; i < count; i++) {
        if (figures[i].type == BITE_FIELD_FIGURE && strcmp(figures[i].name, name) == 0) {
            *kind = (bite_kind)figures[i].kind;
            return true;
        }
    }
    definition = limit_of(name, &part);
    if (definition == NULL) {
        return false;
    }
    bool is_own = strcmp(part, "demand") == 0 || strcmp(part, "capacity") == 0;
    *kind = is_own ? (bite_kind)definition->kind : BITE_KIND_NUMBER;
    return is_own || strcmp(part, "utilization") == 0 || strcmp(part, "chance") == 0;
}

bool bite_judged_word(const char *name, const bite_input **input)
{
    static const char *const names[] = {"grade", "family", "machine"};
    *input = bite_input_find(name);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (strcmp(names[i], name) == 0) {
            *input = NULL;
            return true;
        }
    }
    return *input != NULL && (*input)->words > 0;
}
