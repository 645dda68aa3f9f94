/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The state of a library: what has been read so far, behind one lock. To its callers a library
 * never changes; it reads a table when the table is first needed. */
#ifndef BITE_LIBRARY_LIBRARY_INTERNAL_H
#define BITE_LIBRARY_LIBRARY_INTERNAL_H

#include "core/library/material_record.h"
#include "core/library/search_path.h"
#include <pthread.h>

#define BITE_TABLES_MAX BITE_SEARCH_PATH_MAX

/** A list that grows in the arena. */
typedef struct bite_arena_list {
    void *items;
    size_t count;
    size_t capacity;
} bite_arena_list;

/** One collection. */
typedef struct bite_collection_state {
    int read;                /* 1: its file was read, or left out */
    bite_arena_list records; /* of bite_item_record */
} bite_collection_state;

/** One grade as its table states it. */
typedef struct bite_grade_state {
    const bite_section *section;
    const char *file;
    char *name;              /* "acrylic/cast" */
    bite_material *material; /* NULL until the grade is opened */
} bite_grade_state;

typedef enum bite_plugin_state {
    BITE_PLUGIN_UNTRIED = 0,
    BITE_PLUGIN_NONE,
    BITE_PLUGIN_GOOD,
    BITE_PLUGIN_REFUSED
} bite_plugin_state;

/** One family: its tables in the order of the search path, its grades, its plugin. */
typedef struct bite_family_state {
    char *name;         /* "acrylic", from the name of its file */
    int read;           /* 1: its tables were read, or left out */
    bite_status status; /* of reading them */
    bite_error error;
    bite_table *tables[BITE_TABLES_MAX];
    size_t table_count;
    const bite_section *family; /* [family] of the first table that has it */
    const char *file;
    bite_arena_list grades; /* of bite_grade_state */
    bite_caution_rule *rules;
    size_t rule_count;
    bite_plugin_state tried;
    const struct bite_family *plugin;
    char *plugin_path; /* escaped, for display */
    bite_status plugin_status;
    bite_error plugin_error;
} bite_family_state;

struct bite_library {
    bite_allocator allocator;
    bite_arena *arena;
    pthread_mutex_t *lock; /* of all members below; in memory of its own, so that it can be locked
                              in a const library */
    bite_search_path tables;
    bite_search_path families;
    bite_collection_state *collections; /* BITE_COLLECTION_FILES of them */
    bite_arena_list *found;             /* of bite_family_state *, by name */
    bite_arena_list *left_out;          /* of bite_item */
    bite_arena_list *open_tables;       /* of bite_table * */
    const bite_field *grade_fields;
    size_t grade_field_count;
};

enum {
    COLLECTION_TOOLS,
    COLLECTION_TOOL_MATERIALS,
    COLLECTION_HOLDERS,
    COLLECTION_MACHINES,
    COLLECTION_COOLANTS,
    COLLECTION_HOLDS,
    COLLECTION_LAYERS,
    COLLECTION_SHEETS,
    COLLECTION_FLUIDS,
    COLLECTION_RATINGS,
    COLLECTION_TIMES,
    COLLECTION_SYMPTOMS,
    COLLECTION_SPREADS,
    BITE_COLLECTION_FILES
};

#endif
