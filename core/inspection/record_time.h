/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times in a record: UTC to the second, as ISO 8601 writes them. */
#ifndef BITE_INSPECTION_RECORD_TIME_H
#define BITE_INSPECTION_RECORD_TIME_H

#include <stdbool.h>
#include <stddef.h>

#define BITE_RECORD_TIME_MAX 40 /* bytes of such a time, with the 0 */

/** Reads "2026-11-30T19:25:49Z"; *seconds: since 1970. False: it is not one. */
bool bite_record_time_read(const char *text, size_t length, double *seconds);

/** Writes a time; whole seconds of the years 1970 to 9999, others as the nearest of these. */
void bite_record_time_write(double seconds, char text[BITE_RECORD_TIME_MAX]);

#endif
