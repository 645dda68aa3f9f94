/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening a library: the search path and the names of the families. Tables are read when they are
 * first needed. */
#include "core/library/library.h"
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/output_target.h"
#include "core/base/text.h"
#include "core/library/arena_list.h"
#include "core/library/case_fields.h"
#include "core/library/collection.h"
#include "core/library/library_internal.h"
#include "core/library/schema.h"
#include "core/library/table_bytes.h"
#include "core/tables/ini_load.h"
#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>

size_t bite_library_family_length(const char *file)
{
    size_t length = strlen(file);
    if (length <= 4 || strcmp(file + length - 4, ".ini") != 0 || length - 4 > 64) {
        return 0;
    }
    for (size_t i = 0; i < length - 4; i++) {
        char c = file[i];
        if (!((c >= 'a' && c <= 'z') || bite_text_is_digit(c) || c == '-')) {
            return 0;
        }
    }
    return length - 4;
}

static int is_listed(const bite_arena_list *found, const char *name, size_t length)
{
    bite_family_state *const *families = found->items;
    for (size_t i = 0; i < found->count; i++) {
        if (bite_text_equals_part(name, length, families[i]->name)) {
            return 1;
        }
    }
    return 0;
}

static int add_family(bite_library *library, const char *file)
{
    size_t length = bite_library_family_length(file);
    if (length == 0 || is_listed(library->found, file, length)) {
        return 1;
    }
    bite_family_state *family = bite_arena_alloc(library->arena, 1, sizeof *family);
    if (family == NULL) {
        return 0;
    }
    family->error.struct_size = (uint32_t)sizeof family->error;
    family->plugin_error.struct_size = (uint32_t)sizeof family->plugin_error;
    family->name = bite_arena_text(library->arena, file, length);
    return family->name != NULL &&
           bite_arena_list_add(library->arena, library->found, &family, sizeof family) != NULL;
}

/* Sorted, so that lists and first matches do not depend on the order of the file system. */
static void sort_families(bite_arena_list *found)
{
    bite_family_state **families = found->items;
    for (size_t i = 1; i < found->count; i++) {
        bite_family_state *at = families[i];
        size_t k = i;
        for (; k > 0 && strcmp(families[k - 1]->name, at->name) > 0; k--) {
            families[k] = families[k - 1];
        }
        families[k] = at;
    }
}

int bite_library_add_family(bite_library *library, const char *file)
{
    int good = add_family(library, file);
    sort_families(library->found);
    return good;
}

/* A folder that is not there holds no tables; one that is there and cannot be read may hold some.
 */
static int note_closed_folder(const bite_library *library, const char *path, int number)
{
    char reason[96] = "";
    bite_error error = BITE_ERROR_INIT;
    if (number == ENOENT || number == ENOTDIR) {
        return 1;
    }
    (void)bite_error_set(&error, BITE_BAD_FILE, "this folder of tables cannot be read: %s",
                         bite_error_reason(number, reason, sizeof reason));
    return number != ENOMEM && bite_library_add_left_out(library, "materials", path, &error);
}

/* The families of an open folder. readdir tells a fault from the end by errno alone. */
static int add_families(bite_library *library, const char *path, DIR *folder)
{
    int good = 1;
    struct dirent *entry = NULL;
    do {
        errno = 0;
        entry = readdir(folder);
        int number = errno;
        good = entry != NULL ? add_family(library, entry->d_name)
               : number != 0 ? note_closed_folder(library, path, number)
                             : 1;
    } while (good && entry != NULL);
    return good;
}

static int find_families(bite_library *library)
{
    int good = 1;
    for (size_t i = 0; good && i < library->tables.count; i++) {
        char *path = bite_path_join(library->arena, library->tables.folders[i], "materials");
        DIR *folder = path == NULL ? NULL : opendir(path);
        if (folder == NULL) {
            good = path != NULL && note_closed_folder(library, path, errno);
        } else {
            good = add_families(library, path, folder);
            (void)closedir(folder);
        }
    }
    sort_families(library->found);
    return good;
}

static bite_status fill_library(bite_library *library, const bite_library_options *options,
                                bite_error *error)
{
    bite_arena *arena = library->arena;
    library->lock = bite_memory_new(&library->allocator, 1, sizeof *library->lock);
    library->collections =
        bite_arena_alloc(arena, BITE_COLLECTION_FILES, sizeof *library->collections);
    library->found = bite_arena_alloc(arena, 1, sizeof *library->found);
    library->left_out = bite_arena_alloc(arena, 1, sizeof *library->left_out);
    library->open_tables = bite_arena_alloc(arena, 1, sizeof *library->open_tables);
    library->memory_tables = bite_arena_alloc(arena, 1, sizeof *library->memory_tables);
    library->grade_fields = bite_material_fields(arena, &library->grade_field_count);
    library->case_fields = bite_case_fields(arena, &library->case_field_count);
    if (library->lock == NULL || library->collections == NULL || library->found == NULL ||
        library->left_out == NULL || library->open_tables == NULL ||
        library->memory_tables == NULL || library->grade_fields == NULL ||
        library->case_fields == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a library");
    }
    if (pthread_mutex_init(library->lock, NULL) != 0) {
        bite_memory_free(&library->allocator, library->lock);
        library->lock = NULL;
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the lock of a library");
    }
    bite_status status = bite_search_path_tables(
        arena, options == NULL ? NULL : options->table_path, &library->tables, error);
    if (status == BITE_OK) {
        status = bite_search_path_families(arena, options == NULL ? NULL : options->family_path,
                                           &library->families, error);
    }
    if (status == BITE_OK && !find_families(library)) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the families");
    }
    return status;
}

static int is_complete(const bite_allocator *allocator)
{
    return allocator->allocate != NULL && allocator->resize != NULL && allocator->release != NULL;
}

bite_status bite_library_open(const bite_library_options *given, bite_library **out,
                              bite_error *error)
{
    bite_library_options own;
    const bite_library_options *options = given == NULL ? NULL : &own;
    bite_error_clear(error);
    bite_status read =
        bite_struct_read(&bite_struct_library_options, given, &own, "options", error);
    if (read != BITE_OK) {
        return read;
    }
    if (out == NULL || (own.allocator != NULL && !is_complete(own.allocator))) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a place for the library, and an allocator with all three functions "
                              "or none were expected");
    }
    bite_ini_set_callback();
    const bite_allocator *allocator = own.allocator == NULL ? bite_memory_default() : own.allocator;
    bite_library *library = bite_memory_new(allocator, 1, sizeof *library);
    if (library == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a library");
    }
    library->allocator = *allocator;
    library->arena = bite_arena_new(allocator);
    bite_status status = library->arena == NULL
                             ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a library")
                             : fill_library(library, options, error);
    if (status != BITE_OK) {
        bite_library_close(library);
        return status;
    }
    *out = library;
    return BITE_OK;
}

void bite_library_close(bite_library *library)
{
    if (library == NULL) {
        return;
    }
    bite_allocator allocator = library->allocator;
    if (library->open_tables != NULL) {
        bite_table **tables = library->open_tables->items;
        for (size_t i = 0; i < library->open_tables->count; i++) {
            bite_table_free(tables[i]);
        }
    }
    for (size_t i = 0; library->found != NULL && i < library->found->count; i++) {
        bite_table_bytes_free(library, ((bite_family_state **)library->found->items)[i]);
    }
    if (library->lock != NULL) {
        (void)pthread_mutex_destroy(library->lock);
        bite_memory_free(&allocator, library->lock);
    }
    bite_arena_free(library->arena);
    bite_memory_free(&allocator, library);
}

static bool is_same_file(const struct stat *sought, const char *folder, const char *name,
                         const char *ending)
{
    char path[PATH_MAX];
    struct stat about;
    int length = snprintf(path, sizeof path, "%s/%s%s", folder, name, ending);
    return length > 0 && (size_t)length < sizeof path && stat(path, &about) == 0 &&
           about.st_dev == sought->st_dev && about.st_ino == sought->st_ino;
}

static bool is_table(const bite_library *library, const struct stat *sought)
{
    bite_family_state *const *families = library->found->items;
    for (size_t i = 0; i < library->tables.count; i++) {
        const char *folder = library->tables.folders[i];
        char materials[PATH_MAX];
        int length = snprintf(materials, sizeof materials, "%s/materials", folder);
        for (int collection = 0; collection < BITE_COLLECTION_FILES; collection++) {
            if (is_same_file(sought, folder, bite_collection_file_at(collection)->file, "")) {
                return true;
            }
        }
        for (size_t k = 0;
             length > 0 && (size_t)length < sizeof materials && k < library->found->count; k++) {
            if (is_same_file(sought, materials, families[k]->name, ".ini")) {
                return true;
            }
        }
    }
    return false;
}

static bool is_plugin(const bite_library *library, const struct stat *sought)
{
    bite_family_state *const *families = library->found->items;
    for (size_t i = 0; i < library->families.count; i++) {
        for (size_t k = 0; k < library->found->count; k++) {
            if (is_same_file(sought, library->families.folders[i], families[k]->name, ".so")) {
                return true;
            }
        }
    }
    return false;
}

int bite_library_has_file(const bite_library *library, const char *path)
{
    bite_target target;
    if (library == NULL || path == NULL || bite_target_find(path, &target, NULL) != BITE_OK) {
        return 0;
    }
    bite_target_close(&target);
    return S_ISREG(target.about.st_mode) &&
           (is_table(library, &target.about) || is_plugin(library, &target.about));
}

const bite_allocator *bite_library_allocator(const bite_library *library)
{
    return &library->allocator;
}
