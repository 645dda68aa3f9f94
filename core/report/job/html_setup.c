/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to enter and which tools to set out for a setup. */
#include "core/report/job/html_setup.h"
#include "core/job/foremost_limit.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/job_file_schema.h"
#include "core/job/thread_plan.h"
#include "core/report/cut_text.h"
#include "core/report/job/clearance_text.h"
#include "core/report/job/pass_depths.h"
#include "core/report/job/path_text.h"
#include "core/request/answer.h"
#include <math.h>
#include <string.h>

/* ---- passes ---- */

/* A pass is a group of two rows that stays on one page: what to enter, and below it what it is. */

/* A text between markup, if there is one. */
static void put_if(bite_page *page, const char *before, const char *text, const char *after)
{
    if (text != NULL && text[0] != 0) {
        bite_page_text(page, before);
        bite_html_put(page, "%s", text);
        bite_page_text(page, after);
    }
}

static const char *title_of(const bite_planned_pass *pass)
{
    return pass->title != NULL && pass->title[0] != 0 ? pass->title : pass->name;
}

/* A cell with the name of its column, which stands beside it on a narrow screen. */
static void open_cell(bite_page *page, const char *look, const char *name)
{
    bite_html_put(page, "<td class=\"%s\" data-name=\"%s\">", look, name);
}

static void tool_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    open_cell(page, "tool", "Tool");
    if (pass->tool >= html->job->tool_count) {
        bite_page_text(page, "-</td>");
        return;
    }
    const bite_planned_tool *tool = &html->job->tools[pass->tool];
    bite_html_put(page, "<b>T%s</b> <small>%s, %s</small></td>", bite_html_count(tool->place).text,
                  tool->name, tool->kind);
}

/* "0.5 mm", "3 x 0.5 mm", "4 x 0.33 + 0.28 mm": lines may break after the sign of times and before
 * the plus. */
static void depths_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    static const char times[] = "\xc3\x97";
    bite_page *page = &html->page;
    bite_html_string text;
    bite_pass_depths depths = bite_pass_depths_of_pass(pass, page->units);
    bite_pass_depths_write(&depths, page->units, times, text.text, sizeof text.text);
    bite_page_text(page, "<span class=\"q\"><b>");
    for (const char *at = text.text; *at != 0;) {
        size_t length = strcspn(at, " ");
        const char *rest = at + length;
        int counted = rest[0] == ' ' && strncmp(rest + 1, times, sizeof times - 1) == 0;
        int added = rest[0] == ' ' && rest[1] == '+';
        bite_writer_part(&page->writer, at, length);
        if (!counted && !added) {
            bite_html_put(page, "</b>%s</span>", rest);
            return;
        }
        bite_page_text(page, counted ? " \xc3\x97</b></span> <span class=\"q\"><b>"
                                     : "</b></span> <span class=\"q\"><b>+ ");
        at = rest + (counted ? sizeof times + 1 : 3);
    }
}

static void settings_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    const bite_cut *cut = &pass->answer->full;
    open_cell(page, "enter", "Spindle");
    bite_html_figure(page, cut->spindle_speed, BITE_KIND_ROTATION);
    bite_page_text(page, "</td>");
    open_cell(page, "enter", "Feed");
    bite_html_figure(page, bite_plan_enter_feed(pass), BITE_KIND_SPEED);
    bite_page_text(page, "</td>");
    open_cell(page, "enter", "Depths");
    depths_of(html, pass);
    bite_page_text(page, "</td>");
    open_cell(page, "enter", "Width");
    if (cut->operation == BITE_TAP) {
        bite_page_text(page, "tapped");
    } else if (cut->operation == BITE_REAM) {
        bite_page_text(page, "reamed");
    } else if (cut->operation == BITE_DRILL_HOLE) {
        bite_page_text(page, "drilled");
    } else if (pass->work == BITE_WORK_THREAD_MILL) {
        bite_page_text(page, "thread");
    } else if (pass->work == BITE_WORK_CHAMFER) {
        bite_page_text(page, "chamfer"); /* its width is its depth */
    } else if (isnan(pass->width)) {
        bite_page_text(page, "full slot");
    } else {
        bite_html_figure(page, pass->width, BITE_KIND_LENGTH);
    }
    bite_page_text(page, "</td>");
}

/* The kind of work, count, total depth; what else has to be entered; slowing in corners. */
static void work_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    bite_html_put(page, "%s", bite_work_title(pass->work));
    if (pass->count > 1) {
        bite_html_put(page, ", %s on each part", bite_html_count(pass->count).text);
    }
    double whole =
        pass->answer == NULL ? pass->depth : bite_pass_depths_of_pass(pass, page->units).whole;
    bite_html_put(page, ", %s deep", bite_html_quantity(page, whole, BITE_KIND_LENGTH).text);
    if (pass->answer != NULL) {
        char entry[BITE_PATH_TEXT_MAX];
        char path[BITE_PATH_TEXT_MAX];
        (void)bite_plan_entry_text(page, pass, entry, sizeof entry);
        (void)(bite_work_is_hole(pass->work) ? bite_hole_text(page, pass, path, sizeof path)
                                             : bite_path_text(page, pass, path, sizeof path));
        put_if(page, "; <b>", entry, "</b>");
        put_if(page, "; <b>", path, "</b>");
    }
    if (pass->support.kind > 0) {
        bite_page_text(page, "; <b>with the floor supported</b>");
    }
    if (pass->springs > 0) {
        bite_html_put(page, "; then <b>%s spring pass%s</b>", bite_html_count(pass->springs).text,
                      pass->springs > 1 ? "es" : "");
    }
    if (pass->slowed < 0.95) {
        bite_html_put(page, "; corners slow the feed to %s", bite_html_percent(pass->slowed).text);
    }
    bite_page_text(page, pass->chosen ? ". " : "; spindle and feed as stated in the job file. ");
}

static void judged_of(bite_job_html_page *html, const bite_planned_pass *pass)
{
    bite_page *page = &html->page;
    const bite_result *result = &pass->answer->result;
    bite_job_html_verdict(html, result->verdict);
    if (!isnan(result->chance)) {
        bite_html_put(page, " chance %s", bite_html_percent(result->chance).text);
    }
    double chance = (double)NAN;
    uint32_t foremost = bite_foremost_limit(result, &chance);
    if (foremost < BITE_LIMIT_COUNT) {
        bite_html_put(
            page, isnan(chance) ? "; closest: %s, %s used" : "; likeliest: %s %s",
            bite_html_plain(bite_cut_limit_name(&pass->answer->full, (bite_limit_id)foremost)).text,
            bite_html_percent(isnan(chance) ? result->limits[foremost].utilization : chance).text);
    }
    if (!isnan(pass->hold_utilization)) {
        bite_html_put(page, "; hold %s", bite_html_percent(pass->hold_utilization).text);
    }
    uint32_t advice = bite_answer_worst_advisory(result);
    if (advice < BITE_LIMIT_COUNT) {
        bite_html_put(
            page, "; advisory: %s %s",
            bite_html_plain(bite_cut_limit_name(&pass->answer->full, (bite_limit_id)advice)).text,
            bite_html_percent(result->limits[advice].utilization).text);
    }
    bite_page_text(page, ".");
}

static void pass_rows(bite_job_html_page *html, size_t index)
{
    bite_page *page = &html->page;
    const bite_planned_pass *pass = &html->job->passes[index];
    bite_html_put(page,
                  "<tbody class=\"pass\"><tr><td class=\"place\">%s</td>"
                  "<th scope=\"rowgroup\" class=\"what\">%s</th>",
                  bite_html_count((double)index + 1.0).text, title_of(pass));
    tool_of(html, pass);
    if (pass->answer == NULL) {
        bite_page_text(page, "<td class=\"enter\" colspan=\"4\">not judged: see the cautions</td>");
    } else {
        settings_of(html, pass);
    }
    open_cell(page, "time", "Time");
    bite_html_emphasize(page, bite_html_time(page, pass->seconds));
    bite_page_text(page, "</td></tr>\n<tr><td></td><td class=\"more\" colspan=\"7\">");
    work_of(html, pass);
    if (pass->answer != NULL) {
        char ways[BITE_PATH_TEXT_MAX];
        char clearance[BITE_CLEARANCE_TEXT_MAX];
        judged_of(html, pass);
        (void)bite_ways_text(pass, ways, sizeof ways);
        put_if(page, " Time ", ways, ".");
        if (pass->pause_seconds > 0.0) {
            bite_html_put(page, " Pauses in which the part cools: %s of the time.",
                          bite_html_time(page, pass->pause_seconds).text);
        }
        put_if(page, " Clearance: ", bite_clearance_text(page, pass, clearance), ".");
    }
    bite_page_text(page, "</td></tr></tbody>\n");
}

void bite_job_html_passes(bite_job_html_page *html, uint32_t setup)
{
    static const struct {
        const char *name;
        const char *look;
    } heads[] = {{"No.", "place"},   {"Pass, in order of work", "what"},
                 {"Tool", "tool"},   {"Spindle", "enter"},
                 {"Feed", "enter"},  {"Depths", "enter"},
                 {"Width", "enter"}, {"Time", "time"}};
    bite_page *page = &html->page;
    bite_page_text(page, "<h3>Enter at the control</h3>\n<table class=\"passes\">\n<thead><tr>");
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++) {
        bite_html_put(page, "<th scope=\"col\" class=\"%s\">%s</th>", heads[i].look, heads[i].name);
    }
    bite_page_text(page, "</tr></thead>\n");
    for (size_t i = 0; i < html->job->pass_count; i++) {
        if (html->job->passes[i].setup == setup) {
            pass_rows(html, i);
        }
    }
    bite_page_text(page, "</table>\n");
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
    bite_html_put(page, " <small>%s, %s flute%s</small></td><td>", tool->kind,
                  bite_html_count(tool->flutes).text, tool->flutes > 1.0 ? "s" : "");
    bite_html_figure(page, tool->diameter, BITE_KIND_LENGTH);
    bite_page_text(page, "</td><td>");
    bite_html_figure(page, tool->stickout, BITE_KIND_LENGTH);
    bite_page_text(page, "</td><td>");
    bite_html_figure(page, tool->flute_length, BITE_KIND_LENGTH);
    bite_page_text(page, "</td></tr>\n");
}

void bite_job_html_tools(bite_job_html_page *html, uint32_t setup)
{
    static const char *const heads[] = {"No.", "Tool", "Diameter", "Stick-out", "Flutes"};
    bite_page_text(
        &html->page,
        "<h3>Tools to set out</h3>\n<div class=\"wide\"><table class=\"tools\">\n<thead><tr>");
    bite_page_text(&html->page, "<td></td>");
    bite_job_html_table_head(html, heads, sizeof heads / sizeof *heads);
    bite_page_text(&html->page, "</tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < html->job->tool_count; i++) {
        if (used_in(html->job, i, setup)) {
            tool_row(html, &html->job->tools[i]);
        }
    }
    bite_page_text(&html->page, "</tbody></table></div>\n");
}

void bite_job_html_tool_reasons(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const struct bite_job *job = html->job;
    bite_page_text(page,
                   job->tool_count > 0 ? "<h3>Tools, and why</h3>\n<ul class=\"remarks\">\n" : "");
    for (size_t i = 0; i < job->tool_count; i++) {
        const bite_planned_tool *tool = &job->tools[i];
        bite_html_put(page, "<li><b>T%s</b> %s", bite_html_count(tool->place).text, tool->name);
        put_if(page, ", ", tool->kind, "");
        put_if(page, ": ", tool->why, "");
        put_if(page, ". Better: ", tool->better, "");
        bite_page_text(page, ".</li>\n");
    }
    bite_page_text(page, job->tool_count > 0 ? "</ul>\n" : "");
}
