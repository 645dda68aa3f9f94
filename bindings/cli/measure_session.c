/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Entering readings: prompt by prompt at a terminal, or a line each from standard input. */
#include "bindings/cli/measure_session.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/measure_text.h"
#include <ctype.h>
#include <errno.h>
#include <inttypes.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define PERSON_MAX 104
#define VALUE_MAX 80
#define OWN_LINES 4096 /* of this session, that undo can go back over */

/** What the line that was read leads to. */
enum step {
    STEP_NEXT, /* the next line */
    STEP_BAD,  /* the line has a fault: it was reported */
    STEP_END,
    STEP_STOP /* the record cannot be written: it was reported */
};

struct session {
    bite_record *record;
    bool terminal;
    bool complete; /* nothing is left to be measured */
    bool behind;   /* that the clock is behind was said */
    uint32_t trials;
    uint32_t part;
    size_t next;        /* index of the characteristic that is asked for */
    double temperature; /* K; NaN */
    char person[PERSON_MAX];
    char asked[VALUE_MAX]; /* a value that was asked about; "" */
    size_t asked_for;      /* its characteristic */
    uint64_t own[OWN_LINES];
    size_t own_count;
    size_t appended;
    unsigned long line; /* of the input */
    int status;         /* of STEP_STOP and of faults */
};

static const char help_text[] =
    "  12.03            a reading in the unit that is shown; 12.03mm and 0.4735in are read too\n"
    "  accept, reject   of what is judged by eye or by a gauge\n"
    "  7: 12.03         a reading of characteristic 7 on this part\n"
    "  12.03!           a reading that is right although it looks like a slip\n"
    "  undo [LINE]      withdraw the last reading, or that of a line\n"
    "  correct LINE VALUE\n"
    "  skip REASON      do not measure this characteristic on this part\n"
    "  part NUMBER      go to another part\n"
    "  person NAME      who measures from now on\n"
    "  temperature 23degC (or none): of the part, from now on\n"
    "  list             the readings of this part, with their lines\n"
    "  seal REASON      confirm a head that was changed by hand\n"
    "  quit             all readings are stored already\n";

double measure_now(void)
{
    struct timespec now;
    return clock_gettime(CLOCK_REALTIME, &now) == 0 ? (double)now.tv_sec : (double)NAN;
}

static bite_record_entry entry_of(const struct session *session, uint32_t action)
{
    bite_record_entry entry = {.struct_size = (uint32_t)sizeof entry,
                               .action = action,
                               .characteristic = (uint32_t)session->next,
                               .part = session->part,
                               .person = session->person,
                               .temperature = (double)NAN,
                               .time = measure_now()};
    return entry;
}

/* A fault of the line that was read. */
static enum step bad_line(struct session *session, const bite_error *error)
{
    bite_error own = *error;
    if (!session->terminal && own.file[0] == 0) {
        (void)snprintf(own.file, sizeof own.file, "standard input");
        own.line = (uint32_t)session->line;
    }
    (void)fflush(stdout);
    session->status = report_error(&own);
    session->status = session->status == EXIT_USAGE ? EXIT_CONTENTS : session->status;
    return STEP_BAD;
}

__attribute__((format(printf, 3, 4))) static enum step
bad_text(struct session *session, const char *hint, const char *format, ...)
{
    bite_error error = BITE_ERROR_INIT;
    va_list list;
    va_start(list, format);
    (void)vsnprintf(error.message, sizeof error.message, format, list);
    va_end(list);
    (void)snprintf(error.hint, sizeof error.hint, "%s", hint);
    error.status = BITE_BAD_FILE;
    return bad_line(session, &error);
}

/* Whether a record that was refused this can still be appended to. */
static enum step refused(struct session *session, const bite_error *error)
{
    enum step step = bad_line(session, error);
    switch (error->status) {
    case BITE_BUSY:
    case BITE_CANNOT_WRITE:
        return session->terminal ? step : STEP_STOP;
    case BITE_IO:
    case BITE_NO_MEMORY:
    case BITE_BAD_FILE:
        return STEP_STOP;
    default:
        return step;
    }
}

static void say_clock(struct session *session, double time)
{
    double latest = -(double)INFINITY;
    const bite_reading *one = NULL;
    for (size_t i = 0; !session->behind && (one = bite_record_reading(session->record, i)) != NULL;
         i++) {
        latest = one->time > latest ? one->time : latest;
    }
    if (!session->behind && time < latest - 60.0) {
        session->behind = true;
        (void)fflush(stdout);
        (void)report_failure(0,
                             "note: the clock is behind that of an earlier reading; the order of "
                             "the lines counts, not their times");
    }
}

/* Appends; *line: its number. */
static enum step append(struct session *session, const bite_record_entry *entry, uint64_t *line)
{
    bite_error error = BITE_ERROR_INIT;
    say_clock(session, entry->time);
    if (bite_record_append(session->record, entry, line, &error) != BITE_OK) {
        return refused(session, &error);
    }
    session->appended++;
    session->asked[0] = 0;
    return STEP_NEXT;
}

static void remember(struct session *session, uint64_t line)
{
    if (session->own_count == OWN_LINES) {
        memmove(session->own, session->own + 1, (OWN_LINES - 1) * sizeof *session->own);
        session->own_count--;
    }
    session->own[session->own_count++] = line;
}

/* ---- readings ---- */

/* The one with this number; SIZE_MAX: none. */
static size_t characteristic_of(const struct session *session, unsigned long number)
{
    const bite_characteristic *one = NULL;
    for (size_t i = 0; (one = bite_record_characteristic(session->record, i)) != NULL; i++) {
        if (one->number == number) {
            return i;
        }
    }
    return SIZE_MAX;
}

/* A slip is asked about once; without anybody to ask, one by a factor is refused. */
static enum step question(struct session *session, const bite_record_entry *entry,
                          const bite_review *review)
{
    char likely[MEASURE_LENGTH];
    measure_length(review->likely, bite_record_units(session->record), likely);
    bool factor = review->slip == BITE_SLIP_FACTOR;
    if (!session->terminal) {
        if (factor) {
            return bad_text(session, "if it is right, put ! behind it",
                            "%s is far outside the limits; %s may have been meant", review->text,
                            likely);
        }
        (void)fflush(stdout);
        (void)report_failure(0, "standard input:%lu: note: %s is finer than the instrument reads",
                             session->line, review->text);
        return STEP_NEXT;
    }
    if (factor) {
        printf("  %s is far outside the limits. Was %s meant?\n", review->text, likely);
    } else {
        printf("  %s is finer than the instrument reads; it shows %s.\n", review->text, likely);
    }
    printf("  Enter the reading again, or y to record %s.\n", review->text);
    (void)snprintf(session->asked, sizeof session->asked, "%s", review->text);
    session->asked_for = entry->characteristic;
    return STEP_BAD;
}

static void confirm(const struct session *session, const bite_record_entry *entry, uint64_t line,
                    const bite_review *review)
{
    char verdict[200];
    const bite_characteristic *of =
        bite_record_characteristic(session->record, entry->characteristic);
    measure_verdict(of, review, bite_record_units(session->record), verdict, sizeof verdict);
    if (session->terminal) {
        printf("  line %" PRIu64 ": %s, %s\n", line, review->text, verdict);
    } else {
        printf("line %" PRIu64 ": part %u, %u %s: %s, %s\n", line, (unsigned)entry->part,
               (unsigned)of->number, of->what, review->text, verdict);
    }
    (void)fflush(stdout); /* it is durable: whoever reads the output may rely on it */
}

static enum step read_value(struct session *session, size_t characteristic, const char *value)
{
    bite_error error = BITE_ERROR_INIT;
    bite_review review = {.struct_size = (uint32_t)sizeof review};
    bite_record_entry entry = entry_of(session, BITE_RECORD_READ);
    char plain[VALUE_MAX];
    size_t length = strlen(value);
    bool sure = length > 0 && value[length - 1] == '!';
    uint64_t line = 0;
    (void)snprintf(plain, sizeof plain, "%.*s", (int)(length - sure), value);
    entry.characteristic = (uint32_t)characteristic;
    entry.value = length < sizeof plain ? plain : value;
    entry.temperature = session->temperature;
    if (bite_record_review(session->record, &entry, &review, &error) != BITE_OK) {
        return bad_line(session, &error);
    }
    sure =
        sure || (strcmp(session->asked, review.text) == 0 && session->asked_for == characteristic);
    if (review.slip != BITE_SLIP_NONE && !sure) {
        enum step step = question(session, &entry, &review);
        if (step != STEP_NEXT) {
            return step;
        }
    }
    enum step step = append(session, &entry, &line);
    if (step == STEP_NEXT) {
        remember(session, line);
        confirm(session, &entry, line, &review);
    }
    return step;
}

/* ---- commands ---- */

/* A whole number from 1 at the start of a text; *rest: behind it and blanks. 0: there is none. */
static uint64_t number_in(const char *text, const char **rest)
{
    char *end = NULL;
    errno = 0;
    unsigned long long number = isdigit((unsigned char)*text) ? strtoull(text, &end, 10) : 0;
    if (number == 0 || errno != 0 || (*end != 0 && !isblank((unsigned char)*end))) {
        return 0;
    }
    while (isblank((unsigned char)*end)) {
        end++;
    }
    *rest = end;
    return number;
}

static enum step do_undo(struct session *session, const char *text)
{
    bite_record_entry entry = entry_of(session, BITE_RECORD_UNDO);
    const char *reason = "";
    uint64_t line = 0;
    bool last = *text == 0;
    if (last && session->own_count == 0) {
        return bad_text(session, "undo LINE withdraws an earlier one",
                        "nothing was recorded in this session that could be withdrawn");
    }
    entry.of = last ? session->own[session->own_count - 1] : number_in(text, &reason);
    if (entry.of == 0) {
        return bad_text(session, "such as undo 38", "%.60s is not the number of a line", text);
    }
    entry.note = reason;
    enum step step = append(session, &entry, &line);
    if (step != STEP_NEXT) {
        return step;
    }
    session->own_count -= last;
    const bite_reading *one = NULL;
    for (size_t i = 0; (one = bite_record_reading(session->record, i)) != NULL; i++) {
        session->part = one->line == entry.of ? one->part : session->part;
    }
    printf("%sline %" PRIu64 ": line %" PRIu64 " is withdrawn; it stays in the file\n",
           session->terminal ? "  " : "", line, entry.of);
    return STEP_NEXT;
}

static enum step do_correct(struct session *session, const char *text)
{
    bite_record_entry entry = entry_of(session, BITE_RECORD_CORRECT);
    const char *value = "";
    uint64_t line = 0;
    entry.of = number_in(text, &value);
    if (entry.of == 0 || *value == 0) {
        return bad_text(session, "such as correct 38 12.03mm", "a line and a value were expected");
    }
    entry.value = value;
    enum step step = append(session, &entry, &line);
    if (step == STEP_NEXT) {
        remember(session, line);
        printf("%sline %" PRIu64 ": %s instead of line %" PRIu64 ", which stays in the file\n",
               session->terminal ? "  " : "", line, value, entry.of);
    }
    return step;
}

static enum step do_skip(struct session *session, const char *text)
{
    bite_record_entry entry = entry_of(session, BITE_RECORD_SKIP);
    uint64_t line = 0;
    if (session->complete) {
        return bad_text(session, "nothing was recorded", "nothing is left to be skipped");
    }
    entry.note = text;
    enum step step = append(session, &entry, &line);
    if (step == STEP_NEXT) {
        remember(session, line);
        printf("%sline %" PRIu64 ": part %u, %u skipped: %s\n", session->terminal ? "  " : "", line,
               (unsigned)session->part,
               (unsigned)bite_record_characteristic(session->record, session->next)->number, text);
    }
    return step;
}

static enum step do_seal(struct session *session, const char *text)
{
    bite_record_entry entry = entry_of(session, BITE_RECORD_SEAL);
    uint64_t line = 0;
    entry.note = text;
    enum step step = append(session, &entry, &line);
    if (step == STEP_NEXT) {
        printf("%sline %" PRIu64 ": the head is confirmed as it is now: %s\n",
               session->terminal ? "  " : "", line, text);
    }
    return step;
}

static enum step do_part(struct session *session, const char *text)
{
    const char *rest = "";
    uint64_t number = number_in(text, &rest);
    double parts = bite_record_parts(session->record);
    if (number == 0 || *rest != 0 || (double)number > (isnan(parts) ? 10000.0 : parts)) {
        char hint[60];
        (void)snprintf(hint, sizeof hint, "parts are numbered from 1 to %.0f",
                       isnan(parts) ? 10000.0 : parts);
        return bad_text(session, hint, "%.60s is not a part of this record", text);
    }
    session->part = (uint32_t)number;
    return STEP_NEXT;
}

static enum step do_person(struct session *session, const char *text)
{
    if (strlen(text) >= sizeof session->person || strpbrk(text, "\"\\") != NULL) {
        return bad_text(session, "at most 103 bytes without quotation marks and backslashes",
                        "this name cannot be in a record");
    }
    (void)snprintf(session->person, sizeof session->person, "%s", text);
    return STEP_NEXT;
}

static enum step do_temperature(struct session *session, const char *text)
{
    bite_error error = BITE_ERROR_INIT;
    double kelvin = (double)NAN;
    if (strcmp(text, "none") != 0 &&
        bite_quantity_read(text, BITE_KIND_TEMPERATURE, &kelvin, &error) != BITE_OK) {
        return bad_line(session, &error);
    }
    session->temperature = kelvin;
    return STEP_NEXT;
}

static enum step do_list(struct session *session, const char *text)
{
    const bite_reading *one = NULL;
    static const char *const states[] = {"", " (corrected)", " (withdrawn)", " (skipped)"};
    (void)text;
    printf("  part %u\n", (unsigned)session->part);
    for (size_t i = 0; (one = bite_record_reading(session->record, i)) != NULL; i++) {
        const bite_characteristic *of =
            bite_record_characteristic(session->record, one->characteristic);
        if (one->part == session->part) {
            printf("  line %" PRIu64 ": %u %s: %s%s%s%s%s%s\n", one->line, (unsigned)of->number,
                   of->what, one->text, one->person[0] == 0 ? "" : ", ", one->person,
                   one->note[0] == 0 ? "" : ", ", one->note, states[one->state]);
        }
    }
    return STEP_NEXT;
}

static enum step do_help(struct session *session, const char *text)
{
    (void)session;
    (void)text;
    fputs(help_text, stdout);
    return STEP_NEXT;
}

static enum step do_quit(struct session *session, const char *text)
{
    (void)session;
    (void)text;
    return STEP_END;
}

static const struct {
    const char *word;
    enum step (*run)(struct session *session, const char *text);
} words[] = {{"undo", do_undo}, {"correct", do_correct}, {"skip", do_skip},
             {"part", do_part}, {"person", do_person},   {"temperature", do_temperature},
             {"list", do_list}, {"seal", do_seal},       {"quit", do_quit},
             {"exit", do_quit}, {"q", do_quit},          {"help", do_help},
             {"?", do_help}};

/* ---- lines ---- */

static enum step run_value(struct session *session, const char *text)
{
    const char *colon = strchr(text, ':');
    char number[12] = "";
    if (colon != NULL && (size_t)(colon - text) < sizeof number) {
        memcpy(number, text, (size_t)(colon - text));
        size_t at = strspn(number, "0123456789") == strlen(number) && number[0] != 0
                        ? characteristic_of(session, strtoul(number, NULL, 10))
                        : SIZE_MAX;
        if (at == SIZE_MAX) {
            return bad_text(session, "such as 7: 12.03mm", "there is no characteristic %s", number);
        }
        for (colon++; isblank((unsigned char)*colon); colon++) {
        }
        return read_value(session, at, colon);
    }
    if (strcmp(text, "y") == 0 || strcmp(text, "yes") == 0) {
        if (session->asked[0] == 0) {
            return bad_text(session, "enter a reading, or ?", "nothing was asked");
        }
        char asked[VALUE_MAX];
        memcpy(asked, session->asked, sizeof asked);
        return read_value(session, session->asked_for, asked);
    }
    if (session->complete) {
        return bad_text(session, "such as 7: 12.03mm for one more reading of characteristic 7",
                        "everything is measured; which characteristic is meant?");
    }
    return read_value(session, session->next, text);
}

static enum step run_line(struct session *session, char *text)
{
    size_t length = strlen(text);
    while (length > 0 && isspace((unsigned char)text[length - 1])) {
        text[--length] = 0;
    }
    while (isblank((unsigned char)*text)) {
        text++;
    }
    if (*text == 0 || *text == '#') {
        return STEP_NEXT;
    }
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        size_t size = strlen(words[i].word);
        if (strncmp(text, words[i].word, size) == 0 &&
            (text[size] == 0 || isblank((unsigned char)text[size]))) {
            text += size;
            text += strspn(text, " \t");
            return words[i].run(session, text);
        }
    }
    return run_value(session, text);
}

/* What is to be measured next: on this part or a later one, otherwise on an earlier one. */
static void find_next(struct session *session)
{
    size_t next = session->next;
    uint32_t part = session->part;
    session->complete =
        !bite_record_next(session->record, session->person, session->trials, session->part, &next,
                          &part) &&
        !bite_record_next(session->record, session->person, session->trials, 0, &next, &part);
    if (!session->complete) {
        session->next = next;
        session->part = part;
    }
}

static void prompt(const struct session *session)
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
static int finish(struct session *session, enum step step)
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

static int run(struct session *session)
{
    char *text = NULL;
    size_t capacity = 0;
    enum step step = STEP_NEXT;
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
                   ? bad_text(session, "enter text", "the line has a zero byte")
                   : run_line(session, text);
    }
    free(text);
    return finish(session, step);
}

int measure_session(bite_record *record, const struct measure_start *start)
{
    struct session *session = calloc(1, sizeof *session);
    if (session == NULL) {
        return report_out_of_memory();
    }
    session->record = record;
    session->terminal = isatty(STDIN_FILENO);
    session->trials = start->trials;
    session->part = start->part == 0 ? 1 : start->part;
    session->temperature = start->temperature;
    (void)snprintf(session->person, sizeof session->person, "%s", start->person);
    if (session->terminal) {
        printf("Each reading is stored as soon as it is entered. ? shows what can be entered.\n");
    }
    int status = run(session);
    free(session);
    return status;
}
