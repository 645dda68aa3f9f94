/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The assignment of inputs to dimensions of the Sobol sequence. */
#include "core/uncertainty/sampling_plan.h"
#include "core/base/error.h"
#include "core/base/lane_math.h"
#include "core/names/registry.h"
#include <math.h>
#include <string.h>

static bite_status bad_spread(bite_error *error, const bite_input *input, const char *what)
{
    bite_error_set(error, BITE_BAD_ARGUMENT, "%s", what);
    bite_error_key(error, "%s", input == NULL ? "spread" : input->name);
    return BITE_BAD_ARGUMENT;
}

/* A spread may extend this many widths of its input's range beyond that range: tables state factors
 * of the best estimate, and draws are cut off at the range. A number that is not finite is beyond
 * it. */
static const double spread_most = 100.0;

static bite_status check_spread(const bite_spread *spread, const bite_cut *full, bite_error *error)
{
    const bite_input *input = bite_input_entry(spread->input);
    if (input == NULL || input->words > 0) {
        return bad_spread(error, NULL, "a spread names no numeric input");
    }
    double best = *bite_input_number_of(full, input);
    int known = spread->shape >= BITE_SHAPE_LEVEL && spread->shape <= BITE_SHAPE_LOGNORMAL &&
                spread->reserved == 0;
    if (!known || spread->group >= BITE_SOBOL_GROUPS ||
        !(spread->together >= 0.0 && spread->together <= 1.0)) {
        return bad_spread(error, input,
                          "the shape, group or common share of a spread is not a valid one");
    }
    if (!(spread->low <= best && best <= spread->high) ||
        (spread->shape == BITE_SHAPE_LOGNORMAL && !(spread->low > 0.0))) {
        return bad_spread(
            error, input,
            "a spread does not enclose the best estimate, or a logarithmic one is not above 0");
    }
    double reach = spread_most * (input->most - input->least);
    if (!(spread->low >= input->least - reach && spread->high <= input->most + reach)) {
        return bad_spread(error, input, "a spread reaches far beyond the range of its input");
    }
    return BITE_OK;
}

static const char *name_of(const bite_spread *spread)
{
    return bite_input_entry(spread->input)->name;
}

/* Orders the spreads by name, and notes which groups there are. */
static bite_status order_spreads(const bite_spread *spreads, size_t count, const bite_cut *full,
                                 bite_sampling_plan *out, bite_error *error)
{
    for (size_t i = 0; i < count; i++) {
        bite_status status = check_spread(&spreads[i], full, error);
        if (status != BITE_OK) {
            return status;
        }
        size_t at = i;
        for (; at > 0 && strcmp(name_of(out->spreads[at - 1]), name_of(&spreads[i])) > 0; at--) {
            out->spreads[at] = out->spreads[at - 1];
        }
        out->spreads[at] = &spreads[i];
        if (at > 0 && out->spreads[at - 1]->input == spreads[i].input) {
            return bad_spread(error, bite_input_entry(spreads[i].input),
                              "an input has two spreads");
        }
        out->group_dimension[spreads[i].group] = spreads[i].group > 0;
    }
    return BITE_OK;
}

/* The dimensions of groups precede those of inputs. */
bite_status bite_sampling_plan_init(const bite_spread *spreads, size_t count, const bite_cut *full,
                                    bite_sampling_plan *out, bite_error *error)
{
    memset(out, 0, sizeof *out);
    if (count > BITE_SPREAD_MAX || (count > 0 && spreads == NULL)) {
        return bad_spread(error, NULL, "there are too many spreads, or a count without spreads");
    }
    bite_status status = order_spreads(spreads, count, full, out, error);
    if (status != BITE_OK) {
        return status;
    }
    for (unsigned g = 1; g < BITE_SOBOL_GROUPS; g++) {
        out->group_dimension[g] = out->group_dimension[g] ? ++out->dimensions : 0;
    }
    out->count = count;
    for (size_t i = 0; i < count; i++) {
        const bite_spread *spread = out->spreads[i];
        double together = spread->group == 0 ? 0.0 : spread->together;
        out->inputs[i] = bite_input_entry(spread->input);
        out->scatters[i] = bite_scatter_init(spread, *bite_input_number_of(full, out->inputs[i]));
        out->common_share[i] = sqrt(together);
        out->own_share[i] = sqrt(1.0 - together);
        out->least[i] = out->inputs[i]->least;
        out->most[i] = out->inputs[i]->most;
        out->offset[i] = out->inputs[i]->offset;
        if (spread->group > 0) {
            out->group_members[out->grouped].input = i;
            out->group_members[out->grouped++].dimension = out->group_dimension[spread->group] - 1;
        }
    }
    out->dimensions += (unsigned)count;
    return out->dimensions <= BITE_SOBOL_DIMENSIONS
               ? BITE_OK
               : bad_spread(error, NULL,
                            "there are more spreads and groups than the sequence has dimensions");
}

void bite_sampling_plan_set_cells(bite_sampling_plan *plan, size_t draws)
{
    plan->cells = 1;
    plan->spare = BITE_SOBOL_DIGITS;
    while (plan->cells < draws) {
        plan->cells *= 2;
        plan->spare--;
    }
}

/* The deviates of the cells' middles; one half follows from the other by symmetry. */
void bite_sampling_plan_set_deviates(bite_sampling_plan *plan, double *deviates)
{
    size_t cells = plan->cells;
    for (size_t i = 0; 2 * i < cells; i++) {
        double below = cells == 1 ? 0.0 : bite_normal_deviate(((double)i + 0.5) / (double)cells);
        deviates[i] = below;
        deviates[cells - 1 - i] = -below;
    }
    plan->deviates = deviates;
}

void bite_sampling_plan_deviates(const bite_sampling_plan *plan, bite_sobol *sobol, double *z)
{
    uint32_t digits[BITE_SOBOL_DIMENSIONS];
    const uint32_t *own = digits + (plan->dimensions - plan->count); /* the groups come first */
    bite_sobol_digits(sobol, digits);
    for (size_t i = 0; i < plan->count; i++) {
        z[i] = plan->own_share[i] * plan->deviates[own[i] >> plan->spare];
    }
    for (size_t k = 0; k < plan->grouped; k++) {
        size_t i = plan->group_members[k].input;
        z[i] += plan->common_share[i] *
                plan->deviates[digits[plan->group_members[k].dimension] >> plan->spare];
    }
}

/* Values stay where the physics is valid: the tails of a spread are cut off at the input's range.
 */
BITE_IN_LANES static void cut_tails(double least, double most, size_t count,
                                    double *restrict values)
{
    for (size_t k = 0; k < count; k++) {
        values[k] = bite_smaller(bite_larger(values[k], least), most);
    }
}

void bite_sampling_plan_draw(const bite_sampling_plan *plan, bite_sobol *sobol, size_t count,
                             size_t stride, double *values)
{
    double z[BITE_SPREAD_MAX][BITE_LANES];
    for (size_t k = 0; k < count; k++) {
        double of_point[BITE_SPREAD_MAX];
        bite_sampling_plan_deviates(plan, sobol, of_point);
        for (size_t i = 0; i < plan->count; i++) {
            z[i][k] = of_point[i];
        }
    }
    for (size_t i = 0; i < plan->count; i++) {
        double *own = values + i * stride;
        bite_scatter_values(&plan->scatters[i], z[i], count, own);
        cut_tails(plan->least[i], plan->most[i], count, own);
    }
}
