/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two reports that differ in one thing and in the outcome: the chance should differ the same way.
 */
#ifndef BITE_TESTS_FIELD_FIELD_FLIPS_H
#define BITE_TESTS_FIELD_FIELD_FLIPS_H

#include <stddef.h>

typedef struct field_flip {
    const char *better;
    const char *worse;
    int alike; /* the source gives no number for the difference, so both reports look the same */
} field_flip;
extern const field_flip field_flips[];
extern const size_t field_flip_count;

/** Whether the chance of the worse one is higher. inferred: judge only pairs of which a value or an
 * outcome is inferred, otherwise only the others; *judged: whether this pair was judged. */
int field_flip_is_right(size_t at, int inferred, int *judged);
/** Whether the chances of a right pair differ by less than 0.01. */
int field_flip_is_narrow(size_t at);

#endif
