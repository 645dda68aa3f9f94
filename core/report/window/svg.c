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
#include "core/report/window/axis.h"
#include "core/report/window/contour.h"
#include "core/report/window/summary.h"
#include "core/report/window/svg_lines.h"
#include "core/search/operating_window.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The sheet, in px of the drawing; the plot on it is in svg_lines.h. */
#define SHEET_WIDE 840
#define SHEET_HIGH 632
#define TABLE_LEFT 624.0
#define FOOT_TOP 552.0
#define LINE_CHARACTERS 128
#define MARKS_MOST 24
#define TABLE_MOST 14

/* ---- fields ---- */

typedef struct limit_region {
    const bite_window *window;
    uint32_t limit; /* BITE_LIMIT_COUNT: the worst of all binding limits */
    int with_margin;
} limit_region;

/* Most limits are powers of their inputs, so that interpolation in the logarithm is linear. */
static double log_utilization(const void *user, size_t across, size_t up)
{
    const limit_region *region = user;
    uint32_t limit = 0;
    double utilization =
        region->limit == BITE_LIMIT_COUNT
            ? bite_window_worst(region->window, across, up, region->with_margin, &limit)
            : bite_window_utilization(region->window, region->limit, across, up);
    if (region->limit < BITE_LIMIT_COUNT && region->with_margin) {
        utilization *= bite_window_margin(region->window, region->limit, across, up);
    }
    return isnan(utilization) ? utilization : log(fmax(utilization, 1e-9));
}

static bite_grid field_of(const limit_region *region)
{
    bite_grid field = {region->window->across.count, region->window->up.count, log_utilization,
                       region};
    return field;
}

/* ---- areas ---- */

static int fills_cell(const bite_spot *corner, size_t count, size_t across, size_t up)
{
    double x[2] = {(double)across, (double)across + 1.0};
    double y[2] = {(double)up, (double)up + 1.0};
    if (count != 4) {
        return 0;
    }
    for (size_t i = 0; i < 4; i++) {
        if ((corner[i].x != x[0] && corner[i].x != x[1]) ||
            (corner[i].y != y[0] && corner[i].y != y[1])) {
            return 0;
        }
    }
    return 1;
}

static void polygon(const bite_svg_drawing *drawing, const bite_spot *corner, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bite_page_text(drawing->page, i == 0 ? "M" : "L");
        bite_svg_number(drawing->page, bite_svg_x(drawing->window, corner[i].x));
        bite_page_text(drawing->page, " ");
        bite_svg_number(drawing->page, bite_svg_y(drawing->window, corner[i].y));
    }
    bite_page_text(drawing->page, "Z");
}

/* Cells that lie wholly in the area are merged along a line of the grid. */
static void area(const bite_svg_drawing *drawing, const limit_region *region, double low,
                 double high, const char *style)
{
    bite_grid field = field_of(region);
    bite_page_text(drawing->page, "<path class=\"");
    bite_page_text(drawing->page, style);
    bite_page_text(drawing->page, "\" d=\"");
    for (size_t up = 0; up + 1 < field.up; up++) {
        size_t run = 0;
        for (size_t across = 0; across + 1 <= field.across; across++) {
            bite_spot corner[BITE_CORNERS_MAX];
            size_t count = across + 1 == field.across
                               ? 0
                               : bite_contour_cell(&field, across, up, low, high, corner);
            int filled = fills_cell(corner, count, across, up);
            if (!filled && run > 0) {
                double from = (double)(across - run);
                double y = (double)up;
                bite_spot box[4] = {
                    {from, y}, {(double)across, y}, {(double)across, y + 1.0}, {from, y + 1.0}};
                polygon(drawing, box, 4);
            }
            run = filled ? run + 1 : 0;
            if (!filled && count > 0) {
                polygon(drawing, corner, count);
            }
        }
        bite_page_text(drawing->page, "\n");
    }
    bite_page_text(drawing->page, "\"/>\n");
}

static void areas(const bite_svg_drawing *drawing)
{
    const bite_window *window = drawing->window;
    uint32_t nearest = window->answer->result.worst;
    limit_region tight = {window, BITE_LIMIT_COUNT, 1};
    limit_region over = {window, BITE_LIMIT_COUNT, 0};
    limit_region near = {window, nearest, 1};
    area(drawing, &tight, -INFINITY, 0.0, "clear");
    area(drawing, &tight, 0.0, INFINITY, "tight");
    area(drawing, &near, 0.0, INFINITY, "band");
    area(drawing, &over, 0.0, INFINITY, "over");
}

/* ---- axes, point, table ---- */

static void axes(const bite_svg_drawing *drawing)
{
    double marks[MARKS_MOST];
    char text[96];
    const bite_window *window = drawing->window;
    size_t count = bite_window_marks(drawing->page, &window->across, marks, MARKS_MOST);
    for (size_t i = 0; i < count; i++) {
        double x =
            BITE_SVG_PLOT_LEFT + BITE_SVG_PLOT_WIDE * bite_axis_share(&window->across, marks[i]);
        bite_html_line(drawing->page, x, BITE_SVG_PLOT_TOP, x,
                       BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH, "grid");
        (void)bite_number_write(bite_window_axis_number(drawing->page, &window->across, marks[i]),
                                6, text, sizeof text);
        bite_html_label(drawing->page, x, BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH + 17.0,
                        "mark middle", text);
    }
    count = bite_window_marks(drawing->page, &window->up, marks, MARKS_MOST);
    for (size_t i = 0; i < count; i++) {
        double y =
            BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH * (1.0 - bite_axis_share(&window->up, marks[i]));
        bite_html_line(drawing->page, BITE_SVG_PLOT_LEFT, y,
                       BITE_SVG_PLOT_LEFT + BITE_SVG_PLOT_WIDE, y, "grid");
        (void)bite_number_write(bite_window_axis_number(drawing->page, &window->up, marks[i]), 6,
                                text, sizeof text);
        bite_html_label(drawing->page, BITE_SVG_PLOT_LEFT - 7.0, y + 4.0, "mark end", text);
    }
    bite_window_axis_text(drawing->page, &window->across, text, sizeof text);
    bite_html_label(drawing->page, BITE_SVG_PLOT_LEFT + 0.5 * BITE_SVG_PLOT_WIDE,
                    BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH + 38.0, "axis middle", text);
    bite_window_axis_text(drawing->page, &window->up, text, sizeof text);
    bite_html_label(drawing->page, BITE_SVG_PLOT_LEFT - 60.0, BITE_SVG_PLOT_TOP - 10.0, "axis",
                    text);
}

static void point(const bite_svg_drawing *drawing)
{
    const bite_window *window = drawing->window;
    double x = BITE_SVG_PLOT_LEFT +
               BITE_SVG_PLOT_WIDE * bite_axis_share(&window->across, window->across.here);
    double y = BITE_SVG_PLOT_TOP +
               BITE_SVG_PLOT_HIGH * (1.0 - bite_axis_share(&window->up, window->up.here));
    if (x < BITE_SVG_PLOT_LEFT || x > BITE_SVG_PLOT_LEFT + BITE_SVG_PLOT_WIDE ||
        y < BITE_SVG_PLOT_TOP || y > BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH) {
        return; /* the axes do not include the point */
    }
    bite_html_line(drawing->page, x, BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH, x, y, "lead");
    bite_html_line(drawing->page, BITE_SVG_PLOT_LEFT, y, x, y, "lead");
    bite_page_text(drawing->page, "<circle r=\"6\" class=\"point\"");
    bite_html_attribute(drawing->page, "cx", x);
    bite_html_attribute(drawing->page, "cy", y);
    bite_page_text(drawing->page, "><title>the current point</title></circle>\n");
}

static void swatch(bite_page *page, double x, const char *style, const char *text)
{
    bite_page_text(page, "<rect width=\"22\" height=\"12\"");
    bite_html_attribute(page, "x", x);
    bite_html_attribute(page, "y", 54.0);
    bite_page_text(page, " class=\"frame ");
    bite_page_text(page, style);
    bite_page_text(page, "\"/>\n");
    bite_html_label(page, x + 28.0, 64.5, "mark", text);
}

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
        bite_page_text(drawing->page, "<line class=\"line\" stroke=\"");
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
                    bite_limit_name((bite_limit_id)limit));
    (void)bite_number_write(round(100.0 * fmin(at->utilization, 99.99)), 6, used, sizeof used);
    (void)bite_number_write(
        round(100.0 *
              fmin(isnan(at->utilization_high) ? at->utilization : at->utilization_high, 99.99)),
        6, high, sizeof high);
    (void)snprintf(text, sizeof text, isnan(at->utilization_high) ? "%s %%" : "%s (%s) %%", used,
                   high);
    bite_html_label(drawing->page, SHEET_WIDE - 14.0, y, "mark end", text);
}

static void table(const bite_svg_drawing *drawing)
{
    uint32_t order[BITE_LIMIT_COUNT];
    size_t count = sorted(drawing, order);
    double y = BITE_SVG_PLOT_TOP + 10.0;
    bite_html_label(drawing->page, TABLE_LEFT, BITE_SVG_PLOT_TOP - 10.0, "axis",
                    "Utilization (upper 95 %)");
    for (size_t i = 0; i < count && i < TABLE_MOST; i++, y += 22.0) {
        table_line(drawing, order[i], y);
    }
    bite_html_label(drawing->page, TABLE_LEFT, y + 8.0, "small",
                    "A line: the capacity is used up.");
    bite_html_label(drawing->page, TABLE_LEFT, y + 24.0, "small",
                    "Limits in italics are advisory.");
    bite_html_label(drawing->page, TABLE_LEFT, y + 40.0, "small",
                    "Tight: a limit over at upper 95 %.");
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

static const char style[] =
    "<style>\n"
    "text{font-family:Helvetica,Arial,\"DejaVu Sans\",sans-serif;fill:#1a1a1a;font-size:12px}\n"
    ".title{font-size:16px;font-weight:bold}.axis{font-weight:bold}.small,.advise{font-style:"
    "italic}.small{font-size:11px;fill:#"
    "444}\n"
    ".middle{text-anchor:middle}.end{text-anchor:end}.foot{font-size:13px}\n"
    ".name{font-size:11px;font-weight:bold;paint-order:stroke;stroke:#fff;stroke-width:3.5px;"
    "stroke-linejoin:round}\n"
    ".clear{fill:#f1f8f1}.tight{fill:url(#tight)}.over{fill:url(#over)}.band{fill:#000;fill-"
    "opacity:.13}\n"
    "path.clear,path.tight,path.over,path.band{shape-rendering:crispEdges}\n"
    ".frame{stroke:#1a1a1a;stroke-width:1}rect.plot{fill:none}\n"
    ".grid{stroke:#1a1a1a;stroke-opacity:.13;stroke-width:1}.lead{stroke:#1a1a1a;stroke-width:1;"
    "stroke-dasharray:1 3}\n"
    ".line{fill:none;stroke-width:2}.advice{fill:none;stroke-width:1.2}\n"
    ".point{fill:#fff;stroke:#000;stroke-width:3}\n"
    "</style>\n"
    "<defs>\n"
    "<pattern id=\"over\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\" "
    "patternTransform=\"rotate(45)\">"
    "<rect width=\"7\" height=\"7\" fill=\"#dadada\"/><line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"7\" "
    "stroke=\"#8a8a8a\" "
    "stroke-width=\"2\"/>"
    "</pattern>\n"
    "<pattern id=\"tight\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
    "<rect width=\"6\" height=\"6\" fill=\"#fdf4dc\"/><circle cx=\"3\" cy=\"3\" r=\"0.9\" "
    "fill=\"#8a7430\"/></pattern>\n"
    "</defs>\n";

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
    bite_page_text(page, style);
    bite_page_text(page, "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
}

static void draw(bite_svg_drawing *drawing)
{
    char title[400];
    char text[400];
    bite_page *page = drawing->page;
    bite_answer_title_text(page, drawing->window->answer, title, sizeof title);
    opening(drawing, title);
    bite_html_label(page, BITE_SVG_PLOT_LEFT - 60.0, 30.0, "title", title);
    swatch(page, BITE_SVG_PLOT_LEFT - 60.0, "clear", "clear");
    swatch(page, BITE_SVG_PLOT_LEFT + 30.0, "tight", "tight: over within the band");
    swatch(page, BITE_SVG_PLOT_LEFT + 244.0, "over", "over at best estimate");
    swatch(page, BITE_SVG_PLOT_LEFT + 428.0, "band", "band of the nearest limit");
    areas(drawing);
    axes(drawing);
    bite_page_text(page, "<rect class=\"frame plot\"");
    bite_html_attribute(page, "x", BITE_SVG_PLOT_LEFT);
    bite_html_attribute(page, "y", BITE_SVG_PLOT_TOP);
    bite_html_attribute(page, "width", BITE_SVG_PLOT_WIDE);
    bite_html_attribute(page, "height", BITE_SVG_PLOT_HIGH);
    bite_page_text(page, "/>\n");
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (bite_svg_has_line(drawing, i)) {
            bite_svg_line(drawing, i);
        }
    }
    point(drawing);
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (bite_svg_has_line(drawing, i)) {
            bite_svg_name_line(drawing, i);
        }
    }
    table(drawing);
    bite_window_point_text(page, drawing->window, text, sizeof text);
    double y = paragraph(page, FOOT_TOP, text);
    for (int up = 0; up < 2; up++) {
        bite_window_range_text(page, drawing->window, up, text, sizeof text);
        y = paragraph(page, y, text);
    }
    bite_page_text(page, "</svg>\n");
}

bite_status bite_window_svg(const bite_window *window, bite_page *page, bite_error *error)
{
    bite_svg_drawing drawing;
    int made = 1;
    size_t pen = 0;
    memset(&drawing, 0, sizeof drawing);
    drawing.page = page;
    drawing.window = window;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT && made; i++) {
        limit_region region = {window, i, 0};
        bite_grid field = field_of(&region);
        made = bite_contour_find(&field, 0.0, &window->allocator, &drawing.line[i]);
        drawing.pen[i] = pen % BITE_SVG_PENS;
        pen += bite_svg_has_line(&drawing, i) ? 1 : 0;
    }
    if (made) {
        draw(&drawing);
    }
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        bite_contour_free(&window->allocator, &drawing.line[i]);
    }
    return made ? bite_page_close(page, error)
                : bite_error_set(error, BITE_NO_MEMORY, "no memory for the drawing");
}
