/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The gate before iniparser: our own scan of the bytes with line and column, then iniparser on the
 * same bytes.
 *
 * What passes: UTF-8 without NUL, BOM, control characters or marks that turn the direction of
 * writing (core/base/text.h), at most 1 MiB, lines of at most 1000 bytes, at most 4000 keys,
 * sections [a-z0-9_.-]+ and keys [a-z0-9_.]+ in lower case, no section or key twice, values without
 * tabs, either wholly in double quotes (without " or \ inside) or free of ; # " \. Comments stand
 * on lines of their own and begin with #.
 */
#ifndef BITE_TABLES_INI_H
#define BITE_TABLES_INI_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

typedef struct bite_ini bite_ini;

typedef struct bite_ini_entry {
    const char *section; /* borrowed until the ini is freed, as all here */
    const char *key;     /* NULL: the section's own line */
    const char *value;   /* as iniparser gives it; "" where empty; NULL: it was there and is wrong,
                            which was said */
    uint32_t line;
    uint32_t column; /* of the value's first character, from 1 */
} bite_ini_entry;

/** Every fault of a file, in order. */
typedef void (*bite_ini_fault)(void *user, const bite_error *fault);

/** Reads and gates a file. Every fault goes to `fault` (may be NULL), the first to error with the
 * count. *ini: owned, bite_ini_free; it is there beside BITE_BAD_FILE too, with what could be read,
 * for a reader that has more to say. */
bite_status bite_ini_open(const bite_allocator *allocator, const char *path, bite_ini_fault fault,
                          void *user, bite_ini **ini, bite_error *error);
/** The same from bytes; path is for messages. */
bite_status bite_ini_parse(const bite_allocator *allocator, const char *text, size_t size,
                           const char *path, bite_ini_fault fault, void *user, bite_ini **ini,
                           bite_error *error);
void bite_ini_free(bite_ini *ini);

/** Whether some section's name could not be read: what seems to be missing may stand in it. */
bool bite_ini_has_unread_sections(const bite_ini *ini);

const char *bite_ini_path(const bite_ini *ini);
size_t bite_ini_count(const bite_ini *ini); /* entries, in the file's order */
const bite_ini_entry *bite_ini_at(const bite_ini *ini, size_t index); /* NULL beyond the last */
const bite_ini_entry *bite_ini_find(const bite_ini *ini, const char *section,
                                    const char *key); /* key NULL: the section; NULL: none */

#endif
