/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite batch: judges many cuts, one a row. */
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output_format.h"
#include "bindings/cli/processor_count.h"
#include "bindings/cli/progress_bar.h"
#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define PIECE 65536 /* bytes that are read at a time */
#define RESULTS_MAX 64

/* The signal that asks the program to end; 0: none did. Whole rows are written first. Threads that
 * judge rows read it, so it is written as a whole. */
static volatile int stop;

static void note_signal(int number)
{
    __atomic_store_n(&stop, number, __ATOMIC_RELAXED);
}

/* What a run needs. */
struct batch_run {
    const struct command_line *line;
    const char *name; /* of the input, for messages */
    int file;
    uint64_t size; /* of the input; 0: not known */
    uint64_t read;
    bite_cases *cases;
    bite_file_output *output;
    bite_error write_error;
    bite_case_word *words;
    char *list; /* of the results */
    struct progress_bar bar;
};

static int write_rows(void *user, const char *text, size_t size)
{
    struct batch_run *run = user;
    return bite_file_output_write(run->output, text, size, &run->write_error) != BITE_OK;
}

static void report_row(void *user, const bite_error *error)
{
    const struct batch_run *run = user;
    bite_error shown = *error;
    progress_bar_end(&run->bar);
    (void)snprintf(shown.file, sizeof shown.file, "%s", run->name);
    (void)report_error(&shown);
}

/* ---- options ---- */

/* Splits the list of --results in place. 0, or the exit status after an error message. */
static int split_results(char *list, const char *names[RESULTS_MAX], size_t *count)
{
    *count = 0;
    for (char *name = list; name != NULL;) {
        char *comma = strchr(name, ',');
        if (comma != NULL) {
            *comma = 0;
        }
        if (*name == 0 || *count == RESULTS_MAX) {
            return report_usage_error("--results must be a list of 1 to %d names separated by "
                                      "commas, such as verdict,wall_error",
                                      RESULTS_MAX);
        }
        names[(*count)++] = name;
        name = comma == NULL ? NULL : comma + 1;
    }
    return 0;
}

/* The words of the options, as names of columns. Returns their number. */
static size_t list_words(bite_case_word *words)
{
    size_t count = 0;
    for (size_t i = 0; i < option_count; i++) {
        const struct cli_option *option = &option_table[i];
        if (option->type == OPTION_INPUT && (option->commands & 1u << COMMAND_BATCH) != 0) {
            words[count].word = option->word;
            words[count++].input = option->name;
        }
    }
    return count;
}

/* The format of the input decides unless --format or the extension of --output does. */
static uint32_t format_of(const struct command_line *line)
{
    static const char *const json[] = {"json", "jsonl", "ndjson"};
    const char *file = line->argument_count > 0 ? line->arguments[0] : "";
    if (line->format_given || line->style.format != BITE_TEXT) {
        return line->style.format;
    }
    for (size_t i = 0; i < sizeof json / sizeof *json; i++) {
        if (strcmp(file_extension(file), json[i]) == 0) {
            return BITE_JSON;
        }
    }
    return BITE_CSV;
}

static int make_cases(struct batch_run *run, const bite_request *request)
{
    const struct command_line *line = run->line;
    bite_error error = BITE_ERROR_INIT;
    bite_case_word *words = calloc(option_count, sizeof *words);
    char *list = strdup(line->results == NULL ? "" : line->results);
    const char *names[RESULTS_MAX];
    bite_case_options options;
    bite_case_options_init(&options);
    options.format = format_of(line);
    options.units = line->style.units;
    options.draws = line->draws;
    options.confidence = line->confidence;
    options.threads = line->jobs > 0 ? line->jobs : processor_count();
    options.words = words;
    options.refused = report_row;
    options.refused_user = run;
    options.stop = &stop;
    int status = words == NULL || list == NULL ? report_out_of_memory() : 0;
    if (status == 0 && line->results != NULL) {
        status = split_results(list, names, &options.result_count);
        options.results = names;
    }
    if (status == 0) {
        options.word_count = list_words(words);
        if (bite_cases_new(request, &options, write_rows, run, &run->cases, &error) != BITE_OK) {
            status = report_error(&error);
            status = error.status == BITE_UNKNOWN_NAME || error.status == BITE_BAD_ARGUMENT
                         ? EXIT_USAGE
                         : status;
        }
    }
    run->words = words;
    run->list = list;
    return status;
}

/* ---- input ---- */

static int open_input(struct batch_run *run)
{
    const char *path = run->line->argument_count > 0 ? run->line->arguments[0] : "-";
    struct stat about;
    run->name = strcmp(path, "-") == 0 ? "standard input" : path;
    run->file = strcmp(path, "-") == 0 ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (run->file < 0 || fstat(run->file, &about) != 0) {
        return report_failure(errno == ENOENT || errno == ENOTDIR ? EXIT_NO_INPUT : EXIT_IO,
                              "%s: cannot be read: %s", run->name, strerror(errno));
    }
    if (S_ISDIR(about.st_mode)) {
        return report_failure(EXIT_NO_INPUT, "%s: a folder; a file was expected", run->name);
    }
    run->size = S_ISREG(about.st_mode) && about.st_size > 0 ? (uint64_t)about.st_size : 0;
    return 0;
}

/* Reads to the end, or until a signal asks to stop. */
static bite_status feed(struct batch_run *run, bite_error *error, int *number)
{
    static char piece[PIECE];
    bite_status status = BITE_OK;
    while (status == BITE_OK && !stop) {
        ssize_t count = read(run->file, piece, sizeof piece);
        bite_case_summary summary = {.struct_size = (uint32_t)sizeof summary};
        if (count < 0 && errno == EINTR) {
            continue;
        }
        *number = count < 0 ? errno : 0;
        if (count <= 0) {
            break;
        }
        run->read += (uint64_t)count;
        status = bite_cases_push(run->cases, piece, (size_t)count, error);
        bite_cases_summary(run->cases, &summary);
        progress_bar_show(&run->bar, run->read, run->size, summary.rows);
    }
    return status == BITE_OK && *number == 0 && !stop ? bite_cases_end(run->cases, error) : status;
}

/* ---- the end ---- */

/* --strict: the worst row. */
static int strict_status(const bite_case_summary *summary)
{
    static const uint32_t worst_first[] = {BITE_OVER, BITE_UNKNOWN, BITE_TIGHT};
    if (summary->refused > 0) {
        return EXIT_CONTENTS;
    }
    for (size_t i = 0; i < sizeof worst_first / sizeof *worst_first; i++) {
        if (summary->verdicts[worst_first[i]] > 0) {
            return exit_status_of_verdict(worst_first[i], false);
        }
    }
    return EXIT_CLEAR;
}

static int report_end(struct batch_run *run, bite_status status, bite_error *error, int number)
{
    if (status == BITE_CANNOT_WRITE) {
        return report_error(&run->write_error);
    }
    if (status != BITE_OK && status != BITE_STOPPED) {
        (void)snprintf(error->file, sizeof error->file, "%s", error->line > 0 ? run->name : "");
        return report_error(error);
    }
    return number != 0
               ? report_failure(EXIT_IO, "%s: cannot be read: %s", run->name, strerror(number))
               : 0;
}

/* Keeps what was written, of a run that was stopped as well: it ends after a whole row. */
static int finish(struct batch_run *run, bite_status status, bite_error *error, int number)
{
    bite_case_summary summary = {.struct_size = (uint32_t)sizeof summary};
    bite_cases_summary(run->cases, &summary);
    progress_bar_end(&run->bar);
    int exit = report_end(run, status, error, number);
    if (exit != 0) {
        bite_file_output_drop(run->output);
        return exit;
    }
    bite_error kept = BITE_ERROR_INIT;
    if (bite_file_output_keep(run->output, &kept) != BITE_OK) {
        return report_error(&kept);
    }
    if (stop) {
        (void)report_failure(0, "stopped after %" PRIu64 " rows, which are whole", summary.rows);
        (void)signal(stop, SIG_DFL);
        (void)raise(stop);
    }
    if (summary.refused > 0) {
        (void)report_failure(0, "%" PRIu64 " of %" PRIu64 " rows were refused", summary.refused,
                             summary.rows);
    }
    return run->line->strict ? strict_status(&summary) : 0;
}

static void catch_signals(void)
{
    static const int numbers[] = {SIGINT, SIGTERM, SIGHUP};
    struct sigaction action = {0};
    action.sa_handler = note_signal;
    (void)sigemptyset(&action.sa_mask);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        (void)sigaction(numbers[i], &action, NULL);
    }
}

static int run_cases(struct batch_run *run)
{
    bite_error error = BITE_ERROR_INIT;
    const char *path = run->line->output;
    int number = 0;
    path = path == NULL || strcmp(path, "-") == 0 ? "/dev/stdout" : path;
    if (bite_file_output_open(path, &run->output, &error) != BITE_OK) {
        return report_error(&error);
    }
    catch_signals();
    progress_bar_start(&run->bar);
    bite_status status = feed(run, &error, &number);
    return finish(run, status, &error, number);
}

int cmd_batch(const struct command_line *line)
{
    struct batch_run run = {.line = line, .file = -1, .write_error = BITE_ERROR_INIT};
    bite_library *library = NULL;
    bite_request *request = NULL;
    if (line->argument_count > 1) {
        return report_usage_error("unexpected argument %s; batch reads one file",
                                  line->arguments[1]);
    }
    int status = library_from_options(line, &library);
    status =
        status != 0 ? status : request_from_options(library, line, line->input_count, &request);
    status = status != 0 ? status : open_input(&run);
    status = status != 0 ? status : make_cases(&run, request);
    status = status != 0 ? status : run_cases(&run);
    if (run.file > STDIN_FILENO) {
        (void)close(run.file);
    }
    bite_cases_free(run.cases);
    free(run.words);
    free(run.list);
    bite_request_free(request);
    bite_library_close(library);
    return status;
}
