/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite show: shows one record, or two side by side. */
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/output.h"
#include <stdlib.h>

/* The collections in the order in which a name is searched for. */
static const bite_collection show_order[] = {
    BITE_GRADES, BITE_MACHINES,    BITE_TOOLS,   BITE_HOLDERS, BITE_COOLANTS,
    BITE_HOLDS,  BITE_LAYERS,      BITE_FLUIDS,  BITE_SHEETS,  BITE_SYMPTOMS,
    BITE_TIMES,  BITE_INSTRUMENTS, BITE_THREADS, BITE_INSERTS};

/* Shows one name of a collection, or compares two. *found: the collection has the first name. */
static bite_status show_item(const bite_library *library, const struct command_line *line,
                             bite_collection collection, bool *found, struct text_buffer *buffer,
                             bite_error *error)
{
    bite_style style = line->style;
    struct text_buffer alone = {NULL, 0, 0};
    style.sources = 1;
    bite_status status = bite_library_show(library, collection, line->arguments[0], &style,
                                           text_buffer_append, &alone, error);
    *found = status != BITE_UNKNOWN_NAME;
    if (status != BITE_OK || line->argument_count == 1) {
        *buffer = alone;
        return status;
    }
    free(alone.text);
    return bite_library_compare(library, collection, line->arguments[0], line->arguments[1],
                                &line->style, text_buffer_append, buffer, error);
}

static int discard(void *user, const char *text, size_t size)
{
    (void)user;
    (void)text;
    (void)size;
    return 0;
}

static bool is_thread(const bite_library *library, const char *name)
{
    bite_error error = BITE_ERROR_INIT;
    return bite_library_show(library, BITE_THREADS, name, NULL, discard, NULL, &error) == BITE_OK;
}

static bite_status show_thread(const bite_library *library, const struct command_line *line,
                               const char *material, struct text_buffer *buffer, bite_error *error)
{
    bite_thread_answer *answer = NULL;
    const bite_thread_options options = {(uint32_t)sizeof options, line->left_hand,
                                         option_value(line, "machine"), option_value(line, "tool")};
    bite_status status =
        bite_thread_answer_new(library, line->arguments[0], material, &options, &answer, error);
    status = status != BITE_OK ? status
                               : bite_thread_answer_write(answer, &line->style, text_buffer_append,
                                                          buffer, error);
    bite_thread_answer_free(answer);
    return status;
}

/* The options of a thread; NULL: none is given. */
static const char *thread_option(const struct command_line *line)
{
    static const char *const words[] = {"machine", "tool", "hand"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (option_is_given(line, words[i])) {
            return words[i];
        }
    }
    return NULL;
}

/* Shows what a fluid does to a material, or what to do for a thread in it. */
static int show_in_material(const bite_library *library, const struct command_line *line,
                            const char *material)
{
    bite_error error = BITE_ERROR_INIT;
    struct text_buffer buffer = {NULL, 0, 0};
    bool thread = line->style.format != BITE_CSV && is_thread(library, line->arguments[0]);
    if (!thread && thread_option(line) != NULL) {
        return report_usage_error("--%s belongs to a thread in a material: coolbite show M6 "
                                  "--material 6061 --%s ...",
                                  thread_option(line), thread_option(line));
    }
    bite_status status =
        thread ? show_thread(library, line, material, &buffer, &error)
               : bite_compatibility_write(library, line->arguments[0], material, &line->style,
                                          text_buffer_append, &buffer, &error);
    if (status != BITE_OK) {
        free(buffer.text);
        return report_write_error(&error);
    }
    return output_write(line->output, &buffer);
}

int cmd_show(const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error first = BITE_ERROR_INIT;
    bite_library *library = NULL;
    struct text_buffer buffer = {NULL, 0, 0};
    bool found = false;
    const char *material = option_value(line, "material");
    if (line->argument_count != 1 && line->argument_count != 2) {
        return report_usage_error("show takes one name, such as acrylic/cast or bench-24k, or two "
                                  "names of one kind to compare them");
    }
    if (material != NULL && line->argument_count != 1) {
        return report_usage_error(
            "with --material, show takes one name, that of a fluid or thread: "
            "coolbite list fluids and list threads show the names");
    }
    if (material == NULL && thread_option(line) != NULL) {
        return report_usage_error("--%s belongs to a thread in a material: add --material",
                                  thread_option(line));
    }
    if (material == NULL && line->style.format == BITE_CSV) {
        return report_usage_error("show writes csv of a fluid on a material only: add --material");
    }
    int opened = library_from_options(line, &library);
    if (opened != 0) {
        return opened;
    }
    if (material != NULL) {
        int shown = show_in_material(library, line, material);
        bite_library_close(library);
        return shown;
    }
    bite_status status = BITE_UNKNOWN_NAME;
    for (size_t i = 0; i < sizeof show_order / sizeof *show_order && !found; i++) {
        status = show_item(library, line, show_order[i], &found, &buffer, &error);
        if (i == 0) {
            first = error; /* an unknown name was most likely meant as a material */
        }
    }
    bite_library_close(library);
    if (status != BITE_OK) {
        free(buffer.text);
        return report_write_error(found ? &error : &first);
    }
    return output_write(line->output, &buffer);
}
