/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plot of a window: regions, axes, lines, the current point. The drawing of its own and the
 * page for a tablet both contain it. */
#ifndef BITE_REPORT_WINDOW_SVG_PLOT_H
#define BITE_REPORT_WINDOW_SVG_PLOT_H

#include "core/report/window/svg_lines.h"

/** Style rules and patterns that the plot needs. */
extern const char bite_svg_style[];
extern const char bite_svg_patterns[];

/** Finds all lines. 0: no memory; free it in any case. */
int bite_svg_drawing_make(bite_svg_drawing *drawing, bite_page *page, const bite_window *window);
void bite_svg_drawing_free(bite_svg_drawing *drawing);

/** Writes the key to the regions, at a height of the drawing, px. */
void bite_svg_key(const bite_svg_drawing *drawing, double y);
/** Writes the plot with its axes. */
void bite_svg_plot(bite_svg_drawing *drawing);

#endif
