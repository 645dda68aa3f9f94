/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formatting of quantities: a number with its unit as a shop writes it. */
#include "core/units/format_quantity.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/units/unit_table.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* NULL: si is not a number. */
static const bite_shop_unit *find_shop_unit(double si, bite_kind kind, bite_units units)
{
    for (size_t i = 0; i < bite_shop_unit_count; i++) {
        const bite_shop_unit *entry = &bite_shop_unit_table[i];
        if (entry->kind == kind && entry->units == units &&
            (si == 0.0 ? 1.0 : fabs(si)) >= entry->from * (1.0 - 1e-12)) {
            return entry;
        }
    }
    return NULL;
}

static const char *number_in(const bite_shop_unit *entry, double si, double *number)
{
    const bite_unit *unit =
        entry == NULL ? NULL : bite_unit_find(entry->name, strlen(entry->name), entry->kind);
    *number = unit == NULL ? si : (si - unit->offset) / unit->scale;
    return entry == NULL ? "" : entry->name;
}

const char *bite_unit_shop(double si, bite_kind kind, bite_units units, double *number)
{
    return number_in(find_shop_unit(si, kind, units), si, number);
}

const char *bite_unit_fixed(double si, bite_kind kind, bite_units units, double *number)
{
    return number_in(find_shop_unit(INFINITY, kind, units), si, number);
}

/* A shop writes 28550, not 2.855e+04: below this, large numbers are rounded and written out. */
static const double plain_limit = 1e7;

static bite_status write_number_and_unit(double number, int digits, const char *unit, char *buffer,
                                         size_t size, size_t *length)
{
    char text[64];
    double magnitude = fabs(number);
    if (digits < 8 && magnitude >= pow(10.0, digits) && magnitude < plain_limit) {
        double step = pow(10.0, floor(log10(magnitude)) - digits + 1);
        number = round(number / step) * step;
        digits = 8;
    }
    size_t used = bite_number_write(number, digits, text, sizeof text);
    const char *separator = unit[0] == 0 || unit[0] == '%' ? "" : " ";
    size_t needed = used + strlen(separator) + strlen(unit);
    *length = needed;
    if (size > needed) {
        (void)snprintf(buffer, size, "%s%s%s", text, separator, unit);
    } else if (size > 0) {
        buffer[0] = 0;
    }
    return BITE_OK;
}

/* Temperatures are written in whole degrees: three significant digits below 1000, four above; fewer
 * below 10. */
static int digits_of(const bite_shop_unit *entry, double number)
{
    if ((entry->kind == BITE_KIND_TEMPERATURE || entry->kind == BITE_KIND_RISE) &&
        fabs(number) < 10.0) {
        return fabs(number) < 1.0 ? 1 : 2;
    }
    return (entry->kind == BITE_KIND_TEMPERATURE && fabs(number) >= 1000.0) ? 4 : entry->digits;
}

bite_status bite_quantity_write(double si, bite_kind kind, bite_units units, char *buffer,
                                size_t size, size_t *length, bite_error *error)
{
    bite_error_clear(error);
    if ((unsigned)kind >= BITE_KIND_COUNT || (unsigned)units > BITE_INCH || length == NULL ||
        (buffer == NULL && size > 0) || !isfinite(si)) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a finite number, its kind, and a buffer for the text were expected");
    }
    double number = 0.0;
    const bite_shop_unit *entry = find_shop_unit(si, kind, units); /* one for any finite number */
    const char *unit = number_in(entry, si, &number);
    return write_number_and_unit(number, digits_of(entry, number), unit, buffer, size, length);
}

bite_status bite_quantity_write_unit(double si, bite_kind kind, const char *unit, int digits,
                                     char *buffer, size_t size, size_t *length, bite_error *error)
{
    const bite_unit *found = bite_unit_find(unit, strlen(unit), kind);
    if (found == NULL || !isfinite(si)) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "%.20s is not a unit of %s, or the number is not finite", unit,
                       bite_unit_noun(kind));
        return BITE_BAD_ARGUMENT;
    }
    return write_number_and_unit((si - found->offset) / found->scale, digits, unit, buffer, size,
                                 length);
}

double bite_unit_round(double si, bite_kind kind, const char *unit, int digits)
{
    const bite_unit *found = bite_unit_find(unit, strlen(unit), kind);
    if (found == NULL) {
        return si;
    }
    double number = bite_number_round((si - found->offset) / found->scale, digits);
    return number * found->scale + found->offset;
}

/* The steps of controls are those of the machine tools' usual least input increment
 * (common-practice). */
static const struct {
    const char *unit;
    double scale; /* m */
    double steps; /* of the control in one unit */
} control_units[] = {[BITE_METRIC] = {"mm", 1e-3, 1e3}, [BITE_INCH] = {"in", 25.4e-3, 1e4}};

double bite_control_step(bite_units units)
{
    return control_units[units].scale / control_units[units].steps;
}

void bite_control_length_write(double si, bite_units units, char *buffer, size_t size)
{
    char text[32];
    double number = si / control_units[units].scale;
    double steps = round(number * control_units[units].steps);
    int vanishes = steps == 0.0 && number != 0.0;
    if (!isfinite(si)) {
        (void)snprintf(buffer, size, "-");
        return;
    }
    double shown = (vanishes ? 1.0 : steps) / control_units[units].steps;
    (void)bite_number_write(isfinite(shown) ? shown : number, 9, text, sizeof text);
    (void)snprintf(buffer, size, "%s%s %s", vanishes ? "under " : "", text,
                   control_units[units].unit);
}
