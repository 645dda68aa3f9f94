/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job, shown. */
#ifndef BITE_REPORT_JOB_JOB_H
#define BITE_REPORT_JOB_JOB_H

#include "core/job/plan.h"

bite_status bite_job_text(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_job_json(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error);

/**
 * The job's sheet: one web page that needs nothing else, to be printed; a page of paper for each setup, then what stays at the
 * desk.
 *
 * Numbers stand in the job's own units; of the style only its size is looked at. BITE_NO_MEMORY comes before the first byte.
 * BITE_CANNOT_WRITE: the sink refused.
 */
bite_status bite_job_html(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error);

/** The limit that a pass is told by, a bite_limit_id: of one that is clear the most used, else the likeliest to go over. */
uint32_t bite_job_worst_limit(const bite_result *result);

#endif
