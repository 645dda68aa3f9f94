/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tools, holders, machines, coolants: one file each, first on the path wins section by section. */
#include "core/library/collection.h"
#include "core/base/error.h"
#include "core/base/nearest.h"
#include "core/base/text.h"
#include "core/library/arena_list.h"
#include "core/library/library_internal.h"
#include "core/names/registry.h"
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define LONG 1.0
#define UM 1e-6
#define RPM (1.0 / 60.0)

static const char *const tool_material_words[] = {"carbide", "hss", "diamond", NULL};

#define TEXTS                                                                                      \
    {"title", BITE_FIELD_TEXT, 0, 0, 0, NULL}, {"summary", BITE_FIELD_TEXT, 0, 0, 0, NULL},        \
        {"also", BITE_FIELD_TEXT, 0, 0, 0, NULL},                                                  \
    {                                                                                              \
        "like", BITE_FIELD_TEXT, 0, 0, 0, NULL                                                     \
    }
#define FIGURE(name, kind, least, most)                                                            \
    {                                                                                              \
        name, BITE_FIELD_FIGURE, kind, least, most, NULL                                           \
    }

static const bite_field tool_fields[] = {
    TEXTS,
    {"tool_material", BITE_FIELD_WORD, 0, 0, 0, tool_material_words},
    FIGURE("diameter", BITE_KIND_LENGTH, 50 * UM, 0.05),
    FIGURE("flutes", BITE_KIND_NUMBER, 1, 16),
    FIGURE("corner_radius", BITE_KIND_LENGTH, 0, 0.025),
    FIGURE("helix", BITE_KIND_ANGLE, -1.23, 1.23),
    FIGURE("rake", BITE_KIND_ANGLE, -0.53, 0.7),
    FIGURE("edge_radius", BITE_KIND_LENGTH, 0.05 * UM, 200 * UM),
    FIGURE("runout", BITE_KIND_LENGTH, 0, 1e-3),
    FIGURE("flute_length", BITE_KIND_LENGTH, 50 * UM, 0.2),
    FIGURE("neck_diameter", BITE_KIND_LENGTH, 20 * UM, 0.05),
    FIGURE("neck_length", BITE_KIND_LENGTH, 0, 0.2),
    FIGURE("shank_diameter", BITE_KIND_LENGTH, 50 * UM, 0.06),
    FIGURE("stickout", BITE_KIND_LENGTH, 200 * UM, 0.3),
    FIGURE("tool_turn_limit", BITE_KIND_ROTATION, RPM, 500000 * RPM),
    FIGURE("taper", BITE_KIND_ANGLE, 0.017, 1.4),
    FIGURE("tip_diameter", BITE_KIND_LENGTH, 1 * UM, 0.05),
};

static const bite_field tool_material_fields[] = {
    TEXTS,
    FIGURE("tool_modulus", BITE_KIND_STRESS, 10e9, 1200e9),
    FIGURE("tool_poisson", BITE_KIND_NUMBER, 0, 0.49),
    FIGURE("tool_strength", BITE_KIND_STRESS, 10e6, 10e9),
    FIGURE("tool_conductivity", BITE_KIND_CONDUCTIVITY, 0.5, 2500),
    FIGURE("tool_density", BITE_KIND_DENSITY, 1000, 25000),
    FIGURE("tool_heat_capacity", BITE_KIND_HEAT_CAPACITY, 50, 3000),
    FIGURE("stiff_share", BITE_KIND_NUMBER, 0.3, 1),
    FIGURE("core_share", BITE_KIND_NUMBER, 0.2, 1),
};

static const bite_field holder_fields[] = {
    TEXTS,
    FIGURE("runout", BITE_KIND_LENGTH, 0, 1e-3),
};

static const bite_field machine_fields[] = {
    TEXTS,
    FIGURE("spindle_slowest", BITE_KIND_ROTATION, 0, 500000 * RPM),
    FIGURE("spindle_fastest", BITE_KIND_ROTATION, RPM, 500000 * RPM),
    FIGURE("feed_fastest", BITE_KIND_SPEED, 1e-3 / 60.0, 200.0 / 60.0),
    FIGURE("acceleration", BITE_KIND_ACCELERATION, 0.001, 200),
    FIGURE("power_limit", BITE_KIND_POWER, 0.1, 200e3),
    FIGURE("torque_limit", BITE_KIND_TORQUE, 1e-4, 5000),
    FIGURE("torque_speed", BITE_KIND_ROTATION, RPM, 500000 * RPM),
    FIGURE("torque_exponent", BITE_KIND_NUMBER, 0, 5),
    FIGURE("machine_stiffness", BITE_KIND_STIFFNESS, 1e3, 1e10),
    FIGURE("runout", BITE_KIND_LENGTH, 0, 1e-3),
};

static const bite_field coolant_fields[] = {
    TEXTS,
    FIGURE("cooling", BITE_KIND_HEAT_TRANSFER, 0, 1e5),
};

#define TEXT(name)                                                                                 \
    {                                                                                              \
        name, BITE_FIELD_TEXT, 0, 0, 0, NULL                                                       \
    }
#define WORD(name, words)                                                                          \
    {                                                                                              \
        name, BITE_FIELD_WORD, 0, 0, 0, words                                                      \
    }

static const char *const no_yes_words[] = {"no", "yes", NULL};
static const char *const hold_sort_words[] = {"bond", "vacuum", "clamp", NULL};
static const char *const hold_clamp_words[] = {"jaws", "screws", "tabs", NULL};
static const bite_field hold_fields[] = {
    TEXTS,
    WORD("sort", hold_sort_words),
    WORD("clamp", hold_clamp_words),
    TEXT("layers"),
    TEXT("solvent"),
    TEXT("put_on"),
    TEXT("release"),
    WORD("glued", no_yes_words),
    FIGURE("put_on_time", BITE_KIND_TIME, 0, 1e6),
    FIGURE("release_time", BITE_KIND_TIME, 0, 1e6),
    FIGURE("safety", BITE_KIND_NUMBER, 1, 20),
    FIGURE("friction", BITE_KIND_NUMBER, 0.01, 2),
    FIGURE("clamp_force", BITE_KIND_FORCE, 1, 1e6),
    FIGURE("jaw_depth", BITE_KIND_LENGTH, 100 * UM, 1),
    FIGURE("screws", BITE_KIND_NUMBER, 1, 1000),
    FIGURE("screw", BITE_KIND_LENGTH, 500 * UM, 0.1),
    FIGURE("torque", BITE_KIND_TORQUE, 1e-4, 5000),
    FIGURE("engaged", BITE_KIND_LENGTH, 100 * UM, 1),
    FIGURE("plate_shear", BITE_KIND_STRESS, 1e4, 1e10),
    FIGURE("screw_shear", BITE_KIND_STRESS, 1e4, 1e10),
    FIGURE("tabs", BITE_KIND_NUMBER, 1, 1000),
    FIGURE("tab_width", BITE_KIND_LENGTH, 10 * UM, 1),
    FIGURE("tab_share", BITE_KIND_FRACTION, 0.01, 1),
    FIGURE("bond_shear", BITE_KIND_STRESS, 10, 1e9),
    FIGURE("bond_pull", BITE_KIND_STRESS, 10, 1e9),
    FIGURE("bond_limit", BITE_KIND_TEMPERATURE, 250, 1000),
};

static const bite_field layer_fields[] = {
    TEXTS,
    FIGURE("bond_shear", BITE_KIND_STRESS, 10, 1e9),
    FIGURE("bond_pull", BITE_KIND_STRESS, 10, 1e9),
    FIGURE("bond_limit", BITE_KIND_TEMPERATURE, 250, 1000),
    FIGURE("peel", BITE_KIND_EDGE_FORCE, 0, 1e6),
    FIGURE("thickness", BITE_KIND_LENGTH, 0, 0.05),
};

static const bite_field sheet_fields[] = {
    TEXTS,
    TEXT("standard"),
    FIGURE("fixed", BITE_KIND_LENGTH, 0, 0.01),
    FIGURE("share", BITE_KIND_FRACTION, 0, 0.9),
    FIGURE("thin_share", BITE_KIND_FRACTION, 0, 0.9),
    FIGURE("thin_under", BITE_KIND_LENGTH, 0, 1),
    TEXT("nominals"),
    TEXT("score"),
    TEXT("saw"),
    TEXT("laser"),
};

static const char *const rating_words[] = {"safe", "risk", "no", NULL};
static const bite_field fluid_fields[] = {TEXTS, TEXT("use")};
static const bite_field rating_fields[] = {
    TEXT("source"),
    WORD("verdict", rating_words),
    WORD("annealed", rating_words),
    WORD("other", rating_words),
    TEXT("other_source"),
    TEXT("says"),
    FIGURE("watch", BITE_KIND_TIME, 0, 1e8),
};

static const bite_field symptom_fields[] = {
    TEXTS,
    {"limits", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"lacking", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"beyond", BITE_FIELD_TEXT, 0, 0, 0, NULL},
};

static const bite_field time_fields[] = {TEXTS, FIGURE("planned", BITE_KIND_TIME, 0, 1e9),
                                         FIGURE("took", BITE_KIND_TIME, 0, 1e9)};

static const char *const shape_words[] = {"exact", "level", "normal", "lognormal", NULL};
static const bite_field spread_fields[] = {
    {"shape", BITE_FIELD_WORD, 0, 0, 0, shape_words}, FIGURE("low", BITE_KIND_NUMBER, 0.001, 1),
    FIGURE("high", BITE_KIND_NUMBER, 1, 1000),        FIGURE("group", BITE_KIND_NUMBER, 1, 7),
    FIGURE("together", BITE_KIND_NUMBER, 0, 1),
};

#define COUNT(list) (sizeof list / sizeof *list)
static const bite_section_schema tool_sections[] = {
    {"tool.", tool_fields, COUNT(tool_fields), 1, 1},
    {"tool_material.", tool_material_fields, COUNT(tool_material_fields), 1, 1},
};
static const bite_section_schema holder_sections[] = {
    {"holder.", holder_fields, COUNT(holder_fields), 1, 1}};
static const bite_section_schema machine_sections[] = {
    {"machine.", machine_fields, COUNT(machine_fields), 1, 1}};
static const bite_section_schema coolant_sections[] = {
    {"coolant.", coolant_fields, COUNT(coolant_fields), 1, 1}};
static const bite_section_schema hold_sections[] = {
    {"hold.", hold_fields, COUNT(hold_fields), 1, 1},
    {"layer.", layer_fields, COUNT(layer_fields), 1, 1}};
static const bite_section_schema sheet_sections[] = {
    {"sheet.", sheet_fields, COUNT(sheet_fields), 1, 1}};
static const bite_section_schema fluid_sections[] = {
    {"fluid.", fluid_fields, COUNT(fluid_fields), 1, 1},
    {"rating.", rating_fields, COUNT(rating_fields), 1, 1}};
static const bite_section_schema symptom_sections[] = {
    {"symptom.", symptom_fields, COUNT(symptom_fields), 1, 1}};
static const bite_section_schema time_sections[] = {
    {"time.", time_fields, COUNT(time_fields), 1, 1}};
static const bite_section_schema model_sections[] = {
    {"spread.", spread_fields, COUNT(spread_fields), 1, 1}};

/* Tools and what they are made of share a file. */
static const struct {
    const char *file;
    const char *prefix; /* of the sections that go on this shelf */
    bite_table_schema form;
} files[BITE_COLLECTION_FILES] = {
    [COLLECTION_TOOLS] = {"tools.ini",
                          "tool.",
                          {"tools", 1, tool_sections, COUNT(tool_sections), 0}},
    [COLLECTION_TOOL_MATERIALS] = {"tools.ini",
                                   "tool_material.",
                                   {"tools", 1, tool_sections, COUNT(tool_sections), 0}},
    [COLLECTION_HOLDERS] = {"holders.ini",
                            "holder.",
                            {"holders", 1, holder_sections, COUNT(holder_sections), 0}},
    [COLLECTION_MACHINES] = {"machines.ini",
                             "machine.",
                             {"machines", 1, machine_sections, COUNT(machine_sections), 0}},
    [COLLECTION_COOLANTS] = {"coolants.ini",
                             "coolant.",
                             {"coolants", 1, coolant_sections, COUNT(coolant_sections), 0}},
    [COLLECTION_HOLDS] = {"workholding.ini",
                          "hold.",
                          {"holds", 1, hold_sections, COUNT(hold_sections), 0}},
    [COLLECTION_LAYERS] = {"workholding.ini",
                           "layer.",
                           {"holds", 1, hold_sections, COUNT(hold_sections), 0}},
    [COLLECTION_SHEETS] = {"sheet_stock.ini",
                           "sheet.",
                           {"sheets", 1, sheet_sections, COUNT(sheet_sections), 0}},
    [COLLECTION_FLUIDS] = {"fluids.ini",
                           "fluid.",
                           {"fluids", 1, fluid_sections, COUNT(fluid_sections), 0}},
    [COLLECTION_RATINGS] = {"fluids.ini",
                            "rating.",
                            {"fluids", 1, fluid_sections, COUNT(fluid_sections), 0}},
    [COLLECTION_TIMES] = {"times.ini",
                          "time.",
                          {"times", 1, time_sections, COUNT(time_sections), 0}},
    [COLLECTION_SYMPTOMS] = {"symptoms.ini",
                             "symptom.",
                             {"symptoms", 1, symptom_sections, COUNT(symptom_sections), 0}},
    [COLLECTION_SPREADS] = {"uncertainty.ini",
                            "spread.",
                            {"model", 1, model_sections, COUNT(model_sections), 0}},
};

const char *bite_shelf_file(int collection)
{
    return files[collection].file;
}

const bite_table_schema *bite_time_records_schema(void)
{
    return &files[COLLECTION_TIMES].form;
}

static const bite_item_record *thing_named(const bite_arena_list *records, const char *name)
{
    const bite_item_record *all = records->items;
    for (size_t i = 0; i < records->count; i++) {
        if (bite_text_equals(all[i].name, name)) {
            return &all[i];
        }
    }
    return NULL;
}

static const char *text_of(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = bite_section_value(section, key);
    return field_value == NULL ? "" : field_value->text;
}

/* What a record of a time says in one line, if its writer said nothing: its title, because the
 * names of several can be much alike, and its times. NULL: no memory. */
static const char *time_summary(const bite_library *library, const bite_section *section)
{
    static const char *const keys[] = {"planned", "took"};
    const char *title = text_of(section, "title");
    char text[1200] = "";
    (void)snprintf(text, sizeof text, "%s%s", title, title[0] == 0 ? "" : ": ");
    for (int i = 0; i < 2; i++) {
        const bite_field_value *field_value = bite_section_value(section, keys[i]);
        char time[40];
        size_t length = 0;
        size_t used = strlen(text);
        if (field_value == NULL ||
            bite_quantity_write(field_value->value, BITE_KIND_TIME, BITE_METRIC, time, sizeof time,
                                &length, NULL) != BITE_OK) {
            (void)snprintf(time, sizeof time, "-");
        }
        (void)snprintf(text + used, sizeof text - used, "%s%s %s", i == 0 ? "" : ", ", keys[i],
                       time);
    }
    return bite_arena_text(library->arena, text, strlen(text));
}

static int add_sections(const bite_library *library, int collection, const bite_table *table)
{
    bite_arena_list *records = &library->collections[collection].records;
    size_t length = strlen(files[collection].prefix);
    for (size_t i = 0; i < bite_table_count(table); i++) {
        const bite_section *section = bite_table_at(table, i);
        if (strncmp(section->name, files[collection].prefix, length) != 0 ||
            thing_named(records, section->tail) != NULL) {
            continue;
        }
        bite_item_record record = {section->tail,
                                   bite_section_value(section, "title") == NULL
                                       ? section->tail
                                       : text_of(section, "title"),
                                   text_of(section, "summary"),
                                   bite_table_path(table),
                                   "",
                                   section->values,
                                   section->value_count};
        if (collection == COLLECTION_TIMES && record.summary[0] == 0 &&
            (record.summary = time_summary(library, section)) == NULL) {
            return 0;
        }
        if (bite_arena_list_add(library->arena, records, &record, sizeof record) == NULL) {
            return 0;
        }
    }
    return 1;
}

/* The two shelves of one file are filled together, so that it is read once. */
static int add_table(const bite_library *library, const char *file, const bite_table *table)
{
    int good = 1;
    for (int collection = 0; collection < BITE_COLLECTION_FILES; collection++) {
        if (strcmp(files[collection].file, file) == 0) {
            library->collections[collection].read = 1;
            good = good && add_sections(library, collection, table);
        }
    }
    return good;
}

/* The shelves of a file that was not read to its end are read again when they are next asked for.
 */
static bite_status no_memory(const bite_library *library, int collection, bite_error *error)
{
    for (int i = 0; i < BITE_COLLECTION_FILES; i++) {
        if (strcmp(files[i].file, files[collection].file) == 0) {
            library->collections[i].read = 0;
        }
    }
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for the tables");
}

bite_status bite_collection_read(const bite_library *library, int collection, bite_error *error)
{
    if (library->collections[collection].read) {
        return BITE_OK;
    }
    for (size_t i = 0; i < library->tables.count; i++) {
        bite_table *table = NULL;
        bite_error fault = BITE_ERROR_INIT;
        char *path =
            bite_path_join(library->arena, library->tables.folders[i], files[collection].file);
        if (path == NULL) {
            return no_memory(library, collection, error);
        }
        if (access(path, F_OK) != 0) {
            continue;
        }
        bite_status status = bite_table_open(&library->allocator, path, &files[collection].form,
                                             NULL, NULL, &table, &fault);
        if (status == BITE_NO_MEMORY) {
            return no_memory(library, collection, error);
        }
        if (status != BITE_OK) {
            if (!bite_library_add_left_out(library, files[collection].file, path, &fault)) {
                return no_memory(library, collection, error);
            }
            continue;
        }
        if (bite_arena_list_add(library->arena, library->open_tables, &table, sizeof table) ==
            NULL) {
            bite_table_free(table);
            return no_memory(library, collection, error);
        }
        if (!add_table(library, files[collection].file, table)) {
            return no_memory(library, collection, error);
        }
    }
    library->collections[collection].read = 1;
    return BITE_OK;
}

static const char *name_at(size_t at, const void *list)
{
    const bite_arena_list *records = list;
    return ((const bite_item_record *)records->items)[at].name;
}

/* A shelf that holds nothing because its table was refused says so. */
static bite_status not_there(const bite_library *library, int collection, const char *name,
                             bite_error *error)
{
    if (error == NULL && library->collections[collection].records.count > 0) {
        return BITE_UNKNOWN_NAME;
    }
    const bite_arena_list *records = &library->collections[collection].records;
    const bite_item *left = library->left_out->items;
    for (size_t i = 0; i < library->left_out->count; i++) {
        if (strcmp(left[i].name, files[collection].file) == 0) {
            bite_error_set(error, BITE_BAD_FILE,
                           "%.60s is not there, and this table was left out: %.150s", name,
                           left[i].summary);
            bite_error_place(error, left[i].file, 0, 0);
            return BITE_BAD_FILE;
        }
    }
    const char *near = bite_text_nearest(name, records->count, name_at, records);
    bite_error_set(error, BITE_UNKNOWN_NAME, "there is no %.*s named %.60s",
                   (int)strlen(files[collection].prefix) - 1, files[collection].prefix, name);
    bite_error_key(error, "%.60s", name);
    bite_error_hint(error, near == NULL ? "list shows what there is" : "did you mean %s?", near);
    return BITE_UNKNOWN_NAME;
}

static bite_status find_thing(const bite_library *library, int collection, const char *name,
                              const bite_item_record **record, bite_error *error)
{
    (void)pthread_mutex_lock(library->lock);
    bite_status status = bite_collection_read(library, collection, error);
    if (status == BITE_OK) {
        const bite_item_record *found =
            thing_named(&library->collections[collection].records, name);
        if (found == NULL) {
            status = not_there(library, collection, name, error);
        } else {
            *record = found;
        }
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

bite_status bite_library_record(const bite_library *library, bite_collection collection,
                                const char *name, const bite_item_record **record,
                                bite_error *error)
{
    static const int places[] = {[BITE_TOOLS] = COLLECTION_TOOLS,
                                 [BITE_HOLDERS] = COLLECTION_HOLDERS,
                                 [BITE_MACHINES] = COLLECTION_MACHINES,
                                 [BITE_COOLANTS] = COLLECTION_COOLANTS,
                                 [BITE_HOLDS] = COLLECTION_HOLDS,
                                 [BITE_SYMPTOMS] = COLLECTION_SYMPTOMS,
                                 [BITE_FLUIDS] = COLLECTION_FLUIDS,
                                 [BITE_SHEETS] = COLLECTION_SHEETS,
                                 [BITE_TIMES] = COLLECTION_TIMES,
                                 [BITE_LAYERS] = COLLECTION_LAYERS,
                                 [BITE_FAMILIES] = -1,
                                 [BITE_GRADES] = -1,
                                 [BITE_LEFT_OUT] = -1};
    if ((size_t)collection >= COUNT(places) || places[collection] < 0) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "that shelf holds no things by name");
    }
    return find_thing(library, places[collection], name, record, error);
}

bite_status bite_library_tool_material(const bite_library *library, const char *name,
                                       const bite_item_record **record, bite_error *error)
{
    return find_thing(library, COLLECTION_TOOL_MATERIALS, name, record, error);
}

bite_status bite_library_layer(const bite_library *library, const char *name,
                               const bite_item_record **record, bite_error *error)
{
    return find_thing(library, COLLECTION_LAYERS, name, record, error);
}

bite_status bite_library_rating(const bite_library *library, const char *name,
                                const bite_item_record **record, bite_error *error)
{
    return find_thing(library, COLLECTION_RATINGS, name, record, error);
}

bite_status bite_library_spread(const bite_library *library, const char *input,
                                const bite_item_record **record, bite_error *error)
{
    return find_thing(library, COLLECTION_SPREADS, input, record, error);
}

const bite_field_value *bite_item_field(const bite_item_record *record, const char *key)
{
    for (size_t i = 0; i < record->value_count; i++) {
        if (strcmp(record->values[i].field->name, key) == 0) {
            return &record->values[i];
        }
    }
    return NULL;
}

const char *bite_item_text(const bite_item_record *record, const char *key)
{
    const bite_field_value *field_value = bite_item_field(record, key);
    return field_value == NULL || field_value->text == NULL ? "" : field_value->text;
}

uint32_t bite_item_word(const bite_item_record *record, const char *key, uint32_t otherwise)
{
    const bite_field_value *field_value = bite_item_field(record, key);
    return field_value == NULL ? otherwise : field_value->word;
}
