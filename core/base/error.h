/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Filling the caller's bite_error: what is wrong, where, what was expected, what to do. */
#ifndef BITE_BASE_ERROR_H
#define BITE_BASE_ERROR_H

#include <coolbite/coolbite.h>

#if defined(__GNUC__)
#define BITE_FORMAT(at, first) __attribute__((format(printf, at, first)))
#else
#define BITE_FORMAT(at, first)
#endif

/* In all of these error may be NULL, and texts are escaped so that they can be displayed. A text
 * that is too long is truncated before the first character that does not fit. */

/** Empties error, except struct_size. */
void bite_error_clear(bite_error *error);

/** Makes error a copy of another one, except struct_size. faults: their number; 0: as in it. */
void bite_error_copy(bite_error *error, const bite_error *from, uint32_t faults);

/** Empties error, sets status and message, counts one fault, and returns status. */
bite_status bite_error_set(bite_error *error, bite_status status, const char *format, ...)
    BITE_FORMAT(3, 4);

/** Adds the key or the hint to the error that was just set. */
void bite_error_key(bite_error *error, const char *format, ...) BITE_FORMAT(2, 3);
void bite_error_hint(bite_error *error, const char *format, ...) BITE_FORMAT(2, 3);

/** The reason of an errno. Returns buffer, or a text that stays for ever. */
const char *bite_error_reason(int number, char *buffer, size_t size);

/** Adds the place: the path (its front is dropped if it is too long; NULL: unchanged), and line and
 * column from 1 (0: none). */
void bite_error_place(bite_error *error, const char *file, uint32_t line, uint32_t column);

#endif
