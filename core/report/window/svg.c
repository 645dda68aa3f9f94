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
#include "core/search/operating_window.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The sheet and the plot on it, in px of the drawing. */
#define SHEET_WIDE 840
#define SHEET_HIGH 632
#define PLOT_LEFT 86.0
#define PLOT_TOP 92.0
#define PLOT_WIDE 520.0
#define PLOT_HIGH 400.0
#define TABLE_LEFT 624.0
#define FOOT_TOP 552.0
#define LINE_CHARACTERS 128
#define MARKS_MOST 24
#define TABLE_MOST 14

/* Approximate width of a letter of the labels on lines, px. */
static const double letter_wide = 6.1;

/* Colours that colour-blind readers can distinguish (Okabe and Ito 2008; memory), each with its own
 * dash pattern. */
static const struct {
    const char *colour;
    const char *dash;
} pens[] = {
    {"#0072b2", ""},        {"#d55e00", "9 3"},          {"#009e73", "3 3"},
    {"#000000", "9 3 2 3"}, {"#8a3a70", "14 4"},         {"#7a5c00", "5 5"},
    {"#2a7fb0", "2 2"},     {"#a03030", "12 3 2 3 2 3"}, {"#555555", "6 2"},
};
#define PENS (sizeof pens / sizeof *pens)

/* A drawing: the page that it is written to, and all its lines. */
typedef struct svg_drawing {
    bite_page *page;
    const bite_window *window;
    bite_contour line[BITE_LIMIT_COUNT];
    size_t pen[BITE_LIMIT_COUNT];
    bite_spot label[BITE_LIMIT_COUNT]; /* middles of the labels placed so far */
    size_t labels;
} svg_drawing;

/* ---- writing ---- */

static void number(bite_page *page, double value)
{
    char text[40];
    (void)bite_number_write(round(value * 10.0) / 10.0, 6, text, sizeof text);
    bite_page_text(page, text);
}

static double plot_x(const bite_window *window, double position)
{
    return PLOT_LEFT + PLOT_WIDE * position / (double)(window->across.count - 1);
}

static double plot_y(const bite_window *window, double position)
{
    return PLOT_TOP + PLOT_HIGH * (1.0 - position / (double)(window->up.count - 1));
}

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

static void polygon(const svg_drawing *drawing, const bite_spot *corner, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bite_page_text(drawing->page, i == 0 ? "M" : "L");
        number(drawing->page, plot_x(drawing->window, corner[i].x));
        bite_page_text(drawing->page, " ");
        number(drawing->page, plot_y(drawing->window, corner[i].y));
    }
    bite_page_text(drawing->page, "Z");
}

/* Cells that lie wholly in the area are merged along a line of the grid. */
static void area(const svg_drawing *drawing, const limit_region *region, double low, double high,
                 const char *style)
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

static void areas(const svg_drawing *drawing)
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

/* ---- lines ---- */

static void line_of(const svg_drawing *drawing, uint32_t limit)
{
    const bite_contour *contour = &drawing->line[limit];
    bite_page *page = drawing->page;
    size_t pen = drawing->pen[limit];
    bite_page_text(page, drawing->window->binds[limit] ? "<path class=\"line\" stroke=\""
                                                       : "<path class=\"advice\" stroke=\"");
    bite_page_text(page, pens[pen].colour);
    bite_page_text(page, "\" stroke-dasharray=\"");
    bite_page_text(page, pens[pen].dash[0] == 0 ? "none" : pens[pen].dash);
    bite_page_text(page, "\" d=\"");
    for (size_t i = 0; i < contour->line_count; i++) {
        const bite_spot *spot = contour->spots + contour->lines[i].from;
        for (size_t k = 0; k < contour->lines[i].count; k++) {
            bite_page_text(page, k == 0 ? "M" : "L");
            number(page, plot_x(drawing->window, spot[k].x));
            bite_page_text(page, " ");
            number(page, plot_y(drawing->window, spot[k].y));
        }
    }
    bite_page_text(page, "\"><title>");
    bite_html_text(page, bite_limit_name((bite_limit_id)limit));
    bite_page_text(page, "</title></path>\n");
}

static int lies_in_plot(const svg_drawing *drawing, uint32_t limit)
{
    return drawing->line[limit].spot_count > 1;
}

/* Distance of a label's middle from what it must not cover. Labels are wide and low, so that height
 * counts more. */
static double label_distance(bite_spot a, bite_spot b)
{
    return hypot(a.x - b.x, 2.5 * (a.y - b.y));
}

static double free_space(const svg_drawing *drawing, uint32_t limit, bite_spot middle, double half)
{
    double space = 80.0;
    double here_x = PLOT_LEFT + PLOT_WIDE * bite_axis_share(&drawing->window->across,
                                                            drawing->window->across.here);
    double here_y = PLOT_TOP + PLOT_HIGH * (1.0 - bite_axis_share(&drawing->window->up,
                                                                  drawing->window->up.here));
    bite_spot here = {here_x, here_y};
    space = fmin(space, middle.x - half - PLOT_LEFT);
    space = fmin(space, PLOT_LEFT + PLOT_WIDE - middle.x - half);
    space = fmin(space, 2.0 * (middle.y - 10.0 - PLOT_TOP));
    space = fmin(space, 2.0 * (PLOT_TOP + PLOT_HIGH - middle.y - 4.0));
    space = fmin(space, label_distance(middle, here) - half);
    for (size_t i = 0; i < drawing->labels; i++) {
        space = fmin(space, label_distance(middle, drawing->label[i]) - 2.0 * half);
    }
    for (uint32_t other = 0; other < BITE_LIMIT_COUNT; other++) {
        for (size_t i = 0; other != limit && i < drawing->line[other].spot_count; i++) {
            bite_spot spot = {plot_x(drawing->window, drawing->line[other].spots[i].x),
                              plot_y(drawing->window, drawing->line[other].spots[i].y)};
            space = fmin(space, label_distance(middle, spot) - half);
        }
    }
    return space;
}

/* Names a line where there is most free space beside it. */
static void name_line(svg_drawing *drawing, uint32_t limit)
{
    const bite_contour *contour = &drawing->line[limit];
    const char *name = bite_limit_name((bite_limit_id)limit);
    double half = 0.5 * letter_wide * (double)strlen(name);
    double best = -INFINITY;
    bite_spot position = {0.0, 0.0};
    for (size_t i = 0; i < contour->spot_count; i++) {
        double x = plot_x(drawing->window, contour->spots[i].x);
        double y = plot_y(drawing->window, contour->spots[i].y);
        for (int side = 0; side < 4; side++) {
            bite_spot middle = {x + (side % 2 ? -1.0 : 1.0) * (half + 5.0),
                                y + (side / 2 ? 12.0 : -5.0)};
            double space = free_space(drawing, limit, middle, half);
            if (space > best) {
                best = space;
                position = middle;
            }
        }
    }
    if (best < -half) { /* no free space: only the table names it */
        return;
    }
    drawing->label[drawing->labels++] = position;
    bite_page_text(drawing->page, "<text text-anchor=\"middle\"");
    bite_html_attribute(drawing->page, "x", position.x);
    bite_html_attribute(drawing->page, "y", position.y);
    bite_page_text(drawing->page, " class=\"name\" fill=\"");
    bite_page_text(drawing->page, pens[drawing->pen[limit]].colour);
    bite_page_text(drawing->page, "\">");
    bite_html_text(drawing->page, name);
    bite_page_text(drawing->page, "</text>\n");
}

/* ---- axes, point, table ---- */

static void axes(const svg_drawing *drawing)
{
    double marks[MARKS_MOST];
    char text[96];
    const bite_window *window = drawing->window;
    size_t count = bite_window_marks(drawing->page, &window->across, marks, MARKS_MOST);
    for (size_t i = 0; i < count; i++) {
        double x = PLOT_LEFT + PLOT_WIDE * bite_axis_share(&window->across, marks[i]);
        bite_html_line(drawing->page, x, PLOT_TOP, x, PLOT_TOP + PLOT_HIGH, "grid");
        (void)bite_number_write(bite_window_axis_number(drawing->page, &window->across, marks[i]),
                                6, text, sizeof text);
        bite_html_label(drawing->page, x, PLOT_TOP + PLOT_HIGH + 17.0, "mark middle", text);
    }
    count = bite_window_marks(drawing->page, &window->up, marks, MARKS_MOST);
    for (size_t i = 0; i < count; i++) {
        double y = PLOT_TOP + PLOT_HIGH * (1.0 - bite_axis_share(&window->up, marks[i]));
        bite_html_line(drawing->page, PLOT_LEFT, y, PLOT_LEFT + PLOT_WIDE, y, "grid");
        (void)bite_number_write(bite_window_axis_number(drawing->page, &window->up, marks[i]), 6,
                                text, sizeof text);
        bite_html_label(drawing->page, PLOT_LEFT - 7.0, y + 4.0, "mark end", text);
    }
    bite_window_axis_text(drawing->page, &window->across, text, sizeof text);
    bite_html_label(drawing->page, PLOT_LEFT + 0.5 * PLOT_WIDE, PLOT_TOP + PLOT_HIGH + 38.0,
                    "axis middle", text);
    bite_window_axis_text(drawing->page, &window->up, text, sizeof text);
    bite_html_label(drawing->page, PLOT_LEFT - 60.0, PLOT_TOP - 10.0, "axis", text);
}

static void point(const svg_drawing *drawing)
{
    const bite_window *window = drawing->window;
    double x = PLOT_LEFT + PLOT_WIDE * bite_axis_share(&window->across, window->across.here);
    double y = PLOT_TOP + PLOT_HIGH * (1.0 - bite_axis_share(&window->up, window->up.here));
    if (x < PLOT_LEFT || x > PLOT_LEFT + PLOT_WIDE || y < PLOT_TOP || y > PLOT_TOP + PLOT_HIGH) {
        return; /* the axes do not include the point */
    }
    bite_html_line(drawing->page, x, PLOT_TOP + PLOT_HIGH, x, y, "lead");
    bite_html_line(drawing->page, PLOT_LEFT, y, x, y, "lead");
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
static size_t sorted(const svg_drawing *drawing, uint32_t *order)
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

static void table_line(const svg_drawing *drawing, uint32_t limit, double y)
{
    const bite_limit *at = &drawing->window->answer->result.limits[limit];
    char used[24];
    char high[24];
    char text[96];
    if (lies_in_plot(drawing, limit)) {
        bite_page_text(drawing->page, "<line class=\"line\" stroke=\"");
        bite_page_text(drawing->page, pens[drawing->pen[limit]].colour);
        bite_page_text(drawing->page, "\" stroke-dasharray=\"");
        bite_page_text(drawing->page, pens[drawing->pen[limit]].dash[0] == 0
                                          ? "none"
                                          : pens[drawing->pen[limit]].dash);
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

static void table(const svg_drawing *drawing)
{
    uint32_t order[BITE_LIMIT_COUNT];
    size_t count = sorted(drawing, order);
    double y = PLOT_TOP + 10.0;
    bite_html_label(drawing->page, TABLE_LEFT, PLOT_TOP - 10.0, "axis", "Utilization (upper 95 %)");
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
        bite_html_label(page, PLOT_LEFT - 60.0, y, "foot", line);
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

static void opening(const svg_drawing *drawing, const char *title)
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

static void draw(svg_drawing *drawing)
{
    char title[400];
    char text[400];
    bite_page *page = drawing->page;
    bite_answer_title_text(page, drawing->window->answer, title, sizeof title);
    opening(drawing, title);
    bite_html_label(page, PLOT_LEFT - 60.0, 30.0, "title", title);
    swatch(page, PLOT_LEFT - 60.0, "clear", "clear");
    swatch(page, PLOT_LEFT + 30.0, "tight", "tight: over within the band");
    swatch(page, PLOT_LEFT + 244.0, "over", "over at best estimate");
    swatch(page, PLOT_LEFT + 428.0, "band", "band of the nearest limit");
    areas(drawing);
    axes(drawing);
    bite_page_text(page, "<rect class=\"frame plot\"");
    bite_html_attribute(page, "x", PLOT_LEFT);
    bite_html_attribute(page, "y", PLOT_TOP);
    bite_html_attribute(page, "width", PLOT_WIDE);
    bite_html_attribute(page, "height", PLOT_HIGH);
    bite_page_text(page, "/>\n");
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (lies_in_plot(drawing, i)) {
            line_of(drawing, i);
        }
    }
    point(drawing);
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (lies_in_plot(drawing, i)) {
            name_line(drawing, i);
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
    svg_drawing drawing;
    int made = 1;
    size_t pen = 0;
    memset(&drawing, 0, sizeof drawing);
    drawing.page = page;
    drawing.window = window;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT && made; i++) {
        limit_region region = {window, i, 0};
        bite_grid field = field_of(&region);
        made = bite_contour_find(&field, 0.0, &window->allocator, &drawing.line[i]);
        drawing.pen[i] = pen % PENS;
        pen += lies_in_plot(&drawing, i) ? 1 : 0;
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
