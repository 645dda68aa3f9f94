/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Growth of a batch with its rows and with its threads. */
#include "tests/bench/bench.h"
#include <stdio.h>

#define ROUNDS 15
#define ROWS_MOST 100000

static bench_batch slots(size_t rows)
{
    bite_batch_output outputs[BITE_LIMIT_COUNT];
    bite_cut cut = bench_cut();
    return bench_batch_new(&cut, bench_spreads, bench_spread_count, outputs,
                           bench_utilizations(outputs), rows);
}

static double time_rows(const bench_batch *batch, size_t rows)
{
    double start = bench_cpu();
    bench_batch_run(batch, rows, 1);
    return bench_cpu() - start;
}

static void grow_rows(const bench_batch *batch)
{
    static const size_t rows[] = {1, 16, 256, 1000, 10000, ROWS_MOST};
    printf(
        "\nGrowth with the rows of a batch, processor time of one thread: least, median, a row\n");
    for (size_t n = 0; n < sizeof rows / sizeof *rows; n++) {
        double times[ROUNDS];
        for (int i = 0; i < ROUNDS; i++) {
            times[i] = time_rows(batch, rows[n]);
        }
        bench_timing timing = bench_timing_of(times, ROUNDS);
        printf("%8zu rows %31.4f %8.4f ms   %6.3f us a row\n", rows[n], 1e3 * timing.least,
               1e3 * timing.median, 1e6 * timing.least / (double)rows[n]);
    }
}

/* Wall time: that of two threads is what a user waits for. One and two in turns. */
static void grow_threads(const bench_batch *batch)
{
    static const size_t rows[] = {256, 1000, 10000, ROWS_MOST};
    printf(
        "\nTwo threads, wall time: least of one, least of two; one/two by the leasts, and in the "
        "median of pairs\n");
    for (size_t n = 0; n < sizeof rows / sizeof *rows; n++) {
        double times[2][ROUNDS];
        for (int i = 0; i < ROUNDS; i++) {
            for (size_t threads = 1; threads <= 2; threads++) {
                double start = bench_now();
                bench_batch_run(batch, rows[n], threads);
                times[threads - 1][i] = bench_now() - start;
            }
        }
        double pairs = bench_ratio_of(times[0], times[1], ROUNDS);
        double one = bench_timing_of(times[0], ROUNDS).least;
        double two = bench_timing_of(times[1], ROUNDS).least;
        printf("%8zu rows %31.4f %8.4f ms   %5.2f %5.2f x\n", rows[n], 1e3 * one, 1e3 * two,
               one / two, pairs);
    }
}

void bench_growth(void)
{
    bench_batch batch = slots(ROWS_MOST);
    grow_rows(&batch);
    grow_threads(&batch);
    bench_batch_free(&batch);
}
