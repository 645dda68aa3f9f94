/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite list, show, explain: looking things up. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *word;
    bite_shelf shelf;
} shelves[] = {
    {"materials", BITE_GRADES},  {"families", BITE_FAMILIES}, {"tools", BITE_TOOLS},   {"holders", BITE_HOLDERS},
    {"machines", BITE_MACHINES}, {"coolants", BITE_COOLANTS}, {"holds", BITE_HOLDS},   {"symptoms", BITE_SYMPTOMS},
    {"fluids", BITE_FLUIDS},     {"sheets", BITE_SHEETS},     {"layers", BITE_LAYERS}, {"times", BITE_TIMES},
    {"left-out", BITE_LEFT_OUT},
};

static const char shelf_words[] =
    "materials, families, tools, holders, machines, coolants, holds, layers, fluids, sheets, symptoms, times, left-out, limits, "
    "values or inputs";

/* A line of a list, as text or as one JSON object; the escapes are those of RFC 8259. */
static int put_json(struct gathered *to, const char *text)
{
    int failed = gather(to, "\"", 1);
    for (; *text != 0 && !failed; text++) {
        char escaped[8];
        unsigned char c = (unsigned char)*text;
        int size = c == '"' || c == '\\' ? snprintf(escaped, sizeof escaped, "\\%c", c)
                   : c < 0x20            ? snprintf(escaped, sizeof escaped, "\\u%04x", c)
                                         : snprintf(escaped, sizeof escaped, "%c", c);
        failed = gather(to, escaped, (size_t)size);
    }
    return failed | gather(to, "\"", 1);
}

static int put_line(struct gathered *to, const struct request *request, bool first, const char *name, const char *summary,
                    const char *more)
{
    char left[64];
    if (request->style.format == BITE_JSON) {
        int failed = gather(to, first ? "[\n  {\"name\": " : ",\n  {\"name\": ", 13);
        failed |= put_json(to, name);
        failed |= gather(to, ", \"summary\": ", 13);
        failed |= put_json(to, summary);
        failed |= gather(to, ", \"more\": ", 10);
        failed |= put_json(to, more);
        return failed | gather(to, "}", 1);
    }
    (void)snprintf(left, sizeof left, "%s%s", name, summary[0] == 0 ? "" : "  ");
    return put_wrapped(to, &request->style, left, 30, summary);
}

static int put_end(struct gathered *to, const struct request *request, size_t count)
{
    if (request->style.format != BITE_JSON) {
        return 0;
    }
    return count == 0 ? gather(to, "[]\n", 3) : gather(to, "\n]\n", 3);
}

static int list_names(const struct request *request, const char *word, struct gathered *text, size_t *count)
{
    int failed = 0;
    *count = 0;
    if (strcmp(word, "inputs") == 0) {
        for (; *count < bite_input_count(); (*count)++) {
            const bite_input *input = bite_input_at(*count);
            failed |= put_line(text, request, *count == 0, input->name, input->summary, input->unit);
        }
    } else if (strcmp(word, "values") == 0) {
        for (; *count < BITE_VALUE_COUNT; (*count)++) {
            failed |= put_line(text, request, *count == 0, bite_value_name((bite_value_id)*count),
                               bite_value_unit((bite_value_id)*count), "");
        }
    } else {
        for (; *count < BITE_ROW_COUNT; (*count)++) {
            failed |=
                put_line(text, request, *count == 0, bite_row_name((bite_row_id)*count), bite_row_unit((bite_row_id)*count), "");
        }
    }
    return failed;
}

static int list_shelf(const struct request *request, bite_shelf shelf, struct gathered *text)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    int failed = 0;
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return complain(&error);
    }
    size_t count = bite_library_count(library, shelf);
    for (size_t i = 0; i < count && !failed; i++) {
        bite_item item;
        if (bite_library_item(library, shelf, i, &item, &error) != BITE_OK) {
            bite_library_close(library);
            return complain(&error);
        }
        failed = put_line(text, request, i == 0, item.name, item.summary, item.file);
    }
    if (count == 0 && request->style.format != BITE_JSON) {
        static const char nothing[] = "nothing\n";
        failed |= gather(text, nothing, sizeof nothing - 1);
    }
    size_t left_out = shelf == BITE_LEFT_OUT ? 0 : bite_library_count(library, BITE_LEFT_OUT);
    if (left_out > 0) {
        fprintf(stderr, "coolbite: %zu table%s or plugin%s not taken; list left-out says why\n", left_out, left_out > 1 ? "s" : "",
                left_out > 1 ? "s were" : " was");
    }
    failed |= put_end(text, request, count);
    bite_library_close(library);
    return failed ? complain_usage("no memory") : 0;
}

int verb_list(const struct request *request)
{
    struct gathered text = {NULL, 0, 0};
    if (request->word_count != 1) {
        return complain_usage("list takes one of %s", shelf_words);
    }
    const char *word = request->words[0];
    int status = -1;
    for (size_t i = 0; i < sizeof shelves / sizeof *shelves; i++) {
        if (strcmp(word, shelves[i].word) == 0) {
            status = list_shelf(request, shelves[i].shelf, &text);
        }
    }
    if (strcmp(word, "inputs") == 0 || strcmp(word, "values") == 0 || strcmp(word, "limits") == 0) {
        size_t count = 0;
        status = list_names(request, word, &text, &count) | put_end(&text, request, count) ? complain_usage("no memory") : 0;
    }
    if (status == -1) {
        return complain_usage("there is nothing to list under %s; list takes one of %s", word, shelf_words);
    }
    if (status == 0) {
        return deliver(request, &text);
    }
    free(text.text);
    return status;
}

/* Shelves in the order in which a bare name is looked for. */
static const bite_shelf show_order[] = {BITE_GRADES, BITE_MACHINES, BITE_TOOLS,  BITE_HOLDERS,  BITE_COOLANTS, BITE_HOLDS,
                                        BITE_LAYERS, BITE_FLUIDS,   BITE_SHEETS, BITE_SYMPTOMS, BITE_TIMES};

/* One name shown on a shelf; two side by side, the second on the shelf where the first was found. */
static bite_status show_on(const bite_library *library, const struct request *request, bite_shelf shelf, bool *found,
                           struct gathered *text, bite_error *error)
{
    bite_style style = request->style;
    struct gathered alone = {NULL, 0, 0};
    style.sources = 1;
    bite_status status = bite_library_show(library, shelf, request->words[0], &style, gather, &alone, error);
    *found = status != BITE_UNKNOWN_NAME;
    if (status != BITE_OK || request->word_count == 1) {
        *text = alone;
        return status;
    }
    free(alone.text);
    return bite_library_compare(library, shelf, request->words[0], request->words[1], &request->style, gather, text, error);
}

int verb_show(const struct request *request)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error first = BITE_ERROR_INIT;
    bite_library *library = NULL;
    struct gathered text = {NULL, 0, 0};
    bool found = false;
    if (request->word_count != 1 && request->word_count != 2) {
        return complain_usage("show takes a name, such as acrylic/cast or bench-24k, or two of a kind to see side by side");
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return complain(&error);
    }
    bite_status status = BITE_UNKNOWN_NAME;
    for (size_t i = 0; i < sizeof show_order / sizeof *show_order && !found; i++) {
        status = show_on(library, request, show_order[i], &found, &text, &error);
        if (i == 0) {
            first = error; /* a name that is nowhere was most likely meant as a material */
        }
    }
    bite_library_close(library);
    if (status != BITE_OK) {
        free(text.text);
        return complain(found ? &error : &first);
    }
    return deliver(request, &text);
}

int verb_explain(const struct request *request)
{
    bite_error error = BITE_ERROR_INIT;
    struct gathered text = {NULL, 0, 0};
    if (request->word_count != 1) {
        return complain_usage("explain takes one name; list limits, list values and list inputs show them");
    }
    if (bite_explain_write(request->words[0], &request->style, gather, &text, &error) != BITE_OK) {
        free(text.text);
        return complain(&error);
    }
    return deliver(request, &text);
}
