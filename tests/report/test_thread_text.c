/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A thread in a material in words and as JSON: the numbers are those of the answer, and what does
 * not apply is not said. */
#include "core/search/thread_answer.h"
#include "tests/report/report_output.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <string.h>

static bite_thread_answer *answer_of(const char *thread, const char *material, uint32_t left_hand,
                                     const char *machine, const char *tool)
{
    bite_thread_options options;
    bite_thread_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_thread_options_init(&options);
    options.left_hand = left_hand;
    options.machine = machine;
    options.tool = tool;
    ck_assert_msg(bite_thread_answer_new(library, thread, material, &options, &answer, &error) ==
                      BITE_OK,
                  "%s: %s", error.key, error.message);
    return answer;
}

static report_output written(const bite_thread_answer *answer, uint32_t format, uint32_t units)
{
    report_output output = {NULL, NULL, 0};
    bite_style style = report_style(format, units);
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_thread_answer_write(answer, &style, report_output_add, &output, &error) ==
                      BITE_OK,
                  "%s", error.message);
    return output;
}

/* By hand: a drill of 2.5 mm leaves (3 - 2.5) / (1.299 x 0.5) = 77 % of an M3 thread; a
 * single-point mill of 0.7 x 3 mm at most. */
START_TEST(a_right_hand_thread)
{
    bite_thread_answer *answer = answer_of("m3", "acrylic", 0, NULL, NULL);
    report_output text = written(answer, BITE_TEXT, BITE_METRIC);
    report_output_has(&text, "M3 in acrylic/extruded: 3 mm x 0.5 mm Tap drill ");
    report_output_has(&text, "2.5 mm (drill-2.5) for 77 %");
    report_output_has(&text, "Drill point 60 deg for a through hole, 90 deg for a blind one.");
    report_output_has(&text, ": 0.5 mm each turn, in step with the spindle");
    report_output_has(&text, "the tap breaks at about ");
    report_output_has(&text, "Milling instead of tapping: a single-point mill of 2.1 mm (at most "
                             "2.1 mm), 1 pass; spindle ");
    report_output_has(&text, "right-hand thread from the bottom up, one pitch each turn, turn by "
                             "turn;");
    report_output_has(&text, "one mill cuts every size and hand of its pitch.");
    report_output_has(&text, "press-in insert: not in this material");
    report_output_has(&text, "Follow its maker's size.");
    report_output_lacks(&text, "Hand ");
    report_output_lacks(&text, "Machine ");
    report_output_lacks(&text, "Forming "); /* a brittle plastic is not formed */
    report_output_free(&text);
    bite_thread_answer_free(answer);
}
END_TEST

START_TEST(a_left_hand_thread_on_a_fast_spindle)
{
    bite_thread_answer *answer = answer_of("1/4-20", "6061", 1, "trim-router", "tm-4.4");
    report_output text = written(answer, BITE_TEXT, BITE_INCH);
    report_output_has(&text, " left-hand in aluminium/6061-t6: 0.25 in x 0.05 in ");
    report_output_has(&text, "Hand left: a left-hand tap, in with the spindle turning "
                             "counter-clockwise seen from above");
    report_output_has(&text, "Machine the slowest speed of trim-router, 10000 rpm, is too fast for "
                             "this tap: mill the thread, or tap it by hand");
    report_output_has(&text, "a single-point mill of 0.1732 in (tm-4.4), ");
    report_output_has(&text, "left-hand thread from the top down");
    report_output_has(&text, " (D - P/2); torque two to three times that of cutting");
    report_output_lacks(&text, "right-hand thread from");
    report_output_free(&text);
    bite_thread_answer_free(answer);
}
END_TEST

/* 13 rows of a full-form mill of pitch 1 mm; more passes than one are of equal section. */
START_TEST(a_full_form_mill)
{
    bite_thread_answer *answer = answer_of("m6", "6061", 0, "knee-mill", "tmf-1");
    report_output text = written(answer, BITE_TEXT, BITE_METRIC);
    report_output_has(&text, "a full-form mill of 4.2 mm (tmf-1, 13 rows of teeth), 2 passes of "
                             "equal section; spindle ");
    report_output_has(&text, "all of the thread in one turn;");
    report_output_has(&text, "one mill cuts every size of its pitch that is large enough.");
    report_output_free(&text);
    answer->milling.path.levels = 2.0; /* of a mill that is shorter than the thread */
    text = written(answer, BITE_TEXT, BITE_METRIC);
    report_output_has(&text, "in several levels;");
    report_output_free(&text);
    bite_thread_answer_free(answer);
}
END_TEST

/* The table has no drill for it, nothing is known of tapping, and no mill was found. */
START_TEST(what_is_not_known_is_not_said)
{
    bite_thread_answer *answer = answer_of("m6", "6061", 0, NULL, NULL);
    bite_thread_advice *advice = &answer->advice;
    answer->milling.passes = 0;
    advice->drill_count = 0;
    advice->usual = advice->drilling = NULL;
    advice->speed = advice->torque = advice->wall = advice->forming_hole = (double)NAN;
    report_output text = written(answer, BITE_TEXT, BITE_METRIC);
    report_output_has(&text, "5.0257 mm for 75 % of thread; the table has no such drill");
    report_output_has(&text, "Depth 9 mm of thread");
    report_output_has(&text, "Sources memory: ISO 261");
    report_output_lacks(&text, "Spindle ");
    report_output_lacks(&text, "Torque ");
    report_output_lacks(&text, "Wall ");
    report_output_lacks(&text, "Milling ");
    report_output_lacks(&text, "Caution ");
    report_output_lacks(&text, "point ");
    report_output_free(&text);
    report_output made = written(answer, BITE_JSON, BITE_METRIC);
    json_t *root = report_output_json(&made);
    ck_assert(json_is_null(report_member(root, "milling")));
    ck_assert(json_is_null(report_member(root, "speed")));
    ck_assert(json_is_null(report_member(root, "forming_hole")));
    ck_assert_uint_eq(json_array_size(report_member(root, "drills")), 0);
    ck_assert_str_eq(report_text(root, "tap"), "");
    json_decref(root);
    report_output_free(&made);
    bite_thread_answer_free(answer);
}
END_TEST

static void compare_numbers(const json_t *root, const bite_thread_answer *answer)
{
    const bite_thread_advice *advice = &answer->advice;
    const bite_thread_milling *mill = &answer->milling;
    const struct {
        const char *path;
        double number;
    } numbers[] = {
        {"thread_diameter", advice->diameter},
        {"pitch", advice->pitch},
        {"hole_diameter", advice->hole},
        {"spindle_speed", advice->turns},
        {"spindle_slowest", answer->slowest},
        {"feed_rate", advice->feed},
        {"torque", advice->torque},
        {"torque_low", advice->torque_low},
        {"torque_high", advice->torque_high},
        {"tap_strength", advice->strength},
        {"length", advice->length},
        {"blind_depth", advice->blind},
        {"drills.0.diameter", advice->drills[0].diameter},
        {"drills.1.thread_share", advice->drills[1].share},
        {"inserts.0.outer", advice->inserts[0].outer},
        {"inserts.0.hole", advice->inserts[0].hole},
        {"inserts.0.boss", advice->inserts[0].boss},
        {"milling.tool", mill->tool.diameter},
        {"milling.tool_most", mill->most},
        {"milling.rows", mill->tool.rows},
        {"milling.levels", mill->path.levels},
        {"milling.passes", mill->passes},
        {"milling.spindle_speed", mill->turns},
        {"milling.edge_feed", mill->edge_feed},
        {"milling.centre_feed", mill->centre_feed},
        {"milling.chip", mill->chip},
        {"milling.seconds", mill->seconds},
        {"milling.chance", mill->chance},
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        bite_assert_near(report_number(root, numbers[i].path), numbers[i].number, 1e-9);
    }
}

/* JSON has the numbers of the answer in SI, whatever the units of the style. */
START_TEST(json_has_the_numbers_of_the_answer)
{
    static const struct {
        uint32_t left_hand;
        const char *tool;
    } cases[] = {{0, NULL}, {1, "tm-4.2"}, {0, "tmf-1"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_thread_answer *answer =
            answer_of("m6", "acetal", cases[i].left_hand, "bench-24k", cases[i].tool);
        report_output made = written(answer, BITE_JSON, i % 2 == 0 ? BITE_INCH : BITE_METRIC);
        json_t *root = report_output_json(&made);
        compare_numbers(root, answer);
        ck_assert_str_eq(report_text(root, "hand"), cases[i].left_hand ? "left" : "right");
        ck_assert_str_eq(report_text(root, "milling.from"), cases[i].left_hand ? "top" : "bottom");
        ck_assert_str_eq(report_text(root, "milling.verdict"),
                         bite_verdict_name((bite_verdict)answer->milling.verdict));
        const json_t *name = report_member(root, "milling.tool_name");
        if (cases[i].tool == NULL) {
            ck_assert(json_is_null(name));
        } else {
            ck_assert_str_eq(json_string_value(name), cases[i].tool);
        }
        json_decref(root);
        report_output_free(&made);
        bite_thread_answer_free(answer);
    }
}
END_TEST

static int refuse(void *user, const char *piece, size_t size)
{
    (void)user;
    (void)piece;
    (void)size;
    return 1;
}

START_TEST(arguments)
{
    bite_thread_answer *answer = answer_of("m6", "6061", 0, NULL, NULL);
    bite_error error = BITE_ERROR_INIT;
    bite_style style = report_style(BITE_HTML, BITE_METRIC);
    report_output output = {NULL, NULL, 0};
    ck_assert_int_eq(bite_thread_answer_write(NULL, NULL, report_output_add, &output, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_thread_answer_write(answer, NULL, NULL, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.key, "sink");
    ck_assert_int_eq(bite_thread_answer_write(answer, &style, report_output_add, &output, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.key, "style.format");
    ck_assert_uint_eq(output.size, 0);
    static const uint32_t formats[] = {BITE_TEXT, BITE_JSON};
    for (size_t i = 0; i < 2; i++) {
        style.format = formats[i];
        ck_assert_int_eq(bite_thread_answer_write(answer, &style, refuse, NULL, &error),
                         BITE_CANNOT_WRITE);
    }
    ck_assert_int_eq(bite_thread_answer_write(answer, NULL, report_output_add, &output, &error),
                     BITE_OK);
    report_output_has(&output, "M6 in aluminium/6061-t6: 6 mm x 1 mm");
    report_output_free(&output);
    bite_thread_answer_free(answer);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("thread_text");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, a_right_hand_thread);
    tcase_add_test(tests, a_left_hand_thread_on_a_fast_spindle);
    tcase_add_test(tests, a_full_form_mill);
    tcase_add_test(tests, what_is_not_known_is_not_said);
    tcase_add_test(tests, json_has_the_numbers_of_the_answer);
    tcase_add_test(tests, arguments);
    Suite *suite = suite_create("thread_text");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
