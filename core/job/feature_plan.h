/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the passes of a job are, and a tool for each that names none. */
#ifndef BITE_JOB_FEATURE_PLAN_H
#define BITE_JOB_FEATURE_PLAN_H

#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** What the passes are, and a tool for each. */
bite_status bite_plan_features(bite_job *job, bite_error *error);

/** Order of work with the fewest tool changes, and the tools by use. */
bite_status bite_plan_pass_order(bite_job *job, bite_error *error);

/** The inside corner that a pass leaves, m: its own, or the part's where it cuts inside; NaN: of
 * any size. */
double bite_plan_inside_radius(const bite_job *job, const bite_section *section, uint32_t work);

#endif
