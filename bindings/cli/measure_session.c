/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Entering readings: prompt by prompt at a terminal, or a line each from standard input. */
#include "bindings/cli/measure_session.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/measure_line.h"
#include "bindings/cli/measure_text.h"
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* What is to be measured next: on this part or a later one, otherwise on an earlier one. A part
 * that was named is left when nothing is due on it any more, or with another name if nothing ever
 * was. */
static void find_next(struct measure_session *session)
{
    size_t next = session->next;
    uint32_t part = session->part;
    session->complete =
        !bite_record_next(session->record, session->person, session->trials, session->part, &next,
                          &part) &&
        !bite_record_next(session->record, session->person, session->trials, 0, &next, &part);
    session->due = !session->complete && part == session->part;
    session->was_due = session->was_due || session->due;
    session->chosen = session->chosen && (session->due || !session->was_due);
    if (!session->complete && !session->chosen) {
        session->part = part;
        session->due = true;
    }
    if (session->due) {
        session->next = next;
    }
}

static void prompt(const struct measure_session *session)
{
    char part[200];
    char limits[100];
    char parts[40] = "";
    double count = bite_record_parts(session->record);
    uint32_t units = bite_record_units(session->record);
    if (session->complete) {
        printf("\nEverything is measured. quit, or ? for help\n> ");
        (void)fflush(stdout);
        return;
    }
    if (!session->due) {
        printf(
            "\nPart %u: nothing is due on it. 7: 12.03 enters a reading of characteristic 7, part "
            "NUMBER goes to another part\n> ",
            (unsigned)session->part);
        (void)fflush(stdout);
        return;
    }
    const bite_characteristic *next = bite_record_characteristic(session->record, session->next);
    measure_part(session->record, part, sizeof part);
    measure_limits(next, units, limits, sizeof limits);
    if (!isnan(count)) {
        (void)snprintf(parts, sizeof parts, " of %.0f", count);
    }
    printf("\n%s, part %u%s: %u %s, %s%s%s\n", part, (unsigned)session->part, parts,
           (unsigned)next->number, next->what, limits, next->instrument_title[0] == 0 ? "" : ", ",
           next->instrument_title);
    printf("%s> ", next->judged ? "accept or reject" : units == BITE_INCH ? "in" : "mm");
    (void)fflush(stdout);
}

/* The last words of a session. */
static int finish(struct measure_session *session, enum measure_step step)
{
    size_t unsettled = bite_record_unsettled(session->record);
    (void)fflush(stdout);
    if (step == STEP_STOP || step == STEP_BAD) {
        return session->terminal
                   ? session->status
                   : report_failure(session->status,
                                    "stopped at line %lu of standard input: %zu line%s recorded "
                                    "before it, and nothing of it or after it",
                                    session->line, session->appended,
                                    session->appended == 1 ? " was" : "s were");
    }
    if (session->terminal) {
        printf("\n%zu line%s recorded%s\n", session->appended, session->appended == 1 ? "" : "s",
               session->complete ? "; everything is measured" : "");
    }
    return unsettled == 0 ? 0
                          : report_failure(EXIT_CONTENTS,
                                           "%zu fault%s of the record %s not settled: until then "
                                           "it proves nothing",
                                           unsettled, unsettled == 1 ? "" : "s",
                                           unsettled == 1 ? "is" : "are");
}

static int run(struct measure_session *session)
{
    char *text = NULL;
    size_t capacity = 0;
    enum measure_step step = STEP_NEXT;
    while (step != STEP_END && step != STEP_STOP && (session->terminal || step != STEP_BAD)) {
        find_next(session);
        if (session->terminal) {
            prompt(session);
        }
        errno = 0;
        ssize_t length = getline(&text, &capacity, stdin);
        if (length < 0) {
            if (ferror(stdin)) {
                session->status =
                    report_failure(EXIT_IO, "standard input cannot be read: %s", strerror(errno));
                step = STEP_STOP;
            }
            break;
        }
        session->line++;
        step = strlen(text) != (size_t)length
                   ? measure_complain(session, "enter text", "the line has a zero byte")
                   : measure_line(session, text);
    }
    free(text);
    return finish(session, step);
}

static double latest_time(const bite_record *record)
{
    double latest = -(double)INFINITY;
    const bite_reading *one = NULL;
    for (size_t i = 0; (one = bite_record_reading(record, i)) != NULL; i++) {
        latest = one->time > latest ? one->time : latest;
    }
    return latest;
}

int measure_session(bite_record *record, const struct measure_start *start)
{
    struct measure_session *session = calloc(1, sizeof *session);
    if (session == NULL) {
        return report_out_of_memory();
    }
    session->record = record;
    session->terminal = isatty(STDIN_FILENO);
    session->latest = latest_time(record);
    session->trials = start->trials;
    session->part = start->part == 0 ? 1 : start->part;
    session->chosen = start->part != 0;
    session->temperature = start->temperature;
    (void)snprintf(session->person, sizeof session->person, "%s", start->person);
    if (session->terminal) {
        printf("Each reading is stored as soon as it is entered. ? shows what can be entered.\n");
    }
    int status = run(session);
    free(session);
    return status;
}
