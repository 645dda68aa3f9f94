/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds under a part: the equivalent steady force on tape and glue, and their strength over time
 * and temperature. SI units. */
#ifndef BITE_PHYSICS_HOLDING_BOND_H
#define BITE_PHYSICS_HOLDING_BOND_H

/** The steady force that damages a bond as much as a milling force does, over the peak of that
 * force: (g s)^m, with a strength that falls as time^-m and g = Gamma((1/m + 1)/2)/(sqrt(pi)
 * Gamma(1/(2 m) + 1)), the mean over half a turn of sin^(1/m) (power-law creep; derived here;
 * 0.3395 at m = 0.2). in_cut: s, the share of the time in which a tooth cuts, at most 1. 1 for m =
 * 0: without creep the peak counts. */
double bite_bond_steady_share(double exponent, double in_cut);

/** The force on the bond: ringing x max(mean, steady_share x peak). ringing: factor for the
 * vibration of the part, 1.1 (1 to 1.5; estimate). */
double bite_bond_force(double mean, double peak, double steady_share, double ringing);

/** Share of its stated strength that a bond retains: (60 s/t)^m 2^(-(T - 23 degC)/halving). time: s
 * under load, from mounting on; halving NaN: the strength does not depend on temperature. */
double bite_bond_strength_left(double exponent, double time, double halving, double temperature);

/** Length from an edge over which a plate on a soft layer distributes a lifting force: max(h, (E
 * h^3 t/(3 E_layer))^0.25), a beam on an elastic foundation (estimate). A stiff plate distributes
 * it over its whole bond; a thin one is cleaved along this length. height: h; modulus: E of the
 * plate, NaN: not known, the length is h; layer_modulus and layer_thickness: NaN: there is no soft
 * layer, the length is infinite. */
double bite_bond_cleavage_length(double height, double modulus, double layer_modulus,
                                 double layer_thickness);

#endif
