/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as plain text: verdict, stock, passes with what to type in, holding, fluids, time,
 * what to mind. */
#ifndef BITE_REPORT_JOB_TEXT_H
#define BITE_REPORT_JOB_TEXT_H

#include <coolbite/coolbite.h>

bite_status bite_job_text(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error);

#endif
