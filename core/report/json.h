/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small helpers over jansson: numbers that may be missing, and output into a sink. */
#ifndef BITE_REPORT_JSON_H
#define BITE_REPORT_JSON_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>
#include <jansson.h>

/** A number; null if it is not finite. */
json_t *bite_json_number(double value);

/** Puts value under key and takes ownership of value even on failure. 0 on success; -1: no memory.
 */
int bite_json_put(json_t *object, const char *key, json_t *value);
int bite_json_text(json_t *object, const char *key, const char *text);

/** Appends an object that was filled, unless that failed. Ownership of the object is taken in any
 * case. 0 on success. */
int bite_json_append(json_t *list, json_t *object, int failed);

/** Writes the root, indented or compact, ended by a line feed, and frees it. root NULL:
 * BITE_NO_MEMORY. */
bite_status bite_json_write(json_t *root, bool compact, bite_sink sink, void *user,
                            bite_error *error);

/** Writes an entry of a list and frees it: an object a line, so that a list can be read and
 * compared by line. False: no memory; so also for NULL. */
bool bite_json_list_entry(bite_page *page, json_t *entry, bool first);
/** Ends the list. */
void bite_json_list_end(bite_page *page, bool empty);

/** Frees a text of json_dumps by the functions that the program has set for JSON. NULL: nothing. */
void bite_json_text_free(char *text);

#endif
