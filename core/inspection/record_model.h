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
#define BITE_PARTS_MAX 10000         /* as the count of a job */
#define BITE_DAMAGES_MAX 1000

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
    uint32_t parts;         /* that `done` has space for */
    uint32_t *done;  /* of each part and characteristic, readings that stand or were skipped */
    uint64_t device; /* of the file, and its inode: it must still be that file to be appended to */
    uint64_t inode;
    uint64_t number;    /* of the last line */
    uint64_t size;      /* bytes of the file that were read, in complete lines */
    uint32_t marked;    /* 1: the file has the line [readings] */
    uint32_t unended;   /* 1: its last line is whole but has no line end */
    uint64_t torn_size; /* bytes of the torn line */
};

#endif
