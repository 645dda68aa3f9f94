/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite: the command line. */
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output.h"
#include "bindings/cli/supervisor.h"
#include <errno.h>
#include <langinfo.h>
#include <locale.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#define COLUMNS_TERMINAL_MAX 100 /* wider lines are hard to read */
#define COLUMNS_MAX 999          /* of COLUMNS */

static int (*const functions[COMMAND_COUNT])(const struct command_line *line) = {
    [COMMAND_CUT] = cmd_cut,
    [COMMAND_CHOOSE] = cmd_choose,
    [COMMAND_WINDOW] = cmd_window,
    [COMMAND_JOB] = cmd_job,
    [COMMAND_LIST] = cmd_list,
    [COMMAND_SHOW] = cmd_show,
    [COMMAND_EXPLAIN] = cmd_explain,
    [COMMAND_BATCH] = cmd_batch,
    [COMMAND_MEASURE] = cmd_measure,
    [COMMAND_AUDIT] = cmd_audit,
    [COMMAND_NEW_MATERIAL] = cmd_new_material,
};

/* Colour only on a terminal, characters beyond ASCII only in a UTF-8 locale. As POSIX requires,
 * COLUMNS takes precedence over the width of the terminal. */
static void detect_terminal(bite_style *style)
{
    (void)setlocale(LC_CTYPE, "");
    style->ascii = strcmp(nl_langinfo(CODESET), "UTF-8") != 0;
    const char *no_colour = getenv("NO_COLOR");
    const char *term = getenv("TERM");
    int terminal = isatty(STDOUT_FILENO);
    style->colour = terminal && (no_colour == NULL || *no_colour == 0) && term != NULL &&
                    strcmp(term, "dumb") != 0;
    const char *text = getenv("COLUMNS");
    long columns = text == NULL ? 0 : strtol(text, NULL, 10);
    struct winsize size;
    if (columns > 0 && columns <= COLUMNS_MAX) {
        style->columns = (uint32_t)columns;
    } else if (terminal && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
        style->columns = size.ws_col < COLUMNS_TERMINAL_MAX ? size.ws_col : COLUMNS_TERMINAL_MAX;
    }
}

static int write_help(const bite_style *style, FILE *file)
{
    struct text_buffer buffer = {NULL, 0, 0};
    char line[64];
    int failed = text_buffer_wrap(&buffer, style, "", 0,
                                  "coolbite - will this cut hold, and what do I type in?");
    failed |= text_buffer_append(&buffer, "\n", 1);
    for (int i = 0; i < COMMAND_COUNT; i++) {
        (void)snprintf(line, sizeof line, "  coolbite %s %s\n", commands[i].word,
                       commands[i].synopsis);
        failed |= text_buffer_append(&buffer, line, strlen(line));
        failed |= text_buffer_wrap(&buffer, style, "", 6, commands[i].help);
    }
    static const char example[] =
        "\ncoolbite COMMAND --help lists the options of a command.\n\nFor example\n"
        "  coolbite cut --material acrylic/cast --tool 0.8mm --machine bench-24k \\\n"
        "    --spindle 12000rpm --feed 200mm/min --depth 0.4mm\n\n";
    failed |= text_buffer_append(&buffer, example, sizeof example - 1);
    failed |= text_buffer_wrap(&buffer, style, "", 0,
                               "Numbers here do not replace the machine's manual, the material's "
                               "safety data sheet or local rules.");
    if (!failed) {
        fwrite(buffer.text, 1, buffer.size, file);
    }
    free(buffer.text);
    return failed ? report_out_of_memory() : 0;
}

static void write_version(void)
{
    printf("coolbite %s\nLicence GPL-3.0-or-later; tables CC0-1.0. There is no warranty.\n",
           bite_version());
}

/* An output that cannot be written is an error, for help as well. */
static int close_output(int status)
{
    int number = fflush(stdout) != 0 ? errno : 0;
    if ((number != 0 || ferror(stdout)) && status == 0) {
        fprintf(stderr, "coolbite: standard output: %s\n",
                number != 0 ? strerror(number) : "a part of it could not be written");
        return EXIT_CANNOT_WRITE;
    }
    return status;
}

/* A command and its command line, for supervise(). */
struct invocation {
    enum command_id command;
    const struct command_line *line;
};

static int run_command(const void *user)
{
    const struct invocation *invocation = user;
    return close_output(functions[invocation->command](invocation->line));
}

/* The shop's own set-up; what it states for all commands replaces what was not given. */
static int read_shop(struct command_line *line, bite_shop **shop)
{
    bite_error error = BITE_ERROR_INIT;
    if (line->no_config) {
        return 0;
    }
    if (bite_shop_open(NULL, shop, &error) != BITE_OK) {
        return report_error(&error);
    }
    line->shop = *shop;
    const char *units = bite_shop_text(line->shop, "units");
    if (!line->units_given && units != NULL) {
        line->style.units = strcmp(units, "inch") == 0 ? BITE_INCH : BITE_METRIC;
    }
    double confidence = bite_shop_number(line->shop, "confidence");
    if (!line->confidence_given && !isnan(confidence)) {
        line->confidence = confidence;
    }
    return 0;
}

static int run(int argc, char **argv, enum command_id command, const bite_style *style)
{
    struct command_line line = {0};
    line.style = *style;
    line.confidence = 0.90;
    int status = options_parse(argc, argv, command, &line);
    if (status != 0) {
        return status;
    }
    if (line.help) {
        struct text_buffer buffer = {NULL, 0, 0};
        if (options_help(command, &line.style, &buffer) != 0) {
            free(buffer.text);
            return report_out_of_memory();
        }
        return output_write(NULL, &buffer);
    }
    if (line.version) {
        write_version();
        return 0;
    }
    bite_shop *shop = NULL;
    status = read_shop(&line, &shop);
    if (status == 0) {
        status = output_check(&line, commands[command].reads_file ? line.arguments[0] : NULL);
    }
    if (status == 0) {
        const struct invocation invocation = {command, &line};
        /* explain never opens a plugin, and audit has a child process of its own for each */
        status = command == COMMAND_EXPLAIN || command == COMMAND_AUDIT
                     ? run_command(&invocation)
                     : supervise(run_command, &invocation);
    }
    bite_shop_free(shop);
    return status;
}

static int report_unknown_command(const char *word)
{
    char list[120];
    size_t used = 0;
    for (int i = 0; i < COMMAND_COUNT && used < sizeof list; i++) {
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s", i == 0 ? "" : ", ",
                                 commands[i].word);
    }
    return report_usage_error("there is no command named %s; expected one of: %s (coolbite --help)",
                              word, list);
}

/* A file that would exceed the limit of the shell (ulimit -f) is an error of writing, to be
 * reported as one, not the end of the program halfway. */
static void report_large_files(void)
{
#ifdef SIGXFSZ
    (void)signal(SIGXFSZ, SIG_IGN);
#endif
}

int main(int argc, char **argv)
{
    bite_style style;
    bite_style_init(&style);
    detect_terminal(&style);
    report_large_files();
    if (argc < 2) {
        (void)write_help(&style, stderr);
        return EXIT_USAGE;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "help") == 0) {
        return close_output(write_help(&style, stdout));
    }
    if (strcmp(argv[1], "--version") == 0) {
        write_version();
        return close_output(0);
    }
    for (int i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(argv[1], commands[i].word) == 0) {
            return close_output(run(argc - 1, argv + 1, (enum command_id)i, &style));
        }
    }
    return report_unknown_command(argv[1]);
}
