/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings of several people of several parts as a gauge study. */
#ifndef BITE_INSPECTION_GAUGE_READINGS_H
#define BITE_INSPECTION_GAUGE_READINGS_H

#include "core/inspection/record_model.h"
#include "core/statistics/gauge_study.h"

/** Above this chance of an interaction without effect it is pooled with the repeatability (AIAG
 * MSA, 4th edition, by summaries: 0.25; memory). */
#define BITE_GAUGE_POOL 0.25

#define BITE_GAUGE_PERSONS_MAX 100
#define BITE_GAUGE_PARTS_MAX 1000

/** Why there is a gauge study or none. */
typedef enum bite_gauge_state {
    BITE_GAUGE_STUDIED,
    BITE_GAUGE_ONE_PERSON, /* or none is named */
    BITE_GAUGE_ONE_PART,
    BITE_GAUGE_NO_REPEATS, /* somebody read some part once only, or not at all */
    BITE_GAUGE_UNEVEN,     /* not everybody read every part equally often */
    BITE_GAUGE_TOO_MANY /* persons or parts: above BITE_GAUGE_PERSONS_MAX, BITE_GAUGE_PARTS_MAX */
} bite_gauge_state;

/** A gauge study. The lists are owned by the arena that it was made with. */
typedef struct bite_gauge_result {
    uint32_t state;
    size_t persons;
    size_t parts;
    size_t trials;
    const char *const *names; /* of the persons, in order of their first reading */
    bite_gauge_study variance;
    bite_gauge_study ranges;
    uint32_t has_ranges; /* 0: too many persons, parts or trials for the factors of ranges */
} bite_gauge_result;

/**
 * Arranges the standing readings of a characteristic (an index) by person, part and trial, and
 * studies them. Trials count in the order of the record. *result: written on success, also where
 * there is no study. BITE_NO_MEMORY.
 */
BITE_CHECKED bite_status bite_gauge_readings(const struct bite_record *record,
                                             size_t characteristic, bite_arena *arena,
                                             bite_gauge_result *result, bite_error *error);

#endif
