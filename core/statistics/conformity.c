/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conformity of a measured size. */
#include "core/statistics/conformity.h"
#include "core/base/gauss_legendre.h"
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <math.h>

double bite_conformity_guard(double uncertainty, double confidence)
{
    return uncertainty * gsl_cdf_ugaussian_Pinv(confidence);
}

/* Chance that a normal number lies above a limit; 0 for an absent upper one. The limit itself
 * belongs to what conforms. */
static double above(double limit, double middle, double deviation)
{
    if (isnan(limit)) {
        return 0.0;
    }
    return deviation > 0.0 ? gsl_cdf_ugaussian_Q((limit - middle) / deviation)
                           : (middle > limit ? 1.0 : 0.0);
}

static double below(double limit, double middle, double deviation)
{
    return isnan(limit) ? 0.0 : above(-limit, -middle, deviation);
}

/* Chances are summed from the two tails, so that a small chance keeps its digits. */
static double outside(const bite_size_limits *limits, double reading, double uncertainty)
{
    return above(limits->upper, reading, uncertainty) + below(limits->lower, reading, uncertainty);
}

double bite_conformity_chance(const bite_size_limits *limits, double reading, double uncertainty)
{
    return fmax(0.0, 1.0 - outside(limits, reading, uncertainty));
}

bite_decision bite_conformity_decide(const bite_size_limits *limits, double reading,
                                     double uncertainty, double confidence)
{
    const double rounding = 1e-12; /* a reading at the end of a guard band conforms */
    double out = outside(limits, reading, uncertainty);
    if (out <= 1.0 - confidence + rounding) {
        return BITE_DECISION_CONFORMS;
    }
    return out >= confidence - rounding ? BITE_DECISION_DOES_NOT : BITE_DECISION_NOT_PROVEN;
}

double bite_conformity_ratio(const bite_size_limits *limits, double uncertainty)
{
    double width = limits->upper - limits->lower;
    return uncertainty > 0.0 ? width / (4.0 * uncertainty)
           : isnan(width)    ? width
                             : (double)INFINITY;
}

double bite_conformity_chance_known(const bite_prior *prior, const bite_size_limits *limits,
                                    double reading, double uncertainty)
{
    double before = prior->second * prior->second;
    double own = uncertainty * uncertainty;
    if (prior->kind != BITE_PRIOR_NORMAL) {
        return (double)NAN;
    }
    return bite_conformity_chance(limits, (reading * before + prior->first * own) / (before + own),
                                  sqrt(before * own / (before + own)));
}

static double density(const bite_prior *prior, double size)
{
    return prior->kind == BITE_PRIOR_GAMMA
               ? gsl_ran_gamma_pdf(size, prior->first, prior->second)
               : gsl_ran_gaussian_pdf(size - prior->first, prior->second);
}

/* Chance that a size of the prior does not conform. */
static double prior_outside(const bite_prior *prior, const bite_size_limits *limits)
{
    double out = 0.0;
    if (!isnan(limits->upper)) {
        out += prior->kind == BITE_PRIOR_GAMMA
                   ? gsl_cdf_gamma_Q(fmax(limits->upper, 0.0), prior->first, prior->second)
                   : gsl_cdf_gaussian_Q(limits->upper - prior->first, prior->second);
    }
    if (!isnan(limits->lower)) {
        out += prior->kind == BITE_PRIOR_GAMMA
                   ? gsl_cdf_gamma_P(fmax(limits->lower, 0.0), prior->first, prior->second)
                   : gsl_cdf_gaussian_P(limits->lower - prior->first, prior->second);
    }
    return out;
}

/* The sizes that matter: all but 1e-15 of the prior. */
static void reach(const bite_prior *prior, double *least, double *most)
{
    const double tail = 1e-15;
    if (prior->kind == BITE_PRIOR_GAMMA) {
        *least = 0.0;
        *most = gsl_cdf_gamma_Qinv(tail, prior->first, prior->second);
    } else {
        *least = prior->first - 8.0 * prior->second;
        *most = prior->first + 8.0 * prior->second;
    }
}

/* Chance that a size of the prior lies between two sizes and its reading is accepted: panels of
 * eight points, none wider than a third of what is
 * narrower, the prior or the uncertainty, whose convolution has no finer detail. */
static double accepted_between(const bite_prior *prior, const bite_size_limits *accepted,
                               double uncertainty, double least, double most)
{
    const double panels_most = 20000.0;
    double spread = prior->kind == BITE_PRIOR_GAMMA ? prior->second * fmin(1.0, sqrt(prior->first))
                                                    : prior->second;
    double panels = ceil((most - least) / (fmin(uncertainty, spread) / 3.0));
    double sum = 0.0;
    if (!(most > least)) {
        return 0.0;
    }
    panels = fmin(fmax(panels, 1.0), panels_most);
    double half = 0.5 * (most - least) / panels;
    for (double panel = 0.0; panel < panels; panel += 1.0) {
        double middle = least + (2.0 * panel + 1.0) * half;
        for (unsigned i = 0; i < BITE_GAUSS_LEGENDRE_POINTS; i++) {
            double size = middle + half * bite_gauss_legendre_point[i];
            sum += bite_gauss_legendre_weight[i] * density(prior, size) *
                   bite_conformity_chance(accepted, size, uncertainty);
        }
    }
    return sum * half;
}

static int is_usable(const bite_prior *prior, const bite_size_limits *limits, double uncertainty)
{
    int shaped = prior->kind == BITE_PRIOR_NORMAL
                     ? isfinite(prior->first)
                     : isfinite(prior->first) && prior->first >= 1.0; /* finite density at 0 */
    return shaped && isfinite(prior->second) && prior->second > 0.0 && isfinite(uncertainty) &&
           uncertainty > 0.0 && !(isnan(limits->lower) && isnan(limits->upper)) &&
           !(limits->lower > limits->upper);
}

int bite_conformity_risk_of(const bite_prior *prior, const bite_size_limits *limits,
                            double uncertainty, double guard, bite_conformity_risk *risk)
{
    double least;
    double most;
    if (!is_usable(prior, limits, uncertainty) || isnan(guard)) {
        return 0;
    }
    const bite_size_limits accepted = {limits->lower + guard, limits->upper - guard};
    reach(prior, &least, &most);
    double from = isnan(limits->lower) ? least : fmin(fmax(limits->lower, least), most);
    double to = isnan(limits->upper) ? most : fmax(fmin(limits->upper, most), least);
    int none = accepted.lower > accepted.upper; /* nothing can be accepted */
    double in = none ? 0.0 : accepted_between(prior, &accepted, uncertainty, from, to);
    double out = none ? 0.0
                      : accepted_between(prior, &accepted, uncertainty, least, from) +
                            accepted_between(prior, &accepted, uncertainty, to, most);
    risk->outside = prior_outside(prior, limits);
    risk->false_accept = out;
    risk->false_reject = fmax(0.0, 1.0 - risk->outside - in);
    risk->accepted = in + out;
    return 1;
}

double bite_conformity_guard_for(const bite_prior *prior, const bite_size_limits *limits,
                                 double uncertainty, double risk)
{
    double low = -8.0 * uncertainty;
    double high = 8.0 * uncertainty;
    bite_conformity_risk at_low;
    bite_conformity_risk at_high;
    if (!bite_conformity_risk_of(prior, limits, uncertainty, low, &at_low) ||
        !bite_conformity_risk_of(prior, limits, uncertainty, high, &at_high) ||
        !(at_low.false_accept >= risk && at_high.false_accept <= risk)) {
        return (double)NAN;
    }
    while (high - low > 1e-6 * uncertainty) { /* the risk falls as the band widens */
        double middle = 0.5 * (low + high);
        bite_conformity_risk at;
        (void)bite_conformity_risk_of(prior, limits, uncertainty, middle, &at);
        if (at.false_accept > risk) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return 0.5 * (low + high);
}
