/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop's own times: kept in the user's table, whole or not at all. */
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/plan_parts.h"
#include "core/library/place.h"
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define NAME_MOST 60

/* A title as the name of a section: letters, digits and dashes. */
static void name_of(const char *title, char *name)
{
    size_t length = 0;
    for (; *title != 0 && length + 1 < NAME_MOST; title++) {
        char c = bite_text_lower(*title);
        int plain = (c >= 'a' && c <= 'z') || bite_text_digit(c);
        if (plain) {
            name[length++] = c;
        } else if (length > 0 && name[length - 1] != '-') {
            name[length++] = '-';
        }
    }
    while (length > 0 && name[length - 1] == '-') {
        length--;
    }
    name[length] = 0;
    if (length == 0) {
        (void)snprintf(name, NAME_MOST, "job");
    }
}

static int put(char *to, size_t size, size_t *used, const char *name, double planned, double took)
{
    int length =
        snprintf(to + *used, size - *used,
                 "\n[time.%s]\nplanned = %.6g s\nplanned.source = estimate: planned by this library\ntook = %.6g s\ntook.source = "
                 "common-practice: measured in this shop\n",
                 name, planned, took);
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

/* All records of the file at path but that of this name, then this one. */
static int fill(const bite_library *library, const char *path, const char *name, double planned, double took, char *to, size_t size)
{
    static const char head[] =
        "# Times of jobs in this shop, planned and taken; plans are corrected by them.\n[format]\nkind = times\nversion = 1\n";
    size_t used = sizeof head - 1;
    bite_item item;
    memcpy(to, head, sizeof head);
    for (size_t i = 0; bite_library_item(library, BITE_TIMES, i, &item, NULL) == BITE_OK; i++) {
        const bite_thing *record = NULL;
        if (strcmp(item.file, path) == 0 && !bite_text_same(item.name, name) &&
            bite_library_thing(library, BITE_TIMES, item.name, &record, NULL) == BITE_OK &&
            !put(to, size, &used, item.name, bite_plan_figure(record, "planned", 0.0), bite_plan_figure(record, "took", 0.0))) {
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
    bite_arena *arena = bite_arena_new(&job->allocator);
    char *text = arena == NULL ? NULL : bite_arena_take(arena, size, 1);
    bite_status status =
        text == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the times") : bite_places_own(arena, &folder, error);
    char *path = status == BITE_OK ? bite_place_join(arena, folder, "times.ini") : NULL;
    if (status == BITE_OK && path == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the times");
    }
    if (status == BITE_OK) {
        name_of(job->title, name);
        make_folders(path);
        status = fill(job->library, path, name, job->time.whole, seconds, text, size)
                     ? bite_file_write(path, text, strlen(text), error)
                     : bite_error_set(error, BITE_OUT_OF_RANGE, "the table of times is full: take some out of it");
    }
    bite_arena_free(arena);
    return status;
}
