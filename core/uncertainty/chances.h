/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Chances and verdicts: fractions of the draws in which limits are exceeded.
 *
 * The joint chance is counted over whole draws, since limits share their inputs; it is never a
 * product of chances.
 */
#ifndef BITE_UNCERTAINTY_CHANCES_H
#define BITE_UNCERTAINTY_CHANCES_H

#include "core/uncertainty/draw_samples.h"
#include <coolbite/coolbite.h>

/** Chatter of a machine whose modes were not measured is advisory, unless its chance is at least
 * this. */
extern const double bite_gross_chatter;

/** Fills the chances of all limits and of the cut, and their verdicts. */
void bite_chances_fill(const bite_draw_counts *counts, bite_draw_samples *samples,
                       double confidence, bite_result *result);

/** The binding limit with the highest chance of being exceeded; of equal chances the one whose
 * utilization is highest. */
uint32_t bite_chances_governing(const bite_draw_samples *samples, const bite_result *result);

#endif
