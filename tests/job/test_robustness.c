/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs with failing allocations, failing sinks and very long titles. */
#include "core/library/collection.h"
#include "tests/job/job_fixture.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Every title and name is as long as a table allows: no character is cut, and nothing overflows. */
START_TEST(long_titles_are_written_whole)
{
    char title[960];
    growing_text job_text = {NULL, 0, 0};
    size_t used = 0;
    for (; used + 40 < sizeof title;) {
        used += (size_t)snprintf(title + used, sizeof title - used, "%s",
                                 "it's <b>&amp;</b> \xc3\xa4\xe2\x82\xac %s%n ");
    }
    (void)snprintf(title + used, sizeof title - used, "the-end");
    append(&job_text,
           HEAD "[job]\ntitle = \"%s\"\n" ACRYLIC "[hold]\nmethod = tape-glue\narea = 9 mm2\n",
           title);
    append(&job_text, "[check.a]\nwhat = \"%s\"\n", title);
    append(&job_text, "with = \"%s\"\n", title);
    append(&job_text, "note = \"%s\"\n", title);
    append(&job_text, "[pass.a]\ntitle = \"%s\"\nwork = cut-free\ntool = 2mm\n" GIVEN, title);
    append(&job_text, "[pass.b]\ntitle = \"%s\"\nwork = pocket\ndepth = 1 mm\n", title);
    bite_job *job = plan(job_text.text);
    json_t *root = json_of(job);
    ck_assert_str_eq(json_string_value(json_object_get(root, "title")), title);
    json_decref(root);
    char *text = write_as(job, BITE_TEXT, 0);
    char *plain = write_as(job, BITE_TEXT, 1);
    ck_assert_ptr_nonnull(remark_of(job, "hold", "may fail"));
    for (const char *at = text; *at != 0; at++) {
        ck_assert((unsigned char)*at >= 0x20 || *at == '\n');
    }
    for (const char *at = plain; *at != 0; at++) {
        ck_assert(((unsigned char)*at >= 0x20 && (unsigned char)*at < 0x7f) || *at == '\n');
    }
    /* none is cut: those of the job, of two passes, of the workholding and what releases it, of
     * three words of a check */
    ck_assert_uint_ge(count_of(text, "the-end"), 8);
    json_t *whole = json_string(text); /* jansson refuses bytes that are not UTF-8 */
    ck_assert_ptr_nonnull(whole);
    json_decref(whole);
    free(plain);
    free(text);
    bite_job_free(job);
    free(job_text.text);
}
END_TEST

START_TEST(failing_sinks_are_reported)
{
    bite_job *job = plan(HEAD ACRYLIC "[hold]\nmethod = tape-glue\n" ONE_PASS);
    for (uint32_t format = BITE_TEXT; format <= BITE_JSON; format++) {
        bite_style style = {.struct_size = (uint32_t)sizeof style, .format = format};
        char *all = write_as(job, format, 0);
        size_t size = strlen(all);
        for (size_t most = 0; most < size; most += 1 + size / 50) {
            kept_text to = {NULL, 0, most, 0};
            bite_error error = BITE_ERROR_INIT;
            ck_assert_int_eq(bite_job_write(job, &style, keep_text, &to, &error),
                             BITE_CANNOT_WRITE);
            ck_assert_uint_gt(strlen(error.message), 5);
            ck_assert(to.size == 0 || memcmp(to.text, all, to.size) == 0);
            free(to.text);
        }
        free(all);
    }
    bite_job_free(job);
}
END_TEST

/* The n-th allocation and all after it fail, for every n: the failure is reported, there is no
 * result, and nothing is leaked. */
static void fail_at_every_call(const char *text, uint32_t threads, size_t least)
{
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_library *of = bite_test_shop_open(&job_shop, &allocator);
    bite_job_options options = job_options(BITE_DRAWS_NONE);
    bite_job *job = NULL;
    bite_error error = BITE_ERROR_INIT;
    options.threads = threads;
    /* the library reads what it needs once and keeps it */
    ck_assert_int_eq(
        bite_job_parse(of, "job.ini", text, strlen(text), &options, NULL, NULL, &job, &error),
        BITE_OK);
    bite_job_free(job);
    size_t held = memory.held;
    bite_status status = BITE_NO_MEMORY;
    size_t n = 0;
    while (status != BITE_OK) {
        memory.calls = 0;
        memory.fail_at = ++n;
        job = NULL;
        status =
            bite_job_parse(of, "job.ini", text, strlen(text), &options, NULL, NULL, &job, &error);
        ck_assert_msg(status == BITE_OK || status == BITE_NO_MEMORY, "call %zu: %s: %s", n,
                      bite_status_name(status), error.message);
        ck_assert((status == BITE_OK) == (job != NULL));
        if (job != NULL) {
            memory.calls = 0;
            memory.fail_at = 1;
            ck_assert_int_eq(bite_job_time_add(job, 100.0, &error), BITE_NO_MEMORY);
            bite_job_free(job);
        }
        ck_assert_msg(memory.held == held, "call %zu: %zu bytes are held", n, memory.held - held);
        ck_assert_uint_lt(n, 20000);
    }
    ck_assert_uint_gt(n, least);
    memory.fail_at = 0;
    bite_library_close(of);
    ck_assert_uint_eq(memory.held, 0);
}

START_TEST(failing_allocations_are_reported)
{
    fail_at_every_call(HEAD ACRYLIC "[tools]\nat_hand = 2mm 3mm\n[hold]\nmethod = "
                                    "tape-glue\n[fluids]\ncleaner = ipa\n[pass.a]\nwork = "
                                    "drill\ntool = 2mm\n" GIVEN "[pass.b]\nwork = cut-free\n" GIVEN,
                       1, 15);
}
END_TEST

START_TEST(failing_allocations_while_choosing_are_reported)
{
    fail_at_every_call(HEAD ACRYLIC
                       "[pass.b]\nwork = slot\ntool = 2mm\ndepth = 0.5 mm\npass_depth = 0.5 mm\n",
                       1, 15);
}
END_TEST

/* More passes than the bits of a word, in a chain. */
START_TEST(failing_allocations_of_many_passes_are_reported)
{
    growing_text text = {NULL, 0, 0};
    append(&text, HEAD ACRYLIC);
    for (int i = 0; i < 70; i++) {
        append(&text, "[pass.p%d]\nwork = slot\ntool = %dmm\ndepth = 1 mm\n" GIVEN, i, 2 + i % 2);
        if (i > 0) {
            append(&text, "after = p%d\n", i - 1);
        }
    }
    fail_at_every_call(text.text, 1, 100);
    free(text.text);
}
END_TEST

/* One allocation fails, and the next ones do not: the plan is the same, or there is none. With two
 * ways to cut the pocket, which are compared. */
START_TEST(a_single_failing_allocation_makes_no_other_plan)
{
    static const char text[] = HEAD ACRYLIC
        "inside_radius = 1 mm\n[tools]\nat_hand = 2mm 3mm\n[hold]\nmethod = tape-glue\n"
        "[pass.a]\nwork = pocket\nlength = 20 mm\nacross = 12 mm\ndepth = 1 mm\n";
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_library *of = bite_test_shop_open(&job_shop, &allocator);
    bite_job_options options = job_options(BITE_DRAWS_NONE);
    bite_error error = BITE_ERROR_INIT;
    bite_job *job = NULL;
    size_t refused = 0;
    int failed = 1; /* the n-th request was made */
    options.threads = 1;
    ck_assert_int_eq(
        bite_job_parse(of, "job.ini", text, strlen(text), &options, NULL, NULL, &job, &error),
        BITE_OK); /* the tables are read once */
    char *usual = write_as(job, BITE_TEXT, 0);
    bite_job_free(job);
    memory.alone = 1;
    for (size_t n = 1; failed; n++) {
        memory.calls = 0;
        memory.fail_at = n;
        job = NULL;
        bite_status status =
            bite_job_parse(of, "job.ini", text, strlen(text), &options, NULL, NULL, &job, &error);
        memory.fail_at = 0;
        failed = memory.calls >= n;
        ck_assert_msg(status == BITE_OK || (failed && status == BITE_NO_MEMORY), "call %zu: %s", n,
                      error.message);
        refused += job == NULL;
        if (job != NULL) {
            char *plan = write_as(job, BITE_TEXT, 0);
            ck_assert_msg(strcmp(plan, usual) == 0, "call %zu: another plan", n);
            free(plan);
        }
        bite_job_free(job);
    }
    ck_assert_uint_gt(refused, 20);
    free(usual);
    bite_library_close(of);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

/* A drill is looked up among the tools first. Where one of the two tables cannot be read for lack
 * of memory it is not said to be missing. */
START_TEST(a_drill_is_found_or_memory_is_lacking)
{
    size_t refused = 0;
    int failed = 1; /* the n-th request was made */
    for (size_t n = 1; failed; n++) {
        bite_test_memory memory = {0};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library *of = bite_test_shop_open(&job_shop, &allocator);
        const bite_item_record *record = NULL;
        bite_error error = BITE_ERROR_INIT;
        memory.calls = 0;
        memory.alone = 1;
        memory.fail_at = n;
        bite_status status = bite_library_record(of, BITE_TOOLS, "drill-3", &record, &error);
        failed = memory.calls >= n;
        ck_assert_msg(status == BITE_OK || status == BITE_NO_MEMORY, "call %zu: %s", n,
                      error.message);
        ck_assert_int_eq(error.status, status);
        refused += status != BITE_OK;
        bite_library_close(of);
        ck_assert_uint_eq(memory.held, 0);
    }
    ck_assert_uint_gt(refused, 10);
}
END_TEST

/* The first plan with a library, which reads the tables too. */
START_TEST(failing_allocations_of_a_first_plan_are_reported)
{
    static const char text[] =
        HEAD ACRYLIC "[hold]\nmethod = tape-glue\n[fluids]\ncleaner = ipa\n" ONE_PASS;
    bite_status status = BITE_NO_MEMORY;
    for (size_t n = 1; status != BITE_OK; n += n < 60 ? 1 : 7) {
        bite_test_memory memory = {0};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library *of = bite_test_shop_open(&job_shop, &allocator);
        bite_job_options options = job_options(BITE_DRAWS_NONE);
        bite_error error = BITE_ERROR_INIT;
        bite_job *job = NULL;
        options.threads = 1;
        memory.calls = 0;
        memory.fail_at = n;
        status =
            bite_job_parse(of, "job.ini", text, strlen(text), &options, NULL, NULL, &job, &error);
        ck_assert_msg(status == BITE_OK || status == BITE_NO_MEMORY, "call %zu: %s: %s %s", n,
                      bite_status_name(status), error.key, error.message);
        bite_job_free(job);
        bite_library_close(of);
        ck_assert_msg(memory.held == 0, "call %zu: %zu bytes are held", n, memory.held);
        ck_assert_uint_lt(n, 20000);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("robustness");
    TCase *tests = tcase_create("robustness");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, long_titles_are_written_whole);
    tcase_add_test(tests, failing_sinks_are_reported);
    tcase_add_test(tests, failing_allocations_are_reported);
    tcase_add_test(tests, failing_allocations_while_choosing_are_reported);
    tcase_add_test(tests, failing_allocations_of_many_passes_are_reported);
    tcase_add_test(tests, failing_allocations_of_a_first_plan_are_reported);
    tcase_add_test(tests, a_single_failing_allocation_makes_no_other_plan);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    TCase *holes = tcase_create("holes");
    tcase_add_checked_fixture(holes, job_setup_holes, job_teardown);
    tcase_add_test(holes, a_drill_is_found_or_memory_is_lacking);
    suite_add_tcase(suite, holes);
    return bite_test_run(suite);
}
