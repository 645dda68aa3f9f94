/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The remarks of a plan in words. */
#ifndef BITE_REPORT_JOB_REMARK_TEXT_H
#define BITE_REPORT_JOB_REMARK_TEXT_H

#include "core/job/plan.h"

/* A line of a job file has at most 1000 bytes, and a remark may contain two of them. */
#define BITE_REMARK_TEXT_MAX 4000

/** The template of a remark id, NULL beyond the last. {0} to {4} are its values; a part in square
 * brackets is left out if one of its values is missing. */
const char *bite_remark_template(uint32_t id);

/** Writes a remark in words, with its quantities in these units. A longer text ends at a whole
 * character. Returns buffer. */
const char *bite_remark_words(const bite_remark *remark, bite_units units, char *buffer,
                              size_t size);

#endif
