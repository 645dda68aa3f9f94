/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The setups of a job and what earlier cuts have left of the face that the part lies on. */
#include "core/job/setup_plan.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/job/remarks.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <math.h>
#include <string.h>

static const char *or_empty(const char *text)
{
    return text == NULL ? "" : text;
}

/* Unless the file states it, every setup turns the part over: the top is up in the first. */
static void read_setup(const bite_job *job, uint32_t number, bite_planned_setup *setup)
{
    const bite_section *section = job->file_data.setups[number - 1];
    const uint32_t usual = number % 2 == 0 ? BITE_SIDE_BOTTOM : BITE_SIDE_TOP;
    memset(setup, 0, sizeof *setup);
    setup->number = number;
    setup->mountings = 1;
    setup->section = section;
    setup->shared = bite_job_file_text(section, "method") == NULL ? job->file_data.hold : NULL;
    setup->side = bite_job_file_word(section, "side", usual);
    setup->side_given = bite_job_file_text(section, "side") != NULL;
    setup->datum_xy = or_empty(bite_job_file_text(section, "datum_xy"));
    setup->datum_z = or_empty(bite_job_file_text(section, "datum_z"));
    setup->note = or_empty(bite_job_file_text(section, "note"));
    setup->hollow.across = setup->hollow.along = setup->hollow.depth = (double)NAN;
}

bite_status bite_plan_setups(bite_job *job, bite_error *error)
{
    job->setup_plan = bite_arena_alloc(job->arena, BITE_SETUPS_MAX, sizeof *job->setup_plan);
    if (job->setup_plan == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    for (uint32_t i = 0; i < BITE_SETUPS_MAX; i++) {
        read_setup(job, i + 1, &job->setup_plan[i]);
    }
    return BITE_OK;
}

const bite_planned_setup *bite_plan_setup(const bite_job *job, uint32_t number)
{
    return &job->setup_plan[number - 1];
}

const bite_planned_hold *bite_plan_hold_of(const bite_job *job, uint32_t number)
{
    return job->setup_plan == NULL ? &job->hold : &job->setup_plan[number - 1].hold;
}

/* Either of them determines the other. */
static int states_force(const bite_section *section)
{
    return !isnan(bite_job_file_number(section, "torque")) ||
           !isnan(bite_job_file_number(section, "clamp_force"));
}

double bite_plan_hold_number(const bite_planned_setup *setup, const char *key)
{
    double own = bite_job_file_number(setup->section, key);
    int force = strcmp(key, "torque") == 0 || strcmp(key, "clamp_force") == 0;
    return !isnan(own) || (force && states_force(setup->section))
               ? own
               : bite_job_file_number(setup->shared, key);
}

uint32_t bite_plan_hold_word(const bite_planned_setup *setup, const char *key, uint32_t otherwise)
{
    return bite_job_file_word(setup->section, key,
                              bite_job_file_word(setup->shared, key, otherwise));
}

const char *bite_plan_hold_method(const bite_planned_setup *setup)
{
    const char *own = bite_job_file_text(setup->section, "method");
    return own == NULL ? bite_job_file_text(setup->shared, "method") : own;
}

uint32_t bite_plan_clamp_of(const bite_planned_setup *setup)
{
    const bite_item_record *hold = setup->hold.hold;
    return hold == NULL ? BITE_CLAMP_NONE : bite_item_word(hold, "clamp", BITE_CLAMP_NONE);
}

int bite_plan_blank_clamped(const bite_job *job, uint32_t clamp)
{
    for (uint32_t i = 0; i < job->setups; i++) {
        if (bite_plan_clamp_of(&job->setup_plan[i]) == clamp) {
            return 1;
        }
        if (bite_plan_setup_cuts_free(job, &job->setup_plan[i])) {
            break;
        }
    }
    return 0;
}

int bite_plan_lies_flat(const bite_planned_setup *setup)
{
    return setup->side == BITE_SIDE_TOP || setup->side == BITE_SIDE_BOTTOM;
}

/* Front and back are the part's long edges, left and right its short ones. */
double bite_plan_setup_height(const bite_job *job, const bite_planned_setup *setup)
{
    return bite_plan_lies_flat(setup) ? job->thickness
           : setup->side == BITE_SIDE_FRONT || setup->side == BITE_SIDE_BACK
               ? fmin(job->length, job->width)
               : fmax(job->length, job->width);
}

void bite_plan_setup_footprint(const bite_job *job, const bite_planned_setup *setup, double *along,
                               double *across)
{
    double height = bite_plan_setup_height(job, setup);
    *along = bite_plan_lies_flat(setup) ? job->length : job->length * job->width / height;
    *across = bite_plan_lies_flat(setup) ? job->width : job->thickness;
}

double bite_plan_tab_height(const bite_job *job, const bite_planned_setup *setup)
{
    double given = bite_plan_hold_number(setup, "tab_height");
    return isnan(given) ? bite_item_figure_or(setup->hold.hold, "tab_share", 0.5) *
                              bite_plan_setup_height(job, setup)
                        : given;
}

/* ---- the face below ---- */

static const uint32_t opposite[] = {
    [BITE_SIDE_TOP] = BITE_SIDE_BOTTOM, [BITE_SIDE_BOTTOM] = BITE_SIDE_TOP,
    [BITE_SIDE_FRONT] = BITE_SIDE_BACK, [BITE_SIDE_BACK] = BITE_SIDE_FRONT,
    [BITE_SIDE_LEFT] = BITE_SIDE_RIGHT, [BITE_SIDE_RIGHT] = BITE_SIDE_LEFT};

int bite_plan_is_below(const bite_planned_setup *cut_in, const bite_planned_setup *setup)
{
    return cut_in->side == opposite[setup->side];
}

/* Area that one such feature opens in the face from which it is cut, m2; NaN: its size is not
 * stated, 0: it opens none. */
static double opened_by(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    double diameter = (double)NAN;
    switch (pass->work) {
    case BITE_WORK_POCKET:
    case BITE_WORK_ROUGH:
    case BITE_WORK_SLOT:
        return length * across;
    case BITE_WORK_BORE:
        return 0.25 * M_PI * across * across;
    case BITE_WORK_DRILL:
        if (bite_quantity_read(or_empty(bite_job_file_text(section, "tool")), BITE_KIND_LENGTH,
                               &diameter, NULL) != BITE_OK) {
            return 0.0; /* a named drill: a hole of its size is small for a part */
        }
        return 0.25 * M_PI * diameter * diameter;
    default:
        return 0.0;
    }
}

/* Whether another pass cuts the same pocket: a pocket that is roughed first counts once. */
static int is_cut_again(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    for (size_t i = 0; i < job->pass_count && pass->work == BITE_WORK_ROUGH; i++) {
        const bite_planned_pass *other = &job->passes[i];
        if (other->work == BITE_WORK_POCKET && other->setup == pass->setup &&
            other->count == pass->count && opened_by(job, i) == opened_by(job, index)) {
            return 1;
        }
    }
    return 0;
}

static void add_hollow(const bite_job *job, size_t index, bite_planned_setup *setup)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    if (pass->work != BITE_WORK_POCKET && pass->work != BITE_WORK_ROUGH) {
        return;
    }
    if (!isnan(length * across) && !(fmin(length, across) <= setup->hollow.across)) {
        setup->hollow.across = fmin(length, across);
        setup->hollow.along = fmax(length, across);
        setup->hollow.depth = pass->depth;
    }
}

/* What cuts into the face below before or during the setup: cuts of earlier setups from that face,
 * and all that go through. */
static void add_cut(bite_job *job, size_t index, uint32_t number, bite_planned_setup *setup)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_planned_setup *cut_in = bite_plan_setup(job, pass->setup);
    int from_below = pass->setup < number && bite_plan_is_below(cut_in, setup);
    int along_it = cut_in->side == setup->side || bite_plan_is_below(cut_in, setup);
    int through = along_it && pass->setup <= number &&
                  pass->depth >= bite_plan_setup_height(job, cut_in) * (1.0 - 1e-9);
    double opened = opened_by(job, index);
    if ((from_below || through) && !is_cut_again(job, index)) {
        setup->cut_away += isnan(opened) ? 0.0 : pass->count * opened;
        if (isnan(opened) && pass->work != BITE_WORK_SLOT && number <= job->setups &&
            isnan(bite_plan_hold_number(setup, "area"))) { /* a slot may be as wide as its tool */
            const bite_remark_value values[] = {bite_remark_text(pass->title),
                                                bite_remark_number(number)};
            bite_plan_remark(job, BITE_REMARK_AREA_NOT_REDUCED, values, 2);
        }
        if (from_below) {
            add_hollow(job, index, setup);
        }
    }
}

/* Parts that an earlier setup cut free are clamped one by one; a bond holds them side by side. */
static void set_mountings(const bite_job *job, bite_planned_setup *setup)
{
    int clamped = bite_plan_clamp_of(setup) != BITE_CLAMP_NONE;
    for (size_t i = 0; i < job->pass_count; i++) {
        setup->separate |=
            job->passes[i].work == BITE_WORK_FREE && job->passes[i].setup < setup->number;
    }
    setup->mountings = setup->separate && clamped ? (uint32_t)job->count : 1;
}

const bite_planned_pass *bite_plan_first_pass(const bite_job *job, const bite_planned_setup *setup)
{
    size_t first = 0;
    while (first + 1 < job->pass_count && job->passes[first].setup != setup->number) {
        first++;
    }
    return &job->passes[first];
}

size_t bite_plan_last_flat_pass(const bite_job *job)
{
    size_t last = job->pass_count;
    while (last > 0 && !bite_plan_lies_flat(bite_plan_setup(job, job->passes[last - 1].setup))) {
        last--;
    }
    return last > 0 ? last - 1 : job->pass_count - 1;
}

int bite_plan_setup_cuts_free(const bite_job *job, const bite_planned_setup *setup)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].work == BITE_WORK_FREE && job->passes[i].setup == setup->number) {
            return 1;
        }
    }
    return 0;
}

int bite_plan_holds_blank(const bite_job *job, const bite_planned_setup *setup)
{
    return !setup->separate && job->stock.layout.along > 0;
}

static const double least_area_share =
    0.01; /* of the part's face: cuts whose places are not known may overlap */

/* The face below, less what is cut out of it, unless the job states the area. */
static void set_area(const bite_job *job, bite_planned_setup *setup)
{
    bite_planned_hold *hold = &setup->hold;
    double given = bite_plan_hold_number(setup, "area");
    double along = 0.0;
    double across = 0.0;
    bite_plan_setup_footprint(job, setup, &along, &across);
    double whole = along * across;
    hold->area = isnan(given) ? fmax(least_area_share * whole, whole - setup->cut_away) : given;
    double scale = sqrt(hold->area / whole);
    hold->along = scale * along;
    hold->across = scale * across;
}

void bite_plan_hold_areas(bite_job *job)
{
    for (uint32_t i = 0; i < BITE_SETUPS_MAX; i++) {
        set_area(job, &job->setup_plan[i]);
    }
}

void bite_plan_cut_away(bite_job *job)
{
    for (uint32_t number = 1; number <= BITE_SETUPS_MAX; number++) {
        set_mountings(job, &job->setup_plan[number - 1]);
        for (size_t i = 0; i < job->pass_count; i++) {
            add_cut(job, i, number, &job->setup_plan[number - 1]);
        }
    }
    bite_plan_hold_areas(job);
}
