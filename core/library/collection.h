/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tools, holders, machines, coolants: one file each, first on the path wins section by section. */
#ifndef BITE_LIBRARY_COLLECTION_H
#define BITE_LIBRARY_COLLECTION_H

#include "core/library/item.h"
#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** A tool, holder, machine, coolant, hold, symptom, fluid or sheet by name. *thing: borrowed until
 * the library closes. */
bite_status bite_library_record(const bite_library *library, bite_collection collection,
                                const char *name, const bite_item_record **record,
                                bite_error *error);

/** What a tool is made of ("carbide"). *thing: borrowed until the library closes. */
bite_status bite_library_tool_material(const bite_library *library, const char *name,
                                       const bite_item_record **record, bite_error *error);

/** A layer of what holds a part ("masking-tape"). *thing: borrowed until the library closes. */
bite_status bite_library_layer(const bite_library *library, const char *name,
                               const bite_item_record **record, bite_error *error);

/** What a fluid does: "FLUID.FAMILY", "FLUID.amorphous", "FLUID.any". *thing: borrowed until the
 * library closes. */
bite_status bite_library_rating(const bite_library *library, const char *name,
                                const bite_item_record **record, bite_error *error);

/** How an input scatters, from model.ini: shape, low and high as factors, group, together.
 * BITE_UNKNOWN_NAME: not at all. */
bite_status bite_library_spread(const bite_library *library, const char *input,
                                const bite_item_record **record, bite_error *error);

/** Makes sure that a shelf's file was read. Under the lock. */
bite_status bite_collection_read(const bite_library *library, int collection, bite_error *error);

#endif
