/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job file states: the part, its material, the machine, the tools, the passes. */
#ifndef BITE_JOB_JOB_FILE_H
#define BITE_JOB_JOB_FILE_H

#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

#define BITE_PASSES_MAX 1000
#define BITE_CHECKS_MAX 64
#define BITE_SETUPS_MAX 20
#define BITE_OBSTACLES_MAX 64
#define BITE_TOOLS_AT_HAND_MAX 64 /* names in the key at_hand */

/** What a pass does. */
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
    BITE_WORK_FREE, /* cuts the part free of the sheet */
    BITE_WORK_TAP,
    BITE_WORK_REAM,
    BITE_WORK_THREAD_MILL,
    BITE_WORK_THREAD, /* of a file only: the plan taps or mills it */
    BITE_WORK_COUNT
} bite_work;

/** The face that is up: the words of the job key `side`. */
enum {
    BITE_SIDE_TOP,
    BITE_SIDE_BOTTOM,
    BITE_SIDE_FRONT,
    BITE_SIDE_BACK,
    BITE_SIDE_LEFT,
    BITE_SIDE_RIGHT
};

typedef struct bite_job_file {
    bite_table *table;
    const bite_section *job; /* NULL: the file has no such section; the same below */
    const bite_section *part;
    const bite_section *stock;
    const bite_section *machine;
    const bite_section *tools;
    const bite_section *hold;
    const bite_section *fluids;
    const bite_section *setups[BITE_SETUPS_MAX]; /* [setup.1] first; NULL: not in the file */
    const bite_section *passes[BITE_PASSES_MAX];
    size_t pass_count;
    const bite_section *checks[BITE_CHECKS_MAX];
    size_t check_count;
    const bite_section *obstacles[BITE_OBSTACLES_MAX]; /* [screw.NAME] and [clamp.NAME] */
    size_t obstacle_count;
} bite_job_file;

/** The number, text or word of a key; NaN, NULL or `otherwise` if it is not stated. section may be
 * NULL. */
double bite_job_file_number(const bite_section *section, const char *key);
const char *bite_job_file_text(const bite_section *section, const char *key);
uint32_t bite_job_file_word(const bite_section *section, const char *key, uint32_t otherwise);

/** The index-th blank-separated name of a text; returns 0 if there are no more. */
int bite_job_file_name(const char *text, size_t index, char *name, size_t size);

/** The pass of a name, of those that have been read; NULL. */
const bite_section *bite_job_file_pass(const bite_job_file *file, const char *name);

/** The setup that a pass states; 1 without. */
double bite_job_file_setup_of(const bite_section *pass);

/** The largest depth to which a pass may cut into a sheet of a thickness, m: a cut or hole that
 * goes through ends a little below it. */
double bite_job_file_deepest(uint32_t work, double thick);

#endif
