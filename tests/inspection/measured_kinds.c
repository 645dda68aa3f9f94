/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records of several kinds, as shops and mistakes make them. */
#include "tests/inspection/measured_kinds.h"
#include <math.h>
#include <string.h>

static const double nan_value = (double)NAN;

static measured_record *made_in(bite_units units)
{
    measured_record *made = measured_record_new();
    made->record.units = (uint32_t)units;
    return made;
}

static measured_record *one_part(bite_units units)
{
    measured_record *made = made_in(units);
    measured_characteristic(made, "width", BITE_MEASURED_OUTSIDE, 10.0, 9.9, 10.1, 0.004);
    measured_reading(made, 1, 10.012);
    return made;
}

static measured_record *many_parts(bite_units units)
{
    measured_record *made = made_in(units);
    measured_characteristic(made, "width", BITE_MEASURED_OUTSIDE, 10.0, 9.9, 10.1, 0.004);
    for (uint32_t part = 1; part <= 300; part++) {
        measured_reading(made, part, 9.85 + 0.001 * part);
    }
    measured_characteristic(made, "depth", BITE_MEASURED_DEPTH, 2.0, 1.9, 2.1, 0.01);
    for (uint32_t part = 10000; part > 9700; part--) { /* others, and backwards */
        measured_reading(made, part, 2.0);
    }
    return made;
}

static measured_record *only_judged(bite_units units)
{
    measured_record *made = made_in(units);
    measured_characteristic(made, "no scratch", BITE_MEASURED_APPEARANCE, nan_value, nan_value,
                            nan_value, nan_value)
        ->judged = 1;
    measured_reading(made, 1, 1000.0)->text = "accept"; /* 1: accepted */
    measured_reading(made, 2, 0.0)->text = "reject";
    measured_characteristic(made, "thread gauge", BITE_MEASURED_THREAD, nan_value, nan_value,
                            nan_value, nan_value)
        ->judged = 1;
    measured_reading(made, 2, 1000.0)->text = "accept";
    return made;
}

static measured_record *bare(bite_units units)
{
    measured_record *made = made_in(units);
    measured_characteristic(made, "", BITE_MEASURED_COUNT, nan_value, nan_value, nan_value,
                            nan_value);
    measured_reading(made, 3, 3.0);
    return made;
}

static measured_record *without_characteristics(bite_units units)
{
    return made_in(units);
}

static measured_record *without_readings(bite_units units)
{
    measured_record *made = one_part(units);
    made->record.reading_count = 0;
    return made;
}

static measured_record *all_skipped(bite_units units)
{
    measured_record *made = one_part(units);
    bite_reading *skipped = &made->readings[0];
    skipped->state = BITE_READING_SKIPPED;
    skipped->text = "";
    skipped->trial = 0;
    skipped->value = skipped->value_20 = skipped->uncertainty_20 = nan_value;
    return made;
}

/* What does not stand is no result; the part without another reading is none either. */
static measured_record *all_closed(bite_units units)
{
    measured_record *made = one_part(units);
    made->readings[0].state = BITE_READING_WITHDRAWN;
    measured_reading(made, 2, 10.0)->state = BITE_READING_REPLACED;
    return made;
}

/* Every kind of measure: without a lower limit, and without an upper one. */
static measured_record *every_measure(bite_units units)
{
    measured_record *made = made_in(units);
    for (uint32_t i = 0; i < BITE_MEASURED_COUNT; i++) {
        const char *what = bite_measures_word(i);
        measured_characteristic(made, what, (bite_measured)i, nan_value, nan_value, 5.0, 0.01);
        measured_reading(made, 1, 4.0);
        measured_characteristic(made, what, (bite_measured)i, 5.0, 4.0, nan_value, nan_value);
        measured_reading(made, 1, 3.0);
    }
    return made;
}

static measured_record *with_texts(bite_units units, const char *text)
{
    measured_record *made = measured_example(units);
    struct bite_record *record = &made->record;
    const char **texts[] = {
        &record->job,      &record->part_name,     &record->part_number, &record->revision,
        &record->serial,   &record->material,      &record->lot,         &record->machine,
        &record->customer, &record->order,         &record->drawing,     &record->organization,
        &record->note,     &record->report_number, &record->certificate, &record->path};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        *texts[i] = text;
    }
    for (size_t i = 0; i < record->characteristic_count; i++) {
        bite_characteristic *of = &made->characteristics[i];
        of->what = of->zone = of->designator = of->note = of->instrument = text;
        of->instrument_title = of->pass_title = of->tool = of->limits_from = text;
    }
    for (size_t i = 0; i < record->reading_count; i++) {
        made->readings[i].text = made->readings[i].person = made->readings[i].note = text;
    }
    return made;
}

/* Markup, control characters, a text that runs backwards, what is no character, and bytes that are
 * not UTF-8. */
static measured_record *odd_texts(bite_units units)
{
    return with_texts(units, " <b a=\"1\">&amp;'\x01\x08\x1b[31m\x7f\xc2\x85\t\r\n\xe2\x80\xae"
                             "abc\xe2\x81\xa6 \xe2\x80\xa8\xff\xc0\xaf\xed\xa0\x80\xef\xbf\xbe"
                             "\xef\xbf\xbf\xf4\x90\x80\x80\xf0\x9f\x94\xa9]]>--></QIFDocument>"
                             "<![CDATA[ &#0; \xe2\x82");
}

/* What is left of these is nothing, or only space. */
static measured_record *vanishing_texts(bite_units units)
{
    return with_texts(units, "\x01 \xe2\x80\xae\xff");
}

static measured_record *long_texts(bite_units units)
{
    static char text[6001];
    for (size_t i = 0; i + 3 < sizeof text; i += 3) {
        memcpy(text + i, i % 2 == 0 ? "w<&" : "\xe2\x88\x9e", 3);
    }
    measured_record *made = with_texts(units, text);
    made->record.reading_count = 10; /* the report stays below 1 MiB */
    return made;
}

static measured_record *large_sizes(bite_units units)
{
    static const double sizes[] = {999999.9999, 1e6, 1e9, 999999999999.0, -999999999999.0};
    measured_record *made = made_in(units);
    measured_characteristic(made, "width", BITE_MEASURED_OUTSIDE, 10.0, 9.9, 10.1, 0.004);
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        measured_reading(made, (uint32_t)i + 1, sizes[i])->uncertainty_20 = fabs(sizes[i]) / 1e3;
    }
    return made;
}

static measured_record *small_sizes(bite_units units)
{
    static const double sizes[] = {0.0, -0.0, 1e-9, -1e-9, -1e-300, 0.0000005};
    measured_record *made = made_in(units);
    measured_characteristic(made, "step", BITE_MEASURED_HEIGHT, -0.0, -1e-9, 1e-9, 1e-12);
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        measured_reading(made, (uint32_t)i + 1, sizes[i]);
    }
    measured_characteristic(made, "flat", BITE_MEASURED_FLATNESS, nan_value, nan_value, 1e-9,
                            1e-12);
    measured_reading(made, 1, 1e-10);
    return made;
}

/* The first and the last second that are written, and one between them in a leap year. */
static measured_record *every_time(bite_units units)
{
    static const double times[] = {0.0, 951825599.0, 253402300799.0};
    measured_record *made = one_part(units);
    for (size_t i = 0; i < sizeof times / sizeof *times; i++) {
        measured_reading(made, (uint32_t)i + 1, 10.0)->time = times[i];
    }
    return made;
}

const measured_kind measured_kinds[] = {{"example", measured_example},
                                        {"one-part", one_part},
                                        {"many-parts", many_parts},
                                        {"only-judged", only_judged},
                                        {"bare", bare},
                                        {"without-characteristics", without_characteristics},
                                        {"without-readings", without_readings},
                                        {"all-skipped", all_skipped},
                                        {"all-closed", all_closed},
                                        {"every-measure", every_measure},
                                        {"odd-texts", odd_texts},
                                        {"vanishing-texts", vanishing_texts},
                                        {"long-texts", long_texts},
                                        {"large-sizes", large_sizes},
                                        {"small-sizes", small_sizes},
                                        {"every-time", every_time}};
const size_t measured_kind_count = sizeof measured_kinds / sizeof *measured_kinds;

const measured_kind *measured_kind_find(const char *name)
{
    for (size_t i = 0; i < measured_kind_count; i++) {
        if (strcmp(measured_kinds[i].name, name) == 0) {
            return &measured_kinds[i];
        }
    }
    return NULL;
}
