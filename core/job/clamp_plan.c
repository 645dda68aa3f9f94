/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Clamps: the forces of every pass against jaws, screws and tabs. */
#include "core/job/clamp_plan.h"
#include "core/job/job_file.h"
#include "core/job/outline_reach.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/job/vise_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/physics/holding/bond.h"
#include <math.h>
#include <stdio.h>

static const double apart_share =
    0.8; /* of the part's longer side, from the first screw to the last (estimate) */

/* How a clamp fails: the word that JSON has, and the remark. */
static const struct {
    const char *word;
    bite_remark_id remark;
} modes[] = {
    [BITE_WORKHOLDING_SLIP] = {"slip", BITE_REMARK_CLAMP_SLIPS},
    [BITE_WORKHOLDING_LEVER] = {"lever", BITE_REMARK_CLAMP_LEVERS},
    [BITE_WORKHOLDING_STRIP] = {"strip", BITE_REMARK_CLAMP_STRIPS},
    [BITE_WORKHOLDING_SHEAR] = {"shear", BITE_REMARK_CLAMP_SHEARS},
    [BITE_WORKHOLDING_CRUSH] = {"crush", BITE_REMARK_CLAMP_CRUSHES},
    [BITE_WORKHOLDING_STRETCH] = {"stretch", BITE_REMARK_CLAMP_STRETCHES},
    [BITE_WORKHOLDING_BREAK] = {"break", BITE_REMARK_CLAMP_BREAKS},
};

/* The figure that the job states, or that of the workholding. */
static double figure_of(const bite_planned_setup *setup, const char *key)
{
    double given = bite_plan_hold_number(setup, key);
    return isnan(given) ? bite_item_figure(setup->hold.hold, key) : given;
}

/* Share of the buckling force of a thin plate that is applied by careful tightening (estimate). */
static const double careful_share = 1.0 / 3.0;

/* The force that the job states, or that of usual tightening by hand; on a thin plate at most a
 * share of the force that buckles it. */
static double jaw_force(const bite_planned_setup *setup, double buckles)
{
    double given = bite_plan_hold_number(setup, "clamp_force");
    return isnan(given) ? fmin(figure_of(setup, "clamp_force"), careful_share * buckles) : given;
}

/* Standard deviations of the logarithms of the cutting force (estimate), and of friction and of a
 * force or torque by hand that the job does not state, known within a factor of two (memory). */
static const double force_scatter = 0.25;
static const double guess_scatter = 0.4214; /* ln(2)/1.645 */

/* Of a screw's force at a stated torque: 30 % as two standard deviations (memory). */
static const double torque_scatter = 0.15;

static double guessed(const bite_planned_setup *setup, const char *key)
{
    return isnan(bite_plan_hold_number(setup, key)) ? guess_scatter : 0.0;
}

/* Scatter of demand / capacity. Strengths of screws and tabs scatter less than friction; what
 * tightening does to a screw, its thread or the part under its head does not depend on the cut. */
static double scatter_of(const bite_planned_setup *setup, uint32_t clamp, bite_workholding_way mode)
{
    double friction = mode == BITE_WORKHOLDING_SLIP ? guessed(setup, "friction") : 0.0;
    int tightened = mode == BITE_WORKHOLDING_STRIP || mode == BITE_WORKHOLDING_STRETCH ||
                    (mode == BITE_WORKHOLDING_CRUSH && clamp == BITE_CLAMP_SCREWS);
    double force =
        clamp == BITE_CLAMP_JAWS ? guessed(setup, "clamp_force")
        : clamp == BITE_CLAMP_SCREWS && isnan(bite_plan_hold_number(setup, "clamp_force"))
            ? guessed(setup, "torque")
            : 0.0;
    return hypot(tightened ? torque_scatter : force_scatter, hypot(friction, force));
}

static double plate_buckling_force(const bite_job *job, const bite_planned_setup *setup)
{
    const bite_cut *cut = &bite_plan_first_pass(job, setup)->answer->full;
    double between = 0.0;
    double along = 0.0;
    bite_plan_between_jaws(job, setup, &between, &along);
    return bite_workholding_buckling(cut->modulus, cut->poisson, bite_plan_setup_height(job, setup),
                                     between, along);
}

/* The yield strength of the part, or the tensile strength if it has none. */
static double part_strength(const bite_job *job)
{
    const bite_item_record *grade = &job->grade->record;
    return bite_item_figure_or(grade, "tensile_yield", bite_item_figure(grade, "tensile_strength"));
}

static bite_workholding_share jaws_utilization(const bite_job *job, const bite_planned_setup *setup,
                                               bite_workholding_load *load)
{
    double depth = bite_plan_jaw_depth(job, setup);
    double between = 0.0;
    double along = 0.0;
    bite_plan_between_jaws(job, setup, &between, &along);
    bite_workholding_jaws jaws = {setup->hold.force, figure_of(setup, "friction"), along, depth,
                                  part_strength(job)};
    load->height -= 0.5 * depth;
    return bite_workholding_clamped(&jaws, load);
}

/* Strengths of screws by the words of the job key `screw_class`: steel by its class, 100 MPa x the
 * first number, and the second as the share of that at which it yields (ISO 898-1, as a pocket
 * guide to tightening states it, scribd.com/document/709648137); stainless steel ISO 3506-1
 * (memory). */
static const struct {
    double strength; /* Pa */
    double yield;
} screw_classes[] = {{400e6, 240e6}, {400e6, 320e6},  {500e6, 400e6},
                     {800e6, 640e6}, {1000e6, 900e6}, {1200e6, 1080e6},
                     {500e6, 210e6}, {700e6, 450e6},  {800e6, 600e6}};

/* Shear and yield strength of the screws. Without a class, those of the weakest steel screws, 4.6,
 * which yield at 0.6 of their strength and are sheared by as much. */
static void set_screw_strength(const bite_planned_setup *setup, bite_workholding_screws *screws)
{
    const double shear_over_tension = 0.6; /* estimate, as screw_shear of the table */
    const uint32_t none = sizeof screw_classes / sizeof *screw_classes;
    uint32_t stated = bite_plan_hold_word(setup, "screw_class", none);
    screws->screw_shear = screws->screw_yield = figure_of(setup, "screw_shear");
    if (stated < none) {
        screws->screw_shear = shear_over_tension * screw_classes[stated].strength;
        screws->screw_yield = screw_classes[stated].yield;
    }
}

static bite_workholding_share screws_utilization(const bite_job *job,
                                                 const bite_planned_setup *setup,
                                                 const bite_workholding_load *load)
{
    double apart = bite_plan_hold_number(setup, "screws_apart");
    double longest = fmax(job->length, job->width);
    bite_workholding_screws screws = {
        .count = figure_of(setup, "screws"),
        .force = setup->hold.force,
        .friction = figure_of(setup, "friction"),
        .diameter = figure_of(setup, "screw"),
        .engaged = figure_of(setup, "engaged"),
        .apart = isnan(apart) ? apart_share * longest : apart,
        .plate_shear = figure_of(setup, "plate_shear"),
        .part_bearing = part_strength(job),
        .thickness = bite_plan_setup_height(job, setup),
    };
    set_screw_strength(setup, &screws);
    return bite_workholding_screwed(&screws, setup->hold.along, setup->hold.across, load);
}

/* While a part is still in its sheet, all of the sheet supports it. Tabs carry the load once it is
 * cut free; they are as long as the tool is wide. */
static bite_workholding_share tabs_utilization(const bite_job *job, const bite_planned_setup *setup,
                                               const bite_planned_pass *pass,
                                               bite_workholding_load *load)
{
    double height = bite_plan_tab_height(job, setup);
    bite_workholding_tabs tabs = {figure_of(setup, "tabs"), figure_of(setup, "tab_width"), height,
                                  job->tools[pass->tool].diameter, part_strength(job)};
    bite_workholding_share unknown = {(double)NAN, BITE_WORKHOLDING_BREAK};
    load->height -= 0.5 * height; /* tabs are at the part's lower face */
    return pass->work == BITE_WORK_FREE
               ? bite_workholding_tabbed(&tabs, setup->hold.along, setup->hold.across, load)
               : unknown;
}

/* The peak of the side force counts, since a slip, however short, is not reversed. */
static bite_workholding_share pass_utilization(const bite_job *job, const bite_planned_setup *setup,
                                               const bite_planned_pass *pass, uint32_t clamp)
{
    const bite_cut *cut = &pass->answer->full;
    const bite_value *values = pass->answer->result.values;
    double part = bite_plan_setup_height(job, setup);
    double height =
        pass->work == BITE_WORK_FREE || !bite_plan_lies_flat(setup) ? part : job->stock.thick;
    double along = 0.0;
    double across = 0.0;
    bite_plan_setup_footprint(job, setup, &along, &across);
    bite_workholding_load load = {
        bite_bond_force(values[BITE_FORCE_SIDE_MEAN].value, values[BITE_FORCE_SIDE_PEAK].value,
                        bite_bond_steady_share(0.0, 1.0), cut->bond_force),
        cut->bond_force * values[BITE_FORCE_LIFT_PEAK].value, height, 0.5 * fmax(along, across)};
    bite_workholding_share unknown = {(double)NAN, BITE_WORKHOLDING_SLIP};
    switch (clamp) {
    case BITE_CLAMP_JAWS:
        return jaws_utilization(job, setup, &load);
    case BITE_CLAMP_SCREWS:
        return screws_utilization(job, setup, &load);
    case BITE_CLAMP_TABS:
        return tabs_utilization(job, setup, pass, &load);
    default:
        return unknown;
    }
}

/* Returns the failure mode of the worst pass. */
static bite_workholding_way judge_passes(bite_job *job, bite_planned_setup *setup, uint32_t clamp)
{
    bite_planned_hold *hold = &setup->hold;
    bite_workholding_way mode = BITE_WORKHOLDING_SLIP;
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].setup != setup->number) {
            continue;
        }
        bite_workholding_share share = pass_utilization(job, setup, &job->passes[i], clamp);
        job->passes[i].hold_utilization = share.utilization;
        if (share.utilization > hold->utilization ||
            (isnan(hold->utilization) && !isnan(share.utilization))) {
            hold->utilization = share.utilization;
            hold->chance =
                bite_workholding_chance(share.utilization, scatter_of(setup, clamp, share.mode));
            hold->failure_mode = modes[share.mode].word;
            hold->worst_pass = (int)i;
            hold->needs =
                share.mode == BITE_WORKHOLDING_SLIP || share.mode == BITE_WORKHOLDING_LEVER
                    ? share.utilization * hold->force
                    : (double)NAN;
            mode = share.mode;
        }
    }
    return mode;
}

static void add_holding_remarks(bite_job *job, bite_planned_setup *setup, uint32_t clamp,
                                bite_workholding_way mode)
{
    const bite_planned_hold *hold = &setup->hold;
    const bite_remark_value method = bite_remark_text(hold->hold->title);
    if (isnan(hold->utilization)) {
        bite_plan_remark(job, BITE_REMARK_HOLDING_NOT_JUDGED, &method, 1);
        return;
    }
    if (hold->chance >= 1.0 - job->confidence) {
        const bite_remark_value values[] = {
            method, bite_remark_text(job->passes[hold->worst_pass].title),
            bite_remark_number(hold->utilization), bite_remark_number(hold->chance)};
        bite_plan_remark(job, modes[mode].remark, values, 4);
    }
    if (!isnan(hold->needs)) {
        const bite_remark_value values[] = {bite_remark_number(hold->force),
                                            bite_remark_number(hold->needs)};
        bite_plan_remark(job,
                         clamp == BITE_CLAMP_JAWS ? BITE_REMARK_JAW_FORCE : BITE_REMARK_SCREW_FORCE,
                         values, 2);
    }
}

static void add_buckling_remark(bite_job *job, bite_planned_setup *setup)
{
    const bite_planned_hold *hold = &setup->hold;
    const bite_cut *cut = &bite_plan_first_pass(job, setup)->answer->full;
    double buckling_force = plate_buckling_force(job, setup);
    double given = bite_plan_hold_number(setup, "clamp_force");
    if (!(buckling_force < bite_item_figure_or(hold->hold, "clamp_force", INFINITY)) &&
        !(given > buckling_force)) {
        return; /* a block, which tightening by hand does not bend */
    }
    double applied = fmin(hold->force, buckling_force);
    double between = 0.0;
    double along = 0.0;
    bite_plan_between_jaws(job, setup, &between, &along);
    double squeezed = bite_workholding_squeeze(applied, cut->modulus,
                                               bite_plan_setup_height(job, setup), between, along);
    const bite_remark_value values[] = {bite_remark_number(buckling_force),
                                        bite_remark_number(applied / buckling_force),
                                        bite_remark_number(squeezed)};
    bite_plan_remark(job, BITE_REMARK_BUCKLING, values, 3);
}

/* A plate that is clamped too hard bows up out of the jaws. */
static void judge_buckling(bite_job *job, bite_planned_setup *setup)
{
    bite_planned_hold *hold = &setup->hold;
    double utilization = hold->force / plate_buckling_force(job, setup);
    double chance =
        bite_workholding_chance(utilization, hypot(force_scatter, guessed(setup, "clamp_force")));
    if (!(chance <= hold->chance)) {
        hold->utilization = utilization;
        hold->chance = chance;
        hold->failure_mode = "buckle";
        hold->worst_pass = -1;
    }
    add_buckling_remark(job, setup);
}

/* Checks that the part is secured at the end of its last cut. */
static void check_end(bite_job *job, bite_planned_setup *setup, uint32_t clamp)
{
    int frees = bite_plan_setup_cuts_free(job, setup);
    setup->hold.loose = clamp == BITE_CLAMP_JAWS && frees;
    if (clamp == BITE_CLAMP_JAWS && frees) {
        bite_plan_remark(job, BITE_REMARK_LOOSE_IN_JAWS, NULL, 0);
    } else if (clamp == BITE_CLAMP_SCREWS && frees) {
        bite_plan_remark(job, BITE_REMARK_HELD_BY_OWN_SCREWS, NULL, 0);
    }
}

static void add_tab_remarks(bite_job *job, bite_planned_setup *setup)
{
    const bite_remark_value values[] = {bite_remark_number(figure_of(setup, "tabs")),
                                        bite_remark_number(figure_of(setup, "tab_width")),
                                        bite_remark_number(bite_plan_tab_height(job, setup))};
    bite_plan_remark(job,
                     bite_plan_setup_cuts_free(job, setup) ? BITE_REMARK_TABS
                                                           : BITE_REMARK_TABS_IF_CUT_FREE,
                     values, 3);
    bite_plan_remark(job, BITE_REMARK_FRAME_CLAMPS, NULL, 0);
}

/* The force that was judged is the one to apply: adds it as a step of mounting. */
static void add_step(bite_job *job, bite_planned_setup *setup, uint32_t clamp)
{
    bite_planned_hold *hold = &setup->hold;
    char force[40];
    char other[40];
    const char *step = NULL;
    (void)bite_plan_quantity(job, hold->force, BITE_KIND_FORCE, force, sizeof force);
    if (clamp == BITE_CLAMP_JAWS) {
        step = bite_plan_text(job, "Close the jaws with %s, %s up the edges of the part.", force,
                              bite_plan_quantity(job, bite_plan_jaw_depth(job, setup),
                                                 BITE_KIND_LENGTH, other, sizeof other));
    } else if (clamp == BITE_CLAMP_SCREWS) {
        double torque = bite_workholding_torque(hold->force, figure_of(setup, "screw"));
        step = bite_plan_text(
            job, "Tighten %.0f screws to %s each: a preload of %s each.",
            figure_of(setup, "screws"),
            bite_plan_quantity(job, torque, BITE_KIND_TORQUE, other, sizeof other), force);
    }
    if (step != NULL && hold->mounting_count < BITE_STEPS_MAX) {
        hold->mounting[hold->mounting_count++] = step;
    }
}

void bite_plan_clamp(bite_job *job, bite_planned_setup *setup)
{
    bite_planned_hold *hold = &setup->hold;
    uint32_t clamp = bite_item_word(hold->hold, "clamp", BITE_CLAMP_NONE);
    double torque = figure_of(setup, "torque");
    double force = bite_plan_hold_number(setup, "clamp_force");
    if (clamp == BITE_CLAMP_JAWS) {
        hold->force = jaw_force(setup, plate_buckling_force(job, setup));
    } else if (clamp == BITE_CLAMP_SCREWS) {
        hold->force =
            isnan(force) ? bite_workholding_tightened(torque, figure_of(setup, "screw")) : force;
    }
    add_step(job, setup, clamp);
    add_holding_remarks(job, setup, clamp, judge_passes(job, setup, clamp));
    if (clamp == BITE_CLAMP_JAWS) {
        judge_buckling(job, setup);
        bite_plan_vise(job, setup);
    } else if (clamp == BITE_CLAMP_TABS) {
        add_tab_remarks(job, setup);
    }
    check_end(job, setup, clamp);
}
