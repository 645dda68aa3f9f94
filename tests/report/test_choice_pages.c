/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice, a comparison and a diagnosis in words: each thing that they can say, with its numbers.
 */
#include "core/library/collection.h"
#include "core/names/inputs.h"
#include "core/request/answer.h"
#include "core/search/choice.h"
#include "core/search/remedy.h"
#include "tests/report/report_output.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <string.h>

#define MM 1e-3
#define NONE ((double)NAN)

static report_output output;

static bite_answer *answer_of(const char *grade, const char *const typed[][2], size_t count,
                              size_t draws)
{
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, grade, NULL), BITE_OK);
    for (size_t i = 0; i < count; i++) {
        ck_assert_msg(bite_request_set(request, typed[i][0], typed[i][1], &error) == BITE_OK, "%s",
                      error.message);
    }
    ck_assert_msg(bite_answer_new(request, draws, 0.9, &answer, &error) == BITE_OK, "%s: %s",
                  error.key, error.message);
    bite_request_free(request);
    return answer;
}

static bite_answer *plain_answer(const char *grade, size_t draws)
{
    static const char *const typed[][2] = {{"diameter", "3mm"},
                                           {"spindle_speed", "15000rpm"},
                                           {"feed_rate", "600mm/min"},
                                           {"depth", "0.5mm"}};
    return answer_of(grade, typed, 4, draws);
}

static void has(const char *words)
{
    report_output_has(&output, words);
}

static void lacks(const char *words)
{
    report_output_lacks(&output, words);
}

/* ---- a choice ---- */

static bite_choice choice_of(bite_answer *answer)
{
    bite_choice choice = {.allocator = *bite_memory_default(),
                          .answer = answer,
                          .goal = BITE_GOAL_COOL,
                          .gain = BITE_GOAL_COOL,
                          .clear = 1};
    choice.best.clear_of_limits = 1;
    choice.best.passes = choice.best.side_passes = 1;
    choice.best.depth = 0.5 * MM;
    choice.best.width = NONE;
    return choice;
}

static void write_choice(const bite_choice *choice, uint32_t format)
{
    bite_style style = report_style(format, BITE_METRIC);
    report_output_free(&output);
    ck_assert_int_eq(bite_choice_write(choice, &style, report_output_add, &output, NULL), BITE_OK);
}

START_TEST(passes_of_a_choice)
{
    bite_answer *answer = plain_answer("acrylic/cast", BITE_DRAWS_NONE);
    bite_choice choice = choice_of(answer);
    write_choice(&choice, BITE_TEXT);
    has("Chosen to be cool: no limit restricts it ");
    lacks("Next best tool");
    lacks("Smallest change");
    choice.best.passes = 3;
    write_choice(&choice, BITE_TEXT);
    has("Chosen to be cool: 3 passes of 0.5 mm; no limit restricts it ");
    choice.best.width = 1.5 * MM;
    choice.best.side_passes = 2;
    write_choice(&choice, BITE_TEXT);
    has("3 depth passes of 0.5 mm, 2 width passes of 1.5 mm; no limit");
    choice.best.passes = choice.best.side_passes = 1;
    write_choice(&choice, BITE_TEXT);
    has("1 depth pass of 0.5 mm, 1 width pass of 1.5 mm; no limit");
    answer->full.operation = BITE_DRILL_HOLE;
    choice.best.width = NONE;
    choice.best.passes = 4;
    write_choice(&choice, BITE_TEXT);
    has("4 pecks of 0.5 mm; ");
    bite_answer_free(answer);
}
END_TEST

START_TEST(limits_and_gains_of_a_choice)
{
    bite_answer *answer = plain_answer("acrylic/cast", BITE_DRAWS_NONE);
    bite_choice choice = choice_of(answer);
    choice.active_count = 3;
    choice.active[0] = (bite_active_limit){BITE_LIMIT_SOFTENING, 0, 0.4};
    choice.active[1] = (bite_active_limit){BITE_LIMIT_LARGEST_TOOTH, 0, 0.01};
    choice.active[2] = (bite_active_limit){BITE_LIMIT_LARGEST_TOOTH + 1, 0, NONE};
    choice.gain = BITE_GOAL_FAST;
    write_choice(&choice, BITE_TEXT);
    has("Chosen to be cool, then fast: limited by softening (1 % more capacity: 0.4 % faster), "
        "chip_load, goal ");
    choice.best.clear_of_limits = 0;
    choice.clear = 0;
    answer->result.verdict = BITE_OVER;
    write_choice(&choice, BITE_TEXT);
    has("no setting is clear; limits in conflict: softening");
    has("Smallest change that makes it clear: none of a single input was found");
    write_choice(&choice, BITE_JSON);
    json_t *root = report_output_json(&output);
    ck_assert_uint_eq(json_array_size(report_member(root, "binding")), 0);
    ck_assert_str_eq(report_text(root, "conflict.0.name"), "softening");
    ck_assert_str_eq(report_text(root, "conflict.2.name"), "goal");
    ck_assert(json_is_null(report_member(root, "conflict.2.relax")));
    ck_assert(json_is_null(report_member(root, "next_best")));
    json_decref(root);
    answer->result.verdict = BITE_UNKNOWN; /* no change helps where a figure is missing */
    write_choice(&choice, BITE_TEXT);
    lacks("Smallest change");
    bite_answer_free(answer);
}
END_TEST

static void change_is(bite_freeing_change *freeing, const char *what, double from, double to,
                      const char *enter, double size)
{
    memset(freeing, 0, sizeof *freeing);
    freeing->change.what = what;
    freeing->change.kind = BITE_KIND_LENGTH;
    freeing->change.from = from;
    freeing->change.to = to;
    freeing->change.size = size;
    freeing->chance = 0.08;
    memcpy(freeing->change.to_word, enter, strlen(enter) + 1);
}

START_TEST(what_would_free_a_choice)
{
    bite_answer *answer = plain_answer("acrylic/cast", BITE_DRAWS_NONE);
    bite_choice choice = choice_of(answer);
    bite_freeing_change *first = &choice.freeing[0];
    bite_freeing_change *second = &choice.freeing[1];
    choice.clear = 0;
    answer->result.verdict = BITE_TIGHT;
    change_is(first, "stickout", 60.0 * MM, 38.0 * MM, "38 mm", 0.4);
    write_choice(&choice, BITE_TEXT);
    has("Smallest change that makes it clear: stickout from 60 mm to 38 mm (-37 %), chance 8 % ");
    first->change.by_default = 1;
    first->chance = NONE;
    change_is(second, "coolant", NONE, NONE, "air", 1.0);
    second->change.kind = BITE_KIND_COUNT;
    memcpy(second->change.from_word, "none", 5);
    write_choice(&choice, BITE_TEXT);
    has("stickout from 60 mm* to 38 mm (-37 %); or coolant from none to air, chance 8 % ");
    change_is(first, "spring_passes", 0.0, 1.0, "1", 1.0);
    first->change.kind = BITE_KIND_NUMBER;
    change_is(second, "runout", 20e-6, 20e-6, "0.02 mm", 0.0); /* it need only be known */
    write_choice(&choice, BITE_TEXT);
    has("spring passes from 0 to 1, chance 8 %; or runout of 0.02 mm known, not by default, chance "
        "8 % ");
    write_choice(&choice, BITE_JSON);
    json_t *root = report_output_json(&output);
    ck_assert_str_eq(report_text(root, "freed_by.0.input"), "spring_passes");
    ck_assert_double_eq(report_number(root, "freed_by.0.to"), 1.0);
    ck_assert_str_eq(report_text(root, "freed_by.1.enter"), "0.02 mm");
    json_decref(root);
    bite_answer_free(answer);
}
END_TEST

START_TEST(the_next_best_tool)
{
    bite_answer *answer = plain_answer("acrylic/cast", BITE_DRAWS_NONE);
    bite_choice choice = choice_of(answer);
    choice.second = choice.best;
    memcpy(choice.second.tool, "2mm", 4);
    choice.second.spindle = 200.0;
    choice.second.feed = 0.01;
    write_choice(&choice, BITE_TEXT);
    has("Next best tool: 2mm at about 12000 rpm, 600 mm/min ");
    lacks("exceeds its limits");
    choice.second.passes = 2;
    choice.second.clear_of_limits = 0;
    write_choice(&choice, BITE_TEXT);
    has("2mm at about 12000 rpm, 600 mm/min, 2 passes of 0.5 mm (exceeds its limits)");
    write_choice(&choice, BITE_JSON);
    json_t *root = report_output_json(&output);
    bite_assert_near(report_number(root, "next_best.spindle"), 12000.0, 1e-9);
    ck_assert(json_is_false(report_member(root, "next_best.clear")));
    json_decref(root);
    bite_answer_free(answer);
}
END_TEST

/* ---- a comparison ---- */

static void compare(const bite_answer *first, const bite_answer *second)
{
    bite_style style = report_style(BITE_TEXT, BITE_METRIC);
    report_output_free(&output);
    ck_assert_int_eq(bite_answer_compare(first, second, &style, report_output_add, &output, NULL),
                     BITE_OK);
}

START_TEST(answers_side_by_side)
{
    bite_answer *plastic = plain_answer("acrylic/cast", BITE_DRAWS_NONE);
    bite_answer *drawn = plain_answer("acrylic/cast", 64);
    bite_answer *metal = plain_answer("6061", BITE_DRAWS_NONE);
    compare(plastic, plastic);
    has("material acrylic/cast acrylic/cast the inputs are the same verdict ");
    has("chance of exceeding - - ");
    compare(plastic, metal);
    has("material acrylic/cast aluminium/6061-t6 ");
    has(" softening ");
    has("* "); /* inputs that follow from the material */
    compare(plastic, drawn);
    has("chance of exceeding - ");
    lacks("chance of exceeding - - ");
    /* of a limit that one of them lacks, there is no higher or lower */
    const bite_limit *softening = &metal->result.limits[BITE_LIMIT_SOFTENING];
    ck_assert(!softening->applies);
    compare(metal, plastic);
    has(" softening - ");
    plastic->result.chance = 0.2;
    drawn->result.limits[0] = plastic->result.limits[0];
    drawn->result.limits[0].utilization += 0.3;
    plastic->result.limits[0].applies = drawn->result.limits[0].applies = 1;
    compare(plastic, drawn);
    has("chance of exceeding 20 % ");
    has(" higher");
    compare(drawn, plastic);
    has(" lower");
    ck_assert_int_eq(bite_answer_compare(NULL, metal, NULL, report_output_add, &output, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_answer_compare(metal, NULL, NULL, report_output_add, &output, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_answer_compare(metal, metal, NULL, NULL, NULL, NULL), BITE_BAD_ARGUMENT);
    bite_answer_free(plastic);
    bite_answer_free(drawn);
    bite_answer_free(metal);
}
END_TEST

/* ---- operations on one line ---- */

START_TEST(what_is_entered_for_each_operation)
{
    static const struct {
        const char *typed[6][2];
        const char *says;
    } cases[] = {
        {{{"operation", "tap"},
          {"diameter", "3mm"},
          {"pitch", "0.5mm"},
          {"hole_diameter", "2.5mm"},
          {"spindle_speed", "600rpm"},
          {"depth", "6mm"}},
         "pitch 0.5 mm, in a hole of 2.5 mm"},
        {{{"operation", "ream"},
          {"diameter", "3mm"},
          {"hole_diameter", "2.9mm"},
          {"spindle_speed", "600rpm"},
          {"feed_rate", "60mm/min"},
          {"depth", "6mm"}},
         "in a hole of 2.9 mm"},
        {{{"operation", "drill"},
          {"diameter", "3mm"},
          {"flutes", "2"},
          {"spindle_speed", "3000rpm"},
          {"feed_rate", "90mm/min"},
          {"depth", "3mm"}},
         "each peck"},
        {{{"diameter", "3mm"},
          {"width", "0.4mm"},
          {"entry", "plunge"},
          {"spindle_speed", "9000rpm"},
          {"feed_rate", "300mm/min"},
          {"depth", "0.5mm"}},
         "width 0.4 mm; plunge in at "},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_style style = report_style(BITE_TEXT, BITE_METRIC);
        bite_answer *answer = answer_of("6061", cases[i].typed, 6, BITE_DRAWS_NONE);
        report_output_free(&output);
        ck_assert_int_eq(bite_answer_write(answer, &style, report_output_add, &output, NULL),
                         BITE_OK);
        has("Enter ");
        has(cases[i].says);
        bite_answer_free(answer);
    }
}
END_TEST

/* ---- a diagnosis ---- */

static void write_diagnosis(const bite_diagnosis *diagnosis, uint32_t format)
{
    bite_style style = report_style(format, BITE_METRIC);
    report_output_free(&output);
    ck_assert_int_eq(bite_diagnosis_write(diagnosis, &style, report_output_add, &output, NULL),
                     BITE_OK);
}

START_TEST(a_diagnosis_in_all_its_words)
{
    static bite_diagnosis diagnosis;
    bite_answer *answer = plain_answer("acrylic/cast", BITE_DRAWS_NONE);
    bite_remedy *remedy = &diagnosis.remedies[0];
    diagnosis.allocator = *bite_memory_default();
    diagnosis.answer = answer;
    diagnosis.beyond = "";
    diagnosis.trouble = NONE;
    ck_assert_int_eq(
        bite_library_record(library, BITE_SYMPTOMS, "melted-edge", &diagnosis.symptom, NULL),
        BITE_OK);
    write_diagnosis(&diagnosis, BITE_TEXT);
    has("These settings alone do not explain it: start with the checks at the end.");
    has("No single change to these settings helps.");
    lacks("Suspected limits");
    lacks("Check also");
    lacks("Chance at these settings");
    diagnosis.suspect_count = 3;
    diagnosis.suspects[0] = (bite_suspect){.name = "softening", .is_limit = 1, .share = 1.2};
    diagnosis.suspects[1] =
        (bite_suspect){.name = "finish", .is_limit = 1, .why = BITE_WHY_NOT_GIVEN, .share = NONE};
    diagnosis.suspects[2] = (bite_suspect){.name = "chip_load", .lacking = 1, .share = 1.0};
    diagnosis.trouble = 0.4;
    diagnosis.beyond = "the film on the sheet";
    diagnosis.remedy_count = 1;
    remedy->change.input = (uint32_t)bite_input_index(bite_input_find("spindle_speed"));
    remedy->change.from = 250.0;
    remedy->change.to = 125.0;
    remedy->change.before = remedy->change.after = 0.3;
    remedy->trouble = 0.1;
    remedy->time = 2.0;
    remedy->after[0] = 0.6;
    remedy->after[1] = NONE;
    remedy->after[2] = 1.0;
    write_diagnosis(&diagnosis, BITE_TEXT);
    has("Suspected limits, with utilization: softening 120 %, finish not requested ");
    has("Chance at these settings that one of them is exceeded: 40 %.");
    has("1. spindle speed from 15000 rpm to 7500 rpm: the chance of this trouble falls from 40 to "
        "10 %, that of exceeding any limit stays at 30 %; softening goes from 120 to 60 %; takes 2 "
        "times as long ");
    has("Check also: the film on the sheet");
    remedy->trouble = NONE;
    remedy->time = NONE;
    remedy->after[0] = NONE;
    write_diagnosis(&diagnosis, BITE_TEXT);
    has("1. spindle speed from 15000 rpm to 7500 rpm: softening no longer applies; takes no "
        "longer");
    remedy->time = 0.5;
    remedy->after[0] = 1.2;
    remedy->after[2] = 1.5;
    write_diagnosis(&diagnosis, BITE_TEXT);
    has(": chip load grows to 150 % of its present value; is 2 times as fast");
    diagnosis.suspects[2].lacking = 0;
    remedy->after[2] = 0.5;
    write_diagnosis(&diagnosis, BITE_TEXT);
    has(": chip load falls to 50 % of its present value; is 2 times as fast");
    write_diagnosis(&diagnosis, BITE_JSON);
    json_t *root = report_output_json(&output);
    json_decref(root);
    remedy->after[2] = 1.0;
    write_diagnosis(&diagnosis, BITE_TEXT);
    has("7500 rpm: is 2 times as fast");
    remedy->after[2] = NONE;
    write_diagnosis(&diagnosis, BITE_TEXT);
    has("7500 rpm: chip load no longer applies; is 2 times as fast");
    bite_style inches = report_style(BITE_TEXT, BITE_INCH);
    diagnosis.beyond = "the film on the sheet, 0.1 mm thick";
    report_output_free(&output);
    ck_assert_int_eq(bite_diagnosis_write(&diagnosis, &inches, report_output_add, &output, NULL),
                     BITE_OK);
    has("Check also: the film on the sheet, 0.0039 in thick");
    bite_answer_free(answer);
}
END_TEST

static void end(void)
{
    report_output_free(&output);
    close_library();
}

int main(void)
{
    TCase *tests = tcase_create("choice_pages");
    tcase_add_unchecked_fixture(tests, open_library, end);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, passes_of_a_choice);
    tcase_add_test(tests, limits_and_gains_of_a_choice);
    tcase_add_test(tests, what_would_free_a_choice);
    tcase_add_test(tests, the_next_best_tool);
    tcase_add_test(tests, answers_side_by_side);
    tcase_add_test(tests, what_is_entered_for_each_operation);
    tcase_add_test(tests, a_diagnosis_in_all_its_words);
    Suite *suite = suite_create("choice_pages");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
