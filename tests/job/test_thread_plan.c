/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Threads that are milled: mill, cut, path, times, what they sweep, and faults. */
#include "core/job/hole_plan.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PLATE                                                                                      \
    HEAD "[part]\nmaterial = 6061\nlength = 80 mm\nwidth = 60 mm\nthickness = 12 mm\n"             \
         "[machine]\nname = small-vmc\n[hold]\nmethod = vise\n"
#define STATED "spindle = 8000rpm\nfeed = 400mm/min\n"
#define HOLE(drill)                                                                                \
    "[pass.hole]\nwork = drill\ntool = " drill "\nspindle = 3000rpm\nfeed = 300mm/min\n"

/* By hand: at most 0.7 of the thread and 0.2 mm less than the hole, of a pitch that it cuts. */
static const struct {
    const char *thread;
    const char *drill;
    const char *mill;
} mills[] = {
    {"M2", "drill-1.6", "tm-1.4"},     {"M3", "drill-2.5", "tm-2.1"},
    {"M4", "drill-3.3", "tm-2.8"},     {"M5", "drill-4.2", "tm-3.5"},
    {"M6", "drill-5", "tm-4.2"},       {"M8", "drill-6.8", "tm-5.6"},
    {"M10", "drill-8.5", "tm-7"},      {"M12", "drill-10.2", "tm-8.4"},
    {"M8x1", "drill-7", "tm-5.6"},     {"10-24", "drill-no25", "tm-3.3"},
    {"1/4-20", "drill-no7", "tm-4.4"},
};
#define MILLS (sizeof mills / sizeof *mills)

START_TEST(the_largest_mill_that_fits_is_taken)
{
    bite_job *job =
        plan_of(PLATE "[pass.thread]\nwork = thread-mill\ndepth = 4 mm\nthread = %s\n" STATED
                      "[pass.hole]\nwork = drill\ntool = %s\nspindle = 2000rpm\n"
                      "feed = 100mm/min\n",
                mills[_i].thread, mills[_i].drill);
    const bite_planned_pass *pass = &job->passes[place_of(job, "thread")];
    ck_assert_str_eq(job->tools[pass->tool].name, mills[_i].mill);
    ck_assert_uint_eq(place_of(job, "hole"), 0);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* At hand for M6, 8 mm deep, or from the table: the largest that fits; of the two kinds that which
 * is as sound and faster, where the shop has said what it has. */
static const struct {
    const char *material;
    const char *at_hand;
    const char *mill;
    const char *why;
} choices[] = {
    {"6061", "at_hand = drill-5 tm-3.5 tm-4.2\n", "tm-4.2", "largest that fits the thread"},
    {"6061", "at_hand = drill-5 tm-5.6 tm-4.4 tm-4.2\n", "tm-4.2", "largest that fits"},
    {"6061", "at_hand = drill-5 tmf-1\n", "tmf-1", "largest that fits the thread"},
    {"acetal", "at_hand = drill-5 tm-4.2 tmf-1\n", "tmf-1", "and is faster than tm-4.2"},
    {"acetal", "at_hand = drill-5 tmf-1 tm-4.2\n", "tmf-1", "and is faster than tm-4.2"},
    {"304", "at_hand = drill-5 tm-4.2 tmf-1\n", "tm-4.2", "largest that fits the thread"},
    {"acetal", "", "tm-4.2", "the full-form mill tmf-1 needs one turn for it"},
};
#define CHOICES (sizeof choices / sizeof *choices)

START_TEST(mills_at_hand)
{
    bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 80 mm\nwidth = 60 mm\n"
                                 "thickness = 12 mm\n[machine]\nname = small-vmc\n"
                                 "[hold]\nmethod = vise\n[tools]\n%s[pass.thread]\n"
                                 "work = thread-mill\nthread = M6\ndepth = 8 mm\n" HOLE("drill-5"),
                            choices[_i].material, choices[_i].at_hand);
    const bite_planned_pass *pass = &job->passes[place_of(job, "thread")];
    const bite_planned_tool *tool = &job->tools[pass->tool];
    ck_assert_str_eq(tool->name, choices[_i].mill);
    ck_assert_msg(strstr(tool->why, choices[_i].why) != NULL, "%s", tool->why);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* What a shop without the right mill is told. M3, 8 mm deep, needs 8 mm and half of its pitch. In
 * M1.6 a hole of 75 % is 1.6 - 0.75 x 1.299 x 0.35 = 1.259 mm wide, and a mill 0.2 mm less. */
static const struct {
    const char *at_hand;
    const char *thread;
    const char *hole;
    const char *says;
    const char *hint;
} absent[] = {
    {"[tools]\nat_hand = tm-3.5\n", "M6", "5mm", "at_hand has no thread mill for this thread",
     "add tm-4.2 to at_hand, or name it: tool = tm-4.2"},
    {"[tools]\nat_hand = tm-2.1\n", "M3", "2.5mm",
     "the longest thread mill of at_hand for this thread, tm-2.1, reaches 8 mm, and this pass "
     "needs 8.25 mm",
     "make the thread shorter, or add a longer thread mill"},
    {"[tools]\nat_hand = 3mm\n", "M1.6", "1.25mm", "at_hand has no thread mill for this thread",
     "add one of at most 1.059 mm to tools.ini, or tap the thread"},
    {"[tools]\nchange = 9 s\n", "M1.6", "1.25mm", "the table has no thread mill for this thread",
     "add one of at most 1.059 mm to tools.ini, or tap the thread"},
};
#define ABSENT (sizeof absent / sizeof *absent)

START_TEST(mills_that_are_not_there)
{
    char text[1200];
    bite_error error = BITE_ERROR_INIT;
    (void)snprintf(text, sizeof text,
                   PLATE "%s[pass.thread]\nwork = thread-mill\nthread = %s\ndepth = 8 mm\n"
                         "[pass.hole]\nwork = drill\ntool = %s\n",
                   absent[_i].at_hand, absent[_i].thread, absent[_i].hole);
    fault_list *of = faults_of(text, strlen(text), &error);
    ck_assert_msg(of->count == 1, "%u faults: %s; %s", of->count, of->texts[0], of->texts[1]);
    ck_assert_uint_eq(of->lines[0], 15);
    ck_assert_str_eq(error.key, "pass.thread:tool");
    ck_assert_msg(strstr(error.message, absent[_i].says) != NULL, "%s", error.message);
    ck_assert_msg(strstr(error.hint, absent[_i].hint) != NULL, "%s", error.hint);
}
END_TEST

/* M6 in a hole of 5 mm with a mill of 4 mm, 8 mm of thread: 9 turns on a circle of 2 mm. The groove
 * is 1/8 + 1/2 tan 30 mm wide in the mean, and the arc of contact that of (36 - 25)/(4 (6 - 4)). */
START_TEST(cut_and_path_follow_from_thread_hole_and_mill)
{
    bite_job *job = plan(PLATE "[pass.thread]\nwork = thread-mill\nthread = M6\ntool = 4mm\n"
                               "depth = 8 mm\ncount = 3\n" STATED HOLE("5mm") "count = 3\n");
    const bite_planned_pass *pass = &job->passes[place_of(job, "thread")];
    const bite_planned_thread_mill *mill = &pass->hole.mill;
    const bite_cut *cut = &pass->answer->full;
    ck_assert_uint_eq(mill->passes, 1);
    ck_assert_double_eq_tol(cut->depth, 1e-3 * (0.125 + 0.5 / sqrt(3.0)), 1e-9);
    ck_assert_double_eq_tol(cut->width, 11.0e-3 / 8.0, 1e-9);
    ck_assert_double_eq_tol(cut->neck_length, 8e-3, 1e-12);
    ck_assert_double_eq_tol(mill->path.turns, 9.0, 1e-9);
    double length = 9e-3 * hypot(2.0 * M_PI, 1.0);
    ck_assert_double_eq_tol(mill->length, length, 1e-9);
    ck_assert_double_eq_tol(mill->path.diameters[0], 6e-3, 1e-12);
    ck_assert_double_eq_tol(60e3 * mill->path.feeds[0], 133.0,
                            1e-6); /* 400 (6 - 4)/6, rounded down */
    ck_assert_double_eq_tol(pass->feed_seconds, 3.0 * length / mill->path.feeds[0], 1e-6);
    ck_assert_uint_eq(pass->entry.kind, BITE_ENTER_ARC);
    ck_assert_double_eq_tol(pass->entry.length, 1e-3 * M_PI, 1e-9); /* twice pi/2 of 1 mm */
    ck_assert_double_eq_tol(pass->depth, 8e-3, 1e-12);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* Passes with equal requests share an answer, and each has its own path; the last pass is judged
 * again, with the sheet. */
START_TEST(threads_of_other_depths_have_paths_of_their_own)
{
    bite_job *job =
        plan(PLATE
             "[pass.deep]\nwork = thread-mill\nthread = M6\ndepth = 10 mm\n" STATED
             "[pass.low]\nwork = thread-mill\nthread = M6\ndepth = 5 mm\n" STATED
             "[pass.again]\nwork = thread-mill\nthread = M6\ndepth = 5 mm\n" STATED
             "[pass.more]\nwork = thread-mill\nthread = M6\ndepth = 6 mm\n" STATED HOLE("drill-5"));
    const bite_planned_pass *deep = &job->passes[place_of(job, "deep")];
    const bite_planned_pass *low = &job->passes[place_of(job, "low")];
    const bite_planned_pass *again = &job->passes[place_of(job, "again")];
    ck_assert_double_eq_tol(deep->hole.mill.length / low->hole.mill.length, 11.0 / 6.0, 1e-9);
    ck_assert_ptr_eq(low->answer, again->answer);
    ck_assert_uint_eq(again->hole.mill.passes, 1);
    ck_assert_double_eq_tol(again->hole.mill.length, low->hole.mill.length, 1e-12);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* The mill sweeps the thread, not its own diameter: from (30, 30) to the head of an M4 screw, 9 mm
 * wide, at (40, 30) there are 10 - 3 - 4.5 mm. */
START_TEST(a_thread_sweeps_its_own_diameter)
{
    bite_job *job =
        plan(HEAD "[part]\nmaterial = 6061\nlength = 80 mm\nwidth = 60 mm\nthickness = 12 mm\n"
                  "[machine]\nname = small-vmc\n[hold]\nmethod = screws\nscrew = 4 mm\n"
                  "[screw.one]\nat = 40 mm 30 mm\n[pass.thread]\nwork = thread-mill\nthread = M6\n"
                  "at = 30 mm 30 mm\ndepth = 8 mm\n" STATED HOLE("drill-5"));
    const bite_planned_pass *pass = &job->passes[place_of(job, "thread")];
    ck_assert_double_eq_tol(pass->clearance, 2.5e-3, 1e-9);
    bite_job_free(job);
}
END_TEST

/* In inches the feed of the centre is in tenths of an inch a minute. */
START_TEST(feeds_are_what_a_control_takes)
{
    bite_job *job =
        plan(HEAD "[job]\nunits = inch\n[part]\nmaterial = 6061\nlength = 3 in\n"
                  "width = 2 in\nthickness = 0.5 in\n[machine]\nname = small-vmc\n[hold]\n"
                  "method = vise\n[pass.thread]\nwork = thread-mill\nthread = 1/4-20\n"
                  "depth = 0.25 in\n" HOLE("drill-no7"));
    const bite_planned_pass *pass = &job->passes[place_of(job, "thread")];
    double entered = pass->hole.mill.path.feeds[0] * 60.0 / 25.4e-3;
    double rpm = 60.0 * pass->answer->full.spindle_speed;
    ck_assert_double_eq_tol(10.0 * entered, round(10.0 * entered), 1e-6);
    ck_assert_double_eq_tol(rpm / 10.0, round(rpm / 10.0), 1e-6);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* The fault is at the line of its key. Line 13 is that of [pass.thread]. */
static const struct {
    const char *keys; /* of the thread, one line for each */
    const char *hole;
    uint32_t line;
    const char *says;
} faults[] = {
    {"thread = M6\ndepth = 8 mm\ntool = 4.21mm\n", "5mm", 17, "too large for this thread"},
    {"thread = M6\ndepth = 11.9 mm\ntool = tm-3.5\n", "5mm", 17, "does not cut a pitch of 1 mm"},
    {"thread = M5\ndepth = 7 mm\ntool = tm-2.1\n", "4.2mm", 17, "does not cut a pitch of 0.8 mm"},
    {"thread = M3\ndepth = 8 mm\ntool = tm-2.1\n", "2.5mm", 17,
     "too short: teeth and neck reach 8 mm"},
    {"thread = M3\ndepth = 8 mm\n", "2.5mm", 13, "the longest thread mill of the table"},
    {"thread = M6\ndepth = 8 mm\ntool = drill-4\n", "5mm", 17, "drill-4 is not a thread mill"},
    {"thread = M6\ndepth = 8 mm\n", "6mm", 13, "no pass makes a hole that suits this thread"},
    {"thread = M6\ndepth = 8 mm\nhole = hole\n", "5.8mm", 17, "does not suit this thread"},
    {"thread = M6\ndepth = 8 mm\npass_depth = 1 mm\n", "5mm", 17, "pass_depth has no effect"},
    {"depth = 8 mm\n", "5mm", 13, "names no thread to be milled"},
};
#define FAULTS (sizeof faults / sizeof *faults)

START_TEST(what_spoils_a_thread_is_refused)
{
    char text[1200];
    (void)snprintf(text, sizeof text,
                   PLATE "[pass.thread]\nwork = thread-mill\n%s[pass.hole]\n"
                         "work = drill\ntool = %s\n",
                   faults[_i].keys, faults[_i].hole);
    assert_refused(text, faults[_i].line, faults[_i].says);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("thread plan");
    TCase *threads = tcase_create("thread plan");
    tcase_add_checked_fixture(threads, job_setup_holes, job_teardown);
    tcase_add_loop_test(threads, the_largest_mill_that_fits_is_taken, 0, (int)MILLS);
    tcase_add_loop_test(threads, mills_at_hand, 0, (int)CHOICES);
    tcase_add_loop_test(threads, mills_that_are_not_there, 0, (int)ABSENT);
    tcase_add_test(threads, cut_and_path_follow_from_thread_hole_and_mill);
    tcase_add_test(threads, threads_of_other_depths_have_paths_of_their_own);
    tcase_add_test(threads, a_thread_sweeps_its_own_diameter);
    tcase_add_test(threads, feeds_are_what_a_control_takes);
    tcase_add_loop_test(threads, what_spoils_a_thread_is_refused, 0, (int)FAULTS);
    tcase_set_timeout(threads, 120);
    suite_add_tcase(suite, threads);
    return bite_test_run(suite);
}
