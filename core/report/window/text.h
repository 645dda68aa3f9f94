/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window as plain text: a map of signs, its axes, and the same in words. */
#ifndef BITE_REPORT_WINDOW_TEXT_H
#define BITE_REPORT_WINDOW_TEXT_H

#include "core/report/text_page.h"
#include "core/search/operating_window.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** What stands under every form of the picture: the point in use, its verdict, and where it may
 * move. Each at most size bytes. */
void bite_window_point_text(bite_page *page, const bite_window *window, char *to, size_t size);

void bite_window_room_text(bite_page *page, const bite_window *window, int along_up, char *to,
                           size_t size);
/** "spindle speed, rpm": an axis with its unit. */
void bite_window_axis_text(const bite_page *page, const bite_axis *axis, char *to, size_t size);

/** A number of an axis in its unit, without it. */
double bite_window_axis_number(const bite_page *page, const bite_axis *axis, double si);

/** Marks of an axis at 1, 2, 5 and their tens, or evenly; their SI numbers, at most `most` of them;
 * how many. */
size_t bite_window_marks(const bite_page *page, const bite_axis *axis, double *marks, size_t most);

#endif
