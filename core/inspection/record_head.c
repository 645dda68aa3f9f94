/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The head of a record: its keys, and where each is kept. */
#include "core/inspection/record_head.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/base/writer.h"
#include "core/inspection/record_line.h"
#include "core/tables/typed_table.h"
#include "core/units/format_quantity.h"
#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)
#define SIZE_DIGITS 9   /* of sizes and limits, in the unit in which that is exact */
#define ALL_DIGITS 15   /* of others */
#define FIGURE_DIGITS 5 /* of what is estimated */
#define NUMBER_MOST 9999

static const char *const units_words[] = {"metric", "inch", NULL};
static const char *const no_yes[] = {"no", "yes", NULL};

/* Keys as KEY(member, name, how it is kept, type, kind, least, most, words). */
#define TEXT(KEY, member, name) KEY(member, name, KEPT_TEXT, BITE_FIELD_TEXT, 0, 0, 0, NULL)
#define FIGURE(KEY, member, kind, least, most)                                                     \
    KEY(member, #member, KEPT_FIGURE, BITE_FIELD_FIGURE, kind, least, most, NULL)
#define LENGTH(KEY, member, least, most) FIGURE(KEY, member, BITE_KIND_LENGTH, least, most)
#define WHOLE(KEY, member, most)                                                                   \
    KEY(member, #member, KEPT_COUNT, BITE_FIELD_FIGURE, BITE_KIND_NUMBER, 1, most, NULL)
#define WORD(KEY, member, words) KEY(member, #member, KEPT_WORD, BITE_FIELD_WORD, 0, 0, 0, words)

/* Part, process and purchase are named as first-article reports name them (AS9102, forms 1 and 2,
 * by public copies of revision B); the others are this program's. */
#define RECORD_KEYS(KEY)                                                                           \
    TEXT(KEY, part_name, "part_name")                                                              \
    TEXT(KEY, part_number, "part_number")                                                          \
    TEXT(KEY, revision, "part_revision")                                                           \
    TEXT(KEY, serial, "serial_number")                                                             \
    TEXT(KEY, drawing, "drawing_number")                                                           \
    TEXT(KEY, report_number, "report_number")                                                      \
    TEXT(KEY, organization, "organization")                                                        \
    TEXT(KEY, customer, "customer")                                                                \
    TEXT(KEY, order, "order_number")                                                               \
    TEXT(KEY, material, "material")                                                                \
    TEXT(KEY, certificate, "certificate_of_conformance")                                           \
    TEXT(KEY, lot, "lot")                                                                          \
    TEXT(KEY, machine, "machine")                                                                  \
    TEXT(KEY, job, "job")                                                                          \
    TEXT(KEY, note, "note")                                                                        \
    FIGURE(KEY, count, BITE_KIND_NUMBER, 1, 10000)                                                 \
    FIGURE(KEY, temperature_uncertainty, BITE_KIND_RISE, 0, 20)                                    \
    WORD(KEY, units, units_words)

#define CHARACTERISTIC_KEYS(KEY)                                                                   \
    TEXT(KEY, what, "what")                                                                        \
    TEXT(KEY, zone, "zone")                                                                        \
    TEXT(KEY, designator, "designator")                                                            \
    WORD(KEY, measures, bite_measured_words)                                                       \
    WORD(KEY, judged, no_yes)                                                                      \
    LENGTH(KEY, nominal, 0, 10)                                                                    \
    LENGTH(KEY, lower, 0, 10)                                                                      \
    LENGTH(KEY, upper, 0, 10)                                                                      \
    TEXT(KEY, limits_from, "limits_from")                                                          \
    TEXT(KEY, instrument, "instrument")                                                            \
    TEXT(KEY, instrument_title, "instrument_title")                                                \
    LENGTH(KEY, uncertainty, 0, 0.1)                                                               \
    LENGTH(KEY, resolution, 0, 0.1)                                                                \
    FIGURE(KEY, instrument_expansion, BITE_KIND_EXPANSION, 0, 1e-3)                                \
    FIGURE(KEY, expansion, BITE_KIND_EXPANSION, -1e-3, 1e-3)                                       \
    FIGURE(KEY, expansion_spread, BITE_KIND_EXPANSION, 0, 1e-3)                                    \
    LENGTH(KEY, pressed, 0, 0.1)                                                                   \
    WHOLE(KEY, pass, 10000)                                                                        \
    TEXT(KEY, pass_title, "pass_title")                                                            \
    TEXT(KEY, tool, "tool")                                                                        \
    LENGTH(KEY, wall_error, 0, 0.1)                                                                \
    WHOLE(KEY, every, 10000)                                                                       \
    TEXT(KEY, note, "note")

typedef enum kept { KEPT_TEXT, KEPT_FIGURE, KEPT_COUNT, KEPT_WORD } kept;

/* Where the value of a key is kept. */
typedef struct place {
    kept kept;
    size_t offset;
} place;

#define AS_FIELD(member, name, how, type, kind, least, most, words)                                \
    {name, type, kind, least, most, words},
#define AS_RECORD_PLACE(member, name, how, type, kind, least, most, words)                         \
    {how, offsetof(struct bite_record, member)},
#define AS_PLACE(member, name, how, type, kind, least, most, words)                                \
    {how, offsetof(bite_characteristic, member)},

static const bite_field record_fields[] = {RECORD_KEYS(AS_FIELD)};
static const place record_places[] = {RECORD_KEYS(AS_RECORD_PLACE)};
static const bite_field characteristic_fields[] = {CHARACTERISTIC_KEYS(AS_FIELD)};
static const place characteristic_places[] = {CHARACTERISTIC_KEYS(AS_PLACE)};

static const bite_section_schema sections[] = {
    {"record", record_fields, COUNT(record_fields), 0, 0},
    {"characteristic.", characteristic_fields, COUNT(characteristic_fields), 1, 0},
};
static const bite_table_schema schema = {"record", 1, sections, COUNT(sections), 1};

/* ---- nothing stated ---- */

static void init(void *object, const place *places, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char *at = (char *)object + places[i].offset;
        if (places[i].kept == KEPT_TEXT) {
            *(const char **)(void *)at = "";
        } else if (places[i].kept == KEPT_FIGURE) {
            *(double *)(void *)at = (double)NAN;
        }
    }
}

void bite_record_head_init(struct bite_record *record)
{
    init(record, record_places, COUNT(record_places));
}

void bite_characteristic_init(bite_characteristic *characteristic)
{
    memset(characteristic, 0, sizeof *characteristic);
    init(characteristic, characteristic_places, COUNT(characteristic_places));
    characteristic->measures = BITE_MEASURED_COUNT;
    characteristic->every = 1;
    characteristic->pressed = 0.0;
    characteristic->wall_error_low = characteristic->wall_error_high = (double)NAN;
}

/* ---- reading ---- */

static void complain(bite_record_reader *reader, const bite_section *section, const char *key,
                     const char *hint, const char *message)
{
    const bite_field_value *value = key == NULL ? NULL : bite_section_value(section, key);
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_hint(&error, "%s", hint);
    bite_error_key(&error, key == NULL ? "%s" : "%s:%s", section->name, key);
    bite_error_place(&error, reader->record->path, value == NULL ? section->line : value->line, 0);
    bite_record_report(reader, &error);
}

/* Copies the values of a section to where they are kept; false: no memory. */
static bool take(bite_record_reader *reader, const bite_section *section, const bite_field *fields,
                 const place *places, size_t count, void *object)
{
    for (size_t i = 0; i < count; i++) {
        const bite_field_value *value = bite_section_value(section, fields[i].name);
        void *at = (char *)object + places[i].offset;
        if (value == NULL) {
            continue;
        }
        if (places[i].kept == KEPT_TEXT) {
            char *text = bite_arena_text(reader->record->arena, value->text, strlen(value->text));
            *(const char **)at = text;
            if (text == NULL) {
                return false;
            }
        } else if (places[i].kept == KEPT_WORD) {
            *(uint32_t *)at = value->word;
        } else if (places[i].kept == KEPT_FIGURE) {
            *(double *)at = value->value;
        } else {
            *(uint32_t *)at = (uint32_t)value->value;
        }
        bool whole = fields[i].kind == BITE_KIND_NUMBER && fields[i].type == BITE_FIELD_FIGURE;
        if (whole && value->value != floor(value->value)) {
            complain(reader, section, fields[i].name, "such as 12", "a whole number was expected");
        }
    }
    return true;
}

/* The number in [characteristic.12]; 0: there is none. */
static uint32_t number_of(const bite_section *section)
{
    const char *tail = section->tail;
    size_t digits = strspn(tail, "0123456789");
    bool plain = digits > 0 && digits < 5 && tail[digits] == 0 && tail[0] != '0';
    unsigned long number = plain ? strtoul(tail, NULL, 10) : 0;
    return number <= NUMBER_MOST ? (uint32_t)number : 0;
}

static void check_characteristic(bite_record_reader *reader, const bite_section *section,
                                 const bite_characteristic *characteristic)
{
    if (characteristic->number == 0) {
        complain(reader, section, NULL, "[characteristic.1], [characteristic.2] ...",
                 "a characteristic is named by its number, 1 to 9999");
    }
    if (characteristic->what[0] == 0) {
        complain(reader, section, NULL, "such as what = \"width of the slot\"",
                 "the characteristic does not say what is measured");
    }
    if (characteristic->lower > characteristic->upper) {
        complain(reader, section, "lower", "exchange the two",
                 "the lower limit is above the upper one");
    }
}

static bool read_characteristic(bite_record_reader *reader, const bite_section *section)
{
    struct bite_record *record = reader->record;
    bite_characteristic *to = &record->characteristics[record->characteristic_count++];
    const bite_field_value *error = bite_section_value(section, "wall_error");
    bite_characteristic_init(to);
    to->number = number_of(section);
    if (error != NULL) {
        to->wall_error_low = error->low;
        to->wall_error_high = error->high;
    }
    bool ok = take(reader, section, characteristic_fields, characteristic_places,
                   COUNT(characteristic_fields), to);
    if (ok) {
        check_characteristic(reader, section, to);
    }
    return ok;
}

static int by_number(const void *a, const void *b)
{
    const bite_characteristic *first = a;
    const bite_characteristic *second = b;
    return first->number < second->number ? -1 : first->number > second->number;
}

static bool read_sections(bite_record_reader *reader, const bite_table *table)
{
    struct bite_record *record = reader->record;
    bool ok = true;
    record->characteristics =
        bite_arena_alloc(record->arena, BITE_CHARACTERISTICS_MAX, sizeof *record->characteristics);
    ok = record->characteristics != NULL;
    for (size_t i = 0; i < bite_table_count(table) && ok; i++) {
        const bite_section *section = bite_table_at(table, i);
        if (strcmp(section->name, "record") == 0) {
            ok = take(reader, section, record_fields, record_places, COUNT(record_fields), record);
        } else if (record->characteristic_count == BITE_CHARACTERISTICS_MAX) {
            complain(reader, section, NULL, "split the record into several",
                     "the record has more than 150 characteristics");
            return true;
        } else {
            ok = read_characteristic(reader, section);
        }
    }
    if (ok && record->characteristic_count > 0) {
        qsort(record->characteristics, record->characteristic_count,
              sizeof *record->characteristics, by_number);
    }
    return ok;
}

bite_status bite_record_head_read(bite_record_reader *reader, const char *text, size_t size,
                                  bite_error *error)
{
    struct bite_record *record = reader->record;
    bite_table *table = NULL;
    bite_error own = BITE_ERROR_INIT;
    bite_status status = bite_table_parse(&record->allocator, text, size, record->path, &schema,
                                          bite_record_report, reader, &table, &own);
    if (status != BITE_OK && status != BITE_BAD_FILE) {
        bite_error_copy(error, &own, 0);
        return status;
    }
    if (table == NULL) {
        return BITE_OK; /* the faults were reported */
    }
    bool ok = read_sections(reader, table);
    if (ok && record->characteristic_count == 0 && !bite_table_has_unread_sections(table)) {
        bite_error none = BITE_ERROR_INIT;
        bite_error_set(&none, BITE_BAD_FILE, "the record has no characteristic to measure");
        bite_error_hint(&none, "add [characteristic.1] with what = ..., nominal, lower, upper");
        bite_error_place(&none, record->path, 0, 0);
        bite_record_report(reader, &none);
    }
    bite_table_free(table);
    return ok ? BITE_OK : bite_error_set(error, BITE_NO_MEMORY, "no memory for a record");
}

/* ---- setting and writing ---- */

static const char *key_at(size_t at, const void *list)
{
    const bite_field *fields = list;
    return fields[at].name;
}

/* Where the text of a key is kept; NULL: no such key. */
static const char **text_at(const struct bite_record *record, const char *key)
{
    for (size_t i = 0; i < COUNT(record_fields); i++) {
        if (record_places[i].kept == KEPT_TEXT && bite_text_equals(record_fields[i].name, key)) {
            return (const char **)(uintptr_t)((const char *)record + record_places[i].offset);
        }
    }
    return NULL;
}

const char *bite_record_head_text(const struct bite_record *record, const char *key)
{
    const char **text = text_at(record, key);
    return text == NULL ? NULL : *text;
}

bite_status bite_record_head_set(struct bite_record *record, const char *key, const char *text,
                                 bite_error *error)
{
    const char **where = text_at(record, key);
    if (where == NULL) {
        const char *near = bite_text_nearest(key, COUNT(record_fields), key_at, record_fields);
        bite_error_set(error, BITE_UNKNOWN_NAME, "the head of a record has no text %.60s", key);
        bite_error_hint(
            error, near == NULL ? "such as %s or lot; see coolbite-record(5)" : "did you mean %s?",
            near == NULL ? "part_number, serial_number" : near);
        return BITE_UNKNOWN_NAME;
    }
    if (!bite_record_text_fits(text, BITE_RECORD_NOTE_MAX)) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "this text cannot be in a record");
        bite_error_hint(error, "at most %d bytes, without quotation marks and backslashes",
                        BITE_RECORD_NOTE_MAX - 1);
        bite_error_key(error, "%s", key);
        return BITE_OUT_OF_RANGE;
    }
    *where = text;
    return BITE_OK;
}

static void write_text(bite_writer *writer, const char *text)
{
    bite_writer_text(writer, "\"");
    for (; *text != 0; text++) {
        const char one = *text == '"' ? '\'' : *text == '\\' ? '/' : *text;
        bite_writer_part(writer, &one, 1);
    }
    bite_writer_text(writer, "\"");
}

/* The unit in which few digits are the size itself: that of the record, otherwise the other one. */
static const char *size_unit(double si, bite_units units, int *digits)
{
    const char *const names[] = {units == BITE_INCH ? "in" : "mm",
                                 units == BITE_INCH ? "mm" : "in"};
    for (size_t i = 0; i < COUNT(names); i++) {
        if (fabs(bite_unit_round(si, BITE_KIND_LENGTH, names[i], SIZE_DIGITS) - si) <=
            4.0 * DBL_EPSILON * fabs(si)) {
            *digits = SIZE_DIGITS;
            return names[i];
        }
    }
    *digits = ALL_DIGITS;
    return names[0];
}

/* A figure in the unit of its kind. */
static void write_figure(bite_writer *writer, const bite_field *field, bite_units units, double si)
{
    char text[80] = "";
    size_t length = 0;
    int digits = FIGURE_DIGITS;
    bool size = strcmp(field->name, "nominal") == 0 || strcmp(field->name, "lower") == 0 ||
                strcmp(field->name, "upper") == 0;
    if (field->kind == BITE_KIND_NUMBER) {
        (void)bite_number_write(si, SIZE_DIGITS, text, sizeof text);
        bite_writer_text(writer, text);
        return;
    }
    const char *unit = field->kind == BITE_KIND_EXPANSION ? "um/m/K"
                       : field->kind == BITE_KIND_RISE    ? "K"
                       : units == BITE_INCH               ? "in"
                                                          : "mm";
    if (size) {
        unit = size_unit(si, units, &digits);
    }
    (void)bite_quantity_write_unit(si, (bite_kind)field->kind, unit, digits, text, sizeof text,
                                   &length, NULL);
    bite_writer_text(writer, text);
}

/* Whether a key is stated, i.e. is not as `init` leaves it. */
static bool is_stated(const bite_field *field, const place *where, const void *at)
{
    switch (where->kept) {
    case KEPT_TEXT:
        return **(const char *const *)at != 0;
    case KEPT_FIGURE:
        return !isnan(*(const double *)at);
    case KEPT_COUNT:
        return *(const uint32_t *)at > 0;
    case KEPT_WORD:
        break;
    }
    uint32_t words = 0;
    while (field->words[words] != NULL) {
        words++;
    }
    return *(const uint32_t *)at < words;
}

static void write_keys(bite_writer *writer, const bite_field *fields, const place *places,
                       size_t count, const void *object, bite_units units)
{
    for (size_t i = 0; i < count; i++) {
        const void *at = (const char *)object + places[i].offset;
        if (!is_stated(&fields[i], &places[i], at)) {
            continue;
        }
        bite_writer_text(writer, fields[i].name);
        bite_writer_text(writer, " = ");
        if (places[i].kept == KEPT_TEXT) {
            write_text(writer, *(const char *const *)at);
        } else if (places[i].kept == KEPT_WORD) {
            bite_writer_text(writer, fields[i].words[*(const uint32_t *)at]);
        } else {
            write_figure(writer, &fields[i], units,
                         places[i].kept == KEPT_COUNT ? (double)*(const uint32_t *)at
                                                      : *(const double *)at);
        }
        const bite_characteristic *band = object;
        if (strcmp(fields[i].name, "wall_error") == 0 && !isnan(band->wall_error_low)) {
            bite_writer_text(writer, " (");
            write_figure(writer, &fields[i], units, band->wall_error_low);
            bite_writer_text(writer, " .. ");
            write_figure(writer, &fields[i], units, band->wall_error_high);
            bite_writer_text(writer, ")");
        }
        bite_writer_text(writer, "\n");
    }
}

bite_status bite_record_head_write(const struct bite_record *record, bite_sink sink, void *user)
{
    bite_writer writer;
    char title[40];
    bite_writer_start(&writer, sink, user);
    bite_writer_text(&writer, "# What is measured, and below what was read. The readings are "
                              "appended by coolbite measure;\n# coolbite-record(5) describes the "
                              "format.\n[format]\nkind = record\nversion = 1\n\n[record]\n");
    write_keys(&writer, record_fields, record_places, COUNT(record_fields), record,
               (bite_units)record->units);
    for (size_t i = 0; i < record->characteristic_count; i++) {
        const bite_characteristic *one = &record->characteristics[i];
        (void)snprintf(title, sizeof title, "\n[characteristic.%u]\n", (unsigned)one->number);
        bite_writer_text(&writer, title);
        write_keys(&writer, characteristic_fields, characteristic_places,
                   COUNT(characteristic_fields), one, (bite_units)record->units);
    }
    bite_writer_text(&writer, "\n" BITE_RECORD_MARK "\n");
    return bite_writer_end(&writer);
}
