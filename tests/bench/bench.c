/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times of one pass, its draws, and whole commands, beside an empty program with the same
 * libraries: the minimum and the median of many runs, and their ratios. It only prints; nothing
 * fails. */
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

/* The minimum is the speed of the machine, the median includes its other load. */
typedef struct timing {
    double least;
    double median;
} timing;

static timing timing_of(double *times, int count)
{
    qsort(times, (size_t)count, sizeof *times, ascending);
    timing of = {times[0], times[count / 2]};
    return of;
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

static timing time_pass(const bite_cut *cut)
{
    double times[ROUNDS];
    bite_result result = {0};
    timing none = {(double)NAN, (double)NAN};
    result.struct_size = (uint32_t)sizeof result;
    for (int i = 0; i < ROUNDS; i++) {
        double start = now();
        for (int k = 0; k < PASSES; k++) {
            if (bite_cut_pass(cut, &result, NULL) != BITE_OK) {
                return none;
            }
        }
        times[i] = (now() - start) / PASSES;
    }
    return timing_of(times, ROUNDS);
}

/* The inputs that scatter if the tool and the machine were measured, then those that scatter if
 * they were not: with runout and stickout each draw has its own chips and tool. */
static const char *const uncertain[] = {
    "edge_radius",  "machine_stiffness", "tool_strength", "pressure_t", "edge_t",
    "chip_ratio",   "sublayer_share",    "walk_share",    "cooling",    "minimum_chip",
    "conductivity", "heat_capacity",     "runout",        "stickout",   "stiff_share",
    "core_share",   "tool_conductivity", "skin_depth",    "edge_share"};
#define UNCERTAIN_MEASURED 12
#define UNCERTAIN_ALL (sizeof uncertain / sizeof *uncertain)

static timing time_band(const bite_cut *cut, size_t count, size_t draws)
{
    bite_spread spreads[UNCERTAIN_ALL];
    double times[ROUNDS];
    bite_result result = {0};
    timing none = {(double)NAN, (double)NAN};
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
    full.stickout = 12e-3;
    full.stiff_share = 0.8;
    full.core_share = 0.6;
    full.tool_conductivity = 80.0;
    full.skin_depth = 3.0;
    full.edge_share = 0.4;
    for (size_t i = 0; i < count; i++) {
        const bite_input *input = bite_input_find(uncertain[i]);
        double best = *(const double *)(const void *)((const char *)&full + input->offset);
        bite_spread spread = {(uint32_t)(input - bite_input_at(0)),
                              BITE_SHAPE_LOGNORMAL,
                              0,
                              0,
                              0.7 * best,
                              1.4 * best,
                              0.0};
        spreads[i] = spread;
    }
    for (int i = 0; i < ROUNDS; i++) {
        double start = now();
        if (bite_cut_band(&full, spreads, count, draws, 1, 0.95, &result, NULL) != BITE_OK) {
            return none;
        }
        times[i] = now() - start;
    }
    return timing_of(times, ROUNDS);
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
    char *cut[] = {program,   "cut",       "--material", "acrylic/cast", "--tool",
                   "0.8mm",   "--spindle", "12000rpm",   "--feed",       "200mm/min",
                   "--depth", "0.4mm",     "--format",   "json",         NULL};
    char *choose[] = {
        program,  "choose",    "--material", "acrylic/cast",    "--tool", "1/32in",      "--flutes",
        "2",      "--machine", "bench-24k",  "--feature-depth", "0.6mm",  "--tolerance", "0.05mm",
        "--goal", "cool",      NULL};
    char *nothing[] = {empty, NULL};
    enum { PROGRAMS = 4 };
    char *const *const all[PROGRAMS] = {nothing, version, cut, choose};
    static const char *const names[PROGRAMS] = {"empty program, same libraries",
                                                "coolbite --version", "coolbite cut, JSON",
                                                "coolbite choose"};
    double times[PROGRAMS][ROUNDS];
    timing base = {0.0, 0.0};
    for (int i = 0; i < ROUNDS;
         i++) { /* alternating, so that changes in the machine's load affect all alike */
        for (int k = 0; k < PROGRAMS; k++) {
            times[k][i] = time_program(all[k]);
        }
    }
    for (int k = 0; k < PROGRAMS; k++) {
        timing at = timing_of(times[k], ROUNDS);
        base = k == 0 ? at : base;
        printf("%-32s %8.3f %8.3f ms   %5.2f x empty, %+.3f ms\n", names[k], 1e3 * at.least,
               1e3 * at.median, at.median / base.median, 1e3 * (at.median - base.median));
    }
}

static void say_pass(const char *name, timing at, timing base)
{
    printf("%-32s %8.3f %8.3f us   %5.2f x\n", name, 1e6 * at.least, 1e6 * at.median,
           at.median / base.median);
}

static void say_band(const char *name, const bite_cut *cut, size_t count, size_t draws)
{
    timing at = time_band(cut, count, draws);
    printf("%-32s %8.3f %8.3f ms   %5.2f us a draw\n", name, 1e3 * at.least, 1e3 * at.median,
           1e6 * at.least / (double)draws);
}

int main(int argc, char **argv)
{
    bite_cut smooth = plain_cut(0);
    bite_cut wobbling = plain_cut(1);
    bite_cut corner = plain_cut(1);
    corner.width = 0.1e-3;
    corner.inside_radius = 0.5e-3;
    timing base = time_pass(&smooth);
    printf("%-32s %8s %8s\n", "", "least", "median");
    say_pass("pass, slot, no runout", base, base);
    say_pass("pass, slot, runout", time_pass(&wobbling), base);
    say_pass("pass, side and corner, runout", time_pass(&corner), base);
    say_band("band, 512 draws", &wobbling, UNCERTAIN_MEASURED, 512);
    say_band("band, 4096 draws", &wobbling, UNCERTAIN_MEASURED, 4096);
    say_band("band, runout and stickout too", &wobbling, UNCERTAIN_ALL, 4096);
    say_band("band, with a corner", &corner, UNCERTAIN_MEASURED, 4096);
    if (argc > 2) {
        time_start(argv[1], argv[2]);
    }
    return 0;
}
