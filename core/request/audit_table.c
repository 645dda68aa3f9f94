/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Auditing a table: it is added from memory to a library of its own, as the first of the search
 * path, so that it is judged wherever it lies, with all that it rests on. */
#include "core/request/audit_table.h"
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/base/memory.h"
#include "core/base/nearest_name.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include "core/library/library_internal.h"
#include "core/library/schema.h"
#include "core/library/table_audit.h"
#include "core/request/audit_cuts.h"
#include "core/tables/ini.h"
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#define MATERIAL "material"

/* Files of the project that are no tables. */
static const char *const others[] = {"job", "record", "shop"};

/** A table that was read. */
typedef struct audited {
    char *text; /* owned */
    size_t size;
    bite_ini *ini; /* owned; NULL: nothing could be read */
    const char *kind;
    char name[BITE_INI_NAME_MAX + 16]; /* in the library */
} audited;

/* The kinds of tables: those of the collections, then that of materials. */
static const char *kind_at(size_t at, const void *unused)
{
    (void)unused;
    return at < BITE_COLLECTION_FILES ? bite_collection_file_at((int)at)->schema.kind : MATERIAL;
}

static bool is_other(const char *kind)
{
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        if (strcmp(others[i], kind) == 0) {
            return true;
        }
    }
    return false;
}

/* Whether the file has a section that begins with a prefix. */
static bool has_section(const bite_ini *ini, const char *prefix)
{
    for (size_t i = 0; i < bite_ini_count(ini); i++) {
        const bite_ini_entry *entry = bite_ini_at(ini, i);
        if (entry->key == NULL && strncmp(entry->section, prefix, strlen(prefix)) == 0) {
            return true;
        }
    }
    return false;
}

/* The file of a collection of this kind: the one of the same name, else the first with sections of
 * which this has some, else the first. NULL: no collection has this kind. */
static const bite_collection_file *file_of(const bite_audit_run *run, const audited *table)
{
    const bite_collection_file *found = NULL;
    bool fits = false;
    for (int i = 0; i < BITE_COLLECTION_FILES; i++) {
        const bite_collection_file *file = bite_collection_file_at(i);
        if (strcmp(file->schema.kind, table->kind) != 0) {
            continue;
        }
        if (strcmp(file->file, run->base) == 0) {
            return file;
        }
        bool now = has_section(table->ini, file->prefix);
        if (found == NULL || (now && !fits)) {
            found = file;
            fits = now;
        }
    }
    return found;
}

/* The name of a material's table. */
static void name_material(bite_audit_run *run, audited *table)
{
    size_t length = bite_library_family_length(run->base);
    (void)snprintf(table->name, sizeof table->name, "materials/%.*s.ini",
                   length == 0 ? 7 : (int)length, length == 0 ? "audited" : run->base);
    run->name = table->name;
    if (length == 0) {
        bite_audit_tell_text(run, 0, "",
                             "the table of a family has the name FAMILY.ini, of letters a to z, "
                             "digits and hyphens, at most 64: no library finds this one",
                             "rename the file");
    }
}

static void tell_unknown_kind(bite_audit_run *run, const audited *table)
{
    const bite_ini_entry *at = bite_ini_find(table->ini, "format", "kind");
    const bite_ini_entry *head = bite_ini_find(table->ini, "format", NULL);
    uint32_t line = at != NULL ? at->line : head != NULL ? head->line : 1;
    const char *near = at == NULL || at->value == NULL
                           ? NULL
                           : bite_text_nearest(at->value, BITE_COLLECTION_FILES + 1, kind_at, NULL);
    char message[160];
    char hint[96] = "a table begins with [format], kind = material, tools ... and version = 1";
    if (near != NULL) {
        (void)snprintf(hint, sizeof hint, "did you mean %s?", near);
    }
    (void)snprintf(message, sizeof message, "%s%.60s",
                   at == NULL || at->value == NULL
                       ? "the file does not say which kind of table it is"
                       : "there is no kind of table named ",
                   at == NULL || at->value == NULL ? "" : at->value);
    run->name = "";
    bite_audit_tell_text(run, line, "format:kind", message, hint);
}

/* Finds what the file is, and its name in the library. False: it is not to be judged further. */
static bool identify(bite_audit_run *run, audited *table)
{
    const bite_ini_entry *kind =
        table->ini == NULL ? NULL : bite_ini_find(table->ini, "format", "kind");
    table->kind = kind == NULL || kind->value == NULL ? "" : kind->value;
    if (is_other(table->kind)) {
        return false;
    }
    run->audit->kind = BITE_AUDIT_TABLE;
    const bite_collection_file *file = table->ini == NULL ? NULL : file_of(run, table);
    if (strcmp(table->kind, MATERIAL) == 0) {
        name_material(run, table);
    } else if (file != NULL) {
        (void)snprintf(table->name, sizeof table->name, "%s", file->file);
        run->name = table->name;
    } else if (table->ini != NULL) {
        tell_unknown_kind(run, table);
    }
    return run->name != NULL && run->name[0] != 0;
}

static bite_status read_file(bite_audit_run *run, audited *table, bite_error *error)
{
    bite_error wrong = BITE_ERROR_INIT;
    bite_status status = bite_file_read(run->allocator, run->path, BITE_INI_SIZE_MAX, &table->text,
                                        &table->size, error);
    if (status != BITE_OK) {
        return status;
    }
    /* Its faults are told when it is added, unless it is of no known kind. */
    status = bite_ini_parse(run->allocator, table->text, table->size, run->path, NULL, NULL,
                            &table->ini, &wrong);
    if (status == BITE_NO_MEMORY || status == BITE_IO) {
        bite_error_copy(error, &wrong, 0);
        return status;
    }
    return BITE_OK;
}

/* The faults of the bytes of a file of which nothing else is known. */
static bite_status tell_bytes(bite_audit_run *run, const audited *table, bite_error *error)
{
    bite_ini *ini = NULL;
    bite_status status = bite_ini_parse(run->allocator, table->text, table->size, run->path,
                                        bite_audit_tell, run, &ini, error);
    bite_ini_free(ini);
    return status == BITE_BAD_FILE ? BITE_OK : status;
}

/* What the name of the family says must be what its file says. */
static void check_family_name(bite_audit_run *run, const audited *table, const char *family)
{
    const bite_ini_entry *name = bite_ini_find(table->ini, "family", "name");
    if (name != NULL && name->value != NULL && strcmp(name->value, family) != 0) {
        bite_audit_tell_text(run, name->line, "family:name",
                             "the name of the family is not that of its file",
                             "the name of the file counts: make both the same");
    }
}

static bite_status judge_family(bite_audit_run *run, const audited *table,
                                const bite_library *library, bite_error *error)
{
    char family[BITE_INI_NAME_MAX];
    size_t cases = 0;
    uint32_t found = 0;
    const char *file = run->name + strlen("materials/");
    (void)snprintf(family, sizeof family, "%.*s", (int)bite_library_family_length(file), file);
    check_family_name(run, table, family);
    bite_status status =
        bite_library_audit_family(library, family, bite_audit_tell, run, &found, error);
    if (status != BITE_OK || found > 0) {
        return status;
    }
    bite_error wrong = BITE_ERROR_INIT;
    bite_audit_begin(run, "running the self-tests of", family);
    uint32_t before = run->faults;
    status = bite_library_check_family(library, family, bite_audit_tell, run, &cases, &wrong);
    run->audit->cases += (uint32_t)cases;
    if (status == BITE_NO_MEMORY) {
        bite_error_copy(error, &wrong, 0);
        return status;
    }
    if (status != BITE_OK && run->faults == before) {
        bite_audit_tell(run, &wrong);
        return BITE_OK;
    }
    return bite_audit_try_grades(run, library, family, 0, error);
}

/* Whether a parent is of the table's own family, which a library without it need not know. */
static bool is_own_parent(const audited *table, const char *value)
{
    const char *family = table->name + strlen("materials/");
    size_t length = bite_library_family_length(family);
    return strncmp(value, family, length) == 0 && value[length] == '/';
}

/* What grades of a table with other faults are like, in other families: it is not merged, but this
 * can be told at once. */
static bite_status check_parents(bite_audit_run *run, const audited *table,
                                 const bite_library *library, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < bite_ini_count(table->ini) && status == BITE_OK; i++) {
        const bite_ini_entry *entry = bite_ini_at(table->ini, i);
        bite_request *request = NULL;
        bite_error wrong = BITE_ERROR_INIT;
        if (entry->key == NULL || entry->value == NULL || strcmp(entry->key, "like") != 0 ||
            strncmp(entry->section, "grade.", strlen("grade.")) != 0 ||
            strchr(entry->value, '/') == NULL || is_own_parent(table, entry->value)) {
            continue;
        }
        status = bite_request_new(library, &request, error);
        if (status == BITE_OK &&
            bite_request_use(request, BITE_GRADES, entry->value, &wrong) == BITE_UNKNOWN_NAME) {
            bite_error_place(&wrong, run->path, entry->line, entry->column);
            bite_error_key(&wrong, "%s:like", entry->section);
            wrong.status = BITE_BAD_FILE;
            bite_audit_tell(run, &wrong);
        }
        bite_request_free(request);
    }
    return status;
}

static bite_status judge(bite_audit_run *run, const audited *table, bite_error *error)
{
    bite_library *library = NULL;
    bite_status status = bite_library_open(run->options->library, &library, error);
    if (status != BITE_OK) {
        return status;
    }
    bool is_material = strncmp(run->name, "materials/", strlen("materials/")) == 0;
    bite_audit_begin(run, "reading", run->base);
    bite_error wrong = BITE_ERROR_INIT;
    uint32_t before = run->faults;
    status = bite_library_add_table(library, run->name, table->text, table->size, bite_audit_tell,
                                    run, &wrong);
    if (status == BITE_OK) {
        status = is_material ? judge_family(run, table, library, error)
                             : bite_audit_try_records(run, library, error);
    } else if (status == BITE_BAD_FILE) {
        if (run->faults == before) {
            bite_audit_tell(run, &wrong);
        }
        status = is_material ? check_parents(run, table, library, error) : BITE_OK;
    } else {
        bite_error_copy(error, &wrong, 0);
    }
    bite_library_close(library);
    return status;
}

bite_status bite_audit_table(bite_audit_run *run, bite_error *error)
{
    audited table = {0};
    bite_status status = read_file(run, &table, error);
    if (status == BITE_OK) {
        status = identify(run, &table)                  ? judge(run, &table, error)
                 : run->audit->kind == BITE_AUDIT_TABLE ? tell_bytes(run, &table, error)
                                                        : BITE_OK;
    }
    bite_ini_free(table.ini);
    bite_memory_free(run->allocator, table.text);
    return status;
}
