/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parsing of quantities: a number with its unit as a shop writes it. What cannot be meant is
 * refused with the reason. */
#include "core/units/parse_quantity.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/units/unit_table.h"
#include <math.h>
#include <string.h>

#define QUANTITY_MAX 80 /* bytes of one quantity */
#define UNIT_MAX 16

/* Reads a number, a fraction a/b or a mixed number whole-a/b, whose sign is that of all of it;
 * *used: its length in bytes. */
static bool read_number(const char *text, size_t length, double *value, size_t *used)
{
    double parts[2]; /* numerator, denominator */
    size_t size = 0;
    if (!bite_number_read(text, length, &parts[0], &size)) {
        return false;
    }
    *value = parts[0];
    *used = size;
    size_t at = size;
    double whole = 0.0;
    size_t more_used = 0;
    if (at < length && text[at] == '-' && at + 1 < length && bite_text_is_digit(text[at + 1])) {
        whole = parts[0];
        if (!bite_number_read(text + at + 1, length - at - 1, &parts[0], &more_used)) {
            return true;
        }
        at += 1 + more_used;
        if (at >= length || text[at] != '/') {
            return true; /* not a mixed number: the rest is refused as a unit */
        }
    }
    if (at + 1 < length && text[at] == '/' && bite_text_is_digit(text[at + 1]) &&
        bite_number_read(text + at + 1, length - at - 1, &parts[1], &more_used) && parts[1] > 0.0) {
        *value = whole + copysign(parts[0] / parts[1], signbit(whole) ? -1.0 : parts[0]);
        *used = at + 1 + more_used;
    }
    return true;
}

static bite_status refuse(bite_error *error, bite_status status, const char *message,
                          const char *hint)
{
    bite_error_set(error, status, "%s", message);
    bite_error_hint(error, "%s", hint);
    return status;
}

/* The text does not begin with a number that can be read: says what it begins with instead. */
static bite_status refuse_start(const char *text, size_t length, bite_kind kind, bite_error *error)
{
    const char *start = text;
    length = bite_text_trim(&start, length);
    if (length == 0) {
        bite_error_set(error, BITE_BAD_QUANTITY, "the text is empty; %s was expected",
                       bite_unit_noun(kind));
        return BITE_BAD_QUANTITY;
    }
    size_t sign = *start == '-' || *start == '+' ? 1 : 0;
    if (length - sign >= 3 && (bite_text_equals_part(start + sign, 3, "nan") ||
                               bite_text_equals_part(start + sign, 3, "inf"))) {
        bite_error_set(error, BITE_BAD_QUANTITY, "%.*s is not a measurable number; %s was expected",
                       (int)length, start, bite_unit_noun(kind));
        return BITE_BAD_QUANTITY;
    }
    size_t point = sign < length && start[sign] == '.' ? 1 : 0;
    if (sign + point < length && bite_text_is_digit(start[sign + point])) {
        bite_error_set(error, BITE_BAD_QUANTITY,
                       "%.*s is too large a number or has too many digits; %s was expected",
                       (int)length, start, bite_unit_noun(kind));
        return BITE_BAD_QUANTITY;
    }
    bite_error_set(error, BITE_BAD_QUANTITY, "%.*s does not begin with a number; %s was expected",
                   (int)length, start, bite_unit_noun(kind));
    return BITE_BAD_QUANTITY;
}

static bite_status refuse_bare(const char *text, size_t length, bite_kind kind, bite_error *error)
{
    const bite_kind_entry *entry = &bite_kind_table[kind];
    bite_error_set(error, BITE_BAD_QUANTITY, "%.*s is a bare number; %s with its unit was expected",
                   (int)length, text, entry->noun);
    if (strcmp(entry->first, entry->second) == 0) {
        bite_error_hint(error, "write %.*s%s", (int)length, text, entry->first);
    } else {
        bite_error_hint(error, "write %.*s%s or %.*s%s", (int)length, text, entry->first,
                        (int)length, text, entry->second);
    }
    return BITE_BAD_QUANTITY;
}

static void hint_units(bite_error *error, bite_kind kind)
{
    const bite_kind_entry *entry = &bite_kind_table[kind];
    if (strcmp(entry->first, entry->second) == 0) {
        bite_error_hint(error, "use a unit such as %s", entry->first);
    } else {
        bite_error_hint(error, "use a unit such as %s or %s", entry->first, entry->second);
    }
}

/* The kinds that a quantity may be of. */
typedef struct kind_list {
    const bite_kind *kinds;
    size_t count;
} kind_list;

/* The name of a unit of one of the kinds; NULL: it is of another kind. */
static const char *unit_name(size_t at, const void *list)
{
    const kind_list *of = list;
    for (size_t i = 0; i < of->count; i++) {
        if (bite_unit_table[at].kind == of->kinds[i]) {
            return bite_unit_table[at].name;
        }
    }
    return NULL;
}

static bite_status refuse_unit(const char *whole, size_t length, const char *unit, size_t size,
                               const bite_kind *kinds, size_t count, bite_error *error)
{
    const kind_list of = {kinds, count};
    const bite_kind kind = kinds[0];
    if (unit[0] == ',') {
        return refuse(error, BITE_BAD_QUANTITY,
                      "the number contains a comma; the decimal mark is a point",
                      "write 0.5mm, not 0,5mm");
    }
    const bite_unit *other = bite_unit_find_any_kind(unit, size);
    if (other != NULL) {
        bite_error_set(error, BITE_BAD_QUANTITY, "%.*s is %s; %s was expected", (int)length, whole,
                       bite_unit_noun(other->kind), bite_unit_noun(kind));
        hint_units(error, kind);
        return BITE_BAD_QUANTITY;
    }
    char name[UNIT_MAX + 1] = "";
    if (size <= UNIT_MAX) {
        memcpy(name, unit, size);
        name[size] = 0;
    }
    const char *near = bite_text_nearest(name, bite_unit_table_count, unit_name, &of);
    bite_error_set(error, BITE_BAD_QUANTITY, "%.*s is not a unit of %s", (int)size, unit,
                   bite_unit_noun(kind));
    if (near != NULL) {
        bite_error_hint(error, "did you mean %s?", near);
    } else {
        hint_units(error, kind);
    }
    return BITE_BAD_QUANTITY;
}

static bite_status check_range(const char *text, size_t length, double si, bite_kind kind,
                               bite_error *error)
{
    const bite_kind_entry *entry = &bite_kind_table[kind];
    if (si < 0.0 && entry->least >= 0.0) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "%.*s is negative; %s cannot be negative",
                       (int)length, text, entry->noun);
        return BITE_OUT_OF_RANGE;
    }
    if (si < entry->least || si > entry->most) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "%.*s is not plausible as %s in any shop",
                       (int)length, text, entry->noun);
        bite_error_hint(error, "check the unit and the number of zeros");
        return BITE_OUT_OF_RANGE;
    }
    return BITE_OK;
}

bite_status bite_quantity_read_kinds(const char *text, size_t length, const bite_kind *kinds,
                                     size_t count, double *si, size_t *which, bite_error *error)
{
    double value = 0.0;
    size_t used = 0;
    if (length >= QUANTITY_MAX) {
        bite_error_set(error, BITE_BAD_QUANTITY,
                       "the text is too long for a quantity (at most %d bytes)", QUANTITY_MAX - 1);
        bite_error_hint(error, "for example 0.8mm");
        return BITE_BAD_QUANTITY;
    }
    length = bite_text_trim(&text, length);
    if (!read_number(text, length, &value, &used)) {
        return refuse_start(text, length, kinds[0], error);
    }
    const char *unit = text + used;
    size_t size = bite_text_trim(&unit, length - used);
    for (size_t i = 0; i < count; i++) {
        const bite_kind_entry *entry = &bite_kind_table[kinds[i]];
        const bite_unit *found = size == 0 ? NULL : bite_unit_find(unit, size, kinds[i]);
        if (found == NULL && !(size == 0 && !entry->needs_unit)) {
            continue;
        }
        double number = found == NULL ? value : value * found->scale + found->offset;
        bite_status status = check_range(text, length, number, kinds[i], error);
        if (status == BITE_OK) {
            *si = number;
            *which = i;
        }
        return status;
    }
    return size == 0 ? refuse_bare(text, length, kinds[0], error)
                     : refuse_unit(text, length, unit, size, kinds, count, error);
}

bite_status bite_quantity_read(const char *text, bite_kind kind, double *si, bite_error *error)
{
    size_t which = 0;
    bite_error_clear(error);
    if (text == NULL || si == NULL || (unsigned)kind >= BITE_KIND_COUNT) {
        return refuse(error, BITE_BAD_ARGUMENT,
                      "a text, a kind and a pointer to the number were expected", "");
    }
    return bite_quantity_read_kinds(text, strlen(text), &kind, 1, si, &which, error);
}
