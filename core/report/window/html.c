/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A window as one web page for a tablet at the machine. It needs no network: its policy allows
 * nothing but its own script and style. The reading is that of the nearest place of the grid that
 * was computed, whose numbers are in the page as JSON.
 *
 * Without a script the page still has the picture, the reading at the current point and a table of
 * places.
 */
#include "core/report/window/html.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/report/cut_text.h"
#include "core/report/html.h"
#include "core/report/window/axis.h"
#include "core/report/window/html_parts.h"
#include "core/report/window/summary.h"
#include "core/report/window/svg_plot.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define TEXT_MOST (BITE_LIMIT_COUNT * 48)
#define PLACES_ACROSS 7 /* of the table of places */
#define PLACES_UP 7
#define PERCENT_MOST 9999.0

/* ---- numbers ---- */

/* A value of an axis to four digits, with its unit: the grid is no finer. */
static bite_html_string axis_value(bite_page *page, const bite_axis *axis, size_t at)
{
    double si = bite_axis_at(axis, (double)at / (double)(axis->count - 1));
    bite_kind kind = (bite_kind)axis->input->kind;
    double number = 0.0;
    (void)bite_unit_shop(si, kind, page->units, &number);
    double factor = number == 0.0 || kind == BITE_KIND_TEMPERATURE
                        ? 1.0
                        : bite_number_round(number, 4) / number;
    bite_html_string value = bite_html_quantity(page, si * factor, kind);
    if (kind == BITE_KIND_NUMBER) { /* "flutes 2" */
        bite_html_string name = bite_html_plain(axis->input->name);
        bite_html_string both;
        (void)snprintf(both.text, sizeof both.text, "%.*s %.*s", 30, name.text, 30, value.text);
        return both;
    }
    return value;
}

static bite_html_string percent_of(double share)
{
    bite_html_string text = {"null"};
    if (!isnan(share)) {
        (void)bite_number_write(fmin(round(100.0 * share), PERCENT_MOST), 4, text.text,
                                sizeof text.text);
    }
    return text;
}

static char letter_of(bite_verdict verdict)
{
    static const char letters[] = {'n', 'c', 't', 'o', 'n'};
    return letters[verdict <= BITE_UNKNOWN ? (int)verdict : 0];
}

/* Limits in the order of the table: those that an axis changes, by utilization at the current
 * point, then fixed ones. */
static size_t order_limits(const bite_window *window, uint32_t *order)
{
    uint32_t fixed[BITE_LIMIT_COUNT];
    size_t fixed_count = bite_window_fixed_limits(window, fixed);
    size_t across = bite_axis_nearest(&window->across);
    size_t up = bite_axis_nearest(&window->up);
    size_t count = 0;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (!window->applies[i] || window->fixed[i]) {
            continue;
        }
        size_t at = count++;
        for (; at > 0 && !(bite_window_utilization(window, order[at - 1], across, up) >=
                           bite_window_utilization(window, i, across, up));
             at--) {
            order[at] = order[at - 1];
        }
        order[at] = i;
    }
    memcpy(order + count, fixed, fixed_count * sizeof *fixed);
    return count + fixed_count;
}

/* The limit that binds among those that an axis changes, as a position in the order; count: none.
 */
static size_t binding_at(const bite_window *window, const uint32_t *order, size_t count,
                         size_t across, size_t up)
{
    uint32_t limit = BITE_LIMIT_COUNT;
    bite_verdict verdict = bite_window_verdict(window, across, up, BITE_WINDOW_MOVING);
    (void)bite_window_worst(window, across, up,
                            BITE_WINDOW_MOVING | (verdict == BITE_OVER ? 0 : BITE_WINDOW_MARGIN),
                            &limit);
    size_t at = 0;
    while (at < count && order[at] != limit) {
        at++;
    }
    return at;
}

/* ---- the grid as JSON ---- */

static void put_list(bite_page *page, size_t index, const char *text)
{
    bite_page_text(page, index == 0 ? "" : ",");
    bite_page_text(page, text);
}

static void put_axis(bite_page *page, const char *name, const bite_axis *axis)
{
    bite_page_text(page, name);
    for (size_t i = 0; i < axis->count; i++) {
        put_list(page, i, "\"");
        bite_page_text(page, axis_value(page, axis, i).text); /* digits and a unit */
        bite_page_text(page, "\"");
    }
    bite_page_text(page, "]");
}

static void put_verdicts(bite_page *page, const char *name, const bite_window *window,
                         unsigned flags)
{
    bite_page_text(page, name);
    for (size_t up = 0; up < window->up.count; up++) {
        put_list(page, up, "\"");
        for (size_t across = 0; across < window->across.count; across++) {
            char letter[2] = {letter_of(bite_window_verdict(window, across, up, flags)), 0};
            bite_page_text(page, letter);
        }
        bite_page_text(page, "\"\n");
    }
    bite_page_text(page, "]");
}

static void put_binds(bite_page *page, const bite_window *window, const uint32_t *order,
                      size_t count)
{
    bite_page_text(page, ",\"binds\":[");
    for (size_t up = 0; up < window->up.count; up++) {
        put_list(page, up, "[");
        for (size_t across = 0; across < window->across.count; across++) {
            size_t at = binding_at(window, order, count, across, up);
            put_list(page, across, at < count ? bite_html_count((double)at).text : "null");
        }
        bite_page_text(page, "]\n");
    }
    bite_page_text(page, "]");
}

/* Percentages of a limit at every place; one number if it is fixed. */
static void put_shares(bite_page *page, const char *name, const bite_window *window, uint32_t limit,
                       double (*share)(const bite_window *window, size_t limit, size_t across,
                                       size_t up))
{
    bite_page_text(page, name);
    if (window->fixed[limit]) {
        bite_page_text(page, percent_of(share(window, limit, 0, 0)).text);
        return;
    }
    bite_page_text(page, "[");
    for (size_t up = 0; up < window->up.count; up++) {
        put_list(page, up, "[");
        for (size_t across = 0; across < window->across.count; across++) {
            put_list(page, across, percent_of(share(window, limit, across, up)).text);
        }
        bite_page_text(page, "]\n");
    }
    bite_page_text(page, "]");
}

static void put_plot(bite_page *page, const bite_window *window)
{
    const double numbers[] = {BITE_SVG_PLOT_LEFT, BITE_SVG_PLOT_TOP, BITE_SVG_PLOT_WIDE,
                              BITE_SVG_PLOT_HIGH};
    bite_page_text(page, ",\"plot\":[");
    for (size_t i = 0; i < 4; i++) {
        put_list(page, i, bite_html_count(numbers[i]).text);
    }
    bite_page_text(page, "],\"here\":[");
    put_list(page, 0, bite_html_count((double)bite_axis_nearest(&window->across)).text);
    put_list(page, 1, bite_html_count((double)bite_axis_nearest(&window->up)).text);
    bite_page_text(page, "]");
}

/* The fixed limits that make every place tight or over: "gap, corner". */
static void put_everywhere(bite_page *page, const bite_window *window)
{
    uint32_t fixed[BITE_LIMIT_COUNT];
    size_t count = bite_window_fixed_limits(window, fixed);
    size_t written = 0;
    bite_page_text(page, ",\"everywhere\":\"");
    for (size_t i = 0; i < count; i++) {
        if (window->binds[fixed[i]] && bite_window_fixed_verdict(window, fixed[i]) != BITE_CLEAR) {
            bite_page_text(page, written++ == 0 ? "" : ", ");
            bite_page_text(page,
                           bite_cut_limit_name(&window->answer->full, (bite_limit_id)fixed[i]));
        }
    }
    bite_page_text(page, "\"");
}

/* Names of limits, numbers and units only: no text of a table or of a request is in it. */
static void put_grid(bite_page *page, const bite_window *window, const uint32_t *order,
                     size_t count)
{
    bite_page_text(page, "<script type=\"application/json\" id=\"grid\">{");
    put_axis(page, "\"across\":[", &window->across);
    put_axis(page, ",\"up\":[", &window->up);
    put_plot(page, window);
    put_verdicts(page, ",\"verdict\":[", window, 0);
    put_verdicts(page, ",\"moving\":[", window, BITE_WINDOW_MOVING);
    put_binds(page, window, order, count);
    put_everywhere(page, window);
    bite_page_text(page, ",\"limits\":[");
    for (size_t i = 0; i < count; i++) {
        put_list(page, i, "{\"name\":\"");
        bite_page_text(page, bite_cut_limit_name(&window->answer->full, (bite_limit_id)order[i]));
        bite_page_text(page, window->fixed[order[i]] ? "\",\"fixed\":true" : "\",\"fixed\":false");
        put_shares(page, ",\"use\":", window, order[i], bite_window_utilization);
        put_shares(page, ",\"chance\":", window, order[i], bite_window_chance);
        bite_page_text(page, "}\n");
    }
    bite_page_text(page, "]}</script>\n");
}

/* ---- what is read ---- */

static bite_html_string chance_text(double chance)
{
    bite_html_string text = {"-"};
    if (!isnan(chance)) {
        (void)snprintf(text.text, sizeof text.text, "%.16s %%",
                       100.0 * chance < 0.5 ? "under 1" : percent_of(chance).text);
    }
    return text;
}

static void limit_rows(bite_page *page, const bite_window *window, const uint32_t *order,
                       size_t count)
{
    size_t across = bite_axis_nearest(&window->across);
    size_t up = bite_axis_nearest(&window->up);
    size_t binds = binding_at(window, order, count, across, up);
    int clear = bite_window_verdict(window, across, up, BITE_WINDOW_MOVING) == BITE_CLEAR;
    for (size_t i = 0; i < count; i++) {
        double use = bite_window_utilization(window, order[i], across, up);
        bite_html_put(page, "<tr id=\"limit-%s\" class=\"%s\">", bite_html_count((double)i).text,
                      i == binds ? "binds" : "");
        bite_html_put(page,
                      window->binds[order[i]] ? "<th scope=\"row\">%s</th>"
                                              : "<th scope=\"row\"><em>%s</em></th>",
                      bite_cut_limit_name(&window->answer->full, (bite_limit_id)order[i]));
        bite_html_put(page, "<td>%s%s</td><td>%s</td><td>%s</td></tr>\n",
                      isnan(use) ? "-" : percent_of(use).text, isnan(use) ? "" : " %",
                      chance_text(bite_window_chance(window, order[i], across, up)).text,
                      i != binds ? (window->fixed[order[i]] ? "everywhere" : "")
                      : clear    ? "closest"
                                 : "binds");
    }
}

static void keys(bite_page *page)
{
    static const struct {
        const char *key;
        const char *name;
        const char *sign;
    } all[] = {{"ArrowLeft", "one place left", "\xe2\x97\x80"},
               {"ArrowRight", "one place right", "\xe2\x96\xb6"},
               {"ArrowDown", "one place down", "\xe2\x96\xbc"},
               {"ArrowUp", "one place up", "\xe2\x96\xb2"},
               {"Home", "back to the current point", "back"}};
    bite_page_text(page, "<div class=\"keys\">\n");
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        bite_html_put(page,
                      "<button type=\"button\" data-key=\"%s\" aria-label=\"%s\">%s</button>\n",
                      all[i].key, all[i].name, all[i].sign);
    }
    bite_page_text(page, "</div>\n");
}

static void reading(bite_page *page, const bite_window *window, const uint32_t *order, size_t count)
{
    static const char *const capitals[] = {"NOT JUDGED", "CLEAR", "TIGHT", "OVER", "UNKNOWN"};
    static const char *const looks[] = {"not-judged", "clear", "tight", "over", "not-judged"};
    size_t across = bite_axis_nearest(&window->across);
    size_t up = bite_axis_nearest(&window->up);
    bite_verdict verdict = bite_window_verdict(window, across, up, 0);
    char text[TEXT_MOST];
    bite_window_point_text(page, window, text, sizeof text);
    bite_html_put(page,
                  "<section aria-labelledby=\"reading\">\n<h2 id=\"reading\">Reading</h2>\n"
                  "<p class=\"place\"><span id=\"across\">%s</span><span id=\"up\">%s</span></p>\n"
                  "<p id=\"verdict\" class=\"word %s\">%s</p>\n<p id=\"said\">%s.</p>\n",
                  axis_value(page, &window->across, across).text,
                  axis_value(page, &window->up, up).text, looks[verdict], capitals[verdict], text);
    keys(page);
    bite_page_text(page, "<table>\n<caption>Each limit at this place</caption>\n<thead><tr>"
                         "<th scope=\"col\">Limit</th><th scope=\"col\">Used</th>"
                         "<th scope=\"col\">Chance</th><th scope=\"col\"></th></tr></thead>\n"
                         "<tbody>\n");
    limit_rows(page, window, order, count);
    bite_page_text(page, "</tbody></table>\n</section>\n");
}

static void picture(bite_svg_drawing *drawing)
{
    bite_page *page = drawing->page;
    char text[TEXT_MOST];
    bite_page_text(page, "<div class=\"picture\">\n<svg viewBox=\"" BITE_PAGE_VIEW
                         "\" role=\"img\" aria-labelledby=\"window-title window-text\">\n"
                         "<title id=\"window-title\">Operating window</title>\n"
                         "<desc id=\"window-text\">");
    for (int up = 0; up < 2; up++) {
        bite_window_range_text(page, drawing->window, up, text, sizeof text);
        bite_html_put(page, "%s. ", text);
    }
    bite_page_text(page, "</desc>\n");
    bite_page_text(page, bite_svg_patterns);
    bite_svg_key(drawing, 54.0);
    bite_svg_plot(drawing);
    bite_page_text(page, "<line id=\"cross-across\" class=\"cross\"");
    bite_html_attribute(page, "y1", BITE_SVG_PLOT_TOP);
    bite_html_attribute(page, "y2", BITE_SVG_PLOT_TOP + BITE_SVG_PLOT_HIGH);
    bite_page_text(page, "/>\n<line id=\"cross-up\" class=\"cross\"");
    bite_html_attribute(page, "x1", BITE_SVG_PLOT_LEFT);
    bite_html_attribute(page, "x2", BITE_SVG_PLOT_LEFT + BITE_SVG_PLOT_WIDE);
    bite_page_text(page,
                   "/>\n</svg>\n<div id=\"field\" tabindex=\"0\" role=\"application\" "
                   "aria-label=\"Operating window\" aria-describedby=\"help\"></div>\n</div>\n");
}

/* ---- a table instead of the picture ---- */

static size_t nth(size_t index, size_t count, const bite_axis *axis)
{
    return (size_t)lround((double)index * (double)(axis->count - 1) / (double)(count - 1));
}

static size_t fewer(size_t count, const bite_axis *axis)
{
    return count < axis->count ? count : axis->count;
}

static void places(bite_page *page, const bite_window *window, const uint32_t *order, size_t count)
{
    size_t wide = fewer(PLACES_ACROSS, &window->across);
    size_t high = fewer(PLACES_UP, &window->up);
    bite_html_put(
        page,
        "<details open=\"open\"><summary>The picture as a table</summary>\n"
        "<div class=\"wide\"><table class=\"places\">\n<caption>By the limits that change: "
        "verdict, and what binds</caption>\n<thead><tr><th scope=\"col\">%s</th>",
        bite_html_plain(window->up.input->name).text);
    for (size_t i = 0; i < wide; i++) {
        bite_html_put(page, "<th scope=\"col\">%s</th>",
                      axis_value(page, &window->across, nth(i, wide, &window->across)).text);
    }
    bite_page_text(page, "</tr></thead>\n<tbody>\n");
    for (size_t line = high; line-- > 0;) {
        size_t up = nth(line, high, &window->up);
        bite_html_put(page, "<tr><th scope=\"row\">%s</th>",
                      axis_value(page, &window->up, up).text);
        for (size_t i = 0; i < wide; i++) {
            size_t across = nth(i, wide, &window->across);
            bite_verdict verdict = bite_window_verdict(window, across, up, BITE_WINDOW_MOVING);
            size_t at = binding_at(window, order, count, across, up);
            bite_html_put(page, "<td>%s%s%s</td>", bite_verdict_name(verdict),
                          verdict > BITE_CLEAR && at < count ? ": " : "",
                          verdict > BITE_CLEAR && at < count
                              ? bite_cut_limit_name(&window->answer->full, (bite_limit_id)order[at])
                              : "");
        }
        bite_page_text(page, "</tr>\n");
    }
    bite_page_text(page, "</tbody></table></div></details>\n");
}

/* ---- the page ---- */

static void put_pieces(bite_page *page, const char *const *pieces)
{
    for (size_t i = 0; pieces[i] != NULL; i++) {
        bite_page_text(page, pieces[i]);
    }
}

static void head(bite_page *page, const char *title)
{
    bite_html_begin(page, bite_window_page_script_hash, bite_window_page_style_hash);
    bite_html_put(page, "<title>%s</title>\n<style>\n", title);
    put_pieces(page, bite_window_page_style);
    bite_page_text(page, bite_svg_style);
    bite_page_text(page, "</style>\n</head>\n<body>\n");
}

static void notes(bite_page *page, const bite_window *window)
{
    char text[TEXT_MOST];
    char joint[24];
    bite_page_text(page,
                   "<p id=\"help\">Touch or point at the picture, or use the arrow keys; with "
                   "Shift in steps of eight places. Home goes back to the current "
                   "point.</p>\n");
    bite_html_put(page,
                  "<p class=\"note\">A reading is that of the nearest of %s &#215; %s places "
                  "that were computed.",
                  bite_html_count((double)window->across.count).text,
                  bite_html_count((double)window->up.count).text);
    bite_page_text(page,
                   " Each limit is judged on its own; its chance, good to about a tenth, comes of "
                   "draws at 63 places, interpolated. Limits in italics are advisory and never "
                   "bind.");
    if (window->answer->result.draws > 0 && isfinite(window->answer->result.chance)) {
        (void)bite_page_percent(window->answer->result.chance, joint, sizeof joint);
        bite_html_put(page,
                      " The chance that any limit is exceeded is known at the current point "
                      "only: %s %%.",
                      joint);
    }
    bite_html_put(page, "</p>\n<p class=\"note\">");
    for (int up = 0; up < 2; up++) {
        bite_window_range_text(page, window, up, text, sizeof text);
        bite_html_put(page, "%s. ", text);
    }
    bite_html_put(page,
                  "</p>\n<p class=\"note\">coolbite %s. Calculated, not tried: the machine&#39;s "
                  "manual, the safety data sheet and local rules take precedence.</p>\n",
                  bite_version());
}

static void write_page(bite_svg_drawing *drawing)
{
    bite_page *page = drawing->page;
    const bite_window *window = drawing->window;
    uint32_t order[BITE_LIMIT_COUNT];
    size_t count = order_limits(window, order);
    char title[400];
    char fixed[TEXT_MOST];
    bite_answer_title_text(page, window->answer, title, sizeof title);
    bite_window_fixed_text(window, fixed, sizeof fixed);
    head(page, title);
    bite_html_put(page, "<main>\n<h1>%s</h1>\n", title);
    if (fixed[0] != 0) {
        bite_html_put(page, "<p class=\"fixed\">%s.</p>\n", fixed);
    }
    bite_page_text(page, "<div class=\"board\">\n<div>\n");
    picture(drawing);
    bite_page_text(page, "</div>\n");
    reading(page, window, order, count);
    bite_page_text(page, "</div>\n");
    notes(page, window);
    bite_page_text(page, "<p id=\"live\" class=\"unseen\" aria-live=\"polite\"></p>\n");
    places(page, window, order, count);
    bite_page_text(page, "</main>\n");
    put_grid(page, window, order, count);
    bite_page_text(page, "<script>\n");
    put_pieces(page, bite_window_page_script);
    bite_page_text(page, "</script>\n</body>\n</html>\n");
}

bite_status bite_window_html(const bite_window *window, bite_page *page, bite_error *error)
{
    bite_svg_drawing drawing;
    page->control = 1;
    int made = bite_svg_drawing_make(&drawing, page, window);
    if (made) {
        write_page(&drawing);
    }
    bite_svg_drawing_free(&drawing);
    return made ? bite_page_close(page, error)
                : bite_error_set(error, BITE_NO_MEMORY, "no memory for the page");
}
