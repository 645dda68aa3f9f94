/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One object in JSON, read from text. */
#ifndef BITE_CASES_JSON_OBJECT_H
#define BITE_CASES_JSON_OBJECT_H

#include <coolbite/coolbite.h>
#include <jansson.h>

/**
 * Reads an object in braces in which no name occurs twice.
 *
 * flags: of jansson, beside JSON_REJECT_DUPLICATES. *object: owned, json_decref; unchanged after a
 * failure. *position: the byte at which text that is not JSON fails; 0: it has none.
 * Errors: BITE_BAD_FILE, BITE_NO_MEMORY; without a hint.
 */
bite_status bite_json_object_read(const char *text, size_t size, size_t flags, json_t **object,
                                  size_t *position, bite_error *error);

#endif
