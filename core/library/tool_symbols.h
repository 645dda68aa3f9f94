/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The symbols of ISO 13399 for what the tool table states, and the kinds of tools. */
#ifndef BITE_LIBRARY_TOOL_SYMBOLS_H
#define BITE_LIBRARY_TOOL_SYMBOLS_H

#include "core/library/item.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>
#include <stddef.h>

/** How the value of a symbol becomes that of a key. */
typedef enum bite_symbol_use {
    BITE_SYMBOL_SAME = 0, /* it is that of the key */
    BITE_SYMBOL_REACH,    /* usable length: what is beyond the flutes is the neck */
    BITE_SYMBOL_LEAD,     /* cutting edge angle, from the face: 90 degrees less the taper */
    BITE_SYMBOL_TAPER,    /* the same from the axis: 0 is the edge of a plain end mill */
    BITE_SYMBOL_LARGEST,  /* of a cone: its largest diameter; DC is then that of its tip */
    BITE_SYMBOL_SUBSTRATE,
    BITE_SYMBOL_PITCH, /* of a thread mill: the least and the most */
    BITE_SYMBOL_NONE   /* known, but nothing here depends on it */
} bite_symbol_use;

/** One symbol. */
typedef struct bite_tool_symbol {
    const char *symbol;
    const char *key; /* of a [tool.NAME]; "" for BITE_SYMBOL_NONE */
    uint32_t kind;   /* a bite_kind */
    uint32_t use;    /* a bite_symbol_use */
} bite_tool_symbol;

extern const bite_tool_symbol bite_tool_symbols[];
extern const size_t bite_tool_symbol_count;

/** NULL: no such symbol. Case is ignored. */
const bite_tool_symbol *bite_tool_symbol_find(const char *symbol, size_t length);

/** The kind of a tool of the table: "end-mill", "ball-nose", "bull-nose", "chamfer", "engraving",
 * "drill", "tap", "reamer", "thread-mill". Borrowed, for ever. */
const char *bite_tool_kind(const bite_item_record *tool);

/** Whether a tool drills, taps, reams or mills threads, and so nothing else. */
bool bite_tool_makes_holes(const bite_item_record *tool);

/** The index-th kind; NULL: no more. Borrowed, for ever. */
const char *bite_tool_kind_at(size_t index);

#endif
