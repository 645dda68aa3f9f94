/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times of evaluations, of draws and of whole commands: see README.md. It only prints; nothing
 * fails for being slow. */
#include "tests/bench/bench.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char usage[] =
    "bench --library SOURCES         evaluations, draws, growth, and the peer in NumPy\n"
    "bench PROGRAM EMPTY SOURCES     the same, and whole commands\n"
    "bench --peer SOURCES            the peer alone\n"
    "bench --commands PROGRAM EMPTY SOURCES   whole commands alone\n"
    "bench --kinds                   names of the kinds of evaluation\n"
    "bench --once KIND COUNT         this many evaluations of a kind, for a counter of "
    "instructions\n";

static void run_library(const char *sources)
{
    char folder[1024];
    (void)snprintf(folder, sizeof folder, "%s/tests/bench", sources);
    bench_evaluations();
    bench_draws();
    bench_growth();
    bench_peer(folder);
}

static int run_option(int argc, char **argv)
{
    char folder[1024];
    (void)snprintf(folder, sizeof folder, "%s/tests/bench", argc == 3 ? argv[2] : "");
    if (argc == 3 && strcmp(argv[1], "--library") == 0) {
        run_library(argv[2]);
    } else if (argc == 3 && strcmp(argv[1], "--peer") == 0) {
        bench_peer(folder);
    } else if (argc == 5 && strcmp(argv[1], "--commands") == 0) {
        bench_commands(argv[2], argv[3], argv[4]);
    } else if (argc == 2 && strcmp(argv[1], "--kinds") == 0) {
        bench_evaluation_names();
    } else if (argc == 4 && strcmp(argv[1], "--once") == 0 && strtoul(argv[3], NULL, 10) > 0) {
        return bench_evaluate_once(argv[2], strtoul(argv[3], NULL, 10)) ? 0 : 2;
    } else {
        (void)fputs(usage, stderr);
        return 2;
    }
    return 0;
}

int main(int argc, char **argv)
{
    if (argc == 4 && argv[1][0] != '-') {
        run_library(argv[3]);
        bench_commands(argv[1], argv[2], argv[3]);
        return 0;
    }
    return run_option(argc, argv);
}
