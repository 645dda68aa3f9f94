/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The library against a peer in NumPy (peer_numpy.py): the same cuts in the same run, their outputs
 * compared, and both times. */
#include "core/cut/defaults.h"
#include "tests/bench/bench.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define PEER_ROWS 10000
#define PEER_ROUNDS 3
#define OUR_ROUNDS 15

static const struct {
    const char *name;
    double width;           /* m; NAN: a slot */
    double floor_thickness; /* m; 0: a through cut */
    int tools;              /* 1: sizes of the tool differ from row to row too */
} cases[] = {
    {"slot with a floor", (double)NAN, 1e-3, 0},
    {"slot, through", (double)NAN, 0.0, 0},
    {"side cut with a floor", 0.25e-3, 1e-3, 0},
    {"side cut, through", 0.25e-3, 0.0, 0},
    {"slot with a floor, tools differ", (double)NAN, 1e-3, 1},
    {"side cut with a floor, tools differ", 0.25e-3, 1e-3, 1},
};
#define CASES (sizeof cases / sizeof *cases)

/* The cuts per call of NumPy that suit its cache best are found by trial. */
static const int chunks[] = {500, 2000, PEER_ROWS};
#define CHUNKS (sizeof chunks / sizeof *chunks)

static const bench_spread tools[] = {{"diameter", 0.5, 2.0},
                                     {"stickout", 0.8, 1.5},
                                     {"helix", 0.3, 1.5},
                                     {"flute_length", 0.9, 1.2},
                                     {"room_temperature", 1, 1.05}};
#define TOOLS (sizeof tools / sizeof *tools)

/* Where the peer's error is measured: relative to the larger of the number and a share of the
 * largest one in the column, since a wall's error passes through zero. */
typedef struct difference {
    double worst;
    char name[64];
} difference;

static const char *python(void)
{
    static const char *const programs[] = {"python3", "/usr/bin/python3"};
    for (size_t i = 0; i < sizeof programs / sizeof *programs; i++) {
        char command[128];
        (void)snprintf(command, sizeof command, "%s -c 'import numpy' 2>/dev/null", programs[i]);
        if (system(command) == 0) {
            return programs[i];
        }
    }
    return NULL;
}

/* ---- the cases that the peer reads ---- */

static int varies(const bench_batch *batch, size_t input)
{
    for (size_t i = 0; i < batch->inputs; i++) {
        if (batch->input[i] == input) {
            return 1;
        }
    }
    return 0;
}

static void write_cases(const char *path, const bite_cut *cut, const bench_batch *batch)
{
    FILE *file = fopen(path, "w");
    bite_cut full = *cut;
    bite_defaults_fill(&full);
    full.width = cut->width;
    if (file == NULL) {
        bench_fail(path, "it cannot be written");
    }
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        if (input->words == 0 && !varies(batch, i)) {
            fprintf(file, "# %s %.17g\n", input->name, bench_number(&full, input->name));
        }
    }
    for (size_t i = 0; i < batch->inputs; i++) {
        fprintf(file, "%s%s", i > 0 ? "," : "", bite_input_at(batch->input[i])->name);
    }
    fprintf(file, "\n");
    for (size_t row = 0; row < batch->rows; row++) {
        for (size_t i = 0; i < batch->inputs; i++) {
            fprintf(file, "%s%.17g", i > 0 ? "," : "", batch->in[i].data[row]);
        }
        fprintf(file, "\n");
    }
    if (fclose(file) != 0) {
        bench_fail(path, "it cannot be written");
    }
}

/* ---- its results ---- */

/* The output of a column's name: a value, or "limit" and a limit. -1: there is none. */
static int output_of(const bench_batch *batch, const char *name)
{
    for (size_t i = 0; i < batch->outputs; i++) {
        const bite_batch_output *output = &batch->output[i];
        char own[80];
        if (output->kind == BITE_BATCH_VALUE) {
            (void)snprintf(own, sizeof own, "%s", bite_value_name((bite_value_id)output->id));
        } else {
            (void)snprintf(own, sizeof own, "limit %s", bite_limit_name((bite_limit_id)output->id));
        }
        if (strcmp(own, name) == 0) {
            return (int)i;
        }
    }
    return -1;
}

static double largest_of(const double *column, size_t rows)
{
    double most = 0.0;
    for (size_t i = 0; i < rows; i++) {
        most = isfinite(column[i]) ? fmax(most, fabs(column[i])) : most;
    }
    return most;
}

/* 1 where only one of both has a number. */
static double distance(double ours, double theirs, double most)
{
    const double least_share = 1e-3;
    if (isnan(ours) || isnan(theirs)) {
        return isnan(ours) && isnan(theirs) ? 0.0 : 1.0;
    }
    return ours == theirs ? 0.0 : fabs(ours - theirs) / fmax(fabs(ours), least_share * most);
}

#define LINE_MAX_LENGTH 8192

static size_t read_names(FILE *file, const bench_batch *batch, int *outputs, difference *worst)
{
    char line[LINE_MAX_LENGTH];
    size_t count = 0;
    if (fgets(line, sizeof line, file) == NULL) {
        bench_fail("peer", "it has no results");
    }
    for (char *name = strtok(line, ",\r\n"); name != NULL; name = strtok(NULL, ",\r\n")) {
        outputs[count] = output_of(batch, name);
        if (outputs[count] < 0) {
            bench_fail(name, "the library has no such output");
        }
        (void)snprintf(worst[count].name, sizeof worst[count].name, "%s", name);
        worst[count].worst = 0.0;
        count++;
    }
    return count;
}

static size_t compare(const char *path, const bench_batch *batch, difference *worst)
{
    char line[LINE_MAX_LENGTH];
    int outputs[BENCH_OUTPUTS_MAX];
    double most[BENCH_OUTPUTS_MAX];
    FILE *file = fopen(path, "r");
    if (file == NULL) {
        bench_fail(path, "it cannot be read");
    }
    size_t count = read_names(file, batch, outputs, worst);
    for (size_t i = 0; i < count; i++) {
        most[i] = largest_of(batch->out[outputs[i]].data, batch->rows);
    }
    size_t row = 0;
    for (; fgets(line, sizeof line, file) != NULL; row++) {
        char *at = line;
        for (size_t i = 0; i < count && row < batch->rows; i++) {
            double theirs = strtod(at, &at);
            double gap = distance(batch->out[outputs[i]].data[row], theirs, most[i]);
            worst[i].worst = fmax(worst[i].worst, gap);
            at += *at == ',';
        }
    }
    fclose(file);
    if (row != batch->rows) {
        bench_fail("peer", "it has another number of results");
    }
    return count;
}

/* ---- the runs ---- */

/* Processor time of a cut by the peer, s. results: "-" for none. */
static bench_timing run_peer(const char *program, const char *folder, const char *cases_path,
                             const char *results, int chunk)
{
    char command[4096];
    bench_timing timing = {(double)NAN, (double)NAN};
    (void)snprintf(command, sizeof command, "%s -B %s/peer_numpy.py %s %s %d %d", program, folder,
                   cases_path, results, chunk, PEER_ROUNDS);
    FILE *pipe = popen(command, "r");
    if (pipe == NULL || fscanf(pipe, "%lf %lf", &timing.least, &timing.median) != 2 ||
        pclose(pipe) != 0) {
        bench_fail("peer", "it did not run");
    }
    return timing;
}

static bench_timing run_ours(const bench_batch *batch)
{
    double times[OUR_ROUNDS];
    for (int i = 0; i < OUR_ROUNDS; i++) {
        double start = bench_cpu();
        bench_batch_run(batch, batch->rows, 1);
        times[i] = (bench_cpu() - start) / (double)batch->rows;
    }
    return bench_timing_of(times, OUR_ROUNDS);
}

static bench_batch batch_of(size_t i, bite_cut *cut)
{
    bench_spread spreads[BENCH_INPUTS_MAX];
    bite_batch_output outputs[BENCH_OUTPUTS_MAX];
    size_t count = bench_spread_count;
    size_t output_count = 0;
    memcpy(spreads, bench_spreads, count * sizeof *spreads);
    if (cases[i].tools) {
        memcpy(spreads + count, tools, sizeof tools);
        count += TOOLS;
    }
    for (uint32_t id = 0; id < BITE_VALUE_COUNT; id++) {
        bite_batch_output output = {BITE_BATCH_VALUE, id};
        outputs[output_count++] = output;
    }
    output_count += bench_utilizations(outputs + output_count);
    *cut = bench_cut();
    cut->width = cases[i].width;
    cut->floor_thickness = cases[i].floor_thickness;
    cut->helix = 0.5235987755982988;
    cut->room_temperature = 293.15;
    return bench_batch_new(cut, spreads, count, outputs, output_count, PEER_ROWS);
}

static void print_differences(const char *name, const difference *worst, size_t count)
{
    size_t at = 0;
    for (size_t i = 0; i < count; i++) {
        at = worst[i].worst > worst[at].worst ? i : at;
        if (worst[i].worst > 1e-6) {
            printf("    %s: %s differs by %.1e\n", name, worst[i].name, worst[i].worst);
        }
    }
    printf("    %zu outputs agree to %.1e (%s)\n", count, worst[at].worst, worst[at].name);
}

static void run_case(size_t i, const char *program, const char *folder, const char *temporary)
{
    char cases_path[512];
    char results[512];
    difference worst[BENCH_OUTPUTS_MAX];
    bite_cut cut;
    bench_batch batch = batch_of(i, &cut);
    (void)snprintf(cases_path, sizeof cases_path, "%s/cases.csv", temporary);
    (void)snprintf(results, sizeof results, "%s/results.csv", temporary);
    write_cases(cases_path, &cut, &batch);
    bench_timing ours = run_ours(&batch);
    bench_timing peer = run_peer(program, folder, cases_path, results, chunks[0]);
    int best = chunks[0];
    for (size_t n = 1; n < CHUNKS; n++) {
        bench_timing other = run_peer(program, folder, cases_path, "-", chunks[n]);
        best = other.least < peer.least ? chunks[n] : best;
        peer = other.least < peer.least ? other : peer;
    }
    bench_timing again = run_ours(&batch); /* before and after the peer: the machine is busy */
    ours = again.least < ours.least ? again : ours;
    printf("%-36s %7.3f %7.3f us   NumPy %7.2f %7.2f us (%d at a time)   %5.1f x %5.1f x\n",
           cases[i].name, 1e6 * ours.least, 1e6 * ours.median, 1e6 * peer.least, 1e6 * peer.median,
           best, peer.least / ours.least, peer.median / ours.median);
    print_differences(cases[i].name, worst, compare(results, &batch, worst));
    (void)unlink(cases_path);
    (void)unlink(results);
    bench_batch_free(&batch);
}

void bench_peer(const char *folder)
{
    char temporary[] = "/tmp/bite-bench-XXXXXX";
    const char *program = python();
    printf("\nThe same model in NumPy, %d cuts, processor time of one thread; least, median\n",
           PEER_ROWS);
    if (program == NULL) {
        printf("    left out: there is no python3 with numpy\n");
        return;
    }
    if (mkdtemp(temporary) == NULL) {
        bench_fail(temporary, "it cannot be made");
    }
    for (size_t i = 0; i < CASES; i++) {
        run_case(i, program, folder, temporary);
        (void)fflush(stdout);
    }
    (void)rmdir(temporary);
}
