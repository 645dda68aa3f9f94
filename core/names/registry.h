/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one list of names: inputs, values, rows. Options, tables, JSON, help and explain are made
 * from it. */
#ifndef BITE_NAMES_REGISTRY_H
#define BITE_NAMES_REGISTRY_H

#include <coolbite/coolbite.h>

/** What explain tells of a value or a row (or an input, where there is more to say than its
 * summary). */
typedef struct bite_definition {
    const char *name;
    const char *unit;     /* SI */
    const char *summary;  /* one line: what it is */
    const char *equation; /* in the symbols of the trade; "" where there is none */
    const char *source;   /* "grade: where", as in a table */
    const char *helps;    /* rows: what usually helps; "" for values */
    uint32_t kind;        /* a bite_kind */
    uint32_t reserved;
} bite_definition;

const bite_definition *bite_registry_output(bite_value_id id); /* NULL beyond the last */
const bite_definition *bite_registry_limit(bite_limit_id id);
/** The value or row of that name; *is_row tells which; NULL: neither. */
const bite_definition *bite_registry_find(const char *name, uint32_t *id, uint32_t *is_limit);
/** The nearest name of an input, value or row; NULL: none near. */
const char *bite_registry_nearest(const char *name);

/** Index of an input in the vocabulary. */
size_t bite_input_index(const bite_input *input);

/** The member of a cut that an input names. Words are uint32_t, all others double. */
double *bite_input_number(bite_cut *cut, const bite_input *input);
const double *bite_input_number_of(const bite_cut *cut, const bite_input *input);
uint32_t *bite_input_choice(bite_cut *cut, const bite_input *input);
const uint32_t *bite_input_choice_of(const bite_cut *cut, const bite_input *input);

/** Temperatures that a curve may be stated at, by a table, a plugin or a caller. */
#define BITE_CURVE_COLDEST 50.0   /* K */
#define BITE_CURVE_HOTTEST 3500.0 /* K */

/** A member of bite_cut that is a property over temperature. */
typedef struct bite_curve_input {
    const char *name;
    size_t offset; /* of the member in bite_cut */
    double least;  /* of its values, SI */
    double most;
    uint32_t kind; /* a bite_kind, of its values */
    uint32_t reserved;
} bite_curve_input;

#endif
