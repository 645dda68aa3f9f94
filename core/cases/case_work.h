/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of a run over cases share: the columns, and the rows of a chunk. */
#ifndef BITE_CASES_CASE_WORK_H
#define BITE_CASES_CASE_WORK_H

#include "core/base/memory.h"
#include "core/cases/case_column.h"
#include "core/cases/case_line.h"
#include "core/cases/case_result.h"
#include "core/cut/cut_lanes.h"
#include <coolbite/coolbite.h>

/* Rows that one thread takes at a time. */
#define BITE_CASE_CHUNK 64
/* Bytes of a row. */
#define BITE_CASE_LINE_MAX 65536

/** What does not change from row to row. */
typedef struct bite_case_plan {
    bite_allocator allocator;
    bite_request request; /* what is not a column */
    uint32_t format;      /* BITE_CSV or BITE_JSON */
    uint32_t units;
    size_t draws; /* BITE_DRAWS_NONE: none */
    double confidence;
    const bite_case_word *words;
    size_t word_count;
    bite_case_column *columns; /* of the CSV */
    size_t column_count;
    bite_case_result results[BITE_CASE_RESULT_MAX];
    size_t result_count;
    const bite_input *word_inputs[BITE_INPUTS_MAX]; /* that are one of several words */
    size_t word_input_count;
} bite_case_plan;

/** A row of text. */
typedef struct bite_case_row {
    const char *text; /* its line, ended by 0; NULL: it was too long */
    size_t size;
    uint64_t line;
} bite_case_row;

/** Text that grows. failed: no memory. */
typedef struct bite_case_text {
    char *text;
    size_t size;
    size_t room;
    int failed;
} bite_case_text;

/** A chunk: rows in, text and errors out. */
typedef struct bite_case_chunk {
    const bite_case_row *rows;
    size_t count;
    bite_case_text out;
    bite_error *errors; /* of the rows that were refused, in their order; owned */
    size_t error_count;
    uint64_t verdicts[BITE_UNKNOWN + 1];
    int no_memory; /* 1: it ran out; the chunk is not complete */
} bite_case_chunk;

/** Working memory of a thread. */
typedef struct bite_case_worker {
    bite_request request;                           /* of the row */
    char records[BITE_THREADS + 1][BITE_TYPED_MAX]; /* in use by name, by collection; "": that of
                                                       the plan */
    uint8_t named[BITE_THREADS + 1];                /* 1: the row names it */
    const bite_input *touched[BITE_INPUTS_MAX];     /* by this row, each once */
    size_t touched_count;
    int has_base; /* 1: base and words fit the request's records */
    uint32_t words[BITE_INPUTS_MAX];
    bite_cut base;
    bite_provenance base_provenance[BITE_INPUTS_MAX];
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_cut_lanes lanes;
    size_t waiting[BITE_LANES]; /* rows of the lanes */
    bite_checked_cut checked;
    bite_result result;
    bite_status status[BITE_CASE_CHUNK];
    uint32_t verdict[BITE_CASE_CHUNK];
    const char *worst[BITE_CASE_CHUNK]; /* name of the worst limit, borrowed from the library */
    bite_error error[BITE_CASE_CHUNK];
    double numbers[BITE_CASE_CHUNK][BITE_CASE_RESULT_MAX];
    char copy[BITE_CASE_LINE_MAX + 1]; /* of a line that is split */
    char *fields[BITE_CASE_COLUMNS_MAX + 1];
    bite_case_column learned[BITE_CASE_COLUMNS_MAX]; /* keys of JSON so far */
    size_t learned_count;
} bite_case_worker;

#endif
