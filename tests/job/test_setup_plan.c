/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The setups of a job: their holds, sides and data, and what is left of the face below. */
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define PLATE "[part]\nmaterial = aluminium/6061-T6\nlength = 80 mm\nwidth = 50 mm\n"
#define FLAT PLATE "thickness = 10 mm\n[stock]\nthinnest = 10 mm\nthickest = 10 mm\nfaces = none\n"
#define POCKET "work = pocket\ntool = 6mm\nlength = 40 mm\nacross = 30 mm\ndepth = 6 mm\n" GIVEN
#define OUTLINE "[pass.z]\nwork = cut-free\ntool = 6mm\n" GIVEN

/* A setup without a method has the hold of [hold], and may change single keys of it. */
START_TEST(every_setup_has_its_own_hold)
{
    bite_job *job = plan(HEAD FLAT "[hold]\nmethod = vise\nclamp_force = 4 kN\njaw_depth = 5 mm\n"
                                   "[setup.2]\nclamp_force = 2 kN\n"
                                   "[setup.3]\nmethod = screws\ntorque = 0.8 Nm\nscrews = 3\n"
                                   "[pass.a]\n" POCKET "[pass.b]\nsetup = 2\n" POCKET
                                   "[pass.c]\nsetup = 3\n" POCKET);
    ck_assert_uint_eq(job->setups, 3);
    ck_assert_str_eq(job->setup_plan[0].hold.hold->name, "vise");
    ck_assert_str_eq(job->setup_plan[1].hold.hold->name, "vise");
    ck_assert_str_eq(job->setup_plan[2].hold.hold->name, "screws");
    ck_assert_double_eq(job->setup_plan[0].hold.force, 4000.0);
    ck_assert_double_eq(job->setup_plan[1].hold.force, 2000.0);
    bite_assert_near(job->setup_plan[2].hold.force, 0.8 / (0.2 * 4e-3), 1e-12);
    /* equal cuts: half of the force, twice the utilization */
    bite_assert_near(job->setup_plan[1].hold.utilization, 2.0 * job->setup_plan[0].hold.utilization,
                     1e-9);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_int_eq(job->setup_plan[i].hold.worst_pass, (int)i);
    }
    ck_assert_double_eq(job->hold.chance, job->setup_plan[job->hold_setup - 1].hold.chance);
    bite_job_free(job);
}
END_TEST

/* A job is as good as the weakest of its holds, wherever that is. */
START_TEST(the_weakest_hold_decides)
{
    for (int weak = 1; weak <= 3; weak++) {
        bite_job *job =
            plan_of(HEAD FLAT "[hold]\nmethod = vise\nclamp_force = 4 kN\n[setup.%d]\n"
                              "clamp_force = 1 N\n[pass.a]\n" POCKET "[pass.b]\nsetup = 2\n" POCKET
                              "[pass.c]\nsetup = 3\n" POCKET,
                    weak);
        ck_assert_uint_eq(job->hold_setup, (uint32_t)weak);
        ck_assert_uint_eq(job->verdict, BITE_OVER);
        ck_assert_ptr_nonnull(remark_of(job, "hold", "may fail"));
        ck_assert_int_eq(job->hold.worst_pass, weak - 1);
        bite_job_free(job);
    }
}
END_TEST

/* What lies below has been cut away: a pocket once, roughed or not, and every through hole. */
START_TEST(cuts_reduce_the_face_below)
{
    static const double whole = 80e-3 * 50e-3;
    static const double pocket = 40e-3 * 30e-3;
    const double hole = 0.25 * M_PI * 4e-3 * 4e-3;
    bite_job *job =
        plan(HEAD FLAT "[hold]\nmethod = tape\n[pass.r]\nwork = rough\ntool = 6mm\nlength = 40 mm\n"
                       "across = 30 mm\ndepth = 5 mm\nwidth = 3 mm\n" GIVEN "[pass.a]\n" POCKET
                       "[pass.h]\nwork = drill\ntool = 4mm\ncount = 3\n" GIVEN
                       "[pass.b]\nwork = slot\ntool = 6mm\nacross = 6 mm\nlength = 20 mm\n"
                       "depth = 2 mm\nsetup = 2\n" GIVEN OUTLINE "setup = 2\n");
    bite_assert_near(job->setup_plan[0].hold.area, whole - 3.0 * hole, 1e-12);
    bite_assert_near(job->setup_plan[1].hold.area, whole - pocket - 3.0 * hole, 1e-12);
    bite_assert_near(job->setup_plan[1].hold.along * job->setup_plan[1].hold.across,
                     job->setup_plan[1].hold.area, 1e-12);
    ck_assert_double_eq(job->setup_plan[1].hollow.across, 30e-3);
    ck_assert_double_eq(job->setup_plan[1].hollow.along, 40e-3);
    ck_assert_double_eq(job->setup_plan[1].hollow.depth, 6e-3);
    bite_job_free(job);
    /* the same side up again: it still lies on its whole face; a stated area counts as stated */
    bite_job *same = plan(HEAD FLAT "[hold]\nmethod = tape\n[setup.2]\nside = top\n[setup.3]\n"
                                    "side = bottom\narea = 300 mm2\n[pass.a]\n" POCKET
                                    "[pass.b]\nsetup = 2\n" POCKET "[pass.c]\nsetup = 3\n" POCKET);
    bite_assert_near(same->setup_plan[1].hold.area, whole, 1e-12);
    bite_assert_near(same->setup_plan[2].hold.area, 300e-6, 1e-12);
    bite_job_free(same);
}
END_TEST

/* Less area below, a harder use of the tape: the flipped part against one without a pocket. */
START_TEST(a_pocket_below_weakens_the_bond)
{
    double used[2];
    for (int i = 0; i < 2; i++) {
        bite_job *job =
            plan_of(HEAD FLAT "[hold]\nmethod = tape\n[pass.a]\nwork = pocket\ntool = "
                              "6mm\nlength = %d mm\nacross = 30 mm\ndepth = 4 mm\n" GIVEN
                              "[pass.z]\nwork = cut-free\ntool = 6mm\nsetup = 2\n" GIVEN,
                    i == 0 ? 10 : 70);
        used[i] = job->setup_plan[1].hold.utilization;
        bite_job_free(job);
    }
    ck_assert_double_gt(used[1], 1.2 * used[0]);
}
END_TEST

/* Parts that were cut free are clamped one by one, and each takes its time; tape takes them side by
 * side. */
START_TEST(separate_parts_are_clamped_one_by_one)
{
    static const char *const holds[] = {"vise", "tape"};
    for (int i = 0; i < 2; i++) {
        bite_job *job =
            plan_of(HEAD PLATE "thickness = 10 mm\ncount = 5\n[stock]\nthinnest = 10 "
                               "mm\nthickest = 10 mm\nfaces = none\n[hold]\nmethod = tape\n"
                               "[setup.2]\nmethod = %s\n" OUTLINE "[pass.b]\nsetup = 2\n" POCKET,
                    holds[i]);
        ck_assert_uint_eq(job->setup_plan[0].separate, 0);
        ck_assert_uint_eq(job->setup_plan[1].separate, 1);
        ck_assert_uint_eq(job->setup_plan[1].mountings, i == 0 ? 5 : 1);
        /* tape 300 s, vise 60 s (workholding.ini) */
        bite_assert_near(job->time.loading, i == 0 ? 300.0 + 5.0 * 60.0 : 600.0, 1e-9);
        bite_job_free(job);
    }
}
END_TEST

/* A part on its edge is as high as its width or length; it lies on that edge. */
START_TEST(a_part_may_stand_on_its_edge)
{
    bite_job *job =
        plan(HEAD FLAT "[hold]\nmethod = tape\n[setup.2]\nside = front\nmethod = vise\njaw_depth = "
                       "30 mm\n[setup.3]\nside = left\n" OUTLINE
                       "[pass.e]\nwork = drill\ntool = 4mm\ndepth = 20 mm\nsetup = 2\n" GIVEN
                       "[pass.f]\nwork = drill\ntool = 4mm\ndepth = 10 mm\nsetup = 3\n" GIVEN);
    ck_assert_uint_eq(job->setup_plan[1].hold.strikes, 0);
    bite_assert_near(job->setup_plan[1].hold.area, 80e-3 * 10e-3, 1e-12);
    bite_assert_near(job->setup_plan[2].hold.area, 50e-3 * 10e-3, 1e-12);
    bite_job_free(job);
    assert_refused(HEAD FLAT "[setup.1]\nside = front\n[pass.e]\nwork = pocket\ntool = 6mm\n"
                             "depth = 51 mm\n",
                   18, "deeper than the part");
}
END_TEST

START_TEST(setups_are_numbered_without_gaps)
{
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\n[pass.b]\nwork = slot\nsetup = 3\n", 13,
                   "no pass belongs to setup 2");
    assert_refused(HEAD ACRYLIC "[setup.2]\nside = top\n[pass.a]\nwork = slot\n", 9,
                   "no pass belongs to setup 2");
    assert_refused(HEAD ACRYLIC "[setup.one]\nside = top\n[pass.a]\nwork = slot\n", 9,
                   "named by its number");
    assert_refused(HEAD ACRYLIC "[setup.01]\nside = top\n[pass.a]\nwork = slot\n", 9,
                   "named by its number");
    assert_refused(HEAD ACRYLIC "[setup.21]\nside = top\n[pass.a]\nwork = slot\n", 9,
                   "named by its number");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nsetup = 21\n", 11, "1 to 20");
    assert_refused(HEAD ACRYLIC "[setup.1]\nside = up\n[pass.a]\nwork = slot\n", 10, "top");
    assert_refused(HEAD ACRYLIC "[setup.1]\nmethod = vise\ntorque = 1 Nm\n[pass.a]\nwork = slot\n",
                   11, "torque belongs to holding by screws");
    assert_refused(HEAD ACRYLIC "[hold]\nmethod = vise\n[setup.1]\nscrews = 3\n[pass.a]\n"
                                "work = slot\n",
                   12, "screws belongs to holding by screws, but the method is vise");
}
END_TEST

/* One alone is the first, whatever its number. */
START_TEST(a_single_setup_is_the_first)
{
    bite_job *job = plan(HEAD ACRYLIC "[setup.2]\nmethod = tape\nside = bottom\n[pass.a]\n"
                                      "work = slot\ntool = 2mm\nsetup = 2\n" GIVEN);
    ck_assert_uint_eq(job->setups, 1);
    ck_assert_uint_eq(job->setup_plan[0].number, 1);
    ck_assert_uint_eq(job->setup_plan[0].side, BITE_SIDE_BOTTOM);
    ck_assert_uint_eq(job->passes[0].setup, 1);
    bite_job_free(job);
}
END_TEST

/* Every setup is in all forms of the plan, with its hold and its data. */
START_TEST(reports_show_every_setup)
{
    char text[4096];
    size_t used = (size_t)snprintf(text, sizeof text, "%s",
                                   HEAD FLAT "[hold]\nmethod = tape\n[setup.1]\ndatum_xy = "
                                             "blank-corner\ndatum_z = stock-top\n[setup.20]\n"
                                             "method = vise\nside = back\nnote = mind the burr\n");
    for (int i = 1; i <= 20; i++) {
        used += (size_t)snprintf(
            text + used, sizeof text - used,
            "[pass.p%d]\nwork = drill\ntool = 4mm\ndepth = 2 mm\nsetup = %d\n" GIVEN, i, i);
    }
    bite_job *job = plan(text);
    char *words = write_as(job, BITE_TEXT, 1);
    char *sheet = write_as(job, BITE_HTML, 0);
    ck_assert_uint_eq(job->setups, 20);
    ck_assert_uint_eq(count_of(words, "\n  mount "), 20);
    ck_assert_uint_eq(count_of(words, "\n  release "), 20);
    ck_assert_ptr_nonnull(strstr(words, "X and Y zero: a corner of the blank"));
    ck_assert_ptr_nonnull(
        strstr(words, "Setup 20 back up, pass 20; X and Y zero not stated; mind the burr"));
    ck_assert_uint_eq(count_of(sheet, "Face up: <b>"), 20);
    ck_assert_uint_eq(count_of(sheet, "<h3>Workholding: double-sided tape</h3>"), 19);
    json_t *root = json_of(job);
    const json_t *plans = json_object_get(root, "setup_plans");
    ck_assert_uint_eq(json_array_size(plans), 20);
    const json_t *last = json_array_get(plans, 19);
    ck_assert_str_eq(json_string_value(json_object_get(last, "side")), "back");
    ck_assert_str_eq(json_string_value(json_object_get(json_object_get(last, "hold"), "name")),
                     "vise");
    ck_assert_str_eq(json_string_value(json_array_get(json_object_get(last, "passes"), 0)), "p20");
    json_decref(root);
    free(words);
    free(sheet);
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("setup plan");
    TCase *tests = tcase_create("setup plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, every_setup_has_its_own_hold);
    tcase_add_test(tests, the_weakest_hold_decides);
    tcase_add_test(tests, cuts_reduce_the_face_below);
    tcase_add_test(tests, a_pocket_below_weakens_the_bond);
    tcase_add_test(tests, separate_parts_are_clamped_one_by_one);
    tcase_add_test(tests, a_part_may_stand_on_its_edge);
    tcase_add_test(tests, setups_are_numbered_without_gaps);
    tcase_add_test(tests, a_single_setup_is_the_first);
    tcase_add_test(tests, reports_show_every_setup);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
