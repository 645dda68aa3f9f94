/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The axes of a window: their titles, numbers and tick marks. */
#ifndef BITE_REPORT_WINDOW_AXIS_H
#define BITE_REPORT_WINDOW_AXIS_H

#include "core/report/text_page.h"
#include "core/search/operating_window.h"
#include <stddef.h>

/** Writes "spindle speed, rpm": the name of an axis with its unit; at most size bytes. */
void bite_window_axis_text(const bite_page *page, const bite_axis *axis, char *to, size_t size);

/** An SI number of an axis in the unit that bite_window_axis_text names. */
double bite_window_axis_number(const bite_page *page, const bite_axis *axis, double si);

/** Fills marks with the SI numbers of at most `most` tick marks: 1, 2 and 5 of each decade on a
 * logarithmic axis, else equal steps. Returns how many. */
size_t bite_window_marks(const bite_page *page, const bite_axis *axis, double *marks, size_t most);

#endif
