/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The script and the style of the page of a window, in pieces that NULL ends, and their hashes. */
#ifndef BITE_REPORT_WINDOW_HTML_PARTS_H
#define BITE_REPORT_WINDOW_HTML_PARTS_H

extern const char *const bite_window_page_script[];
extern const char *const bite_window_page_style[];
extern const char bite_window_page_script_hash[];
extern const char bite_window_page_style_hash[];

/* What the plot of the page is cut out of, in px of the drawing: as the style places the field over
 * it. */
#define BITE_PAGE_VIEW "16 48 600 486"

#endif
