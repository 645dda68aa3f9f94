/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the passes that go round a part, or run out over its edge, sweep beyond that edge. */
#include "core/job/outline_reach.h"
#include "core/job/job_file.h"
#include "core/job/side_width.h"
#include <math.h>

/* The words of the key `around`. */
enum { AROUND_PART, AROUND_FEATURE, AROUND_BOSS, AROUND_NOT_STATED };

/* The shortest path round a part is that round an ellipse of its size, about pi/4 of the perimeter
 * of the rectangle; a shorter one belongs to a feature. */
static const double least_share = 0.785398163397448;

/* By which a tool runs out over an open edge beyond its radius (common practice). */
static const double overrun = 1e-3; /* m */

int bite_pass_rounds_part(const bite_job *job, const bite_section *section, uint32_t work)
{
    uint32_t around = bite_job_file_word(section, "around", AROUND_NOT_STATED);
    double length = bite_job_file_number(section, "length");
    double perimeter = 2.0 * (job->length + job->width);
    int may = work == BITE_WORK_CONTOUR || work == BITE_WORK_FINISH || work == BITE_WORK_CHAMFER;
    if (work == BITE_WORK_FREE || (may && around == AROUND_PART)) {
        return 1;
    }
    if (!may || around == AROUND_FEATURE || around == AROUND_BOSS ||
        !isnan(bite_job_file_number(section, "across"))) { /* only a feature has a width */
        return 0;
    }
    /* walls that are finished over a short length are those of a feature; a short contour or
     * chamfer may lie along a side of the part */
    return work != BITE_WORK_FINISH || !(length < least_share * perimeter);
}

int bite_pass_rounds_boss(const bite_section *section)
{
    return bite_job_file_word(section, "around", AROUND_NOT_STATED) == AROUND_BOSS;
}

int bite_pass_is_open(const bite_job *job, const bite_section *section, uint32_t work)
{
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    int wide = work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH;
    double shorter = fmin(job->length, job->width) * (1.0 - 1e-9);
    double longer = fmax(job->length, job->width) * (1.0 - 1e-9);
    return (wide && (fmax(length, across) >= longer || fmin(length, across) >= shorter)) ||
           (work == BITE_WORK_SLOT && length >= shorter);
}

/* What the passes before leave for the last one round the part: the width of the finishing cut. */
static double allowance(const bite_job *job, size_t index)
{
    double most = 0.0;
    uint32_t work = job->passes[index].work;
    for (size_t i = 0; i < job->pass_count && (work == BITE_WORK_CONTOUR || work == BITE_WORK_FREE);
         i++) {
        const bite_planned_pass *pass = &job->passes[i];
        if (pass->tool < job->tool_count && pass->work == BITE_WORK_FINISH &&
            pass->setup >= job->passes[index].setup &&
            bite_pass_rounds_part(job, job->file_data.passes[i], pass->work)) {
            double width =
                bite_side_width(pass->work, pass->width, job->tools[pass->tool].diameter);
            most = fmax(most, width);
        }
    }
    return most;
}

double bite_pass_reach(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    double diameter = job->tools[pass->tool].diameter;
    if (bite_pass_rounds_part(job, section, pass->work)) {
        int side = pass->work == BITE_WORK_FINISH ||
                   (pass->work == BITE_WORK_CONTOUR && !isnan(pass->width));
        return diameter + (side ? bite_side_lead(diameter) : allowance(job, index));
    }
    return bite_pass_is_open(job, section, pass->work) ? 0.5 * diameter + overrun : 0.0;
}

int bite_plan_furthest_pass(const bite_job *job, double *reach)
{
    int furthest = -1;
    *reach = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        int known = job->passes[i].tool < job->tool_count;
        double one = known ? bite_pass_reach(job, i) : 0.0;
        if (one > *reach) {
            *reach = one;
            furthest = (int)i;
        }
    }
    return furthest;
}
