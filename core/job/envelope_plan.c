/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The work envelope: whether the blank, the motions of the passes and the stack of fixture, stock
 * and tool fit the machine and its vise. */
#include "core/job/envelope_plan.h"
#include "core/job/job_file.h"
#include "core/job/outline_reach.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <math.h>

static const char default_machine[] = "bench-24k";

/* Common practice, m: how far a tool is lifted above the stock to move over it; a plate or board
 * under the stock. */
static const double safe_height = 5e-3;
static const double fixture_plate = 12e-3;

/* A vise supports a piece over its jaws and about half of their width beyond each end. */
static const double longest_over_jaws = 2.0;

bite_status bite_plan_machine(bite_job *job, bite_error *error)
{
    bite_planned_envelope *envelope = &job->envelope;
    const char *name = bite_job_file_text(job->file_data.machine, "name");
    envelope->stated = name != NULL;
    bite_status status =
        bite_library_record(job->library, BITE_MACHINES, name == NULL ? default_machine : name,
                            &envelope->machine, error);
    if (status == BITE_UNKNOWN_NAME && name == NULL) { /* a shop may do without the usual one */
        envelope->machine = NULL;
        return BITE_OK;
    }
    if (status == BITE_OK) {
        envelope->travel[0] = bite_item_figure(envelope->machine, "travel_x");
        envelope->travel[1] = bite_item_figure(envelope->machine, "travel_y");
        envelope->travel[2] = bite_item_figure(envelope->machine, "travel_z");
    }
    return status;
}

static uint32_t clamp_of(const bite_job *job)
{
    return job->hold.hold == NULL ? BITE_CLAMP_NONE
                                  : bite_item_word(job->hold.hold, "clamp", BITE_CLAMP_NONE);
}

/* By which the tool's axis runs beyond the blank at both ends together: a face is left over its
 * edge. */
static double facing_overrun(const bite_job *job)
{
    double most = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        if (pass->work == BITE_WORK_FACE && pass->tool < job->tool_count) {
            most = fmax(most, job->tools[pass->tool].diameter);
        }
    }
    return most;
}

void bite_envelope_blank(const bite_job *job, double *along_x, double *along_y)
{
    const bite_planned_envelope *envelope = &job->envelope;
    double overrun = facing_overrun(job);
    *along_x = *along_y = INFINITY;
    if (envelope->stated && envelope->travel[0] > 0.0 && envelope->travel[1] > 0.0) {
        *along_x = fmax(envelope->travel[0] - overrun, 0.0);
        *along_y = fmax(envelope->travel[1] - overrun, 0.0);
    }
}

/* Turned so that it fits if it can, otherwise with its longer side along the longer travel. */
static void place_blank(bite_job *job)
{
    bite_planned_envelope *envelope = &job->envelope;
    const bite_layout *layout = &job->stock.layout;
    double length = layout->along > 0 ? layout->length : job->length + 2.0 * job->stock.margin;
    double width = layout->along > 0 ? layout->width : job->width + 2.0 * job->stock.margin;
    double overrun = facing_overrun(job);
    const double *travel = envelope->travel;
    int straight = length + overrun <= travel[0] && width + overrun <= travel[1];
    int turned = width + overrun <= travel[0] && length + overrun <= travel[1];
    int across = straight || turned ? !straight : (length < width) == (travel[0] > travel[1]);
    envelope->turned = across ? 1u : 0u;
    envelope->needs[0] = (across ? width : length) + overrun;
    envelope->needs[1] = (across ? length : width) + overrun;
}

/* The height of what the stock lies on, above the table. */
static double fixture_height(const bite_job *job)
{
    double stated = bite_plan_hold_number(&job->setup_plan[0], "height");
    if (!isnan(stated)) {
        return stated;
    }
    return clamp_of(job) == BITE_CLAMP_JAWS
               ? bite_item_figure_or(job->envelope.machine, "vise_height", fixture_plate)
               : fixture_plate;
}

/* Up the Z axis: the stack with its longest tool, and the travel from above the stock down to its
 * lower face with tools that stick out by different amounts. */
static void measure_stack(bite_job *job)
{
    bite_planned_envelope *envelope = &job->envelope;
    double longest = 0.0;
    double shortest = INFINITY;
    for (size_t i = 0; i < job->pass_count; i++) {
        double stickout = job->passes[i].answer->full.stickout;
        longest = fmax(longest, stickout);
        shortest = fmin(shortest, stickout);
    }
    double changed = longest > shortest ? longest - shortest : 0.0;
    double holder = bite_item_figure_or(envelope->machine, "holder_length", 0.0);
    envelope->fixture = fixture_height(job);
    envelope->stickout = longest;
    envelope->stack = envelope->fixture + job->stock.thick + safe_height + longest + holder;
    envelope->needs[2] = job->stock.thick + safe_height + changed;
}

/* A length that the machine needs against one of its figures: beyond it, or beyond the low end of
 * its band, which a machine of the class may have. Returns 2, 1 or 0. */
static int compare(const bite_job *job, const char *key, double needed)
{
    const bite_field_value *field_value = bite_item_field(job->envelope.machine, key);
    const double hair = 1e-9;
    return field_value == NULL                  ? 0
           : needed > field_value->value + hair ? 2
           : needed > field_value->low + hair   ? 1
                                                : 0;
}

/* A machine that the job does not name is only assumed: what exceeds it is a question. */
static void report(bite_job *job, bite_remark_id id, const char *what, double needed,
                   const char *key, int excess)
{
    const bite_field_value *field_value = bite_item_field(job->envelope.machine, key);
    int beyond = excess == 2 && job->envelope.stated;
    job->envelope.beyond |= beyond ? 1u : 0u;
    const bite_remark_value values[] = {
        bite_remark_text(what), bite_remark_number(needed),
        bite_remark_number(excess == 2 ? field_value->value : field_value->low),
        bite_remark_text(job->envelope.machine->name)};
    bite_plan_remark_from(job, id, beyond ? BITE_CARE : BITE_NOTE,
                          field_value->source == NULL ? "" : field_value->source, values, 4);
}

static void check_travels(bite_job *job)
{
    static const struct {
        const char *key;
        const char *what;
    } axes[] = {{"travel_x", "the X axis"}, {"travel_y", "the Y axis"}, {"travel_z", "the Z axis"}};
    for (size_t i = 0; i < 3; i++) {
        int excess = compare(job, axes[i].key, job->envelope.needs[i]);
        if (excess > 0) {
            report(job, excess == 2 ? BITE_REMARK_BEYOND_TRAVEL : BITE_REMARK_NEAR_TRAVEL,
                   axes[i].what, job->envelope.needs[i], axes[i].key, excess);
        }
    }
    if (compare(job, "spindle_to_table", job->envelope.stack) == 2) {
        report(job, BITE_REMARK_STACK_TOO_HIGH, "", job->envelope.stack, "spindle_to_table", 2);
    }
}

static void check_table(bite_job *job)
{
    const bite_planned_envelope *envelope = &job->envelope;
    double overrun = facing_overrun(job);
    double over = fmax(envelope->needs[0] - overrun -
                           bite_item_figure_or(envelope->machine, "table_length", INFINITY),
                       envelope->needs[1] - overrun -
                           bite_item_figure_or(envelope->machine, "table_width", INFINITY));
    if (over > 1e-9) {
        const bite_remark_value values[] = {bite_remark_number(over),
                                            bite_remark_text(envelope->machine->name)};
        bite_plan_remark(job, BITE_REMARK_OVERHANGS_TABLE, values, 2);
    }
}

/* The piece between the jaws, across them and along them. */
static void check_vise(bite_job *job)
{
    const bite_planned_stock *stock = &job->stock;
    int blank = stock->on_each > 1 && stock->layout.along > 0;
    double length = blank ? stock->layout.length : job->length;
    double width = blank ? stock->layout.width : job->width;
    double stated = bite_plan_hold_number(&job->setup_plan[0], "between_jaws");
    double between = isnan(stated) ? fmin(length, width) : stated;
    double depth = bite_plan_hold_number(&job->setup_plan[0], "jaw_depth");
    if (compare(job, "vise_opening", between) == 2) {
        report(job, BITE_REMARK_VISE_TOO_SMALL, "the piece between the jaws", between,
               "vise_opening", 2);
    }
    if (compare(job, "vise_depth", depth) == 2) {
        report(job, BITE_REMARK_VISE_TOO_SMALL, "the grip", depth, "vise_depth", 2);
    }
    double along = fmax(length, width) / longest_over_jaws;
    if (compare(job, "vise_width", along) == 2) {
        const bite_remark_value values[] = {
            bite_remark_number(fmax(length, width)),
            bite_remark_number(bite_item_figure_or(job->envelope.machine, "vise_width", 0.0))};
        bite_plan_remark(job, BITE_REMARK_OVERHANGS_JAWS, values, 2);
    }
}

bite_status bite_plan_envelope(bite_job *job, bite_error *error)
{
    const bite_planned_envelope *envelope = &job->envelope;
    (void)error;
    if (envelope->machine == NULL) {
        return BITE_OK;
    }
    place_blank(job);
    measure_stack(job);
    if (isnan(envelope->travel[0] + envelope->travel[1] + envelope->travel[2])) {
        const bite_remark_value value = bite_remark_text(envelope->machine->name);
        bite_plan_remark(job, BITE_REMARK_NO_TRAVEL, &value, 1);
    }
    check_travels(job);
    if (clamp_of(job) == BITE_CLAMP_JAWS) {
        check_vise(job);
    } else {
        check_table(job);
    }
    return BITE_OK;
}
