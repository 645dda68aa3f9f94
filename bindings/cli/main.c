/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite: the command line. */
#include "bindings/cli/cli.h"
#include "bindings/cli/supervisor.h"
#include <langinfo.h>
#include <locale.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

static int (*const run_of[COMMAND_COUNT])(const struct command_line *line) = {
    [COMMAND_CUT] = cmd_cut,         [COMMAND_CHOOSE] = cmd_choose, [COMMAND_WINDOW] = cmd_window,
    [COMMAND_JOB] = cmd_job,         [COMMAND_LIST] = cmd_list,     [COMMAND_SHOW] = cmd_show,
    [COMMAND_EXPLAIN] = cmd_explain,
};

/* What the terminal bears: colour only where somebody looks, signs beyond ASCII only where the
 * locale has them. */
static void look_at_terminal(bite_style *style)
{
    (void)setlocale(LC_CTYPE, "");
    style->ascii = strcmp(nl_langinfo(CODESET), "UTF-8") != 0;
    const char *no_colour = getenv("NO_COLOR");
    const char *term = getenv("TERM");
    int terminal = isatty(STDOUT_FILENO);
    style->colour = terminal && (no_colour == NULL || *no_colour == 0) && term != NULL &&
                    strcmp(term, "dumb") != 0;
    const char *columns =
        getenv("COLUMNS"); /* as POSIX has it: the user's wish goes before the terminal's word */
    long wished = columns == NULL ? 0 : strtol(columns, NULL, 10);
    struct winsize size;
    if (wished > 0 && wished < 1000) {
        style->columns = (uint32_t)wished;
    } else if (terminal && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
        style->columns = size.ws_col < 100 ? size.ws_col : 100;
    }
}

static int help(const bite_style *style, FILE *to)
{
    struct text_buffer buffer = {NULL, 0, 0};
    char line[64];
    int failed = text_buffer_wrap(&buffer, style, "", 0,
                                  "coolbite - will this cut hold, and what do I type in?") |
                 text_buffer_append(&buffer, "\n", 1);
    for (int i = 0; i < COMMAND_COUNT; i++) {
        (void)snprintf(line, sizeof line, "  coolbite %s %s\n", commands[i].word,
                       commands[i].synopsis);
        failed |= text_buffer_append(&buffer, line, strlen(line));
        failed |= text_buffer_wrap(&buffer, style, "", 6, commands[i].help);
    }
    static const char example[] =
        "\ncoolbite VERB --help lists a verb's options.\n\nFor example\n"
        "  coolbite cut --material acrylic/cast --tool 0.8mm --machine bench-24k \\\n"
        "    --spindle 12000rpm --feed 200mm/min --depth 0.4mm\n\n";
    failed |= text_buffer_append(&buffer, example, sizeof example - 1);
    failed |= text_buffer_wrap(&buffer, style, "", 0,
                               "Numbers here do not replace the machine's manual, the material's "
                               "safety data sheet or local rules.");
    if (!failed) {
        fwrite(buffer.text, 1, buffer.size, to);
    }
    free(buffer.text);
    return failed ? complain_memory() : 0;
}

static void version(void)
{
    printf("coolbite %s\nLicence GPL-3.0-or-later; tables CC0-1.0. There is no warranty.\n",
           bite_version());
}

/* Even a help page that could not be written must not end as if it had been. */
static int close_output(int status)
{
    if (fflush(stdout) != 0 && status == 0) {
        perror("coolbite: standard output");
        return EXIT_CANNOT_WRITE;
    }
    return status;
}

/* A verb and what was asked of it. */
struct invocation {
    enum command_id verb;
    const struct command_line *request;
};

static int run_command(const void *user)
{
    const struct invocation *invocation = user;
    return close_output(run_of[invocation->verb](invocation->request));
}

static int run(int argc, char **argv, enum command_id verb, const bite_style *style)
{
    struct command_line line = {0};
    line.style = *style;
    line.confidence = 0.95;
    int status = options_parse(argc, argv, verb, &line);
    if (status != 0) {
        return status;
    }
    if (line.help) {
        struct text_buffer buffer = {NULL, 0, 0};
        struct command_line to_screen = {0};
        if (options_help(verb, &line.style, &buffer) != 0) {
            free(buffer.text);
            return complain_memory();
        }
        return output_write(&to_screen, &buffer);
    }
    if (line.version) {
        version();
        return 0;
    }
    status = check_outputs(&line, commands[verb].reads_file ? line.words[0] : NULL);
    if (status != 0) {
        return status;
    }
    const struct invocation invocation = {verb, &line};
    /* explain alone opens no plugin */
    return verb == COMMAND_EXPLAIN ? run_command(&invocation) : supervise(run_command, &invocation);
}

int main(int argc, char **argv)
{
    bite_style style = {0};
    style.struct_size = (uint32_t)sizeof style;
    look_at_terminal(&style);
    if (argc < 2) {
        (void)help(&style, stderr);
        return EXIT_USAGE;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "help") == 0) {
        return close_output(help(&style, stdout));
    }
    if (strcmp(argv[1], "--version") == 0) {
        version();
        return close_output(0);
    }
    for (int i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(argv[1], commands[i].word) == 0) {
            return close_output(run(argc - 1, argv + 1, (enum command_id)i, &style));
        }
    }
    return report_usage_error("%s is no verb; there are cut, choose, window, job, list, show and "
                              "explain (coolbite --help)",
                              argv[1]);
}
