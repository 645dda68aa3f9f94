/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One evaluation in a batch for each kind of cut, beside that of a slot. */
#include "tests/bench/bench.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define ROUNDS 9
#define ROWS 10000

/* Radians of an angle in degrees. */
#define DEGREES(angle) ((angle)*3.14159265358979323846 / 180.0)

#define MODE(number, frequency, stiffness)                                                         \
    {"mode" number "_frequency", frequency}, {"mode" number "_stiffness", stiffness},              \
    {                                                                                              \
        "mode" number "_damping", 0.03                                                             \
    }
#define NO_RUNOUT                                                                                  \
    {                                                                                              \
        "runout", 0.0                                                                              \
    }

/* The first one is what the others are compared with. */
static const struct {
    const char *name;
    size_t rows;
    bench_setting settings[BENCH_SETTINGS];
} kinds[] = {
    {"slot", ROWS, {{NULL, 0.0}}},
    {"slot without runout", ROWS, {NO_RUNOUT}},
    {"slot, through", ROWS, {{"floor_thickness", 0.0}}},
    {"side cut", ROWS, {{"width", 0.25e-3}}},
    {"side cut, conventional", ROWS, {{"width", 0.25e-3}, {"side", BITE_CONVENTIONAL}}},
    {"side cut in an inside corner", ROWS, {{"width", 0.25e-3}, {"inside_radius", 0.7e-3}}},
    {"slot, 4 flutes", ROWS, {{"flutes", 4.0}}},
    {"slot, 8 flutes", ROWS, {{"flutes", 8.0}}},
    {"corner radius", ROWS, {{"corner_radius", 0.2e-3}}},
    {"ball", ROWS, {{"corner_radius", 0.5e-3}, {"depth", 0.3e-3}}},
    {"chamfer",
     ROWS,
     {{"operation", BITE_CHAMFER},
      {"diameter", 6e-3},
      {"shank_diameter", 6e-3},
      {"stickout", 20e-3},
      {"flute_length", 3e-3},
      {"taper", DEGREES(45.0)},
      {"tip_diameter", 0.6e-3}}},
    {"drill",
     ROWS,
     {{"operation", BITE_DRILL_HOLE}, {"feed_rate", 3e-3}, {"helix", DEGREES(30.0)}}},
    {"V groove",
     ROWS,
     {{"taper", DEGREES(30.0)}, {"tip_diameter", 0.1e-3}, {"diameter", 3e-3}, {"depth", 0.3e-3}}},
    {"slot, entered by a plunge", ROWS, {{"entry", BITE_ENTRY_PLUNGE}}},
    {"slot, entered by a ramp", ROWS, {{"entry", BITE_ENTRY_RAMP}}},
    {"slot, entered by a helix", ROWS, {{"entry", BITE_ENTRY_HELIX}}},
    {"slot, 1 measured mode", ROWS, {MODE("", 900.0, 4e6)}},
    {"slot, 2 measured modes", ROWS, {MODE("", 900.0, 4e6), MODE("2", 2100.0, 9e6)}},
    {"slot, 3 measured modes",
     ROWS,
     {MODE("", 900.0, 4e6), MODE("2", 2100.0, 9e6), MODE("3", 4300.0, 2e7)}},
    {"light cut, 1 measured mode", 512, {{"width", 0.1e-3}, MODE("", 900.0, 4e6)}},
    {"light cut, 3 measured modes",
     256,
     {{"width", 0.1e-3}, MODE("", 900.0, 4e6), MODE("2", 2100.0, 9e6), MODE("3", 4300.0, 2e7)}},
};
#define KINDS (sizeof kinds / sizeof *kinds)

static bite_cut cut_of(size_t kind)
{
    bite_cut cut = bench_cut();
    bench_set(&cut, kinds[kind].settings, BENCH_SETTINGS);
    return cut;
}

static bench_batch batch_of(size_t kind, size_t rows)
{
    bite_batch_output outputs[BITE_LIMIT_COUNT];
    bite_cut cut = cut_of(kind);
    size_t count = bench_utilizations(outputs);
    return bench_batch_new(&cut, bench_spreads, bench_spread_count, outputs, count, rows);
}

static double time_batch(const bench_batch *batch)
{
    double start = bench_cpu();
    bench_batch_run(batch, batch->rows, 1);
    return (bench_cpu() - start) / (double)batch->rows;
}

static void say(const char *name, double ratio, double *times)
{
    bench_timing timing = bench_timing_of(times, ROUNDS);
    printf("%-36s %8.3f %8.3f us   %6.2f x\n", name, 1e6 * timing.least, 1e6 * timing.median,
           ratio);
}

/* Alternating, so that changes in the load of the machine affect all kinds alike. */
static void time_kinds(void)
{
    double times[KINDS][ROUNDS];
    double ratios[KINDS];
    bench_batch batches[KINDS];
    for (size_t kind = 0; kind < KINDS; kind++) {
        batches[kind] = batch_of(kind, kinds[kind].rows);
        (void)time_batch(&batches[kind]);
    }
    for (int i = 0; i < ROUNDS; i++) {
        for (size_t kind = 0; kind < KINDS; kind++) {
            times[kind][i] = time_batch(&batches[kind]);
        }
    }
    for (size_t kind = 0; kind < KINDS; kind++) {
        ratios[kind] = bench_ratio_of(times[kind], times[0], ROUNDS);
    }
    for (size_t kind = 0; kind < KINDS; kind++) {
        say(kinds[kind].name, ratios[kind], times[kind]);
        bench_batch_free(&batches[kind]);
    }
}

/* ---- other ways to evaluate a slot ---- */

static double time_pass(const bite_cut *cut)
{
    const int passes = 2000;
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    double start = bench_cpu();
    for (int i = 0; i < passes; i++) {
        if (bite_cut_pass(cut, &result, NULL) != BITE_OK) {
            bench_fail("pass", "it was refused");
        }
    }
    return (bench_cpu() - start) / passes;
}

/* Inputs that vary: what a search varies, and with it a size of the tool from which defaults
 * follow. */
static const bench_spread of_search[] = {{"spindle_speed", 0.7, 1.4}, {"feed_rate", 0.7, 1.4}};
static const bench_spread of_tools[] = {
    {"spindle_speed", 0.7, 1.4}, {"feed_rate", 0.7, 1.4}, {"diameter", 0.8, 1.2}};

static bench_batch slots_of(const bench_spread *spreads, size_t count)
{
    bite_batch_output outputs[BITE_LIMIT_COUNT];
    bite_cut cut = bench_cut();
    return bench_batch_new(&cut, spreads, count, outputs, bench_utilizations(outputs), ROWS);
}

static void time_ways(void)
{
    double times[4][ROUNDS];
    double ratios[4];
    static const char *const names[] = {"slot in a batch", "only speed and feed vary",
                                        "the diameter varies too",
                                        "bite_cut_pass, all of a result"};
    bench_batch batches[] = {slots_of(bench_spreads, bench_spread_count),
                             slots_of(of_search, sizeof of_search / sizeof *of_search),
                             slots_of(of_tools, sizeof of_tools / sizeof *of_tools)};
    bite_cut cut = bench_cut();
    for (int i = 0; i < ROUNDS; i++) {
        for (int way = 0; way < 3; way++) {
            times[way][i] = time_batch(&batches[way]);
        }
        times[3][i] = time_pass(&cut);
    }
    for (int way = 0; way < 4; way++) {
        ratios[way] = bench_ratio_of(times[way], times[0], ROUNDS);
    }
    for (int way = 0; way < 4; way++) {
        say(names[way], ratios[way], times[way]);
    }
    for (int way = 0; way < 3; way++) {
        bench_batch_free(&batches[way]);
    }
}

void bench_evaluations(void)
{
    printf(
        "An evaluation in a batch, processor time of one thread: least, median, ratio to the slot "
        "(median)\n");
    time_kinds();
    printf("\nWays to evaluate a slot\n");
    time_ways();
}

/* ---- for a counter of instructions ---- */

int bench_evaluate_once(const char *kind, size_t count)
{
    for (size_t i = 0; i < KINDS; i++) {
        if (strcmp(kinds[i].name, kind) == 0) {
            bench_batch batch = batch_of(i, count);
            bench_batch_run(&batch, count, 1);
            bench_batch_free(&batch);
            return 1;
        }
    }
    return 0;
}

void bench_evaluation_names(void)
{
    for (size_t i = 0; i < KINDS; i++) {
        printf("%s\n", kinds[i].name);
    }
}
