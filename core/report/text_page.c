/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of plain text. */
#include "core/report/text_page.h"
#include "core/base/number.h"
#include "core/report/style_check.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define COLUMNS_LEAST 30
#define COLUMNS_MOST 400
/* On a narrower page a left column would leave too little width for the right one. */
#define COLUMNS_NARROW 56

bool bite_page_open(bite_page *page, const bite_style *style, bite_sink sink, void *user,
                    bite_error *error)
{
    static const bite_style usual = {.struct_size = (uint32_t)sizeof usual};
    const bite_style *given = style == NULL ? &usual : style;
    if (bite_style_check(style, sink, BITE_STYLE_PAGE, error) != BITE_OK) {
        return false;
    }
    bite_writer_start(&page->writer, sink, user);
    page->columns = given->columns == 0 ? 80 : given->columns;
    page->columns = page->columns < COLUMNS_LEAST ? COLUMNS_LEAST : page->columns;
    page->columns = page->columns > COLUMNS_MOST ? COLUMNS_MOST : page->columns;
    page->colour = given->colour;
    page->ascii = given->ascii;
    page->control = 0;
    page->units = (bite_units)given->units;
    page->compact = bite_style_is_compact(style);
    page->lines = 0;
    return true;
}

bite_status bite_page_close(bite_page *page, bite_error *error)
{
    if (bite_writer_end(&page->writer) != BITE_OK) {
        return bite_error_set(error, page->writer.status, "the output was refused");
    }
    return BITE_OK;
}

void bite_page_text(bite_page *page, const char *text)
{
    bite_writer_text(&page->writer, text);
}

void bite_page_line(bite_page *page, const char *text)
{
    bite_writer_text(&page->writer, text);
    bite_writer_text(&page->writer, "\n");
    page->lines++;
}

static void blanks(bite_page *page, size_t count)
{
    for (; count > 0; count--) {
        bite_writer_text(&page->writer, " ");
    }
}

void bite_page_pad(bite_page *page, const char *text, size_t width)
{
    size_t wide = bite_text_columns(text, strlen(text));
    bite_writer_text(&page->writer, text);
    blanks(page, wide < width ? width - wide : 0);
}

void bite_page_pad_left(bite_page *page, const char *text, size_t width)
{
    size_t wide = bite_text_columns(text, strlen(text));
    blanks(page, wide < width ? width - wide : 0);
    bite_writer_text(&page->writer, text);
}

void bite_page_plain(const char *name, char *buffer, size_t size)
{
    size_t length = strnlen(name, size - 1);
    for (size_t i = 0; i < length; i++) {
        buffer[i] = name[i] == '_' ? ' ' : name[i];
    }
    buffer[length] = 0;
}

void bite_page_wrap(bite_page *page, const char *first, const char *rest, const char *text)
{
    bite_page_wrap_tinted(page, 0, first, rest, text);
}

/* In ASCII mode each other character of a name or title becomes a question mark. */
static void put_word(bite_page *page, const char *text, size_t length)
{
    size_t from = 0;
    for (size_t i = 0; page->ascii && i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        if (c >= 0x80) {
            bite_writer_part(&page->writer, text + from, i - from);
            bite_writer_text(&page->writer, c >= 0xc0 ? "?" : "");
            from = i + 1;
        }
    }
    bite_writer_part(&page->writer, text + from, length - from);
}

void bite_page_wrap_tinted(bite_page *page, int tint, const char *first, const char *rest,
                           const char *text)
{
    size_t used = bite_text_columns(first, strlen(first));
    size_t start = used;
    bite_page_tint(page, tint, first);
    while (*text != 0) {
        size_t length = strcspn(text, " \n");
        size_t wide = bite_text_columns(text, length);
        if (used > start && used + 1 + wide > page->columns) {
            bite_writer_text(&page->writer, "\n");
            page->lines++;
            bite_writer_text(&page->writer, rest);
            used = start = bite_text_columns(rest, strlen(rest));
        }
        if (used > start) {
            bite_writer_text(&page->writer, " ");
            used++;
        }
        put_word(page, text, length);
        used += wide;
        text += length;
        text += strspn(text, " \n");
    }
    bite_writer_text(&page->writer, "\n");
    page->lines++;
}

void bite_page_column(bite_page *page, const char *left, size_t column, const char *text)
{
    size_t start = page->columns < COLUMNS_NARROW && column > 4 ? 4 : column;
    size_t used = bite_text_columns(left, strlen(left));
    bool opening = true; /* no word is on this line yet */
    bite_writer_text(&page->writer, left);
    if (used < start && *text != 0) {
        blanks(page, start - used);
        used = start;
    }
    while (*text != 0) {
        size_t length = strcspn(text, " \n");
        size_t wide = bite_text_columns(text, length);
        if (used > start && used + (opening ? 0 : 1) + wide > page->columns) {
            bite_page_line(page, "");
            blanks(page, start);
            used = start;
            opening = true;
        }
        bite_writer_text(&page->writer, opening ? "" : " ");
        put_word(page, text, length);
        used += wide + (opening ? 0 : 1);
        opening = false;
        text += length;
        text += strspn(text, " \n");
    }
    bite_page_line(page, "");
}

void bite_page_quantity(bite_page *page, double si, bite_kind kind, char *buffer, size_t size)
{
    size_t length = 0;
    if (page->control && kind == BITE_KIND_LENGTH) {
        bite_control_length_write(si, page->units, buffer, size);
        return;
    }
    if (isnan(si) ||
        bite_quantity_write(si, kind, page->units, buffer, size, &length, NULL) != BITE_OK) {
        buffer[0] = '-';
        buffer[1] = 0;
    }
}

size_t bite_page_percent(double share, char *buffer, size_t size)
{
    double percent = fmin(100.0 * share, 99999.0);
    if (isnan(share)) { /* fmin passes over it */
        (void)snprintf(buffer, size, "-");
        return strlen(buffer);
    }
    percent = percent < 0.005 ? 0.0 : percent; /* also a relaxed share of 1e-28 */
    return percent < 1.0 ? bite_number_write(percent, 1, buffer, size)
                         : bite_number_write(round(percent), 6, buffer, size);
}

static size_t cells_of(double utilization, size_t capacity, size_t width)
{
    double cells = utilization * (double)capacity;
    return cells >= (double)width ? width : (size_t)lround(fmax(0.0, cells));
}

void bite_page_bar(bite_page *page, double utilization, double high, size_t width)
{
    const char *full = page->ascii ? "#" : "\xe2\x96\x88";
    const char *half = page->ascii ? "=" : "\xe2\x96\x92";
    const char *empty = page->ascii ? "." : "\xc2\xb7";
    size_t capacity = width * 3 / 4;
    size_t filled = cells_of(utilization, capacity, width);
    size_t banded = isnan(high) ? filled : cells_of(high, capacity, width);
    for (size_t i = 0; i < width; i++) {
        if (i == capacity) {
            bite_writer_text(&page->writer, "|");
        }
        bite_writer_text(&page->writer, i < filled     ? full
                                        : i < banded   ? half
                                        : i < capacity ? empty
                                                       : " ");
    }
}

void bite_page_tint(bite_page *page, int tint, const char *text)
{
    static const char *const codes[] = {"", "\033[32m", "\033[33m", "\033[31m", "\033[1m"};
    int coloured = page->colour && tint > 0 && tint < 5;
    if (coloured) {
        bite_writer_text(&page->writer, codes[tint]);
    }
    bite_writer_text(&page->writer, text);
    if (coloured) {
        bite_writer_text(&page->writer, "\033[0m");
    }
}
