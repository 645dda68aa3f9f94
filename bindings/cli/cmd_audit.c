/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite audit: judges tables and plugins before they are trusted. */
#include "bindings/cli/audit_child.h"
#include "bindings/cli/audit_files.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output.h"
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SECONDS_DEFAULT 30.0

/** One run of the command. */
struct audit_run {
    const char *path; /* as it was given */
    double seconds;
    struct audit_files files;
    struct audit_findings findings;
    size_t tables;
    size_t plugins;
    size_t others; /* files of other kinds, which were not judged */
    size_t grades;
    size_t cases;
    size_t cuts;
    size_t unfinished; /* grades */
};

/* ---- judging ---- */

static void count(struct audit_run *run, const bite_audit *audit)
{
    run->tables += audit->kind == BITE_AUDIT_TABLE;
    run->plugins += audit->kind == BITE_AUDIT_PLUGIN;
    run->others += audit->kind == BITE_AUDIT_OTHER;
    run->grades += audit->grades;
    run->cases += audit->cases;
    run->cuts += audit->cuts;
    run->unfinished += audit->unfinished;
}

/* By file, as they were judged, and then by line. */
static int by_line(const void *a, const void *b)
{
    const bite_error *first = a;
    const bite_error *second = b;
    int files = strcmp(first->file, second->file);
    if (files != 0 || first->line == second->line) {
        return files != 0 ? files
                          : (first->column > second->column) - (first->column < second->column);
    }
    return first->line < second->line ? -1 : 1;
}

/* Keeps one of each finding: a fault may show in more than one way. */
static void drop_repeated(struct audit_findings *findings)
{
    size_t kept = 0;
    for (size_t i = 0; i < findings->count; i++) {
        const bite_error *last = kept == 0 ? NULL : &findings->list[kept - 1];
        if (last == NULL || memcmp(last, &findings->list[i], sizeof *last) != 0) {
            findings->list[kept++] = findings->list[i];
        }
    }
    findings->count = kept;
}

/* 0, or the exit status after an error message. A file of a folder that cannot be read is a
 * finding; one that was named is an error. */
static int judge_file(struct audit_run *run, const char *path)
{
    bite_audit audit;
    bite_error error;
    bite_audit_init(&audit);
    size_t before = run->findings.count + run->findings.lost;
    bite_status status = audit_in_child(path, run->seconds, &run->findings, &audit, &error);
    size_t length = strlen(path);
    if (audit.kind == BITE_AUDIT_OTHER && run->findings.count + run->findings.lost > before) {
        /* it ended before it told what it is */
        int plugin = length > 3 && strcmp(path + length - 3, ".so") == 0;
        audit.kind = plugin ? BITE_AUDIT_PLUGIN : BITE_AUDIT_TABLE;
    }
    count(run, &audit);
    if (status == BITE_OK) {
        return 0;
    }
    if (status == BITE_STOPPED) {
        (void)report_error(&error);
        return EXIT_SYSTEM;
    }
    if (run->files.count == 1 || status == BITE_NO_MEMORY || status == BITE_FAULT) {
        return report_error(&error);
    }
    return audit_findings_add(&run->findings, &error) == 0 ? 0 : report_out_of_memory();
}

/* What makes an audit pointless. */
static int check_subject(const struct audit_run *run)
{
    if (run->tables + run->plugins > 0) {
        return 0;
    }
    return run->others == 1 && run->files.count == 1 && strcmp(run->files.paths[0], run->path) == 0
               ? report_failure(EXIT_CONTENTS,
                                "%s: neither a table nor a plugin, but a job, a record or a "
                                "shop's set-up (coolbite job and coolbite measure judge those)",
                                run->path)
               : report_failure(EXIT_NO_INPUT,
                                "%s: there is no table (*.ini) and no plugin (*.so) in this folder",
                                run->path);
}

static int judge_all(struct audit_run *run)
{
    char *bad = NULL;
    int number = audit_files_find(&run->files, run->path, &bad);
    int status = 0;
    if (number != 0) {
        status =
            number == ENOMEM
                ? report_out_of_memory()
                : report_failure(number == ENOENT || number == ENOTDIR ? EXIT_NO_INPUT : EXIT_IO,
                                 "%s: %s", bad == NULL ? run->path : bad, strerror(number));
        free(bad);
        return status;
    }
    for (size_t i = 0; i < run->files.count && status == 0; i++) {
        status = judge_file(run, run->files.paths[i]);
    }
    if (run->findings.count > 1) {
        qsort(run->findings.list, run->findings.count, sizeof *run->findings.list, by_line);
        drop_repeated(&run->findings);
    }
    return status != 0 ? status : check_subject(run);
}

/* ---- writing ---- */

static int append(struct text_buffer *buffer, const char *text)
{
    return text_buffer_append(buffer, text, strlen(text));
}

static int append_count(struct text_buffer *buffer, const char *before, size_t number,
                        const char *noun, const char *ending)
{
    char text[96];
    (void)snprintf(text, sizeof text, "%s%zu %s%s", before, number, noun,
                   number == 1 ? "" : ending);
    return append(buffer, text);
}

/* FILE:LINE:COLUMN: SECTION:KEY: what is wrong (what to do) */
static int append_finding(struct text_buffer *buffer, const bite_error *finding)
{
    char place[64] = "";
    int used = 0;
    if (finding->line > 0) {
        used = snprintf(place, sizeof place, ":%u", finding->line);
    }
    if (finding->column > 0) {
        (void)snprintf(place + used, sizeof place - (size_t)used, ":%u", finding->column);
    }
    int failed = append(buffer, finding->file);
    failed |= append(buffer, place);
    failed |= append(buffer, ": ");
    if (finding->key[0] != 0) {
        failed |= append(buffer, finding->key);
        failed |= append(buffer, ": ");
    }
    failed |= append(buffer, finding->message);
    if (finding->hint[0] != 0) {
        failed |= append(buffer, " (");
        failed |= append(buffer, finding->hint);
        failed |= append(buffer, ")");
    }
    failed |= append(buffer, "\n");
    return failed;
}

static int write_text(const struct audit_run *run, struct text_buffer *buffer)
{
    int failed = 0;
    size_t found = run->findings.count + run->findings.lost;
    for (size_t i = 0; i < run->findings.count; i++) {
        failed |= append_finding(buffer, &run->findings.list[i]);
    }
    failed |= found == 0 ? 0 : append_count(buffer, "", found, "fault", "s");
    failed |= append(buffer, found == 0 ? "sound: " : " in ");
    failed |= append_count(buffer, "", run->tables, "table", "s");
    failed |= append_count(buffer, " and ", run->plugins, "plugin", "s");
    failed |= append_count(buffer, "; ", run->grades, "grade", "s");
    failed |= append_count(buffer, ", ", run->cases, "self-test", "s");
    failed |= append_count(buffer, " and ", run->cuts, "trial cut", "s");
    if (run->unfinished > 0) {
        failed |= append_count(buffer, "; ", run->unfinished, "grade", "s");
        failed |= append(buffer, " without the figures for a cut");
    }
    failed |= append(buffer, "\n");
    return failed;
}

static int append_member(struct text_buffer *buffer, const char *name, const char *text)
{
    int failed = append(buffer, ", \"");
    failed |= append(buffer, name);
    failed |= append(buffer, "\": ");
    failed |= text_buffer_json(buffer, text);
    return failed;
}

static int write_json(const struct audit_run *run, struct text_buffer *buffer)
{
    char numbers[400];
    size_t found = run->findings.count + run->findings.lost;
    (void)snprintf(numbers, sizeof numbers,
                   "{\n  \"sound\": %s,\n  \"faults\": %zu,\n  \"tables\": %zu,\n  \"plugins\": "
                   "%zu,\n  \"others\": %zu,\n  \"grades\": %zu,\n  \"self_tests\": %zu,\n  "
                   "\"trial_cuts\": %zu,\n  \"unfinished\": %zu,\n  \"findings\": [",
                   found == 0 ? "true" : "false", found, run->tables, run->plugins, run->others,
                   run->grades, run->cases, run->cuts, run->unfinished);
    int failed = append(buffer, numbers);
    for (size_t i = 0; i < run->findings.count; i++) {
        const bite_error *finding = &run->findings.list[i];
        (void)snprintf(numbers, sizeof numbers, "%s\n    {\"line\": %u, \"column\": %u",
                       i == 0 ? "" : ",", finding->line, finding->column);
        failed |= append(buffer, numbers);
        failed |= append_member(buffer, "file", finding->file);
        failed |= append_member(buffer, "key", finding->key);
        failed |= append_member(buffer, "status", bite_status_name((bite_status)finding->status));
        failed |= append_member(buffer, "message", finding->message);
        failed |= append_member(buffer, "hint", finding->hint);
        failed |= append(buffer, "}");
    }
    return failed | append(buffer, run->findings.count == 0 ? "]\n}\n" : "\n  ]\n}\n");
}

static int write_findings(const struct command_line *line, const struct audit_run *run)
{
    struct text_buffer buffer = {NULL, 0, 0};
    int failed =
        line->style.format == BITE_JSON ? write_json(run, &buffer) : write_text(run, &buffer);
    if (failed) {
        free(buffer.text);
        return report_out_of_memory();
    }
    int status = output_write(line->output, &buffer);
    return status != 0 || run->findings.count == 0 ? status : EXIT_FINDINGS;
}

int cmd_audit(const struct command_line *line)
{
    struct audit_run run = {0};
    if (line->argument_count != 1) {
        return report_usage_error("audit takes one path: a table, a plugin or a folder of them, "
                                  "such as coolbite audit soap.ini");
    }
    run.path = line->arguments[0];
    run.seconds = line->time_limit > 0.0 ? line->time_limit : SECONDS_DEFAULT;
    int status = judge_all(&run);
    if (status == 0) {
        status = write_findings(line, &run);
    }
    audit_files_free(&run.files);
    free(run.findings.list);
    return status;
}
