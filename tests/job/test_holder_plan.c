/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The holder of a tool that works at the floor of a pocket, against its walls and what stands in
 * it, worked by hand. */
#include "core/job/remarks.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* A block of 120 x 80 x 40 mm with a pocket of 100 x 60 mm about its middle, 20 mm deep. A mill of
 * 6 mm sticks out 24 mm: at the bottom of a slot that is 10 mm deep in that floor, 30 mm below the
 * top, its holder of 40 mm ends 6 mm below the top. The slot is 20 x 6 mm, and the holder sweeps 54
 * x 40 mm. */
#define BLOCK                                                                                      \
    HEAD "[part]\nmaterial = 6061\nlength = 120 mm\nwidth = 80 mm\nthickness = 40 mm\n"            \
         "[machine]\nname = small-vmc\nholder_diameter = 40 mm\n[hold]\nmethod = vise\n"
#define POCKET                                                                                     \
    "[pass.pocket]\nwork = pocket\ntool = 6mm\nlength = 100 mm\nacross = 60 mm\ndepth = 20 mm\n"   \
    "at = 60 mm 40 mm\n" GIVEN
#define BOSS                                                                                       \
    "[pass.round]\nwork = contour\naround = boss\ntool = 6mm\nlength = 20 mm\nacross = 20 mm\n"    \
    "depth = 20 mm\nat = 60 mm 40 mm\nafter = pocket\n" GIVEN
#define SLOT(at)                                                                                   \
    "[pass.slot]\nwork = slot\ntool = 6mm\nlength = 20 mm\nacross = 6 mm\ndepth = 10 mm\n"         \
    "after = pocket\nat = " at "\n" GIVEN

static const struct {
    const char *passes;
    double clearance; /* mm; negative: into it, NaN: nothing is near */
    const char *nearest;
} cases[] = {
    /* 30 mm to the wall across, less 20 mm; along 50 mm, less 27 mm */
    {POCKET SLOT("60 mm 40 mm"), 10.0, "the wall of \"pocket\""},
    {POCKET SLOT("60 mm 55 mm"), -5.0, "the wall of \"pocket\""},
    {POCKET SLOT("32 mm 40 mm"), -5.0, "the wall of \"pocket\""},
    {POCKET SLOT("60 mm 40 mm, 60 mm 55 mm"), -5.0, "the wall of \"pocket\""},
    /* a boss from 50 to 70 mm: 32 + 27 mm is 9 mm into it, and 5 mm into the wall */
    {POCKET BOSS SLOT("32 mm 40 mm"), -9.0, "the wall of \"pocket\""},
    /* on the boss, or beside the pocket, the work begins at the top: the holder stays above it */
    {POCKET BOSS "[pass.slot]\nwork = slot\ntool = 6mm\nlength = 12 mm\nacross = 6 mm\n"
                 "depth = 10 mm\nafter = round\nat = 60 mm 40 mm\n" GIVEN,
     NAN, ""},
    {POCKET SLOT("20 mm 5 mm"), NAN, ""},
    /* from the other side there is no wall */
    {POCKET SLOT("60 mm 40 mm") "setup = 2\n", NAN, ""},
    /* through the part its depth counts from the top: as deep as before, and as near */
    {POCKET "[pass.slot]\nwork = slot\ntool = 6mm\nlength = 20 mm\nacross = 6 mm\nafter = pocket\n"
            "at = 60 mm 40 mm\n" GIVEN,
     10.0, "the wall of \"pocket\""},
};
#define CASES (sizeof cases / sizeof *cases)

START_TEST(holders_in_pockets)
{
    bite_job *job = plan_of(BLOCK "%s", cases[_i].passes);
    const bite_planned_pass *pass = &job->passes[place_of(job, "slot")];
    const bite_remark *hits = NULL;
    bite_assert_near(1e3 * pass->answer->full.stickout, 24.0, 1e-9);
    for (size_t i = 0; i < job->remark_count; i++) {
        const bite_remark *remark = &job->remarks[i];
        if (remark->id == BITE_REMARK_HOLDER_HITS && strcmp(remark->values[0].text, "slot") == 0 &&
            strcmp(remark->values[1].text, "holder") == 0) {
            hits = remark;
        }
    }
    ck_assert_int_eq(isnan(pass->holder_clearance) != 0, isnan(cases[_i].clearance) != 0);
    ck_assert_str_eq(pass->holder_nearest, cases[_i].nearest);
    if (!isnan(cases[_i].clearance)) {
        bite_assert_near(1e3 * pass->holder_clearance, cases[_i].clearance, 1e-7);
    }
    ck_assert_int_eq(hits != NULL, cases[_i].clearance < 0.0);
    if (hits != NULL) {
        bite_assert_near(1e3 * hits->values[2].quantity, 40.0, 1e-9);
        bite_assert_near(1e3 * hits->values[3].quantity, 24.0, 1e-9);
        bite_assert_near(1e3 * hits->values[4].quantity, -cases[_i].clearance, 1e-7);
        bite_assert_near(1e3 * hits->values[6].quantity, 6.0, 1e-7);
        ck_assert_uint_eq(job->stock.strikes_hold, 1);
    }
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("holder plan");
    TCase *tests = tcase_create("holder plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_loop_test(tests, holders_in_pockets, 0, (int)CASES);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
