/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A request from a JSON object: the keys are the columns of cases. */
#include "core/base/error.h"
#include "core/cases/case_column.h"
#include "core/cases/json_object.h"
#include "core/names/inputs.h"
#include "core/request/request.h"
#include <math.h>
#include <string.h>

#define TEXT_MOST ((size_t)1 << 20) /* bytes */

/* The text and where it is being read, for messages. */
typedef struct json_text {
    const char *text;
    size_t length;
} json_text;

/* Line and column of a byte, from 1. */
static void place_of(const json_text *text, size_t at, uint32_t *line, uint32_t *column)
{
    *line = *column = 1;
    for (size_t i = 0; i < at && i < text->length; i++) {
        *line += text->text[i] == '\n';
        *column = text->text[i] == '\n' ? 1 : *column + 1;
    }
}

/* Adds where a key is. The object has it once, and within a string its quotes are escaped; a key
 * that is escaped itself is not found, and has no place. */
static void add_place(const json_text *text, const char *key, bite_error *error)
{
    size_t size = strlen(key);
    for (size_t i = 0; i + size + 1 < text->length; i++) {
        const char *at = text->text + i;
        if (at[0] == '"' && at[size + 1] == '"' && memcmp(at + 1, key, size) == 0) {
            uint32_t line = 0;
            uint32_t column = 0;
            place_of(text, i, &line, &column);
            bite_error_place(error, NULL, line, column);
            return;
        }
    }
}

static bite_status refuse(const char *key, const char *expected, bite_error *error)
{
    bite_error_set(error, BITE_BAD_FILE, "%s was expected", expected);
    bite_error_key(error, "%.100s", key);
    return BITE_BAD_FILE;
}

/* What the object has set so far. */
typedef struct named_once {
    uint8_t inputs[BITE_INPUTS_MAX];
    uint8_t records[BITE_THREADS + 1]; /* the last collection that a key may name */
} named_once;

/* A key may name what another one has named: "depth" and "depth [mm]", "tool" and "diameter". */
static bite_status name_once(const bite_case_column *column, const char *text, named_once *named,
                             bite_error *error)
{
    bool record = column->kind == BITE_CASE_RECORD;
    bool size = record && column->collection == BITE_TOOLS && bite_request_is_diameter(text);
    const bite_input *input = size ? bite_input_find("diameter") : column->input;
    int again = record && named->records[column->collection]++ > 0;
    again |= (!record || size) && named->inputs[bite_input_index(input)]++ > 0;
    return again ? bite_case_column_refuse_second(column, error) : BITE_OK;
}

static bite_status put_member(bite_request *request, const char *key, const json_t *value,
                              named_once *named, bite_error *error)
{
    bite_case_column column;
    bite_case_field field = {json_string_value(value), json_number_value(value)};
    bite_status status = bite_case_column_read(key, strlen(key), NULL, 0, &column, error);
    if (status != BITE_OK) {
        bite_error_key(error, "%.100s", key);
        return status;
    }
    if (json_is_null(value) || column.kind == BITE_CASE_CARRIED) {
        return BITE_OK;
    }
    if (json_is_boolean(value) && column.kind == BITE_CASE_WORD) {
        field.text = json_is_true(value) ? "yes" : "no";
    } else if (!json_is_string(value) && !json_is_number(value)) {
        return refuse(key, "a text or a number", error);
    }
    if (column.kind == BITE_CASE_RECORD && field.text == NULL) {
        return refuse(key, "a name", error);
    }
    status = name_once(&column, field.text, named, error);
    if (status != BITE_OK) {
        return status;
    }
    if (column.kind != BITE_CASE_RECORD) {
        return bite_case_column_put(&column, &field, request, error);
    }
    status = bite_request_use(request, column.collection, field.text, error);
    if (status != BITE_OK) {
        bite_error_key(error, "%s", column.name);
    }
    return status;
}

static bite_status read_object(const json_text *text, json_t **object, bite_error *error)
{
    size_t position = 0;
    bite_status status = bite_json_object_read(text->text, text->length, JSON_DECODE_INT_AS_REAL,
                                               object, &position, error);
    if (status == BITE_BAD_FILE) {
        uint32_t line = 1;
        uint32_t column = 1;
        bite_error_hint(error, "an object was expected, such as {\"feed_rate\": \"400mm/min\"}");
        if (position > 0) {
            place_of(text, position, &line, &column);
        }
        bite_error_place(error, NULL, line, column);
    }
    return status;
}

bite_status bite_request_json(bite_request *request, const char *text, size_t length,
                              bite_error *error)
{
    const json_text whole = {text, length};
    json_t *object = NULL;
    named_once named = {0};
    bite_error_clear(error);
    if (request == NULL || text == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a request and a text were expected");
    }
    if (length > TEXT_MOST) {
        return bite_error_set(error, BITE_OUT_OF_RANGE, "a request of more than 1 MiB");
    }
    bite_request *made = bite_memory_new(&request->allocator, 1, sizeof *made);
    if (made == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a request");
    }
    *made = *request;
    bite_status status = read_object(&whole, &object, error);
    for (void *at = json_object_iter(object); status == BITE_OK && at != NULL;
         at = json_object_iter_next(object, at)) {
        status =
            put_member(made, json_object_iter_key(at), json_object_iter_value(at), &named, error);
        if (status != BITE_OK) {
            add_place(&whole, json_object_iter_key(at), error);
        }
    }
    if (status == BITE_OK) {
        *request = *made;
    }
    json_decref(object);
    bite_memory_free(&request->allocator, made);
    return status;
}
