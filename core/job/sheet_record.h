/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet of the tables: the thicknesses and sizes in which it is sold, in metric or in inch units.
 */
#ifndef BITE_JOB_SHEET_RECORD_H
#define BITE_JOB_SHEET_RECORD_H

#include "core/job/plan.h"
#include "core/job/sheet_stock.h"

#define BITE_SHEET_SIZES_MAX 8

/** Sizes of whole sheets, m, the longer side first. */
typedef struct bite_sheet_sizes {
    size_t count;
    double length[BITE_SHEET_SIZES_MAX];
    double width[BITE_SHEET_SIZES_MAX];
} bite_sheet_sizes;

/** The sheet of the job's material: that of its grade, otherwise of its family; NULL: the tables
 * have none. */
bite_status bite_sheet_find(const bite_job *job, const bite_item_record **sheet, bite_error *error);

/** Whether the job buys sheets in inch sizes: as it states, otherwise by its units. */
int bite_sheet_in_inches(const bite_job *job);

/** The thicknesses on sale and their tolerances. A sheet that is not sold in inches is bought in
 * metric sizes, and the other way round. sheet NULL: none. */
void bite_sheet_read_rule(const bite_item_record *sheet, int inch, bite_sheet_rule *rule);

/** The sizes on sale. */
void bite_sheet_read_sizes(const bite_item_record *sheet, int inch, bite_sheet_sizes *sizes);

#endif
