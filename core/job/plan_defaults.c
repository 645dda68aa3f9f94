/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the plan assumes because the job file does not state it. */
#include "core/job/plan_defaults.h"
#include "core/job/handling_time.h"
#include "core/job/job_file.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/library/collection.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static int states_number(const bite_section *section, const char *key)
{
    return !isnan(bite_job_file_number(section, key));
}

static int states_text(const bite_section *section, const char *key)
{
    return bite_job_file_text(section, key) != NULL;
}

/* What the shop's own set-up states. */
static void add_shop(bite_job *job, char *list, size_t size)
{
    char taken[600];
    size_t used = strlen(list);
    if (bite_shop_list(job->shop, job->shop_keys, taken, sizeof taken)) {
        (void)snprintf(list + used, size - used, "%sfrom %.500s: %s", used > 0 ? "; " : "",
                       job->shop->shown, taken);
    }
}

void bite_plan_list_defaults(bite_job *job)
{
    const bite_job_file *file = &job->file_data;
    char change[40];
    int automatic = 0;
    (void)bite_plan_duration(bite_plan_change_time(job, &automatic), change, sizeof change);
    char all_tools[600] = "all tools of the table";
    const char *tool_list = bite_library_tool_list(job->library);
    if (tool_list[0] != 0) {
        (void)snprintf(all_tools, sizeof all_tools, "all tools of %.500s", tool_list);
    }
    const struct {
        int stated;
        const char *assumed;
    } all[] = {
        {states_text(file->machine, "name"), "machine bench-24k"},
        {states_text(file->tools, "at_hand"), all_tools},
        {states_number(file->part, "count"), "one part"},
        {states_number(file->part, "tolerance"), "the default tolerance, as an advisory limit"},
        {states_number(file->part, "flatness"), "no flatness requirement"},
        {states_number(file->part, "inside_radius"), "inside corners of any radius"},
        {bite_job_file_word(file->stock, "faces", 3) != 3,
         job->stock.skim > 0.0 ? "both faces skimmed"
                               : "both faces left as supplied, because no pass faces them"},
        {bite_job_file_word(file->fluids, "coolant", 4) != 4, "no coolant"},
        {states_text(file->fluids, "cleaner"), "no cleaner to check"},
        {states_number(file->machine, "acceleration"),
         "an acceleration typical of the machine's class"},
        {states_number(file->tools, "change"),
         bite_plan_text(job, "%s for each tool change %s", change,
                        automatic ? "by the machine" : "by hand")},
    };
    char list[2800];
    bite_grade_match_text(job->grade, job->grade_match, bite_job_file_text(file->part, "material"),
                          list, sizeof list);
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        size_t used = strlen(list);
        if (!all[i].stated) {
            (void)snprintf(list + used, sizeof list - used, "%s%s", used > 0 ? ", " : "",
                           all[i].assumed);
        }
    }
    add_shop(job, list, sizeof list);
    if (list[0] != 0) {
        const bite_remark_value value = bite_remark_text(bite_plan_text(job, "%s", list));
        bite_plan_remark(job, BITE_REMARK_DEFAULTS, &value, 1);
    }
}
