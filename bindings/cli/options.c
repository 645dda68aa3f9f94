/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading the options of a command, and its help, by the table of options. */
#include "bindings/cli/cli.h"
#include <getopt.h>
#include <stdlib.h>
#include <string.h>

static int one_of(const char *option, const char *text, const char *first, const char *second,
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
    return report_usage_error("--%s is %s or %s, not %s", option, first, second, text);
}

static int read_draws(const char *text, size_t *draws)
{
    double number = 0.0;
    bite_error error = BITE_ERROR_INIT;
    if (bite_quantity_read(text, BITE_KIND_NUMBER, &number, &error) != BITE_OK ||
        !(number == BITE_DRAWS_NONE || (number >= 16.0 && number <= BITE_DRAWS_MAX)) ||
        number != (double)(size_t)number) {
        return report_usage_error(
            "--draws is a whole number from 16 to %d, or 1 for none; not %.40s", BITE_DRAWS_MAX,
            text);
    }
    *draws = (size_t)number;
    return 0;
}

static int read_confidence(const char *text, double *confidence)
{
    bite_error error = BITE_ERROR_INIT;
    if (bite_quantity_read(text, BITE_KIND_FRACTION, confidence, &error) != BITE_OK ||
        !(*confidence >= 0.5 && *confidence <= 0.999)) {
        return report_usage_error("--confidence is from 50%% to 99.9%%; not %.40s", text);
    }
    return 0;
}

static int read_took(const char *text, struct command_line *line)
{
    bite_error error = BITE_ERROR_INIT;
    double *took = &line->recorded_time;
    line->remove_time = strcmp(text, "forget") == 0;
    if (line->remove_time) {
        return 0;
    }
    if (bite_quantity_read(text, BITE_KIND_TIME, took, &error) != BITE_OK || !(*took > 0.0)) {
        return report_usage_error("--took is a time such as 38min, or forget; not %.40s", text);
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
    return report_usage_error("--goal is cool, gentle, fine or fast, not %.40s", text);
}

static int read_steps(const char *text, struct command_line *line)
{
    line->step_count = 0;
    while (*text != 0) {
        char one[64];
        bite_error error = BITE_ERROR_INIT;
        size_t length = strcspn(text, ",");
        if (length >= sizeof one || line->step_count == STEPS_MOST) {
            return report_usage_error(
                "--spindle-steps takes up to %d speeds between commas: 1100rpm,2300rpm",
                STEPS_MOST);
        }
        memcpy(one, text, length);
        one[length] = 0;
        if (bite_quantity_read(one, BITE_KIND_ROTATION, &line->steps[line->step_count], &error) !=
            BITE_OK) {
            return report_usage_error(
                "--spindle-steps takes speeds between commas: 1100rpm,2300rpm; not %.40s", one);
        }
        line->step_count++;
        text += length;
        text += *text == ',';
    }
    return line->step_count > 0 ? 0 : report_usage_error("--spindle-steps names no speed");
}

/* "text, json or html": the words of a verb, or with a point before each its endings. */
static void list_formats(enum command_id verb, int endings, char *to, size_t size)
{
    size_t last = 0;
    size_t used = 0;
    for (size_t i = 0; i < output_format_count; i++) {
        last = output_formats[i].commands & 1u << verb ? i : last;
    }
    for (size_t i = 0; i < output_format_count; i++) {
        if ((output_formats[i].commands & 1u << verb) != 0 && used < size) {
            const char *before = used == 0 ? "" : i == last ? " or " : ", ";
            used +=
                (size_t)snprintf(to + used, size - used, "%s%s%s", before, endings ? "." : "",
                                 endings ? output_formats[i].extension : output_formats[i].word);
        }
    }
}

static int read_format(const char *text, enum command_id verb, struct command_line *line)
{
    char words[80];
    for (size_t i = 0; i < output_format_count; i++) {
        if (strcmp(text, output_formats[i].word) == 0 &&
            (output_formats[i].commands & 1u << verb) != 0) {
            line->style.format = output_formats[i].format;
            line->format_given = true;
            return 0;
        }
    }
    list_formats(verb, 0, words, sizeof words);
    return report_usage_error("--format is %s here, not %.40s", words, text);
}

const char *file_extension(const char *path)
{
    const char *name = strrchr(path, '/');
    const char *point = strrchr(name == NULL ? path : name + 1, '.');
    return point == NULL || point == (name == NULL ? path : name + 1) ? "" : point + 1;
}

/* Endings of files that this program never writes, so that it must not look as if it had. */
static int foreign(const char *ending)
{
    static const char *const known[] = {"png",  "jpg", "jpeg", "gif",  "webp", "bmp", "tif",
                                        "tiff", "pdf", "xls",  "xlsx", "ods",  "dxf"};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        if (strcmp(ending, known[i]) == 0) {
            return 1;
        }
    }
    return 0;
}

/* A file's ending tells its format where none was said, and must not belie one that was. */
static int settle_format(enum command_id verb, struct command_line *line)
{
    char endings[80];
    const char *ending = line->output == NULL ? "" : file_extension(line->output);
    if (ending[0] == 0) {
        return 0;
    }
    for (size_t i = 0; i < output_format_count; i++) {
        if (strcmp(ending, output_formats[i].extension) == 0 &&
            (output_formats[i].commands & 1u << verb) != 0) {
            if (line->format_given && line->style.format != output_formats[i].format) {
                return report_usage_error(
                    "--output %.60s ends as %s does, and --format says otherwise: leave one out",
                    line->output, output_formats[i].word);
            }
            line->style.format = output_formats[i].format;
            return 0;
        }
    }
    if (line->format_given && !foreign(ending)) {
        return 0;
    }
    list_formats(verb, 1, endings, sizeof endings);
    return report_usage_error(
        "--output %.60s: %s writes no .%.20s; files that end in %s tell what to write%s",
        line->output, commands[verb].word, ending, endings,
        line->format_given ? "" : ", or --format does");
}

static int take(struct command_line *line, enum command_id verb, const struct cli_option *option,
                const char *text)
{
    switch (option->type) {
    case OPTION_UNITS:
        line->units_given = 1;
        return one_of(option->word, text, "metric", "inch", &line->style.units);
    case OPTION_FORMAT:
        return read_format(text, verb, line);
    case OPTION_AXIS:
        *(strcmp(option->word, "up") == 0 ? &line->up : &line->across) = text;
        return 0;
    case OPTION_OUTPUT:
        line->output = text;
        return 0;
    case OPTION_ROWS:
        line->style.all_limits = 1;
        return 0;
    case OPTION_SOURCES:
        line->style.sources = 1;
        return 0;
    case OPTION_AGAINST:
        if (line->compare) {
            return report_usage_error("--against stands once: two cuts are compared");
        }
        line->compare = true;
        line->second_cut = line->given_count;
        return 0;
    case OPTION_DRAWS:
        return read_draws(text, &line->draws);
    case OPTION_CONFIDENCE:
        return read_confidence(text, &line->confidence);
    case OPTION_EXIT_ZERO:
        line->exit_zero = true;
        return 0;
    case OPTION_HELP:
        line->help = true;
        return 0;
    case OPTION_VERSION:
        line->version = true;
        return 0;
    case OPTION_STEPS:
        return read_steps(text, line);
    case OPTION_SHEET:
        line->sheet = text;
        return 0;
    case OPTION_TOOK:
        return read_took(text, line);
    case OPTION_AFTER:
        line->after = text;
        return 0;
    case OPTION_GOAL:
        return read_goal(text, &line->goal);
    case OPTION_TOOL:
        if (verb != COMMAND_CHOOSE && verb != COMMAND_WINDOW) {
            break;
        }
        if (line->tool_count == TOOLS_MOST) {
            return report_usage_error("more than %d tools; any takes the whole table", TOOLS_MOST);
        }
        line->tools[line->tool_count++] = text;
        return 0;
    default:
        break;
    }
    if (line->given_count == GIVEN_MOST) {
        return report_usage_error("more than %d options; put the rest away", GIVEN_MOST);
    }
    line->given[line->given_count].option = option;
    line->given[line->given_count].text = text;
    line->given_count++;
    return 0;
}

/* getopt's table, made of the rows that this verb knows. */
static struct option *getopt_table(enum command_id verb)
{
    struct option *table = calloc(option_count + 1, sizeof *table);
    size_t count = 0;
    for (size_t i = 0; table != NULL && i < option_count; i++) {
        if (option_table[i].commands & 1u << verb) {
            table[count].name = option_table[i].word;
            table[count].has_arg =
                option_table[i].argument == NULL ? no_argument : required_argument;
            table[count].val = 256 + (int)i;
            count++;
        }
    }
    return table;
}

static int bad_option(char **argv, enum command_id verb, int answer)
{
    const char *word = optopt != 0 && answer == ':' && optopt >= 256
                           ? option_table[optopt - 256].word
                           : argv[optind - 1];
    if (answer == ':') {
        return report_usage_error("--%s needs a value behind it", word);
    }
    if (optopt >= 256) {
        return report_usage_error("--%s takes no value", option_table[optopt - 256].word);
    }
    return report_usage_error(
        "%s is no option of %s (or stands for several); coolbite %s --help lists them", word,
        commands[verb].word, commands[verb].word);
}

int options_parse(int argc, char **argv, enum command_id verb, struct command_line *line)
{
    struct option *table = getopt_table(verb);
    line->goal = BITE_GOAL_USUAL;
    if (table == NULL) {
        return complain_memory();
    }
    int status = 0;
    int answer = 0;
    optind = 1;
    opterr = 0;
    while (status == 0 && (answer = getopt_long(argc, argv, ":", table, NULL)) != -1) {
        status = answer >= 256 ? take(line, verb, &option_table[answer - 256], optarg)
                               : bad_option(argv, verb, answer);
    }
    free(table);
    for (int i = optind; status == 0 && i < argc; i++) {
        if (line->word_count == sizeof line->words / sizeof *line->words) {
            return report_usage_error("%s is one word too many", argv[i]);
        }
        line->words[line->word_count++] = argv[i];
    }
    return status != 0 || line->help || line->version ? status : settle_format(verb, line);
}

int option_is_given(const struct command_line *line, const char *word)
{
    for (size_t i = 0; i < line->given_count; i++) {
        if (strcmp(line->given[i].option->word, word) == 0) {
            return 1;
        }
    }
    return 0;
}

int options_check(const struct command_line *line)
{
    if (line->step_count > 0 && option_is_given(line, "spindle")) {
        return report_usage_error("--spindle and --spindle-steps exclude each other: the one is "
                                  "the speed, the other lists those to choose "
                                  "from; leave one out");
    }
    if (line->after != NULL && (line->step_count > 0 || line->goal != BITE_GOAL_USUAL)) {
        return report_usage_error(
            "--after judges the settings that made trouble, nothing is chosen: leave out --%s",
            line->step_count > 0 ? "spindle-steps" : "goal");
    }
    return 0;
}

int options_help(enum command_id verb, const bite_style *style, struct text_buffer *buffer)
{
    char left[48];
    (void)snprintf(left, sizeof left, "coolbite %s %s", commands[verb].word,
                   commands[verb].synopsis);
    int failed = text_buffer_wrap(buffer, style, "", 0, left) |
                 text_buffer_wrap(buffer, style, "", 0, commands[verb].help) |
                 text_buffer_append(buffer, "\n", 1);
    for (size_t i = 0; i < option_count; i++) {
        const struct cli_option *option = &option_table[i];
        if (option->commands & 1u << verb) {
            (void)snprintf(left, sizeof left, "  --%s %s ", option->word,
                           option->argument == NULL ? "" : option->argument);
            failed |= text_buffer_wrap(buffer, style, left, 31, option->help);
        }
    }
    return failed;
}
