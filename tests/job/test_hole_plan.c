/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Holes that are tapped, reamed or threaded: which drilled hole is taken for them, and what is said
 * where none suits. */
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define PLATE                                                                                      \
    HEAD "[part]\nmaterial = 6061\nlength = 80 mm\nwidth = 60 mm\nthickness = 12 mm\n"             \
         "[machine]\nname = small-vmc\n[hold]\nmethod = vise\n"
#define AT_3000 "spindle = 3000rpm\nfeed = 300mm/min\n"
#define DRILL(name, tool) "[pass." name "]\nwork = drill\ntool = " tool "\n" AT_3000
#define REAM(keys)                                                                                 \
    "[pass.made]\nwork = ream\ntool = 6mm\n" keys "spindle = 300rpm\nfeed = 60mm/min\n"
#define TAP(keys) "[pass.made]\nwork = tap\nthread = M6\nspindle = 300rpm\n" keys

static const bite_planned_pass *made(const bite_job *job)
{
    return &job->passes[place_of(job, "made")];
}

/* A reamer takes most of the last tenths: the widest hole that is narrower, if it is deep enough
 * for its 8 mm; a tap of M6 in aluminium the hole next to 75 % of thread, 6 - 0.75 x 1.299 mm =
 * 5.026 mm, with room for 2.5 threads below. */
static const struct {
    const char *passes;
    const char *hole;
} chosen[] = {
    {DRILL("a", "5.8mm") DRILL("b", "5.9mm") DRILL("c", "6mm") REAM("depth = 8 mm\n"), "b"},
    {DRILL("a", "5.9mm") DRILL("b", "5.8mm") DRILL("c", "3mm") REAM("depth = 8 mm\n"), "a"},
    {DRILL("a", "5.8mm") DRILL("b", "5.9mm") "depth = 7 mm\n" REAM("depth = 8 mm\n"), "a"},
    {DRILL("a", "5.9mm") "depth = 7 mm\n" DRILL("b", "5.8mm") REAM("depth = 8 mm\n"), "b"},
    {DRILL("a", "5.9mm") "depth = 8 mm\n" DRILL("b", "5.8mm") REAM("depth = 8 mm\n"), "a"},
    {DRILL("a", "5.9mm") "count = 2\n" DRILL("b", "5.8mm") REAM("depth = 8 mm\n"), "b"},
    {DRILL("a", "5.9mm") "setup = 2\n" DRILL("b", "5.8mm") REAM("depth = 8 mm\n"), "b"},
    {DRILL("a", "5.8mm") DRILL("b", "5.9mm") REAM("depth = 8 mm\nhole = A\n"), "a"},
    {DRILL("a", "5.9mm") "at = 9 mm 9 mm\n" DRILL("b", "5.8mm") "at = 9 mm 20 mm\n" REAM(
         "depth = 8 mm\nat = 9 mm 20 mm\n"),
     "b"},
    /* positions of another setup are those of its own zero */
    {DRILL("a", "5.9mm") "at = 9 mm 9 mm\n" REAM("depth = 8 mm\nsetup = 2\nat = 9 mm 20 mm\n"),
     "a"},
    {DRILL("a", "4.8mm") DRILL("b", "5mm") DRILL("c", "5.2mm") TAP("depth = 8 mm\n"), "b"},
    {DRILL("a", "5.2mm") DRILL("b", "5mm") "depth = 10 mm\n" TAP("depth = 8 mm\n"), "a"},
    {DRILL("a", "5.2mm") DRILL("b", "5mm") "depth = 10.5 mm\n" TAP("depth = 8 mm\n"), "b"},
    {DRILL("a", "5.2mm") DRILL("b", "5mm") "depth = 9.5 mm\n" TAP("depth = 8 mm\nlead = 1.5\n"),
     "b"},
    {"[pass.a]\nwork = bore\nacross = 5.1 mm\ntool = 3mm\ndepth = 11 mm\n" AT_3000 TAP(
         "depth = 8 mm\n"),
     "a"},
};
#define CHOSEN (sizeof chosen / sizeof *chosen)

START_TEST(the_hole_that_suits_best_is_taken)
{
    bite_job *job = plan_of(PLATE "%s", chosen[_i].passes);
    ck_assert_str_eq(made(job)->hole.made_by, chosen[_i].hole);
    ck_assert(place_of(job, chosen[_i].hole) < place_of(job, "made"));
    bite_job_free(job);
}
END_TEST

/* Of thread a hole of 5 mm leaves 1 mm of 2 x 0.6495 mm: 77 %, one that was bored to 5.1 mm 69 %. A
 * left-hand thread has a tap of its own. */
START_TEST(a_thread_in_its_hole)
{
    bite_job *drilled = plan(PLATE DRILL("a", "5mm") TAP("depth = 8 mm\nhand = left\n"));
    bite_job *bored = plan(
        PLATE "[pass.a]\nwork = bore\nacross = 5.1 mm\ntool = 3mm\n" AT_3000 TAP("depth = 8 mm\n"));
    bite_assert_near(made(drilled)->hole.share, 1.0 / 1.2990381, 1e-7);
    bite_assert_near(made(bored)->hole.share, 0.9 / 1.2990381, 1e-7);
    bite_assert_near(made(bored)->hole.diameter, 5.1e-3, 1e-12);
    ck_assert(isinf(made(drilled)->hole.depth)); /* through */
    ck_assert_uint_eq(made(drilled)->hole.left_hand, 1);
    ck_assert_str_eq(drilled->tools[made(drilled)->tool].name, "tap m6 left-hand");
    ck_assert_str_eq(bored->tools[made(bored)->tool].name, "tap m6");
    bite_job_free(drilled);
    bite_job_free(bored);
}
END_TEST

/* From 13 mm on metal is drilled after a pilot hole of 0.3 of the drill, in tenths of a millimetre:
 * 3.9 mm for 13 mm, 4.2 mm for 13.9 mm. */
START_TEST(wide_drills_follow_a_pilot)
{
    static const struct {
        const char *drill;
        double pilot; /* mm */
    } drills[] = {{"12.9mm", NAN}, {"13mm", 3.9}, {"13.9mm", 4.2}};
    for (size_t i = 0; i < sizeof drills / sizeof *drills; i++) {
        bite_job *job = plan_of(PLATE "[pass.made]\nwork = drill\ntool = %s\nspindle = 600rpm\n"
                                      "feed = 60mm/min\n",
                                drills[i].drill);
        double pilot = 1e3 * made(job)->hole.pilot;
        ck_assert_int_eq(isnan(pilot) != 0, isnan(drills[i].pilot) != 0);
        ck_assert(isnan(pilot) || fabs(pilot - drills[i].pilot) < 1e-9);
        bite_job_free(job);
    }
}
END_TEST

/* Line 13 is that of the first pass. Before a reamer of 6 mm a hole of 6 - 0.1 - 0.15 mm is
 * drilled: a drill of 5.7 mm. */
static const struct {
    const char *passes;
    uint32_t line;
    const char *key;
    const char *says;
    const char *hint;
} faults[] = {
    {REAM("depth = 8 mm\n"), 13, "pass.made:hole", "no pass makes a hole that suits this reamer",
     "tool = drill-5.7, and the same count (1)"},
    {REAM("depth = 8 mm\nat = 9 mm 9 mm\n") DRILL("a", "5.8mm") "at = 20 mm 20 mm\n", 13,
     "pass.made:hole", "suits this reamer at the positions that it states", "work = drill"},
    {TAP("depth = 8 mm\ncount = 3\n") DRILL("a", "5mm"), 13, "pass.made:hole",
     "no pass makes a hole that suits this thread", "tool = drill-5, and the same count (3)"},
    {"[pass.made]\nwork = tap\nthread = 1/4-20\ndepth = 8 mm\n", 13, "pass.made:hole",
     "no pass makes a hole that suits this thread", "tool = drill-no7"},
    {REAM("depth = 8 mm\ncount = 4\nhole = a\n") DRILL("a", "5.8mm") "count = 2\n", 17,
     "pass.made:count", "a makes 2 holes, and this pass needs 4", "the same count"},
    {REAM("depth = 8 mm\nat = 9 mm 9 mm\nhole = a\n") DRILL("a", "5.8mm") "at = 20 mm 20 mm\n", 17,
     "pass.made:at", "a makes its holes elsewhere than this pass needs them",
     "state the same positions"},
    {REAM("depth = 8 mm\nhole = a\n") DRILL("a", "3mm"), 17, "pass.made:hole",
     "the hole of a, 3 mm wide, does not suit this reamer", "tool = drill-5.7"},
    {TAP("depth = 8 mm\nhole = a\n") DRILL("a", "6mm"), 18, "pass.made:hole",
     "the hole of a, 6 mm wide, does not suit this thread", "tool = drill-5,"},
    /* four tenths of thread are the least that hold: 6 - 0.4 x 1.299 = 5.48 mm */
    {TAP("depth = 8 mm\nhole = a\n") DRILL("a", "5.5mm"), 18, "pass.made:hole",
     "the hole of a, 5.5 mm wide, does not suit this thread", "tool = drill-5,"},
    {REAM("depth = 8 mm\n") DRILL("a", "5.8mm") "depth = 7.9 mm\n", 16, "pass.made:depth",
     "the hole is 7.9 mm deep at its full diameter, and the reamer needs 8 mm",
     "drill it at least 8 mm deep, or make the reamed length shorter"},
    {TAP("depth = 8 mm\n") DRILL("a", "5mm") "depth = 10.4 mm\n", 17, "pass.made:depth",
     "the hole is 10.4 mm deep at its full diameter, and the tap with its chamfer needs 10.5 mm",
     "or make the thread shorter; a bottoming tap has lead = 1.5"},
    {"[pass.made]\nwork = thread-mill\nthread = M6\ndepth = 8 mm\n" DRILL("a",
                                                                          "5mm") "depth = 8.9 mm\n",
     16, "pass.made:depth",
     "8.9 mm deep at its full diameter, and the thread mill with a pitch below needs 9 mm",
     "or make the thread shorter"},
};
#define FAULTS (sizeof faults / sizeof *faults)

START_TEST(holes_that_do_not_suit_are_refused)
{
    char text[1200];
    bite_error error = BITE_ERROR_INIT;
    (void)snprintf(text, sizeof text, PLATE "%s", faults[_i].passes);
    fault_list *of = faults_of(text, strlen(text), &error);
    ck_assert_msg(of->count == 1, "%u faults: %s; %s", of->count, of->texts[0], of->texts[1]);
    ck_assert_msg(of->lines[0] == faults[_i].line, "line %u: %s", of->lines[0], of->texts[0]);
    ck_assert_str_eq(error.key, faults[_i].key);
    ck_assert_msg(strstr(error.message, faults[_i].says) != NULL, "%s", error.message);
    ck_assert_msg(strstr(error.hint, faults[_i].hint) != NULL, "%s", error.hint);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("hole plan");
    TCase *tests = tcase_create("hole plan");
    tcase_add_checked_fixture(tests, job_setup_holes, job_teardown);
    tcase_add_loop_test(tests, the_hole_that_suits_best_is_taken, 0, (int)CHOSEN);
    tcase_add_test(tests, a_thread_in_its_hole);
    tcase_add_test(tests, wide_drills_follow_a_pilot);
    tcase_add_loop_test(tests, holes_that_do_not_suit_are_refused, 0, (int)FAULTS);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
