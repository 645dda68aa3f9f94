/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of CSV by RFC 4180, whose texts no spreadsheet takes for formulas. */
#ifndef BITE_REPORT_CSV_H
#define BITE_REPORT_CSV_H

#include "core/report/text_page.h"
#include <stdbool.h>

/** Whether a spreadsheet could take a field for a formula, which may fetch or run what its writer
 * chose: it begins with = + - @ or a control character and is no signed number, with or without a
 * unit behind it. */
bool bite_csv_is_formula(const char *text);

/** A field, with the comma before it unless it is the first of its line; in quotes if it needs
 * them. A text that could be taken for a formula gets an apostrophe before it, by which
 * spreadsheets mark text. */
void bite_csv_field(bite_page *page, int first, const char *text);

/** Ends a line. */
void bite_csv_end(bite_page *page);

#endif
