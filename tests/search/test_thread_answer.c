/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do for a thread in a material: the object, its options, and the mills it judges. */
#include "core/library/collection.h"
#include "core/library/material.h"
#include "core/search/thread_answer.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <string.h>

static bite_thread_options options_of(uint32_t left_hand, const char *machine, const char *tool)
{
    const bite_thread_options options = {(uint32_t)sizeof options, left_hand, machine, tool};
    return options;
}

static bite_thread_answer *answer_of(const char *thread, const char *material, uint32_t left_hand,
                                     const char *machine, const char *tool)
{
    const bite_thread_options options = options_of(left_hand, machine, tool);
    bite_thread_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_status status =
        bite_thread_answer_new(library, thread, material, &options, &answer, &error);
    ck_assert_msg(status == BITE_OK, "%s: %s", thread, error.message);
    return answer;
}

/* Without options it is a right-hand thread, and the mill as large as is advised. */
START_TEST(options_may_be_left_out)
{
    bite_thread_answer *plain = NULL;
    ck_assert_int_eq(bite_thread_answer_new(library, "M6", "6061", NULL, &plain, NULL), BITE_OK);
    bite_thread_answer *same = answer_of("M6", "6061", 0, NULL, "4.2mm");
    ck_assert_uint_eq(plain->left_hand, 0);
    ck_assert_uint_eq(plain->too_fast, 0);
    ck_assert_ptr_null(plain->milling.tool.record);
    ck_assert_double_eq_tol(plain->milling.tool.diameter, 4.2e-3, 1e-9);
    ck_assert_double_eq_tol(plain->milling.turns, same->milling.turns, 1e-9);
    ck_assert_double_eq_tol(plain->milling.edge_feed, same->milling.edge_feed, 1e-12);
    bite_thread_answer_free(plain);
    bite_thread_answer_free(same);
    bite_thread_answer_free(NULL);
}
END_TEST

/* By hand, M6 in a hole of 75 %, 5.026 mm wide, 9 mm of thread: ten turns of the single-point mill;
 * the full-form mill has 13 rows, of which ten cut, in one turn. */
START_TEST(a_full_form_mill_cuts_all_turns_at_once)
{
    bite_thread_answer *one = answer_of("M6", "acetal", 0, "small-vmc", "tm-4.2");
    bite_thread_answer *all = answer_of("M6", "acetal", 0, "small-vmc", "tmf-1");
    ck_assert_double_eq_tol(one->milling.tool.rows, 1.0, 1e-12);
    ck_assert_double_eq_tol(all->milling.tool.rows, 13.0, 1e-12);
    double turns = one->advice.length / 1e-3 + 1.0;
    ck_assert_double_eq_tol(one->milling.path.turns, turns, 1e-9);
    ck_assert_double_eq_tol(all->milling.path.turns, 1.0, 1e-12);
    ck_assert_double_eq_tol(bite_thread_mill_rows(&all->milling.tool, one->advice.length, 1e-3),
                            fmin(13.0, turns), 1e-9);
    ck_assert_uint_eq(one->milling.passes, 1);
    ck_assert_uint_eq(all->milling.passes, 1);
    ck_assert(all->milling.seconds < one->milling.seconds);
    bite_thread_answer_free(one);
    bite_thread_answer_free(all);
}
END_TEST

/* All rows that cut at once load a full-form mill: as many times the force of one, at the same feed
 * per tooth, and more radial passes where that breaks it. */
START_TEST(all_rows_load_a_full_form_mill)
{
    const double rows[] = {1.0, 5.0};
    double force[2] = {0.0, 0.0};
    for (size_t i = 0; i < 2; i++) {
        const bite_thread_mill_cut cut = {6e-3, 1e-3, 5e-3, 4.2e-3, rows[i], 1};
        bite_request *request = NULL;
        bite_answer *answer = NULL;
        ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
        ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "6061", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "tmf-1", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "helix", "0deg", NULL), BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "spindle_speed", "8000rpm", NULL), BITE_OK);
        ck_assert_int_eq(bite_thread_mill_set_cut(request, &cut, NULL), BITE_OK);
        ck_assert_int_eq(bite_thread_mill_set_usual(request, cut.tool, 1, NULL), BITE_OK);
        ck_assert_int_eq(bite_answer_new(request, 1, 0.95, &answer, NULL), BITE_OK);
        force[i] = bite_answer_result(answer)->values[BITE_FORCE_SIDE_PEAK].value;
        bite_answer_free(answer);
        bite_request_free(request);
    }
    ck_assert_double_eq_tol(force[1] / force[0], 5.0, 0.05);
    bite_thread_answer *aluminium = answer_of("M6", "6061", 0, "small-vmc", "tmf-1");
    bite_thread_answer *steel = answer_of("M6", "1018", 0, "small-vmc", "tmf-1");
    bite_thread_answer *single = answer_of("M6", "1018", 0, "small-vmc", "tm-4.2");
    ck_assert_uint_gt(aluminium->milling.passes, 1);
    ck_assert_uint_ge(steel->milling.passes, aluminium->milling.passes);
    ck_assert_uint_eq(single->milling.passes, 1);
    bite_thread_answer_free(aluminium);
    bite_thread_answer_free(steel);
    bite_thread_answer_free(single);
}
END_TEST

/* A thread longer than the teeth is cut in levels: the teeth of all cover it and a pitch more. */
START_TEST(levels_cover_the_thread)
{
    for (size_t i = 1; i <= 40; i++) {
        double length = 0.7e-3 * (double)i;
        const bite_thread_mill_cut cut = {6e-3, 1e-3, 5e-3, 4.2e-3, 1.0, 2};
        const bite_thread_mill mill = {NULL, 4.2e-3, 1.0, 7.0, 1, 0};
        bite_thread_path path = bite_thread_path_of(&cut, &mill, length, 1e-3);
        ck_assert(path.levels * 7.0 >= length / 1e-3 + 1.0 - 1e-6);
        ck_assert((path.levels - 1.0) * 7.0 < length / 1e-3 + 1.0);
        ck_assert_double_eq_tol(path.turns, path.levels, 1e-12);
        ck_assert_double_eq_tol(path.diameters[1], 6e-3, 1e-12);
        ck_assert_double_eq_tol(path.lengths[1], path.levels * hypot(1.8e-3 * M_PI, 1e-3), 1e-12);
    }
}
END_TEST

/* The edge of a thread mill goes at a speed that makers publish for the metal (the ends of their
 * two tables), and is fed its share of the diameter; on a spindle that does 317 m/min with this
 * mill. */
START_TEST(a_mill_keeps_the_usual_speed_and_feed)
{
    static const struct {
        const char *material;
        double least; /* m/min */
        double most;
        double share;
    } usual[] = {{"1018", 60.0, 168.0, 0.004},
                 {"304", 60.0, 122.0, 0.004},
                 {"6061", 80.0, 366.0, 0.004},
                 {"acetal", 50.0, 1.25 * 200.0, 0.012}};
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        bite_thread_answer *answer = answer_of("M6", usual[i].material, 0, "bench-24k", "tm-4.2");
        const bite_thread_milling *mill = &answer->milling;
        double speed = 60.0 * M_PI * 4.2e-3 * mill->turns;
        ck_assert(speed >= usual[i].least && speed <= usual[i].most);
        bite_assert_near(mill->edge_feed / (3.0 * mill->turns), usual[i].share * 4.2e-3, 1e-6);
        bite_thread_answer_free(answer);
    }
}
END_TEST

/* A tap turns at its own speed, which a fast spindle cannot. */
START_TEST(a_spindle_may_be_too_fast_for_the_tap)
{
    bite_thread_answer *slow = answer_of("M6", "6061", 0, "small-vmc", NULL);
    bite_thread_answer *fast = answer_of("M6", "6061", 1, "bench-24k", NULL);
    ck_assert_uint_eq(slow->too_fast, 0);
    ck_assert_uint_eq(fast->too_fast, 1);
    ck_assert_double_eq_tol(fast->slowest, 50.0, 1e-9);
    ck_assert_uint_eq(fast->left_hand, 1);
    ck_assert(fast->milling.turns > fast->slowest);
    bite_thread_answer_free(slow);
    bite_thread_answer_free(fast);
}
END_TEST

static const struct {
    const char *thread;
    const char *material;
    const char *machine;
    const char *tool;
    bite_status status;
    const char *says;
} faults[] = {
    {"M6", "6061", NULL, "4.3mm", BITE_OUT_OF_RANGE, "too large for this thread"},
    {"M6", "6061", NULL, "tm-2.8", BITE_OUT_OF_RANGE, "does not cut the pitch"},
    {"M8x1", "acetal", NULL, "tm-4.2", BITE_OUT_OF_RANGE, "too short for the usual length"},
    {"M8x1", "6061", NULL, "tmf-1.25", BITE_OUT_OF_RANGE, "does not cut the pitch"},
    {"M6", "acetal", NULL, "em-3-2", BITE_OUT_OF_RANGE, "is not a thread mill"},
    {"M6", "6061", NULL, "nothing", BITE_UNKNOWN_NAME, "nothing"},
    {"M6", "6061", NULL, "", BITE_UNKNOWN_NAME, ""},
    {"M6", "6061", "nothing", NULL, BITE_UNKNOWN_NAME, "nothing"},
    {"M66", "6061", NULL, NULL, BITE_UNKNOWN_NAME, "M66"},
    {"M6", "nothing", NULL, NULL, BITE_UNKNOWN_NAME, "nothing"},
};
#define FAULTS (sizeof faults / sizeof *faults)

START_TEST(what_does_not_suit_is_refused)
{
    const bite_thread_options options = options_of(0, faults[_i].machine, faults[_i].tool);
    bite_thread_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_thread_answer_new(library, faults[_i].thread, faults[_i].material,
                                            &options, &answer, &error),
                     faults[_i].status);
    ck_assert_ptr_null(answer);
    ck_assert_msg(strstr(error.message, faults[_i].says) != NULL, "%s", error.message);
}
END_TEST

static int refuse(void *user, const char *text, size_t size)
{
    (void)user;
    (void)text;
    (void)size;
    return 1;
}

START_TEST(bad_calls_are_refused)
{
    bite_thread_options options = options_of(0, NULL, NULL);
    bite_thread_answer *answer = NULL;
    ck_assert_int_eq(bite_thread_answer_new(NULL, "M6", "6061", NULL, &answer, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_thread_answer_new(library, NULL, "6061", NULL, &answer, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_thread_answer_new(library, "M6", NULL, NULL, &answer, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_thread_answer_new(library, "M6", "6061", NULL, NULL, NULL),
                     BITE_BAD_ARGUMENT);
    options.struct_size--;
    ck_assert_int_eq(bite_thread_answer_new(library, "M6", "6061", &options, &answer, NULL),
                     BITE_BAD_ARGUMENT);
    options = options_of(2, NULL, NULL);
    ck_assert_int_eq(bite_thread_answer_new(library, "M6", "6061", &options, &answer, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_ptr_null(answer);
    answer = answer_of("M6", "6061", 0, NULL, NULL);
    ck_assert_int_eq(bite_thread_answer_write(NULL, NULL, refuse, NULL, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_thread_answer_write(answer, NULL, NULL, NULL, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_thread_answer_write(answer, NULL, refuse, NULL, NULL), BITE_CANNOT_WRITE);
    bite_thread_answer_free(answer);
}
END_TEST

/* Rounded down to 100 rpm, below 2000 rpm to 10 rpm; what is slower than that stays as it is. */
START_TEST(turns_that_are_entered)
{
    static const double turns[][2] = {{3333.0, 3300.0}, {2400.0, 2400.0}, {2000.0, 2000.0},
                                      {1999.0, 1990.0}, {1234.0, 1230.0}, {10.0, 10.0},
                                      {9.9, 9.9}};
    for (size_t i = 0; i < sizeof turns / sizeof *turns; i++) {
        bite_assert_near(60.0 * bite_thread_mill_turns(turns[i][0] / 60.0), turns[i][1], 1e-9);
    }
}
END_TEST

/* A thread that is too small for any mill has no settings, which is no fault; a machine that does
 * not exist is one. */
START_TEST(threads_that_no_mill_cuts)
{
    const bite_material *material = NULL;
    bite_thread_milling milling;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "6061", &material, NULL), BITE_OK);
    const bite_thread_case tiny = {library, material, NULL, 0.1e-3, 0.02e-3, 0.08e-3, 0.2e-3};
    const bite_thread_mill thin = bite_thread_mill_plain(0.03e-3, 0.2e-3, 0.02e-3);
    ck_assert_int_eq(bite_thread_milling_choose(&tiny, &thin, &milling, &error), BITE_OK);
    ck_assert_uint_eq(milling.passes, 0);
    ck_assert_str_eq(error.message, "");
    const bite_thread_case nowhere = {library, material, "no-such-mill", 6e-3, 1e-3, 5e-3, 8e-3};
    const bite_thread_mill mill = bite_thread_mill_plain(4.2e-3, 8e-3, 1e-3);
    ck_assert_int_eq(bite_thread_milling_choose(&nowhere, &mill, &milling, &error),
                     BITE_UNKNOWN_NAME);
    ck_assert_uint_eq(milling.passes, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("thread answer");
    TCase *all = tcase_create("thread answer");
    tcase_add_unchecked_fixture(all, open_library, close_library);
    tcase_add_test(all, options_may_be_left_out);
    tcase_add_test(all, a_full_form_mill_cuts_all_turns_at_once);
    tcase_add_test(all, all_rows_load_a_full_form_mill);
    tcase_add_test(all, levels_cover_the_thread);
    tcase_add_test(all, a_mill_keeps_the_usual_speed_and_feed);
    tcase_add_test(all, a_spindle_may_be_too_fast_for_the_tap);
    tcase_add_loop_test(all, what_does_not_suit_is_refused, 0, (int)FAULTS);
    tcase_add_test(all, bad_calls_are_refused);
    tcase_set_timeout(all, 120);
    tcase_add_test(all, turns_that_are_entered);
    tcase_add_test(all, threads_that_no_mill_cuts);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
