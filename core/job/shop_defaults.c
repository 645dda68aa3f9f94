/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job file leaves out and the shop's own set-up states. The value becomes that of a key of
 * the job, so that the steps of the plan need not know where it came from. */
#include "core/job/shop_defaults.h"
#include "core/base/error.h"
#include "core/job/job_file_schema.h"
#include "core/request/shop.h"
#include <stdio.h>
#include <string.h>

/* The usual hold is for a job that says nothing of how it is held. */
static const struct shop_default {
    bite_shop_key key;
    const char *section;
    const char *name;   /* of the key in the job file */
    bool whole_section; /* only if the file has no such section */
} defaults[] = {
    {BITE_SHOP_UNITS, "job", "units", false},
    {BITE_SHOP_MACHINE, "machine", "name", false},
    {BITE_SHOP_AT_HAND, "tools", "at_hand", false},
    {BITE_SHOP_HOLD, "hold", "method", true},
    {BITE_SHOP_COOLANT, "fluids", "coolant", false},
    {BITE_SHOP_TOLERANCE, "part", "tolerance", false},
};

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for a job");
}

static const bite_section **place_of(bite_job_file *file, const char *section)
{
    const struct {
        const char *name;
        const bite_section **at;
    } places[] = {{"job", &file->job},     {"part", &file->part}, {"machine", &file->machine},
                  {"tools", &file->tools}, {"hold", &file->hold}, {"fluids", &file->fluids}};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        if (strcmp(places[i].name, section) == 0) {
            return places[i].at;
        }
    }
    return NULL;
}

/* A copy of the section with one value more. NULL: no memory. */
static const bite_section *extended(bite_arena *arena, const bite_section *section,
                                    const char *name, const bite_field_value *value)
{
    size_t count = section == NULL ? 0 : section->value_count;
    bite_section *copy = bite_arena_alloc(arena, 1, sizeof *copy);
    bite_field_value *values = bite_arena_alloc(arena, count + 1, sizeof *values);
    if (copy == NULL || values == NULL) {
        return NULL;
    }
    if (section == NULL) {
        copy->name = name;
        copy->tail = "";
        copy->line = value->line;
    } else {
        *copy = *section;
    }
    if (count > 0) {
        memcpy(values, section->values, count * sizeof *values);
    }
    values[count] = *value;
    copy->values = values;
    copy->value_count = (uint32_t)(count + 1);
    return copy;
}

/* The tools at hand as the job file lists them, between blanks. NULL: no memory. */
static const char *tools_text(bite_arena *arena, const bite_shop *shop)
{
    size_t size = 1;
    for (size_t i = 0; i < shop->tool_count; i++) {
        size += strlen(shop->tools[i]) + 1;
    }
    char *text = bite_arena_alloc(arena, size, 1);
    size_t used = 0;
    for (size_t i = 0; text != NULL && i < shop->tool_count; i++) {
        used +=
            (size_t)snprintf(text + used, size - used, "%s%s", i > 0 ? " " : "", shop->tools[i]);
    }
    return text;
}

static bite_status use_default(const struct shop_default *from, const bite_shop *shop,
                               bite_arena *arena, bite_job_file *file, uint32_t *keys,
                               bite_error *error)
{
    const bite_section **at = place_of(file, from->section);
    const bite_field_value *stated = bite_shop_value(shop, from->key);
    if (stated == NULL || (from->whole_section && *at != NULL) ||
        (*at != NULL && bite_section_value(*at, from->name) != NULL)) {
        return BITE_OK;
    }
    bite_field_value value = *stated;
    value.field = bite_job_file_field(from->section, from->name);
    if (from->key == BITE_SHOP_AT_HAND) {
        value.text = tools_text(arena, shop);
    }
    const bite_section *section = value.field == NULL || value.text == NULL
                                      ? NULL
                                      : extended(arena, *at, from->section, &value);
    if (section == NULL) {
        return no_memory(error);
    }
    *at = section;
    *keys |= 1u << from->key;
    return BITE_OK;
}

bite_status bite_job_use_shop(const bite_library *library, const bite_shop *shop, bite_arena *arena,
                              bite_job_file *file, uint32_t *keys, bite_error *error)
{
    *keys = 0;
    if (shop == NULL) {
        return BITE_OK;
    }
    bite_status status = bite_shop_check(shop, library, error);
    for (size_t i = 0; i < sizeof defaults / sizeof *defaults && status == BITE_OK; i++) {
        status = use_default(&defaults[i], shop, arena, file, keys, error);
    }
    return status;
}
