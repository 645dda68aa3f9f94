/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as plain text. */
#ifndef BITE_REPORT_JOB_TEXT_H
#define BITE_REPORT_JOB_TEXT_H

#include <coolbite/coolbite.h>

/** The plan in the job's own units. Errors as bite_job_write. */
bite_status bite_job_text(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error);

#endif
