/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the command line of a command, and writes the command's help, by the option table. */
#include "bindings/cli/options.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/output_format.h"
#include <getopt.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define JOBS_MAX 16      /* threads that the library uses */
#define OPTION_VALUE 256 /* of the first row, for getopt: above every character */

static int read_either(const char *option, const char *text, const char *first, const char *second,
                       uint32_t *out)
{
    if (strcmp(text, first) == 0) {
        *out = 0;
        return 0;
    }
    if (strcmp(text, second) == 0) {
        *out = 1;
        return 0;
    }
    return report_usage_error("--%s must be %s or %s, not %.40s", option, first, second, text);
}

static int read_draws(const char *text, size_t *draws)
{
    double number = 0.0;
    bite_error error = BITE_ERROR_INIT;
    if (bite_quantity_read(text, BITE_KIND_NUMBER, &number, &error) != BITE_OK ||
        !(number == BITE_DRAWS_NONE || (number >= 16.0 && number <= BITE_DRAWS_MAX)) ||
        number != (double)(size_t)number) {
        return report_usage_error(
            "--draws must be a whole number from 16 to %d, or 1 for none, not %.40s",
            BITE_DRAWS_MAX, text);
    }
    *draws = (size_t)number;
    return 0;
}

static int read_jobs(const char *text, size_t *jobs)
{
    size_t length = strlen(text);
    if (length == 0 || length > 2 || strspn(text, "0123456789") != length || atoi(text) < 1 ||
        atoi(text) > JOBS_MAX) {
        return report_usage_error("--jobs must be a whole number from 1 to %d, not %.40s", JOBS_MAX,
                                  text);
    }
    *jobs = (size_t)atoi(text);
    return 0;
}

static int read_confidence(const char *text, double *confidence)
{
    const double rounding = 1e-12; /* 99.9% is read as a little more than 0.999 */
    bite_error error = BITE_ERROR_INIT;
    if (bite_quantity_read(text, BITE_KIND_FRACTION, confidence, &error) != BITE_OK ||
        !(*confidence >= 0.5 - rounding && *confidence <= 0.999 + rounding)) {
        return report_usage_error("--confidence must be from 50%% to 99.9%%, not %.40s", text);
    }
    return 0;
}

static int read_recorded_time(const char *text, struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    double *time = &line->recorded_time;
    line->remove_time = strcmp(text, "forget") == 0;
    if (line->remove_time) {
        return 0;
    }
    if (bite_quantity_read(text, BITE_KIND_TIME, time, &error) != BITE_OK || !(*time > 0.0)) {
        return report_usage_error("--took must be a time such as 38min, or forget, not %.40s",
                                  text);
    }
    return 0;
}

static int read_time_limit(const char *text, double *limit)
{
    bite_error error = BITE_ERROR_INIT;
    if (bite_quantity_read(text, BITE_KIND_TIME, limit, &error) != BITE_OK ||
        !(*limit >= 1.0 && *limit <= 3600.0)) {
        return report_usage_error("--time-limit must be a time from 1s to 1h, not %.40s", text);
    }
    return 0;
}

static int read_goal(const char *text, uint32_t *goal)
{
    for (uint32_t i = 0; i < BITE_GOAL_COUNT; i++) {
        if (strcmp(text, bite_goal_name(i)) == 0) {
            *goal = i;
            return 0;
        }
    }
    return report_usage_error("--goal must be cool, gentle, fine, fast or usual, not %.40s", text);
}

static int read_spindle_steps(const char *text, struct command_line *line)
{
    line->spindle_step_count = 0;
    while (*text != 0) {
        char speed[64];
        bite_error error = BITE_ERROR_INIT;
        size_t length = strcspn(text, ",");
        if (length >= sizeof speed || line->spindle_step_count == SPINDLE_STEPS_MAX) {
            return report_usage_error("--spindle-steps must be a list of at most %d speeds "
                                      "separated by commas, such as 1100rpm,2300rpm",
                                      SPINDLE_STEPS_MAX);
        }
        memcpy(speed, text, length);
        speed[length] = 0;
        if (bite_quantity_read(speed, BITE_KIND_ROTATION,
                               &line->spindle_steps[line->spindle_step_count], &error) != BITE_OK) {
            return report_usage_error("--spindle-steps must be a list of speeds separated by "
                                      "commas, such as 1100rpm,2300rpm; %.40s is not a speed",
                                      speed);
        }
        line->spindle_step_count++;
        text += length;
        text += *text == ',';
    }
    return line->spindle_step_count > 0
               ? 0
               : report_usage_error("--spindle-steps is empty; give at least one speed");
}

/* Names or diameters, separated by commas. */
static int read_tools(const char *text, struct command_line *line)
{
    for (const char *end = text; end != NULL; text = end == NULL ? text : end + 1) {
        end = strchr(text, ',');
        size_t length = end == NULL ? strlen(text) : (size_t)(end - text);
        if (length == 0) {
            return report_usage_error(
                "--tool needs a name or a diameter%s, such as 1/8in,3mm",
                end == NULL && line->tool_count == 0 ? "" : " on both sides of each comma");
        }
        if (end != NULL && strspn(text, "0123456789") == length && end[1] >= '0' && end[1] <= '9') {
            return report_usage_error("--tool %.40s: a comma separates tools; write a decimal "
                                      "point, such as 1.5mm",
                                      text);
        }
        if (length >= TOOL_NAME_MAX) {
            return report_usage_error("--tool %.40s... is too long for the name of a tool", text);
        }
        if (line->tool_count == TOOLS_MAX) {
            return report_usage_error(
                "too many tools (at most %d); --tool any tries the whole table", TOOLS_MAX);
        }
        memcpy(line->tools[line->tool_count], text, length);
        line->tools[line->tool_count++][length] = 0;
    }
    return 0;
}

/* One of a list of words that is separated by blanks. */
static int read_kind(const char *text, const char *words, const char **kind)
{
    size_t size = strlen(text);
    for (const char *at = words; *at != 0; at += strspn(at, " ")) {
        size_t length = strcspn(at, " ");
        if (length == size && memcmp(at, text, size) == 0) {
            *kind = text;
            return 0;
        }
        at += length;
    }
    return report_usage_error("--kind must be one of %s, not %.40s", words, text);
}

/* A diameter, or LEAST..MOST with one or both of them. */
static int read_diameters(const char *text, struct command_line *line)
{
    char least[64] = "";
    const char *dots = strstr(text, "..");
    size_t length = dots == NULL ? strlen(text) : (size_t)(dots - text);
    bite_error error = BITE_ERROR_INIT;
    if (length < sizeof least) {
        memcpy(least, text, length);
    }
    const char *most = dots == NULL ? least : dots + 2;
    bool bad = length >= sizeof least || (least[0] == 0 && most[0] == 0);
    bad = bad || (least[0] != 0 && bite_quantity_read(least, BITE_KIND_LENGTH,
                                                      &line->diameter_least, &error) != BITE_OK);
    bad = bad || (most[0] != 0 && bite_quantity_read(most, BITE_KIND_LENGTH, &line->diameter_most,
                                                     &error) != BITE_OK);
    if (bad || line->diameter_least > line->diameter_most) {
        return report_usage_error("--diameter must be a diameter or a range from the smaller to "
                                  "the larger, with units, such as 3mm or 3mm..1/4in, not %.60s",
                                  text);
    }
    return 0;
}

static int store_option(struct command_line *line, enum command_id command,
                        const struct cli_option *option, const char *text)
{
    switch (option->type) {
    case OPTION_UNITS:
        line->units_given = true;
        return read_either(option->word, text, "metric", "inch", &line->style.units);
    case OPTION_FORMAT:
        return output_format_read(text, command, line);
    case OPTION_AXIS:
        *(strcmp(option->word, "up") == 0 ? &line->up : &line->across) = text;
        return 0;
    case OPTION_OUTPUT:
        line->output = text;
        return 0;
    case OPTION_REPORT:
        line->output = text;
        line->report = true;
        return 0;
    case OPTION_ROWS:
        line->style.all_limits = 1;
        return 0;
    case OPTION_SOURCES:
        line->style.sources = 1;
        return 0;
    case OPTION_AGAINST:
        if (line->compare) {
            return report_usage_error("--against can be given only once: it compares two cuts");
        }
        line->compare = true;
        line->first_cut_count = line->input_count;
        return 0;
    case OPTION_DRAWS:
        return read_draws(text, &line->draws);
    case OPTION_CONFIDENCE:
        line->confidence_given = true;
        return read_confidence(text, &line->confidence);
    case OPTION_EXIT_ZERO:
        line->exit_zero = true;
        return 0;
    case OPTION_RESULTS:
        line->results = text;
        return 0;
    case OPTION_JOBS:
        return read_jobs(text, &line->jobs);
    case OPTION_STRICT:
        line->strict = true;
        return 0;
    case OPTION_LIKE:
        line->like = text;
        return 0;
    case OPTION_TIME_LIMIT:
        return read_time_limit(text, &line->time_limit);
    case OPTION_NO_CONFIG:
        line->no_config = true;
        return 0;
    case OPTION_HELP:
        line->help = true;
        return 0;
    case OPTION_VERSION:
        line->version = true;
        return 0;
    case OPTION_BEYOND_CHARTS:
        line->beyond_charts = 1;
        return 0;
    case OPTION_STEPS:
        return read_spindle_steps(text, line);
    case OPTION_SHEET:
        line->sheet = text;
        return 0;
    case OPTION_TOOK:
        return read_recorded_time(text, line);
    case OPTION_AFTER:
        line->symptom = text;
        return 0;
    case OPTION_GOAL:
        return read_goal(text, &line->goal);
    case OPTION_DIAMETER:
        return read_diameters(text, line);
    case OPTION_TOOLS:
        line->tool_list = text;
        return 0;
    case OPTION_KIND:
        return read_kind(text, option->words, &line->kind);
    case OPTION_HAND: {
        int status = read_either(option->word, text, "right", "left", &line->left_hand);
        if (status != 0) {
            return status;
        }
        break;
    }
    case OPTION_TOOL:
        if (command != COMMAND_CHOOSE && command != COMMAND_WINDOW) {
            if (strchr(text, ',') == NULL) {
                break;
            }
            return report_usage_error("--tool %.60s: %s judges one tool only; choose compares "
                                      "several (in a diameter write a decimal point)",
                                      text, commands[command].word);
        }
        return read_tools(text, line);
    default:
        break;
    }
    if (line->input_count == INPUT_OPTIONS_MAX) {
        return report_usage_error("too many options (at most %d)", INPUT_OPTIONS_MAX);
    }
    line->inputs[line->input_count].option = option;
    line->inputs[line->input_count].text = text;
    line->input_count++;
    return 0;
}

/* The table of getopt_long: the options of this command. */
static struct option *getopt_table(enum command_id command)
{
    struct option *table = calloc(option_count + 1, sizeof *table);
    size_t count = 0;
    for (size_t i = 0; table != NULL && i < option_count; i++) {
        if (option_table[i].commands & 1u << command) {
            table[count].name = option_table[i].word;
            table[count].has_arg =
                option_table[i].argument == NULL ? no_argument : required_argument;
            table[count].val = OPTION_VALUE + (int)i;
            count++;
        }
    }
    return table;
}

/* Whether a text such as "--f" abbreviates several options of the command; lists them. */
static bool is_ambiguous(const char *text, enum command_id command, char *list, size_t size)
{
    size_t count = 0;
    size_t used = 0;
    size_t length = strcspn(text, "=");
    for (size_t i = 0; i < option_count; i++) {
        char word[40];
        (void)snprintf(word, sizeof word, "--%s", option_table[i].word);
        if ((option_table[i].commands & 1u << command) != 0 && length > 2 &&
            strncmp(word, text, length) == 0 && used < size) {
            used +=
                (size_t)snprintf(list + used, size - used, "%s%s", count == 0 ? "" : ", ", word);
            count++;
        }
    }
    return count > 1;
}

static int report_bad_option(char **argv, enum command_id command, int answer)
{
    const char *name = commands[command].word;
    const char *text = argv[optind - 1];
    char list[200];
    if (optopt >= OPTION_VALUE) {
        const struct cli_option *option = &option_table[optopt - OPTION_VALUE];
        return answer == ':' ? report_usage_error("--%s needs a value: --%s %s", option->word,
                                                  option->word, option->argument)
                             : report_usage_error("--%s does not take a value", option->word);
    }
    if (optopt != 0) { /* negative for a byte beyond ASCII */
        return report_usage_error(
            "-%c is not an option of %s; coolbite %s --help lists the options", optopt, name, name);
    }
    if (is_ambiguous(text, command, list, sizeof list)) {
        return report_usage_error("%s stands for several options of %s: %s; give the whole name",
                                  text, name, list);
    }
    return report_usage_error("%s is not an option of %s; coolbite %s --help lists the options",
                              text, name, name);
}

int options_parse(int argc, char **argv, enum command_id command, struct command_line *line)
{
    struct option *table = getopt_table(command);
    line->goal = BITE_GOAL_USUAL;
    line->diameter_least = line->diameter_most = (double)NAN;
    if (table == NULL) {
        return report_out_of_memory();
    }
    int status = 0;
    int answer = 0;
    optind = 1;
    opterr = 0;
    while (status == 0 && (answer = getopt_long(argc, argv, ":", table, NULL)) != -1) {
        status = answer >= OPTION_VALUE
                     ? store_option(line, command, &option_table[answer - OPTION_VALUE], optarg)
                     : report_bad_option(argv, command, answer);
    }
    free(table);
    for (int i = optind; status == 0 && i < argc; i++) {
        if (line->argument_count == ARGUMENTS_MAX) {
            return report_usage_error("unexpected argument %s; usage: coolbite %s %s", argv[i],
                                      commands[command].word, commands[command].synopsis);
        }
        line->arguments[line->argument_count++] = argv[i];
    }
    return status != 0 || line->help || line->version ? status
                                                      : output_format_resolve(command, line);
}

const char *option_value(const struct command_line *line, const char *word)
{
    const char *value = NULL;
    for (size_t i = 0; i < line->input_count; i++) {
        value = strcmp(line->inputs[i].option->word, word) == 0 ? line->inputs[i].text : value;
    }
    return value;
}

bool option_is_given(const struct command_line *line, const char *word)
{
    return option_value(line, word) != NULL;
}

int options_check(const struct command_line *line)
{
    if (line->spindle_step_count > 0 && option_is_given(line, "spindle")) {
        return report_usage_error("--spindle and --spindle-steps exclude each other: the first "
                                  "sets the speed, the second lists the speeds to choose from; "
                                  "leave out one of them");
    }
    if (line->symptom != NULL && (line->spindle_step_count > 0 || line->goal != BITE_GOAL_USUAL)) {
        return report_usage_error("--after judges the given settings and does not choose others; "
                                  "leave out --%s",
                                  line->spindle_step_count > 0 ? "spindle-steps" : "goal");
    }
    return 0;
}

int options_help(enum command_id command, const bite_style *style, struct text_buffer *buffer)
{
    char left[48];
    (void)snprintf(left, sizeof left, "coolbite %s %s", commands[command].word,
                   commands[command].synopsis);
    int failed = text_buffer_wrap(buffer, style, "", 0, left);
    failed |= text_buffer_wrap(buffer, style, "", 0, commands[command].help);
    failed |= text_buffer_append(buffer, "\n", 1);
    for (size_t i = 0; i < option_count; i++) {
        const struct cli_option *option = &option_table[i];
        if (option->commands & 1u << command) {
            (void)snprintf(left, sizeof left, "  --%s %s ", option->word,
                           option->argument == NULL ? "" : option->argument);
            failed |= text_buffer_wrap(buffer, style, left, 31, option->help);
        }
    }
    return failed;
}
