/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A hundred thousand cuts in one call: the same slot over a grid of spindle speeds and feeds; which
 * share of them is clear, and which of those removes the most? */
#include <coolbite/coolbite.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { SPEEDS = 250, FEEDS = 400, ROWS = SPEEDS * FEEDS };

/* The four columns of the table: two that are given, two that are computed. */
typedef struct table {
    double spindle[ROWS]; /* 1/s */
    double feed[ROWS];    /* m/s */
    double verdict[ROWS];
    double removal[ROWS]; /* m3/s */
    uint32_t status[ROWS];
} table;

static void fill(table *rows)
{
    for (int i = 0; i < ROWS; i++) {
        rows->spindle[i] = (6000.0 + 18000.0 * (i % SPEEDS) / (SPEEDS - 1)) / 60.0;
        rows->feed[i] = (50.0 + 950.0 * (i / SPEEDS) / (FEEDS - 1)) * 1e-3 / 60.0;
    }
}

static uint32_t index_of(const char *name)
{
    uint32_t index = 0;
    while (bite_input_at(index) != bite_input_find(name)) {
        index++;
    }
    return index;
}

/* The numbers that all rows have in common: those of a request, as an answer would use them. */
static bite_status common_numbers(const bite_library *library, bite_cut *cut, bite_error *error)
{
    bite_request *request = NULL;
    bite_status status = bite_request_new(library, &request, error);
    status = status ? status : bite_request_use(request, BITE_GRADES, "acrylic/cast", error);
    status = status ? status : bite_request_use(request, BITE_TOOLS, "3mm", error);
    status = status ? status : bite_request_set(request, "depth", "0.5mm", error);
    status = status ? status : bite_request_set(request, "spindle_speed", "9000rpm", error);
    status = status ? status : bite_request_set(request, "feed_rate", "300mm/min", error);
    status = status ? status : bite_request_cut(request, cut, error);
    bite_request_free(request);
    return status;
}

static bite_status run(const bite_cut *cut, table *rows, bite_error *error)
{
    const uint32_t inputs[] = {index_of("spindle_speed"), index_of("feed_rate")};
    const bite_batch_output outputs[] = {{BITE_BATCH_VERDICT, 0},
                                         {BITE_BATCH_VALUE, BITE_REMOVAL_RATE}};
    const bite_column in[] = {{rows->spindle, 1}, {rows->feed, 1}};
    const bite_result_column out[] = {{rows->verdict, 1}, {rows->removal, 1}};
    bite_batch *batch = NULL;
    bite_status status = bite_batch_new(NULL, cut, inputs, 2, outputs, 2, &batch, error);
    status = status ? status : bite_batch_run(batch, ROWS, in, out, rows->status, 2, NULL, error);
    bite_batch_free(batch);
    return status;
}

int main(void)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_cut cut;
    table *rows = malloc(sizeof *rows);
    bite_status status = rows == NULL ? BITE_NO_MEMORY : bite_library_open(NULL, &library, &error);
    bite_cut_init(&cut);
    status = status ? status : common_numbers(library, &cut, &error);
    if (status == BITE_OK) {
        fill(rows);
        status = run(&cut, rows, &error);
    }
    if (status != BITE_OK) {
        fprintf(stderr, "%s: %s\n", error.message, error.hint);
    } else {
        int clear = 0;
        int best = -1;
        for (int i = 0; i < ROWS; i++) {
            if (rows->status[i] == BITE_OK && rows->verdict[i] == BITE_CLEAR) {
                clear++;
                best = best < 0 || rows->removal[i] > rows->removal[best] ? i : best;
            }
        }
        printf("%d of %d cuts are clear\n", clear, (int)ROWS);
        if (best >= 0) {
            printf("the fastest of them: %.0f rpm, %.0f mm/min\n", 60.0 * rows->spindle[best],
                   60e3 * rows->feed[best]);
        }
    }
    bite_library_close(library);
    free(rows);
    return status != BITE_OK;
}
