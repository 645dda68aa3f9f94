/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A library for tests of jobs, and helpers that plan, write and check. */
#ifndef BITE_TESTS_JOB_JOB_FIXTURE_H
#define BITE_TESTS_JOB_JOB_FIXTURE_H

#include "core/job/plan.h"
#include "core/job/planner.h"
#include "tests/support/test_tables.h"
#include <jansson.h>

#define HEAD "[format]\nkind = job\nversion = 1\n"
#define ACRYLIC "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n"
#define GIVEN "spindle = 9000rpm\nfeed = 300mm/min\n"
#define ONE_PASS "[pass.a]\nwork = cut-free\ntool = 2mm\n" GIVEN

/** The shop and its library between job_setup and job_teardown. */
extern bite_test_shop job_shop;
extern bite_library *job_library;
void job_setup(void);
/** The same for a shop that has drills, threads and what is usual in holes too. */
void job_setup_holes(void);
void job_teardown(void);

/** Opens the library again with a table of the shop's own, such as "machines.ini", before those of
 * the project. */
void job_own_table(const char *file, const char *text);

bite_job_options job_options(size_t draws);

/** The faults that were reported. */
typedef struct fault_list {
    uint32_t count;
    uint32_t lines[300];
    char texts[300][400];
} fault_list;

/** A bite_fault_sink that stores them in a fault_list. */
void hear_fault(void *user, const bite_error *fault);

/** The faults of a file that is refused; static storage. */
fault_list *faults_of(const char *text, size_t size, bite_error *error);

/** Fails unless the file has exactly one fault, on that line, whose text contains `says`. */
void assert_refused(const char *text, uint32_t line, const char *says);

/** A planned job, owned; fails if it cannot be planned. */
bite_job *plan_with(const char *text, const bite_job_options *options);
bite_job *plan(const char *text);
bite_job *plan_of(const char *format, ...) __attribute__((format(printf, 1, 2)));

/** The first remark about a subject whose words contain `says`; NULL: none. */
const bite_remark *remark_of(const bite_job *job, const char *about, const char *says);

/** A text that a sink stores; the sink fails after `most` bytes. */
typedef struct kept_text {
    char *text;
    size_t size;
    size_t most;
    size_t capacity;
} kept_text;
int keep_text(void *user, const char *text, size_t size);

/** The job in a format; owned, release with free. */
char *write_as(const bite_job *job, uint32_t format, uint32_t ascii);
json_t *json_of(const bite_job *job);

/** Fails unless the plan is consistent, and the written forms agree with it. */
void check_plan(const bite_job *job);

/** The index of the pass with this name. */
size_t place_of(const bite_job *job, const char *name);

size_t count_of(const char *text, const char *word);

/** A text that grows; free(text). */
typedef struct growing_text {
    char *text;
    size_t size;
    size_t capacity;
} growing_text;
void append(growing_text *to, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
