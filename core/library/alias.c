/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records by one of their other names. */
#include "core/library/alias.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include <stdio.h>
#include <string.h>

#define NAME_MAX_BYTES 64 /* longer names have no other name */

static char folded(char c)
{
    return c == ' ' || c == '_' || c == '\t' ? '-' : bite_text_lower(c);
}

static bool same_name(const char *a, size_t length, const char *b)
{
    if (strlen(b) != length) {
        return false;
    }
    for (size_t i = 0; i < length; i++) {
        if (folded(a[i]) != folded(b[i])) {
            return false;
        }
    }
    return true;
}

static int is_named(const bite_item_record *record, const char *name)
{
    return bite_text_list_has(bite_item_text(record, "also"), name, same_name) ||
           same_name(record->title, strlen(record->title), name) ||
           same_name(record->name, strlen(record->name), name);
}

/* The nearest name so far, and how far it is. */
typedef struct nearest_name {
    char name[NAME_MAX_BYTES];
    size_t distance;
} nearest_name;

static void consider(nearest_name *best, const char *candidate, size_t length, const char *name)
{
    char copy[NAME_MAX_BYTES];
    if (length < sizeof copy) {
        memcpy(copy, candidate, length);
        copy[length] = 0;
        size_t distance = bite_text_distance(name, copy, best->distance);
        if (distance < best->distance) {
            best->distance = distance;
            memcpy(best->name, copy, length + 1);
        }
    }
}

static void consider_record(nearest_name *best, const bite_item_record *record, const char *name)
{
    const char *list = bite_item_text(record, "also");
    size_t length = 0;
    consider(best, record->name, strlen(record->name), name);
    for (const char *at = bite_text_next_word(&list, &length); length > 0;
         at = bite_text_next_word(&list, &length)) {
        consider(best, at, length, name);
    }
}

bite_status bite_library_record_also(const bite_library *library, bite_collection collection,
                                     const char *name, const bite_item_record **record,
                                     bite_error *error)
{
    size_t count = 0;
    size_t least = strlen(name) / 3; /* as bite_text_nearest */
    nearest_name best = {"", (least < 1 ? 1 : least > 4 ? 4 : least) + 1};
    bite_status status = bite_library_record(library, collection, name, record, error);
    if (status != BITE_UNKNOWN_NAME ||
        bite_library_size(library, collection, &count, NULL) != BITE_OK) {
        return status;
    }
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        const bite_item_record *candidate = NULL;
        if (bite_library_item(library, collection, i, &item, NULL) != BITE_OK ||
            bite_library_record(library, collection, item.name, &candidate, NULL) != BITE_OK) {
            continue;
        }
        if (is_named(candidate, name)) {
            bite_error_clear(error);
            *record = candidate;
            return BITE_OK;
        }
        consider_record(&best, candidate, name);
    }
    if (best.name[0] != 0) {
        bite_error_hint(error, "did you mean %s?", best.name);
    }
    return status;
}
