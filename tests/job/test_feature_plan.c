/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The passes and tools of a job: stated, omitted, extreme; their order. */
#include "core/job/pass_request.h"
#include "core/job/tool_plan.h"
#include "core/search/choice.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

START_TEST(omitted_values_are_chosen)
{
    static const char *const grades[] = {"acrylic/cast", "polycarbonate/sheet", "aluminium/6061-T6",
                                         "acetal"};
    bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 60 mm\nwidth = 40 mm\nthickness "
                                 "= 3 mm\nthinnest = 1.5 mm\n",
                            grades[_i]);
    check_plan(job);
    ck_assert_uint_eq(job->stock.chosen, 1);
    ck_assert(job->stock.nominal - job->stock.tolerance >= job->stock.needed - 1e-9);
    ck_assert_uint_eq(job->pass_count, 4); /* both faces, the thin section, the cut-out */
    ck_assert_uint_eq(job->passes[3].work, BITE_WORK_FREE);
    ck_assert_uint_eq(job->stock.layout.along * job->stock.layout.rows, 1);
    for (size_t i = 0; i < job->pass_count; i++) {
        ck_assert_uint_eq(job->passes[i].chosen, 1);
    }
    ck_assert_ptr_nonnull(remark_of(job, "passes", "names no passes"));
    ck_assert_ptr_nonnull(remark_of(job, "hold", "does not state how the part is held"));
    bite_job_free(job);
}
END_TEST

START_TEST(stated_values_are_kept)
{
    bite_job *job = plan(
        HEAD ACRYLIC
        "[stock]\nthinnest = 2.9 mm\nthickest = 3.1 mm\n[pass.a]\nwork = pocket\ntool = "
        "1.5mm\npass_depth = 0.25 mm\ndepth = 1 mm\n" GIVEN "[pass.b]\nwork = slot\ntool = 2mm\n");
    const bite_cut *cut = &job->passes[0].answer->full;
    ck_assert_str_eq(job->passes[0].name, "a");
    ck_assert_uint_eq(job->passes[0].chosen, 0);
    ck_assert_uint_eq(job->passes[0].passes, 4);
    bite_assert_near(cut->spindle_speed, 150.0, 1e-9);
    bite_assert_near(cut->feed_rate, 0.005, 1e-9);
    bite_assert_near(cut->diameter, 1.5e-3, 1e-9);
    bite_assert_near(cut->floor_thickness, 1e-3,
                     1e-9); /* of the part, not of the sheet before it was faced */
    ck_assert_uint_eq(job->passes[1].chosen, 1);
    ck_assert_uint_eq(job->stock.measured, 1);
    bite_assert_near(job->stock.nominal, 3e-3, 1e-12);
    bite_assert_near(job->stock.thin, 2.9e-3, 1e-12);
    bite_job_free(job);
}
END_TEST

/* Many large parts on one blank, and a feature of the least possible depth: they are planned, not
 * refused because of what the plan makes of them. */
START_TEST(extreme_parts_can_be_planned)
{
    bite_job *job =
        plan(HEAD "[part]\nmaterial = acrylic/cast\nlength = 900 mm\nwidth = 800 mm\nthickness = 5 "
                  "mm\ncount = "
                  "400\n[hold]\nmethod = tape\narea = 9.5 m2\n[pass.a]\nwork = slot\ntool = "
                  "3mm\ndepth = 1 mm\n" GIVEN);
    ck_assert(job->passes[0].answer->full.bond_area > 9.0);
    bite_job_free(job);
    /* not clear in one pass, and a micrometre cannot be halved */
    job = plan(HEAD "[job]\ngoal = fast\n[part]\nmaterial = wood\nlength = 40 mm\nwidth = 30 "
                    "mm\nthickness = 27 mm\nfinish = 52 "
                    "um\n[stock]\nfaces = none\n[machine]\nname = bench-24k\n[pass.a]\nwork = "
                    "pocket\ntool = 12mm\ndepth = 1 um\n");
    ck_assert_uint_eq(job->passes[0].passes, 1);
    bite_job_free(job);
}
END_TEST

START_TEST(pass_order_follows_practice_and_after)
{
    bite_job *job =
        plan(HEAD ACRYLIC "[pass.free]\nwork = cut-free\ntool = 2mm\n" GIVEN
                          "[pass.wall]\nwork = finish\ntool = "
                          "2mm\nwidth = 0.1 mm\ndepth = 1 mm\n" GIVEN
                          "[pass.pocket]\nwork = pocket\ntool = 2mm\ndepth "
                          "= 1 mm\n" GIVEN "[pass.face]\nwork = face\ntool = 2mm\n" GIVEN);
    ck_assert_uint_eq(place_of(job, "face"), 0);
    ck_assert_uint_eq(place_of(job, "pocket"), 1);
    ck_assert_uint_eq(place_of(job, "wall"), 2);
    ck_assert_uint_eq(place_of(job, "free"), 3);
    ck_assert_uint_eq(job->time.tool_changes, 0);
    bite_job_free(job);
    /* the order given in the job overrides the usual one: an edge is broken after the part is cut
     * free, a pocket is milled after a finished wall */
    job = plan(HEAD ACRYLIC
               "[pass.free]\nwork = cut-free\ntool = 2mm\n" GIVEN
               "[pass.wall]\nwork = finish\ntool = 2mm\nwidth = 0.1 "
               "mm\ndepth = 1 mm\n" GIVEN
               "[pass.pocket]\nwork = pocket\ntool = 2mm\ndepth = 1 mm\nafter = wall\n" GIVEN
               "[pass.edge]\nwork = chamfer\ntool = 3mm\ndepth = 0.2 mm\nafter = free\n" GIVEN);
    ck_assert_uint_lt(place_of(job, "wall"), place_of(job, "pocket"));
    ck_assert_uint_lt(place_of(job, "pocket"), place_of(job, "free"));
    ck_assert_uint_eq(place_of(job, "edge"), 3);
    bite_job_free(job);
}
END_TEST

/* One name can be a drill, a chamfer mill and an end mill: three tools to prepare, and changes
 * between them. */
START_TEST(one_name_can_be_three_tools)
{
    bite_job *job =
        plan(HEAD ACRYLIC "[pass.a]\nwork = drill\ntool = 3mm\n" GIVEN
                          "[pass.b]\nwork = chamfer\ntool = 3mm\ndepth = "
                          "0.2 mm\n" GIVEN "[pass.c]\nwork = cut-free\ntool = 3mm\n" GIVEN);
    ck_assert_uint_eq(job->tool_count, 3);
    ck_assert_uint_eq(job->time.tool_changes, 2);
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_tool *tool = &job->tools[job->passes[i].tool];
        bite_assert_near(tool->stickout, job->passes[i].answer->full.stickout,
                         1e-12); /* the tool of the sheet is the one that was judged */
    }
    bite_job_free(job);
}
END_TEST

/* If the table has chamfer mills, chamfers get one and nothing else does; if the shop has none, any
 * tool can be used for a chamfer. */
START_TEST(chamfers_get_chamfer_mills)
{
    bite_job *any = plan(HEAD ACRYLIC "[pass.a]\nwork = slot\n" GIVEN
                                      "[pass.b]\nwork = chamfer\ndepth = 0.2 mm\n" GIVEN);
    bite_job *own = plan(HEAD ACRYLIC "[tools]\nat_hand = 2mm 3mm\n[pass.a]\nwork = slot\n" GIVEN
                                      "[pass.b]\nwork = chamfer\ndepth = 0.2 mm\n" GIVEN);
    for (size_t i = 0; i < any->pass_count; i++) {
        int cone = strncmp(any->tools[any->passes[i].tool].name, "cm-", 3) == 0;
        ck_assert_int_eq(cone, any->passes[i].work == BITE_WORK_CHAMFER);
    }
    ck_assert_uint_eq(own->pass_count, 2);
    bite_job_free(any);
    bite_job_free(own);
    assert_refused(HEAD ACRYLIC "[pass.a]\nwork = slot\ntool = cm-6-90\n" GIVEN, 11,
                   "cuts chamfers only");
}
END_TEST

/* By hand: a drill of 4 mm has a point of 2/tan 59 degrees = 1.2017 mm. The part is 2 mm thick. */
START_TEST(drill_points_go_deeper_than_their_holes)
{
    static const struct {
        const char *depth;
        double to; /* mm; below 0: below the lowest face */
        const char *says;
    } holes[] = {
        {"depth = 0.5 mm\n", 1.7017, ""},
        {"depth = 1 mm\n", 2.2017, "breaks through the other face by 0.202 mm"},
        {"depth = 2 mm\n", 3.2017, "goes 1.202 mm below the part"},
        {"depth = 3.5 mm\n", 4.7017, "goes 2.702 mm below the part"},
        {"", -1.2717,
         "goes 1.272 mm below the part"}, /* half of a tape of 0.14 mm, and the point */
    };
    for (size_t i = 0; i < sizeof holes / sizeof *holes; i++) {
        bite_job *job = plan_of(HEAD ACRYLIC "[hold]\nmethod = tape-glue\n[pass.a]\ntitle = "
                                             "hole\nwork = drill\ntool = 4mm\n%s" GIVEN,
                                holes[i].depth);
        double depth = 1e3 * job->passes[0].depth;
        bite_assert_near(holes[i].to > 0.0 ? depth : 1e3 * job->stock.thick - depth, holes[i].to,
                         1e-4);
        ck_assert_int_eq(remark_of(job, "passes", "point") != NULL, holes[i].says[0] != 0);
        ck_assert_msg(holes[i].says[0] == 0 || remark_of(job, "passes", holes[i].says) != NULL,
                      "%s", holes[i].says);
        bite_job_free(job);
    }
}
END_TEST

/* A bore that suits the reamer in width but is too shallow for it is not its hole; the drilled one
 * is, although it leaves more stock. Without it the fault is that of the depth. */
START_TEST(a_reamer_takes_the_hole_that_is_deep_enough)
{
    static const char ream[] = "[pass.ream]\nwork = ream\ntool = 3mm\ndepth = 3 mm\n";
    static const char bore[] = "[pass.bore]\nwork = bore\ntool = 1mm\nacross = 2.86 mm\nlength = "
                               "2.86 mm\ndepth = 1.5 mm\n" GIVEN;
    static const char part[] = HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 "
                                    "mm\nthickness = 4 mm\n[hold]\nmethod = tape\n";
    char text[2000];
    bite_error error = BITE_ERROR_INIT;
    bite_job *job =
        plan_of("%s%s[pass.hole]\nwork = drill\ntool = 2.8mm\n" GIVEN "%s", part, bore, ream);
    const bite_planned_pass *pass = &job->passes[place_of(job, "ream")];
    ck_assert_str_eq(pass->hole.made_by, "hole");
    ck_assert_uint_lt(place_of(job, "hole"), place_of(job, "ream"));
    bite_job_free(job);
    (void)snprintf(text, sizeof text, "%s%s%s", part, bore, ream);
    fault_list *faults = faults_of(text, strlen(text), &error);
    ck_assert_msg(strstr(faults->texts[0], "deep at its full diameter") != NULL, "%s",
                  faults->texts[0]);
}
END_TEST

/* A check without a size does not have the part's tolerance. */
START_TEST(checks_without_a_size_have_no_tolerance)
{
    bite_job *job = plan(HEAD ACRYLIC "tolerance = 0.05 mm\n[check.a]\nwhat = "
                                      "crazes\n[check.b]\nnominal = 2 mm\n[check.c]\nnominal = "
                                      "1 mm\ntolerance = 0.2 mm\n" ONE_PASS);
    ck_assert_uint_eq(job->check_count, 3);
    ck_assert(isnan(job->checks[0].tolerance));
    bite_assert_near(job->checks[1].tolerance, 0.05e-3, 1e-12);
    bite_assert_near(job->checks[2].tolerance, 0.2e-3, 1e-12);
    ck_assert_str_eq(job->checks[1].what, "b");
    bite_job_free(job);
}
END_TEST

/* For the same cut a job and a choice among all tools take the same one. */
START_TEST(job_and_choice_take_the_same_tool)
{
    static const char *const any[] = {"any"};
    bite_job *job =
        plan(HEAD "[part]\nmaterial = 6061\nlength = 40 mm\nwidth = 30 mm\nthickness = 6 mm\n"
                  "[machine]\nname = bench-24k\n[pass.a]\nwork = slot\ndepth = 3 mm\n");
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    bite_choice_options options = bite_plan_choice_options(job);
    options.tools = any;
    options.tool_count = 1;
    ck_assert_int_eq(bite_plan_request(job, 0, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    ck_assert_str_eq(choice->best.tool, job->tools[job->passes[0].tool].name);
    ck_assert_ptr_nonnull(strstr(job->tools[job->passes[0].tool].why, "fastest of"));
    bite_choice_free(choice);
    bite_request_free(request);
    bite_job_free(job);
}
END_TEST

static bite_job *plan_equal(size_t count)
{
    growing_text text = {NULL, 0, 0};
    append(&text, HEAD ACRYLIC);
    for (size_t i = 0; i < count; i++) {
        append(&text, "[pass.p%zu]\nwork = slot\ntool = 2mm\ndepth = 1 mm\n", i);
    }
    bite_job *job = plan(text.text);
    ck_assert_uint_eq(job->pass_count, count);
    free(text.text);
    return job;
}

/* Equal passes are planned once, with the same settings however many there are, from the 16 on that
 * may use a quarter of the allowed chance each. */
START_TEST(many_equal_passes_are_planned_like_one)
{
    static const size_t counts[] = {24, 25, 256, 257, BITE_PASSES_MAX};
    bite_job *few = plan_equal(16);
    bite_job *job = plan_equal(counts[_i]);
    const bite_cut *cut = &few->passes[0].answer->full;
    const bite_answer *first = job->passes[0].answer;
    const bite_answer *last = job->passes[job->pass_count - 1].answer;
    for (size_t i = 0; i + 1 < job->pass_count; i++) { /* the last one is judged with the sheet */
        ck_assert_ptr_eq(job->passes[i].answer, first);
        ck_assert_uint_eq(job->passes[i].chosen, 1);
    }
    ck_assert_uint_eq(first->result.draws, last->result.draws);
    bite_assert_near(last->full.feed_rate, cut->feed_rate, 1e-12);
    bite_assert_near(first->full.feed_rate, cut->feed_rate, 1e-12);
    bite_assert_near(first->full.spindle_speed, cut->spindle_speed, 1e-12);
    bite_assert_near(first->full.depth, cut->depth, 1e-12);
    ck_assert_uint_eq(job->passes[0].passes, few->passes[0].passes);
    check_plan(job);
    bite_job_free(few);
    bite_job_free(job);
}
END_TEST

/* Of n passes each may use 1/sqrt(n) of the allowed chance, a quarter at least. */
START_TEST(passes_share_the_allowed_chance)
{
    static const struct {
        int passes;
        double share;
    } cases[] = {{1, 1.0}, {4, 0.5}, {20, 0.25}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[4000] = HEAD ACRYLIC;
        for (int k = 0; k < cases[i].passes; k++) {
            size_t used = strlen(text);
            (void)snprintf(text + used, sizeof text - used,
                           "[pass.p%d]\nwork = drill\ntool = 2mm\ndepth = 1 mm\n" GIVEN, k);
        }
        bite_job *job = plan(text);
        bite_request *request = NULL;
        ck_assert_double_eq(job->care, 1.0);
        ck_assert_int_eq(bite_plan_request(job, 0, &request, NULL), BITE_OK);
        bite_assert_near(request->chance_share, cases[i].share, 1e-12);
        bite_request_free(request);
        bite_job_free(job);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("feature plan");
    TCase *tests = tcase_create("feature plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_loop_test(tests, omitted_values_are_chosen, 0, 4);
    tcase_add_test(tests, stated_values_are_kept);
    tcase_add_test(tests, passes_share_the_allowed_chance);
    tcase_add_test(tests, extreme_parts_can_be_planned);
    tcase_add_test(tests, pass_order_follows_practice_and_after);
    tcase_add_test(tests, job_and_choice_take_the_same_tool);
    tcase_add_loop_test(tests, many_equal_passes_are_planned_like_one, 0, 5);
    tcase_add_test(tests, one_name_can_be_three_tools);
    tcase_add_test(tests, chamfers_get_chamfer_mills);
    tcase_add_test(tests, drill_points_go_deeper_than_their_holes);
    tcase_add_test(tests, checks_without_a_size_have_no_tolerance);
    tcase_add_test(tests, a_reamer_takes_the_hole_that_is_deep_enough);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
