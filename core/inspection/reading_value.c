/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The value of a reading. */
#include "core/inspection/reading_value.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/inspection/record_line.h"
#include "core/physics/measurement/length_correction.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Of a thermometer on the bench and a part that may not have settled: plus or minus 1 K, any value
 * as likely (estimate). The head may state another one. */
static const double usual_temperature_uncertainty = 0.57735; /* K, 1/sqrt(3) */
/* Of an expansion whose spread is not stated: 10 % (estimate: grades of one plastic differ so). */
static const double usual_spread = 0.10;
/* An instrument that does not state its expansion: between none (it corrects itself) and steel, any
 * value as likely (estimate); steel: Swyt 1994, J. Res. NIST 99, 31. */
static const double steel = 11.5e-6; /* 1/K */
/* Of a stated one: 1 in 11.5 either way, any value as likely (gauge blocks of steel, memory). */
static const double instrument_spread = 0.05;

/* At which parts are measured, with room to spare (common practice), K. */
static const double coldest = 230.0;
static const double hottest = 400.0;

bite_status bite_reading_value_read(const bite_characteristic *characteristic, const char *text,
                                    double *value, bite_error *error)
{
    if (!characteristic->judged) {
        return bite_quantity_read(text, BITE_KIND_LENGTH, value, error);
    }
    if (bite_text_equals(text, BITE_READING_ACCEPT) ||
        bite_text_equals(text, BITE_READING_REJECT)) {
        *value = bite_text_equals(text, BITE_READING_ACCEPT) ? 1.0 : 0.0;
        return BITE_OK;
    }
    bite_error_set(error, BITE_BAD_QUANTITY, "%.40s is not a judgement", text);
    bite_error_hint(error, "enter " BITE_READING_ACCEPT " or " BITE_READING_REJECT);
    return BITE_BAD_QUANTITY;
}

/* The other words of a judgement. */
static const struct {
    const char *typed;
    const char *word;
} judgements[] = {{"a", BITE_READING_ACCEPT},     {"ok", BITE_READING_ACCEPT},
                  {"good", BITE_READING_ACCEPT},  {"go", BITE_READING_ACCEPT},
                  {"r", BITE_READING_REJECT},     {"bad", BITE_READING_REJECT},
                  {"no-go", BITE_READING_REJECT}, {"nogo", BITE_READING_REJECT}};

static const char *judgement_of(const char *text)
{
    for (size_t i = 0; i < sizeof judgements / sizeof *judgements; i++) {
        if (bite_text_equals(text, judgements[i].typed)) {
            return judgements[i].word;
        }
    }
    return text;
}

static bool is_bare_number(const char *text, size_t length)
{
    double number = 0.0;
    size_t used = 0;
    return bite_number_read(text, length, &number, &used) && used == length;
}

bite_status bite_reading_value_type(const bite_characteristic *characteristic, uint32_t units,
                                    const char *typed, char *to, double *value, bite_error *error)
{
    const char *text = typed == NULL ? "" : typed;
    size_t length = bite_text_trim(&text, strlen(text));
    char own[BITE_RECORD_VALUE_MAX];
    if (length == 0) {
        bite_error_set(error, BITE_BAD_QUANTITY, "the value is missing");
        bite_error_hint(error, characteristic->judged ? "enter " BITE_READING_ACCEPT
                                                        " or " BITE_READING_REJECT
                                                      : "such as 12.03mm");
        return BITE_BAD_QUANTITY;
    }
    if (length + 3 > sizeof own) {
        bite_error_set(error, BITE_BAD_QUANTITY, "a value of %zu bytes is not a reading", length);
        bite_error_hint(error, "such as 12.03mm");
        return BITE_BAD_QUANTITY;
    }
    bool bare = !characteristic->judged && is_bare_number(text, length);
    (void)snprintf(own, sizeof own, "%.*s%s", (int)length, text,
                   !bare                ? ""
                   : units == BITE_INCH ? "in"
                                        : "mm");
    const char *word = characteristic->judged ? judgement_of(own) : own;
    bite_status status = bite_reading_value_read(characteristic, word, value, error);
    if (status == BITE_OK && !bite_record_text_fits(word, BITE_RECORD_VALUE_MAX)) {
        return bite_error_set(error, BITE_BAD_QUANTITY, "this value cannot be recorded");
    }
    if (status != BITE_OK && error != NULL && error->hint[0] == 0) {
        bite_error_hint(error, "such as 12.03mm or 0.4735in");
    }
    if (status == BITE_OK) {
        memcpy(to, word, strlen(word) + 1);
    }
    return status;
}

bite_status bite_reading_temperature_check(double temperature, bite_error *error)
{
    if (isnan(temperature) || (temperature > coldest && temperature < hottest)) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_OUT_OF_RANGE, "nobody measures a part at this temperature");
    bite_error_hint(error, "such as 23degC");
    bite_error_key(error, "temperature");
    return BITE_OUT_OF_RANGE;
}

static double or_else(double value, double otherwise)
{
    return isnan(value) ? otherwise : value;
}

double bite_reading_temperature_uncertainty(const struct bite_record *record)
{
    return or_else(record->temperature_uncertainty, usual_temperature_uncertainty);
}

void bite_reading_correct(const struct bite_record *record,
                          const bite_characteristic *characteristic, bite_reading *reading)
{
    double gauge = characteristic->instrument_expansion;
    double part = characteristic->expansion;
    const bite_length_reading length = {
        reading->value,
        part,
        reading->temperature,
        or_else(gauge, 0.5 * steel),
        reading->temperature, /* both have lain in the same room */
        characteristic->uncertainty,
        or_else(characteristic->expansion_spread, usual_spread * fabs(part)),
        isnan(gauge) ? steel / sqrt(12.0) : instrument_spread * gauge,
        bite_reading_temperature_uncertainty(record)};
    reading->value_20 = reading->value;
    reading->uncertainty_20 = characteristic->judged ? (double)NAN : characteristic->uncertainty;
    reading->corrected = !characteristic->judged && !isnan(reading->temperature) && !isnan(part);
    if (reading->corrected) {
        reading->value_20 = bite_length_at_reference(&length);
        reading->uncertainty_20 = bite_length_uncertainty(&length);
    }
}
