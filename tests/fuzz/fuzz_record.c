/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a record, and any lines with a good checksum behind a good head: it is read, or
 * refused with a message; the library never fails otherwise. */
#include "core/base/checksum.h"
#include "core/inspection/record.h"
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 3000;

/* The rows of a CSV are read; there is no file to which they could be appended. */
static void read_csv(bite_record *record, const char *text, size_t size)
{
    const bite_record_entry defaults = {
        .struct_size = (uint32_t)sizeof defaults, .temperature = (double)NAN, .time = (double)NAN};
    bite_error error = BITE_ERROR_INIT;
    size_t appended = 0;
    bite_status status = bite_record_append_csv(record, text, size, "fuzz.csv", &defaults, NULL,
                                                NULL, &appended, &error);
    if (appended > 0 || (status != BITE_OK && error.message[0] == 0)) {
        abort();
    }
}

static void read_one(const char *text, size_t size)
{
    bite_error error = BITE_ERROR_INIT;
    bite_record *record = NULL;
    size_t characteristic = 0;
    uint32_t part = 0;
    bite_status status = bite_record_parse(bite_memory_default(), text, size, "fuzz.record", NULL,
                                           NULL, &record, &error);
    if (status == BITE_FAULT || (status != BITE_OK && error.message[0] == 0) ||
        (status == BITE_OK) != (record != NULL && bite_record_unsettled(record) == 0)) {
        abort();
    }
    const bite_reading *one = NULL;
    for (size_t i = 0; (one = bite_record_reading(record, i)) != NULL; i++) {
        if (bite_record_characteristic(record, one->characteristic) == NULL) {
            abort();
        }
    }
    (void)bite_record_next(record, "", 0, 0, &characteristic, &part);
    bite_record_free(record);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char head[] = "[format]\nkind = record\nversion = 1\n[characteristic.1]\n"
                               "what = width\nupper = 3 mm\n[readings]\n";
    char text[4096];
    read_one((const char *)data, size);
    if (size > 0 && data[0] == 'c') {
        bite_record *record = NULL;
        if (bite_record_parse(bite_memory_default(), head, sizeof head - 1, "fuzz.none/record",
                              NULL, NULL, &record, NULL) == BITE_OK) {
            read_csv(record, (const char *)data, size);
        }
        bite_record_free(record);
    }
    size_t used = sizeof head - 1;
    memcpy(text, head, used);
    for (const uint8_t *at = data, *end = data + size; at < end;) { /* each line with its sum */
        const uint8_t *stop = memchr(at, '\n', (size_t)(end - at));
        size_t length = (size_t)((stop == NULL ? end : stop) - at);
        if (used + length + 12 > sizeof text) {
            break;
        }
        memcpy(text + used, at, length);
        used += length + (size_t)snprintf(text + used + length, 12, " ~%08x\n",
                                          (unsigned)bite_checksum(text + used, length));
        at += length + 1;
    }
    read_one(text, used);
    return 0;
}
