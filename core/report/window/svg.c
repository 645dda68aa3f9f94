/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A window as SVG: real text, a title and a description for screen readers, patterns and dashes
 * that distinguish regions and lines in grey print and for any colour vision.
 */
#include "core/report/window/svg.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/names/registry.h"
#include "core/report/cut_text.h"
#include "core/report/html.h"
#include "core/report/window/summary.h"
#include "core/report/window/svg_plot.h"
#include "core/search/operating_window.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The sheet, in px of the drawing; the plot on it is in svg_lines.h. */
#define SHEET_WIDE 840
#define SHEET_HIGH 650
#define TABLE_LEFT 624.0
#define FOOT_TOP 552.0
#define LINE_CHARACTERS 128
#define ROW 21.0
#define TABLE_MOST 16
#define FIXED_MOST 6

/* Limits by utilization at the current point, highest first. */
static size_t sorted(const bite_svg_drawing *drawing, uint32_t *order)
{
    const bite_result *result = &drawing->window->answer->result;
    size_t count = 0;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (!result->limits[i].applies) {
            continue;
        }
        size_t at = count++;
        for (; at > 0 && result->limits[order[at - 1]].utilization < result->limits[i].utilization;
             at--) {
            order[at] = order[at - 1];
        }
        order[at] = i;
    }
    return count;
}

static void table_line(const bite_svg_drawing *drawing, uint32_t limit, double y)
{
    const bite_limit *at = &drawing->window->answer->result.limits[limit];
    char used[24];
    char high[24];
    char text[96];
    if (bite_svg_has_line(drawing, limit)) {
        bite_page_text(drawing->page, at->advisory ? "<line class=\"advice\" stroke=\""
                                                   : "<line class=\"line\" stroke=\"");
        bite_page_text(drawing->page, bite_svg_pens[drawing->pen[limit]].colour);
        bite_page_text(drawing->page, "\" stroke-dasharray=\"");
        bite_page_text(drawing->page, bite_svg_pens[drawing->pen[limit]].dash[0] == 0
                                          ? "none"
                                          : bite_svg_pens[drawing->pen[limit]].dash);
        bite_page_text(drawing->page, "\"");
        bite_html_attribute(drawing->page, "x1", TABLE_LEFT);
        bite_html_attribute(drawing->page, "x2", TABLE_LEFT + 30.0);
        bite_html_attribute(drawing->page, "y1", y - 4.0);
        bite_html_attribute(drawing->page, "y2", y - 4.0);
        bite_page_text(drawing->page, "/>\n");
    }
    bite_html_label(drawing->page, TABLE_LEFT + 38.0, y, at->advisory ? "mark advise" : "mark",
                    bite_cut_limit_name(&drawing->window->answer->full, (bite_limit_id)limit));
    (void)bite_number_write(round(100.0 * fmin(at->utilization, 99.99)), 6, used, sizeof used);
    (void)bite_number_write(
        round(100.0 *
              fmin(isnan(at->utilization_high) ? at->utilization : at->utilization_high, 99.99)),
        6, high, sizeof high);
    (void)snprintf(text, sizeof text, isnan(at->utilization_high) ? "%s %%" : "%s (%s) %%", used,
                   high);
    bite_html_label(drawing->page, SHEET_WIDE - 14.0, y, "mark end", text);
}

/* The limits that an axis changes, then those that it does not. */
static void table(const bite_svg_drawing *drawing)
{
    const bite_window *window = drawing->window;
    uint32_t order[BITE_LIMIT_COUNT];
    uint32_t fixed[BITE_LIMIT_COUNT];
    size_t count = sorted(drawing, order);
    size_t fixed_count = bite_window_fixed_limits(window, fixed);
    size_t shown = TABLE_MOST - (fixed_count < FIXED_MOST ? fixed_count : FIXED_MOST);
    double y = BITE_SVG_PLOT_TOP + 10.0;
    bite_html_label(drawing->page, TABLE_LEFT, BITE_SVG_PLOT_TOP - 10.0, "axis",
                    "Utilization (upper 95 %)");
    for (size_t i = 0; i < count && shown > 0; i++) {
        if (!window->fixed[order[i]]) {
            table_line(drawing, order[i], y);
            y += ROW;
            shown--;
        }
    }
    if (fixed_count > 0) {
        bite_html_label(drawing->page, TABLE_LEFT, y + 8.0, "axis", "The same at every place:");
        y += ROW + 6.0;
    }
    for (size_t i = 0; i < fixed_count && i < FIXED_MOST; i++, y += ROW) {
        table_line(drawing, fixed[i], y);
    }
    bite_html_label(drawing->page, TABLE_LEFT, y + 8.0, "small",
                    "A thick line: the capacity is used up.");
    bite_html_label(drawing->page, TABLE_LEFT, y + 24.0, "small",
                    "Limits in italics are advisory.");
}

/* A sentence wrapped to LINE_CHARACTERS; returns the y of the next line. */
static double paragraph(bite_page *page, double y, const char *text)
{
    while (*text != 0) {
        char line[LINE_CHARACTERS + 1];
        size_t length = strlen(text);
        if (length > LINE_CHARACTERS) {
            length = LINE_CHARACTERS;
            while (length > 1 && text[length] != ' ') {
                length--;
            }
        }
        memcpy(line, text, length);
        line[length] = 0;
        bite_html_label(page, BITE_SVG_PLOT_LEFT - 60.0, y, "foot", line);
        y += 18.0;
        text += length;
        text += strspn(text, " ");
    }
    return y;
}

static void opening(const bite_svg_drawing *drawing, const char *title)
{
    char text[400];
    bite_page *page = drawing->page;
    (void)snprintf(text, sizeof text,
                   "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" height=\"%d\" "
                   "viewBox=\"0 0 %d %d\" role=\"img\" "
                   "aria-labelledby=\"window-title window-text\">\n<title id=\"window-title\">",
                   SHEET_WIDE, SHEET_HIGH, SHEET_WIDE, SHEET_HIGH);
    bite_page_text(page, text);
    bite_html_text(page, title);
    bite_page_text(page, "</title>\n<desc id=\"window-text\">");
    bite_window_point_text(page, drawing->window, text, sizeof text);
    bite_html_text(page, text);
    for (int up = 0; up < 2; up++) {
        bite_page_text(page, ". ");
        bite_window_range_text(page, drawing->window, up, text, sizeof text);
        bite_html_text(page, text);
    }
    bite_page_text(page, ".</desc>\n");
    bite_page_text(page, "<style>\n");
    bite_page_text(page, bite_svg_style);
    bite_page_text(page, "</style>\n");
    bite_page_text(page, bite_svg_patterns);
    bite_page_text(page, "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
}

static void draw(bite_svg_drawing *drawing)
{
    char title[400];
    char text[BITE_LIMIT_COUNT * 48];
    bite_page *page = drawing->page;
    bite_answer_title_text(page, drawing->window->answer, title, sizeof title);
    opening(drawing, title);
    bite_html_label(page, BITE_SVG_PLOT_LEFT - 60.0, 30.0, "title", title);
    bite_svg_key(drawing, 54.0);
    bite_svg_plot(drawing);
    table(drawing);
    bite_window_point_text(page, drawing->window, text, sizeof text);
    double y = paragraph(page, FOOT_TOP, text);
    for (int up = 0; up < 2; up++) {
        bite_window_range_text(page, drawing->window, up, text, sizeof text);
        y = paragraph(page, y, text);
    }
    bite_window_fixed_text(drawing->window, text, sizeof text);
    (void)paragraph(page, y, text);
    bite_page_text(page, "</svg>\n");
}

bite_status bite_window_svg(const bite_window *window, bite_page *page, bite_error *error)
{
    bite_svg_drawing drawing;
    int made = bite_svg_drawing_make(&drawing, page, window);
    if (made) {
        draw(&drawing);
    }
    bite_svg_drawing_free(&drawing);
    return made ? bite_page_close(page, error)
                : bite_error_set(error, BITE_NO_MEMORY, "no memory for the drawing");
}
