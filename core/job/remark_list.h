/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of a plan's remarks. */
#ifndef BITE_JOB_REMARK_LIST_H
#define BITE_JOB_REMARK_LIST_H

#include "core/job/plan.h"

/** A text and a quantity as a value. */
bite_remark_value bite_remark_text(const char *text);
bite_remark_value bite_remark_number(double quantity);

/** Adds a remark, a bite_remark_id with its values, and a severity and a source of its own: those
 * of a table or a plugin. One equal to an earlier one is not repeated. */
void bite_plan_remark_from(bite_job *job, uint32_t id, uint32_t severity, const char *source,
                           const bite_remark_value *values, size_t count);

/** Sorts the remarks, danger first and information last, otherwise in the order they came. */
void bite_plan_sort_remarks(bite_job *job);

#endif
