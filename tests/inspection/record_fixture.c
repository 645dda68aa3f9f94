/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records for tests, made line by line. */
#include "tests/inspection/record_fixture.h"
#include "core/base/checksum.h"
#include "tests/support/support.h"
#include <math.h>
#include <string.h>

const char record_head[] =
    "[format]\nkind = record\nversion = 1\n"
    "[record]\npart_name = \"lens cover\"\npart_number = LC-7\nunits = metric\ncount = 3\n"
    "[characteristic.2]\nwhat = width\nmeasures = outside\nnominal = 30 mm\nlower = 29.9 mm\n"
    "upper = 30.1 mm\ninstrument_title = caliper\nuncertainty = 12 um\nresolution = 0.01 mm\n"
    "expansion = 70 um/m/K\nexpansion_spread = 5 um/m/K\ninstrument_expansion = 11.5 um/m/K\n"
    "wall_error = 20 um (10 um .. 45 um)\npass = 3\nevery = 2\n"
    "[characteristic.1]\nwhat = thickness\nmeasures = thickness\nnominal = 3 mm\n"
    "lower = 2.9 mm\nupper = 3.1 mm\nuncertainty = 3 um\nresolution = 0.001 mm\n"
    "[characteristic.5]\nwhat = \"thread M3\"\nmeasures = thread\njudged = yes\n";

void record_text_add(record_text *to, const char *text)
{
    size_t length = strlen(text);
    ck_assert_uint_lt(to->size + length, sizeof to->text);
    memcpy(to->text + to->size, text, length + 1);
    to->size += length;
}

uint64_t record_text_line(record_text *to, bite_record_line line)
{
    line.number = ++to->line;
    size_t length = bite_record_line_write(&line, to->text + to->size, sizeof to->text - to->size);
    ck_assert_uint_gt(length, 0);
    to->size += length;
    return to->line;
}

void record_text_begin(record_text *to)
{
    bite_record_line seal = {.action = BITE_RECORD_SEAL,
                             .temperature = (double)NAN,
                             .time = 1.0e9,
                             .head = bite_checksum(record_head, strlen(record_head) - 1)};
    to->size = 0;
    to->line = 0;
    record_text_add(to, record_head);
    record_text_add(to, "[readings]\n");
    for (size_t i = 0; i < to->size; i++) {
        to->line += to->text[i] == '\n';
    }
    record_text_line(to, seal);
}

uint64_t record_text_read(record_text *to, uint32_t characteristic, uint32_t part, uint32_t trial,
                          const char *value)
{
    bite_record_line line = {.action = BITE_RECORD_READ,
                             .characteristic = characteristic,
                             .part = part,
                             .trial = trial,
                             .temperature = (double)NAN,
                             .time = (double)NAN};
    ck_assert_uint_lt(strlen(value), sizeof line.value);
    memcpy(line.value, value, strlen(value) + 1);
    return record_text_line(to, line);
}

void record_fault(void *user, const bite_error *fault)
{
    record_faults *faults = user;
    faults->first = faults->count == 0 ? *fault : faults->first;
    faults->last = *fault;
    faults->count++;
    ck_assert_uint_gt(strlen(fault->message), 0);
    ck_assert_uint_gt(strlen(fault->hint), 0);
    ck_assert_str_eq(fault->file, "part.record");
}

struct bite_record *record_of(const record_text *text, record_faults *faults)
{
    struct bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    memset(faults, 0, sizeof *faults);
    bite_status status = bite_record_parse(bite_memory_default(), text->text, text->size,
                                           "part.record", record_fault, faults, &record, &error);
    ck_assert_msg(record != NULL, "%u: %s", error.line, error.message);
    ck_assert_int_eq(status, faults->count == 0 ? BITE_OK : BITE_BAD_FILE);
    ck_assert_uint_eq(error.faults, faults->count);
    ck_assert_uint_eq(bite_record_unsettled(record), faults->count);
    return record;
}
