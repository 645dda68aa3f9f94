/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/cases/json_object.h"
#include "core/base/error.h"
#include <errno.h>
#include <stdbool.h>

/* jansson calls a text invalid, or says nothing, where it has no memory for a piece of it: then
 * there is none for a small block either. */
static bool ran_out(const json_error_t *where)
{
    json_malloc_t take = NULL;
    json_free_t give = NULL;
    json_get_alloc_funcs(&take, &give);
    void *probe = take(64);
    bool out =
        probe == NULL || where->text[0] == 0 || json_error_code(where) == json_error_out_of_memory;
    if (probe != NULL) {
        give(probe);
    }
    return out;
}

bite_status bite_json_object_read(const char *text, size_t size, size_t flags, json_t **object,
                                  size_t *position, bite_error *error)
{
    json_error_t where;
    *position = 0;
    errno = 0;
    json_t *root = json_loadb(text, size, flags | JSON_REJECT_DUPLICATES, &where);
    /* POSIX has malloc set errno, and free keep it; functions that the program has set for jansson
     * may do otherwise */
    if (root == NULL && (errno == ENOMEM || ran_out(&where))) {
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
