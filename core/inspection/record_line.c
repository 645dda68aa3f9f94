/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of a record. */
#include "core/inspection/record_line.h"
#include "core/base/checksum.h"
#include "core/base/display_text.h"
#include "core/base/text.h"
#include "core/inspection/record_time.h"
#include "core/units/format_quantity.h"
#include "core/units/parse_quantity.h"
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)
#define SEAL_LENGTH 10 /* " ~1a2b3c4d" */
#define READ (1u << BITE_RECORD_READ)
#define CORRECT (1u << BITE_RECORD_CORRECT)
#define UNDO (1u << BITE_RECORD_UNDO)
#define SKIP (1u << BITE_RECORD_SKIP)
#define SEAL (1u << BITE_RECORD_SEAL)

static const char *const action_words[BITE_RECORD_ACTIONS] = {"read", "correct", "undo", "skip",
                                                              "seal"};

typedef enum field_type { COUNT_32, COUNT_64, SUM, TEXT, DEGREES, TIME } field_type;

/* The fields in the order in which they are written. */
static const struct field {
    const char *name;
    field_type type;
    size_t place;     /* in bite_record_line */
    size_t size;      /* of a text */
    unsigned needed;  /* by these actions */
    unsigned allowed; /* by these too */
} fields[] = {
    {"of", COUNT_64, offsetof(bite_record_line, of), 0, CORRECT | UNDO, 0},
    {"characteristic", COUNT_32, offsetof(bite_record_line, characteristic), 0,
     READ | CORRECT | SKIP, 0},
    {"part", COUNT_32, offsetof(bite_record_line, part), 0, READ | CORRECT | SKIP, 0},
    {"trial", COUNT_32, offsetof(bite_record_line, trial), 0, READ | CORRECT, 0},
    {"value", TEXT, offsetof(bite_record_line, value), BITE_RECORD_VALUE_MAX, READ | CORRECT, 0},
    {"head", SUM, offsetof(bite_record_line, head), 0, SEAL, 0},
    {"temperature", DEGREES, offsetof(bite_record_line, temperature), 0, 0, READ | CORRECT},
    {"time", TIME, offsetof(bite_record_line, time), 0, 0, READ | CORRECT | UNDO | SKIP | SEAL},
    {"person", TEXT, offsetof(bite_record_line, person), BITE_RECORD_PERSON_MAX, 0,
     READ | CORRECT | UNDO | SKIP | SEAL},
    {"note", TEXT, offsetof(bite_record_line, note), BITE_RECORD_NOTE_MAX, SKIP,
     READ | CORRECT | UNDO | SEAL},
};

/* ---- reading ---- */

static bool read_sum(const char *text, size_t length, uint32_t *sum)
{
    static const char digits[] = "0123456789abcdef";
    uint32_t value = 0;
    for (size_t i = 0; i < 8 && length == 8; i++) {
        const char *digit = text[i] == 0 ? NULL : strchr(digits, text[i]);
        if (digit == NULL) {
            return false;
        }
        value = value << 4 | (uint32_t)(digit - digits);
    }
    *sum = value;
    return length == 8;
}

bite_line_state bite_record_line_check(const char *text, size_t length)
{
    size_t cut = sizeof BITE_RECORD_CUT - 1;
    uint32_t sum = 0;
    if (length >= cut && memcmp(text + length - cut, BITE_RECORD_CUT, cut) == 0) {
        return BITE_LINE_CUT;
    }
    return length > SEAL_LENGTH && memcmp(text + length - SEAL_LENGTH, " ~", 2) == 0 &&
                   read_sum(text + length - 8, 8, &sum) &&
                   sum == bite_checksum(text, length - SEAL_LENGTH)
               ? BITE_LINE_SOUND
               : BITE_LINE_DAMAGED;
}

/* A whole number from 1, at most `most`; 0: it is not one. */
static uint64_t read_count(const char *text, size_t length, uint64_t most)
{
    uint64_t value = 0;
    if (length == 0 || length > 18 || text[0] == '0') {
        return 0;
    }
    for (size_t i = 0; i < length; i++) {
        if (!bite_text_is_digit(text[i])) {
            return 0;
        }
        value = value * 10 + (uint64_t)(text[i] - '0');
    }
    return value <= most ? value : 0;
}

bool bite_record_text_fits(const char *text, size_t most)
{
    size_t length = strlen(text);
    return length < most && strpbrk(text, "\"\\") == NULL &&
           bite_text_check(text, length, "", NULL) == BITE_TEXT_SOUND;
}

static bool read_text(const char *text, size_t length, char *to, size_t size)
{
    if (length < 2 || length - 2 >= size || text[0] != '"' || text[length - 1] != '"') {
        return false;
    }
    memcpy(to, text + 1, length - 2);
    to[length - 2] = 0;
    return strlen(to) == length - 2 && bite_record_text_fits(to, size);
}

static bool read_degrees(const char *text, size_t length, double *kelvin)
{
    const bite_kind kind = BITE_KIND_TEMPERATURE;
    size_t which = 0;
    return bite_quantity_read_kinds(text, length, &kind, 1, kelvin, &which, NULL) == BITE_OK;
}

static bool read_field(const struct field *field, const char *text, size_t length,
                       bite_record_line *line)
{
    char *at = (char *)line + field->place;
    switch (field->type) {
    case COUNT_32: {
        uint32_t *count = (uint32_t *)(void *)at;
        *count = (uint32_t)read_count(text, length, UINT32_MAX);
        return *count > 0;
    }
    case COUNT_64: {
        uint64_t *count = (uint64_t *)(void *)at;
        *count = read_count(text, length, UINT64_MAX);
        return *count > 0;
    }
    case SUM:
        return read_sum(text, length, (uint32_t *)(void *)at);
    case TEXT:
        return read_text(text, length, at, field->size);
    case DEGREES:
        return read_degrees(text, length, (double *)(void *)at);
    case TIME:
        return bite_record_time_read(text, length, (double *)(void *)at);
    }
    return false;
}

/* The next piece up to a blank outside quotation marks; *text is moved behind it. */
static size_t next_piece(const char **text, const char *end)
{
    const char *start = *text;
    const char *at = start;
    bool quoted = false;
    for (; at < end && (quoted || *at != ' '); at++) {
        quoted = quoted != (*at == '"');
    }
    *text = at < end ? at + 1 : at;
    return (size_t)(at - start);
}

/* Its field; NULL: none. *name: its length. */
static const struct field *find_field(const char *piece, size_t length, size_t *name)
{
    const char *sign = memchr(piece, '=', length);
    *name = sign == NULL ? 0 : (size_t)(sign - piece);
    for (size_t i = 0; i < COUNT(fields) && sign != NULL; i++) {
        if (bite_text_equals_part(piece, *name, fields[i].name)) {
            return &fields[i];
        }
    }
    return NULL;
}

static const char *read_fields(const char *text, const char *end, bite_record_line *line)
{
    unsigned action = 1u << line->action;
    unsigned seen = 0;
    while (text < end) {
        const char *piece = text;
        size_t length = next_piece(&text, end);
        size_t name = 0;
        const struct field *field = find_field(piece, length, &name);
        if (field == NULL || ((field->needed | field->allowed) & action) == 0) {
            return "it has a field that this version does not know";
        }
        unsigned bit = 1u << (field - fields);
        if ((seen & bit) != 0 || !read_field(field, piece + name + 1, length - name - 1, line)) {
            return "one of its fields cannot be read";
        }
        seen |= bit;
    }
    for (size_t i = 0; i < COUNT(fields); i++) {
        if ((fields[i].needed & action) != 0 && (seen & 1u << i) == 0) {
            return "one of its fields is missing";
        }
    }
    return NULL;
}

const char *bite_record_line_read(const char *text, size_t length, bite_record_line *line)
{
    const char *end = text + length - SEAL_LENGTH;
    const char *number = text;
    memset(line, 0, sizeof *line);
    line->temperature = line->time = (double)NAN;
    line->number = read_count(number, next_piece(&text, end), UINT64_MAX);
    const char *word = text;
    size_t size = next_piece(&text, end);
    for (uint32_t i = 0; i < BITE_RECORD_ACTIONS && line->number > 0; i++) {
        if (bite_text_equals_part(word, size, action_words[i])) {
            line->action = i;
            return read_fields(text, end, line);
        }
    }
    return line->number == 0 ? "it does not begin with its number"
                             : "it does something that this version does not know";
}

/* ---- writing ---- */

/* Whether a field is stated. */
static bool is_stated(const struct field *field, const bite_record_line *line)
{
    const char *at = (const char *)line + field->place;
    return field->type == TEXT ? *at != 0
           : field->type == DEGREES || field->type == TIME
               ? !isnan(*(const double *)(const void *)at)
               : true;
}

static size_t write_field(const struct field *field, const bite_record_line *line, char *text,
                          size_t size)
{
    const char *at = (const char *)line + field->place;
    const void *place = at;
    char number[BITE_RECORD_TIME_MAX + 40];
    size_t length = 0;
    number[0] = 0;
    switch (field->type) {
    case COUNT_32:
        (void)snprintf(number, sizeof number, "%" PRIu32, *(const uint32_t *)place);
        break;
    case COUNT_64:
        (void)snprintf(number, sizeof number, "%" PRIu64, *(const uint64_t *)place);
        break;
    case SUM:
        (void)snprintf(number, sizeof number, "%08" PRIx32, *(const uint32_t *)place);
        break;
    case DEGREES:
        if (bite_quantity_write_unit(*(const double *)place, BITE_KIND_TEMPERATURE, "degC", 8,
                                     number, sizeof number, &length, NULL) != BITE_OK) {
            return size;
        }
        number[strcspn(number, " ")] = 0; /* "23 degC" */
        return (size_t)snprintf(text, size, " %s=%sdegC", field->name, number);
    case TIME:
        bite_record_time_write(*(const double *)place, number);
        break;
    case TEXT:
        return bite_record_text_fits(at, field->size)
                   ? (size_t)snprintf(text, size, " %s=\"%s\"", field->name, at)
                   : size;
    }
    return (size_t)snprintf(text, size, " %s=%s", field->name, number);
}

size_t bite_record_line_write(const bite_record_line *line, char *text, size_t size)
{
    unsigned action = 1u << line->action;
    size_t used =
        (size_t)snprintf(text, size, "%" PRIu64 " %s", line->number, action_words[line->action]);
    for (size_t i = 0; i < COUNT(fields) && used < size; i++) {
        bool needed = (fields[i].needed & action) != 0;
        if (needed || ((fields[i].allowed & action) != 0 && is_stated(&fields[i], line))) {
            used += write_field(&fields[i], line, text + used, size - used);
        }
    }
    if (used + SEAL_LENGTH + 2 > size) {
        return 0;
    }
    used +=
        (size_t)snprintf(text + used, size - used, " ~%08" PRIx32 "\n", bite_checksum(text, used));
    return used;
}
