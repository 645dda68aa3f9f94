/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fluids of a job, rated for its material and for how its stock was cut. */
#include "core/job/fluid_plan.h"
#include "core/job/fluid_compatibility.h"
#include "core/job/job_file.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"

static const struct {
    const char *key;
    const char *use;
} uses[] = {{"coolant_fluid", "coolant"},
            {"cleaner", "cleaner"},
            {"remover", "remover"},
            {"marking", "marking"},
            {"tapping", "tapping fluid"}};

static void add_remarks(bite_job *job, const char *use, const bite_fluid_rating *result)
{
    const double mill_off = 3e-3; /* m, of a laser-cut edge */
    const bite_remark_value fluid = bite_remark_text(result->fluid->title);
    const bite_remark_value grade = bite_remark_text(job->grade->record.name);
    int harms = result->rating == BITE_RATED_RISK || result->rating == BITE_RATED_NO;
    if (harms) {
        const bite_remark_value values[] = {fluid, bite_remark_text(use), grade,
                                            bite_remark_text(result->says),
                                            bite_remark_number(result->watch)};
        bite_plan_remark_from(
            job, result->rating == BITE_RATED_NO ? BITE_REMARK_FLUID_NO : BITE_REMARK_FLUID_RISK,
            BITE_CARE, result->source, values, 5);
    } else if (result->rating == BITE_RATED_UNKNOWN) {
        const bite_remark_value values[] = {fluid, grade};
        bite_plan_remark(job, BITE_REMARK_FLUID_UNKNOWN, values, 2);
    }
    if (job->stock.parting == BITE_PARTED_LASER && harms) { /* the edge is under stress */
        const bite_remark_value values[] = {fluid, bite_remark_number(mill_off)};
        bite_plan_remark(job, BITE_REMARK_LASER_EDGE, values, 2);
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
        result.says = bite_plan_table_text(job, result.says);
        job->fluids[job->fluid_count] = result;
        job->fluid_uses[job->fluid_count++] = uses[i].use;
        add_remarks(job, uses[i].use, &result);
    }
    return BITE_OK;
}
