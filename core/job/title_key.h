/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job's title as the key under which its time is kept. */
#ifndef BITE_JOB_TITLE_KEY_H
#define BITE_JOB_TITLE_KEY_H

#include "core/base/memory.h"

#define BITE_TITLE_NAME_MAX 60

/**
 * A short name for people, "lens-1-2": small letters, digits and dashes, ended by 0. Titles that
 * differ only in marks or case have the same; what does not fit, and what has other letters, stays
 * apart by a number made of all bytes. Tables that have no titles are read by it.
 */
void bite_title_name(const char *title, char name[BITE_TITLE_NAME_MAX]);

/**
 * The whole title as it stands in a quoted value of a table; no two titles have the same.
 *
 * A title may be a file's name: what a value cannot hold (quotes, backslashes, control characters,
 * what is not UTF-8, blanks at its ends) becomes %22 and the like, and so does a percent sign that
 * would be read as one of these. In the arena; NULL: no memory.
 */
const char *bite_title_value(bite_arena *arena, const char *title);

#endif
