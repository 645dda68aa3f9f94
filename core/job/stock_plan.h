/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet of a job: which one, how thick it may be, what comes off it, and how the parts lie on
 * it. */
#ifndef BITE_JOB_STOCK_PLAN_H
#define BITE_JOB_STOCK_PLAN_H

#include "core/job/plan.h"

/** The sheet: nominal thickness, range, what comes off each face, how it is parted. */
bite_status bite_plan_stock(bite_job *job, bite_error *error);

/** How the parts lie on their blank, once the tools are known. */
bite_status bite_plan_layout(bite_job *job, bite_error *error);

#endif
