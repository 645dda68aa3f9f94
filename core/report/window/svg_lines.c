/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of the limits in the drawing of a window, each with its name on it. */
#include "core/report/window/svg_lines.h"
#include "core/base/number.h"
#include "core/names/registry.h"
#include "core/report/html.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Approximate width of a letter of the labels on lines, px. */
static const double letter_wide = 6.3;

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

static bite_spot spot_of(const bite_svg_drawing *drawing, bite_spot cells)
{
    bite_spot spot = {bite_svg_x(drawing->window, cells.x), bite_svg_y(drawing->window, cells.y)};
    return spot;
}

int bite_svg_has_line(const bite_svg_drawing *drawing, uint32_t limit)
{
    return drawing->line[limit].spot_count > 1;
}

/* ---- drawing ---- */

/* Whether the edge of the clear region is that of this limit, at a position in cells. */
static int bounds_clear(const bite_svg_drawing *drawing, uint32_t limit, bite_spot cells)
{
    const bite_window *window = drawing->window;
    size_t across = (size_t)fmin(round(cells.x), (double)window->across.count - 1.0);
    size_t up = (size_t)fmin(round(cells.y), (double)window->up.count - 1.0);
    uint32_t worst = BITE_LIMIT_COUNT;
    (void)bite_window_worst(window, across, up, BITE_WINDOW_MARGIN | BITE_WINDOW_MOVING, &worst);
    return worst == limit;
}

static void write_contour(const bite_svg_drawing *drawing, uint32_t limit, int is_edge)
{
    const bite_contour *contour = is_edge ? &drawing->edge[limit] : &drawing->line[limit];
    bite_page *page = drawing->page;
    for (size_t i = 0; i < contour->line_count; i++) {
        const bite_spot *spot = contour->spots + contour->lines[i].from;
        int pen_down = 0;
        for (size_t k = 0; k < contour->lines[i].count; k++) {
            if (is_edge && !bounds_clear(drawing, limit, spot[k])) {
                pen_down = 0;
                continue;
            }
            bite_page_text(page, pen_down ? "L" : "M");
            bite_svg_number(page, bite_svg_x(drawing->window, spot[k].x));
            bite_page_text(page, " ");
            bite_svg_number(page, bite_svg_y(drawing->window, spot[k].y));
            pen_down = 1;
        }
    }
}

static void draw_contour(const bite_svg_drawing *drawing, uint32_t limit, int is_edge)
{
    bite_page *page = drawing->page;
    const bite_svg_pen *pen = &bite_svg_pens[drawing->pen[limit]];
    bite_html_put(page, "<path class=\"%s\"",
                  is_edge                         ? "edge"
                  : drawing->window->binds[limit] ? "line"
                                                  : "advice");
    if (!is_edge) {
        bite_html_put(page, " stroke=\"%s\" stroke-dasharray=\"%s\"", pen->colour,
                      pen->dash[0] == 0 ? "none" : pen->dash);
    }
    bite_page_text(page, " d=\"");
    write_contour(drawing, limit, is_edge);
    bite_html_put(page, "\"><title>%s%s</title></path>\n",
                  bite_cut_limit_name(&drawing->window->answer->full, (bite_limit_id)limit),
                  is_edge ? ", upper 95 %" : "");
}

/* ---- names ---- */

/* A label lies along its line, its middle at `middle`, turned by `angle` degrees. */
typedef struct label_place {
    bite_spot middle;
    double angle;
    double space; /* px to the nearest thing that it must not cover */
} label_place;

static double distance(bite_spot a, bite_spot b)
{
    return hypot(a.x - b.x, a.y - b.y);
}

/* The distance of a point to the label's middle line. */
static double from_label(const label_place *place, double half, bite_spot spot)
{
    double turn = place->angle * acos(-1.0) / 180.0;
    double along = (spot.x - place->middle.x) * cos(turn) + (spot.y - place->middle.y) * sin(turn);
    double off = (spot.y - place->middle.y) * cos(turn) - (spot.x - place->middle.x) * sin(turn);
    return hypot(fmax(0.0, fabs(along) - half), off);
}

static double space_in_plot(const label_place *place, double half)
{
    double turn = place->angle * acos(-1.0) / 180.0;
    double wide = fabs(half * cos(turn)) + 7.0 * fabs(sin(turn));
    double high = fabs(half * sin(turn)) + 7.0 * fabs(cos(turn));
    double x = fmin(place->middle.x - BITE_SVG_PLOT_LEFT,
                    BITE_SVG_PLOT_LEFT + BITE_SVG_PLOT_WIDE - place->middle.x);
    double y = fmin(place->middle.y - BITE_SVG_PLOT_TOP,
                    BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH - place->middle.y);
    return fmin(x - wide, y - high);
}

/* Other lines count only when they are near: a name may cross one, but does so where it must. */
static double free_space(const bite_svg_drawing *drawing, uint32_t limit, const label_place *place,
                         double half)
{
    const bite_window *window = drawing->window;
    bite_spot here = {
        BITE_SVG_PLOT_LEFT +
            BITE_SVG_PLOT_WIDE * bite_axis_share(&window->across, window->across.here),
        BITE_SVG_PLOT_TOP +
            BITE_SVG_PLOT_HIGH * (1.0 - bite_axis_share(&window->up, window->up.here))};
    double space = fmin(60.0, 3.0 * space_in_plot(place, half));
    space = fmin(space, from_label(place, half, here) - 8.0);
    for (size_t i = 0; i < drawing->labels; i++) {
        const bite_spot *ends = drawing->label[i];
        for (double share = 0.0; share <= 1.0; share += 0.125) {
            bite_spot spot = {ends[0].x + share * (ends[1].x - ends[0].x),
                              ends[0].y + share * (ends[1].y - ends[0].y)};
            space = fmin(space, 2.0 * (from_label(place, half, spot) - 13.0));
        }
    }
    for (uint32_t other = 0; other < BITE_LIMIT_COUNT; other++) {
        for (size_t i = 0; other != limit && i < drawing->line[other].spot_count; i++) {
            double near =
                from_label(place, half, spot_of(drawing, drawing->line[other].spots[i])) - 3.0;
            space = fmin(space, 3.0 * near);
        }
    }
    return space;
}

/* The place of a label centred on spot k of a line, along the chord from `half` before it to `half`
 * behind it. 0: the line is too short or too bent there. */
static int place_at(const bite_svg_drawing *drawing, const bite_spot *spots, size_t count, size_t k,
                    double half, label_place *place)
{
    bite_spot middle = spot_of(drawing, spots[k]);
    bite_spot ends[2] = {middle, middle};
    for (size_t i = k; i-- > 0 && distance(ends[0], middle) < half;) {
        ends[0] = spot_of(drawing, spots[i]);
    }
    for (size_t i = k + 1; i < count && distance(ends[1], middle) < half; i++) {
        ends[1] = spot_of(drawing, spots[i]);
    }
    double chord = distance(ends[0], ends[1]);
    double bent = chord > 0.0 ? fabs((ends[1].x - ends[0].x) * (middle.y - ends[0].y) -
                                     (ends[1].y - ends[0].y) * (middle.x - ends[0].x)) /
                                    chord
                              : INFINITY;
    if (chord < 2.0 * half || bent > 5.0) {
        return 0;
    }
    int back = ends[1].x < ends[0].x;
    double turn =
        atan2(back ? ends[0].y - ends[1].y : ends[1].y - ends[0].y, fabs(ends[1].x - ends[0].x));
    place->middle = middle;
    place->angle = turn * 180.0 / acos(-1.0);
    return 1;
}

static void take_better(const bite_svg_drawing *drawing, uint32_t limit, label_place *place,
                        double half, label_place *best)
{
    place->space = free_space(drawing, limit, place, half);
    *best = place->space > best->space ? *place : *best;
}

/* The places of a level label around a spot: above and below it, left of it, over it and right of
 * it. */
static void try_beside(const bite_svg_drawing *drawing, uint32_t limit, bite_spot spot, double half,
                       label_place *best)
{
    for (int side = 0; side < 6; side++) {
        double x = spot.x + (double)(side / 2 - 1) * (half + 5.0);
        label_place place = {{x, spot.y + (side % 2 ? 10.0 : -10.0)}, 0.0, 0.0};
        take_better(drawing, limit, &place, half, best);
    }
}

/* The best place on a contour; a short or bent one has its name level, beside it. */
static label_place best_place(const bite_svg_drawing *drawing, uint32_t limit,
                              const bite_contour *contour, int is_edge, double half)
{
    label_place best = {{0.0, 0.0}, 0.0, -INFINITY};
    for (int along = 1; along >= 0 && best.space < -4.0; along--) {
        for (size_t i = 0; i < contour->line_count; i++) {
            const bite_spot *spots = contour->spots + contour->lines[i].from;
            size_t count = contour->lines[i].count;
            for (size_t k = 0; k < count; k++) {
                label_place place;
                if (is_edge && !bounds_clear(drawing, limit, spots[k])) {
                    continue;
                }
                if (!along) {
                    try_beside(drawing, limit, spot_of(drawing, spots[k]), half, &best);
                } else if (place_at(drawing, spots, count, k, half, &place)) {
                    take_better(drawing, limit, &place, half, &best);
                }
            }
        }
    }
    return best;
}

static void keep_label(bite_svg_drawing *drawing, const label_place *place, double half)
{
    double turn = place->angle * acos(-1.0) / 180.0;
    bite_spot *ends = drawing->label[drawing->labels++];
    ends[0] = (bite_spot){place->middle.x - half * cos(turn), place->middle.y - half * sin(turn)};
    ends[1] = (bite_spot){place->middle.x + half * cos(turn), place->middle.y + half * sin(turn)};
}

static void write_name(bite_svg_drawing *drawing, uint32_t limit, int is_edge)
{
    bite_page *page = drawing->page;
    char text[80];
    char number[40];
    bite_page_plain(bite_cut_limit_name(&drawing->window->answer->full, (bite_limit_id)limit), text,
                    sizeof text - 8);
    (void)snprintf(text + strlen(text), 8, is_edge ? " 95 %%" : "");
    const bite_contour *contour = is_edge ? &drawing->edge[limit] : &drawing->line[limit];
    double half = 0.5 * letter_wide * (double)strlen(text) + 3.0;
    label_place place = best_place(drawing, limit, contour, is_edge, half);
    if (!isfinite(place.space) || drawing->labels >= BITE_SVG_LABELS_MAX) {
        return; /* no part of it is in the plot */
    }
    keep_label(drawing, &place, half);
    bite_page_text(page, "<text transform=\"translate(");
    bite_svg_number(page, place.middle.x);
    bite_page_text(page, " ");
    bite_svg_number(page, place.middle.y);
    (void)bite_number_write(round(place.angle), 4, number, sizeof number);
    bite_html_put(page, ") rotate(%s)\" dy=\"3.8\" class=\"%s\">%s</text>\n", number,
                  is_edge                         ? "name edge-name"
                  : drawing->window->binds[limit] ? "name"
                                                  : "name advise",
                  text);
}

/* Whether some of the edge of a limit bounds the clear region. */
static int has_edge(const bite_svg_drawing *drawing, uint32_t limit)
{
    const bite_contour *contour = &drawing->edge[limit];
    size_t count = 0;
    for (size_t i = 0; i < contour->spot_count; i++) {
        count += bounds_clear(drawing, limit, contour->spots[i]) ? 1 : 0;
    }
    return count > 1;
}

/* A contour with a name: its limit, and whether it is the edge of the clear region. */
typedef struct named_contour {
    uint32_t limit;
    int is_edge;
} named_contour;

/* Binding limits choose their places first, and of these the short contours, which have few. */
static int names_before(const bite_svg_drawing *drawing, named_contour a, named_contour b)
{
    int a_binds = drawing->window->binds[a.limit] != 0;
    int b_binds = drawing->window->binds[b.limit] != 0;
    const bite_contour *of_a = a.is_edge ? &drawing->edge[a.limit] : &drawing->line[a.limit];
    const bite_contour *of_b = b.is_edge ? &drawing->edge[b.limit] : &drawing->line[b.limit];
    return a_binds != b_binds ? a_binds : of_a->spot_count < of_b->spot_count;
}

static void write_names(bite_svg_drawing *drawing)
{
    named_contour order[BITE_SVG_LABELS_MAX];
    size_t count = 0;
    for (uint32_t i = 0; i < 2 * BITE_LIMIT_COUNT; i++) {
        named_contour one = {i / 2, (int)(i % 2)};
        if (!(one.is_edge ? has_edge(drawing, one.limit) : bite_svg_has_line(drawing, one.limit))) {
            continue;
        }
        size_t at = count++;
        for (; at > 0 && names_before(drawing, one, order[at - 1]); at--) {
            order[at] = order[at - 1];
        }
        order[at] = one;
    }
    for (size_t i = 0; i < count; i++) {
        write_name(drawing, order[i].limit, order[i].is_edge);
    }
}

void bite_svg_lines(bite_svg_drawing *drawing)
{
    for (int is_edge = 1; is_edge >= 0; is_edge--) {
        for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
            if (is_edge ? has_edge(drawing, i) : bite_svg_has_line(drawing, i)) {
                draw_contour(drawing, i, is_edge);
            }
        }
    }
    write_names(drawing);
}
