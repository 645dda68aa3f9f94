/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job with fixed contents: two setups, six parts, answers of the library. */
#ifndef BITE_TESTS_REPORT_JOB_EXAMPLE_JOB_H
#define BITE_TESTS_REPORT_JOB_EXAMPLE_JOB_H

#include "core/job/plan.h"

#define EXAMPLE_PASSES 8
#define EXAMPLE_TOOLS 4

typedef struct example_job {
    struct bite_job job;
    bite_planned_pass passes[EXAMPLE_PASSES];
    bite_planned_tool tools[EXAMPLE_TOOLS];
    bite_planned_check checks[5];
    bite_remark remarks[8];
    bite_fluid_rating bench_fluids[4];
} example_job;

/** Texts that look like markup, and invalid UTF-8. */
extern const char hostile_title[];
extern const char hostile_pass_title[];
extern const char hostile_note[];

/** Fills the job; hostile: with the texts above as titles and notes. Free it with example_job_free
 * before the library is closed. */
void example_job_fill(example_job *example, const bite_library *library, size_t draws,
                      bite_units units, int hostile);
void example_job_free(example_job *example);

#endif
