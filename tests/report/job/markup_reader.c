/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small reader of markup. */
#include "tests/report/job/markup_reader.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DEEP 64
#define IDS 400
#define NAME 64

typedef struct reading {
    const char *at;
    char open[DEEP][NAME];
    size_t depth;
    char ids[IDS][NAME];
    size_t id_count;
    char wanted[IDS][NAME];
    size_t wanted_count;
    int heading;
    int first_headings;
    char *fault;
    size_t size;
    int bad;
} reading;

static void complain(reading *reader, const char *what)
{
    if (!reader->bad) {
        (void)snprintf(reader->fault, reader->size, "%s at: %.80s", what, reader->at);
    }
    reader->bad = 1;
}

static int is_name(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == ':' || c == '_';
}

static size_t name_at(reading *reader, const char *text, char *name)
{
    size_t length = 0;
    while (is_name(text[length])) {
        length++;
    }
    if (length == 0 || length >= NAME) {
        complain(reader, "a name was expected");
        length = 0;
    }
    memcpy(name, text, length);
    name[length] = 0;
    return length;
}

/* Lists of names, split at blanks; a name may be defined once. */
static void note(reading *reader, char (*list)[NAME], size_t *count, const char *names,
                 size_t length, int once)
{
    while (length > 0) {
        size_t size = 0;
        while (size < length && names[size] != ' ') {
            size++;
        }
        if (size == 0 || size >= NAME || *count >= IDS) {
            complain(reader, "a bad list of names");
            return;
        }
        for (size_t i = 0; once && i < *count; i++) {
            if (strlen(list[i]) == size && memcmp(list[i], names, size) == 0) {
                complain(reader, "an id twice");
            }
        }
        memcpy(list[*count], names, size);
        list[(*count)++][size] = 0;
        names += size;
        length -= size;
        if (length > 0) {
            names++;
            length--;
        }
    }
}

static void entity(reading *reader, const char *text)
{
    static const char *const known[] = {"&amp;", "&lt;",   "&gt;",   "&quot;",
                                        "&#39;", "&#160;", "&#177;", "&#215;"};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        if (strncmp(text, known[i], strlen(known[i])) == 0) {
            return;
        }
    }
    complain(reader, "an entity that is none of ours");
}

static void plain(reading *reader, char c, const char *text)
{
    if (c == '&') {
        entity(reader, text);
    } else if (c == '<' || c == '>' || (c < ' ' && c != '\n' && c >= 0) || c == 0x7f) {
        complain(reader, "a sign that may not stand in text");
    }
}

/* Reads one attribute; returns the text after it. */
static const char *attribute(reading *reader, const char *text, const char *tag, char *name)
{
    text += name_at(reader, text, name);
    if (reader->bad || text[0] != '=' || text[1] != '"') {
        complain(reader, "an attribute without a quoted value");
        return text;
    }
    const char *value = text + 2;
    const char *end = strchr(value, '"');
    if (end == NULL) {
        complain(reader, "a value without an end");
        return text;
    }
    for (const char *c = value; c < end; c++) {
        plain(reader, *c, c);
    }
    if (strcmp(name, "id") == 0) {
        note(reader, reader->ids, &reader->id_count, value, (size_t)(end - value), 1);
    } else if (strncmp(name, "aria-labelledby", NAME) == 0) {
        note(reader, reader->wanted, &reader->wanted_count, value, (size_t)(end - value), 0);
    } else if (strncmp(name, "on", 2) == 0 || strcmp(name, "src") == 0 ||
               strcmp(name, "href") == 0 || strcmp(name, "style") == 0) {
        complain(reader, "an attribute that no sheet has");
    }
    (void)tag;
    return end + 1;
}

static void heading(reading *reader, const char *name)
{
    int level = name[1] - '0';
    if (level > reader->heading + 1) {
        complain(reader, "a heading that leaves one out");
    }
    reader->heading = level;
    reader->first_headings += level == 1;
}

/* The requirements on an opening tag itself. */
static void promise(reading *reader, const char *tag, const char *attributes, size_t length,
                    const char *after)
{
    char all[1200];
    (void)snprintf(all, sizeof all, "%.*s", (int)(length < 1100 ? length : 1100), attributes);
    if (strcmp(tag, "th") == 0 && strstr(all, "scope=\"") == NULL) {
        complain(reader, "a table's head without scope");
    }
    if (strcmp(tag, "svg") == 0 && strstr(all, "aria-hidden=\"true\"") == NULL) {
        after += strspn(after, "\n");
        if (strncmp(after, "<title", 6) != 0 || strstr(all, "aria-labelledby=\"") == NULL) {
            complain(reader, "a drawing without a title");
        }
    }
    if (strcmp(tag, "html") == 0 && strstr(all, "lang=\"en\"") == NULL) {
        complain(reader, "a page without its language");
    }
    if (strcmp(tag, "script") == 0 || strcmp(tag, "link") == 0 || strcmp(tag, "img") == 0 ||
        strcmp(tag, "iframe") == 0) {
        complain(reader, "something that no sheet has");
    }
    if (tag[0] == 'h' && tag[1] >= '1' && tag[1] <= '6' && tag[2] == 0) {
        heading(reader, tag);
    }
}

static void close_tag(reading *reader)
{
    char name[NAME];
    size_t length = name_at(reader, reader->at + 2, name);
    if (reader->depth == 0 || strcmp(reader->open[reader->depth - 1], name) != 0 ||
        reader->at[2 + length] != '>') {
        complain(reader, "a closing tag that closes nothing");
        return;
    }
    reader->depth--;
    reader->at += 3 + length;
}

/* The content of <style> is not read as markup; the ids that it refers to are required. */
static void skip_style(reading *reader)
{
    const char *end = strstr(reader->at, "</style>");
    if (end == NULL) {
        complain(reader, "a style without an end");
        return;
    }
    for (const char *at = strstr(reader->at, "url("); at != NULL && at < end;
         at = strstr(at + 1, "url(")) {
        if (at[4] != '#' || strchr(at, ')') == NULL) {
            complain(reader, "a style that asks for something outside");
            return;
        }
        note(reader, reader->wanted, &reader->wanted_count, at + 5,
             (size_t)(strchr(at, ')') - at - 5), 0);
    }
    if (memchr(reader->at, '<', (size_t)(end - reader->at)) != NULL ||
        memchr(reader->at, '&', (size_t)(end - reader->at)) != NULL) {
        complain(reader, "markup in the style");
    }
    reader->at = end;
}

static void open_tag(reading *reader)
{
    char tag[NAME];
    char names[24][NAME];
    size_t count = 0;
    const char *text = reader->at + 1;
    text += name_at(reader, text, tag);
    const char *attributes = text;
    while (!reader->bad && (*text == ' ' || *text == '\n')) {
        text += strspn(text, " \n");
        text = attribute(reader, text, tag, names[count]);
        for (size_t i = 0; i < count; i++) {
            if (strcmp(names[i], names[count]) == 0) {
                complain(reader, "an attribute twice");
            }
        }
        count += count < 23 ? 1 : 0;
    }
    int whole = text[0] == '/';
    if (reader->bad || text[whole] != '>' || reader->depth + 1 >= DEEP) {
        complain(reader, "a tag without an end");
        return;
    }
    promise(reader, tag, attributes, (size_t)(text - attributes), text + 1);
    if (!whole) {
        (void)snprintf(reader->open[reader->depth++], NAME, "%s", tag);
    }
    reader->at = text + 1 + whole;
    if (!whole && strcmp(tag, "style") == 0) {
        skip_style(reader);
    }
}

static void check_wanted(reading *reader)
{
    for (size_t i = 0; i < reader->wanted_count && !reader->bad; i++) {
        size_t k = 0;
        while (k < reader->id_count && strcmp(reader->ids[k], reader->wanted[i]) != 0) {
            k++;
        }
        if (k == reader->id_count) {
            reader->at = reader->wanted[i];
            complain(reader, "a name that nothing has");
        }
    }
}

int bite_test_markup(const char *text, char *fault, size_t size)
{
    static const char start[] = "<!DOCTYPE html>\n";
    reading *reader = calloc(1, sizeof *reader);
    if (reader == NULL) {
        (void)snprintf(fault, size, "no memory");
        return 0;
    }
    reader->at = text;
    reader->fault = fault;
    reader->size = size;
    if (strncmp(text, start, sizeof start - 1) != 0) {
        complain(reader, "no page");
    }
    reader->at += reader->bad ? 0 : sizeof start - 1;
    while (!reader->bad && *reader->at != 0) {
        if (reader->at[0] == '<' && reader->at[1] == '/') {
            close_tag(reader);
        } else if (reader->at[0] == '<') {
            open_tag(reader);
        } else {
            plain(reader, *reader->at, reader->at);
            reader->at++;
        }
    }
    if (reader->depth > 0 || reader->first_headings != 1) {
        complain(reader, "tags left open, or not one first heading");
    }
    check_wanted(reader);
    int good = !reader->bad;
    free(reader);
    return good;
}
