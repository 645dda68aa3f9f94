/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for a characteristic that is inspected: its limits, and how many parts. */
#ifndef BITE_REPORT_JOB_CHECK_TEXT_H
#define BITE_REPORT_JOB_CHECK_TEXT_H

#include "core/job/plan.h"
#include "core/report/text_page.h"

#define BITE_CHECK_TEXT_MAX 160

/** "±0.05 mm", "3.9 mm to 4.2 mm", "at least 1.8 mm", "at most 0.3 mm"; "" without limits. Returns
 * text. */
const char *bite_check_limits_text(bite_page *page, const bite_planned_check *check,
                                   char text[BITE_CHECK_TEXT_MAX]);

/** "every part", "every 5th part and the last", "the first and the last part"; "" of one part.
 * Returns text. */
const char *bite_check_frequency_text(const struct bite_job *job, const bite_planned_check *check,
                                      char text[BITE_CHECK_TEXT_MAX]);

#endif
