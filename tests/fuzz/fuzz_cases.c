/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Any bytes as rows of CSV or as JSON lines, in pieces of any size: a row of results for each row
 * that was read, a fault for each that was refused. The first byte: format, and the size of the
 * pieces.
 */
#include "tests/fuzz/fuzz_library.h"
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 1000;

typedef struct lines {
    uint64_t count;
    int last; /* the last byte */
} lines;

static int count_lines(void *user, const char *text, size_t size)
{
    lines *seen = user;
    for (size_t i = 0; i < size; i++) {
        seen->count += text[i] == '\n';
        seen->last = text[i];
    }
    return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char *const results[] = {"verdict", "power_mean"};
    lines seen = {0, '\n'};
    bite_error error = BITE_ERROR_INIT;
    bite_cases *cases = NULL;
    bite_case_options options;
    bite_case_options_init(&options);
    if (size == 0) {
        return 0;
    }
    options.format = data[0] % 2 == 0 ? BITE_CSV : BITE_JSON;
    options.results = results;
    options.result_count = 2;
    size_t piece = 1 + data[0] / 2;
    bite_request *request = fuzz_request();
    if (bite_cases_new(request, &options, count_lines, &seen, &cases, &error) != BITE_OK) {
        abort();
    }
    bite_status status = BITE_OK;
    for (size_t at = 1; at < size && status == BITE_OK; at += piece) {
        size_t part = size - at < piece ? size - at : piece;
        status = bite_cases_push(cases, (const char *)data + at, part, &error);
    }
    status = status == BITE_OK ? bite_cases_end(cases, &error) : status;
    fuzz_expect_reason(status, &error);
    if (status == BITE_OK) {
        bite_case_summary summary;
        bite_case_summary_init(&summary);
        bite_cases_summary(cases, &summary);
        uint64_t head = options.format == BITE_CSV && seen.count > 0;
        uint64_t judged = summary.refused;
        for (size_t i = 0; i < 5; i++) {
            judged += summary.verdicts[i];
        }
        if (seen.count != summary.rows + head || judged != summary.rows || seen.last != '\n') {
            abort();
        }
    }
    bite_cases_free(cases);
    bite_request_free(request);
    return 0;
}
