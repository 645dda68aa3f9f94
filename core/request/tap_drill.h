/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drill for a thread, of the sizes that are sold. */
#ifndef BITE_REQUEST_TAP_DRILL_H
#define BITE_REQUEST_TAP_DRILL_H

#include "core/library/item.h"
#include <coolbite/coolbite.h>

/** Of the plain drills of the table, the one that comes closest to a hole: a metric size for a
 * metric thread, otherwise a number, letter or fraction. hole: m. *drill: NULL if the table has
 * none within 4 % of it; borrowed until the library closes. */
bite_status bite_tap_drill(const bite_library *library, double hole, int metric,
                           const bite_item_record **drill, bite_error *error);

/** Of the plain drills of the table, the smallest from `least` to `most`, m: of metric sizes, or of
 * numbers, letters and fractions. *drill: NULL if there is none; borrowed until the library closes.
 */
bite_status bite_drill_at_least(const bite_library *library, double least, double most, int metric,
                                const bite_item_record **drill, bite_error *error);

/** Whether a pitch is that of a metric thread: a multiple of 0.05 mm. */
int bite_thread_is_metric(double pitch);

#endif
