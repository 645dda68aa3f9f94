/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in text, the same in every locale. */
#ifndef BITE_BASE_NUMBER_H
#define BITE_BASE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/**
 * Reads the longest plain decimal number at text[0..length): digits, one point, exponent. No hex,
 * inf, nan, comma, or leading blank. *used: its length. False: no number there, or not finite.
 */
bool bite_number_read(const char *text, size_t length, double *value, size_t *used);

/** Writes value with `digits` significant digits, a point whatever the locale, no trailing zeros;
 * exponent form only below 1e-4 or at 10^digits and above. Returns the length needed, like
 * snprintf; never more than size - 1 characters are written. */
size_t bite_number_write(double value, int digits, char *buffer, size_t size);

/** The value rounded to `digits` significant digits (1 to 15), ties to even: the double that
 * bite_number_write followed by bite_number_read would give, without the text. Exact for magnitudes
 * from 1e-8 to 1e15; beyond these it may differ in the last bit. NaN and infinities stay. */
double bite_number_round(double value, int digits);

#endif
