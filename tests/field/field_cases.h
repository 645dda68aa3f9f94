/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Public reports of cuts and recipes of everyday practice, each judged by the engine with what was
 * said of it, and with the usual defaults for what was not said. */
#ifndef BITE_TESTS_FIELD_FIELD_CASES_H
#define BITE_TESTS_FIELD_FIELD_CASES_H

#include "tests/reference/csv.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** The limits that detect a kind of trouble; BITE_LIMIT_COUNT ends the list. */
typedef struct field_outcome {
    const char *outcome;
    bite_limit_id limits[10];
} field_outcome;
extern const field_outcome field_outcomes[];
extern const size_t field_outcome_count;

/** What was cut. FIELD_ANY, in a selection: all of it. */
typedef enum field_material {
    FIELD_ANY,
    FIELD_ACRYLIC,
    FIELD_PLASTIC,
    FIELD_ALUMINIUM,
    FIELD_METAL,
    FIELD_BOARD,
    FIELD_MATERIALS
} field_material;
extern const char *const field_material_names[FIELD_MATERIALS];

/** Where a case comes from. Charts are read by tests/calibration alone. */
typedef enum field_collection {
    FIELD_REPORTS,
    FIELD_RECIPES,
    FIELD_CHARTS,
    FIELD_COLLECTIONS
} field_collection;

typedef struct field_case {
    const char *id;
    const char *outcome;
    const char *source;
    const bite_csv *table;
    size_t row; /* of the table */
    field_collection collection;
    int kind; /* index into field_outcomes; -1: it went well */
    field_material material;
    int judged;
    int scored; /* judged, and no value or outcome is inferred */
    bite_result result;
    char assumed[400]; /* inputs that the author could have given, each with the assumed value */
    char why[200];     /* why it was not judged */
} field_case;

extern field_case field_cases[];
extern size_t field_case_count;

/** A cell of the report's table; "" if it is empty. */
const char *field_cell(const field_case *report, const char *column);
/** Opens the library and reads the reports and the recipes; undone by field_close. */
void field_open(void);
/** Reads one more table with the columns of cases.csv. */
void field_read(const char *name, field_collection collection);
void field_close(void);
/** A request with what the author gave, or NULL and report->why. limit_is_depth: the author's
 * largest depth is taken as the depth of the cut. Owned: bite_request_free. */
bite_request *field_request(int limit_is_depth, field_case *report);
/** Judges one report. */
void field_judge(int limit_is_depth, field_case *report);
/** Judges all cases that were read. */
void field_judge_all(void);

#endif
