/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Writing a web page and drawings in it: text that cannot become markup, quantities, boxes and
 * lines.
 *
 * The output is well-formed as XML too, so that any XML parser can check it.
 */
#ifndef BITE_REPORT_HTML_H
#define BITE_REPORT_HTML_H

#include "core/report/text_page.h"

/** A short text passed by value, so that a call can be an argument. */
typedef struct bite_html_string {
    char text[72];
} bite_html_string;

/** Text that contains no markup: markup characters become entities, blanks are kept, and characters
 * that a page must not contain (control characters, bidirectional controls, malformed UTF-8) is
 * dropped. NULL: nothing. */
void bite_html_text(bite_page *page, const char *text);

/** The format as it is, with each %s replaced by an escaped text (NULL: nothing) and %% by a
 * percent sign. No other conversion is supported. */
void bite_html_put(bite_page *page, const char *form, ...) BITE_FORMAT(2, 3);

/**
 * The start of a page, up to its title: its content policy allows nothing from outside, no frame,
 * no form, and what it holds itself only as far as named here.
 *
 * script: NULL for none, or the one script's hash, as `sha256-...`. style: the one style's hash, or
 * NULL if the page has styles of its own in several places.
 */
void bite_html_begin(bite_page *page, const char *script, const char *style);

/** A quantity in the page's units; a share in percent; "-" for NaN. */
bite_html_string bite_html_quantity(bite_page *page, double si, bite_kind kind);
bite_html_string bite_html_percent(double share);
/** A time, rounded as a shop plans: whole seconds, tenths of minutes, hours, days. */
bite_html_string bite_html_time(bite_page *page, double seconds);
/** A whole number; "-" if it is not finite. */
bite_html_string bite_html_count(double count);
/** The name of an input, value or limit with blanks instead of underscores. */
bite_html_string bite_html_plain(const char *name);
/** At most this many columns; a longer text is cut off with dots. */
bite_html_string bite_html_short(const char *text, size_t columns);

/** A quantity with its number emphasized and its unit plain; it never breaks across lines. */
void bite_html_figure(bite_page *page, double si, bite_kind kind);
void bite_html_emphasize(bite_page *page, bite_html_string string);

/* ---- drawing; lengths in px of the drawing ---- */

void bite_html_attribute(bite_page *page, const char *name, double value);
void bite_html_box(bite_page *page, double x, double y, double wide, double high, const char *look);
void bite_html_line(bite_page *page, double x1, double y1, double x2, double y2, const char *look);
void bite_html_label(bite_page *page, double x, double y, const char *look, const char *text);

#endif
