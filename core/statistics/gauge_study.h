/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Repeatability and reproducibility of a gauge: some persons measure some parts some times. */
#ifndef BITE_STATISTICS_GAUGE_STUDY_H
#define BITE_STATISTICS_GAUGE_STUDY_H

#include "core/statistics/variance_analysis.h"
#include <stddef.h>

/** A component of the variance of readings. */
typedef struct bite_variance_component {
    double estimate;  /* may be negative: the data show no such component */
    double deviation; /* root of the estimate; 0 if that is negative */
    double share;     /* deviation over that of all components together; NaN: nothing varies */
} bite_variance_component;

typedef struct bite_gauge_study {
    bite_two_way analysis;                   /* by analysis of variance only */
    bite_variance_component repeatability;   /* one person, one part */
    bite_variance_component interaction;     /* persons who measure some parts differently */
    bite_variance_component persons;         /* persons who measure all parts differently */
    bite_variance_component reproducibility; /* persons and interaction */
    bite_variance_component gauge;           /* repeatability and reproducibility */
    bite_variance_component parts;
    bite_variance_component total;
    unsigned categories; /* parts that the gauge tells apart: 1.41 parts/gauge, rounded down */
    int pooled;          /* 1: the interaction was insignificant and counts as repeatability */
} bite_gauge_study;

/** By analysis of variance of readings[(person * parts + part) * trials + trial], all counts at
 * least 2. pool_above: the interaction is pooled with the error if its chance without effect is
 * above this, e.g. 0.25; at least 1: never. Components: repeatability MSE; interaction (MSI - MSE)/
 * trials; persons (MSP - MSI)/(parts trials); parts (MSQ - MSI)/(persons trials) (Burdick, Borror
 * and Montgomery 2003; memory). Returns 0 if a count is too small. */
int bite_gauge_study_by_variance(const double *readings, size_t persons, size_t parts,
                                 size_t trials, double pool_above, bite_gauge_study *study);

/** The same by ranges: repeatability R/d2, persons and parts by the range of their means over d2*,
 * less what repeatability contributes to the means of persons. There is no interaction. trials: at
 * most BITE_RANGE_SIZE_MAX, as persons and parts. */
int bite_gauge_study_by_ranges(const double *readings, size_t persons, size_t parts, size_t trials,
                               bite_gauge_study *study);

#endif
