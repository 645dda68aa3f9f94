/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The typed table: figures with band, unit, source and grade, read from an INI file.
 *
 *   heat_capacity = 1466 J/kg/K (1380 .. 1520)
 *   heat_capacity.source = paper: Author Year, table N
 *   strength.at = 23degC 80MPa, 70degC 40MPa
 *   strength.at.source = ...
 *
 * A figure may have a band, in which the unit may be left out. A curve has at least two points,
 * with rising temperatures. A source is "grade: where"; the grades are standard, handbook, paper,
 * datasheet, common-practice, memory and estimate, and common-practice and memory need no
 * reference. A figure without a source is refused; `source = ...` in a section is the source of all
 * its figures that have none of their own.
 *
 * A section [tool.short] may contain `like = long`: what it does not state is taken from
 * [tool.long] of the same file. A field of BITE_FIELD_PARENT is left to the caller, who may look
 * elsewhere.
 */
#ifndef BITE_TABLES_TYPED_TABLE_H
#define BITE_TABLES_TYPED_TABLE_H

#include "core/tables/field_value.h"
#include "core/tables/ini.h"
#include "core/tables/section.h"
#include "core/tables/table_schema.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/**
 * Reads a table.
 *
 * Every fault of the file (an unknown key, with the nearest known one; a bad figure; a missing
 * source ...) is reported to `fault` (may be NULL), the first one also to error, with their number
 * in error->faults. *table: owned, bite_table_free. It is set on BITE_OK, and with a schema of
 * keep_valid on BITE_BAD_FILE too, unless nothing of the file could be read. BITE_NOT_FOUND,
 * BITE_IO, BITE_NO_MEMORY: as bite_ini_open.
 */
bite_status bite_table_open(const bite_allocator *allocator, const char *path,
                            const bite_table_schema *schema, bite_ini_fault fault, void *user,
                            bite_table **table, bite_error *error);
/** The same from bytes in memory; path is for messages. */
bite_status bite_table_parse(const bite_allocator *allocator, const char *text, size_t size,
                             const char *path, const bite_table_schema *schema,
                             bite_ini_fault fault, void *user, bite_table **table,
                             bite_error *error);
void bite_table_free(bite_table *table); /* NULL: nothing happens */

const char *bite_table_path(const bite_table *table);
size_t bite_table_count(const bite_table *table); /* sections, in the order of the file */
const bite_section *bite_table_at(const bite_table *table, size_t index);       /* NULL: none */
const bite_section *bite_table_find(const bite_table *table, const char *name); /* NULL: none */
/** Whether the name of some section could not be read: a section that is missing may be that one.
 */
bool bite_table_has_unread_sections(const bite_table *table);
/** Whether the file has this key, even if its value is wrong. */
bool bite_table_has_key(const bite_table *table, const char *section, const char *key);

#endif
