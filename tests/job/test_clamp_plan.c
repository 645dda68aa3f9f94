/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jaws, screws and tabs against the forces of every pass. */
#include "tests/job/job_fixture.h"
#include <math.h>

#define FREE                                                                                       \
    "[pass.a]\nwork = pocket\ntool = 2mm\ndepth = 1 mm\n" GIVEN                                    \
    "[pass.b]\nwork = cut-free\ntool = 2mm\n" GIVEN

static bite_job *clamped(const char *hold)
{
    return plan_of(HEAD ACRYLIC "[hold]\n%s\n" FREE, hold);
}

/* Jaws, screws and tabs are judged by the forces of every pass; each reports what it needs and what
 * fails first. */
START_TEST(clamps_are_judged_by_every_pass)
{
    bite_job *soft = clamped("method = vise\nclamp_force = 20 N");
    bite_job *firm = clamped("method = vise\nclamp_force = 200 N");
    bite_job *bent = clamped("method = vise\nclamp_force = 20 kN");
    ck_assert_str_eq(bent->hold.failure_mode, "buckle");
    ck_assert_uint_eq(bent->verdict, BITE_OVER);
    ck_assert_ptr_nonnull(remark_of(bent, "hold", "buckles at"));
    ck_assert_ptr_nonnull(remark_of(soft, "hold", "loose at the end of the cut"));
    ck_assert_ptr_nonnull(remark_of(soft, "hold", "may fail"));
    bite_assert_near(soft->passes[0].hold_utilization, 10.0 * firm->passes[0].hold_utilization,
                     1e-9);
    bite_assert_near(soft->hold.needs, soft->hold.utilization * 20.0, 1e-9);
    bite_job_free(soft);
    bite_job_free(firm);
    bite_job_free(bent);

    bite_job *deep =
        plan(HEAD ACRYLIC
             "[stock]\nthinnest = 2 mm\nthickest = 2 mm\n[hold]\nmethod = vise\njaw_depth = 1.5 "
             "mm\n[pass.a]\nwork = contour\ntool = 2mm\ndepth = 1.8 "
             "mm\n" GIVEN);
    ck_assert_ptr_nonnull(remark_of(deep, "hold", "hits them"));
    ck_assert_uint_eq(deep->verdict, BITE_OVER);
    bite_job_free(deep);
    bite_job *usual = clamped("method = screws\nfriction = 0.01");
    bite_job *more =
        clamped("method = screws\nscrews = 6\nscrew = 4 mm\ntorque = 0.5 Nm\nfriction = 0.01");
    bite_job *hard =
        clamped("method = screws\nscrews = 6\nscrew = 4 mm\nengaged = 12 mm\nclamp_force = 30 kN");
    bite_assert_near(usual->hold.force, 0.5 / (0.2 * 4e-3), 1e-9);
    bite_assert_near(usual->passes[0].hold_utilization / more->passes[0].hold_utilization, 3.0,
                     0.1); /* lift reduces both slightly */
    ck_assert_str_eq(hard->hold.failure_mode, "stretch");
    ck_assert_uint_eq(hard->verdict, BITE_OVER);
    bite_job_free(usual);
    bite_job_free(more);
    bite_job_free(hard);

    bite_job *tabs = clamped("method = tabs\ntabs = 4\ntab_width = 6 mm\ntab_height = 1.5 mm");
    bite_job *thin = clamped("method = tabs\ntabs = 4\ntab_width = 6 mm\ntab_height = 0.05 mm");
    for (size_t i = 0; i < tabs->pass_count;
         i++) { /* a part that stays in its sheet needs no tabs */
        ck_assert_int_eq(!isnan(tabs->passes[i].hold_utilization),
                         tabs->passes[i].work == BITE_WORK_FREE);
    }
    ck_assert_double_lt(tabs->hold.utilization, 1.0);
    ck_assert_ptr_null(remark_of(tabs, "hold", "may fail"));
    ck_assert_ptr_nonnull(remark_of(tabs, "hold", "Leave 4 tabs of 6 mm by 1.5 mm"));
    ck_assert_double_gt(thin->hold.utilization, 1.0);
    ck_assert_double_gt(thin->hold.chance, 0.5);
    ck_assert_uint_eq(thin->verdict, BITE_OVER);
    ck_assert_str_eq(thin->hold.failure_mode, "break");
    bite_job_free(tabs);
    bite_job_free(thin);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("clamp plan");
    TCase *tests = tcase_create("clamp plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, clamps_are_judged_by_every_pass);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
