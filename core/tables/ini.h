/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * INI files. Our own check passes the bytes (ini_gate.h has its rules), iniparser reads them, and
 * the values are iniparser's, with the line and column of each.
 */
#ifndef BITE_TABLES_INI_H
#define BITE_TABLES_INI_H

#include "core/base/memory.h"
#include "core/tables/ini_check.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

typedef struct bite_ini bite_ini;

/** Checks and reads a file. Every fault goes to `fault` (may be NULL), the first to error with
 * their count. *ini: owned, to be freed with bite_ini_free; it is there beside BITE_BAD_FILE too,
 * with what could be read, for a reader that has more faults to tell. BITE_IO: the file, or the
 * private copy that iniparser is given, could not be read. */
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
/** The index behind the last entry that may be of the section whose own line is entry `head`. */
size_t bite_ini_section_end(const bite_ini *ini, size_t head);
/** The key of the section whose own line is entry `head`; NULL: none. */
const bite_ini_entry *bite_ini_find_in_section(const bite_ini *ini, size_t head, const char *key);
const bite_ini_entry *bite_ini_find(const bite_ini *ini, const char *section,
                                    const char *key); /* key NULL: the section; NULL: none */

#endif
