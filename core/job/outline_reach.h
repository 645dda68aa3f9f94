/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the passes that go round a part, or run out over its edge, sweep beyond that edge. */
#ifndef BITE_JOB_OUTLINE_REACH_H
#define BITE_JOB_OUTLINE_REACH_H

#include "core/job/plan.h"

/** Whether a pass goes along the outer edge of the part: its key `around`, otherwise what is usual
 * for its work. */
int bite_pass_rounds_part(const bite_job *job, const bite_section *section, uint32_t work);

/** Whether a pass goes round the outside of a boss that stands inside the part. */
int bite_pass_rounds_boss(const bite_section *section);

/** Whether a feature is as long or as wide as the part, so that the tool runs out over its edge. */
int bite_pass_is_open(const bite_job *job, const bite_section *section, uint32_t work);

/** How far a pass sweeps beyond the edge of the finished part, m, with the arc on which it runs
 * onto the wall; 0: it stays inside. Its tool must be known. The facing of a whole blank is not
 * counted: it cuts all parts at once. */
double bite_pass_reach(const bite_job *job, size_t index);

/** The furthest-reaching pass of those whose tools are known; -1: none goes beyond the part. */
int bite_plan_furthest_pass(const bite_job *job, double *reach);

#endif
