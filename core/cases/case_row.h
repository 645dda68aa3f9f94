/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row of text in a request. */
#ifndef BITE_CASES_CASE_ROW_H
#define BITE_CASES_CASE_ROW_H

#include "core/cases/case_work.h"

/** Prepares the request of a worker for its first row. */
void bite_case_worker_start(const bite_case_plan *plan, bite_case_worker *worker);

/** Sets the request of the worker to that of the plan with the fields of a row. BITE_BAD_FILE: not
 * a row of that format; errors of bite_request_set and bite_request_use, with the column as key. */
bite_status bite_case_row_read(const bite_case_plan *plan, const bite_case_row *row,
                               bite_case_worker *worker, bite_error *error);

#endif
