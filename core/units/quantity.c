/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Quantities at the door: reading what a shop types, refusing by name what it cannot have meant,
 * and writing it back. */
#include "core/units/quantity.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/units/unit_table.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define QUANTITY_MOST 80 /* bytes of one quantity */
#define UNIT_MOST 16

const char *bite_unit_si(bite_kind kind)
{
    return (unsigned)kind < BITE_KIND_COUNT ? bite_kind_table[kind].si : "";
}

const char *bite_unit_noun(bite_kind kind)
{
    return (unsigned)kind < BITE_KIND_COUNT ? bite_kind_table[kind].noun : "a quantity";
}

/* Two units may differ by case alone (mN, MN): the exact spelling first, then the one without case.
 */
static const bite_unit *find_unit(const char *name, size_t length, bite_kind kind)
{
    for (int strict = 1; strict >= 0; strict--) {
        for (size_t i = 0; i < bite_unit_table_count; i++) {
            const bite_unit *unit = &bite_unit_table[i];
            bool same = strict
                            ? strlen(unit->name) == length && memcmp(unit->name, name, length) == 0
                            : bite_text_equals_part(name, length, unit->name);
            if (unit->kind == kind && same) {
                return unit;
            }
        }
    }
    return NULL;
}

static const bite_unit *find_any(const char *name, size_t length)
{
    for (size_t i = 0; i < bite_unit_table_count; i++) {
        if (bite_text_equals_part(name, length, bite_unit_table[i].name)) {
            return &bite_unit_table[i];
        }
    }
    return NULL;
}

/* Number, a/b or whole-a/b; *used: its length. */
static bool read_number(const char *text, size_t length, double *value, size_t *used)
{
    double parts[3];
    size_t size = 0;
    if (!bite_number_read(text, length, &parts[0], &size)) {
        return false;
    }
    *value = parts[0];
    *used = size;
    size_t at = size;
    double whole = 0.0;
    size_t more = 0;
    if (at < length && text[at] == '-' && at + 1 < length && bite_text_is_digit(text[at + 1])) {
        whole = parts[0];
        if (!bite_number_read(text + at + 1, length - at - 1, &parts[0], &more)) {
            return true;
        }
        at += 1 + more;
        if (at >= length || text[at] != '/') {
            return true; /* not a mixed number: what is left is refused as a unit */
        }
    }
    if (at + 1 < length && text[at] == '/' && bite_text_is_digit(text[at + 1]) &&
        bite_number_read(text + at + 1, length - at - 1, &parts[1], &more) && parts[1] > 0.0) {
        *value = whole + parts[0] / parts[1];
        *used = at + 1 + more;
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

/* Nothing that begins like a number: say what it is instead. */
static bite_status refuse_start(const char *text, size_t length, bite_kind kind, bite_error *error)
{
    const char *start = text;
    length = bite_text_trim(&start, length);
    if (length == 0) {
        bite_error_set(error, BITE_BAD_QUANTITY, "nothing is there; %s was expected",
                       bite_unit_noun(kind));
        return BITE_BAD_QUANTITY;
    }
    size_t sign = *start == '-' || *start == '+' ? 1 : 0;
    if (length - sign >= 3 && (bite_text_equals_part(start + sign, 3, "nan") ||
                               bite_text_equals_part(start + sign, 3, "inf"))) {
        bite_error_set(error, BITE_BAD_QUANTITY,
                       "%.*s is no number that can be measured; %s was expected", (int)length,
                       start, bite_unit_noun(kind));
        return BITE_BAD_QUANTITY;
    }
    size_t point = sign < length && start[sign] == '.' ? 1 : 0;
    if (sign + point < length && bite_text_is_digit(start[sign + point])) {
        bite_error_set(error, BITE_BAD_QUANTITY,
                       "%.*s is more than a number holds, or has too many digits; %s was expected",
                       (int)length, start, bite_unit_noun(kind));
        return BITE_BAD_QUANTITY;
    }
    bite_error_set(error, BITE_BAD_QUANTITY, "%.*s begins with no number; %s was expected",
                   (int)length, start, bite_unit_noun(kind));
    return BITE_BAD_QUANTITY;
}

static bite_status refuse_bare(double value, const char *text, size_t length, bite_kind kind,
                               bite_error *error)
{
    const bite_kind_entry *row = &bite_kind_table[kind];
    (void)value;
    bite_error_set(error, BITE_BAD_QUANTITY, "%.*s is a bare number where %s was expected",
                   (int)length, text, row->noun);
    if (strcmp(row->first, row->second) == 0) {
        bite_error_hint(error, "write %.*s%s", (int)length, text, row->first);
    } else {
        bite_error_hint(error, "write %.*s%s or %.*s%s", (int)length, text, row->first, (int)length,
                        text, row->second);
    }
    return BITE_BAD_QUANTITY;
}

static const char *unit_name(size_t at, const void *list)
{
    const bite_unit *units = list;
    return units[at].name;
}

static bite_status refuse_unit(const char *whole, size_t length, const char *unit, size_t size,
                               bite_kind kind, bite_error *error)
{
    if (size > 0 && unit[0] == ',') {
        return refuse(error, BITE_BAD_QUANTITY,
                      "a comma stands in the number; the decimal mark is a point",
                      "write 0.5mm, not 0,5mm");
    }
    const bite_unit *other = find_any(unit, size);
    if (other != NULL) {
        bite_error_set(error, BITE_BAD_QUANTITY, "%.*s is %s; %s was expected", (int)length, whole,
                       bite_unit_noun(other->kind), bite_unit_noun(kind));
        bite_error_hint(error, "%s and the like", bite_kind_table[kind].first);
        return BITE_BAD_QUANTITY;
    }
    char name[UNIT_MOST + 1] = "";
    if (size <= UNIT_MOST) {
        memcpy(name, unit, size);
        name[size] = 0;
    }
    const char *near = bite_text_nearest(name, bite_unit_table_count, unit_name, bite_unit_table);
    bite_error_set(error, BITE_BAD_QUANTITY, "%.*s is no unit of %s", (int)size, unit,
                   bite_unit_noun(kind));
    if (near != NULL) {
        bite_error_hint(error, "did you mean %s?", near);
    } else {
        bite_error_hint(error, "%s, %s and the like", bite_kind_table[kind].first,
                        bite_kind_table[kind].second);
    }
    return BITE_BAD_QUANTITY;
}

static bite_status check_size(const char *text, size_t length, double si, bite_kind kind,
                              bite_error *error)
{
    const bite_kind_entry *row = &bite_kind_table[kind];
    if (si < 0.0 && row->least >= 0.0) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "%.*s is negative; %s is not", (int)length, text,
                       row->noun);
        return BITE_OUT_OF_RANGE;
    }
    if (!isfinite(si) || si < row->least || si > row->most) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "%.*s is absurd as %s in any shop", (int)length,
                       text, row->noun);
        bite_error_hint(error, "look for a slip in the unit or lost zeros");
        return BITE_OUT_OF_RANGE;
    }
    return BITE_OK;
}

bite_status bite_unit_read(const char *text, size_t length, const bite_kind *kinds, size_t count,
                           double *si, size_t *which, bite_error *error)
{
    double value = 0.0;
    size_t used = 0;
    if (length >= QUANTITY_MOST) {
        return refuse(error, BITE_BAD_QUANTITY, "that is no quantity: too long",
                      "for example 0.8mm");
    }
    length = bite_text_trim(&text, length);
    if (!read_number(text, length, &value, &used)) {
        return refuse_start(text, length, kinds[0], error);
    }
    const char *unit = text + used;
    size_t size = bite_text_trim(&unit, length - used);
    for (size_t i = 0; i < count; i++) {
        const bite_kind_entry *row = &bite_kind_table[kinds[i]];
        const bite_unit *found = size == 0 ? NULL : find_unit(unit, size, kinds[i]);
        if (found == NULL && !(size == 0 && row->bare_readings[0] == 0)) {
            continue;
        }
        double number = found == NULL ? value : value * found->scale + found->offset;
        bite_status status = check_size(text, length, number, kinds[i], error);
        if (status == BITE_OK) {
            *si = number;
            *which = i;
        }
        return status;
    }
    return size == 0 ? refuse_bare(value, text, length, kinds[0], error)
                     : refuse_unit(text, length, unit, size, kinds[0], error);
}

bite_status bite_quantity_read(const char *text, bite_kind kind, double *si, bite_error *error)
{
    size_t which = 0;
    bite_error_clear(error);
    if (text == NULL || si == NULL || (unsigned)kind >= BITE_KIND_COUNT) {
        return refuse(error, BITE_BAD_ARGUMENT,
                      "a text, a kind and a place for the number were expected", "");
    }
    return bite_unit_read(text, strlen(text), &kind, 1, si, &which, error);
}

static const bite_shop_unit *shop_unit(double si, bite_kind kind, bite_units units)
{
    for (size_t i = 0; i < bite_shop_unit_count; i++) {
        const bite_shop_unit *row = &bite_shop_unit_table[i];
        if (row->kind == kind && row->units == units &&
            (si == 0.0 ? 1.0 : fabs(si)) >= row->from * (1.0 - 1e-12)) {
            return row;
        }
    }
    return NULL;
}

static const char *number_in(const bite_shop_unit *row, double si, double *number)
{
    const bite_unit *unit = row == NULL ? NULL : find_unit(row->name, strlen(row->name), row->kind);
    *number = unit == NULL ? si : (si - unit->offset) / unit->scale;
    return row == NULL ? "" : row->name;
}

const char *bite_unit_shop(double si, bite_kind kind, bite_units units, double *number)
{
    return number_in(shop_unit(si, kind, units), si, number);
}

const char *bite_unit_fixed(double si, bite_kind kind, bite_units units, double *number)
{
    return number_in(shop_unit(INFINITY, kind, units), si, number);
}

/* A shop reads 28550, not 2.855e+04: up to here large numbers are rounded and written out. */
static const double plain_most = 1e7;

static bite_status finish(double number, int digits, const char *unit, char *buffer, size_t size,
                          size_t *length)
{
    char text[64];
    double size_of = fabs(number);
    if (digits < 8 && size_of >= pow(10.0, digits) && size_of < plain_most) {
        double step = pow(10.0, floor(log10(size_of)) - digits + 1);
        number = round(number / step) * step;
        digits = 8;
    }
    size_t used = bite_number_write(number, digits, text, sizeof text);
    const char *blank = unit[0] == 0 || unit[0] == '%' ? "" : " ";
    size_t needed = used + strlen(blank) + strlen(unit);
    *length = needed;
    if (size > needed) {
        (void)snprintf(buffer, size, "%s%s%s", text, blank, unit);
    } else if (size > 0) {
        buffer[0] = 0;
    }
    return BITE_OK;
}

/* Temperatures keep their whole degrees however hot: three digits below 1000, four above. */
static int digits_of(const bite_shop_unit *row, double number)
{
    if ((row->kind == BITE_KIND_TEMPERATURE || row->kind == BITE_KIND_RISE) &&
        fabs(number) < 10.0) {
        return fabs(number) < 1.0 ? 1 : 2;
    }
    return (row->kind == BITE_KIND_TEMPERATURE && fabs(number) >= 1000.0) ? 4 : row->digits;
}

bite_status bite_quantity_write(double si, bite_kind kind, bite_units units, char *buffer,
                                size_t size, size_t *length, bite_error *error)
{
    bite_error_clear(error);
    if ((unsigned)kind >= BITE_KIND_COUNT || (unsigned)units > BITE_INCH || length == NULL ||
        (buffer == NULL && size > 0) || !isfinite(si)) {
        return refuse(error, BITE_BAD_ARGUMENT,
                      "a finite number, its kind, and a place for the text were expected", "");
    }
    double number = 0.0;
    const bite_shop_unit *row = shop_unit(si, kind, units);
    const char *unit = bite_unit_shop(si, kind, units, &number);
    return finish(number, row == NULL ? 4 : digits_of(row, number), unit, buffer, size, length);
}

bite_status bite_unit_write(double si, bite_kind kind, const char *unit, int digits, char *buffer,
                            size_t size, size_t *length, bite_error *error)
{
    const bite_unit *found = find_unit(unit, strlen(unit), kind);
    if (found == NULL || !isfinite(si)) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "%.20s is no unit of %s, or the number is not finite", unit,
                       bite_unit_noun(kind));
        return BITE_BAD_ARGUMENT;
    }
    return finish((si - found->offset) / found->scale, digits, unit, buffer, size, length);
}

double bite_unit_round(double si, bite_kind kind, const char *unit, int digits)
{
    const bite_unit *found = find_unit(unit, strlen(unit), kind);
    if (found == NULL) {
        return si;
    }
    double number = bite_number_round((si - found->offset) / found->scale, digits);
    return number * found->scale + found->offset;
}
