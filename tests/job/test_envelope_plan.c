/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The work envelope: blanks and stacks against the machine and its vise. */
#include "tests/job/job_fixture.h"
#include <math.h>

#define FREE_3MM "[pass.free]\nwork = cut-free\ntool = 3mm\n" GIVEN
#define FACE_6MM "[pass.face]\nwork = face\ntool = 6mm\n" GIVEN

static bite_job *parts_on(const char *machine, double length, double width, int count,
                          const char *more)
{
    return plan_of(HEAD "[part]\nmaterial = acrylic/cast\nlength = %.1f mm\nwidth = %.1f "
                        "mm\nthickness = 5 mm\ncount = %d\n%s%s",
                   length, width, count, machine, more);
}

/* Travels of the class are 230 x 130 x 160 mm. Facing with a tool of 6 mm needs 6 mm more than the
 * blank: of parts of 100 x 60 mm, 7.25 mm apart and 6 mm to the edge, three fit across. */
START_TEST(blanks_fit_the_machine)
{
    bite_job *job =
        parts_on("[machine]\nname = desktop-light\n", 100.0, 60.0, 24, FACE_6MM FREE_3MM);
    ck_assert_uint_eq(job->stock.blanks, 8);
    ck_assert_uint_eq(job->stock.on_each, 3);
    ck_assert_ptr_nonnull(remark_of(job, "stock", "the machine does not reach over all parts"));
    bite_assert_near(job->envelope.needs[0], 0.2065 + 0.006, 1e-9);
    bite_assert_near(job->envelope.needs[1], 0.112 + 0.006, 1e-9);
    ck_assert_uint_eq(job->envelope.beyond, 0);
    bite_job_free(job);
    /* 112 x 130 mm lie within the travels, but the tool runs 6 mm over: turned, 136 x 118 mm fit */
    job = parts_on("[machine]\nname = desktop-light\n", 100.0, 118.0, 1, FACE_6MM FREE_3MM);
    bite_assert_near(job->envelope.needs[0], 0.130 + 0.006, 1e-9);
    bite_assert_near(job->envelope.needs[1], 0.112 + 0.006, 1e-9);
    ck_assert_uint_eq(job->envelope.beyond, 0);
    bite_job_free(job);
    job = parts_on("[machine]\nname = desktop-light\n", 2400.0, 60.0, 1, FREE_3MM);
    ck_assert_uint_eq(job->envelope.beyond, 1);
    ck_assert_uint_eq(job->verdict, BITE_OVER);
    ck_assert_ptr_nonnull(remark_of(job, "stock", "needs 2412 mm of the X axis"));
    ck_assert_ptr_nonnull(remark_of(job, "stock", "desktop-light has 230 mm"));
    bite_job_free(job);
}
END_TEST

/* A machine that is only assumed limits nothing; its numbers are shown. */
START_TEST(an_assumed_machine_is_a_question)
{
    bite_job *job = parts_on("", 600.0, 60.0, 1, FREE_3MM);
    ck_assert_uint_eq(job->envelope.beyond, 0);
    ck_assert_uint_eq(job->envelope.stated, 0);
    ck_assert_uint_eq(remark_of(job, "stock", "needs 612 mm of the X axis")->severity, BITE_NOTE);
    bite_job_free(job);
}
END_TEST

/* A circuit-board mill has 60 mm from spindle to table: board of 12 mm, stock, 5 mm and the tool.
 */
START_TEST(the_stack_is_measured)
{
    bite_job *job = parts_on("[machine]\nname = board-mill\n", 60.0, 40.0, 1,
                             "[hold]\nmethod = tape\n" FREE_3MM);
    double stack = 12e-3 + job->stock.thick + 5e-3 + job->passes[0].answer->full.stickout;
    bite_assert_near(job->envelope.stack, stack, 1e-9);
    ck_assert_uint_eq(job->envelope.beyond, 0);
    bite_job_free(job);
    job = parts_on("[machine]\nname = board-mill\n", 60.0, 40.0, 1,
                   "[hold]\nmethod = tape\nheight = 40 mm\n" FREE_3MM);
    ck_assert_uint_eq(job->envelope.beyond, 1);
    ck_assert_ptr_nonnull(remark_of(job, "stock", "use a lower fixture or a shorter tool"));
    bite_job_free(job);
}
END_TEST

/* The vise of the class opens 50 mm and its jaws are 50 mm wide. */
START_TEST(the_vise_must_open_wide_enough)
{
    static const char pocket[] = "[hold]\nmethod = vise\n[pass.a]\nwork = pocket\ntool = "
                                 "3mm\nlength = 20 mm\nacross = 15 mm\ndepth = 1 mm\n" GIVEN;
    bite_job *fits = parts_on("[machine]\nname = desktop-light\n", 80.0, 45.0, 2, pocket);
    bite_job *wide = parts_on("[machine]\nname = desktop-light\n", 120.0, 60.0, 1, pocket);
    ck_assert_uint_eq(fits->envelope.beyond, 0);
    ck_assert_uint_eq(fits->stock.blanks, 2);
    ck_assert_ptr_null(remark_of(fits, "hold", "its ends are not supported"));
    ck_assert_uint_eq(wide->envelope.beyond, 1);
    ck_assert_ptr_nonnull(remark_of(wide, "stock", "the piece between the jaws needs 60 mm"));
    ck_assert_ptr_nonnull(remark_of(wide, "hold", "its ends are not supported"));
    bite_job_free(fits);
    bite_job_free(wide);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("envelope plan");
    TCase *tests = tcase_create("envelope plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, blanks_fit_the_machine);
    tcase_add_test(tests, an_assumed_machine_is_a_question);
    tcase_add_test(tests, the_stack_is_measured);
    tcase_add_test(tests, the_vise_must_open_wide_enough);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
