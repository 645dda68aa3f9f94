/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to enter and which tools to set out for a setup. */
#include "core/report/job/html_setup.h"
#include "core/job/foremost_limit.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/job_file_schema.h"
#include "core/report/cut_text.h"
#include "core/report/job/path_text.h"
#include "core/request/answer.h"
#include <math.h>
#include <string.h>

/* ---- passes ---- */

/* The work of a pass, and in small print its count, total depth, and slowing in corners. */
static void what_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    const char *work = bite_work_title(pass->work);
    bite_html_put(page, "<th scope=\"row\" class=\"what\">%s<small>%s",
                  pass->title != NULL && pass->title[0] != 0 ? pass->title : pass->name, work);
    if (pass->count > 1) {
        bite_html_put(page, ", %s on each part", bite_html_count(pass->count).text);
    }
    bite_html_put(page, ", %s deep", bite_html_quantity(page, pass->depth, BITE_KIND_LENGTH).text);
    if (pass->slowed < 0.95) {
        bite_html_put(page, "; corners slow the feed to %s", bite_html_percent(pass->slowed).text);
    }
    if (pass->springs > 0) {
        bite_html_put(page, "; then <b>%s spring pass%s</b>", bite_html_count(pass->springs).text,
                      pass->springs > 1 ? "es" : "");
    }
    if (pass->answer != NULL) {
        char entry[120];
        bite_entry_text(page, pass->answer, entry, sizeof entry);
        bite_html_put(page, "%s", entry);
    }
    bite_page_text(page, pass->chosen
                             ? "</small></th>"
                             : "; spindle and feed as stated in the job file</small></th>");
}

static void tool_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    if (pass->tool >= html->job->tool_count) {
        bite_page_text(page, "<td>-</td><td>-</td>");
        return;
    }
    const bite_planned_tool *tool = &html->job->tools[pass->tool];
    bite_html_put(page, "<td class=\"tool\"><b>T%s</b> <small>%s, %s</small></td><td>",
                  bite_html_count(tool->place).text, tool->name, tool->kind);
    bite_html_figure(page, tool->stickout, BITE_KIND_LENGTH);
    bite_page_text(page, "</td>");
}

static void settings_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    const bite_cut *cut = &pass->answer->full;
    bite_page_text(page, "<td class=\"enter\">");
    bite_html_figure(page, cut->spindle_speed, BITE_KIND_ROTATION);
    bite_page_text(page, "</td><td class=\"enter\">");
    bite_html_figure(page, cut->feed_rate, BITE_KIND_SPEED);
    bite_page_text(page, "</td><td>");
    bite_html_figure(page, pass->step_down, BITE_KIND_LENGTH);
    bite_html_put(page, " <span class=\"q\">&#215; %s</span>", bite_html_count(pass->passes).text);
    if (pass->last_step < pass->step_down * (1.0 - 1e-4)) {
        bite_html_put(page, "<small>the last %s</small>",
                      bite_html_quantity(page, pass->last_step, BITE_KIND_LENGTH).text);
    }
    bite_page_text(page, "</td><td>");
    if (cut->operation == BITE_TAP) {
        bite_page_text(page, "tapped");
    } else if (cut->operation == BITE_REAM) {
        bite_page_text(page, "reamed");
    } else if (cut->operation == BITE_DRILL_HOLE) {
        bite_page_text(page, "drilled");
    } else if (isnan(pass->width)) {
        bite_page_text(page, "full slot");
    } else {
        bite_html_figure(page, pass->width, BITE_KIND_LENGTH);
    }
    bite_page_text(page, "</td>");
}

static void judged_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    const bite_result *result = &pass->answer->result;
    bite_page_text(page, "<td>");
    bite_job_html_verdict(html, result->verdict);
    bite_html_put(page, "<small>%s</small></td><td>", bite_html_percent(result->chance).text);
    uint32_t foremost = bite_foremost_limit(result);
    if (foremost < BITE_LIMIT_COUNT) {
        bite_html_put(page, "%s<small>%s",
                      bite_html_plain(bite_limit_name((bite_limit_id)foremost)).text,
                      bite_html_percent(result->limits[foremost].utilization).text);
        if (!isnan(pass->hold_utilization)) {
            bite_html_put(page, ", <span class=\"q\">hold %s</span>",
                          bite_html_percent(pass->hold_utilization).text);
        }
        bite_page_text(page, "</small>");
    }
    uint32_t advice = bite_answer_worst_advisory(result);
    if (advice < BITE_LIMIT_COUNT) {
        bite_html_put(page, "<small>advisory: %s %s</small>",
                      bite_html_plain(bite_limit_name((bite_limit_id)advice)).text,
                      bite_html_percent(result->limits[advice].utilization).text);
    }
    bite_page_text(page, "</td>");
}

/* What else has to be entered, in a row of its own. */
static void path_row(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    char entry[BITE_PATH_TEXT_MAX];
    char path[BITE_PATH_TEXT_MAX];
    (void)bite_plan_entry_text(page, pass, entry, sizeof entry);
    (void)(bite_work_is_hole(pass->work) ? bite_hole_text(page, pass, path, sizeof path)
                                         : bite_path_text(page, pass, path, sizeof path));
    char ways[BITE_PATH_TEXT_MAX];
    (void)bite_ways_text(pass, ways, sizeof ways);
    if (entry[0] != 0 || path[0] != 0) {
        bite_html_put(page, "<tr><td></td><td colspan=\"10\" class=\"enter\">%s%s%s\n", entry,
                      entry[0] != 0 && path[0] != 0 ? "; " : "", path);
        bite_html_put(page, ways[0] != 0 ? "<small>%s</small></td></tr>\n" : "%s</td></tr>\n",
                      ways);
    }
}

static void pass_row(bite_job_html_page *html, size_t index)
{
    bite_page *page = &html->page;
    const bite_planned_pass *pass = &html->job->passes[index];
    bite_html_put(page, "<tr><td class=\"place\">%s</td>",
                  bite_html_count((double)index + 1.0).text);
    what_of(html, pass);
    tool_of(html, pass);
    if (pass->answer == NULL) {
        bite_page_text(page, "<td colspan=\"6\">not judged: see the cautions</td>");
    } else {
        settings_of(html, pass);
        judged_of(html, pass);
    }
    bite_page_text(page, "<td>");
    bite_html_emphasize(page, bite_html_time(page, pass->seconds));
    bite_page_text(page, "</td></tr>\n");
    if (pass->answer != NULL) {
        path_row(html, pass);
    }
}

void bite_job_html_passes(bite_job_html_page *html, uint32_t setup)
{
    static const char *const heads[] = {"", "What", "Tool", "Stick-out"};
    static const char *const more[] = {"Depth &#215; passes", "Width", "Verdict, chance",
                                       "Limiting condition, used", "Time"};
    bite_page *page = &html->page;
    bite_page_text(page, "<h3>Passes, in order of work</h3>\n<div class=\"wide\"><table "
                         "class=\"passes\">\n<thead><tr>");
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++) {
        bite_html_put(page, "<th scope=\"col\" rowspan=\"2\">%s</th>", i == 0 ? "No." : heads[i]);
    }
    bite_page_text(page, "<th scope=\"colgroup\" colspan=\"2\" class=\"enter\">Enter</th>");
    for (size_t i = 0; i < sizeof more / sizeof *more; i++) {
        bite_page_text(page, "<th scope=\"col\" rowspan=\"2\">");
        bite_page_text(page, more[i]);
        bite_page_text(page, "</th>");
    }
    bite_page_text(page, "</tr>\n<tr><th scope=\"col\" class=\"enter\">Spindle</th><th "
                         "scope=\"col\" class=\"enter\">Feed</th></tr>"
                         "</thead>\n<tbody>\n");
    for (size_t i = 0; i < html->job->pass_count; i++) {
        if (html->job->passes[i].setup == setup) {
            pass_row(html, i);
        }
    }
    bite_page_text(page, "</tbody></table></div>\n");
}

/* ---- tools ---- */

static int used_in(const struct bite_job *job, size_t tool, uint32_t setup)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].setup == setup && job->passes[i].tool == tool) {
            return 1;
        }
    }
    return 0;
}

static void tool_row(bite_job_html_page *html, const bite_planned_tool *tool)
{
    bite_page *page = &html->page;
    bite_html_put(page,
                  "<tr><td class=\"tick\"><span class=\"box\"></span></td><th "
                  "scope=\"row\">T%s</th><td><b>%s</b>",
                  bite_html_count(tool->place).text, tool->name);
    if (tool->why != NULL && tool->why[0] != 0) {
        bite_html_put(page, " <small class=\"more\">%s</small>", tool->why);
    }
    if (tool->better != NULL && tool->better[0] != 0) {
        bite_html_put(page, " <small class=\"more\">Better: %s</small>", tool->better);
    }
    bite_page_text(page, "</td><td>");
    bite_html_figure(page, tool->diameter, BITE_KIND_LENGTH);
    bite_html_put(page, "</td><td>%s</td><td>", bite_html_count(tool->flutes).text);
    bite_html_figure(page, tool->stickout, BITE_KIND_LENGTH);
    bite_page_text(page, "</td><td>");
    bite_html_figure(page, tool->flute_length, BITE_KIND_LENGTH);
    bite_page_text(page, "</td></tr>\n");
}

void bite_job_html_tools(bite_job_html_page *html, uint32_t setup)
{
    static const char *const heads[] = {"Ready",  "No.",       "Tool",        "Diameter",
                                        "Flutes", "Stick-out", "Flute length"};
    bite_page_text(
        &html->page,
        "<h3>Tools to set out</h3>\n<div class=\"wide\"><table class=\"tools\">\n<thead><tr>");
    bite_job_html_table_head(html, heads, sizeof heads / sizeof *heads);
    bite_page_text(&html->page, "</tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < html->job->tool_count; i++) {
        if (used_in(html->job, i, setup)) {
            tool_row(html, &html->job->tools[i]);
        }
    }
    bite_page_text(&html->page, "</tbody></table></div>\n");
}
