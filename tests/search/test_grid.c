/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The choice against a grid from outside, over random requests of every operation and goal: no
 * speed and feed that can be entered removes 2 % more at the same chance and meets the goal as
 * well. BITE_TEST_REQUESTS: how many requests; a few without it. */
#include "core/request/answer.h"
#include "core/search/search_space.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SPEEDS = 9, FEEDS = 11, SHORT = 8 };

/* The grid reaches this factor below and above what was chosen. */
static const double reach = 2.0;

/* What a grid point may remove more. */
static const double tolerated = 1.02;

static const char *const grades[] = {"acrylic/cast", "pc",   "acetal", "6061", "brass",
                                     "304",          "1018", "mdf",    "peek", "glass-laminate/g10",
                                     "copper",       "7075"};
static const char *const machines[] = {"bench-24k", "small-vmc", "gantry-router", "board-mill",
                                       "desktop-light"};
static const char *const diameters[] = {"0.8mm", "1mm", "2mm", "3mm", "6mm"};
static const double millimetres[] = {0.8, 1.0, 2.0, 3.0, 6.0};

#define PICK(list, seed)                                                                           \
    (list)[(size_t)bite_test_between(seed, 0.0, sizeof(list) / sizeof *(list)-1e-9)]

static void set_mm(bite_request *request, const char *name, double mm)
{
    char text[40];
    (void)snprintf(text, sizeof text, "%.4gmm", mm);
    ck_assert_int_eq(bite_request_set(request, name, text, NULL), BITE_OK);
}

/* The sizes are fixed, so that speed and feed alone are free. */
static bite_request *random_request(uint64_t *seed)
{
    bite_request *request = NULL;
    size_t size = (size_t)bite_test_between(seed, 0.0, 5.0 - 1e-9);
    double kind = bite_test_between(seed, 0.0, 1.0);
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, PICK(grades, seed), NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, PICK(machines, seed), NULL), BITE_OK);
    ck_assert_int_eq(
        bite_request_use(request, BITE_TOOLS, kind < 0.15 ? "6mm" : diameters[size], NULL),
        BITE_OK);
    if (kind < 0.15) {
        ck_assert_int_eq(bite_request_set(request, "operation", "chamfer", NULL), BITE_OK);
        set_mm(request, "depth", bite_test_between(seed, 0.1, 0.8));
    } else if (kind < 0.3) {
        ck_assert_int_eq(bite_request_set(request, "operation", "drill", NULL), BITE_OK);
        set_mm(request, "depth", millimetres[size] * bite_test_between(seed, 0.3, 1.5));
    } else {
        set_mm(request, "depth", millimetres[size] * bite_test_between(seed, 0.05, 0.7));
        if (kind < 0.6) {
            set_mm(request, "width", millimetres[size] * bite_test_between(seed, 0.05, 0.6));
        }
    }
    return request;
}

/* What a goal is measured by, at the best estimates; smaller is better. */
static double goal_of(const bite_answer *answer, uint32_t goal)
{
    const bite_result *result = bite_answer_result(answer);
    double error = fabs(result->values[BITE_WALL_ERROR].value);
    double marks =
        fmax(result->values[BITE_ROUGHNESS_FLOOR].value, result->values[BITE_ROUGHNESS_WALL].value);
    double most = 0.0;
    switch (goal) {
    case BITE_GOAL_COOL:
        return result->values[BITE_SURFACE_TEMPERATURE].value;
    case BITE_GOAL_FINE:
        return error + 0.5 * marks;
    case BITE_GOAL_GENTLE:
        for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
            const bite_limit *limit = &result->limits[i];
            most = limit->applies && !limit->advisory ? fmax(most, limit->utilization_high) : most;
        }
        return most;
    default:
        return 0.0;
    }
}

static double value_of(const bite_answer *answer, bite_value_id id)
{
    return bite_answer_result(answer)->values[id].value;
}

static bite_search_problem problem;

/* Whether a grid point beats the choice. It keeps to the largest feed per tooth and the largest
 * speed that may be chosen. */
static int beats(const bite_answer *one, const bite_answer *chosen, uint32_t goal)
{
    double turn = value_of(one, BITE_SPINDLE_SPEED) * problem.full.flutes;
    return bite_answer_result(one)->chance <= bite_answer_result(chosen)->chance &&
           value_of(one, BITE_REMOVAL_RATE) > tolerated * value_of(chosen, BITE_REMOVAL_RATE) &&
           !(goal_of(one, goal) > goal_of(chosen, goal) * (1.0 + 1e-9)) &&
           value_of(one, BITE_FEED_RATE) <= problem.tooth[1] * turn &&
           value_of(one, BITE_SPINDLE_SPEED) <= problem.spindle[1] &&
           value_of(one, BITE_SPINDLE_SPEED) >= problem.spindle[0];
}

/* Few draws show that a grid point has a much higher chance. */
static int is_hopeless(const bite_request *request, double chance)
{
    bite_answer *few = NULL;
    bite_status status = bite_answer_new(request, 128, 0.90, &few, NULL);
    int hopeless = status != BITE_OK || bite_answer_result(few)->chance > chance + 0.08;
    bite_answer_free(few);
    return hopeless;
}

static int is_beaten(const bite_request *request, const bite_answer *chosen, uint32_t goal,
                     int index)
{
    double spindle = value_of(chosen, BITE_SPINDLE_SPEED);
    double feed = value_of(chosen, BITE_FEED_RATE);
    int beaten = 0;
    for (int i = 0; i < SPEEDS * FEEDS && !beaten; i++) {
        bite_request fixed = *request;
        bite_answer *one = NULL;
        fixed.skip_change = 1;
        double n = spindle * pow(reach, 2.0 * (i % SPEEDS) / (SPEEDS - 1.0) - 1.0);
        double f = feed * pow(reach, (i / SPEEDS + 1.0) / FEEDS);
        if (bite_request_set_number(&fixed, "spindle_speed", n, NULL) != BITE_OK ||
            bite_request_set_number(&fixed, "feed_rate", f, NULL) != BITE_OK ||
            is_hopeless(&fixed, bite_answer_result(chosen)->chance) ||
            bite_answer_new(&fixed, 0, 0.90, &one, NULL) != BITE_OK) {
            continue; /* beyond the range of an input */
        }
        beaten = beats(one, chosen, goal);
        if (beaten) {
            printf("request %d, goal %s: %.0f rpm %.4g mm/min (chance %.3f) is beaten by %.0f rpm "
                   "%.4g mm/min (%.3f)\n",
                   index, bite_goal_name(goal), 60.0 * spindle, 6e4 * feed,
                   bite_answer_result(chosen)->chance, 60.0 * n, 6e4 * f,
                   bite_answer_result(one)->chance);
            (void)fflush(stdout);
        }
        bite_answer_free(one);
    }
    return beaten;
}

/* 0: not clear; 1: not beaten; 2: beaten. */
static int compare(int index, uint64_t *seed)
{
    bite_request *request = random_request(seed);
    bite_choice_options options = {.struct_size = (uint32_t)sizeof options,
                                   .goal = (uint32_t)index % BITE_GOAL_COUNT,
                                   .confidence = 0.90};
    bite_choice *choice = NULL;
    int found = 0;
    if (bite_choice_new(request, &options, &choice, NULL) == BITE_OK &&
        bite_answer_result(bite_choice_answer(choice))->verdict == BITE_CLEAR) {
        ck_assert_int_eq(bite_problem_init(request, NULL, &options, &problem, NULL), BITE_OK);
        bite_problem_end(&problem);
        found = 1 + is_beaten(request, bite_choice_answer(choice), options.goal, index);
    }
    bite_choice_free(choice);
    bite_request_free(request);
    return found;
}

START_TEST(grid_does_not_beat_the_choice)
{
    const char *wanted = getenv("BITE_TEST_REQUESTS");
    int requests = wanted == NULL ? SHORT : (int)strtol(wanted, NULL, 10);
    uint64_t seed = 20261130;
    int counts[3] = {0};
    for (int i = 0; i < requests; i++) {
        counts[compare(i, &seed)]++;
    }
    printf("%d requests: %d clear, of these %d beaten by more than 2 %%\n", requests,
           counts[1] + counts[2], counts[2]);
    ck_assert_int_gt(counts[1], 0);
    ck_assert_int_eq(counts[2], 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("grid");
    TCase *tests = tcase_create("grid");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, grid_does_not_beat_the_choice);
    tcase_set_timeout(tests, 3600);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
