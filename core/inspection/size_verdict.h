/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What readings of a size prove: decisions, chances, risks. Plain arrays, SI. */
#ifndef BITE_INSPECTION_SIZE_VERDICT_H
#define BITE_INSPECTION_SIZE_VERDICT_H

#include "core/statistics/conformity.h"
#include <stddef.h>
#include <stdint.h>

/** The confidence of a proof (ISO 14253-1:2017: 95 % unless agreed otherwise; memory). */
#define BITE_PROOF_CONFIDENCE 0.95

/** Parts from whose readings the spread of a process is taken as known, and from which capability
 * is stated. Common practice asks for 30 and more; the intervals tell how little ten say. */
#define BITE_SPREAD_PARTS 10

/** What is found of a reading, a part, a characteristic or a lot. */
typedef enum bite_finding {
    BITE_FINDING_NONE,       /* not judged: no limits, or no reading */
    BITE_FINDING_CONFORMS,   /* proven */
    BITE_FINDING_INCOMPLETE, /* what was measured conforms; planned readings are missing */
    BITE_FINDING_NOT_PROVEN, /* neither conformity nor the opposite is proven */
    BITE_FINDING_DOES_NOT,   /* proven not to conform */
    BITE_FINDING_COUNT
} bite_finding;

/** A finding in words: "conforms", "does not conform", "not proven", "not complete", "not judged";
 * NULL: no such finding. */
const char *bite_finding_word(uint32_t finding);

/** By ISO 14253-1: conforms within limits moved inwards by the guard band, does not beyond limits
 * moved outwards, otherwise not proven. uncertainty: standard; NaN: not known, and then nothing is
 * proven. Without limits, or without a reading: none. */
bite_finding bite_size_finding(const bite_size_limits *limits, double reading, double uncertainty);

/** Why the spread of the parts is known or not. */
typedef enum bite_spread_state {
    BITE_SPREAD_KNOWN,
    BITE_SPREAD_FEW,    /* fewer parts than BITE_SPREAD_PARTS */
    BITE_SPREAD_HIDDEN, /* the readings vary no more than the instrument's uncertainty explains */
    BITE_SPREAD_NO_UNCERTAINTY
} bite_spread_state;

/** The sizes of the parts as the readings show them: normal, with the mean of the readings and
 * their variance less that of the readings' uncertainty. prior: written if BITE_SPREAD_KNOWN is
 * returned. */
bite_spread_state bite_size_spread(const double *readings, size_t count, double uncertainty,
                                   bite_prior *prior);

#endif
