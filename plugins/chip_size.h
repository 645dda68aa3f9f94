/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The size of a chip, for metals whose fine chips burn. Inline, because a plugin links to nothing
 * of the library. */
#ifndef BITE_PLUGINS_CHIP_SIZE_H
#define BITE_PLUGINS_CHIP_SIZE_H

#include <math.h>

/* Diameter of a ball that has as much metal as a chip: V = h b l, d = (6 V/pi)^(1/3), with the mean
 * thickness h, the width b and the length l = D/2 x arc of contact. Particles are classed by such a
 * diameter. */
static inline double chip_ball(double thickness, double width, double diameter, double arc)
{
    static const double pi = 3.14159265358979323846;
    return cbrt(6.0 / pi * thickness * width * 0.5 * diameter * arc);
}

#endif
