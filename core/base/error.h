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

/** Empties error; NULL is fine. */
void bite_error_clear(bite_error *error);

/** Fills status and message (key, hint, file, line, column are emptied) and returns status. error
 * may be NULL. */
bite_status bite_error_set(bite_error *error, bite_status status, const char *format, ...)
    BITE_FORMAT(3, 4);

/** Adds to the error just set; NULL text or error: nothing happens. Texts that are too long are cut
 * at a UTF-8 border. */
void bite_error_key(bite_error *error, const char *format, ...) BITE_FORMAT(2, 3);
void bite_error_hint(bite_error *error, const char *format, ...) BITE_FORMAT(2, 3);

/** Where: the path (its front is cut off if it is too long), line and column from 1, 0 where there
 * is none. */
void bite_error_place(bite_error *error, const char *file, uint32_t line, uint32_t column);

#endif
