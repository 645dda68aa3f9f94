/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as text, the same in every locale. */
#ifndef BITE_BASE_NUMBER_H
#define BITE_BASE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/**
 * Reads the longest decimal number at the start of text[0..length): sign, digits, one point,
 * exponent. Hexadecimal numbers, inf, nan, commas and leading blanks are not accepted.
 *
 * *used: its length in bytes. False: no number, 64 or more characters, or not finite; nothing is
 * written.
 */
bool bite_number_read(const char *text, size_t length, double *value, size_t *used);

/** Writes value with `digits` significant digits (1 to 17), a decimal point in every locale, and no
 * trailing zeros; in exponent form only below 1e-4 or from 10^digits on. Returns the length needed
 * without the 0, as snprintf does; at most size - 1 characters and a 0 are written. */
size_t bite_number_write(double value, int digits, char *buffer, size_t size);

/** The value rounded to `digits` significant digits (1 to 15), ties to even: the double that
 * bite_number_write followed by bite_number_read would give, without the text. Exact for magnitudes
 * from 1e-8 to 1e15; beyond these it may differ in the last bit. NaN and infinities stay. */
double bite_number_round(double value, int digits);

#endif
