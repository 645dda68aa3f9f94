/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spring passes of a job: when a finishing pass wants one, and what it says. The error after them
 * is that of the cut with so many (core/cut/block/spring_block.c). */
#include "core/job/spring_plan.h"
#include "core/job/job_file.h"
#include "core/job/remarks.h"
#include "core/job/thin_plan.h"
#include <math.h>

static const double tolerated_share = 0.25; /* of the tolerance, plus or minus (estimate) */
static const double least_gain = 0.2;       /* of what a lap leaves: less is rubbing (estimate) */
enum { SPRINGS_MOST = 3 };                  /* common practice: one or two */

/* What a lap leaves on the wall: the tool and the thin wall beside it give way to one force. No
 * less than the thinnest chip that forms: what is thinner is pressed aside. */
double bite_plan_lap_leaves(const bite_job *job, size_t index, const bite_answer *answer)
{
    const bite_limit *limits = answer->result.limits;
    bite_thin_wall wall;
    if (job->passes[index].work != BITE_WORK_FINISH || !limits[BITE_LIMIT_DEFLECTION].applies) {
        return (double)NAN;
    }
    int thin = bite_plan_thin_wall(job, index, &wall) && limits[BITE_LIMIT_PART_BEND].applies;
    double left =
        limits[BITE_LIMIT_DEFLECTION].demand + (thin ? limits[BITE_LIMIT_PART_BEND].demand : 0.0);
    return fmax(left, answer->result.values[BITE_CHIP_THICKNESS_LEAST].value);
}

/* Whether what the wall is off by exceeds its tolerance in too many cases. */
static int is_off(const bite_answer *answer)
{
    static const bite_limit_id of_wall[] = {BITE_LIMIT_DEFLECTION, BITE_LIMIT_PART_BEND};
    int off = 0;
    for (size_t i = 0; i < sizeof of_wall / sizeof *of_wall; i++) {
        const bite_limit *limit = &answer->result.limits[of_wall[i]];
        off |= limit->applies && !limit->advisory && limit->verdict > BITE_CLEAR;
    }
    return off;
}

int bite_plan_wants_spring(const bite_planned_pass *pass)
{
    double tolerance = pass->answer->full.tolerance; /* NaN: none is asked of the wall */
    return pass->springs < SPRINGS_MOST && !isnan(tolerance) && !isnan(pass->spring_leaves) &&
           (pass->spring_leaves > tolerated_share * tolerance || is_off(pass->answer));
}

/* The chance that the wall is off; without draws its share of the tolerance. */
static double risk_of(const bite_answer *answer)
{
    const bite_limit *tool = &answer->result.limits[BITE_LIMIT_DEFLECTION];
    const bite_limit *wall = &answer->result.limits[BITE_LIMIT_PART_BEND];
    double of_tool = isnan(tool->chance) ? tool->utilization : tool->chance;
    double of_wall = isnan(wall->chance) ? wall->utilization : wall->chance;
    return wall->applies ? fmax(of_tool, of_wall) : of_tool;
}

int bite_plan_spring_gains(const bite_planned_pass *before, const bite_answer *answer,
                           double leaves)
{
    double risk = risk_of(before->answer);
    int off = is_off(before->answer);
    return off ? risk_of(answer) < (1.0 - least_gain) * risk
               : leaves < (1.0 - least_gain) * before->spring_leaves && !is_off(answer);
}

bite_status bite_plan_springs(bite_job *job, bite_error *error)
{
    (void)error;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double tolerated = tolerated_share * pass->answer->full.tolerance;
        const bite_remark_value values[] = {
            bite_remark_text(pass->title), bite_remark_number(pass->first_leaves),
            bite_remark_number(pass->springs), bite_remark_number(pass->spring_leaves)};
        int enough = pass->spring_leaves <= tolerated && !is_off(pass->answer);
        if (pass->first_leaves > tolerated || pass->springs > 0) {
            bite_plan_remark(job, enough ? BITE_REMARK_SPRINGS : BITE_REMARK_SPRINGS_DO_NOT_HELP,
                             values, 4);
        }
    }
    return BITE_OK;
}
