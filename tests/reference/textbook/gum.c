/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Propagation of uncertainty to first and second order. */
#include "tests/reference/textbook/gum.h"
#include <math.h>
#include <string.h>

/* A model with one or two of its inputs moved by so many standard uncertainties. */
typedef struct moved {
    bite_model model;
    void *user;
    const double *x;
    const double *uncertainties;
    size_t count;
} moved;

static double at(const moved *of, size_t i, double by, size_t j, double also)
{
    double x[BITE_PROPAGATE_MOST];
    memcpy(x, of->x, of->count * sizeof *x);
    x[i] += by * of->uncertainties[i];
    x[j] += also * of->uncertainties[j];
    return of->model(x, of->user);
}

static double contribution(const moved *of, size_t i)
{
    return of->uncertainties[i] > 0.0 ? 0.5 * (at(of, i, 1.0, i, 0.0) - at(of, i, -1.0, i, 0.0)) : 0.0;
}

void bite_propagate_contributions(bite_model model, void *user, const double *x, const double *uncertainties, size_t count,
                                  double *contributions)
{
    moved of = {model, user, x, uncertainties, count};
    for (size_t i = 0; i < count; i++) {
        contributions[i] = contribution(&of, i);
    }
}

double bite_propagate_covariance(const double *first, const double *second, const double *correlations, size_t count)
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
static double mixed(const moved *of, size_t i, size_t j)
{
    if (i == j) {
        return at(of, i, 1.0, i, 0.0) - 2.0 * at(of, i, 0.0, i, 0.0) + at(of, i, -1.0, i, 0.0);
    }
    return 0.25 * (at(of, i, 1.0, j, 1.0) - at(of, i, 1.0, j, -1.0) - at(of, i, -1.0, j, 1.0) + at(of, i, -1.0, j, -1.0));
}

static double third(const moved *of, size_t i, size_t j)
{
    if (i == j) {
        return 0.5 *
               (at(of, i, 2.0, i, 0.0) - 2.0 * at(of, i, 1.0, i, 0.0) + 2.0 * at(of, i, -1.0, i, 0.0) - at(of, i, -2.0, i, 0.0));
    }
    double above = at(of, i, 1.0, j, 1.0) - 2.0 * at(of, i, 1.0, j, 0.0) + at(of, i, 1.0, j, -1.0);
    double below = at(of, i, -1.0, j, 1.0) - 2.0 * at(of, i, -1.0, j, 0.0) + at(of, i, -1.0, j, -1.0);
    return 0.5 * (above - below);
}

double bite_propagate_second_order(bite_model model, void *user, const double *x, const double *uncertainties, size_t count)
{
    moved of = {model, user, x, uncertainties, count};
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j < count; j++) {
            if (uncertainties[i] > 0.0 && uncertainties[j] > 0.0) {
                double both = mixed(&of, i, j);
                sum += 0.5 * both * both + contribution(&of, i) * third(&of, i, j);
            }
        }
    }
    return sum;
}

double bite_propagate_degrees(const double *contributions, const double *degrees, size_t count)
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
