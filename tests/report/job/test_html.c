/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The HTML page of a job: it contains everything of the job, no text of a job becomes markup, and
 * bad calls, failing sinks and missing memory are reported. */
#include "core/job/window_plan.h"
#include "core/report/job/html.h"
#include "core/report/job/remark_text.h"
#include "tests/report/job/example_job.h"
#include "tests/report/job/markup_reader.h"
#include "tests/support/open_library.h"
#include "tests/support/paper.h"
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static example_job example;
static const char *write_to;
static bite_units write_units = BITE_METRIC;

/* ---- a sink ---- */

static bite_test_paper sheet;

static bite_status written(const struct bite_job *job, size_t refuse)
{
    bite_error error = BITE_ERROR_INIT;
    bite_test_paper_start(&sheet, refuse);
    bite_status status = bite_job_html(job, NULL, bite_test_paper_take, &sheet, &error);
    ck_assert_int_eq(error.status, status);
    return status;
}

static size_t times(const char *what)
{
    return bite_test_paper_times(&sheet, what);
}

static void assert_contains(const char *what)
{
    ck_assert_msg(strstr(sheet.text, what) != NULL, "the sheet does not have: %s", what);
}

static void check_markup(void)
{
    char fault[200];
    ck_assert_msg(bite_test_markup(sheet.text, fault, sizeof fault), "%s", fault);
}

/* The text of a remark as in the page: quotes are entities. */
static const char *words_of(const bite_remark *remark, bite_units units)
{
    static char page[2 * BITE_REMARK_TEXT_MAX];
    char words[BITE_REMARK_TEXT_MAX];
    size_t used = 0;
    for (const char *at = bite_remark_words(remark, units, words, sizeof words); *at != 0; at++) {
        const char plain[2] = {*at, 0};
        const char *shown = *at == '"' ? "&quot;" : *at == '\'' ? "&#39;" : plain;
        used += (size_t)snprintf(page + used, sizeof page - used, "%s", shown);
    }
    return page;
}

/* ---- content ---- */

START_TEST(page_contains_all_of_the_job)
{
    example_job_fill(&example, library, 64, (bite_units)_i, 0);
    const struct bite_job *job = &example.job;
    ck_assert_int_eq(written(job, 0), BITE_OK);
    check_markup();
    ck_assert_uint_eq(times("<section class=\"sheet\""),
                      6); /* two setups, bench, stock, pictures, cautions */
    for (size_t i = 0; i < job->pass_count; i++) {
        char cell[200];
        char text[40];
        size_t length = 0;
        (void)snprintf(cell, sizeof cell,
                       "<td class=\"place\">%zu</td><th scope=\"rowgroup\" class=\"what\">%s</th>",
                       i + 1, job->passes[i].title);
        ck_assert_uint_eq(times(cell), 1);
        ck_assert_int_eq(bite_quantity_write(job->passes[i].answer->full.spindle_speed,
                                             BITE_KIND_ROTATION, job->units, text, sizeof text,
                                             &length, NULL),
                         BITE_OK);
        (void)snprintf(cell, sizeof cell, "<b>%.*s</b> rpm", (int)strcspn(text, " "), text);
        assert_contains(cell);
    }
    for (size_t i = 0; i < job->tool_count; i++) {
        char cell[200];
        (void)snprintf(cell, sizeof cell, "<th scope=\"row\">T%zu</th><td><b>%s</b>", i + 1,
                       job->tools[i].name);
        assert_contains(cell);
        assert_contains(job->tools[i].why);
    }
    for (size_t i = 0; i < job->check_count; i++) {
        assert_contains(job->checks[i].what);
    }
    ck_assert_uint_eq(times("<span class=\"reading\">"), job->check_count * 6);
    for (size_t i = 0; i < job->remark_count; i++) {
        /* a danger is also on the sheet of each setup, and what concerns the bench on that of the
         * bench */
        size_t places = (job->remarks[i].severity == 3 ? 3u : 1u) + (i < 2 ? 1u : 0u);
        ck_assert_uint_eq(times(words_of(&job->remarks[i], job->units)), places);
    }
    for (size_t i = 0; i < job->fluid_count; i++) {
        assert_contains(job->fluids[i].fluid->title);
    }
    size_t ticks = 2 * (job->hold.mounting_count + job->hold.release_count) + 4 +
                   3; /* tools: four in setup 1, three in setup 2 */
    ck_assert_uint_ge(times("<span class=\"box\">"), ticks);
    ck_assert_uint_eq(times("<svg class=\"drawing\""), 3);
    ck_assert_uint_eq(times("<div class=\"picture\""), 2);
    assert_contains(job->units == BITE_INCH ? " in/min" : " mm/min");
    ck_assert_uint_eq(times(job->units == BITE_INCH ? " mm/min" : " in/min"), 0);
    example_job_free(&example);
}
END_TEST

/* The two passes with the highest chance have pictures, the higher one first; two passes with the
 * same cut have one picture. */
START_TEST(passes_nearest_to_a_limit_have_pictures)
{
    example_job_fill(&example, library, 64, BITE_METRIC, 0);
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    const char *first = strstr(sheet.text, "<h3>Pass ");
    ck_assert_ptr_nonnull(first);
    const char *second = strstr(first + 1, "<h3>Pass ");
    ck_assert_ptr_nonnull(second);
    size_t shown[] = {(size_t)atoi(first + 9) - 1, (size_t)atoi(second + 9) - 1};
    ck_assert_uint_ne(shown[0], shown[1]);
    double least = example.passes[shown[1]].answer->result.chance;
    ck_assert_double_ge(example.passes[shown[0]].answer->result.chance, least);
    for (size_t i = 0; i < EXAMPLE_PASSES; i++) {
        const bite_answer *answer = example.passes[i].answer;
        int same =
            memcmp(&answer->full, &example.passes[shown[0]].answer->full, sizeof answer->full) == 0;
        ck_assert(same || answer->result.chance <= least);
        ck_assert(!(same && i == shown[1]));
    }
    example_job_free(&example);
}
END_TEST

/* The page of a setup begins with what is entered; its dangers follow, in one box. */
START_TEST(numbers_come_before_dangers)
{
    example_job_fill(&example, library, BITE_DRAWS_NONE, (bite_units)_i, 0);
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    const char *setup = strstr(sheet.text, "id=\"setup-1\"");
    const char *passes = strstr(setup, "<table class=\"passes\">");
    const char *dangers = strstr(setup, "<div class=\"warnings\">");
    const char *next = strstr(setup, "id=\"setup-2\"");
    ck_assert(setup != NULL && passes != NULL && dangers != NULL && next != NULL);
    ck_assert(setup < passes && passes < dangers && dangers < next);
    ck_assert(strstr(dangers + 1, "<div class=\"warnings\">") > next);
    /* lengths as a control shows them, whatever their size */
    ck_assert_uint_eq(times(" um") + times(" thou") + times(" uin") + times("/64"), 0);
    example_job_free(&example);
}
END_TEST

/* The sheet of the bench has the release, the fluids with NO, the waits and the readings. */
START_TEST(bench_has_a_sheet_of_its_own)
{
    example_job_fill(&example, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    struct bite_job *job = &example.job;
    ck_assert_int_eq(written(job, 0), BITE_OK);
    char *bench = strstr(sheet.text, "id=\"bench\"");
    char *end = strstr(bench, "</section>");
    ck_assert(bench != NULL && end != NULL);
    *end = 0;
    memmove(sheet.text, bench, strlen(bench) + 1);
    for (size_t i = 0; i < job->hold.release_count; i++) {
        assert_contains(job->hold.release[i]);
    }
    for (size_t i = 0; i < job->check_count; i++) {
        assert_contains(job->checks[i].what);
    }
    const char *no = strstr(sheet.text, ">NO</strong>");
    const char *row = no == NULL ? NULL : strstr(no, "</tr>");
    const char *acetone = no == NULL ? NULL : strstr(no, "<b>acetone</b> (this job&#39;s remover)");
    ck_assert(acetone != NULL && row != NULL && acetone < row);
    const char *safe = strstr(sheet.text, ">SAFE</strong>");
    ck_assert(safe != NULL && safe < no);
    ck_assert_ptr_nonnull(strstr(safe, "<b>soapy water</b>"));
    assert_contains("Cure, after mounting and before cutting: <b>2 min</b>");
    assert_contains("raking light");
    ck_assert_uint_eq(times("is flammable"), 1);
    example_job_free(&example);
}
END_TEST

START_TEST(texts_do_not_become_markup)
{
    example_job_fill(&example, library, 64, BITE_METRIC, 1);
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    check_markup();
    ck_assert_uint_eq(times("<script"), 0);
    ck_assert_uint_eq(times("<img"), 0);
    ck_assert_uint_eq(times("<!--"), 0);
    ck_assert_uint_eq(times("<b>own"), 0);
    ck_assert_uint_eq(times("\xe2\x80\xae"), 0);
    ck_assert_uint_eq(times("\x01") + times("\x7f") + times("\xff"), 0);
    ck_assert_uint_eq(times("</style>"), 1);
    assert_contains("<h1>Cover &lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;co&#39; end</h1>");
    assert_contains("Pocket&quot;&gt;&lt;img src=x onerror=&#39;alert(2)&#39;&gt;&amp;");
    assert_contains("<span>&lt;/style&gt;&lt;/section&gt;&lt;!-- &quot;&amp;&#39; ]]&gt;</span>");
    assert_contains("Window &amp; Son&#39;s &lt;b&gt;own&lt;/b&gt;");
    example_job_free(&example);
}
END_TEST

/* A word that is an invalid number. */
static void no_bad_numbers(void)
{
    static const char *const words[] = {"nan", "inf", "infinity", "null"};
    for (const char *at = sheet.text; *at != 0; at++) {
        size_t length = 0;
        int before = at > sheet.text && ((at[-1] | 32) >= 'a' && (at[-1] | 32) <= 'z');
        while ((at[length] | 32) >= 'a' && (at[length] | 32) <= 'z') {
            length++;
        }
        for (size_t i = 0; !before && i < sizeof words / sizeof *words; i++) {
            int same = length == strlen(words[i]);
            for (size_t k = 0; same && k < length; k++) {
                same = (at[k] | 32) == words[i][k];
            }
            ck_assert_msg(!same, "%.60s", at);
        }
    }
}

/* Every number that may be missing is missing or far too large; texts too. */
static void empty_out(struct bite_job *job, double number)
{
    double *const lists[] = {&job->length, &job->stock.nominal, &job->warp.span};
    ck_assert_ptr_nonnull(lists[0]);
    job->length = job->width = job->thickness = job->thinnest = job->count = job->chance =
        job->confidence = number;
    job->stock.nominal = job->stock.tolerance = job->stock.thin = job->stock.thick =
        job->stock.needed = number;
    job->stock.skim = job->stock.gap = job->stock.margin = job->stock.sheet_length =
        job->stock.sheet_width = number;
    job->stock.removal = (bite_sheet_stock_removal){number, number, number, number};
    job->stock.limit.demand = job->stock.limit.capacity = job->stock.limit.chance = number;
    job->warp = (bite_planned_warp){job->stock.limit, number, number, number, number,
                                    number,           number, number, NULL,   number};
    job->hold.utilization = job->hold.chance = job->hold.area = job->hold.cure =
        job->hold.break_through = job->hold.tape = number;
    double times_of[offsetof(bite_planned_time, records) / sizeof(double)];
    for (size_t i = 0; i < sizeof times_of / sizeof *times_of; i++) {
        times_of[i] = number;
    }
    memcpy(&job->time, times_of, sizeof times_of);
    job->time.records = job->time.tool_changes = 0;
    job->title = job->file = job->stock.parting_text = NULL;
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_planned_pass *pass = &job->passes[i];
        pass->step_down = pass->last_step = number;
        pass->entry.feed = pass->entry.angle = pass->entry.length = pass->entry.leg = number;
        pass->path.step_over = pass->path.allowance = pass->path.lead = number;
        pass->path.tip_depth = pass->path.tip_offset = number;
        pass->depth = pass->width = pass->seconds = pass->slowed = pass->hold_utilization = number;
        pass->title = NULL;
        pass->tool = i == 2 ? 99 : pass->tool;
    }
    for (size_t i = 0; i < job->tool_count; i++) {
        job->tools[i].diameter = job->tools[i].flutes = job->tools[i].stickout =
            job->tools[i].flute_length = number;
        job->tools[i].why = job->tools[i].better = NULL;
    }
    for (size_t i = 0; i < job->check_count; i++) {
        job->checks[i] = (bite_planned_check){.nominal = number, .tolerance = number};
    }
    for (size_t i = 0; i < job->remark_count; i++) {
        job->remarks[i].source = NULL;
        for (size_t k = 0; k < BITE_REMARK_VALUES_MAX; k++) {
            job->remarks[i].values[k] = (bite_remark_value){NULL, number};
        }
    }
    for (size_t i = 0; i < job->fluid_count; i++) {
        job->fluids[i] = (bite_fluid_rating){NULL, 9, 9, NULL, NULL, NULL, number};
        job->fluid_uses[i] = NULL;
        job->bench_fluids[i] = job->fluids[i];
    }
}

START_TEST(missing_values_are_not_invented)
{
    static const double numbers[] = {(double)NAN, (double)INFINITY, -(double)INFINITY, 0.0, -1.0,
                                     1e300};
    example_job_fill(&example, library, _i % 2 ? BITE_DRAWS_NONE : 64, BITE_METRIC, 0);
    no_bad_numbers();
    empty_out(&example.job, numbers[_i]);
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    check_markup();
    no_bad_numbers();
    /* no answers, no sheet table, no workholding, no passes */
    bite_plan_windows_free(&example.job);
    for (size_t i = 0; i < EXAMPLE_PASSES; i++) {
        bite_answer_free(example.passes[i].answer);
        example.passes[i].answer = NULL;
    }
    example.job.stock.sheet = NULL;
    example.job.stock.layout = (bite_layout){0, 0, 0, 0, 0.0, 0.0};
    example.job.hold.hold = NULL;
    example.job.hold.layers[1] = NULL;
    example.job.grade = NULL;
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    check_markup();
    no_bad_numbers();
    ck_assert_uint_eq(times("<section class=\"sheet\""), 5); /* no pictures */
    assert_contains("do not fit");
    assert_contains("not judged: see the cautions");
    example.job.pass_count = example.job.tool_count = example.job.check_count =
        example.job.remark_count = example.job.fluid_count = example.job.bench_fluid_count = 0;
    example.job.setups = 1;
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    check_markup();
    ck_assert_uint_eq(times("<section class=\"sheet\""), 4);
    example_job_free(&example);
}
END_TEST

/* A refused workholding is a danger on every setup; thousands of parts do not make thousands of
 * boxes. */
START_TEST(refused_workholding_and_many_parts_are_shown)
{
    example_job_fill(&example, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    example.job.hold.refused = 1;
    example.job.count = 9000.0;
    example.job.stock.layout.along = 100;
    example.job.stock.layout.rows = 91;
    example.job.stock.layout.more = 100;
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    check_markup();
    ck_assert_uint_eq(times("Do not hold this part with tape, cyanoacrylate, tape"), 2);
    ck_assert_uint_eq(times("<svg class=\"drawing\""), 2);
    ck_assert_uint_eq(times("<span class=\"reading\">"), example.job.check_count);
    assert_contains("100 places more than requested");
    example_job_free(&example);
}
END_TEST

/* ---- bad calls ---- */

START_TEST(bad_calls_are_refused)
{
    bite_error error = BITE_ERROR_INIT;
    bite_style style = {
        .struct_size = (uint32_t)sizeof style, .format = BITE_SVG, .units = BITE_INCH};
    example_job_fill(&example, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    ck_assert_int_eq(bite_job_html(NULL, NULL, bite_test_paper_take, &sheet, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_html(&example.job, NULL, NULL, NULL, &error), BITE_BAD_ARGUMENT);
    example.job.setups = 0;
    ck_assert_int_eq(bite_job_html(&example.job, NULL, bite_test_paper_take, &sheet, NULL),
                     BITE_BAD_ARGUMENT);
    example.job.setups = BITE_SETUPS_MAX + 1;
    ck_assert_int_eq(bite_job_html(&example.job, NULL, bite_test_paper_take, &sheet, NULL),
                     BITE_BAD_ARGUMENT);
    example.job.setups = 2;
    bite_test_paper_start(&sheet, 0);
    ck_assert_int_eq(bite_job_html(&example.job, &style, bite_test_paper_take, &sheet, NULL),
                     BITE_OK);
    ck_assert_uint_eq(times(" in/min"), 0); /* the units of the job are used */
    style.struct_size = 4;
    ck_assert_int_eq(bite_job_html(&example.job, &style, bite_test_paper_take, &sheet, &error),
                     BITE_BAD_ARGUMENT);
    example_job_free(&example);
}
END_TEST

START_TEST(failing_sinks_are_reported)
{
    example_job_fill(&example, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    size_t calls = sheet.calls;
    for (size_t refuse = 1; refuse <= calls; refuse += 1 + calls / 30) {
        ck_assert_int_eq(written(&example.job, refuse), BITE_CANNOT_WRITE);
        ck_assert_uint_eq(sheet.calls, refuse); /* the sink is not called again */
    }
    ck_assert_int_eq(written(&example.job, calls), BITE_CANNOT_WRITE);
    bite_plan_windows_free(&example.job);
    for (size_t i = 0; i < EXAMPLE_PASSES;
         i++) { /* without pictures each call is cheap: all are tried */
        bite_answer_free(example.passes[i].answer);
        example.passes[i].answer = NULL;
    }
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    calls = sheet.calls;
    for (size_t refuse = 1; refuse <= calls; refuse++) {
        ck_assert_int_eq(written(&example.job, refuse), BITE_CANNOT_WRITE);
    }
    example_job_free(&example);
}
END_TEST

/* Any allocation may fail: it is reported before the first byte, and nothing is leaked. */
START_TEST(failing_allocations_are_reported)
{
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_library *of = bite_test_shop_open(&shop, &allocator);
    example_job_fill(&example, of, BITE_DRAWS_NONE, BITE_METRIC, 0);
    size_t held = memory.held;
    size_t fail = 1;
    for (; fail < 2000; fail++) {
        memory.calls = 0;
        memory.fail_at = fail;
        bite_status status = written(&example.job, 0);
        ck_assert_uint_eq(memory.held, held);
        if (status == BITE_OK) {
            ck_assert_uint_lt(memory.calls, fail);
            break;
        }
        ck_assert_int_eq(status, BITE_NO_MEMORY);
        ck_assert_uint_eq(sheet.size, 0);
    }
    ck_assert_uint_gt(fail, 10);
    ck_assert_uint_lt(fail, 2000);
    memory.fail_at = 0;
    example_job_free(&example);
    bite_library_close(of);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

/* Writes the page to a file for the browser test. */
START_TEST(write_page)
{
    example_job_fill(&example, library, 1024, write_units, 0);
    ck_assert_int_eq(written(&example.job, 0), BITE_OK);
    bite_test_write(write_to, sheet.text, sheet.size);
    example_job_free(&example);
}
END_TEST

int main(int count, char **words)
{
    Suite *suite = suite_create("job sheet");
    TCase *all = tcase_create("job sheet");
    tcase_add_checked_fixture(all, open_library, close_library);
    tcase_set_timeout(all, 180);
    suite_add_tcase(suite, all);
    if (count >= 3 && strcmp(words[1], "--write") == 0) {
        write_to = words[2];
        write_units = count > 3 && strcmp(words[3], "inch") == 0 ? BITE_INCH : BITE_METRIC;
        tcase_add_test(all, write_page);
        return bite_test_run(suite);
    }
    tcase_add_loop_test(all, page_contains_all_of_the_job, BITE_METRIC, BITE_INCH + 1);
    tcase_add_test(all, passes_nearest_to_a_limit_have_pictures);
    tcase_add_loop_test(all, numbers_come_before_dangers, BITE_METRIC, BITE_INCH + 1);
    tcase_add_test(all, bench_has_a_sheet_of_its_own);
    tcase_add_test(all, texts_do_not_become_markup);
    tcase_add_loop_test(all, missing_values_are_not_invented, 0, 6);
    tcase_add_test(all, refused_workholding_and_many_parts_are_shown);
    tcase_add_test(all, bad_calls_are_refused);
    tcase_add_test(all, failing_sinks_are_reported);
    tcase_add_test(all, failing_allocations_are_reported);
    return bite_test_run(suite);
}
