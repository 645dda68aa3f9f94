/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for workholding that the engine does not use: they verify reference rows and other
 * tests. */
#ifndef BITE_TESTS_REFERENCE_TEXTBOOK_HOLDING_H
#define BITE_TESTS_REFERENCE_TEXTBOOK_HOLDING_H

/** Side force that a vacuum plate holds by friction, N: mu (p A - lift), at least 0. */
double textbook_holding_vacuum(double pressure, double area, double friction, double lift);

/** Slip at the edge of a part on a plate with another thermal expansion, m: (a1 - a2) dT r, r from
 * the middle. */
double textbook_holding_slip(double expansion, double plate_expansion, double warmer,
                             double from_middle);
/** Stress in the part if the bond does not slip, Pa: E (a1 - a2) dT/(1 - nu). */
double textbook_holding_mismatch(double modulus, double poisson, double expansion,
                                 double plate_expansion, double warmer);

#endif
