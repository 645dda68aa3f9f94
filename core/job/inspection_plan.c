/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to measure on the finished part. */
#include "core/job/inspection_plan.h"
#include "core/job/job_file.h"
#include <math.h>

void bite_plan_inspection(bite_job *job)
{
    for (size_t i = 0; i < job->file_data.check_count; i++) {
        const bite_section *section = job->file_data.checks[i];
        const char *what = bite_job_file_text(section, "what");
        const char *with = bite_job_file_text(section, "with");
        const char *note = bite_job_file_text(section, "note");
        double nominal = bite_job_file_number(section, "nominal");
        double tolerance = bite_job_file_number(section, "tolerance");
        if (isnan(tolerance) && !isnan(nominal)) { /* a check without a size has no tolerance */
            tolerance = bite_job_file_number(job->file_data.part, "tolerance");
        }
        bite_planned_check check = {what == NULL ? section->tail : what, nominal, tolerance,
                                    with == NULL ? "" : with, note == NULL ? "" : note};
        job->checks[job->check_count++] = check;
    }
    if (job->check_count == 0) {
        double flatness = bite_job_file_number(job->file_data.part, "flatness");
        double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
        bite_planned_check thick = {"thickness, five places", job->thickness, tolerance,
                                    "micrometer, flat faces", ""};
        job->checks[job->check_count++] = thick;
        if (!isnan(job->thinnest)) {
            bite_planned_check web = {"thinnest section", job->thinnest, tolerance,
                                      "micrometer, flat faces", ""};
            job->checks[job->check_count++] = web;
        }
        if (!isnan(flatness)) {
            bite_planned_check flat = {"flatness, part free", 0.0, flatness,
                                       "feeler on a flat plate, or a light touch",
                                       "a day after release"};
            job->checks[job->check_count++] = flat;
        }
    }
}
