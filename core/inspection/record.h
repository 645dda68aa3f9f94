/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading the record of what was measured. */
#ifndef BITE_INSPECTION_RECORD_H
#define BITE_INSPECTION_RECORD_H

#include "core/inspection/record_model.h"

/**
 * Reads a record.
 *
 * Every fault goes to `fault` (may be NULL), the first one also to error, with their number:
 * BITE_BAD_FILE. *record: owned, bite_record_free; it is set beside BITE_BAD_FILE too, with all
 * that is sound, unless the head has faults. BITE_NOT_FOUND, BITE_IO, BITE_NO_MEMORY: it is not.
 */
BITE_CHECKED bite_status bite_record_read(const bite_allocator *allocator, const char *path,
                                          bite_fault_sink fault, void *user,
                                          struct bite_record **record, bite_error *error);
/** The same from bytes in memory; path is for messages. */
BITE_CHECKED bite_status bite_record_parse(const bite_allocator *allocator, const char *text,
                                           size_t size, const char *path, bite_fault_sink fault,
                                           void *user, struct bite_record **record,
                                           bite_error *error);
/** An empty record of that path. *record: owned, bite_record_free. */
BITE_CHECKED bite_status bite_record_begin(const bite_allocator *allocator, const char *path,
                                           struct bite_record **record, bite_error *error);

/** An entry of the caller, whatever header it was built with; what is not noted is NaN.
 * BITE_BAD_ARGUMENT: NULL, or its size. */
bite_status bite_record_entry_read(const struct bite_record *record, const bite_record_entry *given,
                                   bite_record_entry *own, bite_error *error);

#endif
