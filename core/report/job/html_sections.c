/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a sheet that are words and tables: holding, stock, warp, fluids, checks, time,
 * remarks. */
#include "core/report/job/html_sections.h"
#include "core/base/number.h"
#include "core/report/job/html_drawings.h"
#include "core/report/job/html_setup.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static int has(const char *text)
{
    return text != NULL && text[0] != 0;
}

/* A table's row of a name and quantities of one kind. */
static void row_of(bite_job_html_page *html, const char *name, const double *values, size_t count,
                   bite_kind kind)
{
    bite_html_put(&html->page, "<tr><th scope=\"row\">%s</th>", name);
    for (size_t i = 0; i < count; i++) {
        bite_page_text(&html->page, "<td>");
        bite_html_figure(&html->page, values[i], kind);
        bite_page_text(&html->page, "</td>");
    }
    bite_page_text(&html->page, "</tr>\n");
}

/* A limit of the whole job: its verdict, and how much of its room it uses. */
static void limit_of(bite_job_html_page *html, const bite_limit *limit, const char *name)
{
    bite_page *page = &html->page;
    if (!limit->applies) {
        return;
    }
    bite_page_text(page, "<p>");
    bite_job_html_verdict(html, limit->verdict);
    bite_html_put(page, " %s: %s", name,
                  bite_html_quantity(page, limit->demand, BITE_KIND_LENGTH).text);
    bite_html_put(page, " of %s", bite_html_quantity(page, limit->capacity, BITE_KIND_LENGTH).text);
    if (!isnan(limit->chance)) {
        bite_html_put(page, "; chance that it goes over: %s",
                      bite_html_percent(limit->chance).text);
    }
    bite_page_text(page, ".</p>\n");
}

/* ---- holding ---- */

void bite_job_html_hold(bite_job_html_page *html, uint32_t setup)
{
    bite_page *page = &html->page;
    const bite_planned_hold *hold = &html->job->hold;
    bite_html_put(page, "<h3>On the fixture: %s</h3>\n",
                  hold->hold == NULL ? "not named in the job" : hold->hold->title);
    bite_job_html_draw_stack(html, setup);
}

void bite_job_html_hold_words(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const bite_planned_hold *hold = &html->job->hold;
    if (hold->hold == NULL) {
        return;
    }
    bite_page_text(page, "<p>");
    if (isnan(hold->utilization)) {
        bite_page_text(page, "How much of its hold the cuts use is not known");
    } else if (hold->worst_pass < 0) {
        bite_html_put(page, "The force uses <b>%s</b> of what buckles the plate",
                      bite_html_percent(hold->utilization).text);
    } else {
        bite_html_put(page, "The hardest cut uses <b>%s</b> of what it bears",
                      bite_html_percent(hold->utilization).text);
    }
    if (hold->worst_pass >= 0 && (size_t)hold->worst_pass < html->job->pass_count) {
        bite_html_put(page, " (pass %s)", bite_html_count((double)hold->worst_pass + 1.0).text);
    }
    if (isfinite(hold->safety)) {
        bite_html_put(page, ", %s times safety in it",
                      bite_html_quantity(page, hold->safety, BITE_KIND_NUMBER).text);
    }
    if (isfinite(hold->area)) {
        bite_html_put(page, "; %s under each part at the end",
                      bite_html_quantity(page, hold->area, BITE_KIND_AREA).text);
    }
    if (hold->weakest >= 0 && (size_t)hold->weakest < hold->layer_count &&
        hold->layers[hold->weakest] != NULL) {
        bite_html_put(page, "; weakest: %s", hold->layers[hold->weakest]->title);
    }
    if (isfinite(hold->cure)) {
        bite_html_put(page, "; cures in %s", bite_html_time(page, hold->cure).text);
    }
    bite_page_text(page, ".</p>\n");
}

static void steps(bite_page *page, const char *title, const char *const *texts, size_t count)
{
    if (count == 0) {
        return;
    }
    bite_html_put(page, "<h3>%s</h3>\n<ol class=\"ticks\">\n", title);
    for (size_t i = 0; i < count && i < BITE_STEPS_MAX; i++) {
        bite_html_put(page, "<li><span class=\"box\"></span><span>%s</span></li>\n", texts[i]);
    }
    bite_page_text(page, "</ol>\n");
}

void bite_job_html_steps(bite_job_html_page *html)
{
    const bite_planned_hold *hold = &html->job->hold;
    steps(&html->page, "Put on", hold->mounting, hold->mounting_count);
    steps(&html->page, "Release", hold->release, hold->release_count);
}

/* ---- stock and warp ---- */

static void sheet_words(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const bite_planned_stock *stock = &html->job->stock;
    bite_html_put(page, "<p>Of %s, <b>%s</b>",
                  stock->sheet == NULL ? "a sheet that no table has" : stock->sheet->title,
                  bite_html_quantity(page, stock->nominal, BITE_KIND_LENGTH).text);
    bite_html_put(page, " nominal%s",
                  stock->chosen ? ", the thinnest sold that is thick enough" : ", as the job asks");
    bite_html_put(page, "; &#177;%s as sold",
                  bite_html_quantity(page, stock->tolerance, BITE_KIND_LENGTH).text);
    bite_html_put(page, ", %s. ",
                  stock->measured ? "measured as below"
                                  : "not measured: the ends below are the worst that is sold");
    bite_html_put(page, "Needed: %s",
                  bite_html_quantity(page, stock->needed, BITE_KIND_LENGTH).text);
    bite_html_put(page, ", of it %s to clean both faces.",
                  bite_html_quantity(page, stock->skim, BITE_KIND_LENGTH).text);
    if (isfinite(stock->sheet_length) && isfinite(stock->sheet_width)) {
        bite_html_put(page, " A sheet of %s",
                      bite_html_quantity(page, stock->sheet_length, BITE_KIND_LENGTH).text);
        bite_html_put(page, " by %s",
                      bite_html_quantity(page, stock->sheet_width, BITE_KIND_LENGTH).text);
        bite_html_put(page, " yields %s.", bite_html_count(stock->yield).text);
    }
    bite_page_text(page, "</p>\n");
    if (has(stock->parting_text)) {
        bite_html_put(page, "<p>%s</p>\n", stock->parting_text);
    }
}

void bite_job_html_stock(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const bite_planned_stock *stock = &html->job->stock;
    const double sheet[] = {stock->thin, stock->thick};
    const double top[] = {stock->removal.thin_top, stock->removal.thick_top};
    const double below[] = {stock->removal.thin_below, stock->removal.thick_below};
    bite_page_text(page, "<h3>Stock</h3>\n");
    sheet_words(html);
    bite_page_text(page, "<table class=\"small-table\"><thead><tr><th scope=\"col\">Where the "
                         "sheet is</th><th scope=\"col\">thin</th>"
                         "<th scope=\"col\">thick</th></tr></thead>\n<tbody>\n");
    row_of(html, "it has", sheet, 2, BITE_KIND_LENGTH);
    row_of(html, "off the top face", top, 2, BITE_KIND_LENGTH);
    row_of(html, "off the face below", below, 2, BITE_KIND_LENGTH);
    bite_page_text(page, "</tbody></table>\n");
    limit_of(html, &stock->limit, "Stock thickness");
}

void bite_job_html_warp(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const bite_planned_warp *warp = &html->job->warp;
    const struct {
        const char *name;
        double bow;
    } bows[] = {{"if all came off one face", warp->one_sided},
                {"as planned, off both where it is thick", warp->as_planned},
                {"with one face 5 K warmer", warp->warmth}};
    bite_html_put(
        page,
        "<h3>Warp</h3>\n<table class=\"small-table\"><thead><tr><th scope=\"col\">Bow over %s</th>",
        bite_html_quantity(page, warp->span, BITE_KIND_LENGTH).text);
    bite_page_text(page, "<th scope=\"col\">once free</th></tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < sizeof bows / sizeof *bows; i++) {
        row_of(html, bows[i].name, &bows[i].bow, 1, BITE_KIND_LENGTH);
    }
    bite_page_text(page, "</tbody></table>\n");
    limit_of(html, &warp->limit, "Flatness");
    if (isfinite(warp->stress)) {
        bite_html_put(page, "<p>Taken: %s in the skins of the sheet. ",
                      bite_html_quantity(page, warp->stress, BITE_KIND_STRESS).text);
        bite_html_put(page, "To find out: take %s",
                      bite_html_quantity(page, warp->coupon_cut, BITE_KIND_LENGTH).text);
        bite_html_put(page, " off one face of a strip %s long",
                      bite_html_quantity(page, 0.1, BITE_KIND_LENGTH).text);
        bite_html_put(page, "; at that stress it bows by %s.</p>\n",
                      bite_html_quantity(page, warp->coupon, BITE_KIND_LENGTH).text);
    }
    if (has(warp->anneal)) {
        bite_html_put(page, "<p>Anneal: %s", warp->anneal);
        if (isfinite(warp->anneal_at)) {
            bite_html_put(page, " At %s.",
                          bite_html_quantity(page, warp->anneal_at, BITE_KIND_TEMPERATURE).text);
        }
        bite_page_text(page, "</p>\n");
    }
}

/* ---- fluids ---- */

static const char *const ratings[] = {"SAFE", "RISK", "NO", "NOT KNOWN"};
static const char *const rating_looks[] = {"verdict-word clear", "verdict-word tight",
                                           "verdict-word over", "verdict-word open"};

static void rating(bite_page *page, uint32_t rated)
{
    uint32_t limit = rated < sizeof ratings / sizeof *ratings ? rated : BITE_RATED_UNKNOWN;
    bite_html_put(page, "<strong class=\"%s\">%s</strong>", rating_looks[limit], ratings[limit]);
}

/* The last column is kept where some source speaks against another. */
static int sources_differ(const struct bite_job *job)
{
    for (size_t i = 0; i < job->fluid_count && i < BITE_FLUIDS_MAX; i++) {
        if (job->fluids[i].other != BITE_RATED_UNKNOWN) {
            return 1;
        }
    }
    return 0;
}

static void fluid_row(bite_job_html_page *html, size_t index, int with_other)
{
    bite_page *page = &html->page;
    const bite_fluid_rating *result = &html->job->fluids[index];
    bite_html_put(page, "<tr><th scope=\"row\">%s</th><td><b>%s</b></td><td>",
                  html->job->fluid_uses[index], result->fluid == NULL ? "-" : result->fluid->title);
    rating(page, result->rating);
    bite_html_put(page, "</td><td>%s", result->says);
    if (isfinite(result->watch)) {
        bite_html_put(page, "<small>Wait %s and look for crazes before it ships.</small>",
                      bite_html_time(page, result->watch).text);
    }
    bite_html_put(page, "<small class=\"source\">%s</small>", result->source);
    bite_page_text(page, with_other ? "</td><td>" : "");
    if (result->other != BITE_RATED_UNKNOWN) {
        rating(page, result->other);
        bite_html_put(page, "<small class=\"source\">%s</small>", result->other_source);
    }
    bite_page_text(page, "</td></tr>\n");
}

void bite_job_html_fluids(bite_job_html_page *html)
{
    static const char *const heads[] = {"Use", "Fluid", "Verdict", "What is said",
                                        "Another source"};
    int with_other = sources_differ(html->job);
    if (html->job->fluid_count == 0) {
        return;
    }
    bite_page_text(&html->page, "<h3>Fluids on this material</h3>\n<div class=\"wide\"><table "
                                "class=\"fluids\">\n<thead><tr>");
    bite_job_html_table_head(html, heads, with_other ? 5 : 4);
    bite_page_text(&html->page, "</tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < html->job->fluid_count && i < BITE_FLUIDS_MAX; i++) {
        fluid_row(html, i, with_other);
    }
    bite_page_text(&html->page, "</tbody></table></div>\n");
    bite_html_put(&html->page, "<p class=\"small\">Judged for a part that %s.</p>\n",
                  html->job->annealed ? "was annealed after machining"
                                      : "comes from the machine, its edges under stress");
}

/* ---- what to measure ---- */

#define READINGS_MOST 12 /* fields for readings of single parts; of more parts one field is kept   \
                          */

static void check_row(bite_job_html_page *html, const bite_planned_check *check)
{
    bite_page *page = &html->page;
    double fields =
        html->job->count > 1.0 && html->job->count <= READINGS_MOST ? html->job->count : 1.0;
    bite_html_put(page, "<tr><th scope=\"row\">%s", check->what);
    if (has(check->note)) {
        bite_html_put(page, "<small>%s</small>", check->note);
    }
    bite_page_text(page, "</th><td>");
    bite_html_figure(page, check->nominal, BITE_KIND_LENGTH);
    bite_page_text(page, isfinite(check->tolerance) ? "</td><td>&#177;" : "</td><td>");
    bite_html_figure(page, check->tolerance, BITE_KIND_LENGTH);
    bite_html_put(page, "</td><td>%s</td><td class=\"readings\">", check->with);
    for (double i = 1.0; i <= fields; i += 1.0) {
        bite_html_put(page, "<span class=\"reading\">%s</span>",
                      fields > 1.0 ? bite_html_count(i).text : "");
    }
    bite_page_text(page, "</td></tr>\n");
}

void bite_job_html_checks(bite_job_html_page *html)
{
    static const char *const heads[] = {"What", "Nominal", "Tolerance", "With",
                                        "Measured, part by part"};
    if (html->job->check_count == 0) {
        return;
    }
    bite_page_text(
        &html->page,
        "<h3>What to measure</h3>\n<div class=\"wide\"><table class=\"checks\">\n<thead><tr>");
    bite_job_html_table_head(html, heads, sizeof heads / sizeof *heads);
    bite_page_text(&html->page, "</tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < html->job->check_count; i++) {
        check_row(html, &html->job->checks[i]);
    }
    bite_page_text(&html->page, "</tbody></table></div>\n");
}

/* ---- time ---- */

static void time_row(bite_job_html_page *html, const char *name, double seconds)
{
    bite_page *page = &html->page;
    double whole = html->job->time.whole;
    double share = whole > 0.0 && seconds >= 0.0 ? fmin(1.0, seconds / whole) : 0.0;
    bite_html_put(page, "<tr><th scope=\"row\">%s</th><td>", name);
    bite_html_emphasize(page, bite_html_time(page, seconds));
    bite_html_put(page, "</td><td class=\"share\">%s</td><td class=\"bar\">",
                  bite_html_percent(share).text);
    bite_page_text(
        page, "<svg viewBox=\"0 0 100 10\" preserveAspectRatio=\"none\" aria-hidden=\"true\">");
    bite_html_box(page, 0.0, 0.0, 100.0, 10.0, "bar-room");
    bite_html_box(page, 0.0, 0.0, 100.0 * share, 10.0, "bar-share");
    bite_page_text(page, "</svg></td></tr>\n");
}

static void time_words(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const bite_planned_time *time = &html->job->time;
    bite_html_put(page, "<p>Laps at their feeds alone: %s",
                  bite_html_time(page, time->feed_only).text);
    bite_html_put(page, "; the whole job: <b>%s</b>", bite_html_time(page, time->whole).text);
    if (time->feed_only > 0.0 && isfinite(time->whole / time->feed_only)) {
        char times[32];
        (void)bite_number_write(time->whole / time->feed_only, 2, times, sizeof times);
        bite_html_put(page, ", %s times as long", times);
    }
    bite_html_put(page, ". Tool changes: %s.", bite_html_count(time->tool_changes).text);
    if (isfinite(time->corrected)) {
        bite_html_put(
            page, " By %s times that this shop measured: ", bite_html_count(time->records).text);
        bite_html_put(page, "<b>%s</b>.", bite_html_time(page, time->corrected).text);
    }
    bite_page_text(page, "</p>\n");
}

void bite_job_html_time(bite_job_html_page *html)
{
    static const char *const heads[] = {"Part of it", "Time", "Share", ""};
    const bite_planned_time *time = &html->job->time;
    const struct {
        const char *name;
        double seconds;
    } parts[] = {{"cutting, slow corners in it", time->cutting},
                 {"ways between cuts", time->ways},
                 {"tool changes", time->changes},
                 {"putting on, cure", time->loading},
                 {"taking off, cleaning", time->release}};
    bite_page_text(&html->page, "<h3>Time</h3>\n<table class=\"time\">\n<thead><tr>");
    bite_job_html_table_head(html, heads, 3);
    bite_page_text(&html->page, "<td></td></tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        time_row(html, parts[i].name, parts[i].seconds);
    }
    bite_page_text(&html->page, "</tbody></table>\n");
    time_words(html);
}

/* ---- remarks ---- */

#define DANGER 3

void bite_job_html_dangers(bite_job_html_page *html)
{
    const struct bite_job *job = html->job;
    if (job->hold.refused) {
        bite_html_put(&html->page,
                      "<p class=\"danger\"><strong>DANGER</strong> Do not hold this part with %s: "
                      "see the cautions.</p>\n",
                      job->hold.hold == NULL ? "it" : job->hold.hold->title);
    }
    for (size_t i = 0; i < job->remark_count; i++) {
        if (job->remarks[i].severity >= DANGER) {
            bite_html_put(&html->page, "<p class=\"danger\"><strong>DANGER</strong> %s</p>\n",
                          job->remarks[i].text);
        }
    }
}

static void remark(bite_page *page, const bite_remark *remark)
{
    static const char *const words[] = {"", "Note", "Care", "DANGER"};
    bite_html_put(page, "<li>");
    if (remark->severity > 0) {
        bite_html_put(page, "<strong>%s</strong> ",
                      words[remark->severity < DANGER ? remark->severity : DANGER]);
    }
    bite_html_put(page, "<span class=\"about\">%s:</span> %s", remark->about, remark->text);
    if (has(remark->source)) {
        bite_html_put(page, " <small class=\"source\">%s</small>", remark->source);
    }
    bite_page_text(page, "</li>\n");
}

/* Those to mind, or those that tell what was chosen. */
static void remarks(bite_job_html_page *html, const char *title, int to_mind)
{
    size_t told = 0;
    for (size_t i = 0; i < html->job->remark_count; i++) {
        if ((html->job->remarks[i].severity > 0) != to_mind) {
            continue;
        }
        if (told++ == 0) {
            bite_html_put(&html->page, "<h3>%s</h3>\n<ul class=\"remarks\">\n", title);
        }
        remark(&html->page, &html->job->remarks[i]);
    }
    bite_page_text(&html->page, told > 0 ? "</ul>\n" : "");
}

void bite_job_html_remarks(bite_job_html_page *html)
{
    remarks(html, "Cautions", 1);
    remarks(html, "What was chosen, and why", 0);
}
