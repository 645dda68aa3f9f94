/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fluids on materials: common practice. */
#include "core/job/remarks.h"
#include "tests/job/job_fixture.h"
#include <string.h>

/* Common practice, no source: cleaners that craze or dissolve acrylic; soapy water does not. */
START_TEST(cleaners_that_craze_acrylic_are_rejected)
{
    static const char *const bad[] = {"acetone",   "isopropanol",   "ipa",
                                      "degreaser", "glass-cleaner", "lacquer-thinner"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        bite_job *job = plan_of(HEAD ACRYLIC "[fluids]\ncleaner = %s\n" ONE_PASS, bad[i]);
        const bite_remark *remark = remark_of(job, "fluids", "NO: do not use");
        ck_assert_uint_eq(job->fluids[0].rating, BITE_RATED_NO);
        ck_assert_msg(remark != NULL && remark->severity == BITE_CARE && remark->source[0] != 0,
                      "%s", bad[i]);
        ck_assert_uint_eq(job->verdict, BITE_OVER);
        bite_job_free(job);
    }
    bite_job *job =
        plan(HEAD ACRYLIC
             "[fluids]\ncleaner = soapy-water\ncoolant_fluid = air\nmarking = pencil\n" ONE_PASS);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_uint_eq(job->fluids[i].rating, BITE_RATED_SAFE);
    }
    ck_assert_ptr_null(remark_of(job, "fluids", ""));
    bite_job_free(job);
}
END_TEST

static bite_job *cooled(const char *grade, const char *fluid)
{
    return plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 "
                        "mm\n[fluids]\ncoolant_fluid = "
                        "%s\n" ONE_PASS,
                   grade, fluid);
}

/* Common practice, no source: synthetic coolants and ester mist are a risk on stressed acrylic and
 * polycarbonate, harmless on metal. */
START_TEST(coolants_are_risky_on_plastics_not_on_metal)
{
    static const char *const plastics[] = {"acrylic/cast", "acrylic/extruded",
                                           "polycarbonate/sheet"};
    static const char *const fluids[] = {"full-synthetic", "mist-lubricant"};
    static const char *const all[] = {"full-synthetic", "mist-lubricant", "acetone", "isopropanol",
                                      "degreaser",      "glass-cleaner",  "naphtha", "soapy-water"};
    for (size_t i = 0; i < 3; i++) {
        for (size_t k = 0; k < 2; k++) {
            bite_job *job = cooled(plastics[i], fluids[k]);
            ck_assert(job->fluids[0].rating == BITE_RATED_RISK ||
                      job->fluids[0].rating == BITE_RATED_NO);
            ck_assert_ptr_nonnull(remark_of(job, "fluids", job->fluids[0].fluid->title));
            bite_job_free(job);
        }
    }
    for (size_t k = 0; k < sizeof all / sizeof *all; k++) {
        bite_job *job = cooled("aluminium/6061-T6", all[k]);
        ck_assert_msg(job->fluids[0].rating == BITE_RATED_SAFE, "%s on aluminium", all[k]);
        ck_assert_ptr_null(remark_of(job, "fluids", ""));
        bite_job_free(job);
    }
}
END_TEST

/* Common practice, no source: alcohol on a laser-cut edge crazes it; soapy water does not, nor
 * alcohol on an edge that was sawn. */
START_TEST(alcohol_crazes_laser_cut_edges)
{
    static const char *const cuts[] = {"laser", "saw"};
    static const char *const cleaners[] = {"isopropanol", "ethanol", "soapy-water"};
    for (size_t i = 0; i < 2; i++) {
        for (size_t k = 0; k < 3; k++) {
            bite_job *job =
                plan_of(HEAD ACRYLIC "[stock]\nparted_by = %s\n[fluids]\ncleaner = %s\n" ONE_PASS,
                        cuts[i], cleaners[k]);
            ck_assert((remark_of(job, "fluids", "laser-cut edge") != NULL) == (i == 0 && k < 2));
            bite_job_free(job);
        }
    }
}
END_TEST

/* A pass with mist cooling is a danger even if the job as a whole is cooled by air. */
START_TEST(mist_of_one_pass_is_a_danger)
{
    bite_job *job = plan(HEAD ACRYLIC "[fluids]\ncoolant = air\n" ONE_PASS);
    ck_assert_ptr_null(remark_of(job, "safety", "Cutting-fluid mist"));
    bite_job_free(job);
    job = plan(HEAD ACRYLIC "[fluids]\ncoolant = air\n" ONE_PASS "coolant = mist\n");
    ck_assert_ptr_nonnull(remark_of(job, "safety", "Cutting-fluid mist"));
    bite_job_free(job);
}
END_TEST

/* Common practice, no source: water and magnesium chips make hydrogen; what dissolves oil dissolves
 * wax. */
START_TEST(fluids_that_attack_magnesium_and_wax_are_rejected)
{
    static const char *const refused[][2] = {{"magnesium", "water"},
                                             {"magnesium", "emulsion"},
                                             {"wax", "naphtha"},
                                             {"wax", "mineral-oil"}};
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 "
                                     "mm\nthickness = 2 mm\n[fluids]\ncleaner = %s\n" ONE_PASS,
                                refused[i][0], refused[i][1]);
        ck_assert_uint_eq(job->fluids[0].rating, BITE_RATED_NO);
        ck_assert_uint_eq(job->verdict, BITE_OVER);
        bite_job_free(job);
    }
}
END_TEST

/* What nobody rated is said to be unknown, and comes last in the list for the bench. */
START_TEST(fluids_that_nobody_rated)
{
    job_own_table("fluids.ini", "[format]\nkind = fluids\nversion = 1\n[fluid.potion]\n"
                                "title = a potion\nsummary = of the shop's own\nuse = cleaner\n");
    bite_job *job =
        plan(HEAD ACRYLIC "[stock]\nparted_by = laser\n[fluids]\ncleaner = potion\n" ONE_PASS);
    ck_assert_uint_eq(job->fluids[0].rating, BITE_RATED_UNKNOWN);
    ck_assert_ptr_nonnull(remark_of(job, "fluids", "a potion"));
    ck_assert_ptr_null(remark_of(job, "fluids", "laser-cut edge"));
    ck_assert_uint_gt(job->bench_fluid_count, 2);
    for (size_t i = 1; i < job->bench_fluid_count; i++) {
        ck_assert(job->bench_fluids[i - 1].rating <= job->bench_fluids[i].rating);
    }
    ck_assert_uint_eq(job->bench_fluids[0].rating, BITE_RATED_SAFE);
    ck_assert_uint_eq(job->bench_fluids[job->bench_fluid_count - 1].rating, BITE_RATED_UNKNOWN);
    bite_job_free(job);
}
END_TEST

/* Mist or flood of what? On a plastic that some coolants attack the fluid has to be named; the
 * wettest pass counts. */
START_TEST(wet_coolants_are_named_on_plastics)
{
    static const struct {
        const char *grade;
        const char *coolant;
        const char *pass;
        const char *says; /* NULL: nothing is asked */
    } cases[] = {
        {"polycarbonate/sheet", "coolant = mist\n", "", "mist"},
        {"polycarbonate/sheet", "coolant = flood\n", "", "flood"},
        {"polycarbonate/sheet", "coolant = mist\n", "coolant = flood\n", "flood"},
        {"polycarbonate/sheet", "coolant = air\n", "", NULL},
        {"polycarbonate/sheet", "coolant = mist\ncoolant_fluid = soapy-water\n", "", NULL},
        {"aluminium/6061-T6", "coolant = flood\n", "", NULL},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const bite_remark *unnamed = NULL;
        bite_job *job =
            plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n"
                         "[fluids]\n%s" ONE_PASS "%s",
                    cases[i].grade, cases[i].coolant, cases[i].pass);
        for (size_t k = 0; k < job->remark_count; k++) {
            unnamed =
                job->remarks[k].id == BITE_REMARK_COOLANT_UNNAMED ? &job->remarks[k] : unnamed;
        }
        ck_assert_int_eq(unnamed != NULL, cases[i].says != NULL);
        if (unnamed != NULL) {
            ck_assert_str_eq(unnamed->values[0].text, cases[i].says);
            ck_assert_ptr_nonnull(strstr(unnamed->values[2].text, "soapy water"));
            ck_assert_ptr_nonnull(strstr(unnamed->values[3].text, "full-synthetic"));
        }
        bite_job_free(job);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("fluid plan");
    TCase *tests = tcase_create("fluid plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, cleaners_that_craze_acrylic_are_rejected);
    tcase_add_test(tests, coolants_are_risky_on_plastics_not_on_metal);
    tcase_add_test(tests, alcohol_crazes_laser_cut_edges);
    tcase_add_test(tests, mist_of_one_pass_is_a_danger);
    tcase_add_test(tests, fluids_that_attack_magnesium_and_wax_are_rejected);
    tcase_add_test(tests, fluids_that_nobody_rated);
    tcase_add_test(tests, wet_coolants_are_named_on_plastics);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
