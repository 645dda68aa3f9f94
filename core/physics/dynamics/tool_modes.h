/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Natural frequencies of the tool as a stepped beam clamped at the holder. */
#ifndef BITE_PHYSICS_DYNAMICS_TOOL_MODES_H
#define BITE_PHYSICS_DYNAMICS_TOOL_MODES_H

#include "core/physics/elastic/stepped_shaft.h"

/**
 * The number-th natural frequency (from 1), Hz, of a stepped shaft free at its tip: Euler-Bernoulli
 * beam by transfer matrices, exact for cylinders; a cone is divided into four cylinders of its mean
 * diameters. modulus in Pa, density in kg/m3.
 */
double bite_tool_mode_frequency(const bite_shaft *shaft, double modulus, double density,
                                int number);

/**
 * The frequency, Hz, of the shape into which a force at the tip bends the shaft: Rayleigh's w^2 =
 * y(0)/integral of rho A y^2, never below the first natural frequency and 1.5 % above it for a
 * cylinder (33/140 of its mass). For a thin tip on a thick shank it is the frequency of the tip,
 * which contributes most of the compliance. A cone is treated as a cylinder of its mean diameter.
 * It costs as little as the bending itself.
 */
double bite_tool_mode_bent(const bite_shaft *shaft, double modulus, double density);

#endif
