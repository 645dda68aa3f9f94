/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A batch of passes: each row is what bite_cut_pass returns, and a bad row spoils no other. */
#include "core/cut/defaults.h"
#include "core/names/registry.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define ROWS 333
#define COLUMNS 8
#define OUTPUTS (BITE_VALUE_COUNT + 3 * BITE_LIMIT_COUNT + 2)

static double in_data[COLUMNS][ROWS];
static double out_data[OUTPUTS][ROWS];
static uint32_t row_status[ROWS];

static size_t all_outputs(bite_batch_output *outputs)
{
    size_t count = 0;
    for (uint32_t i = 0; i < BITE_VALUE_COUNT; i++) {
        outputs[count++] = (bite_batch_output){BITE_BATCH_VALUE, i};
    }
    for (uint32_t kind = BITE_BATCH_UTILIZATION; kind <= BITE_BATCH_CAPACITY; kind++) {
        for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
            outputs[count++] = (bite_batch_output){kind, i};
        }
    }
    outputs[count++] = (bite_batch_output){BITE_BATCH_VERDICT, 0};
    outputs[count++] = (bite_batch_output){BITE_BATCH_WORST, 0};
    return count;
}

static double single_output(const bite_result *result, const bite_batch_output *output)
{
    const bite_limit *limit = &result->limits[output->id];
    switch (output->kind) {
    case BITE_BATCH_VALUE:
        return result->values[output->id].value;
    case BITE_BATCH_UTILIZATION:
        return limit->applies ? limit->utilization : (double)NAN;
    case BITE_BATCH_DEMAND:
        return limit->applies ? limit->demand : (double)NAN;
    case BITE_BATCH_CAPACITY:
        return limit->applies ? limit->capacity : (double)NAN;
    case BITE_BATCH_VERDICT:
        return result->verdict;
    default:
        return result->worst;
    }
}

static void run_all(const bite_cut *cut, const char *const *names, size_t count, size_t threads)
{
    bite_error error = BITE_ERROR_INIT;
    bite_batch *batch = NULL;
    bite_batch_output outputs[OUTPUTS];
    uint32_t inputs[COLUMNS];
    bite_column in[COLUMNS];
    bite_result_column out[OUTPUTS];
    size_t output_count = all_outputs(outputs);
    for (size_t i = 0; i < count; i++) {
        inputs[i] = (uint32_t)bite_input_index(bite_input_find(names[i]));
        in[i] = (bite_column){in_data[i], 1};
    }
    for (size_t i = 0; i < output_count; i++) {
        out[i] = (bite_result_column){out_data[i], 1};
    }
    ck_assert_int_eq(
        bite_batch_new(NULL, cut, inputs, count, outputs, output_count, &batch, &error), BITE_OK);
    ck_assert_int_eq(bite_batch_run(batch, ROWS, in, out, row_status, threads, NULL, &error),
                     BITE_OK);
    bite_batch_free(batch);
}

/* How many times larger than the output what it is a difference of is, of which 1e-12 is meant: the
 * error of a wall, and the limit on it, are what is left of deflections that may nearly cancel. */
static double cancellation(const bite_result *result, const bite_batch_output *output)
{
    double error = fabs(result->values[BITE_WALL_ERROR].value);
    double bent = fabs(result->values[BITE_DEFLECTION_TIP].value);
    int of_wall = output->kind == BITE_BATCH_VALUE
                      ? output->id == BITE_WALL_ERROR || output->id == BITE_WALL_CLIMB ||
                            output->id == BITE_WALL_CONVENTIONAL
                      : output->id == BITE_LIMIT_DEFLECTION && output->kind != BITE_BATCH_CAPACITY;
    return of_wall && bent > error && error > 0.0 ? bent / error : 1.0;
}

static void check_rows(const bite_cut *like, const char *const *names, size_t count)
{
    bite_batch_output outputs[OUTPUTS];
    size_t output_count = all_outputs(outputs);
    for (size_t row = 0; row < ROWS; row++) {
        bite_cut cut = *like;
        bite_result result = {.struct_size = (uint32_t)sizeof result};
        for (size_t i = 0; i < count; i++) {
            *bite_input_number(&cut, bite_input_find(names[i])) = in_data[i][row];
        }
        bite_status status = bite_cut_pass(&cut, &result, NULL);
        ck_assert_int_eq((int)row_status[row], (int)status);
        for (size_t i = 0; i < output_count; i++) {
            double one = status == BITE_OK ? single_output(&result, &outputs[i]) : (double)NAN;
            double other = out_data[i][row];
            double size = fabs(one) * cancellation(&result, &outputs[i]);
            ck_assert_msg(isnan(one) == isnan(other) &&
                              (isnan(one) || one == other || fabs(one - other) <= 1e-12 * size),
                          "row %zu, output %zu: %.17g alone, %.17g in the batch", row, i, one,
                          other);
        }
    }
}

/* Every row gets its own numbers; some are refused: 0, too small to mean anything, negative,
 * infinite, not given, too wide. */
static void fill_columns(uint64_t *seed, const bite_cut *cut, const char *const *names,
                         size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const bite_input *input = bite_input_find(names[i]);
        double about = *bite_input_number_of(cut, input);
        about = isnan(about) ? bite_test_decades(seed, 1e-4, 1e-3) : about;
        for (size_t row = 0; row < ROWS; row++) {
            double dice = bite_test_between(seed, 0.0, 1.0);
            double number = about * bite_test_decades(seed, 0.5, 2.0);
            number = strcmp(names[i], "flutes") == 0 ? floor(number) + 1.0 : number;
            in_data[i][row] = dice < 0.01    ? 0.0
                              : dice < 0.015 ? 3e-315
                              : dice < 0.02  ? -number
                              : dice < 0.03  ? (double)INFINITY
                              : dice < 0.05  ? (double)NAN
                                             : number;
        }
    }
}

static const struct {
    const char *names[COLUMNS];
    size_t count;
} sets[] = {
    {{"spindle_speed", "feed_rate"}, 2},
    {{"spindle_speed", "feed_rate", "depth", "width", "runout", "pressure_t"}, 6},
    {{"diameter", "flutes", "depth", "feed_rate"}, 4},
    {{"edge_radius", "stickout", "tolerance", "finish", "density", "transition"}, 6},
    {{"inside_radius", "corner_radius", "room_temperature", "helix"}, 4},
    {{"edge_radius", "feed_rate"}, 2},
    {{"floor_thickness", "floor_span", "floor_length", "depth"}, 4},
    {{"diameter", "tip_diameter", "depth", "taper", "flute_length"}, 5},
};

START_TEST(each_row_is_a_single_pass)
{
    uint64_t seed = 40 + (uint64_t)_i;
    for (int round = 0; round < 12; round++) {
        bite_cut cut = round % 4 == 3 ? bite_test_chamfer(&seed) : bite_test_bounded(&seed);
        cut.entry = cut.operation == BITE_MILL && round % 4 == 1 ? BITE_ENTRY_HELIX : cut.entry;
        fill_columns(&seed, &cut, sets[_i].names, sets[_i].count);
        run_all(&cut, sets[_i].names, sets[_i].count, 1 + (size_t)round % 3);
        check_rows(&cut, sets[_i].names, sets[_i].count);
    }
}
END_TEST

/* The default of a member may follow only from members that bite_batch knows to be deciding: a
 * batch would copy the default of another row otherwise. */
START_TEST(members_that_decide_others_are_known)
{
    uint64_t seed = 7;
    for (int round = 0; round < 200; round++) {
        bite_cut given = round % 3 == 2 ? bite_test_chamfer(&seed) : bite_test_cut(&seed);
        for (size_t i = 0; i < bite_input_count(); i++) {
            const bite_input *input = bite_input_at(i);
            bite_cut cuts[2] = {given, given};
            if (input->words > 0 || bite_defaults_follow(&given, input->offset)) {
                continue;
            }
            for (int k = 0; k < 2; k++) {
                double share = k == 0 ? 0.3 : 0.6;
                *bite_input_number(&cuts[k], input) =
                    input->least + share * (input->most - input->least);
                bite_defaults_fill(&cuts[k]);
                *bite_input_number(&cuts[k], input) = 0.0;
            }
            ck_assert_msg(memcmp(&cuts[0], &cuts[1], sizeof cuts[0]) == 0,
                          "the default of another member follows from %s", input->name);
        }
    }
}
END_TEST

/* Members that follow from others are computed again as they are filled. */
START_TEST(followers_are_as_filled)
{
    static const char *const deciding[] = {"diameter", "room_temperature", "depth", "stickout"};
    uint64_t seed = 9;
    for (int round = 0; round < 300; round++) {
        size_t followers[BITE_FOLLOWERS_MAX];
        bite_cut given = round % 3 == 2 ? bite_test_chamfer(&seed) : bite_test_cut(&seed);
        given.feature_width = round % 2 == 0 ? 4.4 * given.diameter : given.feature_width;
        bite_cut full = given;
        size_t count = bite_defaults_followers(&given, followers);
        bite_defaults_fill(&full);
        for (size_t i = 0; i < sizeof deciding / sizeof *deciding; i++) {
            const bite_input *input = bite_input_find(deciding[i]);
            double number = *bite_input_number_of(&given, input);
            number *= bite_test_between(&seed, 0.9, 1.1);
            *bite_input_number(&given, input) = number;
            *bite_input_number(&full, input) =
                isnan(number) ? *bite_input_number(&full, input) : number;
        }
        bite_defaults_follow_on(&full, followers, count);
        bite_defaults_fill(&given);
        ck_assert_mem_eq(&full, &given, sizeof full);
    }
}
END_TEST

/* A row without an edge radius has another wear by default; it may be the first one of a block. */
START_TEST(a_default_stays_in_its_row)
{
    static const char *const names[] = {"edge_radius"};
    uint64_t seed = 11;
    bite_cut cut = bite_test_bounded(&seed);
    cut.edge_wear = (double)NAN;
    for (size_t row = 0; row < ROWS; row++) {
        int absent = row % 16 == 0 || row % 39 == 7;
        in_data[0][row] = absent ? (double)NAN : bite_test_decades(&seed, 1e-6, 1e-5);
    }
    run_all(&cut, names, 1, 1);
    check_rows(&cut, names, 1);
}
END_TEST

/* The power of a cut by its feed; owned. */
static bite_batch *new_power_batch(const bite_cut *cut)
{
    uint32_t input = (uint32_t)bite_input_index(bite_input_find("feed_rate"));
    bite_batch_output output = {BITE_BATCH_VALUE, BITE_POWER_MEAN};
    bite_batch *batch = NULL;
    ck_assert_int_eq(bite_batch_new(NULL, cut, &input, 1, &output, 1, &batch, NULL), BITE_OK);
    return batch;
}

START_TEST(a_stopped_batch_says_so)
{
    uint64_t seed = 3;
    bite_cut cut = bite_test_cut(&seed);
    bite_column in = {&cut.feed_rate, 0};
    bite_result_column out = {out_data[0], 1};
    bite_batch *batch = new_power_batch(&cut);
    volatile int stop = 1;
    ck_assert_int_eq(bite_batch_run(batch, ROWS, &in, &out, row_status, 2, &stop, NULL),
                     BITE_STOPPED);
    for (size_t row = 0; row < ROWS; row++) {
        ck_assert_uint_eq(row_status[row], BITE_STOPPED);
        ck_assert(isnan(out_data[0][row]));
    }
    stop = 0;
    ck_assert_int_eq(bite_batch_run(batch, ROWS, &in, &out, NULL, 2, &stop, NULL), BITE_OK);
    for (size_t row = 1; row < ROWS; row++) { /* a stride of 0 repeats the number */
        ck_assert_double_eq(out_data[0][row], out_data[0][0]);
    }
    ck_assert_int_eq(bite_batch_run(batch, 0, NULL, &out, NULL, 1, NULL, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_batch_run(batch, 0, &in, &out, NULL, 0, NULL, NULL), BITE_OK);
    bite_batch_free(batch);
    bite_batch_free(NULL);
}
END_TEST

static void *stop_soon(void *flag)
{
    const struct timespec soon = {0, 200000};
    (void)nanosleep(&soon, NULL);
    __atomic_store_n((int *)flag, 1, __ATOMIC_RELAXED);
    return NULL;
}

/* Of the run that is stopped under way each row is either whole or not computed. */
START_TEST(another_thread_stops_a_batch)
{
    uint64_t seed = 3;
    bite_cut cut = bite_test_cut(&seed);
    bite_column in = {&cut.feed_rate, 0};
    bite_result_column out = {out_data[0], 1};
    bite_batch *batch = new_power_batch(&cut);
    int stop = 0;
    pthread_t other;
    bite_status status = BITE_OK;
    ck_assert_int_eq(pthread_create(&other, NULL, stop_soon, &stop), 0);
    while (status == BITE_OK) {
        status = bite_batch_run(batch, ROWS, &in, &out, row_status, 4, &stop, NULL);
    }
    ck_assert_int_eq(pthread_join(other, NULL), 0);
    ck_assert_int_eq(status, BITE_STOPPED);
    size_t stopped = 0;
    for (size_t row = 0; row < ROWS; row++) {
        ck_assert(row_status[row] == BITE_OK || row_status[row] == BITE_STOPPED);
        ck_assert(isnan(out_data[0][row]) == (row_status[row] == BITE_STOPPED));
        stopped += row_status[row] == BITE_STOPPED;
    }
    ck_assert_uint_gt(stopped, 0);
    bite_batch_free(batch);
}
END_TEST

START_TEST(bad_batches_are_refused)
{
    uint64_t seed = 5;
    bite_cut cut = bite_test_cut(&seed);
    bite_batch *batch = NULL;
    bite_error error = BITE_ERROR_INIT;
    uint32_t twice[] = {(uint32_t)bite_input_index(bite_input_find("depth")),
                        (uint32_t)bite_input_index(bite_input_find("depth"))};
    uint32_t word = (uint32_t)bite_input_index(bite_input_find("side"));
    uint32_t none = (uint32_t)bite_input_count();
    bite_batch_output good = {BITE_BATCH_VALUE, 0};
    const bite_batch_output bad[] = {{BITE_BATCH_VALUE, BITE_VALUE_COUNT},
                                     {BITE_BATCH_DEMAND, BITE_LIMIT_COUNT},
                                     {BITE_BATCH_VERDICT, 1},
                                     {BITE_BATCH_WORST + 1, 0}};
    ck_assert_int_eq(bite_batch_new(NULL, &cut, twice, 2, &good, 1, &batch, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.key, "depth");
    ck_assert_int_eq(bite_batch_new(NULL, &cut, &word, 1, &good, 1, &batch, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_batch_new(NULL, &cut, &none, 1, &good, 1, &batch, NULL),
                     BITE_BAD_ARGUMENT);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ck_assert_int_eq(bite_batch_new(NULL, &cut, twice, 1, &bad[i], 1, &batch, NULL),
                         BITE_BAD_ARGUMENT);
    }
    ck_assert_int_eq(bite_batch_new(NULL, NULL, NULL, 0, NULL, 0, &batch, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_batch_new(NULL, &cut, NULL, 0, NULL, 0, NULL, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_batch_new(NULL, &cut, NULL, 1, NULL, 0, &batch, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_batch_new(NULL, &cut, NULL, 0, NULL, 1, &batch, NULL), BITE_BAD_ARGUMENT);
    ck_assert_ptr_null(batch);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("batch");
    TCase *tests = tcase_create("batch");
    tcase_set_timeout(tests, 600);
    tcase_add_loop_test(tests, each_row_is_a_single_pass, 0, (int)(sizeof sets / sizeof *sets));
    tcase_add_test(tests, members_that_decide_others_are_known);
    tcase_add_test(tests, followers_are_as_filled);
    tcase_add_test(tests, a_default_stays_in_its_row);
    tcase_add_test(tests, a_stopped_batch_says_so);
    tcase_add_test(tests, another_thread_stops_a_batch);
    tcase_add_test(tests, bad_batches_are_refused);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
