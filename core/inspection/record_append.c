/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Appending to a record: a line is in the file, whole and synced, or it is not. */
#include "core/base/error.h"
#include "core/inspection/reading_value.h"
#include "core/inspection/record.h"
#include "core/inspection/record_content.h"
#include "core/inspection/record_file.h"
#include "core/inspection/record_line.h"
#include "core/inspection/record_reader.h"
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* What is written at once: what closes a torn line, the mark, a seal, the line. */
#define MARK_LINE BITE_RECORD_MARK "\n"
#define BATCH_MAX (2 * BITE_RECORD_LINE_MAX + 64)

static bite_status refuse(bite_error *error, bite_status status, const char *key,
                          const char *message, const char *hint)
{
    bite_error_set(error, status, "%s", message);
    bite_error_hint(error, "%s", hint);
    bite_error_key(error, "%s", key);
    return status;
}

/* ---- the entry ---- */

static bite_status copy_text(const char *key, const char *text, char *to, size_t size,
                             bite_error *error)
{
    const char *from = text == NULL ? "" : text;
    if (!bite_record_text_fits(from, size)) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "this text cannot be in a record");
        bite_error_hint(error, "at most %zu bytes, without quotation marks and backslashes",
                        size - 1);
        bite_error_key(error, "%s", key);
        return BITE_OUT_OF_RANGE;
    }
    memcpy(to, from, strlen(from) + 1);
    return BITE_OK;
}

/* What a line has that does not depend on what others append. */
static bite_status fill(const struct bite_record *record, const bite_record_entry *entry,
                        bite_record_line *line, bite_error *error)
{
    bool reads = entry->action == BITE_RECORD_READ || entry->action == BITE_RECORD_SKIP;
    memset(line, 0, sizeof *line);
    line->action = entry->action;
    line->of = entry->of;
    line->part = entry->part;
    line->trial = entry->trial;
    line->temperature = entry->temperature;
    line->time = entry->time;
    line->head = record->head_checksum;
    if (reads && entry->characteristic >= record->characteristic_count) {
        return refuse(error, BITE_BAD_ARGUMENT, "characteristic", "there is no such characteristic",
                      "an index below their number");
    }
    if (reads && (entry->part < 1 || entry->part > BITE_PARTS_MAX)) {
        return refuse(error, BITE_OUT_OF_RANGE, "part", "parts are numbered from 1 to 10000",
                      "a larger lot needs several records");
    }
    if (reads) {
        line->characteristic = record->characteristics[entry->characteristic].number;
    }
    bite_status status = bite_reading_temperature_check(entry->temperature, error);
    status = status == BITE_OK
                 ? copy_text("person", entry->person, line->person, sizeof line->person, error)
                 : status;
    if (status == BITE_OK) {
        status = copy_text("note", entry->note, line->note, sizeof line->note, error);
    }
    bool reason = entry->action == BITE_RECORD_SKIP || entry->action == BITE_RECORD_SEAL;
    if (status == BITE_OK && reason && line->note[0] == 0) {
        return refuse(error, BITE_MISSING, "note", "the reason is missing",
                      "it is recorded: skip no access");
    }
    return status;
}

/* The next trial of this person. */
static uint32_t next_trial(const struct bite_record *record, uint32_t characteristic, uint32_t part,
                           const char *person)
{
    uint32_t trial = 1;
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *one = &record->readings[i];
        if (one->characteristic == characteristic && one->part == part &&
            one->state == BITE_READING_STANDS && one->trial >= trial &&
            strcmp(one->person, person) == 0) {
            trial = one->trial + 1;
        }
    }
    return trial;
}

/* A correction is of the same characteristic, part and trial, and of the same temperature. */
static bite_status take_from(const struct bite_record *record, uint64_t of, bite_record_line *line,
                             bite_error *error)
{
    const bite_reading *old = bite_record_reading_at(record, of);
    if (old == NULL) {
        bite_error_set(error, BITE_UNKNOWN_NAME, "line %" PRIu64 " is not a reading", of);
        bite_error_hint(error, "the number of a line was shown when it was recorded");
        return BITE_UNKNOWN_NAME;
    }
    line->characteristic = record->characteristics[old->characteristic].number;
    line->part = old->part;
    line->trial = old->trial == 0 ? 1 : old->trial;
    line->temperature = isnan(line->temperature) ? old->temperature : line->temperature;
    return BITE_OK;
}

static bite_status check_undo(const struct bite_record *record, uint64_t of, bite_error *error)
{
    const bite_reading *old = bite_record_reading_at(record, of);
    const bite_record_damage *damage = bite_record_damage_at(record, of);
    if ((damage != NULL && !damage->settled) ||
        (old != NULL && old->state != BITE_READING_WITHDRAWN)) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_UNKNOWN_NAME, "line %" PRIu64 " %s", of,
                   old != NULL ? "has been withdrawn already" : "is not a reading");
    bite_error_hint(error, "nothing was changed");
    return BITE_UNKNOWN_NAME;
}

/* What depends on the lines that are in the file. */
static bite_status complete(const struct bite_record *record, const bite_record_entry *entry,
                            bite_record_line *line, bite_error *error)
{
    bite_status status = BITE_OK;
    if (entry->action == BITE_RECORD_CORRECT) {
        status = take_from(record, entry->of, line, error);
    } else if (entry->action == BITE_RECORD_UNDO) {
        status = check_undo(record, entry->of, error);
    }
    size_t index = bite_record_characteristic_index(record, line->characteristic);
    if (status == BITE_OK &&
        (entry->action == BITE_RECORD_READ || entry->action == BITE_RECORD_CORRECT)) {
        double value = 0.0;
        status = bite_reading_value_type(&record->characteristics[index], record->units,
                                         entry->value, line->value, &value, error);
    }
    if (entry->action == BITE_RECORD_READ && line->trial == 0) {
        line->trial = next_trial(record, (uint32_t)index, line->part, line->person);
    }
    return status;
}

/* ---- the file ---- */

/* The mark that ends a head which had none; *used: its bytes. */
static bite_status take_mark(struct bite_record *record, const char *text, size_t size,
                             size_t *used, bite_error *error)
{
    size_t at = record->unended && size > 0 && text[0] == '\n' ? 1 : 0;
    size_t length = sizeof MARK_LINE - 1;
    if (size - at < length || memcmp(text + at, MARK_LINE, length) != 0) {
        bite_error_set(error, BITE_IO, "the head of the record has been changed");
        bite_error_hint(error, "nothing was recorded; open the record again");
        bite_error_place(error, record->path, 0, 0);
        return BITE_IO;
    }
    *used = at + length;
    record->size += *used;
    record->number++;
    record->lines++;
    record->marked = 1;
    record->unended = 0;
    return BITE_OK;
}

/* Brings the record up to date with what others, or this one, have appended. */
static bite_status catch_up(struct bite_record *record, int file, bite_error *error)
{
    char *text = NULL;
    size_t size = 0;
    size_t used = 0;
    bite_status status = bite_record_file_read(&record->allocator, file, record->path, record->size,
                                               &text, &size, error);
    if (status == BITE_OK && !record->marked && size > 0) {
        status = take_mark(record, text, size, &used, error);
    }
    if (status == BITE_OK) {
        status = bite_record_take_lines(record, text + used, size - used, error);
    }
    bite_memory_free(&record->allocator, text);
    return status;
}

static size_t add(char *batch, size_t used, const char *text)
{
    size_t length = strlen(text);
    memcpy(batch + used, text, length + 1);
    return used + length;
}

/* Writes what must be before the line; *number: that of the last line then. */
static size_t begin_batch(const struct bite_record *record, char *batch, uint64_t *number)
{
    size_t used = 0;
    *number = record->number;
    if (record->torn_line > 0) {
        used = add(batch, used, BITE_RECORD_CUT "\n");
        (*number)++;
    } else if (record->unended) {
        used = add(batch, used, "\n");
    }
    if (!record->marked) {
        used = add(batch, used, MARK_LINE);
        (*number)++;
    }
    if (!record->sealed && record->reading_count == 0 && record->damage_count == 0) {
        bite_record_line seal = {.action = BITE_RECORD_SEAL,
                                 .number = ++*number,
                                 .head = record->head_checksum,
                                 .temperature = (double)NAN,
                                 .time = (double)NAN};
        used += bite_record_line_write(&seal, batch + used, BATCH_MAX - used);
    }
    return used;
}

static bite_status write_line(struct bite_record *record, int file, bite_record_line *line,
                              bite_error *error)
{
    char batch[BATCH_MAX];
    uint64_t number = 0;
    size_t used = begin_batch(record, batch, &number);
    line->number = number + 1;
    size_t length = bite_record_line_write(line, batch + used, BITE_RECORD_LINE_MAX);
    if (length == 0) {
        return bite_error_set(error, BITE_OUT_OF_RANGE, "the line is too long for a record");
    }
    bite_status status = bite_record_file_append(record, file, batch, used + length, error);
    if (status != BITE_OK) {
        return status;
    }
    status = catch_up(record, file, error);
    if (status != BITE_OK) {
        bite_error_hint(error, "the line was recorded; open the record again and look");
    }
    return status;
}

bite_status bite_record_append(bite_record *record, const bite_record_entry *given, uint64_t *line,
                               bite_error *error)
{
    bite_record_entry own;
    const bite_record_entry *entry = &own;
    bite_record_line made;
    int file = -1;
    bite_error_clear(error);
    bite_status status = bite_record_entry_read(record, given, &own, error);
    if (status == BITE_OK && entry->action >= BITE_RECORD_ACTIONS) {
        status = bite_error_set(error, BITE_BAD_ARGUMENT, "a record and an entry were expected");
    }
    status = status != BITE_OK ? status : fill(record, entry, &made, error);
    if (status != BITE_OK) {
        return status;
    }
    status = bite_record_file_enter(record, &file, error);
    if (status != BITE_OK) {
        return status;
    }
    status = catch_up(record, file, error);
    status = status == BITE_OK ? complete(record, entry, &made, error) : status;
    status = status == BITE_OK ? write_line(record, file, &made, error) : status;
    bite_record_file_leave(file);
    if (status == BITE_OK) {
        status = bite_record_check_seal(record, error);
    }
    if (status == BITE_OK && line != NULL) {
        *line = made.number;
    }
    return status;
}
