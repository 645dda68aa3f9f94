/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite list: lists the names of a collection, or of the inputs, values or limits. */
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/output.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The collections under the words of the command. */
static const struct {
    const char *word;
    bite_collection collection;
} collections[] = {
    {"materials", BITE_GRADES},
    {"families", BITE_FAMILIES},
    {"tools", BITE_TOOLS},
    {"holders", BITE_HOLDERS},
    {"machines", BITE_MACHINES},
    {"coolants", BITE_COOLANTS},
    {"holds", BITE_HOLDS},
    {"symptoms", BITE_SYMPTOMS},
    {"fluids", BITE_FLUIDS},
    {"sheets", BITE_SHEETS},
    {"layers", BITE_LAYERS},
    {"times", BITE_TIMES},
    {"instruments", BITE_INSTRUMENTS},
    {"drills", BITE_DRILLS},
    {"threads", BITE_THREADS},
    {"inserts", BITE_INSERTS},
    {"left-out", BITE_LEFT_OUT},
};

/* One entry of a list, as text or as a JSON object. */
static int append_entry(struct text_buffer *buffer, const struct command_line *line, bool first,
                        const char *name, const char *summary, const char *more)
{
    char left[64];
    if (line->style.format == BITE_JSON) {
        int failed =
            text_buffer_append(buffer, first ? "[\n  {\"name\": " : ",\n  {\"name\": ", 13);
        failed |= text_buffer_json(buffer, name);
        failed |= text_buffer_append(buffer, ", \"summary\": ", 13);
        failed |= text_buffer_json(buffer, summary);
        failed |= text_buffer_append(buffer, ", \"more\": ", 10);
        failed |= text_buffer_json(buffer, more);
        return failed | text_buffer_append(buffer, "}", 1);
    }
    (void)snprintf(left, sizeof left, "%s%s", name, summary[0] == 0 ? "" : "  ");
    return text_buffer_wrap(buffer, &line->style, left, 30, summary);
}

/* The end of a list of `count` entries. */
static int append_end(struct text_buffer *buffer, const struct command_line *line, size_t count)
{
    if (line->style.format != BITE_JSON) {
        return 0;
    }
    return count == 0 ? text_buffer_append(buffer, "[]\n", 3)
                      : text_buffer_append(buffer, "\n]\n", 3);
}

/* Lists the inputs, values or limits. */
static int list_names(const struct command_line *line, const char *word, struct text_buffer *buffer,
                      size_t *count)
{
    int failed = 0;
    *count = 0;
    if (strcmp(word, "inputs") == 0) {
        for (; *count < bite_input_count(); (*count)++) {
            const bite_input *input = bite_input_at(*count);
            failed |=
                append_entry(buffer, line, *count == 0, input->name, input->summary, input->unit);
        }
    } else if (strcmp(word, "values") == 0) {
        for (; *count < BITE_VALUE_COUNT; (*count)++) {
            failed |=
                append_entry(buffer, line, *count == 0, bite_value_name((bite_value_id)*count),
                             bite_value_unit((bite_value_id)*count), "");
        }
    } else {
        for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
            const char *name = bite_cut_limit_name(NULL, id); /* NULL: room for a plugin's */
            if (name != NULL) {
                failed |= append_entry(buffer, line, *count == 0, name, bite_limit_unit(id), "");
                (*count)++;
            }
        }
    }
    return failed;
}

static void report_left_out(size_t count)
{
    if (count > 0) {
        fprintf(stderr,
                "coolbite: %zu table%s or plugin%s not loaded; coolbite list left-out gives the "
                "reasons\n",
                count, count > 1 ? "s" : "", count > 1 ? "s were" : " was");
    }
}

/* Lists a collection of the library. 0, or the exit status after an error message. */
static int list_collection(const struct command_line *line, bite_collection collection,
                           struct text_buffer *buffer)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    int opened = library_from_options(line, &library);
    if (opened != 0) {
        return opened;
    }
    const char *material = option_value(line, "material");
    bite_tool_filter filter = {(uint32_t)sizeof filter, 0, line->diameter_least,
                               line->diameter_most, line->kind};
    bite_status status = BITE_OK;
    if (material != NULL) {
        status = bite_compatibility_list_write(library, material, &line->style, text_buffer_append,
                                               buffer, &error);
    } else if (collection == BITE_TOOLS) {
        status = bite_tool_list_write(library, &filter, &line->style, text_buffer_append, buffer,
                                      &error);
    } else {
        status = bite_library_list_write(library, collection, &line->style, text_buffer_append,
                                         buffer, &error);
    }
    if (status != BITE_OK) {
        bite_library_close(library);
        return report_write_error(&error);
    }
    size_t left_out = 0;
    status = collection == BITE_LEFT_OUT
                 ? BITE_OK
                 : bite_library_left_out(library, collection, &left_out, &error);
    if (status != BITE_OK) {
        bite_library_close(library);
        return report_error(&error);
    }
    report_left_out(left_out);
    bite_library_close(library);
    return 0;
}

/* "materials, families, tools": the words that the command accepts. */
static void join_words(char *list, size_t size)
{
    size_t used = 0;
    for (const char *word = commands[COMMAND_LIST].words; *word != 0 && used + 3 < size; word++) {
        if (*word == ' ') {
            list[used++] = ',';
        }
        list[used++] = *word;
    }
    list[used] = 0;
}

static int report_bad_word(const char *word)
{
    char list[200];
    join_words(list, sizeof list);
    return word == NULL ? report_usage_error("list takes one argument, one of: %s", list)
                        : report_usage_error("cannot list %s; expected one of: %s", word, list);
}

/* What applies to tools alone. */
static int check_tools_only(const struct command_line *line, const char *word)
{
    const char *option = line->kind != NULL ? "--kind"
                         : !isnan(line->diameter_least) || !isnan(line->diameter_most)
                             ? "--diameter"
                             : NULL;
    return option == NULL || strcmp(word, "tools") == 0
               ? 0
               : report_usage_error("%s applies to list tools only, not to list %s", option, word);
}

int cmd_list(const struct command_line *line)
{
    struct text_buffer buffer = {NULL, 0, 0};
    if (line->argument_count != 1) {
        return report_bad_word(NULL);
    }
    const char *word = line->arguments[0];
    bool of_material = option_value(line, "material") != NULL;
    int status = check_tools_only(line, word);
    if (status != 0) {
        return status;
    }
    if (of_material && strcmp(word, "fluids") != 0) {
        return report_usage_error("--material applies to list fluids only");
    }
    if (!of_material && strcmp(word, "tools") != 0 && line->style.format == BITE_CSV) {
        return report_usage_error("list writes csv of the tools, or of the fluids on a material: "
                                  "list fluids --material NAME");
    }
    status = -1;
    for (size_t i = 0; i < sizeof collections / sizeof *collections; i++) {
        if (strcmp(word, collections[i].word) == 0) {
            status = list_collection(line, collections[i].collection, &buffer);
        }
    }
    if (strcmp(word, "inputs") == 0 || strcmp(word, "values") == 0 || strcmp(word, "limits") == 0) {
        size_t count = 0;
        int names_failed = list_names(line, word, &buffer, &count);
        status = (names_failed | append_end(&buffer, line, count)) ? report_out_of_memory() : 0;
    }
    if (status == -1) {
        return report_bad_word(word);
    }
    if (status == 0) {
        return output_write(line->output, &buffer);
    }
    free(buffer.text);
    return status;
}
