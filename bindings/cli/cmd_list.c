/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite list, show, explain: looking things up. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *word;
    bite_collection shelf;
} shelves[] = {
    {"materials", BITE_GRADES},  {"families", BITE_FAMILIES}, {"tools", BITE_TOOLS},
    {"holders", BITE_HOLDERS},   {"machines", BITE_MACHINES}, {"coolants", BITE_COOLANTS},
    {"holds", BITE_HOLDS},       {"symptoms", BITE_SYMPTOMS}, {"fluids", BITE_FLUIDS},
    {"sheets", BITE_SHEETS},     {"layers", BITE_LAYERS},     {"times", BITE_TIMES},
    {"left-out", BITE_LEFT_OUT},
};

static const char shelf_words[] = "materials, families, tools, holders, machines, coolants, holds, "
                                  "layers, fluids, sheets, symptoms, times, left-out, limits, "
                                  "values or inputs";

/* A line of a list, as text or as one JSON object; the escapes are those of RFC 8259. */
static int put_json(struct text_buffer *buffer, const char *text)
{
    int failed = text_buffer_append(buffer, "\"", 1);
    for (; *text != 0 && !failed; text++) {
        char escaped[8];
        unsigned char c = (unsigned char)*text;
        int size = c == '"' || c == '\\' ? snprintf(escaped, sizeof escaped, "\\%c", c)
                   : c < 0x20            ? snprintf(escaped, sizeof escaped, "\\u%04x", c)
                                         : snprintf(escaped, sizeof escaped, "%c", c);
        failed = text_buffer_append(buffer, escaped, (size_t)size);
    }
    return failed | text_buffer_append(buffer, "\"", 1);
}

static int put_line(struct text_buffer *buffer, const struct command_line *line, bool first,
                    const char *name, const char *summary, const char *more)
{
    char left[64];
    if (line->style.format == BITE_JSON) {
        int failed =
            text_buffer_append(buffer, first ? "[\n  {\"name\": " : ",\n  {\"name\": ", 13);
        failed |= put_json(buffer, name);
        failed |= text_buffer_append(buffer, ", \"summary\": ", 13);
        failed |= put_json(buffer, summary);
        failed |= text_buffer_append(buffer, ", \"more\": ", 10);
        failed |= put_json(buffer, more);
        return failed | text_buffer_append(buffer, "}", 1);
    }
    (void)snprintf(left, sizeof left, "%s%s", name, summary[0] == 0 ? "" : "  ");
    return text_buffer_wrap(buffer, &line->style, left, 30, summary);
}

static int put_end(struct text_buffer *buffer, const struct command_line *line, size_t count)
{
    if (line->style.format != BITE_JSON) {
        return 0;
    }
    return count == 0 ? text_buffer_append(buffer, "[]\n", 3)
                      : text_buffer_append(buffer, "\n]\n", 3);
}

static int list_names(const struct command_line *line, const char *word, struct text_buffer *buffer,
                      size_t *count)
{
    int failed = 0;
    *count = 0;
    if (strcmp(word, "inputs") == 0) {
        for (; *count < bite_input_count(); (*count)++) {
            const bite_input *input = bite_input_at(*count);
            failed |= put_line(buffer, line, *count == 0, input->name, input->summary, input->unit);
        }
    } else if (strcmp(word, "values") == 0) {
        for (; *count < BITE_VALUE_COUNT; (*count)++) {
            failed |= put_line(buffer, line, *count == 0, bite_value_name((bite_value_id)*count),
                               bite_value_unit((bite_value_id)*count), "");
        }
    } else {
        for (; *count < BITE_LIMIT_COUNT; (*count)++) {
            failed |= put_line(buffer, line, *count == 0, bite_limit_name((bite_limit_id)*count),
                               bite_limit_unit((bite_limit_id)*count), "");
        }
    }
    return failed;
}

/* BITE_OK: the error says no more than that the shelf has come to its end. */
static bite_status at_end(const bite_error *error)
{
    return error->status == BITE_BAD_ARGUMENT ? BITE_OK : (bite_status)error->status;
}

static bite_status count_left_out(const bite_library *library, size_t *count, bite_error *error)
{
    bite_item item;
    while (bite_library_item(library, BITE_LEFT_OUT, *count, &item, error) == BITE_OK) {
        (*count)++;
    }
    return at_end(error);
}

static void say_left_out(size_t count)
{
    if (count > 0) {
        fprintf(stderr,
                "coolbite: %zu table%s or plugin%s not loaded; list left-out gives the reasons\n",
                count, count > 1 ? "s" : "", count > 1 ? "s were" : " was");
    }
}

/* Lists a collection of the library. 0, or the exit status after an error message. */
static int list_shelf(const struct command_line *line, bite_collection collection,
                      struct text_buffer *buffer)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return report_error(&error);
    }
    bite_status status = bite_library_list_write(library, collection, &line->style,
                                                 text_buffer_append, buffer, &error);
    if (status != BITE_OK) {
        bite_library_close(library);
        return complain_unwritten(&error);
    }
    size_t left_out = 0;
    status = collection == BITE_LEFT_OUT ? BITE_OK : count_left_out(library, &left_out, &error);
    if (status != BITE_OK) {
        bite_library_close(library);
        return report_error(&error);
    }
    say_left_out(left_out);
    bite_library_close(library);
    return 0;
}

int cmd_list(const struct command_line *line)
{
    struct text_buffer buffer = {NULL, 0, 0};
    if (line->word_count != 1) {
        return report_usage_error("list takes one of %s", shelf_words);
    }
    const char *word = line->words[0];
    int status = -1;
    for (size_t i = 0; i < sizeof shelves / sizeof *shelves; i++) {
        if (strcmp(word, shelves[i].word) == 0) {
            status = list_shelf(line, shelves[i].shelf, &buffer);
        }
    }
    if (strcmp(word, "inputs") == 0 || strcmp(word, "values") == 0 || strcmp(word, "limits") == 0) {
        size_t count = 0;
        status = list_names(line, word, &buffer, &count) | put_end(&buffer, line, count)
                     ? complain_memory()
                     : 0;
    }
    if (status == -1) {
        return report_usage_error("there is nothing to list under %s; list takes one of %s", word,
                                  shelf_words);
    }
    if (status == 0) {
        return output_write(line, &buffer);
    }
    free(buffer.text);
    return status;
}

/* Shelves in the order in which a bare name is looked for. */
static const bite_collection show_order[] = {
    BITE_GRADES, BITE_MACHINES, BITE_TOOLS,  BITE_HOLDERS,  BITE_COOLANTS, BITE_HOLDS,
    BITE_LAYERS, BITE_FLUIDS,   BITE_SHEETS, BITE_SYMPTOMS, BITE_TIMES};

/* One name shown on a shelf; two side by side, the second on the shelf where the first was found.
 */
static bite_status show_on(const bite_library *library, const struct command_line *line,
                           bite_collection collection, bool *found, struct text_buffer *buffer,
                           bite_error *error)
{
    bite_style style = line->style;
    struct text_buffer alone = {NULL, 0, 0};
    style.sources = 1;
    bite_status status = bite_library_show(library, collection, line->words[0], &style,
                                           text_buffer_append, &alone, error);
    *found = status != BITE_UNKNOWN_NAME;
    if (status != BITE_OK || line->word_count == 1) {
        *buffer = alone;
        return status;
    }
    free(alone.text);
    return bite_library_compare(library, collection, line->words[0], line->words[1], &line->style,
                                text_buffer_append, buffer, error);
}

int cmd_show(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error first = BITE_ERROR_INIT;
    bite_library *library = NULL;
    struct text_buffer buffer = {NULL, 0, 0};
    bool found = false;
    if (line->word_count != 1 && line->word_count != 2) {
        return report_usage_error("show takes a name, such as acrylic/cast or bench-24k, or two of "
                                  "a kind to see side by side");
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return report_error(&error);
    }
    bite_status status = BITE_UNKNOWN_NAME;
    for (size_t i = 0; i < sizeof show_order / sizeof *show_order && !found; i++) {
        status = show_on(library, line, show_order[i], &found, &buffer, &error);
        if (i == 0) {
            first = error; /* a name that is nowhere was most likely meant as a material */
        }
    }
    bite_library_close(library);
    if (status != BITE_OK) {
        free(buffer.text);
        return complain_unwritten(found ? &error : &first);
    }
    return output_write(line, &buffer);
}

int cmd_explain(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    struct text_buffer buffer = {NULL, 0, 0};
    if (line->word_count != 1) {
        return report_usage_error(
            "explain takes one name; list limits, list values and list inputs show them");
    }
    if (bite_explain_write(line->words[0], &line->style, text_buffer_append, &buffer, &error) !=
        BITE_OK) {
        free(buffer.text);
        return complain_unwritten(&error);
    }
    return output_write(line, &buffer);
}
