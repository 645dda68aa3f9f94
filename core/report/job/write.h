/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job in the format that is asked for. */
#ifndef BITE_REPORT_JOB_WRITE_H
#define BITE_REPORT_JOB_WRITE_H

#include <coolbite/coolbite.h>
#include <stdint.h>

/** The limit that a pass is told by, a bite_limit_id: of one that is clear the most used, else the
 * likeliest to go over. */
uint32_t bite_job_worst_limit(const bite_result *result);

#endif
