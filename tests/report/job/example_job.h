/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job made by hand: two setups, six parts, answers as the engine gives them. */
#ifndef BITE_TESTS_REPORT_JOB_EXAMPLE_JOB_H
#define BITE_TESTS_REPORT_JOB_EXAMPLE_JOB_H

#include "core/job/plan.h"

#define MADE_PASSES 8
#define MADE_TOOLS 4

typedef struct made_job {
    struct bite_job job;
    bite_planned_pass passes[MADE_PASSES];
    bite_planned_tool tools[MADE_TOOLS];
    bite_planned_check checks[5];
    bite_remark remarks[8];
} made_job;

/** Texts that look like markup, and invalid UTF-8. */
extern const char made_title[];
extern const char made_pass_title[];
extern const char made_note[];

/** hostile: titles and notes are such texts. Free it with made_job_free before the library closes.
 */
void made_job_fill(made_job *made, const bite_library *library, size_t draws, bite_units units,
                   int hostile);
void made_job_free(made_job *made);

#endif
