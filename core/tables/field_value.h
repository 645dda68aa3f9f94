/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fields that a section may have, and reading the text of one field: a figure with its band, a
 * curve, or a word. */
#ifndef BITE_TABLES_FIELD_VALUE_H
#define BITE_TABLES_FIELD_VALUE_H

#include "core/tables/provenance.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

typedef enum bite_field_type {
    BITE_FIELD_FIGURE = 0, /* a quantity, with its source */
    BITE_FIELD_CURVE = 1,  /* points over temperature, with their source; the key ends in ".at" */
    BITE_FIELD_TEXT = 2,
    BITE_FIELD_WORD = 3,   /* one of `words` */
    BITE_FIELD_PARENT = 4, /* the name of what a section is like, whose values the caller adds */
    BITE_FIELD_OWN = 5 /* a quantity that only a plugin knows: a text with its source; a name that
                          ends with a point stands for all keys that begin with it */
} bite_field_type;

/** A key that a section may have. */
typedef struct bite_field {
    const char *name;
    uint32_t type; /* a bite_field_type */
    uint32_t kind; /* a bite_kind; for a curve, that of its values */
    double least;  /* range of the values, SI */
    double most;
    const char *const *words; /* ended by NULL */
} bite_field;

/** What was read for one key. Texts are borrowed until the table is freed. */
typedef struct bite_field_value {
    const bite_field *field;
    double value; /* SI; NaN for texts, words and curves */
    double low;   /* band, SI; = value if none is stated */
    double high;
    bite_curve curve;
    const char *text;   /* as written in the file */
    const char *source; /* as written in the file: "paper: ..."; "" if there is none */
    uint32_t word;      /* index into field->words */
    uint32_t grade;     /* a bite_source_grade */
    uint32_t line;      /* in the file, from 1 */
    uint32_t banded;    /* 1: a band is stated */
    uint32_t column;    /* of the value in its line, from 1 */
    const char *file;   /* that states it; NULL: that of the table or record */
    const char *from;   /* "acrylic/cast": inherited from there; NULL: its section states it */
} bite_field_value;

/* Each reads the text of one key into the members named; field_value->field must be set. Errors:
 * BITE_BAD_FILE, or what bite_quantity_read returns; message and hint are set, the place is left to
 * the caller. */

/** "1466 J/kg/K (1380 .. 1520)" into value, low, high and banded. */
bite_status bite_field_value_figure(const char *text, bite_field_value *field_value,
                                    bite_error *error);

/** "23degC 74MPa, 70degC 40MPa" into curve. */
bite_status bite_field_value_curve(const char *text, bite_field_value *field_value,
                                   bite_error *error);

/** One of field->words, ignoring case, into word. */
bite_status bite_field_value_word(const char *text, bite_field_value *field_value,
                                  bite_error *error);

#endif
