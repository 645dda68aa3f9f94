/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A request: records by name, and quantities as they are entered. */
#include "core/request/request.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/base/thread_pool.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include "core/library/material.h"
#include "core/names/registry.h"
#include "core/units/format_quantity.h"
#include "core/units/parse_quantity.h"
#include "core/units/unit_table.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Inputs that may be entered as another kind of quantity, which is converted once flutes and
 * diameter are known. */
static const struct {
    const char *input;
    bite_kind also;
} second_kinds[] = {
    {"feed_rate", BITE_KIND_TOOTH_FEED},
    {"spindle_speed", BITE_KIND_SURFACE_SPEED},
};

bite_status bite_request_new(const bite_library *library, bite_request **request, bite_error *error)
{
    bite_error_clear(error);
    if (library == NULL || request == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an open library and a place for the request were expected");
    }
    const bite_allocator *allocator = bite_library_allocator(library);
    bite_request *fresh = bite_memory_new(allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a request");
    }
    fresh->library = library;
    fresh->allocator = *allocator;
    *request = fresh;
    return BITE_OK;
}

void bite_request_free(bite_request *request)
{
    if (request != NULL) {
        bite_allocator allocator = request->allocator;
        bite_memory_free(&allocator, request);
    }
}

static bite_status check_length(const char *text, const char *key, bite_error *error)
{
    if (strlen(text) < BITE_TYPED_MAX) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_BAD_QUANTITY, "%.20s... is too long for a name or a quantity", text);
    bite_error_key(error, "%s", key);
    bite_error_hint(error, "at most %d bytes", BITE_TYPED_MAX - 1);
    return BITE_BAD_QUANTITY;
}

/* Copies a name as it was entered; a tab becomes a blank, since names are shown in columns. */
static bite_status copy_name(char *to, const char *text, const char *key, bite_error *error)
{
    bite_status status = check_length(text, key, error);
    for (size_t i = 0; status == BITE_OK && i <= strlen(text); i++) {
        to[i] = text[i] == '\t' ? ' ' : text[i];
    }
    return status;
}

static bite_status set_word(bite_request *request, const bite_input *input, const char *text,
                            bite_error *error)
{
    bite_typed_input *typed = &request->typed[bite_input_index(input)];
    for (uint32_t i = 0; i < input->words; i++) {
        if (bite_text_equals(text, bite_input_word(input, i))) {
            typed->given = 1;
            typed->word = i;
            request->shop_keys &= ~bite_request_shop_bit(input->name);
            return BITE_OK;
        }
    }
    char words[96] = "";
    size_t used = 0;
    for (uint32_t i = 0; i < input->words && used + 16 < sizeof words; i++) {
        used += (size_t)snprintf(words + used, sizeof words - used, "%s%s", i > 0 ? ", " : "",
                                 bite_input_word(input, i));
    }
    bite_error_set(error, BITE_UNKNOWN_NAME, "%.40s is not a word of %s", text, input->name);
    bite_error_key(error, "%s", input->name);
    bite_error_hint(error, "one of %s", words);
    return BITE_UNKNOWN_NAME;
}

size_t bite_request_kinds(const bite_input *input, bite_kind kinds[2])
{
    kinds[0] = (bite_kind)input->kind;
    for (size_t i = 0; i < sizeof second_kinds / sizeof *second_kinds; i++) {
        if (strcmp(second_kinds[i].input, input->name) == 0) {
            kinds[1] = second_kinds[i].also;
            return 2;
        }
    }
    return 1;
}

/* The keys of a set-up that are inputs. */
static const struct {
    const char *input;
    bite_shop_key key;
} shop_inputs[] = {{"coolant", BITE_SHOP_COOLANT}, {"tolerance", BITE_SHOP_TOLERANCE}};

uint32_t bite_request_shop_bit(const char *input)
{
    for (size_t i = 0; i < sizeof shop_inputs / sizeof *shop_inputs; i++) {
        if (strcmp(shop_inputs[i].input, input) == 0) {
            return 1u << shop_inputs[i].key;
        }
    }
    return 0;
}

/* Refuses a number outside the range of the input or of its kind. text: as it was entered; NULL:
 * the library writes it. */
static bite_status check_range(const bite_input *input, double si, const char *text,
                               bite_error *error)
{
    const bite_kind_entry *kind = &bite_kind_table[input->kind];
    const double numbers[3] = {fmax(input->least, kind->least), fmin(input->most, kind->most), si};
    char words[3][40] = {"", "", ""};
    if (si >= numbers[0] && si <= numbers[1]) {
        return BITE_OK;
    }
    for (size_t i = 0; i < (text == NULL ? 3 : 2); i++) {
        size_t length = 0;
        if (bite_quantity_write(numbers[i], (bite_kind)input->kind, BITE_METRIC, words[i],
                                sizeof words[i], &length, NULL) != BITE_OK) {
            return bite_error_set(error, BITE_FAULT, "the range of %s cannot be written",
                                  input->name);
        }
    }
    bite_error_set(error, BITE_OUT_OF_RANGE, "%s of %.40s is outside what any shop runs: %s to %s",
                   input->name, text == NULL ? words[2] : text, words[0], words[1]);
    bite_error_key(error, "%s", input->name);
    bite_error_hint(error, "check the unit and the zeros");
    return BITE_OUT_OF_RANGE;
}

static void store_number(bite_request *request, const bite_input *input, bite_kind kind,
                         double value)
{
    bite_typed_input *typed = &request->typed[bite_input_index(input)];
    typed->given = 1;
    typed->kind = kind;
    typed->value = value;
    request->shop_keys &= ~bite_request_shop_bit(input->name);
}

static bite_status set_quantity(bite_request *request, const bite_input *input, const char *text,
                                bite_error *error)
{
    bite_kind kinds[2];
    size_t count = bite_request_kinds(input, kinds);
    double value = 0.0;
    size_t which = 0;
    bite_status status =
        bite_quantity_read_kinds(text, strlen(text), kinds, count, &value, &which, error);
    if (status != BITE_OK) {
        bite_error_key(error, "%s", input->name);
        return status;
    }
    status = check_length(text, input->name, error);
    if (status == BITE_OK && which == 0) {
        status = check_range(input, value, text, error);
    }
    if (status == BITE_OK) {
        store_number(request, input, kinds[which], value);
    }
    return status;
}

static const bite_input *find_input(const char *name, bite_error *error)
{
    const bite_input *found = bite_input_find(name);
    if (found != NULL && bite_input_index(found) < BITE_INPUTS_MAX) {
        return found;
    }
    const char *near = bite_registry_nearest(name);
    bite_error_set(error, BITE_UNKNOWN_NAME, "there is no input named %.60s", name);
    bite_error_key(error, "%.60s", name);
    bite_error_hint(error,
                    near == NULL || bite_input_find(near) == NULL ? "explain lists the inputs"
                                                                  : "did you mean %s?",
                    near);
    return NULL;
}

bite_status bite_request_set(bite_request *request, const char *input, const char *text,
                             bite_error *error)
{
    bite_error_clear(error);
    if (request == NULL || input == NULL || text == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a request, the name of an input and a text were expected");
    }
    const bite_input *found = find_input(input, error);
    if (found == NULL) {
        return BITE_UNKNOWN_NAME;
    }
    return found->words > 0 ? set_word(request, found, text, error)
                            : set_quantity(request, found, text, error);
}

bite_status bite_request_set_number(bite_request *request, const char *input, double si,
                                    bite_error *error)
{
    bite_error_clear(error);
    if (request == NULL || input == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a request and the name of an input were expected");
    }
    const bite_input *found = find_input(input, error);
    if (found == NULL) {
        return BITE_UNKNOWN_NAME;
    }
    bite_status status = BITE_OK;
    if (found->words > 0) {
        status =
            bite_error_set(error, BITE_BAD_ARGUMENT, "%s takes a word, not a number", found->name);
        bite_error_hint(error, "set it with bite_request_set");
    } else if (!isfinite(si)) {
        status =
            bite_error_set(error, BITE_BAD_QUANTITY, "%s is not a finite number; %s was expected",
                           found->name, bite_unit_noun((bite_kind)found->kind));
    } else {
        status = check_range(found, si, NULL, error);
    }
    if (status != BITE_OK) {
        bite_error_key(error, "%s", found->name);
        return status;
    }
    store_number(request, found, (bite_kind)found->kind, si);
    return BITE_OK;
}

bite_status bite_request_put(bite_request *request, const bite_input *input, bite_kind kind,
                             double si, bite_error *error)
{
    const bite_kind_entry *entry = &bite_kind_table[kind];
    bite_status status = BITE_OK;
    if (!isfinite(si)) {
        status = bite_error_set(error, BITE_BAD_QUANTITY, "%s is not a finite number", input->name);
        bite_error_key(error, "%s", input->name);
    } else if (kind == (bite_kind)input->kind) {
        status = check_range(input, si, NULL, error);
    } else if (si < entry->least || si > entry->most) {
        status = bite_error_set(error, BITE_OUT_OF_RANGE, "%s is outside what any shop runs",
                                input->name);
        bite_error_key(error, "%s", input->name);
        bite_error_hint(error, "check the unit and the zeros");
    }
    if (status == BITE_OK) {
        store_number(request, input, kind, si);
    }
    return status;
}

int bite_request_is_diameter(const char *name)
{
    return bite_text_is_digit(name[0]) || name[0] == '.';
}

/* A name that begins with a digit is a diameter: a tool that is not in the table. */
static bite_status use_tool(bite_request *request, const char *name, bite_error *error)
{
    const bite_item_record *record = NULL;
    if (bite_request_is_diameter(name)) {
        bite_status status = bite_request_set(request, "diameter", name, error);
        if (status == BITE_OK) {
            request->tool = NULL;
            status = copy_name(request->tool_name, name, "tool", error);
        }
        return status;
    }
    bite_status status = bite_library_record(request->library, BITE_TOOLS, name, &record, error);
    if (status == BITE_OK) {
        request->tool = record;
        status = copy_name(request->tool_name, record->name, "tool", error);
    }
    return status;
}

/* The name as it is shown. A name that was found may be longer, because separators do not count. */
static void keep_grade_name(bite_request *request, const char *name)
{
    size_t length = strlen(name);
    if (length >= BITE_TYPED_MAX) {
        length = bite_text_complete_length(name, BITE_TYPED_MAX - 1);
    }
    for (size_t i = 0; i < length; i++) {
        request->grade_name[i] = name[i] == '\t' ? ' ' : name[i];
    }
    request->grade_name[length] = 0;
}

/* The name of a family alone means its default grade. */
static bite_status use_grade(bite_request *request, const char *name, bite_error *error)
{
    bite_grade_match match = BITE_MATCH_GRADE;
    bite_status status =
        bite_library_grade_match(request->library, name, &request->grade, &match, error);
    if (status == BITE_OK) {
        request->grade_match = match;
        keep_grade_name(request, name);
    }
    return status;
}

const char *bite_grade_match_word(uint32_t match)
{
    static const char *const words[] = {"grade", "family", "near"};
    return words[match];
}

void bite_grade_match_text(const bite_material *grade, uint32_t match, const char *name, char *to,
                           size_t size)
{
    to[0] = 0;
    if (match == BITE_MATCH_FAMILY) {
        (void)snprintf(to, size, "material %s, the cautious grade of %s", grade->record.name,
                       grade->family_name);
    } else if (match == BITE_MATCH_NEAR) {
        (void)snprintf(to, size, "%.60s judged as %s, a near material", name, grade->record.name);
    }
}

/* A record that the shop's set-up may also state. */
static bite_status use_record(bite_request *request, bite_collection collection, bite_shop_key key,
                              const char *name, const bite_item_record **record, bite_error *error)
{
    bite_status status = bite_library_record(request->library, collection, name, record, error);
    if (status == BITE_OK) {
        request->shop_keys &= ~(1u << key);
    }
    return status;
}

bite_status bite_request_use(bite_request *request, bite_collection collection, const char *name,
                             bite_error *error)
{
    bite_error_clear(error);
    if (request == NULL || name == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a request and a name were expected");
    }
    switch (collection) {
    case BITE_FAMILIES:
    case BITE_GRADES:
        return use_grade(request, name, error);
    case BITE_TOOLS:
        return use_tool(request, name, error);
    case BITE_HOLDERS:
        return bite_library_record(request->library, BITE_HOLDERS, name, &request->holder, error);
    case BITE_MACHINES:
        return use_record(request, collection, BITE_SHOP_MACHINE, name, &request->machine, error);
    case BITE_COOLANTS:
        return bite_request_set(request, "coolant", name, error);
    case BITE_HOLDS:
        return use_record(request, collection, BITE_SHOP_HOLD, name, &request->hold, error);
    case BITE_DRILLS:
        return use_tool(request, name, error);
    case BITE_THREADS:
        return bite_library_record(request->library, BITE_THREADS, name, &request->thread, error);
    case BITE_SYMPTOMS:
    case BITE_FLUIDS:
    case BITE_SHEETS:
    case BITE_TIMES:
    case BITE_LAYERS:
    case BITE_INSTRUMENTS:
    case BITE_INSERTS:
    case BITE_LEFT_OUT:
        break;
    }
    return bite_error_set(error, BITE_BAD_ARGUMENT,
                          "a request cannot use a record of that collection");
}

/* A figure counts as it was read: its text may have a band. */
static bite_status take_value(bite_request *request, bite_shop_key key, bite_collection collection,
                              const bite_field_value *value, bite_error *error)
{
    return collection != BITE_LEFT_OUT ? bite_request_use(request, collection, value->text, error)
           : value->field->type == BITE_FIELD_FIGURE
               ? bite_request_set_number(request, bite_shop_key_name(key), value->value, error)
               : bite_request_set(request, bite_shop_key_name(key), value->text, error);
}

bite_status bite_request_use_shop(bite_request *request, const bite_shop *shop, bite_error *error)
{
    static const struct {
        bite_shop_key key;
        bite_collection collection; /* BITE_LEFT_OUT: an input */
    } taken[] = {{BITE_SHOP_MACHINE, BITE_MACHINES},
                 {BITE_SHOP_HOLD, BITE_HOLDS},
                 {BITE_SHOP_COOLANT, BITE_LEFT_OUT},
                 {BITE_SHOP_TOLERANCE, BITE_LEFT_OUT}};
    bite_error_clear(error);
    if (request == NULL || shop == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a request and a set-up were expected");
    }
    bite_status status = bite_shop_check(shop, request->library, error);
    uint32_t keys = 0;
    for (size_t i = 0; i < sizeof taken / sizeof *taken && status == BITE_OK; i++) {
        const bite_field_value *value = bite_shop_value(shop, taken[i].key);
        if (value == NULL) {
            continue;
        }
        status = take_value(request, taken[i].key, taken[i].collection, value, error);
        keys |= 1u << taken[i].key;
    }
    if (status == BITE_OK) {
        request->shop = shop;
        request->shop_keys = keys;
    }
    return status;
}

bite_status bite_request_take_from_shop(bite_request *request, const char *key, bite_error *error)
{
    bite_error_clear(error);
    bite_shop_key found = key == NULL ? BITE_SHOP_KEYS : bite_shop_key_find(key);
    if (request == NULL || found == BITE_SHOP_KEYS ||
        bite_shop_value(request->shop, found) == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a request that uses a set-up, and a key which this states, were "
                              "expected");
    }
    request->shop_keys |= 1u << found;
    return BITE_OK;
}

bite_status bite_request_threads(bite_request *request, size_t threads, bite_error *error)
{
    bite_error_clear(error);
    if (request == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a request was expected");
    }
    if (threads < 1 || threads > BITE_THREADS_MAX) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "1 to %d threads were expected, not %zu",
                       BITE_THREADS_MAX, threads);
        bite_error_key(error, "threads");
        return BITE_OUT_OF_RANGE;
    }
    request->threads = threads;
    return BITE_OK;
}
