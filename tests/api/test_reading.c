/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an answer and a choice say in numbers and names: the same as in their JSON. */
#include "tests/api/example_request.h"
#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Text that was written. */
typedef struct written_text {
    size_t size;
    char text[400000];
} written_text;

static int keep(void *user, const char *text, size_t size)
{
    written_text *written = user;
    ck_assert_uint_lt(written->size + size, sizeof written->text);
    memcpy(written->text + written->size, text, size);
    written->size += size;
    written->text[written->size] = 0;
    return 0;
}

static json_t *object_of(const bite_answer *answer)
{
    static written_text written;
    bite_style style;
    written.size = 0;
    bite_style_init(&style);
    style.format = BITE_JSON;
    ck_assert_int_eq(bite_answer_write(answer, &style, keep, &written, NULL), BITE_OK);
    json_t *object = json_loads(written.text, 0, NULL);
    ck_assert_ptr_nonnull(object);
    return object;
}

static double number_of(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    return json_is_number(value) ? json_number_value(value) : (double)NAN;
}

static const char *text_of(const json_t *object, const char *key)
{
    return json_string_value(json_object_get(object, key));
}

static void same(double number, double shown)
{
    ck_assert(isnan(number) == isnan(shown));
    if (!isnan(number)) {
        bite_assert_near(number, shown, 1e-11); /* 12 digits are written */
    }
}

START_TEST(inputs_are_those_of_the_json)
{
    bite_answer *answer = bite_example_answer(64);
    json_t *object = object_of(answer);
    const json_t *list = json_object_get(object, "inputs");
    size_t words = 0;
    size_t scattered = 0;
    ck_assert_uint_eq(bite_answer_input_count(answer), json_array_size(list));
    ck_assert_uint_gt(json_array_size(list), 60);
    for (size_t i = 0; i < json_array_size(list); i++) {
        const json_t *one = json_array_get(list, i);
        bite_used_input used;
        bite_used_input found;
        bite_used_input_init(&used);
        bite_used_input_init(&found);
        ck_assert_int_eq(bite_answer_input(answer, i, &used, NULL), BITE_OK);
        ck_assert_str_eq(used.name, text_of(one, "name"));
        ck_assert_str_eq(used.unit, text_of(one, "unit"));
        ck_assert_str_eq(used.grade, text_of(one, "grade"));
        ck_assert_str_eq(used.source, text_of(one, "source"));
        ck_assert((used.origin == BITE_ORIGIN_USER) == json_is_true(json_object_get(one, "given")));
        ck_assert_ptr_nonnull(used.file);
        same(used.value, number_of(one, "value"));
        same(used.low, number_of(one, "low"));
        same(used.high, number_of(one, "high"));
        const bite_input *input = bite_input_at(used.input);
        ck_assert_str_eq(input->name, used.name);
        if (input->words > 0) {
            ck_assert_str_eq(used.text, text_of(one, "text"));
            ck_assert_str_eq(used.text, bite_input_word(input, used.word));
            words++;
        } else {
            ck_assert_str_eq(used.text, "");
            ck_assert(isnan(used.value) || (used.low <= used.value && used.value <= used.high));
            scattered += used.low < used.high;
        }
        ck_assert_int_eq(bite_answer_input_find(answer, used.name, &found, NULL), BITE_OK);
        ck_assert_uint_eq(found.input, used.input);
        ck_assert_str_eq(found.source, used.source);
    }
    ck_assert(words > 5 && scattered > 5);
    json_decref(object);
    bite_answer_free(answer);
}
END_TEST

START_TEST(one_input_is_read_with_its_source)
{
    bite_answer *answer = bite_example_answer(64);
    bite_used_input used;
    bite_used_input_init(&used);
    ck_assert_int_eq(bite_answer_input_find(answer, "depth", &used, NULL), BITE_OK);
    ck_assert_uint_eq(used.origin, BITE_ORIGIN_USER);
    bite_assert_near(used.value, 0.2e-3, 1e-12);
    ck_assert_double_eq(used.low, used.value);
    ck_assert_str_eq(used.grade, "");
    ck_assert_int_eq(bite_answer_input_find(answer, "transition", &used, NULL), BITE_OK);
    ck_assert_uint_eq(used.origin, BITE_ORIGIN_TABLE);
    ck_assert(used.value > 350.0 && used.value < 420.0 && used.grade[0] != 0);
    ck_assert_ptr_nonnull(strstr(used.file, ".ini"));
    ck_assert_int_eq(bite_answer_input_find(answer, "stickout", &used, NULL), BITE_OK);
    ck_assert(used.value > 0.0 && used.source[0] != 0);
    bite_answer_free(answer);
}
END_TEST

START_TEST(hostile_reading_is_refused)
{
    bite_answer *answer = bite_example_answer(BITE_DRAWS_NONE);
    bite_used_input used;
    bite_error error = BITE_ERROR_INIT;
    bite_used_input_init(&used);
    used.word = 77;
    ck_assert_uint_eq(bite_answer_input_count(NULL), 0);
    ck_assert_int_eq(bite_answer_input(NULL, 0, &used, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_answer_input(answer, 0, NULL, NULL), BITE_BAD_ARGUMENT);
    const size_t beyond[] = {bite_answer_input_count(answer), SIZE_MAX / 2, SIZE_MAX};
    for (size_t i = 0; i < sizeof beyond / sizeof *beyond; i++) {
        bite_assert_refused(bite_answer_input(answer, beyond[i], &used, &error), BITE_BAD_ARGUMENT,
                            &error, "");
    }
    bite_assert_refused(bite_answer_input_find(answer, "stikout", &used, &error), BITE_UNKNOWN_NAME,
                        &error, "stikout");
    ck_assert_str_eq(error.hint, "did you mean stickout?");
    bite_assert_refused(bite_answer_input_find(answer, "", &used, &error), BITE_UNKNOWN_NAME,
                        &error, "");
    bite_assert_refused(bite_answer_input_find(answer, "mode3_frequency", &used, &error),
                        BITE_MISSING, &error, "mode3_frequency");
    ck_assert_int_eq(bite_answer_input_find(answer, NULL, &used, NULL), BITE_BAD_ARGUMENT);
    for (size_t k = 0; k < BITE_HOSTILE_WORDS; k++) {
        used.struct_size = bite_hostile_words[k];
        bite_assert_refused(bite_answer_input(answer, 0, &used, &error), BITE_BAD_ARGUMENT, &error,
                            "used");
    }
    ck_assert_uint_eq(used.word, 77);
    ck_assert_ptr_null(bite_answer_record(NULL, BITE_TOOLS));
    ck_assert_ptr_null(bite_answer_record(answer, BITE_SYMPTOMS));
    ck_assert_ptr_null(bite_answer_record(answer, (bite_collection)9999));
    ck_assert_ptr_null(bite_answer_missing_figure(NULL, 0));
    ck_assert_ptr_null(bite_answer_missing_figure(answer, SIZE_MAX));
    bite_answer_free(answer);
}
END_TEST

START_TEST(records_and_counts_are_read)
{
    bite_answer *answer = bite_example_answer(BITE_DRAWS_NONE);
    const bite_result *result = bite_answer_result(answer);
    ck_assert_str_eq(bite_answer_record(answer, BITE_GRADES), "acrylic/cast");
    ck_assert_str_eq(bite_answer_record(answer, BITE_FAMILIES), "acrylic");
    ck_assert_str_eq(bite_answer_record(answer, BITE_TOOLS), "0.8mm");
    ck_assert_ptr_nonnull(bite_answer_record(answer, BITE_MACHINES));
    ck_assert_ptr_null(bite_answer_record(answer, BITE_THREADS));
    ck_assert_uint_gt(result->judged, 5);
    uint32_t places = 0; /* for limits of a plugin: acrylic has none */
    for (uint32_t i = 0; i < result->limit_count; i++) {
        places += result->limits[i].why == BITE_WHY_NO_LIMIT;
    }
    ck_assert_uint_eq(places, BITE_LIMIT_OWN_4 - BITE_LIMIT_OWN_1 + 1);
    ck_assert_uint_eq(result->judged + result->not_applicable + result->not_judged + places,
                      result->limit_count);
    size_t missing = 0;
    while (bite_answer_missing_figure(answer, missing) != NULL) {
        missing++;
    }
    ck_assert((missing > 0) == (result->not_judged > 0));
    bite_answer_free(answer);
}
END_TEST

/* The passes follow each other from the top to the depth of the feature. */
static void check_passes(const bite_choice *choice, size_t count,
                         int (*pass)(const bite_choice *choice, size_t index, double *from,
                                     double *to),
                         double whole)
{
    double end = 0.0;
    double step = 0.0;
    for (size_t i = 0; i < count; i++) {
        double from = -1.0;
        double to = -1.0;
        ck_assert_int_eq(pass(choice, i, &from, &to), 1);
        bite_assert_near(from, end, 1e-12);
        ck_assert(to > from);
        step = i == 0 ? to - from : step;
        ck_assert(to - from <= step * (1.0 + 1e-9));
        end = to;
    }
    bite_assert_near(end, whole, 1e-12);
    double from = -1.0;
    ck_assert_int_eq(pass(choice, count, &from, &end), 0);
    ck_assert_int_eq(pass(choice, SIZE_MAX, &from, &end), 0);
    ck_assert_double_eq(from, -1.0);
    ck_assert_int_eq(pass(choice, 0, NULL, &end) | pass(choice, 0, &from, NULL), 0);
    ck_assert_int_eq(pass(NULL, 0, &from, &end), 0);
}

START_TEST(choices_name_their_tool_and_passes)
{
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    bite_choice_options options = bite_example_choice();
    ck_assert_int_eq(bite_request_new(bite_example_library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_depth", "2.3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feature_width", "4.1mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    ck_assert(strcmp(bite_choice_tool(choice), "0.8mm") == 0 ||
              strcmp(bite_choice_tool(choice), "1mm") == 0);
    ck_assert_str_eq(bite_choice_tool(choice),
                     bite_answer_record(bite_choice_answer(choice), BITE_TOOLS));
    ck_assert_uint_gt(bite_choice_passes(choice), 1);
    check_passes(choice, bite_choice_passes(choice), bite_choice_pass, 2.3e-3);
    ck_assert_uint_gt(bite_choice_side_passes(choice), 1);
    check_passes(choice, bite_choice_side_passes(choice), bite_choice_side_pass, 4.1e-3);
    ck_assert_str_eq(bite_choice_tool(NULL), "");
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("reading");
    TCase *all = tcase_create("reading");
    tcase_set_timeout(all, 240);
    tcase_add_unchecked_fixture(all, bite_example_open, bite_example_close);
    tcase_add_test(all, inputs_are_those_of_the_json);
    tcase_add_test(all, one_input_is_read_with_its_source);
    tcase_add_test(all, hostile_reading_is_refused);
    tcase_add_test(all, records_and_counts_are_read);
    tcase_add_test(all, choices_name_their_tool_and_passes);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
