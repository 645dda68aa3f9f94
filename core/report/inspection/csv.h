/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The readings of a judged record as CSV. */
#ifndef BITE_REPORT_INSPECTION_CSV_H
#define BITE_REPORT_INSPECTION_CSV_H

#include "core/inspection/inspection_result.h"
#include "core/report/text_page.h"

/** A line for each reading, also for those that do not stand; lengths in the unit of its column. */
bite_status bite_inspection_csv(const bite_inspection *inspection, bite_page *page,
                                bite_error *error);

#endif
