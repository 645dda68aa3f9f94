/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A job's sheet as one web page. The instructions for use at the machine come first, a sheet for
 * each setup; then one for the bench, where the part is taken off and cleaned; calculations and
 * sources follow, for use at the desk.
 */
#include "core/report/job/html.h"
#include "core/base/error.h"
#include "core/job/foremost_limit.h"
#include "core/job/job_file.h"
#include "core/job/setup_plan.h"
#include "core/library/material.h"
#include "core/report/job/html_bench.h"
#include "core/report/job/html_drawings.h"
#include "core/report/job/html_sections.h"
#include "core/report/job/html_setup.h"
#include "core/report/job/html_style.h"
#include "core/report/job/html_windows.h"
#include "core/report/style_check.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *part_of_path(const char *path)
{
    const char *slash = path == NULL ? NULL : strrchr(path, '/');
    return slash == NULL ? path : slash + 1;
}

static const char *title_of(const struct bite_job *job)
{
    return job->title != NULL && job->title[0] != 0 ? job->title : "Job";
}

/* The pass of a setup that most likely exceeds a limit, without draws the one with the highest
 * utilization; pass_count: none. */
static size_t worst_of(const struct bite_job *job, uint32_t setup)
{
    size_t worst = job->pass_count;
    double most = -1.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        if (pass->setup != setup || pass->answer == NULL ||
            pass->answer->result.worst >= BITE_LIMIT_COUNT) {
            continue;
        }
        const bite_result *result = &pass->answer->result;
        double utilization = result->limits[result->worst].utilization;
        double weight = isnan(result->chance) ? utilization : result->chance + 1e-9 * utilization;
        if (weight > most) { /* of passes that are equally likely the fullest */
            most = weight;
            worst = i;
        }
    }
    return worst;
}

static const bite_answer *first_answer(const struct bite_job *job, uint32_t setup)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].setup == setup) {
            return job->passes[i].answer;
        }
    }
    return NULL;
}

/* ---- top of a sheet ---- */

static void fact(bite_page *page, const char *name, const char *text)
{
    if (text != NULL && text[0] != 0) {
        bite_html_put(page, "<div><dt>%s</dt><dd>%s</dd></div>\n", name, text);
    }
}

static void facts(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const struct bite_job *job = html->job;
    bite_page_text(page, "<dl class=\"facts\">\n");
    fact(page, "Part", bite_job_file_text(job->file_data.part, "name"));
    fact(page, "Drawing", bite_job_file_text(job->file_data.job, "drawing"));
    fact(page, "For", bite_job_file_text(job->file_data.job, "customer"));
    fact(page, "Pieces", bite_html_count(job->count).text);
    fact(page, "Material", job->grade == NULL ? NULL : job->grade->record.name);
    fact(page, "Machine", bite_job_file_text(job->file_data.machine, "name"));
    fact(page, "Shop", bite_job_file_text(job->file_data.job, "shop"));
    bite_page_text(page, "<div><dt>Date</dt><dd class=\"fill\">&#160;</dd>"
                         "<dt>By</dt><dd class=\"fill\">&#160;</dd></div>\n</dl>\n");
}

/* The title is a heading on the first sheet only; later sheets repeat it. Setup 0: a page for use
 * at the desk. */
static void top(bite_job_html_page *html, uint32_t setup, const char *name, const char *id)
{
    bite_page *page = &html->page;
    bite_html_put(page, "<section class=\"sheet\" aria-labelledby=\"%s\">\n<div class=\"head\">",
                  id);
    bite_html_put(page, setup == 1 ? "<h1>%s</h1>" : "<p class=\"again\">%s</p>",
                  title_of(html->job));
    bite_html_put(page, "<h2 id=\"%s\">%s</h2></div>\n", id, name);
    if (setup > 0) {
        facts(html);
    }
}

static void foot(bite_job_html_page *html, const char *last)
{
    bite_page *page = &html->page;
    const char *file = part_of_path(html->job->file);
    bite_html_put(page, "<p class=\"foot\">coolbite %s", bite_version());
    if (file != NULL && file[0] != 0) {
        bite_html_put(page, ", from %s", file);
    }
    if (html->job->draws > 1) {
        bite_html_put(page, "; chances from %s draws",
                      bite_html_count((double)html->job->draws).text);
    }
    if (isfinite(html->job->confidence)) {
        bite_html_put(page, "; clear: under %s chance of exceeding a limit",
                      bite_html_percent(1.0 - html->job->confidence).text);
    }
    bite_html_put(page, ". Calculated, not tried: watch the first part.%s</p>\n</section>\n", last);
}

static size_t danger_count(const struct bite_job *job, uint32_t setup)
{
    size_t count = bite_plan_hold_of(job, setup)->refused ? 1 : 0;
    for (size_t i = 0; i < job->remark_count; i++) {
        count += job->remarks[i].severity >= BITE_DANGER ? 1 : 0;
    }
    return count;
}

/* The coolant of a setup's first pass, and whether the fluid named for it must not be used. */
static void coolant(bite_job_html_page *html, uint32_t setup)
{
    const bite_answer *first = first_answer(html->job, setup);
    const char *word =
        first == NULL ? NULL : bite_input_word(bite_input_find("coolant"), first->full.coolant);
    if (word != NULL) {
        bite_html_put(&html->page, " Coolant: %s.", word);
        bite_job_html_refused_coolant(html, first->full.coolant);
    }
}

/* One line above the numbers: the verdict, what is closest, and where the dangers are. */
static void judged(bite_job_html_page *html, uint32_t setup)
{
    bite_page *page = &html->page;
    const struct bite_job *job = html->job;
    size_t worst = worst_of(job, setup);
    size_t dangers = danger_count(job, setup);
    bite_page_text(page, "<div class=\"judged\">");
    bite_job_html_verdict(html, job->verdict);
    bite_page_text(page, "<p>");
    if (!isnan(job->chance)) {
        bite_html_put(page, "Chance that a limit is exceeded in some pass: <b>%s</b>. ",
                      bite_html_percent(job->chance).text);
    }
    if (worst < job->pass_count) {
        const bite_result *result = &job->passes[worst].answer->result;
        double chance = (double)NAN;
        uint32_t limit = bite_foremost_limit(result, &chance);
        bite_html_put(
            page,
            isnan(chance) ? "Closest here: %s in pass %s, %s used."
                          : "Likeliest here: %s in pass %s, %s.",
            bite_html_plain(
                bite_cut_limit_name(&job->passes[worst].answer->full, (bite_limit_id)limit))
                .text,
            bite_html_count((double)worst + 1.0).text,
            bite_html_percent(isnan(chance) ? result->limits[limit].utilization : chance).text);
    }
    double used = bite_plan_hold_of(job, setup)->utilization;
    if (!isnan(used)) {
        bite_html_put(page, " Workholding: %s used.", bite_html_percent(used).text);
    }
    coolant(html, setup);
    if (dangers > 0) {
        bite_html_put(page,
                      dangers > 1 ? " <b>%s dangers</b>: below the passes."
                                  : " <b>%s danger</b>: below the passes.",
                      bite_html_count((double)dangers).text);
    }
    bite_page_text(page, "</p></div>\n");
}

static void note(bite_job_html_page *html)
{
    const char *text = bite_job_file_text(html->job->file_data.job, "note");
    int made_up = bite_job_file_word(html->job->file_data.job, "made_up", 0) == 1;
    if (made_up || (text != NULL && text[0] != 0)) {
        bite_html_put(&html->page, "<p>%s %s</p>\n", text,
                      made_up ? "A made-up job that shows what a sheet looks like." : "");
    }
}

/* ---- sheets ---- */

static void setup_sheet(bite_job_html_page *html, uint32_t setup)
{
    bite_page *page = &html->page;
    char name[180];
    char id[48];
    (void)snprintf(name, sizeof name, "Setup %s of %s", bite_html_count(setup).text,
                   bite_html_count(html->setups).text);
    (void)snprintf(id, sizeof id, "setup-%u", (unsigned)setup);
    top(html, setup, name, id);
    judged(html, setup);
    bite_job_html_passes(html, setup);
    bite_page_text(page, "<div class=\"two even\">\n<div>\n");
    bite_job_html_dangers(html, setup);
    note(html);
    bite_job_html_mounting(html, setup);
    if (setup < html->setups) {
        bite_job_html_release(html,
                              setup); /* the part goes on to the next setup, not to the bench */
    }
    bite_page_text(page, "</div>\n<div>\n");
    bite_job_html_tools(html, setup);
    bite_job_html_hold(html, setup);
    bite_job_html_hold_words(html, setup);
    bite_page_text(page, "</div>\n</div>\n");
    foot(html, setup < html->setups ? "" : " Release: page for the bench.");
}

/* The page that goes to the bench. */
static void bench_sheet(bite_job_html_page *html)
{
    top(html, 0, "At the bench", "bench");
    facts(html);
    bite_job_html_bench(html);
    foot(html, "");
}

static void desk_sheet(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    top(html, 0, "Stock, warp, time, fluids", "desk");
    bite_page_text(page, "<div class=\"two\">\n<div>\n");
    bite_job_html_draw_blank(html);
    bite_job_html_stock(html);
    bite_page_text(page, "</div>\n<div>\n");
    bite_job_html_warp(html);
    bite_job_html_time(html);
    bite_page_text(page, "</div>\n</div>\n");
    bite_job_html_fluids(html);
    foot(html, "");
}

static void picture_sheet(bite_job_html_page *html)
{
    if (html->picture_count > 0) {
        top(html, 0, "Operating windows", "room");
        bite_job_html_pictures(html);
        foot(html, "");
    }
}

/* The dangers are also on the sheet of every setup. */
static void caution_sheet(bite_job_html_page *html)
{
    top(html, 0, "Cautions, and what was selected", "cautions");
    bite_job_html_remarks(html);
    bite_job_html_tool_reasons(html);
    foot(html, "");
}

static void whole(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    bite_html_begin(page, NULL, NULL);
    bite_html_put(page, "<title>%s</title>\n<style>\n", title_of(html->job));
    for (size_t i = 0; bite_job_html_style[i] != NULL; i++) {
        bite_page_text(page, bite_job_html_style[i]);
    }
    bite_job_html_picture_styles(html);
    bite_page_text(page, "</style>\n</head>\n<body>\n");
    bite_job_html_patterns(html);
    bite_page_text(page, "<main>\n");
    for (uint32_t setup = 1; setup <= html->setups; setup++) {
        setup_sheet(html, setup);
    }
    bench_sheet(html);
    desk_sheet(html);
    picture_sheet(html);
    caution_sheet(html);
    bite_page_text(page, "</main>\n</body>\n</html>\n");
}

bite_status bite_job_html(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error)
{
    bite_job_html_page html;
    bite_style own;
    bite_error_clear(error);
    if (job == NULL || job->setups < 1 || job->setups > BITE_SETUPS_MAX) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a planned job of 1 to 20 setups was expected");
    }
    bite_status status = bite_style_check(style, sink, BITE_STYLE_ANY, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_style_init(&own);
    own.units = (uint32_t)job->units;
    memset(&html, 0, sizeof html);
    html.job = job;
    html.setups = job->setups;
    if (!bite_page_open(&html.page, &own, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    html.page.control = 1;
    status = bite_job_html_pictures_make(&html, error);
    if (status == BITE_OK) {
        whole(&html);
        status = bite_page_close(&html.page, error);
    }
    bite_job_html_pictures_free(&html);
    return status;
}
