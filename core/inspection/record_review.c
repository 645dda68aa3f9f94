/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reading before it is recorded: how it lies to its limits, and whether it may be a slip. */
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/inspection/reading_value.h"
#include "core/inspection/record.h"
#include "core/statistics/conformity.h"
#include <math.h>
#include <stdbool.h>
#include <string.h>

/* Of a decision: ISO 14253-1:2017, 95 % (by summaries). */
static const double confidence = 0.95;
/* A point one place off, two or three; inches read as mm, and the reverse. */
static const double factors[] = {10.0, 0.1, 25.4, 1.0 / 25.4, 100.0, 0.01, 1000.0, 0.001};
/* Without a limit on one side, a reading must be this many times off before a slip is likely. */
static const double far_off = 3.0;
/* Without limits, this much of the nominal size either way is near (estimate). */
static const double near_nominal = 0.2;

#define COUNT(list) (sizeof list / sizeof *list)

static uint32_t place_of(const bite_characteristic *of, double value, double uncertainty)
{
    const bite_size_limits limits = {of->lower, of->upper};
    if (isnan(limits.lower) && isnan(limits.upper)) {
        return BITE_PLACE_NONE;
    }
    if (!(uncertainty > 0.0)) {
        return value < limits.lower || value > limits.upper ? BITE_PLACE_OUTSIDE
                                                            : BITE_PLACE_INSIDE;
    }
    switch (bite_conformity_decide(&limits, value, uncertainty, confidence)) {
    case BITE_DECISION_CONFORMS:
        return BITE_PLACE_INSIDE;
    case BITE_DECISION_DOES_NOT:
        return BITE_PLACE_OUTSIDE;
    default:
        return BITE_PLACE_GUARD;
    }
}

/* The sizes among which a reading is no surprise; false: nothing is stated. */
static bool usual_sizes(const bite_characteristic *of, double *low, double *high)
{
    bool one = isnan(of->lower) != isnan(of->upper) || of->lower <= 0.0;
    if (isnan(of->lower) && isnan(of->upper)) {
        *low = of->nominal * (1.0 - near_nominal);
        *high = of->nominal * (1.0 + near_nominal);
        return of->nominal > 0.0;
    }
    *low = isnan(of->lower) ? 0.0 : of->lower / (one ? far_off : 1.0);
    *high = isnan(of->upper) ? (double)INFINITY : of->upper * (one ? far_off : 1.0);
    return true;
}

/* The value that was probably meant by one that is far outside; NaN: none. */
static double factor_slip(const bite_characteristic *of, double value)
{
    double low = 0.0;
    double high = 0.0;
    if (!usual_sizes(of, &low, &high) || (value >= low && value <= high)) {
        return (double)NAN;
    }
    bool limited = !isnan(of->lower) || !isnan(of->upper);
    for (size_t i = 0; i < COUNT(factors); i++) {
        double meant = value / factors[i];
        bool inside =
            limited ? !(meant < of->lower) && !(meant > of->upper) : meant >= low && meant <= high;
        if (meant > 0.0 && inside) {
            return meant;
        }
    }
    return (double)NAN;
}

/* Whether it is several times too large or too small. */
static bool is_far(const bite_characteristic *of, double value)
{
    double low = 0.0;
    double high = 0.0;
    return usual_sizes(of, &low, &high) && (value < low / far_off || value > high * far_off);
}

/* The smallest step of an inch display that is not finer than a resolution: 1, 2 or 5 in the last
 * place. */
static double inch_step(double resolution)
{
    static const double steps[] = {1.0, 2.0, 5.0, 10.0};
    double inches = resolution / 0.0254;
    double decade = pow(10.0, floor(log10(inches)));
    for (size_t i = 0; i < COUNT(steps); i++) {
        if (steps[i] * decade >= inches * 0.999) {
            return steps[i] * decade * 0.0254;
        }
    }
    return resolution;
}

/* The nearest value that the instrument can show, if the value is none; NaN: it is one. */
static double finer_slip(const bite_characteristic *of, double value)
{
    double step = of->resolution;
    if (!(step > 0.0) || value > 1e6 * step) { /* beyond that the arithmetic is as coarse */
        return (double)NAN;
    }
    double metric = round(value / step) * step;
    double inch = round(value / inch_step(step)) * inch_step(step);
    bool shown = fabs(value - metric) < 0.01 * step || fabs(value - inch) < 0.01 * step;
    return shown ? (double)NAN : metric;
}

bite_status bite_record_review(const bite_record *record, const bite_record_entry *given,
                               bite_review *review, bite_error *error)
{
    bite_reading reading = {0};
    bite_record_entry own;
    const bite_record_entry *entry = &own;
    bite_error_clear(error);
    bite_status status = bite_record_entry_read(record, given, &own, error);
    status = status != BITE_OK ? status
                               : bite_struct_check(&bite_struct_review, review, "review", error);
    if (status == BITE_OK && entry->characteristic >= record->characteristic_count) {
        status = bite_error_set(error, BITE_BAD_ARGUMENT,
                                "a record, an entry and a review were expected");
    }
    if (status != BITE_OK) {
        return status;
    }
    const bite_characteristic *of = &record->characteristics[entry->characteristic];
    bite_review made = {.likely = (double)NAN};
    status =
        bite_reading_value_type(of, record->units, entry->value, made.text, &reading.value, error);
    if (status != BITE_OK) {
        return status;
    }
    reading.temperature = entry->temperature;
    bite_reading_correct(record, of, &reading);
    made.value = reading.value;
    made.value_20 = reading.value_20;
    made.uncertainty_20 = reading.uncertainty_20;
    made.corrected = reading.corrected;
    if (of->judged) {
        made.place = reading.value > 0.0 ? BITE_PLACE_INSIDE : BITE_PLACE_OUTSIDE;
    } else {
        made.place = place_of(of, reading.value_20, reading.uncertainty_20);
        double meant = factor_slip(of, reading.value);
        double shown = finer_slip(of, reading.value);
        made.likely = isnan(meant) ? shown : meant;
        made.slip = !isnan(meant)               ? BITE_SLIP_FACTOR
                    : is_far(of, reading.value) ? BITE_SLIP_FAR
                    : !isnan(shown)             ? BITE_SLIP_FINER
                                                : BITE_SLIP_NONE;
        made.likely = made.slip == BITE_SLIP_FAR ? (double)NAN : made.likely;
    }
    bite_struct_write(&bite_struct_review, &made, review);
    return BITE_OK;
}
