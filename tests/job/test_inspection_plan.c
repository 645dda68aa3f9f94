/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job inspects: limits, instruments, what they prove and how often. */
#include "core/job/job_file_schema.h"
#include "core/job/plan.h"
#include "core/job/remarks.h"
#include "tests/job/job_fixture.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define MM 1e-3

static const char head[] = "[format]\nkind = job\nversion = 1\n[part]\nmaterial = acrylic/cast\n"
                           "length = 60 mm\nwidth = 24 mm\nthickness = 2 mm\ncount = 8\n";
static const char tail[] = "[hold]\nmethod = tape\n[pass.free]\nwork = cut-free\ntool = 2mm\n"
                           "spindle = 12000rpm\nfeed = 600mm/min\n";

/* Plans the job with a line in its part and with these checks. */
static bite_job *inspected(const char *part, const char *checks)
{
    return plan_of("%s%s\n%s%s", head, part, tail, checks);
}

static int has_remark(const bite_job *job, bite_remark_id id)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        if (job->remarks[i].id == (uint32_t)id) {
            return 1;
        }
    }
    return 0;
}

START_TEST(a_job_that_lists_nothing_measures_its_sizes)
{
    bite_job *job = inspected("thinnest = 1 mm\ntolerance = 0.05 mm\nflatness = 0.2 mm", "");
    static const double nominal[] = {2.0, 1.0, 60.0, 24.0, 0.0};
    ck_assert_uint_eq(job->check_count, 5);
    for (size_t i = 0; i < 5; i++) {
        const bite_planned_check *check = &job->checks[i];
        ck_assert_uint_eq(check->number, i + 1);
        ck_assert_double_eq_tol(check->nominal, nominal[i] * MM, 1e-12);
        ck_assert_ptr_nonnull(check->instrument);
        ck_assert_uint_eq(check->chosen, 1);
    }
    ck_assert_double_eq_tol(job->checks[0].lower, 1.95 * MM, 1e-12);
    ck_assert_double_eq_tol(job->checks[4].upper, 0.2 * MM, 1e-12);
    ck_assert(isnan(job->checks[4].lower));
    ck_assert_str_eq(job->checks[0].instrument->name, "micrometer");
    bite_job_free(job);
}
END_TEST

START_TEST(limits_come_from_the_nearest_statement)
{
    bite_job *job = inspected(
        "class = 2768-f", "[check.a]\nmeasures = outside\nnominal = 60 mm\n"
                          "[check.b]\nmeasures = outside\nnominal = 24 mm\ntolerance = 0.03 mm\n"
                          "[check.c]\nmeasures = inside\nnominal = 4 mm\nclass = H9\n"
                          "[check.d]\nmeasures = inside\nlower = 3.9 mm\nupper = 4.2 mm\n"
                          "[check.e]\nmeasures = thickness\nlower = 1.8 mm\n"
                          "[check.f]\nwhat = crazes\nmeasures = appearance\n");
    const bite_planned_check *checks = job->checks;
    ck_assert_uint_eq(job->check_count, 6);
    ck_assert_str_eq(checks[0].limits_from, "ISO 2768-1 f");
    ck_assert_double_eq_tol(checks[0].lower, 59.85 * MM, 1e-12);
    ck_assert_double_eq_tol(checks[0].tolerance, 0.15 * MM, 1e-12);
    ck_assert_str_eq(checks[1].limits_from, "stated");
    ck_assert_double_eq_tol(checks[1].upper, 24.03 * MM, 1e-12);
    ck_assert_double_eq_tol(checks[2].lower, 4.0 * MM, 1e-12);
    ck_assert_double_eq_tol(checks[2].upper, 4.03 * MM, 1e-12);
    ck_assert(isnan(checks[2].tolerance)); /* the two sides are unlike */
    ck_assert_double_eq_tol(checks[3].upper, 4.2 * MM, 1e-12);
    ck_assert(isnan(checks[4].upper));
    ck_assert_double_eq_tol(checks[4].lower, 1.8 * MM, 1e-12);
    ck_assert_str_eq(checks[5].instrument->name, "eye");
    ck_assert(isnan(checks[5].uncertainty));
    bite_job_free(job);
}
END_TEST

/* The part's tolerance goes before its class, and the ratio decides the instrument. */
START_TEST(an_instrument_that_can_prove_the_size)
{
    bite_job *job =
        inspected("tolerance = 0.2 mm",
                  "[check.wide]\nmeasures = outside\nnominal = 60 mm\ntolerance = 0.2 mm\n"
                  "[check.fine]\nmeasures = outside\nnominal = 20 mm\ntolerance = 0.02 mm\n"
                  "[check.finer]\nmeasures = thickness\nnominal = 2 mm\ntolerance = 1 um\n"
                  "instrument = micrometer\n"
                  "[check.near]\nmeasures = thickness\nnominal = 2 mm\ntolerance = 8 um\n"
                  "instrument = micrometer\n");
    const bite_planned_check *checks = job->checks;
    ck_assert_str_eq(checks[0].instrument->name, "caliper");
    ck_assert_double_eq_tol(checks[0].ratio, 0.4 * MM / (4.0 * checks[0].uncertainty), 1e-9);
    ck_assert(checks[0].ratio > 4.0);
    ck_assert_str_ne(checks[1].instrument->name, "caliper");
    ck_assert(checks[2].ratio < 1.0);
    ck_assert(has_remark(job, BITE_REMARK_GAUGE_CANNOT));
    ck_assert(checks[3].ratio > 1.0 && checks[3].ratio < 4.0);
    ck_assert(has_remark(job, BITE_REMARK_GAUGE_RATIO));
    bite_job_free(job);
}
END_TEST

/* A dial indicator on a thin free strip bends it; a ball with much force leaves a dent; a caliper
 * buckles a thin plate; and a long plastic part grows with the room. */
START_TEST(the_force_of_an_instrument_on_a_thin_part)
{
    bite_job *job =
        inspected("thinnest = 0.3 mm",
                  "[check.flat]\nmeasures = flatness\ntolerance = 0.1 mm\n"
                  "instrument = dial-indicator\n"
                  "[check.long]\nmeasures = outside\nnominal = 60 mm\ntolerance = 0.03 mm\n"
                  "instrument = caliper\n");
    const bite_planned_check *flat = &job->checks[0];
    /* F L^3/(4 E b h^3) with the thinnest section */
    double modulus = bite_item_field(&job->grade->record, "modulus")->value;
    double bend = 1.0 * 0.06 * 0.06 * 0.06 / (4.0 * modulus * 0.024 * pow(0.3 * MM, 3.0));
    ck_assert_double_eq_tol(flat->effect.bend, bend, 1e-6 * bend);
    ck_assert(flat->pressed > flat->effect.bend);
    ck_assert(has_remark(job, BITE_REMARK_GAUGE_PRESSES));
    ck_assert(job->checks[1].effect.buckling_force < 5.0);
    ck_assert(has_remark(job, BITE_REMARK_GAUGE_BUCKLES));
    ck_assert(has_remark(job, BITE_REMARK_GAUGE_WARMTH)); /* 5 K x 70 um/m/K x 60 mm = 21 um */
    ck_assert_double_eq_tol(job->checks[1].warmth, 60.0 * MM * 70e-6, 1e-9);
    bite_job_free(job);
}
END_TEST

START_TEST(the_wall_error_of_a_pass_decides_how_often)
{
    bite_job *job =
        inspected("", "[check.a]\nmeasures = outside\nnominal = 24 mm\ntolerance = 1 um\n"
                      "pass = free\n"
                      "[check.b]\nmeasures = outside\nnominal = 24 mm\ntolerance = 5 mm\n"
                      "pass = free\n"
                      "[check.c]\nmeasures = outside\nnominal = 24 mm\ntolerance = 1 um\n"
                      "pass = free\nevery = 3\n");
    ck_assert(job->checks[0].wall_error > 0.0);
    ck_assert_uint_eq(job->checks[0].every, 1);
    ck_assert_uint_eq(job->checks[1].every, 8); /* the first and the last */
    ck_assert_uint_eq(job->checks[2].every, 3);
    ck_assert_str_eq(job->checks[2].reason, "stated");
    bite_job_free(job);
}
END_TEST

static const struct {
    const char *check;
    const char *key;
    const char *says;
} faults[] = {
    {"nominal = 2 mm\ntolerance = 0.1 mm\nclass = 2768-m\n", "class", "more than once"},
    {"nominal = 2 mm\ntolerance = 0.1 mm\nupper = 2.1 mm\n", "tolerance", "more than once"},
    {"lower = 3 mm\nupper = 2 mm\n", "lower", "above the upper"},
    {"nominal = 5 mm\nlower = 1 mm\nupper = 2 mm\n", "nominal", "outside its limits"},
    {"class = 2768-m\n", "class", "none is stated"},
    {"nominal = 2 mm\nclass = H99\n", "class", "no tolerance class H99"},
    {"nominal = 0.1 mm\nclass = 2768-m\n", "class", "has no tolerance for a size"},
    {"instrument = laser-tape\n", "instrument", "no instrument named laser-tape"},
    {"pass = nowhere\n", "pass", "no such pass"},
    {"every = 2.5\n", "every", "whole number"},
};

START_TEST(faults_of_checks_are_named)
{
    char text[2000];
    bite_error error = BITE_ERROR_INIT;
    int size = snprintf(text, sizeof text, "%s%s[check.x]\n%s", head, tail, faults[_i].check);
    const fault_list *list = faults_of(text, (size_t)size, &error);
    ck_assert_uint_eq(list->count, 1);
    ck_assert_msg(strstr(list->texts[0], faults[_i].says) != NULL, "%s", list->texts[0]);
    ck_assert_str_eq(error.key + strlen(error.key) - strlen(faults[_i].key), faults[_i].key);
}
END_TEST

/* An instrument is named by its name or in the words of the tables; other words stay as they are,
 * and prove nothing. */
START_TEST(instruments_in_words)
{
    static const struct {
        const char *key;
        const char *instrument; /* NULL: not known */
        const char *with;
    } cases[] = {
        {"with = \"micrometer, flat faces\"\n", "micrometer", "micrometer, flat faces"},
        {"with = micrometer\n", "micrometer", "micrometer"},
        {"with = \"thumb and eye\"\n", NULL, "thumb and eye"},
        {"instrument = micrometer\n", "micrometer", "micrometer, flat faces"},
        {"instrument = micrometer\nwith = \"the old micrometer\"\n", "micrometer",
         "the old micrometer"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char check[300];
        (void)snprintf(check, sizeof check,
                       "[check.a]\nmeasures = outside\nnominal = 20 mm\ntolerance = 0.1 mm\n%s",
                       cases[i].key);
        bite_job *job = inspected("", check);
        const bite_planned_check *planned = &job->checks[0];
        ck_assert_int_eq(planned->instrument != NULL, cases[i].instrument != NULL);
        ck_assert(planned->instrument == NULL ||
                  strcmp(planned->instrument->name, cases[i].instrument) == 0);
        ck_assert_str_eq(planned->with, cases[i].with);
        ck_assert_uint_eq(planned->chosen, 0);
        bite_job_free(job);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("inspection plan");
    TCase *tests = tcase_create("inspection plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_set_timeout(tests, 240);
    tcase_add_test(tests, a_job_that_lists_nothing_measures_its_sizes);
    tcase_add_test(tests, limits_come_from_the_nearest_statement);
    tcase_add_test(tests, an_instrument_that_can_prove_the_size);
    tcase_add_test(tests, the_force_of_an_instrument_on_a_thin_part);
    tcase_add_test(tests, the_wall_error_of_a_pass_decides_how_often);
    tcase_add_test(tests, instruments_in_words);
    tcase_add_loop_test(tests, faults_of_checks_are_named, 0,
                        (int)(sizeof faults / sizeof *faults));
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
