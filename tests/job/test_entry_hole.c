/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hole through which a tool is lowered that cannot plunge: which one is taken, what is drilled
 * where there is none, and what is said of one that does not serve. */
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define PART                                                                                       \
    HEAD "[part]\nmaterial = acrylic/cast\nlength = 80 mm\nwidth = 60 mm\nthickness = 6 mm\n"      \
         "[machine]\nname = bench-24k\n"
/* Inserts that do not reach the centre: a tool of 6 mm, in a hole of at least 6.6 mm. */
#define INSERTS                                                                                    \
    "[format]\nkind = tools\nversion = 1\n[tool.insert]\ntitle = two inserts\nsource = memory\n"   \
    "diameter = 6 mm\nflutes = 2\ncentre_cutting = no\n"
#define POCKET "[pass.a]\nwork = pocket\ntool = insert\nlength = 7 mm\nacross = 7 mm\n" GIVEN
#define HERE "at = 20 mm 20 mm\n"
#define DRILL(tool) "[pass.h]\nwork = drill\ntool = " tool "\n" GIVEN

static void setup(void)
{
    job_setup_holes();
    job_own_table("tools.ini", INSERTS);
}

/* A drill of 6.8 mm has a point of 3.4/tan 59 deg = 2.043 mm. */
static const struct {
    const char *passes;
    const char *hole;
    size_t count; /* of all passes */
} taken[] = {
    {POCKET "depth = 2 mm\n" HERE DRILL("6.8mm") HERE, "h", 2},
    {POCKET "depth = 5 mm\n" HERE DRILL("6.8mm") HERE "depth = 3 mm\n", "h", 2},
    {POCKET "depth = 5 mm\n" HERE DRILL("6.8mm") HERE "depth = 2.9 mm\n", "a-hole", 3},
    {POCKET "depth = 2 mm\n" HERE DRILL("6mm") HERE, "a-hole", 3},
    {POCKET "depth = 2 mm\n" HERE DRILL("6.8mm") "at = 20 mm 21 mm\n", "a-hole", 3},
    {POCKET "depth = 2 mm\n" DRILL("6.8mm") HERE, "a-hole", 3},
    {POCKET "depth = 2 mm\n" HERE DRILL("6.8mm"), "a-hole", 3},
    {POCKET "depth = 2 mm\nsetup = 2\n" HERE DRILL("6.8mm") HERE, "a-hole", 3},
    {POCKET "depth = 2 mm\n" HERE
            "[pass.h]\nwork = bore\nacross = 6.8 mm\ntool = 3mm\ndepth = 2 mm\n" GIVEN HERE,
     "h", 2},
    {POCKET "depth = 2 mm\n" HERE
            "[pass.h]\nwork = bore\nacross = 6.8 mm\ntool = 3mm\ndepth = 1.9 mm\n" GIVEN HERE,
     "a-hole", 3},
    {POCKET "depth = 2 mm\n" HERE
            "[pass.h]\nwork = slot\nacross = 6.8 mm\nlength = 20 mm\ntool = 3mm\n" GIVEN HERE,
     "a-hole", 3},
    /* named: through the positions of another setup, and without any */
    {POCKET "depth = 2 mm\nentry = hole\nhole = H\n" DRILL("6.8mm"), "h", 2},
    {POCKET "depth = 2 mm\nsetup = 2\nentry = hole\nhole = h\n" DRILL("6.8mm") HERE, "h", 2},
    /* the name of the added pass is its own */
    {POCKET
     "depth = 3 mm\n[pass.a-hole]\nwork = slot\ntool = 3mm\nlength = 20 mm\ndepth = 1 mm\n" GIVEN,
     "a-hole-hole", 3},
};
#define TAKEN (sizeof taken / sizeof *taken)

START_TEST(the_hole_to_enter_by)
{
    bite_job *job = plan_of(PART "%s", taken[_i].passes);
    const bite_planned_pass *pass = &job->passes[place_of(job, "a")];
    ck_assert_uint_eq(pass->entry.kind, BITE_ENTER_HOLE);
    ck_assert_str_eq(pass->hole.made_by, taken[_i].hole);
    ck_assert_uint_eq(job->pass_count, taken[_i].count);
    ck_assert(place_of(job, taken[_i].hole) < place_of(job, "a"));
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* The added drill is the smallest that lets the tool through: 6.6 mm; of those in inches letter G,
 * 0.261 in. Its tip is as deep as a blind pocket, 3.3/tan 59 deg = 1.982842 mm below its full
 * diameter, and it goes through where the pocket does. It is made at the places of the pocket. */
START_TEST(the_hole_that_is_added)
{
    bite_job *blind = plan(PART POCKET "depth = 3 mm\n" HERE);
    bite_job *through = plan(PART POCKET "depth = 6 mm\ncount = 2\n");
    bite_job *inch =
        plan(HEAD "[job]\nunits = inch\n[part]\nmaterial = acrylic/cast\n"
                  "length = 3 in\nwidth = 2 in\nthickness = 0.25 in\n" POCKET "depth = 3 mm\n");
    const bite_planned_pass *drill = &blind->passes[place_of(blind, "a-hole")];
    ck_assert_uint_eq(drill->work, BITE_WORK_DRILL);
    ck_assert_str_eq(blind->tools[drill->tool].name, "drill-6.6");
    ck_assert_ptr_nonnull(strstr(blind->tools[drill->tool].why, "the tool can be lowered into"));
    ck_assert_str_eq(drill->title, "pocket: hole to enter by");
    bite_assert_near(drill->depth, 3e-3, 1e-9); /* with its point */
    bite_assert_near(drill->hole.point, 1.982842e-3, 1e-6);
    ck_assert_ptr_nonnull(remark_of(blind, "passes", "6.6 mm"));
    ck_assert_uint_eq(blind->places[place_of(blind, "a-hole")]->count, 1);
    bite_assert_near(blind->places[place_of(blind, "a-hole")]->x[0], 20e-3, 1e-12);
    drill = &through->passes[place_of(through, "a-hole")];
    bite_assert_near(drill->depth, 6e-3 + 1.982842e-3, 1e-6);
    ck_assert_uint_eq(drill->count, 2);
    ck_assert_uint_eq(drill->hole.blind, 0);
    ck_assert_str_eq(inch->tools[inch->passes[place_of(inch, "a-hole")].tool].name, "drill-g");
    bite_job_free(blind);
    bite_job_free(through);
    bite_job_free(inch);
}
END_TEST

/* In a slot that is narrower than the hole nothing is drilled, but asked for; round the part any
 * drill has room. */
START_TEST(holes_that_do_not_fit_the_feature)
{
    bite_job *narrow = plan(PART "[pass.a]\nwork = pocket\ntool = insert\nlength = 6.5 mm\n"
                                 "across = 6.5 mm\ndepth = 3 mm\n");
    bite_job *round = plan(PART "[pass.a]\nwork = contour\ntool = insert\ndepth = 3 mm\n"
                                "entry = hole\n");
    ck_assert_uint_eq(narrow->pass_count, 1);
    ck_assert_ptr_null(narrow->passes[0].hole.made_by);
    ck_assert_ptr_nonnull(remark_of(narrow, "passes", "drill one of at least 6.6 mm"));
    ck_assert_uint_eq(round->pass_count, 2);
    ck_assert_str_eq(round->passes[place_of(round, "a")].hole.made_by, "a-hole");
    bite_job_free(narrow);
    bite_job_free(round);
}
END_TEST

/* Line 20 is that of the key hole. */
static const struct {
    const char *pass;
    const char *hole;
    const char *says;
    const char *hint;
} faults[] = {
    {"depth = 2 mm\n", "[pass.h]\nwork = slot\ntool = 3mm\nlength = 20 mm\ndepth = 2 mm\n",
     "the pass that hole names makes no hole before this one", "drills or bores, in this setup"},
    {"depth = 2 mm\n", DRILL("6.8mm") "setup = 2\n",
     "the pass that hole names makes no hole before this one", "drills or bores, in this setup"},
    {"depth = 2 mm\n", DRILL("6mm"),
     "the hole is 6 mm wide, and the tool that is lowered into it 6 mm",
     "drill one of at least 6.6 mm, or leave hole out to have it added"},
    {"depth = 5 mm\n", DRILL("6.8mm") "depth = 2 mm\n",
     "the hole ends 4.043 mm deep, and the tool is lowered to 5 mm",
     "drill it deeper, or leave hole out to have it added"},
};
#define FAULTS (sizeof faults / sizeof *faults)

START_TEST(holes_that_do_not_serve_are_refused)
{
    char text[1200];
    bite_error error = BITE_ERROR_INIT;
    (void)snprintf(text, sizeof text, PART POCKET "%sentry = hole\nhole = h\n%s", faults[_i].pass,
                   faults[_i].hole);
    fault_list *of = faults_of(text, strlen(text), &error);
    ck_assert_msg(of->count == 1, "%u faults: %s; %s", of->count, of->texts[0], of->texts[1]);
    ck_assert_uint_eq(of->lines[0], 20);
    ck_assert_str_eq(error.key, "pass.a:hole");
    ck_assert_msg(strstr(error.message, faults[_i].says) != NULL, "%s", error.message);
    ck_assert_msg(strstr(error.hint, faults[_i].hint) != NULL, "%s", error.hint);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("entry hole");
    TCase *tests = tcase_create("entry hole");
    tcase_add_checked_fixture(tests, setup, job_teardown);
    tcase_add_loop_test(tests, the_hole_to_enter_by, 0, (int)TAKEN);
    tcase_add_test(tests, the_hole_that_is_added);
    tcase_add_test(tests, holes_that_do_not_fit_the_feature);
    tcase_add_loop_test(tests, holes_that_do_not_serve_are_refused, 0, (int)FAULTS);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
