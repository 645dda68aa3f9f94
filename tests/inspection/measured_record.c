/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records in memory for tests. */
#include "tests/inspection/measured_record.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define MM 1e-3
#define UM 1e-6

measured_record *measured_record_new(void)
{
    measured_record *made = calloc(1, sizeof *made);
    ck_assert_ptr_nonnull(made);
    struct bite_record *record = &made->record;
    const char **texts[] = {
        &record->job,           &record->part_name,   &record->part_number,  &record->revision,
        &record->serial,        &record->material,    &record->lot,          &record->machine,
        &record->customer,      &record->order,       &record->organization, &record->drawing,
        &record->report_number, &record->certificate, &record->note,         &record->path};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        *texts[i] = "";
    }
    record->count = record->temperature_uncertainty = (double)NAN;
    record->characteristics = made->characteristics;
    record->readings = made->readings;
    record->allocator = *bite_memory_default();
    return made;
}

bite_characteristic *measured_characteristic(measured_record *to, const char *what,
                                             bite_measured measures, double nominal, double lower,
                                             double upper, double uncertainty)
{
    const double nan = (double)NAN;
    ck_assert_uint_lt(to->record.characteristic_count, MEASURED_CHARACTERISTICS);
    bite_characteristic *made = &to->characteristics[to->record.characteristic_count++];
    const bite_characteristic stated = {.number = (uint32_t)to->record.characteristic_count,
                                        .measures = measures,
                                        .every = 1,
                                        .what = what,
                                        .zone = "",
                                        .designator = "",
                                        .note = "",
                                        .limits_from = "stated",
                                        .instrument = "",
                                        .instrument_title = "",
                                        .pass_title = "",
                                        .tool = "",
                                        .nominal = nominal * MM,
                                        .lower = lower * MM,
                                        .upper = upper * MM,
                                        .uncertainty = uncertainty * MM,
                                        .resolution = nan,
                                        .instrument_expansion = nan,
                                        .expansion = nan,
                                        .expansion_spread = nan,
                                        .wall_error = nan,
                                        .wall_error_low = nan,
                                        .wall_error_high = nan};
    *made = stated;
    return made;
}

bite_reading *measured_reading(measured_record *to, uint32_t part, double value)
{
    size_t last = to->record.characteristic_count - 1;
    size_t index = to->record.reading_count++;
    ck_assert_uint_lt(index, MEASURED_READINGS);
    const bite_reading made = {.line = index + 10,
                               .characteristic = (uint32_t)last,
                               .part = part,
                               .trial = 1,
                               .state = BITE_READING_STANDS,
                               .text = to->texts[index],
                               .person = "",
                               .note = "",
                               .value = value * MM,
                               .temperature = (double)NAN,
                               .time = (double)NAN,
                               .value_20 = value * MM,
                               .uncertainty_20 = to->characteristics[last].uncertainty};
    (void)snprintf(to->texts[index], sizeof to->texts[index], "%.3f mm", value);
    to->readings[index] = made;
    return &to->readings[index];
}

/* A row of readings of parts 1, 2 ..., some minutes apart, of parts that are a little warm. */
static void row(measured_record *to, const double *values, size_t count, double expansion)
{
    static const double began = 1796058000.0; /* 2026-11-30T13:00:00Z */
    static const double warm = 2.5;           /* K above 20 degC */
    for (size_t i = 0; i < count; i++) {
        bite_reading *reading = measured_reading(to, (uint32_t)i + 1, values[i]);
        reading->person = "R. Okafor";
        reading->time = began + 90.0 * (double)to->record.reading_count;
        reading->temperature = 293.15 + warm;
        reading->corrected = 1;
        reading->value_20 = reading->value * (1.0 - expansion * warm);
    }
}

static void example_head(struct bite_record *record, bite_units units)
{
    record->job = "cover-lens.ini";
    record->part_name = "cover lens <left>";
    record->part_number = "HI-2041";
    record->revision = "B";
    record->drawing = "HI-2041 & sheet 2";
    record->material = "acrylic/cast";
    record->lot = "L-17";
    record->machine = "bench-24k";
    record->customer = "Halden Instruments (made up)";
    record->order = "PO 5521";
    record->organization = "Corner Bench Works (made up)";
    record->report_number = "R-0042";
    record->note = "All readings of this record are invented: it shows what a report looks like.";
    record->path = "shop/cover-lens.record";
    record->count = 12.0;
    record->temperature_uncertainty = 0.5;
    record->units = (uint32_t)units;
}

/* A length that grows with the wear of the tool, and its pass. */
static void example_length(measured_record *to)
{
    static const double values[] = {38.021, 38.018, 38.024, 38.026, 38.023, 38.029,
                                    38.031, 38.030, 38.034, 38.036, 38.035, 38.038};
    bite_characteristic *made = measured_characteristic(
        to, "length over both ends", BITE_MEASURED_OUTSIDE, 38.0, 37.95, 38.05, 0.005);
    made->zone = "B2";
    made->designator = "key";
    made->instrument = "micrometer";
    made->instrument_title = "micrometer, flat faces";
    made->resolution = UM;
    made->pressed = 0.4 * UM;
    made->pass = 6;
    made->pass_title = "cut free";
    made->tool = "3mm";
    made->wall_error = 4.0 * UM;
    made->wall_error_low = 2.0 * UM;
    made->wall_error_high = 8.0 * UM;
    row(to, values, 12, 75e-6 - 11.5e-6);
}

/* A web of which one part is outside its limits and one is not proven. */
static void example_web(measured_record *to)
{
    static const double values[] = {0.608, 0.612, 0.648, 0.597, 0.615, 0.660,
                                    0.604, 0.611, 0.618, 0.622, 0.609, 0.613};
    bite_characteristic *made = measured_characteristic(
        to, "web, three places", BITE_MEASURED_THICKNESS, 0.6, 0.55, 0.65, 0.003);
    made->limits_from = "the part's tolerance";
    made->instrument_title = "micrometer, flat faces";
    made->resolution = UM;
    row(to, values, 12, 0.0);
    bite_reading *closed = measured_reading(to, 3, 0.468);
    closed->state = BITE_READING_REPLACED;
    closed->note = "digits swapped";
    bite_reading *skipped = measured_reading(to, 5, (double)NAN);
    skipped->state = BITE_READING_SKIPPED;
    skipped->text = "";
    skipped->trial = 0;
    skipped->note = "chip under the anvil, wiped and read again";
}

measured_record *measured_example(bite_units units)
{
    static const double flat[] = {0.12, 0.19, 0.29};
    measured_record *made = measured_record_new();
    example_head(&made->record, units);
    example_length(made);
    example_web(made);
    bite_characteristic *flatness = measured_characteristic(
        made, "flatness, part free", BITE_MEASURED_FLATNESS, 0.0, (double)NAN, 0.3, 0.02);
    flatness->every = 5;
    flatness->instrument_title = "feeler gauges on a surface plate";
    row(made, flat, 3, 0.0);
    bite_characteristic *clear =
        measured_characteristic(made, "no scratch, no haze", BITE_MEASURED_APPEARANCE, (double)NAN,
                                (double)NAN, (double)NAN, (double)NAN);
    clear->judged = 1;
    clear->instrument_title = "eye, oblique light";
    for (uint32_t part = 1; part <= 12; part++) {
        bite_reading *reading = measured_reading(made, part, 1000.0); /* 1: accepted */
        reading->text = "accepted";
        reading->person = "M. Lind";
    }
    return made;
}
