/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of the limits in the drawing of a window, each with its name on it. */
#ifndef BITE_REPORT_WINDOW_SVG_LINES_H
#define BITE_REPORT_WINDOW_SVG_LINES_H

#include "core/report/text_page.h"
#include "core/report/window/contour.h"
#include "core/search/operating_window.h"
#include <coolbite/coolbite.h>

/* The plot in the drawing, in px. */
#define BITE_SVG_PLOT_LEFT 86.0
#define BITE_SVG_PLOT_TOP 92.0
#define BITE_SVG_PLOT_WIDE 520.0
#define BITE_SVG_PLOT_HIGH 400.0

/** A colour and a dash pattern. */
typedef struct bite_svg_pen {
    const char *colour;
    const char *dash;
} bite_svg_pen;
#define BITE_SVG_PENS 9
extern const bite_svg_pen bite_svg_pens[BITE_SVG_PENS];

#define BITE_SVG_LABELS_MAX (2 * BITE_LIMIT_COUNT)

/* A drawing: the page that it is written to, and all its lines. */
typedef struct bite_svg_drawing {
    bite_page *page;
    const bite_window *window;
    bite_contour line[BITE_LIMIT_COUNT]; /* where the capacity is used up */
    bite_contour edge[BITE_LIMIT_COUNT]; /* where it is at the upper 95 %; binding limits only */
    size_t pen[BITE_LIMIT_COUNT];
    bite_spot label[BITE_SVG_LABELS_MAX][2]; /* ends of the labels placed so far, px */
    size_t labels;
} bite_svg_drawing;

/** A number of the drawing, rounded to a tenth of a px. */
void bite_svg_number(bite_page *page, double value);
/** The coordinate in the drawing, px, of a position in cells of the grid. */
double bite_svg_x(const bite_window *window, double position);
double bite_svg_y(const bite_window *window, double position);

/** Whether the line of a limit is in the plot. */
int bite_svg_has_line(const bite_svg_drawing *drawing, uint32_t limit);
/** Draws the lines of all limits; for the binding ones that bound the clear region, its edge too;
 * and then their names. */
void bite_svg_lines(bite_svg_drawing *drawing);

#endif
