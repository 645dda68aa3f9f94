/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of plain text: columns, wrapped lines, bars, and colours that only repeat what the text
 * says. */
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
    uint32_t control; /* 1: lengths as a machine's control shows them */
    bite_units units;
    bool compact; /* JSON without blanks and line ends */
    size_t lines; /* ended so far */
} bite_page;

/** The caller's style with its defaults (80 columns). False: struct_size or a choice is wrong;
 * error is filled. */
bool bite_page_open(bite_page *page, const bite_style *style, bite_sink sink, void *user,
                    bite_error *error);
/** Ends a page: BITE_OK, or the first error of its sink. */
bite_status bite_page_close(bite_page *page, bite_error *error);

void bite_page_text(bite_page *page, const char *text);
void bite_page_line(bite_page *page, const char *text); /* ends the line */
/** A text filled up with blanks to width columns, on its right or on its left; a longer text is
 * written in full. */
void bite_page_pad(bite_page *page, const char *text, size_t width);
void bite_page_pad_left(bite_page *page, const char *text, size_t width);
/** The name of an input, value or limit as part of a sentence: blanks instead of underscores. */
void bite_page_plain(const char *name, char *buffer, size_t size);
/** Wraps text to the page's width; `first` precedes the first line, `rest` all others. */
void bite_page_wrap(bite_page *page, const char *first, const char *rest, const char *text);
/** The same with `first` tinted as by bite_page_tint. */
void bite_page_wrap_tinted(bite_page *page, int tint, const char *first, const char *rest,
                           const char *text);
/** A left column and a text beside it, which is wrapped within a column that starts at `column`; on
 * a narrow page it starts at 4. A longer left text pushes the first line to the right. */
void bite_page_column(bite_page *page, const char *left, size_t column, const char *text);
/** A quantity in the unit that a shop uses; "-" for NaN. Lengths of a page for the machine are
 * written by bite_control_length_write. */
void bite_page_quantity(bite_page *page, double si, bite_kind kind, char *buffer, size_t size);
/** Writes a share as percent without the sign and returns its length: whole percent up to 99999,
 * one digit below 1 %; "-" for NaN. */
size_t bite_page_percent(double share, char *buffer, size_t size);
/** A bar of width cells: the best estimate solid, up to `high` in half tone. The capacity is marked
 * at three quarters of the width, so that a limit that is exceeded shows. high NaN: no band. */
void bite_page_bar(bite_page *page, double utilization, double high, size_t width);
/** Colours a text if the style has colour: 0 plain, 1 clear, 2 tight, 3 over, 4 bold. */
void bite_page_tint(bite_page *page, int tint, const char *text);

#endif
