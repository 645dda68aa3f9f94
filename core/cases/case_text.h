/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of a chunk as text: what was read, the results, and what was wrong. */
#ifndef BITE_CASES_CASE_TEXT_H
#define BITE_CASES_CASE_TEXT_H

#include "core/cases/case_work.h"

/** Writes the rows to the text of the chunk, counts their verdicts, and copies their errors. In CSV
 * a field that a spreadsheet could take for a formula gets an apostrophe. */
void bite_case_chunk_write(const bite_case_plan *plan, bite_case_worker *worker,
                           bite_case_chunk *chunk);

/** Writes the first line of the results: that of the file, and the names with their units. */
void bite_case_head_write(const bite_case_plan *plan, const char *line, bite_case_worker *worker,
                          bite_case_text *out);

/** A fault in one sentence. At most size bytes, with the null. */
void bite_case_fault_text(const bite_error *error, char *to, size_t size);

/** Appends text. */
void bite_case_text_add(const bite_allocator *allocator, bite_case_text *out, const char *text,
                        size_t size);

#endif
