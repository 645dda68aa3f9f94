/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * INI files: our check of the bytes (ini_gate.h), iniparser's reading of them, and our index of
 * lines and columns over its values.
 */
#include "core/tables/ini.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/base/text.h"
#include "core/tables/ini_load.h"
#include <string.h>

struct bite_ini {
    bite_arena *arena;
    const char *path;
    bite_ini_index index;
    dictionary *read; /* iniparser's; NULL: there was no value to read */
};

/* section:key, as iniparser names it. */
static void name_entry(const bite_ini_entry *entry, char name[2 * BITE_INI_NAME_MAX + 2])
{
    size_t section = strlen(entry->section);
    memcpy(name, entry->section, section);
    name[section] = ':';
    memcpy(name + section + 1, entry->key, strlen(entry->key) + 1);
}

/* Whether iniparser's name of a slot of its dictionary is that of an entry. */
static bool is_named(const char *slot, const bite_ini_entry *entry)
{
    size_t section = strlen(entry->section);
    if (slot == NULL || strncmp(slot, entry->section, section) != 0) {
        return false;
    }
    return entry->key == NULL ? slot[section] == 0
                              : slot[section] == ':' && strcmp(slot + section + 1, entry->key) == 0;
}

/* iniparser's value of an entry. Its dictionary is filled in the order of the file, so the entry is
 * usually in the next slot; its own search compares the hash of every slot. NULL: it has none. */
static const char *value_read(const dictionary *read, size_t *slot, const bite_ini_entry *entry)
{
    char name[2 * BITE_INI_NAME_MAX + 2];
    if (*slot < (size_t)read->n && is_named(read->key[*slot], entry)) {
        return read->val[(*slot)++];
    }
    name_entry(entry, name);
    return iniparser_getstring(read, name, NULL);
}

/* Takes each value from iniparser. One that is not what its line says would be a trap that the
 * check does not know: it is not used. */
static bite_status take_values(bite_ini *ini, bite_error *error)
{
    size_t slot = 0;
    for (size_t i = 0; i < ini->index.count; i++) {
        bite_ini_entry *entry = &ini->index.entries[i];
        const bite_ini_span *span = &ini->index.spans[i];
        if (span->text == NULL) {
            slot += entry->key == NULL && slot < (size_t)ini->read->n &&
                    is_named(ini->read->key[slot], entry);
            continue;
        }
        entry->value = value_read(ini->read, &slot, entry);
        if (entry->value == NULL || strlen(entry->value) != span->length ||
            memcmp(entry->value, span->text, span->length) != 0) {
            bite_error_set(error, BITE_FAULT,
                           "iniparser reads this value otherwise than it is written");
            bite_error_place(error, ini->path, entry->line, entry->column);
            bite_error_key(error, "%s:%s", entry->section, entry->key);
            return BITE_FAULT;
        }
    }
    return BITE_OK;
}

static bite_status read_values(bite_ini *ini, bite_error *error)
{
    if (ini->index.keys == 0) {
        return BITE_OK;
    }
    bite_status status = bite_ini_load(&ini->index, &ini->read, error);
    if (status != BITE_OK) {
        bite_error_place(error, ini->path, 0, 0);
        return status;
    }
    return take_values(ini, error);
}

static bite_ini *new_ini(const bite_allocator *allocator, const char *path)
{
    bite_arena *arena = bite_arena_new(allocator);
    bite_ini *ini = arena == NULL ? NULL : bite_arena_alloc(arena, 1, sizeof *ini);
    char *kept = ini == NULL ? NULL : bite_text_escaped(arena, path);
    if (kept == NULL) {
        bite_arena_free(arena);
        return NULL;
    }
    ini->arena = arena;
    ini->path = kept;
    return ini;
}

bite_status bite_ini_parse(const bite_allocator *allocator, const char *text, size_t size,
                           const char *path, bite_ini_fault fault, void *user, bite_ini **out,
                           bite_error *error)
{
    bite_error unread = BITE_ERROR_INIT;
    bite_arena *scratch = bite_arena_new(allocator);
    bite_ini *ini = scratch == NULL ? NULL : new_ini(allocator, path);
    if (ini == NULL) {
        bite_arena_free(scratch);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to read a table");
    }
    bite_status status =
        bite_ini_check(ini->arena, scratch, text, size, ini->path, fault, user, &ini->index, error);
    if (status == BITE_OK || status == BITE_BAD_FILE) {
        bite_status values = read_values(ini, &unread);
        if (values != BITE_OK) {
            status = values;
            bite_error_copy(error, &unread, 0);
        }
    }
    bite_arena_free(scratch);
    ini->index.spans = NULL;
    ini->index.passed = NULL;
    if (status != BITE_OK && status != BITE_BAD_FILE) {
        bite_ini_free(ini);
        return status;
    }
    *out = ini;
    return status;
}

bool bite_ini_has_unread_sections(const bite_ini *ini)
{
    return ini->index.lost;
}

bite_status bite_ini_open(const bite_allocator *allocator, const char *path, bite_ini_fault fault,
                          void *user, bite_ini **ini, bite_error *error)
{
    char *text = NULL;
    size_t size = 0;
    bite_status status = bite_file_read(allocator, path, BITE_INI_SIZE_MAX, &text, &size, error);
    if (status == BITE_OK) {
        status = bite_ini_parse(allocator, text, size, path, fault, user, ini, error);
        bite_memory_free(allocator, text);
    } else if (fault != NULL && error != NULL && status != BITE_NO_MEMORY) {
        fault(user, error);
    }
    return status;
}

void bite_ini_free(bite_ini *ini)
{
    if (ini != NULL) {
        bite_ini_unload(ini->read);
        bite_arena_free(ini->arena);
    }
}

const char *bite_ini_path(const bite_ini *ini)
{
    return ini->path;
}

size_t bite_ini_count(const bite_ini *ini)
{
    return ini->index.count;
}

const bite_ini_entry *bite_ini_at(const bite_ini *ini, size_t index)
{
    return index < ini->index.count ? &ini->index.entries[index] : NULL;
}

size_t bite_ini_section_end(const bite_ini *ini, size_t head)
{
    size_t end = head + 1;
    while (end < ini->index.count && (ini->index.reopened || ini->index.entries[end].key != NULL)) {
        end++;
    }
    return end;
}

const bite_ini_entry *bite_ini_find_in_section(const bite_ini *ini, size_t head, const char *key)
{
    return bite_ini_index_find_in_section(&ini->index, head, key);
}

const bite_ini_entry *bite_ini_find(const bite_ini *ini, const char *section, const char *key)
{
    return bite_ini_index_find(&ini->index, section, key);
}
