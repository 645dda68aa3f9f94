/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Listing a collection: the number of records and their names. The lists of families, of grades and
 * of what was left out need every table. */
#include "core/library/listing.h"
#include "core/base/error.h"
#include "core/library/collection.h"
#include "core/library/family_tables.h"
#include "core/library/library_internal.h"
#include "core/library/plugin_load.h"
#include "core/library/schema.h"
#include <stdbool.h>
#include <string.h>

static const int collection_state_of[] = {
    [BITE_FAMILIES] = -1,
    [BITE_GRADES] = -1,
    [BITE_TOOLS] = COLLECTION_TOOLS,
    [BITE_HOLDERS] = COLLECTION_HOLDERS,
    [BITE_MACHINES] = COLLECTION_MACHINES,
    [BITE_COOLANTS] = COLLECTION_COOLANTS,
    [BITE_LEFT_OUT] = -1,
    [BITE_HOLDS] = COLLECTION_HOLDS,
    [BITE_SYMPTOMS] = COLLECTION_SYMPTOMS,
    [BITE_FLUIDS] = COLLECTION_FLUIDS,
    [BITE_SHEETS] = COLLECTION_SHEETS,
    [BITE_TIMES] = COLLECTION_TIMES,
    [BITE_LAYERS] = COLLECTION_LAYERS,
    [BITE_INSTRUMENTS] = COLLECTION_INSTRUMENTS,
    [BITE_DRILLS] = COLLECTION_DRILLS,
    [BITE_THREADS] = COLLECTION_THREADS,
    [BITE_INSERTS] = COLLECTION_INSERTS,
};

/* Reads the tables of all families, and loads their plugins if they are asked for. */
static bite_status read_families(const bite_library *library, bool plugins, bite_error *error)
{
    bite_status status = BITE_OK;
    bite_family_state **families = library->found->items;
    for (size_t i = 0; status == BITE_OK && i < library->found->count; i++) {
        status = bite_material_read(library, families[i], error);
        if (status == BITE_OK && plugins) {
            bite_status plugin = bite_plugin_load(library, families[i], NULL);
            status = plugin == BITE_NO_MEMORY
                         ? bite_error_set(error, plugin, "no memory to load the plugins")
                         : BITE_OK;
        }
    }
    return status;
}

/* Reads what the list of a collection needs. Call it under the lock. */
static bite_status read_collection(const bite_library *library, bite_collection collection,
                                   bite_error *error)
{
    if (collection_state_of[collection] >= 0) {
        return bite_collection_read(library, collection_state_of[collection], error);
    }
    bite_status status = read_families(library, collection == BITE_LEFT_OUT, error);
    for (int i = 0; status == BITE_OK && collection == BITE_LEFT_OUT && i < BITE_COLLECTION_FILES;
         i++) {
        status = bite_collection_read(library, i, error);
    }
    return status;
}

static size_t count_of(const bite_library *library, bite_collection collection)
{
    bite_family_state *const *families = library->found->items;
    size_t count = 0;
    switch (collection) {
    case BITE_FAMILIES:
        return library->found->count;
    case BITE_GRADES:
        for (size_t i = 0; i < library->found->count; i++) {
            count += families[i]->status == BITE_OK ? families[i]->grades.count : 0;
        }
        return count;
    case BITE_LEFT_OUT:
        return library->left_out->count;
    default:
        return library->collections[collection_state_of[collection]].records.count;
    }
}

static const char *text_of(const bite_section *section, const char *key, const char *fallback)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? fallback : field_value->text;
}

static bite_item grade_at(const bite_library *library, size_t index)
{
    bite_family_state *const *families = library->found->items;
    bite_item none = {"", "", "", ""};
    for (size_t i = 0; i < library->found->count; i++) {
        size_t count = families[i]->status == BITE_OK ? families[i]->grades.count : 0;
        if (index < count) {
            const bite_grade_state *grade =
                (const bite_grade_state *)families[i]->grades.items + index;
            bite_item item = {grade->name, text_of(grade->section, "title", grade->section->tail),
                              text_of(grade->section, "summary", ""), grade->file};
            return item;
        }
        index -= count;
    }
    return none;
}

static bite_item item_at(const bite_library *library, bite_collection collection, size_t index)
{
    if (collection == BITE_FAMILIES) {
        const bite_family_state *family =
            ((bite_family_state *const *)library->found->items)[index];
        bite_item item = {family->name, text_of(family->family, "title", family->name),
                          text_of(family->family, "summary", ""),
                          family->file == NULL ? "" : family->file};
        return item;
    }
    if (collection == BITE_GRADES) {
        return grade_at(library, index);
    }
    if (collection == BITE_LEFT_OUT) {
        return ((const bite_item *)library->left_out->items)[index];
    }
    const bite_item_record *record =
        (const bite_item_record *)library->collections[collection_state_of[collection]]
            .records.items +
        index;
    bite_item item = {record->name, record->title, record->summary, record->file};
    return item;
}

bite_status bite_library_size(const bite_library *library, bite_collection collection,
                              size_t *count, bite_error *error)
{
    (void)pthread_mutex_lock(library->lock);
    bite_status status = read_collection(library, collection, error);
    if (status == BITE_OK) {
        *count = count_of(library, collection);
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

size_t bite_library_count(const bite_library *library, bite_collection collection)
{
    size_t count = 0;
    if (library != NULL && (unsigned)collection <= BITE_INSERTS) {
        (void)bite_library_size(library, collection, &count, NULL);
    }
    return count;
}

bite_status bite_library_item(const bite_library *library, bite_collection collection, size_t index,
                              bite_item *item, bite_error *error)
{
    bite_error_clear(error);
    if (library == NULL || item == NULL || (unsigned)collection > BITE_INSERTS) {
        return bite_error_set(
            error, BITE_BAD_ARGUMENT,
            "an open library, a collection, and a place for the item were expected");
    }
    (void)pthread_mutex_lock(library->lock);
    bite_status status = read_collection(library, collection, error);
    if (status == BITE_OK && index >= count_of(library, collection)) {
        status = bite_error_set(error, BITE_BAD_ARGUMENT,
                                "the index is not less than the count of the collection");
    }
    if (status == BITE_OK) {
        *item = item_at(library, collection, index);
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

/* Whether something that was left out belongs to a collection. A table of a collection is listed
 * under the name of its file, one of a family or a plugin under that of the family, which has no
 * point. */
static bool belongs(const bite_item *left, bite_collection collection)
{
    int state = collection_state_of[collection];
    if (collection == BITE_LEFT_OUT) {
        return true;
    }
    return state < 0 ? strchr(left->name, '.') == NULL
                     : strcmp(left->name, bite_collection_file_at(state)->file) == 0;
}

bite_status bite_library_left_out(const bite_library *library, bite_collection collection,
                                  size_t *count, bite_error *error)
{
    bite_error_clear(error);
    if (library == NULL || count == NULL || (unsigned)collection > BITE_INSERTS) {
        return bite_error_set(
            error, BITE_BAD_ARGUMENT,
            "an open library, a collection of it, and a place for the count were expected");
    }
    (void)pthread_mutex_lock(library->lock);
    bite_status status = collection == BITE_GRADES || collection == BITE_FAMILIES
                             ? read_families(library, true, error)
                             : read_collection(library, collection, error);
    if (status == BITE_OK) {
        const bite_item *left = library->left_out->items;
        *count = 0;
        for (size_t i = 0; i < library->left_out->count; i++) {
            *count += belongs(&left[i], collection);
        }
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

bool bite_library_left_out_until_now(const bite_library *library, size_t index, bite_item *item)
{
    (void)pthread_mutex_lock(library->lock);
    bool there = index < library->left_out->count;
    if (there) {
        *item = ((const bite_item *)library->left_out->items)[index];
    }
    (void)pthread_mutex_unlock(library->lock);
    return there;
}
