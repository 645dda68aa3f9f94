/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds and vacuum: which layer is weakest, and what the cuts do to it. */
#include "core/job/bond_plan.h"
#include "core/job/feature_plan.h"
#include "core/job/job_file.h"
#include "core/job/plan_figure.h"
#include "core/job/remarks.h"
#include "core/library/collection.h"
#include "core/physics/elastic/thin_plate.h"
#include <math.h>
#include <string.h>

static const double vacuum_pressure = 85e3; /* Pa; vacuum plates in use, 80 to 85 kPa for design */
static const double default_groove = 20e-3; /* m */

/* The share of their usual strength that tape and glue have on this material. */
static double adhesion_of(const bite_job *job)
{
    static const struct {
        const char *family;
        double share;
    } less[] = {
        /* of a tape's peel on steel: polyethylene 0.49, polypropylene 0.64 (datasheet of one
         * double-coated tape); PTFE and acetal by their surface energy (estimate) */
        {"polyethylene", 0.45},
        {"polypropylene", 0.6},
        {"ptfe", 0.2},
        {"acetal", 0.7},
        {"wax", 0.2},
    };
    for (size_t i = 0; i < sizeof less / sizeof *less; i++) {
        if (strcmp(job->grade->family_name, less[i].family) == 0) {
            return less[i].share;
        }
    }
    return 1.0;
}

/* The peel strength of the layer that peels first, N/m; NaN: no layer states one. */
static double peel_of(const bite_planned_hold *hold)
{
    double least = (double)NAN;
    for (size_t i = 0; i < hold->layer_count; i++) {
        double peel = bite_plan_figure(hold->layers[i], "peel", (double)NAN);
        least = isnan(least) || peel < least ? peel : least;
    }
    return least;
}

/* The mean side force counts, because a tooth's peak is over in a millisecond and tape yields to
 * what lasts (estimate), and the peak of the lift; both at their best estimates, because the factor
 * of safety covers what is uncertain. They act on the weakest layer over the area that the pass
 * leaves. A part that is cut free is as high as it is thick; before that, the parts are one with
 * the sheet. */
static double utilization_of(bite_job *job, const bite_planned_pass *pass, int sticks,
                             bite_workholding_stress *stress)
{
    bite_planned_hold *hold = &job->hold;
    const bite_result *result = &pass->answer->result;
    int frees = pass->work == BITE_WORK_FREE;
    const bite_layout *layout = &job->stock.layout;
    int together =
        !frees && layout->along > 0; /* the parts are one sheet, along and in rows as laid out */
    double along =
        together ? hold->along * (layout->turned ? layout->rows : layout->along) : hold->along;
    double across =
        together ? hold->across * (layout->turned ? layout->along : layout->rows) : hold->across;
    bite_workholding_load load = {
        result->values[BITE_FORCE_SIDE_MEAN].value, result->values[BITE_FORCE_LIFT_PEAK].value,
        frees ? job->thickness : job->stock.thick, 0.5 * fmax(along, across)};
    /* the lever of tilt is the shorter side, because the force may come from any direction */
    *stress = bite_workholding_stresses(fmin(along, across), fmax(along, across), &load);
    double share =
        (sticks ? adhesion_of(job) : 1.0) *
        bite_workholding_warm(result->values[BITE_PART_TEMPERATURE].value,
                              pass->answer->full.room_temperature, pass->answer->full.bond_limit);
    hold->shear = share * pass->answer->full.bond_shear;
    hold->pull = share * pass->answer->full.bond_pull;
    double peel = hold->safety *
                  bite_workholding_peel(fmin(along, across), fmax(along, across), &load) /
                  (share * peel_of(hold));
    double utilization = bite_workholding_use(stress, hold->shear, hold->pull, hold->safety);
    /* not fmax: a layer without a peel strength adds no demand, and a bond without a strength stays
     * unknown */
    return peel > utilization ? peel : utilization;
}

static void check_break_through(bite_job *job)
{
    const bite_planned_hold *hold = &job->hold;
    int tape = !isnan(hold->tape);
    if (!bite_plan_cuts_free(job)) {
        return;
    }
    if (tape && hold->break_through > hold->tape) {
        const bite_remark_value values[] = {bite_remark_number(hold->break_through),
                                            bite_remark_number(hold->tape)};
        bite_plan_remark(job, BITE_REMARK_CUTS_BELOW_TAPE, values, 2);
    }
    bite_plan_remark(job, tape ? BITE_REMARK_TAPE_ON_TOOL : BITE_REMARK_NO_BOARD, NULL, 0);
    for (size_t i = 0; i < hold->layer_count; i++) {
        if (strcmp(hold->layers[i]->name, "film-tape") == 0) {
            bite_plan_remark(job, BITE_REMARK_FILM_TAPE, NULL, 0);
        }
    }
}

void bite_plan_bond(bite_job *job, int sticks)
{
    bite_planned_hold *hold = &job->hold;
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_workholding_stress stress;
        bite_planned_pass *pass = &job->passes[i];
        pass->hold_utilization = utilization_of(job, pass, sticks, &stress);
        if (pass->hold_utilization > hold->utilization ||
            (isnan(hold->utilization) && !isnan(pass->hold_utilization))) {
            hold->utilization = pass->hold_utilization;
            hold->worst_pass = (int)i;
            hold->stress = stress;
        }
    }
    if (hold->utilization > 1.0) {
        const bite_remark_value values[] = {bite_remark_text(hold->hold->title),
                                            bite_remark_text(job->passes[hold->worst_pass].title),
                                            bite_remark_number(hold->utilization),
                                            bite_remark_number(hold->safety)};
        bite_plan_remark(job, BITE_REMARK_BOND_MAY_FAIL, values, 4);
    }
    check_break_through(job);
}

void bite_plan_vacuum(bite_job *job)
{
    const bite_cut *cut = &job->passes[0].answer->full;
    double groove = bite_job_file_number(job->file_data.hold, "groove");
    groove = isnan(groove) ? default_groove : groove;
    double left = isnan(job->thinnest) ? job->thickness : job->thinnest;
    double sag = bite_workholding_groove(vacuum_pressure, groove,
                                         bite_plate_rigidity(cut->modulus, cut->poisson, left));
    double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
    if (sag > 0.2 * (isnan(tolerance) ? 0.1e-3 : tolerance)) {
        const bite_remark_value values[] = {bite_remark_number(groove), bite_remark_number(sag)};
        bite_plan_remark(job, BITE_REMARK_VACUUM_GROOVE, values, 2);
    }
}

void bite_plan_glue(bite_job *job)
{
    bite_planned_hold *hold = &job->hold;
    double gap = bite_job_file_number(job->file_data.hold, "glue_gap");
    hold->cure = (double)NAN;
    if (bite_item_word(hold->hold, "glued", 0) == 0) {
        return;
    }
    for (size_t i = 0; isnan(gap) && i < hold->layer_count; i++) {
        gap = strcmp(hold->layers[i]->name, "cyanoacrylate") == 0
                  ? bite_plan_figure(hold->layers[i], "thickness", gap)
                  : gap;
    }
    if (!isnan(gap)) {
        hold->cure = bite_workholding_cure(gap);
        const bite_remark_value values[] = {bite_remark_number(gap),
                                            bite_remark_number(hold->cure)};
        bite_plan_remark(job, BITE_REMARK_GLUE_CURE, values, 2);
    }
}

void bite_plan_adhesion(bite_job *job)
{
    double share = adhesion_of(job);
    if (share < 1.0) {
        const bite_remark_value values[] = {bite_remark_text(job->grade->family_name),
                                            bite_remark_number(share)};
        bite_plan_remark(job, BITE_REMARK_POOR_ADHESION, values, 2);
    }
}
