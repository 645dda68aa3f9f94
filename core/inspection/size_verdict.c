/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decisions and chances of measured sizes. */
#include "core/inspection/size_verdict.h"
#include "core/statistics/moments.h"
#include <math.h>

static const char *const words[BITE_FINDING_COUNT] = {"not judged", "conforms", "not complete",
                                                      "not proven", "does not conform"};

const char *bite_finding_word(uint32_t finding)
{
    return finding < BITE_FINDING_COUNT ? words[finding] : NULL;
}

bite_finding bite_size_finding(const bite_size_limits *limits, double reading, double uncertainty)
{
    static const bite_finding findings[] = {[BITE_DECISION_NOT_PROVEN] = BITE_FINDING_NOT_PROVEN,
                                            [BITE_DECISION_CONFORMS] = BITE_FINDING_CONFORMS,
                                            [BITE_DECISION_DOES_NOT] = BITE_FINDING_DOES_NOT};
    if (isnan(reading) || (isnan(limits->lower) && isnan(limits->upper))) {
        return BITE_FINDING_NONE;
    }
    return isnan(uncertainty) ? BITE_FINDING_NOT_PROVEN
                              : findings[bite_conformity_decide(limits, reading, uncertainty,
                                                                BITE_PROOF_CONFIDENCE)];
}

bite_spread_state bite_size_spread(const double *readings, size_t count, double uncertainty,
                                   bite_prior *prior)
{
    bite_moments moments;
    if (count < BITE_SPREAD_PARTS) {
        return BITE_SPREAD_FEW;
    }
    if (!(uncertainty > 0.0)) {
        return BITE_SPREAD_NO_UNCERTAINTY;
    }
    bite_moments_of(readings, count, &moments);
    double variance = moments.deviation * moments.deviation - uncertainty * uncertainty;
    if (!(variance > 0.0)) {
        return BITE_SPREAD_HIDDEN;
    }
    const bite_prior found = {BITE_PRIOR_NORMAL, moments.mean, sqrt(variance)};
    *prior = found;
    return BITE_SPREAD_KNOWN;
}
