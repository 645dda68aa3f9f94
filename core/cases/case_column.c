/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A column of a table of cases: what its name means, and a field of it in a request. */
#include "core/cases/case_column.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/names/registry.h"
#include <stdio.h>
#include <string.h>

static const struct {
    const char *name;
    uint32_t kind; /* a bite_case_column_kind */
    bite_collection collection;
} own_names[] = {
    {"id", BITE_CASE_CARRIED, BITE_LEFT_OUT},    {"note", BITE_CASE_CARRIED, BITE_LEFT_OUT},
    {"material", BITE_CASE_RECORD, BITE_GRADES}, {"tool", BITE_CASE_RECORD, BITE_TOOLS},
    {"holder", BITE_CASE_RECORD, BITE_HOLDERS},  {"machine", BITE_CASE_RECORD, BITE_MACHINES},
    {"hold", BITE_CASE_RECORD, BITE_HOLDS},      {"thread", BITE_CASE_RECORD, BITE_THREADS},
};

static int find_own(const char *name, size_t length, bite_case_column *column)
{
    for (size_t i = 0; i < sizeof own_names / sizeof *own_names; i++) {
        if (bite_text_equals_part(name, length, own_names[i].name)) {
            column->kind = own_names[i].kind;
            column->collection = own_names[i].collection;
            return 1;
        }
    }
    return 0;
}

static const bite_input *find_input(const char *name, const bite_case_word *words,
                                    size_t word_count)
{
    for (size_t i = 0; i < word_count; i++) {
        if (strcmp(words[i].word, name) == 0) {
            return bite_input_find(words[i].input);
        }
    }
    return bite_input_find(name);
}

/* The names that a column may have: the caller's words, the inputs, and those above. */
typedef struct name_list {
    const bite_case_word *words;
    size_t word_count;
} name_list;

static const char *name_at(size_t at, const void *list)
{
    const name_list *names = list;
    size_t inputs = bite_input_count();
    if (at < names->word_count) {
        return names->words[at].word;
    }
    at -= names->word_count;
    return at < inputs ? bite_input_at(at)->name : own_names[at - inputs].name;
}

static const char *nearest(const char *name, const bite_case_word *words, size_t word_count)
{
    const name_list names = {words, word_count};
    size_t count = word_count + bite_input_count() + sizeof own_names / sizeof *own_names;
    return bite_text_nearest(name, count, name_at, &names);
}

static bite_status find_unit(const char *unit, size_t length, bite_case_column *column,
                             bite_error *error)
{
    bite_kind kinds[2];
    size_t count = bite_request_kinds(column->input, kinds);
    for (size_t i = 0; i < count && column->unit == NULL; i++) {
        column->unit = bite_unit_find(unit, length, kinds[i]);
    }
    if (column->unit != NULL) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_BAD_FILE, "%.*s is not a unit of %s",
                   (int)(length < 40 ? length : 40), unit, column->input->name);
    bite_error_key(error, "%s", column->name);
    bite_error_hint(error, "for example %s or %s", bite_kind_table[column->input->kind].first,
                    bite_kind_table[column->input->kind].second);
    return BITE_BAD_FILE;
}

/* Splits "feed [mm/min]". 0: there is no unit, or no end of it. */
static size_t split_unit(const char *name, size_t *length, const char **unit)
{
    const char *open = memchr(name, '[', *length);
    if (open == NULL || name[*length - 1] != ']') {
        return 0;
    }
    size_t size = (size_t)(name + *length - 1 - open - 1);
    *unit = open + 1;
    size = bite_text_trim(unit, size);
    const char *front = name;
    *length = bite_text_trim(&front, (size_t)(open - name));
    return size;
}

bite_status bite_case_column_read(const char *name, size_t length, const bite_case_word *words,
                                  size_t word_count, bite_case_column *column, bite_error *error)
{
    bite_case_column fresh = {.kind = BITE_CASE_NUMBER, .collection = BITE_LEFT_OUT};
    const char *unit = NULL;
    length = bite_text_trim(&name, length);
    if (length == 0 || length >= sizeof fresh.name) {
        return bite_error_set(error, BITE_BAD_FILE,
                              "a column has no name, or one of more than %zu "
                              "bytes",
                              sizeof fresh.name - 1);
    }
    memcpy(fresh.name, name, length);
    size_t unit_length = split_unit(name, &length, &unit);
    if (unit == NULL && find_own(name, length, &fresh)) {
        *column = fresh;
        return BITE_OK;
    }
    char bare[BITE_CASE_NAME_MAX];
    (void)snprintf(bare, sizeof bare, "%.*s", (int)length, name);
    fresh.input = find_input(bare, words, word_count);
    if (fresh.input == NULL) {
        const char *near = nearest(bare, words, word_count);
        bite_error_set(error, BITE_BAD_FILE, "there is no input named %s", bare);
        bite_error_key(error, "%s", fresh.name);
        if (near == NULL) {
            bite_error_hint(error, "list inputs shows the names; id and note are only copied");
        } else {
            bite_error_hint(error, "did you mean %s? columns named id and note are only copied",
                            near);
        }
        return BITE_BAD_FILE;
    }
    fresh.kind = fresh.input->words > 0 ? BITE_CASE_WORD : BITE_CASE_NUMBER;
    if (unit != NULL) {
        bite_status status = find_unit(unit, unit_length, &fresh, error);
        if (status != BITE_OK) {
            return status;
        }
    }
    *column = fresh;
    return BITE_OK;
}

/* A number in the column's unit. */
static bite_status put_number(const bite_case_column *column, double number, bite_request *request,
                              bite_error *error)
{
    return bite_request_put(request, column->input, column->unit->kind,
                            number * column->unit->scale + column->unit->offset, error);
}

/* A number without a unit is one only where nothing else can be meant. */
static bite_status refuse_bare(const bite_case_column *column, bite_error *error)
{
    const bite_kind_entry *kind = &bite_kind_table[column->input->kind];
    bite_error_set(error, BITE_BAD_QUANTITY, "a number without a unit; %s was expected",
                   kind->noun);
    bite_error_hint(error, "name the column %s [%s], or write the unit into the field",
                    column->input->name, kind->first);
    return BITE_BAD_QUANTITY;
}

bite_status bite_case_column_put(const bite_case_column *column, const bite_case_field *field,
                                 bite_request *request, bite_error *error)
{
    bite_status status;
    double number = field->number;
    size_t used = 0;
    size_t length = field->text == NULL ? 0 : strlen(field->text);
    int is_number = field->text == NULL ||
                    (column->unit != NULL &&
                     bite_number_read(field->text, length, &number, &used) && used == length);
    if (column->kind == BITE_CASE_WORD && field->text == NULL) {
        status = bite_error_set(error, BITE_BAD_QUANTITY, "a number; a word was expected");
    } else if (!is_number) {
        status = bite_request_set(request, column->input->name, field->text, error);
    } else if (column->unit != NULL) {
        status = put_number(column, number, request, error);
    } else if (bite_kind_table[column->input->kind].needs_unit) {
        status = refuse_bare(column, error);
    } else {
        status =
            bite_request_put(request, column->input, (bite_kind)column->input->kind, number, error);
    }
    if (status != BITE_OK) {
        bite_error_key(error, "%s", column->name);
    }
    return status;
}

bite_status bite_case_column_refuse_second(const bite_case_column *column, bite_error *error)
{
    bite_error_set(error, BITE_BAD_FILE, "its input is named twice");
    bite_error_key(error, "%s", column->name);
    bite_error_hint(error, "leave one of the two out");
    return BITE_BAD_FILE;
}
