/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The record of what was measured: a head that says what is to be measured, and lines that are only
 * ever appended.
 *
 * A line that is damaged, missing or not understood may have been a reading, or the correction of
 * one. The others stay; but until a person has settled it (a line `undo` of its number), the record
 * as a whole proves nothing: bite_record_unsettled.
 */
#ifndef BITE_INSPECTION_RECORD_MODEL_H
#define BITE_INSPECTION_RECORD_MODEL_H

#include "core/base/memory.h"
#include "core/inspection/measured.h"
#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

#define BITE_CHARACTERISTICS_MAX 150 /* a head has at most 4000 keys */

/** A characteristic of a record. Texts are owned by the record, never NULL. Lengths m, temperatures
 * K, NaN: not stated. */
typedef struct bite_characteristic {
    uint32_t number;   /* of the characteristic, as in the job's inspection plan; from 1 */
    uint32_t measures; /* a bite_measured */
    uint32_t judged;   /* 1: accepted or rejected, has no number */
    uint32_t every;    /* measured on each so many parts, the first and the last; at least 1 */
    uint32_t pass;     /* number of the pass of the plan that makes the size; 0: not stated */
    uint32_t reserved;
    const char *what;
    const char *zone;
    const char *designator;
    const char *note;
    const char *limits_from;      /* "stated", "ISO 2768-1 m" ... */
    const char *instrument;       /* name in the tables; "" */
    const char *instrument_title; /* for people */
    const char *pass_title;
    const char *tool;
    double nominal;
    double lower;
    double upper;
    double uncertainty; /* standard, of one reading; NaN: not known */
    double resolution;
    double instrument_expansion; /* 1/K */
    double expansion;            /* of the part's material, 1/K */
    double expansion_spread;     /* its standard uncertainty */
    double pressed;              /* by which the instrument's force changes the reading; 0 */
    double wall_error;           /* predicted for that pass, best estimate, and its band */
    double wall_error_low;
    double wall_error_high;
} bite_characteristic;

typedef enum bite_reading_state {
    BITE_READING_STANDS = 0,
    BITE_READING_REPLACED = 1,  /* a later line corrects it; it stays in the file */
    BITE_READING_WITHDRAWN = 2, /* undone */
    BITE_READING_SKIPPED = 3    /* no value: the person passed over it, with the reason in note */
} bite_reading_state;

typedef struct bite_reading {
    uint64_t line;           /* of the file, from 1 */
    uint64_t replaces;       /* line of the reading that it corrects; 0 */
    uint64_t closed_by;      /* line that corrects or withdraws it; 0 */
    uint32_t characteristic; /* index into characteristics */
    uint32_t part;           /* 1, 2 ... */
    uint32_t trial;          /* 1, 2 ...: repeats of one person on one part; 0: skipped */
    uint32_t state;          /* a bite_reading_state */
    uint32_t corrected;      /* 1: value_20 is corrected to 20 degC; 0: it is the value itself */
    uint32_t reserved;
    const char *text;      /* the value as it was typed, with its unit; "" if it was skipped */
    const char *person;    /* "" */
    const char *note;      /* "" */
    double value;          /* as read, m (a judged one: 1 accepted, 0 rejected); NaN: skipped */
    double temperature;    /* of the part, K; NaN */
    double time;           /* seconds since 1970 UTC; NaN */
    double value_20;       /* corrected to 20 degC; value if no temperature or expansion is known */
    double uncertainty_20; /* standard, with what temperature and correction add; NaN: not known */
} bite_reading;

/** Lines that cannot be used. */
typedef struct bite_record_damage {
    uint64_t first; /* their numbers */
    uint64_t last;
    uint32_t place;   /* the line of the file at which it shows */
    uint32_t settled; /* 1: a person has settled it since */
    const char *message;
    const char *hint;
} bite_record_damage;

struct bite_record {
    /* head: texts "" if not stated */
    const char *job, *part_name, *part_number, *revision, *serial, *material, *lot, *machine;
    const char *customer, *order, *organization, *drawing, *report_number, *certificate, *note;
    double count;                   /* parts ordered; NaN */
    double temperature_uncertainty; /* K, standard, of a temperature that was noted */
    uint32_t units;                 /* in which it is shown, a bite_units */
    uint32_t sealed;                /* 1: a line of the file holds the checksum of the head */
    bite_characteristic *characteristics;
    size_t characteristic_count;
    bite_reading *readings;
    size_t reading_count; /* all lines, in the order of the file */
    bite_record_damage *damages;
    size_t damage_count;
    uint64_t torn_line; /* a last line that was cut off and is ignored; 0: none */

    /* the reader's */
    bite_allocator allocator;
    bite_arena *arena;
    const char *path;
    size_t reading_capacity;
    size_t damage_capacity;
    uint32_t head_checksum; /* of the bytes of the head */
    uint32_t seal;          /* what the last seal says it was */
    uint32_t lines;         /* complete lines of the file that were read */
    int file;               /* open for appending; -1: not */
    uint64_t number;        /* of the last line */
    uint64_t size;          /* bytes of the file that were read, in complete lines */
    uint32_t marked;        /* 1: the file has the line [readings] */
    uint32_t unended;       /* 1: its last line is whole but has no line end */
    uint64_t torn_size;     /* bytes of the torn line */
};

#endif
