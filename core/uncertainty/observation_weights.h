/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Weights of draws of shared inputs, from cuts that went well or went wrong.
 *
 * Each draw of the shared inputs forecasts every observed cut: the share of that cut's own draws in
 * which a limit is exceeded. An exceeded limit is reported as trouble with the chance `detection`;
 * trouble also comes without one, with the chance `false_alarm` (a loose part, a hit clamp). The
 * weight of a draw is the likelihood of what was observed (Bayes' rule; importance sampling).
 * Observations of one source resemble each other: n of them weigh as n/(1 + (n - 1) within)
 * independent ones (design effect, Kish 1965, recalled).
 *
 * All functions are pure and give the same digits on every run.
 */
#ifndef BITE_UNCERTAINTY_OBSERVATION_WEIGHTS_H
#define BITE_UNCERTAINTY_OBSERVATION_WEIGHTS_H

#include <coolbite/coolbite.h>
#include <stddef.h>

/** No source is left out. */
#define BITE_NO_SOURCE ((size_t)-1)

typedef struct bite_observation {
    size_t source;      /* index of the cluster */
    int trouble;        /* 1: it went wrong, of a kind that the limits of `exceeded` detect */
    double detection;   /* inside (0, 1) */
    double false_alarm; /* inside (0, 1) */
} bite_observation;

typedef struct bite_observation_set {
    const bite_observation *observations; /* borrowed, as is the next */
    const double *exceeded; /* draws x observations, 0 to 1: of each draw all observations in a row;
                               for a cut that went well any binding limit, for a trouble those that
                               detect its kind */
    size_t draws;
    size_t count;  /* of observations */
    double within; /* correlation of the observations of one source, 0 to 1 */
} bite_observation_set;

/** BITE_BAD_ARGUMENT: a number is outside its range, or there is no draw. */
bite_status bite_observation_set_check(const bite_observation_set *set, bite_error *error);

/** The logarithm of the likelihood of one source's observations at every draw; 0 for a source
 * without any. */
void bite_observation_likelihood(const bite_observation_set *set, size_t source,
                                 double *log_likelihood);

/** The logarithms of the weights of all draws, without the source left_out; their mean weight is 1.
 */
void bite_observation_log_weights(const bite_observation_set *set, size_t left_out,
                                  double *log_weights);

/** The number of equally weighted draws that would tell as much: (sum w)^2/sum w^2 (Kish). */
double bite_effective_draws(const double *log_weights, size_t draws);

/** The logarithm of the weighted mean of a likelihood: the score of a forecast. */
double bite_predictive_score(const double *log_weights, const double *log_likelihood, size_t draws);

/** A value with its weight, for sorting. */
typedef struct bite_weighted_value {
    double value;
    double weight;
    size_t draw;
} bite_weighted_value;

/** The value below which this share of the weight lies, 0 to 1. scratch: one for each draw. */
double bite_weighted_quantile(const double *values, const double *log_weights, size_t draws,
                              double share, bite_weighted_value *scratch);

/** What the weights tell about one input alone: the draws are sorted by its values into bins of
 * equal count, and each draw gets the logarithm of the mean weight of its bin. The other inputs
 * keep their prior. bins: 1 to draws. */
void bite_marginal_log_weights(const double *values, const double *log_weights, size_t draws,
                               size_t bins, bite_weighted_value *scratch, double *marginal);

#endif
