/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an instrument does to a part while it measures it. */
#ifndef BITE_INSPECTION_GAUGE_EFFECT_H
#define BITE_INSPECTION_GAUGE_EFFECT_H

#include "core/inspection/instrument.h"

/** The part as the instrument meets it. SI; NaN: not known. */
typedef struct bite_gauged_part {
    double length; /* m, in its plane */
    double width;
    double thickness; /* where it is measured */
    double modulus;   /* Pa */
    double poisson;
    double yield; /* Pa */
    double density;
} bite_gauged_part;

/** Lengths in m, forces in N; NaN: not known, or it does not happen. */
typedef struct bite_gauge_effect {
    double indentation;    /* by which the contact itself sinks in or compresses */
    double dent_force;     /* above which a ball leaves a dent */
    double bend;           /* of a part that lies on two supports as far apart as it is long */
    double squeeze;        /* of a part between jaws across its plane */
    double buckling_force; /* at which such a part buckles */
} bite_gauge_effect;

/**
 * The effect of the instrument's force on the part. measures: the word of the check. A thickness is
 * taken between opposed faces and does not bend the part; an outside size squeezes it along its
 * plane; depth, height and flatness press on it from above. An instrument without contact, or that
 * judges, has none: all NaN.
 */
void bite_gauge_effect_of(const bite_instrument *instrument, const char *measures,
                          const bite_gauged_part *part, bite_gauge_effect *effect);

/** The part of it that goes into the reading, m, without sign; 0 if nothing is known. A thin part
 * that is pressed onto a plate lies flat, so its bend counts for flatness and height only. */
double bite_gauge_effect_on_reading(const bite_gauge_effect *effect, const char *measures);

#endif
