/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job, shown. */
#ifndef BITE_REPORT_JOB_JOB_H
#define BITE_REPORT_JOB_JOB_H

#include "core/job/plan.h"

#endif
