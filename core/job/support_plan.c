/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Settings of a pass over a floor that nothing supports yet.
 *
 * What is clear over such a floor may crawl: where support is advised, the settings are those of
 * the supported cut, which is what is meant to be run. They are judged without the support, and so
 * over, until the job states it.
 */
#include "core/job/support_plan.h"
#include "core/job/cycle_time.h"
#include "core/job/path_plan.h"
#include "core/job/thin_plan.h"
#include <math.h>
#include <string.h>

static const double much_slower = 2.0; /* than with support (estimate): worth the tape */

/* The time of the pass with an answer, on all parts. */
static double seconds_with(bite_job *job, size_t index, bite_answer *answer, size_t passes)
{
    bite_planned_pass *pass = &job->passes[index];
    const bite_planned_pass before = *pass;
    pass->answer = answer;
    pass->passes = (uint32_t)passes;
    bite_plan_path(job, index);
    double seconds = bite_plan_pass_seconds(job, index);
    *pass = before;
    return seconds;
}

/* The settings of one answer over the floor as it is. */
static bite_status judge_bare(const bite_job *job, size_t index, const bite_answer *supported,
                              bite_answer **bare, bite_error *error)
{
    bite_request request = supported->request;
    bite_status status = bite_plan_set_thin(job, index, BITE_SUPPORT_NONE, &request, error);
    return status != BITE_OK ? status
                             : bite_answer_new(&request, job->draws, job->confidence, bare, error);
}

/* The first support with which the pass is clear, of those that shops use: tape, then wax.
 * *support: the first to try, and that one. *supported: NULL if none is. */
static bite_status find_support(const bite_job *job, size_t index, uint32_t *support,
                                bite_answer **supported, size_t *passes, bite_error *error)
{
    for (;;) {
        bite_status status = bite_plan_with_support(job, index, *support, supported, passes, error);
        if (status != BITE_OK && status != BITE_NO_ANSWER) {
            return status;
        }
        if (*supported != NULL && (*supported)->result.verdict == BITE_CLEAR) {
            return BITE_OK;
        }
        bite_answer_free(*supported);
        *supported = NULL;
        if (*support != BITE_SUPPORT_TAPE) {
            return BITE_OK;
        }
        *support = BITE_SUPPORT_WAX;
    }
}

bite_status bite_plan_assume_support(bite_job *job, size_t index, bite_answer **answer,
                                     size_t *passes, bite_error *error)
{
    bite_planned_pass *pass = &job->passes[index];
    uint32_t support = pass->chosen ? bite_plan_wants_support(job, index) : BITE_SUPPORT_NONE;
    bite_answer *supported = NULL;
    *answer = NULL;
    memset(&pass->support, 0, sizeof pass->support);
    if (support == BITE_SUPPORT_NONE) {
        return BITE_OK;
    }
    bite_status status = find_support(job, index, &support, &supported, passes, error);
    if (status != BITE_OK || supported == NULL) {
        return status;
    }
    double alone = seconds_with(job, index, pass->answer, pass->passes);
    double with = seconds_with(job, index, supported, *passes);
    int crawls = pass->answer->result.verdict != BITE_CLEAR || alone > much_slower * with;
    status = crawls ? judge_bare(job, index, supported, answer, error) : BITE_OK;
    bite_answer_free(supported);
    int over =
        *answer != NULL && (*answer)->result.limits[BITE_LIMIT_PART_BEND].verdict == BITE_OVER;
    if (!over) { /* the floor bears these settings in most cases: the pass keeps its own */
        bite_answer_free(*answer);
        *answer = NULL;
        return status;
    }
    const bite_planned_support assumed = {support, pass->passes, pass->answer->full.depth, alone};
    pass->support = assumed;
    return status;
}
