/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The observed cuts as observations, and what each draw of the shared inputs forecasts of them. */
#ifndef BITE_TESTS_CALIBRATION_OBSERVED_CUTS_H
#define BITE_TESTS_CALIBRATION_OBSERVED_CUTS_H

#include "core/uncertainty/observation_weights.h"
#include "tests/calibration/shared_inputs.h"

#define OBSERVED_MOST 256

typedef struct observed_cuts {
    size_t count;
    size_t sources;
    bite_observation observations[OBSERVED_MOST];
    const char *ids[OBSERVED_MOST];
    const char *names[OBSERVED_MOST]; /* of the sources */
    double *exceeded;                 /* draws x count; owned: free */
} observed_cuts;

/** Reads reports, recipes and charts, leaves out those with an inferred value, and judges each at
 * every draw of the shared inputs. Notes the values used in prior. */
observed_cuts observed_cuts_forecast(priors *prior, const double *factors, size_t draws);

#endif
