/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool that is selected from those at hand for each feature, and why. */
#include "tests/job/job_fixture.h"
#include <string.h>

#define PART                                                                                       \
    HEAD "[part]\nmaterial = acrylic/cast\nlength = 80 mm\nwidth = 60 mm\nthickness = 6 mm\n"      \
         "[machine]\nname = bench-24k\n"

static const struct {
    const char *at_hand;
    const char *pass;
    const char *tool;
    const char *why;
    const char *better; /* of the table; NULL: none would be stiffer */
} selected[] = {
    {"1mm 2mm 3mm", "work = contour\ngap = 2.5 mm\ndepth = 2 mm\n", "2mm",
     "diameter limited by the gap", NULL},
    {"1mm 2mm 6mm", "work = contour\ndepth = 2 mm\n", "2mm",
     "diameter limited by the preference for a narrow slot",
     "a 3.175 mm tool would also fit and is about as stiff"},
    {"1mm 2mm 3mm", "work = slot\nacross = 2 mm\ndepth = 2 mm\n", "2mm",
     "diameter limited by the width of the slot or bore", NULL},
    {"1mm 2mm 3mm", "work = bore\nacross = 3 mm\ndepth = 2 mm\n", "2mm", /* 0.9 of it */
     "diameter limited by the width of the slot or bore", NULL},
    {"1mm 2mm 3mm", "work = finish\nlength = 20 mm\nacross = 5 mm\ndepth = 2 mm\n", "2mm",
     "diameter limited by the width of the pocket", NULL},
    {"1mm 2mm 3mm", "work = finish\naround = boss\nlength = 20 mm\nacross = 5 mm\ndepth = 2 mm\n",
     "3mm", "largest of 3 that fit and reach 2 mm",
     "a 6.35 mm tool would also fit and is 2 times as stiff"},
    {"1mm 2mm 3mm", "work = finish\nlength = 50 mm\ninside_radius = 1 mm\ndepth = 2 mm\n", "2mm",
     "diameter limited by the inside corner", NULL},
    {"2mm 3mm", "work = finish\nlength = 50 mm\ninside_radius = 0.6 mm\ndepth = 2 mm\n", "2mm",
     "closest of 2: none fits and reaches 2 mm", NULL},
    {"6mm", "work = cut-free\n", "6mm", "a narrower one would waste less sheet", NULL},
    {"2mm", "work = finish\nlength = 50 mm\ndepth = 2 mm\n", "2mm",
     "the only one that fits and reaches 2 mm",
     "a 6.35 mm tool would also fit and is 3 times as stiff"},
    {"2mm cm-6-90", "work = chamfer\ndepth = 0.5 mm\n", "cm-6-90", "the only one", NULL},
    {"drill-2 3mm", "work = slot\ndepth = 1 mm\n", "3mm", "the only one",
     "a 6.35 mm tool would also fit and is 2 times as stiff"},
};
#define SELECTED (sizeof selected / sizeof *selected)

START_TEST(tools_that_fit)
{
    bite_job *job = plan_of(PART "[tools]\nat_hand = %s\n[pass.a]\n%s" GIVEN, selected[_i].at_hand,
                            selected[_i].pass);
    const bite_planned_tool *tool = &job->tools[job->passes[0].tool];
    ck_assert_str_eq(tool->name, selected[_i].tool);
    ck_assert_msg(strstr(tool->why, selected[_i].why) != NULL, "%s", tool->why);
    if (selected[_i].better == NULL) {
        ck_assert_str_eq(tool->better, "");
    } else {
        ck_assert_msg(strstr(tool->better, selected[_i].better) != NULL, "%s", tool->better);
    }
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tool plan");
    TCase *tests = tcase_create("tool plan");
    tcase_add_checked_fixture(tests, job_setup_holes, job_teardown);
    tcase_add_loop_test(tests, tools_that_fit, 0, (int)SELECTED);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
