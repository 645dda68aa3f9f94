/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The laps of walls and corners, and the motion that is assumed where a job does not state it,
 * worked by hand: every expected number is that of the comment beside it. The equations of a move
 * are those at the head of test_worked_times.c: with a = 0.5 m/s2 and d = 0.02 mm a corner is
 * rounded at vc = 4.913466 mm/s.
 */
#include "core/job/remarks.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>

#define SHEET "[part]\nmaterial = acrylic/cast\nlength = 120 mm\nwidth = 90 mm\nthickness = 8 mm\n"
#define MOTION "acceleration = 0.5 m/s2\ncorner_deviation = 0.02 mm\nrapid = 3000 mm/min\n"
#define ON_TAPE                                                                                    \
    HEAD SHEET "[machine]\nname = bench-24k\n" MOTION "[hold]\nmethod = tape\n[pass.a]\n"
#define POCKET "work = pocket\nlength = 80 mm\nacross = 50 mm\ndepth = 3 mm\n"

static const double acceleration = 0.5;          /* m/s2 */
static const double corner_speed = 4.9134659e-3; /* m/s */

static const bite_planned_pass *stage_of(const bite_job *job, uint32_t stage)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].stage == stage) {
            return &job->passes[i];
        }
    }
    ck_abort_msg("no stage %u", stage);
    return NULL;
}

/* From rest to rest, where the speed is reached. */
static double move(double length, double speed)
{
    ck_assert_double_ge(length, speed * speed / acceleration);
    return length / speed + speed / acceleration;
}

/* Round a lap whose pieces between corners are long enough to reach the feed. */
static double lap_time(double lap, double corners, double feed)
{
    double slower = feed - corner_speed;
    ck_assert_double_ge(lap / corners, (feed * feed - corner_speed * corner_speed) / acceleration);
    return lap / feed + corners * slower * slower / (acceleration * feed);
}

static double cutting_of(const bite_planned_pass *pass)
{
    return pass->seconds - pass->entry_seconds - pass->move_seconds;
}

/* 80 x 50 mm with corners of 0.8 mm: a tool of 6 mm leaves corners of 3 mm, and removes 4000 - (4 -
 * pi) 9 = 3992.274334 mm2 in laps of 0.4 x 6 mm: 1663.447639 mm, ceil(25/2.4) = 11 of them.
 *
 * A tool of 1.5 mm then takes 0.414214 x 2.2 = 0.911270 mm out of each corner, in 3 laps of at most
 * a quarter of itself: 4 x 3 times along both walls, 2 x 2.2 mm, round the rest of the radius, pi/2
 * 0.05 mm, and on and off, 1.5 mm: 12 x 5.978540 = 71.742478 mm. Between the corners it moves 65 mm
 * at 50 mm/s, 1.4 s, three times for each of its 3 steps down; to the pocket once, 2.5 + 0.6 s; up
 * by 2 mm, 0.1264911 s, and down at a third of the feed, at every corner. */
START_TEST(corners_behind_a_larger_tool)
{
    bite_job *job = plan(ON_TAPE POCKET "inside_radius = 0.8 mm\ntool = 1.5mm\nrough_tool = 6mm\n");
    const bite_planned_pass *rough = stage_of(job, BITE_STAGE_ROUGH);
    const bite_planned_pass *corners = stage_of(job, BITE_STAGE_CORNERS);
    bite_assert_near(1e3 * rough->lap, 1663.447639, 1e-9);
    ck_assert_double_eq(rough->corners, 44.0);
    ck_assert_uint_eq(corners->passes, 3);
    bite_assert_near(1e3 * corners->lap, 71.742478, 1e-8);
    ck_assert_double_eq(corners->corners, 12.0);
    double feed = corners->answer->full.feed_rate;
    bite_assert_near(corners->feed_seconds, 3.0 * 71.742478e-3 / feed, 1e-8);
    bite_assert_near(cutting_of(corners), 3.0 * lap_time(71.742478e-3, 12.0, feed), 1e-6);
    bite_assert_near(corners->slowed, corner_speed / feed, 1e-6);
    ck_assert_double_eq(corners->entry_seconds, 0.0);
    double hop = 0.1264911 + move(2e-3, feed / 3.0);
    bite_assert_near(corners->move_seconds, 4.0 * 3.0 * hop + 3.0 * 3.0 * 1.4 + 3.1, 1e-7);
    bite_job_free(job);
}
END_TEST

/* As many laps as are planned, whatever their width is when it is entered in nine digits. A tool of
 * 6 mm before one of 1 mm: 0.414214 (3 - r) mm in laps of at most 0.25 mm. */
START_TEST(corners_take_the_laps_that_are_planned)
{
    static const struct {
        double radius; /* mm */
        double laps;
    } pockets[] = {{0.5, 5.0}, {0.6, 4.0}, {0.7, 4.0}, {0.9, 4.0}, {1.0, 4.0}, {1.3, 3.0}};
    double radius = pockets[_i].radius;
    bite_job *job =
        plan_of(ON_TAPE POCKET "inside_radius = %g mm\ntool = 1mm\nrough_tool = 6mm\n", radius);
    const bite_planned_pass *corners = stage_of(job, BITE_STAGE_CORNERS);
    ck_assert_double_eq(corners->corners, 4.0 * pockets[_i].laps);
    bite_assert_near(
        1e3 * corners->lap,
        4.0 * pockets[_i].laps * (2.0 * (3.0 - radius) + 1.5707963 * (radius - 0.5) + 1.0), 1e-7);
    bite_job_free(job);
}
END_TEST

/* The wall of the same pocket: the centre of the tool goes round 78.5 x 48.5 mm, 254 mm, less (8 -
 * 2 pi) 0.05 mm at its corners. On and off by a quarter of a circle of half the tool each. */
START_TEST(a_wall_behind_the_corners)
{
    bite_job *job = plan(ON_TAPE POCKET "inside_radius = 0.8 mm\ntool = 1.5mm\nrough_tool = 6mm\n"
                                        "tolerance = 0.05 mm\n");
    const bite_planned_pass *wall = stage_of(job, BITE_STAGE_WALL);
    double laps = wall->passes + wall->springs;
    double feed = wall->answer->full.feed_rate;
    ck_assert_double_ge(laps, 1.0);
    bite_assert_near(1e3 * wall->lap, 253.9141593, 1e-9);
    ck_assert_double_eq(wall->corners, 4.0);
    bite_assert_near(wall->feed_seconds, laps * 253.9141593e-3 / feed, 1e-8);
    bite_assert_near(cutting_of(wall), laps * lap_time(253.9141593e-3, 4.0, feed), 1e-6);
    bite_assert_near(1e3 * wall->path.lead, 0.75, 1e-9);
    ck_assert_double_lt(M_PI_2 * 0.75e-3, feed * feed / acceleration); /* too short for the feed */
    bite_assert_near(wall->entry_seconds, laps * 4.0 * sqrt(M_PI_2 * 0.75e-3 / acceleration), 1e-7);
    bite_job_free(job);
}
END_TEST

/* With corners as its tool leaves them a wall has none of its own: 2 (77 + 47) = 248 mm for a tool
 * of 3 mm. In a pocket of 2.3 x 2.3 mm a tool of 2 mm would go round 1.2 mm: at least its diameter
 * is counted. Round a bore of 20 mm a tool of 6 mm goes pi 14 mm, and by 2 pi less for each
 * millimetre that is left for it. */
START_TEST(walls_of_other_features)
{
    bite_job *plain = plan(ON_TAPE POCKET "tool = 3mm\nfinish_lap = yes\n");
    bite_job *small = plan(ON_TAPE "work = pocket\nlength = 2.3 mm\nacross = 2.3 mm\ndepth = 1 mm\n"
                                   "tool = 2mm\nfinish_lap = yes\n");
    bite_job *bore = plan(ON_TAPE "work = bore\nacross = 20 mm\ndepth = 3 mm\ntool = 6mm\n"
                                  "finish_lap = yes\n");
    bite_job *next = plan(ON_TAPE "work = bore\nacross = 20 mm\ndepth = 3 mm\ntool = 6mm\n"
                                  "finish_lap = yes\n[pass.b]\nwork = bore\nacross = 12 mm\n"
                                  "depth = 3 mm\ntool = 6mm\n" GIVEN);
    const bite_planned_pass *rough = stage_of(bore, BITE_STAGE_ROUGH);
    const bite_planned_pass *other = &next->passes[place_of(next, "b")];
    ck_assert_double_eq(other->leaves, 0.0); /* nothing finishes it */
    bite_assert_near(1e3 * other->lap, 18.8495559, 1e-8);
    bite_job_free(next);
    bite_assert_near(1e3 * stage_of(plain, BITE_STAGE_WALL)->lap, 248.0, 1e-9);
    bite_assert_near(1e3 * stage_of(small, BITE_STAGE_WALL)->lap, 2.0, 1e-9);
    bite_assert_near(1e3 * stage_of(bore, BITE_STAGE_WALL)->lap, 43.9822972, 1e-8);
    ck_assert_double_gt(rough->leaves, 0.0);
    bite_assert_near(1e3 * (rough->lap + 6.2831853 * rough->leaves), 43.9822972, 1e-8);
    ck_assert_double_eq(rough->corners, 1.0);
    bite_job_free(plain);
    bite_job_free(small);
    bite_job_free(bore);
}
END_TEST

/* A step as deep as the whole hole is one peck, whatever its depth is in nine digits: with the
 * point of a drill, D/2/tan 59 deg, it is seldom a round number. */
START_TEST(a_hole_without_pecks)
{
    static const char *const drills[] = {"1mm", "1.5mm", "2mm", "2.5mm", "3mm", "4mm", "5mm"};
    for (size_t i = 0; i < sizeof drills / sizeof *drills; i++) {
        bite_job *job = plan_of(HEAD SHEET "[hold]\nmethod = tape\n[pass.a]\nwork = drill\n"
                                           "tool = %s\npass_depth = 30 mm\n" GIVEN,
                                drills[i]);
        ck_assert_msg(job->passes[0].passes == 1, "%s: %u pecks", drills[i], job->passes[0].passes);
        bite_assert_near(job->passes[0].lap, job->passes[0].depth, 1e-12);
        bite_job_free(job);
    }
}
END_TEST

#define AT_600 "tool = 6mm\nspindle = 9000rpm\nfeed = 600mm/min\n"
#define FACE "[pass.top]\nwork = face\nwidth = 4 mm\ndepth = 0.5 mm\npass_depth = 0.5 mm\n" AT_600

/* Three parts on two blanks, of two and one. A blank is faced in rows of 4 mm with a turn of two
 * corners after each, 5.174566 ms for each; the slot of 50 mm takes 5 s and four corners, 5.0206983
 * s, in each part. The tape of a blank is under load while that blank is faced, and while the slots
 * of two parts are cut. */
START_TEST(tape_is_under_load_for_its_own_blank)
{
    bite_job *job =
        plan(HEAD SHEET
             "count = 3\n[stock]\nper_blank = 2\nfaces = top\nnominal = 10 mm\n"
             "[machine]\n" MOTION "[hold]\nmethod = tape\n" FACE
             "[pass.a]\nwork = slot\nlength = 50 mm\ndepth = 1 mm\npass_depth = 1 mm\n" AT_600);
    const bite_layout *layout = &job->stock.layout;
    double rows = ceil(layout->width / 4e-3);
    double one =
        (rows * (layout->length + 6e-3) + layout->width) / 10e-3 + 2.0 * rows * 5.174566e-3;
    ck_assert_uint_eq(job->stock.blanks, 2);
    ck_assert_uint_eq(job->stock.on_each, 2);
    bite_assert_near(cutting_of(&job->passes[0]), 2.0 * one, 1e-8);
    bite_assert_near(cutting_of(&job->passes[1]), 3.0 * 5.0206983, 1e-8);
    ck_assert_double_gt(job->passes[0].answer->full.bond_exponent, 0.0);
    bite_assert_near(job->passes[0].answer->full.load_time, one, 1e-8);
    bite_assert_near(job->passes[1].answer->full.load_time, one + 2.0 * 5.0206983, 1e-8);
    bite_job_free(job);
}
END_TEST

/* Parts that were cut free lie side by side, each on its own tape, and each is faced alone: 23 rows
 * of 120 + 6 mm, and 90 mm across: 2988 mm and 46 corners, 299.038 s. */
START_TEST(tape_is_under_load_for_its_own_part)
{
    bite_job *job =
        plan(HEAD SHEET "count = 3\n[stock]\nfaces = top\nnominal = 10 mm\n[machine]\n" MOTION
                        "[hold]\nmethod = tape\n[pass.free]\nwork = cut-free\n" AT_600 FACE
                        "setup = 2\n");
    const bite_planned_pass *top = &job->passes[1];
    bite_assert_near(1e3 * top->lap, 2988.0, 1e-9);
    bite_assert_near(cutting_of(top), 3.0 * 299.03803, 1e-7);
    bite_assert_near(top->move_seconds, 3.0 * (0.1264911 + 0.6066667 + 0.6), 1e-7);
    bite_assert_near(top->answer->full.load_time, 299.03803, 1e-7);
    bite_job_free(job);
}
END_TEST

/* Round a boss of 40 x 30 mm a chamfer mill runs on arcs of half its tip, 0.2 mm, and the 0.125 mm
 * by which its cone of 45 deg is wider at the tip's depth below: 140 + 2 pi 0.325 mm. */
START_TEST(a_chamfer_round_a_boss)
{
    bite_job *job = plan(ON_TAPE "work = chamfer\ndepth = 0.5 mm\naround = boss\nlength = 40 mm\n"
                                 "across = 30 mm\ntool = cm-6-90\ntip_below = 0.125 mm\n"
                                 "spindle = 9000rpm\nfeed = 600mm/min\n");
    bite_assert_near(1e3 * job->passes[0].path.tip_offset, 0.325, 1e-9);
    bite_assert_near(1e3 * job->passes[0].path.tip_depth, 0.625, 1e-9);
    bite_assert_near(1e3 * job->passes[0].lap, 142.0420352, 1e-8);
    bite_job_free(job);
}
END_TEST

/* A slot that is wider than its tool takes laps of 0.4 diameters beside the first: 4.5 mm with 3 mm
 * one of 1.2 mm and another, 3 x 40 mm; as wide as the tool one. */
START_TEST(slots_wider_than_the_tool)
{
    static const struct {
        const char *across;
        double lap; /* mm */
    } slots[] = {{"3 mm", 40.0}, {"3.1 mm", 80.0}, {"4.5 mm", 120.0}, {"10 mm", 280.0}};
    for (size_t i = 0; i < sizeof slots / sizeof *slots; i++) {
        bite_job *job = plan_of(ON_TAPE "work = slot\nlength = 40 mm\ndepth = 0.5 mm\ntool = 3mm\n"
                                        "across = %s\nspindle = 9000rpm\nfeed = 600mm/min\n",
                                slots[i].across);
        bite_assert_near(1e3 * job->passes[0].lap, slots[i].lap, 1e-9);
        bite_job_free(job);
    }
}
END_TEST

/* A weak drive that is exact: sqrt(0.02 m/s2 x 1 um x 2.414214) = 0.2197368 mm/s round a corner, of
 * 10 mm/s. With two edges at 9000 rpm the chip is 0.2197368/300 mm = 0.73 um there, thinner than
 * the edge can cut; at 4500 rpm 1.46 um, which it can. */
START_TEST(chips_are_too_thin_in_corners)
{
    static const char *const speeds[] = {"9000rpm", "4500rpm"};
    for (size_t i = 0; i < 2; i++) {
        const bite_remark *thin = NULL;
        bite_job *job =
            plan_of(HEAD SHEET "[machine]\nacceleration = 0.02 m/s2\ncorner_deviation = 1 um\n"
                               "[hold]\nmethod = tape\n[pass.a]\nwork = slot\nlength = 40 mm\n"
                               "depth = 0.5 mm\npass_depth = 0.5 mm\ntool = 6mm\nspindle = %s\n"
                               "feed = 600mm/min\n",
                    speeds[i]);
        const bite_planned_pass *pass = &job->passes[0];
        for (size_t k = 0; k < job->remark_count; k++) {
            thin = job->remarks[k].id == BITE_REMARK_CORNERS ? &job->remarks[k] : thin;
        }
        double least = pass->answer->result.values[BITE_CHIP_THICKNESS_LEAST].value;
        ck_assert(least > 0.8e-6 && least < 1.4e-6);
        bite_assert_near(pass->slowed, 0.02197368, 1e-6);
        ck_assert_int_eq(thin != NULL, i == 0);
        ck_assert(thin == NULL || thin->values[1].quantity == pass->slowed);
        bite_job_free(job);
    }
}
END_TEST

/* A machine of which its owner states nothing that takes time. */
#define BARE_MACHINE                                                                               \
    "[format]\nkind = machines\nversion = 1\n[machine.bare]\ntitle = the mill in the corner\n"     \
    "source = memory\nspindle_slowest = 3000 rpm\nspindle_fastest = 24000 rpm\n"

/* The rapid moves of a slot 30 mm long in a part of 120 mm: 120 mm over, 10 mm up and down; 2 mm
 * up, and 2 mm down at a third of the feed, which is 10 mm/s but for one. */
START_TEST(motion_of_machines)
{
    static const struct {
        const char *machine;
        const char *feed;
        double rapids;
        double lift;
        double down;
    } motions[] = {
        /* As of the class bench-24k: 1 m/s2, and its fastest feed of 50 mm/s: 2.4 + 0.05 + 2 (0.2 +
         * 0.05) s. 2 mm are too short for it: 2 sqrt(2e-3) s. Down 0.6 + 0.003333 s. */
        {"", "600mm/min", 2.95, 0.0894427, 0.6033333},
        {"[machine]\nramp = 0 s\n", "600mm/min", 2.95, 0.0894427, 0.6033333},
        /* j = 10 m/s3: 50 mm/s are reached without full acceleration, in 2 sqrt(0.05/10) =
         * 0.1414214 s: 2.4 + 0.2 + 0.2 + 3 x 0.1414214 s. 2 mm are four equal parts, L = 2 j t^3: 4
         * (1e-4)^(1/3) s. Down 0.6 + 2 sqrt(3.333e-3/10) s. */
        {"[machine]\nramp = 0.1 s\n", "600mm/min", 3.2242641, 0.1856636, 0.6365148},
        /* 0.5 m/s2 and the feed: 12.02 + 2 x 1.02 s, 0.2 + 0.02 s, 0.6 + 0.0066667 s. */
        {"[machine]\nname = bare\n", "600mm/min", 14.06, 0.22, 0.6066667},
        /* Its table has no rapid speed: 0.3 m/s2 and its fastest feed of 25 mm/s: 4.8 + 0.083333 +
         * 2 (0.4 + 0.083333) s, 2 sqrt(2e-3/0.3) s, 0.6 + 0.0111111 s. */
        {"[machine]\nname = desktop-light\n", "600mm/min", 5.85, 0.1632993, 0.6111111},
        /* A feed of 30 mm/s is more than it can, but is taken: 4 + 0.1 + 2 (10/30 + 0.1) s; down
         * 0.2 + 0.033333 s. */
        {"[machine]\nname = desktop-light\n", "1800mm/min", 4.9666667, 0.1632993, 0.2333333},
        /* 3 m/s2 and 333.333 mm/s: 0.36 + 0.111111 + 4 sqrt(0.01/3) s, 2 sqrt(2e-3/3) s, 0.6 +
         * 0.0011111 s. */
        {"[machine]\nname = small-vmc\n", "600mm/min", 0.7020512, 0.0516398, 0.6011111},
    };
    job_own_table("machines.ini", BARE_MACHINE);
    for (size_t i = 0; i < sizeof motions / sizeof *motions; i++) {
        bite_job *job = plan_of(HEAD SHEET "[hold]\nmethod = tape\n%s[pass.a]\nwork = slot\n"
                                           "length = 30 mm\ndepth = 1 mm\npass_depth = 1 mm\n"
                                           "tool = 3mm\nspindle = 9000rpm\nfeed = %s\n",
                                motions[i].machine, motions[i].feed);
        bite_assert_near(job->time.rapids, motions[i].rapids, 1e-6);
        bite_assert_near(job->time.air, motions[i].lift + motions[i].down, 1e-6);
        bite_job_free(job);
    }
}
END_TEST

/* A shop may have no table of machines at all: it is as one of which nobody stated anything. */
START_TEST(a_shop_without_machines)
{
    char path[600];
    (void)snprintf(path, sizeof path, "%s/machines.ini", job_shop.tables);
    ck_assert_int_eq(remove(path), 0);
    bite_library_close(job_library);
    job_library = bite_test_shop_open(&job_shop, NULL);
    bite_job *job = plan(HEAD SHEET "[hold]\nmethod = tape\n[pass.a]\nwork = slot\n"
                                    "length = 30 mm\ndepth = 1 mm\npass_depth = 1 mm\n"
                                    "tool = 3mm\nspindle = 9000rpm\nfeed = 600mm/min\n");
    ck_assert_ptr_null(job->envelope.machine);
    ck_assert(isnan(job->envelope.travel[0]));
    bite_assert_near(job->time.rapids, 14.06, 1e-6);
    bite_assert_near(job->time.spindle_starts, 5.0, 1e-12);
    bite_assert_near(job->time.zeroing, 300.0, 1e-12);
    bite_job_free(job);
}
END_TEST

/* What nobody stated: 90 s for each change of a tool, 5 s for each start of the spindle, 300 s for
 * zero. A small machining centre changes its tools itself, in 8 s, and nobody waits for it. */
START_TEST(handling_of_machines)
{
    static const char holes[] = "[hold]\nmethod = tape\n[pass.a]\nwork = drill\ntool = 2mm\n" GIVEN
                                "[pass.b]\nwork = drill\ntool = 3mm\n" GIVEN;
    job_own_table("machines.ini", BARE_MACHINE);
    bite_job *bare = plan_of(HEAD SHEET "[machine]\nname = bare\n%s", holes);
    bite_job *centre = plan_of(HEAD SHEET "[machine]\nname = small-vmc\n%s", holes);
    const bite_planned_time *time = &bare->time;
    ck_assert_uint_eq(time->tool_changes, 1);
    ck_assert_uint_eq(time->tool_changer, 0);
    bite_assert_near(time->tool_changing, 90.0, 1e-12);
    bite_assert_near(time->spindle_starts, 2.0 * 5.0, 1e-12);
    bite_assert_near(time->zeroing, 300.0, 1e-12);
    bite_assert_near(time->hands, 90.0 + 300.0 + time->mounting + time->releasing + time->cleaning,
                     1e-12);
    bite_assert_near(time->machine_alone, time->cutting + time->ways + 10.0, 1e-12);
    time = &centre->time;
    ck_assert_uint_eq(time->tool_changes, 1);
    ck_assert_uint_eq(time->tool_changer, 1);
    bite_assert_near(time->tool_changing, 8.0, 1e-12);
    bite_assert_near(time->hands, time->zeroing + time->mounting + time->releasing + time->cleaning,
                     1e-12);
    bite_assert_near(time->machine_alone, time->cutting + time->ways + time->spindle_starts + 8.0,
                     1e-12);
    bite_job_free(bare);
    bite_job_free(centre);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("worked laps");
    TCase *tests = tcase_create("worked laps");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, corners_behind_a_larger_tool);
    tcase_add_loop_test(tests, corners_take_the_laps_that_are_planned, 0, 6);
    tcase_add_test(tests, a_wall_behind_the_corners);
    tcase_add_test(tests, walls_of_other_features);
    tcase_add_test(tests, a_hole_without_pecks);
    tcase_add_test(tests, tape_is_under_load_for_its_own_blank);
    tcase_add_test(tests, tape_is_under_load_for_its_own_part);
    tcase_add_test(tests, a_chamfer_round_a_boss);
    tcase_add_test(tests, slots_wider_than_the_tool);
    tcase_add_test(tests, chips_are_too_thin_in_corners);
    tcase_add_test(tests, motion_of_machines);
    tcase_add_test(tests, a_shop_without_machines);
    tcase_add_test(tests, handling_of_machines);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
