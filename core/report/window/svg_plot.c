/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plot of a window: regions, axes, lines, the current point. */
#include "core/report/window/svg_plot.h"
#include "core/base/number.h"
#include "core/report/html.h"
#include "core/report/window/axis.h"
#include "core/report/window/contour.h"
#include <math.h>
#include <string.h>

#define MARKS_MOST 24

const char bite_svg_style[] =
    "text{font-family:Helvetica,Arial,\"DejaVu Sans\",sans-serif;fill:#1a1a1a;font-size:12px}\n"
    ".title{font-size:16px;font-weight:bold}.axis{font-weight:bold}.small,.advise{font-style:"
    "italic}.small{font-size:11px;fill:#444}\n"
    ".middle{text-anchor:middle}.end{text-anchor:end}.foot{font-size:13px}\n"
    ".name{font-size:11px;font-weight:bold;text-anchor:middle;paint-order:stroke;stroke:#fff;"
    "stroke-width:4px;stroke-linejoin:round}.edge-name,.name.advise{font-weight:normal}\n"
    ".clear{fill:#fff}.tight{fill:url(#tight)}.over{fill:url(#over)}\n"
    "path.clear,path.tight,path.over{shape-rendering:crispEdges}\n"
    ".frame{stroke:#1a1a1a;stroke-width:1}rect.plot{fill:none}\n"
    ".grid{stroke:#1a1a1a;stroke-opacity:.13;stroke-width:1}.lead{stroke:#1a1a1a;stroke-width:1;"
    "stroke-dasharray:1 3}\n"
    ".line{fill:none;stroke-width:2.4}.advice{fill:none;stroke-width:1}.edge{fill:none;stroke:"
    "#1a1a1a;stroke-width:1}\n"
    ".point{fill:#fff;stroke:#000;stroke-width:3}\n";

/* Two greys and two patterns, so that print and any colour vision distinguish the regions. */
const char bite_svg_patterns[] =
    "<defs>\n"
    "<pattern id=\"over\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\" "
    "patternTransform=\"rotate(45)\">"
    "<rect width=\"7\" height=\"7\" fill=\"#cfcfcf\"/><line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"7\" "
    "stroke=\"#777\" stroke-width=\"2\"/></pattern>\n"
    "<pattern id=\"tight\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\">"
    "<rect width=\"8\" height=\"8\" fill=\"#f3efe2\"/><circle cx=\"4\" cy=\"4\" r=\"1\" "
    "fill=\"#7d6f45\"/></pattern>\n"
    "</defs>\n";

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
            ? bite_window_worst(region->window, across, up,
                                BITE_WINDOW_MOVING | (region->with_margin ? BITE_WINDOW_MARGIN : 0),
                                &limit)
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
    const double x[2] = {(double)across, (double)across + 1.0};
    const double y[2] = {(double)up, (double)up + 1.0};
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
    limit_region tight = {window, BITE_LIMIT_COUNT, 1};
    limit_region over = {window, BITE_LIMIT_COUNT, 0};
    area(drawing, &tight, -INFINITY, 0.0, "clear");
    area(drawing, &tight, 0.0, INFINITY, "tight");
    area(drawing, &over, 0.0, INFINITY, "over");
}

/* ---- axes, point, key ---- */

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

static void swatch(bite_page *page, double x, double y, const char *style, const char *text)
{
    bite_page_text(page, "<rect width=\"22\" height=\"12\"");
    bite_html_attribute(page, "x", x);
    bite_html_attribute(page, "y", y);
    bite_html_put(page, " class=\"frame %s\"/>\n", style);
    bite_html_label(page, x + 28.0, y + 10.5, "mark", text);
}

void bite_svg_key(const bite_svg_drawing *drawing, double y)
{
    bite_page *page = drawing->page;
    double left = BITE_SVG_PLOT_LEFT - 60.0;
    swatch(page, left, y, "clear", "clear");
    swatch(page, left + 90.0, y, "tight", "tight: over at the upper 95 % of a limit");
    swatch(page, left + 368.0, y, "over", "over at best estimate");
}

void bite_svg_plot(bite_svg_drawing *drawing)
{
    bite_page *page = drawing->page;
    areas(drawing);
    axes(drawing);
    bite_page_text(page, "<rect class=\"frame plot\"");
    bite_html_attribute(page, "x", BITE_SVG_PLOT_LEFT);
    bite_html_attribute(page, "y", BITE_SVG_PLOT_TOP);
    bite_html_attribute(page, "width", BITE_SVG_PLOT_WIDE);
    bite_html_attribute(page, "height", BITE_SVG_PLOT_HIGH);
    bite_page_text(page, "/>\n");
    bite_svg_lines(drawing);
    point(drawing);
}

/* Whether the upper 95 % of a limit differs visibly from its best estimate somewhere. */
static int has_margin(const bite_window *window, uint32_t limit)
{
    static const double visible = 1.005;
    for (size_t up = 0; up < window->up.count; up++) {
        for (size_t across = 0; across < window->across.count; across++) {
            if (bite_window_margin(window, limit, across, up) > visible) {
                return 1;
            }
        }
    }
    return 0;
}

int bite_svg_drawing_make(bite_svg_drawing *drawing, bite_page *page, const bite_window *window)
{
    int made = 1;
    size_t pen = 0;
    memset(drawing, 0, sizeof *drawing);
    drawing->page = page;
    drawing->window = window;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT && made; i++) {
        limit_region region = {window, i, 0};
        limit_region bounded = {window, i, 1};
        bite_grid field = field_of(&region);
        bite_grid bound = field_of(&bounded);
        made = bite_contour_find(&field, 0.0, &window->allocator, &drawing->line[i]);
        if (made && window->binds[i] && !window->fixed[i] && has_margin(window, i)) {
            made = bite_contour_find(&bound, 0.0, &window->allocator, &drawing->edge[i]);
        }
        drawing->pen[i] = pen % BITE_SVG_PENS;
        pen += bite_svg_has_line(drawing, i) ? 1 : 0;
    }
    return made;
}

void bite_svg_drawing_free(bite_svg_drawing *drawing)
{
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        bite_contour_free(&drawing->window->allocator, &drawing->line[i]);
        bite_contour_free(&drawing->window->allocator, &drawing->edge[i]);
    }
}
