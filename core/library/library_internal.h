/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inside of a library: what has been read so far, behind one lock. To its callers it never changes: it only has not looked yet.
 */
#ifndef BITE_LIBRARY_LIBRARY_INTERNAL_H
#define BITE_LIBRARY_LIBRARY_INTERNAL_H

#include "core/library/search_path.h"
#include "core/library/item.h"
#include <pthread.h>

#define BITE_TABLES_MOST BITE_PLACES_MOST

/** A list that grows in the arena. */
typedef struct bite_list {
    void *items;
    size_t count;
    size_t room;
} bite_list;

/** Adds a copy of item; NULL: no memory. */
void *bite_list_add(bite_arena *arena, bite_list *list, const void *item, size_t size);

/** One table file of a shelf, in several sections forms. */
typedef struct bite_shelf_state {
    int read;         /* 1: tried */
    bite_list things; /* of bite_thing */
} bite_shelf_state;

/** One grade, as its table has it. */
typedef struct bite_grade_state {
    const bite_section *section;
    const char *file;
    char *name;            /* "acrylic/cast" */
    bite_grade_card *card; /* once opened */
} bite_grade_state;

typedef enum bite_plugin_tried {
    BITE_PLUGIN_UNTRIED = 0,
    BITE_PLUGIN_NONE,
    BITE_PLUGIN_GOOD,
    BITE_PLUGIN_REFUSED
} bite_plugin_tried;

/** One family: its tables (first on the path first), its grades, its plugin. */
typedef struct bite_family_state {
    char *name;         /* of the file, "acrylic" */
    int read;           /* 1: tables were tried */
    bite_status status; /* of reading them */
    bite_error error;
    bite_table *tables[BITE_TABLES_MOST];
    size_t table_count;
    const bite_section *family; /* [family], the first found */
    const char *file;
    bite_list grades; /* of bite_grade_state */
    bite_rule *rules;
    size_t rule_count;
    bite_plugin_tried tried;
    const struct bite_family *plugin;
    char *plugin_path; /* as it is shown */
    bite_status plugin_status;
    bite_error plugin_error;
} bite_family_state;

struct bite_library {
    bite_allocator allocator;
    bite_arena *arena;
    pthread_mutex_t *lock; /* of all below; in memory of its own, so that a const library can be looked into */
    bite_places tables;
    bite_places families;
    bite_shelf_state *shelves; /* BITE_SHELF_FILES of them */
    bite_list *found;          /* of bite_family_state *, by name */
    bite_list *left_out;       /* of bite_item */
    bite_list *open_tables;    /* of bite_table * */
    const bite_field *grade_fields;
    size_t grade_field_count;
};

enum {
    SHELF_TOOLS,
    SHELF_TOOL_MATERIALS,
    SHELF_HOLDERS,
    SHELF_MACHINES,
    SHELF_COOLANTS,
    SHELF_HOLDS,
    SHELF_LAYERS,
    SHELF_SHEETS,
    SHELF_FLUIDS,
    SHELF_RATINGS,
    SHELF_TIMES,
    SHELF_SYMPTOMS,
    SHELF_SPREADS,
    BITE_SHELF_FILES
};

/** Notes a table or plugin that was not taken, with its reason. 0: no memory. */
int bite_left_out(const bite_library *library, const char *name, const char *file, const bite_error *error);

/** Fields of a grade: the material inputs of the vocabulary and what tables state beside them. In the arena; NULL: no memory. */
const bite_field *bite_material_fields(bite_arena *arena, size_t *count);

/** Reads the tables of a family; status and error are kept in it. Under the lock. BITE_NO_MEMORY alone is handed on. */
bite_status bite_material_read(const bite_library *library, bite_family_state *family, bite_error *error);

/** The name of a shelf's file, "tools.ini". Borrowed, for ever. */
const char *bite_shelf_file(int shelf);

/** Makes sure that a shelf's file was read. Under the lock. */
bite_status bite_shelf_read(const bite_library *library, int shelf, bite_error *error);

/** Loads and judges the family's plugin once. Under the lock. BITE_OK: family->tried says NONE or GOOD. */
bite_status bite_plugin_load(const bite_library *library, bite_family_state *family, bite_error *error);

/** Lets the plugin complete a card: fill, curves. Under the lock. */
bite_status bite_plugin_fill(const bite_library *library, const struct bite_family *plugin, bite_grade_card *card,
                             bite_error *error);

#endif
