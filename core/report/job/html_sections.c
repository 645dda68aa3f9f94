/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sections of a job's sheet that consist of words and tables: holding, stock, warp, fluids,
 * checks, time, remarks. */
#include "core/report/job/html_sections.h"
#include "core/base/number.h"
#include "core/job/datum_plan.h"
#include "core/job/job_file_schema.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/report/job/check_text.h"
#include "core/report/job/html_drawings.h"
#include "core/report/job/remark_text.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static int has(const char *text)
{
    return text != NULL && text[0] != 0;
}

/* A table row: a name and quantities of one kind. */
static void quantity_row(bite_job_html_page *html, const char *name, const double *values,
                         size_t count, bite_kind kind)
{
    bite_html_put(&html->page, "<tr><th scope=\"row\">%s</th>", name);
    for (size_t i = 0; i < count; i++) {
        bite_page_text(&html->page, "<td>");
        bite_html_figure(&html->page, values[i], kind);
        bite_page_text(&html->page, "</td>");
    }
    bite_page_text(&html->page, "</tr>\n");
}

/* A limit of the whole job: verdict, demand and capacity. */
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
        bite_html_put(page, "; chance that it is exceeded: %s",
                      bite_html_percent(limit->chance).text);
    }
    bite_page_text(page, ".</p>\n");
}

/* ---- holding ---- */

static void zero_words(bite_job_html_page *html, uint32_t setup)
{
    bite_page *page = &html->page;
    const struct bite_job *job = html->job;
    if (job->datums == NULL || setup < 1 || setup > job->setups) {
        return;
    }
    const bite_planned_datum *datum = &job->datums[setup - 1];
    bite_html_put(page, "<p>Z zero: <b>%s</b>", bite_datum_zero_title(datum));
    if (datum->pass >= 0 && (size_t)datum->pass < job->pass_count) {
        double chosen = datum->on_fixture ? datum->error_fixture : datum->error_top;
        double other = datum->on_fixture ? datum->error_top : datum->error_fixture;
        bite_html_put(page, ". The %s of pass %s is off by ",
                      bite_datum_dimension_name(datum->dimension),
                      bite_html_count((double)datum->pass + 1.0).text);
        bite_html_put(page, "%s at most ", bite_html_quantity(page, chosen, BITE_KIND_LENGTH).text);
        bite_html_put(page, "(other zero: %s; ",
                      bite_html_quantity(page, other, BITE_KIND_LENGTH).text);
        bite_html_put(page, "tolerance %s)",
                      bite_html_quantity(page, datum->tolerance, BITE_KIND_LENGTH).text);
    }
    bite_page_text(page, ".</p>\n");
}

/* Which face is up, and where X and Y are zero; zero_words has Z. */
static void setup_words(bite_job_html_page *html, const bite_planned_setup *setup)
{
    bite_page *page = &html->page;
    if (html->setups < 2 && setup->section == NULL) {
        return;
    }
    bite_html_put(page, "<p>Face up: <b>%s</b>", bite_side_word(setup->side));
    if (has(setup->datum_xy)) {
        bite_html_put(page, "; X and Y zero: <b>%s</b>", bite_datum_title(setup->datum_xy));
    } else {
        bite_page_text(page, "; X and Y zero not stated in the job file");
    }
    if (setup->mountings > 1) {
        bite_html_put(page, "; each of the %s parts by itself",
                      bite_html_count(setup->mountings).text);
    }
    bite_page_text(page, ".");
    if (has(setup->note)) {
        bite_html_put(page, " %s", setup->note);
    }
    bite_page_text(page, "</p>\n");
}

void bite_job_html_hold(bite_job_html_page *html, uint32_t setup)
{
    bite_page *page = &html->page;
    const bite_planned_hold *hold = bite_plan_hold_of(html->job, setup);
    bite_html_put(page, "<h3>Workholding: %s</h3>\n",
                  hold->hold == NULL ? "not stated in the job file" : hold->hold->title);
    if (html->job->setup_plan != NULL) {
        setup_words(html, bite_plan_setup(html->job, setup));
    }
    if (html->job->setup_plan == NULL || bite_plan_lies_flat(bite_plan_setup(html->job, setup))) {
        bite_job_html_draw_stack(html, setup);
    }
    zero_words(html, setup);
}

void bite_job_html_hold_words(bite_job_html_page *html, uint32_t setup)
{
    bite_page *page = &html->page;
    const bite_planned_hold *hold = bite_plan_hold_of(html->job, setup);
    if (hold->hold == NULL) {
        return;
    }
    bite_page_text(page, "<p>");
    if (isnan(hold->utilization)) {
        bite_page_text(page, "What the cuts demand of it was not calculated");
    } else if (hold->worst_pass < 0) {
        bite_html_put(page, "The force is <b>%s</b> of what buckles the plate",
                      bite_html_percent(hold->utilization).text);
    } else {
        bite_html_put(page, "The hardest cut uses <b>%s</b> of its capacity",
                      bite_html_percent(hold->utilization).text);
    }
    if (hold->worst_pass >= 0 && (size_t)hold->worst_pass < html->job->pass_count) {
        bite_html_put(page, " (pass %s)", bite_html_count((double)hold->worst_pass + 1.0).text);
    }
    if (isfinite(hold->chance)) {
        bite_html_put(page, ", with a chance of %s of failing",
                      bite_html_percent(hold->chance).text);
    }
    if (isfinite(hold->area)) {
        bite_html_put(page, "; %s are left under each part at the end",
                      bite_html_quantity(page, hold->area, BITE_KIND_AREA).text);
    }
    if (hold->weakest >= 0 && (size_t)hold->weakest < hold->layer_count &&
        hold->layers[hold->weakest] != NULL) {
        bite_html_put(page, "; weakest layer: %s", hold->layers[hold->weakest]->title);
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

void bite_job_html_mounting(bite_job_html_page *html, uint32_t setup)
{
    const bite_planned_hold *hold = bite_plan_hold_of(html->job, setup);
    steps(&html->page, "Mounting", hold->mounting, hold->mounting_count);
}

void bite_job_html_release(bite_job_html_page *html, uint32_t setup)
{
    const bite_planned_hold *hold = bite_plan_hold_of(html->job, setup);
    steps(&html->page, "Release", hold->release, hold->release_count);
}

/* ---- stock and warp ---- */

static void sheet_words(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const bite_planned_stock *stock = &html->job->stock;
    bite_html_put(page, "<p>Sheet: %s, <b>%s</b>",
                  stock->sheet == NULL ? "no table covers this material" : stock->sheet->title,
                  bite_html_quantity(page, stock->nominal, BITE_KIND_LENGTH).text);
    bite_html_put(page, " nominal%s",
                  stock->chosen && stock->as_sold ? ", as sold, for faces that stay as supplied"
                  : stock->chosen                 ? ", the thinnest on sale that is thick enough"
                                                  : ", as stated in the job file");
    bite_html_put(page, "; &#177;%s as supplied",
                  bite_html_quantity(page, stock->tolerance, BITE_KIND_LENGTH).text);
    bite_html_put(page, ", %s. ",
                  stock->measured
                      ? "measured as below"
                      : "not measured: the values below are the extremes of what is sold");
    bite_html_put(page, "Needed: %s",
                  bite_html_quantity(page, stock->needed, BITE_KIND_LENGTH).text);
    bite_html_put(page, ", of which %s to skim the faces.",
                  bite_html_quantity(page, stock->skim, BITE_KIND_LENGTH).text);
    if (isfinite(stock->sheet_length) && isfinite(stock->sheet_width)) {
        bite_html_put(page, " A sheet of %s",
                      bite_html_quantity(page, stock->sheet_length, BITE_KIND_LENGTH).text);
        bite_html_put(page, " by %s",
                      bite_html_quantity(page, stock->sheet_width, BITE_KIND_LENGTH).text);
        bite_html_put(page, " yields %s parts.", bite_html_count(stock->yield).text);
    } else if (stock->sheets > 0) {
        bite_html_put(page, " To buy: %s of ", bite_html_count(stock->sheets).text);
        bite_html_put(page, "%s by ",
                      bite_html_quantity(page, stock->sold_length, BITE_KIND_LENGTH).text);
        bite_html_put(page, "%s, as sold, or a piece of the blank's size.",
                      bite_html_quantity(page, stock->sold_width, BITE_KIND_LENGTH).text);
    }
    bite_page_text(page, "</p>\n");
    if (has(stock->parting_text)) {
        bite_html_put(page, "<p>%s</p>\n", stock->parting_text);
    }
}

static void envelope_words(bite_job_html_page *html)
{
    static const char *const axes[] = {"X", "Y", "Z"};
    bite_page *page = &html->page;
    const bite_planned_envelope *envelope = &html->job->envelope;
    if (envelope->machine == NULL) {
        return;
    }
    bite_html_put(page,
                  "<p>Machine: %s%s.</p>\n<table class=\"small-table\"><thead><tr><th "
                  "scope=\"col\">Axis</th><th scope=\"col\">travel</th><th scope=\"col\">needed"
                  "</th></tr></thead>\n<tbody>\n",
                  envelope->machine->title, envelope->stated ? "" : ", assumed");
    for (size_t i = 0; i < 3; i++) {
        const double values[] = {envelope->travel[i], envelope->needs[i]};
        quantity_row(html, axes[i], values, 2, BITE_KIND_LENGTH);
    }
    bite_page_text(page, "</tbody></table>\n");
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
    bite_page_text(page, "<table class=\"small-table\"><thead><tr><th scope=\"col\">The sheet"
                         "</th><th scope=\"col\">at its thinnest</th>"
                         "<th scope=\"col\">at its thickest</th></tr></thead>\n<tbody>\n");
    quantity_row(html, "thickness", sheet, 2, BITE_KIND_LENGTH);
    quantity_row(html, "off the top face", top, 2, BITE_KIND_LENGTH);
    quantity_row(html, "off the bottom face", below, 2, BITE_KIND_LENGTH);
    bite_page_text(page, "</tbody></table>\n");
    limit_of(html, &stock->limit, "Stock thickness");
    envelope_words(html);
}

void bite_job_html_warp(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const bite_planned_warp *warp = &html->job->warp;
    const struct {
        const char *name;
        double bow;
    } bows[] = {{"if everything came off one face", warp->one_sided},
                {"as planned, where the sheet is thickest", warp->as_planned},
                {"with one face 5 K warmer", warp->warmth}};
    bite_html_put(
        page,
        "<h3>Warp</h3>\n<table class=\"small-table\"><thead><tr><th scope=\"col\">Bow over %s</th>",
        bite_html_quantity(page, warp->span, BITE_KIND_LENGTH).text);
    bite_page_text(page, "<th scope=\"col\">once free</th></tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < sizeof bows / sizeof *bows; i++) {
        quantity_row(html, bows[i].name, &bows[i].bow, 1, BITE_KIND_LENGTH);
    }
    bite_page_text(page, "</tbody></table>\n");
    limit_of(html, &warp->limit, "Flatness");
    if (isfinite(warp->stress)) {
        bite_html_put(page, "<p>Assumed: a stress of %s in the skins of the sheet. ",
                      bite_html_quantity(page, warp->stress, BITE_KIND_STRESS).text);
        bite_html_put(page, "To check it, take %s",
                      bite_html_quantity(page, warp->coupon_cut, BITE_KIND_LENGTH).text);
        bite_html_put(page, " off one face of a strip %s long",
                      bite_html_quantity(page, 0.1, BITE_KIND_LENGTH).text);
        bite_html_put(page, ": at that stress it bows by %s.</p>\n",
                      bite_html_quantity(page, warp->coupon, BITE_KIND_LENGTH).text);
    }
    if (has(warp->anneal)) {
        bite_html_put(page, "<p>%s</p>\n", warp->anneal);
    }
}

/* ---- fluids ---- */

static const char *const ratings[] = {"SAFE", "RISK", "NO", "NOT KNOWN"};
static const char *const rating_looks[] = {"verdict-word clear", "verdict-word tight",
                                           "verdict-word over", "verdict-word open"};

void bite_job_html_rating(bite_job_html_page *html, uint32_t rated)
{
    uint32_t limit = rated < sizeof ratings / sizeof *ratings ? rated : BITE_RATED_UNKNOWN;
    bite_html_put(&html->page, "<strong class=\"%s\">%s</strong>", rating_looks[limit],
                  ratings[limit]);
}

/* The last column is shown if a source contradicts another. */
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
    bite_job_html_rating(html, result->rating);
    bite_html_put(page, "</td><td>%s", result->says);
    if (html->job->fluid_instead[index] != NULL && html->job->fluid_instead[index][0] != 0) {
        bite_html_put(page, "<small>Safe instead: %s.</small>", html->job->fluid_instead[index]);
    }
    if (isfinite(result->watch)) {
        bite_html_put(page,
                      result->rating == BITE_RATED_NO
                          ? "<small>If it has touched a part, watch that part for %s.</small>"
                          : "<small>Wait %s and check for crazes before shipping.</small>",
                      bite_html_time(page, result->watch).text);
    }
    bite_html_put(page, "<small class=\"source\">%s</small>", result->source);
    bite_page_text(page, with_other ? "</td><td>" : "");
    if (result->other != BITE_RATED_UNKNOWN) {
        bite_job_html_rating(html, result->other);
        bite_html_put(page, "<small class=\"source\">%s</small>", result->other_source);
    }
    bite_page_text(page, "</td></tr>\n");
}

void bite_job_html_refused_coolant(bite_job_html_page *html, uint32_t coolant)
{
    const struct bite_job *job = html->job;
    for (size_t i = 0; i < job->fluid_count && i < BITE_FLUIDS_MAX; i++) {
        if (coolant >= BITE_COOLANT_MIST && job->fluids[i].rating == BITE_RATED_NO &&
            job->fluid_uses[i] != NULL && strcmp(job->fluid_uses[i], "coolant") == 0 &&
            job->fluids[i].fluid != NULL) {
            bite_page_text(&html->page, " ");
            bite_job_html_rating(html, BITE_RATED_NO);
            bite_html_put(&html->page, ": not with %s.", job->fluids[i].fluid->title);
        }
    }
}

void bite_job_html_fluids(bite_job_html_page *html)
{
    static const char *const heads[] = {"Use", "Fluid", "Rating", "Assessment", "Another source"};
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
    bite_html_put(&html->page, "<p class=\"small\">Rated for a part %s.</p>\n",
                  html->job->annealed ? "that is annealed after machining"
                                      : "as machined, with stress in its edges");
}

/* ---- what to measure ---- */

#define READINGS_MOST 12 /* fields for single parts; if there are more parts, one field */

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
    char text[BITE_CHECK_TEXT_MAX];
    bite_html_put(page, "</td><td>%s</td><td>%s", bite_check_limits_text(page, check, text),
                  check->with);
    if (has(bite_check_frequency_text(html->job, check, text))) {
        bite_html_put(page, "<small>%s</small>", text);
    }
    bite_page_text(page, "</td><td class=\"readings\">");
    for (double i = 1.0; i <= fields; i += 1.0) {
        bite_html_put(page, "<span class=\"reading\">%s</span>",
                      fields > 1.0 ? bite_html_count(i).text : "");
    }
    bite_page_text(page, "</td></tr>\n");
}

void bite_job_html_checks(bite_job_html_page *html)
{
    static const char *const heads[] = {"What", "Nominal", "Limits", "With",
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
    bite_html_box(page, 0.0, 0.0, 100.0, 10.0, "bar-whole");
    bite_html_box(page, 0.0, 0.0, 100.0 * share, 10.0, "bar-share");
    bite_page_text(page, "</svg></td></tr>\n");
}

static void time_words(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const bite_planned_time *time = &html->job->time;
    bite_html_put(page, "<p>The whole job: <b>%s</b>", bite_html_time(page, time->whole).text);
    bite_html_put(page, ", of it %s of handwork", bite_html_time(page, time->hands).text);
    bite_html_put(page, ", %s while the machine runs",
                  bite_html_time(page, time->machine_alone).text);
    if (time->waiting > 0.0) {
        bite_html_put(page, ", %s of waiting", bite_html_time(page, time->waiting).text);
    }
    if (isfinite(time->overlapped)) {
        bite_html_put(page, "; with two plates, the next blank mounted meanwhile, one every %s",
                      bite_html_time(page, time->overlapped).text);
    }
    bite_html_put(page, ". Tool changes: %s.", bite_html_count(time->tool_changes).text);
    if (isfinite(time->corrected)) {
        bite_html_put(page, " Corrected by %s of this shop's own times: ",
                      bite_html_count(time->records).text);
        bite_html_put(page, "<b>%s</b>.", bite_html_time(page, time->corrected).text);
    }
    bite_page_text(page, "</p>\n");
}

void bite_job_html_time(bite_job_html_page *html)
{
    static const char *const heads[] = {"Item", "Time", "Share", ""};
    const bite_planned_time *time = &html->job->time;
    const struct {
        const char *name;
        double seconds;
    } parts[] = {{"laps at their programmed feeds", time->feed_only},
                 {"acceleration and corners", time->cornering},
                 {"entries", time->entries},
                 {"approach, retract, rapids", time->air + time->rapids},
                 {"pauses in which the part cools", time->pauses},
                 {time->tool_changer ? "tool changes by the machine" : "tool changes by hand",
                  time->tool_changing},
                 {"spindle starts", time->spindle_starts},
                 {"setting zero", time->zeroing},
                 {"mounting", time->mounting},
                 {"cure", time->cure},
                 {"release", time->releasing},
                 {"soaking", time->soak},
                 {"cleaning and inspecting", time->cleaning}};
    bite_page_text(&html->page, "<h3>Time</h3>\n<table class=\"time\">\n<thead><tr>");
    bite_job_html_table_head(html, heads, 3);
    bite_page_text(&html->page, "<td></td></tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (parts[i].seconds > 0.0) {
            time_row(html, parts[i].name, parts[i].seconds);
        }
    }
    bite_page_text(&html->page, "</tbody></table>\n");
    time_words(html);
}

/* ---- remarks ---- */

#define DANGER 3

static int is_danger(const bite_remark *remark)
{
    return remark->severity >= DANGER;
}

static const char *const severities[] = {"", "Note", "Caution", "DANGER"};

static const char *severity_of(const bite_remark *remark)
{
    return severities[remark->severity < DANGER ? remark->severity : DANGER];
}

void bite_job_html_warnings(bite_job_html_page *html, const char *title, uint32_t setup,
                            int (*belongs)(const bite_remark *remark))
{
    const struct bite_job *job = html->job;
    const bite_planned_hold *hold = bite_plan_hold_of(job, setup);
    int refused = hold->refused && belongs == is_danger;
    size_t count = refused ? 1 : 0;
    for (size_t i = 0; i < job->remark_count; i++) {
        count += belongs(&job->remarks[i]) ? 1 : 0;
    }
    if (count == 0) {
        return;
    }
    bite_html_put(&html->page, "<div class=\"warnings\">\n<h3>%s</h3>\n<ul>\n", title);
    if (refused) {
        bite_html_put(&html->page,
                      "<li><strong>DANGER</strong> Do not hold this part with %s: see the "
                      "cautions.</li>\n",
                      hold->hold == NULL ? "it" : hold->hold->title);
    }
    for (size_t i = 0; i < job->remark_count; i++) {
        char words[BITE_REMARK_TEXT_MAX];
        const bite_remark *remark = &job->remarks[i];
        if (belongs(remark)) {
            bite_html_put(&html->page, "<li><strong>%s</strong> %s</li>\n", severity_of(remark),
                          bite_remark_words(remark, job->units, words, sizeof words));
        }
    }
    bite_page_text(&html->page, "</ul>\n</div>\n");
}

void bite_job_html_dangers(bite_job_html_page *html, uint32_t setup)
{
    bite_job_html_warnings(html, "Dangers", setup, is_danger);
}

static void write_remark(bite_job_html_page *html, const bite_remark *remark)
{
    bite_page *page = &html->page;
    char words[BITE_REMARK_TEXT_MAX];
    bite_html_put(page, "<li>");
    if (remark->severity > 0) {
        bite_html_put(page, "<strong>%s</strong> ", severity_of(remark));
    }
    bite_html_put(page, "<span class=\"about\">%s:</span> %s", bite_remark_about(remark),
                  bite_remark_words(remark, html->job->units, words, sizeof words));
    if (has(remark->source)) {
        bite_html_put(page, " <small class=\"source\">%s</small>", remark->source);
    }
    bite_page_text(page, "</li>\n");
}

/* The cautions, or the information on what was selected. */
static void write_remarks(bite_job_html_page *html, const char *title, int cautions)
{
    size_t written = 0;
    for (size_t i = 0; i < html->job->remark_count; i++) {
        if ((html->job->remarks[i].severity > 0) != cautions) {
            continue;
        }
        if (written++ == 0) {
            bite_html_put(&html->page, "<h3>%s</h3>\n<ul class=\"remarks\">\n", title);
        }
        write_remark(html, &html->job->remarks[i]);
    }
    bite_page_text(&html->page, written > 0 ? "</ul>\n" : "");
}

void bite_job_html_remarks(bite_job_html_page *html)
{
    write_remarks(html, "Cautions", 1);
    write_remarks(html, "What was selected, and why", 0);
}
