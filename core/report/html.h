/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Writing a web page and drawings in it: text that cannot become markup, quantities, boxes and
 * lines.
 *
 * What is written is well-formed as XML too, so that any reader of either can check it.
 */
#ifndef BITE_REPORT_HTML_H
#define BITE_REPORT_HTML_H

#include "core/report/text_page.h"

/** A short text handed over by value, so that it may stand as an argument. */
typedef struct bite_html_string {
    char text[72];
} bite_html_string;

/** Text, nothing of it markup: signs of markup become entities, blanks stay, and what no page may
 * hold (control characters, marks that turn the direction of writing, broken UTF-8) is dropped.
 * NULL: nothing. */
void bite_html_text(bite_page *page, const char *text);

/** The form as it stands, each %s in it an escaped text (NULL: nothing); %% is a percent sign. No
 * other place is known. */
void bite_html_put(bite_page *page, const char *form, ...) BITE_FORMAT(2, 3);

/** A quantity in the page's units, "-" where there is none; a share in percent; a whole number. */
bite_html_string bite_html_quantity(bite_page *page, double si, bite_kind kind);
bite_html_string bite_html_percent(double share);
/** A time to what a shop plans by: whole seconds, tenths of minutes, hours, days. */
bite_html_string bite_html_time(bite_page *page, double seconds);
bite_html_string bite_html_count(double count);
/** A name of the vocabulary in plain words. */
bite_html_string bite_html_plain(const char *name);
/** At most so many columns, the rest told by dots. */
bite_html_string bite_html_short(const char *text, size_t columns);

/** A quantity whose number stands out and whose unit does not; it never breaks across lines. */
void bite_html_figure(bite_page *page, double si, bite_kind kind);
void bite_html_emphasize(bite_page *page, bite_html_string string);

/* ---- drawing; lengths in px of the drawing ---- */

void bite_html_attribute(bite_page *page, const char *name, double value);
void bite_html_box(bite_page *page, double x, double y, double wide, double high, const char *look);
void bite_html_line(bite_page *page, double x1, double y1, double x2, double y2, const char *look);
void bite_html_label(bite_page *page, double x, double y, const char *look, const char *text);

#endif
