/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of a job file: their kinds, words and ranges. */
#ifndef BITE_JOB_JOB_FILE_SCHEMA_H
#define BITE_JOB_JOB_FILE_SCHEMA_H

#include "core/inspection/measured.h"
#include "core/tables/typed_table.h"
#include <stdint.h>

extern const bite_table_schema bite_job_file_schema;

/** The key of a section of the schema: "depth" of "pass.". NULL: there is none. */
const bite_field *bite_job_file_field(const char *section, const char *name);

/** The word of a side of the part ("top"); NULL beyond the last. */
const char *bite_side_word(uint32_t side);

/** A datum for people: "the top of the stock" of "stock-top"; the word itself if there is none. */
const char *bite_datum_title(const char *word);

/** The word of a bite_work ("face"), and a title for people ("cut a contour"). NULL beyond the
 * last. */
const char *bite_work_word(uint32_t work);
const char *bite_work_title(uint32_t work);

#endif
