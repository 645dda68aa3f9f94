/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Blanks: the sheets from which they are cut, how many parts are on each, and what is said of a
 * sheet, a gap or a margin that is too small. */
#include "core/job/remarks.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>

/* A seller of acrylic who has sheets of these sizes. */
static void sell(const char *sizes)
{
    char table[600];
    (void)snprintf(table, sizeof table,
                   "[format]\nkind = sheets\nversion = 1\n[sheet.acrylic.cast]\n"
                   "title = sheet of the shop\nfixed = 0.1 mm\nfixed.source = memory\n"
                   "nominals = 2mm 3mm 5mm\nsizes = %s\nlists = memory\n",
                   sizes);
    job_own_table("sheet_stock.ini", table);
}

static const bite_remark *remark_with(const bite_job *job, uint32_t id)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        if (job->remarks[i].id == id) {
            return &job->remarks[i];
        }
    }
    return NULL;
}

/* Parts of 100 x 50 mm, cut free by a tool of 2 mm: 2 + 2 + 1 = 5 mm apart, with a margin of 2 + 3
 * mm. One of them is 110 x 60 mm, two are 215 x 60 or 110 x 115 mm, four 215 x 115 mm, which is
 * less than 425 x 60 mm. */
#define FOUR                                                                                       \
    HEAD "[part]\nmaterial = acrylic/cast\nlength = 100 mm\nwidth = 50 mm\nthickness = 2 mm\n"     \
         "count = 4\n"
#define ON_TAPE "[hold]\nmethod = tape\n" ONE_PASS
#define SMALL_MILL "[machine]\ntravel_x = 120 mm\ntravel_y = 70 mm\n"

/* Of the sheets that yield all blanks the smallest is bought, otherwise that which yields most; a
 * saw takes 3 mm between two blanks. */
START_TEST(the_smallest_sheet_that_is_enough_is_bought)
{
    static const struct {
        const char *sizes;
        const char *machine;
        uint32_t blanks;
        uint32_t on_each;
        uint32_t sheets;
        double sold[2];  /* mm */
        double blank[2]; /* mm */
    } cases[] = {
        {"600mm x 600mm, 300mm x 300mm, 250mm x 200mm", "", 1, 4, 1, {250, 200}, {215, 115}},
        {"250mm x 200mm, 300mm x 300mm, 600mm x 600mm", "", 1, 4, 1, {250, 200}, {215, 115}},
        /* either way round; a strip of four would be larger */
        {"430mm x 65mm, 116mm x 250mm", "", 1, 4, 1, {250, 116}, {215, 115}},
        {"70mm x 230mm", "", 2, 2, 2, {230, 70}, {215, 60}},
        {"120mm x 65mm, 225mm x 65mm", "", 2, 2, 2, {225, 65}, {215, 60}},
        {"120mm x 70mm", "", 4, 1, 4, {120, 70}, {110, 60}},
        /* the machine reaches over one part: two of 110 mm and the saw are 223 mm */
        {"120mm x 70mm, 222mm x 70mm", SMALL_MILL, 4, 1, 4, {120, 70}, {110, 60}},
        {"120mm x 70mm, 230mm x 70mm", SMALL_MILL, 4, 1, 2, {230, 70}, {110, 60}},
        {"230mm x 70mm, 120mm x 70mm", SMALL_MILL, 4, 1, 2, {230, 70}, {110, 60}},
        {"500mm x 500mm, 400mm x 200mm, 230mm x 70mm", SMALL_MILL, 4, 1, 1, {400, 200}, {110, 60}},
        {"230mm x 70mm, 400mm x 200mm, 500mm x 500mm", SMALL_MILL, 4, 1, 1, {400, 200}, {110, 60}},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        sell(cases[i].sizes);
        bite_job *job = plan_of(FOUR "%s" ON_TAPE, cases[i].machine);
        const bite_planned_stock *stock = &job->stock;
        ck_assert_msg(stock->blanks == cases[i].blanks && stock->on_each == cases[i].on_each &&
                          stock->sheets == cases[i].sheets,
                      "%zu: %u blanks, %u on each, of %u sheets", i, stock->blanks, stock->on_each,
                      stock->sheets);
        bite_assert_near(1e3 * stock->sold_length, cases[i].sold[0], 1e-9);
        bite_assert_near(1e3 * stock->sold_width, cases[i].sold[1], 1e-9);
        bite_assert_near(1e3 * stock->layout.length, cases[i].blank[0], 1e-9);
        bite_assert_near(1e3 * stock->layout.width, cases[i].blank[1], 1e-9);
        bite_job_free(job);
    }
}
END_TEST

/* A strip of which only one side is stated may be as long as it likes. */
START_TEST(strips_of_sheet)
{
    static const struct {
        const char *strip;
        uint32_t along; /* 0: not one part fits */
        uint32_t rows;
        const char *says;
    } cases[] = {
        {"width = 130 mm\n", 2, 2, NULL},
        {"width = 65 mm\n", 4, 1, NULL},
        {"length = 130 mm\n", 2, 2, NULL},
        {"length = 40 mm\n", 0, 0,
         "a single part is 110 mm x 60 mm, and the sheet is only 40 mm x -"},
        {"width = 40 mm\n", 0, 0,
         "a single part is 110 mm x 60 mm, and the sheet is only - x 40 mm"},
        {"length = 90 mm\nwidth = 40 mm\n", 0, 0, "and the sheet is only 90 mm x 40 mm"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job *job = plan_of(FOUR "[stock]\n%s" ON_TAPE, cases[i].strip);
        ck_assert_uint_eq(job->stock.layout.along, cases[i].along);
        ck_assert_uint_eq(job->stock.layout.rows, cases[i].rows);
        ck_assert_uint_eq(job->stock.yield, 0); /* of a sheet of both sides alone */
        ck_assert_int_eq(remark_with(job, BITE_REMARK_PARTS_DO_NOT_FIT) != NULL,
                         cases[i].says != NULL);
        ck_assert(cases[i].says == NULL || remark_of(job, "stock", cases[i].says) != NULL);
        ck_assert(cases[i].says == NULL || job->verdict == BITE_OVER);
        bite_job_free(job);
    }
}
END_TEST

/* A slot of 2 mm round each part. */
START_TEST(gaps_and_margins_that_are_too_narrow)
{
    static const struct {
        const char *stock;
        const char *hold;
        int remark; /* -1: none of these */
        uint32_t severity;
        uint32_t strikes;
        double figure; /* the first length of the remark, mm */
    } cases[] = {
        {"gap = 1.9 mm\n", "tape", BITE_REMARK_GAP_NARROW, BITE_CARE, 1, 2.0},
        {"gap = 2 mm\n", "tape", BITE_REMARK_SLOTS_MEET, BITE_NOTE, 0, 4.0},
        {"gap = 3.9 mm\n", "tape", BITE_REMARK_SLOTS_MEET, BITE_NOTE, 0, 4.0},
        {"gap = 3.9 mm\n", "tabs", BITE_REMARK_NO_FRAME, BITE_CARE, 1, 4.0},
        {"gap = 4 mm\n", "tape", -1, 0, 0, 0.0},
        {"gap = 4 mm\n", "tabs", -1, 0, 0, 0.0},
        {"margin = 1.9 mm\n", "tape", BITE_REMARK_MARGIN_NARROW, BITE_NOTE, 0, 0.1},
        {"margin = 1.9 mm\n", "tabs", BITE_REMARK_MARGIN_NARROW, BITE_CARE, 1, 0.1},
        {"margin = 2 mm\n", "tabs", -1, 0, 0, 0.0},
    };
    static const uint32_t all[] = {BITE_REMARK_GAP_NARROW, BITE_REMARK_SLOTS_MEET,
                                   BITE_REMARK_NO_FRAME, BITE_REMARK_MARGIN_NARROW};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job *job = plan_of(FOUR "[stock]\n%s[hold]\nmethod = %s\n" ONE_PASS, cases[i].stock,
                                cases[i].hold);
        for (size_t k = 0; k < sizeof all / sizeof *all; k++) {
            const bite_remark *remark = remark_with(job, all[k]);
            ck_assert_int_eq(remark != NULL, cases[i].remark == (int)all[k]);
            ck_assert(remark == NULL || remark->severity == cases[i].severity);
            ck_assert(remark == NULL ||
                      fabs(1e3 * remark->values[1].quantity - cases[i].figure) < 1e-9);
        }
        ck_assert_uint_eq(job->stock.strikes_parts, cases[i].strikes);
        bite_job_free(job);
    }
}
END_TEST

/* The pass that reaches furthest decides; a hole reaches nowhere, and a saw parts the blank. */
START_TEST(what_goes_beyond_the_part)
{
    bite_job *holes =
        plan(FOUR "[hold]\nmethod = tape\n[pass.h]\nwork = drill\ntool = 3mm\n" GIVEN);
    bite_job *both =
        plan(FOUR "[hold]\nmethod = tape\n[pass.h]\nwork = drill\ntool = 3mm\n" GIVEN
                  "[pass.c]\nwork = contour\ntool = 1mm\ndepth = 1 mm\n" GIVEN ONE_PASS);
    ck_assert_int_eq(holes->stock.furthest, -1);
    ck_assert_double_eq(holes->stock.reach, 0.0);
    bite_assert_near(1e3 * holes->stock.gap, 3.0, 1e-9);
    bite_assert_near(1e3 * holes->stock.margin, 3.0, 1e-9);
    ck_assert_str_eq(both->passes[both->stock.furthest].name, "a");
    bite_assert_near(1e3 * both->stock.reach, 2.0, 1e-9);
    bite_job_free(holes);
    bite_job_free(both);
}
END_TEST

/* As many as the job wants, and no more than it has; what the machine reaches over. */
START_TEST(parts_on_each_blank)
{
    bite_job *all = plan(FOUR "[stock]\nper_blank = 9\n" ON_TAPE);
    bite_job *some = plan(FOUR "[stock]\nper_blank = 3\n" ON_TAPE);
    bite_job *machine = plan(FOUR "[machine]\ntravel_x = 200 mm\ntravel_y = 120 mm\n" ON_TAPE);
    bite_job *none = plan(FOUR "[machine]\ntravel_x = 90 mm\ntravel_y = 90 mm\n" ON_TAPE);
    ck_assert_uint_eq(all->stock.on_each, 4);
    ck_assert_uint_eq(some->stock.blanks, 2);
    ck_assert_uint_eq(some->stock.on_each, 2); /* filled evenly */
    ck_assert_ptr_nonnull(
        remark_of(some, "stock", "2 blanks are needed: 2 on each, 2 on the last"));
    ck_assert_uint_eq(machine->stock.blanks, 2);
    ck_assert_ptr_nonnull(
        remark_of(machine, "stock", "because the machine does not reach over all parts"));
    ck_assert_uint_eq(none->stock.layout.along, 0);
    ck_assert_ptr_null(
        remark_with(none, BITE_REMARK_PARTS_DO_NOT_FIT)); /* the sheet is not to blame */
    ck_assert_ptr_nonnull(remark_of(none, "stock", "needs 110 mm of the Y axis"));
    ck_assert_uint_eq(none->verdict, BITE_OVER);
    bite_job_free(all);
    bite_job_free(some);
    bite_job_free(machine);
    bite_job_free(none);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("blank plan");
    TCase *tests = tcase_create("blank plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, the_smallest_sheet_that_is_enough_is_bought);
    tcase_add_test(tests, strips_of_sheet);
    tcase_add_test(tests, gaps_and_margins_that_are_too_narrow);
    tcase_add_test(tests, what_goes_beyond_the_part);
    tcase_add_test(tests, parts_on_each_blank);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
