/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a job file: it is planned, or refused with a message for each fault; a plan is
 * written completely, as JSON and as text. */
#include "core/job/plan.h"
#include "core/job/planner.h"
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 3000;

/* Tables only: a plan does not need the code of a family. */
static bite_library *open_once(void)
{
    static bite_library *library;
    if (library == NULL) {
        char tables[4096];
        const char *source = getenv("BITE_TEST_SOURCE");
        const char *given = getenv("COOLBITE_TABLE_PATH");
        (void)snprintf(tables, sizeof tables, "%s%s",
                       given != NULL    ? given
                       : source == NULL ? "."
                                        : source,
                       given != NULL ? "" : "/tables");
        bite_library_options options = {sizeof options, NULL, "/nonexistent", tables};
        if (bite_library_open(&options, &library, NULL) != BITE_OK ||
            bite_library_count(library, BITE_GRADES) == 0) {
            abort();
        }
    }
    return library;
}

static void count_fault(void *user, const bite_error *fault)
{
    if (fault->message[0] == 0) {
        abort();
    }
    (*(uint32_t *)user)++;
}

static int check_output(void *user, const char *text, size_t size)
{
    for (size_t i = 0; i < size; i++) {
        unsigned char c = (unsigned char)text[i];
        if ((c < 0x20 && c != '\n') || c == 0x7f) {
            abort();
        }
    }
    *(size_t *)user += size;
    return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bite_job_options options;
    bite_job_options_init(&options);
    options.threads = 1;
    options.draws = BITE_DRAWS_NONE;
    options.confidence = 0.95;
    bite_error error = BITE_ERROR_INIT;
    bite_job *job = NULL;
    uint32_t faults = 0;
    size_t written = 0;
    bite_status status = bite_job_parse(open_once(), "fuzz.ini", (const char *)data, size, &options,
                                        count_fault, &faults, &job, &error);
    if (status != BITE_OK) {
        if (job != NULL || status == BITE_FAULT || error.message[0] == 0 ||
            (status == BITE_BAD_FILE && faults == 0)) {
            abort();
        }
        return 0;
    }
    bite_style style = {.struct_size = (uint32_t)sizeof style};
    if (faults > 0 || bite_job_write(job, &style, check_output, &written, &error) != BITE_OK) {
        abort();
    }
    style.format = BITE_JSON;
    if (bite_job_write(job, &style, check_output, &written, &error) != BITE_OK || written < 1000) {
        abort();
    }
    bite_job_free(job);
    return 0;
}
