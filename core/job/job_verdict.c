/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict of a whole job. */
#include "core/job/job_verdict.h"
#include "core/cut/limits.h"
#include <math.h>

static int refused(const bite_job *job)
{
    for (size_t i = 0; i < job->fluid_count; i++) {
        if (job->fluids[i].rating == BITE_RATED_NO) {
            return 1;
        }
    }
    return (int)job->hold.refused;
}

/* The share of draws in which a limit is exceeded in some pass. Passes share their uncertain
 * inputs, and one seed gives the same draws wherever the same inputs are uncertain. NaN: the passes
 * were not all evaluated on the same draws. */
static double joint_chance(const bite_job *job)
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
    int clamped = job->hold.hold != NULL && job->hold.failure_mode[0] != 0;
    return clamped && !isnan(job->hold.chance) ? 1.0 - (1.0 - chance) * (1.0 - job->hold.chance)
                                               : chance;
}

/* By the joint chance, as for a cut, and never better than the worst pass or than the workholding.
 * A rejected fluid or workholding makes it over. */
void bite_plan_verdict(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        uint32_t verdict = job->passes[i].answer->result.verdict;
        job->verdict = bite_verdict_worse(job->verdict, verdict);
    }
    job->chance = with_clamps(job, joint_chance(job));
    const double chances[] = {job->chance, job->hold.chance};
    for (size_t i = 0; i < sizeof chances / sizeof *chances; i++) {
        uint32_t verdict = verdict_of(job, chances[i]);
        job->verdict = bite_verdict_worse(job->verdict, verdict);
    }
    if (refused(job) || job->stock.layout.along == 0 || job->stock.off_size == 2 ||
        job->stock.strikes_parts || job->envelope.beyond || job->hold.strikes) {
        job->verdict = BITE_OVER;
    } else if ((job->hold.loose || job->stock.off_size || job->stock.short_by > 0.0) &&
               job->verdict < BITE_TIGHT) {
        job->verdict = BITE_TIGHT;
    }
}
