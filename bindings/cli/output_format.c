/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chooses the output format from --format and from the extension of --output. */
#include "bindings/cli/output_format.h"
#include "bindings/cli/error_report.h"
#include <stdio.h>
#include <string.h>

#define LIST_MAX 80 /* bytes of a list of formats */

static bool writes(enum command_id command, const struct output_format *format)
{
    return (format->commands & 1u << command) != 0;
}

/* "text, json or html": the formats of a command, or their extensions: ".txt, .json or .html". */
static void list_formats(enum command_id command, bool extensions, char *list, size_t size)
{
    size_t last = 0;
    size_t used = 0;
    for (size_t i = 0; i < output_format_count; i++) {
        last = writes(command, &output_formats[i]) ? i : last;
    }
    for (size_t i = 0; i < output_format_count && used < size; i++) {
        if (writes(command, &output_formats[i])) {
            const char *before = used == 0 ? "" : i == last ? " or " : ", ";
            used +=
                (size_t)snprintf(list + used, size - used, "%s%s%s", before, extensions ? "." : "",
                                 extensions ? output_formats[i].extension : output_formats[i].word);
        }
    }
}

int output_format_read(const char *text, enum command_id command, struct command_line *line)
{
    char list[LIST_MAX];
    for (size_t i = 0; i < output_format_count; i++) {
        if (strcmp(text, output_formats[i].word) == 0 && writes(command, &output_formats[i])) {
            line->style.format = output_formats[i].format;
            line->format_given = true;
            return 0;
        }
    }
    list_formats(command, false, list, sizeof list);
    return report_usage_error("--format of %s must be %s, not %.40s", commands[command].word, list,
                              text);
}

const char *file_extension(const char *path)
{
    const char *slash = strrchr(path, '/');
    const char *name = slash == NULL ? path : slash + 1;
    const char *dot = strrchr(name, '.');
    return dot == NULL || dot == name ? "" : dot + 1;
}

/* Extensions of file types that the program never writes, not even if --format is given. */
static bool is_foreign(const char *extension)
{
    static const char *const foreign[] = {"png",  "jpg", "jpeg", "gif",  "webp", "bmp", "tif",
                                          "tiff", "pdf", "xls",  "xlsx", "ods",  "dxf"};
    for (size_t i = 0; i < sizeof foreign / sizeof *foreign; i++) {
        if (strcmp(extension, foreign[i]) == 0) {
            return true;
        }
    }
    return false;
}

int output_format_resolve(enum command_id command, struct command_line *line)
{
    char list[LIST_MAX];
    const char *option = line->report ? "report" : "output";
    const char *extension = line->output == NULL ? "" : file_extension(line->output);
    if (extension[0] == 0) {
        return 0;
    }
    for (size_t i = 0; i < output_format_count; i++) {
        if (strcmp(extension, output_formats[i].extension) == 0 &&
            writes(command, &output_formats[i])) {
            if (line->format_given && line->style.format != output_formats[i].format) {
                return report_usage_error("--%s %.60s: the extension is that of %s, but --format "
                                          "selects another format; leave out --format or change "
                                          "the extension",
                                          option, line->output, output_formats[i].word);
            }
            line->style.format = output_formats[i].format;
            return 0;
        }
    }
    if (line->format_given && !is_foreign(extension)) {
        return 0;
    }
    list_formats(command, true, list, sizeof list);
    return report_usage_error(
        "--%s %.60s: %s has no output format with the extension .%.20s; use %s%s", option,
        line->output, commands[command].word, extension, list,
        line->format_given ? "" : ", or give --format");
}
