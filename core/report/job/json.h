/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as JSON, schema 1. */
#ifndef BITE_REPORT_JOB_JSON_H
#define BITE_REPORT_JOB_JSON_H

#include <coolbite/coolbite.h>

bite_status bite_job_json(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error);

#endif
