/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop's own times. The user's table is replaced as a whole or not at all. */
#include "core/base/draft_file.h"
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/job/plan.h"
#include "core/job/title_key.h"
#include "core/library/schema.h"
#include "core/library/search_path.h"
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define TABLE_MOST ((size_t)1 << 20)
#define TITLE_MOST 980 /* a line of a table has 1000 bytes */
#define NAME_MOST (BITE_TITLE_NAME_MAX + 20)

/* The new table: its bytes, with space for one more record. */
typedef struct table_text {
    char *text;
    size_t used;
    size_t capacity;
} table_text;

static int add(table_text *out, const char *text, size_t length)
{
    if (length >= out->capacity - out->used) {
        return 0;
    }
    memcpy(out->text + out->used, text, length);
    out->used += length;
    return 1;
}

static int add_record(table_text *out, const char *name, const char *title, double planned,
                      double took)
{
    char record[400 + TITLE_MOST];
    char planned_text[40];
    char took_text[40];
    (void)bite_number_write(planned, 6, planned_text, sizeof planned_text);
    (void)bite_number_write(took, 6, took_text, sizeof took_text);
    int length = snprintf(record, sizeof record,
                          "\n[time.%s]\ntitle = \"%s\"\nplanned = %s s\n"
                          "planned.source = estimate: planned by this library\n"
                          "took = %s s\ntook.source = common-practice: measured in this shop\n",
                          name, title, planned_text, took_text);
    return length > 0 && (size_t)length < sizeof record && add(out, record, (size_t)length);
}

/* Creates the folders of the path that do not exist. */
static void make_folders(char *path)
{
    for (char *slash = path; *slash != 0; slash++) {
        if (*slash == '/' && slash != path) {
            *slash = 0;
            (void)mkdir(path, 0755); /* if this fails, writing the file reports it */
            *slash = '/';
        }
    }
}

/* The records of a table that belong to one job. */
typedef struct job_records {
    const bite_table *table; /* NULL: there is no table yet */
    const char *title;       /* as a value of the table */
    char name[BITE_TITLE_NAME_MAX];
    bool titled; /* some record has this title, so those without a title are not of this job */
} job_records;

static const bite_section *record_at(const job_records *records, size_t index)
{
    return records->table == NULL ? NULL : bite_table_at(records->table, index);
}

static bool has_title(const job_records *records, const bite_section *record)
{
    const bite_field_value *title = bite_section_value(record, "title");
    return title != NULL && strcmp(title->text, records->title) == 0;
}

/* A record without a title was written by hand, or before titles were kept: its name is compared.
 */
static bool is_of_job(const job_records *records, const bite_section *record)
{
    if (bite_section_value(record, "title") != NULL) {
        return has_title(records, record);
    }
    return !records->titled && bite_text_equals(record->tail, records->name);
}

/* Sets records->titled and returns the number of the job's records. */
static size_t find_records(job_records *records)
{
    const bite_section *record = NULL;
    size_t count = 0;
    for (size_t i = 0; (record = record_at(records, i)) != NULL; i++) {
        records->titled = records->titled || has_title(records, record);
    }
    for (size_t i = 0; (record = record_at(records, i)) != NULL; i++) {
        count += is_of_job(records, record);
    }
    return count;
}

static bool begins_record_of_job(const job_records *records, uint32_t line)
{
    const bite_section *record = NULL;
    for (size_t i = 0; (record = record_at(records, i)) != NULL; i++) {
        if (record->line == line) {
            return is_of_job(records, record);
        }
    }
    return false;
}

static bool is_used(const job_records *records, const char *name)
{
    const bite_section *record = NULL;
    for (size_t i = 0; (record = record_at(records, i)) != NULL; i++) {
        if (!is_of_job(records, record) && bite_text_equals(record->tail, name)) {
            return true;
        }
    }
    return false;
}

/* The name of the title, with a number appended if a record of another title has that name:
 * lens-1-2, lens-1-2-2. */
static void name_record(const job_records *records, char name[NAME_MOST])
{
    (void)snprintf(name, NAME_MOST, "%s", records->name);
    for (unsigned number = 2; is_used(records, name); number++) {
        (void)snprintf(name, NAME_MOST, "%s-%u", records->name, number);
    }
}

/* Copies all lines except those of the job's records; comments written between them are kept. */
static int copy_others(table_text *out, const char *text, const job_records *records)
{
    bool copies = true;
    for (uint32_t line = 1; *text != 0; line++) {
        size_t length = strcspn(text, "\n");
        length += text[length] == '\n';
        const char first = text[strspn(text, " \t\r\n")];
        copies = first == '[' ? !begins_record_of_job(records, line) : copies;
        if ((copies || first == '#') && !add(out, text, length)) {
            return 0;
        }
        text += length;
    }
    return out->used == 0 || out->text[out->used - 1] == '\n' || add(out, "\n", 1);
}

static bite_status full(const char *path, const char *why, bite_error *error)
{
    bite_error_set(error, BITE_CANNOT_WRITE,
                   "this table of times is full and was left unchanged: %s", why);
    bite_error_hint(error,
                    "remove old times (--took forget), or move this file away to start a new one");
    bite_error_place(error, path, 0, 0);
    return BITE_CANNOT_WRITE;
}

static bite_status add_time(const bite_job *job, const char *path, const job_records *records,
                            double seconds, table_text *out, bite_error *error)
{
    char name[NAME_MOST];
    if (strlen(records->title) > TITLE_MOST) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "the title is too long to keep a time under it");
        bite_error_hint(error, "at most %d bytes", TITLE_MOST);
        return BITE_OUT_OF_RANGE;
    }
    name_record(records, name);
    return add_record(out, name, records->title, job->time.whole, seconds)
               ? BITE_OK
               : full(path, "it is larger than a table may be", error);
}

/* Writes what replaces the old table (old NULL: there is none yet). seconds NaN: the record is
 * removed. */
static bite_status rewrite(const bite_job *job, const char *path, const char *old,
                           job_records *records, double seconds, table_text *out, bite_error *error)
{
    static const char head[] = "# Times of jobs in this shop, planned and taken; plans are "
                               "corrected by them.\n[format]\nkind = times\nversion = 1\n";
    if (find_records(records) == 0 && isnan(seconds)) {
        bite_error_set(error, BITE_UNKNOWN_NAME, "no time is kept for this job");
        bite_error_key(error, "%.60s", records->name);
        bite_error_hint(error, "coolbite list times shows all that are kept");
        return BITE_UNKNOWN_NAME;
    }
    if (!(old == NULL ? add(out, head, sizeof head - 1) : copy_others(out, old, records))) {
        return full(path, "it is larger than a table may be", error);
    }
    return isnan(seconds) ? BITE_OK : add_time(job, path, records, seconds, out, error);
}

/* Reads a draft as the reader of the table will. */
static bite_status read_back(const bite_job *job, const char *path, const table_text *written,
                             int file, bite_error *error)
{
    char *text = NULL;
    size_t size = 0;
    bite_table *table = NULL;
    bite_error fault = BITE_ERROR_INIT;
    if (lseek(file, 0, SEEK_SET) != 0) {
        bite_error_set(error, BITE_IO, "the new table of times cannot be read back");
        bite_error_place(error, path, 0, 0);
        return BITE_IO;
    }
    bite_status status =
        bite_file_read_open(&job->allocator, file, path, TABLE_MOST, &text, &size, error);
    if (status != BITE_OK) {
        return status;
    }
    if (size != written->used || memcmp(text, written->text, size) != 0) {
        status = bite_error_set(error, BITE_IO, "the new table of times was not stored as written");
        bite_error_place(error, path, 0, 0);
    } else {
        status = bite_table_parse(&job->allocator, text, size, path, bite_time_records_schema(),
                                  NULL, NULL, &table, &fault);
        status = status == BITE_BAD_FILE ? full(path, fault.message, error)
                 : status == BITE_OK     ? BITE_OK
                                         : bite_error_set(error, status, "%s", fault.message);
    }
    bite_table_free(table);
    bite_memory_free(&job->allocator, text);
    return status;
}

/* A table that a group or others may write is not read again (core/library/path_trust.h), so no
 * umask may make it one. */
static void keep_to_owner(int file)
{
    struct stat about;
    if (fstat(file, &about) == 0 && (about.st_mode & (S_IWGRP | S_IWOTH)) != 0) {
        (void)fchmod(file, about.st_mode & 07777 & ~(mode_t)(S_IWGRP | S_IWOTH));
    }
}

/* The new table replaces the old one once its reader has accepted it. */
static bite_status replace(const bite_job *job, const char *path, const bite_target *target,
                           const table_text *with, bite_error *error)
{
    bite_draft draft;
    bite_status status = bite_draft_new(path, target, with->text, with->used, &draft, error);
    if (status != BITE_OK) {
        return status;
    }
    if (target->kind == BITE_TARGET_NEW) {
        keep_to_owner(draft.file);
    }
    status = read_back(job, path, with, draft.file, error);
    if (status != BITE_OK) {
        bite_draft_drop(&draft);
        return status;
    }
    return bite_draft_keep(&draft, error);
}

/* Reads, changes and writes the table; a broken table is not overwritten. */
static bite_status change_target(const bite_job *job, bite_arena *arena, const char *path,
                                 const bite_target *target, double seconds, bite_error *error)
{
    table_text out = {bite_arena_alloc(arena, TABLE_MOST, 1), 0, TABLE_MOST};
    job_records records = {NULL, bite_title_value(arena, job->title), "", false};
    char *old = NULL;
    size_t size = 0;
    bite_table *table = NULL;
    bite_status status = BITE_OK;
    if (out.text == NULL || records.title == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the times");
    }
    bite_title_name(job->title, records.name);
    if (target->kind ==
        BITE_TARGET_FILE) { /* anything else cannot be replaced, which writing reports */
        status = bite_file_read(&job->allocator, path, TABLE_MOST, &old, &size, error);
    }
    if (status == BITE_OK && old != NULL) {
        status = bite_table_parse(&job->allocator, old, size, path, bite_time_records_schema(),
                                  NULL, NULL, &table, error);
        records.table = table;
    }
    status = status == BITE_OK ? rewrite(job, path, old, &records, seconds, &out, error) : status;
    status = status == BITE_OK ? replace(job, path, target, &out, error) : status;
    bite_table_free(table);
    bite_memory_free(&job->allocator, old);
    return status;
}

static bite_status change_locked(const bite_job *job, bite_arena *arena, const char *path,
                                 double seconds, bite_error *error)
{
    bite_target target;
    bite_status status = bite_target_find(path, &target, error);
    if (status == BITE_OK) {
        status = change_target(job, arena, path, &target, seconds, error);
        bite_target_close(&target);
    }
    return status;
}

static bite_status change(const bite_job *job, double seconds, bite_error *error)
{
    const char *folder = NULL;
    int lock = -1;
    bite_arena *arena = bite_arena_new(&job->allocator);
    bite_status status = arena == NULL
                             ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the times")
                             : bite_search_path_user_data(arena, &folder, error);
    char *path = status == BITE_OK ? bite_path_join(arena, folder, "times.ini") : NULL;
    if (status == BITE_OK && path == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the times");
    }
    if (status == BITE_OK) {
        make_folders(path);
        status = bite_file_lock(path, &lock, error);
    }
    if (status == BITE_OK) {
        status = change_locked(job, arena, path, seconds, error);
        bite_file_unlock(lock);
    }
    bite_arena_free(arena);
    return status;
}

bite_status bite_job_time_add(const bite_job *job, double seconds, bite_error *error)
{
    bite_error_clear(error);
    if (job == NULL || !(seconds > 0.0 && seconds < 1e8)) {
        bite_error_set(error, BITE_BAD_ARGUMENT, "a job and the time that it took were expected");
        bite_error_key(error, "took");
        return BITE_BAD_ARGUMENT;
    }
    return change(job, seconds, error);
}

bite_status bite_job_time_remove(const bite_job *job, bite_error *error)
{
    bite_error_clear(error);
    if (job == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a job was expected");
    }
    return change(job, (double)NAN, error);
}
