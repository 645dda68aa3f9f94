/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sizes of a tool of the table, with the lengths that are taken if it states none. */
#ifndef BITE_REQUEST_TOOL_SIZES_H
#define BITE_REQUEST_TOOL_SIZES_H

#include "core/library/item.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/** A tool with its sizes. Borrows its record. */
typedef struct bite_tool_sizes {
    const bite_item_record *record;
    const char *kind;  /* as bite_tool_kind */
    bite_cut cut;      /* its tool is filled; no other member means anything */
    bool usual_flutes; /* by default, not stated; the same below */
    bool usual_length;
    bool usual_stickout;
} bite_tool_sizes;

/** Reads a record of the tools. */
void bite_tool_sizes_read(const bite_item_record *record, bite_tool_sizes *tool);

#endif
