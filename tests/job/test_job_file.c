/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Job files: faults of syntax and of content, each reported on its line. */
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

START_TEST(cycles_of_passes_are_reported)
{
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nafter = c\n[pass.b]\nwork = slot\nafter = "
                                "a\n[pass.c]\nwork = slot\nafter = "
                                "b\n[pass.d]\nwork = slot\nafter = a\n",
                   11, "pass.a:after: a, c, b wait for each other in a cycle");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nafter = a\n", 11,
                   "is to come after itself");
    assert_refused(HEAD ACRYLIC
                   "[pass.a]\nwork = slot\nafter = b\n[pass.b]\nwork = slot\nsetup = 2\n",
                   11, "later setup");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nafter = b\n", 11,
                   "after names the pass b, which does not exist");
}
END_TEST

/* A fault on every line: each is reported. */
static void faults_stand_on(const char *text, const uint32_t *lines, uint32_t expected)
{
    bite_error error = BITE_ERROR_INIT;
    fault_list *of = faults_of(text, strlen(text), &error);
    for (size_t i = 0; i < expected; i++) {
        size_t hits = 0;
        for (size_t k = 0; k < of->count; k++) {
            hits += of->lines[k] == lines[i];
        }
        ck_assert_msg(hits == 1, "line %u: %zu faults", lines[i], hits);
    }
    ck_assert_msg(of->count == expected, "%u faults", of->count);
    ck_assert_uint_eq(error.faults, expected);
}

START_TEST(ten_faults_are_all_reported)
{
    static const char text[] = HEAD "[part]\n"
                                    "material = acrilic/cast\n" /* line 5 */
                                    "length = 40\n"
                                    "width = 30 mm\n"
                                    "thickness = 2 mm\n"
                                    "thinnest = 3 mm\n" /* 9 */
                                    "colour = red\n"
                                    "[stock]\n"
                                    "nominal = 1 mm\n" /* 12 */
                                    "[machine]\n"
                                    "name = bench-24x\n" /* 14 */
                                    "[hold]\n"
                                    "method = glu\n" /* 16 */
                                    "[pass.a]\n"
                                    "work = solt\n" /* 18 */
                                    "tool = 99\n"
                                    "depth = 8 mm\n"; /* 20 */
    static const uint32_t lines[] = {5, 6, 9, 10, 12, 14, 16, 18, 19, 20};
    faults_stand_on(text, lines, sizeof lines / sizeof *lines);
}
END_TEST

/* Syntax faults do not hide content faults, and no fault causes another one. */
START_TEST(broken_lines_hide_no_other_fault)
{
    static const char text[] = "x = 1\n" /* line 1: before the first section */
        HEAD "[part]\n"
                               "material = foo\n" /* 6 */
                               "length = 1e999mm\n"
                               "width = 3\n" /* 8 */
                               "Thickness = 2 mm\n"
                               "[pass.a]\n"
                               "work = slit\n" /* 11 */
                               "depth = \"1 mm\n"
                               "[pass.b\n" /* 13: its content is not checked */
                               "work = foo\n"
                               "after = c\n"
                               "[pass.c]\n"
                               "work = slot\n"
                               "after = b\n" /* may be there */
                               "[pass.c]\n"  /* 19 */
                               "work = slot\n"
                               "foo = 3\n" /* 21 */
                               "tool = 2\xff mm\n";
    static const uint32_t lines[] = {1, 6, 7, 8, 9, 11, 12, 13, 19, 20, 21, 22};
    faults_stand_on(text, lines, sizeof lines / sizeof *lines);
    assert_refused(HEAD
                   "[part\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 "
                   "mm\n" ONE_PASS,
                   4, "not closed");
    assert_refused(HEAD
                   "[part]\nmaterial = acrylic/cast\nLENGTH = 40 mm\nwidth = 30 mm\nthickness = 2 "
                   "mm\n" ONE_PASS,
                   6, "no key's name");
    assert_refused(
        HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm ; long\nwidth = 30 mm\nthickness "
             "= 2 mm\n" ONE_PASS,
        6, "unquoted value");
    assert_refused("length = 40 mm\n" HEAD ACRYLIC ONE_PASS, 1, "before the first section");
    assert_refused("[format]\nkind = \"job\nversion = 1\n" ACRYLIC ONE_PASS, 2, "not closed");
}
END_TEST

START_TEST(one_fault_is_reported_once)
{
    assert_refused(HEAD "[part]\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n" ONE_PASS, 4,
                   "does not state material");
    assert_refused(HEAD ONE_PASS, 0, "no part");
    assert_refused(HEAD ACRYLIC "[pass.a]\ndepth = 1 mm\n", 9, "does not state its work");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = drill\n", 9, "names no tool");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nentry = sideways\n", 11,
                   "outside, plunge, ramp, helix");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nsetup = 1.5\n", 11, "a whole number");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\ncount = 1.5\n", 11, "a whole number");
    assert_refused(HEAD ACRYLIC "[stock]\nthinnest = 2.9 mm\n", 10, "both thinnest and thickest");
    assert_refused(HEAD ACRYLIC "[stock]\nthickest = 2.9 mm\n", 10, "both thinnest and thickest");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = pocket\ndepth = 290 mm\n", 11,
                   "deeper than the sheet, which is up to");
    assert_refused(HEAD ACRYLIC
                   "[stock]\nnominal = 3 mm\n[pass.a]\nwork = pocket\ndepth = 3.1 mm\n",
                   13, "deeper than the sheet");
    assert_refused(HEAD ACRYLIC "[stock]\nfaces = none\n[pass.a]\nwork = face\ntool = 3mm\n", 12,
                   "nothing is left to face on this side");
    assert_refused(HEAD ACRYLIC "thinnest = 2 mm\n[pass.a]\nwork = pocket\n", 11,
                   "the part is not thinner anywhere");
    assert_refused(HEAD ACRYLIC "[hold]\nmethod = tabs\ntabs = 50\ntab_width = 3 mm\n", 11,
                   "leave nothing to cut");
    assert_refused(HEAD ACRYLIC "[hold]\nmethod = tabs\ntab_width = 200 mm\n", 11,
                   "leave nothing to cut");
    assert_refused(HEAD ACRYLIC "[hold]\nmethod = vise\nclamp_force = 0 N\n", 11, "1 N");
    assert_refused(HEAD ACRYLIC "[fluids]\ncleaner = acetoen\n", 10, "did you mean acetone");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nspindle = 12000\n", 11, "rpm");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nfeed = 3mm\n", 11, "length");
    assert_refused(HEAD ACRYLIC
                   "[pass.a]\nwork = slot\ntool = 2mm\nspindle = 9000rpm\nfeed = 0.01mm/min\n",
                   13, "pass.a:feed: feed_rate of 0.01mm/min");
    assert_refused(HEAD ACRYLIC
                   "[pass.a]\nwork = slot\ntool = 2mm\nspindle = 300rpm\nfeed = 0.1um/tooth\n",
                   13, "pass.a:feed: feed_rate is");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\ntool = 0.01mm\n", 11,
                   "no end mill has this diameter");
    assert_refused(HEAD ACRYLIC "[hold]\nmethod = vise\nscrews = 4\n" ONE_PASS, 11,
                   "belongs to holding by screws");
    assert_refused(HEAD ACRYLIC "[hold]\nmethod = tape\njaw_depth = 1 mm\n" ONE_PASS, 11,
                   "belongs to holding by jaws");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nwidth = 3 mm\n", 11, "a slot has none");
    assert_refused(HEAD ACRYLIC
                   "[pass.a]\nwork = pocket\ntool = 20mm\nacross = 10 mm\ndepth = 1 mm\n" GIVEN,
                   12, "wider than the feature");
    assert_refused(
        HEAD ACRYLIC
        "[tools]\nat_hand = 6mm\n[pass.a]\nwork = slot\nacross = 3 mm\ndepth = 1 mm\n" GIVEN,
        13, "wider than the feature");
    assert_refused(HEAD ACRYLIC "[tools]\nat_hand = 2mm 90mm\n", 10,
                   "no end mill has this diameter");
    /* a through cut may end a little below the sheet */
    bite_job_free(plan(HEAD ACRYLIC "[stock]\nnominal = 3 mm\n" ONE_PASS "depth = 3.1 mm\n"));
}
END_TEST

/* Faults that only the engine finds are reported for every pass, each on its line. */
START_TEST(impossible_passes_are_all_reported)
{
    static const char text[] =
        HEAD ACRYLIC "[pass.a]\nwork = finish\ntool = 2mm\nwidth = 9 mm\n" GIVEN
                     "[pass.b]\nwork = slot\ntool = 2mm\n" GIVEN
                     "[pass.c]\nwork = finish\ntool = 1mm\nwidth = 8 mm\n" GIVEN;
    bite_error error = BITE_ERROR_INIT;
    fault_list *of = faults_of(text, sizeof text - 1, &error);
    ck_assert_uint_eq(of->count, 2);
    ck_assert_uint_eq(error.faults, 2);
    ck_assert_uint_eq(of->lines[0], 12);
    ck_assert_uint_eq(of->lines[1], 23); /* the line of the width */
    ck_assert_msg(strstr(of->texts[1], "pass.c") != NULL &&
                      strstr(of->texts[1], "larger than the tool") != NULL,
                  "%s", of->texts[1]);
}
END_TEST

/* Impossible sizes are faults of the file, each reported with its key. */
START_TEST(impossible_sizes_are_reported)
{
    static const struct {
        const char *pass;
        const char *key;
    } cases[] = {{"work = chamfer\ntool = 3mm\n", "pass.a:depth"},
                 {"work = pocket\ntool = 2mm\ndepth = 1 mm\nlength = 900 mm\n", "pass.a:length"},
                 {"work = bore\ntool = 2mm\nacross = 90 mm\n", "pass.a:across"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job_options options = job_options(BITE_DRAWS_NONE);
        bite_error error = BITE_ERROR_INIT;
        bite_job *job = NULL;
        char text[1000];
        (void)snprintf(text, sizeof text, HEAD ACRYLIC "[pass.a]\n%s", cases[i].pass);
        ck_assert_int_eq(bite_job_parse(job_library, "job.ini", text, strlen(text), &options, NULL,
                                        NULL, &job, &error),
                         BITE_BAD_FILE);
        ck_assert_str_eq(error.key, cases[i].key);
        ck_assert_uint_eq(error.faults, 1);
    }
}
END_TEST

START_TEST(files_that_are_not_jobs_are_refused)
{
    static const unsigned char elf[] = "\177ELF\002\001\001\000\000\000\377\376[part]\nlength = 3";
    bite_error error = BITE_ERROR_INIT;
    bite_job_options options = job_options(0);
    bite_job *job = NULL;
    (void)faults_of("", 0, &error);
    (void)faults_of("\n\n\n", 3, &error);
    (void)faults_of((const char *)elf, sizeof elf - 1, &error);
    (void)faults_of(
        HEAD
        "[part]\nlength = 1e300 mm\nwidth = 1e999999 m\nthickness = -1 mm\nmaterial = acrylic\n",
        87, &error);
    (void)faults_of("[format]\nkind = machines\nversion = 1\n", 37, &error);
    ck_assert_int_eq(
        bite_job_open(job_library, "/nonexistent/job.ini", &options, NULL, NULL, &job, &error),
        BITE_NOT_FOUND);
    ck_assert_int_eq(bite_job_open(job_library, job_shop.root, &options, NULL, NULL, &job, &error),
                     BITE_NOT_FOUND);
    ck_assert_int_eq(bite_job_open(job_library, "/dev/zero", &options, NULL, NULL, &job, &error),
                     BITE_NOT_FOUND);
    ck_assert_ptr_null(job);
}
END_TEST

START_TEST(bad_arguments_are_refused)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job_options options = job_options(0);
    bite_job *job = NULL;
    ck_assert_int_eq(bite_job_open(NULL, "x", &options, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_open(job_library, NULL, &options, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_open(job_library, "x", NULL, NULL, NULL, &job, &error),
                     BITE_NOT_FOUND); /* no options: the usual ones */
    ck_assert_int_eq(bite_job_open(job_library, "x", &options, NULL, NULL, NULL, &error),
                     BITE_BAD_ARGUMENT);
    options.confidence = (double)NAN;
    ck_assert_int_eq(bite_job_open(job_library, "x", &options, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    options.confidence = 0.95;
    options.struct_size = 3;
    ck_assert_int_eq(bite_job_open(job_library, "x", &options, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_ptr_null(job);
    ck_assert_int_eq(bite_job_verdict(NULL), BITE_NOT_JUDGED);
    ck_assert_int_eq(bite_job_time_add(NULL, 60.0, &error), BITE_BAD_ARGUMENT);
    bite_job_free(NULL);
    job = plan(HEAD ACRYLIC ONE_PASS);
    ck_assert_int_eq(bite_job_time_add(job, 0.0, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_time_add(job, (double)NAN, &error), BITE_BAD_ARGUMENT);
    bite_style style = {.struct_size = (uint32_t)sizeof style, .format = BITE_SVG};
    ck_assert_int_eq(bite_job_write(job, &style, keep_text, NULL, &error), BITE_BAD_ARGUMENT);
    bite_job_free(job);
}
END_TEST

START_TEST(too_many_passes_or_tools_are_refused)
{
    bite_error error = BITE_ERROR_INIT;
    growing_text passes = {NULL, 0, 0};
    append(&passes, HEAD ACRYLIC);
    for (int i = 0; i < BITE_PASSES_MAX + 50; i++) {
        append(&passes, "[pass.p%d]\nwork = slot\ntool = 2mm\n", i);
    }
    fault_list *of = faults_of(passes.text, passes.size, &error);
    ck_assert_uint_eq(of->count, 1);
    ck_assert_uint_eq(of->lines[0], 9 + 3 * BITE_PASSES_MAX);
    ck_assert_ptr_nonnull(strstr(of->texts[0], "the job has more than 1000 passes"));
    free(passes.text);
    growing_text tools = {NULL, 0, 0};
    append(&tools, HEAD ACRYLIC "[tools]\nat_hand =");
    for (int i = 0; i < 100; i++) {
        append(&tools, " %d.%dmm", 1 + i / 10, i % 10);
    }
    append(&tools, "\n");
    of = faults_of(tools.text, tools.size, &error);
    ck_assert_uint_eq(of->count, 1);
    ck_assert_uint_eq(of->lines[0], 10);
    ck_assert_ptr_nonnull(strstr(of->texts[0], "more tools than are supported"));
    free(tools.text);
}
END_TEST

START_TEST(control_characters_are_refused)
{
    static const char *const signs[] = {"\033[31m", "\a", "\x7f", "\302\23331m", "\xc2\x80"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        char text[600];
        (void)snprintf(text, sizeof text, HEAD "[job]\ntitle = red %s\n" ACRYLIC ONE_PASS,
                       signs[i]);
        assert_refused(text, 5, "control character");
    }
    bite_job_free(plan(HEAD "[job]\ntitle = \xc2\xa0gap\n" ACRYLIC
                           ONE_PASS)); /* a no-break space is not a control character */
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job file");
    TCase *tests = tcase_create("job file");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, cycles_of_passes_are_reported);
    tcase_add_test(tests, ten_faults_are_all_reported);
    tcase_add_test(tests, broken_lines_hide_no_other_fault);
    tcase_add_test(tests, one_fault_is_reported_once);
    tcase_add_test(tests, impossible_passes_are_all_reported);
    tcase_add_test(tests, impossible_sizes_are_reported);
    tcase_add_test(tests, files_that_are_not_jobs_are_refused);
    tcase_add_test(tests, bad_arguments_are_refused);
    tcase_add_test(tests, too_many_passes_or_tools_are_refused);
    tcase_add_test(tests, control_characters_are_refused);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
