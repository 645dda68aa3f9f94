/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The style of an inspection report. */
#ifndef BITE_REPORT_INSPECTION_HTML_STYLE_H
#define BITE_REPORT_INSPECTION_HTML_STYLE_H

/** Pieces of the style sheet, ended by NULL. */
extern const char *const bite_inspection_style[];

#endif
