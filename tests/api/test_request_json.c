/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A request from JSON is the request by the same texts; what is wrong is named with its place, and
 * leaves the request as it was. */
#include "tests/api/example_request.h"
#include <stdlib.h>
#include <string.h>

static bite_request *fresh(void)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(bite_example_library, &request, NULL), BITE_OK);
    return request;
}

static void read_json(bite_request *request, const char *text)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_request_json(request, text, strlen(text), &error) == BITE_OK, "%s: %s",
                  error.key, error.message);
}

static void same_cuts(const bite_request *one, const bite_request *other)
{
    bite_cut first;
    bite_cut second;
    ck_assert_int_eq(bite_request_cut(one, &first, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_cut(other, &second, NULL), BITE_OK);
    ck_assert_int_eq(memcmp(&first, &second, sizeof first), 0);
}

/* The example request has texts for all. */
START_TEST(texts_are_taken_as_calls_take_them)
{
    bite_request *request = fresh();
    read_json(request, "{\"material\": \"acrylic/cast\", \"tool\": \"0.8mm\", \"flutes\": 2,\n"
                       " \"spindle_speed\": \"12000rpm\", \"feed_rate\": \"200mm/min\",\n"
                       " \"depth\": \"0.2mm\", \"id\": 17, \"note\": [1, {}], \"width\": null}");
    same_cuts(request, bite_example_request);
    bite_request_free(request);
}
END_TEST

START_TEST(numbers_have_the_unit_of_their_key)
{
    bite_request *request = fresh();
    bite_request *typed = fresh();
    read_json(request, "{\"material\": \"6061\", \"machine\": \"bench-24k\", \"tool\": \"6mm\", "
                       "\"spindle_speed [rpm]\": 18000, \"feed_rate [mm/tooth]\": 0.02, "
                       "\"depth [m]\": 1e-3, \"side\": \"conventional\", \"blind\": true, "
                       "\"coolant\": \"mist\"}");
    ck_assert_int_eq(bite_request_use(typed, BITE_GRADES, "6061", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(typed, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(typed, BITE_TOOLS, "6mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(typed, "spindle_speed", "18000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(typed, "feed_rate", "0.02mm/tooth", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(typed, "depth", "1mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(typed, "side", "conventional", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(typed, "blind", "yes", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(typed, "coolant", "mist", NULL), BITE_OK);
    same_cuts(request, typed);
    bite_request_free(typed);
    bite_request_free(request);
}
END_TEST

/* A later object adds to an earlier one. */
START_TEST(objects_add_up)
{
    bite_request *request = fresh();
    read_json(request, "{\"material\": \"acrylic/cast\", \"tool\": \"0.8mm\", \"flutes\": 2}");
    read_json(request, "{}");
    read_json(request, "{\"spindle_speed\": \"9000rpm\", \"feed_rate\": \"200mm/min\"}");
    read_json(request, "{\"spindle_speed\": \"12000rpm\", \"depth\": \"0.2mm\"}");
    same_cuts(request, bite_example_request);
    bite_request_free(request);
}
END_TEST

static const struct {
    const char *text;
    bite_status status;
    const char *key;
    uint32_t line;
    uint32_t column; /* 0: not compared */
} faults[] = {
    {"", BITE_BAD_FILE, "", 1, 0},
    {"\n\n  {\"depth\": }", BITE_BAD_FILE, "", 3, 0},
    {"[1, 2]", BITE_BAD_FILE, "", 1, 1},
    {"17", BITE_BAD_FILE, "", 1, 0},
    {"null", BITE_BAD_FILE, "", 1, 0},
    {"{\"depth\": \"1mm\"} x", BITE_BAD_FILE, "", 1, 0},
    {"{\"depth\": \"1mm\",\n \"depth\": \"2mm\"}", BITE_BAD_FILE, "", 2, 0},
    {"{\"depth\": NaN}", BITE_BAD_FILE, "", 1, 0},
    {"{\"depth\": 1e999}", BITE_BAD_FILE, "", 1, 0},
    {"{\"depth\": \"\\u0000\"}", BITE_BAD_FILE, "", 1, 0},
    {"{\"depth\": \"\xff\"}", BITE_BAD_FILE, "", 1, 0},
    {"{\"flutes\": 2,\n  \"depht\": \"1mm\"}", BITE_BAD_FILE, "depht", 2, 3},
    {"{\"\": \"1mm\"}", BITE_BAD_FILE, "", 1, 2},
    {"{\"depth\": 1}", BITE_BAD_QUANTITY, "depth", 1, 2},
    {"{\"depth [rpm]\": 1}", BITE_BAD_FILE, "depth [rpm]", 1, 2},
    {"{\"depth\": \"1 apple\"}", BITE_BAD_QUANTITY, "depth", 1, 2},
    {"{\"depth\": \"-1mm\"}", BITE_OUT_OF_RANGE, "depth", 1, 2},
    {"{\"depth [mm]\": 1e12}", BITE_OUT_OF_RANGE, "depth [mm]", 1, 2},
    {"{\"depth\": {\"mm\": 1}}", BITE_BAD_FILE, "depth", 1, 2},
    {"{\"depth\": [\"1mm\"]}", BITE_BAD_FILE, "depth", 1, 2},
    {"{\"depth\": true}", BITE_BAD_FILE, "depth", 1, 2},
    {"{\"depth\": \"\"}", BITE_BAD_QUANTITY, "depth", 1, 2},
    {"{\"side\": \"up\"}", BITE_UNKNOWN_NAME, "side", 1, 2},
    {"{\"side\": 1}", BITE_BAD_QUANTITY, "side", 1, 2},
    {"{\"note\": \"\\\"tool\\\"\",\n\"tool\": \"no-such\"}", BITE_UNKNOWN_NAME, "tool", 2, 1},
    {"{\"material\": 6061}", BITE_BAD_FILE, "material", 1, 2},
    {"{\"material\": \"unobtainium\"}", BITE_UNKNOWN_NAME, "material", 1, 2},
    {"{\"depth\": \"1mm\",\n \"depth [mm]\": 2}", BITE_BAD_FILE, "depth [mm]", 2, 2},
    {"{\"tool\": \"6mm\", \"diameter\": \"5mm\"}", BITE_BAD_FILE, "diameter", 1, 17},
    {"{\"diameter\": \"5mm\", \"tool\": \"6mm\"}", BITE_BAD_FILE, "tool", 1, 21},
    {"{\"tool\": \"6mm\", \"Tool\": \"5mm\"}", BITE_BAD_FILE, "Tool", 1, 17},
    {"{\"machine\": \"\"}", BITE_UNKNOWN_NAME, "machine", 1, 2},
};
enum { FAULTS = sizeof faults / sizeof *faults };

START_TEST(faults_are_named_and_placed)
{
    bite_request *request = fresh();
    bite_error error = BITE_ERROR_INIT;
    read_json(request, "{\"material\": \"acrylic/cast\", \"tool\": \"0.8mm\", \"flutes\": 2, "
                       "\"spindle_speed\": \"12000rpm\", \"feed_rate\": \"200mm/min\", "
                       "\"depth\": \"0.2mm\"}");
    const char *text = faults[_i].text;
    bite_assert_refused(bite_request_json(request, text, strlen(text), &error), faults[_i].status,
                        &error, faults[_i].key);
    ck_assert_uint_eq(error.line, faults[_i].line);
    ck_assert(faults[_i].column == 0 || error.column == faults[_i].column);
    same_cuts(request, bite_example_request);
    bite_request_free(request);
}
END_TEST

/* What came before the fault is not kept. */
START_TEST(a_fault_leaves_the_request)
{
    const char *text = "{\"depth\": \"0.1mm\", \"tool\": \"2mm\", \"coolant\": \"flood\", "
                       "\"zzz\": 1}";
    bite_request *request = fresh();
    read_json(request, "{\"material\": \"acrylic/cast\", \"tool\": \"0.8mm\", \"flutes\": 2, "
                       "\"spindle_speed\": \"12000rpm\", \"feed_rate\": \"200mm/min\", "
                       "\"depth\": \"0.2mm\"}");
    ck_assert_int_eq(bite_request_json(request, text, strlen(text), NULL), BITE_BAD_FILE);
    same_cuts(request, bite_example_request);
    bite_request_free(request);
}
END_TEST

START_TEST(hostile_texts_are_refused)
{
    bite_request *request = fresh();
    bite_error error = BITE_ERROR_INIT;
    const size_t size = ((size_t)1 << 20) + 1;
    char *large = malloc(size);
    ck_assert_ptr_nonnull(large);
    ck_assert_int_eq(bite_request_json(NULL, "{}", 2, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_json(request, NULL, 2, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_json(request, "{}", 0, NULL), BITE_BAD_FILE);
    ck_assert_int_eq(bite_request_json(request, "{}", SIZE_MAX, NULL), BITE_OUT_OF_RANGE);
    memset(large, ' ', size);
    memcpy(large, "{}", 2);
    ck_assert_int_eq(bite_request_json(request, large, size - 1, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_json(request, large, size, &error), BITE_OUT_OF_RANGE);
    memset(large, '[', size);
    bite_assert_refused(bite_request_json(request, large, size - 1, &error), BITE_BAD_FILE, &error,
                        "");
    memset(large, 'k', size);
    memcpy(large, "{\"", 2);
    memcpy(large + size - 7, "\": 1}  ", 7);
    bite_assert_refused(bite_request_json(request, large, size - 1, &error), BITE_BAD_FILE, &error,
                        "kkk");
    free(large);
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("request as JSON");
    TCase *all = tcase_create("request as JSON");
    tcase_set_timeout(all, 240);
    tcase_add_unchecked_fixture(all, bite_example_open, bite_example_close);
    tcase_add_test(all, texts_are_taken_as_calls_take_them);
    tcase_add_test(all, numbers_have_the_unit_of_their_key);
    tcase_add_test(all, objects_add_up);
    tcase_add_loop_test(all, faults_are_named_and_placed, 0, FAULTS);
    tcase_add_test(all, a_fault_leaves_the_request);
    tcase_add_test(all, hostile_texts_are_refused);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
