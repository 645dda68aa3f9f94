/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet of a job: its nominal thickness and range, and the material removed from its faces. */
#ifndef BITE_JOB_STOCK_PLAN_H
#define BITE_JOB_STOCK_PLAN_H

#include "core/job/plan.h"

/** Plans the sheet: nominal thickness, range, material removed from each face, and how it is
 * parted. */
bite_status bite_plan_stock(bite_job *job, bite_error *error);

#endif
