/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of a job file: their kinds, words and ranges. */
#ifndef BITE_JOB_JOB_FILE_SCHEMA_H
#define BITE_JOB_JOB_FILE_SCHEMA_H

#include "core/tables/typed_table.h"
#include <stdint.h>

extern const bite_table_schema bite_job_file_schema;

/** The word of a bite_work ("face"), and a title for people ("cut a contour"). NULL beyond the
 * last. */
const char *bite_work_word(uint32_t work);
const char *bite_work_title(uint32_t work);

#endif
