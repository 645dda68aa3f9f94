/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job file may not say together, each refused once, on its line and with its reason. */
#include "tests/job/job_fixture.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct refusal {
    const char *text; /* from line 9: after HEAD and ACRYLIC, a part of 40 x 30 x 2 mm */
    uint32_t line;
    const char *says;
} refusal;

static void refuse_all(const refusal *of, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char text[2000];
        int length = snprintf(text, sizeof text, HEAD ACRYLIC "%s", of[i].text);
        ck_assert(length > 0 && (size_t)length < sizeof text);
        assert_refused(text, of[i].line, of[i].says);
    }
}
#define REFUSE(list) refuse_all(list, sizeof list / sizeof *list)

START_TEST(workholding)
{
    static const refusal of[] = {
        {"[hold]\nmethod = screws\nscrew_class = 8.8\nscrew_shear = 400 MPa\n", 12,
         "hold:screw_shear: screw_class and screw_shear are both stated"},
        {"[hold]\nmethod = screws\ntorque = 0.5 Nm\nclamp_force = 200 N\n", 11,
         "hold:torque: torque and clamp_force are both stated"},
        {"[hold]\nmethod = screws\nscrews = 2.5\n", 11, "screws must be a whole number"},
        {"[hold]\nmethod = screws\nscrews_apart = 51 mm\n", 11,
         "the screws are farther apart than the part is long"}, /* 50 mm across its corners */
        {"[hold]\nmethod = tabs\ntabs = 2.5\n", 11, "tabs must be a whole number"},
        {"[hold]\nmethod = tabs\ntab_height = 2.1 mm\n", 11, "the tabs are thicker than the part"},
        {"[hold]\nmethod = vise\njaw_depth = 2.1 mm\n", 11,
         "the jaws grip deeper than the part is thick"},
        /* on edge it is 30 mm high on its long side, and 40 mm on its short one */
        {"[hold]\nmethod = vise\n[setup.1]\nside = front\njaw_depth = 30.1 mm\n", 13,
         "the jaws grip deeper than the part is thick"},
        {"[hold]\nmethod = vise\n[setup.1]\nside = back\njaw_depth = 30.1 mm\n", 13,
         "the jaws grip deeper than the part is thick"},
        {"[hold]\nmethod = vise\n[setup.1]\nside = left\njaw_depth = 40.1 mm\n", 13,
         "the jaws grip deeper than the part is thick"},
        {"[hold]\nmethod = vise\n[setup.1]\nside = right\njaw_depth = 40.1 mm\n", 13,
         "the jaws grip deeper than the part is thick"},
        {"[stock]\nnominal = 3 mm\nthinnest = 1.8 mm\nthickest = 1.9 mm\n", 12,
         "the measured sheet is thinner than the part"},
        {"[stock]\nthinnest = 3.1 mm\nthickest = 3 mm\n", 10,
         "the sheet's thinnest exceeds its thickest"},
        {"[stock]\nper_blank = 1.5\n", 10, "the number of parts on a blank must be a whole number"},
    };
    REFUSE(of);
    bite_job_free(plan(
        HEAD ACRYLIC "[hold]\nmethod = vise\n[setup.1]\nside = left\njaw_depth = 40 mm\n[pass.a]\n"
                     "work = slot\ntool = 1mm\nlength = 1 mm\ndepth = 0.5 mm\n" GIVEN));
}
END_TEST

START_TEST(setups)
{
    static const refusal of[] = {
        {"[setup.0]\nnote = x\n" ONE_PASS, 9, "a setup is named by its number, 1 to 20"},
        {"[setup.21]\nnote = x\n" ONE_PASS, 9, "a setup is named by its number, 1 to 20"},
        {"[setup.01]\nnote = x\n" ONE_PASS, 9, "a setup is named by its number, 1 to 20"},
        {"[setup.1x]\nnote = x\n" ONE_PASS, 9, "a setup is named by its number, 1 to 20"},
        {"[setup.1000]\nnote = x\n" ONE_PASS, 9, "a setup is named by its number, 1 to 20"},
        {"[setup.first]\nnote = x\n" ONE_PASS, 9, "a setup is named by its number, 1 to 20"},
        {"[setup.2]\nnote = x\n" ONE_PASS, 9, "no pass belongs to setup 2"},
        {"[setup.3]\nnote = x\n", 9, "no pass belongs to setup 3"}, /* two by themselves */
        {ONE_PASS "[pass.b]\nwork = slot\nsetup = 3\n", 16,
         "no pass belongs to setup 2, before it"},
        {ONE_PASS "setup = 0\n", 14, "setup"},
        {ONE_PASS "setup = 21\n", 14, "setup"},
    };
    REFUSE(of);
}
END_TEST

START_TEST(threads_and_holes)
{
    static const refusal of[] = {
        {"[pass.a]\nwork = slot\nlead = 2\n", 11, "lead belongs to tapping "},
        {"[pass.a]\nwork = ream\ntool = 3mm\nlead = 2\n[pass.b]\nwork = drill\ntool = 2.9mm\n", 12,
         "lead belongs to tapping "},
        {"[pass.a]\nwork = slot\nthread = M3\n", 11,
         "thread belongs to tapping and thread milling"},
        {"[pass.a]\nwork = ream\ntool = 3mm\nhand = left\n", 12,
         "hand belongs to tapping and thread milling"},
        {"[pass.a]\nwork = slot\nhole = b\n[pass.b]\nwork = drill\ntool = 3mm\n", 11,
         "hole belongs to tapping, thread milling and reaming, and to entry = hole"},
        {"[pass.a]\nwork = tap\n", 9, "the pass names no thread to be tapped"},
        {"[pass.a]\nwork = thread\n", 9, "the pass names no thread to be made"},
        {"[pass.a]\nwork = thread-mill\n", 9, "the pass names no thread to be milled"},
        {"[pass.a]\nwork = tap\nthread = M3\ntool = 2.5mm\n", 12, "needs no tool"},
        {"[pass.a]\nwork = tap\nthread = M3\nhole = b\n", 12,
         "hole names the pass b, which does not exist"},
        {"[pass.a]\nwork = tap\nthread = M3\nhole = a\n", 12, "the pass cannot make its own hole"},
        {"[pass.a]\nwork = ream\n", 9, "the reamer determines the size of the hole"},
        {"[pass.a]\nwork = thread\nthread = M3\nspindle = 300rpm\n", 12,
         "spindle depends on whether the thread is tapped or milled"},
        {"[pass.a]\nwork = thread\nthread = M3\nfeed = 300mm/min\n", 12,
         "feed depends on whether the thread is tapped or milled"},
        {"[pass.a]\nwork = thread\nthread = M3\ntool = 2mm\n", 12,
         "tool depends on whether the thread is tapped or milled"},
        {"[pass.a]\nwork = thread\nthread = M3\nwidth = 1 mm\n", 12,
         "width has no effect when a thread is milled"},
        {"[pass.a]\nwork = thread-mill\nthread = M3\nentry_feed = 100mm/min\n", 12,
         "entry_feed has no effect when a thread is milled"},
        {"[pass.a]\nwork = thread-mill\nthread = M3\nramp_angle = 3 deg\n", 12,
         "ramp_angle has no effect when a thread is milled"},
    };
    REFUSE(of);
}
END_TEST

START_TEST(features)
{
    static const refusal of[] = {
        {"[pass.a]\nwork = slot\ndepth = 0.5 mm\npass_depth = 0.6 mm\n", 12,
         "pass_depth exceeds the depth of the whole feature"},
        {"[pass.a]\nwork = slot\naround = boss\n", 11,
         "around belongs to a contour, a finishing cut or a chamfer"},
        {"[pass.a]\nwork = contour\naround = boss\nlength = 20 mm\n", 11,
         "the boss does not state its size"},
        {"[pass.a]\nwork = contour\naround = boss\nacross = 20 mm\n", 11,
         "the boss does not state its size"},
        {"[pass.a]\nwork = contour\naround = boss\nlength = 41 mm\nacross = 20 mm\n", 12,
         "the boss is longer than the part"},
        {"[pass.a]\nwork = contour\naround = boss\nlength = 20 mm\nacross = 41 mm\n", 13,
         "the boss is wider than the part"},
        {"[pass.a]\nwork = finish\naround = boss\nlength = 20 mm\nacross = 10 mm\n"
         "inside_radius = 1 mm\n",
         14, "the path round a boss has outside corners only"},
        {"[pass.a]\nwork = pocket\nlength = 20 mm\nacross = 41 mm\n", 12,
         "the feature is wider than the part"},
        {"[pass.a]\nwork = slot\nwall_height = 1 mm\n", 11,
         "wall_height: the height or length of a wall without one"},
        {"[pass.a]\nwork = slot\nwall_length = 9 mm\n", 11,
         "wall_length: the height or length of a wall without one"},
        {"[pass.a]\nwork = slot\nwall_length = 9 mm\nwall_height = 1 mm\n", 12,
         "wall_height: the height or length of a wall without one"},
        {"[pass.a]\nwork = slot\nrest = yes\n", 11, "only a pocket has corners"},
        {"[pass.a]\nwork = bore\nacross = 9 mm\nrest = yes\n", 12, "only a pocket has corners"},
        {"[pass.a]\nwork = slot\nfinish_lap = yes\n", 11, "only a pocket or a bore has a wall"},
        {"[pass.a]\nwork = pocket\nrough_tool = 60mm\n", 11, "no end mill has this diameter"},
        {"[setup.1]\nside = front\n[pass.a]\nwork = pocket\ndepth = 30.1 mm\n", 13,
         "the pass is deeper than the part"},
        {"[setup.1]\nside = left\n[pass.a]\nwork = pocket\ndepth = 40.1 mm\n", 13,
         "the pass is deeper than the part"},
        {"[pass.a]\nwork = drill\ntool = 3mm\nentry = hole\n", 12,
         "only a slot, a pocket, a bore or a path round is entered by a hole"},
        {"[pass.a]\nwork = face\nentry = hole\n", 11,
         "only a slot, a pocket, a bore or a path round is entered by a hole"},
        {"[pass.a]\nwork = thread\nthread = M3\nentry = hole\n", 12,
         "entry has no effect when a thread is milled"},
        {"[setup.1]\nside = front\n[pass.a]\nwork = face\n", 11,
         "the pass states no depth, and what an edge loses does not follow"},
        {"[pass.a]\nwork = face\nat = 10 mm 10 mm\n", 11,
         "a face and cutting free have no position on the part"},
        {ONE_PASS "at = 10 mm 10 mm\n", 14, "a face and cutting free have no position on the part"},
    };
    REFUSE(of);
}
END_TEST

START_TEST(places)
{
    static const refusal of[] = {
        {"[pass.a]\nwork = drill\ntool = 2mm\nat = 10 mm\n", 12, "pass.a:at"},
        {"[pass.a]\nwork = drill\ntool = 2mm\nat = 10 mm 5 kg\n", 12, "pass.a:at"},
        {"[pass.a]\nwork = drill\ntool = 2mm\ncount = 3\nat = 10 mm 5 mm, 20 mm 5 mm\n", 13,
         "at does not have as many positions as count"},
        {"[pass.a]\nwork = drill\ntool = 2mm\nat = 41 mm 5 mm\n", 12,
         "a position is outside the part"},
        {"[pass.a]\nwork = drill\ntool = 2mm\nat = 10 mm 31 mm\n", 12,
         "a position is outside the part"},
        {ONE_PASS "[screw.a]\nhead = 7 mm\n", 14, "it does not state where it is"},
        {ONE_PASS "[screw.a]\nat = 41 mm 5 mm\n", 15, "a position is outside the part"},
        {ONE_PASS "[screw.a]\nat = 5 mm 5 mm\nheight = 3 mm\nbelow = 1 mm\n", 17,
         "it stands above the top of the stock and is below it"},
        {ONE_PASS "[screw.a]\nat = 5 mm 5 mm\nsetup = 1.5\n", 16,
         "the setup must be a whole number"},
        {ONE_PASS "[clamp.a]\nat = 5 mm 5 mm\nlength = 9 mm\n", 14,
         "the clamp does not state its size"},
        {ONE_PASS "[clamp.a]\nat = 5 mm 5 mm\nwidth = 9 mm\n", 14,
         "the clamp does not state its size"},
    };
    REFUSE(of);
}
END_TEST

START_TEST(checks)
{
    static const refusal of[] = {
        {ONE_PASS "[check.a]\nwhat = width\nnominal = 30 mm\nevery = 1.5\n", 17,
         "the number of parts must be a whole number"},
        {ONE_PASS "[check.a]\nwhat = width\nnominal = 30 mm\nlower = 30.2 mm\nupper = 30.1 mm\n",
         17, "the lower limit is above the upper one"},
        {ONE_PASS "[check.a]\nwhat = width\nnominal = 30 mm\ntolerance = 0.1 mm\nupper = 30.1 mm\n",
         17, "the limits of this size are stated more than once"},
        {ONE_PASS "[check.a]\nwhat = width\nnominal = 30 mm\nclass = 2768-m\ntolerance = 0.1 mm\n",
         17, "the limits of this size are stated more than once"},
        {ONE_PASS "[check.a]\nwhat = width\nnominal = 30 mm\nlower = 30.1 mm\n", 16,
         "the nominal size lies outside its limits"},
        {ONE_PASS "[check.a]\nwhat = width\nclass = 2768-m\n", 16,
         "a class has a tolerance for a size, and none is stated"},
        {ONE_PASS "[check.a]\nwhat = width\nnominal = 30 mm\nclass = q\n", 17, "check.a:class"},
        {ONE_PASS "[check.a]\nwhat = width\nnominal = 30 mm\npass = b\n", 17,
         "there is no such pass in this file"},
        {ONE_PASS "[check.a]\nwhat = width\nnominal = 30 mm\ninstrument = micrmeter\n", 17,
         "check.a:instrument"},
    };
    REFUSE(of);
}
END_TEST

/* Of a cycle of many passes the first four are named. */
START_TEST(a_long_cycle)
{
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nafter = f\n[pass.b]\nwork = slot\n"
                                "after = a\n[pass.c]\nwork = slot\nafter = b\n[pass.d]\n"
                                "work = slot\nafter = c\n[pass.e]\nwork = slot\nafter = d\n"
                                "[pass.f]\nwork = slot\nafter = e\n",
                   11, "a, f, e, d and more wait for each other in a cycle");
}
END_TEST

static void refuse_many(const char *section, const char *keys, uint32_t most, const char *says)
{
    growing_text text = {NULL, 0, 0};
    append(&text, HEAD ACRYLIC ONE_PASS);
    for (uint32_t i = 0; i <= most; i++) {
        append(&text, "[%s.n%u]\n%s", section, i, keys);
    }
    bite_error error = BITE_ERROR_INIT;
    fault_list *of = faults_of(text.text, text.size, &error);
    ck_assert_msg(of->count == 1, "%u faults: %s; %s", of->count, of->texts[0], of->texts[1]);
    ck_assert_msg(strstr(of->texts[0], says) != NULL, "%s", of->texts[0]);
    ck_assert_uint_eq(of->lines[0], 14 + most * (1 + (uint32_t)count_of(keys, "\n")));
    free(text.text);
}

/* One more than is supported: the last one is the fault. */
START_TEST(too_many_sections)
{
    refuse_many("screw", "at = 5 mm 5 mm\n", BITE_OBSTACLES_MAX, "more screws and clamps than");
    refuse_many("check", "what = width\nnominal = 30 mm\n", BITE_CHECKS_MAX, "more checks than");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job refusals");
    TCase *tests = tcase_create("job refusals");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, workholding);
    tcase_add_test(tests, setups);
    tcase_add_test(tests, threads_and_holes);
    tcase_add_test(tests, features);
    tcase_add_test(tests, places);
    tcase_add_test(tests, checks);
    tcase_add_test(tests, a_long_cycle);
    tcase_add_test(tests, too_many_sections);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
