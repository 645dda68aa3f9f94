/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new record: its head, and the line that seals it. */
#include "core/inspection/record_create.h"
#include "core/base/error.h"
#include "core/inspection/record.h"
#include "core/inspection/record_file.h"
#include "core/inspection/record_head.h"
#include "core/inspection/record_line.h"
#include <math.h>
#include <string.h>

typedef struct text {
    const bite_allocator *allocator;
    char *text;
    size_t size;
    size_t capacity;
} text;

static int append(void *user, const char *piece, size_t size)
{
    text *to = user;
    if (size > to->capacity - to->size) {
        size_t capacity = 2 * to->capacity + size + 1024;
        char *larger = bite_memory_grow(to->allocator, to->text, capacity, 1);
        if (larger == NULL) {
            return 1;
        }
        to->text = larger;
        to->capacity = capacity;
    }
    memcpy(to->text + to->size, piece, size);
    to->size += size;
    return 0;
}

/* The seal of a head: what reading it again finds. */
static bite_status seal(const struct bite_record *record, text *made, bite_error *error)
{
    char line[BITE_RECORD_LINE_MAX];
    struct bite_record *read = NULL;
    bite_status status = bite_record_parse(&record->allocator, made->text, made->size, record->path,
                                           NULL, NULL, &read, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_record_line sealing = {.number = read->number + 1,
                                .action = BITE_RECORD_SEAL,
                                .head = read->head_checksum,
                                .temperature = (double)NAN,
                                .time = (double)NAN};
    bite_record_free(read);
    size_t length = bite_record_line_write(&sealing, line, sizeof line);
    return append(made, line, length) == 0
               ? BITE_OK
               : bite_error_set(error, BITE_NO_MEMORY, "no memory for a record");
}

bite_status bite_record_create(const struct bite_record *record, bite_error *error)
{
    text made = {&record->allocator, NULL, 0, 0};
    bite_status status = bite_record_head_write(record, append, &made);
    status = status == BITE_OK ? seal(record, &made, error)
                               : bite_error_set(error, BITE_NO_MEMORY, "no memory for a record");
    if (status == BITE_OK) {
        status = bite_record_file_create(record->path, made.text, made.size, error);
    }
    bite_memory_free(&record->allocator, made.text);
    return status;
}
