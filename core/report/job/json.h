/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as JSON, schema 1. */
#ifndef BITE_REPORT_JOB_JSON_H
#define BITE_REPORT_JOB_JSON_H

#include <coolbite/coolbite.h>

/** The plan in SI; texts in the job's own units. Errors as bite_job_write. */
bite_status bite_job_json(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error);

#endif
