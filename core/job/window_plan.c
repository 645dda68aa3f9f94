/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The operating windows that the sheet of a job shows. */
#include "core/job/window_plan.h"
#include "core/base/error.h"
#include <math.h>
#include <string.h>

#define WINDOW_COLUMNS 33
#define WINDOW_ROWS 25

/* The chance that a pass exceeds a limit; without draws, a measure that rises with the utilization
 * of its worst limit. */
static double risk_of(const bite_planned_pass *pass)
{
    if (pass->answer == NULL) {
        return -1.0;
    }
    const bite_result *result = &pass->answer->result;
    double utilization =
        result->worst < BITE_LIMIT_COUNT ? result->limits[result->worst].utilization : 0.0;
    return isnan(result->chance) ? utilization / (1.0 + utilization) : result->chance;
}

/* The pass that follows `before` when they are ranked by risk; pass_count: none. Passes of equal
 * risk keep the order of work. */
static size_t next_in_rank(const bite_job *job, size_t before)
{
    size_t best = job->pass_count;
    double most = before < job->pass_count ? risk_of(&job->passes[before]) : 2.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        double risk = risk_of(&job->passes[i]);
        int follows = risk < most || (risk == most && before < job->pass_count && i > before);
        if (risk >= 0.0 && follows &&
            (best == job->pass_count || risk > risk_of(&job->passes[best]))) {
            best = i;
        }
    }
    return best;
}

/* The same cut elsewhere in the job has the same window. */
static int has_window(const bite_job *job, const bite_planned_pass *pass)
{
    for (size_t i = 0; i < job->window_count; i++) {
        const bite_cut *cut = &job->passes[job->windows[i].pass].answer->full;
        if (memcmp(cut, &pass->answer->full, sizeof *cut) == 0) {
            return 1;
        }
    }
    return 0;
}

bite_status bite_plan_windows(bite_job *job, bite_error *error)
{
    bite_window_options options;
    bite_window_options_init(&options);
    options.columns = WINDOW_COLUMNS;
    options.rows = WINDOW_ROWS;
    size_t at = next_in_rank(job, job->pass_count);
    for (; at < job->pass_count && job->window_count < BITE_PLANNED_WINDOWS_MAX;
         at = next_in_rank(job, at)) {
        bite_planned_window *planned = &job->windows[job->window_count];
        if (has_window(job, &job->passes[at])) {
            continue;
        }
        bite_watch_expect(job->watch, 1);
        bite_status status =
            bite_window_new(job->passes[at].answer, &options, &planned->window, error);
        if (status == BITE_NO_MEMORY || bite_watch_step(job->watch, 1)) {
            if (status == BITE_OK) {
                bite_window_free(planned->window);
            }
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for the window of a pass");
        }
        if (status == BITE_OK) {
            planned->pass = at;
            job->window_count++;
        }
        bite_error_clear(error);
    }
    return BITE_OK;
}

void bite_plan_windows_free(bite_job *job)
{
    for (size_t i = 0; i < job->window_count; i++) {
        bite_window_free(job->windows[i].window);
    }
    job->window_count = 0;
}
