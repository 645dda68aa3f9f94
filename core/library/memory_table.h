/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables from memory, which are found before those in the folders of the search path. */
#ifndef BITE_LIBRARY_MEMORY_TABLE_H
#define BITE_LIBRARY_MEMORY_TABLE_H

#include "core/library/library_internal.h"
#include <stddef.h>

/** A table of a name ("materials/soap.ini"), the one added last first; NULL: there are no more.
 * Borrowed until the library closes. */
const bite_memory_table *bite_memory_table_at(const bite_library *library, const char *name,
                                              size_t index);

#endif
