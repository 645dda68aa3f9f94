/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet of a job: its thickness, what is removed, how it is cut into parts, how it warps. */
#include "tests/job/job_fixture.h"
#include <math.h>

/* That the tables know no sheet of a material is said, but only then. */
START_TEST(a_material_without_sheets_is_measured)
{
    static const struct {
        const char *material;
        int known;
    } cases[] = {{"acrylic/cast", 1}, {"titanium", 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 mm\n"
                                     "thickness = 2 mm\n" ONE_PASS,
                                cases[i].material);
        ck_assert_int_eq(remark_of(job, "stock", "no sheet of this material") == NULL,
                         cases[i].known);
        bite_job_free(job);
    }
}
END_TEST

/* Cast acrylic sheet of thickness t has a tolerance of 0.4 mm + t/10: 3 mm sheet always contains
 * 2.2 mm (2.3), 2.5 mm sheet 1.6 mm (1.85), with a skim of 0.1 mm off each face that is cut. If
 * both faces stay, the part is as thick as the sheet: the thinnest that is called no thinner than
 * the part less its tolerance of 0.05 mm, not the nearest. */
START_TEST(sheet_thickness_follows_the_faced_sides)
{
    static const struct {
        const char *faces;
        double part; /* mm */
        double needed;
        double nominal;
        double top; /* removed from a thick sheet */
        double below;
    } cases[] = {{"both", 2.0, 2.2, 3.0, 0.85, 0.85}, {"top", 2.0, 2.1, 3.0, 1.7, 0.0},
                 {"none", 2.0, 2.0, 2.0, 0.0, 0.0},   {"both", 1.65, 1.85, 2.5, 0.75, 0.75},
                 {"top", 1.75, 1.85, 2.5, 1.4, 0.0},  {"none", 1.9, 1.9, 2.0, 0.0, 0.0},
                 {"none", 2.2, 2.2, 2.5, 0.0, 0.0},   {"none", 2.55, 2.55, 2.5, 0.0, 0.0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job *job = plan_of(HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 "
                                     "mm\nthickness = %.2f mm\ntolerance = "
                                     "0.05 mm\n[stock]\nfaces = %s\n" ONE_PASS,
                                cases[i].part, cases[i].faces);
        bite_assert_near(1e3 * job->stock.needed, cases[i].needed, 1e-9);
        bite_assert_near(1e3 * job->stock.nominal, cases[i].nominal, 1e-9);
        ck_assert_double_eq_tol(1e3 * job->stock.removal.thick_top, cases[i].top, 1e-9);
        ck_assert_double_eq_tol(1e3 * job->stock.removal.thick_below, cases[i].below, 1e-9);
        ck_assert(job->stock.as_sold
                      ? !job->stock.limit.applies
                      : job->stock.limit.applies && job->stock.limit.verdict != BITE_OVER);
        bite_job_free(job);
    }
}
END_TEST

/* A face that no pass cuts stays as it is; through cuts go through the thick end, into the tape; a
 * pocket bows the part. */
START_TEST(through_cuts_reach_below_an_unfaced_sheet)
{
    bite_job *job = plan(
        HEAD ACRYLIC
        "flatness = 0.2 mm\n[hold]\nmethod = tape\n[pass.hole]\nwork = drill\ntool = 2mm\n" GIVEN
        "[pass.web]\nwork = pocket\ntool = 2mm\ndepth = 1 mm\n" GIVEN
        "[pass.free]\nwork = cut-free\ntool = "
        "2mm\n" GIVEN);
    ck_assert_double_eq(job->stock.skim, 0.0);
    ck_assert_double_gt(job->stock.thick, job->thickness);
    for (size_t i = 0; i < job->pass_count; i++) {
        double point = job->passes[i].work == BITE_WORK_DRILL
                           ? 1e-3 / tan(59.0 * M_PI / 180.0)
                           : 0.0; /* the point of a drill of 2 mm */
        if (job->passes[i].work != BITE_WORK_POCKET) {
            bite_assert_near(job->passes[i].depth,
                             job->stock.thick + job->hold.break_through + point, 1e-12);
        }
    }
    ck_assert_double_gt(job->warp.as_planned, 0.0);
    ck_assert_double_gt(job->warp.limit.demand, 0.0);
    bite_job_free(job);
}
END_TEST

/* A part faced in one setup is skimmed on one face; a sheet that is not faced must have the part's
 * thickness. */
START_TEST(faced_setups_decide_what_is_removed)
{
    bite_job *one = plan(HEAD ACRYLIC "[pass.a]\nwork = face\ntool = 6mm\n" GIVEN);
    bite_job *second = plan(HEAD ACRYLIC "[pass.a]\nwork = face\nsetup = 2\ntool = 6mm\n" GIVEN
                                         "[pass.b]\nwork = slot\ntool = 2mm\ndepth = 1 mm\n" GIVEN);
    bite_job *off =
        plan(HEAD ACRYLIC
             "tolerance = 0.05 mm\n[stock]\nthinnest = 2.4 mm\nthickest = 2.6 mm\n" ONE_PASS);
    bite_job *on =
        plan(HEAD ACRYLIC
             "tolerance = 0.05 mm\n[stock]\nthinnest = 1.97 mm\nthickest = 2.03 mm\n" ONE_PASS);
    ck_assert_double_eq(one->stock.removal.thick_below, 0.0);
    bite_assert_near(one->stock.removal.thick_top, one->stock.thick - one->thickness, 1e-12);
    ck_assert_double_eq(second->stock.removal.thick_top, 0.0);
    bite_assert_near(second->stock.removal.thick_below, second->stock.thick - second->thickness,
                     1e-12);
    ck_assert_uint_eq(off->verdict, BITE_OVER);
    ck_assert_uint_eq(on->stock.off_size, 0);
    /* as sold: the nearest sheet, not the next one whose thinnest place would suffice */
    bite_job *sold = plan(HEAD ACRYLIC "tolerance = 0.05 mm\n" ONE_PASS);
    bite_assert_near(sold->stock.nominal, 2e-3, 1e-12);
    ck_assert_uint_eq(sold->stock.off_size, 1);
    ck_assert(!sold->stock.limit.applies);
    bite_job_free(sold);
    bite_job_free(one);
    bite_job_free(second);
    bite_job_free(off);
    bite_job_free(on);
}
END_TEST

static double nominal_of(const char *units, const char *material, const char *stock)
{
    bite_job *job = plan_of(HEAD "[job]\nunits = %s\n[part]\nmaterial = %s\nlength = 100 mm\n"
                                 "width = 60 mm\nthickness = 5 mm\n[stock]\nfaces = both\n"
                                 "%s" ONE_PASS,
                            units, material, stock);
    double nominal = job->stock.nominal;
    ck_assert_double_ge(job->stock.thin, job->stock.needed - 1e-9);
    ck_assert_uint_eq(job->stock.sheets, 1);
    bite_job_free(job);
    return 1e3 * nominal;
}

/* Cast acrylic for 5.2 mm: t - 0.4 - t/10 holds it from 8 mm on, in inches from 0.354 in on;
 * aluminium 6 mm less 0.24 mm, in inches 1/4 in; acetal is never thinner than it is called. */
START_TEST(inch_jobs_buy_inch_sheets)
{
    bite_assert_near(nominal_of("metric", "acrylic/cast", ""), 8.0, 1e-9);
    bite_assert_near(nominal_of("inch", "acrylic/cast", ""), 0.354 * 25.4, 1e-9);
    bite_assert_near(nominal_of("inch", "acrylic/cast", "sold_in = metric\n"), 8.0, 1e-9);
    bite_assert_near(nominal_of("metric", "aluminium/6061-T6", ""), 6.0, 1e-9);
    bite_assert_near(nominal_of("inch", "aluminium/6061-T6", ""), 6.35, 1e-9);
    bite_assert_near(nominal_of("metric", "aluminium/6061-T6", "sold_in = inch\n"), 6.35, 1e-9);
    bite_assert_near(nominal_of("metric", "acetal", ""), 6.0, 1e-9);
    bite_assert_near(nominal_of("inch", "acetal", ""), 6.35, 1e-9);
}
END_TEST

/* A sheet that the job states may lack thickness at the thin end: 3 mm of cast acrylic may be 2.3
 * mm, and 2.6 + 0.2 mm are needed. */
START_TEST(a_stated_sheet_that_is_short_is_reported)
{
    bite_job *job = plan(HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\n"
                              "thickness = 2.6 mm\n[stock]\nnominal = 3 mm\nfaces = "
                              "both\n" ONE_PASS);
    bite_assert_near(job->stock.short_by, 0.5e-3, 1e-9);
    ck_assert_uint_ge(job->verdict, BITE_TIGHT);
    ck_assert_ptr_nonnull(remark_of(job, "stock",
                                    "may be only 2.3 mm thick, 0.5 mm less than the "
                                    "2.8 mm"));
    ck_assert_ptr_nonnull(remark_of(job, "stock", "the part is 0.3 mm too thin"));
    bite_job_free(job);
}
END_TEST

START_TEST(bad_parting_and_narrow_gaps_are_warned_of)
{
    bite_job *laser = plan(HEAD "[part]\nmaterial = polycarbonate\nlength = 40 mm\nwidth = 30 "
                                "mm\nthickness = 2 mm\n[stock]\nparted_by = "
                                "laser\n" ONE_PASS);
    bite_job *unknown = plan(HEAD "[part]\nmaterial = wood/mdf\nlength = 40 mm\nwidth = 30 "
                                  "mm\nthickness = 2 mm\n[stock]\nparted_by = "
                                  "saw\n" ONE_PASS);
    bite_job *narrow = plan(HEAD ACRYLIC "count = 4\n[stock]\ngap = 0.5 mm\n" ONE_PASS);
    bite_job *wide = plan(HEAD ACRYLIC "count = 4\n[stock]\ngap = 2.5 mm\n" ONE_PASS);
    ck_assert_uint_eq(remark_of(laser, "stock", "Do not")->severity, BITE_DANGER);
    ck_assert_ptr_nonnull(remark_of(unknown, "stock", "Nothing is known here about parting"));
    ck_assert_ptr_nonnull(remark_of(narrow, "stock", "into the neighbouring parts"));
    ck_assert_ptr_null(remark_of(wide, "stock", "into the neighbouring parts"));
    bite_job_free(laser);
    bite_job_free(unknown);
    bite_job_free(narrow);
    bite_job_free(wide);
}
END_TEST

static double gap_of(const char *passes)
{
    bite_job *job = plan_of(HEAD ACRYLIC "count = 6\n%s", passes);
    double gap = job->stock.gap;
    ck_assert_double_ge(job->stock.margin, job->stock.reach);
    ck_assert_uint_ne(job->stock.strikes_parts, 1);
    bite_job_free(job);
    return 1e3 * gap;
}

/* Two slots and a web of 1 mm stand between two parts, whichever pass goes round them; a finishing
 * cut runs onto the wall on an arc of half its diameter; a pocket inside the part needs no room
 * beside it, and one as long as the part runs out by a radius and 1 mm. Parts that no pass parts
 * are sawn. */
START_TEST(every_pass_round_a_part_widens_the_gap)
{
    static const char *const contour = "[pass.a]\nwork = contour\ntool = 3mm\n" GIVEN;
    bite_assert_near(gap_of(contour), 7.0, 1e-9);
    bite_assert_near(gap_of("[pass.a]\nwork = cut-free\ntool = 3mm\n" GIVEN), 7.0, 1e-9);
    bite_assert_near(gap_of("[pass.a]\nwork = chamfer\ntool = 6mm\ndepth = 0.3 mm\n" GIVEN), 13.0,
                     1e-9);
    bite_assert_near(gap_of("[pass.a]\nwork = finish\ntool = 2mm\n" GIVEN
                            "[pass.b]\nwork = cut-free\ntool = 1mm\n" GIVEN),
                     7.0, 1e-9);
    bite_assert_near(gap_of("[pass.a]\nwork = contour\ntool = 3mm\n" GIVEN
                            "[pass.b]\nwork = finish\ntool = 3mm\nwidth = 0.2 mm\n" GIVEN),
                     10.0, 1e-9);
    bite_assert_near(gap_of("[pass.a]\nwork = pocket\ntool = 2mm\nlength = 20 mm\nacross = 10 mm\n"
                            "depth = 1 mm\n" GIVEN "[pass.b]\nwork = cut-free\ntool = 1mm\n" GIVEN),
                     3.0, 1e-9);
    bite_assert_near(gap_of("[pass.a]\nwork = pocket\ntool = 4mm\nlength = 40 mm\nacross = 10 mm\n"
                            "depth = 1 mm\n" GIVEN "[pass.b]\nwork = cut-free\ntool = 1mm\n" GIVEN),
                     7.0, 1e-9);
    bite_assert_near(gap_of("[pass.a]\nwork = chamfer\ntool = 6mm\ndepth = 0.3 mm\naround = "
                            "feature\nlength = 20 mm\n" GIVEN),
                     3.0, 1e-9);
    bite_assert_near(gap_of("[pass.a]\nwork = drill\ntool = 3mm\n" GIVEN), 3.0, 1e-9);
}
END_TEST

/* A sheet that is too small for all parts yields several blanks; one that is too small for a single
 * part is said to be so, with sizes. In a vise each part is a piece of its own. */
START_TEST(parts_are_shared_out_over_blanks)
{
    bite_job *split =
        plan(HEAD ACRYLIC "count = 10\n[stock]\nlength = 100 mm\nwidth = 90 mm\n" ONE_PASS);
    ck_assert_uint_eq(split->stock.blanks, 3); /* two by two fit: 40 + 5 + 40 and 2 x 5 of margin */
    ck_assert_uint_eq(split->stock.on_each, 4);
    ck_assert_uint_eq(split->stock.on_last, 2);
    ck_assert_ptr_nonnull(remark_of(split, "stock", "3 blanks are needed because"));
    bite_job *small =
        plan(HEAD ACRYLIC "count = 10\n[stock]\nlength = 45 mm\nwidth = 45 mm\n" ONE_PASS);
    ck_assert_uint_eq(small->verdict, BITE_OVER);
    ck_assert_ptr_nonnull(remark_of(small, "stock", "a single part is 50 mm x 40 mm"));
    bite_job *vise = plan(HEAD ACRYLIC "count = 3\n[hold]\nmethod = vise\n[pass.a]\nwork = "
                                       "pocket\ntool = 3mm\ndepth = 1 mm\n" GIVEN);
    ck_assert_uint_eq(vise->stock.blanks, 3);
    ck_assert_uint_eq(vise->stock.on_each, 1);
    bite_job *two = plan(HEAD ACRYLIC "count = 3\n[stock]\nper_blank = 2\n[hold]\nmethod = "
                                      "vise\n[pass.a]\nwork = pocket\ntool = 3mm\ndepth = 1 "
                                      "mm\n" GIVEN);
    ck_assert_uint_eq(two->stock.blanks, 2);
    ck_assert_uint_eq(two->stock.on_last, 1);
    ck_assert_double_gt(vise->time.loading, two->time.loading * 1.4);
    bite_job_free(split);
    bite_job_free(small);
    bite_job_free(vise);
    bite_job_free(two);
}
END_TEST

/* Worked by hand: parts of 100 x 60 mm from sheets of 400 x 300 mm. A tool of 6 mm that cuts them
 * free leaves a web of a quarter of 10 mm between two slots: 14.5 mm, and 3 + 6 mm of margin. Of 60
 * mm 5 fit into 400 mm (5 x 60 + 4 x 14.5 + 18 = 376), of 100 mm 2 into 300 (232.5): ten. 25 parts
 * take three blanks, two of 9 and one of 7; 3 x 3 of them measure 347 x 227 mm, less than 5 x 2. A
 * sheet yields one of these. The sheet is 12 mm plate, 0.5 mm more or less: 10 mm plate may be 9.55
 * mm, and 10 and twice 0.1 are needed. A stated share of 30 % comes off the top. */
START_TEST(sheets_to_buy_are_worked_by_hand)
{
    static const struct {
        int count;
        uint32_t blanks;
        uint32_t each;
        uint32_t last;
        double length;
        double width;
    } cases[] = {{10, 1, 10, 10, 0.376, 0.2325}, {25, 3, 9, 7, 0.347, 0.227}};
    for (size_t i = 0; i < 2; i++) {
        bite_job *job =
            plan_of(HEAD "[part]\nmaterial = aluminium/6061-T6\nlength = 100 mm\nwidth = 60 mm\n"
                         "thickness = 10 mm\ncount = %d\n[stock]\nlength = 400 mm\nwidth = 300 mm\n"
                         "faces = both\nshare_top = 30%%\n[machine]\ntravel_x = 500 mm\n"
                         "travel_y = 400 mm\n[hold]\nmethod = tape\n[pass.a]\nwork = cut-free\n"
                         "tool = 6mm\n" GIVEN,
                    cases[i].count);
        const bite_planned_stock *stock = &job->stock;
        bite_assert_near(stock->gap, 14.5e-3, 1e-9);
        bite_assert_near(stock->margin, 9e-3, 1e-9);
        ck_assert_uint_eq(stock->yield, 10);
        ck_assert_uint_eq(stock->blanks, cases[i].blanks);
        ck_assert_uint_eq(stock->on_each, cases[i].each);
        ck_assert_uint_eq(stock->on_last, cases[i].last);
        ck_assert_uint_eq(stock->sheets, cases[i].blanks);
        bite_assert_near(stock->layout.length, cases[i].length, 1e-9);
        bite_assert_near(stock->layout.width, cases[i].width, 1e-9);
        bite_assert_near(stock->sold_length, 0.4, 1e-9);
        bite_assert_near(stock->sold_width, 0.3, 1e-9);
        bite_assert_near(stock->nominal, 12e-3, 1e-9);
        bite_assert_near(stock->thin, 11.5e-3, 1e-9);
        bite_assert_near(stock->thick, 12.5e-3, 1e-9);
        bite_assert_near(stock->removal.thin_top, 0.45e-3, 1e-9);
        bite_assert_near(stock->removal.thin_below, 1.05e-3, 1e-9);
        bite_assert_near(stock->removal.thick_top, 0.75e-3, 1e-9);
        bite_assert_near(stock->removal.thick_below, 1.75e-3, 1e-9);
        bite_job_free(job);
    }
}
END_TEST

/* The default gap leaves a frame for tabs; one that does not is over. */
START_TEST(tabs_need_a_frame_between_the_parts)
{
    bite_job *chosen = plan(HEAD ACRYLIC "count = 4\n[hold]\nmethod = tabs\n" ONE_PASS);
    bite_job *narrow =
        plan(HEAD ACRYLIC "count = 4\n[stock]\ngap = 3 mm\n[hold]\nmethod = tabs\n" ONE_PASS);
    ck_assert_ptr_null(remark_of(chosen, "stock", "no frame is left"));
    ck_assert_uint_eq(narrow->verdict, BITE_OVER);
    ck_assert_ptr_nonnull(remark_of(narrow, "stock", "no frame is left between them"));
    ck_assert_double_ge(chosen->stock.margin, 15e-3);
    bite_job_free(chosen);
    bite_job_free(narrow);
}
END_TEST

/* A strip of sheet of the same thickness, faced on one side. */
static bite_job *faced(const char *grade)
{
    return plan_of(
        HEAD
        "[part]\nmaterial = acrylic/%s\nlength = 150 mm\nwidth = 60 mm\nthickness = 2.5 "
        "mm\nflatness = 0.5 "
        "mm\n[stock]\nnominal = 4 mm\nthinnest = 3.9 mm\nthickest = 4.1 mm\nfaces = top\n" ONE_PASS,
        grade);
}

/* Common practice, no source: extruded acrylic is under more stress than cast, warps more, and
 * softens sooner. */
START_TEST(extruded_sheet_warps_more_than_cast)
{
    bite_job *cast = faced("cast");
    bite_job *extruded = faced("extruded");
    ck_assert(cast->warp.limit.applies && extruded->warp.limit.applies);
    ck_assert(extruded->warp.limit.demand > 1.5 * cast->warp.limit.demand);
    ck_assert(extruded->warp.coupon > 1.5 * cast->warp.coupon);
    bite_assert_near(extruded->warp.as_planned, extruded->warp.one_sided,
                     1e-12); /* all of it is removed from the top */
    ck_assert(extruded->passes[0].answer->full.softening <
              cast->passes[0].answer->full.softening - 5.0);
    ck_assert(extruded->passes[0].answer->result.limits[BITE_LIMIT_SOFTENING].utilization >
              cast->passes[0].answer->result.limits[BITE_LIMIT_SOFTENING].utilization);
    bite_job_free(cast);
    bite_job_free(extruded);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("stock plan");
    TCase *tests = tcase_create("stock plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, a_material_without_sheets_is_measured);
    tcase_add_test(tests, sheet_thickness_follows_the_faced_sides);
    tcase_add_test(tests, through_cuts_reach_below_an_unfaced_sheet);
    tcase_add_test(tests, faced_setups_decide_what_is_removed);
    tcase_add_test(tests, bad_parting_and_narrow_gaps_are_warned_of);
    tcase_add_test(tests, inch_jobs_buy_inch_sheets);
    tcase_add_test(tests, a_stated_sheet_that_is_short_is_reported);
    tcase_add_test(tests, every_pass_round_a_part_widens_the_gap);
    tcase_add_test(tests, parts_are_shared_out_over_blanks);
    tcase_add_test(tests, sheets_to_buy_are_worked_by_hand);
    tcase_add_test(tests, tabs_need_a_frame_between_the_parts);
    tcase_add_test(tests, extruded_sheet_warps_more_than_cast);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
