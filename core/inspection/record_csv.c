/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings from a CSV text: all rows are checked before the first one is appended. */
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include "core/inspection/reading_value.h"
#include "core/inspection/record.h"
#include "core/inspection/record_line.h"
#include "core/inspection/record_time.h"
#include "core/tables/csv_fields.h"
#include "core/units/parse_quantity.h"
#include "core/units/unit_table.h"
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)
#define COLUMNS_MAX 32
#define ROWS_MAX 20000

enum { CHARACTERISTIC, PART, TRIAL, VALUE, PERSON, TEMPERATURE, TIME, NOTE, PASSED_OVER };
static const char *const titles[] = {"characteristic", "part",        "trial", "value",
                                     "person",         "temperature", "time",  "note"};

/* A row; the entry's texts are those of the row. */
typedef struct csv_row {
    bite_record_entry entry;
    double number; /* the value, m */
    uint32_t line;
    uint32_t recorded; /* 1: the record has it already */
    uint32_t sure;     /* 1: it is right although it looks like a slip */
    uint32_t reserved;
    char value[BITE_RECORD_VALUE_MAX];
    char person[BITE_RECORD_PERSON_MAX];
    char note[BITE_RECORD_NOTE_MAX];
} csv_row;

typedef struct csv_reader {
    bite_record *record;
    const bite_record_entry *defaults;
    const char *path;
    bite_fault_sink fault;
    void *user;
    bite_error first;
    uint32_t faults;
    uint32_t line; /* of the row that is read */
    uint32_t columns[COLUMNS_MAX];
    size_t column_count;
    char unit[8]; /* of the column value: "value [mm]" */
    bite_csv csv;
    csv_row *rows;
    size_t count;
    size_t capacity;
} csv_reader;

/* Reports a fault; the error has its message and hint. */
static void complain_of(csv_reader *reader, const char *key, bite_error *error)
{
    error->status = BITE_BAD_FILE;
    bite_error_key(error, "%s", key);
    bite_error_place(error, reader->path, reader->line, 0);
    reader->first = reader->faults++ == 0 ? *error : reader->first;
    if (reader->fault != NULL) {
        reader->fault(reader->user, error);
    }
}

static void complain(csv_reader *reader, const char *key, const char *message, const char *hint)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_hint(&error, "%s", hint);
    complain_of(reader, key, &error);
}

/* ---- columns ---- */

static const char *title_at(size_t at, const void *list)
{
    const char *const *names = list;
    return names[at];
}

/* The unit of the column of values, from the bracket on: "[mm]". */
static void set_unit(csv_reader *reader, const char *bracket, size_t length)
{
    const char *unit = bracket + 1;
    size_t size = length > 1 && bracket[length - 1] == ']' ? length - 2 : 0;
    size = bite_text_trim(&unit, size);
    if (size == 0 || size >= sizeof reader->unit ||
        bite_unit_find(unit, size, BITE_KIND_LENGTH) == NULL) {
        complain(reader, titles[VALUE], "the unit of this column is not one of lengths",
                 "such as value [mm] or value [in]");
        return;
    }
    memcpy(reader->unit, unit, size);
    reader->unit[size] = 0;
}

static void add_column(csv_reader *reader, const char *text, size_t length)
{
    char title[64];
    length = bite_text_trim(&text, length);
    const char *bracket = memchr(text, '[', length);
    size_t size = bracket == NULL ? length : (size_t)(bracket - text);
    const char *name = text;
    size = bite_text_trim(&name, size);
    uint32_t use = PASSED_OVER;
    for (uint32_t i = 0; i < COUNT(titles); i++) {
        use = bite_text_equals_part(name, size, titles[i]) ? i : use;
    }
    if (use == VALUE && bracket != NULL) {
        set_unit(reader, bracket, length - (size_t)(bracket - text));
    }
    if (use == PASSED_OVER && size > 0 && name[0] != '#') {
        bite_error error = BITE_ERROR_INIT;
        (void)snprintf(title, sizeof title, "%.*s", size < 60 ? (int)size : 60, name);
        const char *near = bite_text_nearest(title, COUNT(titles), title_at, titles);
        bite_error_set(&error, BITE_BAD_FILE, "there is no column named %s", title);
        bite_error_hint(&error,
                        near == NULL ? "a column whose title begins with # is passed over"
                                     : "did you mean %s?",
                        near);
        complain_of(reader, title, &error);
    }
    for (size_t i = 0; i < reader->column_count && use != PASSED_OVER; i++) {
        if (reader->columns[i] == use) {
            complain(reader, titles[use], "two columns have this name", "leave one of them out");
        }
    }
    if (reader->column_count == COLUMNS_MAX) {
        complain(reader, "", "there are more than 32 columns", "leave some of them out");
        return;
    }
    reader->columns[reader->column_count++] = use;
}

static bool has_column(const csv_reader *reader, uint32_t use)
{
    for (size_t i = 0; i < reader->column_count; i++) {
        if (reader->columns[i] == use) {
            return true;
        }
    }
    return false;
}

static void read_columns(csv_reader *reader)
{
    bool last = false;
    reader->line = 1;
    while (!last && reader->faults == 0) {
        char copy[BITE_CSV_FIELD_MAX];
        const char *text = NULL;
        size_t length = 0;
        const char *wrong = bite_csv_next(&reader->csv, copy, &text, &length, &last);
        if (wrong != NULL) {
            complain(reader, "", wrong, "the first line names the columns");
            return;
        }
        add_column(reader, text, length);
    }
    if (reader->faults == 0 && (!has_column(reader, CHARACTERISTIC) || !has_column(reader, VALUE) ||
                                (!has_column(reader, PART) && reader->defaults->part == 0))) {
        complain(reader, "", "the columns characteristic, part and value were expected",
                 "the first line names the columns: characteristic,part,value,person");
    }
}

/* ---- rows ---- */

/* By its number or by its words, which several may have; *count: how many it may be. */
static size_t characteristic_of(const bite_record *record, const char *text, size_t length,
                                size_t *count)
{
    const bite_characteristic *one = NULL;
    size_t found = SIZE_MAX;
    *count = 0;
    for (size_t i = 0; (one = bite_record_characteristic(record, i)) != NULL; i++) {
        char number[16];
        (void)snprintf(number, sizeof number, "%u", (unsigned)one->number);
        if (bite_text_equals_part(text, length, number)) {
            *count = 1;
            return i;
        }
        if (bite_text_equals_part(text, length, one->what)) {
            found = i;
            (*count)++;
        }
    }
    return found;
}

static void set_characteristic(csv_reader *reader, csv_row *row, const char *text, size_t length)
{
    size_t count = 0;
    row->entry.characteristic = (uint32_t)characteristic_of(reader->record, text, length, &count);
    if (count == 0) {
        complain(reader, titles[CHARACTERISTIC], "the record has no such characteristic",
                 "its number, or what it is called in the record");
    } else if (count > 1) {
        complain(reader, titles[CHARACTERISTIC], "several characteristics are called so",
                 "write its number in the record");
    }
}

static void set_temperature(csv_reader *reader, csv_row *row, const char *text, size_t length)
{
    const bite_kind kind = BITE_KIND_TEMPERATURE;
    bite_error error = BITE_ERROR_INIT;
    size_t which = 0;
    bite_status status =
        bite_quantity_read_kinds(text, length, &kind, 1, &row->entry.temperature, &which, &error);
    status =
        status == BITE_OK ? bite_reading_temperature_check(row->entry.temperature, &error) : status;
    if (status != BITE_OK) {
        complain_of(reader, titles[TEMPERATURE], &error);
    }
}

static uint32_t count_in(const char *text, size_t length)
{
    uint32_t value = 0;
    for (size_t i = 0; i < length; i++) {
        if (!bite_text_is_digit(text[i]) || value > BITE_PARTS_MAX) {
            return 0;
        }
        value = value * 10 + (uint32_t)(text[i] - '0');
    }
    return value > BITE_PARTS_MAX ? 0 : value;
}

static void set_text(csv_reader *reader, uint32_t use, const char *text, size_t length, char *to,
                     size_t size)
{
    if (length >= size) {
        complain(reader, titles[use], "the text is too long", "at most 303 bytes, a name 103");
        return;
    }
    memcpy(to, text, length);
    to[length] = 0;
    if (strlen(to) != length || !bite_record_text_fits(to, size)) {
        complain(reader, titles[use], "this text cannot be in a record",
                 "without quotation marks, backslashes and control characters");
    }
}

/* The value, with the unit of its column if it has none; ! behind it says that it is right. */
static void set_value(csv_reader *reader, csv_row *row, const char *text, size_t length)
{
    row->sure = length > 0 && text[length - 1] == '!';
    length -= row->sure;
    size_t unit = strlen(reader->unit);
    bool bare = length > 0 && (bite_text_is_digit(text[length - 1]) || text[length - 1] == '.');
    if (length + unit + 4 > sizeof row->value) {
        complain(reader, titles[VALUE], "this is not a reading", "such as 12.03 or 12.03mm");
        return;
    }
    (void)snprintf(row->value, sizeof row->value, "%.*s%s", (int)length, text,
                   bare ? reader->unit : "");
}

static void set_field(csv_reader *reader, csv_row *row, uint32_t use, const char *text,
                      size_t length)
{
    length = bite_text_trim(&text, length);
    if (length == 0) {
        return;
    }
    switch (use) {
    case CHARACTERISTIC:
        set_characteristic(reader, row, text, length);
        break;
    case PART:
    case TRIAL: {
        uint32_t number = count_in(text, length);
        *(use == PART ? &row->entry.part : &row->entry.trial) = number;
        if (number == 0) {
            complain(reader, titles[use], "a whole number was expected", "1, 2, 3 ... 10000");
        }
        break;
    }
    case VALUE:
        set_value(reader, row, text, length);
        break;
    case PERSON:
        set_text(reader, use, text, length, row->person, sizeof row->person);
        break;
    case NOTE:
        set_text(reader, use, text, length, row->note, sizeof row->note);
        break;
    case TEMPERATURE:
        set_temperature(reader, row, text, length);
        break;
    case TIME:
        if (!bite_record_time_read(text, length, &row->entry.time)) {
            complain(reader, titles[use], "this is not a time", "UTC: 2026-11-30T19:25:49Z");
        }
        break;
    default:
        break;
    }
}

/* Counts how often this person has read this characteristic of this part in rows above. */
static uint32_t trial_of(const csv_reader *reader, const csv_row *of)
{
    uint32_t trial = 1;
    for (size_t i = 0; i < reader->count; i++) {
        const csv_row *one = &reader->rows[i];
        trial += one->entry.characteristic == of->entry.characteristic &&
                 one->entry.part == of->entry.part && strcmp(one->person, of->person) == 0;
    }
    return trial;
}

static bool is_same_trial(const bite_reading *one, const csv_row *row)
{
    return one->characteristic == row->entry.characteristic && one->part == row->entry.part &&
           one->trial == row->entry.trial && strcmp(one->person, row->person) == 0;
}

/* The record may have it from an earlier run that was interrupted; what was corrected since is not
 * recorded once more. */
static void compare_with_record(csv_reader *reader, csv_row *row)
{
    const bite_reading *one = NULL;
    const bite_reading *other = NULL; /* the one that stands for this trial, with another value */
    for (size_t i = 0; (one = bite_record_reading(reader->record, i)) != NULL; i++) {
        if (is_same_trial(one, row)) {
            bool same = fabs(one->value - row->number) <= 1e-12;
            bool stands = one->state == BITE_READING_STANDS;
            row->recorded |= same && (stands || one->state == BITE_READING_REPLACED);
            other = stands && !same ? one : other;
        }
    }
    if (other != NULL && !row->recorded) {
        bite_error error = BITE_ERROR_INIT;
        bite_error_set(&error, BITE_BAD_FILE,
                       "the record has %.60s for this trial, in line %" PRIu64, other->text,
                       other->line);
        bite_error_hint(&error, "correct that line in coolbite measure, or state another trial");
        complain_of(reader, titles[VALUE], &error);
    }
}

static void check_row(csv_reader *reader, csv_row *row)
{
    bite_review review = {.struct_size = (uint32_t)sizeof review};
    bite_error error = BITE_ERROR_INIT;
    size_t length = 0;
    row->entry.value = row->value;
    if (row->entry.part == 0) {
        complain(reader, titles[PART], "the part is missing", "1, 2, 3 ...");
        return;
    }
    if (row->entry.part > bite_record_parts(reader->record)) {
        complain(reader, titles[PART], "the record has fewer parts", "its head states their count");
        return;
    }
    row->entry.trial = row->entry.trial == 0 ? trial_of(reader, row) : row->entry.trial;
    if (bite_record_review(reader->record, &row->entry, &review, &error) != BITE_OK) {
        complain_of(reader, titles[VALUE], &error);
        return;
    }
    if ((review.slip == BITE_SLIP_FACTOR || review.slip == BITE_SLIP_FAR) && !row->sure) {
        char likely[64] = "";
        bool known =
            !isnan(review.likely) &&
            bite_quantity_write(review.likely, BITE_KIND_LENGTH, (bite_units)reader->record->units,
                                likely, sizeof likely, &length, NULL) == BITE_OK;
        bite_error_set(&error, BITE_BAD_FILE, "%s is far outside the limits%s%s%s", review.text,
                       known ? "; " : "", likely, known ? " may be meant" : "");
        bite_error_hint(&error, "if it is right, put ! behind it");
        complain_of(reader, titles[VALUE], &error);
    }
    row->number = review.value;
    compare_with_record(reader, row);
}

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for readings");
}

/* Reads the fields of a row. *blank: it has none. False: the rest of the text cannot be read. */
static bool read_fields(csv_reader *reader, csv_row *row, bool *blank)
{
    bool last = false;
    bool missing = true; /* the characteristic */
    *blank = true;
    for (size_t i = 0; !last; i++) {
        char copy[BITE_CSV_FIELD_MAX];
        const char *text = NULL;
        size_t length = 0;
        const char *wrong = bite_csv_next(&reader->csv, copy, &text, &length, &last);
        if (wrong != NULL) {
            complain(reader, "", wrong, "nothing was recorded");
            return false;
        }
        const char *value = text;
        bool empty = bite_text_trim(&value, length) == 0;
        *blank = *blank && empty;
        if (i < reader->column_count) {
            missing = missing && (reader->columns[i] != CHARACTERISTIC || empty);
            set_field(reader, row, reader->columns[i], text, length);
        } else if (!empty) {
            complain(reader, "", "the row has more values than there are columns",
                     "write a decimal point, not a comma, or put the value in quotes");
        }
    }
    if (missing && !*blank) {
        complain(reader, titles[CHARACTERISTIC], "the characteristic is missing",
                 "its number, or what it is called in the record");
    }
    return true;
}

static bite_status read_row(csv_reader *reader, bool *more, bite_error *error)
{
    if (reader->count == reader->capacity) {
        size_t larger = reader->capacity == 0 ? 64 : 2 * reader->capacity;
        csv_row *rows =
            bite_memory_grow(&reader->record->allocator, reader->rows, larger, sizeof *rows);
        if (rows == NULL) {
            return no_memory(error);
        }
        reader->rows = rows;
        reader->capacity = larger;
    }
    csv_row *to = &reader->rows[reader->count];
    bool blank = false;
    uint32_t faults = reader->faults;
    memset(to, 0, sizeof *to);
    to->entry = *reader->defaults;
    to->entry.action = BITE_RECORD_READ;
    to->entry.trial = 0;
    reader->line = to->line = reader->csv.line;
    (void)snprintf(to->person, sizeof to->person, "%s",
                   reader->defaults->person == NULL ? "" : reader->defaults->person);
    *more = read_fields(reader, to, &blank) && reader->csv.at < reader->csv.end;
    if (blank || reader->faults > faults) {
        return BITE_OK;
    }
    check_row(reader, to);
    reader->count++;
    if (reader->count > ROWS_MAX) {
        complain(reader, "", "there are more than 20000 rows", "split the file");
        *more = false;
    }
    return BITE_OK;
}

static bite_status append_rows(csv_reader *reader, size_t *appended, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < reader->count && status == BITE_OK; i++) {
        csv_row *one = &reader->rows[i];
        if (one->recorded) {
            continue;
        }
        one->entry.value = one->value; /* the rows may have moved since */
        one->entry.person = one->person;
        one->entry.note = one->note;
        status = bite_record_append(reader->record, &one->entry, NULL, error);
        *appended += status == BITE_OK;
    }
    return status;
}

static bite_status read_all(csv_reader *reader, size_t *appended, bite_error *error)
{
    bite_status status = BITE_OK;
    read_columns(reader);
    bool more = reader->faults == 0 && reader->csv.at < reader->csv.end;
    while (status == BITE_OK && more) {
        status = read_row(reader, &more, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    if (reader->faults > 0) {
        bite_error_copy(error, &reader->first, reader->faults);
        return BITE_BAD_FILE;
    }
    return append_rows(reader, appended, error);
}

bite_status bite_record_append_csv(bite_record *record, const char *text, size_t size,
                                   const char *path, const bite_record_entry *given,
                                   bite_fault_sink fault, void *user, size_t *appended,
                                   bite_error *error)
{
    size_t own = 0;
    bite_record_entry own_defaults;
    const bite_record_entry *defaults = &own_defaults;
    bite_error_clear(error);
    bite_status status = bite_record_entry_read(record, given, &own_defaults, error);
    if (status != BITE_OK) {
        return status;
    }
    if (text == NULL || path == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a text and its path were expected");
    }
    if (defaults->person != NULL &&
        !bite_record_text_fits(defaults->person, BITE_RECORD_PERSON_MAX)) {
        return bite_error_set(error, BITE_OUT_OF_RANGE, "this name cannot be in a record");
    }
    status = bite_reading_temperature_check(defaults->temperature, error);
    if (status != BITE_OK) {
        return status;
    }
    csv_reader *reads = bite_memory_new(&record->allocator, 1, sizeof *reads);
    if (reads == NULL) {
        return no_memory(error);
    }
    reads->record = record;
    reads->defaults = defaults;
    reads->path = path;
    reads->fault = fault;
    reads->user = user;
    reads->first = (bite_error)BITE_ERROR_INIT;
    bite_csv_begin(&reads->csv, text, size);
    status = read_all(reads, &own, error);
    if (appended != NULL) {
        *appended = own;
    }
    bite_memory_free(&record->allocator, reads->rows);
    bite_memory_free(&record->allocator, reads);
    return status;
}
