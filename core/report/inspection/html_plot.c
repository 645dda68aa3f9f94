/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plots of readings. The marks differ in shape and filling, so that they do in grey. */
#include "core/report/inspection/html_plot.h"
#include <math.h>
#include <stdio.h>

/* The plot in the drawing, px. */
#define WIDE 720.0
#define HIGH 232.0
#define LEFT 62.0
#define RIGHT 588.0
#define TOP 14.0
#define BOTTOM 196.0
#define LABEL_STEP 13.0
#define PARTS_DRAWN 1500 /* more marks than px show nothing */

typedef struct size_plot {
    bite_inspection_page *html;
    const bite_characteristic *characteristic;
    const bite_characteristic_result *result;
    bite_size_form form;
    size_t parts;
    double least; /* m, at the bottom */
    double most;
} size_plot;

/* fmin and fmax pass over NaN, so that absent limits do not count. */
static void find_range(size_plot *plot)
{
    const bite_characteristic_result *result = plot->result;
    double own = isnan(result->uncertainty) ? 0.0 : 2.0 * result->uncertainty;
    double guard = isnan(result->guard) ? 0.0 : result->guard;
    double least = plot->characteristic->lower - guard;
    double most = plot->characteristic->upper + guard;
    for (size_t i = 0; i < plot->parts; i++) {
        least = fmin(least, result->parts[i].least - own);
        most = fmax(most, result->parts[i].most + own);
    }
    least = fmin(least, bite_stated_nominal(plot->characteristic));
    most = fmax(most, bite_stated_nominal(plot->characteristic));
    double room = most > least ? 0.06 * (most - least) : fmax(fabs(most) * 1e-3, 1e-6);
    plot->least = least - room;
    plot->most = most + room;
}

static double height_of(const size_plot *plot, double size)
{
    return BOTTOM - (BOTTOM - TOP) * (size - plot->least) / (plot->most - plot->least);
}

static double place_of(const size_plot *plot, size_t part)
{
    return LEFT + (RIGHT - LEFT) * ((double)part + 0.5) / (double)plot->parts;
}

/* A level with its name on the right. */
typedef struct plot_level {
    double size;
    const char *name;
    const char *look;
} plot_level;

/* Draws the levels from below, so that their names can keep their distance. */
static void draw_levels(const size_plot *plot, plot_level *levels, size_t count)
{
    bite_page *page = &plot->html->page;
    double label = BOTTOM + 3.0 * LABEL_STEP;
    char text[100];
    for (size_t i = 1; i < count; i++) { /* by insertion */
        for (size_t k = i; k > 0 && levels[k].size < levels[k - 1].size; k--) {
            plot_level moved = levels[k];
            levels[k] = levels[k - 1];
            levels[k - 1] = moved;
        }
    }
    for (size_t i = 0; i < count; i++) {
        double y = height_of(plot, levels[i].size);
        (void)snprintf(text, sizeof text, "%s %s", levels[i].name,
                       bite_size_number(&plot->form, levels[i].size).text);
        bite_html_line(page, LEFT, y, RIGHT, y, levels[i].look);
        label = fmin(y + 4.0, label - LABEL_STEP);
        bite_html_label(page, RIGHT + 6.0, label, "", text);
    }
}

/* Within the band around a limit nothing is proven. */
static void guard(const size_plot *plot, double limit)
{
    double half = plot->result->guard;
    if (isfinite(limit) && half > 0.0) {
        double top = height_of(plot, limit + half);
        bite_html_box(&plot->html->page, LEFT, top, RIGHT - LEFT,
                      height_of(plot, limit - half) - top, "guard");
    }
}

/* The shape of a finding around a point: a dot, a diamond, a cross, or a ring if nothing is judged.
 */
static void mark(bite_page *page, double x, double y, uint32_t finding)
{
    if (finding == BITE_FINDING_NOT_PROVEN || finding == BITE_FINDING_DOES_NOT) {
        bite_html_put(page, "<path class=\"mark\" d=\"M%s %s",
                      bite_plain_number(round(10.0 * x) / 10.0, 5).text,
                      bite_plain_number(round(10.0 * y) / 10.0, 5).text);
        bite_page_text(page, finding == BITE_FINDING_NOT_PROVEN
                                 ? "m0 -4.6l4.6 4.6l-4.6 4.6l-4.6 -4.6z\"/>\n"
                                 : "m-3.6 -3.6l7.2 7.2m0 -7.2l-7.2 7.2\"/>\n");
        return;
    }
    bite_page_text(page, "<circle r=\"3.2\"");
    bite_html_attribute(page, "cx", x);
    bite_html_attribute(page, "cy", y);
    bite_page_text(page, finding == BITE_FINDING_NONE ? " class=\"mark\"/>\n"
                                                      : " class=\"mark solid\"/>\n");
}

/* Each reading of a part, and how far two standard uncertainties reach. */
static void points(const size_plot *plot)
{
    const bite_inspection *inspection = plot->html->inspection;
    bite_page *page = &plot->html->page;
    for (size_t i = 0; i < plot->parts; i++) {
        const bite_part_value *part = &plot->result->parts[i];
        double x = place_of(plot, i);
        double reach = 2.0 * part->uncertainty;
        if (reach > 0.0) {
            bite_html_line(page, x, height_of(plot, part->most + reach), x,
                           height_of(plot, part->least - reach), "bar");
        }
        for (size_t k = 0; k < part->count; k++) {
            const bite_reading *reading = plot->result->readings[part->first + k];
            mark(page, x, height_of(plot, reading->value_20),
                 inspection->readings[reading - inspection->record->readings].finding);
        }
    }
}

static void numbers(const size_plot *plot)
{
    static const double apart = 26.0; /* px that a number needs */
    bite_page *page = &plot->html->page;
    size_t step = (size_t)ceil(apart * (double)plot->parts / (RIGHT - LEFT));
    step = step < 1 ? 1 : step;
    for (size_t i = 0; i < plot->parts; i += step) {
        bite_html_label(page, place_of(plot, i), BOTTOM + 15.0, "middle",
                        bite_html_count(plot->result->parts[i].part).text);
    }
    bite_html_label(page, 0.5 * (LEFT + RIGHT), BOTTOM + 31.0, "middle",
                    plot->result->by_time ? "part, in the order of time" : "part");
    bite_html_label(page, LEFT - 6.0, TOP + 10.0, "end",
                    bite_size_number(&plot->form, plot->most).text);
    bite_html_label(page, LEFT - 6.0, BOTTOM, "end",
                    bite_size_number(&plot->form, plot->least).text);
    bite_html_label(page, LEFT - 6.0, 0.5 * (TOP + BOTTOM), "end", plot->form.unit);
}

static void levels(const size_plot *plot)
{
    const plot_level all[] = {{plot->characteristic->lower, "lower", "limit"},
                              {bite_stated_nominal(plot->characteristic), "nominal", "nominal"},
                              {plot->result->moments.mean, "mean", "mean"},
                              {plot->characteristic->upper, "upper", "limit"}};
    plot_level stated[sizeof all / sizeof *all];
    size_t count = 0;
    guard(plot, plot->characteristic->lower);
    guard(plot, plot->characteristic->upper);
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        if (!isnan(all[i].size)) {
            stated[count++] = all[i];
        }
    }
    draw_levels(plot, stated, count);
}

static void caption(const size_plot *plot)
{
    const bite_characteristic_result *result = plot->result;
    bite_page *page = &plot->html->page;
    bite_html_put(page, "<figcaption>%s parts, %s readings. Mean %s, least %s, most %s",
                  bite_html_count((double)result->part_count).text,
                  bite_html_count((double)result->stands).text,
                  bite_size_text(&plot->form, result->moments.mean).text,
                  bite_size_text(&plot->form, result->moments.least).text,
                  bite_size_text(&plot->form, result->moments.most).text);
    if (!isnan(result->moments.deviation)) {
        bite_html_put(page, ", standard deviation %s",
                      bite_size_spread_text(&plot->form, result->moments.deviation).text);
    }
    bite_html_put(page, ". Limits: %s", bite_limits_text(&plot->form, plot->characteristic).text);
    bite_html_put(page,
                  isnan(result->guard) ? "; the uncertainty is not known, so nothing is proven"
                                       : "; guard band %s on each side of a limit",
                  bite_size_spread_text(&plot->form, result->guard).text);
    if (plot->parts < result->part_count) {
        bite_html_put(page, "; the first %s parts are drawn",
                      bite_html_count((double)plot->parts).text);
    }
    bite_page_text(page, ".</figcaption>\n");
}

void bite_inspection_plot(bite_inspection_page *html, size_t characteristic)
{
    size_plot plot = {html,
                      &html->inspection->record->characteristics[characteristic],
                      &html->inspection->characteristics[characteristic],
                      bite_inspection_form(html, characteristic),
                      0,
                      0.0,
                      0.0};
    bite_page *page = &html->page;
    bite_html_string number = bite_html_count(plot.characteristic->number);
    if (plot.characteristic->judged || plot.result->part_count == 0) {
        return;
    }
    plot.parts = plot.result->part_count < PARTS_DRAWN ? plot.result->part_count : PARTS_DRAWN;
    find_range(&plot);
    bite_html_put(page,
                  "<figure>\n<svg class=\"plot\" role=\"img\" aria-labelledby=\"plot-%s\" "
                  "viewBox=\"0 0 720 232\">\n<title id=\"plot-%s\">Readings of %s with limits and "
                  "guard bands</title>\n",
                  number.text, number.text, plot.characteristic->what);
    levels(&plot);
    bite_html_box(page, LEFT, TOP, RIGHT - LEFT, BOTTOM - TOP, "frame");
    points(&plot);
    numbers(&plot);
    bite_page_text(page, "</svg>\n");
    caption(&plot);
    bite_page_text(page, "</figure>\n");
}

void bite_inspection_plot_pattern(bite_inspection_page *html)
{
    bite_page_text(
        &html->page,
        "<svg class=\"hidden\" aria-hidden=\"true\" width=\"0\" height=\"0\"><defs>\n"
        "<pattern id=\"guard\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"rotate(45)\"><rect width=\"6\" height=\"6\" fill=\"#eee\"/>"
        "<line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"6\" stroke=\"#888\" stroke-width=\"1.4\"/>"
        "</pattern>\n</defs></svg>\n");
}

void bite_inspection_plot_key(bite_inspection_page *html)
{
    static const struct {
        uint32_t finding;
        const char *text;
    } keys[] = {{BITE_FINDING_CONFORMS, "conforms"},
                {BITE_FINDING_NOT_PROVEN, "not proven"},
                {BITE_FINDING_DOES_NOT, "does not conform"}};
    bite_page *page = &html->page;
    bite_page_text(page, "<svg class=\"plot\" role=\"img\" aria-labelledby=\"plot-key\" "
                         "viewBox=\"0 0 720 22\">\n<title id=\"plot-key\">Key to the plots"
                         "</title>\n");
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        double x = 12.0 + 115.0 * (double)i;
        mark(page, x, 11.0, keys[i].finding);
        bite_html_label(page, x + 10.0, 15.0, "", keys[i].text);
    }
    bite_html_box(page, 375.0, 4.0, 26.0, 14.0, "guard");
    bite_html_label(page, 407.0, 15.0, "", "guard band: nothing is proven");
    bite_html_line(page, 590.0, 2.0, 590.0, 20.0, "bar");
    bite_html_label(page, 597.0, 15.0, "", "2 uncertainties");
    bite_page_text(page, "</svg>\n");
}
