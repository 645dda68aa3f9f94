/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a line that is entered does: a reading, or a command about readings. */
#include "bindings/cli/measure_line.h"
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

static bite_record_entry entry_of(const struct measure_session *session, uint32_t action)
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
static enum measure_step bad_line(struct measure_session *session, const bite_error *error)
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

enum measure_step measure_complain(struct measure_session *session, const char *hint,
                                   const char *format, ...)
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
static enum measure_step refused(struct measure_session *session, const bite_error *error)
{
    enum measure_step step = bad_line(session, error);
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

/* Times do not order the lines, but a clock that is behind is worth a word. */
static void say_clock(struct measure_session *session, double time)
{
    if (time < session->latest - 60.0) {
        (void)fflush(stdout);
        (void)report_failure(0,
                             "note: the clock is behind that of an earlier reading; the order of "
                             "the lines counts, not their times");
        session->latest = -(double)INFINITY;
    } else if (time > session->latest) {
        session->latest = time;
    }
}

/* Appends; *line: its number. */
static enum measure_step append(struct measure_session *session, const bite_record_entry *entry,
                                uint64_t *line)
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

static void remember(struct measure_session *session, uint64_t line)
{
    if (session->own_count == OWN_LINES) {
        memmove(session->own, session->own + 1, (OWN_LINES - 1) * sizeof *session->own);
        session->own_count--;
    }
    session->own[session->own_count++] = line;
}

/* ---- readings ---- */

/* The one with this number; SIZE_MAX: none. */
static size_t characteristic_of(const struct measure_session *session, unsigned long number)
{
    const bite_characteristic *one = NULL;
    for (size_t i = 0; (one = bite_record_characteristic(session->record, i)) != NULL; i++) {
        if (one->number == number) {
            return i;
        }
    }
    return SIZE_MAX;
}

/* What is odd about a reading, in words. */
static void describe_slip(const struct measure_session *session, const bite_review *review,
                          char *text, size_t size)
{
    char likely[MEASURE_LENGTH];
    measure_length(review->likely, bite_record_units(session->record), likely);
    if (review->slip == BITE_SLIP_FINER) {
        (void)snprintf(text, size, "%s is finer than the instrument reads; it shows %s",
                       review->text, likely);
    } else if (review->slip == BITE_SLIP_FACTOR) {
        (void)snprintf(text, size, "%s is far outside the limits; %s may have been meant",
                       review->text, likely);
    } else {
        (void)snprintf(text, size, "%s is far outside the limits", review->text);
    }
}

/* A slip is asked about once; without anybody to ask, one that is far outside is refused. */
static enum measure_step question(struct measure_session *session, const bite_record_entry *entry,
                                  const bite_review *review)
{
    char text[240];
    describe_slip(session, review, text, sizeof text);
    if (!session->terminal) {
        if (review->slip != BITE_SLIP_FINER) {
            return measure_complain(session, "if it is right, put ! behind it", "%s", text);
        }
        (void)fflush(stdout);
        (void)report_failure(0, "standard input:%lu: note: %s", session->line, text);
        return STEP_NEXT;
    }
    printf("  %s.\n  Enter the reading again, or y to record %s.\n", text, review->text);
    (void)snprintf(session->asked, sizeof session->asked, "%s", review->text);
    session->asked_for = entry->characteristic;
    return STEP_BAD;
}

static void confirm(const struct measure_session *session, const bite_record_entry *entry,
                    uint64_t line, const bite_review *review)
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

/* Copies a value without the ! behind it, cut off where it is too long to be one; returns whether
 * there was that mark. */
static bool without_mark(const char *value, char plain[VALUE_MAX])
{
    size_t length = strlen(value);
    bool mark = length > 0 && value[length - 1] == '!';
    (void)snprintf(plain, VALUE_MAX, "%.*s",
                   (int)(length - mark < VALUE_MAX ? length - mark : VALUE_MAX), value);
    return mark;
}

static enum measure_step read_value(struct measure_session *session, size_t characteristic,
                                    const char *value)
{
    bite_error error = BITE_ERROR_INIT;
    bite_review review = {.struct_size = (uint32_t)sizeof review};
    bite_record_entry entry = entry_of(session, BITE_RECORD_READ);
    char plain[VALUE_MAX];
    uint64_t line = 0;
    bool sure = without_mark(value, plain);
    entry.value = plain;
    entry.characteristic = (uint32_t)characteristic;
    entry.temperature = session->temperature;
    if (bite_record_review(session->record, &entry, &review, &error) != BITE_OK) {
        return bad_line(session, &error);
    }
    sure =
        sure || (strcmp(session->asked, review.text) == 0 && session->asked_for == characteristic);
    if (review.slip != BITE_SLIP_NONE && !sure) {
        enum measure_step step = question(session, &entry, &review);
        if (step != STEP_NEXT) {
            return step;
        }
    }
    enum measure_step step = append(session, &entry, &line);
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

static enum measure_step do_undo(struct measure_session *session, const char *text)
{
    bite_record_entry entry = entry_of(session, BITE_RECORD_UNDO);
    const char *reason = "";
    uint64_t line = 0;
    bool last = *text == 0;
    if (last && session->own_count == 0) {
        return measure_complain(session, "undo LINE withdraws an earlier one",
                                "nothing was recorded in this session that could be withdrawn");
    }
    entry.of = last ? session->own[session->own_count - 1] : number_in(text, &reason);
    if (entry.of == 0) {
        return measure_complain(session, "such as undo 38", "%.60s is not the number of a line",
                                text);
    }
    entry.note = reason;
    enum measure_step step = append(session, &entry, &line);
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

/* The reading of a line; NULL: the line is not one. */
static const bite_reading *reading_of(const bite_record *record, uint64_t line)
{
    const bite_reading *one = NULL;
    for (size_t i = 0; (one = bite_record_reading(record, i)) != NULL && one->line != line; i++) {
    }
    return one;
}

/* A correction is judged as a reading is, at the temperature of the one that it corrects. */
static enum measure_step judge_correction(struct measure_session *session, bite_record_entry *entry,
                                          bite_review *review, bool sure)
{
    char text[240];
    bite_error error = BITE_ERROR_INIT;
    const bite_reading *old = reading_of(session->record, entry->of);
    if (old == NULL) {
        return STEP_NEXT; /* appending it will say so, or finds it among what others appended */
    }
    entry->characteristic = old->characteristic;
    entry->part = old->part;
    entry->temperature = old->temperature;
    if (bite_record_review(session->record, entry, review, &error) != BITE_OK) {
        return bad_line(session, &error);
    }
    if (review->slip != BITE_SLIP_NONE && review->slip != BITE_SLIP_FINER && !sure) {
        describe_slip(session, review, text, sizeof text);
        return measure_complain(session, "if it is right, put ! behind it", "%s", text);
    }
    return STEP_NEXT;
}

static enum measure_step do_correct(struct measure_session *session, const char *text)
{
    bite_record_entry entry = entry_of(session, BITE_RECORD_CORRECT);
    bite_review review = {.struct_size = (uint32_t)sizeof review};
    const char *value = "";
    char plain[VALUE_MAX];
    uint64_t line = 0;
    entry.of = number_in(text, &value);
    if (entry.of == 0 || *value == 0) {
        return measure_complain(session, "such as correct 38 12.03mm",
                                "a line and a value were expected");
    }
    bool sure = without_mark(value, plain);
    entry.value = plain;
    enum measure_step step = judge_correction(session, &entry, &review, sure);
    step = step == STEP_NEXT ? append(session, &entry, &line) : step;
    if (step == STEP_NEXT) {
        remember(session, line);
        if (review.text[0] != 0) {
            confirm(session, &entry, line, &review);
        }
        printf("%sline %" PRIu64 " replaces line %" PRIu64 ", which stays in the file\n",
               session->terminal ? "  " : "", line, entry.of);
    }
    return step;
}

static enum measure_step do_skip(struct measure_session *session, const char *text)
{
    bite_record_entry entry = entry_of(session, BITE_RECORD_SKIP);
    uint64_t line = 0;
    if (session->complete || !session->due) {
        return measure_complain(session, "nothing was recorded", "nothing is left to be skipped%s",
                                session->complete ? "" : " on this part");
    }
    entry.note = text;
    enum measure_step step = append(session, &entry, &line);
    if (step == STEP_NEXT) {
        remember(session, line);
        printf("%sline %" PRIu64 ": part %u, %u skipped: %s\n", session->terminal ? "  " : "", line,
               (unsigned)session->part,
               (unsigned)bite_record_characteristic(session->record, session->next)->number, text);
    }
    return step;
}

static enum measure_step do_seal(struct measure_session *session, const char *text)
{
    bite_record_entry entry = entry_of(session, BITE_RECORD_SEAL);
    uint64_t line = 0;
    entry.note = text;
    enum measure_step step = append(session, &entry, &line);
    if (step == STEP_NEXT) {
        printf("%sline %" PRIu64 ": the head is confirmed as it is now: %s\n",
               session->terminal ? "  " : "", line, text);
    }
    return step;
}

static enum measure_step do_part(struct measure_session *session, const char *text)
{
    const char *rest = "";
    uint64_t number = number_in(text, &rest);
    double parts = bite_record_parts(session->record);
    if (number == 0 || *rest != 0 || (double)number > (isnan(parts) ? 10000.0 : parts)) {
        char hint[60];
        (void)snprintf(hint, sizeof hint, "parts are numbered from 1 to %.0f",
                       isnan(parts) ? 10000.0 : parts);
        return measure_complain(session, hint, "%.60s is not a part of this record", text);
    }
    session->part = (uint32_t)number;
    session->chosen = true;
    session->was_due = false;
    return STEP_NEXT;
}

static enum measure_step do_person(struct measure_session *session, const char *text)
{
    if (strlen(text) >= sizeof session->person || strpbrk(text, "\"\\") != NULL) {
        return measure_complain(session,
                                "at most 103 bytes without quotation marks and backslashes",
                                "this name cannot be in a record");
    }
    (void)snprintf(session->person, sizeof session->person, "%s", text);
    return STEP_NEXT;
}

static enum measure_step do_temperature(struct measure_session *session, const char *text)
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

static enum measure_step do_list(struct measure_session *session, const char *text)
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

static enum measure_step do_help(struct measure_session *session, const char *text)
{
    (void)session;
    (void)text;
    fputs(help_text, stdout);
    return STEP_NEXT;
}

static enum measure_step do_quit(struct measure_session *session, const char *text)
{
    (void)session;
    (void)text;
    return STEP_END;
}

static const struct {
    const char *word;
    enum measure_step (*run)(struct measure_session *session, const char *text);
} words[] = {{"undo", do_undo}, {"correct", do_correct}, {"skip", do_skip},
             {"part", do_part}, {"person", do_person},   {"temperature", do_temperature},
             {"list", do_list}, {"seal", do_seal},       {"quit", do_quit},
             {"exit", do_quit}, {"q", do_quit},          {"help", do_help},
             {"?", do_help}};

/* ---- lines ---- */

static enum measure_step run_value(struct measure_session *session, const char *text)
{
    const char *colon = strchr(text, ':');
    char number[12] = "";
    if (colon != NULL && (size_t)(colon - text) < sizeof number) {
        memcpy(number, text, (size_t)(colon - text));
        size_t at = strspn(number, "0123456789") == strlen(number) && number[0] != 0
                        ? characteristic_of(session, strtoul(number, NULL, 10))
                        : SIZE_MAX;
        if (at == SIZE_MAX) {
            return measure_complain(session, "such as 7: 12.03mm", "there is no characteristic %s",
                                    number);
        }
        for (colon++; isblank((unsigned char)*colon); colon++) {
        }
        return read_value(session, at, colon);
    }
    if (strcmp(text, "y") == 0 || strcmp(text, "yes") == 0) {
        if (session->asked[0] == 0) {
            return measure_complain(session, "enter a reading, or ?", "nothing was asked");
        }
        char asked[VALUE_MAX];
        memcpy(asked, session->asked, sizeof asked);
        return read_value(session, session->asked_for, asked);
    }
    if (session->complete) {
        return measure_complain(session,
                                "such as 7: 12.03mm for one more reading of characteristic 7",
                                "everything is measured; which characteristic is meant?");
    }
    if (!session->due) {
        return measure_complain(session, "such as 7: 12.03mm for characteristic 7",
                                "nothing is due on part %u; which characteristic is meant?",
                                (unsigned)session->part);
    }
    return read_value(session, session->next, text);
}

enum measure_step measure_line(struct measure_session *session, char *text)
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
