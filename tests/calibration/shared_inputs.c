/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inputs that all cuts share, and their priors. */
#include "tests/calibration/shared_inputs.h"
#include "core/base/memory.h"
#include "core/names/registry.h"
#include "core/request/input_spread.h"
#include "core/tables/ini.h"
#include "core/uncertainty/sobol.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Factors of these inputs. force_share is not an input: it stands for the pressures of metals. */
static const char *const names[SHARED_INPUTS] = {"wall_heat",       "packing_share",  "force_share",
                                                 "frame_frequency", "tooth_strength", "rub_share"};
static const char *const pressures[] = {"pressure_t", "pressure_r", "pressure_a",
                                        "edge_t",     "edge_r",     "edge_a"};

static double number_of(const bite_ini *ini, const char *section, const char *key)
{
    const bite_ini_entry *entry = bite_ini_find(ini, section, key);
    if (entry == NULL || entry->value == NULL) {
        bite_test_stop("priors.ini: [%s] has no %s", section, key);
    }
    return strtod(entry->value, NULL);
}

priors priors_read(void)
{
    char path[4096];
    bite_error error = BITE_ERROR_INIT;
    bite_ini *ini = NULL;
    priors prior = {0};
    bite_test_source(path, sizeof path, "tests/calibration/priors.ini");
    if (bite_ini_open(bite_memory_default(), path, NULL, NULL, &ini, &error) != BITE_OK) {
        bite_test_stop("%s", error.message);
    }
    prior.detection = number_of(ini, "observations", "detection");
    prior.false_alarm = number_of(ini, "observations", "false_alarm");
    prior.within = number_of(ini, "observations", "within");
    for (size_t i = 0; i < SHARED_INPUTS; i++) {
        char section[64];
        shared_input *input = &prior.inputs[i];
        input->name = names[i];
        (void)snprintf(section, sizeof section, "prior.%s", names[i]);
        input->used = 1.0;
        input->value = bite_ini_find(ini, section, "value") == NULL
                           ? (double)NAN
                           : number_of(ini, section, "value");
        input->exact = bite_ini_find(ini, section, "exact") != NULL;
        input->low = number_of(ini, section, "low");
        input->high = number_of(ini, section, "high");
        const bite_ini_entry *source = bite_ini_find(ini, section, "source");
        (void)snprintf(input->source, sizeof input->source, "%s",
                       source == NULL ? "" : source->value);
    }
    bite_ini_free(ini);
    return prior;
}

void priors_draw(const priors *prior, size_t draws, double *factors)
{
    static const uint64_t seed = 20261129;
    bite_scatter scatters[SHARED_INPUTS];
    bite_sobol sobol;
    uint32_t digits[BITE_SOBOL_DIMENSIONS];
    for (size_t i = 0; i < SHARED_INPUTS; i++) {
        bite_spread spread = {
            0, BITE_SHAPE_LOGNORMAL, 0, 0, prior->inputs[i].low, prior->inputs[i].high, 0.0};
        scatters[i] = bite_scatter_init(&spread, 1.0);
    }
    (void)bite_sobol_init(&sobol, SHARED_INPUTS, seed);
    for (size_t draw = 0; draw < draws; draw++) {
        bite_sobol_digits(&sobol, digits);
        for (size_t i = 0; i < SHARED_INPUTS; i++) {
            double deviate = bite_normal_deviate(ldexp(digits[i] + 0.5, -BITE_SOBOL_DIGITS));
            bite_scatter_values(&scatters[i], &deviate, 1, factors + draw * SHARED_INPUTS + i);
        }
    }
}

/* The spread of K and Ke stays beside the factor that all metals share: alloys differ. */
static void scale_force(double factor, const bite_cut *full, bite_cut *cut, bite_spread *spreads,
                        size_t count)
{
    if (full->substance != BITE_METAL) {
        return;
    }
    for (size_t i = 0; i < sizeof pressures / sizeof *pressures; i++) {
        const bite_input *input = bite_input_find(pressures[i]);
        *bite_input_number(cut, input) = factor * *bite_input_number_of(full, input);
        for (size_t k = 0; k < count; k++) {
            if (bite_input_at(spreads[k].input) == input) {
                spreads[k].low *= factor;
                spreads[k].high *= factor;
            }
        }
    }
}

void priors_note_used(const bite_cut *full, priors *prior)
{
    for (size_t i = 0; i < SHARED_INPUTS; i++) {
        shared_input *input = &prior->inputs[i];
        if (!isnan(input->value)) {
            input->used = *bite_input_number_of(full, bite_input_find(input->name));
        }
    }
}

size_t shared_inputs_apply(const priors *prior, const double *factors, const bite_cut *full,
                           bite_cut *cut, bite_spread *spreads, size_t count)
{
    for (size_t i = 0; i < SHARED_INPUTS; i++) {
        const bite_input *input = bite_input_find(names[i]);
        double median = prior->inputs[i].value;
        if (input == NULL) {
            scale_force(factors[i], full, cut, spreads, count);
            continue;
        }
        median = isnan(median) ? *bite_input_number_of(full, input) : median;
        *bite_input_number(cut, input) = factors[i] * median;
        count = bite_spreads_except(spreads, count, input, spreads);
    }
    return count;
}
