/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The check of an INI file's bytes, before iniparser is given any of them: every fault with its
 * line and column, and an index of the keys that iniparser is to read. It keeps no values.
 *
 * What passes: UTF-8 without control characters or a byte order mark, at most 1 MiB, lines of at
 * most 1000 bytes, at most 16000 sections and keys; sections [a-z0-9_.-]+ and keys [a-z0-9_.]+ of
 * at most 100 bytes, each once; values either wholly in double quotes (without " or \ inside) or
 * free of ; # " and \. Comments have lines of their own, begin with # and do not end in a
 * backslash. Of such bytes every iniparser since 4.1 reads the same, in every locale.
 */
#ifndef BITE_TABLES_INI_CHECK_H
#define BITE_TABLES_INI_CHECK_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

#define BITE_INI_SIZE_MAX ((size_t)1 << 20)
#define BITE_INI_NAME_MAX 100 /* bytes of a section's or a key's name */

/** One section or key of a file. */
typedef struct bite_ini_entry {
    const char *section; /* borrowed until the ini is freed, as all here */
    const char *key;     /* NULL: the section's own line */
    const char *value;   /* as iniparser read it, "" where empty; NULL: wrong, which was told */
    uint32_t line;
    uint32_t column; /* of the value's first character, from 1 */
} bite_ini_entry;

/** Where a value is in the bytes that were checked; text NULL: there is none to be read. */
typedef struct bite_ini_span {
    const char *text;
    size_t length;
} bite_ini_span;

/** Hears every fault of a file, in order. */
typedef void (*bite_ini_fault)(void *user, const bite_error *fault);

/** What a check found. */
typedef struct bite_ini_index {
    bite_ini_entry *entries; /* in the file's order */
    bite_ini_span *spans;    /* scratch: of entries, one for one, into the text that was checked */
    size_t count;
    size_t keys;  /* those whose value iniparser is to read */
    char *passed; /* scratch: the lines for iniparser, all of them, byte for byte, if there is no
                   * fault */
    size_t passed_size;
    bool reopened; /* some section stands twice, so that its keys are not all together */
    bool lost;     /* some section's name could not be read: what seems missing may be in it */
} bite_ini_index;

/** Checks size bytes and fills index: what is marked so in scratch, the rest in arena. path: for
 * messages. fault (may be NULL) hears every fault; the first is in error, with their count.
 * BITE_BAD_FILE: there are faults, and index holds what passed. BITE_NO_MEMORY: index is not to be
 * used. */
bite_status bite_ini_check(bite_arena *arena, bite_arena *scratch, const char *text, size_t size,
                           const char *path, bite_ini_fault fault, void *user,
                           bite_ini_index *index, bite_error *error);

/** The entry of that name; key NULL: the section's own line. NULL: there is none. */
const bite_ini_entry *bite_ini_index_find(const bite_ini_index *index, const char *section,
                                          const char *key);

/** The entry of a key of the section whose own line is entry `head`. NULL: there is none. */
const bite_ini_entry *bite_ini_index_find_in_section(const bite_ini_index *index, size_t head,
                                                     const char *key);

#endif
