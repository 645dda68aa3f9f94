/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tools, holders, machines, coolants: one file each, first on the path wins section by section. */
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/names/registry.h"
#include "core/library/library_internal.h"
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define LONG 1.0
#define UM 1e-6
#define RPM (1.0 / 60.0)

static const char *const tool_material_words[] = {"carbide", "hss", "diamond", NULL};

#define TEXTS                                                                                                                      \
    {"title", BITE_FIELD_TEXT, 0, 0, 0, NULL}, {"summary", BITE_FIELD_TEXT, 0, 0, 0, NULL},                                        \
        {"also", BITE_FIELD_TEXT, 0, 0, 0, NULL},                                                                                  \
    {                                                                                                                              \
        "like", BITE_FIELD_TEXT, 0, 0, 0, NULL                                                                                     \
    }
#define FIGURE(name, kind, least, most)                                                                                            \
    {                                                                                                                              \
        name, BITE_FIELD_FIGURE, kind, least, most, NULL                                                                           \
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

#define TEXT(name)                                                                                                                 \
    {                                                                                                                              \
        name, BITE_FIELD_TEXT, 0, 0, 0, NULL                                                                                       \
    }
#define WORD(name, words)                                                                                                          \
    {                                                                                                                              \
        name, BITE_FIELD_WORD, 0, 0, 0, words                                                                                      \
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

static const bite_field time_fields[] = {TEXTS, FIGURE("planned", BITE_KIND_TIME, 0, 1e9), FIGURE("took", BITE_KIND_TIME, 0, 1e9)};

static const char *const shape_words[] = {"exact", "level", "normal", "lognormal", NULL};
static const bite_field spread_fields[] = {
    {"shape", BITE_FIELD_WORD, 0, 0, 0, shape_words}, FIGURE("low", BITE_KIND_NUMBER, 0.001, 1),
    FIGURE("high", BITE_KIND_NUMBER, 1, 1000),        FIGURE("group", BITE_KIND_NUMBER, 1, 7),
    FIGURE("together", BITE_KIND_NUMBER, 0, 1),
};

#define COUNT(list) (sizeof list / sizeof *list)
static const bite_section_form tool_sections[] = {
    {"tool.", tool_fields, COUNT(tool_fields), 1, 1},
    {"tool_material.", tool_material_fields, COUNT(tool_material_fields), 1, 1},
};
static const bite_section_form holder_sections[] = {{"holder.", holder_fields, COUNT(holder_fields), 1, 1}};
static const bite_section_form machine_sections[] = {{"machine.", machine_fields, COUNT(machine_fields), 1, 1}};
static const bite_section_form coolant_sections[] = {{"coolant.", coolant_fields, COUNT(coolant_fields), 1, 1}};
static const bite_section_form hold_sections[] = {{"hold.", hold_fields, COUNT(hold_fields), 1, 1},
                                                  {"layer.", layer_fields, COUNT(layer_fields), 1, 1}};
static const bite_section_form sheet_sections[] = {{"sheet.", sheet_fields, COUNT(sheet_fields), 1, 1}};
static const bite_section_form fluid_sections[] = {{"fluid.", fluid_fields, COUNT(fluid_fields), 1, 1},
                                                   {"rating.", rating_fields, COUNT(rating_fields), 1, 1}};
static const bite_section_form symptom_sections[] = {{"symptom.", symptom_fields, COUNT(symptom_fields), 1, 1}};
static const bite_section_form time_sections[] = {{"time.", time_fields, COUNT(time_fields), 1, 1}};
static const bite_section_form model_sections[] = {{"spread.", spread_fields, COUNT(spread_fields), 1, 1}};

/* Tools and what they are made of share a file. */
static const struct {
    const char *file;
    const char *prefix; /* of the sections that go on this shelf */
    bite_form form;
} files[BITE_SHELF_FILES] = {
    [SHELF_TOOLS] = {"tools.ini", "tool.", {"tools", 1, tool_sections, COUNT(tool_sections), 0}},
    [SHELF_TOOL_MATERIALS] = {"tools.ini", "tool_material.", {"tools", 1, tool_sections, COUNT(tool_sections), 0}},
    [SHELF_HOLDERS] = {"holders.ini", "holder.", {"holders", 1, holder_sections, COUNT(holder_sections), 0}},
    [SHELF_MACHINES] = {"machines.ini", "machine.", {"machines", 1, machine_sections, COUNT(machine_sections), 0}},
    [SHELF_COOLANTS] = {"coolants.ini", "coolant.", {"coolants", 1, coolant_sections, COUNT(coolant_sections), 0}},
    [SHELF_HOLDS] = {"workholding.ini", "hold.", {"holds", 1, hold_sections, COUNT(hold_sections), 0}},
    [SHELF_LAYERS] = {"workholding.ini", "layer.", {"holds", 1, hold_sections, COUNT(hold_sections), 0}},
    [SHELF_SHEETS] = {"sheet_stock.ini", "sheet.", {"sheets", 1, sheet_sections, COUNT(sheet_sections), 0}},
    [SHELF_FLUIDS] = {"fluids.ini", "fluid.", {"fluids", 1, fluid_sections, COUNT(fluid_sections), 0}},
    [SHELF_RATINGS] = {"fluids.ini", "rating.", {"fluids", 1, fluid_sections, COUNT(fluid_sections), 0}},
    [SHELF_TIMES] = {"times.ini", "time.", {"times", 1, time_sections, COUNT(time_sections), 0}},
    [SHELF_SYMPTOMS] = {"symptoms.ini", "symptom.", {"symptoms", 1, symptom_sections, COUNT(symptom_sections), 0}},
    [SHELF_SPREADS] = {"uncertainty.ini", "spread.", {"model", 1, model_sections, COUNT(model_sections), 0}},
};

const char *bite_shelf_file(int shelf)
{
    return files[shelf].file;
}

const bite_form *bite_times_form(void)
{
    return &files[SHELF_TIMES].form;
}

static const bite_thing *thing_named(const bite_list *things, const char *name)
{
    const bite_thing *all = things->items;
    for (size_t i = 0; i < things->count; i++) {
        if (bite_text_same(all[i].name, name)) {
            return &all[i];
        }
    }
    return NULL;
}

static const char *text_of(const bite_section *section, const char *key)
{
    const bite_cell *cell = bite_section_cell(section, key);
    return cell == NULL ? "" : cell->text;
}

/* What a record of a time says in one line, if its writer said nothing: its title, because the names
 * of several can be much alike, and its times. NULL: no memory. */
static const char *time_summary(const bite_library *library, const bite_section *section)
{
    static const char *const keys[] = {"planned", "took"};
    const char *title = text_of(section, "title");
    char text[1200] = "";
    (void)snprintf(text, sizeof text, "%s%s", title, title[0] == 0 ? "" : ": ");
    for (int i = 0; i < 2; i++) {
        const bite_cell *cell = bite_section_cell(section, keys[i]);
        char time[40];
        size_t length = 0;
        size_t used = strlen(text);
        if (cell == NULL ||
            bite_quantity_write(cell->value, BITE_KIND_TIME, BITE_METRIC, time, sizeof time, &length, NULL) != BITE_OK) {
            (void)snprintf(time, sizeof time, "-");
        }
        (void)snprintf(text + used, sizeof text - used, "%s%s %s", i == 0 ? "" : ", ", keys[i], time);
    }
    return bite_arena_text(library->arena, text, strlen(text));
}

static int add_sections(const bite_library *library, int shelf, const bite_table *table)
{
    bite_list *things = &library->shelves[shelf].things;
    size_t length = strlen(files[shelf].prefix);
    for (size_t i = 0; i < bite_table_count(table); i++) {
        const bite_section *section = bite_table_at(table, i);
        if (strncmp(section->name, files[shelf].prefix, length) != 0 || thing_named(things, section->tail) != NULL) {
            continue;
        }
        bite_thing thing = {section->tail,
                            bite_section_cell(section, "title") == NULL ? section->tail : text_of(section, "title"),
                            text_of(section, "summary"),
                            bite_table_path(table),
                            "",
                            section->cells,
                            section->cell_count};
        if (shelf == SHELF_TIMES && thing.summary[0] == 0 && (thing.summary = time_summary(library, section)) == NULL) {
            return 0;
        }
        if (bite_list_add(library->arena, things, &thing, sizeof thing) == NULL) {
            return 0;
        }
    }
    return 1;
}

/* The two shelves of one file are filled together, so that it is read once. */
static int add_table(const bite_library *library, const char *file, const bite_table *table)
{
    int good = 1;
    for (int shelf = 0; shelf < BITE_SHELF_FILES; shelf++) {
        if (strcmp(files[shelf].file, file) == 0) {
            library->shelves[shelf].read = 1;
            good = good && add_sections(library, shelf, table);
        }
    }
    return good;
}

/* The shelves of a file that was not read to its end are read again when they are next asked for. */
static bite_status no_memory(const bite_library *library, int shelf, bite_error *error)
{
    for (int i = 0; i < BITE_SHELF_FILES; i++) {
        if (strcmp(files[i].file, files[shelf].file) == 0) {
            library->shelves[i].read = 0;
        }
    }
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for the tables");
}

bite_status bite_shelf_read(const bite_library *library, int shelf, bite_error *error)
{
    if (library->shelves[shelf].read) {
        return BITE_OK;
    }
    for (size_t i = 0; i < library->tables.count; i++) {
        bite_table *table = NULL;
        bite_error fault = BITE_ERROR_INIT;
        char *path = bite_place_join(library->arena, library->tables.folders[i], files[shelf].file);
        if (path == NULL) {
            return no_memory(library, shelf, error);
        }
        if (access(path, F_OK) != 0) {
            continue;
        }
        bite_status status = bite_table_open(&library->allocator, path, &files[shelf].form, NULL, NULL, &table, &fault);
        if (status == BITE_NO_MEMORY) {
            return no_memory(library, shelf, error);
        }
        if (status != BITE_OK) {
            if (!bite_left_out(library, files[shelf].file, path, &fault)) {
                return no_memory(library, shelf, error);
            }
            continue;
        }
        if (bite_list_add(library->arena, library->open_tables, &table, sizeof table) == NULL) {
            bite_table_free(table);
            return no_memory(library, shelf, error);
        }
        if (!add_table(library, files[shelf].file, table)) {
            return no_memory(library, shelf, error);
        }
    }
    library->shelves[shelf].read = 1;
    return BITE_OK;
}

static const char *name_at(size_t at, const void *list)
{
    const bite_list *things = list;
    return ((const bite_thing *)things->items)[at].name;
}

/* A shelf that holds nothing because its table was refused says so. */
static bite_status not_there(const bite_library *library, int shelf, const char *name, bite_error *error)
{
    if (error == NULL && library->shelves[shelf].things.count > 0) {
        return BITE_UNKNOWN_NAME;
    }
    const bite_list *things = &library->shelves[shelf].things;
    const bite_item *left = library->left_out->items;
    for (size_t i = 0; i < library->left_out->count; i++) {
        if (strcmp(left[i].name, files[shelf].file) == 0) {
            bite_error_set(error, BITE_BAD_FILE, "%.60s is not there, and this table was left out: %.150s", name, left[i].summary);
            bite_error_place(error, left[i].file, 0, 0);
            return BITE_BAD_FILE;
        }
    }
    const char *near = bite_text_nearest(name, things->count, name_at, things);
    bite_error_set(error, BITE_UNKNOWN_NAME, "there is no %.*s named %.60s", (int)strlen(files[shelf].prefix) - 1,
                   files[shelf].prefix, name);
    bite_error_key(error, "%.60s", name);
    bite_error_hint(error, near == NULL ? "list shows what there is" : "did you mean %s?", near);
    return BITE_UNKNOWN_NAME;
}

static bite_status find_thing(const bite_library *library, int shelf, const char *name, const bite_thing **thing, bite_error *error)
{
    (void)pthread_mutex_lock(library->lock);
    bite_status status = bite_shelf_read(library, shelf, error);
    if (status == BITE_OK) {
        const bite_thing *found = thing_named(&library->shelves[shelf].things, name);
        if (found == NULL) {
            status = not_there(library, shelf, name, error);
        } else {
            *thing = found;
        }
    }
    (void)pthread_mutex_unlock(library->lock);
    return status;
}

bite_status bite_library_thing(const bite_library *library, bite_shelf shelf, const char *name, const bite_thing **thing,
                               bite_error *error)
{
    static const int places[] = {[BITE_TOOLS] = SHELF_TOOLS,
                                 [BITE_HOLDERS] = SHELF_HOLDERS,
                                 [BITE_MACHINES] = SHELF_MACHINES,
                                 [BITE_COOLANTS] = SHELF_COOLANTS,
                                 [BITE_HOLDS] = SHELF_HOLDS,
                                 [BITE_SYMPTOMS] = SHELF_SYMPTOMS,
                                 [BITE_FLUIDS] = SHELF_FLUIDS,
                                 [BITE_SHEETS] = SHELF_SHEETS,
                                 [BITE_TIMES] = SHELF_TIMES,
                                 [BITE_LAYERS] = SHELF_LAYERS,
                                 [BITE_FAMILIES] = -1,
                                 [BITE_GRADES] = -1,
                                 [BITE_LEFT_OUT] = -1};
    if ((size_t)shelf >= COUNT(places) || places[shelf] < 0) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "that shelf holds no things by name");
    }
    return find_thing(library, places[shelf], name, thing, error);
}

bite_status bite_library_tool_material(const bite_library *library, const char *name, const bite_thing **thing, bite_error *error)
{
    return find_thing(library, SHELF_TOOL_MATERIALS, name, thing, error);
}

bite_status bite_library_layer(const bite_library *library, const char *name, const bite_thing **thing, bite_error *error)
{
    return find_thing(library, SHELF_LAYERS, name, thing, error);
}

bite_status bite_library_rating(const bite_library *library, const char *name, const bite_thing **thing, bite_error *error)
{
    return find_thing(library, SHELF_RATINGS, name, thing, error);
}

bite_status bite_library_spread(const bite_library *library, const char *input, const bite_thing **thing, bite_error *error)
{
    return find_thing(library, SHELF_SPREADS, input, thing, error);
}

const bite_cell *bite_thing_cell(const bite_thing *thing, const char *key)
{
    for (size_t i = 0; i < thing->cell_count; i++) {
        if (strcmp(thing->cells[i].field->name, key) == 0) {
            return &thing->cells[i];
        }
    }
    return NULL;
}

const char *bite_thing_text(const bite_thing *thing, const char *key)
{
    const bite_cell *cell = bite_thing_cell(thing, key);
    return cell == NULL || cell->text == NULL ? "" : cell->text;
}

uint32_t bite_thing_word(const bite_thing *thing, const char *key, uint32_t otherwise)
{
    const bite_cell *cell = bite_thing_cell(thing, key);
    return cell == NULL ? otherwise : cell->word;
}
