/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A section: its values by key, and two sections in one. */
#include "core/tables/section.h"
#include <string.h>

const bite_field_value *bite_section_value(const bite_section *section, const char *key)
{
    for (uint32_t i = 0; i < section->value_count; i++) {
        if (strcmp(section->values[i].field->name, key) == 0) {
            return &section->values[i];
        }
    }
    return NULL;
}

/* Whether a key names or describes its own section. */
static bool is_own(const char *key)
{
    static const char *const own[] = {"like", "also", "near", "title", "summary"};
    for (size_t i = 0; i < sizeof own / sizeof *own; i++) {
        if (strcmp(key, own[i]) == 0) {
            return true;
        }
    }
    return false;
}

bool bite_section_merge(bite_arena *arena, bite_section *section, const bite_section *other,
                        bite_merge merge)
{
    bite_field_value *values = bite_arena_alloc(
        arena, (size_t)section->value_count + other->value_count + 1, sizeof *values);
    if (values == NULL) {
        return false;
    }
    uint32_t count = 0;
    for (uint32_t i = 0; i < section->value_count; i++) {
        if (merge == BITE_MERGE_SAME || strcmp(section->values[i].field->name, "like") != 0) {
            values[count++] = section->values[i];
        }
    }
    for (uint32_t i = 0; i < other->value_count; i++) {
        const char *key = other->values[i].field->name;
        if (bite_section_value(section, key) == NULL &&
            (merge == BITE_MERGE_SAME || !is_own(key))) {
            values[count++] = other->values[i];
        }
    }
    section->values = values;
    section->value_count = count;
    return true;
}
