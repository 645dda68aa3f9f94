/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depth above which a cut chatters, from the measured modes or from those of machine and tool.
 */
#ifndef BITE_CUT_CHATTER_DEPTH_H
#define BITE_CUT_CHATTER_DEPTH_H

#include "core/cut/segment_cache.h"
#include "core/cut/segment_values.h"
#include "core/physics/elastic/tool_deflection.h"
#include <coolbite/coolbite.h>

/** Whether a vibration mode of the machine was measured. */
int bite_cut_has_measured_modes(const bite_cut *cut);

/** Fills the depths above which the cut chatters, m. segment: with its surface speed and
 * engagement. */
void bite_segment_fill_chatter(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                               const bite_tool_deflection *deflection, bite_segment_cache *cache,
                               bite_segment *segment);

#endif
