/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How characteristics and readings of a record are shown. */
#include "bindings/cli/measure_text.h"
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#define NUMBER 48
static const double expanded = 2.0; /* standard uncertainties: 95 % (GUM 6.2) */

static const char *unit_of(uint32_t units)
{
    return units == BITE_INCH ? "in" : "mm";
}

static void write_number(double length, uint32_t units, char *text, size_t size)
{
    int decimals = units == BITE_INCH ? 5 : 4;
    (void)snprintf(text, size, "%.*f", decimals, length / (units == BITE_INCH ? 0.0254 : 1e-3));
    size_t used = strlen(text);
    while (used > 0 && text[used - 1] == '0') {
        text[--used] = 0;
    }
    if (used > 0 && text[used - 1] == '.') {
        text[used - 1] = 0;
    }
}

void measure_length(double length, uint32_t units, char text[MEASURE_LENGTH])
{
    char number[NUMBER];
    write_number(length, units, number, sizeof number);
    (void)snprintf(text, MEASURE_LENGTH, "%s %s", number, unit_of(units));
}

void measure_limits(const bite_characteristic *characteristic, uint32_t units, char *text,
                    size_t size)
{
    char lower[NUMBER];
    char upper[NUMBER];
    char nominal[NUMBER];
    const char *unit = unit_of(units);
    bool low = !isnan(characteristic->lower);
    bool high = !isnan(characteristic->upper);
    write_number(characteristic->lower, units, lower, sizeof lower);
    write_number(characteristic->upper, units, upper, sizeof upper);
    write_number(characteristic->nominal, units, nominal, sizeof nominal);
    if (characteristic->judged) {
        (void)snprintf(text, size, "accept or reject");
    } else if (low && high) {
        (void)snprintf(text, size, "%s to %s %s", lower, upper, unit);
    } else if (low || high) {
        (void)snprintf(text, size, "at %s %s %s", low ? "least" : "most", low ? lower : upper,
                       unit);
    } else if (!isnan(characteristic->nominal)) {
        (void)snprintf(text, size, "nominal %s %s, no limits", nominal, unit);
    } else {
        (void)snprintf(text, size, "no limits");
    }
}

static const char *place_word(const bite_characteristic *characteristic, const bite_review *review)
{
    bool known = review->uncertainty_20 > 0.0;
    switch (review->place) {
    case BITE_PLACE_INSIDE:
        return characteristic->judged ? "accepted"
               : known                ? "inside"
                                      : "inside (not proven: no uncertainty is stated)";
    case BITE_PLACE_GUARD:
        return "in the guard band: not proven";
    case BITE_PLACE_OUTSIDE:
        return characteristic->judged ? "rejected"
               : known                ? "outside"
                                      : "outside (not proven: no uncertainty is stated)";
    default:
        return "no limits";
    }
}

void measure_verdict(const bite_characteristic *characteristic, const bite_review *review,
                     uint32_t units, char *text, size_t size)
{
    char value[MEASURE_LENGTH];
    char spread[MEASURE_LENGTH];
    const char *word = place_word(characteristic, review);
    measure_length(review->value_20, units, value);
    measure_length(expanded * review->uncertainty_20, units, spread);
    if (review->corrected && review->uncertainty_20 > 0.0) {
        (void)snprintf(text, size, "%s; %s +/- %s at 20 degC", word, value, spread);
    } else if (review->corrected) {
        (void)snprintf(text, size, "%s; %s at 20 degC", word, value);
    } else {
        (void)snprintf(text, size, "%s", word);
    }
}

void measure_part(const bite_record *record, char *text, size_t size)
{
    const char *number = bite_record_text(record, "part_number");
    const char *name = bite_record_text(record, "part_name");
    const char *job = bite_record_text(record, "job");
    const char *title = name[0] != 0 ? name : job;
    (void)snprintf(text, size, "%s%s%s", number, number[0] != 0 && title[0] != 0 ? " " : "", title);
    if (text[0] == 0) {
        (void)snprintf(text, size, "part");
    }
}
