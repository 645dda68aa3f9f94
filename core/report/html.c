/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing a web page. */
#include "core/report/html.h"
#include "core/base/display_text.h"
#include "core/base/number.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const struct {
    char sign;
    const char *entity;
} entities[] = {{'&', "&amp;"}, {'<', "&lt;"}, {'>', "&gt;"}, {'"', "&quot;"}, {'\'', "&#39;"}};

static const char *entity_of(char sign)
{
    for (size_t i = 0; i < sizeof entities / sizeof *entities; i++) {
        if (entities[i].sign == sign) {
            return entities[i].entity;
        }
    }
    return NULL;
}

/* Characters that must not be displayed are dropped; runs that need no change are written in one
 * piece. */
void bite_html_text(bite_page *page, const char *text)
{
    size_t length = text == NULL ? 0 : strlen(text);
    size_t from = 0;
    for (size_t at = 0; at < length;) {
        bite_text_fault fault = BITE_TEXT_SOUND;
        size_t size = bite_text_character(text + at, length - at, "\t\n", &fault);
        const char *entity = fault == BITE_TEXT_SOUND ? entity_of(text[at]) : "";
        if (entity != NULL) {
            bite_writer_part(&page->writer, text + from, at - from);
            bite_page_text(page, entity);
            from = at + size;
        }
        at += size;
    }
    if (length > from) {
        bite_writer_part(&page->writer, text + from, length - from);
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

void bite_html_begin(bite_page *page, const char *script, const char *style)
{
    bite_page_text(page, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
                         "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src "
                         "'none'; ");
    if (script != NULL) {
        bite_html_put(page, "script-src '%s'; ", script);
    }
    bite_html_put(page, "style-src '%s'; ", style == NULL ? "unsafe-inline" : style);
    bite_page_text(page,
                   "base-uri 'none'; form-action 'none'\"/>\n"
                   "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
                   "<meta name=\"referrer\" content=\"no-referrer\"/>\n");
}

bite_html_string bite_html_quantity(bite_page *page, double si, bite_kind kind)
{
    bite_html_string string;
    bite_page_quantity(page, si, kind, string.text, sizeof string.text);
    return string;
}

bite_html_string bite_html_percent(double share)
{
    bite_html_string string = {"-"};
    char number[32];
    double percent = fmin(100.0 * share, 99999.0);
    if (isnan(share)) { /* fmin passes over it */
        return string;
    }
    if (percent < 0.1) { /* the draws do not resolve a smaller chance */
        (void)snprintf(string.text, sizeof string.text, "under 0.1 %%");
        return string;
    }
    (void)bite_number_write(percent < 1.0 ? percent : round(percent), percent < 1.0 ? 1 : 6, number,
                            sizeof number);
    (void)snprintf(string.text, sizeof string.text, "%s %%", number);
    return string;
}

bite_html_string bite_html_count(double count)
{
    bite_html_string string = {"-"};
    if (isfinite(count)) {
        (void)bite_number_write(round(count), 9, string.text, sizeof string.text);
    }
    return string;
}

bite_html_string bite_html_plain(const char *name)
{
    bite_html_string string;
    bite_page_plain(name == NULL ? "" : name, string.text, sizeof string.text);
    return string;
}

bite_html_string bite_html_short(const char *text, size_t columns)
{
    bite_html_string string = {""};
    size_t length = text == NULL ? 0 : strlen(text);
    if (length == 0 || bite_text_check(text, length, "\t\n", NULL) == BITE_TEXT_MALFORMED) {
        return string;
    }
    int whole = length < sizeof string.text && bite_text_columns(text, length) <= columns;
    while (!whole && length > 0 &&
           (length + 3 >= sizeof string.text || bite_text_columns(text, length) + 2 > columns ||
            (text[length] & 0xc0) == 0x80)) {
        length--;
    }
    (void)snprintf(string.text, sizeof string.text, "%.*s%s", (int)length, text, whole ? "" : "..");
    return string;
}

bite_html_string bite_html_time(bite_page *page, double seconds)
{
    static const double hour = 3600.0;
    static const double day = 24.0 * 3600.0;
    double size = fabs(seconds);
    double step = size < 120.0 ? 1.0 : size < 3.0 * hour ? 6.0 : size < 2.0 * day ? hour : day;
    double steps = round(seconds / step);
    if (step < hour || !isfinite(seconds)) {
        return bite_html_quantity(page, steps * step, BITE_KIND_TIME);
    }
    bite_html_string string = bite_html_count(steps);
    size_t used = strlen(string.text);
    (void)snprintf(string.text + used, sizeof string.text - used, step < day ? " h" : " days");
    return string;
}

void bite_html_emphasize(bite_page *page, bite_html_string string)
{
    size_t number = strcspn(string.text, " ");
    const char *unit = string.text[number] == 0 ? "" : string.text + number + 1;
    bite_page_text(page, "<span class=\"q\"><b>");
    bite_writer_part(&page->writer, string.text, number);
    bite_html_put(page, unit[0] == 0 ? "</b>%s</span>" : "</b> %s</span>", unit);
}

void bite_html_figure(bite_page *page, double si, bite_kind kind)
{
    bite_html_emphasize(page, bite_html_quantity(page, si, kind));
}

void bite_html_attribute(bite_page *page, const char *name, double value)
{
    char text[40];
    (void)bite_number_write(isfinite(value) ? round(value * 10.0) / 10.0 : 0.0, 6, text,
                            sizeof text);
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
