/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How fluids are rated on materials, by the class of both, and where sources disagree. */
#ifndef BITE_JOB_FLUID_COMPATIBILITY_H
#define BITE_JOB_FLUID_COMPATIBILITY_H

#include "core/library/material_record.h"
#include <coolbite/coolbite.h>

typedef enum bite_rating {
    BITE_RATED_SAFE = 0,
    BITE_RATED_RISK = 1,
    BITE_RATED_NO = 2,
    BITE_RATED_UNKNOWN = 3
} bite_rating;

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

/** A fluid by its name or one of its other names. Errors as bite_library_record. */
bite_status bite_fluid_find(const bite_library *library, const char *name,
                            const bite_item_record **fluid, bite_error *error);

/** Rates a fluid for a grade, as machined (edges under stress) or annealed since. A rating of the
 * family takes precedence over one of its kind of substance. No rating at all gives
 * BITE_RATED_UNKNOWN and is not an error. */
bite_status bite_fluid_rate(const bite_library *library, const bite_item_record *fluid,
                            const bite_material *material, int annealed, bite_fluid_rating *result,
                            bite_error *error);

const char *bite_rating_name(uint32_t rating);

#endif
