/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the part is held: which layer is weakest, what the cuts do to it, whether it can be undone
 * without harm. */
#include "core/job/bond_plan.h"
#include "core/base/error.h"
#include "core/job/clamp_plan.h"
#include "core/job/plan.h"
#include "core/job/plan_steps.h"
#include "core/library/collection.h"
#include "core/physics/elastic/thin_plate.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SORT_BOND, SORT_VACUUM, SORT_CLAMP };

static const double usual_break_share =
    0.5; /* of the tape under the part; common practice: stop inside the tape */
static const double vacuum_pressure = 85e3; /* Pa; vacuum plates in use, 80 to 85 kPa for design */
static const double groove_usual = 20e-3;   /* m */

/* "one. | two." becomes two steps. */
static size_t take_steps(bite_job *job, const char *text, const char **steps)
{
    size_t count = 0;
    while (*text != 0 && count < BITE_STEPS_MAX) {
        const char *end = strchr(text, '|');
        size_t length = end == NULL ? strlen(text) : (size_t)(end - text);
        while (length > 0 && text[length - 1] == ' ') {
            length--;
        }
        steps[count++] = bite_plan_text(job, "%.*s", (int)length, text);
        text = end == NULL ? text + strlen(text) : end + 1 + strspn(end + 1, " ");
    }
    return count;
}

static bite_status take_layers(bite_job *job, bite_error *error)
{
    bite_planned_hold *hold = &job->hold;
    char name[64];
    double least = INFINITY;
    for (size_t i = 0;
         i < BITE_LAYERS_MAX &&
         bite_job_file_name(bite_item_text(hold->hold, "layers"), i, name, sizeof name);
         i++) {
        bite_status status = bite_library_layer(job->library, name, &hold->layers[i], error);
        if (status != BITE_OK) {
            return status;
        }
        hold->layer_count++;
        double shear = bite_plan_figure(hold->layers[i], "bond_shear", INFINITY);
        if (shear < least) {
            least = shear;
            hold->weakest = (int)i;
        }
    }
    return BITE_OK;
}

/* A solvent that the bond needs and the part does not bear. */
static bite_status check_solvent(bite_job *job, bite_error *error)
{
    bite_planned_hold *hold = &job->hold;
    const char *name = bite_item_text(hold->hold, "solvent");
    const bite_item_record *fluid = NULL;
    bite_fluid_rating result;
    if (name[0] == 0) {
        return BITE_OK;
    }
    bite_status status = bite_fluid_find(job->library, name, &fluid, error);
    hold->solvent = fluid;
    status = status != BITE_OK ? status
                               : bite_fluid_rate(job->library, fluid, job->grade,
                                                 (int)job->annealed, &result, error);
    if (status == BITE_OK && result.rating == BITE_RATED_NO) {
        hold->refused = 1;
        bite_plan_remark(job, BITE_CARE, "hold",
                         bite_plan_text(job,
                                        "Refused: %s comes off with %s, which attacks %s. Put tape "
                                        "between glue and part (tape-glue).",
                                        hold->hold->title, fluid->title, job->grade->record.name),
                         result.source);
    }
    return status;
}

/* Tape and glue hold less on some plastics. */
static double stick_of(const bite_job *job)
{
    static const struct {
        const char *family;
        double share;
    } less[] = {
        /* of a tape's peel on steel: polyethylene 0.49, polypropylene 0.64 (datasheet of one
         * double-coated tape); PTFE and acetal by their surface energy (estimate) */
        {"polyethylene", 0.45},
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

/* Of the layer that peels first, N/m; NaN: none says. */
static double peel_of(const bite_planned_hold *hold)
{
    double least = (double)NAN;
    for (size_t i = 0; i < hold->layer_count; i++) {
        double peel = bite_plan_figure(hold->layers[i], "peel", (double)NAN);
        least = isnan(least) || peel < least ? peel : least;
    }
    return least;
}

/* The mean side force, for a tooth's peak is over in a millisecond and tape gives way to what lasts
 * (estimate), and the peak of the lift; at best estimates, for the factor of safety stands for what
 * is uncertain. Against the weakest layer, over the area that the pass leaves. A part that is cut
 * free is as high as it is thick, all others stand in the sheet. */
static double use_of(bite_job *job, const bite_planned_pass *pass, bite_workholding_stress *stress)
{
    bite_planned_hold *hold = &job->hold;
    const bite_result *result = &pass->answer->result;
    int frees = pass->work == BITE_WORK_FREE;
    const bite_layout *layout = &job->stock.layout;
    int together =
        !frees &&
        layout->along > 0; /* parts stand in one sheet, along and in rows as they lie on it */
    double along =
        together ? hold->along * (layout->turned ? layout->rows : layout->along) : hold->along;
    double across =
        together ? hold->across * (layout->turned ? layout->along : layout->rows) : hold->across;
    bite_workholding_load load = {
        result->values[BITE_FORCE_SIDE_MEAN].value, result->values[BITE_FORCE_LIFT_PEAK].value,
        frees ? job->thickness : job->stock.thick, 0.5 * fmax(along, across)};
    /* the lever of tilt is the shorter side: the force may come from any */
    *stress = bite_workholding_stresses(fmin(along, across), fmax(along, across), &load);
    int sticks = bite_item_word(hold->hold, "sort", 0) == SORT_BOND;
    double share =
        (sticks ? stick_of(job) : 1.0) *
        bite_workholding_warm(result->values[BITE_PART_TEMPERATURE].value,
                              pass->answer->full.room_temperature, pass->answer->full.bond_limit);
    hold->shear = share * pass->answer->full.bond_shear;
    hold->pull = share * pass->answer->full.bond_pull;
    double peel = hold->safety *
                  bite_workholding_peel(fmin(along, across), fmax(along, across), &load) /
                  (share * peel_of(hold));
    double utilization = bite_workholding_use(stress, hold->shear, hold->pull, hold->safety);
    return peel > utilization ? peel
                              : utilization; /* not fmax: a layer without a peel asks nothing more,
                                                a bond without a strength stays unknown */
}

static void judge_passes(bite_job *job)
{
    bite_planned_hold *hold = &job->hold;
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_workholding_stress stress;
        bite_planned_pass *pass = &job->passes[i];
        pass->hold_utilization = use_of(job, pass, &stress);
        if (pass->hold_utilization > hold->utilization ||
            (isnan(hold->utilization) && !isnan(pass->hold_utilization))) {
            hold->utilization = pass->hold_utilization;
            hold->worst_pass = (int)i;
            hold->stress = stress;
        }
    }
    if (hold->utilization > 1.0) {
        bite_plan_remark(
            job, BITE_CARE, "hold",
            bite_plan_text(job,
                           "%s may let go in %s: side, lift, tilt, twist and peel use %.0f %% of "
                           "what it bears with a "
                           "factor of %.0f for safety. "
                           "More area, stops at two sides, smaller cuts, or a stronger hold.",
                           hold->hold->title, job->passes[hold->worst_pass].title,
                           100.0 * hold->utilization, hold->safety),
            "estimate: forces of this plan over the bond as of a bolted plate");
    }
}

static void judge_vacuum(bite_job *job)
{
    const bite_cut *cut = &job->passes[0].answer->full;
    double groove = bite_job_file_number(job->file_data.hold, "groove");
    groove = isnan(groove) ? groove_usual : groove;
    double left = isnan(job->thinnest) ? job->thickness : job->thinnest;
    double sag = bite_workholding_groove(vacuum_pressure, groove,
                                         bite_plate_rigidity(cut->modulus, cut->poisson, left));
    char wide[40];
    char deep[40];
    double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
    if (sag > 0.2 * (isnan(tolerance) ? 0.1e-3 : tolerance)) {
        bite_plan_remark(
            job, BITE_CARE, "hold",
            bite_plan_text(job,
                           "Over a groove of %s the vacuum draws the thinnest section in by %s, "
                           "which is cut off it: narrower grooves.",
                           bite_plan_quantity(job, groove, BITE_KIND_LENGTH, wide, sizeof wide),
                           bite_plan_quantity(job, sag, BITE_KIND_LENGTH, deep, sizeof deep)),
            "estimate: strip clamped at its edges, 85 kPa");
    }
}

/* A through cut ends inside the tape under the part: deeper it takes the fixture, shallower it
 * leaves a skin. */
static void plan_break_through(bite_job *job)
{
    bite_planned_hold *hold = &job->hold;
    const bite_item_record *under =
        hold->layer_count > 0 ? hold->layers[hold->layer_count - 1] : NULL;
    int tape = under != NULL && strstr(under->name, "tape") != NULL;
    hold->tape = tape ? bite_plan_figure(under, "thickness", (double)NAN) : (double)NAN;
    hold->break_through = bite_job_file_number(job->file_data.hold, "break_through");
    if (isnan(hold->break_through)) {
        hold->break_through = tape ? usual_break_share * hold->tape : 0.0;
    }
}

int bite_plan_cuts_free(const bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].work == BITE_WORK_FREE) {
            return 1;
        }
    }
    return 0;
}

static void say_break_through(bite_job *job)
{
    const bite_planned_hold *hold = &job->hold;
    int tape = !isnan(hold->tape);
    char room[40];
    char thick[40];
    if (!bite_plan_cuts_free(job)) {
        return;
    }
    if (tape && hold->break_through > hold->tape) {
        bite_plan_remark(
            job, BITE_CARE, "hold",
            bite_plan_text(
                job,
                "The through cut goes %s below the part, the tape is %s thick: it cuts through "
                "into what lies under it. Stop "
                "inside the tape.",
                bite_plan_quantity(job, hold->break_through, BITE_KIND_LENGTH, room, sizeof room),
                bite_plan_quantity(job, hold->tape, BITE_KIND_LENGTH, thick, sizeof thick)),
            "common-practice");
    }
    if (!tape) {
        bite_plan_remark(job, BITE_NOTE, "hold",
                         "Nothing soft lies under the part: a through cut needs a board to end in, "
                         "or leaves a skin.",
                         "common-practice");
    } else {
        bite_plan_remark(job, BITE_NOTE, "hold",
                         "A through cut gums the tool with tape and glue, which spoils the next "
                         "edge: wipe the tool after it, with a "
                         "solvent only off the machine and away from the part.",
                         "common-practice");
    }
    for (size_t i = 0; i < hold->layer_count; i++) {
        if (strcmp(hold->layers[i]->name, "film-tape") == 0) {
            bite_plan_remark(job, BITE_CARE, "hold",
                             "Film tape does not tear: where the tool cuts it, it winds round the "
                             "cutter. Paper tape comes off as chips.",
                             "common-practice");
        }
    }
}

static void plan_glue(bite_job *job)
{
    bite_planned_hold *hold = &job->hold;
    double gap = bite_job_file_number(job->file_data.hold, "glue_gap");
    char wide[40];
    char time[40];
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
        bite_plan_remark(
            job, 0, "hold",
            bite_plan_text(job,
                           "Over a gap of %s the glue sets in about %s, longer when it is dry or "
                           "cold; twice the gap, far longer.",
                           bite_plan_quantity(job, gap, BITE_KIND_LENGTH, wide, sizeof wide),
                           bite_plan_duration(hold->cure, time, sizeof time)),
            "handbook: Handbook of Adhesive Technology, 10 s without a gap, 600 s at 0.127 mm, "
            "steel on steel");
    }
}

static void set_area(bite_job *job)
{
    bite_planned_hold *hold = &job->hold;
    double given = bite_job_file_number(job->file_data.hold, "area");
    double whole = job->length * job->width;
    hold->area = isnan(given) ? whole : given;
    double scale = sqrt(hold->area / whole);
    hold->along = scale * job->length;
    hold->across = scale * job->width;
}

bite_status bite_plan_workholding(bite_job *job, bite_error *error)
{
    bite_planned_hold *hold = &job->hold;
    const char *method = bite_job_file_text(job->file_data.hold, "method");
    hold->weakest = -1;
    hold->worst_pass = -1;
    hold->utilization = hold->cure = hold->tape = hold->force = hold->needs = (double)NAN;
    hold->failure_mode = "";
    set_area(job);
    if (method == NULL) {
        bite_plan_remark(job, BITE_CARE, "hold",
                         "The job does not say how the part is held: nothing tells whether it "
                         "stays. list holds shows ways.",
                         "");
        return BITE_OK;
    }
    bite_status status = bite_library_record(job->library, BITE_HOLDS, method, &hold->hold, error);
    status = status != BITE_OK ? status : take_layers(job, error);
    if (status == BITE_OK && bite_item_word(hold->hold, "sort", 0) != SORT_CLAMP) {
        plan_break_through(job);
    }
    return status;
}

bite_status bite_plan_bond(bite_job *job, bite_error *error)
{
    bite_planned_hold *hold = &job->hold;
    if (hold->hold == NULL) {
        return BITE_OK;
    }
    bite_status status = check_solvent(job, error);
    if (status != BITE_OK) {
        return status;
    }
    hold->safety = bite_plan_figure(hold->hold, "safety", 3.0);
    hold->mounting_count = take_steps(job, bite_item_text(hold->hold, "put_on"), hold->mounting);
    hold->release_count = take_steps(job, bite_item_text(hold->hold, "release"), hold->release);
    uint32_t sort = bite_item_word(hold->hold, "sort", 0);
    if (sort != SORT_CLAMP) {
        judge_passes(job);
        say_break_through(job);
    } else {
        bite_plan_clamp(job);
    }
    if (sort == SORT_VACUUM) {
        judge_vacuum(job);
    }
    plan_glue(job);
    if (stick_of(job) < 1.0 && sort == SORT_BOND) {
        bite_plan_remark(job, BITE_CARE, "hold",
                         bite_plan_text(job,
                                        "Tape and glue hold %s poorly: reckoned with %.0f %% of "
                                        "their strength. Screws, a vise or "
                                        "a vacuum plate are surer.",
                                        job->grade->family_name, 100.0 * stick_of(job)),
                         "estimate: surface energy, and the peel of one tape on several plastics");
    }
    return BITE_OK;
}
