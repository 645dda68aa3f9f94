/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite measure: begins a record of readings, enters readings into one, and reports them. */
#include "bindings/cli/cli_job.h"
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/measure_line.h"
#include "bindings/cli/measure_report.h"
#include "bindings/cli/measure_session.h"
#include "bindings/cli/text_buffer.h"
#include <errno.h>
#include <inttypes.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FIELD_NAME 40
#define READINGS_MAX ((size_t)16 << 20) /* bytes of a CSV file */

/* The fields of --field, as pairs of name and text. */
struct fields {
    char names[INPUT_OPTIONS_MAX][FIELD_NAME];
    const char *pairs[INPUT_OPTIONS_MAX][2];
    size_t count;
};

static int read_fields(const struct command_line *line, struct fields *fields)
{
    for (size_t i = 0; i < line->input_count; i++) {
        const char *text = line->inputs[i].text;
        const char *sign = strchr(text, '=');
        size_t length = sign == NULL ? 0 : (size_t)(sign - text);
        if (strcmp(line->inputs[i].option->word, "field") != 0) {
            continue;
        }
        if (length == 0 || length >= FIELD_NAME) {
            return report_usage_error("--field must be NAME=TEXT, such as part_number=LC-7, not "
                                      "%.60s",
                                      text);
        }
        char *name = fields->names[fields->count];
        memcpy(name, text, length);
        name[length] = 0;
        fields->pairs[fields->count][0] = name;
        fields->pairs[fields->count++][1] = sign + 1;
    }
    return 0;
}

/* Begins a record from a job. */
static int create(const struct command_line *line, const char *path, const char *job_file)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_job *job = NULL;
    struct fields *fields = calloc(1, sizeof *fields);
    if (fields == NULL) {
        return report_out_of_memory();
    }
    int status = read_fields(line, fields);
    status = status == 0 ? library_from_options(line, &library) : status;
    status = status == 0 ? job_from_options(library, line, job_file, 0, &job) : status;
    if (status == 0 && bite_record_new(job, path, (const char *const(*)[2])fields->pairs,
                                       fields->count, &error) != BITE_OK) {
        status = report_error(&error);
    } else if (status == 0) {
        char shown[1024];
        (void)bite_text_escape(path, shown, sizeof shown);
        printf("%s is begun; coolbite measure %s enters the readings\n", shown, shown);
    }
    bite_job_free(job);
    bite_library_close(library);
    free(fields);
    return status;
}

/* A whole number of an option; *number is kept if it was not given. */
static int count_of(const struct command_line *line, const char *word, double most,
                    uint32_t *number)
{
    const char *text = option_value(line, word);
    double value = 0.0;
    bite_error error = BITE_ERROR_INIT;
    if (text == NULL) {
        return 0;
    }
    if (bite_quantity_read(text, BITE_KIND_NUMBER, &value, &error) != BITE_OK ||
        !(value >= 1.0 && value <= most) || value != floor(value)) {
        return report_usage_error("--%s must be a whole number from 1 to %.0f, not %.40s", word,
                                  most, text);
    }
    *number = (uint32_t)value;
    return 0;
}

static int read_start(const struct command_line *line, struct measure_start *start)
{
    const char *person = option_value(line, "person");
    const char *temperature = option_value(line, "temperature");
    bite_error error = BITE_ERROR_INIT;
    *start = (struct measure_start){person == NULL ? "" : person, (double)NAN, 0, 0};
    if (strlen(start->person) > 103 || strpbrk(start->person, "\"\\") != NULL) {
        return report_usage_error("--person must be at most 103 bytes without quotation marks and "
                                  "backslashes");
    }
    if (temperature != NULL && bite_quantity_read(temperature, BITE_KIND_TEMPERATURE,
                                                  &start->temperature, &error) != BITE_OK) {
        return report_usage_error("--temperature: %s%s%s%s", error.message,
                                  error.hint[0] == 0 ? "" : " (", error.hint,
                                  error.hint[0] == 0 ? "" : ")");
    }
    int status = count_of(line, "part", 10000, &start->part);
    return status == 0 ? count_of(line, "trials", 100, &start->trials) : status;
}

/* Opens the record and reports its faults. */
static int open_record(const char *path, bite_record **record)
{
    bite_error error = BITE_ERROR_INIT;
    size_t faults = 0;
    bite_status status = bite_record_open(path, report_fault, &faults, record, &error);
    if (*record == NULL) {
        return faults == 0 ? report_error(&error)
                           : report_failure(exit_status_of(status), "%zu fault%s in %s", faults,
                                            faults == 1 ? "" : "s", path);
    }
    if (bite_record_torn_line(*record) > 0) {
        (void)report_failure(0,
                             "note: %s:%" PRIu64 ": this line was cut off before it was confirmed "
                             "and does not count",
                             path, bite_record_torn_line(*record));
    }
    return 0;
}

/* Reads a whole file, or standard input. */
static int read_text(const char *path, struct text_buffer *buffer)
{
    char piece[4096];
    size_t size = 0;
    bool standard = strcmp(path, "-") == 0;
    FILE *file = standard ? stdin : fopen(path, "rb");
    if (file == NULL && errno == ENOMEM) {
        return report_out_of_memory();
    }
    if (file == NULL) {
        return report_failure(EXIT_NO_INPUT, "%s: cannot be opened: %s", path, strerror(errno));
    }
    int failed = 0;
    while (!failed && buffer->size < READINGS_MAX &&
           (size = fread(piece, 1, sizeof piece, file)) > 0) {
        failed = text_buffer_append(buffer, piece, size);
    }
    int number = ferror(file) ? errno : 0;
    if (!standard) {
        (void)fclose(file);
    }
    if (failed) {
        return report_out_of_memory();
    }
    if (number != 0) {
        return report_failure(EXIT_IO, "%s: cannot be read: %s", path, strerror(number));
    }
    return buffer->size < READINGS_MAX
               ? 0
               : report_failure(EXIT_CONTENTS, "%s: is too large (at most 16 MiB)", path);
}

/* Appends the readings of a CSV file. */
static int append_csv(bite_record *record, const char *path, const struct measure_start *start)
{
    struct text_buffer buffer = {NULL, 0, 0};
    bite_error error = BITE_ERROR_INIT;
    const bite_record_entry defaults = {.struct_size = (uint32_t)sizeof defaults,
                                        .part = start->part,
                                        .person = start->person,
                                        .temperature = start->temperature,
                                        .time = measure_now()};
    size_t faults = 0;
    size_t appended = 0;
    int status = read_text(path, &buffer);
    const char *name = strcmp(path, "-") == 0 ? "standard input" : path;
    if (status != 0 || text_buffer_append(&buffer, "", 1) != 0) {
        free(buffer.text);
        return status != 0 ? status : report_out_of_memory();
    }
    if (bite_record_append_csv(record, buffer.text, buffer.size - 1, name, &defaults, report_fault,
                               &faults, &appended, &error) != BITE_OK) {
        status = faults > 0
                     ? report_failure(EXIT_CONTENTS, "%zu fault%s in %s; nothing was recorded",
                                      faults, faults == 1 ? "" : "s", name)
                     : report_error(&error);
    }
    free(buffer.text);
    if (status == 0 || appended > 0) {
        printf("%zu reading%s recorded\n", appended, appended == 1 ? "" : "s");
    }
    return status;
}

int cmd_measure(const struct command_line *line)
{
    struct measure_start start;
    bite_record *record = NULL;
    const char *job = option_value(line, "job");
    const char *readings = option_value(line, "readings");
    if (line->argument_count != 1) {
        return report_usage_error("measure takes one record, such as lens.record; coolbite measure "
                                  "--help shows the usage");
    }
    const char *path = line->arguments[0];
    if (job == NULL && option_is_given(line, "field")) {
        return report_usage_error(
            "--field is for a new record, so it needs --job; the head of another "
            "one is text that can be edited until the first reading");
    }
    int status = measure_report_check(line);
    status = status == 0 ? read_start(line, &start) : status;
    if (status != 0) {
        return status;
    }
    (void)signal(SIGXFSZ, SIG_IGN); /* a file that may not grow is reported, as a full disk */
    if (job != NULL) {
        status = create(line, path, job);
        if (status != 0 || readings == NULL) {
            return status;
        }
    }
    status = open_record(path, &record);
    if (status == 0) {
        status = line->report       ? measure_report(line, record)
                 : readings != NULL ? append_csv(record, readings, &start)
                                    : measure_session(record, &start);
    }
    bite_record_free(record);
    return status;
}
