/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One pass, and the start of the program beside an empty one with the same libraries: times and ratios of one run. Says, never
 * judges. */
#include <coolbite/coolbite.h>
#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define ROUNDS 31
#define PASSES 4000

static double now(void)
{
    struct timespec at;
    (void)clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(double *times, int count)
{
    qsort(times, (size_t)count, sizeof *times, ascending);
    return times[count / 2];
}

static bite_cut plain_cut(int runout)
{
    bite_cut cut;
    bite_cut_init(&cut);
    cut.spindle_speed = 200.0;
    cut.feed_rate = 3.3e-3;
    cut.depth = 0.4e-3;
    cut.diameter = 0.8e-3;
    cut.runout = runout ? 5e-6 : 0.0;
    cut.density = 1190.0;
    cut.heat_capacity = 1470.0;
    cut.conductivity = 0.2;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 180e6;
    cut.edge_t = 500.0;
    return cut;
}

static double time_pass(const bite_cut *cut)
{
    double times[ROUNDS];
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    for (int i = 0; i < ROUNDS; i++) {
        double start = now();
        for (int k = 0; k < PASSES; k++) {
            if (bite_cut_pass(cut, &result, NULL) != BITE_OK) {
                return (double)NAN;
            }
        }
        times[i] = (now() - start) / PASSES;
    }
    return median(times, ROUNDS);
}

/* The band of the plain cut, with a dozen inputs that scatter. */
static double time_band(const bite_cut *cut, size_t draws)
{
    static const char *const names[] = {"edge_radius", "machine_stiffness", "tool_strength",  "pressure_t",
                                        "edge_t",      "chip_ratio",        "sublayer_share", "walk_share",
                                        "cooling",     "minimum_chip",      "conductivity",   "heat_capacity"};
    bite_spread spreads[sizeof names / sizeof *names];
    double times[ROUNDS];
    bite_result result = {0};
    bite_cut full = *cut;
    result.struct_size = (uint32_t)sizeof result;
    full.edge_radius = 1.5e-6;
    full.machine_stiffness = 5e6;
    full.tool_strength = 900e6;
    full.chip_ratio = 1.6;
    full.sublayer_share = 0.5;
    full.walk_share = 1.0;
    full.cooling = 100.0;
    full.minimum_chip = 0.35;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        const bite_input *input = bite_input_find(names[i]);
        double best = *(const double *)(const void *)((const char *)&full + input->offset);
        bite_spread spread = {(uint32_t)(input - bite_input_at(0)), BITE_SHAPE_LOGNORMAL, 0, 0, 0.7 * best, 1.4 * best, 0.0};
        spreads[i] = spread;
    }
    for (int i = 0; i < ROUNDS; i++) {
        double start = now();
        if (bite_cut_band(&full, spreads, sizeof names / sizeof *names, draws, 1, 0.95, &result, NULL) != BITE_OK) {
            return (double)NAN;
        }
        times[i] = now() - start;
    }
    return median(times, ROUNDS);
}

static double time_program(char *const *words)
{
    double start = now();
    pid_t child = fork();
    if (child == 0) {
        int null = open("/dev/null", O_WRONLY);
        (void)dup2(null, 1);
        (void)dup2(null, 2);
        execv(words[0], words);
        _exit(127);
    }
    int status = 0;
    (void)waitpid(child, &status, 0);
    return now() - start;
}

static void time_start(char *program, char *empty)
{
    char *version[] = {program, "--version", NULL};
    char *cut[] = {program,  "cut",       "--material", "acrylic/cast", "--tool",   "0.8mm", "--spindle", "12000rpm",
                   "--feed", "200mm/min", "--depth",    "0.4mm",        "--format", "json",  NULL};
    char *nothing[] = {empty, NULL};
    char *const *const all[] = {nothing, version, cut};
    static const char *const names[] = {"empty program, same libraries", "coolbite --version", "coolbite cut, JSON"};
    double times[3][ROUNDS];
    for (int i = 0; i < ROUNDS; i++) { /* in turn, so that the machine's mood is shared */
        for (int k = 0; k < 3; k++) {
            times[k][i] = time_program(all[k]);
        }
    }
    double base = median(times[0], ROUNDS);
    for (int k = 0; k < 3; k++) {
        double at = median(times[k], ROUNDS);
        printf("%-32s %8.3f ms   %5.2f x empty, %+.3f ms\n", names[k], 1e3 * at, at / base, 1e3 * (at - base));
    }
}

int main(int argc, char **argv)
{
    bite_cut smooth = plain_cut(0);
    bite_cut wobbling = plain_cut(1);
    bite_cut corner = plain_cut(1);
    corner.width = 0.1e-3;
    corner.inside_radius = 0.5e-3;
    double base = time_pass(&smooth);
    printf("%-32s %8.3f us\n", "pass, slot, no runout", 1e6 * base);
    double at = time_pass(&wobbling);
    printf("%-32s %8.3f us   %5.2f x\n", "pass, slot, runout", 1e6 * at, at / base);
    at = time_pass(&corner);
    printf("%-32s %8.3f us   %5.2f x\n", "pass, side and corner, runout", 1e6 * at, at / base);
    at = time_band(&wobbling, 512);
    printf("%-32s %8.3f ms   %5.2f passes a draw\n", "band, 512 draws", 1e3 * at, at / 512.0 / time_pass(&wobbling));
    at = time_band(&wobbling, 4096);
    printf("%-32s %8.3f ms   %5.2f passes a draw\n", "band, 4096 draws", 1e3 * at, at / 4096.0 / time_pass(&wobbling));
    if (argc > 2) {
        time_start(argv[1], argv[2]);
    }
    return 0;
}
