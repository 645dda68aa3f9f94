/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of units and kinds of quantity, and their lookup. */
#ifndef BITE_UNITS_UNIT_TABLE_H
#define BITE_UNITS_UNIT_TABLE_H

#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

/** A unit of a kind: SI value = number * scale + offset. */
typedef struct bite_unit {
    const char *name; /* read without regard to case unless another unit differs in case alone */
    bite_kind kind;
    double scale;
    double offset;
} bite_unit;

extern const bite_unit bite_unit_table[];
extern const size_t bite_unit_table_count;

/** What a kind is called in messages, and the bounds of its values. */
typedef struct bite_kind_entry {
    const char *noun; /* with its article: "a length" */
    const char *si;   /* the SI unit, as in JSON */
    double least;     /* SI; a value outside is refused as implausible in any shop */
    double most;
    uint32_t needs_unit; /* 1: a bare number is refused */
    const char *first;   /* two usual units, for hints; the same twice where there is only one */
    const char *second;
} bite_kind_entry;

extern const bite_kind_entry bite_kind_table[BITE_KIND_COUNT];

/** The unit in which a shop writes a value of a kind. The entries of one kind and unit system are
 * in descending order of `from`. */
typedef struct bite_shop_unit {
    bite_kind kind;
    bite_units units;
    double from;      /* smallest absolute value, SI, that is written in this unit */
    const char *name; /* as printed */
    int digits;       /* significant */
} bite_shop_unit;

extern const bite_shop_unit bite_shop_unit_table[];
extern const size_t bite_shop_unit_count;

/** The SI unit of a kind ("m/s"), as in JSON; "" if there is no such kind. Borrowed, for ever. */
const char *bite_unit_si(bite_kind kind);

/** The noun of a kind with its article, for messages ("a length"). Borrowed, for ever. */
const char *bite_unit_noun(bite_kind kind);

/** The unit of this name (length bytes) and kind; NULL: none. */
const bite_unit *bite_unit_find(const char *name, size_t length, bite_kind kind);

/** The first unit of this name, whatever its kind; NULL: none. */
const bite_unit *bite_unit_find_any_kind(const char *name, size_t length);

#endif
