/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plot of a characteristic: its readings part by part, limits and guard bands. */
#ifndef BITE_REPORT_INSPECTION_HTML_PLOT_H
#define BITE_REPORT_INSPECTION_HTML_PLOT_H

#include "core/report/inspection/html_page.h"

/** The pattern of the guard bands and the key of the marks, once for all plots. */
void bite_inspection_plot_pattern(bite_inspection_page *html);
void bite_inspection_plot_key(bite_inspection_page *html);

/** Draws a characteristic that has readings; nothing for one that is judged. */
void bite_inspection_plot(bite_inspection_page *html, size_t characteristic);

#endif
