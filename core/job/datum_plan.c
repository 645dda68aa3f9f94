/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where Z zero is set in each setup: on the top of the stock or on what it lies on, and what each
 * makes of the dimensions that are cut.
 *
 * What is cut from the top down follows the top, and what remains below it follows the fixture. A
 * sheet whose thickness is only known to plus or minus u makes an error of u in the one that is not
 * measured from its own zero:
 *
 *   zero on the top:      depth + touch-off          remaining thickness + u
 *   zero on the fixture:  depth + u                  remaining thickness + bond under the part
 *
 * A face that is cut with zero on the fixture makes u as small as the bond's; cut with zero on the
 * top it leaves u as it was. The zero of a setup is the one whose largest error of a dimension of
 * the part, as a share of its tolerance, is smaller, unless the job file states where it is. A
 * finished face is touched off from above, so that it is a top.
 */
#include "core/job/datum_plan.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/job/job_file_schema.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <math.h>
#include <string.h>

/* Within one roll of tape, and of a glue line, as shares of their thickness (estimate): zero is set
 * on a piece of the same layers beside the stock. */
static const double tape_share = 0.1;
static const double glue_share = 0.5;
static const double touch_off = 0.02e-3; /* m; paper or a feeler: common practice */
static const double bare_fixture =
    0.02e-3; /* m; flatness of a plate or parallels: common practice */
static const double usual_tolerance = 0.1e-3; /* m; the default, which only advises */

/* The thickness of the work while it is cut: middle, and half of its range. */
typedef struct work_thickness {
    double middle;
    double half;
    int top_known; /* 1: its top was cut in this setup, at a known height above its zero */
} work_thickness;

static const char *const dimension_names[] = {
    [BITE_DIMENSION_THICKNESS] = "thickness",
    [BITE_DIMENSION_FLOOR] = "floor",
    [BITE_DIMENSION_DEPTH] = "depth",
    [BITE_DIMENSION_END] = "end of the cut",
};

const char *bite_datum_dimension_name(uint32_t dimension)
{
    return dimension < BITE_DIMENSION_NONE ? dimension_names[dimension] : "";
}

const char *bite_datum_zero_title(const bite_planned_datum *datum)
{
    static const struct {
        const char *word;
        const char *title;
    } stated[] = {
        {"stock-top", "on the top of the stock, as stated"},
        {"finished-face", "on a finished face, as stated"},
        {"fixture", "on the fixture, as stated"},
    };
    for (size_t i = 0; i < sizeof stated / sizeof *stated; i++) {
        if (strcmp(datum->stated, stated[i].word) == 0) {
            return stated[i].title;
        }
    }
    return datum->on_fixture ? "on what the stock lies on (board, parallels, tape)"
                             : "on the top of the stock";
}

/* By which the height of the part above the fixture may be wrong: layers are uneven, each by
 * itself.
 */
static double fixture_error(const bite_job *job, uint32_t setup)
{
    const bite_planned_hold *hold = bite_plan_hold_of(job, setup);
    double square = bare_fixture * bare_fixture;
    double stated_gap = bite_job_file_number(job->file_data.hold, "glue_gap");
    for (size_t i = 0; i < hold->layer_count; i++) {
        const bite_item_record *layer = hold->layers[i];
        int tape = layer != NULL && strstr(layer->name, "tape") != NULL;
        double thickness = bite_item_figure_or(layer, "thickness", 0.0);
        double uneven = tape ? tape_share * thickness
                             : glue_share * (isnan(stated_gap) ? thickness : stated_gap);
        square += uneven * uneven;
    }
    return sqrt(square);
}

static int faces_later(const bite_job *job, size_t index)
{
    for (size_t i = index + 1; i < job->pass_count; i++) {
        if (job->passes[i].work == BITE_WORK_FACE) {
            return 1;
        }
    }
    return 0;
}

static int goes_through(const bite_job *job, const bite_planned_pass *pass)
{
    double whole = job->stock.skim > 0.0 ? job->thickness : fmax(job->thickness, job->stock.thick);
    return pass->depth >= whole - 1e-9;
}

/* The dimension of a pass that its zero decides. A depth that follows from the thinnest section, or
 * a pass that states its floor, is wanted for what remains. */
static uint32_t dimension_of(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    if (pass->work == BITE_WORK_FACE) {
        return faces_later(job, index) ? BITE_DIMENSION_NONE : BITE_DIMENSION_THICKNESS;
    }
    if (pass->work == BITE_WORK_CHAMFER) {
        return BITE_DIMENSION_DEPTH;
    }
    if (pass->work == BITE_WORK_FREE || goes_through(job, pass)) {
        return BITE_DIMENSION_END;
    }
    int remains = isnan(bite_job_file_number(section, "depth")) ||
                  bite_job_file_number(section, "floor") > 0.0;
    return remains ? BITE_DIMENSION_FLOOR : BITE_DIMENSION_DEPTH;
}

/* The end of a through cut may be anywhere within the tape; without tape it should meet the board.
 */
static double tolerance_of(const bite_job *job, size_t index, uint32_t dimension)
{
    const bite_planned_hold *hold = bite_plan_hold_of(job, job->passes[index].setup);
    double own = bite_job_file_number(job->file_data.passes[index], "tolerance");
    double whole = bite_job_file_number(job->file_data.part, "tolerance");
    double room = fmin(hold->break_through, hold->tape - hold->break_through);
    if (dimension == BITE_DIMENSION_END) {
        return room > 0.0 ? room : fmax(hold->break_through, usual_tolerance);
    }
    double stated = isnan(own) ? whole : own;
    return isnan(stated) ? usual_tolerance : stated;
}

static double error_of(const work_thickness *work, uint32_t dimension, int on_fixture, double bond)
{
    if (dimension == BITE_DIMENSION_DEPTH) {
        return on_fixture && !work->top_known ? work->half : touch_off;
    }
    return on_fixture ? bond : work->half + touch_off;
}

/* What a face makes of the work. */
static void cut_face(const bite_job *job, size_t index, int on_fixture, double bond,
                     work_thickness *work)
{
    const bite_sheet_stock_removal *off = &job->stock.removal;
    int below = bite_plan_setup(job, job->passes[index].setup)->side == BITE_SIDE_BOTTOM;
    double removed =
        below ? 0.5 * (off->thin_below + off->thick_below) : 0.5 * (off->thin_top + off->thick_top);
    work->middle = faces_later(job, index) ? work->middle - removed : job->thickness;
    work->half = on_fixture ? fmin(bond, work->half) : work->half;
    work->top_known = 1;
}

/* The largest errors of a setup, as shares of their tolerances: of the part's dimensions, and of
 * the ends of through cuts. */
typedef struct zero_errors {
    double part;
    double end;
    int worst_part; /* index of that pass; -1: none */
    int worst_end;
} zero_errors;

/* Goes through a setup with its zero on the top or on the fixture. */
static zero_errors try_zero(const bite_job *job, uint32_t setup, int on_fixture,
                            work_thickness *work)
{
    double bond = fixture_error(job, setup);
    zero_errors errors = {0.0, 0.0, -1, -1};
    work->top_known = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        uint32_t dimension = dimension_of(job, i);
        if (job->passes[i].setup != setup) {
            continue;
        }
        double share =
            dimension == BITE_DIMENSION_NONE
                ? 0.0
                : error_of(work, dimension, on_fixture, bond) / tolerance_of(job, i, dimension);
        if (dimension == BITE_DIMENSION_END && share > errors.end) {
            errors.end = share;
            errors.worst_end = (int)i;
        } else if (dimension != BITE_DIMENSION_END && share > errors.part) {
            errors.part = share;
            errors.worst_part = (int)i;
        }
        if (job->passes[i].work == BITE_WORK_FACE) {
            cut_face(job, i, on_fixture, bond, work);
        }
    }
    return errors;
}

/* The work as a pass of a setup finds it. */
static work_thickness before_pass(const bite_job *job, size_t index, int on_fixture,
                                  work_thickness work)
{
    double bond = fixture_error(job, job->passes[index].setup);
    work.top_known = 0;
    for (size_t i = 0; i < index; i++) {
        if (job->passes[i].setup == job->passes[index].setup &&
            job->passes[i].work == BITE_WORK_FACE) {
            cut_face(job, i, on_fixture, bond, &work);
        }
    }
    return work;
}

/* The errors of the pass that decides, under both zeros. */
static void describe(const bite_job *job, const work_thickness *start, bite_planned_datum *datum)
{
    if (datum->pass < 0) {
        return;
    }
    size_t index = (size_t)datum->pass;
    double bond = fixture_error(job, datum->setup);
    work_thickness top = before_pass(job, index, 0, *start);
    work_thickness fixture = before_pass(job, index, 1, *start);
    datum->dimension = dimension_of(job, index);
    datum->tolerance = tolerance_of(job, index, datum->dimension);
    datum->error_top = error_of(&top, datum->dimension, 0, bond);
    datum->error_fixture = error_of(&fixture, datum->dimension, 1, bond);
}

static int states_tolerance(const bite_job *job, size_t index)
{
    return !isnan(bite_job_file_number(job->file_data.passes[index], "tolerance")) ||
           !isnan(bite_job_file_number(job->file_data.part, "tolerance"));
}

/* What remains under a blind pass where the work is thinnest and thickest. */
static void set_floor(bite_job *job, size_t index, int on_fixture, const work_thickness *work)
{
    bite_planned_pass *pass = &job->passes[index];
    double bond = fixture_error(job, pass->setup);
    double planned = job->thickness - pass->depth;
    pass->floor_thin = on_fixture ? planned - bond : work->middle - work->half - pass->depth;
    pass->floor_thick = on_fixture ? planned + bond : work->middle + work->half - pass->depth;
    if (pass->floor_thin <= 0.0 && work->middle - pass->depth > 0.0) {
        job->stock.breaks_through = 1;
        const bite_remark_value values[] = {bite_remark_text(pass->title),
                                            bite_remark_number(-pass->floor_thin),
                                            bite_remark_number(pass->floor_thick)};
        bite_plan_remark(job, BITE_REMARK_BREAKS_THROUGH, values, 3);
    }
}

static const char *const zeros[] = {"the top of the stock", "what the stock lies on"};
static const char error_source[] = "estimate: range of the sheet's thickness, evenness of the bond";

/* The zero that the job file states loses a dimension which the other one keeps. Returns 0 if it
 * does not. */
static int needs_other_zero(bite_job *job, size_t index, const bite_planned_datum *datum,
                            const work_thickness *start, double error)
{
    const bite_planned_pass *pass = &job->passes[index];
    uint32_t dimension = dimension_of(job, index);
    double tolerance = tolerance_of(job, index, dimension);
    int other = !datum->on_fixture;
    work_thickness work = before_pass(job, index, other, *start);
    double better = error_of(&work, dimension, other, fixture_error(job, pass->setup));
    if (datum->stated[0] == 0 || better > tolerance + 1e-9) {
        return 0;
    }
    const bite_remark_value values[] = {
        bite_remark_text(pass->title), bite_remark_text(dimension_names[dimension]),
        bite_remark_number(error),     bite_remark_text(bite_datum_title(datum->stated)),
        bite_remark_number(tolerance), bite_remark_text(zeros[other]),
        bite_remark_number(better)};
    bite_plan_remark_from(job, BITE_REMARK_DATUM_STATED,
                          states_tolerance(job, index) ? BITE_CARE : BITE_NOTE, error_source,
                          values, 7);
    return 1;
}

/* What a pass may be off by under the zero of its setup. */
static void judge_error(bite_job *job, size_t index, const bite_planned_datum *datum,
                        const work_thickness *start)
{
    int on_fixture = (int)datum->on_fixture;
    const work_thickness found = before_pass(job, index, on_fixture, *start);
    const work_thickness *work = &found;
    const bite_planned_pass *pass = &job->passes[index];
    uint32_t dimension = dimension_of(job, index);
    double error = error_of(work, dimension, on_fixture, fixture_error(job, pass->setup));
    double tolerance = tolerance_of(job, index, dimension);
    if (error <= tolerance + 1e-9) {
        return;
    }
    if (dimension == BITE_DIMENSION_END) {
        const bite_remark_value values[] = {bite_remark_text(pass->title),
                                            bite_remark_number(error)};
        bite_plan_remark(job, BITE_REMARK_SECOND_ZERO, values, 2);
        return;
    }
    if (needs_other_zero(job, index, datum, start, error)) {
        return;
    }
    const char *zero = datum->stated[0] != 0 ? bite_datum_title(datum->stated) : zeros[on_fixture];
    const bite_remark_value values[] = {
        bite_remark_text(pass->title), bite_remark_text(dimension_names[dimension]),
        bite_remark_number(error), bite_remark_text(zero), bite_remark_number(tolerance)};
    bite_plan_remark_from(job, BITE_REMARK_DATUM_ERROR,
                          states_tolerance(job, index) ? BITE_CARE : BITE_NOTE, error_source,
                          values, 5);
}

/* Every pass of a setup under its zero. */
static void judge_passes(bite_job *job, const work_thickness *start,
                         const bite_planned_datum *datum)
{
    int on_fixture = (int)datum->on_fixture;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        uint32_t dimension = dimension_of(job, i);
        if (pass->setup != datum->setup || dimension == BITE_DIMENSION_NONE) {
            continue;
        }
        work_thickness work = before_pass(job, i, on_fixture, *start);
        int blind = dimension == BITE_DIMENSION_FLOOR ||
                    (dimension == BITE_DIMENSION_DEPTH && pass->work != BITE_WORK_CHAMFER);
        double deeper = work.middle + work.half - job->thickness;
        if (blind) {
            set_floor(job, i, on_fixture, &work);
        }
        if (blind && on_fixture && !work.top_known && deeper > usual_tolerance) {
            const bite_remark_value values[] = {bite_remark_text(pass->title),
                                                bite_remark_number(deeper)};
            bite_plan_remark(job, BITE_REMARK_FIRST_PASS_DEEPER, values, 2);
        }
        judge_error(job, i, datum, start);
    }
}

/* The pass that the zero of a setup is about. A zero that is stated is shown by what it makes
 * worst, one that was chosen by what the other one would make worst. */
static int deciding_pass(const bite_planned_datum *datum, const zero_errors *by_top,
                         const zero_errors *by_fixture, int end)
{
    int stated = datum->stated[0] != 0;
    int fixture = stated ? datum->on_fixture == 1 : datum->on_fixture == 0;
    const zero_errors *shown = fixture ? by_fixture : by_top;
    const zero_errors *other = fixture ? by_top : by_fixture;
    if (!stated) {
        return end ? shown->worst_end : shown->worst_part;
    }
    return shown->worst_part >= 0   ? shown->worst_part
           : shown->worst_end >= 0  ? shown->worst_end
           : other->worst_part >= 0 ? other->worst_part
                                    : other->worst_end;
}

/* If either zero keeps the part's dimensions within their tolerances, the ends of through cuts
 * decide; a second zero can be set for them otherwise. */
static void choose_zero(bite_job *job, uint32_t setup, work_thickness *work)
{
    bite_planned_datum *datum = &job->datums[setup - 1];
    work_thickness start = *work;
    work_thickness top = *work;
    work_thickness fixture = *work;
    zero_errors by_top = try_zero(job, setup, 0, &top);
    zero_errors by_fixture = try_zero(job, setup, 1, &fixture);
    int either = (by_top.part <= 1.0 && by_fixture.part <= 1.0) || by_top.part == by_fixture.part;
    int end = either && by_top.end != by_fixture.end;
    datum->setup = setup;
    datum->dimension = BITE_DIMENSION_NONE;
    datum->error_top = datum->error_fixture = datum->tolerance = (double)NAN;
    datum->on_fixture = (end ? by_fixture.end < by_top.end : by_fixture.part < by_top.part) ? 1 : 0;
    datum->stated = bite_plan_setup(job, setup)->datum_z;
    if (datum->stated[0] != 0) {
        datum->on_fixture = strcmp(datum->stated, "fixture") == 0;
    }
    datum->pass = deciding_pass(datum, &by_top, &by_fixture, end);
    describe(job, &start, datum);
    judge_passes(job, &start, datum);
    *work = datum->on_fixture ? fixture : top;
}

bite_status bite_plan_datums(bite_job *job, bite_error *error)
{
    const bite_planned_stock *stock = &job->stock;
    work_thickness work = {0.5 * (stock->thin + stock->thick), 0.5 * (stock->thick - stock->thin),
                           0};
    job->datums = bite_arena_alloc(job->arena, job->setups, sizeof *job->datums);
    if (job->datums == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        job->passes[i].floor_thin = job->passes[i].floor_thick = (double)NAN;
    }
    for (uint32_t setup = 1; setup <= job->setups; setup++) {
        choose_zero(job, setup, &work);
    }
    return BITE_OK;
}
