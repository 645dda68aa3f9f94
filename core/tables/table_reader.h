/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The state while a typed table is read, and the report of its faults. */
#ifndef BITE_TABLES_TABLE_READER_H
#define BITE_TABLES_TABLE_READER_H

#include "core/base/memory.h"
#include "core/tables/ini.h"
#include "core/tables/table_schema.h"
#include <coolbite/coolbite.h>

/** Values of one section. */
#define BITE_SECTION_VALUES_MAX 160

struct bite_table {
    bite_arena *arena;
    bite_ini *ini;
    bite_section *sections;
    size_t count;
};

typedef struct bite_table_reader {
    bite_table *table;
    const bite_table_schema *schema;
    bite_ini_fault fault;
    void *user;
    bite_error first; /* the first fault */
    uint32_t faults;
    bite_status status;       /* BITE_NO_MEMORY ends the reading */
    bite_field_value *values; /* BITE_SECTION_VALUES_MAX, of the section that is read */
    size_t head;              /* the entry of its own line */
} bite_table_reader;

/** Counts and reports a fault, with its place: `at` (NULL: the whole file) and the key. */
void bite_table_report(bite_table_reader *reader, bite_error *error, const bite_ini_entry *at,
                       const char *key);
/** The same with a message and a hint. */
void bite_table_report_text(bite_table_reader *reader, const bite_ini_entry *at, const char *key,
                            const char *message, const char *hint);

#endif
