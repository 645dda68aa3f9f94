/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How characteristics and readings of a record are shown. */
#ifndef BITE_CLI_MEASURE_TEXT_H
#define BITE_CLI_MEASURE_TEXT_H

#include <coolbite/coolbite.h>
#include <stddef.h>

#define MEASURE_LENGTH 64 /* bytes of a length as text, with the 0 */

/** A length in the record's units: mm with four decimals, inches with five, without zeros at the
 * end. */
void measure_length(double length, uint32_t units, char text[MEASURE_LENGTH]);

/** The limits of a characteristic: "29.9 to 30.1 mm", "at most 0.1 mm", "accept or reject". */
void measure_limits(const bite_characteristic *characteristic, uint32_t units, char *text,
                    size_t size);

/** How a reading lies to its limits, in words, with its value at 20 degC if that was computed. */
void measure_verdict(const bite_characteristic *characteristic, const bite_review *review,
                     uint32_t units, char *text, size_t size);

/** "LC-7 lens cover": number and name of the part, or the job, or "part". */
void measure_part(const bite_record *record, char *text, size_t size);

#endif
