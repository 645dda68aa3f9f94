/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formatting of quantities: a number with its unit. bite_quantity_write is in coolbite/coolbite.h.
 */
#ifndef BITE_UNITS_FORMAT_QUANTITY_H
#define BITE_UNITS_FORMAT_QUANTITY_H

#include <coolbite/coolbite.h>
#include <stddef.h>

/** As bite_quantity_write, but in the named unit ("mm/min"), which must be one of the kind. digits:
 * significant digits. BITE_BAD_ARGUMENT: not such a unit, or si is not finite. */
bite_status bite_quantity_write_unit(double si, bite_kind kind, const char *unit, int digits,
                                     char *buffer, size_t size, size_t *length, bite_error *error);

/** The unit in which a shop writes this value of this kind ("mm", "um", "mm/min"); *number: the
 * value in it. Borrowed, for ever. */
const char *bite_unit_shop(double si, bite_kind kind, bite_units units, double *number);

/** The unit in which a shop writes large values of this kind, whatever the size of this value, so
 * that programs find one unit; *number: the value in it. Borrowed, for ever. */
const char *bite_unit_fixed(double si, bite_kind kind, bite_units units, double *number);

/** The quantity rounded to so many significant digits of the named unit, in SI: what writing it in
 * that unit and reading it back gives. A unit that the kind does not have leaves it as it is. */
double bite_unit_round(double si, bite_kind kind, const char *unit, int digits);

/** The smallest length (m) that a machine's control shows: 0.001 mm, or 0.0001 in. */
double bite_control_step(bite_units units);

/** Writes a length as a machine's control shows it: in mm to three decimals or in inches to four,
 * without trailing zeros; "under 0.001 mm" for one that would be 0 so. At most size - 1 characters
 * and a 0 are written; a size of 40 always suffices. "-" if si is not finite. */
void bite_control_length_write(double si, bite_units units, char *buffer, size_t size);

#endif
