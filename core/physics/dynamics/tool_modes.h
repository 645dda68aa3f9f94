/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool as a beam that rings: its first frequencies, clamped at the holder. */
#ifndef BITE_PHYSICS_DYNAMICS_TOOL_MODES_H
#define BITE_PHYSICS_DYNAMICS_TOOL_MODES_H

#include "core/physics/elastic/stepped_shaft.h"

/**
 * The number-th frequency (from 1), Hz, of a stepped shaft free at its tip: Euler and Bernoulli's
 * beam by transfer matrices, exact for cylinders; a cone is cut into four of its mean diameters.
 * Pa, kg/m3.
 */
double bite_tool_mode_frequency(const bite_shaft *shaft, double modulus, double density,
                                int number);

/**
 * The frequency, Hz, of the shape into which a force at the tip bends the shaft: Rayleigh's w^2 =
 * y(0)/integral of rho A y^2, never under the first one and 1.5 % over it for a cylinder (33/140 of
 * its mass). Where a thin tip stands on a thick shank it is the tip's own, which makes most of what
 * yields there. A cone is a cylinder of the mean of its diameters. As cheap as bending.
 */
double bite_tool_mode_bent(const bite_shaft *shaft, double modulus, double density);

#endif
