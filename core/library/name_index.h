/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names in a table of a material, found in one pass over its lines: a table is parsed only if
 * it may hold the name that is asked for. */
#ifndef BITE_LIBRARY_NAME_INDEX_H
#define BITE_LIBRARY_NAME_INDEX_H

#include "core/base/memory.h"
#include "core/library/library_internal.h"
#include <stdbool.h>
#include <stddef.h>

/** Adds the names in the bytes of a table, which must outlive the index: names of the family, and
 * tails, titles and other names of its grades. Nothing is checked here beyond what decides whether
 * a name can be told; index->doubtful: some line may hold a name that is not in the index. False:
 * no memory. */
bool bite_name_index_add(bite_arena *arena, bite_name_index *index, const char *text, size_t size);

/** Whether a family may have the name, or, with grades, one of its grades. Never false where the
 * full reading of sound tables would find it. */
bool bite_name_index_has(const bite_name_index *index, const char *name, bool grades);

/** Whether a name occurs anywhere in a text, ignoring ASCII case. */
bool bite_name_occurs(const char *text, size_t size, const char *name);

#endif
