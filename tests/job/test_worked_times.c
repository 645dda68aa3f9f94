/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The time of whole jobs, worked by hand. Every expected number is that of the comment beside it.
 *
 * A move of length L from rest to rest at a speed v, with an acceleration a, takes L/v + v/a if
 * L >= v^2/a, else 2 sqrt(L/a): half of it speeds up, half slows down. Around a corner of 90 deg
 * that a control cuts short by d it keeps vc = sqrt(a d sin45/(1 - sin45)), an arc whose
 * acceleration is a; each straight piece between two corners loses (v - vc)^2/(a v).
 *
 * a = 0.5 m/s2 and d = 0.02 mm: vc = sqrt(1e-5 x 2.41421) = 4.913466 mm/s. At 10 mm/s a piece loses
 * 5.086534^2/5000 = 5.174566 ms, at 5 mm/s 0.086534^2/2500 = 0.002995 ms.
 *
 * At a rapid of 50 mm/s: 2 mm up takes 2 sqrt(0.002/0.5) = 0.1264911 s, 10 mm 0.2 + 0.1 = 0.3 s,
 * 100 mm, the part's length, 2 + 0.1 = 2.1 s. From one feature to the next: 2.1 + 2 x 0.3 = 2.7 s.
 */
#include "tests/job/job_fixture.h"
#include <math.h>

#define ALUMINIUM                                                                                  \
    "[part]\nmaterial = aluminium/6061-T6\nlength = 100 mm\nwidth = 60 mm\nthickness = 10 mm\n"
#define MOTION "acceleration = 0.5 m/s2\ncorner_deviation = 0.02 mm\nrapid = 3000 mm/min\n"
#define MILL_6 "tool = 6mm\nspindle = 9000rpm\n"

typedef struct worked_pass {
    const char *name;
    double feed; /* s, of all parts */
    double cutting;
    double entry;
    double moves;
} worked_pass;

static void assert_pass(const bite_job *job, const worked_pass *worked)
{
    const bite_planned_pass *pass = &job->passes[place_of(job, worked->name)];
    double cutting = pass->seconds - pass->entry_seconds - pass->move_seconds;
    bite_assert_near(pass->feed_seconds, worked->feed, 1e-7);
    bite_assert_near(cutting, worked->cutting, 1e-7);
    bite_assert_near(1.0 + pass->entry_seconds, 1.0 + worked->entry, 1e-7);
    bite_assert_near(pass->move_seconds, worked->moves, 1e-7);
}

static const worked_pass worked_passes[] = {
    /* The blank is 108 x 68 mm: with steps of 4 mm 17 rows of 108 + 6 mm, and 68 mm across: 2006 mm
     * and 34 corners. At 10 mm/s 200.6 s, and 34 x 5.174566 ms = 0.1759352 s; twice. Down at a
     * third of the feed: 2/3.3333 + 0.0033333/0.5 = 0.6066667 s, up 0.1264911; no way over: 0.6 s.
     */
    {"top", 401.2, 401.5518705, 0.0, 2.6663156},
    /* Two steps of 1 mm in 3 slots of 2 parts: 12 laps of 14 mm with four corners: 1.4 s and
     * 20.698264 ms. A ramp of 5 deg over 1 mm is 11.473713 mm long and 11.430052 mm level: in a
     * slot of 14 mm, 8 mm for the centre of the tool, that takes two legs, at 5 mm/s 1.1473713 +
     * 0.01 s each. Down at 5 mm/s 0.41 s, up 0.1264911; 6 ways of 2.7 s. */
    {"slot", 16.8, 17.0483792, 27.7769118, 22.6378933},
    /* 40 x 30 mm less (4 - pi) 3^2 in the corners is 1192.27433 mm2; in laps of 2 mm 596.137167 mm,
     * 15/2 = 8 of them with four corners each: 59.6137167 s and 32 x 5.174566 ms. A plunge of 2 mm
     * at 2 mm/s takes 1.004 s, and so does the way down to it. */
    {"pocket", 119.2274334, 119.5586056, 2.008, 7.6609822},
    /* Two steps of 5 mm: four laps of 320 mm at 5 mm/s, and 4 x 0.002995 ms. On and off the wall by
     * a quarter of a circle of 3 mm: 2 (4.712389/5 + 0.01) s. Down at a third of the feed: 1.2 +
     * 0.0033333 s. */
    {"edge", 256.0, 256.0000479, 7.6198224, 10.7192978},
    /* Eight holes of 6 mm and 1/tan 59 deg = 0.600861 mm for the point, in four pecks, at 2 mm/s:
     * 6.600861/2 s, and 4 ms for each peck. Out and in again half of the hole and 2 mm above it:
     * 5.300430 mm, 0.1060086 + 0.1 s, twice for each peck; 8 ways of 2.7 s. */
    {"hole", 26.4034424, 26.5314424, 0.0, 34.7845507},
};

/* Two parts, each a blank in the vise. After each blank the first tool comes back: its drill, the
 * mill again, and the drill are three changes of 60 s. Five starts of the spindle, 4 s each, one
 * for each change and one for each blank; zero once. The vise takes 60 s to load and 20 s to open,
 * and a part 40 s to clean. */
START_TEST(a_job_in_the_vise)
{
    bite_job *job = plan(
        HEAD ALUMINIUM
        "count = 2\n[stock]\nnominal = 12 mm\nfaces = top\nmargin = 4 mm\n"
        "[machine]\n" MOTION "spindle_start = 4 s\nset_zero = 200 s\n[tools]\nchange = 60 s\n"
        "[hold]\nmethod = vise\n"
        "[pass.top]\nwork = face\nwidth = 4 mm\ndepth = 1 mm\npass_depth = 1 mm\nfeed = "
        "600mm/min\n" MILL_6
        "[pass.slot]\nwork = slot\ncount = 3\nlength = 14 mm\ndepth = 2 mm\npass_depth = 1 mm\n"
        "entry = ramp\nramp_angle = 5 deg\nentry_feed = 300mm/min\nfeed = 600mm/min\n" MILL_6
        "[pass.pocket]\nwork = pocket\nlength = 40 mm\nacross = 30 mm\ndepth = 2 mm\nwidth = 2 mm\n"
        "pass_depth = 2 mm\nrest = no\nentry = plunge\nentry_feed = 120mm/min\n"
        "feed = 600mm/min\n" MILL_6
        "[pass.hole]\nwork = drill\ntool = 2mm\ncount = 4\ndepth = 6 mm\npass_depth = 2 mm\n"
        "spindle = 3000rpm\nfeed = 120mm/min\n"
        "[pass.edge]\nwork = contour\nlength = 320 mm\nwidth = 0.5 mm\ndepth = 10 mm\n"
        "pass_depth = 5 mm\nfeed = 300mm/min\n" MILL_6);
    const bite_planned_time *time = &job->time;
    double cutting = 0.0;
    double ways = 0.0;
    for (size_t i = 0; i < sizeof worked_passes / sizeof *worked_passes; i++) {
        assert_pass(job, &worked_passes[i]);
        cutting += worked_passes[i].cutting;
        ways += worked_passes[i].entry + worked_passes[i].moves;
    }
    bite_assert_near(time->cutting, cutting, 1e-7);
    bite_assert_near(time->ways, ways, 1e-7);
    bite_assert_near(time->rapids, 1.2 + (6 + 2 + 2 + 8) * 2.7, 1e-9);
    ck_assert_uint_eq(time->tool_changes, 3);
    ck_assert_uint_eq(time->tool_changer, 0);
    bite_assert_near(time->tool_changing, 180.0, 1e-9);
    bite_assert_near(time->spindle_starts, 20.0, 1e-9);
    bite_assert_near(time->zeroing, 200.0, 1e-9);
    bite_assert_near(time->mounting, 120.0, 1e-9);
    bite_assert_near(time->releasing, 40.0, 1e-9);
    bite_assert_near(time->cleaning, 80.0, 1e-9);
    bite_assert_near(time->hands, 180.0 + 200.0 + 120.0 + 40.0 + 80.0, 1e-9);
    bite_assert_near(time->machine_alone, cutting + ways + 20.0, 1e-7);
    ck_assert_double_eq(time->cure + time->soak + time->pauses + time->waiting, 0.0);
    bite_assert_near(time->whole, cutting + ways + 400.0 + 120.0 + 120.0, 1e-7);
    ck_assert(isnan(time->overlapped) && isnan(time->corrected)); /* a vise is on the machine */
    bite_job_free(job);
}
END_TEST

/* The path of one lap of each kind of work, in mm, and its corners; tools of 6 mm. A slot 14 mm
 * wide takes 1 + 8/2.4 = 5 laps with steps of 0.4 x 6 mm, three with steps of 4 mm. In a bore of 20
 * mm the centre goes round pi x 14 mm, in one of 6.2 mm round at least a tenth of the tool. Round
 * the part, at 3 mm from it, 2 (100 + 60) + 4 x 6 mm; round a boss of 40 x 30 mm 2 x 70 + 2 pi 3
 * mm. A tap goes in and out again, 8 mm each; a reamer 7 mm. At 10 mm/s a corner slows a tool down
 * to 4.913466/10 of its chip load; a hole has none. */
START_TEST(laps_of_every_work)
{
#define AT_600 "depth = 1 mm\npass_depth = 1 mm\nfeed = 600mm/min\n" MILL_6
    static const struct {
        const char *text;
        double lap;
        double corners;
    } works[] = {
        {"work = slot\nlength = 50 mm\nacross = 14 mm\n" AT_600, 250.0, 4.0},
        {"work = slot\nlength = 50 mm\nacross = 6 mm\n" AT_600, 50.0, 4.0},
        {"work = bore\nacross = 20 mm\n" AT_600, 43.9822972, 1.0},
        {"work = bore\nacross = 6.2 mm\n" AT_600, 1.8849556, 1.0},
        {"work = contour\n" AT_600, 344.0, 4.0},
        {"work = contour\naround = boss\nlength = 40 mm\nacross = 30 mm\n" AT_600, 158.8495559,
         4.0},
    };
    for (size_t i = 0; i < sizeof works / sizeof *works; i++) {
        bite_job *job =
            plan_of(HEAD ALUMINIUM "[machine]\n" MOTION "[hold]\nmethod = tape\n[pass.a]\n%s",
                    works[i].text);
        const bite_planned_pass *pass = &job->passes[0];
        bite_assert_near(1e3 * pass->lap, works[i].lap, 1e-8);
        bite_assert_near(pass->feed_seconds, 0.1 * works[i].lap, 1e-8);
        bite_assert_near(pass->corners, works[i].corners, 1e-12);
        bite_assert_near(pass->slowed, 0.4913466, 1e-6);
        bite_job_free(job);
    }
    bite_job *job =
        plan(HEAD ALUMINIUM
             "[machine]\n" MOTION "[hold]\nmethod = vise\n"
             "[pass.first]\nwork = drill\ntool = 5mm\nspindle = 3000rpm\nfeed = 120mm/min\n"
             "[pass.tap]\nwork = tap\nthread = M6\ndepth = 8 mm\nspindle = 300rpm\n"
             "[pass.second]\nwork = drill\ntool = 5.8mm\nspindle = 3000rpm\nfeed = 120mm/min\n"
             "[pass.ream]\nwork = ream\ntool = 6mm\ndepth = 7 mm\nspindle = 300rpm\n"
             "feed = 60mm/min\n");
    const bite_planned_pass *tap = &job->passes[place_of(job, "tap")];
    const bite_planned_pass *ream = &job->passes[place_of(job, "ream")];
    bite_assert_near(tap->lap, 16e-3, 1e-9);
    bite_assert_near(tap->feed_seconds, 16.0 / 5.0, 1e-9); /* a pitch of 1 mm, 5 turns a second */
    bite_assert_near(ream->lap, 7e-3, 1e-9);
    ck_assert_double_eq(tap->slowed, 1.0);
    ck_assert_double_eq(ream->slowed, 1.0);
    bite_job_free(job);
}
END_TEST

/* With a ramp of 0.1 s to full acceleration the jerk is j = 5 m/s3. A speed below a^2/j = 50 mm/s
 * is reached without full acceleration, in 2 sqrt(v/j): 40 ms for 2 mm/s, so that a peck
 * of 1.650215 mm takes 0.8251076 + 0.04 s. A move that reaches neither speed nor acceleration has
 * four equal parts of t, L = 2 j t^3: 5.300430 mm take 4 (5.300430e-4)^(1/3) = 0.3237157 s. 10 mm
 * and 0.2 s of full ramps, 2 x 0.2 x 50/2 mm, are just all of the way of 10 mm: 0.4 s; 100 mm
 * take 2.2 s. */
START_TEST(jerk_makes_every_move_longer)
{
    bite_job *job = plan(HEAD ALUMINIUM "[machine]\nramp = 0.1 s\n" MOTION
                                        "[hold]\nmethod = vise\n[pass.hole]\nwork = drill\n"
                                        "tool = 2mm\ndepth = 6 mm\npass_depth = 2 mm\n"
                                        "spindle = 3000rpm\nfeed = 120mm/min\n");
    double moves = 4.0 * 2.0 * 0.3237157 + 2.2 + 2.0 * 0.4;
    const worked_pass worked = {"hole", 3.3004303, 3.3004303 + 4.0 * 0.04, 0.0, moves};
    assert_pass(job, &worked);
    bite_job_free(job);
}
END_TEST

/* On tape all parts of a blank are cut together, and nothing is unloaded between them: two tools
 * are one change. The tape takes 120 s of its 300 s to flow. Meanwhile the next blank can be
 * mounted. */
START_TEST(a_job_on_tape)
{
    bite_job *job = plan(HEAD ACRYLIC "count = 6\n[tools]\nchange = 60 s\n[machine]\n"
                                      "spindle_start = 4 s\nset_zero = 200 s\n"
                                      "[hold]\nmethod = tape\n"
                                      "[pass.hole]\nwork = drill\ntool = 3mm\n" GIVEN ONE_PASS);
    const bite_planned_time *time = &job->time;
    ck_assert_uint_eq(job->stock.blanks, 1);
    ck_assert_uint_eq(time->tool_changes, 1);
    bite_assert_near(time->changes, 60.0 + 2.0 * 4.0 + 200.0, 1e-9);
    bite_assert_near(time->mounting, 180.0, 1e-9);
    bite_assert_near(time->cure, 120.0, 1e-9);
    bite_assert_near(time->releasing, 180.0, 1e-9);
    bite_assert_near(time->cleaning, 6 * 40.0, 1e-9);
    bite_assert_near(time->waiting, 120.0, 1e-9);
    double hands = 60.0 + 200.0 + 180.0 + 180.0 + 240.0;
    double machine = time->cutting + time->ways + time->pauses + 268.0;
    bite_assert_near(time->hands, hands, 1e-9);
    bite_assert_near(time->overlapped, fmax(fmax(hands, machine), 0.5 * time->whole), 1e-9);
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("worked times");
    TCase *tests = tcase_create("worked times");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, a_job_in_the_vise);
    tcase_add_test(tests, laps_of_every_work);
    tcase_add_test(tests, jerk_makes_every_move_longer);
    tcase_add_test(tests, a_job_on_tape);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
