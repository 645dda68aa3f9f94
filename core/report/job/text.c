/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as plain text: verdict, stock, passes with what to type in, holding, fluids, time,
 * what to mind. */
#include "core/report/job/text.h"
#include "core/base/number.h"
#include "core/job/plan.h"
#include "core/job/plan_steps.h"
#include "core/report/cut_text.h"
#include "core/report/job/job.h"
#include "core/report/job/write.h"
#include "core/report/text_page.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const char *const words[] = {"not judged", "clear", "tight", "over"};
static const char *const shouts[] = {"NOT JUDGED", "CLEAR", "TIGHT", "OVER"};
static const char *const severities[] = {"", "note", "care", "DANGER"};

#define NUMBER 40
#define LINE                                                                                       \
    4000 /* a line of a job file has at most 1000 bytes, and two titles stand in one of ours */

static void length_text(bite_page *page, double si, char *to)
{
    bite_page_quantity(page, si, BITE_KIND_LENGTH, to, NUMBER);
}

/* Puts more behind what a line has, as much as goes in. */
static void add(char *line, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void add(char *line, const char *format, ...)
{
    size_t used = strlen(line);
    va_list list;
    va_start(list, format);
    (void)vsnprintf(line + used, LINE - used, format, list);
    va_end(list);
}

static void head(bite_page *page, const struct bite_job *job)
{
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    length_text(page, job->length, a);
    length_text(page, job->width, b);
    length_text(page, job->thickness, c);
    (void)snprintf(line, sizeof line, "%s: %.0f part%s of %s, %s x %s x %s", job->title, job->count,
                   job->count > 1.0 ? "s" : "", job->grade->record.name, a, b, c);
    bite_page_wrap(page, "", "  ", line);
    line[0] = 0;
    add(line, "%zu pass%s, %zu tool%s, %u setup%s", job->pass_count,
        job->pass_count > 1 ? "es" : "", job->tool_count, job->tool_count > 1 ? "s" : "",
        job->setups, job->setups > 1 ? "s" : "");
    if (!isnan(job->chance)) {
        add(line, "; chance that something goes over in one of them: %.0f %%", 100.0 * job->chance);
    }
    char shout[20];
    (void)snprintf(shout, sizeof shout, "%s  ", shouts[job->verdict]);
    bite_page_wrap_tinted(page, (int)job->verdict, shout, "  ", line);
}

static void stock(bite_page *page, const struct bite_job *job)
{
    const bite_planned_stock *stock = &job->stock;
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    char d[NUMBER];
    length_text(page, stock->nominal, a);
    length_text(page, stock->thin, b);
    length_text(page, stock->thick, c);
    length_text(page, stock->needed, d);
    (void)snprintf(line, sizeof line, "%s%s sheet%s, %s to %s as it may come; %s is needed", a,
                   stock->chosen ? "*" : "", stock->measured ? ", measured" : "", b, c, d);
    bite_page_wrap(page, "Stock    ", "  ", line);
    length_text(page, stock->removal.thick_top, a);
    length_text(page, stock->removal.thick_below, b);
    length_text(page, stock->removal.thin_top, c);
    length_text(page, stock->removal.thin_below, d);
    (void)snprintf(
        line, sizeof line,
        "off the top %s, off the bottom %s where the sheet is thick; %s and %s where it is thin", a,
        b, c, d);
    if (stock->removal.thick_top + stock->removal.thick_below > 0.0) {
        bite_page_wrap(page, "Faces    ", "  ", line);
    }
    if (stock->layout.along > 0) {
        length_text(page, stock->layout.length, a);
        length_text(page, stock->layout.width, b);
        length_text(page, stock->gap, c);
        length_text(page, stock->margin, d);
        line[0] = 0;
        add(line, "%s x %s, %u x %u parts%s, %s apart, %s to the edge", a, b, stock->layout.along,
            stock->layout.rows, stock->layout.turned ? " turned" : "", c, d);
        if (stock->yield > 0) {
            add(line, "; the whole sheet yields %u", stock->yield);
        }
        bite_page_wrap(page, "Blank    ", "  ", line);
    }
}

static void warp(bite_page *page, const struct bite_job *job)
{
    const bite_planned_warp *warp = &job->warp;
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    if (warp->limit.applies) {
        length_text(page, warp->limit.demand, a);
        length_text(page, warp->limit.capacity, b);
        (void)snprintf(line, sizeof line, "bow %s of %s flatness, %s", a, b,
                       words[warp->limit.verdict]);
        bite_page_wrap(page, "Warp     ", "  ", line);
    } else if (warp->one_sided > 1e-6) {
        length_text(page, warp->one_sided, a);
        length_text(page, warp->as_planned, b);
        length_text(page, warp->warmth, c);
        (void)snprintf(
            line, sizeof line,
            "bow %s if all came off one face, %s as planned; %s while one face is 5 K warmer", a, b,
            c);
        bite_page_wrap(page, "Warp     ", "  ", line);
    }
    if (warp->coupon > 0.0) {
        length_text(page, warp->coupon_cut, a);
        length_text(page, warp->coupon, b);
        length_text(page, 0.1, c);
        (void)snprintf(line, sizeof line,
                       "skim %s off one face of a strip of this sheet %s long: a bow of %s is what "
                       "was reckoned with; more, "
                       "and the stress "
                       "is higher in proportion (skin_stress)",
                       a, c, b);
        bite_page_wrap(page, "Coupon   ", "  ", line);
    }
}

static void anneal(bite_page *page, const struct bite_job *job)
{
    if (job->warp.anneal[0] != 0) {
        bite_page_wrap(page, job->annealed ? "Anneal   " : "Anneal?  ", "  ", job->warp.anneal);
    }
}

/* One pass on two lines: what and with what, then what to type in and how it is judged. */
static void pass_lines(bite_page *page, const struct bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_planned_tool *tool = &job->tools[pass->tool];
    const bite_result *result = &pass->answer->result;
    const bite_cut *cut = &pass->answer->full;
    char line[LINE];
    char first[60];
    char spindle[NUMBER];
    char feed[NUMBER];
    char depth[NUMBER];
    char width[NUMBER];
    char time[NUMBER];
    bite_page_quantity(page, cut->spindle_speed, BITE_KIND_ROTATION, spindle, sizeof spindle);
    bite_page_quantity(page, cut->feed_rate, BITE_KIND_SPEED, feed, sizeof feed);
    length_text(page, cut->depth, depth);
    length_text(page, cut->width, width);
    (void)bite_plan_duration(pass->seconds, time, sizeof time);
    (void)snprintf(first, sizeof first, "%2zu %s%s%u  ", index + 1, job->setups > 1 ? "setup " : "",
                   "", pass->setup);
    if (job->setups < 2) {
        (void)snprintf(first, sizeof first, "%2zu  ", index + 1);
    }
    line[0] = 0;
    add(line, "%s (%s, tool %s): spindle %s, feed %s, %u x %s deep", pass->title,
        bite_work_word(pass->work), tool->name, spindle, feed, pass->passes, depth);
    if (pass->work != BITE_WORK_DRILL &&
        pass->work != BITE_WORK_CHAMFER) { /* a hole has no width, a chamfer its depth's */
        add(line, ", %s%s", isnan(cut->width) ? "full slot" : "width ",
            isnan(cut->width) ? "" : width);
    }
    add(line, "%s", pass->chosen ? "" : ", as given");
    bite_page_wrap_tinted(page, 4, first, "    ", line);
    char chance[24];
    double percent = 100.0 * result->chance;
    (void)bite_number_write(percent < 9.95 ? percent : round(percent), percent < 9.95 ? 2 : 3,
                            chance, sizeof chance);
    uint32_t foremost = bite_job_worst_limit(result);
    char advised[80];
    bite_advisory_text(result, advised, sizeof advised);
    (void)snprintf(line, sizeof line, "%s%s%s%s, foremost %s %.0f %%%s; %s", words[result->verdict],
                   isnan(result->chance) ? "" : " ", isnan(result->chance) ? "" : chance,
                   isnan(result->chance) ? "" : " %", bite_limit_name((bite_limit_id)foremost),
                   100.0 * result->limits[foremost].utilization, advised, time);
    bite_page_wrap(page, "      ", "      ", line);
}

static void tools(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->tool_count; i++) {
        const bite_planned_tool *tool = &job->tools[i];
        char line[LINE];
        char first[40];
        char a[NUMBER];
        char b[NUMBER];
        length_text(page, tool->diameter, a);
        length_text(page, tool->stickout, b);
        (void)snprintf(first, sizeof first, "Tool %-3u ", tool->place);
        (void)snprintf(line, sizeof line, "%s: %s, %s, %.0f flute%s, stick-out %s; %s%s%s",
                       tool->name, tool->kind, a, tool->flutes, tool->flutes > 1.0 ? "s" : "", b,
                       tool->why, tool->better[0] == 0 ? "" : "; ", tool->better);
        bite_page_wrap(page, first, "  ", line);
    }
}

static void hold(bite_page *page, const struct bite_job *job)
{
    const bite_planned_hold *hold = &job->hold;
    char line[LINE] = "";
    char a[NUMBER];
    char b[NUMBER];
    if (hold->hold == NULL) {
        return;
    }
    add(line, "%s%s", hold->hold->title, hold->refused ? ", REFUSED" : "");
    if (hold->weakest >= 0 && hold->layer_count > 1) {
        add(line, "; weakest layer %s", hold->layers[hold->weakest]->title);
    }
    if (!isnan(hold->utilization) && hold->worst_pass >= 0) {
        add(line, "; worst in %s: %.0f %% of what it bears with a factor of %.0f",
            job->passes[hold->worst_pass].title, 100.0 * hold->utilization, hold->safety);
    }
    if (!isnan(hold->utilization) && hold->worst_pass < 0) {
        add(line, "; the plate: %.0f %% of what buckles it with a factor of %.0f",
            100.0 * hold->utilization, hold->safety);
    }
    if (!isnan(hold->tape)) {
        length_text(page, hold->break_through, a);
        length_text(page, hold->tape, b);
        add(line, "; cut through by %s into tape of %s", a, b);
    }
    bite_page_wrap(page, "Hold     ", "  ", line);
    for (size_t i = 0; i < hold->mounting_count; i++) {
        bite_page_wrap(page, i == 0 ? "  on   [ ] " : "       [ ] ", "           ",
                       hold->mounting[i]);
    }
    for (size_t i = 0; i < hold->release_count; i++) {
        bite_page_wrap(page, i == 0 ? "  off  [ ] " : "       [ ] ", "           ",
                       hold->release[i]);
    }
}

static void fluids(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->fluid_count; i++) {
        const bite_fluid_rating *result = &job->fluids[i];
        char line[LINE];
        (void)snprintf(line, sizeof line, "%s as %s: %s%s%s%s", result->fluid->title,
                       job->fluid_uses[i], bite_rating_name(result->rating),
                       result->says[0] == 0 ? "" : "; ", result->says,
                       result->other == BITE_RATED_UNKNOWN || result->other == result->rating
                           ? ""
                           : "; another source says otherwise");
        bite_page_wrap(page, "Fluid    ", "  ", line);
    }
}

static void times(bite_page *page, const struct bite_job *job)
{
    const bite_planned_time *time = &job->time;
    char line[LINE];
    char t[7][NUMBER];
    const double all[] = {time->whole,   time->cutting, time->feed_only, time->ways,
                          time->changes, time->loading, time->release};
    for (size_t i = 0; i < 7; i++) {
        (void)bite_plan_duration(all[i], t[i], sizeof t[i]);
    }
    (void)snprintf(line, sizeof line,
                   "%s: in the cut %s (by feed alone %s), ways in and over %s, %u tool change%s "
                   "and spindle %s, putting on %s, "
                   "taking off and cleaning %s",
                   t[0], t[1], t[2], t[3], time->tool_changes, time->tool_changes == 1 ? "" : "s",
                   t[4], t[5], t[6]);
    bite_page_wrap(page, "Time     ", "  ", line);
    if (!isnan(time->corrected)) {
        (void)bite_plan_duration(time->corrected, t[0], sizeof t[0]);
        (void)snprintf(line, sizeof line, "%s by %u of this shop's own times", t[0], time->records);
        bite_page_wrap(page, "         ", "  ", line);
    }
}

static void checks(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->check_count; i++) {
        const bite_planned_check *check = &job->checks[i];
        char line[LINE];
        char a[NUMBER];
        char b[NUMBER];
        length_text(page, check->nominal, a);
        length_text(page, check->tolerance, b);
        (void)snprintf(line, sizeof line, "%s%s%s%s%s%s%s%s%s", check->what,
                       isnan(check->nominal) || check->nominal <= 0.0 ? "" : " ",
                       isnan(check->nominal) || check->nominal <= 0.0 ? "" : a,
                       isnan(check->tolerance) ? ""
                       : page->ascii           ? " +-"
                                               : " \xc2\xb1",
                       isnan(check->tolerance) ? "" : b, check->with[0] == 0 ? "" : ", ",
                       check->with, check->note[0] == 0 ? "" : "; ", check->note);
        bite_page_wrap(page, "Measure  ", "  ", line);
    }
}

static void remarks(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        const bite_remark *remark = &job->remarks[i];
        char first[20];
        if (remark->severity == 0) {
            bite_page_wrap(page, "told: ", "  ", remark->text);
            continue;
        }
        (void)snprintf(first, sizeof first, "%s: ", severities[remark->severity]);
        bite_page_wrap_tinted(page,
                              remark->severity == BITE_DANGER ? 3
                              : remark->severity == BITE_CARE ? 2
                                                              : 0,
                              first, "  ", remark->text);
    }
}

bite_status bite_job_text(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error)
{
    bite_page page;
    bite_style own = *style;
    own.units = (uint32_t)job->units;
    if (!bite_page_open(&page, &own, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    head(&page, job);
    stock(&page, job);
    warp(&page, job);
    anneal(&page, job);
    for (size_t i = 0; i < job->pass_count; i++) {
        pass_lines(&page, job, i);
    }
    tools(&page, job);
    hold(&page, job);
    fluids(&page, job);
    times(&page, job);
    checks(&page, job);
    remarks(&page, job);
    return bite_page_close(&page, error);
}
