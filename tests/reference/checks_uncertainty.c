/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reference rows on uncertainty: first order against the examples of the GUM, draws against those
 * of its first supplement. */
#include "core/uncertainty/sobol.h"
#include "tests/reference/check.h"
#include "tests/reference/textbook/gum.h"
#include "tests/support/support.h"
#include "tests/support/test_physics.h"
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_fit.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdlib.h>

#define IN(name) bite_in(given, name)

/* ---- first order ---- */

/* GUM H.1: l = ls + d - ls (dalpha theta + alpha_s dtheta); x: ls, d, dalpha, theta, alpha_s,
 * dtheta, in nm and K. */
static double end_gauge(const double *x, void *user)
{
    (void)user;
    return x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5]);
}

typedef struct gauge {
    double x[6];
    double u[6];
    double degrees[6];
    double contributions[6];
} gauge;

static gauge gauge_of(const bite_given *given)
{
    double repeat = IN("ud1");
    double random = IN("ud2");
    double system = IN("ud3");
    double u_d = sqrt(repeat * repeat + random * random + system * system);
    double degrees_d =
        pow(u_d, 4.0) / (pow(repeat, 4.0) / 24.0 + pow(random, 4.0) / 5.0 + pow(system, 4.0) / 8.0);
    gauge of = {{IN("ls"), IN("d"), 0.0, IN("theta"), IN("as"), 0.0},
                {IN("uls"), u_d, IN("wda") / sqrt(3.0),
                 sqrt(IN("ut") * IN("ut") + 0.5 * IN("arc") * IN("arc")), IN("was") / sqrt(3.0),
                 IN("wdt") / sqrt(3.0)},
                {18.0, degrees_d, 50.0, INFINITY, INFINITY, 2.0},
                {0.0}};
    gum_contributions(end_gauge, NULL, of.x, of.u, 6, of.contributions);
    return of;
}

static int gum_h1(const bite_given *given, double *out)
{
    gauge of = gauge_of(given);
    out[0] = end_gauge(of.x, NULL);
    out[1] = sqrt(gum_covariance(of.contributions, of.contributions, NULL, 6));
    out[2] = floor(gum_degrees(of.contributions, of.degrees, 6));
    out[3] = gsl_cdf_tdist_Pinv(0.995, out[2]);
    out[4] = out[3] * round(out[1]); /* of the rounded value, as in the example */
    return 5;
}

static int gum_h1_parts(const bite_given *given, double *out)
{
    gauge of = gauge_of(given);
    static const int order[] = {0, 5, 2, 1, 4, 3};
    for (int i = 0; i < 6; i++) {
        out[i] = fabs(of.contributions[order[i]]);
    }
    return 6;
}

static int gum_h1_second(const bite_given *given, double *out)
{
    gauge of = gauge_of(given);
    out[0] = sqrt(gum_covariance(of.contributions, of.contributions, NULL, 6) +
                  gum_second_order(end_gauge, NULL, of.x, of.u, 6));
    return 1;
}

/* GUM H.3: x: y1, y2; b(t) = y1 + y2 (t - t0). */
static double line_at(const double *x, void *user)
{
    return x[0] + x[1] * *(const double *)user;
}

static int gum_h3(const bite_given *given, double *out)
{
    double t[11];
    double b[11];
    double c[3];
    for (int i = 0; i < 11; i++) {
        t[i] = bite_in_at(given, "t", i + 1) - 20.0;
        b[i] = bite_in_at(given, "b", i + 1);
    }
    double x[2];
    double square = 0.0;
    (void)gsl_fit_linear(t, 1, b, 1, 11, &x[0], &x[1], &c[0], &c[1], &c[2], &square);
    double u[2] = {sqrt(c[0]), sqrt(c[2])};
    double r = c[1] / (u[0] * u[1]);
    double correlations[4] = {1.0, r, r, 1.0};
    double parts[2];
    double away = 10.0;
    gum_contributions(line_at, &away, x, u, 2, parts);
    out[0] = x[0];
    out[1] = u[0];
    out[2] = x[1];
    out[3] = u[1];
    out[4] = r;
    out[5] = square;
    out[6] = line_at(x, &away);
    out[7] = sqrt(gum_covariance(parts, parts, correlations, 2));
    return 8;
}

/* GUM H.4: x: As, ms, mx, Rx, Rs. */
static double activity(const double *x, void *user)
{
    (void)user;
    return x[0] * x[1] / x[2] * x[3] / x[4];
}

static int gum_h4(const bite_given *given, double *out)
{
    double x[5] = {IN("As"), IN("ms"), IN("mx"), IN("Rx"), IN("Rs")};
    double u[5] = {IN("uAs"), IN("ums"), IN("umx"), IN("uRx"), IN("uRs")};
    double r[25] = {0.0};
    double parts[5];
    for (int i = 0; i < 5; i++) {
        r[6 * i] = 1.0;
    }
    r[5 * 3 + 4] = r[5 * 4 + 3] = IN("r");
    gum_contributions(activity, NULL, x, u, 5, parts);
    out[0] = activity(x, NULL);
    out[1] = sqrt(gum_covariance(parts, parts, r, 5));
    return 2;
}

static double logarithm(const double *x, void *user)
{
    (void)user;
    return log(x[0]);
}

/* ---- draws ---- */

#define DRAWS 65536
#define SEEDS 8
#define DIMENSIONS_MOST 12

typedef double (*drawn_model)(const bite_given *given, const double *point);

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The start of the shortest interval. Its width hardly changes near its minimum, so the minimum of
 * a sample varies widely: the result is the mean of all starts whose width is within a thousandth
 * of it. */
static size_t shortest(const double *sorted, size_t inside)
{
    double least = INFINITY;
    double sum = 0.0;
    double count = 0.0;
    for (size_t i = 0; i + inside < DRAWS; i++) {
        least = fmin(least, sorted[i + inside] - sorted[i]);
    }
    for (size_t i = 0; i + inside < DRAWS; i++) {
        if (sorted[i + inside] - sorted[i] <= 1.001 * least) {
            sum += (double)i;
            count += 1.0;
        }
    }
    return (size_t)(sum / count + 0.5);
}

/* Mean, standard deviation and the interval that contains `share`, the shortest or that of equal
 * tails, each as the mean over seeds. */
static int draw_it(const bite_given *given, drawn_model model, unsigned dimensions, double share,
                   int equal_tails, double *out)
{
    static double sums[DRAWS];
    size_t inside = (size_t)(share * DRAWS);
    out[0] = out[1] = out[2] = out[3] = 0.0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        bite_sobol sobol;
        double point[DIMENSIONS_MOST];
        if (!bite_sobol_init(&sobol, dimensions, seed)) {
            return 0;
        }
        for (size_t i = 0; i < DRAWS; i++) {
            bite_test_sobol_next(&sobol, point);
            sums[i] = model(given, point);
        }
        out[0] += gsl_stats_mean(sums, 1, DRAWS) / SEEDS;
        out[1] += gsl_stats_sd(sums, 1, DRAWS) / SEEDS;
        qsort(sums, DRAWS, sizeof *sums, ascending);
        size_t from = equal_tails ? (DRAWS - inside) / 2 : shortest(sums, inside);
        out[2] += sums[from] / SEEDS;
        out[3] += sums[from + inside] / SEEDS;
    }
    return 4;
}

static double normal(double mean, double deviation, double probability)
{
    return mean + deviation * bite_normal_deviate(probability);
}

static double level(double low, double high, double probability)
{
    return low + (high - low) * probability;
}

static double student(double mean, double scale, double degrees, double probability)
{
    return mean + scale * gsl_cdf_tdist_Pinv(probability, degrees);
}

/* JCGM 101, 6.4.3: a rectangular distribution whose ends are known to within d. */
static double curved(double end, double d, double first, double second)
{
    double low = -end - d + 2.0 * d * first;
    return low + 2.0 * -low * second;
}

static double four_normal(const bite_given *given, const double *point)
{
    (void)given;
    return bite_normal_deviate(point[0]) + bite_normal_deviate(point[1]) +
           bite_normal_deviate(point[2]) + bite_normal_deviate(point[3]);
}

static double four_level(const bite_given *given, const double *point)
{
    double sum = 0.0;
    for (int k = 0; k < 4; k++) {
        double end = sqrt(3.0) * (k == 3 ? IN("last") : 1.0);
        sum += level(-end, end, point[k]);
    }
    return sum;
}

static double mass(const bite_given *given, const double *point)
{
    double nominal = normal(IN("m"), IN("um"), point[0]) + normal(IN("dm"), IN("udm"), point[1]);
    double air = level(1.10, 1.30, point[2]);
    double weight = level(7000.0, 9000.0, point[3]);
    double reference = level(7950.0, 8050.0, point[4]);
    return nominal * (1.0 + (air - 1.2) * (1.0 / weight - 1.0 / reference)) - IN("m");
}

static double loss(const bite_given *given, const double *point)
{
    double z = bite_normal_deviate(point[0]);
    double r = IN("r");
    double other = r * z + sqrt(1.0 - r * r) * bite_normal_deviate(point[1]);
    double x1 = IN("x1") + IN("u") * z;
    double x2 = IN("u") * other;
    return 1e6 * (x1 * x1 + x2 * x2);
}

static double gauge_block(const bite_given *given, const double *point)
{
    double ls = student(IN("ls"), 25.0, 18.0, point[0]);
    double d = student(215.0, 6.0, 24.0, point[1]) + student(0.0, 4.0, 5.0, point[2]) +
               student(0.0, 7.0, 8.0, point[3]);
    double alpha = level(9.5e-6, 13.5e-6, point[4]);
    double theta = normal(-0.1, 0.2, point[5]) + 0.5 * sin(2.0 * M_PI * point[6]);
    double more = curved(1e-6, 0.1e-6, point[7], point[8]);
    double apart = curved(0.050, 0.025, point[9], point[10]);
    return (ls * (1.0 + alpha * (theta - apart)) + d) / (1.0 + (alpha + more) * theta) -
           IN("nominal");
}

static double logarithm_drawn(const bite_given *given, const double *point)
{
    return log(level(IN("a"), IN("b"), point[0]));
}

static double viscosity(const bite_given *given, const double *point)
{
    double mu = normal(IN("mu"), 0.0463, point[0]);
    double ball = normal(2217.0, 0.5, point[1]);
    return mu * normal(61.0, 6.1, point[2]) * (ball - normal(1180.0, 0.5, point[3])) /
           (normal(36.6, 5.49, point[4]) * (ball - normal(810.0, 0.5, point[5])));
}

/* NIST TN 1900, E13. */
static double expansion(const bite_given *given, const double *point)
{
    double length = normal(IN("L0"), IN("uL0"), point[0]);
    double longer = normal(IN("L1"), IN("uL1"), point[2]) - length;
    double warmer = normal(IN("T1"), IN("uT1"), point[3]) - normal(IN("T0"), IN("uT0"), point[1]);
    return longer / (length * warmer);
}

/* Lower triangle l of a correlation matrix r of three: l l^T = r (Cholesky). */
static void factor_of_three(double r[3][3], double l[3][3])
{
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j <= i; j++) {
            double rest = r[i][j];
            for (int k = 0; k < j; k++) {
                rest -= l[i][k] * l[j][k];
            }
            l[i][j] = i == j ? sqrt(rest) : rest / l[j][j];
        }
    }
}

/* GUM H.2: V, I and phi of five sets of readings; the means are drawn with their correlations, and
 * R, X and Z have the statistics of their draws. */
typedef struct readings {
    double mean[3];
    double deviation[3];
    double factor[3][3];
} readings;

static readings read_sets(const bite_given *given)
{
    static const char *const stems[] = {"V", "I", "p"};
    readings of;
    double sets[3][5];
    double correlations[3][3];
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k < 5; k++) {
            sets[i][k] = bite_in_at(given, stems[i], k + 1);
        }
        of.mean[i] = gsl_stats_mean(sets[i], 1, 5);
        of.deviation[i] = gsl_stats_sd(sets[i], 1, 5) / sqrt(5.0);
    }
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            correlations[i][j] = gsl_stats_correlation(sets[i], 1, sets[j], 1, 5);
        }
    }
    factor_of_three(correlations, of.factor);
    return of;
}

static void draw_impedances(const readings *of, uint64_t seed, double drawn[3][DRAWS])
{
    bite_sobol sobol;
    double point[DIMENSIONS_MOST];
    if (!bite_sobol_init(&sobol, 3, seed)) {
        bite_test_stop("no Sobol sequence of %d dimensions", 3);
    }
    for (size_t n = 0; n < DRAWS; n++) {
        double x[3];
        bite_test_sobol_next(&sobol, point);
        for (int i = 0; i < 3; i++) {
            double z = 0.0;
            for (int k = 0; k <= i; k++) {
                z += of->factor[i][k] * bite_normal_deviate(point[k]);
            }
            x[i] = of->mean[i] + of->deviation[i] * z;
        }
        drawn[2][n] = x[0] / x[1];
        drawn[0][n] = drawn[2][n] * cos(x[2]);
        drawn[1][n] = drawn[2][n] * sin(x[2]);
    }
}

static int gum_h2_raw(const bite_given *given, double *out)
{
    static double drawn[3][DRAWS];
    static const int pairs[3][2] = {{0, 1}, {0, 2}, {1, 2}};
    readings of = read_sets(given);
    for (int i = 0; i < 9; i++) {
        out[i] = 0.0;
    }
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        draw_impedances(&of, seed, drawn);
        for (int i = 0; i < 3; i++) {
            const double *first = drawn[pairs[i][0]];
            const double *second = drawn[pairs[i][1]];
            out[i] += gsl_stats_mean(drawn[i], 1, DRAWS) / SEEDS;
            out[3 + i] += gsl_stats_sd(drawn[i], 1, DRAWS) / SEEDS;
            out[6 + i] += gsl_stats_correlation(first, 1, second, 1, DRAWS) / SEEDS;
        }
    }
    return 9;
}

/* Symmetric distributions: their shortest interval is that with equal tails, which a sample
 * determines better. */
static int s1_four_normal(const bite_given *given, double *out)
{
    return draw_it(given, four_normal, 4, 0.95, 1, out);
}
static int s1_four_level(const bite_given *given, double *out)
{
    return draw_it(given, four_level, 4, 0.95, 1, out);
}
static int s1_mass(const bite_given *given, double *out)
{
    return draw_it(given, mass, 5, 0.95, 1, out);
}
static int s1_loss(const bite_given *given, double *out)
{
    return draw_it(given, loss, 2, 0.95, 0, out);
}
static int s1_gauge_block(const bite_given *given, double *out)
{
    return draw_it(given, gauge_block, 11, 0.99, 1, out);
}

/* First order by the tangent, because half a difference over such a wide rectangle is not a slope;
 * then the draws. */
static int logarithm_both(const bite_given *given, double *out)
{
    double x = 0.5 * (IN("a") + IN("b"));
    double u = (IN("b") - IN("a")) / sqrt(12.0);
    double hair = 1e-5 * u;
    double part = 0.0;
    gum_contributions(logarithm, NULL, &x, &hair, 1, &part);
    out[0] = log(x);
    out[1] = part * u / hair;
    return 2 + draw_it(given, logarithm_drawn, 1, 0.95, 0, out + 2);
}

static int tn_expansion(const bite_given *given, double *out)
{
    double drawn[4];
    (void)draw_it(given, expansion, 4, 0.95, 1, drawn);
    out[0] = drawn[0];
    out[1] = drawn[1];
    return 2;
}

static int tn_viscosity(const bite_given *given, double *out)
{
    out[0] = IN("mu") * 61.0 * (2217.0 - 1180.0) / (36.6 * (2217.0 - 810.0));
    return 1 + draw_it(given, viscosity, 6, 0.95, 1, out + 1);
}

const bite_check bite_checks_uncertainty[] = {
    {"gum_h1", gum_h1, "gum_contributions"},
    {"gum_h1_parts", gum_h1_parts, "gum_contributions"},
    {"gum_h1_second", gum_h1_second, "gum_second_order"},
    {"gum_h2_raw", gum_h2_raw, "bite_sobol_init"},
    {"gum_h3", gum_h3, "gum_contributions"},
    {"gum_h4", gum_h4, "gum_contributions"},
    {"tn_expansion", tn_expansion, "bite_sobol_init"},
    {"s1_four_normal", s1_four_normal, "bite_sobol_digits"},
    {"s1_four_level", s1_four_level, "bite_sobol_digits"},
    {"s1_mass", s1_mass, "bite_sobol_digits"},
    {"s1_loss", s1_loss, "bite_sobol_digits"},
    {"s1_gauge_block", s1_gauge_block, "bite_sobol_digits"},
    {"logarithm_both", logarithm_both, "gum_contributions"},
    {"tn_viscosity", tn_viscosity, "bite_sobol_digits"},
};
const size_t bite_checks_uncertainty_count = BITE_COUNT(bite_checks_uncertainty);
