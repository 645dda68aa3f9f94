/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop's own times: kept in the user's table, whole or not at all. */
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/job/plan_parts.h"
#include "core/library/place.h"
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define NAME_MOST 60
#define TABLE_MOST ((size_t)1 << 20)

#define DIGEST 9 /* a dash and eight digits */

/* A title as the name of a section: letters, digits and dashes. What does not go into one, for it is too long or of other letters,
 * stays apart by a number made of all its bytes (FNV-1a). */
static void name_of(const char *title, char *name)
{
    size_t length = 0;
    int lost = 0;
    uint32_t digest = 2166136261u;
    for (; *title != 0; title++) {
        char c = bite_text_lower(*title);
        int plain = (c >= 'a' && c <= 'z') || bite_text_digit(c);
        digest = (digest ^ (unsigned char)c) * 16777619u;
        lost |= (unsigned char)c >= 0x80;
        if (length + 1 + DIGEST >= NAME_MOST) {
            lost = 1;
        } else if (plain) {
            name[length++] = c;
        } else if (length > 0 && name[length - 1] != '-') {
            name[length++] = '-';
        }
    }
    while (length > 0 && name[length - 1] == '-') {
        length--;
    }
    name[length] = 0;
    if (lost) {
        (void)snprintf(name + length, NAME_MOST - length, "%s%08x", length == 0 ? "" : "-", (unsigned)digest);
    } else if (length == 0) {
        (void)snprintf(name, NAME_MOST, "job");
    }
}

/* The table as it will be: its bytes, with room for one record more. */
typedef struct draft {
    char *text;
    size_t used;
    size_t room;
} draft;

static int add(draft *to, const char *text, size_t length)
{
    if (length >= to->room - to->used) {
        return 0;
    }
    memcpy(to->text + to->used, text, length);
    to->used += length;
    to->text[to->used] = 0;
    return 1;
}

static int add_record(draft *to, const char *name, double planned, double took)
{
    char record[400];
    char was[40];
    char came[40];
    (void)bite_number_write(planned, 6, was, sizeof was);
    (void)bite_number_write(took, 6, came, sizeof came);
    int length = snprintf(record, sizeof record,
                          "\n[time.%s]\nplanned = %s s\nplanned.source = estimate: planned by this library\ntook = %s "
                          "s\ntook.source = common-practice: measured in this shop\n",
                          name, was, came);
    return length > 0 && (size_t)length < sizeof record && add(to, record, (size_t)length);
}

/* Folders of the path, each if it is not there. */
static void make_folders(char *path)
{
    for (char *slash = path; *slash != 0; slash++) {
        if (*slash == '/' && slash != path) {
            *slash = 0;
            (void)mkdir(path, 0755); /* where this fails, writing the file tells */
            *slash = '/';
        }
    }
}

/* Lines from and to of the record of that name, from 1; 0: there is none. */
static uint32_t lines_of(const bite_table *table, const char *name, uint32_t *end)
{
    uint32_t line = 0;
    *end = UINT32_MAX;
    for (size_t i = 0; i < bite_table_count(table); i++) {
        const bite_section *section = bite_table_at(table, i);
        if (bite_text_same(section->tail, name)) {
            line = section->line;
        }
    }
    for (size_t i = 0; i < bite_table_count(table); i++) {
        uint32_t other = bite_table_at(table, i)->line;
        *end = other > line && other < *end ? other : *end;
    }
    return line;
}

/* All lines but those of a record; what was written between them by hand stays. */
static int copy_others(draft *to, const char *text, uint32_t from, uint32_t end)
{
    uint32_t line = 1;
    for (; *text != 0; line++) {
        size_t length = strcspn(text, "\n");
        length += text[length] == '\n';
        const char first = text[strspn(text, " \t\r\n")];
        int kept = from == 0 || line < from || line >= end || first == '#' || first == ';';
        if (kept && !add(to, text, length)) {
            return 0;
        }
        text += length;
    }
    return to->used == 0 || to->text[to->used - 1] == '\n' || add(to, "\n", 1);
}

/* What takes the place of the old table (text NULL: there is none yet). seconds NaN: the record is taken out. */
static bite_status rewrite(const bite_job *job, const char *path, const char *old, const bite_table *table, double seconds,
                           draft *to, bite_error *error)
{
    static const char head[] =
        "# Times of jobs in this shop, planned and taken; plans are corrected by them.\n[format]\nkind = times\nversion = 1\n";
    char name[NAME_MOST];
    uint32_t end = 0;
    name_of(job->title, name);
    uint32_t line = table == NULL ? 0 : lines_of(table, name, &end);
    if (isnan(seconds) && line == 0) {
        bite_error_set(error, BITE_UNKNOWN_NAME, "no time of this job was kept");
        bite_error_key(error, "%.60s", name);
        bite_error_hint(error, "list times shows those that were");
        return BITE_UNKNOWN_NAME;
    }
    int good = old == NULL ? add(to, head, sizeof head - 1) : copy_others(to, old, line, end);
    good = good && (isnan(seconds) || add_record(to, name, job->time.whole, seconds));
    if (!good) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "the table of times is full: take some out of it");
        bite_error_place(error, path, 0, 0);
        return BITE_OUT_OF_RANGE;
    }
    return BITE_OK;
}

/* Reads, changes and writes the table while no other does; a broken one is not written over. */
static bite_status change_held(const bite_job *job, bite_arena *arena, const char *path, double seconds, bite_error *error)
{
    draft to = {NULL, 0, TABLE_MOST};
    char *old = NULL;
    size_t size = 0;
    bite_table *table = NULL;
    bite_status status = bite_file_read(&job->allocator, path, TABLE_MOST, &old, &size, error);
    int fresh = status == BITE_NOT_FOUND;
    if (status == BITE_OK) {
        status = bite_table_parse(&job->allocator, old, size, path, bite_times_form(), NULL, NULL, &table, error);
    } else if (fresh) {
        bite_error_clear(error);
        status = BITE_OK;
    }
    if (status == BITE_OK) {
        to.text = bite_arena_take(arena, to.room, 1);
        status = to.text == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the times")
                                 : rewrite(job, path, old, table, seconds, &to, error);
    }
    status = status == BITE_OK ? bite_file_write(path, to.text, to.used, error) : status;
    bite_table_free(table);
    bite_memory_free(&job->allocator, old);
    return status;
}

static bite_status change(const bite_job *job, double seconds, bite_error *error)
{
    const char *folder = NULL;
    int held = -1;
    bite_arena *arena = bite_arena_new(&job->allocator);
    bite_status status =
        arena == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the times") : bite_places_own(arena, &folder, error);
    char *path = status == BITE_OK ? bite_place_join(arena, folder, "times.ini") : NULL;
    if (status == BITE_OK && path == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the times");
    }
    if (status == BITE_OK) {
        make_folders(path);
        status = bite_file_hold(path, &held, error);
    }
    if (status == BITE_OK) {
        status = change_held(job, arena, path, seconds, error);
        bite_file_let_go(held);
    }
    bite_arena_free(arena);
    return status;
}

bite_status bite_job_took(const bite_job *job, double seconds, bite_error *error)
{
    bite_error_clear(error);
    if (job == NULL || !(seconds > 0.0 && seconds < 1e8)) {
        bite_error_set(error, BITE_BAD_ARGUMENT, "a job, and a time that it took, were expected");
        bite_error_key(error, "took");
        return BITE_BAD_ARGUMENT;
    }
    return change(job, seconds, error);
}

bite_status bite_job_forget(const bite_job *job, bite_error *error)
{
    bite_error_clear(error);
    if (job == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a job was expected");
    }
    return change(job, (double)NAN, error);
}
