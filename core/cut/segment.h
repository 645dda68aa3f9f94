/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All values of one segment of the path: the straight, an inside corner, or the entry move. */
#ifndef BITE_CUT_SEGMENT_H
#define BITE_CUT_SEGMENT_H

#include "core/cut/segment_cache.h"
#include "core/cut/segment_values.h"
#include <coolbite/coolbite.h>

/** Sets all values and heat shares to NaN, the rest to 0 or NaN. */
void bite_segment_blank(bite_segment *segment);

/** Computes the values of the segment with this arc of contact. cut: checked, all defaults filled.
 * Intermediate results that are still valid are read from the cache, and new ones are stored there.
 */
void bite_segment_compute_cached(const bite_cut *cut, bite_arc arc, bite_segment_cache *cache,
                                 bite_segment *segment);

#endif
