/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records for tests, made line by line. */
#ifndef BITE_TESTS_INSPECTION_RECORD_FIXTURE_H
#define BITE_TESTS_INSPECTION_RECORD_FIXTURE_H

#include "core/inspection/record.h"
#include "core/inspection/record_line.h"

/** A head with two lengths and one characteristic that is judged: 1, 2 and 5. */
extern const char record_head[];

/** The text of a record that grows. */
typedef struct record_text {
    char text[64000];
    size_t size;
    uint64_t line; /* of the last one */
} record_text;

/** The head, the mark and the seal. */
void record_text_begin(record_text *to);
/** A reading; returns its line. */
uint64_t record_text_read(record_text *to, uint32_t characteristic, uint32_t part, uint32_t trial,
                          const char *value);
/** Any line; its number is set. */
uint64_t record_text_line(record_text *to, bite_record_line line);
/** Any bytes. */
void record_text_add(record_text *to, const char *text);

/** What reading found. */
typedef struct record_faults {
    size_t count;
    bite_error first;
    bite_error last;
} record_faults;
void record_fault(void *user, const bite_error *fault);

/** Reads the text; the record must be there. Owned. */
struct bite_record *record_of(const record_text *text, record_faults *faults);

#endif
