/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small helpers over jansson. */
#include "core/report/json.h"
#include "core/base/error.h"
#include <math.h>
#include <string.h>

/* Digits printed of a double: far finer than any uncertainty, and the same on every machine. */
#define DIGITS 12

typedef struct json_output {
    bite_sink sink;
    void *user;
    size_t size; /* of what is collected */
    int refused;
    char text[4096]; /* a callback into another language costs more than its bytes */
} json_output;

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

/* Hands what was collected to the sink; -1 if that refuses, which it is asked once only. */
static int flush(json_output *out)
{
    size_t size = out->size;
    out->size = 0;
    if (!out->refused && size > 0 && out->sink(out->user, out->text, size) != 0) {
        out->refused = 1;
    }
    return out->refused ? -1 : 0;
}

/* jansson writes pieces of a few bytes, and may continue after a refusal. */
static int write_part(const char *buffer, size_t size, void *data)
{
    json_output *out = data;
    while (size > 0) {
        size_t part = sizeof out->text - out->size;
        part = size < part ? size : part;
        memcpy(out->text + out->size, buffer, part);
        out->size += part;
        buffer += part;
        size -= part;
        if (out->size == sizeof out->text && flush(out) != 0) {
            return -1;
        }
    }
    return out->refused ? -1 : 0;
}

bite_status bite_json_write(json_t *root, bite_sink sink, void *user, bite_error *error)
{
    if (root == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the JSON text");
    }
    json_output out = {.sink = sink, .user = user};
    int failed =
        json_dump_callback(root, write_part, &out, JSON_INDENT(2) | JSON_REAL_PRECISION(DIGITS));
    json_decref(root);
    if (failed == 0 && write_part("\n", 1, &out) == 0 && flush(&out) == 0) {
        return BITE_OK;
    }
    return out.refused ? bite_error_set(error, BITE_CANNOT_WRITE, "the output was refused")
                       : bite_error_set(error, BITE_NO_MEMORY, "no memory for the JSON text");
}
