/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of the limits in the drawing of a window, and their names beside them. */
#include "core/report/window/svg_lines.h"
#include "core/base/number.h"
#include "core/names/registry.h"
#include "core/report/html.h"
#include "core/report/window/axis.h"
#include <math.h>
#include <string.h>

/* Approximate width of a letter of the labels on lines, px. */
static const double letter_wide = 6.1;

/* Colours that colour-blind readers can distinguish (Okabe and Ito 2008; memory), each with its own
 * dash pattern. */
const bite_svg_pen bite_svg_pens[BITE_SVG_PENS] = {
    {"#0072b2", ""},        {"#d55e00", "9 3"},          {"#009e73", "3 3"},
    {"#000000", "9 3 2 3"}, {"#8a3a70", "14 4"},         {"#7a5c00", "5 5"},
    {"#2a7fb0", "2 2"},     {"#a03030", "12 3 2 3 2 3"}, {"#555555", "6 2"},
};

void bite_svg_number(bite_page *page, double value)
{
    char text[40];
    (void)bite_number_write(round(value * 10.0) / 10.0, 6, text, sizeof text);
    bite_page_text(page, text);
}

double bite_svg_x(const bite_window *window, double position)
{
    return BITE_SVG_PLOT_LEFT + BITE_SVG_PLOT_WIDE * position / (double)(window->across.count - 1);
}

double bite_svg_y(const bite_window *window, double position)
{
    return BITE_SVG_PLOT_TOP +
           BITE_SVG_PLOT_HIGH * (1.0 - position / (double)(window->up.count - 1));
}

void bite_svg_line(const bite_svg_drawing *drawing, uint32_t limit)
{
    const bite_contour *contour = &drawing->line[limit];
    bite_page *page = drawing->page;
    size_t pen = drawing->pen[limit];
    bite_page_text(page, drawing->window->binds[limit] ? "<path class=\"line\" stroke=\""
                                                       : "<path class=\"advice\" stroke=\"");
    bite_page_text(page, bite_svg_pens[pen].colour);
    bite_page_text(page, "\" stroke-dasharray=\"");
    bite_page_text(page, bite_svg_pens[pen].dash[0] == 0 ? "none" : bite_svg_pens[pen].dash);
    bite_page_text(page, "\" d=\"");
    for (size_t i = 0; i < contour->line_count; i++) {
        const bite_spot *spot = contour->spots + contour->lines[i].from;
        for (size_t k = 0; k < contour->lines[i].count; k++) {
            bite_page_text(page, k == 0 ? "M" : "L");
            bite_svg_number(page, bite_svg_x(drawing->window, spot[k].x));
            bite_page_text(page, " ");
            bite_svg_number(page, bite_svg_y(drawing->window, spot[k].y));
        }
    }
    bite_page_text(page, "\"><title>");
    bite_html_text(page, bite_limit_name((bite_limit_id)limit));
    bite_page_text(page, "</title></path>\n");
}

int bite_svg_has_line(const bite_svg_drawing *drawing, uint32_t limit)
{
    return drawing->line[limit].spot_count > 1;
}

/* Distance of a label's middle from what it must not cover. Labels are wide and low, so that height
 * counts more. */
static double label_distance(bite_spot a, bite_spot b)
{
    return hypot(a.x - b.x, 2.5 * (a.y - b.y));
}

static double free_space(const bite_svg_drawing *drawing, uint32_t limit, bite_spot middle,
                         double half)
{
    double space = 80.0;
    double here_x =
        BITE_SVG_PLOT_LEFT + BITE_SVG_PLOT_WIDE * bite_axis_share(&drawing->window->across,
                                                                  drawing->window->across.here);
    double here_y = BITE_SVG_PLOT_TOP +
                    BITE_SVG_PLOT_HIGH *
                        (1.0 - bite_axis_share(&drawing->window->up, drawing->window->up.here));
    bite_spot here = {here_x, here_y};
    space = fmin(space, middle.x - half - BITE_SVG_PLOT_LEFT);
    space = fmin(space, BITE_SVG_PLOT_LEFT + BITE_SVG_PLOT_WIDE - middle.x - half);
    space = fmin(space, 2.0 * (middle.y - 10.0 - BITE_SVG_PLOT_TOP));
    space = fmin(space, 2.0 * (BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH - middle.y - 4.0));
    space = fmin(space, label_distance(middle, here) - half);
    for (size_t i = 0; i < drawing->labels; i++) {
        space = fmin(space, label_distance(middle, drawing->label[i]) - 2.0 * half);
    }
    for (uint32_t other = 0; other < BITE_LIMIT_COUNT; other++) {
        for (size_t i = 0; other != limit && i < drawing->line[other].spot_count; i++) {
            bite_spot spot = {bite_svg_x(drawing->window, drawing->line[other].spots[i].x),
                              bite_svg_y(drawing->window, drawing->line[other].spots[i].y)};
            space = fmin(space, label_distance(middle, spot) - half);
        }
    }
    return space;
}

void bite_svg_name_line(bite_svg_drawing *drawing, uint32_t limit)
{
    const bite_contour *contour = &drawing->line[limit];
    const char *name = bite_limit_name((bite_limit_id)limit);
    double half = 0.5 * letter_wide * (double)strlen(name);
    double best = -INFINITY;
    bite_spot position = {0.0, 0.0};
    for (size_t i = 0; i < contour->spot_count; i++) {
        double x = bite_svg_x(drawing->window, contour->spots[i].x);
        double y = bite_svg_y(drawing->window, contour->spots[i].y);
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
    bite_page_text(drawing->page, bite_svg_pens[drawing->pen[limit]].colour);
    bite_page_text(drawing->page, "\">");
    bite_html_text(drawing->page, name);
    bite_page_text(drawing->page, "</text>\n");
}
