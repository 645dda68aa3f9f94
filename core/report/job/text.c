/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as plain text: verdict, stock, passes with what to type in, holding, fluids, time, what to mind. */
#include "core/base/number.h"
#include "core/job/plan_steps.h"
#include "core/report/cut.h"
#include "core/report/job/job.h"
#include "core/report/text_page.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const char *const words[] = {"not judged", "clear", "tight", "over"};
static const char *const shouts[] = {"NOT JUDGED", "CLEAR", "TIGHT", "OVER"};
static const char *const severities[] = {"", "note", "care", "DANGER"};

#define NUMBER 40
#define LINE 4000 /* a line of a job file has at most 1000 bytes, and two titles stand in one of ours */

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
    (void)snprintf(line, sizeof line, "%s: %.0f part%s of %s, %s x %s x %s", job->title, job->count, job->count > 1.0 ? "s" : "",
                   job->grade->record.name, a, b, c);
    bite_page_wrap(page, "", "  ", line);
    line[0] = 0;
    add(line, "%zu pass%s, %zu tool%s, %u setup%s", job->pass_count, job->pass_count > 1 ? "es" : "", job->tool_count,
        job->tool_count > 1 ? "s" : "", job->setups, job->setups > 1 ? "s" : "");
    if (!isnan(job->chance)) {
        add(line, "; chance that something goes over in one of them: %.0f %%", 100.0 * job->chance);
    }
    char shout[20];
    (void)snprintf(shout, sizeof shout, "%s  ", shouts[job->verdict]);
    bite_page_wrap_tinted(page, (int)job->verdict, shout, "  ", line);
}

static void stock(bite_page *page, const struct bite_job *job)
{
    const bite_planned_stock *of = &job->stock;
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    char d[NUMBER];
    length_text(page, of->nominal, a);
    length_text(page, of->thin, b);
    length_text(page, of->thick, c);
    length_text(page, of->needed, d);
    (void)snprintf(line, sizeof line, "%s%s sheet%s, %s to %s as it may come; %s is needed", a, of->chosen ? "*" : "",
                   of->measured ? ", measured" : "", b, c, d);
    bite_page_wrap(page, "Stock    ", "  ", line);
    length_text(page, of->removal.thick_top, a);
    length_text(page, of->removal.thick_below, b);
    length_text(page, of->removal.thin_top, c);
    length_text(page, of->removal.thin_below, d);
    (void)snprintf(line, sizeof line, "off the top %s, off the bottom %s where the sheet is thick; %s and %s where it is thin", a,
                   b, c, d);
    if (of->removal.thick_top + of->removal.thick_below > 0.0) {
        bite_page_wrap(page, "Faces    ", "  ", line);
    }
    if (of->layout.along > 0) {
        length_text(page, of->layout.length, a);
        length_text(page, of->layout.width, b);
        length_text(page, of->gap, c);
        length_text(page, of->margin, d);
        line[0] = 0;
        add(line, "%s x %s, %u x %u parts%s, %s apart, %s to the edge", a, b, of->layout.along, of->layout.rows,
            of->layout.turned ? " turned" : "", c, d);
        if (of->yield > 0) {
            add(line, "; the whole sheet yields %u", of->yield);
        }
        bite_page_wrap(page, "Blank    ", "  ", line);
    }
}

static void warp(bite_page *page, const struct bite_job *job)
{
    const bite_planned_warp *of = &job->warp;
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    if (of->limit.applies) {
        length_text(page, of->limit.demand, a);
        length_text(page, of->limit.capacity, b);
        (void)snprintf(line, sizeof line, "bow %s of %s flatness, %s", a, b, words[of->limit.verdict]);
        bite_page_wrap(page, "Warp     ", "  ", line);
    } else if (of->one_sided > 1e-6) {
        length_text(page, of->one_sided, a);
        length_text(page, of->as_planned, b);
        length_text(page, of->warmth, c);
        (void)snprintf(line, sizeof line, "bow %s if all came off one face, %s as planned; %s while one face is 5 K warmer", a, b,
                       c);
        bite_page_wrap(page, "Warp     ", "  ", line);
    }
    if (of->coupon > 0.0) {
        length_text(page, of->coupon_cut, a);
        length_text(page, of->coupon, b);
        length_text(page, 0.1, c);
        (void)snprintf(line, sizeof line,
                       "skim %s off one face of a strip of this sheet %s long: a bow of %s is what was reckoned with; more, "
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
static void pass_lines(bite_page *page, const struct bite_job *job, size_t place)
{
    const bite_planned_pass *pass = &job->passes[place];
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
    (void)bite_plan_clock(pass->seconds, time, sizeof time);
    (void)snprintf(first, sizeof first, "%2zu %s%s%u  ", place + 1, job->setups > 1 ? "setup " : "", "", pass->setup);
    if (job->setups < 2) {
        (void)snprintf(first, sizeof first, "%2zu  ", place + 1);
    }
    line[0] = 0;
    add(line, "%s (%s, tool %s): spindle %s, feed %s, %u x %s deep", pass->title, bite_work_word(pass->work), tool->name, spindle,
        feed, pass->passes, depth);
    if (pass->work != BITE_WORK_DRILL && pass->work != BITE_WORK_CHAMFER) { /* a hole has no width, a chamfer its depth's */
        add(line, ", %s%s", isnan(cut->width) ? "full slot" : "width ", isnan(cut->width) ? "" : width);
    }
    add(line, "%s", pass->chosen ? "" : ", as given");
    bite_page_wrap_tinted(page, 4, first, "    ", line);
    char chance[24];
    double percent = 100.0 * result->chance;
    (void)bite_number_write(percent < 9.95 ? percent : round(percent), percent < 9.95 ? 2 : 3, chance, sizeof chance);
    uint32_t foremost = bite_job_worst_limit(result);
    char advised[80];
    bite_advice_text(result, advised, sizeof advised);
    (void)snprintf(line, sizeof line, "%s%s%s%s, foremost %s %.0f %%%s; %s", words[result->verdict],
                   isnan(result->chance) ? "" : " ", isnan(result->chance) ? "" : chance, isnan(result->chance) ? "" : " %",
                   bite_limit_name((bite_limit_id)foremost), 100.0 * result->limits[foremost].utilization, advised, time);
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
        (void)snprintf(line, sizeof line, "%s: %s, %s, %.0f flute%s, stick-out %s; %s%s%s", tool->name, tool->kind, a, tool->flutes,
                       tool->flutes > 1.0 ? "s" : "", b, tool->why, tool->better[0] == 0 ? "" : "; ", tool->better);
        bite_page_wrap(page, first, "  ", line);
    }
}

static void hold(bite_page *page, const struct bite_job *job)
{
    const bite_planned_hold *of = &job->hold;
    char line[LINE] = "";
    char a[NUMBER];
    char b[NUMBER];
    if (of->hold == NULL) {
        return;
    }
    add(line, "%s%s", of->hold->title, of->refused ? ", REFUSED" : "");
    if (of->weakest >= 0 && of->layer_count > 1) {
        add(line, "; weakest layer %s", of->layers[of->weakest]->title);
    }
    if (!isnan(of->utilization) && of->worst_pass >= 0) {
        add(line, "; worst in %s: %.0f %% of what it bears with a factor of %.0f", job->passes[of->worst_pass].title,
            100.0 * of->utilization, of->safety);
    }
    if (!isnan(of->utilization) && of->worst_pass < 0) {
        add(line, "; the plate: %.0f %% of what buckles it with a factor of %.0f", 100.0 * of->utilization, of->safety);
    }
    if (!isnan(of->tape)) {
        length_text(page, of->break_through, a);
        length_text(page, of->tape, b);
        add(line, "; cut through by %s into tape of %s", a, b);
    }
    bite_page_wrap(page, "Hold     ", "  ", line);
    for (size_t i = 0; i < of->put_on_count; i++) {
        bite_page_wrap(page, i == 0 ? "  on   [ ] " : "       [ ] ", "           ", of->put_on[i]);
    }
    for (size_t i = 0; i < of->release_count; i++) {
        bite_page_wrap(page, i == 0 ? "  off  [ ] " : "       [ ] ", "           ", of->release[i]);
    }
}

static void fluids(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->fluid_count; i++) {
        const bite_fluid_judged *of = &job->fluids[i];
        char line[LINE];
        (void)snprintf(line, sizeof line, "%s as %s: %s%s%s%s", of->fluid->title, job->fluid_uses[i], bite_rating_name(of->rating),
                       of->says[0] == 0 ? "" : "; ", of->says,
                       of->other == BITE_RATED_UNKNOWN || of->other == of->rating ? "" : "; another source says otherwise");
        bite_page_wrap(page, "Fluid    ", "  ", line);
    }
}

static void times(bite_page *page, const struct bite_job *job)
{
    const bite_planned_time *of = &job->time;
    char line[LINE];
    char t[7][NUMBER];
    const double all[] = {of->whole, of->cutting, of->feed_only, of->ways, of->changes, of->loading, of->release};
    for (size_t i = 0; i < 7; i++) {
        (void)bite_plan_clock(all[i], t[i], sizeof t[i]);
    }
    (void)snprintf(line, sizeof line,
                   "%s: in the cut %s (by feed alone %s), ways in and over %s, %u tool change%s and spindle %s, putting on %s, "
                   "taking off and cleaning %s",
                   t[0], t[1], t[2], t[3], of->tool_changes, of->tool_changes == 1 ? "" : "s", t[4], t[5], t[6]);
    bite_page_wrap(page, "Time     ", "  ", line);
    if (!isnan(of->corrected)) {
        (void)bite_plan_clock(of->corrected, t[0], sizeof t[0]);
        (void)snprintf(line, sizeof line, "%s by %u of this shop's own times", t[0], of->records);
        bite_page_wrap(page, "         ", "  ", line);
    }
}

static void checks(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->check_count; i++) {
        const bite_planned_check *of = &job->checks[i];
        char line[LINE];
        char a[NUMBER];
        char b[NUMBER];
        length_text(page, of->nominal, a);
        length_text(page, of->tolerance, b);
        (void)snprintf(line, sizeof line, "%s%s%s%s%s%s%s%s%s", of->what, isnan(of->nominal) || of->nominal <= 0.0 ? "" : " ",
                       isnan(of->nominal) || of->nominal <= 0.0 ? "" : a,
                       isnan(of->tolerance) ? ""
                       : page->ascii        ? " +-"
                                            : " \xc2\xb1",
                       isnan(of->tolerance) ? "" : b, of->with[0] == 0 ? "" : ", ", of->with, of->note[0] == 0 ? "" : "; ",
                       of->note);
        bite_page_wrap(page, "Measure  ", "  ", line);
    }
}

static void remarks(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        const bite_remark *of = &job->remarks[i];
        char first[20];
        if (of->severity == 0) {
            bite_page_wrap(page, "told: ", "  ", of->text);
            continue;
        }
        (void)snprintf(first, sizeof first, "%s: ", severities[of->severity]);
        bite_page_wrap_tinted(page, of->severity == BITE_DANGER ? 3 : of->severity == BITE_CARE ? 2 : 0, first, "  ", of->text);
    }
}

bite_status bite_job_text(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error)
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
