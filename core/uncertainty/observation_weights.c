/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Weights of draws of shared inputs, from cuts that went well or went wrong. */
#include "core/uncertainty/observation_weights.h"
#include "core/base/error.h"
#include <math.h>
#include <stdlib.h>

static int is_inside(double number)
{
    return number > 0.0 && number < 1.0;
}

bite_status bite_observation_set_check(const bite_observation_set *set, bite_error *error)
{
    bite_error_clear(error);
    if (set == NULL || set->draws == 0 ||
        (set->count > 0 && (set->observations == NULL || set->exceeded == NULL)) ||
        !(set->within >= 0.0 && set->within <= 1.0)) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "draws, observations and a correlation from 0 to 1 were expected");
    }
    for (size_t i = 0; i < set->count; i++) {
        const bite_observation *observation = &set->observations[i];
        if (!is_inside(observation->detection) || !is_inside(observation->false_alarm) ||
            observation->source == BITE_NO_SOURCE) {
            return bite_error_set(
                error, BITE_BAD_ARGUMENT,
                "the chances of detection and of a false alarm are inside (0, 1)");
        }
    }
    for (size_t i = 0; i < set->count * set->draws; i++) {
        if (!(set->exceeded[i] >= 0.0 && set->exceeded[i] <= 1.0)) {
            return bite_error_set(error, BITE_BAD_ARGUMENT,
                                  "the share of draws that exceed a limit is from 0 to 1");
        }
    }
    return BITE_OK;
}

static double log_of(const bite_observation *observation, double exceeded)
{
    double trouble =
        exceeded * observation->detection + (1.0 - exceeded) * observation->false_alarm;
    return log(observation->trouble ? trouble : 1.0 - trouble);
}

/* The power of the likelihood of each of n observations of one source. */
static double share_of_one(const bite_observation_set *set, size_t source)
{
    double n = 0.0;
    for (size_t i = 0; i < set->count; i++) {
        n += set->observations[i].source == source;
    }
    return 1.0 / (1.0 + (n - 1.0) * set->within);
}

static void add_source(const bite_observation_set *set, size_t source, double *sum)
{
    double share = share_of_one(set, source);
    for (size_t draw = 0; draw < set->draws; draw++) {
        const double *exceeded = set->exceeded + draw * set->count;
        for (size_t i = 0; i < set->count; i++) {
            if (set->observations[i].source == source) {
                sum[draw] += share * log_of(&set->observations[i], exceeded[i]);
            }
        }
    }
}

void bite_observation_likelihood(const bite_observation_set *set, size_t source,
                                 double *log_likelihood)
{
    for (size_t draw = 0; draw < set->draws; draw++) {
        log_likelihood[draw] = 0.0;
    }
    add_source(set, source, log_likelihood);
}

/* The logarithm of the mean of exp(numbers), without overflow. */
static double log_mean(const double *numbers, size_t count)
{
    double most = numbers[0];
    for (size_t i = 1; i < count; i++) {
        most = fmax(most, numbers[i]);
    }
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        sum += exp(numbers[i] - most);
    }
    return most + log(sum / (double)count);
}

static int is_first_of_source(const bite_observation_set *set, size_t at)
{
    for (size_t i = 0; i < at; i++) {
        if (set->observations[i].source == set->observations[at].source) {
            return 0;
        }
    }
    return 1;
}

void bite_observation_log_weights(const bite_observation_set *set, size_t left_out,
                                  double *log_weights)
{
    for (size_t draw = 0; draw < set->draws; draw++) {
        log_weights[draw] = 0.0;
    }
    for (size_t i = 0; i < set->count; i++) {
        size_t source = set->observations[i].source;
        if (source != left_out && is_first_of_source(set, i)) {
            add_source(set, source, log_weights);
        }
    }
    double mean = log_mean(log_weights, set->draws);
    for (size_t draw = 0; draw < set->draws; draw++) {
        log_weights[draw] -= mean;
    }
}

double bite_effective_draws(const double *log_weights, size_t draws)
{
    double sum = 0.0;
    double squares = 0.0;
    double mean = log_mean(log_weights, draws);
    for (size_t draw = 0; draw < draws; draw++) {
        double weight = exp(log_weights[draw] - mean);
        sum += weight;
        squares += weight * weight;
    }
    return sum * sum / squares;
}

double bite_predictive_score(const double *log_weights, const double *log_likelihood, size_t draws)
{
    double mean = log_mean(log_weights, draws);
    double score = 0.0;
    for (size_t draw = 0; draw < draws; draw++) {
        score += exp(log_weights[draw] - mean + log_likelihood[draw]);
    }
    return log(score / (double)draws);
}

/* Equal values are ordered by their draws, so that the order does not depend on the sort. */
static int compare(const void *a, const void *b)
{
    const bite_weighted_value *left = a;
    const bite_weighted_value *right = b;
    if (left->value != right->value) {
        return left->value < right->value ? -1 : 1;
    }
    return left->draw < right->draw ? -1 : left->draw > right->draw;
}

static void sort_values(const double *values, const double *log_weights, size_t draws,
                        bite_weighted_value *sorted)
{
    double mean = log_mean(log_weights, draws);
    for (size_t draw = 0; draw < draws; draw++) {
        sorted[draw].value = values[draw];
        sorted[draw].weight = exp(log_weights[draw] - mean);
        sorted[draw].draw = draw;
    }
    qsort(sorted, draws, sizeof *sorted, compare);
}

/* The middle of a draw's weight stands for the draw; between draws the value is interpolated. */
double bite_weighted_quantile(const double *values, const double *log_weights, size_t draws,
                              double share, bite_weighted_value *scratch)
{
    sort_values(values, log_weights, draws, scratch);
    double whole = 0.0;
    for (size_t i = 0; i < draws; i++) {
        whole += scratch[i].weight;
    }
    double below = 0.0;
    double before = 0.0;
    for (size_t i = 0; i < draws; i++) {
        double middle = (below + 0.5 * scratch[i].weight) / whole;
        if (middle >= share) {
            double step = i == 0 || middle <= before ? 0.0 : (share - before) / (middle - before);
            double from = i == 0 ? scratch[0].value : scratch[i - 1].value;
            return from + step * (scratch[i].value - from);
        }
        before = middle;
        below += scratch[i].weight;
    }
    return scratch[draws - 1].value;
}

void bite_marginal_log_weights(const double *values, const double *log_weights, size_t draws,
                               size_t bins, bite_weighted_value *scratch, double *marginal)
{
    sort_values(values, log_weights, draws, scratch);
    for (size_t bin = 0; bin < bins; bin++) {
        size_t from = draws * bin / bins;
        size_t to = draws * (bin + 1) / bins;
        double sum = 0.0;
        for (size_t i = from; i < to; i++) {
            sum += scratch[i].weight;
        }
        for (size_t i = from; i < to; i++) {
            marginal[scratch[i].draw] = log(sum / (double)(to - from));
        }
    }
}
