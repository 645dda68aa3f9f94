/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small helpers over jansson. */
#include "core/report/json.h"
#include "core/base/error.h"
#include <math.h>

/* Digits printed of a double: far finer than any uncertainty, and the same on every machine. */
#define DIGITS 12

json_t *bite_json_number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

int bite_json_put(json_t *object, const char *key, json_t *value)
{
    return value == NULL ? -1 : json_object_set_new(object, key, value);
}

int bite_json_text(json_t *object, const char *key, const char *text)
{
    return bite_json_put(object, key, json_string(text == NULL ? "" : text));
}

int bite_json_append(json_t *list, json_t *object, int failed)
{
    if (failed) {
        json_decref(object);
        return -1;
    }
    return json_array_append_new(list, object);
}

/* jansson writes pieces of a few bytes, and may continue after a refusal. */
static int write_part(const char *buffer, size_t size, void *data)
{
    bite_writer *writer = data;
    bite_writer_part(writer, buffer, size);
    return writer->status == BITE_OK ? 0 : -1;
}

bite_status bite_json_write(json_t *root, bool compact, bite_sink sink, void *user,
                            bite_error *error)
{
    bite_writer writer;
    size_t layout = compact ? JSON_COMPACT : JSON_INDENT(2);
    if (root == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the JSON text");
    }
    bite_writer_start(&writer, sink, user);
    int failed =
        json_dump_callback(root, write_part, &writer, layout | JSON_REAL_PRECISION(DIGITS));
    json_decref(root);
    if (failed == 0) {
        bite_writer_text(&writer, "\n");
    }
    if (failed == 0 && bite_writer_end(&writer) == BITE_OK) {
        return BITE_OK;
    }
    return writer.status != BITE_OK
               ? bite_error_set(error, writer.status, "the output was refused")
               : bite_error_set(error, BITE_NO_MEMORY, "no memory for the JSON text");
}

/* Not by json_dumps, which loses a key where its buffer cannot grow (jansson 2.14). */
bool bite_json_list_entry(bite_page *page, json_t *entry, bool first)
{
    size_t layout = page->compact ? JSON_COMPACT : 0;
    if (entry == NULL) {
        return false;
    }
    bite_page_text(page, first ? "[" : ",");
    bite_page_text(page, page->compact ? "" : "\n  ");
    int failed =
        json_dump_callback(entry, write_part, &page->writer, layout | JSON_REAL_PRECISION(DIGITS));
    json_decref(entry);
    return failed == 0 || page->writer.status != BITE_OK; /* of the sink: told at the end */
}

void bite_json_list_end(bite_page *page, bool empty)
{
    bite_page_text(page, empty ? "[]\n" : page->compact ? "]\n" : "\n]\n");
}

void bite_json_text_free(char *text)
{
    json_malloc_t take = NULL;
    json_free_t give = NULL;
    json_get_alloc_funcs(&take, &give);
    if (text != NULL) {
        give(text);
    }
}
