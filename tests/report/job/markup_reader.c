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

static void complain(reading *of, const char *what)
{
    if (!of->bad) {
        (void)snprintf(of->fault, of->size, "%s at: %.80s", what, of->at);
    }
    of->bad = 1;
}

static int is_name(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == ':' || c == '_';
}

static size_t name_at(reading *of, const char *text, char *name)
{
    size_t length = 0;
    while (is_name(text[length])) {
        length++;
    }
    if (length == 0 || length >= NAME) {
        complain(of, "a name was expected");
        length = 0;
    }
    memcpy(name, text, length);
    name[length] = 0;
    return length;
}

/* Names in a list, split at blanks; a name that is made may be made once. */
static void note(reading *of, char (*list)[NAME], size_t *count, const char *names, size_t length, int once)
{
    while (length > 0) {
        size_t size = 0;
        while (size < length && names[size] != ' ') {
            size++;
        }
        if (size == 0 || size >= NAME || *count >= IDS) {
            complain(of, "a bad list of names");
            return;
        }
        for (size_t i = 0; once && i < *count; i++) {
            if (strlen(list[i]) == size && memcmp(list[i], names, size) == 0) {
                complain(of, "an id twice");
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

static void entity(reading *of, const char *text)
{
    static const char *const known[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;", "&#160;", "&#177;", "&#215;"};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        if (strncmp(text, known[i], strlen(known[i])) == 0) {
            return;
        }
    }
    complain(of, "an entity that is none of ours");
}

static void plain(reading *of, char c, const char *text)
{
    if (c == '&') {
        entity(of, text);
    } else if (c == '<' || c == '>' || (c < ' ' && c != '\n' && c >= 0) || c == 0x7f) {
        complain(of, "a sign that may not stand in text");
    }
}

/* One attribute; returns what follows it. */
static const char *attribute(reading *of, const char *text, const char *tag, char *name)
{
    text += name_at(of, text, name);
    if (of->bad || text[0] != '=' || text[1] != '"') {
        complain(of, "an attribute without a quoted value");
        return text;
    }
    const char *value = text + 2;
    const char *end = strchr(value, '"');
    if (end == NULL) {
        complain(of, "a value without an end");
        return text;
    }
    for (const char *c = value; c < end; c++) {
        plain(of, *c, c);
    }
    if (strcmp(name, "id") == 0) {
        note(of, of->ids, &of->id_count, value, (size_t)(end - value), 1);
    } else if (strncmp(name, "aria-labelledby", NAME) == 0) {
        note(of, of->wanted, &of->wanted_count, value, (size_t)(end - value), 0);
    } else if (strncmp(name, "on", 2) == 0 || strcmp(name, "src") == 0 || strcmp(name, "href") == 0 || strcmp(name, "style") == 0) {
        complain(of, "an attribute that no sheet has");
    }
    (void)tag;
    return end + 1;
}

static void heading(reading *of, const char *name)
{
    int level = name[1] - '0';
    if (level > of->heading + 1) {
        complain(of, "a heading that leaves one out");
    }
    of->heading = level;
    of->first_headings += level == 1;
}

/* An opening tag's own promises. */
static void promise(reading *of, const char *tag, const char *attributes, size_t length, const char *after)
{
    char all[1200];
    (void)snprintf(all, sizeof all, "%.*s", (int)(length < 1100 ? length : 1100), attributes);
    if (strcmp(tag, "th") == 0 && strstr(all, "scope=\"") == NULL) {
        complain(of, "a table's head without scope");
    }
    if (strcmp(tag, "svg") == 0 && strstr(all, "aria-hidden=\"true\"") == NULL) {
        after += strspn(after, "\n");
        if (strncmp(after, "<title", 6) != 0 || strstr(all, "aria-labelledby=\"") == NULL) {
            complain(of, "a drawing without a title");
        }
    }
    if (strcmp(tag, "html") == 0 && strstr(all, "lang=\"en\"") == NULL) {
        complain(of, "a page without its language");
    }
    if (strcmp(tag, "script") == 0 || strcmp(tag, "link") == 0 || strcmp(tag, "img") == 0 || strcmp(tag, "iframe") == 0) {
        complain(of, "something that no sheet has");
    }
    if (tag[0] == 'h' && tag[1] >= '1' && tag[1] <= '6' && tag[2] == 0) {
        heading(of, tag);
    }
}

static void close_tag(reading *of)
{
    char name[NAME];
    size_t length = name_at(of, of->at + 2, name);
    if (of->depth == 0 || strcmp(of->open[of->depth - 1], name) != 0 || of->at[2 + length] != '>') {
        complain(of, "a closing tag that closes nothing");
        return;
    }
    of->depth--;
    of->at += 3 + length;
}

/* The inside of <style> is not read as markup; what it points to is wanted. */
static void skip_style(reading *of)
{
    const char *end = strstr(of->at, "</style>");
    if (end == NULL) {
        complain(of, "a style without an end");
        return;
    }
    for (const char *at = strstr(of->at, "url("); at != NULL && at < end; at = strstr(at + 1, "url(")) {
        if (at[4] != '#' || strchr(at, ')') == NULL) {
            complain(of, "a style that asks for something outside");
            return;
        }
        note(of, of->wanted, &of->wanted_count, at + 5, (size_t)(strchr(at, ')') - at - 5), 0);
    }
    if (memchr(of->at, '<', (size_t)(end - of->at)) != NULL || memchr(of->at, '&', (size_t)(end - of->at)) != NULL) {
        complain(of, "markup in the style");
    }
    of->at = end;
}

static void open_tag(reading *of)
{
    char tag[NAME];
    char names[24][NAME];
    size_t count = 0;
    const char *text = of->at + 1;
    text += name_at(of, text, tag);
    const char *attributes = text;
    while (!of->bad && (*text == ' ' || *text == '\n')) {
        text += strspn(text, " \n");
        text = attribute(of, text, tag, names[count]);
        for (size_t i = 0; i < count; i++) {
            if (strcmp(names[i], names[count]) == 0) {
                complain(of, "an attribute twice");
            }
        }
        count += count < 23 ? 1 : 0;
    }
    int whole = text[0] == '/';
    if (of->bad || text[whole] != '>' || of->depth + 1 >= DEEP) {
        complain(of, "a tag without an end");
        return;
    }
    promise(of, tag, attributes, (size_t)(text - attributes), text + 1);
    if (!whole) {
        (void)snprintf(of->open[of->depth++], NAME, "%s", tag);
    }
    of->at = text + 1 + whole;
    if (!whole && strcmp(tag, "style") == 0) {
        skip_style(of);
    }
}

static void check_wanted(reading *of)
{
    for (size_t i = 0; i < of->wanted_count && !of->bad; i++) {
        size_t k = 0;
        while (k < of->id_count && strcmp(of->ids[k], of->wanted[i]) != 0) {
            k++;
        }
        if (k == of->id_count) {
            of->at = of->wanted[i];
            complain(of, "a name that nothing has");
        }
    }
}

int bite_test_markup(const char *text, char *fault, size_t size)
{
    static const char start[] = "<!DOCTYPE html>\n";
    reading *of = calloc(1, sizeof *of);
    if (of == NULL) {
        (void)snprintf(fault, size, "no memory");
        return 0;
    }
    of->at = text;
    of->fault = fault;
    of->size = size;
    if (strncmp(text, start, sizeof start - 1) != 0) {
        complain(of, "no page");
    }
    of->at += of->bad ? 0 : sizeof start - 1;
    while (!of->bad && *of->at != 0) {
        if (of->at[0] == '<' && of->at[1] == '/') {
            close_tag(of);
        } else if (of->at[0] == '<') {
            open_tag(of);
        } else {
            plain(of, *of->at, of->at);
            of->at++;
        }
    }
    if (of->depth > 0 || of->first_headings != 1) {
        complain(of, "tags left open, or not one first heading");
    }
    check_wanted(of);
    int good = !of->bad;
    free(of);
    return good;
}
