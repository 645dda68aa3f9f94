/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the shop has, by name: a tool, a machine, a coolant, a grade. Figures go by the names of the
 * vocabulary. */
#ifndef BITE_LIBRARY_ITEM_H
#define BITE_LIBRARY_ITEM_H

#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <coolbite/family.h>

/** One thing of a shelf. All of it is borrowed until the library closes. */
typedef struct bite_item_record {
    const char *name;               /* "bench-24k"; of a grade "acrylic/cast" */
    const char *title;              /* as the trade writes it */
    const char *summary;            /* one line */
    const char *file;               /* path of the table */
    const char *source;             /* of the thing as a whole; "" */
    const bite_field_value *values; /* figures, words, curves, in the order of the table; a plugin's
                                       additions behind them */
    size_t value_count;
} bite_item_record;

/** A rule of a table: [caution.NAME]. `when` has been checked against the names that a case knows.
 */
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

/** What a judged case answers to rules and plugins. Temperatures in K and so on: SI. */
typedef struct bite_case_view {
    void *user;
    double (*number)(void *user, const char *name);      /* NaN: none */
    const char *(*choice)(void *user, const char *name); /* NULL: none */
    bite_kind (*kind)(
        void *user,
        const char *name); /* of a number, for its unit; BITE_KIND_COUNT: unknown name */
    /* takes a caution whose {places} are still open; text is copied by the callee; false: no memory
     */
    int (*caution)(void *user, const char *name, uint32_t severity, const char *text,
                   const char *source);
} bite_case_view;

#endif
