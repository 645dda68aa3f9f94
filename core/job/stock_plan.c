/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet of a job: its nominal thickness and range, and the material removed from its faces. */
#include "core/job/stock_plan.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/job/sheet_record.h"
#include "core/job/sheet_stock.h"
#include "core/library/collection.h"
#include <math.h>
#include <string.h>

/* Removed from each face if the job does not state it. */
static const double default_skim = 0.1e-3; /* m; common practice */

enum { FACES_BOTH, FACES_TOP, FACES_NONE };

/* Beyond which a difference in thickness is mentioned if the job states no tolerance: the default
 * tolerance, which only advises. */
static const double advised_tolerance = 0.1e-3; /* m */

/* If both faces are left as supplied, the part is as thick as the sheet. */
static void check_as_supplied(bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    double stated = bite_job_file_number(job->file_data.part, "tolerance");
    double tolerance = isnan(stated) ? advised_tolerance : stated;
    double middle = 0.5 * (stock->thin + stock->thick);
    const double hair = 1e-9; /* m */
    if (stock->thin < job->thickness - tolerance - hair ||
        stock->thick > job->thickness + tolerance + hair) {
        /* 2: off size even at the middle thickness; 1: only at an end of the range */
        stock->off_size = isnan(stated)                                      ? 0
                          : fabs(middle - job->thickness) > tolerance + hair ? 2
                                                                             : 1;
        const bite_remark_value values[] = {bite_remark_number(stock->thin),
                                            bite_remark_number(stock->thick)};
        bite_plan_remark_from(job, BITE_REMARK_SHEET_AS_SUPPLIED,
                              isnan(stated) ? BITE_NOTE : BITE_CARE, "common-practice", values, 2);
    }
}

/* The thickness to buy: that of faces left as supplied is the part's, otherwise even the thin end
 * of its tolerance contains the part and what is skimmed. */
static double listed_nominal(const bite_job *job, const bite_sheet_rule *rule)
{
    double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
    return job->stock.as_sold
               ? bite_sheet_stock_as_sold(rule, job->thickness, isnan(tolerance) ? 0.0 : tolerance)
               : bite_sheet_stock_thinnest(rule, job->stock.needed);
}

/* The nominal thickness that the job states or measured, otherwise the thinnest on sale that is
 * certain to contain the part. */
static void choose_nominal(bite_job *job, const bite_sheet_rule *rule)
{
    bite_planned_stock *stock = &job->stock;
    stock->nominal = bite_job_file_number(job->file_data.stock, "nominal");
    double thinnest = bite_job_file_number(job->file_data.stock, "thinnest");
    double thickest = bite_job_file_number(job->file_data.stock, "thickest");
    stock->measured = isnan(thinnest + thickest) ? 0u : 1u;
    stock->chosen = isnan(stock->nominal) ? 1u : 0u;
    if (stock->chosen) {
        double best = stock->measured ? 0.5 * (thinnest + thickest) : listed_nominal(job, rule);
        stock->nominal = best > 0.0 ? best : stock->needed;
        if (best <= 0.0 && stock->sheet != NULL) {
            const bite_remark_value value = bite_remark_number(stock->needed);
            bite_plan_remark(job, BITE_REMARK_NO_SHEET_THICKNESS, &value, 1);
        }
    }
    int exact = !stock->measured && stock->chosen && stock->nominal == stock->needed &&
                listed_nominal(job, rule) <= 0.0; /* there is none on sale */
    stock->thin = stock->measured ? thinnest
                  : exact         ? stock->nominal
                                  : bite_sheet_stock_thin(rule, stock->nominal);
    stock->thick = stock->measured ? thickest
                   : exact         ? stock->nominal
                                   : bite_sheet_stock_thick(rule, stock->nominal);
    if (stock->measured) {
        stock->nominal = 0.5 * (thinnest + thickest);
    }
    stock->tolerance = 0.5 * (stock->thick - stock->thin);
}

/* A sheet that the job states or measured may be too thin in places. */
static void check_thin_end(bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    double missing = stock->needed - stock->thin;
    if (stock->as_sold || missing <= 1e-9) { /* as supplied: check_as_supplied */
        return;
    }
    stock->short_by = missing;
    const bite_remark_value values[] = {
        bite_remark_number(stock->thin), bite_remark_number(missing),
        bite_remark_number(stock->needed),
        stock->thin < job->thickness - 1e-9 ? bite_remark_number(job->thickness - stock->thin)
                                            : bite_remark_number((double)NAN)};
    bite_plan_remark(job, BITE_REMARK_SHEET_SHORT, values, 4);
}

static void plan_parting(bite_job *job)
{
    static const char *const keys[] = {NULL, "saw", "score", "laser"};
    static const char *const methods[] = {NULL, "sawing", "scoring", "laser cutting"};
    bite_planned_stock *stock = &job->stock;
    stock->parting = bite_job_file_word(job->file_data.stock, "parted_by", BITE_PARTED_BOUGHT);
    stock->parting_text = "";
    const bite_field_value *field_value = stock->sheet == NULL || keys[stock->parting] == NULL
                                              ? NULL
                                              : bite_item_field(stock->sheet, keys[stock->parting]);
    if (field_value != NULL) {
        int forbids = strncmp(field_value->text, "Do not", 6) == 0;
        stock->parting_text = bite_plan_table_text(job, field_value->text);
        const bite_remark_value value = bite_remark_text(stock->parting_text);
        bite_plan_remark_from(job, BITE_REMARK_PARTING, forbids ? BITE_DANGER : BITE_CARE,
                              "common-practice", &value, 1);
    } else if (stock->parting != BITE_PARTED_BOUGHT) {
        const bite_remark_value values[] = {bite_remark_text(job->grade->record.name),
                                            bite_remark_text(methods[stock->parting])};
        bite_plan_remark(job, BITE_REMARK_PARTING_UNKNOWN, values, 2);
    }
    if (bite_job_file_word(job->file_data.stock, "film", 0) == 1) {
        bite_plan_remark(job, BITE_REMARK_FILM, NULL, 0);
    }
}

/* Whether the top, setup 1, or the bottom, setup 2, is faced. */
static int faces_in(const bite_job *job, int setup)
{
    for (size_t i = 0; i < job->file_data.pass_count; i++) {
        const bite_section *pass = job->file_data.passes[i];
        double number = bite_job_file_number(pass, "setup");
        const bite_planned_setup *in = bite_plan_setup(job, isnan(number) ? 1 : (uint32_t)number);
        int second = in->side == BITE_SIDE_BOTTOM;
        if (!bite_plan_lies_flat(in)) {
            continue; /* an edge */
        }
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

/* The faces that are skimmed if the job does not state them: none if it has passes and none of them
 * faces, one if it faces in one setup alone, otherwise both. */
static uint32_t default_faces(const bite_job *job)
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
    bite_status status = bite_sheet_find(job, &stock->sheet, error);
    if (status != BITE_OK) {
        return status;
    }
    uint32_t faces = bite_job_file_word(job->file_data.stock, "faces", default_faces(job));
    double skim = bite_job_file_number(job->file_data.stock, "skim");
    double share = bite_job_file_number(job->file_data.stock, "share_top");
    skim = isnan(skim) ? default_skim : skim;
    stock->as_sold = faces == FACES_NONE;
    stock->skim = faces == FACES_BOTH ? 2.0 * skim : faces == FACES_TOP ? skim : 0.0;
    double one =
        faces_in(job, 2) && !faces_in(job, 1) ? 0.0 : 1.0; /* setup 2 cuts the lower face */
    stock->share_top = faces == FACES_TOP ? one : isnan(share) ? 0.5 : share;
    stock->needed = job->thickness + stock->skim;
    bite_sheet_read_rule(stock->sheet, bite_sheet_in_inches(job), &rule);
    stock->inch = bite_sheet_in_inches(job) ? 1u : 0u;
    choose_nominal(job, &rule);
    if (faces != FACES_NONE && job->file_data.pass_count > 0 && !is_faced(job)) {
        bite_plan_remark(job, BITE_REMARK_NO_FACING_PASS, NULL, 0);
    }
    if (faces == FACES_NONE) {
        check_as_supplied(job);
        bite_sheet_stock_removal nothing = {0.0, 0.0, 0.0, 0.0};
        stock->removal = nothing;
    } else {
        stock->removal =
            bite_sheet_stock_remove(stock->thin, stock->thick, job->thickness, stock->share_top);
    }
    check_thin_end(job);
    plan_parting(job);
    if (stock->sheet == NULL) {
        bite_plan_remark(job, BITE_REMARK_NO_SHEET_TABLE, NULL, 0);
    }
    return BITE_OK;
}
