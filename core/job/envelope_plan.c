/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The work envelope: whether the pieces that are mounted, the motions of the passes and the stack
 * of fixture, stock and tool fit the machine, in every setup with its own hold. */
#include "core/job/envelope_plan.h"
#include "core/job/machine_lengths.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include <math.h>

/* Common practice, m: how far a tool is lifted above the stock to move over it; a plate or board
 * under the stock. */
static const double safe_height = 5e-3;
static const double fixture_plate = 12e-3;

/* By which the tool's axis runs beyond the blank at both ends together: a face is left over its
 * edge. setup 0: in any setup. */
static double facing_overrun(const bite_job *job, uint32_t setup)
{
    double most = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        if (pass->work == BITE_WORK_FACE && pass->tool < job->tool_count &&
            (setup == 0 || pass->setup == setup)) {
            most = fmax(most, job->tools[pass->tool].diameter);
        }
    }
    return most;
}

void bite_envelope_blank(const bite_job *job, double *along_x, double *along_y)
{
    bite_machine_length x = bite_plan_machine_length(job, "travel_x");
    bite_machine_length y = bite_plan_machine_length(job, "travel_y");
    double overrun = facing_overrun(job, 0);
    *along_x = *along_y = INFINITY;
    if (x.binding && y.binding && x.value > 0.0 && y.value > 0.0) {
        *along_x = fmax(x.value - overrun, 0.0);
        *along_y = fmax(y.value - overrun, 0.0);
    }
}

/* What one setup needs of the machine. Lengths in m. */
typedef struct setup_needs {
    double sides[2]; /* of the piece along X and Y */
    double travel[3];
    double fixture;  /* height of what the piece lies on */
    double stickout; /* of its longest tool */
    double stack;
    uint32_t turned;
} setup_needs;

/* The piece that is mounted: the blank with its parts, or a part that was cut free before and is
 * clamped by itself, or that stands on edge. */
static void piece_of(const bite_job *job, const bite_planned_setup *setup, double *length,
                     double *width)
{
    const bite_layout *layout = &job->stock.layout;
    *length = job->length + 2.0 * job->stock.margin;
    *width = job->width + 2.0 * job->stock.margin;
    if (!bite_plan_lies_flat(setup)) {
        bite_plan_setup_footprint(job, setup, length, width);
    } else if (setup->separate && setup->mountings > 1) {
        *length = job->length;
        *width = job->width;
    } else if (layout->along > 0) {
        *length = layout->length;
        *width = layout->width;
    }
}

/* Turned so that it fits if it can, otherwise with its longer side along the longer travel. */
static void place_piece(const bite_job *job, const bite_planned_setup *setup, setup_needs *needs)
{
    double length = 0.0;
    double width = 0.0;
    double overrun = facing_overrun(job, setup->number);
    const double *travel = job->envelope.travel;
    piece_of(job, setup, &length, &width);
    int straight = length + overrun <= travel[0] && width + overrun <= travel[1];
    int turned = width + overrun <= travel[0] && length + overrun <= travel[1];
    int across = straight || turned ? !straight : (length < width) == (travel[0] > travel[1]);
    needs->turned = across ? 1u : 0u;
    needs->sides[0] = across ? width : length;
    needs->sides[1] = across ? length : width;
    needs->travel[0] = needs->sides[0] + overrun;
    needs->travel[1] = needs->sides[1] + overrun;
}

/* The height of what the piece lies on, above the table. */
static double fixture_height(const bite_job *job, const bite_planned_setup *setup)
{
    double stated = bite_plan_hold_number(setup, "height");
    double vise = bite_plan_machine_length(job, "vise_height").value;
    return !isnan(stated)                                                 ? stated
           : bite_plan_clamp_of(setup) == BITE_CLAMP_JAWS && !isnan(vise) ? vise
                                                                          : fixture_plate;
}

/* Up the Z axis: the stack with its longest tool, and the travel from above the piece down to its
 * lower face with tools that stick out by different amounts. */
static void measure_stack(const bite_job *job, const bite_planned_setup *setup, setup_needs *needs)
{
    double longest = 0.0;
    double shortest = INFINITY;
    double holder = bite_plan_machine_length(job, "holder_length").value;
    double height =
        bite_plan_lies_flat(setup) ? job->stock.thick : bite_plan_setup_height(job, setup);
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].setup == setup->number) {
            double stickout = job->passes[i].answer->full.stickout;
            longest = fmax(longest, stickout);
            shortest = fmin(shortest, stickout);
        }
    }
    needs->fixture = fixture_height(job, setup);
    needs->stickout = longest;
    needs->stack = needs->fixture + height + safe_height + longest + (isnan(holder) ? 0.0 : holder);
    needs->travel[2] = height + safe_height + (longest > shortest ? longest - shortest : 0.0);
}

/* The plan shows the most that any setup needs of each axis, and the highest stack. */
static void keep_most(bite_job *job, const setup_needs *needs)
{
    bite_planned_envelope *envelope = &job->envelope;
    for (size_t i = 0; i < 3; i++) {
        envelope->needs[i] = fmax(envelope->needs[i], needs->travel[i]);
    }
    envelope->turned |= needs->turned;
    if (needs->stack > envelope->stack) {
        envelope->stack = needs->stack;
        envelope->fixture = needs->fixture;
        envelope->stickout = needs->stickout;
    }
}

/* ---- what does not fit ---- */

/* The setups that a length of the machine is too small for, and the most that they need. */
typedef struct excess_of_setups {
    uint32_t setups[BITE_SETUPS_MAX];
    uint32_t count;
    double most;
} excess_of_setups;

static void add_excess(excess_of_setups *excess, uint32_t setup, double needed)
{
    excess->setups[excess->count++] = setup;
    excess->most = fmax(excess->most, needed);
}

/* " in setups 2 and 3"; "" if it is true of all of them. */
static const char *setups_named(bite_job *job, const excess_of_setups *excess)
{
    const char *text = excess->count > 1 ? " in setups" : " in setup";
    for (uint32_t i = 0; i < excess->count && excess->count < job->setups; i++) {
        const char *before = i == 0 ? "" : i + 1 == excess->count ? " and" : ",";
        text = bite_plan_text(job, "%s%s %u", text, before, (unsigned)excess->setups[i]);
    }
    return excess->count < job->setups ? text : "";
}

/* One length of the machine against what every setup needs of it; beyond its value first, otherwise
 * beyond the low end of its band. near: NULL: only its value counts. */
static void check_length(bite_job *job, const setup_needs *needs, size_t axis, const char *key,
                         const char *what, const bite_remark_id *near, bite_remark_id beyond)
{
    for (int least = 2; least >= (near == NULL ? 2 : 1); least--) {
        excess_of_setups excess = {{0}, 0, 0.0};
        for (uint32_t i = 0; i < job->setups; i++) {
            double needed = axis < 3 ? needs[i].travel[axis] : needs[i].stack;
            if (bite_plan_machine_excess(job, key, needed) >= least) {
                add_excess(&excess, i + 1, needed);
            }
        }
        if (excess.count > 0) {
            const char *where = setups_named(job, &excess);
            bite_plan_machine_beyond(job, least == 2 ? beyond : *near,
                                     bite_plan_text(job, "%s%s", what, where), excess.most, key,
                                     least);
            return;
        }
    }
}

static void check_travels(bite_job *job, const setup_needs *needs)
{
    static const struct {
        const char *key;
        const char *what;
    } axes[] = {{"travel_x", "the X axis"}, {"travel_y", "the Y axis"}, {"travel_z", "the Z axis"}};
    const bite_remark_id near = BITE_REMARK_NEAR_TRAVEL;
    for (size_t i = 0; i < 3; i++) {
        check_length(job, needs, i, axes[i].key, axes[i].what, &near, BITE_REMARK_BEYOND_TRAVEL);
    }
    check_length(job, needs, 3, "spindle_to_table", "", NULL, BITE_REMARK_STACK_TOO_HIGH);
}

/* A piece in a vise does not lie on the table. */
static void check_table(bite_job *job, const setup_needs *needs)
{
    double length = bite_plan_machine_length(job, "table_length").value;
    double width = bite_plan_machine_length(job, "table_width").value;
    excess_of_setups excess = {{0}, 0, 0.0};
    for (uint32_t i = 0; i < job->setups; i++) {
        double over = fmax(needs[i].sides[0] - length, needs[i].sides[1] - width);
        if (over > 1e-9 && bite_plan_clamp_of(&job->setup_plan[i]) != BITE_CLAMP_JAWS) {
            add_excess(&excess, i + 1, over);
        }
    }
    if (excess.count > 0) {
        const bite_remark_value values[] = {bite_remark_number(excess.most),
                                            bite_remark_text(bite_plan_machine_name(job)),
                                            bite_remark_text(setups_named(job, &excess))};
        bite_plan_remark(job, BITE_REMARK_OVERHANGS_TABLE, values, 3);
    }
}

bite_status bite_plan_envelope(bite_job *job, bite_error *error)
{
    setup_needs needs[BITE_SETUPS_MAX] = {{{0.0}, {0.0}, 0.0, 0.0, 0.0, 0}};
    (void)error;
    for (uint32_t i = 0; i < job->setups; i++) {
        place_piece(job, &job->setup_plan[i], &needs[i]);
        measure_stack(job, &job->setup_plan[i], &needs[i]);
        keep_most(job, &needs[i]);
    }
    if (isnan(job->envelope.travel[0] + job->envelope.travel[1] + job->envelope.travel[2])) {
        const bite_remark_value value = bite_remark_text(bite_plan_machine_name(job));
        bite_plan_remark(job, BITE_REMARK_NO_TRAVEL, &value, 1);
    }
    check_travels(job, needs);
    check_table(job, needs);
    return BITE_OK;
}
