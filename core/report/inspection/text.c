/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged record as text for a terminal. */
#include "core/report/inspection/text.h"
#include "core/report/inspection/words.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define LINE_MAX_BYTES 400
#define COLUMN 4 /* where the facts of a characteristic start */

static const int tints[BITE_FINDING_COUNT] = {[BITE_FINDING_NONE] = 0,
                                              [BITE_FINDING_CONFORMS] = 1,
                                              [BITE_FINDING_INCOMPLETE] = 2,
                                              [BITE_FINDING_NOT_PROVEN] = 2,
                                              [BITE_FINDING_DOES_NOT] = 3};

static void verdict(const bite_inspection *inspection, bite_page *page)
{
    const struct bite_record *record = inspection->record;
    bite_sentences sentences;
    char name[LINE_MAX_BYTES];
    memset(&sentences, 0, sizeof sentences);
    bite_lot_sentences(inspection, &sentences);
    (void)snprintf(name, sizeof name, "  %.150s %.150s", record->part_number, record->part_name);
    bite_page_tint(page, tints[inspection->finding], bite_lot_verdict(inspection->finding));
    bite_page_line(page, name);
    for (size_t i = 0; i < sentences.count; i++) {
        bite_page_wrap(page, "  ", "  ", sentences.text[i]);
    }
    bite_page_line(page, "");
}

static void counts(const bite_characteristic_result *result, bite_page *page)
{
    char text[LINE_MAX_BYTES];
    const size_t *found = result->found;
    (void)snprintf(text, sizeof text,
                   "%zu part%s measured%s; %zu conform, %zu not proven, %zu do not conform",
                   result->part_count, result->part_count == 1 ? "" : "s",
                   result->missing > 0 ? ", fewer than planned" : "", found[BITE_FINDING_CONFORMS],
                   found[BITE_FINDING_NOT_PROVEN], found[BITE_FINDING_DOES_NOT]);
    bite_page_wrap(page, "    ", "    ", text);
}

static void sizes(const bite_size_form *form, const bite_characteristic *characteristic,
                  const bite_characteristic_result *result, bite_page *page)
{
    char text[LINE_MAX_BYTES];
    double chance = (double)NAN;
    for (size_t i = 0; i < result->part_count; i++) {
        chance = fmin(chance, result->parts[i].chance);
    }
    (void)snprintf(text, sizeof text,
                   "limits %.70s; mean %.60s, least %.60s, most %.60s, standard deviation %.40s",
                   bite_limits_text(form, characteristic).text,
                   bite_size_number(form, result->moments.mean).text,
                   bite_size_number(form, result->moments.least).text,
                   bite_size_number(form, result->moments.most).text,
                   bite_size_spread_text(form, result->moments.deviation).text);
    bite_page_wrap(page, "    ", "    ", text);
    (void)snprintf(text, sizeof text,
                   "guard band %.40s, uncertainty of a reading %.40s; least chance that a part "
                   "conforms %.40s",
                   bite_size_spread_text(form, result->guard).text,
                   bite_size_spread_text(form, result->uncertainty).text,
                   bite_chance_text(chance).text);
    bite_page_wrap(page, "    ", "    ", text);
}

/* The study by ranges is of few persons, parts and trials. */
static void gauge_study(const bite_gauge_result *gauge, bite_page *page)
{
    char text[LINE_MAX_BYTES];
    bite_html_string share = bite_plain_number(100.0 * gauge->variance.gauge.share, 4);
    if (gauge->has_ranges) {
        (void)snprintf(text, sizeof text,
                       "gauge repeatability and reproducibility %.20s %% of the total by variance, "
                       "%.20s %% by ranges; %u and %u parts told apart",
                       share.text, bite_plain_number(100.0 * gauge->ranges.gauge.share, 4).text,
                       gauge->variance.categories, gauge->ranges.categories);
    } else {
        (void)snprintf(text, sizeof text,
                       "gauge repeatability and reproducibility %.20s %% of the total; %u parts "
                       "told apart",
                       share.text, gauge->variance.categories);
    }
    bite_page_wrap(page, "    ", "    ", text);
}

static void process(const bite_characteristic_result *result, bite_page *page)
{
    char text[LINE_MAX_BYTES];
    const bite_capability *capability = &result->capability;
    const bite_gauge_result *gauge = &result->gauge;
    if (result->has_capability) {
        (void)snprintf(text, sizeof text,
                       "Cpk %.20s (%.20s to %.20s), Ppk %.20s (%.20s to %.20s), 95 %%, parts in "
                       "order of %s",
                       bite_plain_number(capability->cpk.value, 3).text,
                       bite_plain_number(capability->cpk.low, 3).text,
                       bite_plain_number(capability->cpk.high, 3).text,
                       bite_plain_number(capability->ppk.value, 3).text,
                       bite_plain_number(capability->ppk.low, 3).text,
                       bite_plain_number(capability->ppk.high, 3).text,
                       result->by_time ? "time" : "number");
        bite_page_wrap(page, "    ", "    ", text);
    }
    if (gauge->state == BITE_GAUGE_STUDIED) {
        gauge_study(gauge, page);
    }
}

static void characteristic_text(const bite_inspection *inspection, size_t index, bite_page *page)
{
    const bite_characteristic *characteristic = &inspection->record->characteristics[index];
    const bite_characteristic_result *result = &inspection->characteristics[index];
    const bite_size_form form = bite_size_form_of(characteristic, result->uncertainty, page->units);
    char name[LINE_MAX_BYTES];
    bite_sentences sentences;
    (void)snprintf(name, sizeof name, "%3u %.200s: ", (unsigned)characteristic->number,
                   characteristic->what);
    bite_page_text(page, name);
    bite_page_tint(page, tints[result->finding], bite_finding_word(result->finding));
    bite_page_line(page, "");
    counts(result, page);
    if (characteristic->judged || result->part_count == 0) {
        return;
    }
    sizes(&form, characteristic, result, page);
    process(result, page);
    memset(&sentences, 0, sizeof sentences);
    bite_pressed_sentence(&form, characteristic, result, &sentences);
    bite_offset_sentences(&form, characteristic, &result->offset, &sentences);
    for (size_t i = 0; i < sentences.count; i++) {
        bite_page_wrap(page, "    ", "    ", sentences.text[i]);
    }
}

bite_status bite_inspection_text(const bite_inspection *inspection, bite_page *page,
                                 bite_error *error)
{
    verdict(inspection, page);
    for (size_t i = 0; i < inspection->record->characteristic_count; i++) {
        characteristic_text(inspection, i, page);
    }
    bite_page_line(page, "");
    bite_page_wrap(page, "", "", bite_decision_rule);
    return bite_page_close(page, error);
}
