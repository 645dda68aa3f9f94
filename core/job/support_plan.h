/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings of a pass over a floor that nothing supports yet. */
#ifndef BITE_JOB_SUPPORT_PLAN_H
#define BITE_JOB_SUPPORT_PLAN_H

#include "core/job/plan.h"

/** The answer with which a pass over an unsupported floor is printed: the settings that were chosen
 * with support under it, judged without. *answer: owned; NULL if the pass keeps its own, because
 * they are clear and not much slower, or support does not help. *passes: over the depth. Sets
 * pass->support. */
bite_status bite_plan_assume_support(bite_job *job, size_t index, bite_answer **answer,
                                     size_t *passes, bite_error *error);

#endif
