/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as plain text: verdict, stock, passes with what to enter, workholding, fluids,
 * time, remarks. */
#include "core/report/job/text.h"
#include "core/base/number.h"
#include "core/job/datum_plan.h"
#include "core/job/foremost_limit.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file_schema.h"
#include "core/job/plan_text.h"
#include "core/job/thread_plan.h"
#include "core/library/material.h"
#include "core/report/cut_text.h"
#include "core/report/job/check_text.h"
#include "core/report/job/clearance_text.h"
#include "core/report/job/path_text.h"
#include "core/report/job/remark_text.h"
#include "core/report/style_check.h"
#include "core/report/text_page.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const char *const words[] = {"not judged", "clear", "tight", "over", "unknown"};
static const char *const capitals[] = {"NOT JUDGED", "CLEAR", "TIGHT", "OVER", "UNKNOWN"};
static const char *const severities[] = {"info", "note", "caution", "DANGER"};

#define NUMBER 40
#define LINE                                                                                       \
    4000 /* a line of a job file has at most 1000 bytes, and a line here contains two titles */

static void length_text(bite_page *page, double si, char *to)
{
    bite_page_quantity(page, si, BITE_KIND_LENGTH, to, NUMBER);
}

/* Appends to a line as much as fits. */
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
        add(line, "; chance that a limit is exceeded in one of them: %.0f %%", 100.0 * job->chance);
    }
    char capital[20];
    (void)snprintf(capital, sizeof capital, "%s  ", capitals[job->verdict]);
    bite_page_wrap_tinted(page, job->verdict == BITE_UNKNOWN ? BITE_TIGHT : (int)job->verdict,
                          capital, "  ", line);
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
    line[0] = 0;
    if (stock->measured) {
        add(line, "%s sheet, measured: %s to %s; %s is needed", a, b, c, d);
    } else {
        add(line, "%s sheet%s, %s to %s as supplied; %s is needed", a,
            stock->chosen ? " (selected)" : "", b, c, d);
    }
    bite_page_wrap(page, "Stock    ", "  ", line);
    length_text(page, stock->removal.thick_top, a);
    length_text(page, stock->removal.thick_below, b);
    length_text(page, stock->removal.thin_top, c);
    length_text(page, stock->removal.thin_below, d);
    (void)snprintf(
        line, sizeof line,
        "take %s off the top and %s off the bottom where the sheet is thickest; %s and %s where it "
        "is thinnest",
        a, b, c, d);
    if (stock->removal.thick_top + stock->removal.thick_below > 0.0) {
        bite_page_wrap(page, "Faces    ", "  ", line);
    }
    if (stock->layout.along > 0) {
        length_text(page, stock->layout.length, a);
        length_text(page, stock->layout.width, b);
        length_text(page, stock->gap, c);
        length_text(page, stock->margin, d);
        line[0] = 0;
        if (stock->blanks > 1) {
            add(line, "%u of ", stock->blanks);
        }
        add(line, "%s x %s, %u x %u parts%s, %s apart, %s to the edge", a, b, stock->layout.along,
            stock->layout.rows, stock->layout.turned ? ", turned" : "", c, d);
        if (stock->yield > 0) {
            add(line, "; a whole sheet yields %u parts", stock->yield);
        } else if (stock->sheets > 0) {
            length_text(page, stock->sold_length, a);
            length_text(page, stock->sold_width, b);
            add(line, "; from %u sheet%s of %s x %s, as sold", stock->sheets,
                stock->sheets > 1 ? "s" : "", a, b);
        }
        bite_page_wrap(page, "Blank    ", "  ", line);
    }
}

static void datums(bite_page *page, const struct bite_job *job)
{
    for (uint32_t i = 0; i < job->setups && job->datums != NULL; i++) {
        const bite_planned_datum *datum = &job->datums[i];
        char line[LINE] = "";
        char top[NUMBER];
        char fixture[NUMBER];
        char tolerance[NUMBER];
        if (job->setups > 1) {
            add(line, "setup %u: ", datum->setup);
        }
        add(line, "%s", bite_datum_zero_title(datum));
        if (datum->pass >= 0) {
            length_text(page, datum->error_top, top);
            length_text(page, datum->error_fixture, fixture);
            length_text(page, datum->tolerance, tolerance);
            add(line,
                ": the %s of \"%s\" is then off by %s at most, and by %s from the other; "
                "tolerance %s",
                bite_datum_dimension_name(datum->dimension), job->passes[datum->pass].title,
                datum->on_fixture ? fixture : top, datum->on_fixture ? top : fixture, tolerance);
        }
        if (datum->pass < 0) {
            add(line, "; no dimension of the part depends on it");
        }
        bite_page_wrap(page, "Z zero   ", "  ", line);
    }
}

static void envelope(bite_page *page, const struct bite_job *job)
{
    const bite_planned_envelope *envelope = &job->envelope;
    char line[LINE];
    char has[3][NUMBER];
    char needs[3][NUMBER];
    if (envelope->machine == NULL || isnan(envelope->travel[0] + envelope->travel[1])) {
        return;
    }
    for (size_t i = 0; i < 3; i++) {
        length_text(page, envelope->travel[i], has[i]);
        length_text(page, envelope->needs[i], needs[i]);
    }
    (void)snprintf(line, sizeof line, "%s%s, travels %s, %s and %s; needed are %s, %s and %s",
                   envelope->machine->name, envelope->stated ? "" : " (assumed)", has[0], has[1],
                   has[2], needs[0], needs[1], needs[2]);
    bite_page_wrap(page, "Machine  ", "  ", line);
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
        (void)snprintf(line, sizeof line, "bow of %s, flatness limit %s: %s", a, b,
                       words[warp->limit.verdict]);
        bite_page_wrap(page, "Warp     ", "  ", line);
    } else if (warp->one_sided > 1e-6) {
        length_text(page, warp->one_sided, a);
        length_text(page, warp->as_planned, b);
        length_text(page, warp->warmth, c);
        (void)snprintf(
            line, sizeof line,
            "bow of %s if everything came off one face, %s as planned; %s while one face is 5 K "
            "warmer",
            a, b, c);
        bite_page_wrap(page, "Warp     ", "  ", line);
    }
    if (warp->coupon > 0.0) {
        length_text(page, warp->coupon_cut, a);
        length_text(page, warp->coupon, b);
        length_text(page, 0.1, c);
        (void)snprintf(
            line, sizeof line,
            "to check the assumed stress, skim %s off one face of a strip of this sheet %s "
            "long: at that stress it bows by %s. If it bows more, the stress is higher in "
            "proportion (skin_stress)",
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

/* A chance in percent, with two digits if it is small. */
static const char *percent_of(double chance, char text[24])
{
    double percent = 100.0 * chance;
    (void)bite_number_write(percent < 9.95 ? percent : round(percent), percent < 9.95 ? 2 : 3, text,
                            24);
    return text;
}

/* One pass on two lines: work, tool and what to enter; then verdict, foremost limit and time. */
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
    char steps[120];
    char width[NUMBER];
    char time[NUMBER];
    char entry[BITE_PATH_TEXT_MAX];
    char path[BITE_PATH_TEXT_MAX];
    bite_page_quantity(page, cut->spindle_speed, BITE_KIND_ROTATION, spindle, sizeof spindle);
    bite_page_quantity(page, bite_plan_enter_feed(pass), BITE_KIND_SPEED, feed, sizeof feed);
    length_text(page, cut->width, width);
    (void)bite_plan_duration(pass->seconds, time, sizeof time);
    (void)snprintf(first, sizeof first, "%2zu %s%s%u  ", index + 1, job->setups > 1 ? "setup " : "",
                   "", pass->setup);
    if (job->setups < 2) {
        (void)snprintf(first, sizeof first, "%2zu  ", index + 1);
    }
    line[0] = 0;
    add(line, "%s (%s, tool %s). Enter spindle %s, feed %s; %s", pass->title,
        bite_work_word(pass->work), tool->name, spindle, feed,
        bite_steps_text(page, pass, steps, sizeof steps));
    if (!bite_work_is_hole(pass->work) &&
        pass->work !=
            BITE_WORK_CHAMFER) { /* a hole has no width, and that of a chamfer is its depth */
        add(line, ", %s%s", isnan(cut->width) ? "full slot" : "width ",
            isnan(cut->width) ? "" : width);
    }
    if (pass->springs > 0) {
        add(line, "; then %u spring pass%s", pass->springs, pass->springs > 1 ? "es" : "");
    }
    add(line, "%s", pass->chosen ? "" : "; as stated in the job file");
    add(line, "%s", pass->support.kind > 0 ? "; with the floor supported" : "");
    bite_page_wrap_tinted(page, 4, first, "    ", line);
    (void)bite_plan_entry_text(page, pass, entry, sizeof entry);
    (void)(bite_work_is_hole(pass->work) ? bite_hole_text(page, pass, path, sizeof path)
                                         : bite_path_text(page, pass, path, sizeof path));
    (void)snprintf(line, sizeof line, "%s%s%s", entry, entry[0] != 0 && path[0] != 0 ? "; " : "",
                   path);
    if (line[0] != 0) {
        bite_page_wrap_tinted(page, 4, "      ", "      ", line);
    }
    if (bite_ways_text(pass, path, sizeof path)[0] != 0) {
        bite_page_wrap(page, "      ", "      ", path);
    }
    char clearance[BITE_CLEARANCE_TEXT_MAX];
    if (bite_clearance_text(page, pass, clearance)[0] != 0) {
        bite_page_wrap(page, "      clearance: ", "      ", clearance);
    }
    char percent[24];
    double chance = (double)NAN;
    uint32_t foremost = bite_foremost_limit(result, &chance);
    const char *limit = bite_cut_limit_name(&pass->answer->full, (bite_limit_id)foremost);
    char advised[80];
    bite_advisory_text(pass->answer, advised, sizeof advised);
    line[0] = 0;
    add(line, "%s", words[result->verdict]);
    if (!isnan(result->chance)) {
        add(line, ", %s %% chance", percent_of(result->chance, percent));
    }
    if (isnan(chance)) {
        add(line, "; closest limit %s, %.0f %% used", limit,
            100.0 * result->limits[foremost].utilization);
    } else {
        add(line, "; likeliest limit %s, %s %%", limit, percent_of(chance, percent));
    }
    add(line, "%s; time %s", advised, time);
    if (pass->pause_seconds > 0.0) {
        (void)bite_plan_duration(pass->pause_seconds, time, sizeof time);
        add(line, ", %s of it pauses", time);
    }
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

/* "2 to 5": the passes of a setup, which follow each other. */
static void passes_of(const struct bite_job *job, uint32_t setup, char *to, size_t size)
{
    size_t first = 0;
    size_t last = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].setup == setup) {
            first = first == 0 ? i + 1 : first;
            last = i + 1;
        }
    }
    if (first == last) {
        (void)snprintf(to, size, "pass %zu", first);
    } else {
        (void)snprintf(to, size, "passes %zu to %zu", first, last);
    }
}

/* Which face is up, where zero is, and the passes of a setup. */
static void setup_lines(bite_page *page, const struct bite_job *job,
                        const bite_planned_setup *setup)
{
    char line[LINE] = "";
    char first[40];
    char at[NUMBER];
    (void)snprintf(first, sizeof first, "Setup %-2u ", setup->number);
    passes_of(job, setup->number, at, sizeof at);
    add(line, "%s up, %s", bite_side_word(setup->side), at);
    if (setup->mountings > 1) {
        add(line, "; each of the %u parts by itself", setup->mountings);
    } else if (setup->separate && job->count > 1.0) {
        add(line, "; the parts side by side");
    }
    if (setup->datum_xy[0] != 0) {
        add(line, "; X and Y zero: %s", bite_datum_title(setup->datum_xy));
    } else {
        add(line, "; X and Y zero not stated");
    }
    if (setup->note[0] != 0) {
        add(line, "; %s", setup->note);
    }
    bite_page_wrap(page, first, "  ", line);
}

static void hold(bite_page *page, const struct bite_job *job, const bite_planned_hold *hold)
{
    char line[LINE] = "";
    char a[NUMBER];
    char b[NUMBER];
    if (hold->hold == NULL) {
        return;
    }
    add(line, "%s%s", hold->hold->title,
        hold->refused ? ", NO: must not be used on this part" : "");
    if (hold->weakest >= 0 && hold->layer_count > 1) {
        add(line, "; weakest layer %s", hold->layers[hold->weakest]->title);
    }
    if (!isnan(hold->utilization) && hold->worst_pass >= 0) {
        add(line, "; hardest pass \"%s\": %.0f %% of the capacity used",
            job->passes[hold->worst_pass].title, 100.0 * hold->utilization);
    } else if (!isnan(hold->utilization)) {
        add(line, "; the plate: %.0f %% of the buckling force used", 100.0 * hold->utilization);
    }
    if (!isnan(hold->chance)) {
        add(line, ", chance of failing %.0f %%", 100.0 * hold->chance);
    }
    if (!isnan(hold->tape)) {
        length_text(page, hold->break_through, a);
        length_text(page, hold->tape, b);
        add(line, "; the through cut ends %s into tape %s thick", a, b);
    }
    bite_page_wrap(page, "Hold     ", "  ", line);
    for (size_t i = 0; i < hold->mounting_count; i++) {
        bite_page_wrap(page, i == 0 ? "  mount   [ ] " : "          [ ] ", "              ",
                       hold->mounting[i]);
    }
    for (size_t i = 0; i < hold->release_count; i++) {
        bite_page_wrap(page, i == 0 ? "  release [ ] " : "          [ ] ", "              ",
                       hold->release[i]);
    }
}

static void setups(bite_page *page, const struct bite_job *job)
{
    if (job->setup_plan == NULL) {
        hold(page, job, &job->hold);
        return;
    }
    for (uint32_t i = 0; i < job->setups; i++) {
        const bite_planned_setup *setup = &job->setup_plan[i];
        if (job->setups > 1 || setup->section != NULL) {
            setup_lines(page, job, setup);
        }
        hold(page, job, &setup->hold);
    }
}

static void fluids(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->fluid_count; i++) {
        const bite_fluid_rating *result = &job->fluids[i];
        char line[LINE];
        int refused = result->rating == BITE_RATED_NO;
        (void)snprintf(
            line, sizeof line, "%s%s as %s%s%s%s%s%s%s%s", refused ? "NO: " : "",
            result->fluid->title, job->fluid_uses[i], refused ? "" : ": ",
            refused ? "" : bite_rating_name(result->rating), result->says[0] == 0 ? "" : "; ",
            result->says,
            result->other == BITE_RATED_UNKNOWN || result->other == result->rating
                ? ""
                : "; another source disagrees",
            job->fluid_instead[i][0] == 0 ? "" : "; safe instead: ", job->fluid_instead[i]);
        bite_page_wrap_tinted(page, refused ? BITE_OVER : 0, "Fluid    ", "  ", line);
    }
}

/* What the job takes beyond its laps at their programmed feeds, part by part. */
static void time_parts(const bite_planned_time *time, char *line)
{
    char changes[60];
    (void)snprintf(changes, sizeof changes, "for %u tool change%s by %s", time->tool_changes,
                   time->tool_changes == 1 ? "" : "s", time->tool_changer ? "the machine" : "hand");
    const struct {
        const char *what;
        double seconds;
    } parts[] = {{"acceleration and corners", time->cornering},
                 {"entries", time->entries},
                 {"approach and retract", time->air},
                 {"rapids", time->rapids},
                 {"pauses in which the part cools", time->pauses},
                 {changes, time->tool_changing},
                 {"spindle starts", time->spindle_starts},
                 {"setting zero", time->zeroing},
                 {"mounting", time->mounting},
                 {"cure", time->cure},
                 {"release", time->releasing},
                 {"soaking", time->soak},
                 {"cleaning and inspecting", time->cleaning}};
    char t[NUMBER];
    (void)bite_plan_duration(time->whole, t, sizeof t);
    add(line, "%s: ", t);
    (void)bite_plan_duration(time->feed_only, t, sizeof t);
    add(line, "feed alone %s", t);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (parts[i].seconds >= 0.5) {
            (void)bite_plan_duration(parts[i].seconds, t, sizeof t);
            add(line, "; +%s %s", t, parts[i].what);
        }
    }
}

static void time_shares(bite_page *page, const bite_planned_time *time)
{
    char line[LINE] = "";
    char t[NUMBER];
    (void)bite_plan_duration(time->hands, t, sizeof t);
    add(line, "of it %s of handwork", t);
    (void)bite_plan_duration(time->machine_alone, t, sizeof t);
    add(line, ", %s while the machine runs", t);
    if (time->waiting >= 0.5) {
        (void)bite_plan_duration(time->waiting, t, sizeof t);
        add(line, ", %s of waiting", t);
    }
    if (!isnan(time->overlapped)) {
        (void)bite_plan_duration(time->overlapped, t, sizeof t);
        add(line, "; with two plates, the next blank mounted meanwhile, one every %s", t);
    }
    bite_page_wrap(page, "         ", "  ", line);
}

static void times(bite_page *page, const struct bite_job *job)
{
    const bite_planned_time *time = &job->time;
    char line[LINE] = "";
    char t[NUMBER];
    time_parts(time, line);
    bite_page_wrap(page, "Time     ", "  ", line);
    time_shares(page, time);
    if (!isnan(time->corrected)) {
        (void)bite_plan_duration(time->corrected, t, sizeof t);
        (void)snprintf(line, sizeof line, "%s, corrected by %u of this shop's own times", t,
                       time->records);
        bite_page_wrap(page, "         ", "  ", line);
    }
}

static void checks(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->check_count; i++) {
        const bite_planned_check *check = &job->checks[i];
        char line[LINE];
        char nominal[NUMBER];
        char limits[BITE_CHECK_TEXT_MAX];
        char often[BITE_CHECK_TEXT_MAX];
        length_text(page, check->nominal, nominal);
        (void)bite_check_limits_text(page, check, limits);
        (void)bite_check_frequency_text(job, check, often);
        (void)snprintf(line, sizeof line, "%s%s%s%s%s%s%s%s%s%s%s", check->what,
                       check->nominal > 0.0 ? " " : "", check->nominal > 0.0 ? nominal : "",
                       limits[0] == 0 ? "" : " ", limits, check->with[0] == 0 ? "" : ", ",
                       check->with, often[0] == 0 ? "" : "; ", often,
                       check->note[0] == 0 ? "" : "; ", check->note);
        bite_page_wrap(page, "Measure  ", "  ", line);
    }
}

static void remarks(bite_page *page, const struct bite_job *job)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        const bite_remark *remark = &job->remarks[i];
        char first[20];
        char text[BITE_REMARK_TEXT_MAX];
        (void)snprintf(first, sizeof first, "%s: ", severities[remark->severity]);
        bite_page_wrap_tinted(page,
                              remark->severity == BITE_DANGER ? 3
                              : remark->severity == BITE_CARE ? 2
                                                              : 0,
                              first, "  ",
                              bite_remark_words(remark, job->units, text, sizeof text));
    }
}

bite_status bite_job_text(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error)
{
    bite_page page;
    bite_style own = bite_style_copy(style);
    own.units = (uint32_t)job->units;
    if (!bite_page_open(&page, &own, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    page.control = 1;
    head(&page, job);
    stock(&page, job);
    datums(&page, job);
    envelope(&page, job);
    warp(&page, job);
    anneal(&page, job);
    for (size_t i = 0; i < job->pass_count; i++) {
        pass_lines(&page, job, i);
    }
    tools(&page, job);
    setups(&page, job);
    fluids(&page, job);
    times(&page, job);
    checks(&page, job);
    remarks(&page, job);
    return bite_page_close(&page, error);
}
