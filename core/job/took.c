/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop's own times: kept in the user's table, whole or not at all. */
#include "core/base/error.h"
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

static int put(char *to, size_t size, size_t *used, const char *name, double planned, double took)
{
    char was[40];
    char came[40];
    (void)bite_number_write(planned, 6, was, sizeof was);
    (void)bite_number_write(took, 6, came, sizeof came);
    int length =
        snprintf(to + *used, size - *used,
                 "\n[time.%s]\nplanned = %s s\nplanned.source = estimate: planned by this library\ntook = %s s\ntook.source = "
                 "common-practice: measured in this shop\n",
                 name, was, came);
    if (length < 0 || (size_t)length >= size - *used) {
        return 0;
    }
    *used += (size_t)length;
    return 1;
}

/* Folders of the path, each if it is not there. */
static void make_folders(char *path)
{
    for (char *slash = strchr(path + 1, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
        *slash = 0;
        (void)mkdir(path, 0755); /* where this fails, writing the file tells */
        *slash = '/';
    }
}

static double figure_of(const bite_section *section, const char *key)
{
    const bite_cell *cell = bite_section_cell(section, key);
    return cell == NULL ? (double)NAN : cell->value;
}

/* All records of the table (NULL: there is none yet) but that of this name, then this one. */
static int fill(const bite_table *old, const char *name, double planned, double took, char *to, size_t size)
{
    static const char head[] =
        "# Times of jobs in this shop, planned and taken; plans are corrected by them.\n[format]\nkind = times\nversion = 1\n";
    size_t used = sizeof head - 1;
    memcpy(to, head, sizeof head);
    for (size_t i = 0; old != NULL && i < bite_table_count(old); i++) {
        const bite_section *record = bite_table_at(old, i);
        double was_planned = figure_of(record, "planned");
        double was_taken = figure_of(record, "took");
        if (!bite_text_same(record->tail, name) && was_planned > 0.0 && was_taken > 0.0 &&
            !put(to, size, &used, record->tail, was_planned, was_taken)) {
            return 0;
        }
    }
    return put(to, size, &used, name, planned, took);
}

bite_status bite_job_took(const bite_job *job, double seconds, bite_error *error)
{
    bite_error_clear(error);
    if (job == NULL || !(seconds > 0.0 && seconds < 1e8)) {
        bite_error_set(error, BITE_BAD_ARGUMENT, "a job, and a time that it took, were expected");
        bite_error_key(error, "took");
        return BITE_BAD_ARGUMENT;
    }
    const size_t size = (size_t)1 << 20;
    const char *folder = NULL;
    char name[NAME_MOST];
    bite_table *old = NULL;
    bite_arena *arena = bite_arena_new(&job->allocator);
    char *text = arena == NULL ? NULL : bite_arena_take(arena, size, 1);
    bite_status status =
        text == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the times") : bite_places_own(arena, &folder, error);
    char *path = status == BITE_OK ? bite_place_join(arena, folder, "times.ini") : NULL;
    if (status == BITE_OK && path == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the times");
    }
    if (status == BITE_OK) { /* the table as it is now: a broken one is not written over */
        status = bite_table_open(&job->allocator, path, bite_times_form(), NULL, NULL, &old, error);
        status = status == BITE_NOT_FOUND ? BITE_OK : status;
    }
    if (status == BITE_OK) {
        bite_error_clear(error);
        name_of(job->title, name);
        make_folders(path);
        status = fill(old, name, job->time.whole, seconds, text, size)
                     ? bite_file_write(path, text, strlen(text), error)
                     : bite_error_set(error, BITE_OUT_OF_RANGE, "the table of times is full: take some out of it");
    }
    bite_table_free(old);
    bite_arena_free(arena);
    return status;
}
