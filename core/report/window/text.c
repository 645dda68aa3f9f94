/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window as plain text: a map of letters, its axes, and the same in words. */
#include "core/report/window/text.h"
#include "core/base/number.h"
#include "core/report/cut_text.h"
#include "core/report/window/axis.h"
#include "core/report/window/summary.h"
#include "core/search/operating_window.h"
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

static size_t place_of(double share, size_t cells)
{
    double at = share * (double)(cells - 1);
    return !(at > 0.0) ? 0 : at >= (double)(cells - 1) ? cells - 1 : (size_t)lround(at);
}

/* A letter for each limit that is the worst one of a cell that is over or tight. */
typedef struct map_legend {
    size_t lines; /* of the map */
    char letter[BITE_LIMIT_COUNT];
    int seen[BITE_LIMIT_COUNT];
    int blank; /* some cells are not a valid cut, such as a width beyond the tool's */
} map_legend;

/* The first letter of the name that no other limit has. */
static char free_letter(const char *name, int *used_letters)
{
    for (const char *letter = name; *letter != 0; letter++) {
        if (*letter >= 'a' && *letter <= 'z' && !used_letters[*letter - 'a']) {
            used_letters[*letter - 'a'] = 1;
            return *letter;
        }
    }
    for (int i = 0; i < 26; i++) {
        if (!used_letters[i]) {
            used_letters[i] = 1;
            return (char)('a' + i);
        }
    }
    return '?';
}

/* The limit that an axis changes and that makes a cell over or tight; BITE_LIMIT_COUNT: none. */
static uint32_t limit_at(const bite_window *window, size_t across, size_t up, bite_verdict verdict)
{
    uint32_t limit = BITE_LIMIT_COUNT;
    if (verdict >= BITE_TIGHT) {
        (void)bite_window_worst(
            window, across, up,
            BITE_WINDOW_MOVING | (verdict == BITE_TIGHT ? BITE_WINDOW_MARGIN : 0), &limit);
    }
    return limit;
}

static size_t point_line(const bite_window *window, size_t lines)
{
    return place_of(bite_axis_share(&window->up, window->up.here), lines);
}

/* The grid index of a line, from below. The line of the current point shows the grid line nearest
 * to the point, not one up to half a map line away. */
static size_t up_of(const bite_window *window, size_t line, size_t lines)
{
    return line == point_line(window, lines)
               ? bite_axis_nearest(&window->up)
               : place_of((double)line / (double)(lines - 1), window->up.count);
}

static void make_legend(const bite_window *window, size_t cells, size_t lines, map_legend *legend)
{
    int used_letters[26] = {0};
    memset(legend, 0, sizeof *legend);
    legend->lines = lines;
    for (size_t line = 0; line < lines; line++) {
        for (size_t i = 0; i < cells; i++) {
            size_t across = place_of((double)i / (double)(cells - 1), window->across.count);
            size_t up = up_of(window, line, lines);
            bite_verdict verdict = bite_window_verdict(window, across, up, BITE_WINDOW_MOVING);
            uint32_t limit = limit_at(window, across, up, verdict);
            legend->blank |= verdict == BITE_NOT_JUDGED;
            if (limit < BITE_LIMIT_COUNT && !legend->seen[limit]) {
                legend->seen[limit] = 1;
            }
        }
    }
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        legend->letter[i] =
            legend->seen[i]
                ? free_letter(bite_cut_limit_name(&window->answer->full, (bite_limit_id)i),
                              used_letters)
                : '?';
    }
}

static char letter_at(const bite_window *window, size_t across, size_t up, const map_legend *legend)
{
    bite_verdict verdict = bite_window_verdict(window, across, up, BITE_WINDOW_MOVING);
    uint32_t limit = limit_at(window, across, up, verdict);
    if (limit < BITE_LIMIT_COUNT) {
        return verdict == BITE_OVER && legend->letter[limit] != '?'
                   ? (char)(legend->letter[limit] - 'a' + 'A')
                   : legend->letter[limit];
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
        row[i] = letter_at(window, place_of((double)i / (double)(cells - 1), window->across.count),
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

/* Tick marks under the map; those that would overlap are left out. */
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
            end = from + length + 1; /* at least one blank after it */
        }
    }
    line[end > MARGIN ? end - 1 : end] = 0;
    bite_page_line(page, line);
}

static void write_key(bite_page *page, const bite_window *window, const map_legend *legend)
{
    char line[BITE_LIMIT_COUNT * 40 + 200];
    int used =
        snprintf(line, sizeof line,
                 "@ current point; . each limit shown is clear; CAPITAL over, small letter tight:");
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (legend->seen[i] && used > 0 && (size_t)used < sizeof line) {
            used += snprintf(line + used, sizeof line - (size_t)used, " %c %s,", legend->letter[i],
                             bite_cut_limit_name(&window->answer->full, (bite_limit_id)i));
        }
    }
    if (used > 0 && (size_t)used < sizeof line) {
        line[used - 1] = line[used - 1] == ',' ? 0 : line[used - 1];
    }
    if (legend->blank) {
        (void)strncat(line, "; blank: no valid cut", sizeof line - strlen(line) - 1);
    }
    bite_page_wrap(page, "", "  ", line);
}

/* Above the map: the cut and the titles of the axes. */
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

/* Under the map: what its letters mean, and the same in words. */
static void foot(bite_page *page, const bite_window *window, const map_legend *legend)
{
    char text[BITE_LIMIT_COUNT * 48];
    write_key(page, window, legend);
    bite_window_fixed_text(window, text, sizeof text);
    if (text[0] != 0) {
        bite_page_wrap(page, "", "  ", text);
    }
    bite_window_point_text(page, window, text, sizeof text);
    bite_page_wrap(page, "", "  ", text);
    for (int up = 0; up < 2; up++) {
        bite_window_range_text(page, window, up, text, sizeof text);
        bite_page_wrap(page, "", "  ", text);
    }
}

static int discard(void *user, const char *text, size_t size)
{
    (void)user;
    (void)text;
    (void)size;
    return 0;
}

/* The map has the lines of the screen that the texts leave free. */
static size_t map_lines(const bite_page *page, const bite_window *window, size_t cells)
{
    map_legend legend;
    bite_page measured = *page;
    bite_writer_start(&measured.writer, discard, NULL);
    make_legend(window, cells, MAP_LINES_MOST, &legend);
    head(&measured, window);
    foot(&measured, window, &legend);
    size_t left = measured.lines + 1 < PAGE_LINES
                      ? PAGE_LINES - measured.lines - 1
                      : 0; /* one for the marks of the horizontal axis */
    return left < MAP_LEAST ? MAP_LEAST : left > MAP_LINES_MOST ? MAP_LINES_MOST : left;
}

bite_status bite_window_text(const bite_window *window, bite_page *page, bite_error *error)
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
