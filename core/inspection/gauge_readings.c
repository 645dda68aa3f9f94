/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Arranges readings by person, part and trial. */
#include "core/inspection/gauge_readings.h"
#include "core/base/error.h"
#include <math.h>
#include <string.h>

/* Readings by person and part. */
typedef struct gauge_table {
    const char **names;
    uint32_t *parts;
    size_t *counts; /* of trials, persons x parts */
    double *values; /* persons x parts x trials */
    size_t persons;
    size_t part_count;
} gauge_table;

static int counts_in(const bite_reading *reading, size_t characteristic)
{
    return reading->characteristic == characteristic && reading->state == BITE_READING_STANDS &&
           isfinite(reading->value_20);
}

/* The index of a person, which is added if it is new. */
static size_t person_of(gauge_table *table, const char *name)
{
    for (size_t i = 0; i < table->persons; i++) {
        if (strcmp(table->names[i], name) == 0) {
            return i;
        }
    }
    table->names[table->persons] = name;
    return table->persons++;
}

static size_t part_of(gauge_table *table, uint32_t part)
{
    for (size_t i = 0; i < table->part_count; i++) {
        if (table->parts[i] == part) {
            return i;
        }
    }
    table->parts[table->part_count] = part;
    return table->part_count++;
}

/* 0: there are too many. */
static int list_persons(const struct bite_record *record, size_t characteristic, gauge_table *table)
{
    for (size_t i = 0; i < record->reading_count && table->persons <= BITE_GAUGE_PERSONS_MAX; i++) {
        if (counts_in(&record->readings[i], characteristic)) {
            (void)person_of(table, record->readings[i].person);
        }
    }
    return table->persons <= BITE_GAUGE_PERSONS_MAX;
}

static int list_parts(const struct bite_record *record, size_t characteristic, gauge_table *table)
{
    for (size_t i = 0; i < record->reading_count && table->part_count <= BITE_GAUGE_PARTS_MAX;
         i++) {
        if (counts_in(&record->readings[i], characteristic)) {
            (void)part_of(table, record->readings[i].part);
        }
    }
    return table->part_count <= BITE_GAUGE_PARTS_MAX;
}

/* Who read what, and whether a study is possible at all. */
static uint32_t outline(const struct bite_record *record, size_t characteristic, size_t count,
                        gauge_table *table)
{
    if (!list_persons(record, characteristic, table)) {
        return BITE_GAUGE_TOO_MANY;
    }
    if (table->persons < 2) {
        return BITE_GAUGE_ONE_PERSON;
    }
    if (!list_parts(record, characteristic, table)) {
        return BITE_GAUGE_TOO_MANY;
    }
    return table->part_count < 2                            ? BITE_GAUGE_ONE_PART
           : count < 2 * table->persons * table->part_count ? BITE_GAUGE_NO_REPEATS
                                                            : BITE_GAUGE_STUDIED;
}

static void count_trials(const struct bite_record *record, size_t characteristic,
                         gauge_table *table)
{
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *reading = &record->readings[i];
        if (counts_in(reading, characteristic)) {
            table->counts[person_of(table, reading->person) * table->part_count +
                          part_of(table, reading->part)]++;
        }
    }
}

static uint32_t state_of(const gauge_table *table)
{
    size_t least = table->counts[0];
    size_t most = table->counts[0];
    for (size_t i = 0; i < table->persons * table->part_count; i++) {
        least = table->counts[i] < least ? table->counts[i] : least;
        most = table->counts[i] > most ? table->counts[i] : most;
    }
    return least < 2      ? BITE_GAUGE_NO_REPEATS
           : least < most ? BITE_GAUGE_UNEVEN
                          : BITE_GAUGE_STUDIED;
}

static void fill_values(const struct bite_record *record, size_t characteristic, gauge_table *table,
                        size_t trials)
{
    memset(table->counts, 0, table->persons * table->part_count * sizeof *table->counts);
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *reading = &record->readings[i];
        if (counts_in(reading, characteristic)) {
            size_t cell = person_of(table, reading->person) * table->part_count +
                          part_of(table, reading->part);
            table->values[cell * trials + table->counts[cell]++] = reading->value_20;
        }
    }
}

/* As many places as there can be persons and parts. */
static size_t standing(const struct bite_record *record, size_t characteristic)
{
    size_t count = 0;
    for (size_t i = 0; i < record->reading_count; i++) {
        count += (size_t)counts_in(&record->readings[i], characteristic);
    }
    return count;
}

bite_status bite_gauge_readings(const struct bite_record *record, size_t characteristic,
                                bite_arena *arena, bite_gauge_result *result, bite_error *error)
{
    gauge_table table = {NULL, NULL, NULL, NULL, 0, 0};
    size_t count = standing(record, characteristic);
    memset(result, 0, sizeof *result);
    table.names = bite_arena_alloc(arena, count, sizeof *table.names);
    table.parts = bite_arena_alloc(arena, count, sizeof *table.parts);
    if (table.names == NULL || table.parts == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a gauge study");
    }
    result->state = outline(record, characteristic, count, &table);
    result->persons = table.persons;
    result->parts = table.part_count;
    result->names = table.names;
    if (result->state != BITE_GAUGE_STUDIED) {
        return BITE_OK;
    }
    table.counts = bite_arena_alloc(arena, table.persons * table.part_count, sizeof *table.counts);
    table.values = bite_arena_alloc(arena, count, sizeof *table.values);
    if (table.counts == NULL || table.values == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a gauge study");
    }
    count_trials(record, characteristic, &table);
    result->state = state_of(&table);
    if (result->state == BITE_GAUGE_STUDIED) {
        result->trials = table.counts[0];
        fill_values(record, characteristic, &table, result->trials);
        (void)bite_gauge_study_by_variance(table.values, result->persons, result->parts,
                                           result->trials, BITE_GAUGE_POOL, &result->variance);
        result->has_ranges = (uint32_t)bite_gauge_study_by_ranges(
            table.values, result->persons, result->parts, result->trials, &result->ranges);
    }
    return BITE_OK;
}
