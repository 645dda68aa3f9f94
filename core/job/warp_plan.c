/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bow of the finished part, and what reduces it. */
#include "core/job/warp_plan.h"
#include "core/job/job_file.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/physics/elastic/warp.h"
#include <math.h>

static const double coupon_span = 0.1; /* m, of the strip that is skimmed */

double bite_plan_skin_stress(const bite_job *job)
{
    const bite_section *stock = job->file_data.stock;
    double cut = bite_job_file_number(stock, "coupon_cut");
    double bow = bite_job_file_number(stock, "coupon_bow");
    double span = bite_job_file_number(stock, "coupon_span");
    double modulus = bite_item_figure(&job->grade->record, "modulus");
    double poisson = bite_item_figure(&job->grade->record, "poisson");
    double measured = bite_warp_coupon(modulus, poisson, job->stock.nominal, cut,
                                       isnan(span) ? coupon_span : span, bow);
    return isnan(measured) ? bite_job_file_number(stock, "skin_stress") : measured;
}

double bite_plan_face_strain(const bite_job *job)
{
    const bite_section *stock = job->file_data.stock;
    double expansion = bite_item_figure_or(&job->grade->record, "expansion", 0.0);
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

static void plan_annealing(bite_job *job)
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
                                      how == NULL ? "" : ": ",
                                      how == NULL ? "." : bite_plan_table_text(job, how->text));
    }
}

/* The last pass frees the part, so its answer has the limits of warp and stock. */
bite_status bite_plan_warp(bite_job *job, bite_error *error)
{
    bite_planned_warp *warp = &job->warp;
    const bite_answer *last = job->passes[bite_plan_last_flat_pass(job)].answer;
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
    plan_annealing(job);
    if (warp->one_sided > 2.0 * warp->as_planned && warp->one_sided > 10e-6) {
        const bite_remark_value values[] = {bite_remark_number(warp->one_sided),
                                            bite_remark_number(warp->as_planned)};
        bite_plan_remark(job, BITE_REMARK_FACING_ORDER, values, 2);
    }
    return BITE_OK;
}
