/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A record that is begun from a job: what is measured on it, and what the head says. */
#include "core/inspection/measured.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define PART                                                                                       \
    "[job]\ntitle = Lens\ndrawing = HI-7\ncustomer = Halden\nshop = Corner Bench\nunits = inch\n"  \
    "[part]\nname = cover lens\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\n"          \
    "thickness = 2 mm\ncount = 12\n[hold]\nmethod = tape\n"                                        \
    "[pass.a]\ntitle = cut it out\nwork = cut-free\ntool = 2mm\nspindle = 9000rpm\n"               \
    "feed = 300mm/min\n"
#define CHECKS                                                                                     \
    "[check.width]\nwhat = width\nmeasures = outside\nnominal = 30 mm\ntolerance = 0.1 mm\n"       \
    "instrument = caliper\npass = a\nzone = B3\ndesignator = key\nevery = 4\n"                     \
    "[check.look]\nwhat = crazes\nmeasures = appearance\ninstrument = eye\n"

static char path[800];

static void setup(void)
{
    job_setup();
    (void)snprintf(path, sizeof path, "%s/lens.record", job_shop.root);
}

static bite_job *planned(const char *text, size_t draws)
{
    bite_job_options options = job_options(draws);
    return plan_with(text, &options);
}

static bite_record *begun(const bite_job *job, const char *const (*fields)[2], size_t count)
{
    bite_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_record_new(job, path, fields, count, &error) == BITE_OK, "%s: %s", error.key,
                  error.message);
    ck_assert_msg(bite_record_open(path, NULL, NULL, &record, &error) == BITE_OK, "%u: %s",
                  error.line, error.message);
    return record;
}

START_TEST(from_a_job)
{
    static const char *const fields[][2] = {{"part_number", "LC-7"}, {"customer", "another"}};
    bite_job *job = planned(HEAD PART CHECKS, 64);
    bite_record *record = begun(job, fields, 2);
    ck_assert_str_eq(bite_record_text(record, "job"), "Lens");
    ck_assert_str_eq(bite_record_text(record, "part_name"), "cover lens");
    ck_assert_str_eq(bite_record_text(record, "part_number"), "LC-7");
    ck_assert_str_eq(bite_record_text(record, "customer"), "another");
    ck_assert_str_eq(bite_record_text(record, "organization"), "Corner Bench");
    ck_assert_str_eq(bite_record_text(record, "drawing_number"), "HI-7");
    ck_assert_str_eq(bite_record_text(record, "material"), "acrylic/cast");
    ck_assert_str_eq(bite_record_text(record, "serial_number"), "");
    ck_assert_ptr_null(bite_record_text(record, "serial"));
    ck_assert_uint_eq(bite_record_units(record), BITE_INCH);
    ck_assert_double_eq(bite_record_parts(record), 12.0);
    const bite_characteristic *width = bite_record_characteristic(record, 0);
    const bite_planned_check *check = &job->checks[0];
    ck_assert_str_eq(width->what, "width");
    ck_assert_str_eq(width->zone, "B3");
    ck_assert_str_eq(width->designator, "key");
    ck_assert_uint_eq(width->measures, BITE_MEASURED_OUTSIDE);
    ck_assert_uint_eq(width->judged, 0);
    ck_assert_uint_eq(width->every, 4);
    ck_assert_double_eq_tol(width->lower, 29.9e-3, 1e-14);
    ck_assert_double_eq_tol(width->upper, 30.1e-3, 1e-14);
    ck_assert_str_eq(width->instrument, "caliper");
    bite_assert_near(width->uncertainty, check->uncertainty, 1e-4);
    bite_assert_near(width->resolution, 0.01e-3, 1e-4);
    bite_assert_near(width->expansion, 70e-6, 1e-3);
    ck_assert_double_gt(width->expansion_spread, 0.0);
    ck_assert_uint_eq(width->pass, check->pass + 1);
    ck_assert_str_eq(width->pass_title, "cut it out");
    ck_assert_uint_gt(strlen(width->tool), 0);
    bite_assert_near(width->wall_error_high, check->wall_error, 1e-4);
    ck_assert_double_lt(width->wall_error_low, width->wall_error);
    ck_assert_double_lt(width->wall_error, width->wall_error_high);
    const bite_characteristic *look = bite_record_characteristic(record, 1);
    ck_assert_uint_eq(look->judged, 1);
    ck_assert_double_nan(look->uncertainty);
    ck_assert_ptr_null(bite_record_characteristic(record, 2));
    bite_record_free(record);
    bite_job_free(job);
}
END_TEST

static void refuses(const bite_job *job, const char *to, const char *const (*fields)[2],
                    size_t count, bite_status status, const char *says)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_record_new(job, to, fields, count, &error), status);
    ck_assert_msg(strstr(error.message, says) != NULL, "%s", error.message);
}

START_TEST(refused)
{
    static const char *const unknown[][2] = {{"part_nummer", "LC-7"}};
    static const char *const quoted[][2] = {{"lot", "the \"new\" one"}};
    char none[900];
    struct stat about;
    bite_job *job = planned(HEAD PART CHECKS, BITE_DRAWS_NONE);
    refuses(job, path, unknown, 1, BITE_UNKNOWN_NAME, "part_nummer");
    refuses(job, path, quoted, 1, BITE_OUT_OF_RANGE, "cannot be in a record");
    refuses(job, NULL, NULL, 0, BITE_BAD_ARGUMENT, "");
    (void)snprintf(none, sizeof none, "%s/none/lens.record", job_shop.root);
    refuses(job, none, NULL, 0, BITE_CANNOT_WRITE, "");
    ck_assert_int_ne(stat(path, &about), 0);
    bite_test_write(path, "mine", 4);
    refuses(job, path, NULL, 0, BITE_CANNOT_WRITE, "already");
    bite_test_expect_file(path, "mine");
    bite_job_free(job);
}
END_TEST

/* Sizes that the job does not state: the default checks, in a record that can be read. */
START_TEST(default_checks)
{
    bite_job *job = planned(HEAD PART, BITE_DRAWS_NONE);
    bite_record *record = begun(job, NULL, 0);
    ck_assert_ptr_nonnull(bite_record_characteristic(record, job->check_count - 1));
    ck_assert_ptr_null(bite_record_characteristic(record, job->check_count));
    bite_record_free(record);
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("record_plan");
    TCase *tests = tcase_create("record_plan");
    tcase_add_checked_fixture(tests, setup, job_teardown);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, from_a_job);
    tcase_add_test(tests, refused);
    tcase_add_test(tests, default_checks);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
