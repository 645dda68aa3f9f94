/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sections and keys that a kind of typed table may have, and a section as it was read. */
#ifndef BITE_TABLES_TABLE_SCHEMA_H
#define BITE_TABLES_TABLE_SCHEMA_H

#include "core/tables/field_value.h"
#include <stddef.h>
#include <stdint.h>

/** A section as it was read. Borrowed until the table is freed. */
typedef struct bite_section {
    const char *name; /* "grade.cast" */
    const char *tail; /* "cast": what follows the first point; "" if there is none */
    uint32_t line;    /* in the file, from 1 */
    uint32_t value_count;
    const bite_field_value *values;
} bite_section;

/** A section that a file may have: "grade." stands for every [grade.NAME], "grade" for [grade]. */
typedef struct bite_section_schema {
    const char *name;
    const bite_field *fields;
    size_t field_count;
    uint32_t repeats;       /* 1: name is a prefix that ends with a point */
    uint32_t needs_sources; /* 1: figures here need a source */
} bite_section_schema;

/** A kind of file: [format] with kind = ... and version = 1, and these sections. */
typedef struct bite_table_schema {
    const char *kind;
    uint32_t version; /* the newest that is read */
    const bite_section_schema *sections;
    size_t section_count;
    uint32_t keep_valid; /* 1: what could be read is returned with BITE_BAD_FILE too, so that the
                            caller can check it further */
} bite_table_schema;

typedef struct bite_table bite_table;

#endif
