/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The area that each kind of pass sweeps, worked by hand. */
#include "core/job/pass_sweep.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>

#define PLATE                                                                                      \
    HEAD "[part]\nmaterial = 6061\nlength = 80 mm\nwidth = 40 mm\nthickness = 6 mm\n"              \
         "[machine]\nname = small-vmc\n[hold]\nmethod = tape\n[pass.a]\ndepth = 2 mm\n"
#define HERE "at = 30 mm 18 mm\n"
#define SIZE "length = 30 mm\nacross = 16 mm\n"
#define MILL_6 "tool = 6mm\n" GIVEN

/* Half of the length and width that it spans about (30, 18) mm with a tool of 6 mm, the radius of
 * its corners, and the same of what stays in its middle; all in mm. */
static const struct {
    const char *keys;
    double half[2];
    double radius;
    double inner[2]; /* NaN: nothing stays */
} sweeps[] = {
    {"work = slot\n" SIZE HERE MILL_6, {15, 8}, 3, {NAN, NAN}},
    {"work = pocket\n" SIZE HERE MILL_6, {15, 8}, 3, {NAN, NAN}},
    {"work = pocket\nalong = width\n" SIZE HERE MILL_6, {8, 15}, 3, {NAN, NAN}},
    {"work = rough\nwidth = 3 mm\n" SIZE HERE MILL_6, {15, 8}, 3, {NAN, NAN}},
    {"work = bore\nacross = 16 mm\n" HERE MILL_6, {8, 8}, 8, {NAN, NAN}},
    {"work = bore\n" HERE MILL_6, {3, 3}, 3, {NAN, NAN}},
    {"work = drill\ntool = 5mm\n" HERE GIVEN, {2.5, 2.5}, 2.5, {NAN, NAN}},
    /* along the wall from inside, as wide as the tool: what it does not reach stays */
    {"work = finish\n" SIZE HERE MILL_6, {15, 8}, 3, {9, 2}},
    {"work = contour\n" SIZE HERE MILL_6, {15, 8}, 3, {9, 2}},
    {"work = contour\nlength = 11 mm\nacross = 10 mm\n" HERE MILL_6, {5.5, 5}, 3, {NAN, NAN}},
    /* round a boss, with the tool outside: the boss stays */
    {"work = contour\naround = boss\n" SIZE HERE MILL_6, {21, 14}, 6, {15, 8}},
    {"work = finish\naround = boss\nalong = width\n" SIZE HERE MILL_6, {14, 21}, 6, {8, 15}},
    /* a chamfer of 2 mm takes as much of the face beside an opening, and of a boss */
    {"work = chamfer\ntool = cm-6-90\n" SIZE HERE GIVEN, {17, 10}, 5, {9, 2}},
    {"work = chamfer\naround = boss\ntool = cm-6-90\n" SIZE HERE GIVEN, {21, 14}, 6, {13, 6}},
};
#define SWEEPS (sizeof sweeps / sizeof *sweeps)

START_TEST(sweeps_at_a_position)
{
    bite_job *job = plan_of(PLATE "%s", sweeps[_i].keys);
    bite_swept_area swept;
    size_t at = place_of(job, "a");
    ck_assert_int_eq(bite_pass_sweep(job, at, 0, &swept), 1);
    bite_assert_near(1e3 * swept.outer.x, 30.0, 1e-9);
    bite_assert_near(1e3 * swept.outer.y, 18.0, 1e-9);
    bite_assert_near(1e3 * (swept.outer.half_x + swept.outer.radius), sweeps[_i].half[0], 1e-9);
    bite_assert_near(1e3 * (swept.outer.half_y + swept.outer.radius), sweeps[_i].half[1], 1e-9);
    bite_assert_near(1e3 * swept.outer.radius, sweeps[_i].radius, 1e-9);
    ck_assert_int_eq(swept.hollow != 0, !isnan(sweeps[_i].inner[0]));
    if (swept.hollow) {
        bite_assert_near(1e3 * (swept.inner.half_x + swept.inner.radius), sweeps[_i].inner[0],
                         1e-9);
        bite_assert_near(1e3 * (swept.inner.half_y + swept.inner.radius), sweeps[_i].inner[1],
                         1e-9);
    }
    ck_assert_int_eq(bite_pass_sweep(job, at, 1, &swept), 0);
    bite_job_free(job);
}
END_TEST

/* What has no place: a feature without `at`, or of which a side is not stated. */
START_TEST(sweeps_that_are_not_known)
{
    static const char *const passes[] = {
        "work = pocket\n" SIZE MILL_6,
        "work = drill\ntool = 5mm\n" GIVEN,
        "work = slot\nlength = 30 mm\n" HERE MILL_6,
        "work = finish\nlength = 30 mm\n" HERE MILL_6,
        "work = chamfer\nlength = 30 mm\ntool = cm-6-90\n" HERE GIVEN,
    };
    for (size_t i = 0; i < sizeof passes / sizeof *passes; i++) {
        bite_job *job = plan_of(PLATE "%s", passes[i]);
        bite_swept_area swept;
        ck_assert_msg(bite_pass_sweep(job, 0, 0, &swept) == 0, "%s", passes[i]);
        bite_job_free(job);
    }
}
END_TEST

/* A cut round the part needs no place: outside by the diameter of the tool and the arc onto the
 * wall, if there is one. A chamfer of 1 mm goes as far inwards. A face goes over the whole blank,
 * and by its tool beyond. */
START_TEST(sweeps_of_the_whole_part)
{
    bite_job *free_cut = plan(PLATE "work = cut-free\n" MILL_6);
    bite_job *side = plan(PLATE "work = contour\nwidth = 0.5 mm\n" MILL_6);
    bite_job *edge = plan(PLATE "work = chamfer\ntool = cm-6-90\n" GIVEN);
    bite_job *face = plan(PLATE "work = face\n" MILL_6);
    const struct {
        bite_job *job;
        double half[2];
        double inner[2];
    } cases[] = {
        {free_cut, {46, 26}, {40, 20}}, {side, {49, 29}, {40, 20}}, {edge, {46, 26}, {38, 18}}};
    bite_swept_area swept;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_int_eq(bite_pass_sweep(cases[i].job, 0, 0, &swept), 1);
        bite_assert_near(1e3 * (swept.outer.half_x + swept.outer.radius), cases[i].half[0], 1e-9);
        bite_assert_near(1e3 * (swept.outer.half_y + swept.outer.radius), cases[i].half[1], 1e-9);
        bite_assert_near(1e3 * (swept.inner.half_x + swept.inner.radius), cases[i].inner[0], 1e-9);
        bite_assert_near(1e3 * (swept.inner.half_y + swept.inner.radius), cases[i].inner[1], 1e-9);
        bite_assert_near(1e3 * swept.outer.x, 40.0, 1e-9);
        ck_assert_int_eq(bite_pass_sweep(cases[i].job, 0, 1, &swept), 0);
    }
    const bite_layout *blank = &face->stock.layout;
    ck_assert_int_eq(bite_pass_sweep(face, 0, 0, &swept), 1);
    bite_assert_near(swept.outer.half_x + swept.outer.radius, 0.5 * blank->length + 6e-3, 1e-9);
    bite_assert_near(swept.outer.half_y + swept.outer.radius, 0.5 * blank->width + 6e-3, 1e-9);
    ck_assert_uint_eq(swept.hollow, 0);
    bite_job_free(free_cut);
    bite_job_free(side);
    bite_job_free(edge);
    bite_job_free(face);
}
END_TEST

/* A pocket round the place of a boss leaves it standing; one beside it, or from below, does not. */
START_TEST(pockets_leave_bosses)
{
    static const struct {
        const char *pocket;
        int leaves;
    } cases[] = {{"at = 30 mm 18 mm\nlength = 50 mm\nacross = 32 mm\n", 1},
                 {"at = 70 mm 18 mm\nlength = 12 mm\nacross = 10 mm\n", 0},
                 {"at = 30 mm 18 mm\nlength = 50 mm\nacross = 32 mm\nsetup = 2\n", 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job *job = plan_of(PLATE "work = contour\naround = boss\nlength = 20 mm\n"
                                      "across = 12 mm\n" HERE MILL_6
                                      "[pass.p]\nwork = pocket\ndepth = 2 mm\n" MILL_6 "%s",
                                cases[i].pocket);
        bite_swept_area swept;
        bite_round_area boss;
        ck_assert_int_eq(bite_pass_sweep(job, place_of(job, "p"), 0, &swept), 1);
        ck_assert_int_eq(bite_pass_boss(job, place_of(job, "a"), 0, &boss), 1);
        ck_assert_int_eq(bite_pass_boss(job, place_of(job, "a"), 1, &boss), 0);
        ck_assert_int_eq(bite_pass_boss(job, place_of(job, "p"), 0, &boss), 0);
        ck_assert_int_eq((int)swept.hollow, cases[i].leaves);
        if (swept.hollow) {
            bite_assert_near(1e3 * swept.inner.half_x, 10.0, 1e-9);
            bite_assert_near(1e3 * swept.inner.half_y, 6.0, 1e-9);
            ck_assert_double_eq(swept.inner.radius, 0.0);
        }
        bite_job_free(job);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pass sweep");
    TCase *tests = tcase_create("pass sweep");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_loop_test(tests, sweeps_at_a_position, 0, (int)SWEEPS);
    tcase_add_test(tests, sweeps_that_are_not_known);
    tcase_add_test(tests, sweeps_of_the_whole_part);
    tcase_add_test(tests, pockets_leave_bosses);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
