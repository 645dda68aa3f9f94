/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where Z zero is set in each setup: on the top of the stock or on what it lies on, and what each
 * makes of the dimensions that are cut. */
#ifndef BITE_JOB_DATUM_PLAN_H
#define BITE_JOB_DATUM_PLAN_H

#include "core/job/plan.h"

/** Chooses the zero of each setup, once the passes are in order. */
bite_status bite_plan_datums(bite_job *job, bite_error *error);

/** "thickness", "floor", "depth", "end of the cut"; "" beyond the last. */
const char *bite_datum_dimension_name(uint32_t dimension);

/** Where the zero is, for people: "on the top of the stock". */
const char *bite_datum_zero_title(const bite_planned_datum *datum);

#endif
