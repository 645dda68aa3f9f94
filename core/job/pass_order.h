/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of passes with the fewest tool changes. */
#ifndef BITE_JOB_PASS_ORDER_H
#define BITE_JOB_PASS_ORDER_H

#include "core/job/job_file.h"
#include <stddef.h>
#include <stdint.h>

/** The order of passes with the fewest tool changes. before[i * count + k]: i comes before k.
 * tools: a number for each pass. order: pass indices, count of them, at most BITE_PASSES_MAX. Exact
 * for the jobs of a shop, otherwise greedy. BITE_NO_ANSWER: the passes depend on each other in a
 * cycle, or are too many. BITE_NO_MEMORY.
 */
bite_status bite_pass_order_find(const bite_allocator *allocator, size_t count,
                                 const unsigned char *before, const uint32_t *tools,
                                 uint32_t *order, uint32_t *changes);

#endif
