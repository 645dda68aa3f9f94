/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of a chunk: read, computed side by side, and written in their order. */
#ifndef BITE_CASES_CASE_JUDGE_H
#define BITE_CASES_CASE_JUDGE_H

#include "core/cases/case_work.h"

/** Reads and judges the rows of a chunk, and writes them to its text. */
void bite_case_chunk_run(const bite_case_plan *plan, bite_case_worker *worker,
                         bite_case_chunk *chunk);

#endif
