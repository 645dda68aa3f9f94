/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One section of a typed table: its keys are checked against the schema, its values are read. */
#ifndef BITE_TABLES_TABLE_SECTION_H
#define BITE_TABLES_TABLE_SECTION_H

#include "core/tables/table_reader.h"

/** Reads the section that begins at `start`; *section is set unless reader->status becomes
 * BITE_NO_MEMORY. */
void bite_table_read_section(bite_table_reader *reader, const bite_section_schema *section_schema,
                             const bite_ini_entry *start, bite_section *section);

#endif
