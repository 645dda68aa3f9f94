/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the modes of the machine were measured. */
#ifndef BITE_CUT_CHATTER_DEPTH_H
#define BITE_CUT_CHATTER_DEPTH_H

#include <coolbite/coolbite.h>

/** Whether a vibration mode of the machine was measured. */
int bite_cut_has_measured_modes(const bite_cut *cut);

#endif
