/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The cutter walks into its own heat: which share of what it puts into the work is met again by the
 * next teeth and leaves with chips.
 *
 * Fits to finite-element and finite-volume solutions of a moving front (estimate; the test holds
 * them against a solution of its own), band x/: 1.35. In one dimension all of it comes back. Good
 * to 5 % in r for a full slot, Pe 0.3 to 500; side cuts err by up to 25 % and for Pe under 0.1 by
 * more. The share 1 - r that stays is worse: 56 % too large at Pe 500, which warms the part.
 */
#ifndef BITE_PHYSICS_HEAT_HEAT_RECIRCULATION_H
#define BITE_PHYSICS_HEAT_HEAT_RECIRCULATION_H

/** Pe = (vf R/a) min(1, ae/R)^1.4. */
double bite_recirculation_peclet(double feed_rate, double radius, double width, double diffusivity);

/** Loss into a floor under the cut: e = 0.64 (vf ap/a)^-0.90. A through cut has none: 0. */
double bite_recirculation_floor(double feed_rate, double depth, double diffusivity);

/** r = 1/(1 + p + e + 0.83 (p e)^0.68), p = 0.85 Pe^-0.87 + 0.455 Pe^-0.19. */
double bite_recirculation_share(double peclet, double floor_loss);

/** What the surface that stays feels of the preheat, being one layer deeper: g = 1/(1 +
 * (0.25/Fo)^1.5), Fo = a/(vf fz). */
double bite_recirculation_surface(double fourier);

#endif
