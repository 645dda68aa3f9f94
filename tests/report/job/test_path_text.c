/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a pass enters and what path it takes, in words: each kind of entry, path, hole and thread,
 * with its numbers in shop units. */
#include "core/job/plan.h"
#include "core/library/collection.h"
#include "core/report/job/path_text.h"
#include "core/request/answer.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define MM 1e-3
#define DEG 0.017453292519943295
#define NOT_GIVEN ((double)NAN)

static bite_page page;
static char text[1200];

static int swallow(void *user, const char *piece, size_t size)
{
    (void)user;
    (void)piece;
    (void)size;
    return 0;
}

static void open_page(uint32_t units)
{
    bite_style style;
    bite_style_init(&style);
    style.units = units;
    ck_assert(bite_page_open(&page, &style, swallow, NULL, NULL));
}

static void is(const char *expected)
{
    ck_assert_str_eq(text, expected);
}

static bite_planned_pass plain_pass(void)
{
    bite_planned_pass pass = {.count = 1, .passes = 1};
    pass.entry.why = "";
    pass.entry.feed = 0.005; /* 300 mm/min */
    pass.path = (bite_planned_path){0, NOT_GIVEN, NOT_GIVEN, 0, NOT_GIVEN, NOT_GIVEN, NOT_GIVEN};
    pass.hole.pilot = NOT_GIVEN;
    pass.hole.depth = (double)INFINITY;
    return pass;
}

START_TEST(ways_in)
{
    bite_planned_pass pass = plain_pass();
    open_page(BITE_METRIC);
    pass.entry.kind = BITE_ENTER_PLUNGE;
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("plunge in at 300 mm/min");
    pass.entry.kind = BITE_ENTER_HOLE;
    pass.entry.hole = 6.5 * MM;
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("lower the tool into a drilled hole of at least 6.5 mm");
    pass.entry.kind = BITE_ENTER_OUTSIDE;
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("enter from outside");
    pass.entry.why = "the slot is open";
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("enter from outside: the slot is open");
    pass.entry.kind = BITE_ENTER_RAMP;
    pass.entry.angle = 3.0 * DEG;
    pass.entry.length = 20.0 * MM; /* along the slope: 19.97 mm level */
    pass.entry.legs = 1.0;
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("ramp in at 3 deg, 300 mm/min, over 19.973 mm");
    pass.entry.legs = 4.0;
    pass.entry.leg = 5.0 * MM;
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("ramp in at 3 deg, 300 mm/min, there and back in 4 legs of up to 5 mm");
    pass.entry.kind = BITE_ENTER_HELIX;
    pass.entry.helix = 2.4 * MM;
    pass.entry.pitch = 0.4 * MM;
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("helix in at 3 deg, 300 mm/min, centre on a circle of 2.4 mm, 0.4 mm down each turn");
    pass.entry.kind = BITE_ENTER_DRILL;
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("");
}
END_TEST

START_TEST(paths)
{
    bite_planned_pass pass = plain_pass();
    open_page(BITE_METRIC);
    pass.entry.kind = BITE_ENTER_OUTSIDE;
    (void)bite_path_text(&page, &pass, text, sizeof text);
    is("climb");
    pass.path.conventional = 1;
    pass.path.step_over = 1.2 * MM;
    pass.path.allowance = 0.1 * MM;
    pass.path.allowance_for = 4;
    pass.path.lead = 3.0 * MM;
    (void)bite_path_text(&page, &pass, text, sizeof text);
    is("conventional; step-over 1.2 mm; leave 0.1 mm on the wall for pass 5; on and off the wall "
       "by arcs of radius 3 mm");
    pass = plain_pass();
    pass.entry.kind = BITE_ENTER_OUTSIDE;
    pass.path.tip_depth = 0.7 * MM;
    pass.path.tip_offset = 0.2 * MM;
    (void)bite_path_text(&page, &pass, text, sizeof text);
    is("climb; tip 0.7 mm below the upper face, tool axis 0.2 mm from the wall");
    pass.entry.kind = BITE_ENTER_DRILL;
    (void)bite_path_text(&page, &pass, text, sizeof text);
    is("");
}
END_TEST

START_TEST(compared_ways)
{
    bite_planned_pass pass = plain_pass();
    bite_planned_ways *way = &pass.ways;
    (void)bite_ways_text(&pass, text, sizeof text);
    is("");
    way->alone = "2mm";
    way->rough = "6mm";
    way->alone_seconds = 600.0;
    way->staged_seconds = NOT_GIVEN;
    way->change_seconds = 60.0;
    (void)bite_ways_text(&pass, text, sizeof text);
    is("with 2mm alone 10 min; another tool would first take 60 s of tool changes");
    way->staged_seconds = 240.0;
    way->staged = 1;
    (void)bite_ways_text(&pass, text, sizeof text);
    is("with 2mm alone 10 min; with 6mm and the corners with 2mm 4 min and 60 s of tool "
       "changes: two tools");
    way->change_seconds = 0.0;
    way->staged = 0;
    way->stated = 1;
    (void)bite_ways_text(&pass, text, sizeof text);
    is("with 2mm alone 10 min; with 6mm and the corners with 2mm 4 min: one tool, as the job "
       "file states");
    way->stated = 0;
    way->staged = 1;
    way->middle = "3mm";
    way->middle_seconds = 150.0;
    way->middle_change = 60.0;
    (void)bite_ways_text(&pass, text, sizeof text);
    is("with 2mm alone 10 min; with 6mm and the corners with 2mm 4 min; with 3mm between them "
       "2.5 min and 60 s of tool changes more, which saves too little: two tools");
    way->middle_seconds = 230.0; /* no time is saved: nothing to explain */
    (void)bite_ways_text(&pass, text, sizeof text);
    is("with 2mm alone 10 min; with 6mm and the corners with 2mm 4 min; with 3mm between them "
       "3.8 min and 60 s of tool changes more: two tools");
    way->middle_seconds = 60.0;
    way->three = 1;
    (void)bite_ways_text(&pass, text, sizeof text);
    is("with 2mm alone 10 min; with 6mm and the corners with 2mm 4 min; with 3mm between them "
       "60 s and 60 s of tool changes more: three tools");
}
END_TEST

START_TEST(words_of_stages_and_entries)
{
    static const char *const stages[] = {"whole", "rough", "middle", "corners", "wall", ""};
    static const char *const entries[] = {"outside", "plunge", "ramp", "helix",
                                          "hole",    "drill",  "arc",  ""};
    for (uint32_t i = 0; i < sizeof stages / sizeof *stages; i++) {
        ck_assert_str_eq(bite_stage_word(i), stages[i]);
    }
    for (uint32_t i = 0; i < sizeof entries / sizeof *entries; i++) {
        ck_assert_str_eq(bite_plan_entry_word(i), entries[i]);
    }
}
END_TEST

START_TEST(drilled_and_reamed_holes)
{
    bite_planned_pass pass = plain_pass();
    open_page(BITE_METRIC);
    pass.work = BITE_WORK_DRILL;
    pass.hole.point = 0.9 * MM;
    (void)bite_hole_text(&page, &pass, text, sizeof text);
    is("1 hole, through; in one stroke, no pecks; no dwell; 0.9 mm of the depth is the point");
    pass.count = 4;
    pass.passes = 3;
    pass.step_down = 2.0 * MM;
    pass.hole.blind = 1;
    pass.hole.pilot = 2.0 * MM;
    (void)bite_hole_text(&page, &pass, text, sizeof text);
    is("4 holes, blind; pecks of 2 mm, out of the hole after each; no dwell; 0.9 mm of the depth "
       "is the point; pilot hole of 2 mm first");
    pass.work = BITE_WORK_REAM;
    pass.hole.diameter = 5.8 * MM;
    (void)bite_hole_text(&page, &pass, text, sizeof text);
    is("4 holes, blind; in holes of 5.8 mm; out at the same feed, spindle turning");
}
END_TEST

/* An M3 thread: 0.5 mm each turn. */
static void thread_of(bite_planned_pass *pass)
{
    ck_assert_int_eq(bite_library_record(library, BITE_THREADS, "m3", &pass->hole.thread, NULL),
                     BITE_OK);
    pass->hole.pitch = 0.5 * MM;
    pass->hole.diameter = 2.5 * MM;
    pass->hole.share = 0.77;
}

START_TEST(tapped_holes)
{
    bite_planned_pass pass = plain_pass();
    open_page(BITE_METRIC);
    thread_of(&pass);
    pass.work = BITE_WORK_TAP;
    pass.count = 2;
    (void)bite_hole_text(&page, &pass, text, sizeof text);
    is("2 holes, through; M3, 0.5 mm each turn, in holes of 2.5 mm (77 % of thread): a tap with a "
       "spiral point, which pushes the chips ahead");
    pass.hole.depth = 8.0 * MM;
    pass.hole.blind = 1;
    pass.hole.left_hand = 1;
    (void)bite_hole_text(&page, &pass, text, sizeof text);
    is("2 holes, blind; M3, left hand, in with the spindle counter-clockwise from above, 0.5 mm "
       "each turn, in holes of 2.5 mm (77 % of thread): a tap with spiral flutes, which lifts the "
       "chips");
}
END_TEST

static const char *const turn_words[] = {
    "13.0 turns from 0.25 mm below the thread",
    "13.0 turns from 0.25 mm above the thread",
    "one turn, the end of the full-form teeth from 0.25 mm below the thread",
    "one turn, the end of the full-form teeth to 0.25 mm below the thread",
    "one turn on each of 2 levels 6 mm apart, the end of the full-form teeth from 0.25 mm below "
    "the thread in the lowest",
    "one turn on each of 2 levels 6 mm apart, the end of the full-form teeth to 0.25 mm below the "
    "thread in the lowest"};

/* A mill of 2.1 mm: its centre on circles of 2.75 - 2.1 and 3 - 2.1 mm; on and off by half circles
 * of a quarter of the last one's diameter, 0.225 mm. */
START_TEST(milled_threads)
{
    static bite_answer answer;
    bite_planned_pass pass = plain_pass();
    bite_planned_thread_mill *mill = &pass.hole.mill;
    open_page(BITE_METRIC);
    thread_of(&pass);
    answer.full.diameter = 2.1 * MM;
    pass.answer = &answer;
    pass.work = BITE_WORK_THREAD_MILL;
    mill->edge_feed = 0.02;
    mill->path.diameters[0] = 2.75 * MM;
    mill->path.diameters[1] = 3.0 * MM;
    mill->path.feeds[0] = 0.005;
    mill->path.feeds[1] = 0.006;
    for (int i = 0; i < 6; i++) {
        char expected[900];
        mill->passes = i % 2 == 0 ? 2 : 1;
        mill->path.diameters[mill->passes - 1] = 3.0 * MM;
        mill->path.diameters[0] = mill->passes == 1 ? 3.0 * MM : 2.75 * MM;
        mill->upward = i % 2 == 0;
        pass.hole.left_hand = pass.path.conventional = i % 2 != 0;
        mill->tool.rows = i < 2 ? 1.0 : 12.0;
        mill->path.levels = i < 4 ? 1.0 : 2.0;
        mill->path.turns = i < 2 ? 13.0 : mill->path.levels;
        (void)snprintf(expected, sizeof expected,
                       "1 hole, through; M3 in holes of 2.5 mm (77 %% of thread), %s; helix of "
                       "0.5 mm each turn, %s; %s (at most 1200 mm/min at the edge); on and off by "
                       "half circles from the axis, of radius 0.225 mm in the last, a quarter turn "
                       "about the axis and 0.125 mm along it",
                       i % 2 == 0 ? "right hand, climb, from the bottom up"
                                  : "left hand, conventional, from the top down",
                       turn_words[i],
                       i % 2 == 0 ? "2 radial passes, the centre on a circle of diameter 0.65 mm "
                                    "at 300 mm/min, of 0.9 mm at 360 mm/min"
                                  : "1 radial pass, the centre on a circle of diameter 0.9 mm at "
                                    "300 mm/min");
        (void)bite_hole_text(&page, &pass, text, sizeof text);
        is(expected);
    }
}
END_TEST

START_TEST(steps_and_inches)
{
    bite_planned_pass pass = plain_pass();
    open_page(BITE_INCH);
    pass.depth = 25.4 * MM;
    pass.passes = 4;
    pass.step_down = pass.last_step = 6.35 * MM;
    (void)bite_steps_text(&page, &pass, text, sizeof text);
    is("4 x 0.25 in deep");
    pass.entry.kind = BITE_ENTER_PLUNGE;
    (void)bite_plan_entry_text(&page, &pass, text, sizeof text);
    is("plunge in at 11.811 in/min");
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("path_text");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, ways_in);
    tcase_add_test(tests, paths);
    tcase_add_test(tests, compared_ways);
    tcase_add_test(tests, words_of_stages_and_entries);
    tcase_add_test(tests, drilled_and_reamed_holes);
    tcase_add_test(tests, tapped_holes);
    tcase_add_test(tests, milled_threads);
    tcase_add_test(tests, steps_and_inches);
    Suite *suite = suite_create("path_text");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
