/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Structures of the caller, of whatever edition: checked and copied. */
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include <math.h>
#include <string.h>

/* Whether all that a newer structure has behind this library's is as its _init left it, or a number
 * that is not given. */
static bool rest_is_unset(const bite_caller_struct *kind, const void *given, size_t size)
{
    const unsigned char *bytes = given;
    for (size_t at = kind->size; at < size; at++) {
        double number = 0.0;
        if (at % sizeof number == 0 && size - at >= sizeof number) {
            memcpy(&number, bytes + at, sizeof number);
        }
        if (isnan(number)) {
            at += sizeof number - 1;
        } else if (bytes[at] != 0) {
            return false;
        }
    }
    return true;
}

bite_status bite_struct_check(const bite_caller_struct *kind, const void *given, const char *key,
                              bite_error *error)
{
    bite_status status = BITE_OK;
    if (given == NULL) {
        status = bite_error_set(error, BITE_BAD_ARGUMENT, "a %s was expected", kind->name);
    } else if (!bite_struct_may_be(kind, bite_struct_size(kind, given))) {
        status = bite_error_set(error, BITE_BAD_ARGUMENT,
                                "the struct_size of the %s is %zu; %zu was expected, or that of "
                                "another edition of the header, at least %zu",
                                kind->name, bite_struct_size(kind, given), kind->size, kind->least);
        bite_error_hint(error, "begin with %s_init", kind->name);
    } else if (!rest_is_unset(kind, given, bite_struct_size(kind, given))) {
        status = bite_error_set(error, BITE_BAD_ARGUMENT,
                                "a member of the %s is set that this library, version %s, does not "
                                "know",
                                kind->name, bite_version());
        bite_error_hint(error,
                        "use a newer library, or leave what its header lacks as %s_init "
                        "sets it",
                        kind->name);
    }
    if (status != BITE_OK) {
        bite_error_key(error, "%s", key);
    }
    return status;
}

bite_status bite_struct_read(const bite_caller_struct *kind, const void *given, void *own,
                             const char *key, bite_error *error)
{
    bite_status status = given == NULL ? BITE_OK : bite_struct_check(kind, given, key, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_struct_start(kind, own, kind->size);
    if (given != NULL) {
        size_t head = kind->wide ? sizeof(size_t) : sizeof(uint32_t); /* of struct_size */
        size_t size = bite_struct_size(kind, given);
        size = size < kind->size ? size : kind->size;
        memcpy((char *)own + head, (const char *)given + head, size - head);
    }
    return BITE_OK;
}
