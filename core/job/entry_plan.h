/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the tool gets into each feature. */
#ifndef BITE_JOB_ENTRY_PLAN_H
#define BITE_JOB_ENTRY_PLAN_H

#include "core/job/plan.h"

/** Sets pass->entry.kind and what it depends on: as the job file states it, else by what fits into
 * the feature with a tool of that name and diameter. Every closed feature gets an entry. */
void bite_plan_entry(const bite_job *job, const bite_section *section, const char *tool,
                     double diameter, bite_planned_pass *pass);

/** Sets what of the entry is open in the request of the pass. */
bite_status bite_plan_entry_request(const bite_section *section, const bite_planned_pass *pass,
                                    bite_request *request, bite_error *error);

/** Sets feed, slope and path of the entry, for the cut that was planned. */
void bite_plan_entry_path(bite_planned_pass *pass);

/** Remarks on an entry that does not fit, or needs a hole. */
void bite_plan_entry_check(bite_job *job, const bite_planned_pass *pass);

/** Whether a pocket has no wall at its ends, because it is as long or as wide as the part. */
int bite_plan_runs_out(const bite_job *job, const bite_section *section, uint32_t work);

/** Whether the first cut of a pass into its feature is a full slot whose chips can only escape
 * upwards. */
int bite_plan_is_closed(uint32_t work);

#endif
