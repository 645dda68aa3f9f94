/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shop's own set-up, coolbite.ini: what is used where a request or a job states nothing. */
#ifndef BITE_REQUEST_SHOP_H
#define BITE_REQUEST_SHOP_H

#include "core/base/memory.h"
#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

#define BITE_SHOP_TOOLS_MAX 64       /* names in the key at_hand */
#define BITE_SHOP_INSTRUMENTS_MAX 64 /* names in the key instruments */

/** The keys of [shop]; their bits are 1 << key. */
typedef enum bite_shop_key {
    BITE_SHOP_UNITS = 0,
    BITE_SHOP_MACHINE,
    BITE_SHOP_COOLANT,
    BITE_SHOP_AT_HAND,
    BITE_SHOP_HOLD,
    BITE_SHOP_TOLERANCE,
    BITE_SHOP_CONFIDENCE,
    BITE_SHOP_TOOL_LIST,
    BITE_SHOP_INSTRUMENTS,
    BITE_SHOP_KEYS
} bite_shop_key;

struct bite_shop {
    bite_allocator allocator;
    bite_arena *arena;
    bite_table *table; /* NULL: there is no file */
    const char *path;  /* "" without a file */
    const char *shown; /* the path, escaped for display */
    const char *tool_list;
    const char *tools[BITE_SHOP_TOOLS_MAX];
    size_t tool_count;
    const char *instruments[BITE_SHOP_INSTRUMENTS_MAX];
    size_t instrument_count; /* 0: not stated: all of the tables */
};

/** The word of a key: "machine". Borrowed, for ever. */
const char *bite_shop_key_name(bite_shop_key key);

/** BITE_SHOP_KEYS: there is no such key. */
bite_shop_key bite_shop_key_find(const char *name);

/** The value of a key; NULL: not stated. shop may be NULL. Borrowed until the set-up is freed. */
const bite_field_value *bite_shop_value(const bite_shop *shop, bite_shop_key key);

/** Lists the keys of a set of bits as they are stated: "machine trim-router (line 5), ...". False:
 * none. */
bool bite_shop_list(const bite_shop *shop, uint32_t keys, char *to, size_t size);

#endif
