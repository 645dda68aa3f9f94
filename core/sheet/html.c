/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing a web page. */
#include "core/sheet/html.h"
#include "core/base/number.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Characters that are well-formed UTF-8 but have no place on a page: controls, marks that turn the direction of writing (a number
 * could be made to read backwards), and what is no character. */
static const struct {
    uint32_t from;
    uint32_t to;
} dropped[] = {{0x0, 0x8},       {0xb, 0x1f},      {0x7f, 0x9f},     {0x061c, 0x061c}, {0x200e, 0x200f},
               {0x2028, 0x202e}, {0x2066, 0x2069}, {0xfdd0, 0xfdef}, {0xfeff, 0xfeff}, {0xfff9, 0xffff}};

static const struct {
    char sign;
    const char *entity;
} entities[] = {{'&', "&amp;"}, {'<', "&lt;"}, {'>', "&gt;"}, {'"', "&quot;"}, {'\'', "&#39;"}};

static size_t size_of(unsigned char first)
{
    return first < 0x80 ? 1 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : 4;
}

static int may_stand(const char *text, size_t size)
{
    static const unsigned char heads[] = {0, 0x7f, 0x1f, 0x0f, 0x07};
    uint32_t character = (unsigned char)text[0] & heads[size];
    for (size_t i = 1; i < size; i++) {
        character = character << 6 | ((unsigned char)text[i] & 0x3fu);
    }
    for (size_t i = 0; i < sizeof dropped / sizeof *dropped; i++) {
        if (character >= dropped[i].from && character <= dropped[i].to) {
            return 0;
        }
    }
    return (character & 0xfffe) != 0xfffe;
}

static const char *entity_of(char sign)
{
    for (size_t i = 0; i < sizeof entities / sizeof *entities; i++) {
        if (entities[i].sign == sign) {
            return entities[i].entity;
        }
    }
    return NULL;
}

/* Well-formed UTF-8; what needs no change goes out in one piece. */
static void escape(bite_page *page, const char *text, size_t length)
{
    size_t from = 0;
    for (size_t at = 0; at < length;) {
        size_t size = size_of((unsigned char)text[at]);
        const char *entity = size == 1 ? entity_of(text[at]) : NULL;
        if (entity != NULL || !may_stand(text + at, size)) {
            bite_writer_part(&page->writer, text + from, at - from);
            bite_page_text(page, entity == NULL ? "" : entity);
            from = at + size;
        }
        at += size;
    }
    bite_writer_part(&page->writer, text + from, length - from);
}

void bite_html_text(bite_page *page, const char *text)
{
    size_t length = text == NULL ? 0 : strlen(text);
    while (length > 0) {
        size_t good = length;
        size_t bad = 0;
        if (!bite_text_utf8(text, length, &bad)) {
            good = bad;
        }
        escape(page, text, good);
        good += good < length ? 1 : 0; /* the byte that is no text */
        text += good;
        length -= good;
    }
}

void bite_html_put(bite_page *page, const char *form, ...)
{
    va_list list;
    va_start(list, form);
    while (*form != 0) {
        size_t plain = strcspn(form, "%");
        bite_writer_part(&page->writer, form, plain);
        form += plain;
        if (form[0] == '%' && form[1] == 's') {
            bite_html_text(page, va_arg(list, const char *));
        } else if (form[0] == '%') {
            bite_page_text(page, "%");
        }
        form += form[0] == 0 ? 0 : form[1] == 0 ? 1 : 2;
    }
    va_end(list);
}

bite_told bite_html_quantity(bite_page *page, double si, bite_kind kind)
{
    bite_told told;
    bite_page_quantity(page, si, kind, told.text, sizeof told.text);
    return told;
}

bite_told bite_html_percent(double share)
{
    bite_told told = {"-"};
    char number[32];
    double percent = fmin(100.0 * share, 99999.0);
    if (!isfinite(percent)) {
        return told;
    }
    if (percent < 0.1) { /* draws tell no smaller chance from none at all */
        (void)snprintf(told.text, sizeof told.text, "under 0.1 %%");
        return told;
    }
    (void)bite_number_write(percent < 1.0 ? percent : round(percent), percent < 1.0 ? 1 : 6, number, sizeof number);
    (void)snprintf(told.text, sizeof told.text, "%s %%", number);
    return told;
}

bite_told bite_html_count(double count)
{
    bite_told told = {"-"};
    if (isfinite(count)) {
        (void)bite_number_write(round(count), 9, told.text, sizeof told.text);
    }
    return told;
}

bite_told bite_html_plain(const char *name)
{
    bite_told told;
    bite_page_plain(name == NULL ? "" : name, told.text, sizeof told.text);
    return told;
}

bite_told bite_html_short(const char *text, size_t columns)
{
    bite_told told = {""};
    size_t length = text == NULL ? 0 : strlen(text);
    size_t bad = 0;
    if (length == 0 || !bite_text_utf8(text, length, &bad)) {
        return told;
    }
    int whole = length < sizeof told.text && bite_text_columns(text, length) <= columns;
    while (!whole && length > 0 &&
           (length + 3 >= sizeof told.text || bite_text_columns(text, length) + 2 > columns || (text[length] & 0xc0) == 0x80)) {
        length--;
    }
    (void)snprintf(told.text, sizeof told.text, "%.*s%s", (int)length, text, whole ? "" : "..");
    return told;
}

bite_told bite_html_time(bite_page *page, double seconds)
{
    static const double hour = 3600.0;
    static const double day = 24.0 * 3600.0;
    double size = fabs(seconds);
    double step = size < 120.0 ? 1.0 : size < 3.0 * hour ? 6.0 : size < 2.0 * day ? hour : day;
    double steps = round(seconds / step);
    if (step < hour || !isfinite(seconds)) {
        return bite_html_quantity(page, steps * step, BITE_KIND_TIME);
    }
    bite_told told = bite_html_count(steps);
    size_t used = strlen(told.text);
    (void)snprintf(told.text + used, sizeof told.text - used, step < day ? " h" : " days");
    return told;
}

void bite_html_stand_out(bite_page *page, bite_told told)
{
    size_t number = strcspn(told.text, " ");
    const char *unit = told.text[number] == 0 ? "" : told.text + number + 1;
    bite_page_text(page, "<span class=\"q\"><b>");
    bite_writer_part(&page->writer, told.text, number);
    bite_html_put(page, unit[0] == 0 ? "</b>%s</span>" : "</b> %s</span>", unit);
}

void bite_html_figure(bite_page *page, double si, bite_kind kind)
{
    bite_html_stand_out(page, bite_html_quantity(page, si, kind));
}

void bite_html_attribute(bite_page *page, const char *name, double value)
{
    char text[40];
    (void)bite_number_write(isfinite(value) ? round(value * 10.0) / 10.0 : 0.0, 6, text, sizeof text);
    bite_html_put(page, " %s=\"%s\"", name, text);
}

void bite_html_box(bite_page *page, double x, double y, double wide, double high, const char *look)
{
    bite_page_text(page, "<rect");
    bite_html_attribute(page, "x", x);
    bite_html_attribute(page, "y", y);
    bite_html_attribute(page, "width", fmax(0.0, wide));
    bite_html_attribute(page, "height", fmax(0.0, high));
    bite_html_put(page, " class=\"%s\"/>\n", look);
}

void bite_html_line(bite_page *page, double x1, double y1, double x2, double y2, const char *look)
{
    bite_page_text(page, "<line");
    bite_html_attribute(page, "x1", x1);
    bite_html_attribute(page, "y1", y1);
    bite_html_attribute(page, "x2", x2);
    bite_html_attribute(page, "y2", y2);
    bite_html_put(page, " class=\"%s\"/>\n", look);
}

void bite_html_label(bite_page *page, double x, double y, const char *look, const char *text)
{
    bite_page_text(page, "<text");
    bite_html_attribute(page, "x", x);
    bite_html_attribute(page, "y", y);
    bite_html_put(page, " class=\"%s\">%s</text>\n", look, text);
}
