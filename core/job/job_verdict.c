/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict of a whole job. */
#include "core/job/job_verdict.h"
#include "core/cut/limits.h"
#include <math.h>

static int fluid_refused(const bite_job *job)
{
    for (size_t i = 0; i < job->fluid_count; i++) {
        if (job->fluids[i].rating == BITE_RATED_NO) {
            return 1;
        }
    }
    return 0;
}

/* Passes share their uncertain inputs, and one seed gives the same draws wherever the same inputs
 * are uncertain. */
double bite_plan_joint_chance(const bite_job *job)
{
    uint32_t draws = job->passes[0].answer->result.draws;
    size_t over = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        if (draws == 0 || job->passes[i].answer->result.draws != draws ||
            job->passes[i].answer->over == NULL || job->passes[i].answer->spread_count == 0) {
            return (double)NAN;
        }
    }
    for (uint32_t at = 0; at < draws; at++) {
        int any = 0;
        for (size_t i = 0; i < job->pass_count && !any; i++) {
            any = job->passes[i].answer->over[at];
        }
        over += (size_t)any;
    }
    return (double)over / draws;
}

static uint32_t verdict_of(const bite_job *job, double chance)
{
    return chance > 0.5                      ? BITE_OVER
           : chance >= 1.0 - job->confidence ? BITE_TIGHT
                                             : BITE_CLEAR; /* NaN: it was not judged */
}

/* Clamps are judged by themselves, not on the draws of the passes, and count as independent of them
 * (estimate); bonds are a limit of the passes. */
static double with_clamps(const bite_job *job, double chance)
{
    for (uint32_t i = 0; i < job->setups; i++) {
        const bite_planned_hold *hold = &job->setup_plan[i].hold;
        int clamped = hold->hold != NULL && hold->failure_mode[0] != 0 && !isnan(hold->chance);
        chance = clamped ? 1.0 - (1.0 - chance) * (1.0 - hold->chance) : chance;
    }
    return chance;
}

static void judge_setup(const bite_job *job, bite_planned_setup *setup)
{
    setup->verdict = verdict_of(job, setup->hold.chance);
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].setup == setup->number) {
            setup->verdict =
                bite_verdict_worse(setup->verdict, job->passes[i].answer->result.verdict);
        }
    }
    if (setup->hold.refused || setup->hold.strikes) {
        setup->verdict = BITE_OVER;
    } else if (setup->hold.loose) {
        setup->verdict = bite_verdict_worse(setup->verdict, BITE_TIGHT);
    }
}

/* By the joint chance, as for a cut, and never better than the worst pass or than the workholding.
 * A rejected fluid or workholding makes it over. */
void bite_plan_verdict(bite_job *job)
{
    for (uint32_t i = 0; i < job->setups; i++) {
        judge_setup(job, &job->setup_plan[i]);
        job->verdict = bite_verdict_worse(job->verdict, job->setup_plan[i].verdict);
    }
    job->chance = with_clamps(job, bite_plan_joint_chance(job));
    uint32_t joint = verdict_of(job, job->chance);
    job->verdict = bite_verdict_worse(job->verdict, joint);
    if (fluid_refused(job) || job->stock.layout.along == 0 || job->stock.off_size == 2 ||
        job->stock.strikes_parts || job->stock.strikes_hold || job->envelope.beyond) {
        job->verdict = BITE_OVER;
    } else if ((job->stock.off_size || job->stock.short_by > 0.0 || job->stock.breaks_through) &&
               job->verdict < BITE_TIGHT) {
        job->verdict = BITE_TIGHT;
    }
}
