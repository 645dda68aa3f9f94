/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds and vacuum: the weakest layer, and the loads that the cuts put on it. */
#include "core/job/bond_plan.h"
#include "core/cut/limits_holding.h"
#include "core/job/job_file.h"
#include "core/job/outline_reach.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/physics/elastic/thin_plate.h"
#include <math.h>
#include <string.h>

static const double vacuum_pressure = 85e3; /* Pa; vacuum plates in use, 80 to 85 kPa for design */
static const double default_groove = 20e-3; /* m */

void bite_plan_bonded_area(const bite_job *job, const bite_planned_pass *pass, double *along,
                           double *across)
{
    const bite_planned_hold *hold = bite_plan_hold_of(job, pass->setup);
    const bite_layout *layout = &job->stock.layout;
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    int together = pass->work != BITE_WORK_FREE && bite_plan_holds_blank(job, setup) &&
                   bite_plan_lies_flat(setup);
    *along = together ? hold->along * (layout->turned ? layout->rows : layout->along) : hold->along;
    *across =
        together ? hold->across * (layout->turned ? layout->along : layout->rows) : hold->across;
}

/* Each pass has been judged by the limits of a cut, for the bonded area that it leaves and the time
 * under load so far; here the worst one is found. */
static void judge_passes(bite_job *job, bite_planned_setup *setup)
{
    bite_planned_hold *hold = &setup->hold;
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_planned_pass *pass = &job->passes[i];
        if (pass->setup != setup->number) {
            continue;
        }
        const bite_limit *limit = &pass->answer->result.limits[BITE_LIMIT_HOLD];
        pass->hold_utilization = limit->utilization; /* NaN if it does not apply */
        if (limit->applies && !(limit->utilization <= hold->utilization)) {
            hold->utilization = limit->utilization;
            hold->chance = limit->chance;
            hold->worst_pass = (int)i;
        }
    }
}

/* Sets the stresses and strengths under the worst pass, for the report. */
static void show_worst(bite_planned_hold *hold, const bite_planned_pass *pass)
{
    const bite_value *values = pass->answer->result.values;
    bite_hold_action action = {values[BITE_FORCE_SIDE_MEAN].value,
                               values[BITE_FORCE_SIDE_PEAK].value,
                               values[BITE_FORCE_LIFT_PEAK].value, values[BITE_ENGAGEMENT].value,
                               values[BITE_PART_TEMPERATURE].value};
    bite_hold_state state = bite_cut_hold(&pass->answer->full, &action);
    hold->stress = state.stress;
    hold->shear = state.shear;
    hold->pull = state.pull;
}

static void check_break_through(bite_job *job, bite_planned_setup *setup)
{
    const bite_planned_hold *hold = &setup->hold;
    int tape = !isnan(hold->tape);
    if (!bite_plan_setup_cuts_free(job, setup)) {
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

void bite_plan_bond(bite_job *job, bite_planned_setup *setup)
{
    bite_planned_hold *hold = &setup->hold;
    judge_passes(job, setup);
    if (hold->worst_pass >= 0) {
        const bite_planned_pass *worst = &job->passes[hold->worst_pass];
        show_worst(hold, worst);
        if (worst->answer->result.limits[BITE_LIMIT_HOLD].verdict >= BITE_TIGHT) {
            const bite_remark_value values[] = {
                bite_remark_text(hold->hold->title), bite_remark_text(worst->title),
                bite_remark_number(hold->utilization), bite_remark_number(hold->chance)};
            bite_plan_remark(job, BITE_REMARK_BOND_MAY_FAIL, values, 4);
        }
    }
    check_break_through(job, setup);
}

void bite_plan_vacuum(bite_job *job, bite_planned_setup *setup)
{
    const bite_cut *cut = &bite_plan_first_pass(job, setup)->answer->full;
    double groove = bite_plan_hold_number(setup, "groove");
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

void bite_plan_glue(bite_job *job, bite_planned_setup *setup)
{
    bite_planned_hold *hold = &setup->hold;
    double gap = bite_plan_hold_number(setup, "glue_gap");
    hold->cure = (double)NAN;
    if (bite_item_word(hold->hold, "glued", 0) == 0) {
        return;
    }
    for (size_t i = 0; isnan(gap) && i < hold->layer_count; i++) {
        gap = strcmp(hold->layers[i]->name, "cyanoacrylate") == 0
                  ? bite_item_figure_or(hold->layers[i], "thickness", gap)
                  : gap;
    }
    if (!isnan(gap)) {
        hold->cure = bite_workholding_cure(gap);
        const bite_remark_value values[] = {bite_remark_number(gap),
                                            bite_remark_number(hold->cure)};
        bite_plan_remark(job, BITE_REMARK_GLUE_CURE, values, 2);
    }
}

void bite_plan_adhesion(bite_job *job, bite_planned_setup *setup)
{
    double share = bite_plan_first_pass(job, setup)->answer->full.bond_adhesion;
    if (share < 1.0) {
        const bite_remark_value values[] = {bite_remark_text(job->grade->family_name),
                                            bite_remark_number(share)};
        bite_plan_remark(job, BITE_REMARK_POOR_ADHESION, values, 2);
    }
}
