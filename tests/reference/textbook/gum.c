/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Propagation of uncertainty to first and second order. */
#include "tests/reference/textbook/gum.h"
#include <math.h>
#include <string.h>

/* The model with one or two inputs moved by a number of standard uncertainties. */
typedef struct moved {
    bite_model model;
    void *user;
    const double *x;
    const double *uncertainties;
    size_t count;
} moved;

static double at(const moved *moved_input, size_t i, double by, size_t j, double also)
{
    double x[GUM_MOST];
    memcpy(x, moved_input->x, moved_input->count * sizeof *x);
    x[i] += by * moved_input->uncertainties[i];
    x[j] += also * moved_input->uncertainties[j];
    return moved_input->model(x, moved_input->user);
}

static double contribution(const moved *moved_input, size_t i)
{
    return moved_input->uncertainties[i] > 0.0
               ? 0.5 * (at(moved_input, i, 1.0, i, 0.0) - at(moved_input, i, -1.0, i, 0.0))
               : 0.0;
}

void gum_contributions(bite_model model, void *user, const double *x, const double *uncertainties,
                       size_t count, double *contributions)
{
    moved moved_input = {model, user, x, uncertainties, count};
    for (size_t i = 0; i < count; i++) {
        contributions[i] = contribution(&moved_input, i);
    }
}

double gum_covariance(const double *first, const double *second, const double *correlations,
                      size_t count)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (correlations == NULL) {
            sum += first[i] * second[i];
            continue;
        }
        for (size_t j = 0; j < count; j++) {
            sum += first[i] * second[j] * correlations[i * count + j];
        }
    }
    return sum;
}

/* f_ij u_i u_j and f_ijj u_i u_j^2, by differences. */
static double mixed(const moved *moved_input, size_t i, size_t j)
{
    if (i == j) {
        return at(moved_input, i, 1.0, i, 0.0) - 2.0 * at(moved_input, i, 0.0, i, 0.0) +
               at(moved_input, i, -1.0, i, 0.0);
    }
    return 0.25 * (at(moved_input, i, 1.0, j, 1.0) - at(moved_input, i, 1.0, j, -1.0) -
                   at(moved_input, i, -1.0, j, 1.0) + at(moved_input, i, -1.0, j, -1.0));
}

static double third(const moved *moved_input, size_t i, size_t j)
{
    if (i == j) {
        return 0.5 * (at(moved_input, i, 2.0, i, 0.0) - 2.0 * at(moved_input, i, 1.0, i, 0.0) +
                      2.0 * at(moved_input, i, -1.0, i, 0.0) - at(moved_input, i, -2.0, i, 0.0));
    }
    double above = at(moved_input, i, 1.0, j, 1.0) - 2.0 * at(moved_input, i, 1.0, j, 0.0) +
                   at(moved_input, i, 1.0, j, -1.0);
    double below = at(moved_input, i, -1.0, j, 1.0) - 2.0 * at(moved_input, i, -1.0, j, 0.0) +
                   at(moved_input, i, -1.0, j, -1.0);
    return 0.5 * (above - below);
}

double gum_second_order(bite_model model, void *user, const double *x, const double *uncertainties,
                        size_t count)
{
    moved moved_input = {model, user, x, uncertainties, count};
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j < count; j++) {
            if (uncertainties[i] > 0.0 && uncertainties[j] > 0.0) {
                double both = mixed(&moved_input, i, j);
                sum +=
                    0.5 * both * both + contribution(&moved_input, i) * third(&moved_input, i, j);
            }
        }
    }
    return sum;
}

double gum_degrees(const double *contributions, const double *degrees, size_t count)
{
    double variance = 0.0;
    double share = 0.0;
    for (size_t i = 0; i < count; i++) {
        double square = contributions[i] * contributions[i];
        variance += square;
        share += square * square / degrees[i];
    }
    return variance * variance / share;
}
