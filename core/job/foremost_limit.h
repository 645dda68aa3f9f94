/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limit that represents a pass. */
#ifndef BITE_JOB_FOREMOST_LIMIT_H
#define BITE_JOB_FOREMOST_LIMIT_H

#include <coolbite/coolbite.h>
#include <stdint.h>

/** The limit to show for a pass, a bite_limit_id: the one most likely to be exceeded; if none is
 * likely at all (below a chance of 0.05 %, or without draws), the one with the highest utilization.
 * *chance: of the former; NaN for the latter. */
uint32_t bite_foremost_limit(const bite_result *result, double *chance);

#endif
