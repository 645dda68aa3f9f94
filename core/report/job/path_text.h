/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The entry and the path of a pass in words, for the text and the sheet. */
#ifndef BITE_REPORT_JOB_PATH_TEXT_H
#define BITE_REPORT_JOB_PATH_TEXT_H

#include "core/job/plan.h"
#include "core/report/text_page.h"

#define BITE_PATH_TEXT_MAX 900

/** The steps over the depth: "3 mm deep", or "4 x 0.335 + 0.33 mm deep".
 * Returns to, as the others. */
const char *bite_steps_text(bite_page *page, const bite_planned_pass *pass, char *to, size_t size);

/** How the tool gets in: "ramp in at 3 deg, 450 mm/min, 19 mm long"; "" for a drill and where
 * nothing has to be entered. */
const char *bite_plan_entry_text(bite_page *page, const bite_planned_pass *pass, char *to,
                                 size_t size);

/** Direction, step-over, stock left for the finish, lead, cone of a chamfer; "" for a drill. */
const char *bite_path_text(bite_page *page, const bite_planned_pass *pass, char *to, size_t size);

/** The ways that were compared, with their times: "with 1.5mm alone 2.3 min; ..."; "": none. */
const char *bite_ways_text(const bite_planned_pass *pass, char *to, size_t size);

/** The word of a stage: "whole", "rough", "corners", "wall". */
const char *bite_stage_word(uint32_t stage);

/** The word of an entry, as the job key has it. */
const char *bite_plan_entry_word(uint32_t kind);

/** Of a hole: how often the drill is lifted, its point, a pilot hole; the thread and the hole that
 * is tapped. to is returned. */
const char *bite_hole_text(bite_page *page, const bite_planned_pass *pass, char *to, size_t size);

#endif
