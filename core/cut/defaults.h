/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is taken where nothing is given, and why. */
#ifndef BITE_CUT_DEFAULTS_H
#define BITE_CUT_DEFAULTS_H

#include <coolbite/coolbite.h>

/** Fills what is NaN and has a usual value. What has none (width of a slot, limits of the machine,
 * what was asked of the part) stays NaN. */
void bite_defaults_fill(bite_cut *cut);

/** Why that value is the usual one: "grade: where", as in a table; "" for an input that has no
 * default. Borrowed, for ever. */
const char *bite_defaults_source(const char *input);

/** The edge radius of a new tool, m: the keenest to be had. */
double bite_edge_radius_default(double diameter);

#endif
