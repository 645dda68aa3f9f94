/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job's sheet: all of the job stands on it, nothing of a job's texts becomes markup, and it bears
 * bad calls, bad sinks, no memory. */
#include "core/job/window_plan.h"
#include "core/report/job/html.h"
#include "core/report/job/remark_text.h"
#include "tests/report/job/example_job.h"
#include "tests/report/job/markup_reader.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PAGE_MOST (1u << 21)

static made_job made;
static const char *write_to;
static bite_units write_units = BITE_METRIC;

/* ---- a sink ---- */

typedef struct paper {
    char text[PAGE_MOST];
    size_t size;
    size_t calls;
    size_t refuse; /* at this call and all after it; 0: never */
} paper;

static paper sheet;

static int take(void *user, const char *text, size_t size)
{
    paper *of = user;
    of->calls++;
    if ((of->refuse > 0 && of->calls >= of->refuse) || size >= PAGE_MOST - of->size) {
        return 1;
    }
    memcpy(of->text + of->size, text, size);
    of->size += size;
    of->text[of->size] = 0;
    return 0;
}

static bite_status written(const struct bite_job *job, size_t refuse)
{
    bite_error error = BITE_ERROR_INIT;
    sheet.size = 0;
    sheet.calls = 0;
    sheet.refuse = refuse;
    sheet.text[0] = 0;
    bite_status status = bite_job_html(job, NULL, take, &sheet, &error);
    ck_assert_int_eq(error.status, status);
    return status;
}

static size_t times(const char *what)
{
    size_t count = 0;
    for (const char *at = strstr(sheet.text, what); at != NULL; at = strstr(at + 1, what)) {
        count++;
    }
    return count;
}

static void stands(const char *what)
{
    ck_assert_msg(strstr(sheet.text, what) != NULL, "the sheet does not have: %s", what);
}

static void check_markup(void)
{
    char fault[200];
    ck_assert_msg(bite_test_markup(sheet.text, fault, sizeof fault), "%s", fault);
}

/* A remark as the page has it: quotes are entities. */
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

/* ---- what is on it ---- */

START_TEST(all_of_the_job_stands_on_it)
{
    made_job_fill(&made, library, 64, (bite_units)_i, 0);
    const struct bite_job *job = &made.job;
    ck_assert_int_eq(written(job, 0), BITE_OK);
    check_markup();
    ck_assert_uint_eq(times("<section class=\"sheet\""),
                      5); /* two setups, measures, pictures, cautions */
    for (size_t i = 0; i < job->pass_count; i++) {
        char cell[200];
        char text[40];
        size_t length = 0;
        (void)snprintf(cell, sizeof cell,
                       "<td class=\"place\">%zu</td><th scope=\"row\" class=\"what\">%s<small>",
                       i + 1, job->passes[i].title);
        ck_assert_uint_eq(times(cell), 1);
        ck_assert_int_eq(bite_quantity_write(job->passes[i].answer->full.spindle_speed,
                                             BITE_KIND_ROTATION, job->units, text, sizeof text,
                                             &length, NULL),
                         BITE_OK);
        (void)snprintf(cell, sizeof cell, "<b>%.*s</b> rpm", (int)strcspn(text, " "), text);
        stands(cell);
    }
    for (size_t i = 0; i < job->tool_count; i++) {
        char cell[200];
        (void)snprintf(cell, sizeof cell, "<th scope=\"row\">T%zu</th><td><b>%s</b>", i + 1,
                       job->tools[i].name);
        stands(cell);
        stands(job->tools[i].why);
    }
    for (size_t i = 0; i < job->check_count; i++) {
        stands(job->checks[i].what);
    }
    ck_assert_uint_eq(times("<span class=\"reading\">"), job->check_count * 6);
    for (size_t i = 0; i < job->remark_count; i++) {
        size_t places =
            job->remarks[i].severity == 3 ? 3 : 1; /* a danger on top of each open_library too */
        ck_assert_uint_eq(times(words_of(&job->remarks[i], job->units)), places);
    }
    for (size_t i = 0; i < job->fluid_count; i++) {
        stands(job->fluids[i].fluid->title);
    }
    size_t ticks = 2 * (job->hold.mounting_count + job->hold.release_count) + 3 +
                   2; /* tools: three in open_library 1 and ... */
    ck_assert_uint_ge(times("<span class=\"box\">"), ticks);
    ck_assert_uint_eq(times("<svg class=\"drawing\""), 3);
    ck_assert_uint_eq(times("<div class=\"picture\""), 2);
    stands(job->units == BITE_INCH ? " in/min" : " mm/min");
    ck_assert_uint_eq(times(job->units == BITE_INCH ? " mm/min" : " in/min"), 0);
    made_job_free(&made);
}
END_TEST

/* The two passes with the highest chance have pictures, the higher first; of the same cut, made
 * twice, there is one. */
START_TEST(pictures_are_of_the_nearest)
{
    made_job_fill(&made, library, 64, BITE_METRIC, 0);
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    const char *first = strstr(sheet.text, "<h3>Pass ");
    ck_assert_ptr_nonnull(first);
    const char *second = strstr(first + 1, "<h3>Pass ");
    ck_assert_ptr_nonnull(second);
    size_t shown[] = {(size_t)atoi(first + 9) - 1, (size_t)atoi(second + 9) - 1};
    ck_assert_uint_ne(shown[0], shown[1]);
    double least = made.passes[shown[1]].answer->result.chance;
    ck_assert_double_ge(made.passes[shown[0]].answer->result.chance, least);
    for (size_t i = 0; i < MADE_PASSES; i++) {
        const bite_answer *answer = made.passes[i].answer;
        int same =
            memcmp(&answer->full, &made.passes[shown[0]].answer->full, sizeof answer->full) == 0;
        ck_assert(same || answer->result.chance <= least);
        ck_assert(!(same && i == shown[1]));
    }
    made_job_free(&made);
}
END_TEST

START_TEST(texts_stay_texts)
{
    made_job_fill(&made, library, 64, BITE_METRIC, 1);
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    check_markup();
    ck_assert_uint_eq(times("<script"), 0);
    ck_assert_uint_eq(times("<img"), 0);
    ck_assert_uint_eq(times("<!--"), 0);
    ck_assert_uint_eq(times("<b>own"), 0);
    ck_assert_uint_eq(times("\xe2\x80\xae"), 0);
    ck_assert_uint_eq(times("\x01") + times("\x7f") + times("\xff"), 0);
    ck_assert_uint_eq(times("</style>"), 1);
    stands("<h1>Cover &lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;co&#39; end</h1>");
    stands("Pocket&quot;&gt;&lt;img src=x onerror=&#39;alert(2)&#39;&gt;&amp;");
    stands("<span>&lt;/style&gt;&lt;/section&gt;&lt;!-- &quot;&amp;&#39; ]]&gt;</span>");
    stands("Window &amp; Son&#39;s &lt;b&gt;own&lt;/b&gt;");
    made_job_free(&made);
}
END_TEST

/* A number that is none, as a word of its own. */
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

/* Every number that may be missing is missing, or beyond all measure; texts too. */
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
    job->time =
        (bite_planned_time){number, number, number, number, number, number, number, number, 0, 0};
    job->title = job->file = job->stock.parting_text = NULL;
    for (size_t i = 0; i < job->pass_count; i++) {
        bite_planned_pass *pass = &job->passes[i];
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
        job->checks[i] = (bite_planned_check){NULL, number, number, NULL, NULL};
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
    }
}

START_TEST(what_is_missing_is_not_made_up)
{
    static const double numbers[] = {(double)NAN, (double)INFINITY, -(double)INFINITY, 0.0, -1.0,
                                     1e300};
    made_job_fill(&made, library, _i % 2 ? BITE_DRAWS_NONE : 64, BITE_METRIC, 0);
    no_bad_numbers();
    empty_out(&made.job, numbers[_i]);
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    check_markup();
    no_bad_numbers();
    /* no answers, no table of the sheet, no hold, no passes at all */
    bite_plan_windows_free(&made.job);
    for (size_t i = 0; i < MADE_PASSES; i++) {
        bite_answer_free(made.passes[i].answer);
        made.passes[i].answer = NULL;
    }
    made.job.stock.sheet = NULL;
    made.job.stock.layout = (bite_layout){0, 0, 0, 0, 0.0, 0.0};
    made.job.hold.hold = NULL;
    made.job.hold.layers[1] = NULL;
    made.job.grade = NULL;
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    check_markup();
    no_bad_numbers();
    ck_assert_uint_eq(times("<section class=\"sheet\""), 4); /* no pictures */
    stands("do not fit");
    stands("not judged: see the cautions");
    made.job.pass_count = made.job.tool_count = made.job.check_count = made.job.remark_count =
        made.job.fluid_count = 0;
    made.job.setups = 1;
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    check_markup();
    ck_assert_uint_eq(times("<section class=\"sheet\""), 3);
    made_job_free(&made);
}
END_TEST

/* A hold that may not be used is a danger on every open_library; thousands of parts do not make
 * thousands of boxes. */
START_TEST(refused_holds_and_many_parts)
{
    made_job_fill(&made, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    made.job.hold.refused = 1;
    made.job.count = 9000.0;
    made.job.stock.layout.along = 100;
    made.job.stock.layout.rows = 91;
    made.job.stock.layout.more = 100;
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    check_markup();
    ck_assert_uint_eq(times("Do not hold this part with tape, cyanoacrylate, tape"), 2);
    ck_assert_uint_eq(times("<svg class=\"drawing\""), 2);
    ck_assert_uint_eq(times("<span class=\"reading\">"), made.job.check_count);
    stands("100 places more than requested");
    made_job_free(&made);
}
END_TEST

/* ---- bad calls ---- */

START_TEST(bad_calls_are_refused)
{
    bite_error error = BITE_ERROR_INIT;
    bite_style style = {(uint32_t)sizeof style, BITE_SVG, BITE_INCH, 0, 0, 0, 0, 0};
    made_job_fill(&made, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    ck_assert_int_eq(bite_job_html(NULL, NULL, take, &sheet, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_html(&made.job, NULL, NULL, NULL, &error), BITE_BAD_ARGUMENT);
    made.job.setups = 3;
    ck_assert_int_eq(bite_job_html(&made.job, NULL, take, &sheet, NULL), BITE_BAD_ARGUMENT);
    made.job.setups = 2;
    sheet.size = sheet.calls = sheet.refuse = 0;
    ck_assert_int_eq(bite_job_html(&made.job, &style, take, &sheet, NULL), BITE_OK);
    ck_assert_uint_eq(times(" in/min"), 0); /* the job's units hold */
    style.struct_size = 4;
    ck_assert_int_eq(bite_job_html(&made.job, &style, take, &sheet, &error), BITE_BAD_ARGUMENT);
    made_job_free(&made);
}
END_TEST

START_TEST(sinks_that_refuse)
{
    made_job_fill(&made, library, BITE_DRAWS_NONE, BITE_METRIC, 0);
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    size_t calls = sheet.calls;
    for (size_t refuse = 1; refuse <= calls; refuse += 1 + calls / 30) {
        ck_assert_int_eq(written(&made.job, refuse), BITE_CANNOT_WRITE);
        ck_assert_uint_eq(sheet.calls, refuse); /* not asked again */
    }
    ck_assert_int_eq(written(&made.job, calls), BITE_CANNOT_WRITE);
    bite_plan_windows_free(&made.job);
    for (size_t i = 0; i < MADE_PASSES;
         i++) { /* without pictures each call is cheap: all of them */
        bite_answer_free(made.passes[i].answer);
        made.passes[i].answer = NULL;
    }
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    calls = sheet.calls;
    for (size_t refuse = 1; refuse <= calls; refuse++) {
        ck_assert_int_eq(written(&made.job, refuse), BITE_CANNOT_WRITE);
    }
    made_job_free(&made);
}
END_TEST

/* No memory at any call: said before the first byte, and nothing is left behind. */
START_TEST(memory_runs_out)
{
    bite_test_memory memory = {0, 0, 0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_library *of = bite_test_shop_open(&shop, &allocator);
    made_job_fill(&made, of, BITE_DRAWS_NONE, BITE_METRIC, 0);
    size_t held = memory.held;
    size_t fail = 1;
    for (; fail < 2000; fail++) {
        memory.calls = 0;
        memory.fail_at = fail;
        bite_status status = written(&made.job, 0);
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
    made_job_free(&made);
    bite_library_close(of);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

/* For the test with a browser: the page as a file. */
START_TEST(write_page)
{
    made_job_fill(&made, library, 1024, write_units, 0);
    ck_assert_int_eq(written(&made.job, 0), BITE_OK);
    bite_test_write(write_to, sheet.text, sheet.size);
    made_job_free(&made);
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
    tcase_add_loop_test(all, all_of_the_job_stands_on_it, BITE_METRIC, BITE_INCH + 1);
    tcase_add_test(all, pictures_are_of_the_nearest);
    tcase_add_test(all, texts_stay_texts);
    tcase_add_loop_test(all, what_is_missing_is_not_made_up, 0, 6);
    tcase_add_test(all, refused_holds_and_many_parts);
    tcase_add_test(all, bad_calls_are_refused);
    tcase_add_test(all, sinks_that_refuse);
    tcase_add_test(all, memory_runs_out);
    return bite_test_run(suite);
}
