/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Springs: laps of a finishing pass that are repeated because the tool gives way, and sheets that
 * bow when a face is skimmed. */
#include "core/job/remarks.h"
#include "core/library/item.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>

/* A wall of steel, 12 mm deep and 100 mm long, finished in one step. */
#define WALL(tolerance)                                                                            \
    HEAD "[part]\nmaterial = steel/1018\nlength = 60 mm\nwidth = 40 mm\nthickness = 20 mm\n"       \
         "tolerance = " tolerance "\n[stock]\nthinnest = 20 mm\nthickest = 20.02 mm\n"             \
         "faces = none\n[machine]\nname = small-vmc\n[hold]\nmethod = vise\n"                      \
         "clamp_force = 10 kN\njaw_depth = 5 mm\n[pass.a]\nwork = finish\ndepth = 12 mm\n"         \
         "length = 100 mm\n"
#define SET "spindle = 2000rpm\nfeed = 150mm/min\n"

static const bite_remark *remark_with(const bite_job *job, uint32_t id)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        if (job->remarks[i].id == id) {
            return &job->remarks[i];
        }
    }
    return NULL;
}

/* Each lap leaves what the tool gives way by under what the lap before left, and no less than the
 * thinnest chip that forms. They are repeated until a quarter of the tolerance of 0.04 mm is left,
 * and their time is counted: 40 s each. */
static void assert_springs(size_t draws)
{
    bite_job_options options = job_options(draws);
    bite_job *job =
        plan_with(WALL("0.04 mm") "tool = 6mm\npass_depth = 12 mm\nwidth = 0.4 mm\n" SET, &options);
    const bite_planned_pass *pass = &job->passes[0];
    const bite_limit *bends = &pass->answer->result.limits[BITE_LIMIT_DEFLECTION];
    double thinnest = pass->answer->result.values[BITE_CHIP_THICKNESS_LEAST].value;
    const bite_remark *springs = remark_with(job, BITE_REMARK_SPRINGS);
    ck_assert(pass->springs == 1 || pass->springs == 2);
    ck_assert_double_gt(pass->first_leaves, 10e-6);
    ck_assert_double_le(pass->spring_leaves, 10e-6);
    bite_assert_near(pass->spring_leaves, fmax(bends->demand, thinnest), 1e-9);
    bite_assert_near(pass->feed_seconds, (1.0 + pass->springs) * 40.0, 1e-9);
    ck_assert_uint_eq(bends->verdict, BITE_CLEAR);
    ck_assert_ptr_nonnull(springs);
    bite_assert_near(springs->values[1].quantity, pass->first_leaves, 1e-12);
    ck_assert_double_eq(springs->values[2].quantity, pass->springs);
    bite_assert_near(springs->values[3].quantity, pass->spring_leaves, 1e-12);
    ck_assert_ptr_null(remark_with(job, BITE_REMARK_SPRINGS_DO_NOT_HELP));
    bite_job_free(job);
}

START_TEST(laps_are_repeated_while_it_helps)
{
    assert_springs(BITE_DRAWS_NONE);
    assert_springs(512);
}
END_TEST

/* A light lap leaves little, and a wall without a tolerance may be as it is. Of 0.008 mm
 * even the thinnest chip that a lap can take is more than a quarter, which is said. */
START_TEST(laps_that_are_not_repeated)
{
    bite_job *light = plan(WALL("0.04 mm") "tool = 6mm\npass_depth = 12 mm\nwidth = 0.03 mm\n" SET);
    bite_job *slim = plan(WALL("0.008 mm") "tool = 3mm\npass_depth = 9 mm\nwidth = 0.4 mm\n" SET);
    bite_job *pocket = plan(WALL("0.04 mm") "tool = 6mm\npass_depth = 12 mm\nwidth = 0.4 mm\n" SET
                                            "[pass.p]\nwork = pocket\ntool = 6mm\ndepth = 1 mm\n"
                                            "length = 20 mm\nacross = 10 mm\n" SET);
    ck_assert_uint_eq(light->passes[0].springs, 0);
    ck_assert_double_lt(light->passes[0].first_leaves, 10e-6);
    ck_assert_ptr_null(remark_with(light, BITE_REMARK_SPRINGS));
    ck_assert_ptr_null(remark_with(light, BITE_REMARK_SPRINGS_DO_NOT_HELP));
    ck_assert_double_gt(slim->passes[0].spring_leaves, 2e-6);
    ck_assert_ptr_nonnull(remark_with(slim, BITE_REMARK_SPRINGS_DO_NOT_HELP));
    ck_assert_ptr_null(remark_with(slim, BITE_REMARK_SPRINGS));
    const bite_planned_pass *other = &pocket->passes[place_of(pocket, "p")];
    ck_assert_uint_eq(other->springs, 0);
    ck_assert(isnan(other->first_leaves)); /* only the laps of a finishing pass are repeated */
    bite_job_free(light);
    bite_job_free(slim);
    bite_job_free(pocket);
}
END_TEST

#define SHEET                                                                                      \
    HEAD "[part]\nmaterial = acrylic/extruded\nlength = 200 mm\nwidth = 20 mm\nthickness = 2 mm\n" \
         "[stock]\nnominal = 3 mm\nfaces = top\n"

/* The bow of a strip of 100 mm that is skimmed by a quarter tells the stress in the skin of the
 * sheet, whatever else is stated of it; over twice the span it is four times as much. */
START_TEST(a_coupon_tells_the_stress)
{
    bite_job *stated = plan(SHEET "skin_stress = 2 MPa\n" ONE_PASS);
    double bow = 1e3 * stated->warp.coupon;
    ck_assert_double_gt(bow, 1e-3);
    bite_assert_near(stated->warp.stress, 2e6, 1e-9);
    bite_assert_near(stated->warp.coupon_cut, 0.75e-3, 1e-9);
    bite_job *measured = plan_of(SHEET "skin_stress = 5 MPa\ncoupon_cut = 0.75 mm\n"
                                       "coupon_bow = %.12g mm\n" ONE_PASS,
                                 bow);
    bite_job *longer = plan_of(SHEET "coupon_cut = 0.75 mm\ncoupon_span = 200 mm\n"
                                     "coupon_bow = %.12g mm\n" ONE_PASS,
                               4.0 * bow);
    bite_assert_near(measured->warp.stress, 2e6, 1e-6);
    bite_assert_near(longer->warp.stress, 2e6, 1e-6);
    bite_job_free(stated);
    bite_job_free(measured);
    bite_job_free(longer);
}
END_TEST

/* What the faces differ by: as measured, by moisture, and by the warmth of one face; what is not
 * stated counts as nothing, and nothing stated as not known. */
START_TEST(faces_differ_by_all_that_is_stated)
{
    bite_job *plain = plan(SHEET ONE_PASS);
    double expansion = bite_item_figure(&plain->grade->record, "expansion");
    const struct {
        const char *stock;
        double strain;
    } cases[] = {
        {"face_strain = 0.1 %\n", 1e-3},
        {"moisture_strain = 0.05 %\n", 0.5e-3},
        {"face_warmth = 10\n", 10.0 * expansion},
        {"face_strain = 0.1 %\nmoisture_strain = 0.05 %\nface_warmth = 10\n",
         1.5e-3 + 10.0 * expansion},
    };
    ck_assert_double_gt(expansion, 0.0);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job *job = plan_of(SHEET "%s" ONE_PASS, cases[i].stock);
        bite_assert_near(job->passes[0].answer->full.face_strain, cases[i].strain, 1e-8);
        bite_job_free(job);
    }
    bite_job_free(plain);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("spring plan");
    TCase *tests = tcase_create("spring plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, laps_are_repeated_while_it_helps);
    tcase_add_test(tests, laps_that_are_not_repeated);
    tcase_add_test(tests, a_coupon_tells_the_stress);
    tcase_add_test(tests, faces_differ_by_all_that_is_stated);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
