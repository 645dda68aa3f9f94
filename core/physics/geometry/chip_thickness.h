/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chip of a tooth: feeds with runout (runout_envelope.h), and the thickest chip of a blunt
 * edge. */
#ifndef BITE_PHYSICS_GEOMETRY_CHIP_THICKNESS_H
#define BITE_PHYSICS_GEOMETRY_CHIP_THICKNESS_H

#include "core/base/lane_math.h"

#define BITE_TEETH_MAX 16

/** The largest difference in radius between neighbouring teeth over TIR: sin(pi/z), 0 for one
 * flute. */
BITE_FORMULA double bite_chip_step_share(int flutes)
{
    return flutes > 1 ? sin(M_PI / flutes) : 0.0;
}

/** Feed of the heavy and of the light tooth, m: min(z fz, fz + step), max(0, fz - step). step: m,
 * between neighbours. */
BITE_FORMULA double bite_chip_heavy(double tooth_feed, double flutes, double step)
{
    return bite_smaller(flutes * tooth_feed, tooth_feed + step);
}

BITE_FORMULA double bite_chip_light(double tooth_feed, double step)
{
    return bite_larger(0.0, tooth_feed - step);
}

/**
 * Thickest chip that a tooth may cut if the geometric one is h = `chip` and no chip thinner than
 * `least` forms.
 *
 * A layer that is too thin to be cut is left for the next tooth, so the volume removed is the same:
 * mean forces are those of h, but every m-th tooth cuts the layers that the teeth before it left.
 * max(h, min(h + h_min, 2 h_min)): the peaks of a simulation of 1500 turns that records the uncut
 * layer at each angle are not above it.
 */
BITE_FORMULA double bite_chip_peak(double chip, double least)
{
    return bite_larger(chip, bite_smaller(chip + least, 2.0 * least));
}

#endif
