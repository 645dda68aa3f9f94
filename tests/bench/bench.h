/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of the benchmarks share: times, and batches of cuts of one kind. */
#ifndef BITE_TESTS_BENCH_BENCH_H
#define BITE_TESTS_BENCH_BENCH_H

#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

/* ---- times (bench_time.c) ---- */

#define BENCH_ROUNDS_MAX 64

/** Wall time, and processor time of this process and of its children that have ended, s. */
double bench_now(void);
double bench_cpu(void);
double bench_children_cpu(void);

/** The minimum is the speed of the machine, the median includes its other load. s */
typedef struct bench_timing {
    double least;
    double median;
} bench_timing;

/** Sorts the times. */
bench_timing bench_timing_of(double *times, int count);

/** Median over the rounds of times[i]/base[i], which were taken one after the other. */
double bench_ratio_of(const double *times, const double *base, int count);

/* ---- cuts (bench_cuts.c) ---- */

/** A slot in cast acrylic with a tool of 1 mm and two flutes, with runout, in full: its material,
 * machine and tolerance are given, so that all limits of such a cut apply. */
bite_cut bench_cut(void);

/** A number to set; names are those of bite_input. A word is set by its index. */
typedef struct bench_setting {
    const char *name; /* NULL: none */
    double value;
} bench_setting;
#define BENCH_SETTINGS 12

void bench_set(bite_cut *cut, const bench_setting *settings, size_t count);

/** A number of the cut; NaN: not given. */
double bench_number(const bite_cut *cut, const char *name);

/** An input that differs between the rows of a batch: uniform between these shares of its value in
 * the template. */
typedef struct bench_spread {
    const char *name;
    double low;
    double high;
} bench_spread;

#define BENCH_INPUTS_MAX 32
#define BENCH_OUTPUTS_MAX 128

/** A batch with its columns. */
typedef struct bench_batch {
    bite_batch *batch;
    size_t rows;
    size_t inputs;
    size_t outputs;
    uint32_t input[BENCH_INPUTS_MAX];
    bite_batch_output output[BENCH_OUTPUTS_MAX];
    bite_column in[BENCH_INPUTS_MAX];
    bite_result_column out[BENCH_OUTPUTS_MAX];
    double *numbers; /* of all columns */
} bench_batch;

/** Prepares rows of random cuts, the same each time. Inputs that the template does not give are
 * left out. Prints and exits if it cannot. bench_batch_free. */
bench_batch bench_batch_new(const bite_cut *cut, const bench_spread *spreads, size_t spread_count,
                            const bite_batch_output *outputs, size_t output_count, size_t rows);
void bench_batch_free(bench_batch *batch);

/** Runs the first `rows` of it; exits if one is refused. */
void bench_batch_run(const bench_batch *batch, size_t rows, size_t threads);

/** The inputs that scatter in most of the rows, and the outputs that a search asks for: the
 * utilizations of all limits. */
extern const bench_spread bench_spreads[];
extern const size_t bench_spread_count;
size_t bench_utilizations(bite_batch_output *outputs);

/** Prints why and exits. */
_Noreturn void bench_fail(const char *what, const char *why);

/* ---- parts of the report ---- */

void bench_evaluations(void);                                      /* bench_evaluation.c */
void bench_draws(void);                                            /* bench_draws.c */
void bench_growth(void);                                           /* bench_growth.c */
void bench_commands(char *program, char *empty, const char *root); /* bench_command.c */
/** Without NumPy it prints a sentence instead. */
void bench_peer(const char *folder); /* bench_peer.c */

/** One kind of evaluation, run `count` times and nothing else: for a counter of instructions.
 * Returns 0 if there is no such kind. */
int bench_evaluate_once(const char *kind, size_t count);
/** Prints the names of the kinds. */
void bench_evaluation_names(void);

#endif
