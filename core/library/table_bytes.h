/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bytes of a family's tables: read once, for the index of their names and for parsing. Call all
 * of it under the lock of the library. */
#ifndef BITE_LIBRARY_TABLE_BYTES_H
#define BITE_LIBRARY_TABLE_BYTES_H

#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/** Finds the tables of a family in the folders of the search path; none is opened. BITE_NO_MEMORY.
 */
bite_status bite_table_bytes_find(const bite_library *library, bite_family_state *family,
                                  bite_error *error);

/** Reads the bytes of a family's tables and indexes the names in them, unless that was done or the
 * family was parsed without a fault. A table that cannot be read sets family->unreadable.
 * BITE_NO_MEMORY. */
bite_status bite_table_bytes_index(const bite_library *library, bite_family_state *family,
                                   bite_error *error);

/** Whether a name occurs anywhere in the bytes that were read, ignoring ASCII case. */
bool bite_table_bytes_mention(const bite_family_state *family, const char *name);

/** Frees the bytes and the index of their names. */
void bite_table_bytes_free(const bite_library *library, bite_family_state *family);

#endif
