/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fluids of a job against its material, and against how its stock was cut. */
#include "core/job/fluid_plan.h"
#include "core/job/plan.h"
#include "core/job/plan_steps.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *key;
    const char *use;
} uses[] = {{"coolant_fluid", "coolant"},
            {"cleaner", "cleaner"},
            {"remover", "remover"},
            {"marking", "marking"},
            {"tapping", "tapping fluid"}};

/* Fluids that reach the stressed edge of laser-cut acrylic first. */
static int wets_stressed_edges(const bite_fluid_rating *result)
{
    return result->rating == BITE_RATED_RISK || result->rating == BITE_RATED_NO;
}

static void say(bite_job *job, const char *use, const bite_fluid_rating *result)
{
    char watch[140] = "";
    char hours[40];
    const char *grade = job->grade->record.name;
    if (!isnan(result->watch)) {
        (void)snprintf(watch, sizeof watch,
                       " Watch it for %s before it ships, in raking light, along edges and holes.",
                       bite_plan_duration(result->watch, hours, sizeof hours));
    }
    const char *says = result->says[0] == 0 ? "" : ": ";
    if (result->rating == BITE_RATED_NO) {
        bite_plan_remark(job, BITE_CARE, "fluids",
                         bite_plan_text(job, "Refused: %s as %s on %s%s%s.%s", result->fluid->title,
                                        use, grade, says, result->says, watch),
                         result->source);
    } else if (result->rating == BITE_RATED_RISK) {
        bite_plan_remark(job, BITE_CARE, "fluids",
                         bite_plan_text(job, "Risk: %s as %s on %s%s%s.%s", result->fluid->title,
                                        use, grade, says, result->says, watch),
                         result->source);
    } else if (result->rating == BITE_RATED_UNKNOWN) {
        bite_plan_remark(job, BITE_CARE, "fluids",
                         bite_plan_text(job,
                                        "Nothing is known of %s on %s: try it on a bent strip "
                                        "first, wet for a day, beside a dry one.",
                                        result->fluid->title, grade),
                         "");
    }
    if (job->stock.parting == 3 && wets_stressed_edges(result)) {
        bite_plan_remark(job, BITE_CARE, "fluids",
                         bite_plan_text(job,
                                        "%s near a laser-cut edge: the edge is under stress and "
                                        "crazes several millimetres deep. Mill 3 mm off or "
                                        "anneal first.",
                                        result->fluid->title),
                         "datasheet: crazing of laser-cut acrylic edges by solvents and ammonia "
                         "cleaner; soapy water is fine");
    }
}

bite_status bite_plan_fluids(bite_job *job, bite_error *error)
{
    for (size_t i = 0; i < sizeof uses / sizeof *uses; i++) {
        const char *name = bite_job_file_text(job->file_data.fluids, uses[i].key);
        bite_fluid_rating result;
        const bite_item_record *fluid = NULL;
        if (name == NULL) {
            continue;
        }
        bite_status status = bite_fluid_find(job->library, name, &fluid, error);
        status = status != BITE_OK ? status
                                   : bite_fluid_rate(job->library, fluid, job->grade,
                                                     (int)job->annealed, &result, error);
        if (status != BITE_OK) {
            return status;
        }
        job->fluids[job->fluid_count] = result;
        job->fluid_uses[job->fluid_count++] = uses[i].use;
        say(job, uses[i].use, &result);
    }
    return BITE_OK;
}
