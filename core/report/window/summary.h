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

/** Fills order with the fixed limits, those that bind first, by falling utilization; returns how
 * many. order: BITE_LIMIT_COUNT of them. */
size_t bite_window_fixed_limits(const bite_window *window, uint32_t *order);

/** Writes the limits that neither axis changes, with their utilization, as one sentence without a
 * final period; "" if there are none. At most size bytes. */
void bite_window_fixed_text(const bite_window *window, char *to, size_t size);

/** Writes how far the current point may move along one axis, the other axis fixed, with each limit
 * that an axis changes clear on its own; along_up: 1 for the vertical axis. At most size bytes. */
void bite_window_range_text(bite_page *page, const bite_window *window, int along_up, char *to,
                            size_t size);

#endif
