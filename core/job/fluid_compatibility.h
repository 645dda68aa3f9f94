/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How fluids are rated on materials, by the class of both, and where sources disagree. */
#ifndef BITE_JOB_FLUID_COMPATIBILITY_H
#define BITE_JOB_FLUID_COMPATIBILITY_H

#include "core/library/material_record.h"
#include <coolbite/coolbite.h>

/** A fluid rated for a grade. All texts are borrowed until the library closes. */
typedef struct bite_fluid_rating {
    const bite_item_record *fluid;
    uint32_t rating;          /* a bite_rating, for the state the part is in */
    uint32_t other;           /* the rating of another source; BITE_RATED_UNKNOWN: none disagrees */
    const char *says;         /* "" */
    const char *source;       /* "grade: where"; "" if unknown */
    const char *other_source; /* "" */
    double watch;             /* s to wait and check for crazes before shipping; NaN: not needed */
} bite_fluid_rating;

/** A fluid by its name, its title or one of its other names. Errors as bite_library_record. */
bite_status bite_fluid_find(const bite_library *library, const char *name,
                            const bite_item_record **fluid, bite_error *error);

/** Rates a fluid for a grade, as machined (edges under stress) or annealed since. A rating of the
 * family takes precedence over one of its kind of substance. No rating at all gives
 * BITE_RATED_UNKNOWN and is not an error. */
bite_status bite_fluid_rate(const bite_library *library, const bite_item_record *fluid,
                            const bite_material *material, int annealed, bite_fluid_rating *result,
                            bite_error *error);

/** The same in every state of the part, with all that the tables say. *result is written
 * completely; result->struct_size is that of this library. */
bite_status bite_fluid_compatibility(const bite_library *library, const bite_item_record *fluid,
                                     const bite_material *material, bite_compatibility *result,
                                     bite_error *error);

/** Whether a fluid has a use ("coolant", "cleaner", "remover", "marking", "tapping"). */
int bite_fluid_has_use(const bite_item_record *fluid, const char *use);

/** Joins the titles of the fluids of a use that are safe on a machined part of the grade, and whose
 * record states no hazard to people:
 * "soapy water, compressed air". use: NULL: any use that `instead_of` has. buffer: "" if there are
 * none; it ends before the first title that does not fit. */
bite_status bite_fluid_safe_titles(const bite_library *library, const bite_material *material,
                                   const bite_item_record *instead_of, const char *use,
                                   char *buffer, size_t size, bite_error *error);

/** What is dangerous about a fluid itself: its key `hazard`; "" if nothing is stated. */
const char *bite_fluid_hazard(const bite_item_record *fluid);

/** Whether its hazard or its summary says that it is flammable. */
int bite_fluid_is_flammable(const bite_item_record *fluid);

#endif
