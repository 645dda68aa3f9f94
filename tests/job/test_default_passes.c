/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The passes of a job that names none, and the words of job files. */
#include "core/job/job_file_schema.h"
#include "core/job/setup_plan.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>

#define SHEET                                                                                      \
    HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n"

/* Both faces: first from below, then from above, where the rest is done. One face, or none: in one
 * setup. A thin section is a pocket as deep as it is thinner. */
static const struct {
    const char *keys;
    uint32_t setups;
    uint32_t sides[2];
    const char *passes; /* by name, in order */
    double pocket;      /* mm deep */
} jobs[] = {
    {"thinnest = 1.2 mm\n[stock]\nfaces = both\n",
     2,
     {BITE_SIDE_BOTTOM, BITE_SIDE_TOP},
     "face-below face pocket cut-free",
     0.8},
    {"thinnest = 2 mm\n[stock]\nfaces = both\n",
     2,
     {BITE_SIDE_BOTTOM, BITE_SIDE_TOP},
     "face-below face cut-free",
     0.0},
    {"[stock]\nfaces = top\n", 1, {BITE_SIDE_TOP, 0}, "face cut-free", 0.0},
    {"[stock]\nfaces = none\n", 1, {BITE_SIDE_TOP, 0}, "cut-free", 0.0},
    {"[stock]\nfaces = both\n[setup.1]\nside = top\n[setup.2]\nside = bottom\n",
     2,
     {BITE_SIDE_TOP, BITE_SIDE_BOTTOM},
     "face-below face cut-free",
     0.0},
};
#define JOBS (sizeof jobs / sizeof *jobs)

START_TEST(passes_of_a_job_without_any)
{
    bite_job *job = plan_of(SHEET "%s", jobs[_i].keys);
    char names[200] = "";
    size_t used = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        used += (size_t)snprintf(names + used, sizeof names - used, "%s%s", i == 0 ? "" : " ",
                                 job->passes[i].name);
    }
    ck_assert_str_eq(names, jobs[_i].passes);
    ck_assert_uint_eq(job->setups, jobs[_i].setups);
    for (uint32_t i = 0; i < jobs[_i].setups; i++) {
        ck_assert_uint_eq(job->setup_plan[i].side, jobs[_i].sides[i]);
    }
    if (jobs[_i].pocket > 0.0) {
        bite_assert_near(1e3 * job->passes[place_of(job, "pocket")].depth, jobs[_i].pocket, 1e-9);
    }
    bite_job_free(job);
}
END_TEST

/* What comes off a face of a thick sheet is that of the side which is up, in whichever order they
 * are; the cut that frees the part goes as deep as its own setup bears: into the tape, and not by
 * what a vise bears. */
START_TEST(depths_are_those_of_the_setup)
{
    static const char *const setups[] = {"", "[setup.1]\nside = top\n[setup.2]\nside = bottom\n"};
    for (size_t i = 0; i < 2; i++) {
        bite_job *job = plan_of(SHEET "[stock]\nfaces = both\nshare_top = 30 %%\n%s", setups[i]);
        const bite_sheet_stock_removal *removal = &job->stock.removal;
        bite_assert_near(7.0 * removal->thick_top, 3.0 * removal->thick_below, 1e-9);
        for (size_t k = 0; k < 2; k++) {
            int below = bite_plan_setup(job, job->passes[k].setup)->side == BITE_SIDE_BOTTOM;
            bite_assert_near(job->passes[k].depth,
                             below ? removal->thick_below : removal->thick_top, 1e-9);
        }
        bite_job_free(job);
    }
    bite_job *tape = plan(SHEET "[stock]\nfaces = both\n[hold]\nmethod = tape\n");
    bite_job *mixed = plan(SHEET "[stock]\nfaces = both\n[hold]\nmethod = tape\n[setup.1]\n"
                                 "method = vise\n");
    double deep = tape->passes[place_of(tape, "cut-free")].depth;
    ck_assert_double_gt(deep, 2e-3);
    bite_assert_near(mixed->passes[place_of(mixed, "cut-free")].depth, deep, 1e-12);
    bite_job_free(tape);
    bite_job_free(mixed);
}
END_TEST

START_TEST(words_of_job_files)
{
    ck_assert_str_eq(bite_side_word(BITE_SIDE_TOP), "top");
    ck_assert_str_eq(bite_side_word(BITE_SIDE_RIGHT), "right");
    ck_assert_ptr_null(bite_side_word(BITE_SIDE_RIGHT + 1));
    ck_assert_str_eq(bite_work_word(BITE_WORK_FACE), "face");
    ck_assert_str_eq(bite_work_word(BITE_WORK_FREE), "cut-free");
    ck_assert_str_eq(bite_work_title(BITE_WORK_FREE), "cut free");
    ck_assert_ptr_null(bite_work_word(BITE_WORK_COUNT));
    ck_assert_ptr_null(bite_work_title(BITE_WORK_COUNT));
    ck_assert_str_eq(bite_datum_title("stock-top"), "the top of the stock");
    ck_assert_str_eq(bite_datum_title("elsewhere"), "elsewhere");
    ck_assert_str_eq(bite_job_file_field("pass.", "depth")->name, "depth");
    ck_assert_ptr_null(bite_job_file_field("pass.", "colour"));
    ck_assert_ptr_null(bite_job_file_field("passage", "depth"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("default passes");
    TCase *tests = tcase_create("default passes");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_loop_test(tests, passes_of_a_job_without_any, 0, (int)JOBS);
    tcase_add_test(tests, depths_are_those_of_the_setup);
    tcase_add_test(tests, words_of_job_files);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
