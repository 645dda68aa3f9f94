/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Thin floors and walls of a job. */
#include "core/job/thin_plan.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/job/outline_reach.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/job/tool_plan.h"
#include "core/job/workholding_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/names/registry.h"
#include "core/physics/elastic/thin_plate.h"
#include "core/search/choice.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <string.h>

static double or_else(double own, double otherwise)
{
    return isnan(own) ? otherwise : own;
}

static int is_pocket(uint32_t work)
{
    return work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH;
}

/* ---- floors ---- */

/* What remains above a pocket in the face below, if the pass can be above it: no thinner than the
 * thinnest section of the part. 0: it is elsewhere, or there is none. */
static double web_over_hollow(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    double cut = pass->work == BITE_WORK_FACE ? 0.0 : pass->depth;
    double stated = bite_job_file_number(job->file_data.passes[index], "floor");
    double lost =
        fmax(0.0, job->thickness - job->stock.thin); /* a sheet that is left as supplied */
    double web = or_else(stated, job->thickness - cut - setup->hollow.depth);
    double least = isnan(job->thinnest) ? 0.0 : job->thinnest * (1.0 - 0.01);
    /* NaN: no hollow */
    return web > least ? fmax(web - (isnan(stated) ? lost : 0.0), 10e-6) : 0.0;
}

int bite_plan_open_floor(const bite_job *job, size_t index, bite_open_floor *floor)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    double length = or_else(bite_job_file_number(section, "length"), job->length);
    double across = or_else(bite_job_file_number(section, "across"), job->width);
    /* a stated floor that a vise leaves free is that of the pocket itself, unless one is below */
    int own = is_pocket(pass->work) && bite_plan_is_clamped(setup) && isnan(setup->hollow.depth);
    int over = bite_plan_lies_flat(setup) && !own &&
               (is_pocket(pass->work) || pass->work == BITE_WORK_FACE);
    double web = over ? web_over_hollow(job, index) : 0.0;
    floor->across = fmin(length, across);
    floor->along = fmax(length, across);
    floor->over_hollow = web > 0.0;
    if (web > 0.0) {
        int face = pass->work == BITE_WORK_FACE;
        floor->thickness = web;
        floor->across = face ? setup->hollow.across : fmin(floor->across, setup->hollow.across);
        floor->along = face ? setup->hollow.along : fmin(floor->along, setup->hollow.along);
        return 1;
    }
    double part = bite_plan_lies_flat(setup) ? fmin(job->thickness, job->stock.thin)
                                             : bite_plan_setup_height(job, setup);
    floor->thickness =
        or_else(bite_job_file_number(section, "floor"), fmax(0.0, part - pass->depth));
    return is_pocket(pass->work) && bite_plan_is_clamped(setup);
}

/* ---- support ---- */

static const double usual_groove = 20e-3; /* m, between the places that a vacuum plate supports */

/* Stiffness of what is under a floor, per area, Pa/m: modulus over thickness of its layer. Wax
 * fills the pocket below. NaN: the tables have no such layer. */
static double support_stiffness(const bite_job *job, const bite_planned_setup *setup,
                                uint32_t support)
{
    const bite_item_record *layer = NULL;
    const char *name = support == BITE_SUPPORT_WAX ? "wax" : "double-tape";
    if (bite_library_layer(job->library, name, &layer, NULL) != BITE_OK) {
        return (double)NAN;
    }
    double thickness = bite_item_figure(layer, "thickness");
    if (support == BITE_SUPPORT_WAX) {
        thickness = fmax(thickness, or_else(setup->hollow.depth, 0.0));
    }
    return bite_item_figure(layer, "bond_modulus") / thickness;
}

static double grade_rigidity(const bite_job *job, double thickness)
{
    return bite_plate_rigidity(bite_item_figure(&job->grade->record, "modulus"),
                               bite_item_figure(&job->grade->record, "poisson"), thickness);
}

/* A supported floor bends as a smaller clamped one. Tape and vacuum do not reach into a pocket. */
static void support_floor(const bite_job *job, const bite_planned_setup *setup, uint32_t support,
                          bite_open_floor *floor)
{
    double span = (double)NAN;
    int reaches = !floor->over_hollow || support == BITE_SUPPORT_WAX; /* nothing else fills it */
    if (!reaches) {
        return;
    }
    if (support == BITE_SUPPORT_VACUUM) {
        span = or_else(bite_plan_hold_number(setup, "groove"), usual_groove);
    } else if (support != BITE_SUPPORT_NONE) {
        span = bite_plate_supported_span(grade_rigidity(job, floor->thickness),
                                         support_stiffness(job, setup, support));
    }
    if (span < floor->across) {
        floor->across = floor->along = span;
    }
}

/* ---- walls ---- */

static int cuts_outline(const bite_job *job, const bite_planned_pass *pass)
{
    return pass->work == BITE_WORK_FREE ||
           (pass->work == BITE_WORK_CONTOUR &&
            !bite_pass_rounds_boss(job->file_data.passes[pass - job->passes]));
}

/* The deepest pocket that is one of its kind and of known size, cut in this setup or before; -1. */
static int deepest_pocket(const bite_job *job, uint32_t setup)
{
    int deepest = -1;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_section *section = job->file_data.passes[i];
        int sized = !isnan(bite_job_file_number(section, "length") *
                           bite_job_file_number(section, "across"));
        if (is_pocket(pass->work) && pass->setup <= setup && pass->count == 1 && sized &&
            (deepest < 0 || pass->depth > job->passes[deepest].depth)) {
            deepest = (int)i;
        }
    }
    return deepest;
}

/* Whether the outline is cut by this pass or before it, or no pass cuts it: the blank is then as
 * large as the part. Walls are finished after contours, and parts cut free last. */
static int has_outline(const bite_job *job, const bite_planned_pass *pass)
{
    int later = 0;
    int earlier = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        later |= cuts_outline(job, &job->passes[i]) && job->passes[i].setup >= pass->setup;
        earlier |= cuts_outline(job, &job->passes[i]) && job->passes[i].setup < pass->setup;
        earlier |= job->passes[i].work == BITE_WORK_CONTOUR && pass->work == BITE_WORK_FINISH &&
                   job->passes[i].setup == pass->setup;
    }
    return cuts_outline(job, pass) || earlier || !later;
}

/* The thinner of the two walls beside a pocket in the middle of the part. */
static int wall_of_pocket(const bite_job *job, const bite_planned_pass *pass, bite_thin_wall *wall)
{
    int presses =
        is_pocket(pass->work) || pass->work == BITE_WORK_FINISH || cuts_outline(job, pass);
    int pocket = presses ? deepest_pocket(job, pass->setup) : -1;
    if (pocket < 0 || !has_outline(job, pass)) {
        return 0;
    }
    double length = bite_job_file_number(job->file_data.passes[pocket], "length");
    double across = bite_job_file_number(job->file_data.passes[pocket], "across");
    double ends = 0.5 * (fmax(job->length, job->width) - fmax(length, across));
    double sides = 0.5 * (fmin(job->length, job->width) - fmin(length, across));
    wall->thickness = fmin(ends, sides);
    wall->length = sides <= ends ? fmax(length, across) : fmin(length, across);
    wall->height = job->passes[pocket].depth;
    wall->held = 1;
    wall->derived = 1;
    /* a wall thicker than it is high does not bend noticeably */
    return wall->thickness >= 10e-6 && wall->thickness < wall->height;
}

int bite_plan_thin_wall(const bite_job *job, size_t index, bite_thin_wall *wall)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    double stated = bite_job_file_number(section, "wall");
    memset(wall, 0, sizeof *wall);
    if (!isnan(stated)) {
        wall->thickness = stated;
        wall->height = or_else(bite_job_file_number(section, "wall_height"), pass->depth);
        wall->length = bite_job_file_number(section, "wall_length");
        return 1;
    }
    return wall_of_pocket(job, pass, wall);
}

/* ---- the request of a pass ---- */

static bite_status set_length(bite_request *request, const char *input, double metres,
                              bite_error *error)
{
    return isnan(metres)
               ? BITE_OK
               : bite_request_set_number(request, input,
                                         bite_unit_round(metres, BITE_KIND_LENGTH, "mm", 9), error);
}

static bite_status set_wall(const bite_job *job, size_t index, bite_request *request,
                            bite_error *error)
{
    bite_thin_wall wall;
    int stated = !isnan(bite_job_file_number(job->file_data.passes[index], "wall"));
    if (!bite_plan_thin_wall(job, index, &wall)) {
        return BITE_OK;
    }
    bite_status status = set_length(request, "wall_thickness", wall.thickness, error);
    status = status != BITE_OK ? status : set_length(request, "wall_length", wall.length, error);
    if (status == BITE_OK &&
        (!stated || bite_job_file_text(job->file_data.passes[index], "wall_height") != NULL)) {
        status = set_length(request, "wall_height", wall.height, error);
    }
    return status == BITE_OK && wall.held ? bite_request_set(request, "wall_ends", "held", error)
                                          : status;
}

bite_status bite_plan_set_thin(const bite_job *job, size_t index, uint32_t support,
                               bite_request *request, bite_error *error)
{
    bite_open_floor floor;
    bite_status status = set_wall(job, index, request, error);
    if (status != BITE_OK || !bite_plan_open_floor(job, index, &floor)) {
        return status;
    }
    support_floor(job, bite_plan_setup(job, job->passes[index].setup), support, &floor);
    status = set_length(request, "floor_thickness", floor.thickness, error);
    status = status != BITE_OK ? status : set_length(request, "floor_span", floor.across, error);
    return status != BITE_OK ? status : set_length(request, "floor_length", floor.along, error);
}

/* ---- what limits a pass, and what helps ---- */

const char *bite_plan_support_word(uint32_t support)
{
    static const char *const words[] = {"none", "tape", "wax", "vacuum"};
    return support < sizeof words / sizeof *words ? words[support] : "";
}

/* Whether the bend of a thin section decides how the pass is cut: by its share of what it may bend,
 * or of the chance that a limit is exceeded (estimates). */
static int decides(const bite_result *result)
{
    const bite_limit *limit = &result->limits[BITE_LIMIT_PART_BEND];
    return limit->utilization > 0.4 || limit->chance > 0.25 * result->chance ||
           limit->verdict > BITE_CLEAR;
}

bite_status bite_plan_with_support(const bite_job *job, size_t index, uint32_t support,
                                   bite_answer **answer, size_t *passes, bite_error *error)
{
    const bite_planned_pass *pass = &job->passes[index];
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    bite_status status = job->request_of(job, index, &request, error);
    status = status != BITE_OK ? status : bite_plan_set_thin(job, index, support, request, error);
    if (status == BITE_OK && pass->chosen) {
        bite_choice_options options = bite_plan_choice_options(job);
        status = bite_choice_new(request, &options, &choice, error);
        if (status == BITE_OK) {
            *passes = bite_choice_passes(choice);
            *answer = choice->answer;
            choice->answer = NULL;
            bite_choice_free(choice);
        }
    } else if (status == BITE_OK) {
        *passes = pass->passes;
        status = bite_answer_new(request, 0, job->confidence, answer, error);
    }
    bite_request_free(request);
    return status;
}

/* Advice is no finer than two digits. */
static double rounded(double length)
{
    return bite_unit_round(length, BITE_KIND_LENGTH, "mm", 2);
}

/* What the floor costs without support, or what the settings assume. */
static void remark_costs(bite_job *job, size_t index, const bite_answer *supported, size_t passes)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_planned_support *support = &pass->support;
    int assumed = support->kind != BITE_SUPPORT_NONE;
    uint32_t alone = assumed ? support->passes : pass->passes;
    double depth = assumed ? support->depth : pass->answer->full.depth;
    if (assumed) {
        const bite_remark_value values[] = {bite_remark_text(pass->title),
                                            bite_remark_text(bite_plan_support_word(support->kind)),
                                            bite_remark_number(support->seconds)};
        bite_plan_remark(job, BITE_REMARK_SUPPORT_ASSUMED, values, 3);
    }
    if (pass->chosen && alone > passes) {
        const bite_remark_value costs[] = {
            bite_remark_text(pass->title), bite_remark_number(alone), bite_remark_number(depth),
            bite_remark_number((double)passes), bite_remark_number(supported->full.depth)};
        bite_plan_remark(job, BITE_REMARK_FLOOR_COSTS, costs, 5);
    }
}

/* How far the cut bends the open floor, and how thick the floor would have to be for the limit. */
static void remark_floor(bite_job *job, size_t index, const bite_open_floor *floor,
                         const bite_answer *supported, size_t passes)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_limit *limit = &pass->answer->result.limits[BITE_LIMIT_PART_BEND];
    double force = fabs(supported->result.values[BITE_FORCE_LIFT_PEAK].value);
    double bend = bite_plate_floor(floor->along / floor->across) * force * floor->across *
                  floor->across / grade_rigidity(job, floor->thickness);
    double needed = floor->thickness * cbrt(bend / limit->capacity);
    if (!(bend > limit->capacity)) {
        return;
    }
    const bite_remark_value values[] = {
        bite_remark_text(pass->title), bite_remark_number(floor->thickness),
        bite_remark_number(floor->across), bite_remark_number(rounded(bend)),
        bite_remark_number(rounded(needed))};
    bite_plan_remark(job, floor->over_hollow ? BITE_REMARK_WEB_BENDS : BITE_REMARK_FLOOR_BENDS,
                     values, 5);
    remark_costs(job, index, supported, passes);
}

static int is_supported(const bite_planned_setup *setup, const bite_open_floor *floor)
{
    uint32_t support = bite_plan_hold_word(setup, "support", BITE_SUPPORT_NONE);
    return floor->over_hollow ? support == BITE_SUPPORT_WAX : support != BITE_SUPPORT_NONE;
}

uint32_t bite_plan_wants_support(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    bite_open_floor floor;
    if (!pass->answer->result.limits[BITE_LIMIT_PART_BEND].applies ||
        !bite_plan_open_floor(job, index, &floor) ||
        is_supported(bite_plan_setup(job, pass->setup), &floor) ||
        !decides(&pass->answer->result)) {
        return BITE_SUPPORT_NONE;
    }
    return floor.over_hollow ? BITE_SUPPORT_WAX : BITE_SUPPORT_TAPE;
}

static bite_status judge_floor(bite_job *job, size_t index, bite_error *error)
{
    const bite_planned_pass *pass = &job->passes[index];
    uint32_t support = bite_plan_wants_support(job, index);
    bite_open_floor floor;
    bite_answer *supported = NULL;
    size_t passes = 0;
    if (support == BITE_SUPPORT_NONE) {
        return BITE_OK;
    }
    (void)bite_plan_open_floor(job, index, &floor);
    if (pass->support.kind != BITE_SUPPORT_NONE) { /* its settings are those */
        remark_floor(job, index, &floor, pass->answer, pass->passes);
        return BITE_OK;
    }
    bite_status status = bite_plan_with_support(job, index, support, &supported, &passes, error);
    if (status == BITE_OK) {
        remark_floor(job, index, &floor, supported, passes);
    }
    bite_answer_free(supported);
    return status == BITE_NO_ANSWER ? BITE_OK : status; /* nothing helps: the limit speaks */
}

static double wall_alpha(const bite_thin_wall *wall, double height)
{
    double ratio = or_else(wall->length / height, INFINITY);
    return wall->held ? bite_plate_pocket_wall(ratio) : bite_plate_wall_end(ratio);
}

double bite_plan_wall_step(const bite_thin_wall *wall, double depth, double allowed)
{
    double low = 0.0;
    double high = wall->height;
    for (int i = 0; i < 60; i++) {
        double step = 0.5 * (low + high);
        double bend = step / depth * step * step / (wall->height * wall->height) *
                      wall_alpha(wall, step) / wall_alpha(wall, wall->height);
        *(bend > allowed ? &high : &low) = step;
    }
    return low;
}

/* Share of what a section may bend that is clear, with the usual scatter of forces (estimate). */
static const double clear_share = 0.3;

static void judge_wall(bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_limit *limit = &pass->answer->result.limits[BITE_LIMIT_PART_BEND];
    bite_thin_wall wall;
    bite_open_floor floor;
    if (!limit->applies || !(limit->utilization > 0.05) || /* stiff enough to say nothing */
        !bite_plan_thin_wall(job, index, &wall) || bite_plan_open_floor(job, index, &floor)) {
        return;
    }
    double step =
        bite_plan_wall_step(&wall, pass->answer->full.depth, clear_share / limit->utilization);
    const bite_remark_value values[] = {
        bite_remark_text(pass->title), bite_remark_number(wall.thickness),
        bite_remark_number(wall.height), bite_remark_number(rounded(limit->demand)),
        bite_remark_number(rounded(step))};
    bite_plan_remark_from(
        job, BITE_REMARK_WALL_BENDS, decides(&pass->answer->result) ? BITE_CARE : 0,
        "estimate: plate clamped at its foot, the cut's force at its top", values, 5);
    if (wall.derived) {
        const bite_remark_value value = bite_remark_number(wall.thickness);
        bite_plan_remark(job, BITE_REMARK_WALL_DERIVED, &value, 1);
    }
}

/* A vacuum below sucks a web into the pocket that it spans. */
static void judge_vacuum(bite_job *job, const bite_planned_setup *setup)
{
    const double pressure = 85e3; /* Pa, as bite_plan_vacuum */
    double tolerance = or_else(bite_job_file_number(job->file_data.part, "tolerance"), 0.1e-3);
    double web = isnan(job->thinnest) ? job->thickness - setup->hollow.depth : job->thinnest;
    double modulus = bite_item_figure(&job->grade->record, "modulus");
    double sag =
        bite_plate_floor_sag(pressure, modulus, web, setup->hollow.across, setup->hollow.along);
    if (setup->hold.hold != NULL && strcmp(setup->hold.hold->name, "vacuum") == 0 &&
        sag > 0.2 * tolerance) {
        const bite_remark_value values[] = {bite_remark_number(web),
                                            bite_remark_number(setup->hollow.across),
                                            bite_remark_number(rounded(sag))};
        bite_plan_remark(job, BITE_REMARK_VACUUM_FLOOR, values, 3);
    }
}

/* A hold that presses the part flat lets it go: the bow is the part's own. */
static void judge_flattening(bite_job *job, const bite_planned_setup *setup)
{
    const bite_limit *limit = &job->warp.limit;
    const double noticeable = 20e-6; /* m */
    double bow = limit->applies ? limit->demand : job->warp.as_planned;
    if (setup->hold.hold == NULL || bite_plan_is_clamped(setup) || !(bow > noticeable)) {
        return;
    }
    const bite_remark_value values[] = {bite_remark_text(setup->hold.hold->title),
                                        bite_remark_number(bow)};
    bite_plan_remark_from(job, BITE_REMARK_BOW_SPRINGS_BACK,
                          limit->verdict > BITE_CLEAR ? BITE_CARE : 0, "common-practice", values,
                          2);
}

bite_status bite_plan_thin(bite_job *job, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < job->pass_count && status == BITE_OK; i++) {
        status = judge_floor(job, i, error);
        judge_wall(job, i);
    }
    for (uint32_t i = 0; i < job->setups; i++) {
        judge_vacuum(job, &job->setup_plan[i]);
        judge_flattening(job, &job->setup_plan[i]);
    }
    return status;
}
