/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The jaws of a vise beside the part: which cuts go over an edge that they grip, and how deep. */
#include "core/job/remarks.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>

/* 40 x 30 x 10 mm, gripped 4 mm deep: 6 mm stand out of the jaws. */
#define BLOCK                                                                                      \
    HEAD "[part]\nmaterial = 6061\nlength = 40 mm\nwidth = 30 mm\nthickness = 10 mm\n[stock]\n"    \
         "thinnest = 10 mm\nthickest = 10 mm\nfaces = none\n"
#define VISE "[hold]\nmethod = vise\njaw_depth = 4 mm\n"
#define SHORT "between_jaws = 40 mm\n" /* the jaws grip the short edges */
#define SLOT(length, keys)                                                                         \
    "[pass.a]\nwork = slot\ntool = 3mm\nacross = 3 mm\ndepth = 8 mm\nlength = " length             \
    "\n" keys GIVEN

static const bite_remark *remark_with(const bite_job *job, uint32_t id)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        if (job->remarks[i].id == id) {
            return &job->remarks[i];
        }
    }
    return NULL;
}

/* A slot 8 mm deep hits the jaws by 2 mm if it leaves the part over one of the edges that they
 * grip. Its place is known from `at`, or from the direction that it runs in. */
static const struct {
    const char *hold;
    const char *pass;
    double below; /* mm, the top of the jaws; 0: it does not hit them */
} cuts[] = {
    {"", SLOT("40 mm", ""), 2.0}, /* either way */
    {"", SLOT("40 mm", "along = length\n"), 0.0},
    {"", SLOT("30 mm", "along = width\n"), 2.0},
    {SHORT, SLOT("40 mm", "along = length\n"), 2.0},
    {SHORT, SLOT("30 mm", "along = width\n"), 0.0},
    {"", SLOT("20 mm", "along = width\n"), 0.0}, /* it stays inside */
    {"", SLOT("20 mm", ""), 0.0},
    /* centred 9 mm from an edge of 30 mm: half of 20 mm go over it */
    {"", SLOT("20 mm", "along = width\nat = 20 mm 9 mm\n"), 2.0},
    {"", SLOT("20 mm", "along = width\nat = 20 mm 21 mm\n"), 2.0},
    {"", SLOT("20 mm", "along = width\nat = 20 mm 15 mm\n"), 0.0},
    {"", SLOT("20 mm", "along = width\nat = 20 mm 15 mm, 30 mm 22 mm\ncount = 2\n"), 2.0},
    {SHORT, SLOT("20 mm", "along = length\nat = 9 mm 15 mm\n"), 2.0},
    {SHORT, SLOT("20 mm", "along = length\nat = 31 mm 15 mm\n"), 2.0},
    {SHORT, SLOT("20 mm", "along = length\nat = 20 mm 15 mm\n"), 0.0},
    {"", "[pass.a]\nwork = contour\ntool = 6mm\nwidth = 0.5 mm\ndepth = 7 mm\n" GIVEN, 1.0},
    {"", "[pass.a]\nwork = contour\ntool = 6mm\nwidth = 0.5 mm\ndepth = 6 mm\n" GIVEN, 0.0},
};
#define CUTS (sizeof cuts / sizeof *cuts)

START_TEST(cuts_over_a_gripped_edge)
{
    bite_job *job = plan_of(BLOCK VISE "%s%s", cuts[_i].hold, cuts[_i].pass);
    const bite_remark *hits = remark_with(job, BITE_REMARK_CUTTER_HITS_JAWS);
    ck_assert_int_eq(hits != NULL, cuts[_i].below > 0.0);
    ck_assert_uint_eq(job->hold.strikes, hits != NULL);
    ck_assert(hits == NULL || fabs(1e3 * hits->values[1].quantity - cuts[_i].below) < 1e-9);
    ck_assert(hits == NULL || job->verdict == BITE_OVER);
    bite_job_free(job);
}
END_TEST

/* Standing on its long side the block is 30 mm high, 40 mm long between the jaws and 10 mm thick;
 * on its short side 40 mm high and 30 mm long. A slot 5 mm deep leaves the rest of the height. */
START_TEST(blocks_on_edge)
{
    static const struct {
        const char *side;
        double height; /* mm */
        double along;
    } sides[] = {
        {"front", 30.0, 40.0}, {"back", 30.0, 40.0}, {"left", 40.0, 30.0}, {"right", 40.0, 30.0}};
    for (size_t i = 0; i < sizeof sides / sizeof *sides; i++) {
        bite_job *job = plan_of(BLOCK VISE "[setup.1]\nside = %s\n[pass.a]\nwork = slot\n"
                                           "tool = 3mm\nlength = 8 mm\nacross = 3 mm\n"
                                           "depth = 5 mm\n" GIVEN,
                                sides[i].side);
        const bite_remark *gripped = remark_with(job, BITE_REMARK_GRIPPED_SO);
        const bite_cut *cut = &job->passes[0].answer->full;
        bite_assert_near(1e3 * cut->floor_thickness, sides[i].height - 5.0, 1e-8);
        ck_assert_ptr_nonnull(gripped);
        bite_assert_near(1e3 * gripped->values[1].quantity, 4.0, 1e-9);
        bite_assert_near(1e3 * gripped->values[2].quantity, 10.0, 1e-9);
        ck_assert_ptr_null(remark_with(job, BITE_REMARK_CUTTER_HITS_JAWS));
        bite_assert_near(1e3 * job->hold.along, sides[i].along, 1e-9);
        bite_assert_near(1e3 * job->hold.across, 10.0, 1e-9);
        bite_job_free(job);
    }
}
END_TEST

/* What is faced off an edge is stated, and counted from that edge. */
START_TEST(an_edge_is_faced_as_stated)
{
    bite_job *job = plan(BLOCK VISE "[setup.1]\nside = front\n[pass.a]\nwork = face\ntool = 6mm\n"
                                    "width = 4 mm\ndepth = 1.5 mm\n" GIVEN);
    bite_assert_near(1e3 * job->passes[0].depth, 1.5, 1e-9);
    bite_job_free(job);
}
END_TEST

/* The jaws of a light desktop mill are 20 mm high: 16 mm down to the bed. A hole through the block
 * that is drilled with a point of 3/tan 59 deg ends above it; of a vise whose height nobody states
 * nothing is said. */
START_TEST(the_bed_below)
{
    job_own_table("machines.ini",
                  "[format]\nkind = machines\nversion = 1\n[machine.bare]\ntitle = the mill in the "
                  "corner\nsource = memory\nspindle_slowest = 3000 rpm\nspindle_fastest = 24000 "
                  "rpm\n");
    static const char pass[] = "[pass.a]\nwork = drill\ntool = 6mm\ndepth = 10 mm\n" GIVEN;
    bite_job *light = plan_of(BLOCK "[machine]\nname = desktop-light\n" VISE "%s", pass);
    bite_job *low =
        plan_of(BLOCK "[machine]\nname = desktop-light\nvise_depth = 5 mm\n" VISE "%s", pass);
    bite_job *bare = plan_of(BLOCK "[machine]\nname = bare\n" VISE "%s", pass);
    const bite_remark *so = remark_with(light, BITE_REMARK_GRIPPED_SO);
    bite_assert_near(1e3 * so->values[3].quantity, 20.0, 1e-9);
    bite_assert_near(1e3 * so->values[4].quantity, 16.0, 1e-9);
    ck_assert_ptr_null(remark_with(light, BITE_REMARK_CUTS_VISE_BED));
    const bite_remark *cuts_bed = remark_with(low, BITE_REMARK_CUTS_VISE_BED);
    ck_assert_ptr_nonnull(cuts_bed);
    bite_assert_near(1e3 * cuts_bed->values[1].quantity, 1.8025819, 1e-7);
    bite_assert_near(1e3 * cuts_bed->values[2].quantity, 1.0, 1e-9);
    ck_assert_uint_eq(cuts_bed->severity, BITE_DANGER);
    ck_assert_uint_eq(low->hold.strikes, 1);
    so = remark_with(bare, BITE_REMARK_GRIPPED_SO);
    ck_assert(isnan(so->values[3].quantity) && isnan(so->values[4].quantity));
    ck_assert_ptr_null(remark_with(bare, BITE_REMARK_CUTS_VISE_BED));
    bite_job_free(light);
    bite_job_free(low);
    bite_job_free(bare);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("vise jaws");
    TCase *tests = tcase_create("vise jaws");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_loop_test(tests, cuts_over_a_gripped_edge, 0, (int)CUTS);
    tcase_add_test(tests, blocks_on_edge);
    tcase_add_test(tests, an_edge_is_faced_as_stated);
    tcase_add_test(tests, the_bed_below);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
