/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window in sentences: the verdict at the current point, and how far the point may move. */
#ifndef BITE_REPORT_WINDOW_SUMMARY_H
#define BITE_REPORT_WINDOW_SUMMARY_H

#include "core/report/text_page.h"
#include "core/search/operating_window.h"
#include <stddef.h>

/** Writes the current point and its verdict as one sentence without a final period; at most size
 * bytes. */
void bite_window_point_text(bite_page *page, const bite_window *window, char *to, size_t size);

/** Writes how far the current point may move along one axis, the other axis fixed, with each limit
 * on its own clear; along_up: 1 for the vertical axis. At most size bytes. */
void bite_window_range_text(bite_page *page, const bite_window *window, int along_up, char *to,
                            size_t size);

#endif
