/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a record proves: of each reading, part and characteristic, and of the whole lot. */
#ifndef BITE_INSPECTION_INSPECTION_RESULT_H
#define BITE_INSPECTION_INSPECTION_RESULT_H

#include "core/inspection/characteristic_result.h"

/** A part over all characteristics. */
typedef struct bite_part_result {
    uint32_t part;
    uint32_t finding;
    size_t measured; /* characteristics with a reading */
    size_t missing;  /* characteristics that are measured on every part, without a reading */
    size_t first;    /* of its readings, in the list of the inspection */
    size_t count;
} bite_part_result;

typedef struct bite_inspection {
    const struct bite_record *record; /* borrowed */
    bite_reading_result *readings;    /* as record->readings */
    bite_characteristic_result *characteristics;
    bite_part_result *parts;      /* in order of their numbers */
    const bite_reading **by_part; /* readings that stand or were skipped, by part and line */
    size_t part_count;
    size_t found[BITE_FINDING_COUNT]; /* parts by finding */
    uint32_t finding;                 /* of the lot */
    uint32_t short_of_parts;          /* 1: fewer parts than were ordered were measured */
    size_t unsettled;                 /* damages of the record that nobody has settled */
    size_t stands;
    size_t replaced;
    size_t withdrawn;
    size_t skipped;
    size_t missing;    /* planned readings of all characteristics */
    double first_time; /* NaN: none is stated */
    double last_time;
    double coldest; /* of the parts, K; NaN */
    double warmest;
    const char **persons; /* in order of their first reading, at most BITE_PERSONS_LISTED */
    size_t person_count;
    bite_arena *arena;
} bite_inspection;

#define BITE_PERSONS_LISTED 100

/** Judges a record. *inspection: owned, bite_inspection_free; it borrows the record until then.
 * BITE_NO_MEMORY. */
BITE_CHECKED bite_status bite_inspection_new(const struct bite_record *record,
                                             bite_inspection **inspection, bite_error *error);
void bite_inspection_free(bite_inspection *inspection); /* NULL is allowed */

#endif
