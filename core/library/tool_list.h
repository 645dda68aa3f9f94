/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tool list as a file: INI, CSV or an asset of MTConnect, told apart by how it begins. */
#ifndef BITE_LIBRARY_TOOL_LIST_H
#define BITE_LIBRARY_TOOL_LIST_H

#include "core/base/memory.h"
#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>

/** Reads a tool list as a table of tools. Nothing is read unless all is sound. *table: owned,
 * bite_table_free. BITE_BAD_FILE with file, line, tool and column. */
bite_status bite_tool_list_open(const bite_allocator *allocator, const char *path,
                                bite_table **table, bite_error *error);

#endif
