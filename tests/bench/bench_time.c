/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times, and how they are summed up. */
#include "tests/bench/bench.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

static double clock_of(clockid_t clock)
{
    struct timespec at;
    (void)clock_gettime(clock, &at);
    return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

double bench_now(void)
{
    return clock_of(CLOCK_MONOTONIC);
}

double bench_cpu(void)
{
    return clock_of(CLOCK_PROCESS_CPUTIME_ID);
}

static double seconds_of(struct timeval time)
{
    return (double)time.tv_sec + 1e-6 * (double)time.tv_usec;
}

double bench_children_cpu(void)
{
    struct rusage usage;
    (void)getrusage(RUSAGE_CHILDREN, &usage);
    return seconds_of(usage.ru_utime) + seconds_of(usage.ru_stime);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

bench_timing bench_timing_of(double *times, int count)
{
    qsort(times, (size_t)count, sizeof *times, ascending);
    bench_timing timing = {times[0], times[count / 2]};
    return timing;
}

double bench_ratio_of(const double *times, const double *base, int count)
{
    double ratios[BENCH_ROUNDS_MAX];
    for (int i = 0; i < count; i++) {
        ratios[i] = times[i] / base[i];
    }
    return bench_timing_of(ratios, count).median;
}

_Noreturn void bench_fail(const char *what, const char *why)
{
    fprintf(stderr, "bench: %s: %s\n", what, why);
    exit(1);
}
