/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for workholding that the engine does not use. */
#include "tests/reference/textbook/holding.h"
#include <math.h>

double textbook_holding_vacuum(double pressure, double area, double friction, double lift)
{
    return fmax(0.0, friction * (pressure * area - fmax(0.0, lift)));
}

double textbook_holding_slip(double expansion, double plate_expansion, double warmer,
                             double from_middle)
{
    return (expansion - plate_expansion) * warmer * from_middle;
}

double textbook_holding_mismatch(double modulus, double poisson, double expansion,
                                 double plate_expansion, double warmer)
{
    return modulus * (expansion - plate_expansion) * warmer / (1.0 - poisson);
}
