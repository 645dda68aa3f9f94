/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A section: its values by key, and two sections in one. */
#ifndef BITE_TABLES_SECTION_H
#define BITE_TABLES_SECTION_H

#include "core/base/memory.h"
#include "core/tables/table_schema.h"
#include <stdbool.h>

/** The value of a key; NULL: not stated. */
const bite_field_value *bite_section_value(const bite_section *section, const char *key);

/** What a section takes from another. */
typedef enum bite_merge {
    BITE_MERGE_SAME,  /* the same section of another file: every key that it does not state */
    BITE_MERGE_PARENT /* one that it is like: not the keys that name or describe a section; and
                         `like` is done with */
} bite_merge;

/** Adds to a section the values of another that it does not state, behind its own. False: no
 * memory, and the section is as it was. */
bool bite_section_merge(bite_arena *arena, bite_section *section, const bite_section *other,
                        bite_merge merge);

#endif
