/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The observed cuts as observations, and what each draw of the shared inputs forecasts of them. */
#include "tests/calibration/observed_cuts.h"
#include "core/request/input_spread.h"
#include "core/request/resolve.h"
#include "core/uncertainty/monte_carlo.h"
#include "tests/field/field_cases.h"
#include "tests/field/field_scores.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Draws of what differs from cut to cut, for each draw of what all cuts share. */
#define CUT_DRAWS 128

/* A cut as it is judged. */
typedef struct judged_cut {
    bite_cut requested;
    bite_cut full;
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t count;
} judged_cut;

/* 0: it cannot be judged. */
static int resolve(field_case *report, judged_cut *cut)
{
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_error error = BITE_ERROR_INIT;
    if (strcmp(field_cell(report, "evidence"), "C") == 0) {
        return 0;
    }
    bite_request *request = field_request(0, report);
    if (request == NULL) {
        return 0;
    }
    int good =
        bite_request_resolve(request, &cut->requested, &cut->full, provenance, &error) == BITE_OK &&
        bite_spreads_collect(request, &cut->full, provenance, cut->spreads, &cut->count, &error) ==
            BITE_OK;
    bite_request_free(request);
    return good;
}

/* The chance of the cut if it went well, otherwise of the likeliest limit that detects its trouble;
 * NaN: none applies. */
static double forecast(const priors *prior, const judged_cut *cut, const double *factors,
                       field_case *report)
{
    static const uint64_t seed = 20261125;
    bite_cut changed = cut->requested;
    bite_spread spreads[BITE_SPREAD_MAX];
    bite_error error = BITE_ERROR_INIT;
    memcpy(spreads, cut->spreads, cut->count * sizeof *spreads);
    size_t count = shared_inputs_apply(prior, factors, &cut->full, &changed, spreads, cut->count);
    bite_sampling sampling = {
        .draws = CUT_DRAWS, .seed = seed, .confidence = 0.9, .limits_only = 1};
    memset(&report->result, 0, sizeof report->result);
    report->result.struct_size = (uint32_t)sizeof report->result;
    bite_status status =
        bite_monte_carlo_run(&changed, spreads, count, &sampling, &report->result, &error);
    ck_assert_msg(status == BITE_OK, "%s: %s %s", report->id, error.key, error.message);
    if (report->kind < 0) {
        return report->result.chance;
    }
    int limit = field_likeliest_limit(report, report->kind);
    return limit < 0 ? (double)NAN : report->result.limits[limit].chance;
}

static size_t source_of(observed_cuts *cuts, const char *source)
{
    for (size_t i = 0; i < cuts->sources; i++) {
        if (field_same_author(cuts->names[i], source)) {
            return i;
        }
    }
    cuts->names[cuts->sources] = source;
    return cuts->sources++;
}

observed_cuts observed_cuts_forecast(priors *prior, const double *factors, size_t draws)
{
    static const double ones[SHARED_INPUTS] = {1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
    observed_cuts cuts = {0};
    judged_cut *judged = calloc(OBSERVED_MOST, sizeof *judged);
    size_t cases[OBSERVED_MOST];
    ck_assert_ptr_nonnull(judged);
    for (size_t i = 0; i < field_case_count; i++) {
        field_case *report = &field_cases[i];
        judged_cut *cut = &judged[cuts.count];
        ck_assert_uint_lt(cuts.count + 1, OBSERVED_MOST);
        if (!resolve(report, cut) || isnan(forecast(prior, cut, ones, report))) {
            continue;
        }
        bite_observation observation = {source_of(&cuts, report->source), report->kind >= 0,
                                        prior->detection, prior->false_alarm};
        cuts.ids[cuts.count] = report->id;
        cuts.observations[cuts.count] = observation;
        cases[cuts.count++] = i;
    }
    priors_note_used(&judged[0].full, prior);
    cuts.exceeded = calloc(draws * cuts.count, sizeof *cuts.exceeded);
    ck_assert_ptr_nonnull(cuts.exceeded);
    for (size_t i = 0; i < cuts.count; i++) {
        for (size_t draw = 0; draw < draws; draw++) {
            cuts.exceeded[draw * cuts.count + i] =
                forecast(prior, &judged[i], factors + draw * SHARED_INPUTS, &field_cases[cases[i]]);
        }
    }
    free(judged);
    return cuts;
}
