/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record of a collection: a tool, a machine, a coolant, a grade. */
#ifndef BITE_LIBRARY_ITEM_H
#define BITE_LIBRARY_ITEM_H

#include "core/tables/typed_table.h"
#include <stddef.h>
#include <stdint.h>

/** One record of a collection. All of it is borrowed until the library closes. */
typedef struct bite_item_record {
    const char *name;               /* "bench-24k"; of a grade "acrylic/cast" */
    const char *title;              /* as the trade writes it */
    const char *summary;            /* one line */
    const char *file;               /* path of the table */
    const char *source;             /* of the record as a whole; "" */
    const bite_field_value *values; /* figures, words and curves in the order of the table, then
                                       those that a plugin added */
    size_t value_count;
} bite_item_record;

/** The value of a key (bite_field.name); NULL: not stated. Borrowed. */
const bite_field_value *bite_item_field(const bite_item_record *record, const char *key);

/** The figure of a key, SI; NaN, or `otherwise`, if the record is NULL or does not state it. */
double bite_item_figure(const bite_item_record *record, const char *key);
double bite_item_figure_or(const bite_item_record *record, const char *key, double otherwise);

/** The text of a key; "" if it is not stated. Borrowed. */
const char *bite_item_text(const bite_item_record *record, const char *key);

/** The index of a key's word in the words of its field; fallback if it is not stated. */
uint32_t bite_item_word(const bite_item_record *record, const char *key, uint32_t fallback);

/** Whether a key of the words no and yes says yes; 0 if it is not stated. */
int bite_item_is_yes(const bite_item_record *record, const char *key);

#endif
