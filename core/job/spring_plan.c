/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spring passes of a job. */
#include "core/job/spring_plan.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/job/remarks.h"
#include "core/job/thin_plan.h"
#include "core/names/registry.h"
#include "core/units/format_quantity.h"
#include <math.h>

static const double tolerated_share = 0.25; /* of the tolerance, plus or minus (estimate) */
static const double least_gain = 0.2;       /* of what a lap leaves: less is rubbing (estimate) */
enum { SPRINGS_MOST = 3 };                  /* common practice: one or two */

/* What a lap leaves on the wall, m: the tool and the thin wall beside it give way to one force. No
 * less than the thinnest chip that forms: what is thinner is pressed aside. */
static double left_by(const bite_job *job, size_t index, const bite_answer *answer)
{
    const bite_limit *limits = answer->result.limits;
    bite_thin_wall wall;
    int thin = bite_plan_thin_wall(job, index, &wall) && limits[BITE_LIMIT_PART_BEND].applies;
    double left =
        limits[BITE_LIMIT_DEFLECTION].demand + (thin ? limits[BITE_LIMIT_PART_BEND].demand : 0.0);
    return fmax(left, answer->result.values[BITE_CHIP_THICKNESS_LEAST].value);
}

/* What a lap leaves that takes off what the one before has left. */
static bite_status left_after(const bite_job *job, size_t index, double *left, bite_error *error)
{
    const bite_input *range = bite_input_find("width");
    bite_request request = job->passes[index].answer->request;
    bite_answer *answer = NULL;
    double width = bite_unit_round(fmax(*left, range->least), BITE_KIND_LENGTH, "mm", 9);
    bite_status status = bite_request_set_number(&request, "width", width, error);
    status =
        status != BITE_OK ? status : bite_answer_new(&request, 0, job->confidence, &answer, error);
    if (status == BITE_OK) {
        *left = left_by(job, index, answer);
    }
    bite_answer_free(answer);
    return status;
}

static bite_status plan_pass(bite_job *job, size_t index, bite_error *error)
{
    bite_planned_pass *pass = &job->passes[index];
    double tolerance = pass->answer->full.tolerance;
    double first = left_by(job, index, pass->answer);
    double left = first;
    bite_status status = BITE_OK;
    while (status == BITE_OK && left > tolerated_share * tolerance &&
           pass->springs < SPRINGS_MOST) {
        double before = left;
        status = left_after(job, index, &left, error);
        if (!(left < (1.0 - least_gain) * before)) {
            left = before;
            break;
        }
        pass->springs++;
    }
    pass->spring_leaves = left;
    if (first > tolerated_share * tolerance) {
        const bite_remark_value values[] = {
            bite_remark_text(pass->title), bite_remark_number(first),
            bite_remark_number(pass->springs), bite_remark_number(left)};
        bite_plan_remark(job,
                         left > tolerated_share * tolerance ? BITE_REMARK_SPRINGS_DO_NOT_HELP
                                                            : BITE_REMARK_SPRINGS,
                         values, 4);
    }
    return status;
}

bite_status bite_plan_springs(bite_job *job, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < job->pass_count && status == BITE_OK; i++) {
        job->passes[i].spring_leaves = (double)NAN;
        if (job->passes[i].work == BITE_WORK_FINISH &&
            job->passes[i].answer->result.limits[BITE_LIMIT_DEFLECTION].applies) {
            status = plan_pass(job, i, error);
        }
    }
    return status;
}
