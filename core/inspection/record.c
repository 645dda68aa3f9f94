/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a whole record. */
#include "core/inspection/record.h"
#include "core/base/checksum.h"
#include "core/base/error.h"
#include "core/base/output_descriptor.h"
#include "core/base/text.h"
#include "core/inspection/record_content.h"
#include "core/inspection/record_file.h"
#include "core/inspection/record_head.h"
#include <fcntl.h>
#include <string.h>

void bite_record_free(struct bite_record *record)
{
    if (record == NULL) {
        return;
    }
    bite_allocator allocator = record->allocator;
    bite_memory_free(&allocator, record->readings);
    bite_memory_free(&allocator, record->damages);
    bite_memory_free(&allocator, record->done);
    bite_arena_free(record->arena);
    bite_memory_free(&allocator, record);
}

bite_status bite_record_begin(const bite_allocator *allocator, const char *path,
                              struct bite_record **record, bite_error *error)
{
    struct bite_record *made = bite_memory_new(allocator, 1, sizeof *made);
    if (made != NULL) {
        made->allocator = *allocator;
        made->arena = bite_arena_new(allocator);
        bite_record_head_init(made);
        made->path = made->arena == NULL ? NULL : bite_arena_text(made->arena, path, strlen(path));
    }
    if (made == NULL || made->path == NULL) {
        bite_record_free(made);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a record");
    }
    *record = made;
    return BITE_OK;
}

/* The bytes of the head, up to and with the line [readings]; all of them if there is none. *lines:
 * the number of its lines; *mark: the bytes before that line. */
static size_t head_size(const char *text, size_t size, uint32_t *lines, size_t *mark)
{
    size_t at = 0;
    *lines = 0;
    while (at < size) {
        const char *end = memchr(text + at, '\n', size - at);
        size_t next = end == NULL ? size : (size_t)(end - text) + 1;
        const char *line = text + at;
        size_t length = next - at - (end != NULL);
        length -= length > 0 && line[length - 1] == '\r';
        length = bite_text_trim(&line, length);
        (*lines)++;
        if (length == sizeof BITE_RECORD_MARK - 1 && memcmp(line, BITE_RECORD_MARK, length) == 0) {
            *mark = at;
            return next;
        }
        at = next;
    }
    *mark = size;
    return size;
}

/* The checksum of the head without what does not count: the kind of line ends, and those at its
 * end. */
static bite_status sum_head(struct bite_record *record, const char *text, size_t size,
                            bite_error *error)
{
    char *plain = bite_memory_new(&record->allocator, size + 1, 1);
    size_t used = 0;
    while (size > 0 && (bite_text_is_blank(text[size - 1]) || text[size - 1] == '\n' ||
                        text[size - 1] == '\r')) {
        size--;
    }
    if (plain == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a record");
    }
    for (size_t i = 0; i < size; i++) {
        if (!(text[i] == '\r' && i + 1 < size && text[i + 1] == '\n')) {
            plain[used++] = text[i];
        }
    }
    record->head_checksum = bite_checksum(plain, used);
    bite_memory_free(&record->allocator, plain);
    return BITE_OK;
}

static void report_damages(bite_record_reader *reader)
{
    const struct bite_record *record = reader->record;
    for (size_t i = 0; i < record->damage_count; i++) {
        const bite_record_damage *damage = &record->damages[i];
        bite_error error = BITE_ERROR_INIT;
        if (damage->settled) {
            continue;
        }
        bite_error_set(&error, BITE_BAD_FILE, "%s", damage->message);
        bite_error_hint(&error, "%s", damage->hint);
        bite_error_place(&error, record->path, damage->place, 0);
        bite_record_report(reader, &error);
    }
}

static bite_status take_all(bite_record_reader *reader, const char *text, size_t size,
                            bite_error *error)
{
    struct bite_record *record = reader->record;
    size_t mark = 0;
    size_t head = head_size(text, size, &record->lines, &mark);
    record->marked = mark < size;
    record->number = record->lines;
    record->size = head;
    record->unended = head > 0 && text[head - 1] != '\n';
    bite_status status = bite_record_head_read(reader, text, mark, error);
    status = status == BITE_OK ? sum_head(record, text, mark, error) : status;
    if (status != BITE_OK || reader->faults > 0) {
        return status;
    }
    status = bite_record_take_lines(record, text + head, size - head, error);
    status = status == BITE_OK ? bite_record_check_seal(record, error) : status;
    if (status == BITE_OK) {
        report_damages(reader);
    }
    return status;
}

bite_status bite_record_parse(const bite_allocator *allocator, const char *text, size_t size,
                              const char *path, bite_fault_sink fault, void *user,
                              struct bite_record **record, bite_error *error)
{
    bite_record_reader reader = {NULL, fault, user, BITE_ERROR_INIT, 0, 0};
    bite_status status = bite_record_begin(allocator, path, &reader.record, error);
    if (status != BITE_OK) {
        return status;
    }
    status = take_all(&reader, text, size, error);
    if (status != BITE_OK) {
        bite_record_free(reader.record);
        return status;
    }
    if (reader.faults > 0) {
        if (error != NULL) {
            *error = reader.first;
            error->faults = reader.faults;
        }
        status = BITE_BAD_FILE;
    }
    if (status == BITE_BAD_FILE && reader.record->damage_count == 0) { /* the head has faults */
        bite_record_free(reader.record);
        return status;
    }
    *record = reader.record;
    return status;
}

bite_status bite_record_read(const bite_allocator *allocator, const char *path,
                             bite_fault_sink fault, void *user, struct bite_record **record,
                             bite_error *error)
{
    char *text = NULL;
    size_t size = 0;
    struct bite_record *made = NULL;
    int file = bite_descriptor_open(AT_FDCWD, path, O_RDONLY | O_NONBLOCK | O_NOCTTY, 0);
    bite_status status = file < 0
                             ? bite_record_file_unopened(path, error)
                             : bite_record_file_read(allocator, file, path, 0, &text, &size, error);
    if (status == BITE_OK) {
        status = bite_record_parse(allocator, text, size, path, fault, user, &made, error);
    }
    if (made != NULL) {
        bite_record_file_remember(made, file);
        *record = made;
    }
    bite_memory_free(allocator, text);
    bite_descriptor_close(file);
    return status;
}

bite_status bite_record_open(const char *path, bite_fault_sink fault, void *user,
                             bite_record **record, bite_error *error)
{
    bite_error_clear(error);
    if (path == NULL || record == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a path and a record were expected");
    }
    *record = NULL;
    return bite_record_read(bite_memory_default(), path, fault, user, record, error);
}
