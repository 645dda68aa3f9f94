/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The state of a library: what has been read so far, behind one lock. To its callers a library
 * never changes; it reads a table when the table is first needed. */
#ifndef BITE_LIBRARY_LIBRARY_INTERNAL_H
#define BITE_LIBRARY_LIBRARY_INTERNAL_H

#include "core/library/material_record.h"
#include "core/library/search_path.h"
#include <pthread.h>
#include <stdbool.h>

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
    size_t lacked_memory;    /* how often it could not be */
    bite_arena_list records; /* of bite_item_record */
} bite_collection_state;

/** One grade as the tables of its family state it, and with what it inherits. */
typedef struct bite_grade_state {
    const bite_section *section; /* the sections of all tables of the family, key by key */
    const char *file;            /* the first that has it */
    char *name;                  /* "acrylic/cast" */
    const bite_section *whole;   /* with what it inherits; NULL until that is known */
    bool of_parent;              /* no table has it: the family is like another one, which has it */
    const struct bite_grade_state *parent;   /* what it is like; NULL: nothing */
    struct bite_family_state *parent_family; /* whose grade the parent is */
    unsigned generation;                     /* how many parents are above it */
    bite_material *material;                 /* NULL until the grade is opened */
} bite_grade_state;

typedef enum bite_plugin_state {
    BITE_PLUGIN_UNTRIED = 0,
    BITE_PLUGIN_NONE,
    BITE_PLUGIN_GOOD,
    BITE_PLUGIN_REFUSED
} bite_plugin_state;

/** A name in a table that has not been parsed; text: in the bytes of the table. */
typedef struct bite_indexed_name {
    const char *text;
    size_t length;
    bool of_family; /* a name of the family; otherwise of a grade */
} bite_indexed_name;

/** The names in the tables of a family, as far as one pass over the lines can tell. */
typedef struct bite_name_index {
    bite_arena_list names; /* of bite_indexed_name */
    bool doubtful;         /* some line may hold a name that is not among them */
} bite_name_index;

/** One table of a family: its bytes, and what was read from it. */
typedef struct bite_table_bytes {
    char *path;
    char *text; /* owned until the table is parsed; NULL: parsed, or it cannot be read */
    size_t size;
    const bite_table *table;  /* NULL: not parsed, or left out */
    bite_caution_rule *rules; /* its cautions */
    size_t rule_count;
} bite_table_bytes;

#define BITE_MEMORY_TABLES_MAX 8 /* of one name */

/** A table from memory. */
typedef struct bite_memory_table {
    const char *name; /* "materials/soap.ini" */
    const char *text;
    size_t size;
} bite_memory_table;

struct bite_plugin_own;

/** One family: its tables in the order of the search path, its grades, its plugin. */
typedef struct bite_family_state {
    char *name; /* "acrylic", from the name of its file */
    int found;  /* 1: bytes is filled with the tables that there are */
    bite_table_bytes bytes[BITE_TABLES_MAX + BITE_MEMORY_TABLES_MAX];
    size_t bytes_count;
    int indexed;    /* 1: the bytes were read, and their names are in names */
    int unreadable; /* 1: the bytes of some table cannot be read */
    bite_name_index names;
    int read;           /* 1: its tables were read, or left out */
    bite_status status; /* of reading them */
    bite_error error;
    bite_arena_list left_out;   /* of bite_item: tables that were, if the family is usable */
    const bite_section *family; /* the sections [family] of all tables, key by key */
    const char *file;           /* the first that has it */
    bite_arena_list grades;     /* of bite_grade_state */
    bite_arena_list rules;      /* of bite_caution_rule */
    bite_arena_list cases;      /* of bite_family_case */
    bite_plugin_state tried;
    const struct bite_family *plugin; /* the library's copy of its descriptor */
    const struct bite_plugin_own *own;
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
    bite_arena_list *memory_tables;     /* of bite_memory_table */
    bite_arena_list *named_tools; /* of bite_item_record: with a tool list, the tools of the tables,
                                     which are found by name only; NULL: there is no list */
    const char *tool_list;        /* its path, escaped; NULL: there is none */
    const bite_field *grade_fields;
    size_t grade_field_count;
    const bite_field *case_fields; /* the keys of a [case.NAME] */
    size_t case_field_count;
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
    COLLECTION_INSTRUMENTS,
    COLLECTION_DRILLS,
    COLLECTION_THREADS,
    COLLECTION_TAPPING,
    COLLECTION_REAMING,
    COLLECTION_DRILLING,
    COLLECTION_THREAD_MILLING,
    COLLECTION_INSERTS,
    COLLECTION_CAUSES,
    COLLECTION_SPREADS,
    BITE_COLLECTION_FILES
};

#endif
