/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts of a plan, stored in the job's arena. */
#ifndef BITE_JOB_PLAN_TEXT_H
#define BITE_JOB_PLAN_TEXT_H

#include "core/job/plan.h"

/** A formatted text in the job's arena. Without memory it returns "" and sets
 * job->out_of_memory. */
const char *bite_plan_text(bite_job *job, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/** A quantity in the job's units, "-" for NaN. Returns buffer. */
const char *bite_plan_quantity(const bite_job *job, double si, bite_kind kind, char *buffer,
                               size_t size);

/** A time in the unit that suits its length: 45 s, 7.5 min, 2.3 h; "-" for NaN. Returns buffer. */
const char *bite_plan_duration(double seconds, char *buffer, size_t size);

/** A sentence of a table, which states metric quantities, for the job's units: an inch shop gets
 * it converted by bite_text_inches. The text itself, or a copy in the job's arena; "" for NULL and
 * without memory, as bite_plan_text. */
const char *bite_plan_table_text(bite_job *job, const char *text);

#endif
