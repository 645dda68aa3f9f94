/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shop's own set-up: reading coolbite.ini, and its values. */
#include "core/request/shop.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/collection.h"
#include "core/library/search_path.h"
#include "core/names/registry.h"
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char *const units_words[] = {"metric", "inch", NULL};
static const char *const coolant_words[] = {"none", "air", "mist", "flood", NULL};

static const bite_field shop_fields[BITE_SHOP_KEYS] = {
    [BITE_SHOP_UNITS] = {"units", BITE_FIELD_WORD, 0, 0, 0, units_words},
    [BITE_SHOP_MACHINE] = {"machine", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    [BITE_SHOP_COOLANT] = {"coolant", BITE_FIELD_WORD, 0, 0, 0, coolant_words},
    [BITE_SHOP_AT_HAND] = {"at_hand", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    [BITE_SHOP_HOLD] = {"hold", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    [BITE_SHOP_TOLERANCE] = {"tolerance", BITE_FIELD_FIGURE, BITE_KIND_LENGTH, 1e-7, 0.01, NULL},
    [BITE_SHOP_CONFIDENCE] = {"confidence", BITE_FIELD_FIGURE, BITE_KIND_FRACTION, 0.5, 0.999001,
                              NULL},
    [BITE_SHOP_TOOL_LIST] = {"tool_list", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    [BITE_SHOP_INSTRUMENTS] = {"instruments", BITE_FIELD_TEXT, 0, 0, 0, NULL},
};
static const bite_section_schema sections[] = {{"shop", shop_fields, BITE_SHOP_KEYS, 0, 0}};
static const bite_table_schema schema = {"shop", 1, sections, 1, 0};

const char *bite_shop_key_name(bite_shop_key key)
{
    return shop_fields[key].name;
}

bite_shop_key bite_shop_key_find(const char *name)
{
    int key = 0;
    while (key < BITE_SHOP_KEYS && strcmp(shop_fields[key].name, name) != 0) {
        key++;
    }
    return (bite_shop_key)key;
}

const bite_field_value *bite_shop_value(const bite_shop *shop, bite_shop_key key)
{
    const bite_section *section =
        shop == NULL || shop->table == NULL ? NULL : bite_table_find(shop->table, "shop");
    return section == NULL ? NULL : bite_section_value(section, shop_fields[key].name);
}

bool bite_shop_list(const bite_shop *shop, uint32_t keys, char *to, size_t size)
{
    size_t used = 0;
    to[0] = 0;
    for (int key = 0; key < BITE_SHOP_KEYS; key++) {
        const bite_field_value *value = bite_shop_value(shop, (bite_shop_key)key);
        if ((keys & 1u << key) == 0 || value == NULL) {
            continue;
        }
        char name[24];
        (void)snprintf(name, sizeof name, "%s", shop_fields[key].name);
        for (char *c = name; *c != 0; c++) {
            *c = *c == '_' ? ' ' : *c;
        }
        int length = snprintf(to + used, size - used, "%s%s %s (line %u)", used > 0 ? ", " : "",
                              name, value->text, (unsigned)value->line);
        used += length > 0 && (size_t)length < size - used ? (size_t)length : 0;
        to[used] = 0;
    }
    return used > 0;
}

/* ---- reading ---- */

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for the shop's set-up");
}

static bite_status blame(const bite_shop *shop, bite_shop_key key, bite_error *error)
{
    const bite_field_value *value = bite_shop_value(shop, key);
    if (error != NULL) {
        error->status = BITE_BAD_FILE;
    }
    bite_error_place(error, shop->path, value->line, 0);
    bite_error_key(error, "shop:%s", shop_fields[key].name);
    return BITE_BAD_FILE;
}

/* A list of names, which are separated by blanks or commas. instead: what to do with more. */
static bite_status read_names(bite_shop *shop, bite_shop_key key, const char **names, size_t most,
                              const char *instead, size_t *count, bite_error *error)
{
    const bite_field_value *value = bite_shop_value(shop, key);
    const char *at = value == NULL ? "" : value->text;
    for (at += strspn(at, ", "); *at != 0; at += strspn(at, ", ")) {
        size_t length = strcspn(at, ", ");
        if (*count == most) {
            bite_error_set(error, BITE_BAD_FILE, "%s names more than %zu", shop_fields[key].name,
                           most);
            bite_error_hint(error, "%s", instead);
            return blame(shop, key, error);
        }
        const char *name = bite_arena_text(shop->arena, at, length);
        if (name == NULL) {
            return no_memory(error);
        }
        names[(*count)++] = name;
        at += length;
    }
    return BITE_OK;
}

static bite_status read_lists(bite_shop *shop, bite_error *error)
{
    bite_status status =
        read_names(shop, BITE_SHOP_AT_HAND, shop->tools, BITE_SHOP_TOOLS_MAX,
                   "put them into a tool list: tool_list = FILE", &shop->tool_count, error);
    return status == BITE_OK ? read_names(shop, BITE_SHOP_INSTRUMENTS, shop->instruments,
                                          BITE_SHOP_INSTRUMENTS_MAX, "name those that are used",
                                          &shop->instrument_count, error)
                             : status;
}

/* The path of the tool list, from the folder of the set-up unless it is absolute. */
static bite_status read_tool_list(bite_shop *shop, bite_error *error)
{
    const bite_field_value *value = bite_shop_value(shop, BITE_SHOP_TOOL_LIST);
    const char *slash = strrchr(shop->path, '/');
    if (value == NULL || value->text[0] == '/' || slash == NULL) {
        shop->tool_list = value == NULL ? NULL : value->text;
        return BITE_OK;
    }
    char *folder = bite_arena_text(shop->arena, shop->path, (size_t)(slash - shop->path));
    shop->tool_list = folder == NULL ? NULL : bite_path_join(shop->arena, folder, value->text);
    return shop->tool_list == NULL ? no_memory(error) : BITE_OK;
}

static bite_status read_file(bite_shop *shop, const char *path, bite_error *error)
{
    bool named = path != NULL; /* by the caller or by COOLBITE_CONFIG: it must be there */
    if (path == NULL) {
        bite_status status = bite_search_path_user_setup(shop->arena, &path, &named, error);
        if (status != BITE_OK) {
            return status;
        }
        if (path == NULL || (!named && access(path, F_OK) != 0 && errno == ENOENT)) {
            return BITE_OK;
        }
    }
    shop->path = bite_arena_text(shop->arena, path, strlen(path));
    shop->shown = bite_text_escaped(shop->arena, path);
    if (shop->path == NULL || shop->shown == NULL) {
        return no_memory(error);
    }
    bite_status status =
        bite_table_open(&shop->allocator, shop->path, &schema, NULL, NULL, &shop->table, error);
    status = status == BITE_OK ? read_lists(shop, error) : status;
    return status == BITE_OK ? read_tool_list(shop, error) : status;
}

bite_status bite_shop_open(const char *path, bite_shop **out, bite_error *error)
{
    bite_error_clear(error);
    if (out == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a place for the set-up was expected");
    }
    const bite_allocator *allocator = bite_memory_default();
    bite_shop *shop = bite_memory_new(allocator, 1, sizeof *shop);
    if (shop == NULL) {
        return no_memory(error);
    }
    shop->allocator = *allocator;
    shop->path = "";
    shop->shown = "";
    shop->arena = bite_arena_new(allocator);
    bite_status status = shop->arena == NULL ? no_memory(error) : read_file(shop, path, error);
    if (status != BITE_OK) {
        bite_shop_free(shop);
        return status;
    }
    *out = shop;
    return BITE_OK;
}

void bite_shop_free(bite_shop *shop)
{
    if (shop != NULL) {
        bite_allocator allocator = shop->allocator;
        bite_table_free(shop->table);
        bite_arena_free(shop->arena);
        bite_memory_free(&allocator, shop);
    }
}

/* ---- its values ---- */

const char *bite_shop_path(const bite_shop *shop)
{
    return shop == NULL ? "" : shop->path;
}

const char *bite_shop_text(const bite_shop *shop, const char *key)
{
    bite_shop_key found = key == NULL ? BITE_SHOP_KEYS : bite_shop_key_find(key);
    const bite_field_value *value = found == BITE_SHOP_KEYS ? NULL : bite_shop_value(shop, found);
    return value == NULL ? NULL : found == BITE_SHOP_TOOL_LIST ? shop->tool_list : value->text;
}

size_t bite_shop_line(const bite_shop *shop, const char *key)
{
    bite_shop_key found = key == NULL ? BITE_SHOP_KEYS : bite_shop_key_find(key);
    const bite_field_value *value = found == BITE_SHOP_KEYS ? NULL : bite_shop_value(shop, found);
    return value == NULL ? 0 : value->line;
}

double bite_shop_number(const bite_shop *shop, const char *key)
{
    bite_shop_key found = key == NULL ? BITE_SHOP_KEYS : bite_shop_key_find(key);
    const bite_field_value *value = found == BITE_SHOP_KEYS ? NULL : bite_shop_value(shop, found);
    return value == NULL || value->field->type != BITE_FIELD_FIGURE ? (double)NAN : value->value;
}

const char *bite_shop_tool(const bite_shop *shop, size_t index)
{
    return shop != NULL && index < shop->tool_count ? shop->tools[index] : NULL;
}

/* ---- its names ---- */

/* A fault of the tables remains their fault; a name that is not there is one of the set-up. */
static bite_status check_record(const bite_shop *shop, const bite_library *library,
                                bite_shop_key key, bite_collection collection, const char *name,
                                bite_error *error)
{
    const bite_item_record *record = NULL;
    bite_status status = bite_library_record(library, collection, name, &record, error);
    return status == BITE_UNKNOWN_NAME ? blame(shop, key, error) : status;
}

static bite_status check_tool(const bite_shop *shop, const bite_library *library, const char *name,
                              bite_error *error)
{
    const bite_input *range = bite_input_find("diameter");
    double diameter = 0.0;
    if (!bite_text_is_digit(name[0]) && name[0] != '.') {
        return check_record(shop, library, BITE_SHOP_AT_HAND, BITE_TOOLS, name, error);
    }
    if (bite_quantity_read(name, BITE_KIND_LENGTH, &diameter, error) != BITE_OK) {
        return blame(shop, BITE_SHOP_AT_HAND, error);
    }
    if (diameter < range->least || diameter > range->most) {
        bite_error_set(error, BITE_BAD_FILE, "no end mill has the diameter %.40s", name);
        bite_error_hint(error, "check the unit");
        return blame(shop, BITE_SHOP_AT_HAND, error);
    }
    return BITE_OK;
}

bite_status bite_shop_check(const bite_shop *shop, const bite_library *library, bite_error *error)
{
    static const struct {
        bite_shop_key key;
        bite_collection collection;
    } names[] = {{BITE_SHOP_MACHINE, BITE_MACHINES}, {BITE_SHOP_HOLD, BITE_HOLDS}};
    bite_error_clear(error);
    if (shop == NULL || library == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a set-up and an open library were expected");
    }
    bite_status status = BITE_OK;
    for (size_t i = 0; i < sizeof names / sizeof *names && status == BITE_OK; i++) {
        const bite_field_value *value = bite_shop_value(shop, names[i].key);
        status = value == NULL ? BITE_OK
                               : check_record(shop, library, names[i].key, names[i].collection,
                                              value->text, error);
    }
    for (size_t i = 0; i < shop->tool_count && status == BITE_OK; i++) {
        status = check_tool(shop, library, shop->tools[i], error);
    }
    for (size_t i = 0; i < shop->instrument_count && status == BITE_OK; i++) {
        status = check_record(shop, library, BITE_SHOP_INSTRUMENTS, BITE_INSTRUMENTS,
                              shop->instruments[i], error);
    }
    return status;
}
