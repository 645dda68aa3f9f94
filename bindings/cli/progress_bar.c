/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line on the terminal that shows how far a long command is. */
#include "bindings/cli/progress_bar.h"
#include <inttypes.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

#define CELLS 30

static const double first_after = 0.5; /* s */
static const double step = 0.2;

static double now(void)
{
    struct timespec time = {0, 0};
    (void)clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

void progress_bar_start(struct progress_bar *bar)
{
    bar->shown = isatty(STDERR_FILENO) && !isatty(STDOUT_FILENO);
    bar->started = now();
    bar->next = bar->started + first_after;
}

void progress_bar_show(struct progress_bar *bar, uint64_t done, uint64_t total, uint64_t rows)
{
    double time = now();
    if (!bar->shown || time < bar->next) {
        return;
    }
    bar->next = time + step;
    char cells[CELLS + 1];
    double share = total == 0 ? 0.0 : (double)done / (double)total;
    share = share > 1.0 ? 1.0 : share;
    for (int i = 0; i < CELLS; i++) {
        cells[i] = (double)i < share * CELLS ? '#' : '.';
    }
    cells[CELLS] = 0;
    double rate = (double)rows / (time - bar->started);
    if (total > 0) {
        (void)fprintf(stderr, "\r[%s] %3.0f %%  %" PRIu64 " rows, %.0f a second ", cells,
                      100.0 * share, rows, rate);
    } else {
        (void)fprintf(stderr, "\r%" PRIu64 " rows, %.0f a second ", rows, rate);
    }
    (void)fflush(stderr);
}

void progress_bar_end(const struct progress_bar *bar)
{
    if (bar->shown && bar->next > bar->started + first_after) {
        (void)fprintf(stderr, "\r%*s\r", CELLS + 45, "");
        (void)fflush(stderr);
    }
}
