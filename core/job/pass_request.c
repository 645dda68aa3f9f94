/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The request of a pass: what the job, its setup, its section and its feature say of the cut. */
#include "core/job/pass_request.h"
#include "core/job/bond_plan.h"
#include "core/job/entry_plan.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/path_plan.h"
#include "core/job/setup_plan.h"
#include "core/job/side_width.h"
#include "core/job/thin_plan.h"
#include "core/job/warp_plan.h"
#include "core/job/workholding_plan.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include "core/units/format_quantity.h"
#include <math.h>

bite_status bite_plan_set_number(bite_request *request, const char *input, double si,
                                 const char *unit, bite_error *error)
{
    if (isnan(si)) {
        return BITE_OK;
    }
    bite_kind kind = (bite_kind)bite_input_find(input)->kind;
    return bite_request_set_number(request, input, bite_unit_round(si, kind, unit, 9), error);
}

static bite_status set_length(bite_request *request, const char *input, double metres,
                              bite_error *error)
{
    return bite_plan_set_number(request, input, metres, "mm", error);
}

static bite_status set_text(bite_request *request, const char *input, const char *text,
                            bite_error *error)
{
    return text == NULL ? BITE_OK : bite_request_set(request, input, text, error);
}

static double first_of(double own, double whole)
{
    return isnan(own) ? whole : own;
}

static bite_status use(bite_request *request, bite_collection collection, const char *name,
                       bite_error *error)
{
    return name == NULL ? BITE_OK : bite_request_use(request, collection, name, error);
}

/* The records that the job names: material, machine, holder, workholding, tool. */
static bite_status use_records(const bite_job *job, const bite_planned_pass *pass,
                               bite_request *request, bite_error *error)
{
    bite_status status = use(request, BITE_GRADES, job->grade->record.name, error);
    status = status != BITE_OK ? status
                               : use(request, BITE_MACHINES,
                                     bite_job_file_text(job->file_data.machine, "name"), error);
    status = status != BITE_OK ? status
                               : use(request, BITE_HOLDERS,
                                     bite_job_file_text(job->file_data.machine, "holder"), error);
    status = status != BITE_OK
                 ? status
                 : use(request, BITE_HOLDS,
                       bite_plan_hold_method(bite_plan_setup(job, pass->setup)), error);
    return status != BITE_OK || pass->work == BITE_WORK_TAP /* its thread names the tap */
               ? status
               : use(request, BITE_TOOLS, job->tools[pass->tool].name, error);
}

/* Whether a pass cuts with a part of its diameter. To rough needs a hole to start from: after a
 * ramp its first lap is a full slot. */
static int has_side_width(const bite_planned_pass *pass)
{
    int ramp = pass->work == BITE_WORK_ROUGH && pass->entry.kind == BITE_ENTER_RAMP &&
               pass->entry.stated == 0;
    return !isnan(pass->width) || (!isnan(bite_side_width(pass->work, (double)NAN, 1.0)) && !ramp);
}

/* Thickness left under a pass: depths count from the finished face, and a facing pass leaves at
 * least the part. */
static double left_under(const bite_job *job, const bite_planned_pass *pass)
{
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    double part = bite_plan_lies_flat(setup) ? fmin(job->thickness, job->stock.thin)
                                             : bite_plan_setup_height(job, setup);
    if (pass->work == BITE_WORK_FREE) {
        return 0.0;
    }
    return pass->work == BITE_WORK_FACE ? part : fmax(0.0, part - pass->depth);
}

static bite_status set_shape(const bite_job *job, const bite_section *section,
                             const bite_planned_pass *pass, bite_request *request,
                             bite_error *error)
{
    if (pass->work == BITE_WORK_THREAD_MILL) {
        return BITE_OK; /* the thread gives its shape */
    }
    bite_status status = set_length(request, "feature_depth", pass->depth, error);
    double one =
        bite_job_file_number(section, "pass_depth"); /* for a face with less to remove, all of it */
    status = status != BITE_OK
                 ? status
                 : set_length(request, "depth", isnan(one) ? one : fmin(one, pass->depth), error);
    if (status == BITE_OK && isnan(pass->width) && has_side_width(pass)) {
        const bite_field_value *field_value =
            request->tool == NULL ? NULL : bite_item_field(request->tool, "diameter");
        double diameter = field_value == NULL
                              ? request->typed[bite_input_index(bite_input_find("diameter"))].value
                              : field_value->value;
        status =
            set_length(request, "width", bite_side_width(pass->work, pass->width, diameter), error);
    } else if (status == BITE_OK) {
        status = set_length(request, "width", pass->width, error);
    }
    status = status != BITE_OK ? status
                               : set_length(request, "inside_radius", pass->inside_radius, error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "gap", bite_job_file_number(section, "gap"), error);
    double under = left_under(job, pass);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "floor_thickness",
                              first_of(bite_job_file_number(section, "floor"), under), error);
    return status;
}

/* The time under load is not known while settings are chosen: ten minutes on one bond are assumed
 * (estimate). */
static const double expected_load_time = 600.0;

/* Sets the bond under the pass. The area of many parts on one blank may exceed the range of the
 * inputs. */
static bite_status set_bond(const bite_job *job, const bite_planned_pass *pass,
                            bite_request *request, bite_error *error)
{
    if (bite_plan_hold_method(bite_plan_setup(job, pass->setup)) == NULL) {
        return BITE_OK;
    }
    double along = 0.0;
    double across = 0.0;
    bite_plan_bonded_area(job, pass, &along, &across);
    bite_status status = bite_plan_set_number(
        request, "bond_area", fmin(bite_input_find("bond_area")->most, along * across), "mm2",
        error);
    status =
        status != BITE_OK
            ? status
            : set_length(request, "bond_width",
                         fmin(bite_input_find("bond_width")->most, fmin(along, across)), error);
    return status != BITE_OK
               ? status
               : bite_plan_set_number(request, "load_time", expected_load_time, "s", error);
}

static uint32_t support_of(const bite_job *job, const bite_planned_pass *pass)
{
    return bite_plan_hold_word(bite_plan_setup(job, pass->setup), "support", BITE_SUPPORT_NONE);
}

static bite_status set_demands(const bite_job *job, size_t index, bite_request *request,
                               bite_error *error)
{
    const bite_section *section = job->file_data.passes[index];
    const bite_planned_pass *pass = &job->passes[index];
    static const char *const coolants[] = {"none", "air", "mist", "flood"};
    const bite_section *part = job->file_data.part;
    uint32_t coolant = bite_job_file_word(
        section, "coolant",
        bite_job_file_word(bite_plan_setup(job, pass->setup)->section, "coolant",
                           bite_job_file_word(job->file_data.fluids, "coolant", 4)));
    double tolerance = first_of(bite_job_file_number(section, "tolerance"),
                                bite_job_file_number(part, "tolerance"));
    double finish =
        first_of(bite_job_file_number(section, "finish"), bite_job_file_number(part, "finish"));
    const double none = (double)NAN; /* what another stage finishes */
    bite_status status =
        set_length(request, "tolerance", pass->unfinished ? none : tolerance, error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "finish", pass->unfinished ? none : finish, error);
    status = status != BITE_OK
                 ? status
                 : set_text(request, "coolant", coolant < 4 ? coolants[coolant] : NULL, error);
    status = status != BITE_OK ? status : bite_plan_entry_request(section, pass, request, error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "runout",
                              bite_job_file_number(job->file_data.machine, "runout"), error);
    status = status != BITE_OK
                 ? status
                 : bite_plan_set_number(request, "room_temperature",
                                        bite_job_file_number(job->file_data.machine, "room"), "K",
                                        error);
    if (status == BITE_OK && bite_plan_is_closed(pass->work) && !has_side_width(pass)) {
        status = bite_request_set(request, "blind", "yes", error);
    }
    status = status != BITE_OK
                 ? status
                 : bite_plan_set_thin(job, index, support_of(job, pass), request, error);
    return status != BITE_OK ? status : set_bond(job, pass, request, error);
}

static bite_status set_work(const bite_job *job, const bite_section *section,
                            const bite_planned_pass *pass, bite_request *request, bite_error *error)
{
    bite_status status = BITE_OK;
    if (bite_work_is_hole(pass->work)) {
        status = bite_plan_hole_request(job, section, pass, request, error);
    }
    if (status != BITE_OK ||
        (bite_work_is_hole(pass->work) && pass->work != BITE_WORK_THREAD_MILL)) {
        return status;
    }
    if (pass->work == BITE_WORK_CHAMFER) {
        return bite_request_set(request, "operation", "chamfer", error);
    }
    int wall = pass->work != BITE_WORK_FACE && bite_plan_is_conventional(job);
    return wall ? bite_request_set(request, "side", "conventional", error) : BITE_OK;
}

/* The pockets as a layer of the same volume at the top, m. */
static double pocket_layer(const bite_job *job)
{
    double volume = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double length = bite_job_file_number(job->file_data.passes[i], "length");
        double across = bite_job_file_number(job->file_data.passes[i], "across");
        if ((pass->work == BITE_WORK_POCKET || pass->work == BITE_WORK_ROUGH) &&
            pass->stage <= BITE_STAGE_ROUGH) { /* once for each feature */
            volume += pass->depth * pass->count * (isnan(length) ? job->length : length) *
                      (isnan(across) ? job->width : across);
        }
    }
    return fmin(volume / (job->length * job->width), 0.9 * job->thickness);
}

bite_status bite_plan_request_part(const bite_job *job, bite_request *request, bite_error *error)
{
    const bite_planned_stock *stock = &job->stock;
    bite_status status = set_length(request, "flatness",
                                    bite_job_file_number(job->file_data.part, "flatness"), error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "part_span", fmax(job->length, job->width), error);
    double part_thickness =
        stock->as_sold
            ? (double)NAN
            : stock->needed - stock->skim; /* off_size covers a sheet that is left as supplied */
    status =
        status != BITE_OK ? status : set_length(request, "part_thickness", part_thickness, error);
    status = status != BITE_OK ? status
                               : set_length(request, "stock_thickness",
                                            0.5 * (stock->thin + stock->thick), error);
    status = status != BITE_OK ? status
                               : set_length(request, "stock_tolerance", stock->tolerance, error);
    status = status != BITE_OK ? status : set_length(request, "skim", stock->skim, error);
    status = status != BITE_OK ? status
                               : set_length(request, "removed_top",
                                            stock->removal.thick_top + pocket_layer(job), error);
    status = status != BITE_OK
                 ? status
                 : set_length(request, "removed_below", stock->removal.thick_below, error);
    double stress = bite_plan_skin_stress(job);
    status = status != BITE_OK ? status
                               : bite_plan_set_number(request, "skin_stress", stress, "MPa", error);
    return status != BITE_OK ? status
                             : bite_plan_set_number(request, "face_strain",
                                                    bite_plan_face_strain(job), "%", error);
}

/* The share of the allowed chance that each pass may use. Passes share what is uncertain about the
 * material and the machine, so their chances neither add up nor coincide (estimate: between both).
 * A pass may use at least a quarter. Stages of one feature count as one pass. */
static double share_of(const bite_job *job)
{
    return job->care * fmax(0.25, 1.0 / sqrt((double)job->file_data.pass_count));
}

bite_status bite_plan_request(const bite_job *job, size_t index, bite_request **request,
                              bite_error *error)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    bite_status status = bite_request_new(job->library, request, error);
    if (status == BITE_OK) {
        (*request)->chance_share = share_of(job);
        (*request)->watch = job->watch;
        (*request)->scope = BITE_SCOPE_SETTINGS; /* a job does not report what restricts a pass */
    }
    status = status != BITE_OK ? status : use_records(job, pass, *request, error);
    status = status != BITE_OK ? status : set_work(job, section, pass, *request, error);
    status = status != BITE_OK ? status : set_shape(job, section, pass, *request, error);
    status = status != BITE_OK ? status : set_demands(job, index, *request, error);
    status = status != BITE_OK ? status
                               : set_text(*request, "spindle_speed",
                                          bite_job_file_text(section, "spindle"), error);
    status = status != BITE_OK
                 ? status
                 : set_text(*request, "tip_below", bite_job_file_text(section, "tip_below"), error);
    return status != BITE_OK
               ? status
               : set_text(*request, "feed_rate", bite_job_file_text(section, "feed"), error);
}
