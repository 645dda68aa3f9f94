/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parsing of quantities: a number with its unit. bite_quantity_read is in coolbite/coolbite.h. */
#ifndef BITE_UNITS_PARSE_QUANTITY_H
#define BITE_UNITS_PARSE_QUANTITY_H

#include <coolbite/coolbite.h>
#include <stddef.h>

/**
 * Reads text[0..length) as a quantity of one of several kinds.
 *
 * kinds: `count` of them, at least 1; the first one that the unit belongs to is used, and messages
 * name kinds[0]. *si: the value in the SI unit of that kind; *which: its index in kinds. Errors as
 * bite_quantity_read (BITE_BAD_QUANTITY, BITE_OUT_OF_RANGE); error->key is left empty.
 */
bite_status bite_quantity_read_kinds(const char *text, size_t length, const bite_kind *kinds,
                                     size_t count, double *si, size_t *which, bite_error *error);

#endif
