/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gauge studies by analysis of variance and by ranges. */
#include "core/statistics/gauge_study.h"
#include "core/statistics/moments.h"
#include "core/statistics/range_factors.h"
#include <limits.h>
#include <math.h>
#include <string.h>

/* Parts that a gauge tells apart: sqrt(2) parts/gauge, which practice writes with 1.41. */
static const double categories_factor = 1.41;

static bite_variance_component component(double estimate)
{
    const bite_variance_component made = {estimate, estimate > 0.0 ? sqrt(estimate) : 0.0, 0.0};
    return made;
}

/* The variance that counts: a negative estimate is none. */
static double variance(const bite_variance_component *part)
{
    return part->deviation * part->deviation;
}

/* From repeatability, interaction, persons and parts follow the others. */
static void complete(bite_gauge_study *study)
{
    study->reproducibility = component(variance(&study->interaction) + variance(&study->persons));
    study->gauge = component(variance(&study->repeatability) + variance(&study->reproducibility));
    study->total = component(variance(&study->gauge) + variance(&study->parts));
    bite_variance_component *all[] = {
        &study->repeatability, &study->interaction, &study->persons, &study->reproducibility,
        &study->gauge,         &study->parts,       &study->total};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        all[i]->share =
            study->total.deviation > 0.0 ? all[i]->deviation / study->total.deviation : (double)NAN;
    }
    double told = categories_factor * study->parts.deviation / study->gauge.deviation;
    study->categories = told < (double)UINT_MAX ? (unsigned)told /* not a number: 0 */
                        : told > 0.0            ? UINT_MAX
                                                : 0;
}

int bite_gauge_study_by_variance(const double *readings, size_t persons, size_t parts,
                                 size_t trials, double pool_above, bite_gauge_study *study)
{
    memset(study, 0, sizeof *study);
    bite_two_way *analysis = &study->analysis;
    if (!bite_variance_two_way(readings, persons, parts, trials, analysis)) {
        return 0;
    }
    double error = analysis->error.mean_square;
    double against = analysis->interaction.mean_square;
    study->pooled = analysis->interaction.chance > pool_above;
    if (study->pooled) {
        size_t freedom = analysis->interaction.freedom + analysis->error.freedom;
        error = against =
            (analysis->interaction.squares + analysis->error.squares) / (double)freedom;
        analysis->first = bite_variance_row_of(analysis->first.squares, analysis->first.freedom,
                                               against, freedom);
        analysis->second = bite_variance_row_of(analysis->second.squares, analysis->second.freedom,
                                                against, freedom);
    }
    study->repeatability = component(error);
    study->interaction = component((against - error) / (double)trials);
    study->persons = component((analysis->first.mean_square - against) / (double)(parts * trials));
    study->parts = component((analysis->second.mean_square - against) / (double)(persons * trials));
    complete(study);
    return 1;
}

/* The mean of the ranges of the trials. */
static double mean_range(const double *readings, size_t cells, size_t trials)
{
    double sum = 0.0;
    for (size_t cell = 0; cell < cells; cell++) {
        bite_moments moments;
        bite_moments_of(readings + cell * trials, trials, &moments);
        sum += moments.most - moments.least;
    }
    return sum / (double)cells;
}

/* The range of the means of `levels` rows, each of `inner` runs of trials readings. */
static double range_of_means(const double *readings, size_t levels, size_t stride, size_t inner,
                             size_t inner_stride, size_t trials)
{
    double least = (double)INFINITY;
    double most = -(double)INFINITY;
    for (size_t i = 0; i < levels; i++) {
        bite_sum sum = {0.0, 0.0};
        for (size_t j = 0; j < inner; j++) {
            for (size_t k = 0; k < trials; k++) {
                bite_sum_add(&sum, readings[i * stride + j * inner_stride + k] - readings[0]);
            }
        }
        double mean = bite_sum_total(&sum) / (double)(inner * trials);
        least = fmin(least, mean);
        most = fmax(most, mean);
    }
    return most - least;
}

int bite_gauge_study_by_ranges(const double *readings, size_t persons, size_t parts, size_t trials,
                               bite_gauge_study *study)
{
    memset(study, 0, sizeof *study);
    if (persons < 2 || parts < 2 || trials < 2 || persons > BITE_RANGE_SIZE_MAX ||
        parts > BITE_RANGE_SIZE_MAX || trials > BITE_RANGE_SIZE_MAX) {
        return 0;
    }
    double repeat = mean_range(readings, persons * parts, trials) / bite_range_mean(trials);
    double of_persons = range_of_means(readings, persons, parts * trials, parts, trials, trials) /
                        bite_range_factor(persons, 1);
    double of_parts = range_of_means(readings, parts, trials, persons, parts * trials, trials) /
                      bite_range_factor(parts, 1);
    study->repeatability = component(repeat * repeat);
    study->interaction = component(0.0);
    study->persons =
        component(of_persons * of_persons - repeat * repeat / (double)(parts * trials));
    study->parts = component(of_parts * of_parts);
    complete(study);
    return 1;
}
