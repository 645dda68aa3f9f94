/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A job file, read: what is to be made, of what, on what, with what.
 *
 * Every fault of the file is said at once: what the form of the file tells (unknown keys, bad
 * quantities) and what only its sense tells (a pass deeper than the part, a tool that is not
 * there). Nothing is chosen here.
 */
#ifndef BITE_JOB_JOB_FILE_H
#define BITE_JOB_JOB_FILE_H

#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>

#define BITE_PASSES_MAX 256
#define BITE_CHECKS_MAX 64
#define BITE_TOOLS_AT_HAND_MAX 64 /* tools at hand */

/** What is done in a pass. */
typedef enum bite_work {
    BITE_WORK_FACE = 0,
    BITE_WORK_ROUGH,
    BITE_WORK_SLOT,
    BITE_WORK_POCKET,
    BITE_WORK_BORE,
    BITE_WORK_DRILL,
    BITE_WORK_CONTOUR,
    BITE_WORK_FINISH,
    BITE_WORK_CHAMFER,
    BITE_WORK_FREE, /* cut free of the sheet */
    BITE_WORK_COUNT
} bite_work;

typedef struct bite_job_file {
    bite_table *table;
    const bite_section *job; /* NULL: the file has no such section, as all here */
    const bite_section *part;
    const bite_section *stock;
    const bite_section *machine;
    const bite_section *tools;
    const bite_section *hold;
    const bite_section *fluids;
    const bite_section *passes[BITE_PASSES_MAX];
    size_t pass_count;
    const bite_section *checks[BITE_CHECKS_MAX];
    size_t check_count;
} bite_job_file;

/** Reads a file, or bytes (path NULL: bytes). Faults go to `fault`; error has the first and their
 * count. BITE_BAD_FILE: there were any; then there is no order. order->table is owned:
 * bite_job_file_free. */
bite_status bite_job_file_open(const bite_library *library, const char *path, const char *bytes,
                               size_t size, bite_ini_fault fault, void *user, bite_job_file *file,
                               bite_error *error);
void bite_job_file_free(bite_job_file *file);

/** The number, text or word of a key; NaN, NULL or otherwise where it is not stated. section may be
 * NULL. */
double bite_job_file_number(const bite_section *section, const char *key);
const char *bite_job_file_text(const bite_section *section, const char *key);
uint32_t bite_job_file_word(const bite_section *section, const char *key, uint32_t otherwise);

/** The index-th blank-separated name of a text; 0: there are no more. */
int bite_job_file_name(const char *text, size_t index, char *name, size_t size);

/** How deep a pass may go into a sheet so thick: a cut or hole that goes through ends a little
 * below it. */
double bite_job_file_deepest(uint32_t work, double thick);

/** The word of a work ("face"), and what is done in it, for people. NULL beyond the last. */
const char *bite_work_word(uint32_t work);
const char *bite_work_title(uint32_t work);

#endif
