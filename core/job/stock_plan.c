/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet of a job: which, how thick it may come, what comes off, how parts lie on it; and how
 * far the part bows. */
#include "core/job/stock_plan.h"
#include "core/base/error.h"
#include "core/job/plan.h"
#include "core/job/plan_steps.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include "core/physics/elastic/warp.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Off each face where the job says nothing. */
static const double usual_skim = 0.1e-3; /* m; common practice */
static const double usual_margin =
    3e-3; /* m, of the blank's edge beyond tool and gap; common practice */

static const double coupon_span = 0.1; /* m, of the strip that is skimmed */

enum { FACES_BOTH, FACES_TOP, FACES_NONE };
enum { PARTED_BOUGHT, PARTED_SAW, PARTED_SCORE, PARTED_LASER };

static bite_status find_sheet(bite_job *job, bite_error *error)
{
    char name[200];
    const char *slash = strchr(job->grade->record.name, '/');
    (void)snprintf(name, sizeof name, "%s.%s", job->grade->family_name,
                   slash == NULL ? "" : slash + 1);
    bite_status status =
        bite_library_record(job->library, BITE_SHEETS, name, &job->stock.sheet, NULL);
    if (status == BITE_UNKNOWN_NAME) {
        (void)snprintf(name, sizeof name, "%s", job->grade->family_name);
        status = bite_library_record(job->library, BITE_SHEETS, name, &job->stock.sheet, NULL);
    }
    if (status == BITE_UNKNOWN_NAME) {
        job->stock.sheet = NULL;
        return BITE_OK;
    }
    return status == BITE_OK
               ? status
               : bite_library_record(job->library, BITE_SHEETS, name, &job->stock.sheet, error);
}

static void read_rule(const bite_item_record *sheet, bite_sheet_rule *rule)
{
    memset(rule, 0, sizeof *rule);
    if (sheet == NULL) {
        return;
    }
    rule->fixed = bite_plan_figure(sheet, "fixed", 0.0);
    rule->share = bite_plan_figure(sheet, "share", 0.0);
    rule->thin_share = bite_plan_figure(sheet, "thin_share", rule->share);
    rule->thin_under = bite_plan_figure(sheet, "thin_under", 0.0);
    const bite_field_value *list = bite_item_field(sheet, "nominals");
    char word[64];
    while (list != NULL && rule->count < BITE_NOMINALS_MAX &&
           bite_job_file_name(list->text, rule->count, word, sizeof word)) {
        double nominal = 0.0;
        if (bite_quantity_read(word, BITE_KIND_LENGTH, &nominal, NULL) != BITE_OK) {
            break;
        }
        rule->nominals[rule->count++] = nominal;
    }
}

/* Where both faces stay as they came the part is as thick as the sheet. */
static void warn_as_made(bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
    double middle = 0.5 * (stock->thin + stock->thick);
    char thin[40];
    char thick[40];
    if (stock->thin < job->thickness - tolerance || stock->thick > job->thickness + tolerance) {
        /* as likely as not beyond it, or only at an end of what is sold */
        stock->off_size = fabs(middle - job->thickness) > tolerance ? 2 : 1;
        bite_plan_remark(
            job, BITE_CARE, "stock",
            bite_plan_text(
                job,
                "Both faces stay as they came: the part will be %s to %s thick, wherever the sheet "
                "is. Measure it at "
                "five places before the first cut, or take a skim off.",
                bite_plan_quantity(job, stock->thin, BITE_KIND_LENGTH, thin, sizeof thin),
                bite_plan_quantity(job, stock->thick, BITE_KIND_LENGTH, thick, sizeof thick)),
            "common-practice");
    }
}

/* Where both faces stay as they came the part is as thick as the sheet. */
static void choose_nominal(bite_job *job, const bite_sheet_rule *rule)
{
    bite_planned_stock *stock = &job->stock;
    char needed[40];
    stock->nominal = bite_job_file_number(job->file_data.stock, "nominal");
    double thinnest = bite_job_file_number(job->file_data.stock, "thinnest");
    double thickest = bite_job_file_number(job->file_data.stock, "thickest");
    stock->measured = isnan(thinnest + thickest) ? 0u : 1u;
    stock->chosen = isnan(stock->nominal) ? 1u : 0u;
    if (stock->chosen) {
        double listed = stock->as_sold ? bite_sheet_stock_nearest(rule, job->thickness)
                                       : bite_sheet_stock_thinnest(rule, stock->needed);
        double best = stock->measured ? 0.5 * (thinnest + thickest) : listed;
        stock->nominal = best > 0.0 ? best : stock->needed;
        if (best <= 0.0) {
            bite_plan_remark(job, BITE_CARE, "stock",
                             bite_plan_text(job,
                                            "No sheet thickness of the tables surely holds %s; it "
                                            "was taken as exact. Say nominal, or measure.",
                                            bite_plan_quantity(job, stock->needed, BITE_KIND_LENGTH,
                                                               needed, sizeof needed)),
                             "");
        }
    }
    stock->tolerance = stock->measured ? 0.5 * (thickest - thinnest)
                                       : bite_sheet_stock_tolerance(rule, stock->nominal);
    stock->thin = stock->measured ? thinnest : stock->nominal - stock->tolerance;
    stock->thick = stock->measured ? thickest : stock->nominal + stock->tolerance;
    if (stock->measured) {
        stock->nominal = 0.5 * (thinnest + thickest);
    }
}

/* The slot of the tool that cuts the parts free, and something to stand between slots that are cut
 * one after the other. */
static double usual_gap(const bite_job *job)
{
    const double between = 1e-3; /* m; common practice */
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].work == BITE_WORK_FREE) {
            return job->tools[job->passes[i].tool].diameter + between;
        }
    }
    return between;
}

bite_status bite_plan_layout(bite_job *job, bite_error *error)
{
    bite_planned_stock *stock = &job->stock;
    double gap = bite_job_file_number(job->file_data.stock, "gap");
    double margin = bite_job_file_number(job->file_data.stock, "margin");
    (void)error;
    stock->gap = isnan(gap) ? usual_gap(job) : gap;
    stock->margin = isnan(margin) ? stock->gap + usual_margin : margin;
    stock->sheet_length = bite_job_file_number(job->file_data.stock, "length");
    stock->sheet_width = bite_job_file_number(job->file_data.stock, "width");
    double sheet_length = isnan(stock->sheet_length) ? 0.0 : stock->sheet_length;
    double sheet_width = isnan(stock->sheet_width) ? 0.0 : stock->sheet_width;
    bite_sheet_stock_layout(job->length, job->width, (uint32_t)job->count, stock->gap,
                            stock->margin, sheet_length, sheet_width, &stock->layout);
    stock->yield = sheet_length > 0.0 && sheet_width > 0.0
                       ? bite_sheet_stock_yield(job->length, job->width, stock->gap, stock->margin,
                                                sheet_length, sheet_width)
                       : 0;
    if (stock->gap < usual_gap(job) - 1e-3 - 1e-9) {
        bite_plan_remark(job, BITE_CARE, "stock",
                         "The gap between parts is narrower than the tool that cuts them free: it "
                         "cuts into their neighbours.",
                         "");
    }
    if (stock->layout.along == 0) {
        bite_plan_remark(job, BITE_CARE, "stock",
                         "The parts do not fit the sheet together: cut them in several blanks.",
                         "");
    }
    return BITE_OK;
}

static void say_parting(bite_job *job)
{
    static const char *const keys[] = {NULL, "saw", "score", "laser"};
    bite_planned_stock *stock = &job->stock;
    stock->parting = bite_job_file_word(job->file_data.stock, "parted_by", PARTED_BOUGHT);
    stock->parting_text = "";
    const bite_field_value *field_value = stock->sheet == NULL || keys[stock->parting] == NULL
                                              ? NULL
                                              : bite_item_field(stock->sheet, keys[stock->parting]);
    if (field_value != NULL) {
        int forbids = strncmp(field_value->text, "Do not", 6) == 0;
        stock->parting_text = field_value->text;
        bite_plan_remark(job, forbids ? BITE_DANGER : BITE_CARE, "stock", field_value->text,
                         "common-practice");
    } else if (stock->parting != PARTED_BOUGHT) {
        bite_plan_remark(
            job, BITE_CARE, "stock",
            bite_plan_text(job, "Nothing is known here of parting %s by %s: ask who sold it.",
                           job->grade->record.name, keys[stock->parting]),
            "");
    }
    if (bite_job_file_word(job->file_data.stock, "film", 0) == 1) {
        bite_plan_remark(job, BITE_CARE, "stock",
                         "Protective film is on: peel it off wherever a tool cuts, for it winds "
                         "round the cutter and holds heat, and off the "
                         "bonded face, for a bond on film is only as good as the film's. Keep it "
                         "on for sawing and handling.",
                         "common-practice");
    }
}

static int faces_in(const bite_job *job, int setup)
{
    for (size_t i = 0; i < job->file_data.pass_count; i++) {
        const bite_section *pass = job->file_data.passes[i];
        int second = bite_job_file_number(pass, "setup") > 1.5;
        if (bite_job_file_word(pass, "work", BITE_WORK_COUNT) == BITE_WORK_FACE &&
            second == (setup == 2)) {
            return 1;
        }
    }
    return 0;
}

static int is_faced(const bite_job *job)
{
    return faces_in(job, 1) || faces_in(job, 2);
}

/* A job that names its passes and none of them faces leaves the faces as they came; one that faces
 * in one setup alone leaves the other face. */
static uint32_t faces_unsaid(const bite_job *job)
{
    int both = faces_in(job, 1) && faces_in(job, 2);
    return job->file_data.pass_count == 0 || both ? FACES_BOTH
           : is_faced(job)                        ? FACES_TOP
                                                  : FACES_NONE;
}

bite_status bite_plan_stock(bite_job *job, bite_error *error)
{
    bite_planned_stock *stock = &job->stock;
    bite_sheet_rule rule;
    bite_status status = find_sheet(job, error);
    if (status != BITE_OK) {
        return status;
    }
    uint32_t faces = bite_job_file_word(job->file_data.stock, "faces", faces_unsaid(job));
    double skim = bite_job_file_number(job->file_data.stock, "skim");
    double share = bite_job_file_number(job->file_data.stock, "share_top");
    double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
    skim = isnan(skim) ? usual_skim : skim;
    stock->as_sold = faces == FACES_NONE;
    stock->skim = faces == FACES_BOTH ? 2.0 * skim : faces == FACES_TOP ? skim : 0.0;
    double one =
        faces_in(job, 2) && !faces_in(job, 1) ? 0.0 : 1.0; /* setup 2 takes from the face below */
    stock->share_top = faces == FACES_TOP ? one : isnan(share) ? 0.5 : share;
    stock->needed = faces == FACES_NONE ? job->thickness - (isnan(tolerance) ? 0.0 : tolerance)
                                        : job->thickness + stock->skim;
    read_rule(stock->sheet, &rule);
    choose_nominal(job, &rule);
    if (faces != FACES_NONE && job->file_data.pass_count > 0 && !is_faced(job)) {
        bite_plan_remark(job, BITE_CARE, "stock",
                         "Faces are to be skimmed, but no pass does it (work = face): the part "
                         "stays as thick as the sheet.",
                         "");
    }
    if (faces == FACES_NONE) {
        warn_as_made(job);
        bite_sheet_stock_removal nothing = {0.0, 0.0, 0.0, 0.0};
        stock->removal = nothing;
    } else {
        stock->removal =
            bite_sheet_stock_remove(stock->thin, stock->thick, job->thickness, stock->share_top);
    }
    say_parting(job);
    if (stock->sheet == NULL) {
        bite_plan_remark(job, BITE_NOTE, "stock",
                         "There is no table of sheets of this material: its thickness was taken as "
                         "exact. Measure it.",
                         "");
    }
    return BITE_OK;
}

/* ---- warp ---- */

double bite_plan_skin_stress(const bite_job *job)
{
    const bite_section *stock = job->file_data.stock;
    double cut = bite_job_file_number(stock, "coupon_cut");
    double bow = bite_job_file_number(stock, "coupon_bow");
    double span = bite_job_file_number(stock, "coupon_span");
    double modulus = bite_plan_figure(&job->grade->record, "modulus", (double)NAN);
    double poisson = bite_plan_figure(&job->grade->record, "poisson", (double)NAN);
    double measured = bite_warp_coupon(modulus, poisson, job->stock.nominal, cut,
                                       isnan(span) ? coupon_span : span, bow);
    return isnan(measured) ? bite_job_file_number(stock, "skin_stress") : measured;
}

double bite_plan_face_strain(const bite_job *job)
{
    const bite_section *stock = job->file_data.stock;
    double expansion = bite_plan_figure(&job->grade->record, "expansion", 0.0);
    const double all[] = {bite_job_file_number(stock, "face_strain"),
                          bite_job_file_number(stock, "moisture_strain"),
                          expansion * bite_job_file_number(stock, "face_warmth")};
    double sum = (double)NAN;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        sum = isnan(all[i]) ? sum : isnan(sum) ? all[i] : sum + all[i];
    }
    return sum;
}

static double bow_of(const bite_job *job, const bite_cut *cut, double off)
{
    return bite_warp_bow(bite_warp_layers(cut->modulus, cut->poisson, cut->skin_stress,
                                          job->stock.nominal, off, 0.0),
                         job->warp.span);
}

static void say_anneal(bite_job *job)
{
    bite_planned_warp *warp = &job->warp;
    const bite_field_value *at = bite_item_field(&job->grade->record, "annealing");
    const bite_field_value *how = bite_item_field(&job->grade->record, "annealing_how");
    char temperature[40];
    warp->anneal = "";
    warp->anneal_at = at == NULL ? (double)NAN : at->value;
    if (at != NULL) {
        warp->anneal = bite_plan_text(job, "Anneal at %s%s%s",
                                      bite_plan_quantity(job, at->value, BITE_KIND_TEMPERATURE,
                                                         temperature, sizeof temperature),
                                      how == NULL ? "" : ": ", how == NULL ? "." : how->text);
    }
}

/* The last pass of the job frees the part: the rows of warp and stock stand with it. */
bite_status bite_plan_warp(bite_job *job, bite_error *error)
{
    bite_planned_warp *warp = &job->warp;
    const bite_answer *last = job->passes[job->pass_count - 1].answer;
    const bite_cut *cut = &last->full;
    const bite_planned_stock *stock = &job->stock;
    (void)error;
    warp->limit = last->result.limits[BITE_LIMIT_WARP];
    job->stock.limit = last->result.limits[BITE_LIMIT_STOCK_THICKNESS];
    warp->span = fmax(job->length, job->width);
    warp->stress = cut->skin_stress;
    warp->one_sided = bow_of(job, cut, stock->removal.thick_top + stock->removal.thick_below);
    warp->as_planned =
        bow_of(job, cut, fabs(cut->removed_top - cut->removed_below)); /* pockets too */
    warp->warmth =
        bite_warp_bow(bite_warp_gradient(5.0 * cut->expansion, job->thickness), warp->span);
    warp->coupon_cut = 0.25 * stock->nominal;
    warp->coupon = bite_warp_bow(bite_warp_layers(cut->modulus, cut->poisson, cut->skin_stress,
                                                  stock->nominal, warp->coupon_cut, 0.0),
                                 coupon_span);
    say_anneal(job);
    char one_sided[40];
    char planned[40];
    if (warp->one_sided > 2.0 * warp->as_planned && warp->one_sided > 10e-6) {
        bite_plan_remark(
            job, 0, "warp",
            bite_plan_text(job,
                           "Taking all of it off one face would bow the part by %s, as planned it "
                           "is %s: face both sides in turns, in "
                           "near-equal steps, and let it lie free between roughing and finishing.",
                           bite_plan_quantity(job, warp->one_sided, BITE_KIND_LENGTH, one_sided,
                                              sizeof one_sided),
                           bite_plan_quantity(job, warp->as_planned, BITE_KIND_LENGTH, planned,
                                              sizeof planned)),
            "estimate: layer removal from a sheet with skin stress");
    }
    return BITE_OK;
}
