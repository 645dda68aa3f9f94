/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How tools get into features, and what else of their paths has to be entered. */
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PART                                                                                       \
    HEAD "[part]\nmaterial = acrylic/cast\nlength = 80 mm\nwidth = 60 mm\nthickness = 6 mm\n"      \
         "[machine]\nname = bench-24k\n"

/* Of each feature and tool the entry that fits. */
static const struct {
    const char *keys;
    uint32_t kind;
} entries[] = {
    {"work = slot\ntool = 3mm\nlength = 30 mm\nacross = 3 mm\ndepth = 2 mm\n", BITE_ENTER_RAMP},
    {"work = slot\ntool = 3mm\ndepth = 2 mm\n", BITE_ENTER_RAMP},
    {"work = slot\ntool = 3mm\nlength = 5 mm\nacross = 3 mm\ndepth = 2 mm\n", BITE_ENTER_PLUNGE},
    {"work = pocket\ntool = 3mm\nlength = 30 mm\nacross = 20 mm\ndepth = 2 mm\n", BITE_ENTER_RAMP},
    {"work = pocket\ntool = 6mm\nlength = 11 mm\nacross = 11 mm\ndepth = 2 mm\n", BITE_ENTER_HELIX},
    {"work = pocket\ntool = 6mm\nlength = 7 mm\nacross = 7 mm\ndepth = 2 mm\n", BITE_ENTER_PLUNGE},
    {"work = pocket\ntool = 6mm\nlength = 80 mm\nacross = 9 mm\ndepth = 2 mm\n",
     BITE_ENTER_OUTSIDE},
    {"work = pocket\ntool = 6mm\nlength = 70 mm\nacross = 60 mm\ndepth = 2 mm\n",
     BITE_ENTER_OUTSIDE},
    {"work = pocket\ntool = 3mm\nlength = 30 mm\nacross = 20 mm\nwidth = 1 mm\ndepth = 2 mm\n",
     BITE_ENTER_HELIX},
    {"work = rough\ntool = 3mm\nlength = 30 mm\nacross = 20 mm\ndepth = 2 mm\n", BITE_ENTER_HELIX},
    {"work = rough\ntool = 3mm\nlength = 30 mm\nacross = 4 mm\ndepth = 2 mm\n", BITE_ENTER_RAMP},
    {"work = bore\ntool = 3mm\nacross = 8 mm\n", BITE_ENTER_HELIX},
    {"work = bore\ntool = 3mm\n", BITE_ENTER_HELIX},
    {"work = contour\ntool = 3mm\ndepth = 6 mm\n", BITE_ENTER_RAMP},
    {"work = contour\ntool = 3mm\ndepth = 6 mm\nwidth = 0.5 mm\n", BITE_ENTER_OUTSIDE},
    {"work = cut-free\ntool = 3mm\n", BITE_ENTER_RAMP},
    {"work = finish\ntool = 3mm\nlength = 90 mm\ndepth = 2 mm\n", BITE_ENTER_OUTSIDE},
    {"work = face\ntool = 6mm\n", BITE_ENTER_OUTSIDE},
    {"work = chamfer\ntool = 6mm\ndepth = 0.5 mm\n", BITE_ENTER_OUTSIDE},
    {"work = drill\ntool = 3mm\n", BITE_ENTER_DRILL},
    {"work = pocket\ntool = 3mm\nlength = 30 mm\nacross = 20 mm\ndepth = 2 mm\nentry = hole\n",
     BITE_ENTER_HOLE},
    {"work = pocket\ntool = 3mm\nlength = 30 mm\nacross = 20 mm\ndepth = 2 mm\nentry = plunge\n",
     BITE_ENTER_PLUNGE},
    {"work = slot\ntool = 3mm\nlength = 30 mm\ndepth = 2 mm\nentry = outside\n",
     BITE_ENTER_OUTSIDE},
};
#define ENTRIES (sizeof entries / sizeof *entries)

/* The cut is judged with the entry that the plan names. */
START_TEST(every_feature_has_the_entry_that_fits)
{
    static const uint32_t judged_as[] = {BITE_ENTRY_OUTSIDE, BITE_ENTRY_PLUNGE,
                                         BITE_ENTRY_RAMP,    BITE_ENTRY_HELIX,
                                         BITE_ENTRY_OUTSIDE, BITE_ENTRY_OUTSIDE};
    bite_job *job = plan_of(PART "[pass.a]\n%s", entries[_i].keys);
    size_t at = place_of(job, "a");
    const bite_planned_entry *entry = &job->passes[at].entry;
    const bite_cut *cut = &job->passes[at].answer->full;
    ck_assert_msg(entry->kind == entries[_i].kind, "%s: %u", entries[_i].keys, entry->kind);
    ck_assert_uint_eq(cut->entry, judged_as[entry->kind]);
    if (entry->kind == BITE_ENTER_RAMP || entry->kind == BITE_ENTER_HELIX) {
        bite_assert_near(entry->length * sin(entry->angle), job->passes[at].step_down, 1e-9);
        bite_assert_near(entry->angle, cut->ramp_angle, 1e-12);
        ck_assert(entry->feed > 0.0 && entry->feed < cut->feed_rate);
    }
    if (entry->kind == BITE_ENTER_RAMP && isfinite(entry->leg)) {
        ck_assert_double_le(entry->length * cos(entry->angle), entry->legs * entry->leg * 1.000001);
    }
    if (entry->kind == BITE_ENTER_HELIX) { /* it fits, and leaves no core */
        ck_assert(entry->helix > 0.0);
        ck_assert(strstr(entries[_i].keys, "across") != NULL ||
                  fabs(entry->helix - 0.9 * cut->diameter) < 1e-9); /* room for any */
        ck_assert(job->passes[at].work == BITE_WORK_BORE || entry->helix < cut->diameter);
    }
    check_plan(job);
    bite_job_free(job);
}
END_TEST

static void add_insert_mill(void)
{
    char path[700];
    (void)snprintf(path, sizeof path, "%s/tools.ini", job_shop.tables);
    FILE *file = fopen(path, "a");
    ck_assert_msg(file != NULL, "%s", path);
    ck_assert_int_gt(fputs("\n[tool.insert]\ntitle = two inserts\nsource = memory\ndiameter = 6 "
                           "mm\nflutes = 2\ncentre_cutting = no\n",
                           file),
                     0);
    ck_assert_int_eq(fclose(file), 0);
    bite_library_close(job_library);
    job_library = bite_test_shop_open(&job_shop, NULL);
}

/* A tool that does not cut at its centre is never plunged. */
START_TEST(a_tool_without_a_centre_does_not_plunge)
{
    add_insert_mill();
    bite_job *job = plan(PART "[pass.a]\nwork = pocket\ntool = insert\nlength = 7 mm\nacross = 7 "
                              "mm\ndepth = 2 mm\n");
    size_t at = place_of(job, "a");
    ck_assert_uint_eq(job->passes[at].entry.kind, BITE_ENTER_HOLE);
    bite_assert_near(job->passes[at].entry.hole, 6.6e-3, 1e-9);
    ck_assert_uint_eq(job->pass_count, 2); /* and its hole, which comes first */
    ck_assert_uint_eq(job->passes[0].work, BITE_WORK_DRILL);
    ck_assert_str_eq(job->passes[at].hole.made_by, job->passes[0].name);
    ck_assert_double_ge(job->tools[job->passes[0].tool].diameter, 6.6e-3 - 1e-9);
    bite_job_free(job);
    job = plan(PART "[pass.a]\nwork = pocket\ntool = insert\nlength = 7 mm\nacross = 7 "
                    "mm\ndepth = 1 mm\n");
    ck_assert_uint_eq(job->pass_count, 1); /* shallower than the point of a drill */
    ck_assert_ptr_nonnull(remark_of(job, "passes", "drill one of at least 6.6 mm"));
    bite_job_free(job);
    job = plan(PART "[pass.a]\nwork = pocket\ntool = insert\nlength = 40 mm\nacross = 20 "
                    "mm\ndepth = 2 mm\nentry = plunge\n");
    ck_assert_ptr_nonnull(remark_of(job, "passes", "does not cut at the centre"));
    bite_job_free(job);
}
END_TEST

START_TEST(a_stated_ramp_that_does_not_fit_is_reported)
{
    bite_job *job = plan(PART "[pass.a]\nwork = pocket\ntool = 3mm\nlength = 5 mm\nacross = 5 "
                              "mm\ndepth = 2 mm\nentry = ramp\n");
    ck_assert_ptr_nonnull(remark_of(job, "passes", "leaves only 2 mm"));
    bite_job_free(job);
    job = plan(PART "[pass.a]\nwork = pocket\ntool = 3mm\nlength = 3 mm\nacross = 3 "
                    "mm\ndepth = 2 mm\nentry = ramp\n");
    ck_assert_ptr_nonnull(remark_of(job, "passes", "leaves only 0 mm"));
    bite_assert_near(job->passes[0].entry.legs, 1.0, 1e-12);
    bite_job_free(job);
    job = plan(PART "[pass.a]\nwork = pocket\ntool = 3mm\nlength = 30 mm\nacross = 3.8 "
                    "mm\ndepth = 2 mm\nentry = helix\n");
    ck_assert_ptr_nonnull(remark_of(job, "passes", "leaves only 0.8 mm")); /* of 0.9 mm */
    bite_job_free(job);
    job = plan(PART "[pass.a]\nwork = bore\ntool = 3mm\nacross = 3.8 mm\ndepth = 2 "
                    "mm\nentry = helix\n");
    ck_assert_ptr_null(remark_of(job, "passes", "leaves only"));
    bite_job_free(job);
    job = plan(PART "[pass.a]\nwork = pocket\ntool = 3mm\nlength = 50 mm\nacross = 5 "
                    "mm\ndepth = 2 mm\nramp_angle = 1.5 deg\nentry_feed = 120 mm/min\n" GIVEN);
    bite_assert_near(job->passes[0].entry.angle, 1.5 * M_PI / 180.0, 1e-9);
    bite_assert_near(job->passes[0].entry.feed, 0.002, 1e-9);
    bite_job_free(job);
    assert_refused(PART "[pass.a]\nwork = drill\ntool = 3mm\nentry_feed = 120 mm/min\n", 14,
                   "a drill enters");
}
END_TEST

/* A cone cuts the chamfer between the heights at which it is as wide as the wall and wider by the
 * leg: with 45 degrees, tip 0.6 mm, leg 0.5 mm, 1 mm below. */
START_TEST(the_cone_of_a_chamfer_is_placed)
{
    bite_job *job = plan(PART "[pass.a]\nwork = chamfer\ntool = 6mm\ndepth = 0.5 mm\ntip_below = 1 "
                              "mm\n" GIVEN);
    const bite_planned_path *path = &job->passes[0].path;
    bite_assert_near(path->tip_depth, 1.5e-3, 1e-9);
    bite_assert_near(path->tip_offset, 0.3e-3 + 1e-3, 1e-9);
    bite_job_free(job);
}
END_TEST

START_TEST(a_rough_pass_leaves_what_the_finish_takes)
{
    bite_job *job =
        plan(PART "[pass.a]\nwork = rough\ntool = 3mm\nlength = 30 mm\nacross = 20 mm\ndepth = 2 "
                  "mm\n[pass.b]\nwork = finish\ntool = 3mm\nlength = 90 mm\ndepth = 2 mm\nwidth = "
                  "0.2 mm\n[pass.c]\nwork = pocket\ntool = 3mm\nlength = 20 mm\nacross = 10 "
                  "mm\ndepth = 1 mm\n[pass.d]\nwork = finish\nafter = c\ntool = 3mm\nlength = 50 "
                  "mm\ndepth = 1 mm\nwidth = 0.1 mm\n");
    const bite_planned_pass *open = &job->passes[place_of(job, "c")];
    bite_assert_near(open->path.allowance, 0.1e-3, 1e-9);
    ck_assert_str_eq(job->passes[open->path.allowance_for].name, "d");
    bite_assert_near(job->passes[place_of(job, "d")].path.lead, 1.5e-3, 1e-9);
    ck_assert(isnan(open->path.lead));
    bite_assert_near(open->path.step_over, 1.2e-3, 1e-9);
    check_plan(job);
    bite_job_free(job);
}
END_TEST

/* On a mill with play in its screws walls are cut against the feed. */
START_TEST(play_in_the_screws_asks_for_conventional_cuts)
{
    bite_job *job = plan(HEAD ACRYLIC "[machine]\nname = knee-mill\n[pass.a]\nwork = contour\ntool "
                                      "= 6mm\nwidth = 1 mm\ndepth = 2 mm\n");
    ck_assert_uint_eq(job->passes[0].path.conventional, 1);
    ck_assert_uint_eq(job->passes[0].answer->full.side, BITE_CONVENTIONAL);
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("entry plan");
    TCase *tests = tcase_create("entry plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_loop_test(tests, every_feature_has_the_entry_that_fits, 0, (int)ENTRIES);
    tcase_add_test(tests, a_tool_without_a_centre_does_not_plunge);
    tcase_add_test(tests, a_stated_ramp_that_does_not_fit_is_reported);
    tcase_add_test(tests, the_cone_of_a_chamfer_is_placed);
    tcase_add_test(tests, a_rough_pass_leaves_what_the_finish_takes);
    tcase_add_test(tests, play_in_the_screws_asks_for_conventional_cuts);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
