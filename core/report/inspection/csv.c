/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The readings of a judged record as CSV. */
#include "core/report/inspection/csv.h"
#include "core/report/csv.h"
#include "core/report/inspection/words.h"
#include <math.h>

static const char *const columns[] = {"characteristic", "what",    "nominal",
                                      "lower",          "upper",   "unit",
                                      "part",           "trial",   "person",
                                      "time",           "state",   "read",
                                      "temperature_C",  "at_20_C", "standard_uncertainty",
                                      "finding",        "chance",  "chance_with_spread",
                                      "instrument",     "line",    "note"};

/* A number with all digits that matter; an empty field for NaN. */
static void number(bite_page *page, double value, double scale)
{
    bite_csv_field(page, 0, isfinite(value) ? bite_plain_number(value / scale, 9).text : "");
}

static void row(const bite_inspection *inspection, size_t index, bite_page *page)
{
    const bite_reading *reading = &inspection->record->readings[index];
    const bite_reading_result *result = &inspection->readings[index];
    const bite_characteristic *characteristic =
        &inspection->record->characteristics[reading->characteristic];
    const bite_size_form form = bite_size_form_of(characteristic, (double)NAN, page->units);
    double scale = characteristic->judged ? 1.0 : form.scale;
    bite_csv_field(page, 1, bite_html_count(characteristic->number).text);
    bite_csv_field(page, 0, characteristic->what);
    number(page, characteristic->nominal, form.scale);
    number(page, characteristic->lower, form.scale);
    number(page, characteristic->upper, form.scale);
    bite_csv_field(page, 0, characteristic->judged ? "" : form.unit);
    bite_csv_field(page, 0, bite_html_count(reading->part).text);
    bite_csv_field(page, 0, bite_html_count(reading->trial).text);
    bite_csv_field(page, 0, reading->person);
    bite_csv_field(page, 0, isfinite(reading->time) ? bite_moment_text(reading->time).text : "");
    bite_csv_field(page, 0, bite_reading_state_word(reading->state));
    bite_csv_field(page, 0, reading->text);
    number(page, reading->temperature - 273.15, 1.0);
    number(page, reading->value_20, scale);
    number(page, reading->uncertainty_20, form.scale);
    bite_csv_field(page, 0,
                   reading->state == BITE_READING_STANDS ? bite_finding_word(result->finding) : "");
    number(page, result->chance, 1.0);
    number(page, result->chance_known, 1.0);
    bite_csv_field(page, 0, characteristic->instrument);
    bite_csv_field(page, 0, bite_html_count((double)reading->line).text);
    bite_csv_field(page, 0, reading->note);
    bite_csv_end(page);
}

bite_status bite_inspection_csv(const bite_inspection *inspection, bite_page *page,
                                bite_error *error)
{
    for (size_t i = 0; i < sizeof columns / sizeof *columns; i++) {
        bite_csv_field(page, i == 0, columns[i]);
    }
    bite_csv_end(page);
    for (size_t i = 0; i < inspection->record->reading_count; i++) {
        row(inspection, i, page);
    }
    return bite_page_close(page, error);
}
