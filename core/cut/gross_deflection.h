/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a tool or a thin part may deflect if no tolerance was requested. */
#ifndef BITE_CUT_GROSS_DEFLECTION_H
#define BITE_CUT_GROSS_DEFLECTION_H

#include "core/base/lane_math.h"

/** Deviations that nobody would accept even if no tolerance was requested, m: the general tolerance
 * of class c (ISO 2768-1), either way, for sizes from the stated one upwards, straight in between
 * so that it has no steps. size: m. */
BITE_FORMULA double bite_gross_deviation(double size)
{
    static const struct {
        double size;
        double deviation;
    } coarse[] = {{0.5e-3, 0.2e-3}, {3e-3, 0.3e-3}, {6e-3, 0.5e-3}, {30e-3, 0.8e-3}};
    double deviation = coarse[0].deviation;
    for (int i = 1; i < (int)(sizeof coarse / sizeof *coarse); i++) {
        double step = coarse[i].size - coarse[i - 1].size;
        double above = bite_within(size - coarse[i - 1].size, 0.0, step);
        deviation += above * ((coarse[i].deviation - coarse[i - 1].deviation) / step);
    }
    return deviation;
}

/** Allowed deflection, m: a share of the body's own size, at most the coarse general tolerance of
 * that size, and at most the width or depth that the pass removes: a body that springs away by all
 * of it is not cut at all; a smaller deflection is found by the next pass, which then removes as
 * much as it should. size, removed: m. */
BITE_FORMULA double bite_gross_deflection_capacity(double size, double share, double removed)
{
    return bite_smaller(removed, bite_smaller(share * size, bite_gross_deviation(size)));
}

#endif
