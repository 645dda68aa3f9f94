/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A column of a table of cases: what its name means, and a field of it in a request. */
#ifndef BITE_CASES_CASE_COLUMN_H
#define BITE_CASES_CASE_COLUMN_H

#include "core/request/request.h"
#include "core/units/unit_table.h"
#include <coolbite/coolbite.h>

#define BITE_CASE_NAME_MAX 64 /* bytes of a column's name with its unit, with the null */

typedef enum bite_case_column_kind {
    BITE_CASE_CARRIED, /* id, note: not read */
    BITE_CASE_NUMBER,  /* of an input */
    BITE_CASE_WORD,    /* of an input */
    BITE_CASE_RECORD   /* of a collection */
} bite_case_column_kind;

typedef struct bite_case_column {
    char name[BITE_CASE_NAME_MAX]; /* as given */
    uint32_t kind;                 /* a bite_case_column_kind */
    bite_collection collection;
    const bite_input *input; /* NULL for a record */
    const bite_unit *unit;   /* of its numbers; NULL: each field has its own */
} bite_case_column;

/** A field: text, or a number without a unit. */
typedef struct bite_case_field {
    const char *text; /* NULL: a number */
    double number;
} bite_case_field;

/** Reads a column's name: an input, one of the caller's words for it, a record (material, tool,
 * machine ...), or `id` or `note`, which are not read; after an input its unit may stand in square
 * brackets. BITE_BAD_FILE: no such name or unit; the hint names the nearest one. */
bite_status bite_case_column_read(const char *name, size_t length, const bite_case_word *words,
                                  size_t word_count, bite_case_column *column, bite_error *error);

/** Sets the input of a column of numbers or words. Errors as bite_request_set; error.key is the
 * column. */
bite_status bite_case_column_put(const bite_case_column *column, const bite_case_field *field,
                                 bite_request *request, bite_error *error);

/** Refuses a column whose input another one has set: two values would have an order. BITE_BAD_FILE;
 * error.key is the column. */
bite_status bite_case_column_refuse_second(const bite_case_column *column, bite_error *error);

#endif
