/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blanks of a job: the distance between parts, the margin round them, and how many parts are on
 * each blank. */
#include "core/job/blank_plan.h"
#include "core/job/envelope_plan.h"
#include "core/job/job_file.h"
#include "core/job/outline_reach.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/job/sheet_record.h"
#include "core/job/sheet_stock.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <math.h>
#include <string.h>

/* Common practice, m: what stands between the slots of two neighbours, at least; the kerf of a saw
 * and what it wanders, if no pass parts them; the margin at the blank's edge beyond the slot; that
 * of a frame which is clamped. */
static const double least_web = 1e-3;
static const double saw_kerf = 3e-3;
static const double default_margin = 3e-3;
static const double clamped_frame = 15e-3;
/* A web that stands free is at most so many times as high as it is wide (common practice). */
static const double web_slenderness = 4.0;

/* The distance between parts at which the slots of neighbours do not meet, and a web stands between
 * them; that of a saw if no pass goes round them. */
static double default_gap(const bite_job *job)
{
    const bite_planned_stock *stock = &job->stock;
    return stock->reach > 0.0 ? 2.0 * stock->reach + stock->web : saw_kerf;
}

static double default_margin_of(const bite_job *job)
{
    return job->stock.reach +
           (bite_plan_blank_clamped(job, BITE_CLAMP_TABS) ? clamped_frame : default_margin);
}

/* The parts that one piece of stock is to hold: in a vise each part is a piece of its own, unless
 * the job states how many are on one. */
static uint32_t wanted_on_each(const bite_job *job)
{
    double stated = bite_job_file_number(job->file_data.stock, "per_blank");
    uint32_t count = (uint32_t)job->count;
    if (!isnan(stated)) {
        return stated < job->count ? (uint32_t)stated : count;
    }
    return bite_plan_blank_clamped(job, BITE_CLAMP_JAWS) ? 1 : count;
}

/* The sheets from which the blank may be cut: the one that the job states, otherwise those on sale;
 * without any, it may have any size. A side of 0 may have any length. */
static void available_sheets(const bite_job *job, bite_sheet_sizes *sizes)
{
    const bite_planned_stock *stock = &job->stock;
    bite_sheet_read_sizes(stock->sheet, bite_sheet_in_inches(job), sizes);
    if (!isnan(stock->sheet_length) || !isnan(stock->sheet_width) || sizes->count == 0) {
        sizes->count = 1;
        sizes->length[0] = isnan(stock->sheet_length) ? 0.0 : stock->sheet_length;
        sizes->width[0] = isnan(stock->sheet_width) ? 0.0 : stock->sheet_width;
    }
}

/* The smaller of two sides; a side of 0 may have any length, and so may the result. */
static double smaller_side(double sheet, double machine)
{
    double side = sheet > 0.0 ? fmin(sheet, machine) : machine;
    return isinf(side) ? 0.0 : fmax(side, 1e-9);
}

/* The smallest blank for so many parts that fits one of the sheets and, either way round, the
 * machine; along 0: none does. */
static void lay_out(const bite_job *job, uint32_t count, bite_layout *layout)
{
    const bite_planned_stock *stock = &job->stock;
    bite_sheet_sizes sizes;
    double x = 0.0;
    double y = 0.0;
    available_sheets(job, &sizes);
    bite_envelope_blank(job, &x, &y);
    memset(layout, 0, sizeof *layout);
    for (size_t i = 0; i < 2 * sizes.count; i++) {
        bite_layout one;
        double length = smaller_side(sizes.length[i / 2], i % 2 == 0 ? x : y);
        double width = smaller_side(sizes.width[i / 2], i % 2 == 0 ? y : x);
        bite_sheet_stock_layout(job->length, job->width, count, stock->gap, stock->margin, length,
                                width, &one);
        if (one.along > 0 && (layout->along == 0 ||
                              one.length * one.width < layout->length * layout->width - 1e-12)) {
            *layout = one;
        }
    }
}

/* The sheets to buy: of the smallest size that yields all blanks, otherwise of that which yields
 * most; blanks are sawn apart. */
static void count_sheets(bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    const bite_layout *layout = &stock->layout;
    bite_sheet_sizes sizes;
    available_sheets(job, &sizes);
    uint32_t best_yield = 0;
    stock->sold_length = stock->sold_width = (double)NAN;
    stock->sheets = 0;
    for (size_t i = 0; i < sizes.count && layout->along > 0; i++) {
        double area = sizes.length[i] * sizes.width[i];
        double best_area = stock->sold_length * stock->sold_width;
        uint32_t yield = area > 0.0
                             ? bite_sheet_stock_yield(layout->length, layout->width, saw_kerf, 0.0,
                                                      sizes.length[i], sizes.width[i])
                             : 0;
        int all = yield >= stock->blanks;
        int before = best_yield >= stock->blanks;
        if (yield > 0 && (best_yield == 0 || (all && !before) || (all && area < best_area) ||
                          (!all && !before && yield > best_yield))) {
            best_yield = yield;
            stock->sold_length = sizes.length[i];
            stock->sold_width = sizes.width[i];
            stock->sheets = (stock->blanks + yield - 1) / yield;
        }
    }
}

/* The largest number of parts on one blank, up to `most`; 0: not one fits. A blank that holds n
 * parts also holds fewer. */
static uint32_t fitting(const bite_job *job, uint32_t most)
{
    uint32_t fits = 0;
    uint32_t beyond = most + 1;
    while (beyond - fits > 1) {
        bite_layout layout;
        uint32_t middle = fits + (beyond - fits) / 2;
        middle = fits == 0 && beyond == most + 1 ? most : middle; /* usually all of them fit */
        lay_out(job, middle, &layout);
        if (layout.along > 0) {
            fits = middle;
        } else {
            beyond = middle;
        }
    }
    return fits;
}

/* As few blanks as hold all parts, filled evenly. */
static void share_out(bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    uint32_t count = (uint32_t)job->count;
    uint32_t wanted = wanted_on_each(job);
    uint32_t most = fitting(job, wanted);
    stock->split = most < wanted;
    if (most == 0) {
        most = wanted;
    }
    stock->blanks = (count + most - 1) / most;
    stock->on_each = (count + stock->blanks - 1) / stock->blanks;
    stock->on_last = count - stock->on_each * (stock->blanks - 1);
    lay_out(job, stock->on_each, &stock->layout);
}

void bite_plan_blanks(bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    double gap = bite_job_file_number(job->file_data.stock, "gap");
    double margin = bite_job_file_number(job->file_data.stock, "margin");
    stock->furthest = bite_plan_furthest_pass(job, &stock->reach);
    stock->web = fmax(least_web, job->thickness / web_slenderness);
    stock->gap = isnan(gap) ? default_gap(job) : gap;
    stock->margin = isnan(margin) ? default_margin_of(job) : margin;
    stock->sheet_length = bite_job_file_number(job->file_data.stock, "length");
    stock->sheet_width = bite_job_file_number(job->file_data.stock, "width");
    share_out(job);
    count_sheets(job);
    stock->yield = stock->sheet_length > 0.0 && stock->sheet_width > 0.0
                       ? bite_sheet_stock_yield(job->length, job->width, stock->gap, stock->margin,
                                                stock->sheet_length, stock->sheet_width)
                       : 0;
}

/* A gap that the job states may be narrower than the slots of both neighbours. */
static void check_gap(bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    const double hair = 1e-9; /* m */
    if (stock->furthest < 0 || stock->on_each < 2) {
        return;
    }
    const bite_remark_value title = bite_remark_text(job->passes[stock->furthest].title);
    if (stock->gap < stock->reach - hair) {
        stock->strikes_parts = 1;
        const bite_remark_value values[] = {title, bite_remark_number(stock->reach),
                                            bite_remark_number(stock->gap),
                                            bite_remark_number(stock->reach - stock->gap)};
        bite_plan_remark(job, BITE_REMARK_GAP_NARROW, values, 4);
    } else if (stock->gap < 2.0 * stock->reach - hair) {
        int tabs = bite_plan_blank_clamped(job, BITE_CLAMP_TABS);
        stock->strikes_parts |= tabs ? 1u : 0u; /* there is no frame left between them */
        const bite_remark_value values[] = {title, bite_remark_number(2.0 * stock->reach),
                                            bite_remark_number(stock->gap)};
        bite_plan_remark(job, tabs ? BITE_REMARK_NO_FRAME : BITE_REMARK_SLOTS_MEET, values, 3);
    }
}

static void check_margin(bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    if (stock->furthest >= 0 && stock->margin < stock->reach - 1e-9) {
        const bite_remark_value values[] = {bite_remark_text(job->passes[stock->furthest].title),
                                            bite_remark_number(stock->reach - stock->margin),
                                            bite_remark_number(stock->margin)};
        int framed = bite_plan_blank_clamped(job, BITE_CLAMP_TABS);
        stock->strikes_parts |= framed ? 1u : 0u;
        bite_plan_remark_from(job, BITE_REMARK_MARGIN_NARROW, framed ? BITE_CARE : BITE_NOTE,
                              "common-practice", values, 3);
    }
}

/* Its length and width; a side of 0 may have any length and is not shown. */
static bite_layout largest_sheet(const bite_job *job)
{
    bite_layout largest = {0, 0, 0, 0, 0.0, 0.0};
    bite_sheet_sizes sizes;
    available_sheets(job, &sizes);
    for (size_t i = 0; i < sizes.count; i++) {
        if (sizes.length[i] * sizes.width[i] >= largest.length * largest.width) {
            largest.length = sizes.length[i];
            largest.width = sizes.width[i];
        }
    }
    largest.length = largest.length > 0.0 ? largest.length : (double)NAN;
    largest.width = largest.width > 0.0 ? largest.width : (double)NAN;
    return largest;
}

/* Whether so many parts would fit a sheet, whatever the machine. */
static int fit_a_sheet(const bite_job *job, uint32_t count)
{
    const bite_planned_stock *stock = &job->stock;
    bite_sheet_sizes sizes;
    bite_layout layout = {0, 0, 0, 0, 0.0, 0.0};
    available_sheets(job, &sizes);
    for (size_t i = 0; i < sizes.count && layout.along == 0; i++) {
        bite_sheet_stock_layout(job->length, job->width, count, stock->gap, stock->margin,
                                sizes.length[i], sizes.width[i], &layout);
    }
    return layout.along > 0;
}

static const char *reason_of_split(const bite_job *job)
{
    return fit_a_sheet(job, wanted_on_each(job)) ? "the machine does not reach over all parts"
                                                 : "not all parts fit on one sheet";
}

void bite_plan_blank_remarks(bite_job *job)
{
    const bite_planned_stock *stock = &job->stock;
    check_gap(job);
    check_margin(job);
    if (stock->layout.along == 0 && fit_a_sheet(job, 1)) {
        return; /* the envelope is reported with its numbers */
    }
    if (stock->layout.along == 0) {
        bite_layout largest = largest_sheet(job);
        const bite_remark_value values[] = {bite_remark_number(job->length + 2.0 * stock->margin),
                                            bite_remark_number(job->width + 2.0 * stock->margin),
                                            bite_remark_number(largest.length),
                                            bite_remark_number(largest.width)};
        bite_plan_remark(job, BITE_REMARK_PARTS_DO_NOT_FIT, values, 4);
    } else if (stock->blanks > 1) {
        const bite_remark_value values[] = {
            bite_remark_number(stock->blanks), bite_remark_number(stock->on_each),
            bite_remark_number(stock->on_last),
            bite_remark_text(stock->split ? reason_of_split(job) : "")};
        bite_plan_remark(job, BITE_REMARK_SEVERAL_BLANKS, values, 4);
    }
}
