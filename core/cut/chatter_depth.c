/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the modes of the machine were measured. */
#include "core/cut/chatter_depth.h"
#include <math.h>

int bite_cut_has_measured_modes(const bite_cut *cut)
{
    return !isnan(cut->mode_frequency) || !isnan(cut->mode2_frequency) ||
           !isnan(cut->mode3_frequency);
}
