/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pass of a job: asked, chosen or judged, on as many threads as there are. */
#ifndef BITE_JOB_PASS_PLAN_H
#define BITE_JOB_PASS_PLAN_H

#include <coolbite/coolbite.h>

/** Settings and judgement of every pass. */
bite_status bite_plan_passes(bite_job *job, bite_error *error);

#endif
