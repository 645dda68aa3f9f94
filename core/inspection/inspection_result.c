/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges a whole record: characteristics, parts, the lot. */
#include "core/inspection/inspection_result.h"
#include "core/base/error.h"
#include "core/inspection/record.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static int by_number(const void *first, const void *second)
{
    const bite_part_result *a = first;
    const bite_part_result *b = second;
    return a->part < b->part ? -1 : a->part > b->part;
}

/* Parts that follow each other with the same number become one; returns how many are left. */
static size_t merge(bite_part_result *parts, size_t count)
{
    size_t made = 0;
    if (count > 0) {
        qsort(parts, count, sizeof *parts, by_number);
    }
    for (size_t i = 0; i < count; i++) {
        if (made == 0 || parts[made - 1].part != parts[i].part) {
            parts[made++] = parts[i];
            continue;
        }
        bite_part_result *last = &parts[made - 1];
        last->finding = parts[i].finding > last->finding ? parts[i].finding : last->finding;
        last->measured += parts[i].measured;
        last->missing += parts[i].missing;
    }
    return made;
}

static int is_number(const void *key, const void *part)
{
    uint32_t number = *(const uint32_t *)key;
    uint32_t other = ((const bite_part_result *)part)->part;
    return number < other ? -1 : number > other;
}

/* How many characteristics are measured on every part. */
static size_t of_every_part(const struct bite_record *record)
{
    size_t count = 0;
    for (size_t i = 0; i < record->characteristic_count; i++) {
        count += record->characteristics[i].every == 1;
    }
    return count;
}

/* Counts, of each part, the readings that are missing: those of characteristics of every part. */
static void count_missing(bite_inspection *inspection)
{
    const struct bite_record *record = inspection->record;
    size_t wanted = of_every_part(record);
    for (size_t i = 0; i < inspection->part_count; i++) {
        inspection->parts[i].missing = wanted;
    }
    for (size_t i = 0; i < record->characteristic_count; i++) {
        const bite_characteristic_result *result = &inspection->characteristics[i];
        for (size_t k = 0; k < result->part_count && record->characteristics[i].every == 1; k++) {
            bite_part_result *part =
                bsearch(&result->parts[k].part, inspection->parts, inspection->part_count,
                        sizeof *inspection->parts, is_number);
            part->missing -= part->missing > 0 ? 1 : 0;
        }
    }
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

/* The readings of each part, of all characteristics. */
static bite_status list_readings(bite_inspection *inspection, bite_error *error)
{
    const struct bite_record *record = inspection->record;
    size_t count = 0;
    inspection->by_part =
        bite_arena_alloc(inspection->arena, record->reading_count, sizeof *inspection->by_part);
    if (inspection->by_part == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the parts of a record");
    }
    for (size_t i = 0; i < record->reading_count; i++) {
        if (record->readings[i].state == BITE_READING_STANDS ||
            record->readings[i].state == BITE_READING_SKIPPED) {
            inspection->by_part[count++] = &record->readings[i];
        }
    }
    if (count > 0) {
        qsort(inspection->by_part, count, sizeof *inspection->by_part, by_part);
    }
    for (size_t i = 0; i < count; i++) {
        bite_part_result *part =
            bsearch(&inspection->by_part[i]->part, inspection->parts, inspection->part_count,
                    sizeof *inspection->parts, is_number);
        if (part != NULL) { /* a part of which nothing but skipped readings is known is none */
            part->first = part->count == 0 ? i : part->first;
            part->count++;
        }
    }
    return BITE_OK;
}

static bite_status list_parts(bite_inspection *inspection, bite_error *error)
{
    size_t count = 0;
    for (size_t i = 0; i < inspection->record->characteristic_count; i++) {
        count += inspection->characteristics[i].part_count;
    }
    inspection->parts = bite_arena_alloc(inspection->arena, count, sizeof *inspection->parts);
    if (inspection->parts == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the parts of a record");
    }
    count = 0;
    for (size_t i = 0; i < inspection->record->characteristic_count; i++) {
        const bite_characteristic_result *result = &inspection->characteristics[i];
        for (size_t k = 0; k < result->part_count; k++) {
            const bite_part_result part = {
                result->parts[k].part, result->parts[k].finding, 1, 0, 0, 0};
            inspection->parts[count++] = part;
        }
    }
    inspection->part_count = merge(inspection->parts, count);
    count_missing(inspection);
    for (size_t i = 0; i < inspection->part_count; i++) {
        bite_part_result *part = &inspection->parts[i];
        if (part->finding == BITE_FINDING_CONFORMS && part->missing > 0) {
            part->finding = BITE_FINDING_INCOMPLETE;
        }
        inspection->found[part->finding]++;
    }
    return list_readings(inspection, error);
}

/* ---- the record as a whole ---- */

static void add_person(bite_inspection *inspection, const char *name)
{
    for (size_t i = 0; i < inspection->person_count; i++) {
        if (strcmp(inspection->persons[i], name) == 0) {
            return;
        }
    }
    if (inspection->person_count < BITE_PERSONS_LISTED && name[0] != 0) {
        inspection->persons[inspection->person_count++] = name;
    }
}

static void survey(bite_inspection *inspection)
{
    const struct bite_record *record = inspection->record;
    inspection->first_time = inspection->last_time = (double)NAN;
    inspection->coldest = inspection->warmest = (double)NAN;
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *reading = &record->readings[i];
        if (reading->state == BITE_READING_STANDS) { /* fmin and fmax pass over NaN */
            inspection->first_time = fmin(inspection->first_time, reading->time);
            inspection->last_time = fmax(inspection->last_time, reading->time);
            inspection->coldest = fmin(inspection->coldest, reading->temperature);
            inspection->warmest = fmax(inspection->warmest, reading->temperature);
            add_person(inspection, reading->person);
        }
    }
}

/* A record with damages that nobody has settled may lack a reading, or the correction of one: it
 * proves nothing good. */
static void conclude(bite_inspection *inspection)
{
    uint32_t worst = BITE_FINDING_NONE;
    size_t most = 0;
    for (size_t i = 0; i < inspection->record->characteristic_count; i++) {
        const bite_characteristic_result *result = &inspection->characteristics[i];
        worst = result->finding > worst ? result->finding : worst;
        most = result->planned > most ? result->planned : most;
        inspection->stands += result->stands;
        inspection->replaced += result->replaced;
        inspection->withdrawn += result->withdrawn;
        inspection->skipped += result->skipped;
        inspection->missing += result->missing;
    }
    inspection->unsettled = bite_record_unsettled(inspection->record);
    inspection->short_of_parts = inspection->part_count < most;
    if (worst == BITE_FINDING_CONFORMS &&
        (inspection->missing > 0 || inspection->found[BITE_FINDING_INCOMPLETE] > 0)) {
        worst = BITE_FINDING_INCOMPLETE;
    }
    if (worst < BITE_FINDING_NOT_PROVEN && inspection->unsettled > 0) {
        worst = BITE_FINDING_NOT_PROVEN;
    }
    inspection->finding = worst;
}

static bite_status judge(bite_inspection *inspection, bite_error *error)
{
    const struct bite_record *record = inspection->record;
    bite_arena *arena = inspection->arena;
    inspection->readings =
        bite_arena_alloc(arena, record->reading_count, sizeof *inspection->readings);
    inspection->characteristics =
        bite_arena_alloc(arena, record->characteristic_count, sizeof *inspection->characteristics);
    inspection->persons = bite_arena_alloc(arena, BITE_PERSONS_LISTED, sizeof *inspection->persons);
    if (inspection->readings == NULL || inspection->characteristics == NULL ||
        inspection->persons == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to judge a record");
    }
    for (size_t i = 0; i < record->characteristic_count; i++) {
        bite_status status = bite_characteristic_judge(record, i, arena, inspection->readings,
                                                       &inspection->characteristics[i], error);
        if (status != BITE_OK) {
            return status;
        }
    }
    bite_status status = list_parts(inspection, error);
    survey(inspection);
    conclude(inspection);
    return status;
}

bite_status bite_inspection_new(const struct bite_record *record, bite_inspection **inspection,
                                bite_error *error)
{
    bite_inspection *fresh = NULL;
    bite_arena *arena = bite_arena_new(&record->allocator);
    if (arena != NULL) {
        fresh = bite_arena_alloc(arena, 1, sizeof *fresh);
    }
    if (fresh == NULL) {
        bite_arena_free(arena);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to judge a record");
    }
    fresh->arena = arena;
    fresh->record = record;
    bite_status status = judge(fresh, error);
    if (status != BITE_OK) {
        bite_arena_free(arena);
        return status;
    }
    *inspection = fresh;
    return BITE_OK;
}

bite_status bite_record_verdict(const bite_record *record, uint32_t *verdict, bite_error *error)
{
    static const uint32_t verdicts[BITE_FINDING_COUNT] = {[BITE_FINDING_NONE] = BITE_UNKNOWN,
                                                          [BITE_FINDING_CONFORMS] = BITE_CLEAR,
                                                          [BITE_FINDING_INCOMPLETE] = BITE_TIGHT,
                                                          [BITE_FINDING_NOT_PROVEN] = BITE_TIGHT,
                                                          [BITE_FINDING_DOES_NOT] = BITE_OVER};
    bite_inspection *inspection = NULL;
    bite_error_clear(error);
    if (record == NULL || verdict == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a record, and a place for its verdict, were expected");
    }
    bite_status status = bite_inspection_new(record, &inspection, error);
    if (status == BITE_OK) {
        *verdict = verdicts[inspection->finding];
    }
    bite_inspection_free(inspection);
    return status;
}

void bite_inspection_free(bite_inspection *inspection)
{
    if (inspection != NULL) {
        bite_arena_free(inspection->arena); /* holds the inspection too */
    }
}
