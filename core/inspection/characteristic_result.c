/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges one characteristic: its readings, its parts, and what they say of the process. */
#include "core/inspection/characteristic_result.h"
#include "core/base/error.h"
#include "core/inspection/record_order.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

size_t bite_planned_parts(double count, uint32_t every)
{
    static const double most = 1e9;
    if (!(count >= 1.0 && count <= most) || every == 0) {
        return 0;
    }
    double last = floor(count) - 1.0; /* parts after the first */
    double steps = floor(last / (double)every);
    return 1 + (size_t)steps + (steps * (double)every < last ? 1 : 0);
}

static bite_size_limits limits_of(const bite_characteristic *characteristic)
{
    const bite_size_limits limits = {characteristic->lower, characteristic->upper};
    return limits;
}

static int stands(const bite_reading *reading, size_t characteristic)
{
    return reading->characteristic == characteristic && reading->state == BITE_READING_STANDS &&
           isfinite(reading->value);
}

/* What is judged: the size at 20 degC; of a characteristic that is judged by eye, the judgement. */
static double value_of(const bite_characteristic *characteristic, const bite_reading *reading)
{
    return characteristic->judged ? reading->value : reading->value_20;
}

static bite_finding find(const bite_characteristic *characteristic, double value,
                         double uncertainty)
{
    const bite_size_limits limits = limits_of(characteristic);
    if (characteristic->judged) {
        return value > 0.5 ? BITE_FINDING_CONFORMS : BITE_FINDING_DOES_NOT;
    }
    return bite_size_finding(&limits, value, uncertainty);
}

static double chance(const bite_characteristic *characteristic, double value, double uncertainty)
{
    const bite_size_limits limits = limits_of(characteristic);
    int none = isnan(limits.lower) && isnan(limits.upper);
    return characteristic->judged || none || isnan(uncertainty)
               ? (double)NAN
               : bite_conformity_chance(&limits, value, uncertainty);
}

static void count_states(const struct bite_record *record, size_t characteristic,
                         bite_characteristic_result *result)
{
    size_t *const counts[] = {[BITE_READING_STANDS] = &result->stands,
                              [BITE_READING_REPLACED] = &result->replaced,
                              [BITE_READING_WITHDRAWN] = &result->withdrawn,
                              [BITE_READING_SKIPPED] = &result->skipped};
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *reading = &record->readings[i];
        if (reading->characteristic == characteristic && reading->state <= BITE_READING_SKIPPED) {
            (*counts[reading->state])++;
        }
    }
}

/* ---- parts ---- */

/* The larger of two uncertainties; NaN if one is not known. */
static double larger(double first, double second)
{
    return isnan(first) || isnan(second) ? (double)NAN : fmax(first, second);
}

static int by_part(const void *first, const void *second)
{
    const bite_reading *a = *(const bite_reading *const *)first;
    const bite_reading *b = *(const bite_reading *const *)second;
    if (a->part != b->part) {
        return a->part < b->part ? -1 : 1;
    }
    return a->line < b->line ? -1 : a->line > b->line;
}

static int by_time(const void *first, const void *second)
{
    const bite_part_value *a = first;
    const bite_part_value *b = second;
    if (a->time < b->time || a->time > b->time) {
        return a->time < b->time ? -1 : 1;
    }
    return a->part < b->part ? -1 : a->part > b->part;
}

/* The readings of one part, which follow each other. */
static void merge(const bite_characteristic *characteristic, const bite_reading *const *readings,
                  size_t count, bite_part_value *part)
{
    bite_sum sum = {0.0, 0.0};
    double first = value_of(characteristic, readings[0]);
    memset(part, 0, sizeof *part);
    part->part = readings[0]->part;
    part->count = (uint32_t)count;
    part->least = part->most = first;
    part->time = part->chance = part->chance_known = (double)NAN;
    for (size_t i = 0; i < count; i++) {
        double value = value_of(characteristic, readings[i]);
        double own = readings[i]->uncertainty_20;
        uint32_t finding = find(characteristic, value, own);
        bite_sum_add(&sum, value - first);
        part->least = fmin(part->least, value);
        part->most = fmax(part->most, value);
        part->finding = finding > part->finding ? finding : part->finding;
        part->uncertainty = larger(part->uncertainty, own);
        part->time = fmin(part->time, readings[i]->time); /* fmin passes over NaN */
        part->chance = fmin(part->chance, chance(characteristic, value, own));
    }
    part->value = first + bite_sum_total(&sum) / (double)count;
}

static size_t merge_all(const bite_characteristic *characteristic,
                        const bite_reading *const *readings, size_t count, bite_part_value *parts)
{
    size_t made = 0;
    for (size_t from = 0; from < count;) {
        size_t to = from + 1;
        while (to < count && readings[to]->part == readings[from]->part) {
            to++;
        }
        merge(characteristic, readings + from, to - from, &parts[made]);
        parts[made++].first = (uint32_t)from;
        from = to;
    }
    return made;
}

/* Orders the parts by time if each has one. */
static uint32_t order(bite_part_value *parts, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (isnan(parts[i].time)) {
            return 0;
        }
    }
    qsort(parts, count, sizeof *parts, by_time);
    return count > 0;
}

static bite_status list_parts(const struct bite_record *record, size_t characteristic,
                              bite_arena *arena, bite_characteristic_result *result,
                              bite_error *error)
{
    const bite_characteristic *judged = &record->characteristics[characteristic];
    size_t count = 0;
    const bite_reading **readings = bite_arena_alloc(arena, result->stands, sizeof *readings);
    bite_part_value *parts = bite_arena_alloc(arena, result->stands, sizeof *parts);
    double *values = bite_arena_alloc(arena, result->stands, sizeof *values);
    if (readings == NULL || parts == NULL || values == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the parts of a record");
    }
    for (size_t i = 0; i < record->reading_count; i++) {
        if (stands(&record->readings[i], characteristic)) {
            readings[count++] = &record->readings[i];
        }
    }
    if (count > 0) {
        qsort(readings, count, sizeof *readings, by_part);
    }
    result->part_count = merge_all(judged, readings, count, parts);
    result->by_time = order(parts, result->part_count);
    result->uncertainty = result->part_count == 0 ? (double)NAN : 0.0;
    for (size_t i = 0; i < result->part_count; i++) {
        values[i] = parts[i].value;
        double own = parts[i].uncertainty;
        result->uncertainty =
            isnan(own) || isnan(result->uncertainty) ? (double)NAN : fmax(result->uncertainty, own);
    }
    result->readings = readings;
    result->parts = parts;
    result->values = values;
    return BITE_OK;
}

/* ---- the process ---- */

/* The chance of each reading and part with what the other parts show. */
static void add_spread(const struct bite_record *record, const bite_size_limits *limits,
                       const bite_prior *prior, bite_reading_result *readings,
                       bite_characteristic_result *result)
{
    for (size_t i = 0; i < result->part_count; i++) {
        bite_part_value *part = &result->parts[i];
        for (size_t k = 0; k < part->count; k++) {
            const bite_reading *reading = result->readings[part->first + k];
            double known = bite_conformity_chance_known(prior, limits, reading->value_20,
                                                        reading->uncertainty_20);
            readings[reading - record->readings].chance_known = known;
            part->chance_known = fmin(part->chance_known, known);
        }
    }
    result->has_risk = (uint32_t)bite_conformity_risk_of(prior, limits, result->uncertainty,
                                                         result->guard, &result->risk);
}

static void judge_process(const struct bite_record *record, size_t characteristic,
                          bite_reading_result *readings, bite_characteristic_result *result)
{
    const bite_characteristic *judged = &record->characteristics[characteristic];
    const bite_size_limits limits = limits_of(judged);
    bite_prior prior;
    bite_moments_of(result->values, result->part_count, &result->moments);
    result->guard = bite_conformity_guard(result->uncertainty, BITE_PROOF_CONFIDENCE);
    result->ratio = bite_conformity_ratio(&limits, result->uncertainty);
    result->spread =
        bite_size_spread(result->values, result->part_count, result->uncertainty, &prior);
    if (result->spread == BITE_SPREAD_KNOWN && !(isnan(limits.lower) && isnan(limits.upper))) {
        add_spread(record, &limits, &prior, readings, result);
    }
    result->has_capability =
        result->part_count >= BITE_SPREAD_PARTS && result->moments.deviation > 0.0 &&
        bite_capability_of(result->values, result->part_count, limits.lower, limits.upper,
                           BITE_PROOF_CONFIDENCE, &result->capability);
    const bite_offset_question question = {
        result->values,         result->part_count,     judged->measures,    judged->nominal,
        judged->lower,          judged->upper,          result->uncertainty, judged->wall_error,
        judged->wall_error_low, judged->wall_error_high};
    bite_wear_offset_of(&question, &result->offset);
}

static void conclude(const struct bite_record *record, const bite_characteristic *judged,
                     bite_characteristic_result *result)
{
    uint32_t worst = BITE_FINDING_NONE;
    size_t due = 0;
    for (size_t i = 0; i < result->part_count; i++) {
        uint32_t finding = result->parts[i].finding;
        due += (size_t)bite_record_is_due(record, judged, result->parts[i].part);
        result->found[finding]++;
        worst = finding > worst ? finding : worst;
    }
    result->planned = bite_planned_parts(record->count, judged->every);
    result->missing = result->planned > due ? result->planned - due : 0;
    result->finding =
        worst == BITE_FINDING_CONFORMS && result->missing > 0 ? BITE_FINDING_INCOMPLETE : worst;
}

bite_status bite_characteristic_judge(const struct bite_record *record, size_t characteristic,
                                      bite_arena *arena, bite_reading_result *readings,
                                      bite_characteristic_result *result, bite_error *error)
{
    const bite_characteristic *judged = &record->characteristics[characteristic];
    memset(result, 0, sizeof *result);
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *reading = &record->readings[i];
        if (reading->characteristic == characteristic) {
            const bite_reading_result none = {BITE_FINDING_NONE, 0, (double)NAN, (double)NAN};
            readings[i] = none;
        }
        if (stands(reading, characteristic)) {
            double value = value_of(judged, reading);
            readings[i].finding = find(judged, value, reading->uncertainty_20);
            readings[i].chance = chance(judged, value, reading->uncertainty_20);
        }
    }
    count_states(record, characteristic, result);
    bite_status status = list_parts(record, characteristic, arena, result, error);
    if (status != BITE_OK) {
        return status;
    }
    result->guard = result->ratio = (double)NAN;
    bite_moments_of(NULL, 0, &result->moments);
    if (!judged->judged) {
        judge_process(record, characteristic, readings, result);
        status = bite_gauge_readings(record, characteristic, arena, &result->gauge, error);
    }
    conclude(record, judged, result);
    return status;
}
