/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The title of a job as the key of its time. */
#ifndef BITE_JOB_TITLE_KEY_H
#define BITE_JOB_TITLE_KEY_H

#include "core/base/memory.h"

#define BITE_TITLE_NAME_MAX 60

/**
 * A short readable name, "lens-1-2": lower-case letters, digits and dashes, ended by 0. Titles that
 * differ only in punctuation or case share it; a title that does not fit or has other letters is
 * made distinct by a number computed from all bytes. It identifies records that have no title.
 */
void bite_title_name(const char *title, char name[BITE_TITLE_NAME_MAX]);

/**
 * The whole title as a quoted value of a table; no two titles have the same value.
 *
 * A title may be the name of a file: whatever a value cannot contain (quotes, backslashes, control
 * characters, invalid UTF-8, blanks at its ends) becomes %22 and the like, and so does a percent
 * sign that would be read as one of these. In the arena; NULL: no memory.
 */
const char *bite_title_value(bite_arena *arena, const char *title);

#endif
