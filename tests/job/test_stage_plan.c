/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pockets in stages: what each removes, when two tools are worth it, and what the file may say. */
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PART                                                                                       \
    HEAD "[part]\nmaterial = acrylic/cast\nlength = 120 mm\nwidth = 90 mm\nthickness = 8 mm\n"     \
         "[machine]\nname = bench-24k\n[hold]\nmethod = tape\n[tools]\nat_hand = 1.5mm 3mm 6mm\n"
#define POCKET                                                                                     \
    "[pass.a]\nwork = pocket\nlength = 80 mm\nacross = 50 mm\ndepth = 3 mm\ninside_radius = 0.8 "  \
    "mm\n"

static const bite_planned_pass *stage_of(const bite_job *job, const char *name, uint32_t stage)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        if (strcmp(job->passes[i].name, name) == 0 && job->passes[i].stage == stage) {
            return &job->passes[i];
        }
    }
    return NULL;
}

/* What is left in a corner of radius r after a tool of radius R is (1 - pi/4)(R^2 - r^2). */
START_TEST(a_large_pocket_with_small_corners_takes_two_tools)
{
    bite_job *job = plan(PART POCKET);
    const bite_planned_pass *rough = stage_of(job, "a", BITE_STAGE_ROUGH);
    const bite_planned_pass *corners = stage_of(job, "a", BITE_STAGE_CORNERS);
    ck_assert(rough != NULL && corners != NULL);
    ck_assert_uint_eq(job->pass_count, 2);
    ck_assert(rough < corners);
    double large = 0.5 * job->tools[rough->tool].diameter;
    ck_assert_double_gt(large, 0.75e-3);
    bite_assert_near(job->tools[corners->tool].diameter, 1.5e-3, 1e-9);
    bite_assert_near(corners->area, 4.0 * (1.0 - M_PI_4) * (large * large - 0.8e-3 * 0.8e-3), 1e-9);
    bite_assert_near(rough->area + corners->area, 80e-3 * 50e-3 - (4.0 - M_PI) * 0.8e-3 * 0.8e-3,
                     1e-9);
    bite_assert_near(corners->answer->full.inside_radius, 0.8e-3, 1e-9);
    ck_assert(corners->answer->full.width <= 0.25 * 1.5e-3 * 1.0001);
    /* Laps as wide as the cut from the corner of the larger tool, (sqrt 2 - 1)(R - r) deep, each
     * along both walls, round the corner, and on and off. */
    double left = large - 0.8e-3;
    double laps = ceil(0.41421356 * left / corners->answer->full.width);
    bite_assert_near(corners->lap, 4.0 * laps * (2.0 * left + M_PI_2 * 0.05e-3 + 1.5e-3), 1e-9);
    bite_assert_near(corners->corners, 4.0 * laps, 1e-12);
    ck_assert(isnan(rough->answer->full.inside_radius));
    ck_assert_uint_eq(corners->entry.kind, BITE_ENTER_OUTSIDE);
    ck_assert_uint_eq(rough->ways.staged, 1);
    bite_assert_near(rough->ways.staged_seconds, rough->seconds + corners->seconds, 1e-6);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

START_TEST(a_section_may_forbid_it_or_name_its_tools)
{
    bite_job *job = plan(PART POCKET "rest = no\n");
    ck_assert_uint_eq(job->pass_count, 1);
    ck_assert_uint_eq(job->passes[0].stage, BITE_STAGE_WHOLE);
    ck_assert_ptr_null(job->passes[0].ways.alone);
    bite_job_free(job);
    job = plan(PART POCKET "rough_tool = 3mm\n");
    ck_assert_uint_eq(job->passes[0].ways.stated, 1);
    ck_assert_str_eq(job->tools[stage_of(job, "a", BITE_STAGE_ROUGH)->tool].name, "3mm");
    check_plan(job);
    bite_job_free(job);
    job = plan(PART POCKET "tool = 1mm\nrough_tool = 4mm\n");
    ck_assert_str_eq(job->tools[stage_of(job, "a", BITE_STAGE_ROUGH)->tool].name, "4mm");
    ck_assert_str_eq(job->tools[stage_of(job, "a", BITE_STAGE_CORNERS)->tool].name, "1mm");
    check_plan(job);
    bite_job_free(job);
    job = plan(PART POCKET "tool = 1.5mm\n"); /* one tool is named: it makes all of it */
    ck_assert_uint_eq(job->pass_count, 1);
    bite_job_free(job);
    assert_refused(PART POCKET "tool = 1mm\nrough_tool = 1.5mm\n", 22, "fits into them itself");
    assert_refused(PART POCKET "rough_tool = 1mm\n", 21, "not larger than the tool");
    assert_refused(PART "[pass.a]\nwork = slot\nrough_tool = 3mm\n", 17, "only a pocket");
    assert_refused(PART "[pass.a]\nwork = face\nfinish_lap = yes\n", 17, "only a pocket");
}
END_TEST

/* A tolerance or finish of its own asks for a last lap, unless a pass of the file makes it. */
START_TEST(a_tolerance_asks_for_a_last_lap)
{
    bite_job *job =
        plan(PART POCKET "tolerance = 0.02 mm\n[pass.b]\nwork = drill\ntool = 2mm\nafter "
                         "= a\n");
    const bite_planned_pass *rough = stage_of(job, "a", BITE_STAGE_ROUGH);
    const bite_planned_pass *corners = stage_of(job, "a", BITE_STAGE_CORNERS);
    const bite_planned_pass *wall = stage_of(job, "a", BITE_STAGE_WALL);
    ck_assert(rough != NULL && corners != NULL && wall != NULL);
    ck_assert(rough < corners && corners < wall);
    ck_assert_uint_eq(place_of(job, "b"), 3); /* after all of them */
    bite_assert_near(rough->area + corners->area + wall->area,
                     80e-3 * 50e-3 - (4.0 - M_PI) * 0.8e-3 * 0.8e-3, 1e-9);
    ck_assert(wall->area > 0.0 && corners->area > 0.0);
    bite_assert_near(wall->answer->full.width, rough->path.allowance, 1e-9);
    bite_assert_near(wall->answer->full.width, corners->path.allowance, 1e-9);
    ck_assert_uint_eq(&job->passes[rough->path.allowance_for] == wall, 1);
    bite_assert_near(wall->answer->full.tolerance, 0.02e-3, 1e-9);
    ck_assert(wall->path.lead > 0.0);
    /* its centre goes round 80 x 50 mm less D, with corners of the radius that is left of 0.8 mm */
    double d = wall->answer->full.diameter;
    bite_assert_near(wall->lap,
                     2.0 * (80e-3 - d + 50e-3 - d) - (8.0 - 2.0 * M_PI) * (0.8e-3 - 0.5 * d), 1e-9);
    check_plan(job);
    bite_job_free(job);
    job = plan(PART POCKET "tolerance = 0.02 mm\nfinish_lap = no\n");
    ck_assert_ptr_null(stage_of(job, "a", BITE_STAGE_WALL));
    check_plan(job);
    bite_job_free(job);
    job =
        plan(PART POCKET "tolerance = 0.02 mm\n[pass.w]\nwork = finish\nlength = 250 mm\ndepth = 3 "
                         "mm\nafter = a\ntool = 1.5mm\n");
    ck_assert_ptr_null(stage_of(job, "a", BITE_STAGE_WALL));
    check_plan(job);
    bite_job_free(job);
}
END_TEST

START_TEST(a_bore_with_a_tolerance_gets_a_last_lap)
{
    bite_job *job = plan(PART "[pass.a]\nwork = bore\nacross = 12 mm\ntolerance = 0.02 mm\n");
    const bite_planned_pass *wall = stage_of(job, "a", BITE_STAGE_WALL);
    ck_assert_ptr_nonnull(wall);
    bite_assert_near(wall->lap, M_PI * (12e-3 - job->tools[wall->tool].diameter), 1e-9);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* No larger tool, no corners, or corners that any tool leaves: nothing is compared. */
START_TEST(without_larger_tools_or_corners_there_is_one_pass)
{
    static const char *const jobs[] = {
        "[tools]\nat_hand = 1.5mm\n" POCKET,
        "[tools]\nat_hand = 1.5mm 6mm\n[pass.a]\nwork = pocket\nlength = 80 mm\nacross = 50 "
        "mm\ndepth = 3 mm\n",
        "[tools]\nat_hand = 1.5mm 6mm\n[pass.a]\nwork = pocket\nlength = 120 mm\nacross = 50 "
        "mm\ndepth = 3 mm\ninside_radius = 0.8 mm\n",
    };
    bite_job *job = plan_of(HEAD "[part]\nmaterial = acrylic/cast\nlength = 120 mm\nwidth = 90 "
                                 "mm\nthickness = 8 mm\n[machine]\nname = bench-24k\n%s",
                            jobs[_i]);
    ck_assert_uint_eq(job->pass_count, 1);
    ck_assert_uint_eq(job->passes[0].stage, BITE_STAGE_WHOLE);
    ck_assert_ptr_null(job->passes[0].ways.alone);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* Three parts one after another in a vise, each with both tools: 3 changes from one to the other,
 * and 2 back to the first. */
START_TEST(each_blank_changes_its_tools)
{
    bite_job *job = plan(HEAD "[part]\nmaterial = acrylic/cast\nlength = 60 mm\nwidth = 40 "
                              "mm\nthickness = 8 mm\ncount = 3\n[hold]\nmethod = "
                              "vise\n[tools]\nchange = 60 s\n[machine]\nname = bench-24k\n"
                              "[pass.a]\nwork = drill\ntool = 3mm\n[pass.b]\nwork = "
                              "slot\ntool = 6mm\ndepth = 1 mm\nlength = 30 mm\nafter = a\n" GIVEN);
    ck_assert_uint_eq(job->stock.blanks, 3);
    ck_assert_uint_eq(job->time.tool_changes, 5);
    bite_assert_near(job->time.tool_changing, 300.0, 1e-9);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* Whether something asks for a last lap, and whether the file makes it itself: in this setup, and
 * after this pass or, if it does not say after which, below it. */
START_TEST(what_asks_for_a_last_lap)
{
    static const struct {
        const char *keys;
        const char *other;
        int wall;
    } cases[] = {
        {"", "", 0},
        {"finish = 1.6 um\n", "", 1},
        {"tolerance = 0.05 mm\n", "", 1},
        {"finish_lap = yes\n", "", 1},
        {"tolerance = 0.05 mm\nfinish_lap = no\n", "", 0},
        {"tolerance = 0.05 mm\n", "", 0},
        {"tolerance = 0.05 mm\n", "after = b\n", 1},
        {"tolerance = 0.05 mm\n", "after = b a\n", 0},
        {"tolerance = 0.05 mm\n", "setup = 2\n", 1},
        /* too narrow for a lap beside the tool of 1.5 mm: 1.1 x 1.5 mm */
        {"across = 1.65 mm\nlength = 20 mm\nfinish_lap = yes\n", "", 0},
        {"across = 1.66 mm\nlength = 20 mm\nfinish_lap = yes\n", "", 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int finishes = i > 4 && i < 9;
        int sized = i > 8;
        bite_job *job =
            plan_of(PART "[pass.a]\nwork = pocket\ndepth = 1 mm\ntool = 1.5mm\n%s%s"
                         "[pass.b]\nwork = drill\ntool = 2mm\n%s%s",
                    sized ? "" : "length = 80 mm\nacross = 50 mm\n", cases[i].keys,
                    finishes ? "[pass.w]\nwork = finish\nlength = 250 mm\ndepth = 1 mm\n"
                               "tool = 1.5mm\n"
                             : "",
                    cases[i].other);
        ck_assert_msg((stage_of(job, "a", BITE_STAGE_WALL) != NULL) == cases[i].wall, "%zu: %d", i,
                      cases[i].wall);
        bite_job_free(job);
    }
}
END_TEST

/* The entry that the section states is that of its first stage; the corners are open by then. */
START_TEST(only_the_first_stage_enters)
{
    bite_job *job = plan(PART POCKET "tool = 1.5mm\nrough_tool = 6mm\nramp_angle = 1.5 deg\n"
                                     "entry_feed = 120 mm/min\nentry = ramp\n");
    const bite_planned_pass *rough = stage_of(job, "a", BITE_STAGE_ROUGH);
    const bite_planned_pass *corners = stage_of(job, "a", BITE_STAGE_CORNERS);
    bite_assert_near(rough->entry.angle, 1.5 * M_PI / 180.0, 1e-9);
    bite_assert_near(rough->entry.feed, 2e-3, 1e-9);
    ck_assert_uint_eq(rough->entry.kind, BITE_ENTER_RAMP);
    ck_assert_uint_eq(corners->entry.kind, BITE_ENTER_OUTSIDE);
    ck_assert(isnan(corners->entry.angle) && isnan(corners->entry.feed));
    ck_assert_ptr_nonnull(strstr(corners->entry.why, "open by now"));
    bite_job_free(job);
}
END_TEST

/* A larger tool that another pass has anyway is not one more. A drill of 6 mm in 70 sections is one
 * tool: the small mill is a second, and the larger mill a third. */
START_TEST(tools_that_are_there_anyway_cost_no_change)
{
    growing_text text = {NULL, 0, 0};
    append(&text, HEAD "[part]\nmaterial = acrylic/cast\nlength = 120 mm\nwidth = 90 mm\n"
                       "thickness = 8 mm\n[machine]\nname = bench-24k\n[hold]\nmethod = tape\n"
                       "[tools]\nat_hand = 1.5mm 6mm\nchange = 77 s\n" POCKET "rest = yes\n");
    for (int i = 0; i < 70; i++) {
        append(&text, "[pass.d%d]\nwork = drill\ntool = 3mm\n" GIVEN, i);
    }
    bite_job *many = plan(text.text);
    bite_assert_near(stage_of(many, "a", BITE_STAGE_ROUGH)->ways.change_seconds, 77.0, 1e-9);
    append(&text, "[pass.s]\nwork = slot\ntool = 6mm\nlength = 20 mm\ndepth = 1 mm\n" GIVEN);
    bite_job *there = plan(text.text);
    const bite_planned_pass *rough = stage_of(there, "a", BITE_STAGE_ROUGH);
    ck_assert_str_eq(there->tools[rough->tool].name, "6mm");
    ck_assert_double_eq(rough->ways.change_seconds, 0.0);
    bite_job_free(many);
    bite_job_free(there);
    free(text.text);
    bite_job *named = plan(PART "[pass.s]\nwork = slot\ntool = 6mm\nlength = 20 mm\ndepth = 1 mm\n"
                                "[pass.a]\nwork = pocket\nlength = 80 mm\nacross = 50 mm\n"
                                "depth = 3 mm\ninside_radius = 0.8 mm\nrough_tool = 6mm\n");
    ck_assert_uint_eq(named->tool_count, 2);
    ck_assert_ptr_nonnull(
        strstr(named->tools[stage_of(named, "a", BITE_STAGE_ROUGH)->tool].why, "named"));
    bite_job_free(named);
}
END_TEST

/* A pocket of which a side is not known, or whose settings are stated, is cut as a whole. */
START_TEST(pockets_that_have_no_stages)
{
    static const char *const pockets[] = {
        "work = pocket\nlength = 80 mm\ndepth = 3 mm\ninside_radius = 0.8 mm\nfinish_lap = yes\n",
        "work = pocket\nacross = 50 mm\ndepth = 3 mm\ninside_radius = 0.8 mm\nfinish_lap = yes\n",
        "work = pocket\nlength = 80 mm\nacross = 50 mm\ndepth = 3 mm\ninside_radius = 0.8 mm\n"
        "finish_lap = yes\ntool = 1.5mm\nspindle = 9000rpm\nfeed = 300mm/min\n",
        "work = bore\ndepth = 3 mm\nfinish_lap = yes\n",
        "work = bore\nacross = 12 mm\ndepth = 3 mm\nfinish_lap = yes\ntool = 3mm\n"
        "spindle = 9000rpm\nfeed = 300mm/min\n",
    };
    for (size_t i = 0; i < sizeof pockets / sizeof *pockets; i++) {
        bite_job *job = plan_of(PART "[pass.a]\n%s", pockets[i]);
        ck_assert_uint_eq(job->pass_count, 1);
        ck_assert_uint_eq(job->passes[0].stage, BITE_STAGE_WHOLE);
        bite_job_free(job);
    }
    /* both are given: one feed alone is not enough */
    bite_job *fed = plan(PART POCKET "feed = 300mm/min\nfinish_lap = yes\n");
    bite_job *turned = plan(PART POCKET "spindle = 9000rpm\nfinish_lap = yes\n");
    ck_assert_ptr_nonnull(stage_of(fed, "a", BITE_STAGE_WALL));
    ck_assert_ptr_nonnull(stage_of(turned, "a", BITE_STAGE_WALL));
    bite_job_free(fed);
    bite_job_free(turned);
}
END_TEST

/* Three tools in a pocket of steel, and a last lap: all three leave the same stock for it. The
 * tolerance of the part counts where the pocket has none. */
START_TEST(three_tools_leave_stock_for_the_wall)
{
    bite_job *job = plan(HEAD "[part]\nmaterial = steel/1018\nlength = 160 mm\nwidth = 120 mm\n"
                              "thickness = 12 mm\ntolerance = 0.2 mm\n[stock]\nthinnest = 12 mm\n"
                              "thickest = 12.05 mm\nfaces = none\n[machine]\nname = small-vmc\n"
                              "[tools]\nat_hand = 2mm 5mm 10mm\n[hold]\nmethod = vise\n"
                              "clamp_force = 12 kN\n[fluids]\ncoolant = flood\n[pass.a]\n"
                              "work = pocket\nlength = 120 mm\nacross = 80 mm\ndepth = 6 mm\n"
                              "inside_radius = 1 mm\nfinish_lap = yes\n");
    static const uint32_t before[] = {BITE_STAGE_ROUGH, BITE_STAGE_MIDDLE, BITE_STAGE_CORNERS};
    const bite_planned_pass *wall = stage_of(job, "a", BITE_STAGE_WALL);
    const bite_planned_pass *rough = stage_of(job, "a", BITE_STAGE_ROUGH);
    ck_assert_ptr_nonnull(wall);
    double seconds = 0.0;
    double area = wall->area;
    const char *why = "";
    for (size_t i = 0; i < 3; i++) {
        const bite_planned_pass *pass = stage_of(job, "a", before[i]);
        ck_assert_msg(pass != NULL, "stage %u", before[i]);
        why = before[i] == BITE_STAGE_MIDDLE ? job->tools[pass->tool].why : why;
        bite_assert_near(pass->leaves, wall->width, 1e-9);
        bite_assert_near(pass->path.allowance, wall->width, 1e-9);
        seconds += pass->seconds;
        area += pass->area;
    }
    ck_assert_double_ge(wall->width, 0.1e-3); /* half of the tolerance and more */
    bite_assert_near(area, 120e-3 * 80e-3 - (4.0 - M_PI) * 1e-6, 1e-9);
    ck_assert_uint_eq(rough->ways.three, 1);
    ck_assert_str_eq(rough->ways.middle, "5mm");
    bite_assert_near(rough->ways.middle_seconds, seconds, 1e-6);
    ck_assert_str_eq(why, "opens the corners for a smaller one");
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("stage plan");
    TCase *tests = tcase_create("stage plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, a_large_pocket_with_small_corners_takes_two_tools);
    tcase_add_test(tests, a_section_may_forbid_it_or_name_its_tools);
    tcase_add_test(tests, a_tolerance_asks_for_a_last_lap);
    tcase_add_test(tests, a_bore_with_a_tolerance_gets_a_last_lap);
    tcase_add_loop_test(tests, without_larger_tools_or_corners_there_is_one_pass, 0, 3);
    tcase_add_test(tests, each_blank_changes_its_tools);
    tcase_add_test(tests, what_asks_for_a_last_lap);
    tcase_add_test(tests, only_the_first_stage_enters);
    tcase_add_test(tests, tools_that_are_there_anyway_cost_no_change);
    tcase_add_test(tests, pockets_that_have_no_stages);
    tcase_add_test(tests, three_tools_leave_stock_for_the_wall);
    tcase_set_timeout(tests, 600);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
