/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the shop has, by name: a tool, a machine, a coolant, a grade. Figures go by the names of the vocabulary. */
#ifndef BITE_LIBRARY_ITEM_H
#define BITE_LIBRARY_ITEM_H

#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <coolbite/family.h>

/** One thing of a shelf. All of it is borrowed until the library closes. */
typedef struct bite_item_record {
    const char *name;       /* "bench-24k"; of a grade "acrylic/cast" */
    const char *title;      /* as the trade writes it */
    const char *summary;    /* one line */
    const char *file;       /* path of the table */
    const char *source;     /* of the thing as a whole; "" */
    const bite_field_value *values; /* figures, words, curves, in the order of the table; a plugin's additions behind them */
    size_t value_count;
} bite_item_record;

/** The cell of a key (bite_field.name); NULL: not stated. */
const bite_field_value *bite_item_field(const bite_item_record *record, const char *key);
/** The text of a thing's key; "" where it is not stated. Borrowed. */
const char *bite_item_text(const bite_item_record *record, const char *key);
/** The place of a thing's key in its list of words; otherwise where it is not stated. */
uint32_t bite_item_word(const bite_item_record *record, const char *key, uint32_t otherwise);

/** A rule of a table: [caution.NAME]. `when` has been checked against the names that a case knows. */
typedef struct bite_caution_rule {
    const char *name;
    const char *when;   /* "" : always */
    const char *text;   /* with {name} places */
    const char *source; /* "grade: where" */
    uint32_t severity;  /* enum bite_severity */
    uint32_t line;
} bite_caution_rule;

/** One grade with what its family says. Immutable once opened. */
typedef struct bite_material {
    bite_item_record record;
    const struct bite_family *family; /* NULL: a plain material, table alone */
    const char *family_name;          /* "acrylic" */
    const char *plugin;               /* path of the plugin; "" */
    const bite_caution_rule *rules;
    size_t rule_count;
} bite_material;

/**
 * Opens a grade by name ("acrylic/cast", "pmma", "acrylic": the default grade). The family's plugin is loaded when it is first
 * needed; a grade opens once. Any thread. BITE_UNKNOWN_NAME with the nearest name; BITE_BAD_PLUGIN, BITE_UNSAFE with the reason
 * when the family was left out. *card: borrowed until the library closes.
 */
bite_status bite_library_grade(const bite_library *library, const char *name, const bite_material **material, bite_error *error);

/** A tool, holder, machine, coolant, hold, symptom, fluid or sheet by name. *thing: borrowed until the library closes. */
bite_status bite_library_record(const bite_library *library, bite_collection collection, const char *name, const bite_item_record **record,
                               bite_error *error);

/** What a tool is made of ("carbide"). *thing: borrowed until the library closes. */
bite_status bite_library_tool_material(const bite_library *library, const char *name, const bite_item_record **record, bite_error *error);

/** A layer of what holds a part ("masking-tape"). *thing: borrowed until the library closes. */
bite_status bite_library_layer(const bite_library *library, const char *name, const bite_item_record **record, bite_error *error);

/** What a fluid does: "FLUID.FAMILY", "FLUID.amorphous", "FLUID.any". *thing: borrowed until the library closes. */
bite_status bite_library_rating(const bite_library *library, const char *name, const bite_item_record **record, bite_error *error);

/** How an input scatters, from model.ini: shape, low and high as factors, group, together. BITE_UNKNOWN_NAME: not at all. */
bite_status bite_library_spread(const bite_library *library, const char *input, const bite_item_record **record, bite_error *error);

/** The form of a table of the shop's own times. Borrowed, for ever. */
const bite_table_schema *bite_time_records_schema(void);

const bite_allocator *bite_library_allocator(const bite_library *library);

/** What a judged case answers to rules and plugins. Temperatures in K and so on: SI. */
typedef struct bite_case_view {
    void *user;
    double (*number)(void *user, const char *name);      /* NaN: none */
    const char *(*choice)(void *user, const char *name); /* NULL: none */
    bite_kind (*kind)(void *user, const char *name);     /* of a number, for its unit; BITE_KIND_COUNT: unknown name */
    /* takes a caution whose {places} are still open; text is copied by the callee; false: no memory */
    int (*caution)(void *user, const char *name, uint32_t severity, const char *text, const char *source);
} bite_case_view;

/** Asks the rules of the table and then the plugin for the cautions that this case calls for. */
bite_status bite_material_cautions(const bite_material *material, const bite_case_view *view, bite_error *error);

/** True when the condition holds: comparisons joined by `and`: NAME above|below|at least|at most NAME|QUANTITY, or WORD is|is not
 * VALUE. A number that is NaN makes its comparison false. */
bite_status bite_caution_rule_applies(const char *when, const bite_case_view *view, int *holds, bite_error *error);

#endif
