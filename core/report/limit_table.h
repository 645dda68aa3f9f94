/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of limits: demand, capacity, utilization as number and bar, verdict and chance. */
#ifndef BITE_REPORT_LIMIT_TABLE_H
#define BITE_REPORT_LIMIT_TABLE_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>

/** Writes the limits that apply, the highest upper utilization first. all: every one of them, and
 * the names of those that do not apply; else at most `most` of them. */
void bite_page_limits(bite_page *page, const bite_answer *answer, int all, int most);

#endif
