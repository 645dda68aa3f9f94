/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a figure of a material can be: bounds for each kind of substance, and which figures must be
 * below which. A figure beyond them is a misprint or a wrong unit. */
#ifndef BITE_LIBRARY_MATERIAL_BOUNDS_H
#define BITE_LIBRARY_MATERIAL_BOUNDS_H

#include "core/tables/table_schema.h"
#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

/** A bound of a figure; both ends belong to it unless least is 0 and `above` is set. */
typedef struct bite_material_bound {
    const char *key;
    uint32_t substances; /* bits 1 << BITE_METAL and so on */
    uint32_t above;      /* 1: the figure must be above `least` */
    double least;        /* SI */
    double most;
    const char *source; /* "grade: where" */
} bite_material_bound;

/** Two figures of which the first must not be above the second. */
typedef struct bite_material_order {
    const char *lower;
    const char *upper;
    uint32_t substances;
    const char *source;
} bite_material_order;

extern const bite_material_bound bite_material_bound_table[];
extern const size_t bite_material_bound_count;
extern const bite_material_order bite_material_order_table[];
extern const size_t bite_material_order_count;

/** Checks the figures of a grade, with what it inherits. BITE_BAD_FILE: *at and *other (may be the
 * same) are the values that do not go together; message, hint and nothing else is set. A grade that
 * states no substance is judged by what holds for all of them. */
bite_status bite_material_bounds_check(const bite_section *grade, const bite_field_value **at,
                                       const bite_field_value **other, bite_error *error);

/** The same for one fault after another: *from is 0 at first and where to go on afterwards.
 * BITE_OK: there are no more. */
bite_status bite_material_bounds_next(const bite_section *grade, size_t *from,
                                      const bite_field_value **at, const bite_field_value **other,
                                      bite_error *error);

#endif
