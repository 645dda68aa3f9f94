/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job's text, page and JSON say of its states: setups of several kinds, holds, stock, spring
 * passes, support, annealing, inspection, and work that has no width. */
#include "core/report/job/check_text.h"
#include "core/report/job/html.h"
#include "core/report/job/json.h"
#include "core/report/job/text.h"
#include "tests/report/job/example_job.h"
#include "tests/report/report_output.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <string.h>

#define MM 1e-3
#define NONE ((double)NAN)

static example_job example;
static struct bite_job *job;
static report_output output;

static void begin(void)
{
    example_job_fill(&example, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    job = &example.job;
    for (size_t i = 0; i < job->tool_count; i++) {
        example.tools[i].kind = "end mill";
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        example.passes[i].holder_nearest = "";
    }
}

static void end(void)
{
    report_output_free(&output);
    example_job_free(&example);
}

static void write_as(uint32_t format)
{
    bite_style style = report_style(format, BITE_METRIC);
    bite_error error = BITE_ERROR_INIT;
    report_output_free(&output);
    bite_status status =
        format == BITE_HTML   ? bite_job_html(job, &style, report_output_add, &output, &error)
        : format == BITE_JSON ? bite_job_json(job, &style, report_output_add, &output, &error)
                              : bite_job_text(job, &style, report_output_add, &output, &error);
    ck_assert_msg(status == BITE_OK, "%s", error.message);
}

static void has(const char *words)
{
    report_output_has(&output, words);
}

static void lacks(const char *words)
{
    report_output_lacks(&output, words);
}

START_TEST(annealing)
{
    begin();
    write_as(BITE_TEXT);
    has("Anneal? Anneal at 80 degC");
    write_as(BITE_HTML);
    has("for a part as machined, with stress in its edges");
    lacks("<span class=\"box\"></span><span>Anneal at 80");
    job->annealed = 1;
    write_as(BITE_TEXT);
    has("Anneal Anneal at 80 degC");
    write_as(BITE_HTML);
    has("for a part that is annealed after machining");
    has("<span class=\"box\"></span><span>Anneal at 80");
    job->warp.anneal = "";
    write_as(BITE_TEXT);
    lacks("Anneal");
    end();
}
END_TEST

START_TEST(springs_and_support)
{
    begin();
    example.passes[0].springs = 1;
    example.passes[1].springs = 2;
    example.passes[1].support.kind = 1;
    example.passes[1].support.seconds = 90.0;
    write_as(BITE_TEXT);
    has("; then 1 spring pass ");
    has("; then 2 spring passes; with the floor supported");
    write_as(BITE_HTML);
    has("; then <b>1 spring pass</b>");
    has("; <b>with the floor supported</b>; then <b>2 spring passes</b>");
    write_as(BITE_JSON);
    json_t *root = report_output_json(&output);
    ck_assert_double_eq(report_number(root, "passes.1.spring_passes"), 2.0);
    ck_assert_double_eq(report_number(root, "passes.1.unsupported_seconds"), 90.0);
    ck_assert_uint_gt(strlen(report_text(root, "passes.1.support_assumed")), 0);
    ck_assert_str_eq(report_text(root, "passes.0.support_assumed"), "");
    ck_assert(json_is_null(report_member(root, "passes.0.unsupported_seconds")));
    json_decref(root);
    end();
}
END_TEST

/* A hole, a thread and a chamfer have no width to enter. */
START_TEST(work_without_a_width)
{
    static const struct {
        uint32_t work;
        uint32_t operation;
        const char *cell;
    } cases[] = {{BITE_WORK_TAP, BITE_TAP, ">tapped</td>"},
                 {BITE_WORK_REAM, BITE_REAM, ">reamed</td>"},
                 {BITE_WORK_DRILL, BITE_DRILL_HOLE, ">drilled</td>"},
                 {BITE_WORK_CHAMFER, BITE_CHAMFER, ">chamfer</td>"}};
    begin();
    bite_planned_pass *pass = &example.passes[0];
    uint32_t work = pass->work;
    pass->width = NONE;
    pass->answer->full.width = NONE;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pass->work = cases[i].work;
        pass->answer->full.operation = cases[i].operation;
        write_as(BITE_HTML);
        const char *row = strstr(output.text, "<th scope=\"rowgroup\" class=\"what\">");
        ck_assert_ptr_nonnull(row);
        const char *width = strstr(row, "data-name=\"Width\"");
        ck_assert_ptr_nonnull(width);
        ck_assert_msg(strncmp(width + strlen("data-name=\"Width\""), cases[i].cell,
                              strlen(cases[i].cell)) == 0,
                      "%.60s", width);
    }
    write_as(BITE_TEXT);
    has(" 1 setup 1 ");
    pass->work = work;
    pass->answer->full.operation = BITE_MILL;
    write_as(BITE_TEXT);
    has(" deep, full slot");
    write_as(BITE_HTML);
    has("data-name=\"Width\">full slot</td>");
    end();
}
END_TEST

START_TEST(holds)
{
    begin();
    bite_planned_hold *hold = &job->hold;
    write_as(BITE_TEXT);
    has("; hardest pass \"");
    has(": 33 % of the capacity used, chance of failing 2 %");
    write_as(BITE_HTML);
    has("The hardest cut uses <b>33 %</b> of its capacity (pass 8), with a chance of 2 % of "
        "failing");
    hold->worst_pass = -1;
    hold->refused = 1;
    write_as(BITE_TEXT);
    has(", NO: must not be used on this part");
    has("; the plate: 33 % of the buckling force used, chance of failing 2 %");
    write_as(BITE_HTML);
    has("The force is <b>33 %</b> of what buckles the plate, with a chance of 2 % of failing");
    hold->utilization = hold->chance = hold->area = hold->cure = hold->tape = NONE;
    write_as(BITE_TEXT);
    lacks("hardest pass \"");
    lacks("chance of failing");
    lacks("the through cut ends");
    write_as(BITE_HTML);
    has("What the cuts demand of it was not calculated");
    lacks("; cures in");
    hold->hold = NULL;
    write_as(BITE_TEXT);
    lacks("Hold ");
    write_as(BITE_HTML);
    has("Workholding: not stated in the job file");
    end();
}
END_TEST

START_TEST(setups_of_a_plan)
{
    static bite_planned_setup plan[2];
    static const bite_section section = {.name = "setup.1"};
    begin();
    for (uint32_t i = 0; i < 2; i++) {
        memset(&plan[i], 0, sizeof plan[i]);
        plan[i].number = i + 1;
        plan[i].mountings = 1;
        plan[i].datum_xy = plan[i].datum_z = plan[i].note = "";
        plan[i].hold = job->hold;
    }
    plan[0].section = &section;
    plan[0].mountings = 6;
    plan[0].note = "stops at the rear";
    plan[1].separate = 1;
    job->setup_plan = plan;
    write_as(BITE_TEXT);
    has("; each of the 6 parts by itself; X and Y zero not stated; stops at the rear");
    has("; the parts side by side; X and Y zero not stated");
    write_as(BITE_HTML);
    has("; X and Y zero not stated in the job file; each of the 6 parts by itself. stops at the "
        "rear");
    job->count = 1.0;
    plan[0].mountings = 1;
    write_as(BITE_TEXT);
    lacks("side by side");
    lacks("by itself");
    job->setup_plan = NULL;
    end();
}
END_TEST

START_TEST(stock_and_blank)
{
    begin();
    bite_planned_stock *stock = &job->stock;
    write_as(BITE_TEXT);
    has("3 mm sheet (selected), 2.3 mm to 3.7 mm as supplied; 2 mm is needed");
    has("; a whole sheet yields ");
    write_as(BITE_HTML);
    has("nominal, the thinnest on sale that is thick enough;");
    has("each part placed lengthwise");
    stock->as_sold = 1;
    write_as(BITE_HTML);
    has("nominal, as sold, for faces that stay as supplied;");
    stock->chosen = 0;
    stock->yield = 0;
    stock->sheet_length = stock->sheet_width = NONE;
    stock->sheets = 1;
    stock->sold_length = 0.6;
    stock->sold_width = 0.3;
    stock->layout.turned = 1;
    write_as(BITE_TEXT);
    has("3 mm sheet, 2.3 mm to 3.7 mm as supplied");
    has(" parts, turned, ");
    has("; from 1 sheet of 600 mm x 300 mm, as sold");
    write_as(BITE_HTML);
    has("nominal, as stated in the job file;");
    has("each part placed across");
    stock->sheets = 2;
    stock->blanks = 3;
    stock->on_each = 4;
    stock->on_last = 2;
    stock->measured = 1;
    write_as(BITE_TEXT);
    has("3 mm sheet, measured: 2.3 mm to 3.7 mm; 2 mm is needed");
    has("Blank 3 of ");
    has("; from 2 sheets of 600 mm x 300 mm");
    write_as(BITE_HTML);
    has("3 such blanks, 2 parts on the last; ");
    has(", measured as below. ");
    stock->layout.along = 0;
    write_as(BITE_TEXT);
    lacks("Blank ");
    write_as(BITE_HTML);
    has("The parts do not fit on the sheet, not even one");
    end();
}
END_TEST

/* Without draws there are no chances, and none are shown. */
START_TEST(no_draws_no_chances)
{
    begin();
    job->chance = NONE;
    job->verdict = BITE_UNKNOWN;
    job->warp.limit.chance = job->stock.limit.chance = NONE;
    write_as(BITE_TEXT);
    has("UNKNOWN 8 passes, 4 tools, 2 setups ");
    has("; closest limit ");
    lacks("chance that a limit");
    lacks("likeliest");
    write_as(BITE_HTML);
    has("; closest: ");
    lacks("99999");
    end();
}
END_TEST

START_TEST(fluids_that_sources_disagree_on)
{
    begin();
    job->fluids[0].rating = BITE_RATED_SAFE;
    job->fluids[0].other = BITE_RATED_RISK;
    job->fluids[1].rating = BITE_RATED_NO;
    job->fluids[1].other = BITE_RATED_NO;
    job->fluids[2].rating = job->fluids[3].rating = BITE_RATED_SAFE;
    job->fluids[2].other = job->fluids[3].other = BITE_RATED_UNKNOWN;
    write_as(BITE_TEXT);
    has("; another source disagrees");
    has("NO: isopropyl alcohol as cleaner");
    has("; safe instead: soapy water");
    job->fluids[0].other = BITE_RATED_SAFE;
    write_as(BITE_TEXT);
    lacks("another source disagrees");
    write_as(BITE_JSON);
    json_t *root = report_output_json(&output);
    ck_assert_str_eq(report_text(root, "fluids.0.other"), "safe");
    ck_assert_str_eq(report_text(root, "fluids.2.other"), "");
    json_decref(root);
    end();
}
END_TEST

static bite_page page;

static void check_is(double tolerance, double lower, double upper, const char *expected)
{
    char text[BITE_CHECK_TEXT_MAX];
    const bite_planned_check check = {.tolerance = tolerance, .lower = lower, .upper = upper};
    ck_assert_str_eq(bite_check_limits_text(&page, &check, text), expected);
}

START_TEST(limits_and_frequencies_of_checks)
{
    static const struct {
        uint32_t every;
        double count;
        const char *text;
    } cases[] = {{0, 50, ""},
                 {5, 1, ""},
                 {1, 50, "every part"},
                 {2, 50, "every 2nd part and the last"},
                 {3, 50, "every 3rd part and the last"},
                 {4, 50, "every 4th part and the last"},
                 {11, 50, "every 11th part and the last"},
                 {13, 50, "every 13th part and the last"},
                 {21, 50, "every 21st part and the last"},
                 {112, 500, "every 112th part and the last"},
                 {50, 50, "the first and the last part"}};
    bite_style style = report_style(BITE_TEXT, BITE_METRIC);
    ck_assert(bite_page_open(&page, &style, report_output_add, &output, NULL));
    check_is(0.1 * MM, 9.9 * MM, 10.1 * MM,
             "\xc2\xb1"
             "0.1 mm");
    check_is(NONE, 9.9 * MM, 10.2 * MM, "9.9 mm to 10.2 mm");
    check_is(NONE, 9.9 * MM, NONE, "at least 9.9 mm");
    check_is(NONE, NONE, 10.2 * MM, "at most 10.2 mm");
    check_is(NONE, NONE, NONE, "");
    page.ascii = 1;
    check_is(0.1 * MM, 9.9 * MM, 10.1 * MM, "+-0.1 mm");
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        static struct bite_job some;
        char text[BITE_CHECK_TEXT_MAX];
        const bite_planned_check check = {.every = cases[i].every};
        some.count = cases[i].count;
        ck_assert_str_eq(bite_check_frequency_text(&some, &check, text), cases[i].text);
    }
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("job_states");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_set_timeout(tests, 300);
    tcase_add_test(tests, annealing);
    tcase_add_test(tests, springs_and_support);
    tcase_add_test(tests, work_without_a_width);
    tcase_add_test(tests, holds);
    tcase_add_test(tests, setups_of_a_plan);
    tcase_add_test(tests, stock_and_blank);
    tcase_add_test(tests, no_draws_no_chances);
    tcase_add_test(tests, fluids_that_sources_disagree_on);
    tcase_add_test(tests, limits_and_frequencies_of_checks);
    Suite *suite = suite_create("job_states");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
