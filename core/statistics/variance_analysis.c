/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Analysis of variance. Sums run over differences from the first reading, so that readings far from
 * zero lose no digits. */
#include "core/statistics/variance_analysis.h"
#include "core/statistics/moments.h"
#include <gsl/gsl_cdf.h>
#include <math.h>

bite_variance_row bite_variance_row_of(double squares, size_t freedom, double against,
                                       size_t against_freedom)
{
    bite_variance_row row = {squares, freedom, (double)NAN, (double)NAN, (double)NAN};
    if (freedom > 0) {
        row.mean_square = squares / (double)freedom;
    }
    if (freedom > 0 && against_freedom > 0 && against > 0.0) {
        row.ratio = row.mean_square / against;
        row.chance = gsl_cdf_fdist_Q(row.ratio, (double)freedom, (double)against_freedom);
    }
    return row;
}

int bite_variance_one_way(const double *readings, const size_t *sizes, size_t count,
                          bite_one_way *result)
{
    size_t total = 0;
    bite_sum within = {0.0, 0.0};
    bite_sum between = {0.0, 0.0};
    bite_moments all;
    for (size_t g = 0; g < count; g++) {
        total += sizes[g];
    }
    if (count < 2 || total <= count) {
        return 0;
    }
    bite_moments_of(readings, total, &all);
    for (size_t g = 0, at = 0; g < count; at += sizes[g++]) {
        bite_moments group;
        bite_moments_of(readings + at, sizes[g], &group);
        double difference = group.mean - all.mean;
        bite_sum_add(&within, group.squares);
        bite_sum_add(&between, (double)sizes[g] * difference * difference);
    }
    result->within = bite_variance_row_of(bite_sum_total(&within), total - count, (double)NAN, 0);
    result->between = bite_variance_row_of(bite_sum_total(&between), count - 1,
                                           result->within.mean_square, total - count);
    result->deviation = sqrt(result->within.mean_square);
    result->explained = all.squares > 0.0 ? result->between.squares /
                                                (result->between.squares + result->within.squares)
                                          : (double)NAN;
    return 1;
}

/* The sum of squares, about the whole mean, of the means of `level` rows, each of `inner` runs of
 * trials readings that lie `stride` apart. */
static double squares_of_means(const double *readings, double mean, size_t levels, size_t stride,
                               size_t inner, size_t inner_stride, size_t trials)
{
    bite_sum squares = {0.0, 0.0};
    for (size_t i = 0; i < levels; i++) {
        bite_sum sum = {0.0, 0.0};
        for (size_t j = 0; j < inner; j++) {
            for (size_t k = 0; k < trials; k++) {
                bite_sum_add(&sum, readings[i * stride + j * inner_stride + k] - mean);
            }
        }
        double difference = bite_sum_total(&sum) / (double)(inner * trials);
        bite_sum_add(&squares, (double)(inner * trials) * difference * difference);
    }
    return bite_sum_total(&squares);
}

int bite_variance_two_way(const double *readings, size_t first, size_t second, size_t trials,
                          bite_two_way *result)
{
    bite_moments all;
    bite_sum within = {0.0, 0.0};
    if (first < 2 || second < 2 || trials < 2) {
        return 0;
    }
    bite_moments_of(readings, first * second * trials, &all);
    size_t row = second * trials;
    double of_first = squares_of_means(readings, all.mean, first, row, second, trials, trials);
    double of_second = squares_of_means(readings, all.mean, second, trials, first, row, trials);
    double of_cells =
        squares_of_means(readings, all.mean, first * second, trials, 1, trials, trials);
    for (size_t cell = 0; cell < first * second; cell++) {
        bite_moments of_cell;
        bite_moments_of(readings + cell * trials, trials, &of_cell);
        bite_sum_add(&within, of_cell.squares);
    }
    size_t crossed = (first - 1) * (second - 1);
    size_t left = first * second * (trials - 1);
    result->error = bite_variance_row_of(bite_sum_total(&within), left, (double)NAN, 0);
    result->interaction = bite_variance_row_of(fmax(0.0, of_cells - of_first - of_second), crossed,
                                               result->error.mean_square, left);
    double against = result->interaction.mean_square;
    result->first = bite_variance_row_of(of_first, first - 1, against, crossed);
    result->second = bite_variance_row_of(of_second, second - 1, against, crossed);
    return 1;
}
