/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The typed table: figures with band, unit, source and grade out of an INI file.
 *
 *   heat_capacity = 1466 J/kg/K (1380 .. 1520)       value, optional band in the same unit (the
 * unit may be left out inside) heat_capacity.source = paper: Author Year, table N     grade: where;
 * grade of standard handbook paper datasheet common-practice memory estimate; common-practice and
 * memory may stand alone strength.at = 23degC 80MPa, 70degC 40MPa          a curve: at least two
 * points, temperatures rising strength.at.source = ...
 *
 * A section [grade.cast] may say `like = extruded`: what it does not state is taken from
 * [grade.extruded] of the same file. A figure without a source is refused; `source = ...` in a
 * section is the source of all its figures that have none of their own.
 */
#ifndef BITE_TABLES_TYPED_TABLE_H
#define BITE_TABLES_TYPED_TABLE_H

#include "core/tables/ini.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

typedef enum bite_source_grade {
    BITE_GRADE_NONE = 0,
    BITE_GRADE_STANDARD = 1,
    BITE_GRADE_HANDBOOK = 2,
    BITE_GRADE_PAPER = 3,
    BITE_GRADE_DATASHEET = 4,
    BITE_GRADE_COMMON_PRACTICE = 5,
    BITE_GRADE_MEMORY = 6,
    BITE_GRADE_ESTIMATE = 7
} bite_source_grade;

typedef enum bite_field_type {
    BITE_FIELD_FIGURE = 0, /* a number of a kind, with source */
    BITE_FIELD_CURVE = 1,  /* key.at */
    BITE_FIELD_TEXT = 2,
    BITE_FIELD_WORD = 3 /* one of `words` */
} bite_field_type;

/** A key that a section may have. */
typedef struct bite_field {
    const char *name;
    uint32_t type; /* a bite_field_type */
    uint32_t kind; /* a bite_kind; of a curve: of its values */
    double least;  /* SI */
    double most;
    const char *const *words; /* ended by NULL */
} bite_field;

/** What was read for one key. Texts are borrowed until the table is freed. */
typedef struct bite_field_value {
    const bite_field *field;
    double value; /* SI; NaN for text, words and curves */
    double low;   /* = value where no band was stated */
    double high;
    bite_curve curve;
    const char *text;   /* as it stands in the file */
    const char *source; /* as it stands: "paper: ..."; "" for texts and words without one */
    uint32_t word;      /* index into field->words */
    uint32_t grade;     /* a bite_source_grade */
    uint32_t line;
    uint32_t banded; /* 1: a band was stated */
} bite_field_value;

typedef struct bite_section {
    const char *name; /* "grade.cast" */
    const char *tail; /* "cast": behind the first point; "" where there is none */
    uint32_t line;
    uint32_t value_count;
    const bite_field_value *values;
} bite_section;

/** A section that a file may have: "grade." takes any [grade.NAME], "grade" only [grade]. */
typedef struct bite_section_schema {
    const char *name;
    const bite_field *fields;
    size_t field_count;
    uint32_t repeats;       /* 1: name is a prefix that ends with a point */
    uint32_t needs_sources; /* 1: figures here need a source */
} bite_section_schema;

/** A kind of file: [format] kind = ..., version = 1, and these sections. */
typedef struct bite_table_schema {
    const char *kind;
    uint32_t version;
    const bite_section_schema *sections;
    size_t section_count;
    uint32_t keep_valid; /* 1: what could be read is handed over beside the faults, for a reader
                            that has more to say */
} bite_table_schema;

typedef struct bite_table bite_table;

/** Reads a table. Every fault of the file (unknown key with the nearest known one, bad figure,
 * missing source ...) goes to `fault`, the first to error with the count in error->faults. *table:
 * owned, bite_table_free; of a form that keeps it is there beside BITE_BAD_FILE too, NULL where the
 * file could not be read at all. */
bite_status bite_table_open(const bite_allocator *allocator, const char *path,
                            const bite_table_schema *schema, bite_ini_fault fault, void *user,
                            bite_table **table, bite_error *error);
bite_status bite_table_parse(const bite_allocator *allocator, const char *text, size_t size,
                             const char *path, const bite_table_schema *schema,
                             bite_ini_fault fault, void *user, bite_table **table,
                             bite_error *error);
void bite_table_free(bite_table *table);

const char *bite_table_path(const bite_table *table);
size_t bite_table_count(const bite_table *table);
const bite_section *bite_table_at(const bite_table *table, size_t index);
const bite_section *bite_table_find(const bite_table *table, const char *name);
/** Whether some section's name could not be read: what seems to be missing may stand in it. */
bool bite_table_has_unread_sections(const bite_table *table);
/** Whether the file says anything of a key, be it wrong. */
bool bite_table_has_key(const bite_table *table, const char *section, const char *key);
const bite_field_value *bite_section_value(const bite_section *section,
                                           const char *key); /* NULL: not stated */

#endif
