/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pictures of the operating windows inside the page. A picture is written as a file of its own
 * would be; here its names get a prefix with its number, so that they do not collide with those of
 * the other picture or of the page, and its style rules go to the head of the page, each limited to
 * its own picture.
 */
#include "core/report/job/html_windows.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/report/window/svg.h"
#include <stdio.h>
#include <string.h>

/* ---- drawing into memory ---- */

static int append_text(void *user, const char *text, size_t size)
{
    bite_job_picture *picture = user;
    if (size > picture->capacity - picture->size) {
        size_t capacity = picture->capacity * 2 + size + 4096;
        char *grown = bite_memory_grow(&picture->allocator, picture->text, capacity, 1);
        if (grown == NULL) {
            picture->no_memory = 1;
            return 1;
        }
        picture->text = grown;
        picture->capacity = capacity;
    }
    memcpy(picture->text + picture->size, text, size);
    picture->size += size;
    return 0;
}

/* Writes one picture; without text the window cannot be drawn. */
static bite_status draw_picture(bite_job_html_page *html, const bite_window *window,
                                bite_job_picture *picture, bite_error *error)
{
    bite_page page = html->page; /* its units, and lengths as a control shows them */
    bite_writer_start(&page.writer, append_text, picture);
    bite_status status = bite_window_svg(window, &page, error);
    if (picture->no_memory || status == BITE_NO_MEMORY) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the picture of a pass");
    }
    if (status != BITE_OK || picture->size == 0) {
        picture->size = 0;
        bite_error_clear(error);
    }
    return BITE_OK;
}

bite_status bite_job_html_pictures_make(bite_job_html_page *html, bite_error *error)
{
    const struct bite_job *job = html->job;
    for (size_t i = 0; i < job->window_count; i++) {
        bite_job_picture *picture = &html->pictures[html->picture_count];
        size_t pass = job->windows[i].pass;
        picture->pass = &job->passes[pass];
        picture->number = pass + 1;
        picture->allocator =
            job->allocator.allocate == NULL ? *bite_memory_default() : job->allocator;
        bite_status status = draw_picture(html, job->windows[i].window, picture, error);
        if (status != BITE_OK) {
            return status;
        }
        html->picture_count += picture->size > 0 ? 1 : 0;
    }
    return BITE_OK;
}

void bite_job_html_pictures_free(bite_job_html_page *html)
{
    for (size_t i = 0; i < BITE_PLANNED_WINDOWS_MAX; i++) {
        if (html->pictures[i].text != NULL) {
            bite_memory_free(&html->pictures[i].allocator, html->pictures[i].text);
            html->pictures[i].text = NULL;
        }
    }
}

/* ---- writing into the page ---- */

typedef struct svg_piece {
    const char *text;
    size_t size;
} svg_piece;

static int begins(svg_piece piece, const char *with)
{
    return piece.size >= strlen(with) && memcmp(piece.text, with, strlen(with)) == 0;
}

/* The text from `from` on, up to but without `to`; nothing if one of them is missing. */
static svg_piece text_between(svg_piece piece, const char *from, const char *to)
{
    svg_piece none = {piece.text, 0};
    while (piece.size > 0 && !begins(piece, from)) {
        piece.text++;
        piece.size--;
    }
    svg_piece found = piece;
    while (piece.size > 0 && !begins(piece, to)) {
        piece.text++;
        piece.size--;
    }
    found.size -= piece.size;
    return piece.size == 0 ? none : found;
}

/* Writes a piece with the prefix added to names wherever they are defined or used; nothing else
 * changes. */
static void write_marked(bite_page *page, svg_piece piece, const char *mark)
{
    static const char *const names[] = {" id=\"", "url(#", "aria-labelledby=\""};
    int several = 0; /* within a list of names */
    while (piece.size > 0) {
        size_t step = 1;
        const char *more = "";
        for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
            if (begins(piece, names[i])) {
                step = strlen(names[i]);
                more = mark;
                several = i == 2;
            }
        }
        if (step == 1 && several) {
            more = piece.text[0] == ' ' ? mark : "";
            several = piece.text[0] != '"';
        }
        bite_writer_part(&page->writer, piece.text, step);
        bite_page_text(page, more);
        piece.text += step;
        piece.size -= step;
    }
}

/* Writes a piece of style rules with the id of the picture in front of every selector. */
static void write_scoped(bite_page *page, svg_piece piece, const char *scope, const char *mark)
{
    int fresh = 1;
    int inside = 0;
    for (size_t i = 0; i < piece.size; i++) {
        char sign = piece.text[i];
        if (begins((svg_piece){piece.text + i, piece.size - i}, "url(#")) {
            bite_page_text(page, "url(#");
            bite_page_text(page, mark);
            i += strlen("url(#") - 1;
            continue;
        }
        if (fresh && !inside && sign != '\n' && sign != ' ') {
            bite_page_text(page, scope);
            fresh = 0;
        }
        inside = sign == '{' ? 1 : sign == '}' ? 0 : inside;
        fresh = !inside && (sign == '}' || sign == ',') ? 1 : fresh;
        bite_writer_part(&page->writer, &sign, 1);
    }
}

static svg_piece style_of(const bite_job_picture *picture)
{
    static const char opening[] = "<style>";
    svg_piece style = text_between((svg_piece){picture->text, picture->size}, opening, "</style>");
    size_t skip = style.size > 0 ? sizeof opening - 1 : 0;
    return (svg_piece){style.text + skip, style.size - skip};
}

void bite_job_html_picture_styles(bite_job_html_page *html)
{
    for (size_t i = 0; i < html->picture_count; i++) {
        char scope[32];
        char mark[32];
        (void)snprintf(scope, sizeof scope, "#w%zu ", i + 1);
        (void)snprintf(mark, sizeof mark, "w%zu-", i + 1);
        write_scoped(&html->page, style_of(&html->pictures[i]), scope, mark);
    }
}

/* Writes a picture from <svg on, without its style element. */
static void place_picture(bite_job_html_page *html, const bite_job_picture *picture,
                          const char *mark)
{
    svg_piece whole = {picture->text, picture->size};
    svg_piece before = text_between(whole, "<svg", "<style>");
    svg_piece rest = text_between(whole, "</style>", "</svg>");
    size_t skip = rest.size > 0 ? strlen("</style>") : 0;
    write_marked(&html->page, before, mark);
    write_marked(&html->page, (svg_piece){rest.text + skip, rest.size - skip}, mark);
    bite_page_text(&html->page, before.size > 0 ? "</svg>\n" : "");
}

void bite_job_html_pictures(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    for (size_t i = 0; i < html->picture_count; i++) {
        const bite_job_picture *picture = &html->pictures[i];
        bite_html_string number = bite_html_count((double)i + 1.0);
        char mark[32];
        (void)snprintf(mark, sizeof mark, "w%zu-", i + 1);
        bite_html_put(page, "<h3>Pass %s: %s</h3>\n<div class=\"picture\" id=\"w%s\">\n",
                      bite_html_count((double)picture->number).text,
                      picture->pass->title != NULL && picture->pass->title[0] != 0
                          ? picture->pass->title
                          : picture->pass->name,
                      number.text);
        place_picture(html, picture, mark);
        bite_page_text(page, "</div>\n");
    }
}
