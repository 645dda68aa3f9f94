/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The gate before iniparser. Our scan judges every byte and keeps line and column; iniparser then
 * reads the same bytes, and its values must be ours: what it would cut, fold, merge or print about
 * never reaches it.
 */
#include "core/tables/ini.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/file.h"
#include "core/base/text.h"
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>
#ifdef BITE_INIPARSER_FLAT
#include <iniparser.h>
#else
#include <iniparser/iniparser.h>
#endif

#define SIZE_MOST ((size_t)1 << 20)
#define LINE_MOST 1000
#define KEYS_MOST 4000
#define FAULTS_MOST 200 /* more say nothing new */

struct bite_ini {
    bite_arena *arena;
    const char *path;
    bite_ini_entry *entries;
    size_t count;
    size_t capacity;
    int has_unread_sections; /* some section's name could not be read */
};

typedef struct ini_scan {
    bite_ini *ini;
    bite_ini_fault fault;
    void *user;
    bite_error first;
    uint32_t faults;
    uint32_t line;
    const char *section; /* of the line; NULL before the first */
    size_t head;         /* its entry */
    int lost;            /* the section's name could not be read: its keys are nobody's */
    bite_status stop;    /* BITE_NO_MEMORY ends it all */
} ini_scan;

static void say(ini_scan *scan, uint32_t column, const char *key, const char *hint,
                const char *message)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_place(&error, scan->ini->path, scan->line, column);
    if (scan->section != NULL && key != NULL && *key != 0) {
        bite_error_key(&error, "%s:%s", scan->section, key);
    } else if (key != NULL) {
        bite_error_key(&error, "%s", key);
    }
    bite_error_hint(&error, "%s", hint);
    if (scan->faults == 0) {
        scan->first = error;
    }
    scan->faults++;
    if (scan->fault != NULL && scan->faults <= FAULTS_MOST) {
        scan->fault(scan->user, &error);
    }
}

static int add_entry(ini_scan *scan, const char *section, const char *key, const char *value,
                     uint32_t column)
{
    bite_ini *ini = scan->ini;
    if (ini->count == ini->capacity) {
        size_t capacity = ini->capacity == 0 ? 64 : 2 * ini->capacity;
        bite_ini_entry *more = bite_arena_alloc(ini->arena, capacity, sizeof *more);
        if (more == NULL) {
            scan->stop = BITE_NO_MEMORY;
            return 0;
        }
        if (ini->count > 0) {
            memcpy(more, ini->entries, ini->count * sizeof *more);
        }
        ini->entries = more;
        ini->capacity = capacity;
    }
    bite_ini_entry entry = {section, key, value, scan->line, column};
    ini->entries[ini->count++] = entry;
    return 1;
}

/* A section's keys stand together, behind its own line. */
static const bite_ini_entry *find_behind(const bite_ini *ini, size_t head, const char *key)
{
    for (size_t i = head + 1; i < ini->count && ini->entries[i].key != NULL; i++) {
        if (strcmp(ini->entries[i].key, key) == 0) {
            return &ini->entries[i];
        }
    }
    return NULL;
}

static int name_sign(char c, int section)
{
    return (c >= 'a' && c <= 'z') || bite_text_is_digit(c) || c == '_' || c == '.' ||
           (section && c == '-');
}

static int good_name(const char *text, size_t length, int section)
{
    for (size_t i = 0; i < length; i++) {
        if (!name_sign(text[i], section)) {
            return 0;
        }
    }
    return length > 0;
}

static char *copy(ini_scan *scan, const char *text, size_t length)
{
    char *out = bite_arena_text(scan->ini->arena, text, length);
    if (out == NULL) {
        scan->stop = BITE_NO_MEMORY;
    }
    return out;
}

/* A key that is there and cannot be used: nobody need miss it. line: any that may hold one. */
static void keep_wrong(ini_scan *scan, const char *line, size_t length)
{
    const char *equals = memchr(line, '=', length);
    const char *name = line;
    char small[80];
    size_t size = equals == NULL ? 0 : bite_text_trim(&name, (size_t)(equals - line));
    if (size == 0 || size >= sizeof small || scan->section == NULL || scan->lost) {
        return;
    }
    for (size_t i = 0; i < size; i++) {
        small[i] = bite_text_lower(name[i]);
    }
    small[size] = 0;
    if (good_name(small, size, 0) && find_behind(scan->ini, scan->head, small) == NULL) {
        const char *kept = copy(scan, small, size);
        if (kept != NULL) {
            (void)add_entry(scan, scan->section, kept, NULL, 1);
        }
    }
}

static void scan_section(ini_scan *scan, const char *text, size_t length, const char *start)
{
    uint32_t column = (uint32_t)(text - start) + 1;
    int lost_before = scan->ini->has_unread_sections;
    scan->lost = scan->ini->has_unread_sections = 1; /* until its name is known */
    const char *close = memchr(text, ']', length);
    if (close == NULL) {
        say(scan, column, NULL, "[name]", "a section's bracket is not closed");
        return;
    }
    if (close + 1 != text + length) {
        say(scan, (uint32_t)(close - start) + 2, NULL, "put comments on a line of their own",
            "something stands behind the section's bracket");
        return;
    }
    const char *name = text + 1;
    size_t size = (size_t)(close - name);
    if (!good_name(name, size, 1)) {
        say(scan, column + 1, NULL, "lower-case letters, digits, _ . and -",
            "that is no section's name");
        return;
    }
    char *kept = copy(scan, name, size);
    if (kept == NULL) {
        return;
    }
    const bite_ini_entry *twin = bite_ini_find(scan->ini, kept, NULL);
    scan->section = twin == NULL ? kept : twin->section;
    scan->head = twin == NULL ? scan->ini->count : (size_t)(twin - scan->ini->entries);
    scan->lost = 0;
    scan->ini->has_unread_sections = lost_before;
    if (twin != NULL) {
        say(scan, column, "", "put its keys together", "this section stood before already");
        return;
    }
    (void)add_entry(scan, kept, NULL, "", column);
}

/* The value between key and the line's end: wholly quoted, or free of the signs that iniparser cuts
 * at. False: said. */
static int judge_value(ini_scan *scan, const char **value, size_t *length, uint32_t *column,
                       const char *key)
{
    const char *text = *value;
    size_t size = *length;
    if (size >= 1 && text[0] == '"') {
        const char *end = memchr(text + 1, '"', size - 1);
        if (end == NULL) {
            say(scan, *column, key, "close it on the same line", "a quoted value is not closed");
            return 0;
        }
        if (end + 1 != text + size) {
            say(scan, *column + (uint32_t)(end - text) + 1, key,
                "a value is wholly in quotes or has none",
                "something stands behind the quoted value");
            return 0;
        }
        text++;
        size -= 2;
        (*column)++;
    } else {
        if (size > 0 && text[0] == '\'') {
            say(scan, *column, key, "use double quotes", "a value begins with a single quote");
            return 0;
        }
        for (size_t i = 0; i < size; i++) {
            if (text[i] == ';' || text[i] == '#' || text[i] == '"') {
                say(scan, *column + (uint32_t)i, key, "put the whole value in double quotes",
                    "; # and \" do not stand in an unquoted value");
                return 0;
            }
        }
    }
    const char *slash = memchr(text, '\\', size);
    if (slash != NULL) {
        say(scan, *column + (uint32_t)(slash - text), key, "use a plain slash or leave it out",
            "a backslash does not stand in a value");
        return 0;
    }
    const char *tab = memchr(text, '\t', size);
    if (tab != NULL) { /* values are shown */
        say(scan, *column + (uint32_t)(tab - text), key, "use blanks",
            "a tab does not stand in a value");
        return 0;
    }
    *value = text;
    *length = size;
    return 1;
}

static void scan_key(ini_scan *scan, const char *text, size_t length, const char *start)
{
    uint32_t column = (uint32_t)(text - start) + 1;
    const char *equals = memchr(text, '=', length);
    if (equals == NULL) {
        say(scan, column, NULL, "key = value, [section], or a comment that begins with #",
            "this line is none that a table knows");
        return;
    }
    const char *name = text;
    size_t size = bite_text_trim(&name, (size_t)(equals - text));
    if (!good_name(name, size, 0)) {
        say(scan, column, NULL, "lower-case letters, digits, _ and .", "that is no key's name");
        keep_wrong(scan, text, length);
        return;
    }
    char *key = copy(scan, name, size);
    if (key == NULL || scan->lost) {
        return;
    }
    if (scan->section == NULL) {
        say(scan, column, key, "a section such as [format] comes first",
            "a key stands before the first section");
        return;
    }
    const char *value = equals + 1;
    size_t value_size = bite_text_trim(&value, (size_t)(text + length - value));
    uint32_t at = (uint32_t)(value - start) + 1;
    if (find_behind(scan->ini, scan->head, key) != NULL) {
        say(scan, column, key, "say it once", "this key stood in the section before already");
        return;
    }
    if (!judge_value(scan, &value, &value_size, &at, key)) {
        (void)add_entry(scan, scan->section, key, NULL, at);
        return;
    }
    char *kept = copy(scan, value, value_size);
    if (kept != NULL) {
        (void)add_entry(scan, scan->section, key, kept, at);
    }
}

/* Bytes that no line holds. False: said. */
static int judge_bytes(ini_scan *scan, const char *line, size_t length)
{
    size_t bad = 0;
    if (length > LINE_MOST) {
        say(scan, LINE_MOST + 1, NULL, "at most 1000 bytes", "the line is too long");
        return 0;
    }
    bite_text_fault fault = bite_text_check(line, length, "\t", &bad);
    if (fault != BITE_TEXT_SOUND) {
        char message[120];
        (void)snprintf(message, sizeof message, "the line has %s", bite_text_fault_name(fault));
        say(scan, (uint32_t)bad + 1, NULL,
            fault == BITE_TEXT_MALFORMED ? "save the file as UTF-8" : "take it out", message);
    }
    return fault == BITE_TEXT_SOUND;
}

static void scan_line(ini_scan *scan, const char *line, size_t length)
{
    if (length > 0 && line[length - 1] == '\r') {
        length--; /* a line's end of another system */
    }
    if (!judge_bytes(scan, line, length)) {
        keep_wrong(scan, line, length);
        return;
    }
    const char *text = line;
    length = bite_text_trim(&text, length);
    if (length == 0 || *text == '#') {
        return;
    }
    if (*text == '[') {
        scan_section(scan, text, length, line);
    } else {
        scan_key(scan, text, length, line);
    }
}

static void scan_all(ini_scan *scan, const char *text, size_t size)
{
    if (size >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0) {
        scan->line = 1;
        say(scan, 1, NULL, "save the file as UTF-8 without it",
            "a byte order mark stands before the first line");
        text += 3;
        size -= 3;
    }
    while (size > 0 && scan->stop == BITE_OK) {
        const char *end = memchr(text, '\n', size);
        size_t length = end == NULL ? size : (size_t)(end - text);
        scan->line++;
        scan_line(scan, text, length);
        if (scan->ini->count > KEYS_MOST && scan->stop == BITE_OK) {
            say(scan, 1, NULL, "at most 4000 keys", "there are more keys than any table has");
            return;
        }
        size -= length + (end != NULL);
        text += length + (end != NULL);
    }
    if (scan->stop == BITE_OK && scan->faults == 0 && scan->ini->count == 0) {
        scan->line = 0;
        say(scan, 0, NULL, "a table begins with [format]", "the file is empty");
    }
}

/* The same bytes for iniparser, which reads paths alone: a file that has no name, so that nobody
 * can change it in between. Carriage returns were judged as part of the line's end and are not
 * handed on. */
static int nameless_file(const char *text, size_t size)
{
    int file = memfd_create("table", MFD_CLOEXEC);
    if (file < 0) {
        return -1;
    }
    size_t start = 0;
    for (size_t i = 0; i <= size; i++) {
        if (i == size || (text[i] == '\r' && i + 1 < size && text[i + 1] == '\n')) {
            for (size_t at = start; at < i;) {
                ssize_t done = write(file, text + at, i - at);
                if (done <= 0 && errno != EINTR) {
                    (void)close(file);
                    return -1;
                }
                at += done > 0 ? (size_t)done : 0;
            }
            start = i + 1;
        }
    }
    return file;
}

/* section:key. A line holds both with room to spare. */
static void name_entry(const bite_ini_entry *entry, char *name)
{
    size_t section = strlen(entry->section);
    memcpy(name, entry->section, section);
    name[section] = ':';
    memcpy(name + section + 1, entry->key, strlen(entry->key) + 1);
}

/* iniparser's reading must be the gate's, value by value. */
static bite_status compare(bite_ini *ini, const dictionary *read, bite_error *error)
{
    for (size_t i = 0; i < ini->count; i++) {
        const bite_ini_entry *entry = &ini->entries[i];
        char name[LINE_MOST * 2 + 2];
        if (entry->key == NULL) {
            continue;
        }
        name_entry(entry, name);
        const char *value = iniparser_getstring(read, name, NULL);
        if (value == NULL || strcmp(value, entry->value) != 0) {
            bite_error_set(error, BITE_FAULT, "two readers of the file disagree about a value");
            bite_error_place(error, ini->path, entry->line, entry->column);
            bite_error_key(error, "%s", name);
            return BITE_FAULT;
        }
    }
    return BITE_OK;
}

static bite_status load_again(bite_ini *ini, const char *text, size_t size, bite_error *error)
{
    int file = nameless_file(text, size);
    char path[40];
    dictionary *read = NULL;
    if (file >= 0) {
        (void)snprintf(path, sizeof path, "/proc/self/fd/%d", file);
        read = iniparser_load(path);
        (void)close(file);
    }
    if (read == NULL) {
        bite_error_set(error, file < 0 ? BITE_IO : BITE_NO_MEMORY,
                       "the table could not be handed on to its reader");
        bite_error_place(error, ini->path, 0, 0);
        return file < 0 ? BITE_IO : BITE_NO_MEMORY;
    }
    bite_status status = compare(ini, read, error);
    iniparser_freedict(read);
    return status;
}

bite_status bite_ini_parse(const bite_allocator *allocator, const char *text, size_t size,
                           const char *path, bite_ini_fault fault, void *user, bite_ini **out,
                           bite_error *error)
{
    bite_arena *arena = bite_arena_new(allocator);
    bite_ini *ini = arena == NULL ? NULL : bite_arena_alloc(arena, 1, sizeof *ini);
    char *kept = ini == NULL ? NULL : bite_text_escaped(arena, path); /* for messages and lists */
    if (kept == NULL) {
        bite_arena_free(arena);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to read a table");
    }
    ini->arena = arena;
    ini->path = kept;
    ini_scan scan = {ini, fault, user, BITE_ERROR_INIT, 0, 0, NULL, 0, 0, BITE_OK};
    bite_status status = BITE_OK;
    if (size > SIZE_MOST) {
        say(&scan, 0, NULL, "at most 1 MiB", "the file is larger than any table");
    } else {
        scan_all(&scan, text, size);
    }
    if (scan.stop != BITE_OK) {
        status = bite_error_set(error, scan.stop, "no memory to read a table");
    } else if (scan.faults > 0) {
        status = BITE_BAD_FILE;
        if (error != NULL) {
            *error = scan.first;
            error->faults = scan.faults;
        }
    } else {
        status = load_again(ini, text, size, error);
    }
    if (status != BITE_OK && status != BITE_BAD_FILE) {
        bite_arena_free(arena);
        return status;
    }
    *out = ini;
    return status;
}

bool bite_ini_has_unread_sections(const bite_ini *ini)
{
    return ini->has_unread_sections != 0;
}

bite_status bite_ini_open(const bite_allocator *allocator, const char *path, bite_ini_fault fault,
                          void *user, bite_ini **ini, bite_error *error)
{
    char *text = NULL;
    size_t size = 0;
    bite_status status = bite_file_read(allocator, path, SIZE_MOST, &text, &size, error);
    if (status == BITE_OK) {
        status = bite_ini_parse(allocator, text, size, path, fault, user, ini, error);
        bite_memory_free(allocator, text);
    } else if (fault != NULL && error != NULL && status != BITE_NO_MEMORY) {
        fault(user, error);
    }
    return status;
}

void bite_ini_free(bite_ini *ini)
{
    if (ini != NULL) {
        bite_arena_free(ini->arena);
    }
}

const char *bite_ini_path(const bite_ini *ini)
{
    return ini->path;
}

size_t bite_ini_count(const bite_ini *ini)
{
    return ini->count;
}

const bite_ini_entry *bite_ini_at(const bite_ini *ini, size_t index)
{
    return index < ini->count ? &ini->entries[index] : NULL;
}

const bite_ini_entry *bite_ini_find(const bite_ini *ini, const char *section, const char *key)
{
    for (size_t i = 0; i < ini->count; i++) {
        const bite_ini_entry *head = &ini->entries[i];
        if (head->key == NULL &&
            (head->section == section || strcmp(head->section, section) == 0)) {
            return key == NULL ? head : find_behind(ini, i, key);
        }
    }
    return NULL;
}
