/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Thin floors and walls of a job, their support, order and spring passes. */
#include "core/job/thin_plan.h"
#include "core/physics/elastic/thin_plate.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <string.h>

#define SHEET "[stock]\nthinnest = 6 mm\nthickest = 6.1 mm\nfaces = none\n"
#define PLATE "[part]\nmaterial = acrylic/cast\nlength = 60 mm\nwidth = 40 mm\nthickness = 6 mm\n"
#define GRIP "clamp_force = 500 N\n"
#define POCKET "work = pocket\ntool = 6mm\nlength = 40 mm\nacross = 25 mm\n"

static const bite_limit *bend_of(const bite_job *job, size_t pass)
{
    return &job->passes[pass].answer->result.limits[BITE_LIMIT_PART_BEND];
}

static bite_job *floor_of(double thickness, const char *hold)
{
    return plan_of(HEAD PLATE "tolerance = 0.1 mm\n" SHEET "[hold]\n%s\n[pass.a]\n" POCKET
                              "pass_depth = 0.5 mm\ndepth = %.3f mm\n" GIVEN,
                   hold, 6.0 - thickness);
}

/* A floor in a vise is said to bend, with what helps; the bend is that of the plate formula. */
START_TEST(a_thin_floor_in_a_vise_is_said)
{
    bite_job *job = floor_of(0.4, "method = vise\n" GRIP);
    const bite_remark *remark = remark_of(job, "hold", "nothing supports the floor, 0.4 mm thick");
    ck_assert_ptr_nonnull(remark);
    ck_assert_uint_eq(remark->severity, BITE_CARE);
    const bite_result *result = &job->passes[0].answer->result;
    double rigidity = 3.2e9 * pow(0.4e-3, 3.0) / 12.0; /* without 1 - nu^2: within 15 % */
    double force = fabs(result->values[BITE_FORCE_LIFT_PEAK].value);
    double bend = bite_plate_floor(40.0 / 25.0) * force * 25e-3 * 25e-3 / rigidity;
    bite_assert_near(remark->values[3].quantity, bend, 0.25);
    bite_assert_near(bend_of(job, 0)->demand, remark->values[3].quantity, 0.02); /* two digits */
    /* the thickness that it names is enough */
    bite_job *thick = floor_of(1e3 * remark->values[4].quantity, "method = vise\n" GRIP);
    ck_assert_double_lt(bend_of(thick, 0)->demand, 1.1 * bend_of(thick, 0)->capacity);
    ck_assert_uint_eq(job->verdict, BITE_OVER);
    bite_job_free(thick);
    bite_job_free(job);
}
END_TEST

/* A thinner floor bends more, a supported one less, and wax is firmer than tape. */
START_TEST(thinner_bends_more_and_support_less)
{
    static const char *const holds[] = {
        "method = vise\n" GRIP, "method = vise\nsupport = vacuum\ngroove = 10 mm\n" GRIP,
        "method = vise\nsupport = tape\n" GRIP, "method = vise\nsupport = wax\n" GRIP};
    for (size_t h = 0; h < 4; h++) {
        double last = 0.0;
        for (int i = 0; i < 4; i++) {
            bite_job *job = floor_of(1.6 / pow(2.0, i), holds[h]);
            bite_job *bare = floor_of(1.6 / pow(2.0, i), holds[0]);
            double bend = bend_of(job, 0)->demand;
            ck_assert_double_gt(bend, last);
            ck_assert(bend <= bend_of(bare, 0)->demand * (1.0 + 1e-9));
            ck_assert(h == 0 || i < 2 || bend < 0.5 * bend_of(bare, 0)->demand);
            ck_assert(h == 0 || remark_of(job, "hold", "nothing supports") == NULL);
            last = bend;
            bite_job_free(bare);
            bite_job_free(job);
        }
    }
    bite_job *tape = floor_of(0.4, holds[2]);
    bite_job *wax = floor_of(0.4, holds[3]);
    ck_assert_double_lt(bend_of(wax, 0)->demand, bend_of(tape, 0)->demand);
    bite_job_free(tape);
    bite_job_free(wax);
}
END_TEST

/* Tape supports a floor, but not over a pocket in the face below: only what fills it does. */
START_TEST(a_web_over_a_pocket_is_a_free_floor)
{
    static const char *const supports[] = {"none", "tape", "wax"};
    double bend[3];
    for (int i = 0; i < 3; i++) {
        bite_job *job = plan_of(HEAD PLATE "tolerance = 0.1 mm\nthinnest = 0.5 mm\n" SHEET
                                           "[hold]\nmethod = tape\nsupport = %s\n[pass.a]\n" POCKET
                                           "depth = 2.5 mm\npass_depth = 1 mm\n" GIVEN
                                           "[pass.b]\nsetup = 2\n" POCKET
                                           "depth = 3 mm\npass_depth = 1 mm\n" GIVEN,
                                supports[i]);
        bite_open_floor floor;
        ck_assert_int_eq(bite_plan_open_floor(job, 0, &floor), 0);
        ck_assert_int_eq(bite_plan_open_floor(job, 1, &floor), 1);
        ck_assert_int_eq(floor.over_hollow, 1);
        bite_assert_near(floor.thickness, 0.5e-3, 1e-9);
        bite_assert_near(floor.across, 25e-3, 1e-9);
        ck_assert_uint_eq(bend_of(job, 0)->applies, 0);
        bend[i] = bend_of(job, 1)->demand;
        ck_assert((remark_of(job, "hold", "web over the pocket below is 0.5 mm thick") != NULL) ==
                  (i < 2));
        bite_job_free(job);
    }
    ck_assert_double_eq(bend[0], bend[1]);
    ck_assert_double_lt(bend[2], 0.2 * bend[0]);
    /* too deep to be above each other: they are side by side */
    bite_job *beside =
        plan(HEAD PLATE "tolerance = 0.1 mm\nthinnest = 2 mm\n" SHEET
                        "[hold]\nmethod = tape\n[pass.a]\n" POCKET "depth = 4 mm\n" GIVEN
                        "[pass.b]\nsetup = 2\n" POCKET "depth = 4 mm\n" GIVEN);
    ck_assert_uint_eq(bend_of(beside, 1)->applies, 0);
    bite_job_free(beside);
}
END_TEST

/* A vacuum plate sucks the web into the pocket below it. */
START_TEST(vacuum_sucks_a_web_down)
{
    bite_job *job =
        plan(HEAD PLATE "tolerance = 0.1 mm\nthinnest = 0.5 mm\n" SHEET
                        "[hold]\nmethod = vacuum\n[pass.a]\n" POCKET "depth = 2.5 mm\n" GIVEN
                        "[pass.b]\nsetup = 2\n" POCKET "depth = 3 mm\n" GIVEN);
    const bite_remark *remark = remark_of(job, "hold", "sucks the web, 0.5 mm thick");
    ck_assert_ptr_nonnull(remark);
    double modulus = job->passes[0].answer->full.modulus;
    bite_assert_near(remark->values[2].quantity,
                     0.0284 * 85e3 * pow(25e-3, 4.0) /
                         (modulus * pow(0.5e-3, 3.0) * (1.056 * pow(25.0 / 40.0, 5.0) + 1.0)),
                     0.05);
    bite_job_free(job);
}
END_TEST

#define BOX                                                                                        \
    "[part]\nmaterial = aluminium/6061-T6\nlength = 62 mm\nwidth = 44 mm\nthickness = 15 mm\n"     \
    "tolerance = 0.1 mm\n[stock]\nthinnest = 15 mm\nthickest = 15.1 mm\nfaces = none\n"            \
    "[hold]\nmethod = vise\njaw_depth = 3 mm\n"
#define INSIDE                                                                                     \
    "[pass.pocket]\nwork = pocket\ntool = 6mm\nlength = 60 mm\nacross = 40 mm\ndepth = 12 mm\n"    \
    "pass_depth = 1 mm\n" GIVEN
#define AROUND "[pass.around]\nwork = contour\ntool = 6mm\ndepth = 12 mm\npass_depth = 1 mm\n" GIVEN

/* The wall between pocket and outline follows from their sizes, once the outline is cut; the
 * contour comes after the pocket, whatever their order in the file. */
START_TEST(walls_follow_from_the_sizes)
{
    bite_job *job = plan(HEAD BOX AROUND INSIDE);
    size_t around = place_of(job, "around");
    bite_thin_wall wall;
    ck_assert_uint_eq(around, 1);
    ck_assert_int_eq(bite_plan_thin_wall(job, place_of(job, "pocket"), &wall), 0);
    ck_assert_int_eq(bite_plan_thin_wall(job, around, &wall), 1);
    bite_assert_near(wall.thickness, 1e-3, 1e-9); /* (62 - 60)/2, less than (44 - 40)/2 */
    bite_assert_near(wall.length, 40e-3, 1e-9);
    bite_assert_near(wall.height, 12e-3, 1e-9);
    ck_assert_uint_eq(bend_of(job, around)->applies, 1);
    ck_assert_ptr_nonnull(remark_of(job, "passes", "taken to be 1 mm thick"));
    bite_job_free(job);
    /* a blank of the part's size: the pocket itself leaves the wall; thick walls are not judged */
    bite_job *sawn = plan(HEAD BOX INSIDE);
    ck_assert_int_eq(bite_plan_thin_wall(sawn, 0, &wall), 1);
    bite_job_free(sawn);
    bite_job *thick = plan(HEAD BOX AROUND "[pass.pocket]\nwork = pocket\ntool = 6mm\nlength = 40 "
                                           "mm\nacross = 20 mm\ndepth = 6 mm\n" GIVEN);
    ck_assert_uint_eq(bend_of(thick, place_of(thick, "around"))->applies, 0);
    bite_job_free(thick);
    /* stated walls count as stated */
    bite_job *stated =
        plan(HEAD BOX AROUND "wall = 2 mm\nwall_height = 8 mm\nwall_length = 30 mm\n");
    ck_assert_int_eq(bite_plan_thin_wall(stated, 0, &wall), 1);
    ck_assert_double_eq(wall.thickness, 2e-3);
    ck_assert_double_eq(wall.height, 8e-3);
    ck_assert_double_eq(wall.length, 30e-3);
    bite_job_free(stated);
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = finish\nwall_height = 8 mm\n", 11, "without one");
}
END_TEST

/* A step of a long wall: its lap is as deep as the step, so that its bend grows with the cube. */
START_TEST(steps_of_a_wall_match_the_cube_root)
{
    const bite_thin_wall wall = {1e-3, 12e-3, (double)NAN, 0, 0};
    for (double allowed = 0.02; allowed < 20.0; allowed *= 1.7) {
        double step = bite_plan_wall_step(&wall, 0.4e-3, allowed);
        bite_assert_near(step, fmin(12e-3, cbrt(allowed * 0.4e-3 * 12e-3 * 12e-3)), 1e-6);
    }
    const bite_thin_wall held = {1e-3, 12e-3, 20e-3, 1, 0};
    double step = bite_plan_wall_step(&held, 0.4e-3, 1.0);
    double whole = bite_plate_pocket_wall(20.0 / 12.0) * 0.4e-3 * 12e-3 * 12e-3;
    bite_assert_near(bite_plate_pocket_wall(20e-3 / step) * step * step * step, whole, 1e-6);
}
END_TEST

/* Spring passes: none where a lap is good enough, one or more that leave less where it is not. */
START_TEST(spring_passes_take_off_what_gave_way)
{
    static const double widths[] = {0.02, 0.5, 1.0}; /* mm */
    for (size_t i = 0; i < 3; i++) {
        bite_job *job = plan_of(
            HEAD "[part]\nmaterial = steel/1018\nlength = 60 mm\nwidth = 40 mm\nthickness = "
                 "20 mm\ntolerance = 0.02 mm\n[stock]\nthinnest = 20 mm\nthickest = 20.1 "
                 "mm\nfaces = none\n[machine]\nname = small-vmc\n[pass.a]\nwork = "
                 "finish\ntool = 4mm\ndepth = 12 mm\npass_depth = 12 mm\nlength = 100 "
                 "mm\nwidth = %.2f mm\nspindle = 2000rpm\nfeed = 160mm/min\n",
            widths[i]);
        const bite_planned_pass *pass = &job->passes[0];
        double first = pass->first_leaves;
        double least = pass->answer->result.values[BITE_CHIP_THICKNESS_LEAST].value;
        ck_assert_double_eq(pass->answer->full.spring_passes, pass->springs);
        ck_assert(pass->springs > 0 || first <= 0.25 * 0.02e-3);
        ck_assert_uint_le(pass->springs, 3);
        ck_assert(pass->springs == 0 || pass->spring_leaves < 0.8 * first);
        ck_assert_double_ge(pass->spring_leaves, 0.999 * least);
        ck_assert((remark_of(job, "passes", "Spring passes at the same setting") != NULL) ==
                  (pass->springs > 0));
        /* every lap takes its time */
        bite_assert_near(pass->feed_seconds, (1.0 + pass->springs) * pass->lap * 60.0 / 0.16, 1e-9);
        bite_job_free(job);
    }
}
END_TEST

/* No tool cuts a floor of 0.08 mm that nothing supports. The plan is over, says what to do, and
 * takes a tool of the size that cuts it on tape, not the one that bends it least, of 1 mm; as it
 * does from a list of tools. A floor that can be cut keeps the tool of its own choice. */
START_TEST(the_tool_of_a_hopeless_floor_is_that_of_a_supported_one)
{
    static const char *const tools[] = {"", "[tools]\nat_hand = 1mm 2mm 3mm 6mm\n"};
    static const char sheet[] =
        "[part]\nmaterial = acrylic/cast\nlength = 100 mm\nwidth = 80 mm\nthickness = 3 mm\n"
        "[stock]\nthinnest = 3 mm\nthickest = 3.05 mm\nfaces = none\n"
        "[machine]\nname = small-vmc\n";
    static const char pass[] = "[pass.a]\nwork = pocket\nlength = 87 mm\nacross = 65 mm\n";
    for (size_t i = 0; i < 2; i++) {
        bite_job *job =
            plan_of(HEAD "%s%s[hold]\nmethod = vise\n%sdepth = 2.92 mm\n", sheet, tools[i], pass);
        const bite_planned_tool *tool = &job->tools[job->passes[0].tool];
        ck_assert_uint_eq(job->verdict, BITE_OVER);
        ck_assert_ptr_nonnull(remark_of(job, "hold", "nothing supports the floor, 0.08 mm thick"));
        ck_assert_double_ge(tool->diameter, 3e-3);
        ck_assert_ptr_nonnull(strstr(tool->why, "with its floor held"));
        bite_job *held =
            plan_of(HEAD "%s%s[hold]\nmethod = tape\n%sdepth = 2.92 mm\n", sheet, tools[i], pass);
        ck_assert_double_ge(tool->diameter, 0.9 * held->tools[held->passes[0].tool].diameter);
        bite_job *thick =
            plan_of(HEAD "%s%s[hold]\nmethod = vise\n%sdepth = 1 mm\n", sheet, tools[i], pass);
        ck_assert_ptr_null(strstr(thick->tools[thick->passes[0].tool].why, "with its floor held"));
        bite_job_free(thick);
        bite_job_free(held);
        bite_job_free(job);
    }
}
END_TEST

/* A floor that is stated as what remains of the part is the one that follows from the depth, and
 * not a web over a pocket that is nowhere. */
START_TEST(a_stated_floor_is_not_a_web)
{
    static const char *const floors[] = {"", "floor = 0.4 mm\n"};
    double bend[2];
    for (size_t i = 0; i < 2; i++) {
        bite_job *job =
            plan_of(HEAD PLATE "tolerance = 0.1 mm\n" SHEET "[hold]\nmethod = vise\n" GRIP
                               "[pass.a]\n" POCKET "pass_depth = 0.5 mm\ndepth = 5.6 "
                               "mm\n%s" GIVEN,
                    floors[i]);
        ck_assert_ptr_nonnull(remark_of(job, "hold", "nothing supports the floor, 0.4 mm thick"));
        ck_assert_ptr_null(remark_of(job, "hold", "over the pocket below"));
        bend[i] = bend_of(job, 0)->demand;
        bite_job_free(job);
    }
    bite_assert_near(bend[1], bend[0], 1e-9);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("thin plan");
    TCase *tests = tcase_create("thin plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, a_thin_floor_in_a_vise_is_said);
    tcase_add_test(tests, thinner_bends_more_and_support_less);
    tcase_add_test(tests, a_web_over_a_pocket_is_a_free_floor);
    tcase_add_test(tests, vacuum_sucks_a_web_down);
    tcase_add_test(tests, walls_follow_from_the_sizes);
    tcase_add_test(tests, steps_of_a_wall_match_the_cube_root);
    tcase_add_test(tests, spring_passes_take_off_what_gave_way);
    tcase_add_test(tests, the_tool_of_a_hopeless_floor_is_that_of_a_supported_one);
    tcase_add_test(tests, a_stated_floor_is_not_a_web);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
