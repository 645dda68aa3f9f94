/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of a record: readings, corrections, what was withdrawn, and what is damaged. */
#include "core/inspection/record_content.h"
#include "core/base/error.h"
#include "core/inspection/reading_value.h"
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for a record");
}

/* ---- looking up ---- */

bite_reading *bite_record_reading_at(const struct bite_record *record, uint64_t line)
{
    size_t low = 0;
    size_t high = record->reading_count; /* their lines ascend */
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (record->readings[middle].line < line) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low < record->reading_count && record->readings[low].line == line
               ? &record->readings[low]
               : NULL;
}

bite_record_damage *bite_record_damage_at(const struct bite_record *record, uint64_t line)
{
    for (size_t i = 0; i < record->damage_count; i++) {
        if (line > 0 && line >= record->damages[i].first && line <= record->damages[i].last) {
            return &record->damages[i];
        }
    }
    return NULL;
}

size_t bite_record_characteristic_index(const struct bite_record *record, uint32_t number)
{
    for (size_t i = 0; i < record->characteristic_count; i++) {
        if (record->characteristics[i].number == number) {
            return i;
        }
    }
    return SIZE_MAX;
}

/* ---- growing ---- */

/* Makes room for one more element. */
static void *grown(const bite_allocator *allocator, void *list, size_t count, size_t *capacity,
                   size_t size)
{
    if (count < *capacity) {
        return list;
    }
    size_t more = *capacity == 0 ? 16 : 2 * *capacity;
    void *larger = bite_memory_grow(allocator, list, more, size);
    *capacity = larger == NULL ? *capacity : more;
    return larger;
}

static bite_status too_many(const struct bite_record *record, bite_error *error)
{
    bite_error_set(error, BITE_BAD_FILE, "more than %d lines are damaged: it cannot be relied on",
                   BITE_DAMAGES_MAX);
    bite_error_hint(error, "bring back a copy of the file");
    bite_error_place(error, record->path, record->lines, 0);
    return BITE_BAD_FILE;
}

static bite_status add_damage(struct bite_record *record, uint64_t first, uint64_t last,
                              const char *message, const char *hint, bite_error *error)
{
    if (record->damage_count == BITE_DAMAGES_MAX) {
        return too_many(record, error);
    }
    bite_record_damage *list = grown(&record->allocator, record->damages, record->damage_count,
                                     &record->damage_capacity, sizeof *list);
    char *text = bite_arena_text(record->arena, message, strlen(message));
    if (list == NULL || text == NULL) {
        record->damages = list == NULL ? record->damages : list;
        return no_memory(error);
    }
    record->damages = list;
    list[record->damage_count++] =
        (bite_record_damage){first, last, first == 0 ? 1 : record->lines, 0, text, hint};
    return BITE_OK;
}

static const char settle_line[] = "its text is kept; once it is clear what it was, enter undo and "
                                  "its number in coolbite measure";

static bite_status damaged(struct bite_record *record, const char *what, bite_error *error)
{
    return add_damage(record, record->number, record->number, what, settle_line, error);
}

/* ---- applying ---- */

static int counts(const bite_reading *reading)
{
    return reading->state == BITE_READING_STANDS || reading->state == BITE_READING_SKIPPED;
}

static uint32_t *done_at(const struct bite_record *record, const bite_reading *reading)
{
    return &record->done[(reading->part - 1) * record->characteristic_count +
                         reading->characteristic];
}

static void set_state(const struct bite_record *record, bite_reading *reading, uint32_t state)
{
    uint32_t *done = done_at(record, reading);
    *done -= (uint32_t)counts(reading);
    reading->state = state;
    *done += (uint32_t)counts(reading);
}

/* Makes `done` large enough for a part. */
static bite_status grow_done(struct bite_record *record, uint32_t part, bite_error *error)
{
    size_t old = record->parts * record->characteristic_count;
    if (part <= record->parts) {
        return BITE_OK;
    }
    uint32_t more = part > 2 * record->parts ? part : 2 * record->parts;
    size_t count = more * record->characteristic_count;
    uint32_t *larger = bite_memory_grow(&record->allocator, record->done, count, sizeof *larger);
    if (larger == NULL) {
        return no_memory(error);
    }
    memset(larger + old, 0, (count - old) * sizeof *larger);
    record->done = larger;
    record->parts = more;
    return BITE_OK;
}

static const char *text_of(const struct bite_record *record, const char *text)
{
    return bite_arena_text(record->arena, text, strlen(text));
}

static bite_status add_reading(struct bite_record *record, const bite_record_line *line,
                               bite_error *error)
{
    bite_reading *list = grown(&record->allocator, record->readings, record->reading_count,
                               &record->reading_capacity, sizeof *list);
    bite_reading one = {0};
    if (list == NULL) {
        return no_memory(error);
    }
    record->readings = list;
    one.line = line->number;
    one.replaces = line->of;
    one.characteristic = (uint32_t)bite_record_characteristic_index(record, line->characteristic);
    one.part = line->part;
    one.trial = line->trial;
    one.state = line->action == BITE_RECORD_SKIP ? BITE_READING_SKIPPED : BITE_READING_STANDS;
    one.text = text_of(record, line->value);
    one.person = text_of(record, line->person);
    one.note = text_of(record, line->note);
    one.value = one.value_20 = one.uncertainty_20 = (double)NAN;
    one.temperature = line->temperature;
    one.time = line->time;
    if (one.text == NULL || one.person == NULL || one.note == NULL) {
        return no_memory(error);
    }
    const bite_characteristic *of = &record->characteristics[one.characteristic];
    if (line->action != BITE_RECORD_SKIP) {
        if (bite_reading_value_read(of, one.text, &one.value, NULL) != BITE_OK) {
            return damaged(record, "the value cannot be read", error);
        }
        bite_reading_correct(record, of, &one);
    }
    bite_status status = grow_done(record, one.part, error);
    if (status == BITE_OK) {
        list[record->reading_count++] = one;
        (*done_at(record, &one))++;
    }
    return status;
}

/* The reading that stands for one: itself, or the last one that corrects it. */
static bite_reading *latest_of(const struct bite_record *record, bite_reading *reading)
{
    while (reading->state == BITE_READING_REPLACED) {
        reading = bite_record_reading_at(record, reading->closed_by);
    }
    return reading;
}

static bite_status correct(struct bite_record *record, const bite_record_line *line,
                           bite_error *error)
{
    bite_reading *old = bite_record_reading_at(record, line->of);
    if (old == NULL) {
        return damaged(record, "it corrects a line that is not a reading", error);
    }
    const bite_reading *latest = latest_of(record, old);
    uint64_t replaced = latest->state == BITE_READING_WITHDRAWN ? 0 : latest->line;
    size_t count = record->reading_count;
    bite_record_line own = *line;
    own.of = replaced; /* what was withdrawn stays so: it is a new reading */
    bite_status status = add_reading(record, &own, error);
    old = bite_record_reading_at(record, replaced);
    if (status == BITE_OK && record->reading_count > count && old != NULL) {
        set_state(record, old, BITE_READING_REPLACED);
        old->closed_by = line->number;
    }
    return status;
}

/* A correction that is withdrawn gives back the reading that it corrects. */
static bite_status undo(struct bite_record *record, const bite_record_line *line, bite_error *error)
{
    bite_reading *named = bite_record_reading_at(record, line->of);
    bite_record_damage *damage = bite_record_damage_at(record, line->of);
    if (damage != NULL) {
        damage->settled = 1;
        return BITE_OK;
    }
    if (named == NULL) {
        return damaged(record, "it withdraws a line that is not a reading", error);
    }
    bite_reading *last = latest_of(record, named);
    if (last->state == BITE_READING_WITHDRAWN) {
        return BITE_OK; /* two persons did the same */
    }
    set_state(record, last, BITE_READING_WITHDRAWN);
    last->closed_by = line->number;
    bite_reading *before = bite_record_reading_at(record, last->replaces);
    if (last == named && before != NULL) {
        set_state(record, before, before->trial == 0 ? BITE_READING_SKIPPED : BITE_READING_STANDS);
        before->closed_by = 0;
    }
    return BITE_OK;
}

static bite_status apply(struct bite_record *record, const bite_record_line *line,
                         bite_error *error)
{
    bool reads = line->action == BITE_RECORD_READ || line->action == BITE_RECORD_CORRECT ||
                 line->action == BITE_RECORD_SKIP;
    if (reads && bite_record_characteristic_index(record, line->characteristic) == SIZE_MAX) {
        return damaged(record, "the head has no characteristic of its number", error);
    }
    if (reads && line->part > BITE_PARTS_MAX) {
        return damaged(record, "its part is above 10000", error);
    }
    switch (line->action) {
    case BITE_RECORD_CORRECT:
        return correct(record, line, error);
    case BITE_RECORD_UNDO:
        return undo(record, line, error);
    case BITE_RECORD_SEAL:
        record->sealed = 1;
        record->seal = line->head;
        return BITE_OK;
    default:
        return add_reading(record, line, error);
    }
}

/* A line says its number, so that lines that were taken out, moved or copied are found. */
static bite_status check_number(struct bite_record *record, const bite_record_line *line,
                                bool *usable, bite_error *error)
{
    char message[120];
    uint64_t expected = record->number + 1;
    bool opens = record->sealed == 0 && line->action == BITE_RECORD_SEAL;
    *usable = opens || line->number >= expected;
    if (opens || line->number == expected) {
        record->number = line->number;
        return BITE_OK;
    }
    if (!*usable) {
        record->number = expected;
        (void)snprintf(message, sizeof message,
                       "the line says that it is line %" PRIu64 ": it was moved or copied",
                       line->number);
        return damaged(record, message, error);
    }
    uint64_t missing = line->number - expected;
    record->number = line->number;
    if (missing == 1) {
        (void)snprintf(message, sizeof message, "line %" PRIu64 " is missing before this one",
                       expected);
    } else {
        (void)snprintf(message, sizeof message,
                       "lines %" PRIu64 " to %" PRIu64 " are missing before this one", expected,
                       line->number - 1);
    }
    return add_damage(record, expected, line->number - 1, message,
                      "bring them back from a copy; or enter undo and the number of one of them "
                      "in coolbite measure",
                      error);
}

static bite_status take_line(struct bite_record *record, const char *text, size_t length,
                             bite_error *error)
{
    bite_record_line line;
    bool usable = false;
    length -= length > 0 && text[length - 1] == '\r'; /* an editor changed the line ends */
    bite_line_state state = bite_record_line_check(text, length);
    record->lines++;
    if (state != BITE_LINE_SOUND) {
        record->number++;
        return state == BITE_LINE_CUT
                   ? BITE_OK
                   : damaged(record,
                             "the checksum of the line is wrong: it was changed or damaged, and "
                             "is not used",
                             error);
    }
    const char *fault = bite_record_line_read(text, length, &line);
    if (fault != NULL) {
        record->number++;
        return damaged(record, fault, error);
    }
    bite_status status = check_number(record, &line, &usable, error);
    return status == BITE_OK && usable ? apply(record, &line, error) : status;
}

bite_status bite_record_take_lines(struct bite_record *record, const char *text, size_t size,
                                   bite_error *error)
{
    bite_status status = BITE_OK;
    size_t used = 0;
    const char *end = NULL;
    if (record->unended && size > 0) { /* what ended it since */
        used = text[0] == '\n';
        record->unended = 0;
    }
    while (status == BITE_OK && used < size &&
           (end = memchr(text + used, '\n', size - used)) != NULL) {
        size_t length = (size_t)(end - (text + used));
        status = take_line(record, text + used, length, error);
        used += length + 1;
    }
    size_t rest = size - used;
    record->torn_line = record->torn_size = 0;
    if (status == BITE_OK && rest > 0) {
        if (bite_record_line_check(text + used, rest) == BITE_LINE_SOUND) {
            status = take_line(record, text + used, rest, error);
            record->unended = 1;
            used = size;
        } else {
            record->torn_line = record->number + 1;
            record->torn_size = rest;
        }
    }
    record->size += used;
    return status;
}

bite_status bite_record_check_seal(struct bite_record *record, bite_error *error)
{
    const char *what = record->sealed == 0
                           ? "the checksum of the head is missing: the head may not be the one "
                             "that the readings were taken for"
                           : "the head was changed after readings were taken: sizes or limits may "
                             "not be those that they were taken for";
    bool good = record->sealed != 0 ? record->seal == record->head_checksum
                                    : record->reading_count == 0 && record->damage_count == 0;
    for (size_t i = 0; i < record->damage_count; i++) {
        if (record->damages[i].first == 0) {
            record->damages[i].settled = good;
            return BITE_OK;
        }
    }
    return good ? BITE_OK
                : add_damage(record, 0, 0, what,
                             "bring back the old head; or enter seal and the reason in coolbite "
                             "measure",
                             error);
}
