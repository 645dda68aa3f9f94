/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of plain text: columns, wrapped lines, bars, and colour that carries no meaning alone. */
#ifndef BITE_REPORT_TEXT_PAGE_H
#define BITE_REPORT_TEXT_PAGE_H

#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/base/text.h"
#include "core/base/writer.h"
#include <coolbite/coolbite.h>

typedef struct bite_page {
    bite_writer writer;
    uint32_t columns;
    uint32_t colour;
    uint32_t ascii;
    bite_units units;
    size_t lines; /* ended so far */
} bite_page;

/** The caller's style with its defaults (80 columns). False: struct_size or a choice is wrong;
 * error is filled. */
bool bite_page_open(bite_page *page, const bite_style *style, bite_sink sink, void *user,
                    bite_error *error);
/** What became of the writing. */
bite_status bite_page_close(bite_page *page, bite_error *error);

void bite_page_text(bite_page *page, const char *text);
void bite_page_line(bite_page *page, const char *text); /* with a line's end */
void bite_page_pad(bite_page *page, const char *text,
                   size_t width); /* filled up with blanks; a longer text stands whole */
void bite_page_pad_left(bite_page *page, const char *text, size_t width);
/** A name of the vocabulary as a word of a sentence: blanks for underscores. */
void bite_page_plain(const char *name, char *buffer, size_t size);
/** Words broken into lines of the page's width; first before the first line, rest before all
 * others. */
void bite_page_wrap(bite_page *page, const char *first, const char *rest, const char *text);
/** The same with the first set off as bite_page_tint does. */
void bite_page_wrap_tinted(bite_page *page, int tint, const char *first, const char *rest,
                           const char *text);
/** A quantity as a shop writes it; "-" where there is none. */
void bite_page_quantity(bite_page *page, double si, bite_kind kind, char *buffer, size_t size);
/** A bar of width cells: best estimate full, up to high in half tone; room ends at three quarters
 * of it and is marked, so that what goes over is seen to. high NaN: no band. */
void bite_page_bar(bite_page *page, double utilization, double high, size_t width);
/** Sets off a text by colour where colour is wanted: 0 plain, 1 good, 2 mind, 3 bad, 4 bold. */
void bite_page_tint(bite_page *page, int tint, const char *text);

#endif
