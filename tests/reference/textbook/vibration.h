/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for vibration that the engine does not use: they verify reference rows and other
 * tests. */
#ifndef BITE_TESTS_REFERENCE_TEXTBOOK_VIBRATION_H
#define BITE_TESTS_REFERENCE_TEXTBOOK_VIBRATION_H

#include "core/physics/dynamics/stability_lobes.h"

/** The roots of cos x cosh x = -1, which give the frequencies of a uniform cantilever: x^2 = w L^2
 * sqrt(rho A/(E I)). number: from 1. */
double textbook_cantilever_root(int number);

/** The depth, m, below which no speed chatters, by the zero-order solution over all frequencies;
 * *frequency (Hz): of the chatter at that depth, or NULL. INFINITY if there is none. */
double textbook_chatter_least(const bite_chatter_case *problem, double *frequency);

/** The directional coefficients xx, xy, yx, yy: integrals over an arc of contact, averaged over a
 * turn by the zero-order solution. ratio: radial/tangential. */
void textbook_chatter_directions(bite_arc arc, double ratio, double *coefficients);

#endif
