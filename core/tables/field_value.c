/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text of one field: a figure with its band, a curve, a word. */
#include "core/tables/field_value.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/units/curve_range.h"
#include "core/units/parse_quantity.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The unit of a quantity: what follows its number. *length: that of the quantity, then of the unit.
 */
static const char *find_unit(const char *text, size_t *length)
{
    const char *at = text;
    const char *end = text + *length;
    while (at < end &&
           (bite_text_is_digit(*at) || *at == '.' || *at == '-' || *at == '+' || *at == '/' ||
            ((*at == 'e' || *at == 'E') && at + 1 < end &&
             (bite_text_is_digit(at[1]) || at[1] == '-' || at[1] == '+')))) {
        if (*at == '/' && !(at + 1 < end && bite_text_is_digit(at[1]))) {
            break;
        }
        at++;
    }
    *length = (size_t)(end - at);
    *length = bite_text_trim(&at, *length);
    return at;
}

/* Reads an end of a band, which may leave its unit out: `unit` is that of the figure before it. */
static bite_status read_end(const char *text, size_t length, const char *unit, size_t unit_size,
                            bite_kind kind, double *si, bite_error *error)
{
    char whole[96];
    size_t which = 0;
    size_t own_size = length;
    (void)find_unit(text, &own_size);
    if (own_size > 0 || unit_size == 0 || length + unit_size + 1 >= sizeof whole) {
        return bite_quantity_read_kinds(text, length, &kind, 1, si, &which, error);
    }
    memcpy(whole, text, length);
    whole[length] = ' ';
    memcpy(whole + length + 1, unit, unit_size);
    return bite_quantity_read_kinds(whole, length + 1 + unit_size, &kind, 1, si, &which, error);
}

static const char *find_dots(const char *text, size_t length)
{
    for (size_t i = 0; i + 1 < length; i++) {
        if (text[i] == '.' && text[i + 1] == '.') {
            return text + i;
        }
    }
    return NULL;
}

static bite_status refuse(bite_error *error, const char *message, const char *hint)
{
    bite_error_set(error, BITE_BAD_FILE, "%s", message);
    bite_error_hint(error, "%s", hint);
    return BITE_BAD_FILE;
}

static bite_status read_band(const char *open, size_t length, const char *unit, size_t unit_size,
                             bite_field_value *field_value, bite_error *error)
{
    if (length < 2 || open[length - 1] != ')') {
        return refuse(error, "the bracket of the band is not closed",
                      "for example 1466 J/kg/K (1380 .. 1520)");
    }
    const char *inside = open + 1;
    length -= 2;
    const char *dots = find_dots(inside, length);
    if (dots == NULL) {
        return refuse(error, "a band is two ends with two points between them",
                      "for example 1466 J/kg/K (1380 .. 1520)");
    }
    const char *low = inside;
    const char *high = dots + 2;
    size_t low_size = bite_text_trim(&low, (size_t)(dots - inside));
    size_t high_size = bite_text_trim(&high, (size_t)(inside + length - dots - 2));
    bite_kind kind = (bite_kind)field_value->field->kind;
    bite_status status = read_end(low, low_size, unit, unit_size, kind, &field_value->low, error);
    if (status == BITE_OK) {
        status = read_end(high, high_size, unit, unit_size, kind, &field_value->high, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    if (!(field_value->low <= field_value->value && field_value->value <= field_value->high)) {
        return refuse(error, "the figure is not within its band",
                      "write (low .. high) with the figure between them");
    }
    field_value->banded = 1;
    return BITE_OK;
}

static bite_status check_range(const bite_field_value *field_value, bite_error *error)
{
    const bite_field *field = field_value->field;
    if (field_value->low >= field->least && field_value->high <= field->most) {
        return BITE_OK;
    }
    char least[48] = "";
    char most[48] = "";
    size_t length = 0;
    if (bite_quantity_write(field->least, (bite_kind)field->kind, BITE_METRIC, least, sizeof least,
                            &length, error) != BITE_OK ||
        bite_quantity_write(field->most, (bite_kind)field->kind, BITE_METRIC, most, sizeof most,
                            &length, error) != BITE_OK) {
        return BITE_FAULT;
    }
    bite_error_set(error, BITE_BAD_FILE, "the figure or its band is outside %s to %s", least, most);
    bite_error_hint(error, "check the unit");
    return BITE_BAD_FILE;
}

bite_status bite_field_value_figure(const char *text, bite_field_value *field_value,
                                    bite_error *error)
{
    size_t length = strlen(text);
    length = bite_text_trim(&text, length);
    const char *open = memchr(text, '(', length);
    size_t size = open == NULL ? length : (size_t)(open - text);
    const char *number = text;
    size = bite_text_trim(&number, size);
    bite_kind kind = (bite_kind)field_value->field->kind;
    size_t which = 0;
    bite_status status =
        bite_quantity_read_kinds(number, size, &kind, 1, &field_value->value, &which, error);
    if (status != BITE_OK) {
        return status;
    }
    field_value->low = field_value->high = field_value->value;
    if (open != NULL) {
        size_t unit_size = size;
        const char *unit = find_unit(number, &unit_size);
        status =
            read_band(open, (size_t)(text + length - open), unit, unit_size, field_value, error);
        if (status != BITE_OK) {
            return status;
        }
    }
    return check_range(field_value, error);
}

/* Reads "23degC 74MPa": the temperature ends at the first blank. */
static bite_status read_point(const char *text, size_t length, const bite_field *field,
                              double *temperature, double *value, bite_error *error)
{
    length = bite_text_trim(&text, length);
    size_t at = 0;
    while (at < length && !bite_text_is_blank(text[at])) {
        at++;
    }
    if (at == length) {
        return refuse(error, "a point of a curve is a temperature, a blank and a figure",
                      "for example 23degC 74MPa, 70degC 40MPa");
    }
    bite_kind kind = BITE_KIND_TEMPERATURE;
    size_t which = 0;
    bite_status status = bite_quantity_read_kinds(text, at, &kind, 1, temperature, &which, error);
    if (status != BITE_OK) {
        return status;
    }
    if (!(*temperature >= BITE_CURVE_COLDEST && *temperature <= BITE_CURVE_HOTTEST)) {
        return refuse(error, "a temperature of the curve is outside the possible range",
                      "check the unit");
    }
    kind = (bite_kind)field->kind;
    status = bite_quantity_read_kinds(text + at, length - at, &kind, 1, value, &which, error);
    if (status == BITE_OK && !(*value >= field->least && *value <= field->most)) {
        return refuse(error, "a point of the curve is outside the possible range",
                      "check the unit");
    }
    return status;
}

bite_status bite_field_value_curve(const char *text, bite_field_value *field_value,
                                   bite_error *error)
{
    bite_curve *curve = &field_value->curve;
    size_t length = strlen(text);
    curve->count = 0;
    while (length > 0) {
        const char *comma = memchr(text, ',', length);
        size_t size = comma == NULL ? length : (size_t)(comma - text);
        if (curve->count == BITE_CURVE_POINTS) {
            return refuse(error, "the curve has more than eight points", "remove some of them");
        }
        uint32_t at = curve->count;
        bite_status status = read_point(text, size, field_value->field, &curve->temperature[at],
                                        &curve->value[at], error);
        if (status != BITE_OK) {
            return status;
        }
        if (at > 0 && !(curve->temperature[at] > curve->temperature[at - 1])) {
            return refuse(error, "the temperatures of the curve do not rise",
                          "write the points from cold to hot, each temperature once");
        }
        curve->count++;
        size_t consumed = size + (comma != NULL);
        text += consumed;
        length -= consumed;
    }
    return curve->count >= 2 ? BITE_OK
                             : refuse(error, "a curve needs at least two points",
                                      "for example 23degC 74MPa, 70degC 40MPa");
}

bite_status bite_field_value_word(const char *text, bite_field_value *field_value,
                                  bite_error *error)
{
    char list[96] = "";
    for (uint32_t i = 0; field_value->field->words[i] != NULL; i++) {
        if (bite_text_equals(text, field_value->field->words[i])) {
            field_value->word = i;
            return BITE_OK;
        }
        size_t used = strlen(list);
        (void)snprintf(list + used, sizeof list - used, "%s%s", i > 0 ? ", " : "",
                       field_value->field->words[i]);
    }
    bite_error_set(error, BITE_BAD_FILE, "%.40s is not one of the words that this key accepts",
                   text);
    bite_error_hint(error, "use one of %s", list);
    return BITE_BAD_FILE;
}
