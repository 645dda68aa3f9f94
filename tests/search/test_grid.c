/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The choice against a grid from outside, over random requests of every operation and goal, with
 * free numbers of passes, several tools, fixed speeds and feeds, and measured modes.
 *
 * A clear choice is beaten by settings that can be entered, meet the goal as well, and remove 2 %
 * more at the same chance of exceeding a limit; or 7 % more at a chance that is clear: a choice may
 * keep a distance from its limits that costs a twentieth, and what is entered is rounded. A choice
 * that is not clear is beaten by any settings that are, or that are clearly less bad.
 *
 * BITE_TEST_REQUESTS: how many requests; a few without it. BITE_TEST_FIRST: the number of the
 * first one.
 */
#include "core/base/quantile.h"
#include "core/cut/pass.h"
#include "core/request/answer.h"
#include "core/request/judge.h"
#include "core/uncertainty/draw_set.h"
#include "tests/search/hard_request.h"
#include "tests/search/outside_grid.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SHORT = 26, QUICK = 8, CANDIDATES = 24, FEW_DRAWS = 256, MANY_DRAWS = 16384 };

/* What settings from outside may remove more: at the chance of the choice, and at one that is clear
 * beyond doubt, whichever draws are made. */
static const double tolerated = 1.02;
static const double tolerated_if_clear = 1.07;
static const double clear_chance = 0.08;

/* If nothing is clear, a choice may give up so much for its speed: of the chance, if that is below
 * one half, and of the utilization of the limit that is used most, at the best estimates. */
static const double tolerated_chance = 1.6;
static const double tolerated_excess = 1.25;

/* What few draws may be wrong by. */
static const double few_draws_err = 0.03;

/* Settings, judged. */
typedef struct judged {
    outside_point at;
    bite_verdict verdict;
    double chance;
    double goal;
    double capacity; /* K, up to softening; NaN: it does not soften */
    double high[BITE_LIMIT_COUNT];
    double used;  /* utilization of the limit that is used most, at the best estimates */
    double worst; /* its high end, of the limit where that is highest */
    double fixed; /* utilization of the limit that is used most of those that do not scatter */
} judged;

/* ---- judging ---- */

/* The high end of each binding limit's utilization, as a multiple of its best estimate. */
static void read_limits(const bite_result *result, judged *to)
{
    to->used = to->worst = to->fixed = 0.0;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        int binds = limit->applies && !limit->advisory;
        double ratio = limit->utilization_high / limit->utilization;
        to->high[i] = limit->advisory        ? 0.0
                      : binds && ratio > 0.0 ? fmin(5.0, fmax(1.0, ratio))
                                             : 1.3;
        to->used = binds ? fmax(to->used, limit->utilization) : to->used;
        to->worst = binds ? fmax(to->worst, limit->utilization_high) : to->worst;
        if (binds && !(limit->utilization_high > limit->utilization * (1.0 + 1e-9))) {
            to->fixed = fmax(to->fixed, limit->utilization);
        }
    }
}

/* The worst utilization of all binding limits together, which fewer draws than one in ten exceed:
 * the measure of a gentle choice. */
static double joint_utilization(const bite_answer *answer)
{
    enum { DRAWS = 4096, ABOVE = DRAWS / 10 };
    static double utilization[BITE_LIMIT_COUNT * DRAWS];
    static bite_checked_cut checked;
    static double worst[DRAWS];
    uint8_t binds[BITE_LIMIT_COUNT];
    bite_draw_set *set = NULL;
    ck_assert_int_eq(bite_checked_cut_init(&answer->requested, &checked, NULL), BITE_OK);
    ck_assert_int_eq(bite_draw_set_new(bite_memory_default(), &checked, answer->spreads,
                                       answer->spread_count, DRAWS, BITE_ANSWER_SEED, 1, &set,
                                       NULL),
                     BITE_OK);
    const bite_cut *cut = &checked.full;
    const bite_setting setting = {cut->spindle_speed, cut->feed_rate, cut->depth, (double)NAN};
    const size_t draws = bite_draw_set_size(set);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &answer->result.limits[i];
        binds[i] = limit->applies && !limit->advisory;
    }
    memset(worst, 0, sizeof worst);
    ck_assert_int_eq(bite_draw_set_draw(set, &setting, binds, 0, draws, utilization, NULL),
                     BITE_OK);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        for (size_t k = 0; k < draws && binds[i]; k++) {
            worst[k] = fmax(worst[k], utilization[i * draws + k]);
        }
    }
    bite_draw_set_free(set);
    return bite_quantile_select(worst, draws, draws - 1 - ABOVE * draws / DRAWS);
}

static void read_answer(const outside_grid *grid, const bite_answer *answer, judged *to)
{
    const bite_result *result = bite_answer_result(answer);
    const bite_limit *soft = &result->limits[BITE_LIMIT_SOFTENING];
    double value[BITE_VALUE_COUNT];
    for (size_t i = 0; i < BITE_VALUE_COUNT; i++) {
        value[i] = result->values[i].value;
    }
    read_limits(result, to);
    to->verdict = (bite_verdict)result->verdict;
    to->chance = result->chance;
    to->capacity = soft->applies && soft->capacity > 0.0 ? soft->capacity : (double)NAN;
    to->goal = grid->made->goal == BITE_GOAL_GENTLE ? joint_utilization(answer)
                                                    : outside_goal(grid, value);
}

/* The tool of a choice, by its diameter and flutes. */
static size_t tool_of(const outside_grid *grid, const bite_result *result)
{
    double spindle = result->values[BITE_SPINDLE_SPEED].value;
    double diameter = result->values[BITE_SURFACE_SPEED].value / (M_PI * spindle);
    size_t tool = 0;
    while (tool + 1 < grid->tool_count &&
           fabs(grid->tools[tool].cut.diameter / diameter - 1.0) > 1e-6) {
        tool++;
    }
    return tool;
}

static judged read_choice(const outside_grid *grid, const bite_choice *choice)
{
    const bite_result *result = bite_answer_result(bite_choice_answer(choice));
    judged chosen = {.at = {.tool = tool_of(grid, result),
                            .axial = (uint32_t)bite_choice_passes(choice),
                            .radial = (uint32_t)bite_choice_side_passes(choice),
                            .spindle = result->values[BITE_SPINDLE_SPEED].value,
                            .feed = result->values[BITE_FEED_RATE].value}};
    outside_sizes(grid, &chosen.at);
    chosen.at.removal =
        outside_removal(grid, chosen.at.tool, chosen.at.axial, chosen.at.radial, chosen.at.feed);
    read_answer(grid, bite_choice_answer(choice), &chosen);
    return chosen;
}

/* 0: these settings are refused. */
static int judge(const outside_grid *grid, const outside_point *at, size_t draws, judged *to)
{
    const search_request *made = grid->made;
    bite_request *request = made->request;
    bite_answer *answer = NULL;
    search_request_take_tool(made, at->tool);
    int sets = bite_request_set_number(request, "spindle_speed", at->spindle, NULL) == BITE_OK &&
               bite_request_set_number(request, "feed_rate", at->feed, NULL) == BITE_OK;
    if (sets && !isnan(made->feature_depth)) {
        sets = bite_request_set_number(request, "depth", at->depth, NULL) == BITE_OK;
    }
    if (sets && !isnan(made->feature_width)) {
        sets = bite_request_set_number(request, "width", at->width, NULL) == BITE_OK;
    }
    if (!sets || bite_answer_new(request, draws, 0.90, &answer, NULL) != BITE_OK) {
        return 0;
    }
    to->at = *at;
    read_answer(grid, answer, to);
    bite_answer_free(answer);
    return 1;
}

/* ---- beating a choice ---- */

static const double level_of_gentle = 0.8;

/* How much more than the choice a gentle one may use of its worst limit at the same level. */
static const double likely = 1.05;

/* The level at which the goal counts as met; 0: none is stated. */
static double stated_level(const judged *chosen, uint32_t goal)
{
    return goal == BITE_GOAL_FINE                               ? 0.5
           : goal == BITE_GOAL_GENTLE                           ? level_of_gentle
           : goal == BITE_GOAL_COOL && !isnan(chosen->capacity) ? 0.5 * chosen->capacity
                                                                : 0.0;
}

/* Of many settings some have a low chance by the luck of the draws: by many more draws, too, theirs
 * must not be higher than that of the choice. chosen: NULL: no choice to compare with. */
static int is_confirmed(const outside_grid *grid, const judged *chosen, const judged *found)
{
    judged one = {.chance = 1.0};
    judged other = {.chance = 1.0};
    return chosen == NULL ||
           (judge(grid, &chosen->at, MANY_DRAWS, &one) &&
            judge(grid, &found->at, MANY_DRAWS, &other) && other.chance <= one.chance);
}

/* Settings that fulfil the wish at no higher chance. fixed: the most that they use of limits that
 * do not scatter. chosen: as above. 0: none were found. */
static int find(const outside_grid *grid, const outside_wish *wish, double chance, double fixed,
                const judged *chosen, judged *found)
{
    outside_point points[CANDIDATES];
    size_t count = outside_grid_sieve(grid, wish, points, CANDIDATES);
    for (size_t i = 0; i < count; i++) {
        if (judge(grid, &points[i], FEW_DRAWS, found) && found->chance <= chance + few_draws_err &&
            judge(grid, &points[i], 0, found) && found->chance <= chance &&
            !(found->goal > wish->goal * (1.0 + 1e-9)) && found->used <= wish->used &&
            found->worst <= wish->worst && found->fixed <= fixed &&
            is_confirmed(grid, chosen, found)) {
            return 1;
        }
    }
    return 0;
}

/* Settings that are clear or less bad than a choice that is not. */
static int find_less_bad(const outside_grid *grid, const judged *chosen, outside_wish *wish,
                         judged *better)
{
    if (chosen->verdict != BITE_TIGHT) {
        int found = find(grid, wish, clear_chance, INFINITY, NULL, better);
        wish->used = chosen->used / tolerated_excess;
        wish->worst = chosen->worst;
        return found || find(grid, wish, 1.0, INFINITY, NULL, better);
    }
    return find(grid, wish, fmax(clear_chance, chosen->chance / tolerated_chance), INFINITY, NULL,
                better);
}

/* Settings that are faster than a clear choice. */
static int find_faster(const outside_grid *grid, const judged *chosen, outside_wish *wish,
                       judged *better)
{
    int gentle = grid->made->goal == BITE_GOAL_GENTLE; /* it gives up removal for its chance */
    wish->goal = fmax(chosen->goal, stated_level(chosen, grid->made->goal));
    wish->worst = gentle ? likely * chosen->worst * wish->goal / chosen->goal
                         : 1.5 * fmax(1.0, chosen->worst);
    wish->removal = tolerated * chosen->at.removal;
    /* a gentle choice keeps them within its level too, such as the fastest speed of a spindle */
    double fixed = gentle ? fmax(level_of_gentle, chosen->fixed) : INFINITY;
    int found = find(grid, wish, chosen->chance, fixed, chosen, better);
    wish->removal = tolerated_if_clear * chosen->at.removal;
    return found || find(grid, wish, gentle ? chosen->chance : clear_chance, fixed,
                         gentle ? chosen : NULL, better);
}

/* Settings that beat the choice. 0: none were found. */
static int find_better(const outside_grid *grid, const judged *chosen, judged *better)
{
    outside_wish wish = {.removal = 0.0,
                         .goal = INFINITY,
                         .worst = INFINITY,
                         .used = INFINITY,
                         .near_spindle = chosen->at.spindle};
    memcpy(wish.high, chosen->high, sizeof wish.high);
    return chosen->verdict == BITE_CLEAR ? find_faster(grid, chosen, &wish, better)
                                         : find_less_bad(grid, chosen, &wish, better);
}

static void print_settings(const outside_grid *grid, const char *title, const judged *settings)
{
    const outside_point *at = &settings->at;
    printf("  %s: tool %s, %u x %u passes, %.0f rpm, %.4g mm/min: %s, chance %.4f, goal %.4g, used "
           "%.3f to %.3f\n",
           title, grid->made->tools[at->tool], at->axial, at->radial, 60.0 * at->spindle,
           6e4 * at->feed, bite_verdict_name(settings->verdict), settings->chance, settings->goal,
           settings->used, settings->worst);
}

static void print_better(const outside_grid *grid, const char *title, const judged *chosen,
                         const judged *better)
{
    printf("%s: x %.3f: coolbite choose %s\n", title, better->at.removal / chosen->at.removal,
           grid->made->line);
    print_settings(grid, "chosen", chosen);
    print_settings(grid, "better", better);
    (void)fflush(stdout);
}

/* ---- the tests ---- */

/* Of choices that are clear and of those that are not, how many settings from outside beat; of
 * choices spoilt on purpose, how many are noticed. */
typedef struct tally {
    int all;
    int beaten;
} tally;

static struct {
    tally clear;
    tally unclear;
    tally slowed;
    tally divided;
} counts;

static void count(const outside_grid *grid, const char *title, const judged *chosen)
{
    judged better = {.chance = 1.0};
    tally *to = chosen->verdict == BITE_CLEAR ? &counts.clear : &counts.unclear;
    to->all++;
    if (find_better(grid, chosen, &better)) {
        to->beaten++;
        print_better(grid, title, chosen, &better);
    }
}

/* The same with settings that are worse than a clear choice. */
static void count_spoilt(const outside_grid *grid, const outside_point *at, tally *to)
{
    outside_point spoilt = *at;
    judged worse = {.chance = 1.0};
    judged better = {.chance = 1.0};
    outside_sizes(grid, &spoilt);
    spoilt.removal = outside_removal(grid, spoilt.tool, spoilt.axial, spoilt.radial, spoilt.feed);
    if (judge(grid, &spoilt, 0, &worse) && worse.verdict == BITE_CLEAR) {
        to->all++;
        to->beaten += find_better(grid, &worse, &better);
    }
}

/* A feed that is a tenth lower, and one pass more. */
static void spoil(const outside_grid *grid, const judged *chosen)
{
    const search_request *made = grid->made;
    outside_point slowed = chosen->at;
    outside_point divided = chosen->at;
    slowed.feed *= 0.9;
    if (!isnan(made->feature_depth)) {
        divided.axial++;
    } else if (!isnan(made->feature_width)) {
        divided.radial++;
    }
    if (isnan(made->tooth)) {
        count_spoilt(grid, &slowed, &counts.slowed);
    }
    if (made->operation == BITE_MILL && divided.axial * divided.radial <= 8 &&
        (divided.axial != chosen->at.axial || divided.radial != chosen->at.radial)) {
        count_spoilt(grid, &divided, &counts.divided);
    }
}

/* Random requests that a search has once solved badly: whose chance is nearly the same over a range
 * of feeds or is the allowed one; which one more pass makes clear; whose chance no speed and feed
 * changes; where one limit is relaxed, and another decides; whose edge may run faster than in a
 * slot; whose best number of passes is clear in a narrow lobe of chatter only. */
static const size_t hard_numbers[] = {40,    224,   348,   411,   457,  465,
                                      10094, 10126, 10200, 10201, 10314};

static void examine(search_request *made, const char *title)
{
    static outside_grid grid;
    bite_choice *choice = search_request_choose(made);
    outside_grid_begin(made, &grid);
    judged chosen = read_choice(&grid, choice);
    count(&grid, title, &chosen);
    if (chosen.verdict == BITE_CLEAR) {
        spoil(&grid, &chosen);
    }
    bite_choice_free(choice);
    search_request_end(made);
}

static void examine_random(size_t number)
{
    search_request made;
    char title[60];
    search_request_random(number, &made);
    (void)snprintf(title, sizeof title, "request %zu (%s)", number, search_kind_name(number));
    examine(&made, title);
}

static int number_from(const char *name, int usual)
{
    const char *text = getenv(name);
    return text == NULL ? usual : (int)strtol(text, NULL, 10);
}

static void print_counts(void)
{
    printf("%d choices are clear, %d of them are beaten; %d are not clear, %d of them could be; of "
           "%d slowed by a tenth %d are noticed, of %d with a pass more %d\n",
           counts.clear.all, counts.clear.beaten, counts.unclear.all, counts.unclear.beaten,
           counts.slowed.all, counts.slowed.beaten, counts.divided.all, counts.divided.beaten);
    (void)fflush(stdout);
}

START_TEST(grid_beats_only_choices_that_were_spoilt)
{
    int is_short = getenv("BITE_TEST_SHORT") != NULL;
    int requests = number_from("BITE_TEST_REQUESTS", is_short ? 1 : SHORT);
    int first = number_from("BITE_TEST_FIRST", is_short ? QUICK : 0);
    search_request made;
    for (size_t i = 0; i < hard_request_count() && !is_short; i++) {
        hard_request_make(i, &made);
        examine(&made, "hard request");
    }
    for (size_t i = 0; i < sizeof hard_numbers / sizeof *hard_numbers && !is_short; i++) {
        examine_random(hard_numbers[i]);
    }
    for (int i = first; i < first + requests; i++) {
        examine_random((size_t)i);
    }
    print_counts();
    ck_assert_int_gt(counts.clear.all, 0);
    ck_assert_int_eq(counts.clear.beaten, 0);
    ck_assert_int_eq(counts.unclear.beaten, 0);
    ck_assert_int_ge(2 * counts.slowed.beaten, counts.slowed.all);
    ck_assert_int_ge(2 * counts.divided.beaten, counts.divided.all);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("grid");
    TCase *tests = tcase_create("grid");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, grid_beats_only_choices_that_were_spoilt);
    tcase_set_timeout(tests, 3600);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
