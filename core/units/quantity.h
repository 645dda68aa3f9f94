/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Quantities at the door: units, what may stand behind a number of a kind, and how a shop writes
 * it. */
#ifndef BITE_UNITS_QUANTITY_H
#define BITE_UNITS_QUANTITY_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

/** The SI unit of a kind ("m/s"), as in JSON. Borrowed, for ever. */
const char *bite_unit_si(bite_kind kind);

/** The noun of a kind for messages ("a length"). Borrowed, for ever. */
const char *bite_unit_noun(bite_kind kind);

/**
 * Reads text[0..length) as a quantity of one of the kinds in `kinds` (count of them); *which: the
 * index of the one that its unit belongs to. bite_quantity_read is this with one kind. Errors as
 * there (BITE_BAD_QUANTITY, BITE_OUT_OF_RANGE), key left empty.
 */
bite_status bite_unit_read(const char *text, size_t length, const bite_kind *kinds, size_t count,
                           double *si, size_t *which, bite_error *error);

/** As bite_quantity_write, in the unit of that name ("mm/min"), which must be of the kind; digits:
 * significant. */
bite_status bite_unit_write(double si, bite_kind kind, const char *unit, int digits, char *buffer,
                            size_t size, size_t *length, bite_error *error);

/** The quantity rounded to so many significant digits of the named unit, in SI: what writing it in
 * that unit and reading it back gives. A unit that the kind does not have leaves it as it is. */
double bite_unit_round(double si, bite_kind kind, const char *unit, int digits);

/** The unit that a shop writes this number of this kind with ("mm", "um", "mm/min"), and the number
 * in it. Borrowed, for ever. */
const char *bite_unit_shop(double si, bite_kind kind, bite_units units, double *number);

/** The same in the unit that a shop writes the kind's large numbers with, whatever this one's size:
 * for what programs read. */
const char *bite_unit_fixed(double si, bite_kind kind, bite_units units, double *number);

#endif
