/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole jobs: the shipped ones, many passes, joint chances, units, threads, locales. */
#include "tests/job/job_fixture.h"
#include "tests/support/test_locale.h"
#include <dirent.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* ---- shipped jobs and chances ---- */

static char *read_source(const char *name, size_t *size)
{
    char path[4096];
    bite_error error = BITE_ERROR_INIT;
    char *text = NULL;
    bite_test_source(path, sizeof path, name);
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s", path);
    text = calloc(1, 1 << 18);
    ck_assert_ptr_nonnull(text);
    *size = fread(text, 1, (1 << 18) - 1, file);
    (void)fclose(file);
    (void)error;
    return text;
}

START_TEST(shipped_jobs_are_planned_and_installed)
{
    char path[4096];
    size_t size = 0;
    size_t count = 0;
    char *list = read_source("tables/Makefile.inc", &size);
    bite_test_source(path, sizeof path, "tables/jobs");
    DIR *folder = opendir(path);
    ck_assert_ptr_nonnull(folder);
    for (struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        char name[400];
        char file[4600];
        bite_job *job = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_job_options options = job_options(0);
        const char *extension = strrchr(entry->d_name, '.');
        if (extension == NULL || strcmp(extension, ".ini") != 0) { /* a record, and the folders */
            continue;
        }
        (void)snprintf(name, sizeof name, "tables/jobs/%s", entry->d_name);
        ck_assert_msg(strstr(list, name) != NULL, "%s is not in tables/Makefile.inc", name);
        (void)snprintf(file, sizeof file, "%s/%s", path, entry->d_name);
        ck_assert_msg(bite_job_open(job_library, file, &options, NULL, NULL, &job, &error) ==
                          BITE_OK,
                      "%s: %s", name, error.message);
        check_plan(job);
        ck_assert_ptr_nonnull(bite_job_file_text(job->file_data.job, "made_up"));
        ck_assert(job->chance >= 0.0 && job->chance <= 1.0);
        bite_job_free(job);
        count++;
    }
    (void)closedir(folder);
    free(list);
    ck_assert_uint_ge(count, 3);
}
END_TEST

/* A job is judged by the joint chance of its passes, from the same draws: many similar passes are
 * hardly worse than one, and never better than the worst; many different ones that are each clear
 * may be tight together. */
START_TEST(chance_of_a_job_is_joint_over_its_passes)
{
    bite_job_options options = job_options(512);
    char text[4000] = HEAD ACRYLIC;
    double worst = 0.0;
    for (int i = 0; i < 6; i++) {
        size_t used = strlen(text);
        (void)snprintf(text + used, sizeof text - used,
                       "[pass.p%d]\nwork = slot\ntool = 2mm\ndepth = 0.4 mm\nspindle = %drpm\nfeed "
                       "= 300mm/min\n",
                       i, i < 3 ? 14000 : 9000 + 2000 * i);
    }
    bite_job *job = plan_with(text, &options);
    double apart = 1.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        worst = fmax(worst, job->passes[i].answer->result.chance);
        apart *= 1.0 - job->passes[i].answer->result.chance;
    }
    ck_assert_double_gt(worst, 0.0);
    ck_assert_double_ge(job->chance, worst);
    ck_assert_double_lt(job->chance, 1.0 - apart); /* they share the uncertain inputs */
    ck_assert_uint_eq(job->verdict, job->chance > 0.5     ? BITE_OVER
                                    : job->chance >= 0.05 ? BITE_TIGHT
                                                          : BITE_CLEAR);
    bite_job_free(job);
}
END_TEST

/* ---- many passes ---- */

static char *many(int passes, int tools)
{
    static const char *const works[] = {"slot", "pocket", "rough", "finish", "contour"};
    growing_text to = {NULL, 0, 0};
    append(&to,
           HEAD "[part]\nmaterial = acrylic/cast\nlength = 200 mm\nwidth = 150 mm\nthickness = "
                "8 mm\n[machine]\nname = "
                "bench-24k\n[hold]\nmethod = tape\n");
    for (int i = 0; i < passes; i++) {
        double diameter = 0.5 + 0.1375 * (i % tools);
        append(&to,
               "[pass.p%d]\nwork = %s\ntool = %.4fmm\ndepth = %.4f mm\nlength = 50 mm\nacross = 20 "
               "mm\n",
               i, works[i % 5], diameter, 0.1 + 0.7 * (i * 37 % passes) / passes * diameter);
        if (i % 5 == 2 || i % 5 == 3) {
            append(&to, "width = %.4f mm\n", (0.05 + 0.4 * (i * 53 % passes) / passes) * diameter);
        }
        if (i >= 10 && i % 3 == 0) {
            append(&to, "after = p%d\n", i - 10);
        }
    }
    return to.text;
}

START_TEST(two_hundred_passes_keep_their_order)
{
    char *text = many(200, 40);
    struct timespec from;
    struct timespec to;
    bite_job_options options = job_options(0);
    (void)clock_gettime(CLOCK_MONOTONIC, &from);
    bite_job *job = plan_with(text, &options);
    (void)clock_gettime(CLOCK_MONOTONIC, &to);
    printf("200 passes on 40 tools: planned in %.2f s\n",
           (double)(to.tv_sec - from.tv_sec) + 1e-9 * (double)(to.tv_nsec - from.tv_nsec));
    ck_assert_uint_eq(job->pass_count, 200);
    ck_assert_uint_eq(job->tool_count, 40);
    for (int i = 12; i < 200; i += 3) {
        char first[10];
        char then[20];
        (void)snprintf(first, sizeof first, "p%d", i - 10);
        (void)snprintf(then, sizeof then, "p%d", i);
        ck_assert_uint_lt(place_of(job, first), place_of(job, then));
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        ck_assert_uint_eq(job->passes[i].answer->result.draws, 4096);
        ck_assert_uint_ge(job->passes[i].answer->result.verdict, BITE_CLEAR);
    }
    check_plan(job);
    bite_job_free(job);
    free(text);
}
END_TEST

/* The dangers are included, however many remarks there are. */
START_TEST(many_remarks_hide_no_danger)
{
    growing_text to = {NULL, 0, 0};
    append(&to, HEAD ACRYLIC "[tools]\nat_hand = 6mm\n[fluids]\ncleaner = acetone\n");
    for (int i = 0; i < 256; i++) {
        append(&to,
               "[pass.p%d]\ntitle = pocket %d\nwork = pocket\ninside_radius = 0.5 mm\nacross = 9 "
               "mm\ndepth = %d um\n" GIVEN,
               i, i, 10 + i);
    }
    bite_job *job = plan(to.text);
    ck_assert_uint_gt(job->remark_count, 257); /* none of the available tools fits, 256 times */
    ck_assert_ptr_null(remark_of(job, "safety", "acetone is flammable")); /* it is refused */
    ck_assert_ptr_nonnull(remark_of(job, "fluids", "NO: do not use acetone"));
    ck_assert_ptr_nonnull(remark_of(job, "safety", "manual"));
    bite_job_free(job);
    free(to.text);
}
END_TEST

/* ---- units, threads, locales ---- */

static void same_number(double a, double b)
{
    ck_assert_msg((isnan(a) && isnan(b)) || fabs(a - b) <= 1e-7 * fmax(fabs(a), fabs(b)),
                  "%.12g and %.12g", a, b);
}

static void same_plan(const bite_job *a, const bite_job *b)
{
    ck_assert_uint_eq(a->pass_count, b->pass_count);
    ck_assert_uint_eq(a->verdict, b->verdict);
    for (size_t i = 0; i < a->pass_count; i++) {
        ck_assert_str_eq(a->passes[i].name, b->passes[i].name);
        ck_assert_uint_eq(a->passes[i].passes, b->passes[i].passes);
        same_number(a->passes[i].answer->full.spindle_speed,
                    b->passes[i].answer->full.spindle_speed);
        same_number(a->passes[i].answer->full.feed_rate, b->passes[i].answer->full.feed_rate);
        same_number(a->passes[i].answer->full.depth, b->passes[i].answer->full.depth);
        same_number(a->passes[i].seconds, b->passes[i].seconds);
        same_number(a->passes[i].hold_utilization, b->passes[i].hold_utilization);
    }
    same_number(a->stock.nominal, b->stock.nominal);
    same_number(a->stock.layout.length, b->stock.layout.length);
    same_number(a->warp.one_sided, b->warp.one_sided);
    same_number(a->time.whole, b->time.whole);
}

#define BOTH_UNITS(length, width, thick, hole, deep)                                               \
    HEAD "[job]\nunits = %s\n[part]\nmaterial = acrylic/cast\nlength = " length "\nwidth = " width \
         "\nthickness = " thick                                                                    \
         "\ncount = 3\n[hold]\nmethod = tape\n[pass.a]\nwork = pocket\ntool = " hole               \
         "\ndepth = " deep "\n[pass.b]\nwork = cut-free\ntool = " hole "\n"

START_TEST(inch_and_metric_jobs_have_one_plan)
{
    bite_job_options options = job_options(BITE_DRAWS_NONE);
    char text[1000];
    (void)snprintf(text, sizeof text,
                   BOTH_UNITS("50.8 mm", "25.4 mm", "2.54 mm", "3.175mm", "1.27 mm"), "metric");
    bite_job *metric = plan(text);
    (void)snprintf(text, sizeof text, BOTH_UNITS("2 in", "1 in", "0.1 in", "1/8in", "0.05 in"),
                   "inch");
    bite_job *inch = plan(text);
    ck_assert_uint_eq(inch->units, BITE_INCH);
    options.units_given = 1; /* the caller's setting overrides that of the file */
    bite_job *as_metric = plan_with(text, &options);
    ck_assert_uint_eq(as_metric->units, BITE_METRIC);
    same_plan(metric, as_metric);
    char *shown = write_as(inch, BITE_TEXT, 0);
    ck_assert_ptr_nonnull(strstr(shown, "2 in x 1 in x 0.1 in"));
    ck_assert_msg(strstr(shown, " mm ") == NULL && strstr(shown, "mm/min") == NULL &&
                      strstr(shown, " um") == NULL,
                  "%s", shown);
    free(shown);
    bite_job_free(metric);
    bite_job_free(inch);
    bite_job_free(as_metric);
}
END_TEST

/* Neither threads nor a locale set by the host, with a decimal comma, change anything. */
START_TEST(threads_and_locales_change_nothing)
{
    static const char text[] = HEAD ACRYLIC
        "count = 2\n[hold]\nmethod = tape-glue\n[pass.a]\nwork = pocket\ndepth = 1.25 mm\n"
        "[pass.b]\nwork = cut-free\n";
    bite_job_options options = job_options(512);
    options.threads = 1;
    bite_job *one = plan_with(text, &options);
    char *first = write_as(one, BITE_TEXT, 0);
    char *first_json = write_as(one, BITE_JSON, 0);
    options.threads = 8;
    bite_test_set_locale(bite_test_locales[1]);
    bite_job *many_threads = plan_with(text, &options);
    char *second = write_as(many_threads, BITE_TEXT, 0);
    char *second_json = write_as(many_threads, BITE_JSON, 0);
    (void)setlocale(LC_ALL, "C");
    ck_assert_str_eq(first, second);
    ck_assert_str_eq(first_json, second_json);
    free(first);
    free(second);
    free(first_json);
    free(second_json);
    bite_job_free(one);
    bite_job_free(many_threads);
}
END_TEST

/* The page shows windows only if the plan was made with them: a writer computes nothing. */
START_TEST(windows_are_made_only_on_request)
{
    static const char text[] =
        HEAD ACRYLIC "[pass.a]\nwork = slot\ntool = 2mm\ndepth = 0.4 mm\n" GIVEN
                     "[pass.b]\nwork = slot\ntool = 2mm\ndepth = 0.4 mm\n" GIVEN
                     "[pass.c]\nwork = slot\ntool = 3mm\ndepth = 0.4 mm\n" GIVEN;
    bite_job_options options = job_options(64);
    bite_job *without = plan_with(text, &options);
    options.windows = 1;
    bite_job *with = plan_with(text, &options);
    char *page = write_as(without, BITE_HTML, 0);
    char *page_with = write_as(with, BITE_HTML, 0);
    ck_assert_uint_eq(without->window_count, 0);
    ck_assert_uint_eq(count_of(page, "<div class=\"picture\""), 0);
    ck_assert_uint_eq(with->window_count, 2); /* two passes are the same cut */
    ck_assert_uint_eq(count_of(page_with, "<div class=\"picture\""), 2);
    ck_assert_double_ge(with->passes[with->windows[0].pass].answer->result.chance,
                        with->passes[with->windows[1].pass].answer->result.chance);
    free(page);
    free(page_with);
    bite_job_free(without);
    bite_job_free(with);
}
END_TEST

/* What may go wrong is shared: one pass may use all of the allowed chance, four a half each, and
 * each at least a quarter. Stages of one feature are one pass. */
START_TEST(passes_share_the_allowed_chance)
{
    static const struct {
        int count;
        double share;
    } cases[] = {{1, 1.0}, {4, 0.5}, {9, 1.0 / 3.0}, {16, 0.25}, {25, 0.25}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        growing_text text = {NULL, 0, 0};
        append(&text, HEAD ACRYLIC);
        for (int k = 0; k < cases[i].count; k++) {
            append(&text, "[pass.d%d]\nwork = drill\ntool = 2mm\n" GIVEN, k);
        }
        bite_job *job = plan(text.text);
        bite_assert_near(job->passes[0].answer->request.chance_share, cases[i].share, 1e-12);
        bite_job_free(job);
        free(text.text);
    }
    bite_job *staged = plan(HEAD ACRYLIC "[pass.a]\nwork = pocket\nlength = 30 mm\nacross = 20 mm\n"
                                         "depth = 1 mm\ninside_radius = 0.6 mm\ntool = 1mm\n"
                                         "rough_tool = 4mm\n");
    ck_assert_uint_eq(staged->pass_count, 2);
    bite_assert_near(staged->passes[1].answer->request.chance_share, 1.0, 1e-12);
    bite_job_free(staged);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("planner");
    TCase *tests = tcase_create("planner");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, shipped_jobs_are_planned_and_installed);
    tcase_add_test(tests, chance_of_a_job_is_joint_over_its_passes);
    tcase_add_test(tests, two_hundred_passes_keep_their_order);
    tcase_add_test(tests, many_remarks_hide_no_danger);
    tcase_add_test(tests, inch_and_metric_jobs_have_one_plan);
    tcase_add_test(tests, threads_and_locales_change_nothing);
    tcase_add_test(tests, windows_are_made_only_on_request);
    tcase_add_test(tests, passes_share_the_allowed_chance);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
