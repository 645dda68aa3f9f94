/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tolerances by class: general tolerances of ISO 2768-1, and grades of ISO 286. */
#ifndef BITE_INSPECTION_GENERAL_TOLERANCE_H
#define BITE_INSPECTION_GENERAL_TOLERANCE_H

#include <coolbite/coolbite.h>

/** Deviations of a size from its nominal, m. */
typedef struct bite_tolerance {
    double lower;
    double upper;
    const char *standard; /* "ISO 2768-1 m"; static */
    const char *source;   /* "grade: where"; static */
} bite_tolerance;

/**
 * The tolerance of a class for a nominal size.
 *
 * name: "2768-f", "2768-m", "2768-c" or "2768-v" (with or without "iso" and spaces; plus or minus),
 * or a grade of ISO 286 by letter and number: "js9" (half on each side), "h9" (the size of a shaft,
 * none above), "H9" (of a hole, none below); grades 5 to 14. nominal: m. tolerance: written on
 * success only. BITE_UNKNOWN_NAME: no such class; BITE_OUT_OF_RANGE: it has no tolerance for that
 * size. Errors have no key.
 */
BITE_CHECKED bite_status bite_general_tolerance(const char *name, double nominal,
                                                bite_tolerance *tolerance, bite_error *error);

#endif
