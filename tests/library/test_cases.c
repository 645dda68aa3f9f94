/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Self-tests in tables of materials: those of the project's tables are met, and what is not met is
 * told with its place. */
#include "tests/library/private_library.h"
#include <stdio.h>
#include <string.h>

#define HEAD                                                                                       \
    "[format]\nkind = material\nversion = 1\n[grade.a]\nlike = acrylic/cast\n[case.one]\ntool = "  \
    "3mm\nspindle_speed = 12000rpm\nfeed_rate = 600 mm/min\ndepth = 1mm\n"
#define SOURCE "source = memory\n" /* line 11 */

static int told;
static bite_error last;

static void tell(void *user, const bite_error *fault)
{
    (void)user;
    last = *fault;
    told++;
}

static bite_status check(const bite_library *library, const char *family, size_t *cases)
{
    bite_error error = BITE_ERROR_INIT;
    told = 0;
    bite_status status = bite_library_check_family(library, family, tell, NULL, cases, &error);
    ck_assert_uint_eq(status == BITE_BAD_FILE ? error.faults : 0, (unsigned)told);
    return status;
}

START_TEST(the_projects_cases_are_met)
{
    static const struct {
        const char *family;
        size_t least;
    } families_with[] = {{"acrylic", 2}, {"polycarbonate", 1}, {"aluminium", 3}};
    bite_library *library = open_private_library(NULL);
    for (size_t i = 0; i < sizeof families_with / sizeof *families_with; i++) {
        size_t cases = 0;
        bite_status status = check(library, families_with[i].family, &cases);
        ck_assert_msg(status == BITE_OK, "%s:%u: %s: %s", last.file, last.line, last.key,
                      last.message);
        ck_assert_uint_ge(cases, families_with[i].least);
    }
    bite_library_close(library);
}
END_TEST

START_TEST(what_is_not_met_is_told)
{
    static const struct {
        const char *text;
        int faults;
        uint32_t line; /* of the last */
        const char *says;
    } cases[] = {
        {SOURCE "expect.verdict = clear\n", 0, 0, ""},
        {SOURCE "expect.verdict = over\n", 1, 12, "the verdict is clear; over was expected"},
        {SOURCE "expect.chip_load = 25um/tooth\nwithin = 1 %\n", 0, 0, ""},
        {SOURCE "expect.chip_load = 26um/tooth\nwithin = 1 %\n", 1, 12, "25.74 um/tooth to 26.26"},
        {SOURCE "expect.chip_load = 24um/tooth\nwithin = 1 %\n", 1, 12,
         "chip_load is 25 um/tooth; 23.76 um/tooth to 24.24 um/tooth was expected"},
        {SOURCE "expect.tool_life = 30min (20min .. 40min)\n", 1, 12,
         "tool_life is not known; 20 min to 40 min was expected"},
        {SOURCE "expect.chip_load = 26um/tooth (24um/tooth .. 27um/tooth)\n", 0, 0, ""},
        {SOURCE "expect.chip_load = 30um/tooth (29um/tooth .. 31um/tooth)\nexpect.verdict = over\n",
         2, 13, "over"},
        {SOURCE "expect.chip_packing.utilization = 9 (8 .. 10)\n", 1, 12, "was expected"},
        {SOURCE "expect.verdict = clear\ngrade = b\n", 1, 13, "no grade named b"},
        {SOURCE "expect.verdict = clear\nmachine = moon\n", 1, 13, "no machine named moon"},
        {SOURCE "expect.verdict = clear\nwidth = 5mm\n", 1, 6, ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[900];
        size_t count = 0;
        (void)snprintf(text, sizeof text, HEAD "%s", cases[i].text);
        write_table("materials/toy.ini", text);
        bite_library *library = open_private_library(NULL);
        bite_status status = check(library, "toy", &count);
        ck_assert_msg(told == cases[i].faults &&
                          status == (cases[i].faults == 0 ? BITE_OK : BITE_BAD_FILE),
                      "case %zu: %d faults: %s", i, told, told == 0 ? "" : last.message);
        ck_assert_uint_eq(count, 1);
        ck_assert_msg(told == 0 || (last.line == cases[i].line &&
                                    strstr(last.message, cases[i].says) != NULL &&
                                    strncmp(last.key, "case.one", 8) == 0),
                      "case %zu: line %u: %s: %s", i, last.line, last.key, last.message);
        bite_library_close(library);
    }
}
END_TEST

START_TEST(a_case_is_checked_when_read)
{
    static const struct {
        const char *text;
        const char *says;
    } cases[] = {
        {"expect.verdict = clear\n", "source"},
        {SOURCE, "expects nothing"},
        {SOURCE "expect.chip_load = 26um/tooth\n", "no tolerance"},
        {SOURCE "expect.verdict = fine\n", "clear, tight"},
        {SOURCE "expect.chip_laod = 26um/tooth (25um/tooth .. 27um/tooth)\n",
         "did you mean expect.chip_load?"},
        {SOURCE "expect.chip_load = 26 MPa (25 .. 27)\n", "a feed per tooth"},
        {SOURCE "expect.verdict = clear\nspindel = 3mm\n", "no key spindel"},
        {SOURCE "expect.verdict = clear\ncoolant = lava\n", "flood"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[900];
        size_t count = 0;
        bite_error error = BITE_ERROR_INIT;
        (void)snprintf(text, sizeof text, HEAD "%s", cases[i].text);
        write_table("materials/toy.ini", text);
        bite_library *library = open_private_library(NULL);
        ck_assert_int_eq(bite_library_check_family(library, "toy", NULL, NULL, &count, &error),
                         BITE_BAD_FILE);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL ||
                          strstr(error.hint, cases[i].says) != NULL,
                      "case %zu: %s (%s)", i, error.message, error.hint);
        ck_assert_uint_ge(error.line, 6);
        bite_library_close(library);
    }
}
END_TEST

START_TEST(wrong_arguments_are_refused)
{
    bite_library *library = open_private_library(NULL);
    size_t cases = 7;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_check_family(NULL, "acrylic", NULL, NULL, &cases, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_check_family(library, NULL, NULL, NULL, &cases, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_check_family(library, "acrylic", NULL, NULL, NULL, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_check_family(library, "acrylik", NULL, NULL, &cases, &error),
                     BITE_UNKNOWN_NAME);
    ck_assert_uint_eq(cases, 7);
    ck_assert_int_eq(bite_library_check_family(library, "wood", NULL, NULL, &cases, NULL), BITE_OK);
    ck_assert_uint_eq(cases, 0);
    bite_library_close(library);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cases");
    TCase *tests = tcase_create("cases");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, the_projects_cases_are_met);
    tcase_add_test(tests, what_is_not_met_is_told);
    tcase_add_test(tests, a_case_is_checked_when_read);
    tcase_add_test(tests, wrong_arguments_are_refused);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
