/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What passes sweep against screws, clamps, tabs and neighbours. */
#include "core/job/positions.h"
#include "tests/job/job_fixture.h"
#include <math.h>

#define PLATE(count)                                                                               \
    HEAD "[part]\nmaterial = aluminium/6061-T6\nlength = 80 mm\nwidth = 40 mm\nthickness = 6 mm\n" \
         "count = " count "\n[machine]\nname = small-vmc\n"
#define SCREWED "[hold]\nmethod = screws\nscrew = 4 mm\n"
#define SCREW "[screw.one]\nat = 6 mm 6 mm\n"
#define FREE_3MM "[pass.free]\nwork = cut-free\ntool = 3mm\n" GIVEN
#define POCKET_6MM(size)                                                                           \
    "[pass.pocket]\nwork = pocket\ntool = 6mm\ndepth = 3 mm\nat = 40 mm 20 mm\n" size GIVEN

/* The head of an M4 screw is 9 mm wide. A pocket of 60 x 24 mm has its corner, round by 3 mm about
 * (13, 11), hypot(7, 5) - 3 - 4.5 = 1.10 mm from it; one of 66 mm sweeps 1.10 mm into it. */
START_TEST(screws_are_named_with_what_hits_them)
{
    bite_job *clear =
        plan(PLATE("1") SCREWED SCREW POCKET_6MM("length = 60 mm\nacross = 24 mm\n") FREE_3MM);
    bite_job *hit =
        plan(PLATE("1") SCREWED SCREW POCKET_6MM("length = 66 mm\nacross = 24 mm\n") FREE_3MM);
    const bite_planned_pass *pocket = &clear->passes[place_of(clear, "pocket")];
    bite_assert_near(pocket->clearance, hypot(7e-3, 5e-3) - 7.5e-3, 1e-6);
    ck_assert_str_eq(pocket->nearest, "screw one");
    ck_assert_ptr_null(remark_of(clear, "passes", "sweeps"));
    pocket = &hit->passes[place_of(hit, "pocket")];
    bite_assert_near(pocket->clearance, hypot(4e-3, 5e-3) - 7.5e-3, 1e-6);
    ck_assert_uint_eq(hit->verdict, BITE_OVER);
    ck_assert_uint_eq(remark_of(hit, "passes", "into screw one")->severity, BITE_DANGER);
    /* the slot round the part is 1.5 mm from the head */
    bite_assert_near(clear->passes[place_of(clear, "free")].clearance, 1.5e-3, 1e-6);
    bite_job_free(clear);
    bite_job_free(hit);
}
END_TEST

/* The hole of a screw is drilled before the screw is there; another screw is in the way of it. */
START_TEST(a_screw_follows_its_own_hole)
{
    bite_job *own = plan(PLATE("1") SCREWED SCREW
                         "[pass.hole]\nwork = drill\ntool = 4mm\nat = 6 mm 6 mm\n" GIVEN FREE_3MM);
    bite_job *near =
        plan(PLATE("1") SCREWED SCREW
             "[pass.hole]\nwork = drill\ntool = 4mm\nat = 10 mm 6 mm\n" GIVEN FREE_3MM);
    ck_assert_ptr_null(remark_of(own, "passes", "sweeps"));
    ck_assert_ptr_nonnull(remark_of(near, "passes", "sweeps 2.5 mm into screw one"));
    bite_job_free(own);
    bite_job_free(near);
}
END_TEST

/* Clamps lie on the blank: the outline of 3 mm ends 3 mm from the edge of the blank, whose margin
 * is 6 mm. A clamp that reaches 5 mm onto it is in the way by 2 mm, in one setup only if it says
 * so. */
START_TEST(clamps_on_the_blank_are_checked_from_every_part)
{
    static const char clamp[] = "[clamp.left]\nat = 0 mm 26 mm\nlength = 10 mm\nwidth = 20 mm\n";
    bite_job *hit = plan_of("%s%s%s", PLATE("4"), clamp, FREE_3MM);
    bite_job *later = plan_of("%s%ssetup = 2\n%s", PLATE("4"), clamp, FREE_3MM);
    ck_assert_ptr_nonnull(remark_of(hit, "passes", "sweeps 2 mm into clamp left"));
    ck_assert_uint_eq(hit->verdict, BITE_OVER);
    ck_assert_ptr_null(remark_of(later, "passes", "sweeps"));
    bite_job_free(hit);
    bite_job_free(later);
}
END_TEST

/* A slot that runs out of the part by its position meets the neighbour if the gap is narrow. */
START_TEST(features_may_reach_the_neighbour)
{
    bite_job *job = plan(PLATE("2") "[stock]\ngap = 7 mm\nper_blank = 2\n"
                                    "[pass.notch]\nwork = slot\ntool = 3mm\nalong = width\n"
                                    "length = 20 mm\nacross = 3 mm\ndepth = 2 mm\nat = 40 mm 38 "
                                    "mm\n" GIVEN FREE_3MM);
    ck_assert_ptr_nonnull(remark_of(job, "passes", "sweeps 1 mm into the neighbouring part"));
    ck_assert_uint_eq(job->stock.strikes_parts, 1);
    bite_job_free(job);
}
END_TEST

/* What is not placed is said. A contour to full depth cuts the tabs. */
START_TEST(what_cannot_be_checked_is_said)
{
    bite_job *job = plan(PLATE("1") SCREWED FREE_3MM);
    ck_assert_ptr_nonnull(remark_of(job, "hold", "does not state where the screws are"));
    bite_job_free(job);
    job = plan(PLATE("1") SCREWED SCREW "[pass.groove]\nwork = slot\ntool = 3mm\nlength = 20 mm\n"
                                        "depth = 1 mm\n" GIVEN FREE_3MM);
    ck_assert_ptr_nonnull(remark_of(job, "passes", "Not checked against screws and clamps"));
    bite_job_free(job);
    job = plan(PLATE("1") "[hold]\nmethod = tabs\n[pass.outline]\nwork = contour\ntool = "
                          "3mm\ndepth = 6 mm\n" GIVEN);
    ck_assert_ptr_nonnull(remark_of(job, "hold", "goes 3 mm below the upper edge of the tabs"));
    ck_assert_uint_eq(job->verdict, BITE_OVER);
    bite_job_free(job);
}
END_TEST

/* Positions as they are written, and as they must not be. */
START_TEST(positions_are_read)
{
    static const char *const bad[] = {"",          "12",         "12 mm",       "12mm 8mm,", "a b",
                                      "12mm, 8mm", "12mm 8mm 3", "nan mm 8 mm", "1kg 2kg"};
    bite_positions at;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_positions_read("12 mm 8 mm, 30mm 1/4in", &at, &error), BITE_OK);
    ck_assert_uint_eq(at.count, 2);
    bite_assert_near(at.x[0], 12e-3, 1e-12);
    bite_assert_near(at.y[1], 6.35e-3, 1e-12);
    ck_assert_int_eq(bite_positions_read(NULL, &at, NULL), BITE_OK);
    ck_assert_uint_eq(at.count, 0);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ck_assert_msg(bite_positions_read(bad[i], &at, &error) == BITE_BAD_FILE, "%s", bad[i]);
        ck_assert_uint_eq(at.count, 0);
    }
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = drill\ntool = 2mm\nat = 41 mm 2 mm\n", 12,
                   "outside the part");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = drill\ntool = 2mm\ncount = 3\nat = 4 mm 2 mm\n",
                   13, "as many positions as count");
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = cut-free\nat = 4 mm 2 mm\n", 11,
                   "have no position");
    assert_refused(HEAD ACRYLIC "[clamp.a]\nat = 1 mm 2 mm\n", 9, "does not state its size");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("clearance plan");
    TCase *tests = tcase_create("clearance plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, screws_are_named_with_what_hits_them);
    tcase_add_test(tests, a_screw_follows_its_own_hole);
    tcase_add_test(tests, clamps_on_the_blank_are_checked_from_every_part);
    tcase_add_test(tests, features_may_reach_the_neighbour);
    tcase_add_test(tests, what_cannot_be_checked_is_said);
    tcase_add_test(tests, positions_are_read);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
