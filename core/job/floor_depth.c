/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Depths that follow from the floor that is to remain: depth + floor is the thickness of the part,
 * less the depth of a pocket in the face below if the floor is the web over it.
 */
#include "core/job/floor_depth.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/job/plan_faults.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include <math.h>

static const double rounding = 1e-6; /* m, of sizes that a drawing states */

int bite_work_leaves_floor(uint32_t work)
{
    return work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH || work == BITE_WORK_SLOT ||
           work == BITE_WORK_BORE || work == BITE_WORK_CONTOUR || work == BITE_WORK_FINISH;
}

/* A pass of the file with its floor, m. */
typedef struct floored_pass {
    bite_job *job;
    size_t index;
    double floor;
    double depth;  /* stated; NaN: it is not */
    double height; /* of the part in the setup */
    double least;  /* of the work, as it may be supplied */
    double most;
    double hollow; /* depth of the deepest pocket in the face below; 0: none */
} floored_pass;

/* The deepest pocket that earlier setups cut into the face below. */
static double hollow_below(const bite_job *job, const bite_planned_setup *setup)
{
    double deepest = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        int pocket = pass->work == BITE_WORK_POCKET || pass->work == BITE_WORK_ROUGH;
        if (pocket && pass->setup < setup->number &&
            bite_plan_is_below(bite_plan_setup(job, pass->setup), setup)) {
            deepest = fmax(deepest, pass->depth);
        }
    }
    return deepest;
}

static floored_pass read_pass(bite_job *job, size_t index)
{
    const bite_section *section = job->file_data.passes[index];
    const bite_planned_setup *setup = bite_plan_setup(job, job->passes[index].setup);
    double height = bite_plan_setup_height(job, setup);
    int as_supplied = bite_plan_lies_flat(setup) && !(job->stock.skim > 0.0);
    floored_pass read = {job,
                         index,
                         bite_job_file_number(section, "floor"),
                         bite_job_file_number(section, "depth"),
                         height,
                         as_supplied ? fmin(height, job->stock.thin) : height,
                         as_supplied ? fmax(height, job->stock.thick) : height,
                         hollow_below(job, setup)};
    return read;
}

static const char *length_text(const floored_pass *pass, double metres)
{
    char text[40];
    (void)bite_plan_quantity(pass->job, metres, BITE_KIND_LENGTH, text, sizeof text);
    return bite_plan_text(pass->job, "%s", text);
}

static void fault(const floored_pass *pass, const char *key, const char *message, const char *hint)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_key(&error, "%s", key);
    bite_error_hint(&error, "%s", hint);
    bite_plan_fault(pass->job, pass->job->file_data.passes[pass->index], &error);
}

/* Whether depth and floor make the thickness of the work, as it may be supplied. */
static int make_thickness(const floored_pass *pass, double hollow)
{
    double sum = pass->depth + pass->floor + hollow;
    return sum >= pass->least - rounding && sum <= pass->most + rounding;
}

static void check_both(const floored_pass *pass)
{
    if (make_thickness(pass, 0.0) || (pass->hollow > 0.0 && make_thickness(pass, pass->hollow))) {
        return;
    }
    double depth = pass->height - pass->floor;
    double floor = pass->height - pass->depth;
    const char *below = pass->hollow > 0.0 ? bite_plan_text(pass->job, " over a pocket of %s",
                                                            length_text(pass, pass->hollow))
                                           : "";
    const char *hint = bite_plan_text(
        pass->job,
        "leave one of the two out: a floor of %s is a depth of %s, and a depth of %s "
        "leaves %s",
        length_text(pass, pass->floor), length_text(pass, fmax(0.0, depth)),
        length_text(pass, pass->depth), length_text(pass, fmax(0.0, floor)));
    fault(pass, "floor",
          bite_plan_text(pass->job,
                         "depth %s and floor %s do not make the part, which is %s thick%s",
                         length_text(pass, pass->depth), length_text(pass, pass->floor),
                         length_text(pass, pass->height), below),
          hint);
}

static void derive_depth(const floored_pass *pass)
{
    double beside = pass->height - pass->floor;
    double over = beside - pass->hollow;
    if (!(beside > rounding)) {
        fault(pass, "floor",
              bite_plan_text(pass->job, "the floor, %s, is not thinner than the part, %s",
                             length_text(pass, pass->floor), length_text(pass, pass->height)),
              "floor is the thickness that remains under the tool");
        return;
    }
    if (pass->hollow > 0.0 && over > rounding) {
        fault(pass, "depth",
              bite_plan_text(pass->job,
                             "a floor of %s is a depth of %s beside the pocket in the face below, "
                             "and of %s over it",
                             length_text(pass, pass->floor), length_text(pass, beside),
                             length_text(pass, over)),
              "state depth too");
        return;
    }
    bite_planned_pass *planned = &pass->job->passes[pass->index];
    planned->depth = beside;
    const bite_remark_value values[] = {
        bite_remark_text(planned->title), bite_remark_number(beside),
        bite_remark_number(pass->height), bite_remark_number(pass->floor)};
    bite_plan_remark(pass->job, BITE_REMARK_DEPTH_FROM_FLOOR, values, 4);
}

void bite_plan_floor_depths(bite_job *job)
{
    for (uint32_t setup = 1; setup <= job->setups; setup++) { /* pockets below come first */
        for (size_t i = 0; i < job->pass_count; i++) {
            floored_pass pass;
            if (job->passes[i].setup != setup || !bite_work_leaves_floor(job->passes[i].work)) {
                continue;
            }
            pass = read_pass(job, i);
            if (!isnan(pass.floor) && !isnan(pass.depth)) {
                check_both(&pass);
            } else if (pass.floor > 0.0) { /* 0: it goes through, as without a depth */
                derive_depth(&pass);
            }
        }
    }
}
