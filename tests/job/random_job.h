/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random job files that are valid: of all works, workholdings, units and most materials. */
#ifndef BITE_TESTS_JOB_RANDOM_JOB_H
#define BITE_TESTS_JOB_RANDOM_JOB_H

#include "tests/job/job_fixture.h"
#include <stdint.h>

/** The text of the job with this number, the same on every machine; owned, release with
 * free(text). */
growing_text random_job_text(uint64_t number);

#endif
