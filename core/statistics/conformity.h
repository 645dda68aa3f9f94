/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a measured size conforms: guard bands (ISO 14253-1), chances and risks (JCGM 106). */
#ifndef BITE_STATISTICS_CONFORMITY_H
#define BITE_STATISTICS_CONFORMITY_H

/** Limits of a size, in its unit. NaN: no such limit. */
typedef struct bite_size_limits {
    double lower;
    double upper;
} bite_size_limits;

typedef enum bite_decision {
    BITE_DECISION_NOT_PROVEN, /* the reading lies in a guard band */
    BITE_DECISION_CONFORMS,   /* proven within the limits */
    BITE_DECISION_DOES_NOT    /* proven outside */
} bite_decision;

/** The guard band for a standard uncertainty: uncertainty times the normal quantile of the
 * confidence, 1.6449 at 0.95. It is one-sided where the uncertainty is small against the distance
 * of the limits; for two near limits the chance outside both sides decides (ISO 14253-1:2017 by
 * summaries: 95 %; JCGM 106:2012, 8.3; memory). uncertainty: 0 or more. confidence: 0.5 to 1. */
double bite_conformity_guard(double uncertainty, double confidence);

/** The chance that a size conforms whose reading is `reading` with a normal standard uncertainty,
 * nothing else known of it: F((upper - y)/u) - F((lower - y)/u) (JCGM 106:2012, 7.2 and 7.4). */
double bite_conformity_chance(const bite_size_limits *limits, double reading, double uncertainty);

/** Conforms if the chance of that is at least the confidence, does not if the chance of that is;
 * otherwise neither is proven. For limits that are far apart against the uncertainty this is the
 * reading against limits moved by the guard band. */
bite_decision bite_conformity_decide(const bite_size_limits *limits, double reading,
                                     double uncertainty, double confidence);

/** Half widths over uncertainty: the distance of the limits over four standard uncertainties, i.e.
 * tolerance/(2 U), U = 2 u. Infinite without uncertainty; NaN for one limit. */
double bite_conformity_ratio(const bite_size_limits *limits, double uncertainty);

/** What is known of sizes before they are measured. */
typedef enum bite_prior_kind { BITE_PRIOR_NORMAL, BITE_PRIOR_GAMMA } bite_prior_kind;

typedef struct bite_prior {
    bite_prior_kind kind;
    double first;  /* normal: the mean; gamma: the shape */
    double second; /* normal: the standard deviation; gamma: the scale */
} bite_prior;

/** The chance that a size conforms whose reading is `reading` with a standard uncertainty above 0,
 * if sizes are known to have the normal prior: of the normal distribution with the mean (y p^2 +
 * m u^2)/(p^2 + u^2) and the variance p^2 u^2/(p^2 + u^2), m and p those of the prior (JCGM
 * 106:2012, 7; the product of two normal densities). NaN for another kind of prior. */
double bite_conformity_chance_known(const bite_prior *prior, const bite_size_limits *limits,
                                    double reading, double uncertainty);

/** Risks of a rule that accepts readings within limits moved inwards by a guard band. */
typedef struct bite_conformity_risk {
    double outside;      /* chance that a size does not conform */
    double false_accept; /* chance that it does not and is accepted (consumer's global risk) */
    double false_reject; /* chance that it conforms and is rejected (producer's) */
    double accepted;     /* chance that it is accepted */
} bite_conformity_risk;

/** Integrates over the prior (JCGM 106:2012, 9.5). guard: may be negative; limits moved past each
 * other accept nothing. uncertainty: above 0, as the prior's second number (and a gamma's first).
 * Returns 0 for other numbers. */
int bite_conformity_risk_of(const bite_prior *prior, const bite_size_limits *limits,
                            double uncertainty, double guard, bite_conformity_risk *risk);

/** The guard band at which the chance of a false accept is `risk`, to 1e-6 of the uncertainty.
 * NaN if the risk is below it without a guard band of -8 uncertainties, or above it with one of 8.
 */
double bite_conformity_guard_for(const bite_prior *prior, const bite_size_limits *limits,
                                 double uncertainty, double risk);

#endif
