/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A library for tests of jobs, and helpers that plan, write and check. */
#include "tests/job/job_fixture.h"
#include "core/job/remarks.h"
#include "core/report/job/remark_text.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

bite_test_shop job_shop;
bite_library *job_library;

void job_setup(void)
{
    char data[600];
    bite_test_shop_make(&job_shop);
    (void)snprintf(data, sizeof data, "%s/data", job_shop.root);
    ck_assert_int_eq(setenv("XDG_DATA_HOME", data, 1), 0);
    ck_assert_int_eq(unsetenv("COOLBITE_TABLE_PATH"), 0);
    job_library = bite_test_shop_open(&job_shop, NULL);
}

/* Copies a table of the project to the shop. */
static void copy_table(const char *name)
{
    char from_path[600];
    char to_path[600];
    char table[80];
    char text[4096];
    (void)snprintf(table, sizeof table, "tables/%s", name);
    bite_test_source(from_path, sizeof from_path, table);
    (void)snprintf(to_path, sizeof to_path, "%s/%s", job_shop.tables, name);
    FILE *from = fopen(from_path, "rb");
    FILE *to = fopen(to_path, "wb");
    ck_assert_msg(from != NULL, "%s", from_path);
    ck_assert_msg(to != NULL, "%s", to_path);
    for (size_t got = 1; got > 0;) {
        got = fread(text, 1, sizeof text, from);
        ck_assert_uint_eq(fwrite(text, 1, got, to), got);
    }
    ck_assert_int_eq(fclose(from) | fclose(to), 0);
}

void job_setup_holes(void)
{
    job_setup();
    copy_table("threads.ini");
    copy_table("drills.ini");
    copy_table("hole_work.ini");
}

void job_teardown(void)
{
    bite_library_close(job_library);
    bite_test_remove(job_shop.root);
}

void job_own_table(const char *file, const char *text)
{
    char path[700];
    char both[1300];
    bite_error error = BITE_ERROR_INIT;
    (void)snprintf(path, sizeof path, "%s/own", job_shop.root);
    (void)mkdir(path, 0755);
    (void)snprintf(path, sizeof path, "%s/own/%s", job_shop.root, file);
    bite_test_write(path, text, strlen(text));
    (void)snprintf(both, sizeof both, "%s/own:%s", job_shop.root, job_shop.tables);
    bite_library_options options = {sizeof options, NULL, job_shop.families, both};
    bite_library_close(job_library);
    job_library = NULL;
    ck_assert_msg(bite_library_open(&options, &job_library, &error) == BITE_OK, "%s",
                  error.message);
}

bite_job_options job_options(size_t draws)
{
    bite_job_options options;
    bite_job_options_init(&options);
    options.threads = 2;
    options.draws = draws;
    options.confidence = 0.95;
    return options;
}

void hear_fault(void *user, const bite_error *fault)
{
    fault_list *to = user;
    if (to->count < 300) {
        to->lines[to->count] = fault->line;
        (void)snprintf(to->texts[to->count], sizeof to->texts[0], "%.120s: %.200s (%.60s)",
                       fault->key, fault->message, fault->hint);
    }
    to->count++;
}

fault_list *faults_of(const char *text, size_t size, bite_error *error)
{
    static fault_list faults;
    bite_job_options options = job_options(BITE_DRAWS_NONE);
    bite_job *job = NULL;
    memset(&faults, 0, sizeof faults);
    bite_status status = bite_job_parse(job_library, "hostile.ini", text, size, &options,
                                        hear_fault, &faults, &job, error);
    ck_assert_msg(status == BITE_BAD_FILE, "%s: %s", bite_status_name(status), error->message);
    ck_assert_ptr_null(job);
    ck_assert_uint_ge(faults.count, 1);
    ck_assert_str_eq(error->file, "hostile.ini");
    return &faults;
}

/* For a file with one fault: its text and line. */
void assert_refused(const char *text, uint32_t line, const char *says)
{
    bite_error error = BITE_ERROR_INIT;
    fault_list *of = faults_of(text, strlen(text), &error);
    ck_assert_msg(of->count == 1, "%u faults: %s; %s", of->count, of->texts[0], of->texts[1]);
    ck_assert_msg(strstr(of->texts[0], says) != NULL, "%s", of->texts[0]);
    ck_assert_msg(of->lines[0] == line, "line %u: %s", of->lines[0], of->texts[0]);
}

bite_job *plan_with(const char *text, const bite_job_options *options)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job *job = NULL;
    ck_assert_msg(bite_job_parse(job_library, "job.ini", text, strlen(text), options, NULL, NULL,
                                 &job, &error) == BITE_OK,
                  "%s:%u %s %s (%s)", error.file, error.line, error.key, error.message, error.hint);
    return job;
}

bite_job *plan(const char *text)
{
    bite_job_options options = job_options(BITE_DRAWS_NONE);
    return plan_with(text, &options);
}

bite_job *plan_of(const char *format, ...)
{
    char text[8000];
    va_list list;
    va_start(list, format);
    int length = vsnprintf(text, sizeof text, format, list);
    va_end(list);
    ck_assert(length > 0 && (size_t)length < sizeof text);
    return plan(text);
}

const bite_remark *remark_of(const bite_job *job, const char *about, const char *says)
{
    char text[BITE_REMARK_TEXT_MAX];
    for (size_t i = 0; i < job->remark_count; i++) {
        const bite_remark *remark = &job->remarks[i];
        if (strcmp(bite_remark_about(remark), about) == 0 &&
            strstr(bite_remark_words(remark, job->units, text, sizeof text), says) != NULL) {
            return remark;
        }
    }
    return NULL;
}

int keep_text(void *user, const char *text, size_t size)
{
    kept_text *to = user;
    if (size > to->most - to->size) {
        return -1;
    }
    if (to->capacity < to->size + size + 1) {
        to->capacity = 2 * (to->size + size) + 1000;
        to->text = realloc(to->text, to->capacity);
        ck_assert_ptr_nonnull(to->text);
    }
    memcpy(to->text + to->size, text, size);
    to->size += size;
    to->text[to->size] = 0;
    return 0;
}

char *write_as(const bite_job *job, uint32_t format, uint32_t ascii)
{
    bite_style style = {.struct_size = (uint32_t)sizeof style, .format = format, .ascii = ascii};
    kept_text to = {NULL, 0, SIZE_MAX, 0};
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_job_write(job, &style, keep_text, &to, &error) == BITE_OK, "%s",
                  error.message);
    return to.text;
}

json_t *json_of(const bite_job *job)
{
    json_error_t why;
    char *text = write_as(job, BITE_JSON, 0);
    json_t *root = json_loads(text, 0, &why);
    ck_assert_msg(root != NULL, "%s", why.text);
    free(text);
    return root;
}

/* The steps are the feature, and a closed one has an entry unless the file says that it is open. */
static void check_path(const bite_job *job, size_t index)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    uint32_t work = pass->work;
    double cut = (pass->passes - 1.0) * pass->step_down + pass->last_step;
    bite_assert_near(cut, work == BITE_WORK_CHAMFER ? pass->answer->full.depth : pass->depth, 1e-9);
    ck_assert(pass->last_step > 0.0 && pass->last_step <= pass->step_down * (1.0 + 1e-9));
    int area = work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH;
    int closed = area || work == BITE_WORK_SLOT || work == BITE_WORK_BORE ||
                 work == BITE_WORK_FREE ||
                 (work == BITE_WORK_CONTOUR && pass->answer->full.blind == 1);
    int open = area && (bite_job_file_number(section, "length") >= fmax(job->length, job->width) ||
                        bite_job_file_number(section, "across") >= fmin(job->length, job->width));
    if (closed && !open && pass->stage <= BITE_STAGE_ROUGH &&
        bite_job_file_text(section, "entry") == NULL) {
        ck_assert_msg(pass->entry.kind != BITE_ENTER_OUTSIDE, "%s has no entry", pass->name);
    }
}

/* All stages of a pocket together remove it: length times width but for its corners, whose radius
 * is that of the file, or that of the tool if it is larger. */
static void check_removed(const bite_job *job, size_t index)
{
    const bite_section *section = job->file_data.passes[index];
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    double radius = job->passes[index].stage == BITE_STAGE_WHOLE
                        ? job->passes[index].inside_radius
                        : bite_job_file_number(section, "inside_radius");
    double removed = 0.0;
    double tool = INFINITY;
    uint32_t work = bite_job_file_word(section, "work", BITE_WORK_COUNT);
    if ((work != BITE_WORK_POCKET && work != BITE_WORK_ROUGH) || isnan(length + across) ||
        job->passes[index].stage > BITE_STAGE_ROUGH) {
        return;
    }
    radius = isnan(radius) ? bite_job_file_number(job->file_data.part, "inside_radius") : radius;
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->file_data.passes[i] == section) {
            ck_assert(job->passes[i].area > 0.0);
            removed += job->passes[i].area;
            tool = fmin(tool, 0.5 * job->tools[job->passes[i].tool].diameter);
        }
    }
    radius = isnan(radius) ? tool : fmax(radius, tool);
    bite_assert_near(removed, length * across - (4.0 - M_PI) * radius * radius, 1e-9);
}

/* Every total is the sum of its parts. */
static void check_time(const bite_job *job)
{
    const bite_planned_time *time = &job->time;
    double seconds = 0.0;
    double feed = 0.0;
    double entries = 0.0;
    double moves = 0.0;
    double pauses = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        pauses += pass->pause_seconds;
        ck_assert(pass->entry_seconds >= 0.0 && pass->move_seconds > 0.0);
        ck_assert(!(pass->entry.length > 0.0) || pass->entry_seconds > 0.0);
        seconds += pass->seconds;
        feed += pass->feed_seconds;
        entries += pass->entry_seconds;
        moves += pass->move_seconds;
    }
    bite_assert_near(time->feed_only, feed, 1e-9);
    bite_assert_near(time->entries + 1.0, entries + 1.0, 1e-9);
    bite_assert_near(time->air + time->rapids, moves, 1e-9);
    bite_assert_near(time->cutting, time->feed_only + time->cornering, 1e-9);
    bite_assert_near(time->ways, time->entries + time->air + time->rapids, 1e-9);
    bite_assert_near(time->pauses + 1.0, pauses + 1.0, 1e-9);
    bite_assert_near(seconds, time->cutting + time->ways + time->pauses, 1e-9);
    bite_assert_near(time->changes, time->tool_changing + time->spindle_starts + time->zeroing,
                     1e-9);
    bite_assert_near(time->loading + 1.0, time->mounting + time->cure + 1.0, 1e-9);
    bite_assert_near(time->release, time->releasing + time->soak + time->cleaning, 1e-9);
    bite_assert_near(time->whole, seconds + time->changes + time->loading + time->release, 1e-9);
    bite_assert_near(time->whole, time->hands + time->machine_alone + time->waiting, 1e-9);
    ck_assert_uint_ge(time->tool_changes + 1, job->tool_count);
    ck_assert(isnan(time->overlapped) ||
              (time->overlapped <= time->whole && 2.0 * time->overlapped >= time->whole));
}

/* Properties of every plan. */
void check_plan(const bite_job *job)
{
    ck_assert_uint_ge(job->pass_count, 1);
    ck_assert_uint_ge(job->tool_count, 1);
    for (size_t i = 0; i < job->tool_count; i++) { /* in the order in which they are used */
        ck_assert_uint_eq(job->tools[i].place, i + 1);
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_cut *cut = &pass->answer->full;
        ck_assert(cut->spindle_speed > 0.0 && cut->feed_rate > 0.0 && cut->depth > 0.0);
        ck_assert(pass->seconds > 0.0 && pass->slowed > 0.0 && pass->slowed <= 1.0);
        ck_assert(pass->seconds >= pass->feed_seconds * (1.0 - 1e-9));
        ck_assert_uint_lt(pass->tool, job->tool_count);
        ck_assert(pass->work !=
                      BITE_WORK_THREAD_MILL || /* whose cut is that of its rows of teeth */
                  pass->hole.mill.path.turns * pass->hole.mill.tool.rows * pass->hole.pitch >=
                      pass->depth);
        ck_assert(pass->work == BITE_WORK_CHAMFER || pass->work == BITE_WORK_THREAD_MILL ||
                  pass->passes * cut->depth >= pass->depth * (1.0 - 1e-6));
        ck_assert(job->verdict >= pass->answer->result.verdict);
        check_path(job, i);
        check_removed(job, i);
        ck_assert(i == 0 || job->passes[i - 1].setup <= pass->setup);
        ck_assert(i == 0 || job->passes[i - 1].work != BITE_WORK_FREE ||
                  pass->work == BITE_WORK_FREE || job->passes[i - 1].setup < pass->setup);
    }
    check_time(job);
    ck_assert(job->stock.thin <= job->stock.nominal && job->stock.nominal <= job->stock.thick);
    for (size_t i = 1; i < job->remark_count; i++) {
        ck_assert_uint_ge(job->remarks[i - 1].severity, job->remarks[i].severity);
    }
    ck_assert_ptr_nonnull(remark_of(job, "safety", "manual"));
    json_t *root = json_of(job);
    ck_assert_uint_eq(json_array_size(json_object_get(root, "passes")), job->pass_count);
    ck_assert_uint_eq(json_array_size(json_object_get(root, "remarks")), job->remark_count);
    json_decref(root);
    char *text = write_as(job, BITE_TEXT, 0);
    ck_assert_ptr_nonnull(strstr(text, job->passes[0].title));
    free(text);
}

/* ---- the order of work ---- */

size_t place_of(const bite_job *job, const char *name)
{
    size_t i = 0;
    while (i < job->pass_count && strcmp(job->passes[i].name, name) != 0) {
        i++;
    }
    ck_assert_uint_lt(i, job->pass_count);
    return i;
}

size_t count_of(const char *text, const char *word)
{
    size_t count = 0;
    for (const char *at = strstr(text, word); at != NULL; at = strstr(at + 1, word)) {
        count++;
    }
    return count;
}

void append(growing_text *to, const char *format, ...)
{
    va_list list;
    if (to->capacity - to->size < 4000) {
        to->capacity = 2 * to->capacity + 8000;
        to->text = realloc(to->text, to->capacity);
        ck_assert_ptr_nonnull(to->text);
    }
    va_start(list, format);
    to->size += (size_t)vsnprintf(to->text + to->size, to->capacity - to->size, format, list);
    va_end(list);
}
