/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of units and kinds. */
#ifndef BITE_UNITS_UNIT_TABLE_H
#define BITE_UNITS_UNIT_TABLE_H

#include <coolbite/coolbite.h>

/** si = number * scale + offset. */
typedef struct bite_unit {
    const char *name; /* matched without case where no other unit differs by case alone */
    bite_kind kind;
    double scale;
    double offset;
} bite_unit;

extern const bite_unit bite_unit_table[];
extern const size_t bite_unit_table_count;

/** What a kind is called, how it is bounded at the door, and with which units a shop writes it. */
typedef struct bite_kind_entry {
    const char *noun; /* "a length" */
    const char *si;   /* as in JSON */
    double least;     /* SI; below it, absurd in any shop */
    double most;
    const char *bare_readings; /* two usual readings of a bare number: "%s" stands twice for it; ""
                                  where a bare number is fine */
    const char *first;         /* those readings' units */
    const char *second;
} bite_kind_entry;

extern const bite_kind_entry bite_kind_table[BITE_KIND_COUNT];

/** The unit a shop writes a number of a kind with, from a size on (SI, absolute). Rows of a kind
 * and system: falling `from`. */
typedef struct bite_shop_unit {
    bite_kind kind;
    bite_units units;
    double from;
    const char *name; /* as printed */
    int digits;       /* significant */
} bite_shop_unit;

extern const bite_shop_unit bite_shop_unit_table[];
extern const size_t bite_shop_unit_count;

#endif
