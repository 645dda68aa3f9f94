/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The feed of the entry move. */
#ifndef BITE_CUT_ENTRY_MOVE_H
#define BITE_CUT_ENTRY_MOVE_H

#include "core/base/lane_math.h"
#include <coolbite/coolbite.h>

/** Feed rate along the entry move, m/s: as given, else a third of the side feed in a plunge and
 * half of it on a ramp or helix (memory). given: NaN if it is not. */
BITE_FORMULA double bite_entry_feed_of(double given, double side_feed, int plunges)
{
    return bite_or(given, side_feed * (plunges ? 1.0 / 3.0 : 0.5));
}

/** The same of a cut with all defaults filled. */
static inline double bite_entry_feed(const bite_cut *cut)
{
    return bite_entry_feed_of(cut->entry_feed, cut->feed_rate, cut->entry == BITE_ENTRY_PLUNGE);
}

#endif
