/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of the order that a job file asks for: the names in `after`, chains of them that lead back
 * to their start, and the numbers of the setups. */
#include "core/job/order_check.h"
#include "core/base/memory.h"
#include "core/job/job_file.h"
#include "core/library/library.h"
#include <stdio.h>

/* Every name in `after` must be a pass, another one, and not of a later setup. */
static void check_after(bite_job_file_check *check, const bite_section *pass)
{
    const char *after = bite_job_file_text(pass, "after");
    char name[64];
    for (size_t i = 0; bite_job_file_name(after, i, name, sizeof name); i++) {
        const bite_section *first = bite_job_file_pass(check->file, name);
        char message[140];
        if (first == NULL && bite_table_has_unread_sections(check->file->table)) {
            continue;
        }
        if (first == NULL) {
            (void)snprintf(message, sizeof message, "after names the pass %s, which does not exist",
                           name);
            bite_job_check_complain(check, pass, "after", "state the NAME of another [pass.NAME]",
                                    message);
        } else if (first == pass) {
            bite_job_check_complain(check, pass, "after", "state the NAME of another [pass.NAME]",
                                    "the pass is to come after itself");
        } else if (bite_job_file_setup_of(first) > bite_job_file_setup_of(pass)) {
            (void)snprintf(message, sizeof message,
                           "the pass is to come after %.60s, which belongs to a later setup", name);
            bite_job_check_complain(check, pass, "after",
                                    "setups are done in order: change one of the two setups",
                                    message);
        }
    }
}

/* A chain of `after` that leads back to its first pass. */
typedef struct order_cycle {
    const bite_job_file *order;
    uint32_t *visited;       /* for each pass, the search that came to it */
    unsigned char *reported; /* 1: part of a cycle that has been reported */
    uint32_t *path;
    uint32_t *named; /* for each pass of the path, how many names of its `after` were followed */
    size_t length;
} order_cycle;

static size_t place_of(const bite_job_file *file, const bite_section *pass)
{
    size_t i = 0;
    while (i < file->pass_count && file->passes[i] != pass) {
        i++;
    }
    return i;
}

/* The next name in the `after` of the last pass of the path; returns 0 if there are no more. */
static int next_named(order_cycle *cycle, size_t *next)
{
    size_t last = cycle->length - 1;
    const bite_section *pass = cycle->order->passes[cycle->path[last]];
    const char *after = bite_job_file_text(pass, "after");
    char name[64];
    if (!bite_job_file_name(after, cycle->named[last]++, name, sizeof name)) {
        return 0;
    }
    *next = place_of(cycle->order, bite_job_file_pass(cycle->order, name));
    return 1;
}

static void append_to_path(order_cycle *cycle, size_t pass, size_t search)
{
    cycle->visited[pass] = (uint32_t)search + 1;
    cycle->named[cycle->length] = 0;
    cycle->path[cycle->length++] = (uint32_t)pass;
}

/* Nonzero: a chain from the pass leads back to it, and is the path. */
static int leads_back(order_cycle *cycle, size_t to)
{
    cycle->length = 0;
    append_to_path(cycle, to, to);
    while (cycle->length > 0) {
        size_t next = 0;
        if (!next_named(cycle, &next)) {
            cycle->length--;
        } else if (next == to && cycle->length > 1) {
            return 1;
        } else if (next < cycle->order->pass_count && cycle->visited[next] != to + 1) {
            append_to_path(cycle, next, to);
        }
    }
    return 0;
}

static void report_cycle(bite_job_file_check *check, order_cycle *cycle)
{
    char message[200] = "";
    size_t used = 0;
    for (size_t k = 0; k < cycle->length; k++) {
        cycle->reported[cycle->path[k]] = 1;
        if (k < 4) {
            used += (size_t)snprintf(message + used, sizeof message - used, "%s%.20s",
                                     k == 0 ? "" : ", ", check->file->passes[cycle->path[k]]->tail);
        }
    }
    (void)snprintf(message + used, sizeof message - used, "%s wait for each other in a cycle",
                   cycle->length > 4 ? " and more" : "");
    bite_job_check_complain(check, check->file->passes[cycle->path[0]], "after",
                            "remove one of them from after", message);
}

static void check_cycles(bite_job_file_check *check)
{
    const size_t count = check->file->pass_count;
    bite_arena *arena = bite_arena_new(bite_library_allocator(check->library));
    order_cycle cycle = {check->file, NULL, NULL, NULL, NULL, 0};
    if (arena != NULL) {
        cycle.visited = bite_arena_alloc(arena, count, sizeof *cycle.visited);
        cycle.reported = bite_arena_alloc(arena, count, sizeof *cycle.reported);
        cycle.path = bite_arena_alloc(arena, count, sizeof *cycle.path);
        cycle.named = bite_arena_alloc(arena, count, sizeof *cycle.named);
    }
    if (cycle.visited == NULL || cycle.reported == NULL || cycle.path == NULL ||
        cycle.named == NULL) {
        check->stop = BITE_NO_MEMORY;
    } else {
        for (size_t i = 0; i < count; i++) {
            if (!cycle.reported[i] && leads_back(&cycle, i)) {
                report_cycle(check, &cycle);
            }
        }
    }
    bite_arena_free(arena);
}

/* Setups are numbered without gaps, and each has passes. One alone may have any number. */
static void check_setups(bite_job_file_check *check)
{
    const bite_job_file *file = check->file;
    unsigned char used[BITE_SETUPS_MAX + 1] = {0};
    const bite_section *last = NULL;
    size_t count = 0;
    for (size_t i = 0; i < file->pass_count; i++) {
        double setup = bite_job_file_setup_of(file->passes[i]);
        if (setup >= 1.0 && setup <= BITE_SETUPS_MAX) {
            count += !used[(size_t)setup];
            used[(size_t)setup] = 1;
            last = last == NULL || setup > bite_job_file_setup_of(last) ? file->passes[i] : last;
        }
    }
    for (size_t i = 1; i <= BITE_SETUPS_MAX; i++) {
        char message[120];
        int section = file->setups[i - 1] != NULL;
        int expected = file->pass_count > 0 ? used[i] : i <= 2;
        if (section && !expected) {
            (void)snprintf(message, sizeof message, "no pass belongs to setup %zu", i);
            bite_job_check_complain(check, file->setups[i - 1], NULL,
                                    "state setup in the passes that are cut in it", message);
        } else if (!section && !used[i] && count > 1 && last != NULL &&
                   (double)i < bite_job_file_setup_of(last)) {
            (void)snprintf(message, sizeof message, "no pass belongs to setup %zu, before it", i);
            bite_job_check_complain(check, last, "setup", "number the setups 1, 2, 3 ...", message);
        }
    }
}

void bite_job_check_order(bite_job_file_check *check)
{
    for (size_t i = 0; i < check->file->pass_count; i++) {
        check_after(check, check->file->passes[i]);
    }
    check_setups(check);
    check_cycles(check);
}
