/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sections and keys of every kind of table. */
#ifndef BITE_LIBRARY_SCHEMA_H
#define BITE_LIBRARY_SCHEMA_H

#include "core/base/memory.h"
#include "core/library/library_internal.h"
#include "core/tables/typed_table.h"

/** Where the records of a collection are read from. */
typedef struct bite_collection_file {
    const char *file;         /* in a folder of tables: "tools.ini" */
    const char *prefix;       /* of the sections that belong to the collection: "tool." */
    bite_table_schema schema; /* of the whole file, which may hold a second collection */
} bite_collection_file;

/** The file of a collection, COLLECTION_TOOLS to COLLECTION_SPREADS. Borrowed, for ever. */
const bite_collection_file *bite_collection_file_at(int collection);

/** The schema of times.ini, which holds the shop's own times. Borrowed, for ever. */
const bite_table_schema *bite_time_records_schema(void);

/** The keys of a [grade.NAME]: the material inputs of the registry, and what a table states in
 * addition. In the arena; NULL: no memory. */
const bite_field *bite_material_fields(bite_arena *arena, size_t *count);

enum { BITE_MATERIAL_SECTIONS = 4 }; /* [family], [grade.NAME], [caution.NAME], [case.NAME] */

/** The schema of materials/NAME.ini. sections: written, and borrowed by the schema. */
bite_table_schema bite_material_schema(const bite_library *library,
                                       bite_section_schema sections[BITE_MATERIAL_SECTIONS]);

#endif
