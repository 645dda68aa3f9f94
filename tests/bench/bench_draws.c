/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bands of a cut whose inputs all scatter; growth with draws, rows and threads. */
#include "tests/bench/bench.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define ROUNDS 9

/* The inputs that tables and defaults give with a range, about the values of the template. */
static const char *const uncertain[] = {"edge_radius",
                                        "machine_stiffness",
                                        "tool_strength",
                                        "pressure_t",
                                        "edge_t",
                                        "chip_ratio",
                                        "sublayer_share",
                                        "walk_share",
                                        "cooling",
                                        "minimum_chip",
                                        "conductivity",
                                        "heat_capacity",
                                        "runout",
                                        "stickout",
                                        "stiff_share",
                                        "core_share",
                                        "tool_conductivity",
                                        "skin_depth",
                                        "edge_share",
                                        "packing_limit",
                                        "surface_cooling",
                                        "rub_share",
                                        "runout_share",
                                        "stable_share",
                                        "tooth_strength",
                                        "tool_damping",
                                        "frame_frequency",
                                        "spindle_frequency",
                                        "spring_back",
                                        "wall_heat"};
#define UNCERTAIN (sizeof uncertain / sizeof *uncertain)

static bite_cut scattering_cut(void)
{
    bite_cut cut = bench_cut();
    for (size_t i = 0; i < UNCERTAIN; i++) {
        const bite_input *input = bite_input_find(uncertain[i]);
        if (isnan(bench_number(&cut, uncertain[i])) && !isnan(input->fallback)) {
            bench_setting setting = {uncertain[i], input->fallback};
            bench_set(&cut, &setting, 1);
        }
    }
    return cut;
}

static size_t fill_spreads(const bite_cut *cut, bite_spread *spreads)
{
    size_t count = 0;
    for (size_t i = 0; i < UNCERTAIN; i++) {
        double best = bench_number(cut, uncertain[i]);
        uint32_t input = (uint32_t)(bite_input_find(uncertain[i]) - bite_input_at(0));
        bite_spread spread = {input, BITE_SHAPE_LOGNORMAL, 0, 0, 0.9 * best, 1.1 * best, 0.0};
        if (!isnan(best)) {
            spreads[count++] = spread;
        }
    }
    return count;
}

static double time_band(const bite_cut *cut, const bite_spread *spreads, size_t count, size_t draws)
{
    bite_result result = {0};
    bite_error error = BITE_ERROR_INIT;
    result.struct_size = (uint32_t)sizeof result;
    double start = bench_cpu();
    if (bite_cut_band(cut, spreads, count, draws, 1, 0.95, &result, &error) != BITE_OK) {
        bench_fail("band", error.message);
    }
    return bench_cpu() - start;
}

void bench_draws(void)
{
    static const size_t draws[] = {512, 1024, 2048, 4096, 16384, 65536};
    enum { COUNTS = sizeof draws / sizeof *draws };
    double times[COUNTS][ROUNDS];
    bite_spread spreads[UNCERTAIN];
    bite_cut cut = scattering_cut();
    size_t count = fill_spreads(&cut, spreads);
    for (int i = 0; i < ROUNDS; i++) {
        for (int n = 0; n < COUNTS; n++) {
            times[n][i] = time_band(&cut, spreads, count, draws[n]);
        }
    }
    printf("\nA band of a slot, %zu inputs scatter, processor time: least, median, each draw\n",
           count);
    for (int n = 0; n < COUNTS; n++) {
        bench_timing timing = bench_timing_of(times[n], ROUNDS);
        printf("%8zu draws %30.3f %8.3f ms   %6.3f us a draw\n", draws[n], 1e3 * timing.least,
               1e3 * timing.median, 1e6 * timing.least / (double)draws[n]);
    }
}
