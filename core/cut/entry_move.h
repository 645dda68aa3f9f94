/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The entry move: most small tools break there, at full width and without an exit for the chips. */
#ifndef BITE_CUT_ENTRY_MOVE_H
#define BITE_CUT_ENTRY_MOVE_H

#include "core/base/lane_math.h"
#include "core/cut/segment.h"

/** Feed rate along the entry move, m/s: as given, else a third of the side feed in a plunge and
 * half of it on a ramp or helix (memory). given: NaN if it is not. */
BITE_FORMULA double bite_entry_feed_of(double given, double side_feed, int plunges)
{
    return bite_or(given, side_feed * (plunges ? 1.0 / 3.0 : 0.5));
}

/** The same of a cut. */
double bite_entry_feed(const bite_cut *cut);

/**
 * The segment of the entry move, and the cut that it is.
 *
 * A ramp or helix is a slot at its own feed. In a plunge the end teeth cut, dF = (K h + Ke) dr with
 * h = vf/(n z), their thrust presses on the core, and runout leaves a side force (estimate); values
 * that a plunge does not have are NaN. cut: all defaults filled, entry not outside. *entry: the cut
 * of the move. cache: of entry moves.
 */
void bite_entry_cut(const bite_cut *cut, bite_cut *entry, bite_segment_cache *cache,
                    bite_segment *segment);

#endif
