/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window as plain text: a map of signs, its axes, and the same in words. */
#include "core/report/window/text.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/names/registry.h"
#include "core/report/cut.h"
#include "core/report/cut_text.h"
#include "core/report/style.h"
#include "core/report/window/csv_json.h"
#include "core/report/window/svg.h"
#include "core/report/window/window.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define PAGE_LINES 24
#define MAP_LEAST 9
#define MAP_LINES_MOST 17
#define MARGIN 9 /* left of the map */
#define MAP_MOST 200
#define MARKS_MOST 24

/* The unit of an axis is that of its middle, for all of it. */
static const char *unit_of(const bite_page *page, const bite_axis *axis, double *scale)
{
    double middle = bite_axis_at(axis, 0.5);
    double number = 0.0;
    const char *unit = bite_unit_shop(middle, (bite_kind)axis->input->kind, page->units, &number);
    *scale = number / middle;
    return unit;
}

double bite_window_axis_number(const bite_page *page, const bite_axis *axis, double si)
{
    double scale = 1.0;
    if (axis->input->kind == BITE_KIND_TEMPERATURE) { /* has another zero */
        double number = 0.0;
        (void)bite_unit_shop(si, BITE_KIND_TEMPERATURE, page->units, &number);
        return number;
    }
    (void)unit_of(page, axis, &scale);
    return si * scale;
}

void bite_window_axis_text(const bite_page *page, const bite_axis *axis, char *to, size_t size)
{
    char name[48];
    double scale = 1.0;
    const char *unit = unit_of(page, axis, &scale);
    bite_page_plain(axis->input->name, name, sizeof name);
    (void)snprintf(to, size, unit[0] == 0 ? "%s" : "%s, %s", name, unit);
}

size_t bite_window_marks(const bite_page *page, const bite_axis *axis, double *marks, size_t most)
{
    static const double steps[] = {1.0, 2.0, 5.0, 10.0};
    double low = bite_window_axis_number(page, axis, axis->least);
    double high = bite_window_axis_number(page, axis, axis->most);
    size_t count = 0;
    if (axis->logarithmic) {
        for (double decade = pow(10.0, floor(log10(low))); decade <= high; decade *= 10.0) {
            for (int i = 0; i < 3; i++) {
                double mark = decade * steps[i];
                if (mark >= low * 0.999 && mark <= high * 1.001 && count < most) {
                    marks[count++] = axis->least * mark / low;
                }
            }
        }
        return count;
    }
    double decade = pow(10.0, floor(log10((high - low) / 4.0)));
    double step = decade;
    for (int i = 0; i < 4 && (high - low) / step > 6.0; i++) {
        step = decade * steps[i];
    }
    step = axis->input->whole && step < 1.0 ? 1.0 : step;
    for (double mark = step * ceil(low / step); mark <= high * (1.0 + 1e-9) && count < most;
         mark += step) {
        marks[count++] = axis->least + (mark - low) / (high - low) * (axis->most - axis->least);
    }
    return count;
}

static void quantity(bite_page *page, const bite_axis *axis, double si, char *to, size_t size)
{
    bite_page_quantity(page, si, (bite_kind)axis->input->kind, to, size);
}

/* Of a plain number its name too: "flutes 2". */
static void named(bite_page *page, const bite_axis *axis, char *to, size_t size)
{
    size_t used = 0;
    if (axis->input->kind == BITE_KIND_NUMBER) {
        bite_page_plain(axis->input->name, to, size - 1);
        used = strlen(to);
        to[used++] = ' ';
    }
    quantity(page, axis, axis->here, to + used, size - used);
}

void bite_window_point_text(bite_page *page, const bite_window *window, char *to, size_t size)
{
    const bite_result *result = &window->answer->result;
    char across[96];
    char up[96];
    char use[24];
    char chance[24];
    double percent = isnan(result->chance) ? 0.0 : 100.0 * result->chance;
    named(page, &window->across, across, sizeof across);
    named(page, &window->up, up, sizeof up);
    (void)bite_number_write(round(100.0 * result->limits[result->worst].utilization), 6, use,
                            sizeof use);
    (void)bite_number_write(percent < 1.0 ? percent : round(percent), percent < 1.0 ? 1 : 6, chance,
                            sizeof chance);
    int used = snprintf(to, size, "At %s and %s: %s, %s uses %s %% of its room", across, up,
                        bite_verdict_name((bite_verdict)result->verdict),
                        bite_limit_name((bite_limit_id)result->worst), use);
    if (result->draws > 0 && used > 0 && (size_t)used < size) {
        used += snprintf(to + used, size - (size_t)used, "; chance that something goes over: %s %%",
                         chance);
    }
    if (used > 0 && (size_t)used < size) {
        bite_advisory_text(result, to + used, size - (size_t)used);
    }
}

/* Three digits: the grid has no more. */
static void rounded(bite_page *page, const bite_axis *axis, double si, int up, char *to,
                    size_t size)
{
    double number = bite_window_axis_number(page, axis, si);
    double step = pow(10.0, floor(log10(fabs(number) + 1e-300)) - 1.0);
    double kept =
        axis->input->kind == BITE_KIND_TEMPERATURE
            ? si
            : si * (up ? ceil(number / step - 1e-9) : floor(number / step + 1e-9)) * step / number;
    /* and not past the point, which lies within */
    quantity(page, axis, up ? fmin(kept, axis->here) : fmax(kept, axis->here), to, size);
}

void bite_window_room_text(bite_page *page, const bite_window *window, int along_up, char *to,
                           size_t size)
{
    const bite_axis *axis = along_up ? &window->up : &window->across;
    const bite_axis *fixed = along_up ? &window->across : &window->up;
    double least = 0.0;
    double most = 0.0;
    char name[48];
    char from[48];
    char until[48];
    char other[96];
    bite_page_plain(axis->input->name, name, sizeof name);
    named(page, fixed, other, sizeof other);
    if (!bite_window_clear(window, along_up, &least, &most)) {
        (void)snprintf(to, size, "At %s no %s near the point is clear", other, name);
        return;
    }
    if (!(least < most)) {
        (void)snprintf(to, size,
                       "At %s this %s is clear, at the brink: no step of the picture either way is",
                       other, name);
        return;
    }
    rounded(page, axis, least, 1, from, sizeof from);
    rounded(page, axis, most, 0, until, sizeof until);
    (void)snprintf(to, size, "At %s each limit alone is clear from %s %s to %s", other, name, from,
                   until);
}

/* ---- the map ---- */

static size_t place_of(double share, size_t cells)
{
    double at = share * (double)(cells - 1);
    return at <= 0.0 ? 0 : at >= (double)(cells - 1) ? cells - 1 : (size_t)lround(at);
}

/* A letter for each row that is over or tight somewhere in the map; the rows are the verdict's
 * foremost ones. */
typedef struct map_legend {
    size_t lines; /* of the map */
    char sign[BITE_LIMIT_COUNT];
    int seen[BITE_LIMIT_COUNT];
    int blank; /* there are places that are no cut, such as a width beyond the tool's */
} map_legend;

/* The first letter of its name that no other has. */
static char free_letter(const char *name, int *taken)
{
    for (const char *letter = name; *letter != 0; letter++) {
        if (*letter >= 'a' && *letter <= 'z' && !taken[*letter - 'a']) {
            taken[*letter - 'a'] = 1;
            return *letter;
        }
    }
    for (int i = 0; i < 26; i++) {
        if (!taken[i]) {
            taken[i] = 1;
            return (char)('a' + i);
        }
    }
    return '?';
}

/* The row that a place is over or tight for; BITE_LIMIT_COUNT: none. */
static uint32_t row_at(const bite_window *window, size_t across, size_t up, bite_verdict verdict)
{
    uint32_t limit = BITE_LIMIT_COUNT;
    if (verdict >= BITE_TIGHT) {
        (void)bite_window_worst(window, across, up, verdict == BITE_TIGHT, &limit);
    }
    return limit;
}

static size_t point_line(const bite_window *window, size_t lines)
{
    return place_of(bite_axis_share(&window->up, window->up.here), lines);
}

/* The place of a line, from below. The point's own line shows what is beside the point, not what is
 * half a line off. */
static size_t up_of(const bite_window *window, size_t line, size_t lines)
{
    return line == point_line(window, lines)
               ? bite_axis_nearest(&window->up)
               : place_of((double)line / (double)(lines - 1), window->up.count);
}

static void make_legend(const bite_window *window, size_t cells, size_t lines, map_legend *legend)
{
    int taken[26] = {0};
    memset(legend, 0, sizeof *legend);
    legend->lines = lines;
    for (size_t line = 0; line < lines; line++) {
        for (size_t i = 0; i < cells; i++) {
            size_t across = place_of((double)i / (double)(cells - 1), window->across.count);
            size_t up = up_of(window, line, lines);
            bite_verdict verdict = bite_window_verdict(window, across, up);
            uint32_t limit = row_at(window, across, up, verdict);
            legend->blank |= verdict == BITE_NOT_JUDGED;
            if (limit < BITE_LIMIT_COUNT && !legend->seen[limit]) {
                legend->seen[limit] = 1;
            }
        }
    }
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        legend->sign[i] =
            legend->seen[i] ? free_letter(bite_limit_name((bite_limit_id)i), taken) : '?';
    }
}

static char sign_at(const bite_window *window, size_t across, size_t up, const map_legend *legend)
{
    bite_verdict verdict = bite_window_verdict(window, across, up);
    uint32_t limit = row_at(window, across, up, verdict);
    if (limit < BITE_LIMIT_COUNT) {
        return verdict == BITE_OVER && legend->sign[limit] != '?'
                   ? (char)(legend->sign[limit] - 'a' + 'A')
                   : legend->sign[limit];
    }
    return verdict == BITE_CLEAR ? '.' : ' ';
}

static void write_mark(const bite_page *page, const bite_axis *axis, double si, char *to,
                       size_t size)
{
    (void)bite_number_write(bite_window_axis_number(page, axis, si), 6, to, size);
}

static void map_line(bite_page *page, const bite_window *window, size_t line, size_t cells,
                     const map_legend *legend)
{
    double marks[MARKS_MOST];
    char row[MAP_MOST + 1];
    char left[40] = "";
    size_t count = bite_window_marks(page, &window->up, marks, MARKS_MOST);
    size_t from_below = legend->lines - 1 - line;
    size_t here = point_line(window, legend->lines);
    size_t up = up_of(window, from_below, legend->lines);
    for (size_t i = 0; i < count; i++) {
        if (place_of(bite_axis_share(&window->up, marks[i]), legend->lines) == from_below) {
            write_mark(page, &window->up, marks[i], left, sizeof left);
        }
    }
    for (size_t i = 0; i < cells; i++) {
        row[i] = sign_at(window, place_of((double)i / (double)(cells - 1), window->across.count),
                         up, legend);
    }
    row[cells] = 0;
    if (from_below == here) {
        row[place_of(bite_axis_share(&window->across, window->across.here), cells)] = '@';
    }
    bite_page_pad_left(page, left, MARGIN - 2);
    bite_page_text(page, " |");
    bite_page_line(page, row);
}

/* Marks under the map, as far as they do not run into each other. */
static void map_foot(bite_page *page, const bite_window *window, size_t cells)
{
    double marks[MARKS_MOST];
    char line[MAP_MOST + MARGIN + 40];
    size_t count = bite_window_marks(page, &window->across, marks, MARKS_MOST);
    size_t end = MARGIN;
    memset(line, ' ', sizeof line);
    for (size_t i = 0; i < count; i++) {
        char text[40];
        write_mark(page, &window->across, marks[i], text, sizeof text);
        size_t length = strlen(text);
        size_t middle = MARGIN + place_of(bite_axis_share(&window->across, marks[i]), cells);
        size_t from = middle > length / 2 ? middle - length / 2 : 0;
        if (from >= end && from + length <= MARGIN + cells) {
            memcpy(line + from, text, length);
            end = from + length + 1; /* a blank behind it at least */
        }
    }
    line[end > MARGIN ? end - 1 : end] = 0;
    bite_page_line(page, line);
}

static void key(bite_page *page, const map_legend *legend)
{
    char line[BITE_LIMIT_COUNT * 40 + 200];
    int used = snprintf(
        line, sizeof line,
        "@ the point in use; . each limit alone is clear; CAPITAL over, small letter tight:");
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (legend->seen[i] && used > 0 && (size_t)used < sizeof line) {
            used += snprintf(line + used, sizeof line - (size_t)used, " %c %s,", legend->sign[i],
                             bite_limit_name((bite_limit_id)i));
        }
    }
    if (used > 0 && (size_t)used < sizeof line) {
        line[used - 1] = line[used - 1] == ',' ? 0 : line[used - 1];
    }
    if (legend->blank) {
        (void)strncat(line, "; blank: no such cut", sizeof line - strlen(line) - 1);
    }
    bite_page_wrap(page, "", "  ", line);
}

/* Above the map: the cut, and what goes up and across. */
static void head(bite_page *page, const bite_window *window)
{
    char text[400];
    char up[80];
    char across[80];
    bite_answer_title_text(page, window->answer, text, sizeof text);
    bite_page_wrap(page, "", "  ", text);
    bite_window_axis_text(page, &window->up, up, sizeof up);
    bite_window_axis_text(page, &window->across, across, sizeof across);
    (void)snprintf(text, sizeof text, "up: %s; across: %s", up, across);
    bite_page_wrap(page, "", "  ", text);
}

/* Under the map: what its signs mean, and the same in words. */
static void foot(bite_page *page, const bite_window *window, const map_legend *legend)
{
    char text[400];
    key(page, legend);
    bite_window_point_text(page, window, text, sizeof text);
    bite_page_wrap(page, "", "  ", text);
    for (int up = 0; up < 2; up++) {
        bite_window_room_text(page, window, up, text, sizeof text);
        bite_page_wrap(page, "", "  ", text);
    }
}

static int nowhere(void *user, const char *text, size_t size)
{
    (void)user;
    (void)text;
    (void)size;
    return 0;
}

/* The map has the lines that the words leave of a screen. */
static size_t map_lines(const bite_page *page, const bite_window *window, size_t cells)
{
    map_legend legend;
    bite_page blind = *page;
    blind.writer.sink = nowhere;
    make_legend(window, cells, MAP_LINES_MOST, &legend);
    head(&blind, window);
    foot(&blind, window, &legend);
    size_t left = blind.lines + 1 < PAGE_LINES ? PAGE_LINES - blind.lines - 1
                                               : 0; /* one for the marks across */
    return left < MAP_LEAST ? MAP_LEAST : left > MAP_LINES_MOST ? MAP_LINES_MOST : left;
}

static bite_status write_map(const bite_window *window, bite_page *page, bite_error *error)
{
    map_legend legend;
    size_t cells = page->columns - MARGIN;
    cells = cells > 72 ? 72 : cells;
    make_legend(window, cells, map_lines(page, window, cells), &legend);
    head(page, window);
    for (size_t i = 0; i < legend.lines; i++) {
        map_line(page, window, i, cells, &legend);
    }
    map_foot(page, window, cells);
    foot(page, window, &legend);
    return bite_page_close(page, error);
}

bite_status bite_window_write(const bite_window *window, const bite_style *style, bite_sink sink,
                              void *user, bite_error *error)
{
    bite_page page;
    bite_style plain;
    bite_error_clear(error);
    if (window == NULL || style == NULL) {
        bite_error_set(error, BITE_BAD_ARGUMENT, "a window and a style were expected");
        bite_error_key(error, "style");
        return BITE_BAD_ARGUMENT;
    }
    bite_status status = bite_style_check(
        style, sink, BITE_STYLE_PAGE | BITE_STYLE_FORMAT(BITE_CSV) | BITE_STYLE_FORMAT(BITE_SVG),
        error);
    if (status != BITE_OK) {
        return status;
    }
    plain = *style;
    plain.format = BITE_TEXT;
    if (!bite_page_open(&page, &plain, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    switch (style->format) {
    case BITE_CSV:
        return bite_window_csv(window, &page, error);
    case BITE_JSON:
        return bite_window_json(window, &page, error);
    case BITE_SVG:
        return bite_window_svg(window, &page, error);
    default:
        return write_map(window, &page, error);
    }
}
