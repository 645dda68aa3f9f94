/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/cases/json_object.h"
#include "core/base/error.h"
#include "core/report/json.h"
#include <errno.h>

bite_status bite_json_object_read(const char *text, size_t size, size_t flags, json_t **object,
                                  size_t *position, bite_error *error)
{
    json_error_t where;
    *position = 0;
    errno = 0;
    json_t *root = json_loadb(text, size, flags | JSON_REJECT_DUPLICATES, &where);
    /* POSIX has malloc set errno, and free keep it; functions that the program has set for jansson
     * may do otherwise */
    if (root == NULL && (errno == ENOMEM || bite_json_ran_out(&where))) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to read JSON");
    }
    if (root == NULL) {
        *position = where.position > 0 ? (size_t)where.position : 0;
        return bite_error_set(error, BITE_BAD_FILE, "not JSON: %.120s", where.text);
    }
    if (!json_is_object(root)) {
        json_decref(root);
        return bite_error_set(error, BITE_BAD_FILE, "not an object in braces");
    }
    *object = root;
    return BITE_OK;
}
