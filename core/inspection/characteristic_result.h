/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges one characteristic of a record. */
#ifndef BITE_INSPECTION_CHARACTERISTIC_RESULT_H
#define BITE_INSPECTION_CHARACTERISTIC_RESULT_H

#include "core/inspection/gauge_readings.h"
#include "core/inspection/record_model.h"
#include "core/inspection/size_verdict.h"
#include "core/inspection/wear_offset.h"
#include "core/statistics/capability.h"
#include "core/statistics/moments.h"

/** A reading that stands; of others finding is BITE_FINDING_NONE. */
typedef struct bite_reading_result {
    uint32_t finding; /* a bite_finding */
    uint32_t reserved;
    double chance;       /* that the size conforms, nothing else known of it; NaN */
    double chance_known; /* the same with the spread of the other parts; NaN: not known */
} bite_reading_result;

/** A part as a characteristic shows it. The mean of its readings counts for the spread of the
 * parts; the worst of them for the finding, because repeats may be places of the part. */
typedef struct bite_part_value {
    uint32_t part;
    uint32_t count; /* of readings */
    uint32_t finding;
    uint32_t first; /* of its readings, in the list of the characteristic's readings */
    double value;   /* mean of the readings */
    double least;
    double most;
    double uncertainty;  /* standard, the largest of a reading; NaN: not known */
    double time;         /* of its first reading; NaN */
    double chance;       /* the least of its readings */
    double chance_known; /* the same */
} bite_part_value;

typedef struct bite_characteristic_result {
    size_t stands; /* readings, by state */
    size_t replaced;
    size_t withdrawn;
    size_t skipped;
    size_t planned;                /* parts to be measured; 0: not stated */
    size_t missing;                /* of these, without a reading that stands */
    const bite_reading **readings; /* those that stand, in order of part and line */
    bite_part_value *parts;        /* in the order in which they were made */
    const double *values;          /* of the parts, in the same order */
    size_t part_count;
    size_t found[BITE_FINDING_COUNT]; /* parts by finding */
    uint32_t finding;
    uint32_t by_time; /* 1: the order is that of the readings' times; 0: of the parts' numbers */
    bite_moments moments; /* of the parts */
    double uncertainty;   /* the largest of a reading; NaN: one is not known */
    double guard;         /* guard band for it; NaN */
    double ratio;         /* tolerance over 4 standard uncertainties; NaN */
    uint32_t spread;      /* a bite_spread_state */
    uint32_t has_risk;    /* 1: risk is that of the guard bands with the spread of the parts */
    bite_conformity_risk risk;
    uint32_t has_capability;
    uint32_t reserved;
    bite_capability capability;
    bite_gauge_result gauge;
    bite_wear_offset offset;
} bite_characteristic_result;

/** Judges the characteristic of an index; readings: as the record's, of which those of this
 * characteristic are written. Lists are allocated in the arena. BITE_NO_MEMORY. */
BITE_CHECKED bite_status bite_characteristic_judge(const struct bite_record *record,
                                                   size_t characteristic, bite_arena *arena,
                                                   bite_reading_result *readings,
                                                   bite_characteristic_result *result,
                                                   bite_error *error);

/** The parts that a characteristic is to be measured on: the first, each `every`-th after it and
 * the last; 0: it is not stated how many there are. */
size_t bite_planned_parts(double count, uint32_t every);

#endif
