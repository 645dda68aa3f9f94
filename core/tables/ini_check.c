/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The check of an INI file's bytes: what iniparser would cut, fold, merge or print about is told
 * with its line and column, and never reaches it. */
#include "core/tables/ini_check.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include <stdio.h>
#include <string.h>

#define LINE_MOST 1000
#define ENTRIES_MOST 16000
#define FAULTS_MOST 200 /* told one by one; more would say nothing new */

typedef struct check {
    bite_arena *arena;
    bite_arena *scratch;
    bite_ini_index *index;
    size_t room; /* for entries and spans */
    const char *path;
    bite_ini_fault fault;
    void *user;
    bite_error first;
    uint32_t faults;
    uint32_t line;
    const char *section; /* of the line; NULL before the first */
    size_t head;         /* its entry */
    bool nameless;       /* the section's name could not be read: its keys belong to none */
    bool no_memory;      /* ends the check */
} check;

static void tell(check *of, uint32_t column, const char *key, const char *hint, const char *message)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_place(&error, of->path, of->line, column);
    if (of->section != NULL && key != NULL && *key != 0) {
        bite_error_key(&error, "%s:%s", of->section, key);
    } else if (key != NULL) {
        bite_error_key(&error, "%s", key);
    }
    bite_error_hint(&error, "%s", hint);
    if (of->faults == 0) {
        of->first = error;
    }
    of->faults++;
    if (of->fault != NULL && of->faults <= FAULTS_MOST) {
        of->fault(of->user, &error);
    }
}

static bool grow(check *of)
{
    bite_ini_index *index = of->index;
    size_t capacity = of->room == 0 ? 64 : 2 * of->room;
    bite_ini_entry *entries = bite_arena_alloc(of->arena, capacity, sizeof *entries);
    bite_ini_span *spans = bite_arena_alloc(of->scratch, capacity, sizeof *spans);
    if (entries == NULL || spans == NULL) {
        of->no_memory = true;
        return false;
    }
    if (index->count > 0) {
        memcpy(entries, index->entries, index->count * sizeof *entries);
        memcpy(spans, index->spans, index->count * sizeof *spans);
    }
    index->entries = entries;
    index->spans = spans;
    of->room = capacity;
    return true;
}

static bool add(check *of, const char *section, const char *key, bite_ini_span value,
                uint32_t column)
{
    bite_ini_index *index = of->index;
    if (index->count == of->room && !grow(of)) {
        return false;
    }
    bite_ini_entry entry = {section, key, key == NULL ? "" : NULL, of->line, column};
    index->spans[index->count] = value;
    index->entries[index->count++] = entry;
    index->keys += value.text != NULL;
    return true;
}

/* The keys of a section follow its own line, up to the next section, unless it was opened twice. */
const bite_ini_entry *bite_ini_index_find_in_section(const bite_ini_index *index, size_t head,
                                                     const char *key)
{
    const char *section = index->entries[head].section;
    for (size_t i = head + 1; i < index->count; i++) {
        const bite_ini_entry *entry = &index->entries[i];
        if (entry->key == NULL && !index->reopened) {
            return NULL;
        }
        /* the first letter decides most comparisons without a call */
        if (entry->key != NULL && entry->section == section && entry->key[0] == key[0] &&
            strcmp(entry->key, key) == 0) {
            return entry;
        }
    }
    return NULL;
}

const bite_ini_entry *bite_ini_index_find(const bite_ini_index *index, const char *section,
                                          const char *key)
{
    for (size_t i = 0; i < index->count; i++) {
        const bite_ini_entry *head = &index->entries[i];
        if (head->key == NULL &&
            (head->section == section || strcmp(head->section, section) == 0)) {
            return key == NULL ? head : bite_ini_index_find_in_section(index, i, key);
        }
    }
    return NULL;
}

static bool name_character(char c, bool section)
{
    return (c >= 'a' && c <= 'z') || bite_text_is_digit(c) || c == '_' || c == '.' ||
           (section && c == '-');
}

static bool good_name(const char *text, size_t length, bool section)
{
    for (size_t i = 0; i < length; i++) {
        if (!name_character(text[i], section)) {
            return false;
        }
    }
    return length > 0;
}

static char *copy(check *of, const char *text, size_t length)
{
    char *out = bite_arena_text(of->arena, text, length);
    of->no_memory |= out == NULL;
    return out;
}

/* A key that is there and cannot be used: nobody need report it missing. line: may hold one. */
static void add_wrong(check *of, const char *line, size_t length)
{
    static const bite_ini_span none = {NULL, 0};
    const char *equals = memchr(line, '=', length);
    const char *name = line;
    char small[BITE_INI_NAME_MAX + 1];
    size_t size = equals == NULL ? 0 : bite_text_trim(&name, (size_t)(equals - line));
    if (size == 0 || size >= sizeof small || of->section == NULL || of->nameless) {
        return;
    }
    for (size_t i = 0; i < size; i++) {
        small[i] = bite_text_lower(name[i]);
    }
    small[size] = 0;
    if (good_name(small, size, false) &&
        bite_ini_index_find_in_section(of->index, of->head, small) == NULL) {
        const char *kept = copy(of, small, size);
        if (kept != NULL) {
            (void)add(of, of->section, kept, none, 1);
        }
    }
}

/* The name between a section's brackets; NULL: told. */
static const char *section_name(check *of, const char *text, size_t length, uint32_t column,
                                size_t *size)
{
    const char *close = memchr(text, ']', length);
    if (close == NULL) {
        tell(of, column, NULL, "[name]", "a section's bracket is not closed");
        return NULL;
    }
    if (close + 1 != text + length) {
        tell(of, column + (uint32_t)(close - text) + 1, NULL, "put comments on a line of their own",
             "something stands behind the section's bracket");
        return NULL;
    }
    *size = (size_t)(close - text) - 1;
    if (!good_name(text + 1, *size, true)) {
        tell(of, column + 1, NULL, "lower-case letters, digits, _ . and -",
             "that is no section's name");
        return NULL;
    }
    if (*size > BITE_INI_NAME_MAX) {
        tell(of, column + 1, NULL, "at most 100 bytes", "the section's name is too long");
        return NULL;
    }
    return text + 1;
}

/* True: the line is for iniparser, as with the functions below. */
static bool check_section(check *of, const char *text, size_t length, const char *start)
{
    static const bite_ini_span none = {NULL, 0};
    uint32_t column = (uint32_t)(text - start) + 1;
    bool lost_before = of->index->lost;
    size_t size = 0;
    of->nameless = of->index->lost = true; /* until its name is known */
    const char *name = section_name(of, text, length, column, &size);
    const char *kept = name == NULL ? NULL : copy(of, name, size);
    if (kept == NULL) {
        return false;
    }
    const bite_ini_entry *twin = bite_ini_index_find(of->index, kept, NULL);
    of->section = twin == NULL ? kept : twin->section;
    of->head = twin == NULL ? of->index->count : (size_t)(twin - of->index->entries);
    of->nameless = false;
    of->index->lost = lost_before;
    if (twin != NULL) {
        of->index->reopened = true;
        tell(of, column, "", "put its keys together", "this section stood before already");
        return true;
    }
    return add(of, kept, NULL, none, column);
}

/* A value in quotes: what is between them. False: told. */
static bool strip_quotes(check *of, bite_ini_span *value, uint32_t column, const char *key)
{
    const char *text = value->text;
    const char *end = memchr(text + 1, '"', value->length - 1);
    if (end == NULL) {
        tell(of, column, key, "close it on the same line", "a quoted value is not closed");
        return false;
    }
    if (end + 1 != text + value->length) {
        tell(of, column + (uint32_t)(end - text) + 1, key,
             "a value is wholly in quotes or has none", "something stands behind the quoted value");
        return false;
    }
    value->text++;
    value->length -= 2;
    return true;
}

/* A value without quotes has none of the characters at which iniparser cuts. False: told. */
static bool check_bare(check *of, const bite_ini_span *value, uint32_t column, const char *key)
{
    const char *text = value->text;
    if (value->length > 0 && text[0] == '\'') {
        tell(of, column, key, "use double quotes", "a value begins with a single quote");
        return false;
    }
    for (size_t i = 0; i < value->length; i++) {
        if (text[i] == ';' || text[i] == '#' || text[i] == '"') {
            tell(of, column + (uint32_t)i, key, "put the whole value in double quotes",
                 "; # and \" do not stand in an unquoted value");
            return false;
        }
    }
    return true;
}

/* Takes the quotes off and moves the column to the first character. False: told. */
static bool check_value(check *of, bite_ini_span *value, uint32_t *column, const char *key)
{
    if (value->length > 0 && value->text[0] == '"') {
        if (!strip_quotes(of, value, *column, key)) {
            return false;
        }
        (*column)++;
    } else if (!check_bare(of, value, *column, key)) {
        return false;
    }
    const char *slash = memchr(value->text, '\\', value->length);
    if (slash != NULL) {
        tell(of, *column + (uint32_t)(slash - value->text), key,
             "use a plain slash or leave it out", "a backslash does not stand in a value");
        return false;
    }
    const char *tab = memchr(value->text, '\t', value->length);
    if (tab != NULL) { /* values are shown */
        tell(of, *column + (uint32_t)(tab - value->text), key, "use blanks",
             "a tab does not stand in a value");
        return false;
    }
    return true;
}

/* The name before the equals sign, copied; NULL: told, or no memory. */
static const char *key_name(check *of, const char *text, size_t length, uint32_t column)
{
    const char *equals = memchr(text, '=', length);
    if (equals == NULL) {
        tell(of, column, NULL, "key = value, [section], or a comment that begins with #",
             "this line is none that a table knows");
        return NULL;
    }
    const char *name = text;
    size_t size = bite_text_trim(&name, (size_t)(equals - text));
    if (!good_name(name, size, false)) {
        tell(of, column, NULL, "lower-case letters, digits, _ and .", "that is no key's name");
        add_wrong(of, text, length);
        return NULL;
    }
    if (size > BITE_INI_NAME_MAX) {
        tell(of, column, NULL, "at most 100 bytes", "the key's name is too long");
        return NULL;
    }
    return copy(of, name, size);
}

static bool check_key(check *of, const char *text, size_t length, const char *start)
{
    uint32_t column = (uint32_t)(text - start) + 1;
    const char *key = key_name(of, text, length, column);
    if (key == NULL || of->nameless) {
        return false;
    }
    if (of->section == NULL) {
        tell(of, column, key, "a section such as [format] comes first",
             "a key stands before the first section");
        return false;
    }
    const char *equals = memchr(text, '=', length);
    bite_ini_span value = {equals + 1, (size_t)(text + length - equals - 1)};
    value.length = bite_text_trim(&value.text, value.length);
    uint32_t at = (uint32_t)(value.text - start) + 1;
    if (bite_ini_index_find_in_section(of->index, of->head, key) != NULL) {
        tell(of, column, key, "say it once", "this key stood in the section before already");
        return false;
    }
    bool good = check_value(of, &value, &at, key);
    if (!good) {
        value.text = NULL;
    }
    return add(of, of->section, key, value, at) && good;
}

/* iniparser joins a line that ends in a backslash, whatever it is, with the next one. */
static bool check_comment(check *of, const char *text, size_t length, const char *start)
{
    if (text[length - 1] != '\\') {
        return true;
    }
    tell(of, (uint32_t)(text - start + (ptrdiff_t)length), NULL, "take the backslash out",
         "a comment ends in a backslash");
    return false;
}

/* Bytes that have no place in any line. False: told. */
static bool check_bytes(check *of, const char *line, size_t length)
{
    size_t bad = 0;
    if (length > LINE_MOST) {
        tell(of, LINE_MOST + 1, NULL, "at most 1000 bytes", "the line is too long");
        return false;
    }
    bite_text_fault fault = bite_text_check(line, length, "\t", &bad);
    if (fault != BITE_TEXT_SOUND) {
        char message[120];
        (void)snprintf(message, sizeof message, "the line has %s", bite_text_fault_name(fault));
        tell(of, (uint32_t)bad + 1, NULL,
             fault == BITE_TEXT_MALFORMED ? "save the file as UTF-8" : "take it out", message);
    }
    return fault == BITE_TEXT_SOUND;
}

static bool check_line(check *of, const char *line, size_t length)
{
    if (length > 0 && line[length - 1] == '\r') {
        length--; /* the end of a line on other systems */
    }
    if (!check_bytes(of, line, length)) {
        add_wrong(of, line, length);
        return false;
    }
    const char *text = line;
    length = bite_text_trim(&text, length);
    if (length == 0) {
        return true;
    }
    if (*text == '#') {
        return check_comment(of, text, length, line);
    }
    return *text == '[' ? check_section(of, text, length, line) : check_key(of, text, length, line);
}

static void check_lines(check *of, const char *text, size_t size)
{
    bite_ini_index *index = of->index;
    if (size >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0) {
        of->line = 1;
        tell(of, 1, NULL, "save the file as UTF-8 without it",
             "a byte order mark stands before the first line");
        of->line = 0;
        text += 3;
        size -= 3;
    }
    while (size > 0 && !of->no_memory) {
        const char *end = memchr(text, '\n', size);
        size_t length = end == NULL ? size : (size_t)(end - text);
        size_t whole = length + (end != NULL);
        of->line++;
        if (check_line(of, text, length)) {
            memcpy(index->passed + index->passed_size, text, whole);
            index->passed_size += whole;
        }
        if (index->count > ENTRIES_MOST && !of->no_memory) {
            tell(of, 1, NULL, "at most 16000 keys", "there are more keys than any table has");
            return;
        }
        text += whole;
        size -= whole;
    }
    if (!of->no_memory && of->faults == 0 && index->count == 0) {
        of->line = 0;
        tell(of, 0, NULL, "a table begins with [format]", "the file is empty");
    }
}

bite_status bite_ini_check(bite_arena *arena, bite_arena *scratch, const char *text, size_t size,
                           const char *path, bite_ini_fault fault, void *user,
                           bite_ini_index *index, bite_error *error)
{
    static const bite_ini_index empty;
    check of = {0};
    *index = empty;
    of.arena = arena;
    of.scratch = scratch;
    of.index = index;
    of.path = path;
    of.fault = fault;
    of.user = user;
    if (size > BITE_INI_SIZE_MAX) {
        tell(&of, 0, NULL, "at most 1 MiB", "the file is larger than any table");
    } else if ((index->passed = bite_arena_alloc(scratch, size + 1, 1)) == NULL) {
        of.no_memory = true;
    } else {
        check_lines(&of, text, size);
    }
    if (of.no_memory) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to read a table");
    }
    if (of.faults == 0) {
        return BITE_OK;
    }
    bite_error_copy(error, &of.first, of.faults);
    return BITE_BAD_FILE;
}
