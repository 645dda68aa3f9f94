/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of CSV by RFC 4180. */
#ifndef BITE_REPORT_CSV_H
#define BITE_REPORT_CSV_H

#include "core/report/text_page.h"

/** A field, with the comma before it unless it is the first of its line; in quotes if it needs
 * them. */
void bite_csv_field(bite_page *page, int first, const char *text);

/** Ends a line. */
void bite_csv_end(bite_page *page);

#endif
