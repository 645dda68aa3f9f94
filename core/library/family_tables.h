/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a family: its tables in all folders are merged key by key, and a faulty one is left out.
 */
#ifndef BITE_LIBRARY_FAMILY_TABLES_H
#define BITE_LIBRARY_FAMILY_TABLES_H

#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>

/** Reads the tables of a family unless they have been read, and those of families that it is like.
 * Call it under the lock. A fault of a table is kept in family->left_out; of the last table of the
 * search path, on which the others rest, in family->status and family->error: then the family is
 * not usable. Only BITE_NO_MEMORY is returned. */
bite_status bite_material_read(const bite_library *library, bite_family_state *family,
                               bite_error *error);

/** Checks a table of a family by itself, from memory; name: for messages. Every fault goes to
 * `fault` (may be NULL), the first to error. Call it under the lock. BITE_BAD_FILE,
 * BITE_NO_MEMORY. */
bite_status bite_family_table_check(const bite_library *library, const char *name, const char *text,
                                    size_t size, bite_fault_sink fault, void *user,
                                    bite_error *error);

/** Looks at a family that was not used yet for all faults of what its grades are like, and of
 * figures that cannot be once they are merged: each goes to `fault`. What is wrong with one of its
 * tables by itself is left to bite_family_table_check. *count: how many. Call it under the lock.
 * Only BITE_NO_MEMORY is returned. */
bite_status bite_family_audit(const bite_library *library, bite_family_state *family,
                              bite_fault_sink fault, void *user, uint32_t *count,
                              bite_error *error);

#endif
