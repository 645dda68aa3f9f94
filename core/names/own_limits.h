/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits and figures of a family's plugin, as a cut carries them: their names and units, and where
 * the numbers are that they read. */
#ifndef BITE_NAMES_OWN_LIMITS_H
#define BITE_NAMES_OWN_LIMITS_H

#include "core/names/definition.h"
#include <coolbite/coolbite.h>
#include <coolbite/family.h>
#include <stddef.h>
#include <stdint.h>

#define BITE_OWN_LIMITS (BITE_LIMIT_OWN_4 - BITE_LIMIT_OWN_1 + 1)

/** What a number is. */
typedef enum bite_own_place {
    BITE_OWN_INPUT = 0, /* index: offset in bite_cut */
    BITE_OWN_VALUE = 1, /* index: a bite_value_id */
    BITE_OWN_WORD = 2   /* index: offset in bite_cut; 1 where it is this word */
} bite_own_place;

/** A number that a limit reads. */
typedef struct bite_own_number {
    size_t index;
    uint32_t place; /* a bite_own_place */
    uint32_t word;
} bite_own_number;

/** One limit of a plugin. */
typedef struct bite_own_limit {
    bite_definition definition;
    const struct bite_family_limit *limit; /* the plugin's */
    bite_own_number numbers[BITE_FAMILY_NUMBERS_MAX];
    size_t number_count;
    uint32_t advisory;
    uint32_t reserved;
} bite_own_limit;

/** The limits of a grade, and the figures that they read. Immutable, in the library's memory. */
struct bite_own_limits {
    bite_own_limit limits[BITE_OWN_LIMITS];
    size_t limit_count;
    bite_input figures[BITE_OWN_FIGURES]; /* by their slot in own_figure */
    size_t figure_count;
};

/** Whether a limit is one of a plugin, if there is any. */
static inline int bite_limit_is_own(uint32_t id)
{
    return id >= BITE_LIMIT_OWN_1 && id <= BITE_LIMIT_OWN_4;
}

/** The limit in a slot; NULL: none. */
const bite_own_limit *bite_own_limit_at(const bite_own_limits *own, bite_limit_id id);

/** Whether a limit of the plugin reads the number of bite_cut at this offset. own: NULL: none. */
int bite_own_limits_read(const bite_own_limits *own, size_t offset);

/** The definition of a limit of this cut, the library's or the plugin's. NULL: it has none. cut:
 * NULL is allowed. */
const bite_definition *bite_cut_limit(const bite_cut *cut, bite_limit_id id);

/** As bite_registry_find, for limits of the plugin of this cut. */
const bite_definition *bite_own_limit_find(const bite_cut *cut, const char *name, uint32_t *id);

#endif
