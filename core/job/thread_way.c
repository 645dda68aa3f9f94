/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whether a thread is tapped or milled. A tap is quicker, needs no path, and is what most threads
 * are cut with; it needs a spindle that turns as slowly as taps do and still has the torque. Where
 * the job leaves it open, a thread is milled if its tap would not serve and a mill fits.
 */
#include "core/job/thread_way.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/remarks.h"
#include "core/job/thread_plan.h"
#include "core/library/item.h"
#include "core/names/registry.h"
#include "core/physics/geometry/thread.h"
#include "core/search/tap_choice.h"
#include <math.h>

static const double usual_share = 0.75; /* of thread, before the hole is known */

static bite_thread_case case_of(const bite_job *job, const bite_item_record *thread, double hole,
                                double depth)
{
    double major = bite_item_figure(thread, "thread_diameter");
    double pitch = bite_item_figure(thread, "pitch");
    const bite_thread_case made = {
        job->library, job->grade, bite_job_file_text(job->file_data.machine, "name"),
        major,        pitch,      isnan(hole) ? bite_thread_hole(major, pitch, usual_share) : hole,
        depth};
    return made;
}

/* The mill for a thread, with its settings. Returns 0 if there is none. */
static int find_milling(bite_job *job, const bite_thread_case *thread, bite_thread_milling *milling)
{
    bite_thread_mill mill =
        bite_plan_find_thread_mill(job, thread->length, thread->major, thread->pitch);
    milling->passes = 0;
    if (mill.record == NULL) {
        return 0;
    }
    bite_status status = bite_thread_milling_choose(thread, &mill, milling, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
    return status == BITE_OK && milling->passes > 0;
}

uint32_t bite_plan_thread_way(bite_job *job, const bite_section *section)
{
    const bite_item_record *thread = bite_plan_thread_of(job, section);
    double stated = bite_job_file_number(section, "depth");
    bite_tap_choice tap;
    bite_thread_milling milling;
    if (thread == NULL) {
        return BITE_WORK_TAP; /* the file is checked: it has one */
    }
    bite_thread_case made =
        case_of(job, thread, (double)NAN, isnan(stated) ? job->thickness : stated);
    bite_status status = bite_tap_choose(&made, thread->name, &tap, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
    if (status != BITE_OK || tap.serves || !find_milling(job, &made, &milling)) {
        return BITE_WORK_TAP;
    }
    const bite_remark_value values[] = {
        bite_remark_text(section->tail), bite_remark_number(tap.turns),
        bite_remark_number(tap.speed_share), bite_remark_text(tap.closest)};
    bite_plan_remark(job, BITE_REMARK_THREAD_MILLED, values, 4);
    return BITE_WORK_THREAD_MILL;
}

static void advise(bite_job *job, const bite_planned_pass *pass)
{
    bite_thread_milling milling;
    bite_thread_case made = case_of(job, pass->hole.thread, pass->hole.diameter, pass->depth);
    const char *at_hand = bite_job_file_text(job->file_data.tools, "at_hand");
    if (!find_milling(job, &made, &milling)) {
        const bite_remark_value none[] = {
            bite_remark_text(pass->title),
            bite_remark_text(at_hand == NULL ? "the table has" : "the tools at hand have")};
        bite_plan_remark(job, BITE_REMARK_NO_MILL_INSTEAD, none, 2);
        return;
    }
    const bite_remark_value values[] = {
        bite_remark_text(pass->title),      bite_remark_text(milling.tool.record->name),
        bite_remark_number(milling.turns),  bite_remark_number(milling.path.feeds[0]),
        bite_remark_number(milling.passes), bite_remark_number(milling.seconds),
        bite_remark_number(milling.chance),
    };
    bite_plan_remark(job, BITE_REMARK_MILL_INSTEAD, values, sizeof values / sizeof *values);
}

bite_status bite_plan_thread_ways(bite_job *job, bite_error *error)
{
    (void)error;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        if (pass->work == BITE_WORK_TAP && pass->hole.thread != NULL &&
            !bite_tap_serves(&pass->answer->result)) {
            advise(job, pass);
        }
    }
    return BITE_OK;
}
