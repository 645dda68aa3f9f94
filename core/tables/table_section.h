/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One section of a typed table: its keys are checked against the schema, its values are read. */
#ifndef BITE_TABLES_TABLE_SECTION_H
#define BITE_TABLES_TABLE_SECTION_H

#include "core/tables/table_reader.h"

/** Reads the section whose own line is entry `head` of the file; *section is set unless
 * reader->status becomes BITE_NO_MEMORY. */
void bite_table_read_section(bite_table_reader *reader, const bite_section_schema *section_schema,
                             size_t head, bite_section *section);

#endif
