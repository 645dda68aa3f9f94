/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which uncertain inputs take a dimension of the draws: those that the cut reads, and all of them
 * fit. */
#include "core/library/collection.h"
#include "core/names/registry.h"
#include "core/request/answer.h"
#include "core/request/input_spread.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct typed {
    const char *name;
    const char *text;
} typed;

static const char *const grades[] = {"acrylic/cast", "acrylic/filled",     "polycarbonate",
                                     "acetal",       "polyethylene/hdpe",  "6061",
                                     "304",          "titanium/6al-4v",    "wood/mdf",
                                     "graphite",     "glass-laminate/g10", "brass/c360"};
enum { GRADES = sizeof grades / sizeof *grades };

/* Cuts that read different inputs. */
#define TYPED_MOST 8
static const typed cuts[][TYPED_MOST] = {
    {{"depth", "1mm"}},
    {{"depth", "1mm"}, {"operation", "drill"}},
    {{"depth", "0.3mm"}, {"operation", "chamfer"}, {"taper", "45deg"}},
    {{"depth", "1mm"}, {"width", "0.5mm"}, {"mode_frequency", "900Hz"}},
    {{"depth", "1mm"},
     {"width", "0.5mm"},
     {"mode_frequency", "900Hz"},
     {"mode2_frequency", "1500Hz"},
     {"mode3_frequency", "2500Hz"}},
    {{"depth", "0.3mm"}, {"taper", "30deg"}, {"tip_diameter", "0.2mm"}},
    {{"depth", "1mm"}, {"bridge_span", "20mm"}, {"bridge_thickness", "2mm"}},
    {{"depth", "1mm"}, {"entry", "plunge"}, {"bond_temperature", "310K"}, {"bond_limit", "340K"}},
    {{"depth", "1mm"}, {"wall_thickness", "1mm"}, {"tolerance", "0.1mm"}},
    {{"depth", "1mm"}, {"floor_thickness", "1mm"}, {"floor_span", "20mm"}},
    {{"depth", "1mm"}, {"flatness", "0.1mm"}, {"part_span", "80mm"}, {"stock_thickness", "6mm"}},
    {{"depth", "1mm"},
     {"bond_area", "600mm2"},
     {"flatness", "0.1mm"},
     {"part_span", "80mm"},
     {"stock_thickness", "6mm"},
     {"wall_thickness", "1mm"},
     {"floor_thickness", "1mm"},
     {"floor_span", "20mm"}},
};
enum { CUTS = sizeof cuts / sizeof *cuts };

static bite_request *request_in(const bite_library *from, size_t grade, size_t cut)
{
    bite_request *request = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_new(from, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, grades[grade], NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "9000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "300mm/min", NULL), BITE_OK);
    for (size_t i = 0; i < TYPED_MOST && cuts[cut][i].name != NULL; i++) {
        ck_assert_msg(bite_request_set(request, cuts[cut][i].name, cuts[cut][i].text, &error) ==
                          BITE_OK,
                      "%s: %s", cuts[cut][i].name, error.message);
    }
    if (cut == CUTS - 1) {
        ck_assert_int_eq(bite_request_use(request, BITE_HOLDS, "tape", NULL), BITE_OK);
    }
    return request;
}

static void result_of(const bite_cut *cut, bite_result *result)
{
    bite_error error = BITE_ERROR_INIT;
    memset(result, 0, sizeof *result);
    result->struct_size = (uint32_t)sizeof *result;
    ck_assert_msg(bite_cut_pass(cut, result, &error) == BITE_OK, "%s: %s", error.key,
                  error.message);
}

static int same(double a, double b)
{
    return (isnan(a) && isnan(b)) || !(fabs(a - b) > 0.0);
}

static int same_results(const bite_result *a, const bite_result *b)
{
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        if (!same(a->values[i].value, b->values[i].value)) {
            return 0;
        }
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *x = &a->limits[i];
        const bite_limit *y = &b->limits[i];
        if (x->applies != y->applies || !same(x->demand, y->demand) ||
            !same(x->capacity, y->capacity)) {
            return 0;
        }
    }
    return 1;
}

/* Whether the cut depends on the input, a little below and above its value. */
static int is_read(const bite_cut *full, const bite_input *input)
{
    static const double factors[] = {0.93, 1.07};
    bite_result base;
    bite_result moved;
    result_of(full, &base);
    for (int i = 0; i < 2; i++) {
        bite_cut cut = *full;
        double *number = (double *)(void *)((char *)&cut + input->offset);
        *number = fmax(input->least, fmin(input->most, *number * factors[i]));
        result_of(&cut, &moved);
        if (!same_results(&base, &moved)) {
            return 1;
        }
    }
    return 0;
}

/* What is left out changes nothing. */
START_TEST(inputs_without_a_dimension_are_not_read)
{
    bite_request *request = request_in(library, (size_t)_i / CUTS, (size_t)_i % CUTS);
    bite_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_answer_new(request, 16, 0.9, &answer, &error) == BITE_OK, "%s: %s",
                  error.key, error.message);
    ck_assert_uint_lt(answer->spread_count, BITE_SPREAD_MAX);
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        const bite_item_record *record = NULL;
        if (input->words > 0 || isnan(*bite_input_number_of(&answer->full, input)) ||
            bite_library_spread(library, input->name, &record, NULL) != BITE_OK) {
            continue;
        }
        int unused = bite_spread_is_unused(input, &answer->full);
        int read = is_read(&answer->full, input);
        ck_assert_msg(!(unused && read), "%s is read", input->name);
    }
    bite_answer_free(answer);
    bite_request_free(request);
}
END_TEST

/* A shop's own table may make more inputs uncertain than there are dimensions: none is dropped in
 * silence. */
START_TEST(too_many_spreads_are_refused)
{
    bite_test_shop own;
    char path[600];
    bite_test_shop_make(&own);
    (void)snprintf(path, sizeof path, "%s/uncertainty.ini", own.tables);
    FILE *file = fopen(path, "a");
    ck_assert_ptr_nonnull(file);
    for (size_t i = 0; i < bite_input_count(); i++) { /* all that have none */
        const bite_input *input = bite_input_at(i);
        const bite_item_record *record = NULL;
        if (input->words == 0 &&
            bite_library_spread(library, input->name, &record, NULL) != BITE_OK) {
            (void)fprintf(file,
                          "\n[spread.%s]\nshape = normal\nlow = 0.99\nhigh = 1.01\n"
                          "source = estimate: a test\n",
                          input->name);
        }
    }
    ck_assert_int_eq(fclose(file), 0);
    bite_library *wider = bite_test_shop_open(&own, NULL);
    size_t grade = 0;
    while (strcmp(grades[grade], "titanium/6al-4v") != 0) { /* its plugin's figures scatter, too */
        grade++;
    }
    bite_request *request = request_in(wider, grade, CUTS - 1);
    bite_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_answer_new(request, 16, 0.9, &answer, &error);
    ck_assert_msg(status == BITE_OUT_OF_RANGE, "%s: %s", error.key, error.message);
    ck_assert_msg(strstr(error.message, "are uncertain") != NULL, "%s", error.message);
    ck_assert_str_ne(error.key, "");
    ck_assert_ptr_null(answer);
    bite_request_free(request);
    bite_library_close(wider);
    bite_test_remove(own.root);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("input_spread");
    TCase *tests = tcase_create("input_spread");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, inputs_without_a_dimension_are_not_read, 0, GRADES * CUTS);
    tcase_add_test(tests, too_many_spreads_are_refused);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
