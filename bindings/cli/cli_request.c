/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the library's request from the options, and from it an answer or a choice. */
#include "bindings/cli/cli_request.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/processor_count.h"
#include <stdio.h>
#include <string.h>

#define PART_MAX 64 /* bytes of a name or a diameter, with the null */

static bite_status refuse(bite_error *error, const char *key, const char *message, const char *hint)
{
    error->status = BITE_BAD_QUANTITY;
    (void)snprintf(error->message, sizeof error->message, "%s", message);
    (void)snprintf(error->hint, sizeof error->hint, "%s", hint);
    (void)snprintf(error->key, sizeof error->key, "%s", key);
    return BITE_BAD_QUANTITY;
}

/* Splits a text at a separator. Returns the second part, or NULL if there is none or the first is
 * too long. */
static const char *split(const char *text, char separator, char first[PART_MAX])
{
    const char *found = strchr(text, separator);
    if (found == NULL || (size_t)(found - text) >= PART_MAX) {
        return NULL;
    }
    memcpy(first, text, (size_t)(found - text));
    first[found - text] = 0;
    return found + 1;
}

static bite_status set_neck(bite_request *request, const char *text, bite_error *error)
{
    char diameter[PART_MAX];
    const char *length = split(text, 'x', diameter);
    if (length == NULL) {
        return refuse(error, "neck", "a diameter and a length with an x between them are expected",
                      "for example --neck 0.7mmx4mm");
    }
    bite_status status = bite_request_set(request, "neck_diameter", diameter, error);
    return status == BITE_OK ? bite_request_set(request, "neck_length", length, error) : status;
}

static bite_status set_input(bite_request *request, const char *text, bite_error *error)
{
    char name[PART_MAX];
    const char *quantity = split(text, '=', name);
    if (quantity == NULL) {
        return refuse(error, "set", "NAME=QUANTITY is expected",
                      "for example --set walk_share=1.2; coolbite list inputs shows the names");
    }
    return bite_request_set(request, name, quantity, error);
}

static bite_status set_chips(bite_request *request, const char *text, bite_error *error)
{
    const char *word = strcmp(text, "closed") == 0 ? "yes"
                       : strcmp(text, "open") == 0 ? "no"
                                                   : text;
    return bite_request_set(request, "blind", word, error);
}

/* A milled thread is a helix, not a cut of one depth and width. */
static bool mills_thread(const struct input_option *given)
{
    return given->option->name != NULL && strcmp(given->option->name, "operation") == 0 &&
           strcmp(given->text, "thread-mill") == 0;
}

static bite_status set_option(bite_request *request, const struct input_option *given,
                              bite_error *error)
{
    if (mills_thread(given)) {
        return refuse(error, "operation", "a thread is milled on a helix, not by one cut",
                      "ask coolbite show M6 --material 6061 (with --machine, --tool, --hand), or "
                      "plan a job with work = thread-mill");
    }
    switch (given->option->type) {
    case OPTION_ITEM:
    case OPTION_TOOL:
        return bite_request_use(request, given->option->collection, given->text, error);
    case OPTION_NECK:
        return set_neck(request, given->text, error);
    case OPTION_CHIPS:
        return set_chips(request, given->text, error);
    case OPTION_SET:
        return set_input(request, given->text, error);
    default:
        return bite_request_set(request, given->option->name, given->text, error);
    }
}

/* An unknown input or word is an error of the command line; an unknown material or tool is one of
 * what was not found. */
static int report_option_error(const bite_error *error, const struct input_option *given)
{
    int status = report_error(error);
    return given->option->type != OPTION_ITEM && given->option->type != OPTION_TOOL &&
                   error->status == BITE_UNKNOWN_NAME
               ? EXIT_USAGE
               : status;
}

/* The shop's own set-up first: options replace what it states. */
static int use_shop(bite_request *request, const struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    if (line->shop == NULL) {
        return 0;
    }
    bite_status status = bite_request_use_shop(request, line->shop, &error);
    if (status == BITE_OK && !line->units_given && bite_shop_text(line->shop, "units") != NULL) {
        status = bite_request_take_from_shop(request, "units", &error);
    }
    if (status == BITE_OK && !line->confidence_given &&
        bite_shop_text(line->shop, "confidence") != NULL) {
        status = bite_request_take_from_shop(request, "confidence", &error);
    }
    if (status == BITE_OK && line->tool_list == NULL &&
        bite_shop_text(line->shop, "tool_list") != NULL) {
        status = bite_request_take_from_shop(request, "tool_list", &error);
    }
    return status == BITE_OK ? 0 : report_error(&error);
}

/* A tap is known by its thread. */
static bool names_thread(const struct command_line *line)
{
    for (size_t i = 0; i < line->input_count; i++) {
        if (line->inputs[i].option->type == OPTION_ITEM &&
            line->inputs[i].option->collection == BITE_THREADS) {
            return true;
        }
    }
    return false;
}

/* The tools that choose compares: those of the options, else those at hand by the set-up. */
static int list_tools(bite_request *request, const struct command_line *line,
                      const char *tools[TOOLS_MAX], size_t *count)
{
    bite_error error = BITE_ERROR_INIT;
    for (*count = 0; *count < line->tool_count; (*count)++) {
        tools[*count] = line->tools[*count];
    }
    const char *tool = bite_shop_tool(line->shop, 0);
    if (*count > 0 || tool == NULL || names_thread(line)) {
        return 0;
    }
    for (; tool != NULL && *count < TOOLS_MAX; tool = bite_shop_tool(line->shop, *count)) {
        tools[(*count)++] = tool;
    }
    return bite_request_take_from_shop(request, "at_hand", &error) == BITE_OK
               ? 0
               : report_error(&error);
}

static int set_options(bite_request *request, const struct command_line *line, size_t count)
{
    bite_error error = BITE_ERROR_INIT;
    int status = use_shop(request, line);
    if (status != 0) {
        return status;
    }
    if (bite_request_threads(request, processor_count(), &error) != BITE_OK) {
        return report_error(&error);
    }
    for (size_t i = 0; i < count; i++) {
        if (set_option(request, &line->inputs[i], &error) != BITE_OK) {
            return report_option_error(&error, &line->inputs[i]);
        }
    }
    return 0;
}

int request_from_options(const bite_library *library, const struct command_line *line, size_t count,
                         bite_request **request)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *fresh = NULL;
    int status = bite_request_new(library, &fresh, &error) == BITE_OK ? 0 : report_error(&error);
    status = status != 0 ? status : set_options(fresh, line, count);
    if (status == 0 && line->tool_count > 1) {
        status = report_usage_error(
            "the given settings are judged for one tool only; leave out all but one --tool");
    }
    if (status == 0 && line->tool_count == 1 &&
        bite_request_use(fresh, BITE_TOOLS, line->tools[0], &error) != BITE_OK) {
        status = report_error(&error);
    }
    if (status != 0) {
        bite_request_free(fresh);
        return status;
    }
    *request = fresh;
    return 0;
}

int answer_from_options(const bite_library *library, const struct command_line *line, size_t count,
                        bite_answer **answer)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    int status = request_from_options(library, line, count, &request);
    if (status == 0 &&
        bite_answer_new(request, line->draws, line->confidence, answer, &error) != BITE_OK) {
        status = report_error(&error);
    }
    bite_request_free(request);
    return status;
}

int choice_from_options(const bite_library *library, const struct command_line *line,
                        bite_choice **choice)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    int status = bite_request_new(library, &request, &error) == BITE_OK ? 0 : report_error(&error);
    status = status != 0 ? status : set_options(request, line, line->input_count);
    const char *tools[TOOLS_MAX];
    size_t tool_count = 0;
    status = status != 0 ? status : list_tools(request, line, tools, &tool_count);
    if (status == 0 && tool_count == 0 && !names_thread(line)) {
        status = report_usage_error("--tool is missing: give a name, a diameter such as 1/32in, "
                                    "several of them, or any");
    }
    if (status == 0) {
        bite_choice_options options;
        bite_choice_options_init(&options);
        options.goal = line->goal;
        options.units = line->style.units;
        options.tools = tools;
        options.tool_count = tool_count;
        options.draws = line->draws;
        options.confidence = line->confidence;
        options.steps = line->spindle_steps;
        options.step_count = line->spindle_step_count;
        options.beyond_charts = line->beyond_charts;
        status = bite_choice_new(request, &options, choice, &error) == BITE_OK
                     ? 0
                     : report_error(&error);
    }
    bite_request_free(request);
    return status;
}

int library_from_options(const struct command_line *line, bite_library **library)
{
    bite_error error = BITE_ERROR_INIT;
    const char *tools =
        line->tool_list != NULL ? line->tool_list : bite_shop_text(line->shop, "tool_list");
    if (bite_library_open(NULL, library, &error) != BITE_OK) {
        return report_error(&error);
    }
    if (tools == NULL || bite_library_use_tools(*library, tools, &error) == BITE_OK) {
        return 0;
    }
    bite_library_close(*library);
    *library = NULL;
    return report_error(&error);
}
