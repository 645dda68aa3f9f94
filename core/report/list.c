/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A collection of the library as a list: one entry a line as text, one object each as JSON. */
#include "core/base/error.h"
#include "core/library/listing.h"
#include "core/report/json.h"
#include "core/report/text_page.h"
#include <stdio.h>
#include <string.h>

#define SUMMARY_COLUMN 30

static void write_entry_text(bite_page *page, const bite_item *item)
{
    char left[64];
    (void)snprintf(left, sizeof left, "%s%s", item->name, item->summary[0] == 0 ? "" : "  ");
    bite_page_column(page, left, SUMMARY_COLUMN, item->summary);
}

/* False: no memory. */
static bool write_entry_json(bite_page *page, const bite_item *item, bool first)
{
    json_t *entry = json_object();
    int failed = entry == NULL;
    failed |= bite_json_text(entry, "name", item->name);
    failed |= bite_json_text(entry, "summary", item->summary);
    failed |= bite_json_text(entry, "more", item->file);
    if (failed) {
        json_decref(entry);
        return false;
    }
    return bite_json_list_entry(page, entry, first);
}

static bite_status write_entries(bite_page *page, const bite_library *library,
                                 bite_collection collection, bool json, bite_error *error)
{
    size_t count = 0;
    bite_status status = bite_library_size(library, collection, &count, error);
    if (status == BITE_NO_MEMORY) { /* tables that cannot be read are listed as left out */
        return status;
    }
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        status = bite_library_item(library, collection, i, &item, error);
        if (status != BITE_OK) {
            return status;
        }
        if (!json) {
            write_entry_text(page, &item);
        } else if (!write_entry_json(page, &item, i == 0)) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for the JSON text");
        }
    }
    if (json) {
        bite_json_list_end(page, count == 0);
    } else if (count == 0) {
        bite_page_line(page, "nothing");
    }
    return bite_page_close(page, error);
}

bite_status bite_library_list_write(const bite_library *library, bite_collection collection,
                                    const bite_style *style, bite_sink sink, void *user,
                                    bite_error *error)
{
    bite_page page;
    bite_error_clear(error);
    if (library == NULL || (unsigned)collection > BITE_INSERTS) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an open library and a collection of it were expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    return write_entries(&page, library, collection, style != NULL && style->format == BITE_JSON,
                         error);
}
