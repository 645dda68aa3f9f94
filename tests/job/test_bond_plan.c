/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tape, glue and vacuum: their strength, what releases them, and where cuts end. */
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

/* Drills come first and have little side force: the later passes count too. */
START_TEST(workholding_is_judged_by_all_passes)
{
    bite_job *job =
        plan(HEAD ACRYLIC
             "[hold]\nmethod = tape\narea = 20 mm2\n[pass.a]\nwork = drill\ntool = 2mm\n" GIVEN
             "[pass.b]\nwork = cut-free\ntool = 2mm\n" GIVEN);
    double most = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        most = fmax(most, job->passes[i].hold_utilization);
    }
    ck_assert(most > 1.0);
    ck_assert_double_eq(job->hold.utilization, most);
    ck_assert_ptr_nonnull(remark_of(job, "hold", "may fail"));
    ck_assert_uint_eq(job->verdict, BITE_OVER);
    bite_job_free(job);
}
END_TEST

/* Common practice, no source: glue that comes off with acetone is not for acrylic and
 * polycarbonate; between two tapes it is. */
START_TEST(bonds_released_by_solvent_are_rejected_on_plastics)
{
    static const char *const grades[] = {"acrylic/cast", "polycarbonate/sheet",
                                         "aluminium/6061-T6"};
    static const char *const holds[] = {"glue", "tape-glue"};
    for (size_t i = 0; i < 3; i++) {
        for (size_t k = 0; k < 2; k++) {
            bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 "
                                         "mm\nthickness = 2 mm\n[hold]\nmethod = "
                                         "%s\n" ONE_PASS,
                                    grades[i], holds[k]);
            uint32_t expected = i < 2 && k == 0;
            ck_assert_uint_eq(job->hold.refused, expected);
            ck_assert(!expected || job->verdict == BITE_OVER);
            ck_assert((remark_of(job, "hold", "acetone, which attacks") != NULL) ==
                      (expected != 0));
            /* acetone is flammable, although it is part of the workholding and not one of the
             * fluids; but nobody is warned of what must not be used anyway */
            ck_assert((remark_of(job, "safety", "acetone is flammable") != NULL) ==
                      (k == 0 && expected == 0));
            ck_assert((strstr(job->hold.release[0], "NO, not on") != NULL) == (expected != 0));
            ck_assert_ptr_nonnull(remark_of(job, "safety", "Cyanoacrylate"));
            ck_assert(k == 0 || job->hold.weakest == 0);
            bite_job_free(job);
        }
    }
}
END_TEST

/* Common practice, no source: water on magnesium chips releases hydrogen: no step asks for it
 * without a mark, and on plastics nothing is marked. */
START_TEST(steps_with_a_refused_fluid_are_marked)
{
    static const char *const grades[] = {"magnesium", "acrylic/cast"};
    for (size_t i = 0; i < 2; i++) {
        bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 "
                                     "mm\nthickness = 2 mm\n[hold]\nmethod = tape\n" ONE_PASS,
                                grades[i]);
        ck_assert_int_eq(strstr(job->hold.mounting[0], "NO, not on magnesium") != NULL, i == 0);
        ck_assert_ptr_nonnull(strstr(job->hold.mounting[0], "soapy water"));
        ck_assert_ptr_null(strstr(job->hold.mounting[1], "NO, not on"));
        bite_job_free(job);
    }
}
END_TEST

/* Common practice, no source: film winds around the cutter, and so does tape of film; paper tape
 * does not. */
START_TEST(film_winds_around_the_cutter_paper_tape_does_not)
{
    static const char own[] =
        "[format]\nkind = holds\nversion = 1\n[hold.film-glue]\ntitle = film tapes\nsort = "
        "bond\nlayers = "
        "film-tape cyanoacrylate film-tape\nglued = yes\n";
    char path[700];
    (void)snprintf(path, sizeof path, "%s/own", job_shop.root);
    ck_assert_int_eq(mkdir(path, 0755), 0);
    (void)snprintf(path, sizeof path, "%s/own/workholding.ini", job_shop.root);
    bite_test_write(path, own, strlen(own));
    char both[1300];
    (void)snprintf(both, sizeof both, "%s/own:%s", job_shop.root, job_shop.tables);
    bite_library_options options = {sizeof options, NULL, job_shop.families, both};
    bite_library_close(job_library);
    ck_assert_int_eq(bite_library_open(&options, &job_library, NULL), BITE_OK);
    bite_job *film = plan(HEAD ACRYLIC "[stock]\nfilm = on\n[hold]\nmethod = film-glue\n" ONE_PASS);
    bite_job *paper =
        plan(HEAD ACRYLIC "[stock]\nfilm = off\n[hold]\nmethod = tape-glue\n" ONE_PASS);
    ck_assert_ptr_nonnull(remark_of(film, "hold", "winds around the cutter"));
    ck_assert_ptr_null(remark_of(paper, "hold", "winds around the cutter"));
    ck_assert_ptr_nonnull(remark_of(film, "stock", "protective film is on"));
    ck_assert_ptr_null(remark_of(paper, "stock", "protective film is on"));
    bite_job_free(film);
    bite_job_free(paper);
}
END_TEST

/* Common practice, no source: a through cut ends inside the tape, not in the skin above it and not
 * in the fixture. */
START_TEST(through_cuts_end_in_the_tape)
{
    static const char *const holds[] = {"tape", "tape-glue"};
    for (size_t i = 0; i < 2; i++) {
        bite_job *job = plan_of(HEAD ACRYLIC "[hold]\nmethod = %s\n" ONE_PASS, holds[i]);
        ck_assert(job->hold.break_through > 0.0 && job->hold.break_through < job->hold.tape);
        ck_assert_ptr_null(remark_of(job, "hold", "cuts through the tape into"));
        bite_job_free(job);
        job = plan_of(HEAD ACRYLIC "[hold]\nmethod = %s\nbreak_through = 0.3 mm\n" ONE_PASS,
                      holds[i]);
        ck_assert_ptr_nonnull(remark_of(job, "hold", "cuts through the tape into"));
        bite_job_free(job);
    }
    bite_job *job = plan(HEAD ACRYLIC "[hold]\nmethod = vacuum\n" ONE_PASS);
    ck_assert(isnan(job->hold.tape));
    ck_assert_ptr_nonnull(remark_of(job, "hold", "needs a board"));
    bite_job_free(job);
}
END_TEST

/* Friction matters to a vacuum plate, stickiness does not; holes for screws come first. */
START_TEST(vacuum_ignores_adhesion_and_screw_holes_come_first)
{
    bite_job *nylon = plan(HEAD "[part]\nmaterial = nylon/6\nlength = 40 mm\nwidth = 30 "
                                "mm\nthickness = 2 mm\n[hold]\nmethod = vacuum\n" ONE_PASS);
    bite_job *ptfe = plan(HEAD "[part]\nmaterial = ptfe\nlength = 40 mm\nwidth = 30 mm\nthickness "
                               "= 2 mm\n[hold]\nmethod = vacuum\n" ONE_PASS);
    bite_job *screws =
        plan(HEAD ACRYLIC
             "[hold]\nmethod = screws\n[pass.a]\nwork = pocket\ntool = 2mm\ndepth = 1 mm\n" GIVEN
             "[pass.b]\nwork = drill\ntool = 3mm\n" GIVEN);
    ck_assert_double_eq(nylon->hold.shear, ptfe->hold.shear);
    ck_assert_uint_eq(screws->passes[0].work, BITE_WORK_DRILL);
    bite_job_free(nylon);
    bite_job_free(ptfe);
    bite_job_free(screws);
}
END_TEST

/* The same part on the same hold, cut by the same pass: one use, whether it is a cut or a job. */
START_TEST(cut_and_job_hold_alike)
{
    static const char *const holds[] = {"tape", "tape-glue", "vacuum"};
    for (size_t i = 0; i < sizeof holds / sizeof *holds; i++) {
        bite_job *job = plan_of(HEAD ACRYLIC "[hold]\nmethod = %s\n" ONE_PASS, holds[i]);
        const bite_planned_pass *pass = &job->passes[0];
        const bite_cut *planned = &pass->answer->full;
        const bite_result *result = &pass->answer->result;
        bite_request *request = NULL;
        bite_answer *answer = NULL;
        const struct {
            const char *input;
            double value;
        } typed[] = {{"spindle_speed", planned->spindle_speed},
                     {"feed_rate", planned->feed_rate},
                     {"depth", planned->depth},
                     {"feature_depth", planned->feature_depth},
                     {"floor_thickness", planned->floor_thickness},
                     {"bond_area", job->length * job->width},
                     {"bond_width", job->width},
                     {"load_time", planned->load_time}};
        ck_assert_int_eq(bite_request_new(job_library, &request, NULL), BITE_OK);
        ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, job->tools[pass->tool].name, NULL),
                         BITE_OK);
        ck_assert_int_eq(bite_request_use(request, BITE_HOLDS, holds[i], NULL), BITE_OK);
        for (size_t k = 0; k < sizeof typed / sizeof *typed; k++) {
            ck_assert_int_eq(bite_request_set_number(request, typed[k].input, typed[k].value, NULL),
                             BITE_OK);
        }
        ck_assert_int_eq(bite_answer_new(request, 512, 0.95, &answer, NULL), BITE_OK);
        ck_assert_double_gt(job->hold.utilization, 0.0);
        bite_assert_near(answer->result.limits[BITE_LIMIT_HOLD].utilization,
                         result->limits[BITE_LIMIT_HOLD].utilization, 1e-9);
        ck_assert_double_eq(job->hold.utilization, pass->hold_utilization);
        ck_assert_double_eq(pass->hold_utilization, result->limits[BITE_LIMIT_HOLD].utilization);
        bite_answer_free(answer);
        bite_request_free(request);
        bite_job_free(job);
    }
}
END_TEST

/* The weakest layer gives strength, creep and warmth; all layers give way, the glue between two
 * tapes hardly: two tapes of 0.14 mm, and 0.03 mm that is a thousand times as stiff. */
START_TEST(weakest_layer_counts)
{
    bite_job *job = plan_of(HEAD ACRYLIC "[hold]\nmethod = %s\n" ONE_PASS, "tape-glue");
    const bite_cut *full = &job->passes[0].answer->full;
    bite_assert_near(full->bond_shear, 0.12e6, 1e-12);
    bite_assert_near(full->bond_pull, 0.12e6, 1e-12);
    bite_assert_near(full->bond_exponent, 0.2, 1e-12);
    bite_assert_near(full->bond_halving, 20.0, 1e-12);
    bite_assert_near(full->bond_modulus, 1e6, 1e-12);
    bite_assert_near(full->bond_thickness, 0.28003e-3, 1e-9);
    bite_assert_near(full->bond_limit, 333.15, 1e-12);
    bite_job_free(job);
    job = plan_of(HEAD ACRYLIC "[hold]\nmethod = %s\n" ONE_PASS, "vacuum");
    full = &job->passes[0].answer->full;
    ck_assert(isnan(full->bond_exponent) && isnan(full->bond_halving) && isnan(full->bond_modulus));
    bite_job_free(job);
}
END_TEST

/* Two passes on one bond: the second is judged after the time of both. Acetal keeps 0.7 of the
 * strength. */
START_TEST(time_on_the_bond_adds_up)
{
    bite_job *job =
        plan(HEAD ACRYLIC "[hold]\nmethod = tape\n[pass.a]\nwork = pocket\ntool = 2mm\ndepth = 1 "
                          "mm\n" GIVEN "[pass.b]\nwork = cut-free\ntool = 2mm\n" GIVEN);
    double first = job->passes[0].answer->full.load_time;
    double second = job->passes[1].answer->full.load_time;
    ck_assert_double_gt(first, 1.0);
    ck_assert_double_gt(second, first);
    bite_assert_near(second, job->time.cutting, 1e-6);
    bite_job_free(job);
    bite_job *acetal = plan(HEAD "[part]\nmaterial = acetal\nlength = 40 mm\nwidth = 30 "
                                 "mm\nthickness = 2 mm\n[hold]\nmethod = tape\n" ONE_PASS);
    bite_assert_near(acetal->passes[0].answer->full.bond_adhesion, 0.7, 1e-12);
    ck_assert_ptr_nonnull(remark_of(acetal, "hold", "adhere poorly"));
    bite_job_free(acetal);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("bond plan");
    TCase *tests = tcase_create("bond plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, workholding_is_judged_by_all_passes);
    tcase_add_test(tests, bonds_released_by_solvent_are_rejected_on_plastics);
    tcase_add_test(tests, steps_with_a_refused_fluid_are_marked);
    tcase_add_test(tests, film_winds_around_the_cutter_paper_tape_does_not);
    tcase_add_test(tests, through_cuts_end_in_the_tape);
    tcase_add_test(tests, vacuum_ignores_adhesion_and_screw_holes_come_first);
    tcase_add_test(tests, cut_and_job_hold_alike);
    tcase_add_test(tests, weakest_layer_counts);
    tcase_add_test(tests, time_on_the_bond_adds_up);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
