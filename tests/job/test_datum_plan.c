/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Z zero of each setup: what follows the top, what follows the fixture, and both ends of the
 * thickness of the sheet. */
#include "core/job/datum_plan.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PLATE(thinnest)                                                                            \
    HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n"      \
         "tolerance = 0.1 mm\n" thinnest "[hold]\nmethod = tape\n"
#define POCKET "[pass.pocket]\nwork = pocket\ntool = 2mm\nlength = 20 mm\nacross = 10 mm\n" GIVEN
#define FREE "[pass.free]\nwork = cut-free\ntool = 2mm\n" GIVEN

/* Cast acrylic of 2 mm is 1.4 mm to 2.6 mm thick: a pocket 1.5 mm deep from the top has a floor of
 * -0.1 mm to 1.1 mm. The depth wants the top; the through cut, which may end anywhere in the tape,
 * wants a zero of its own. */
START_TEST(a_depth_follows_the_top)
{
    bite_job *job = plan(PLATE("") POCKET "depth = 1.5 mm\n" FREE);
    const bite_planned_pass *pocket = &job->passes[place_of(job, "pocket")];
    ck_assert_uint_eq(job->datums[0].on_fixture, 0);
    ck_assert_uint_eq(job->datums[0].dimension, BITE_DIMENSION_DEPTH);
    ck_assert_int_eq(job->datums[0].pass, (int)place_of(job, "pocket"));
    bite_assert_near(job->datums[0].error_top, 0.02e-3, 1e-9);
    bite_assert_near(job->datums[0].error_fixture, 0.6e-3, 1e-9);
    bite_assert_near(pocket->floor_thin, -0.1e-3, 1e-6);
    bite_assert_near(pocket->floor_thick, 1.1e-3, 1e-6);
    ck_assert_ptr_nonnull(remark_of(job, "stock", "breaks through the part by 0.1 mm"));
    ck_assert_ptr_nonnull(remark_of(job, "stock", "may end 0.62 mm too high or too low"));
    ck_assert_uint_ge(job->verdict, BITE_TIGHT);
    bite_job_free(job);
}
END_TEST

/* The same pocket for the sake of its floor, 0.5 mm: zero on the fixture, within the unevenness of
 * 0.13 mm of tape and 0.02 mm of the plate; nothing breaks through. */
START_TEST(a_floor_follows_the_fixture)
{
    bite_job *job = plan(PLATE("thinnest = 0.5 mm\n") POCKET FREE);
    const bite_planned_pass *pocket = &job->passes[place_of(job, "pocket")];
    double uneven = hypot(0.013e-3, 0.02e-3);
    ck_assert_uint_eq(job->datums[0].on_fixture, 1);
    ck_assert_uint_eq(job->datums[0].dimension, BITE_DIMENSION_FLOOR);
    bite_assert_near(job->datums[0].error_fixture, uneven, 1e-9);
    bite_assert_near(job->datums[0].error_top, 0.62e-3, 1e-9);
    bite_assert_near(pocket->floor_thin, 0.5e-3 - uneven, 1e-9);
    ck_assert_ptr_null(remark_of(job, "stock", "breaks through"));
    ck_assert_ptr_nonnull(remark_of(job, "stock", "up to 0.6 mm deeper where the sheet is"));
    bite_job_free(job);
}
END_TEST

/* The last face makes the part's thickness and needs the fixture; the first face may follow the
 * top, and after a face depths are as good from either zero. */
START_TEST(the_last_face_makes_the_thickness)
{
    bite_job *job =
        plan(PLATE("") "[pass.below]\nwork = face\nsetup = 1\ntool = 6mm\n" GIVEN
                       "[pass.top]\nwork = face\nsetup = 2\ntool = 6mm\n" GIVEN POCKET
                       "setup = 2\ndepth = 1.5 mm\n[pass.edge]\nwork = chamfer\nsetup = 2\ntool = "
                       "3mm\ndepth = 0.3 mm\n" GIVEN);
    const bite_planned_pass *pocket = &job->passes[place_of(job, "pocket")];
    ck_assert_uint_eq(job->setups, 2);
    ck_assert_uint_eq(job->datums[0].on_fixture, 0);
    ck_assert_int_eq(job->datums[0].pass, -1);
    ck_assert_uint_eq(job->datums[1].on_fixture, 1);
    ck_assert_uint_eq(job->datums[1].dimension, BITE_DIMENSION_THICKNESS);
    ck_assert_double_gt(job->datums[1].error_top, 0.3e-3);
    ck_assert_double_lt(job->datums[1].error_fixture, 0.03e-3);
    ck_assert(pocket->floor_thin > 0.45e-3 && pocket->floor_thick < 0.55e-3);
    ck_assert_ptr_null(remark_of(job, "stock", "may be off by"));
    bite_job_free(job);
}
END_TEST

/* A face that is not the last one: what is left is the sheet less what comes off that face, and as
 * uneven as before. Under a pocket from the top is that less its depth. */
START_TEST(a_face_above_a_pocket)
{
    bite_job *job = plan(PLATE("") "[setup.1]\nside = top\n[setup.2]\nside = bottom\n[pass.top]\n"
                                   "work = face\nsetup = 1\ntool = 6mm\n" GIVEN POCKET
                                   "setup = 1\ndepth = 1 mm\n[pass.below]\nwork = face\nsetup = "
                                   "2\ntool = 6mm\n" GIVEN);
    const bite_planned_pass *pocket = &job->passes[place_of(job, "pocket")];
    const bite_sheet_stock_removal *off = &job->stock.removal;
    double left = 0.5 * (job->stock.thin + job->stock.thick - off->thin_top - off->thick_top);
    ck_assert_uint_eq(job->datums[0].on_fixture, 0);
    ck_assert_double_gt(off->thick_top, off->thin_top);
    bite_assert_near(0.5 * (pocket->floor_thin + pocket->floor_thick), left - 1e-3, 1e-9);
    bite_assert_near(pocket->floor_thick - pocket->floor_thin, job->stock.thick - job->stock.thin,
                     1e-9);
    bite_job_free(job);
}
END_TEST

/* A chamfer on a sheet that stays as it is. */
START_TEST(a_chamfer_follows_the_top)
{
    bite_job *job =
        plan(PLATE("") "[pass.edge]\nwork = chamfer\ntool = 3mm\ndepth = 0.3 mm\n" GIVEN);
    ck_assert_uint_eq(job->datums[0].on_fixture, 0);
    ck_assert_uint_eq(job->datums[0].dimension, BITE_DIMENSION_DEPTH);
    ck_assert(isnan(job->passes[0].floor_thin));
    bite_job_free(job);
}
END_TEST

/* Both wanted at once, a closer depth than the sheet allows is reported. */
START_TEST(what_neither_zero_can_do_is_reported)
{
    bite_job *job = plan(PLATE("thinnest = 1 mm\n") POCKET
                         "[pass.slot]\nwork = slot\ntool = 2mm\nlength = 10 mm\ndepth = 0.5 mm\n"
                         "tolerance = 0.3 mm\n" GIVEN);
    ck_assert_uint_eq(job->datums[0].on_fixture, 1);
    ck_assert_ptr_nonnull(remark_of(job, "stock", "the depth may be off by 0.6 mm"));
    bite_job_free(job);
}
END_TEST

/* The floor of 0.5 mm again, with Z zero stated on the top of the stock: the plan follows it,
 * prints it alone, says what it makes of the floor, and that the fixture would keep the tolerance.
 */
START_TEST(a_stated_zero_is_followed_and_judged)
{
    static const char stated[] = "[setup.1]\ndatum_xy = centre\ndatum_z = stock-top\n";
    bite_job *job = plan_of("%s%s", PLATE("thinnest = 0.5 mm\n") POCKET FREE, stated);
    const bite_planned_pass *pocket = &job->passes[place_of(job, "pocket")];
    ck_assert_uint_eq(job->datums[0].on_fixture, 0);
    ck_assert_uint_eq(job->datums[0].dimension, BITE_DIMENSION_FLOOR);
    bite_assert_near(job->datums[0].error_top, 0.62e-3, 1e-9);
    bite_assert_near(pocket->floor_thin, -0.1e-3, 1e-6);
    const bite_remark *needed =
        remark_of(job, "stock", "With zero on what the stock lies on it is off by 0.024 mm");
    ck_assert_ptr_nonnull(needed);
    ck_assert_uint_eq(needed->severity, BITE_CARE);
    ck_assert_ptr_nonnull(remark_of(job, "stock", "breaks through the part"));
    char *sheet = write_as(job, BITE_HTML, 0);
    char *text = write_as(job, BITE_TEXT, 1);
    ck_assert_uint_eq(count_of(sheet, "Z zero: <b>"), 1);
    ck_assert_ptr_nonnull(strstr(sheet, "Z zero: <b>on the top of the stock, as stated</b>"));
    ck_assert_ptr_nonnull(strstr(text, "on the top of the stock, as stated: the floor"));
    ck_assert_ptr_null(strstr(text, "on what the stock lies on (board"));
    json_t *root = json_of(job);
    const json_t *datum = json_array_get(json_object_get(root, "datums"), 0);
    ck_assert_str_eq(json_string_value(json_object_get(datum, "zero")), "top");
    ck_assert_str_eq(json_string_value(json_object_get(datum, "stated")), "stock-top");
    json_decref(root);
    free(sheet);
    free(text);
    bite_job_free(job);
}
END_TEST

/* Stated as it would have been chosen, the zero needs no caution; a finished face is a top. */
START_TEST(a_stated_zero_that_serves_needs_no_caution)
{
    static const struct {
        const char *word;
        uint32_t on_fixture;
    } zeros[] = {{"fixture", 1}, {"finished-face", 0}};
    for (size_t i = 0; i < 2; i++) {
        bite_job *job = plan_of("%s[setup.1]\ndatum_z = %s\n",
                                i == 0 ? PLATE("thinnest = 0.5 mm\n") POCKET
                                       : PLATE("") POCKET "depth = 0.5 mm\n",
                                zeros[i].word);
        ck_assert_uint_eq(job->datums[0].on_fixture, zeros[i].on_fixture);
        ck_assert_ptr_null(remark_of(job, "stock", "as the job file states"));
        bite_job_free(job);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("datum plan");
    TCase *tests = tcase_create("datum plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, a_depth_follows_the_top);
    tcase_add_test(tests, a_floor_follows_the_fixture);
    tcase_add_test(tests, the_last_face_makes_the_thickness);
    tcase_add_test(tests, a_face_above_a_pocket);
    tcase_add_test(tests, a_chamfer_follows_the_top);
    tcase_add_test(tests, what_neither_zero_can_do_is_reported);
    tcase_add_test(tests, a_stated_zero_is_followed_and_judged);
    tcase_add_test(tests, a_stated_zero_that_serves_needs_no_caution);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
