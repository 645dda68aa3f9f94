/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far tool and holder of a pass keep from what is beside their path, in words. */
#ifndef BITE_REPORT_JOB_CLEARANCE_TEXT_H
#define BITE_REPORT_JOB_CLEARANCE_TEXT_H

#include "core/job/plan.h"
#include "core/report/text_page.h"

#define BITE_CLEARANCE_TEXT_MAX 320

/** "tool 13.25 mm to screw right; holder 28 mm to clamp strap", "tool 2 mm into screw right"; "" if
 * nothing is beside the pass, or its place is not known. Returns to. */
const char *bite_clearance_text(bite_page *page, const bite_planned_pass *pass,
                                char to[BITE_CLEARANCE_TEXT_MAX]);

#endif
