/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Calibration of the inputs that all cuts share, by public reports, everyday recipes and a chart.
 *
 * Prints prior and posterior of each, and writes the rows of tables/uncertainty.ini (make
 * calibrate). An input keeps its prior if the observations do not move it, or if its posterior does
 * not forecast sources better that were left out. README.md explains it.
 */
#include "tests/calibration/observed_cuts.h"
#include "tests/calibration/table_rows.h"
#include "tests/field/field_cases.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DRAWS 512
#define BINS 16

static const double shares[] = {0.05, 0.5, 0.95};

typedef struct calibration {
    observed_cuts cuts;
    bite_observation_set set;
    double *factors;         /* DRAWS x SHARED_INPUTS */
    double *own;             /* one input's factors */
    double *log_weights;     /* of all sources */
    double *without;         /* DRAWS x sources: without each source */
    double *log_likelihoods; /* DRAWS x sources: of each source */
    double *even;            /* zeros: the prior */
    double *before;          /* one input without calibration: its prior, or its median alone */
    double *marginal;
    bite_weighted_value *scratch;
} calibration;

static void *allocate(size_t count, size_t size)
{
    void *memory = calloc(count, size);
    ck_assert_ptr_nonnull(memory);
    return memory;
}

static calibration calibration_new(priors *prior)
{
    calibration all = {0};
    bite_error error = BITE_ERROR_INIT;
    all.factors = allocate(DRAWS * SHARED_INPUTS, sizeof(double));
    priors_draw(prior, DRAWS, all.factors);
    all.cuts = observed_cuts_forecast(prior, all.factors, DRAWS);
    bite_observation_set set = {NULL, all.cuts.exceeded, DRAWS, all.cuts.count, prior->within};
    all.set = set;
    all.set.observations = all.cuts.observations;
    all.own = allocate(DRAWS, sizeof(double));
    all.even = allocate(DRAWS, sizeof(double));
    all.before = allocate(DRAWS, sizeof(double));
    all.marginal = allocate(DRAWS, sizeof(double));
    all.log_weights = allocate(DRAWS, sizeof(double));
    all.scratch = allocate(DRAWS, sizeof(bite_weighted_value));
    all.without = allocate(DRAWS * all.cuts.sources, sizeof(double));
    all.log_likelihoods = allocate(DRAWS * all.cuts.sources, sizeof(double));
    ck_assert_msg(bite_observation_set_check(&all.set, &error) == BITE_OK, "%s", error.message);
    return all;
}

/* The set's pointer into the structure is set again where the structure has moved. */
static void weigh(calibration *all)
{
    all->set.observations = all->cuts.observations;
    bite_observation_log_weights(&all->set, BITE_NO_SOURCE, all->log_weights);
    for (size_t source = 0; source < all->cuts.sources; source++) {
        bite_observation_log_weights(&all->set, source, all->without + source * DRAWS);
        bite_observation_likelihood(&all->set, source, all->log_likelihoods + source * DRAWS);
    }
}

static void calibration_free(calibration *all)
{
    free(all->cuts.exceeded);
    free(all->factors);
    free(all->own);
    free(all->even);
    free(all->before);
    free(all->marginal);
    free(all->log_weights);
    free(all->scratch);
    free(all->without);
    free(all->log_likelihoods);
}

/* The median of the prior alone, as draws that lie within a few percent of it. */
static void weigh_before(calibration *all, int exact)
{
    static const double width = 0.04;
    for (size_t draw = 0; draw < DRAWS; draw++) {
        double away = log(all->own[draw]) / width;
        all->before[draw] = exact ? -0.5 * away * away : 0.0;
    }
}

/* What the posterior of one input alone gains in forecasting sources that it has not seen, as a sum
 * of logarithms, with its standard error; *most: the largest gain of one source. */
static void find_gain(calibration *all, posterior *result, double *most)
{
    double sum = 0.0;
    double squares = 0.0;
    double sources = (double)all->cuts.sources;
    *most = 0.0;
    weigh_before(all, result->input->exact);
    for (size_t source = 0; source < all->cuts.sources; source++) {
        const double *likelihood = all->log_likelihoods + source * DRAWS;
        bite_marginal_log_weights(all->own, all->without + source * DRAWS, DRAWS, BINS,
                                  all->scratch, all->marginal);
        double one = bite_predictive_score(all->marginal, likelihood, DRAWS) -
                     bite_predictive_score(all->before, likelihood, DRAWS);
        sum += one;
        squares += one * one;
        *most = fmax(*most, one);
    }
    result->gain = sum;
    result->error = sqrt(fmax(0.0, squares - sum * sum / sources) * sources / (sources - 1.0));
}

/* The posterior equals the prior if no quantile moves by a twentieth of the prior's width. */
static int has_moved(const double *before, const double *after)
{
    double width = log(before[2] / before[0]);
    for (size_t i = 0; i < 3; i++) {
        if (fabs(log(after[i] / before[i])) > 0.05 * width) {
            return 1;
        }
    }
    return 0;
}

static const char *refusal_of(const posterior *result, double most)
{
    double scale = table_rows_scale(result->input);
    if (!has_moved(result->before, result->after)) {
        return "the posterior equals the prior";
    }
    if (!(result->gain > 0.0)) {
        return "sources left out are not forecast better";
    }
    if (!(result->gain > result->error)) {
        return "the gain is within its standard error";
    }
    if (!(result->gain > most)) {
        return "the gain is that of one source";
    }
    if (!(scale * result->after[0] < 1.0 && scale * result->after[2] > 1.0)) {
        return "the value in use must move first";
    }
    return bite_input_find(result->input->name) == NULL ? "the engine has no such input" : NULL;
}

static posterior posterior_of(calibration *all, const priors *prior, size_t input)
{
    posterior result = {.input = &prior->inputs[input]};
    double most = 0.0;
    for (size_t draw = 0; draw < DRAWS; draw++) {
        all->own[draw] = all->factors[draw * SHARED_INPUTS + input];
    }
    for (size_t i = 0; i < 3; i++) {
        result.before[i] =
            bite_weighted_quantile(all->own, all->even, DRAWS, shares[i], all->scratch);
        result.after[i] =
            bite_weighted_quantile(all->own, all->log_weights, DRAWS, shares[i], all->scratch);
    }
    find_gain(all, &result, &most);
    result.refusal = refusal_of(&result, most);
    return result;
}

static void print_posteriors(const calibration *all, const posterior *posteriors)
{
    printf("# Calibration of shared inputs\n\nMade by `make calibrate`; README.md explains "
           "it.\n\n%zu cuts of %zu sources, %d draws; effective sample size %.0f.\n\n"
           "All over the median of the prior; at 5, 50 and 95 %%. The gain in the score of sources "
           "that "
           "were left out,\nas a sum of natural logarithms.\n\n"
           "| input | value in use | prior | posterior | gain, standard error | result |\n"
           "|---|---|---|---|---|---|\n",
           all->cuts.count, all->cuts.sources, DRAWS,
           bite_effective_draws(all->log_weights, DRAWS));
    for (size_t i = 0; i < SHARED_INPUTS; i++) {
        const posterior *at = &posteriors[i];
        printf("| %s | %.3g | %.3g, %.3g, %.3g | %.3g, %.3g, %.3g | %+.3f, %.3f | %s%s |\n",
               at->input->name, 1.0 / table_rows_scale(at->input), at->before[0], at->before[1],
               at->before[2], at->after[0], at->after[1], at->after[2], at->gain, at->error,
               at->refusal == NULL ? "accepted" : "keeps its prior: ",
               at->refusal == NULL ? "" : at->refusal);
    }
    double score = 0.0;
    double before = 0.0;
    for (size_t source = 0; source < all->cuts.sources; source++) {
        const double *likelihood = all->log_likelihoods + source * DRAWS;
        score += bite_predictive_score(all->without + source * DRAWS, likelihood, DRAWS);
        before += bite_predictive_score(all->even, likelihood, DRAWS);
    }
    printf("\nAll together, the score of sources left out is %.3f; with the priors %.3f.\n", score,
           before);
}

static const char *table_path;

START_TEST(calibration_is_printed)
{
    posterior posteriors[SHARED_INPUTS];
    field_open();
    field_read("tests/calibration/charts.csv", FIELD_CHARTS);
    priors prior = priors_read();
    calibration all = calibration_new(&prior);
    weigh(&all);
    for (size_t i = 0; i < SHARED_INPUTS; i++) {
        posteriors[i] = posterior_of(&all, &prior, i);
    }
    print_posteriors(&all, posteriors);
    (void)fflush(stdout);
    if (table_path != NULL) {
        table_rows_write(table_path, posteriors, SHARED_INPUTS, all.cuts.count, all.cuts.sources);
    }
    calibration_free(&all);
    field_close();
}
END_TEST

/* With a path: its rows are written anew. */
int main(int argc, char **argv)
{
    table_path = argc > 1 ? argv[1] : NULL;
    Suite *suite = suite_create("calibration");
    TCase *tests = tcase_create("all");
    tcase_add_test(tests, calibration_is_printed);
    tcase_set_timeout(tests, 3600);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
