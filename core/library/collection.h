/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Collections of records by name: tools, machines, workholding and so on. A section is read from
 * the first folder of the search path that has it. */
#ifndef BITE_LIBRARY_COLLECTION_H
#define BITE_LIBRARY_COLLECTION_H

#include "core/library/item.h"
#include "core/library/material_record.h"
#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** A tool, holder, machine, coolant, hold, layer, symptom, fluid, sheet or recorded time by name.
 * *record: borrowed until the library closes. BITE_UNKNOWN_NAME with the nearest name;
 * BITE_BAD_FILE: it is missing, and its table was left out. */
bite_status bite_library_record(const bite_library *library, bite_collection collection,
                                const char *name, const bite_item_record **record,
                                bite_error *error);

/** How often a collection could not be read for lack of memory. Whoever takes a record that is not
 * found for one that is not there compares it before and after: the next reading may succeed. */
size_t bite_library_lacked_memory(const bite_library *library);

/** A tool material ("carbide"). *record: borrowed until the library closes. */
bite_status bite_library_tool_material(const bite_library *library, const char *name,
                                       const bite_item_record **record, bite_error *error);

/** A layer of a bond ("masking-tape"). *record: borrowed until the library closes. */
bite_status bite_library_layer(const bite_library *library, const char *name,
                               const bite_item_record **record, bite_error *error);

/** The effect of a fluid on a material: "FLUID.FAMILY", "FLUID.amorphous", "FLUID.any". *record:
 * borrowed until the library closes. */
bite_status bite_library_rating(const bite_library *library, const char *name,
                                const bite_item_record **record, bite_error *error);

/** Work in a hole: the tables of hole_work.ini. */
typedef enum bite_hole_work {
    BITE_HOLE_TAPPING,
    BITE_HOLE_REAMING,
    BITE_HOLE_DRILLING,
    BITE_HOLE_THREAD_MILLING
} bite_hole_work;

/** What is usual for such work in a material, by its family, else by those that it is like, else by
 * its substance, else in any. *record: borrowed until the library closes. */
bite_status bite_library_hole_work(const bite_library *library, bite_hole_work work,
                                   const bite_material *material, const char *substance,
                                   const bite_item_record **record, bite_error *error);

/** The same rating in a table that comes later in the search path, and is therefore not used.
 * behind->file: NULL if there is none. Its texts are borrowed until the library closes. */
bite_status bite_library_rating_overridden(const bite_library *library, const char *name,
                                           bite_item_record *behind, bite_error *error);

/** A cause of a symptom that no setting shows ("worn-tool"); its summary says how to check it.
 * *record: borrowed until the library closes. */
bite_status bite_library_cause(const bite_library *library, const char *name,
                               const bite_item_record **record, bite_error *error);

/** How an input scatters, from uncertainty.ini: shape, low and high as factors, group, together.
 * BITE_UNKNOWN_NAME: the input does not scatter. */
bite_status bite_library_spread(const bite_library *library, const char *input,
                                const bite_item_record **record, bite_error *error);

/** Path of the tool list that was read, escaped for display; "" if none was. */
const char *bite_library_tool_list(const bite_library *library);

/** Reads the file of a collection unless it has been read. Call it under the lock. */
bite_status bite_collection_read(const bite_library *library, int collection, bite_error *error);

#endif
