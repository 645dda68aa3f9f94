/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cuts that are timed: one template, settings that make other kinds of it, and rows of random
 * cuts about it. */
#include "tests/bench/bench.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Figures as in tables/materials/acrylic.ini, rounded, with the pressure in the linear edge form;
 * all others are those of a small bench mill. The times hardly depend on them. */
static const bench_setting acrylic[] = {
    {"spindle_speed", 250.0},
    {"feed_rate", 8e-3},
    {"depth", 0.5e-3},
    {"diameter", 1e-3},
    {"flutes", 2.0},
    {"runout", 6e-6},
    {"edge_radius", 2e-6},
    {"edge_wear", 1.2},
    {"stickout", 12e-3},
    {"flute_length", 3e-3},
    {"shank_diameter", 3e-3},
    {"stiff_share", 0.8},
    {"core_share", 0.6},
    {"tool_strength", 3e9},
    {"tool_conductivity", 80.0},
    {"cooling", 100.0},
    {"machine_stiffness", 5e6},
    {"chip_ratio", 1.6},
    {"sublayer_share", 0.4},
    {"walk_share", 1.0},
    {"minimum_chip", 0.33},
    {"skin_depth", 1.5},
    {"edge_share", 0.3},
    {"density", 1190.0},
    {"heat_capacity", 1470.0},
    {"conductivity", 0.19},
    {"transition", 378.0},
    {"modulus", 3.1e9},
    {"poisson", 0.37},
    {"expansion", 70e-6},
    {"crazing", 20e6},
    {"packing_limit", 1.0},
    {"pressure_t", 180e6},
    {"edge_t", 500.0},
    {"floor_thickness", 1e-3},
    {"tolerance", 0.05e-3},
    {"finish", 2e-6},
    {"spindle_fastest", 400.0},
    {"spindle_slowest", 50.0},
    {"feed_fastest", 50e-3},
    {"power_limit", 500.0},
    {"torque_limit", 0.3},
    {"holder_temperature", 298.15},
    {"torque_speed", 350.0},
    {"torque_exponent", 0.5},
};

bite_cut bench_cut(void)
{
    bite_cut cut;
    bite_cut_init(&cut);
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.substance = BITE_AMORPHOUS;
    bench_set(&cut, acrylic, sizeof acrylic / sizeof *acrylic);
    return cut;
}

static const bite_input *input_of(const char *name)
{
    const bite_input *input = bite_input_find(name);
    if (input == NULL) {
        bench_fail(name, "there is no such input");
    }
    return input;
}

void bench_set(bite_cut *cut, const bench_setting *settings, size_t count)
{
    for (size_t i = 0; i < count && settings[i].name != NULL; i++) {
        const bite_input *input = input_of(settings[i].name);
        char *member = (char *)cut + input->offset;
        if (input->words > 0) {
            uint32_t word = (uint32_t)settings[i].value;
            memcpy(member, &word, sizeof word);
        } else {
            memcpy(member, &settings[i].value, sizeof settings[i].value);
        }
    }
}

double bench_number(const bite_cut *cut, const char *name)
{
    double number;
    memcpy(&number, (const char *)cut + input_of(name)->offset, sizeof number);
    return number;
}

const bench_spread bench_spreads[] = {
    {"spindle_speed", 0.7, 1.4}, {"feed_rate", 0.7, 1.4},
    {"depth", 0.7, 1.2},         {"width", 0.9, 1.1},
    {"runout", 0.5, 1.5},        {"edge_radius", 0.7, 1.4},
    {"stiff_share", 0.95, 1.1},  {"core_share", 0.95, 1.05},
    {"tool_strength", 0.8, 1.2}, {"machine_stiffness", 0.5, 2.0},
    {"pressure_t", 0.7, 1.4},    {"edge_t", 0.7, 1.4},
    {"chip_ratio", 0.9, 1.2},    {"conductivity", 0.8, 1.2},
    {"heat_capacity", 0.9, 1.1}, {"cooling", 0.5, 2.0},
    {"minimum_chip", 0.6, 1.3},
};
const size_t bench_spread_count = sizeof bench_spreads / sizeof *bench_spreads;

size_t bench_utilizations(bite_batch_output *outputs)
{
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        bite_batch_output output = {BITE_BATCH_UTILIZATION, i};
        outputs[i] = output;
    }
    return BITE_LIMIT_COUNT;
}

/* ---- batches ---- */

/* Steele, Lea and Flood 2014: SplitMix64 (memory). */
static double uniform(uint64_t *seed)
{
    uint64_t z = (*seed += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

static void add_input(bench_batch *batch, const bite_cut *cut, const bench_spread *spread,
                      uint64_t *seed)
{
    double value = bench_number(cut, spread->name);
    double *column = batch->numbers + batch->inputs * batch->rows;
    if (isnan(value)) {
        return;
    }
    for (size_t i = 0; i < batch->rows; i++) {
        column[i] = value * (spread->low + (spread->high - spread->low) * uniform(seed));
    }
    bite_column in = {column, 1};
    batch->input[batch->inputs] = (uint32_t)(input_of(spread->name) - bite_input_at(0));
    batch->in[batch->inputs] = in;
    batch->inputs++;
}

bench_batch bench_batch_new(const bite_cut *cut, const bench_spread *spreads, size_t spread_count,
                            const bite_batch_output *outputs, size_t output_count, size_t rows)
{
    bench_batch batch = {.rows = rows, .outputs = output_count};
    uint64_t seed = 1;
    bite_error error = BITE_ERROR_INIT;
    if (spread_count > BENCH_INPUTS_MAX || output_count > BENCH_OUTPUTS_MAX) {
        bench_fail("batch", "too many columns");
    }
    batch.numbers = malloc((spread_count + output_count) * rows * sizeof *batch.numbers);
    if (batch.numbers == NULL) {
        bench_fail("batch", "no memory");
    }
    for (size_t i = 0; i < spread_count; i++) {
        add_input(&batch, cut, &spreads[i], &seed);
    }
    for (size_t i = 0; i < output_count; i++) {
        bite_result_column out = {batch.numbers + (spread_count + i) * rows, 1};
        batch.output[i] = outputs[i];
        batch.out[i] = out;
    }
    if (bite_batch_new(NULL, cut, batch.input, batch.inputs, outputs, output_count, &batch.batch,
                       &error) != BITE_OK) {
        bench_fail("batch", error.message);
    }
    return batch;
}

void bench_batch_free(bench_batch *batch)
{
    bite_batch_free(batch->batch);
    free(batch->numbers);
}

void bench_batch_run(const bench_batch *batch, size_t rows, size_t threads)
{
    bite_error error = BITE_ERROR_INIT;
    uint32_t *status = malloc(rows * sizeof *status);
    if (status == NULL || bite_batch_run(batch->batch, rows, batch->in, batch->out, status, threads,
                                         NULL, &error) != BITE_OK) {
        bench_fail("batch", error.message);
    }
    for (size_t i = 0; i < rows; i++) {
        if (status[i] != BITE_OK) {
            bench_fail("batch", "a row was refused");
        }
    }
    free(status);
}
