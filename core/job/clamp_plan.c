/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds a part by force or by its own material: jaws, screws, tabs. Each pass's forces against
 * each. */
#include "core/job/clamp_plan.h"
#include "core/job/bond_plan.h"
#include "core/job/plan.h"
#include "core/job/plan_steps.h"
#include "core/library/collection.h"
#include <math.h>
#include <stdio.h>

static const double apart_share =
    0.8; /* of the part's longer side, from the first screw to the last (estimate) */

/* How it lets go, in a word, in a sentence, and what helps. */
static const struct {
    const char *word;
    const char *lets_go;
    const char *helps;
} ways[] = {
    [BITE_WORKHOLDING_SLIP] = {"slip", "the part slips",
                               "Stops at two sides, more force or more screws, smaller cuts."},
    [BITE_WORKHOLDING_LEVER] = {"lever", "the cut levers the part up",
                                "Grip deeper or lower, screws farther apart, smaller cuts."},
    [BITE_WORKHOLDING_STRIP] = {"strip", "threads strip out of the plate",
                                "More thread in the plate, inserts, less torque."},
    [BITE_WORKHOLDING_SHEAR] = {"shear", "screws shear",
                                "More or thicker screws, dowels beside them."},
    [BITE_WORKHOLDING_CRUSH] = {"crush", "the part gives way under heads or at holes",
                                "Wider washers, more screws, less torque."},
    [BITE_WORKHOLDING_STRETCH] = {"stretch", "screws yield as they are tightened",
                                  "Less torque, more or thicker screws."},
    [BITE_WORKHOLDING_BREAK] = {"break", "tabs break",
                                "More or wider tabs, thicker ones, smaller cuts."},
};

/* As the job says, else as the way of holding does. */
static double figure_of(const bite_job *job, const char *key)
{
    double given = bite_job_file_number(job->file_data.hold, key);
    return isnan(given) ? bite_plan_figure(job->hold.hold, key, (double)NAN) : given;
}

/* The job's force, else a usual hand's, and of a thin plate no more than buckles it with the factor
 * of safety. */
static double jaw_force(const bite_job *job, double buckles)
{
    double given = bite_job_file_number(job->file_data.hold, "clamp_force");
    return isnan(given) ? fmin(figure_of(job, "clamp_force"), buckles / job->hold.safety) : given;
}

/* What stands between the jaws, the blank where several parts are made of one, else the part: how
 * far they stand apart, and how long its faces on them are. */
static void plate_between(const bite_job *job, double *between, double *along)
{
    int blank = job->count > 1.0 && job->stock.layout.along > 0;
    double length = blank ? job->stock.layout.length : job->length;
    double width = blank ? job->stock.layout.width : job->width;
    double given = bite_job_file_number(job->file_data.hold, "between_jaws");
    *along = fmax(length, width);
    *between = isnan(given) ? fmin(length, width) : given;
}

static double jaw_depth(const bite_job *job)
{
    return fmin(figure_of(job, "jaw_depth"), job->thickness);
}

static double buckling_force(const bite_job *job)
{
    const bite_cut *cut = &job->passes[0].answer->full;
    double between = 0.0;
    double along = 0.0;
    plate_between(job, &between, &along);
    return bite_workholding_buckling(cut->modulus, cut->poisson, job->thickness, between, along);
}

/* What the part bears before it yields, or where it does not, before it breaks. */
static double part_strength(const bite_job *job)
{
    const bite_item_record *grade = &job->grade->record;
    return bite_plan_figure(grade, "tensile_yield",
                            bite_plan_figure(grade, "tensile_strength", (double)NAN));
}

static bite_workholding_share share_of_jaws(const bite_job *job, bite_workholding_load *load)
{
    double depth = jaw_depth(job);
    double between = 0.0;
    double along = 0.0;
    plate_between(job, &between, &along);
    bite_workholding_jaws jaws = {job->hold.force, figure_of(job, "friction"), along, depth,
                                  part_strength(job)};
    load->height -= 0.5 * depth;
    return bite_workholding_clamped(&jaws, load);
}

static bite_workholding_share share_of_screws(const bite_job *job,
                                              const bite_workholding_load *load)
{
    double apart = bite_job_file_number(job->file_data.hold, "screws_apart");
    bite_workholding_screws screws = {figure_of(job, "screws"),
                                      job->hold.force,
                                      figure_of(job, "friction"),
                                      figure_of(job, "screw"),
                                      figure_of(job, "engaged"),
                                      isnan(apart) ? apart_share * fmax(job->length, job->width)
                                                   : apart,
                                      figure_of(job, "plate_shear"),
                                      figure_of(job, "screw_shear"),
                                      part_strength(job),
                                      job->thickness};
    return bite_workholding_screwed(&screws, job->hold.along, job->hold.across, load);
}

static double tab_height(const bite_job *job)
{
    double given = bite_job_file_number(job->file_data.hold, "tab_height");
    return isnan(given) ? bite_plan_figure(job->hold.hold, "tab_share", 0.5) * job->thickness
                        : given;
}

/* A part that stands in its sheet is held by all of it; tabs matter once it is cut free, and the
 * tool is as wide as they are long.
 */
static bite_workholding_share share_of_tabs(const bite_job *job, const bite_planned_pass *pass,
                                            bite_workholding_load *load)
{
    double height = tab_height(job);
    bite_workholding_tabs tabs = {figure_of(job, "tabs"), figure_of(job, "tab_width"), height,
                                  job->tools[pass->tool].diameter, part_strength(job)};
    bite_workholding_share unknown = {(double)NAN, BITE_WORKHOLDING_BREAK};
    load->height -= 0.5 * height; /* tabs stand at the part's lower face */
    return pass->work == BITE_WORK_FREE
               ? bite_workholding_tabbed(&tabs, job->hold.along, job->hold.across, load)
               : unknown;
}

/* The peak of the side force, for what slips in a millisecond does not slip back; the factor of
 * safety in it. */
static bite_workholding_share share_of(const bite_job *job, const bite_planned_pass *pass,
                                       uint32_t clamp)
{
    const bite_planned_hold *hold = &job->hold;
    const bite_value *values = pass->answer->result.values;
    double height = pass->work == BITE_WORK_FREE ? job->thickness : job->stock.thick;
    bite_workholding_load load = {hold->safety * values[BITE_FORCE_SIDE_PEAK].value,
                                  hold->safety * values[BITE_FORCE_LIFT_PEAK].value, height,
                                  0.5 * fmax(job->length, job->width)};
    bite_workholding_share unknown = {(double)NAN, BITE_WORKHOLDING_SLIP};
    switch (clamp) {
    case BITE_CLAMP_JAWS:
        return share_of_jaws(job, &load);
    case BITE_CLAMP_SCREWS:
        return share_of_screws(job, &load);
    case BITE_CLAMP_TABS:
        return share_of_tabs(job, pass, &load);
    default:
        return unknown;
    }
}

/* Returns how the worst lets go. */
static bite_workholding_way judge_passes(bite_job *job, uint32_t clamp)
{
    bite_planned_hold *hold = &job->hold;
    bite_workholding_way way = BITE_WORKHOLDING_SLIP;
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_workholding_share share = share_of(job, &job->passes[i], clamp);
        job->passes[i].hold_utilization = share.utilization;
        if (share.utilization > hold->utilization ||
            (isnan(hold->utilization) && !isnan(share.utilization))) {
            hold->utilization = share.utilization;
            hold->failure_mode = ways[share.mode].word;
            hold->worst_pass = (int)i;
            hold->needs =
                share.mode == BITE_WORKHOLDING_SLIP || share.mode == BITE_WORKHOLDING_LEVER
                    ? share.utilization * hold->force
                    : (double)NAN;
            way = share.mode;
        }
    }
    return way;
}

static void say_use(bite_job *job, bite_workholding_way way)
{
    const bite_planned_hold *hold = &job->hold;
    char force[40];
    char needs[40];
    if (isnan(hold->utilization)) {
        bite_plan_remark(
            job, BITE_CARE, "hold",
            bite_plan_text(
                job,
                "Whether the %s holds is not judged here: try it by hand, and mind the first pass.",
                hold->hold->title),
            "");
        return;
    }
    if (hold->utilization > 1.0) {
        bite_plan_remark(job, BITE_CARE, "hold",
                         bite_plan_text(job,
                                        "%s may let go in %s: %s at %.0f %% of what holds, with a "
                                        "factor of %.0f for safety. %s",
                                        hold->hold->title, job->passes[hold->worst_pass].title,
                                        ways[way].lets_go, 100.0 * hold->utilization, hold->safety,
                                        ways[way].helps),
                         "estimate: statics of a rigid part, peak forces of this plan");
    }
    if (!isnan(hold->needs)) {
        bite_plan_remark(
            job, 0, "hold",
            bite_plan_text(
                job,
                "Reckoned with a pull of %s%s; the hardest cut needs %s with a factor of %.0f for "
                "safety.",
                bite_plan_quantity(job, hold->force, BITE_KIND_FORCE, force, sizeof force),
                bite_item_word(hold->hold, "clamp", BITE_CLAMP_NONE) == BITE_CLAMP_JAWS
                    ? " between jaws"
                    : " in each screw",
                bite_plan_quantity(job, hold->needs, BITE_KIND_FORCE, needs, sizeof needs),
                hold->safety),
            "");
    }
}

static void say_buckling(bite_job *job)
{
    const bite_planned_hold *hold = &job->hold;
    const bite_cut *cut = &job->passes[0].answer->full;
    double buckles = buckling_force(job);
    double given = bite_job_file_number(job->file_data.hold, "clamp_force");
    char load[40];
    char shorter[40];
    if (!(buckles < bite_plan_figure(hold->hold, "clamp_force", INFINITY)) && !(given > buckles)) {
        return; /* a block: such a hand does not bend it */
    }
    double taken = fmin(hold->force, buckles);
    double between = 0.0;
    double along = 0.0;
    plate_between(job, &between, &along);
    double squeezed = bite_workholding_squeeze(taken, cut->modulus, job->thickness, between, along);
    bite_plan_remark(
        job, BITE_CARE, "hold",
        bite_plan_text(
            job,
            "Between jaws this plate buckles at %s, and at %.0f %% of that it is %s shorter and "
            "grows back by as much. "
            "A bench vise makes thousands of newtons: clamp thin parts through tabs or holes, or "
            "bond them.",
            bite_plan_quantity(job, buckles, BITE_KIND_FORCE, load, sizeof load),
            100.0 * taken / buckles,
            bite_plan_quantity(job, squeezed, BITE_KIND_LENGTH, shorter, sizeof shorter)),
        "estimate: Euler buckling of a plate between two edges");
}

/* Pressed harder than it bears, a plate bows up out of the jaws. */
static void judge_buckling(bite_job *job)
{
    bite_planned_hold *hold = &job->hold;
    double pressed = hold->safety * hold->force / buckling_force(job);
    if (pressed > hold->utilization) {
        hold->utilization = pressed;
        hold->failure_mode = "buckle";
        hold->worst_pass = -1;
    }
    say_buckling(job);
}

/* A cut at the part's edges that goes deeper than the part stands out of the jaws meets them. */
static void check_jaws(bite_job *job)
{
    double height = fmax(job->thickness, job->stock.thick);
    double out = height - jaw_depth(job);
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        int edge = pass->work == BITE_WORK_FACE || pass->work == BITE_WORK_CONTOUR ||
                   pass->work == BITE_WORK_FREE;
        char by[40];
        if (edge && pass->depth > out * (1.0 + 1e-9)) {
            job->hold.strikes = 1;
            bite_plan_remark(job, BITE_DANGER, "hold",
                             bite_plan_text(job,
                                            "%s goes %s below the jaws' upper edge: the cutter "
                                            "meets them. Grip lower, or cut less.",
                                            pass->title,
                                            bite_plan_quantity(job, pass->depth - out,
                                                               BITE_KIND_LENGTH, by, sizeof by)),
                             "common-practice");
        }
    }
}

/* What is left to hold a part at the end of its last cut. */
static void say_end(bite_job *job, uint32_t clamp)
{
    static const char *const ends[] = {
        [BITE_CLAMP_JAWS] = "A part that is cut free in a vise is held by nothing at the end of "
                            "the cut: leave tabs, or bond it.",
        [BITE_CLAMP_SCREWS] = "A part that is cut free is held by the screws in its own holes "
                              "alone: those in the waste let it go.",
    };
    job->hold.loose = clamp == BITE_CLAMP_JAWS && bite_plan_cuts_free(job);
    if (clamp <= BITE_CLAMP_SCREWS && bite_plan_cuts_free(job)) {
        bite_plan_remark(job, clamp == BITE_CLAMP_JAWS ? BITE_CARE : BITE_NOTE, "hold", ends[clamp],
                         "common-practice");
    }
}

static void say_tabs(bite_job *job)
{
    char wide[40];
    char high[40];
    bite_plan_remark(job, 0, "hold",
                     bite_plan_text(job, "Leave %.0f tabs of %s by %s at each part%s.",
                                    figure_of(job, "tabs"),
                                    bite_plan_quantity(job, figure_of(job, "tab_width"),
                                                       BITE_KIND_LENGTH, wide, sizeof wide),
                                    bite_plan_quantity(job, tab_height(job), BITE_KIND_LENGTH, high,
                                                       sizeof high),
                                    bite_plan_cuts_free(job) ? "" : ", if it is cut free"),
                     "");
    bite_plan_remark(job, BITE_NOTE, "hold",
                     "Whether the clamps on the frame hold is not judged: at least three sides, "
                     "tight, checked before the start.",
                     "common-practice");
}

/* What was judged is what is to be done: it goes among the steps of putting on. */
static void add_step(bite_job *job, uint32_t clamp)
{
    bite_planned_hold *hold = &job->hold;
    char force[40];
    char other[40];
    const char *step = NULL;
    (void)bite_plan_quantity(job, hold->force, BITE_KIND_FORCE, force, sizeof force);
    if (clamp == BITE_CLAMP_JAWS) {
        step = bite_plan_text(
            job, "Press the jaws with %s, %s up the part's edges.", force,
            bite_plan_quantity(job, jaw_depth(job), BITE_KIND_LENGTH, other, sizeof other));
    } else if (clamp == BITE_CLAMP_SCREWS) {
        double torque = bite_workholding_torque(hold->force, figure_of(job, "screw"));
        step = bite_plan_text(
            job, "%.0f screws, each to %s: %s in each.", figure_of(job, "screws"),
            bite_plan_quantity(job, torque, BITE_KIND_TORQUE, other, sizeof other), force);
    }
    if (step != NULL && hold->mounting_count < BITE_STEPS_MAX) {
        hold->mounting[hold->mounting_count++] = step;
    }
}

void bite_plan_clamp(bite_job *job)
{
    bite_planned_hold *hold = &job->hold;
    uint32_t clamp = bite_item_word(hold->hold, "clamp", BITE_CLAMP_NONE);
    double torque = figure_of(job, "torque");
    double force = bite_job_file_number(job->file_data.hold, "clamp_force");
    if (clamp == BITE_CLAMP_JAWS) {
        hold->force = jaw_force(job, buckling_force(job));
    } else if (clamp == BITE_CLAMP_SCREWS) {
        hold->force =
            isnan(force) ? bite_workholding_tightened(torque, figure_of(job, "screw")) : force;
    }
    add_step(job, clamp);
    say_use(job, judge_passes(job, clamp));
    if (clamp == BITE_CLAMP_JAWS) {
        judge_buckling(job);
        check_jaws(job);
    } else if (clamp == BITE_CLAMP_TABS) {
        say_tabs(job);
    }
    say_end(job, clamp);
}
