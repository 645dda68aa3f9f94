/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of an inspection report, and what several of its sections share. */
#ifndef BITE_REPORT_INSPECTION_HTML_PAGE_H
#define BITE_REPORT_INSPECTION_HTML_PAGE_H

#include "core/inspection/inspection_result.h"
#include "core/report/html.h"
#include "core/report/inspection/size_text.h"

typedef struct bite_inspection_page {
    bite_page page;
    const bite_inspection *inspection;
    size_t sheets; /* sections of the page */
    size_t sheet;  /* the one that is written, from 1 */
} bite_inspection_page;

/** Opens and ends a section, which starts on a new sheet of paper. */
void bite_inspection_sheet(bite_inspection_page *html, const char *title, const char *id);
void bite_inspection_sheet_end(bite_inspection_page *html);

/** The head of a table: a <th scope="col"> for each column, ended by NULL; a # in front of its name
 * is that of a column of numbers. */
void bite_inspection_columns(bite_inspection_page *html, const char *const *columns);

/** A finding as a framed word; the frames differ in grey print too. */
void bite_inspection_finding(bite_inspection_page *html, uint32_t finding);

/** How the sizes of a characteristic are written on this page. */
bite_size_form bite_inspection_form(const bite_inspection_page *html, size_t characteristic);

#endif
