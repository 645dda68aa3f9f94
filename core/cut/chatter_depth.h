/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depth above which a cut chatters, from the measured modes. */
#ifndef BITE_CUT_CHATTER_DEPTH_H
#define BITE_CUT_CHATTER_DEPTH_H

#include "core/physics/dynamics/semi_discretization.h"
#include "core/physics/geometry/engagement.h"
#include <coolbite/coolbite.h>

/* Steps of the semi-discretization, good to 2 % in light side cuts; up to three modes may be
 * measured, and they are the same along both axes. */
#define BITE_SEGMENT_SEMIDISCRETE_STEPS 24
#define BITE_SEGMENT_MODES 6

/** Whether a vibration mode of the machine was measured. */
int bite_cut_has_measured_modes(const bite_cut *cut);

/** Depth above which the cut chatters, m, from its measured modes, which are assumed to be the same
 * along both axes. tangential: K, Pa; ratio: radial/tangential; speed in 1/s. workspace: of
 * BITE_SEMIDISCRETE_SIZE(BITE_SEGMENT_MODES, BITE_SEGMENT_SEMIDISCRETE_STEPS). */
double bite_measured_depth(const bite_cut *cut, bite_arc arc, double tangential, double ratio,
                           double speed, bite_semidiscrete_room workspace);

#endif
