/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an audit asks of a library of its own: a family's faults as a whole, and one plugin alone.
 */
#ifndef BITE_LIBRARY_TABLE_AUDIT_H
#define BITE_LIBRARY_TABLE_AUDIT_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

/** Tells all faults that the tables of a family have together; *count: how many. BITE_NO_MEMORY. */
bite_status bite_library_audit_family(const bite_library *library, const char *family,
                                      bite_fault_sink fault, void *user, uint32_t *count,
                                      bite_error *error);

/** Makes a folder the only one of plugins, and loads the plugin of a family's table ("soap.ini")
 * from there. *has_table: the library has that table. BITE_NOT_FOUND: there is no such plugin;
 * errors of bite_plugin_load. */
bite_status bite_library_load_only(bite_library *library, const char *folder, const char *file,
                                   bool *has_table, bite_error *error);

#endif
