/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depth above which a cut chatters, from the measured modes. */
#ifndef BITE_CUT_CHATTER_DEPTH_H
#define BITE_CUT_CHATTER_DEPTH_H

#include "core/physics/dynamics/light_cut.h"
#include "core/physics/geometry/engagement.h"
#include <coolbite/coolbite.h>

/** Whether a vibration mode of the machine was measured. */
int bite_cut_has_measured_modes(const bite_cut *cut);

/** Depth above which the cut chatters, m, from its measured modes, which are assumed to be the same
 * along both axes. tangential: K, Pa; ratio: radial/tangential; speed in 1/s. */
double bite_measured_depth(const bite_cut *cut, bite_arc arc, double tangential, double ratio,
                           double speed, bite_light_cut_room *room);

#endif
