/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What do I type in.
 *
 * Limits enter the search with margins, the 95 % end of a row's use over its best estimate, taken from draws at the best point so
 * far; two rounds settle them. Rows that are clear one by one may be too likely together: then all margins grow until the joint
 * chance keeps to the confidence. What comes out is rounded to what a person types, and judged again with all draws.
 */
#include "core/job/choice.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/base/parallel.h"
#include "core/base/vocabulary.h"
#include "core/cut/band.h"
#include "core/cut/passes.h"
#include "core/job/spread.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define DRAWS_SEARCHING 256
#define DRAWS_QUICK 96
#define SEED_SEARCHING 20261126
#define PASSES_SENSIBLE 24 /* over a depth; with passes side by side in all as many at each of four */
#define ROUNDS_OF_CHANCE 5
#define MORE_PASSES 6

/* Before any draw was made. */
static const double first_margin = 1.3;
/* What goes in or does not, by sizes alone, needs none: over many pairs of passes it would only hide what holds. */
static const bite_row_id certain[] = {BITE_ROW_CORNER, BITE_ROW_REACH, BITE_ROW_GAP};
static const double margin_most = 4.0;

/* The range that is searched where nothing narrows it: feed per tooth in diameters (shops seldom run more than a twentieth;
 * memory), spindle where no machine is known. */
static const double tooth_least = 5e-4;
static const double tooth_most = 0.05;
static const double spindle_least = 1000.0 / 60.0;
static const double spindle_most = 60000.0 / 60.0;

/* One tool in the cut that was asked for. */
typedef struct trial {
    bite_ask ask;
    bite_cut asked;
    bite_cut full;
    bite_account account[BITE_INPUTS_MOST];
    bite_spread spreads[BITE_SPREAD_MOST];
    size_t spread_count;
    bite_ready ready;
    bite_search search;
    double confidence;
    size_t draws; /* of a look at the margins */
    bite_parting parting;
    bite_point point;
} trial;

static const bite_typed *typed_of(const bite_ask *ask, const char *name)
{
    return &ask->typed[bite_input_index(bite_input_find(name))];
}

/* What is free, and within which range. Fills the cut with something in it, so that it can be checked. */
static void set_range(trial *of, uint32_t goal)
{
    const bite_typed *spindle = typed_of(&of->ask, "spindle_speed");
    const bite_typed *feed = typed_of(&of->ask, "feed_rate");
    bite_search *search = &of->search;
    double diameter = of->full.diameter;
    double flutes = of->full.flutes;
    memset(search, 0, sizeof *search);
    search->ready = &of->ready;
    search->threads = (uint32_t)of->ask.threads;
    uint32_t usual = of->full.substance == BITE_METAL ? BITE_GOAL_FAST : BITE_GOAL_COOL;
    search->goal = goal == BITE_GOAL_USUAL ? usual : goal;
    search->feed = (double)NAN;
    search->spindle[0] = search->spindle[1] = of->asked.spindle_speed;
    if (!spindle->given) {
        double most = fmin(of->full.spindle_fastest, of->full.tool_turn_limit); /* fmin passes over NaN */
        search->spindle[1] = isnan(most) ? spindle_most : most;
        search->spindle[0] = fmin(isnan(of->full.spindle_slowest) ? spindle_least : of->full.spindle_slowest, search->spindle[1]);
        search->spindle[0] = fmax(search->spindle[0], bite_input_find("spindle_speed")->least);
    }
    search->tooth[0] = tooth_least * diameter;
    search->tooth[1] = tooth_most * diameter;
    if (feed->given && feed->kind == BITE_KIND_TOOTH_FEED) {
        search->tooth[0] = search->tooth[1] = feed->value;
    } else if (feed->given) {
        search->feed = of->asked.feed_rate;
    }
    of->asked.spindle_speed = search->spindle[1];
    of->asked.feed_rate = isnan(search->feed) ? search->tooth[0] * search->spindle[1] * flutes : search->feed;
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        search->margin[i] = first_margin;
    }
}

/* Its depth is the part's own: one pass, as deep as it is asked for. */
static int chamfers(const bite_cut *cut)
{
    return cut->operation == BITE_CHAMFER;
}

static double passes_of(double whole, double one)
{
    return isnan(whole) || isnan(one) ? 1.0 : ceil(whole / one - 1e-9);
}

/* Depth and width of a pass are free where the feature's is said and theirs is not. They begin with what the tool takes at once, so
 * that the cut can be checked. */
static void open_feature(trial *of)
{
    bite_cut *asked = &of->asked;
    bite_parting *parting = &of->parting;
    int mills = asked->operation == BITE_MILL;
    parting->ready = &of->ready;
    parting->depth = typed_of(&of->ask, "depth")->given || chamfers(&of->full) ? (double)NAN : asked->feature_depth;
    parting->width = !mills || !isnan(asked->width) ? (double)NAN : asked->feature_width;
    parting->down = isnan(parting->depth) && !chamfers(&of->full) ? (uint32_t)passes_of(asked->feature_depth, asked->depth) : 1;
    parting->side = isnan(parting->width) && mills ? (uint32_t)passes_of(asked->feature_width, asked->width) : 1;
    if (!isnan(parting->depth)) {
        asked->depth = fmin(parting->depth, of->full.diameter);
    }
    if (!isnan(parting->width)) {
        asked->width = fmin(parting->width, of->full.diameter);
        for (size_t i = 0; i < sizeof certain / sizeof *certain; i++) {
            of->search.margin[certain[i]] = 1.0;
        }
    }
}

static bite_status begin(const bite_ask *ask, const char *tool, uint32_t goal, double confidence, trial *of, bite_error *error)
{
    of->ask = *ask;
    of->confidence = confidence;
    of->spread_count = 0;
    bite_status status = tool == NULL ? BITE_OK : bite_ask_use(&of->ask, BITE_TOOLS, tool, error);
    status = status != BITE_OK ? status : bite_ask_settle(&of->ask, &of->asked, &of->full, of->account, error);
    if (status != BITE_OK) {
        return status;
    }
    set_range(of, goal);
    open_feature(of);
    status = bite_ready_make(&of->asked, &of->ready, error);
    of->full = of->ready.full;
    return status != BITE_OK ? status
                             : bite_spreads_collect(&of->ask, &of->full, of->account, of->spreads, &of->spread_count, error);
}

/* The cut's depth and width as the parting has them. */
static void follow_parting(trial *of)
{
    const bite_cut *ready = &of->ready.full;
    of->asked.depth = of->full.depth = ready->depth;
    of->asked.width = of->full.width = ready->width;
}

static void set_passes(trial *of, uint32_t down, uint32_t side)
{
    bite_passes_set(&of->parting, down, side);
    follow_parting(of);
}

/* The cut at the point. */
static bite_cut cut_at(const trial *of)
{
    bite_cut cut = of->full;
    cut.spindle_speed = of->point.spindle;
    cut.feed_rate = of->point.feed;
    return cut;
}

static bite_status draw_at(const trial *of, bite_result *result, bite_error *error)
{
    bite_cut cut = cut_at(of);
    memset(result, 0, sizeof *result);
    result->struct_size = (uint32_t)sizeof *result;
    bite_drawing drawing = {of->draws, SEED_SEARCHING, of->confidence, of->ask.threads};
    return bite_band_draw(&cut, of->spreads, of->spread_count, &drawing, result, error);
}

/* Limits that no speed and feed can ease. */
static const bite_row_id steady[] = {BITE_ROW_CHIP_PACKING, BITE_ROW_CORNER, BITE_ROW_REACH, BITE_ROW_GAP};

/* Widened no further than it still holds: past that the whole cut would be given up for what others can give way to. */
static void spare_steady(bite_search *search, const bite_result *result)
{
    for (size_t i = 0; i < sizeof steady / sizeof *steady; i++) {
        const bite_row *row = &result->rows[steady[i]];
        if (row->applies && row->use > 0.0 && row->use_high <= 1.0) {
            search->margin[steady[i]] = fmin(search->margin[steady[i]], (1.0 - 1e-9) / row->use);
        }
    }
}

/* A margin tells how far the 95 % end lies over the best estimate; times > 1 widens all. */
static void set_margins(trial *of, const bite_result *result, double times)
{
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        const bite_row *row = &result->rows[i];
        double margin = row->applies && row->use > 0.0 && !isnan(row->use_high) ? row->use_high / row->use : 1.0;
        of->search.margin[i] = fmin(margin_most, 1.0 + times * (fmax(1.0, margin) - 1.0));
    }
    spare_steady(&of->search, result);
}

static void find_passes(trial *of)
{
    of->point = bite_passes_find(&of->search, &of->parting).point;
    follow_parting(of);
}

static void close_in_on_passes(trial *of)
{
    of->point = bite_passes_close_in(&of->search, &of->parting).point;
    follow_parting(of);
}

static void glance_at_passes(trial *of)
{
    of->point = bite_passes_glance(&of->search, &of->parting).point;
    follow_parting(of);
}

/* More than anyone wants to wait for. */
static int too_many(const trial *of)
{
    return isnan(of->parting.width) ? of->parting.down >= PASSES_SENSIBLE
                                    : (uint64_t)of->parting.down * of->parting.side >= 4 * PASSES_SENSIBLE;
}

/* Margins grow until the limits are clear together too. Coarse: for one number of passes after the other; fine: for the one that is
 * kept, where margins found at the point itself follow those that led to it. They may leave nothing: what was clear before is kept.
 * *clear: they are. */
static bite_status settle_chance(trial *of, int coarse, int *clear, bite_error *error)
{
    double target = 0.9 * (1.0 - of->confidence); /* rounding and other draws move it a little */
    double times = 1.0;
    bite_search whole = of->search;
    bite_search clear_search;
    bite_point clear_point = {0.0, 0.0, 0.0, INFINITY, 0, 0};
    bite_status status = BITE_OK;
    *clear = 0;
    for (int i = 0; i < (coarse ? 3 : ROUNDS_OF_CHANCE); i++) {
        bite_result result;
        of->point = bite_optimum_find(&of->search, coarse ? BITE_LOOK_ROUGH : i == 0 ? BITE_LOOK_WHOLE : BITE_LOOK_NEAR);
        status = of->point.worst > 1.0 ? BITE_OK : draw_at(of, &result, error);
        *clear = status == BITE_OK && of->point.worst <= 1.0 && result.chance < target;
        if (status != BITE_OK || of->point.worst > 1.0) {
            break;
        }
        if (*clear) {
            clear_point = of->point;
            clear_search = of->search;
        }
        if (*clear && (coarse || i > 0 || times > 1.0)) {
            break;
        }
        times *= i == 0 ? 1.1 : 1.25;
        set_margins(of, &result, times);
        if (!coarse && of->search.spindle[0] < of->search.spindle[1]) { /* what follows lies near */
            of->search.spindle[0] = fmax(whole.spindle[0], of->point.spindle / 1.6);
            of->search.spindle[1] = fmin(whole.spindle[1], of->point.spindle * 1.6);
        }
    }
    if (status == BITE_OK && !*clear && clear_point.worst <= 1.0) {
        of->point = clear_point;
        of->search = clear_search;
        *clear = 1;
    }
    of->search.spindle[0] = whole.spindle[0];
    of->search.spindle[1] = whole.spindle[1];
    return status;
}

/* A parting whose limits are clear together, with the margins that make them so. */
typedef struct settled {
    int clear;
    bite_parting parting;
    bite_search search;
    bite_point point;
} settled;

/* More passes until the limits are clear together. For the most removal side by side all that are tried count: the first that is
 * clear may be so by hardly feeding at all. */
static bite_status settle_passes(trial *of, settled *best, bite_error *error)
{
    int all = of->search.goal == BITE_GOAL_FAST && !isnan(of->parting.width);
    bite_search before = of->search;
    best->clear = 0;
    for (int i = 0; i < MORE_PASSES; i++) {
        int clear = 0;
        bite_status status = settle_chance(of, 1, &clear, error);
        if (status != BITE_OK) {
            return status;
        }
        if (clear && (!best->clear || bite_optimum_better(&of->point, &best->point))) {
            settled found = {1, of->parting, of->search, of->point};
            *best = found;
        }
        if ((clear && !all) || too_many(of)) {
            return BITE_OK;
        }
        of->search = before;
        if (!bite_passes_more(&of->search, &of->parting)) {
            return BITE_OK;
        }
        follow_parting(of);
    }
    return BITE_OK;
}

/* The depth or width of a pass as it is typed: up, so that the last pass is the thinner one. */
static double typed_depth(double depth, uint32_t units)
{
    double step = units == BITE_INCH ? 25.4e-3 * 2e-4 : 5e-6;
    step = depth > 10.0 * step ? step : 0.1 * step;
    return step * ceil(depth / step - 1e-6);
}

/* A side cut is settled at the depth and width that are typed: their rounding alone may use up the room. The whole tool's width
 * stays what it is. */
static void type_parting(trial *of, uint32_t units)
{
    bite_cut *full = &of->ready.full;
    bite_cut *asked = &of->ready.asked;
    if (isnan(of->parting.width)) {
        return;
    }
    full->width = asked->width = fmin(typed_depth(full->width, units), full->diameter);
    of->parting.side = (uint32_t)passes_of(of->parting.width, full->width); /* many a little wider may make fewer */
    if (!isnan(of->parting.depth)) {
        full->depth = asked->depth = typed_depth(full->depth, units);
        of->parting.down = (uint32_t)passes_of(of->parting.depth, full->depth);
    }
    follow_parting(of);
}

/* Margins at the best point so far, and the number of passes that is clear under them: more where it is not, and the first again
 * where more do not help. */
static bite_status settle(trial *of, uint32_t units, bite_error *error)
{
    bite_result result;
    settled best;
    int clear = 0;
    bite_status status = draw_at(of, &result, error);
    if (status != BITE_OK) {
        return status;
    }
    set_margins(of, &result, 1.0);
    find_passes(of);
    bite_parting first = of->parting;
    if (!isnan(first.depth) || !isnan(first.width)) {
        status = settle_passes(of, &best, error);
        const bite_parting *kept = best.clear ? &best.parting : &first;
        of->search = best.clear ? best.search : of->search;
        set_passes(of, kept->down, kept->side);
        type_parting(of, units);
    }
    return status != BITE_OK ? status : settle_chance(of, 0, &clear, error);
}

/* ---- what a person types ---- */

static double step_of(double number)
{
    static const double steps[] = {1.0, 2.0, 5.0};
    double decade = pow(10.0, floor(log10(0.05 * number)));
    for (int i = 2; i >= 0; i--) {
        if (steps[i] * decade <= 0.05 * number) {
            return steps[i] * decade;
        }
    }
    return decade;
}

/* The better of the rounded neighbours, by the search's own judge. */
static void round_point(trial *of, uint32_t units)
{
    double rpm = 1.0 / 60.0;
    double speed = (units == BITE_INCH ? 25.4e-3 : 1e-3) / 60.0;
    double n_step = (of->point.spindle >= 2000.0 * rpm ? 100.0 : 10.0) * rpm;
    double f_step = step_of(of->point.feed / speed) * speed;
    bite_point best = {0.0, 0.0, INFINITY, INFINITY, 0, 0};
    int n_fixed = of->search.spindle[0] == of->search.spindle[1];
    int f_fixed = !isnan(of->search.feed);
    for (int i = 0; i < 4; i++) {
        double n = n_fixed ? of->point.spindle : n_step * (floor(of->point.spindle / n_step * (1.0 + 1e-9)) + i % 2);
        double f = f_fixed ? of->point.feed : f_step * (floor(of->point.feed / f_step * (1.0 + 1e-9)) + i / 2);
        if (n > 0.0 && f > 0.0 && n <= of->search.spindle[1] * (1.0 + 1e-9)) {
            bite_point point = bite_optimum_at(&of->search, n, f);
            if (bite_optimum_better(&point, &best)) {
                best = point;
            }
        }
    }
    if (best.spindle > 0.0 && of->search.tooth[0] < of->search.tooth[1]) {
        of->point = best;
    }
}

/* Of a tool that is only named beside the chosen one. */
static void round_candidate(bite_candidate *of, uint32_t units)
{
    double speed = (units == BITE_INCH ? 25.4e-3 : 1e-3) / 60.0;
    if (of->tool[0] != 0) {
        double step = step_of(of->feed / speed) * speed;
        of->feed = step * floor(of->feed / step);
        of->spindle = floor(of->spindle * 0.6) / 0.6; /* whole hundreds a minute */
    }
}

/* A point stands in it whatever the locale of the host. */
static bite_status set_number(bite_ask *ask, const char *input, double number, const char *unit, bite_error *error)
{
    char digits[40];
    char text[BITE_TYPED_MOST];
    (void)bite_number_write(number, 10, digits, sizeof digits);
    (void)snprintf(text, sizeof text, "%s%s", digits, unit);
    return bite_ask_set(ask, input, text, error);
}

static bite_status type_in(trial *of, uint32_t units, bite_error *error)
{
    bite_status status = set_number(&of->ask, "spindle_speed", 60.0 * of->point.spindle, "rpm", error);
    if (status == BITE_OK) {
        status = set_number(&of->ask, "feed_rate", 60e3 * of->point.feed, "mm/min", error);
    }
    if (status == BITE_OK && !isnan(of->parting.depth)) {
        of->full.depth = of->ready.asked.depth = of->ready.full.depth = typed_depth(of->full.depth, units);
        status = set_number(&of->ask, "depth", 1e3 * of->full.depth, "mm", error);
    }
    if (status == BITE_OK && !isnan(of->parting.width)) {
        status = set_number(&of->ask, "width", 1e3 * of->full.width, "mm", error);
    }
    return status;
}

/* ---- what holds it back ---- */

/* What a percent of room gives, looked for about the chosen speed: the search as it is, and what it finds. */
typedef struct around {
    bite_search search;
    bite_point found;
} around;

static around look_around(const trial *of)
{
    around at = {of->search, of->point};
    at.found = bite_optimum_about(&at.search, &of->point);
    return at;
}

/* Percent of the goal. */
static double gain_of(const around *at, const bite_search *wider)
{
    bite_point found = bite_optimum_about(wider, &at->found);
    double gain = at->found.goal - found.goal;
    return 100.0 * (wider->goal == BITE_GOAL_FAST ? gain : gain / fabs(at->found.goal));
}

static double gain_of_row(const around *at, uint32_t row)
{
    bite_search wider = at->search;
    wider.margin[row] *= 0.99;
    return gain_of(at, &wider);
}

static double gain_of_slowest(const around *at)
{
    bite_search slower = at->search;
    slower.spindle[0] *= 0.99;
    return gain_of(at, &slower);
}

static double gain_of_tooth(const around *at)
{
    bite_search larger = at->search;
    larger.tooth[1] *= 1.01;
    return gain_of(at, &larger);
}

/* Rows near the foremost use; where all hold, those that hold the choice back. */
typedef struct holdings {
    const around *at;
    size_t count;
    struct holding {
        uint32_t row; /* BITE_ROW_SPINDLE_SLOW: the slowest speed; BITE_ROW_COUNT: the largest feed per tooth looked for */
        uint32_t end; /* it is an end of what is chosen from */
        double gain;
    } of[BITE_BINDING_MOST];
} holdings;

static void find_gain(void *work, size_t place)
{
    holdings *all = work;
    struct holding *held = &all->of[place];
    held->gain = !held->end                   ? gain_of_row(all->at, held->row)
                 : held->row < BITE_ROW_COUNT ? gain_of_slowest(all->at)
                                              : gain_of_tooth(all->at);
}

static void hold(holdings *all, uint32_t row, uint32_t end)
{
    if (all->count < BITE_BINDING_MOST) {
        struct holding held = {row, end, (double)NAN};
        all->of[all->count++] = held;
    }
}

/* The ends of what is chosen from, where the choice lies at one. */
static void hold_ends(const trial *of, holdings *all)
{
    const bite_search *search = &of->search;
    double tooth = of->point.feed / (of->point.spindle * of->full.flutes);
    if (search->spindle[0] < search->spindle[1] && of->point.spindle < 1.01 * search->spindle[0] &&
        search->goal != BITE_GOAL_FAST) {
        hold(all, BITE_ROW_SPINDLE_SLOW, 1);
    }
    if (isnan(search->feed) && search->tooth[0] < search->tooth[1] && tooth > 0.96 * search->tooth[1]) {
        hold(all, BITE_ROW_COUNT, 1);
    }
}

static void find_binding(trial *of, bite_choice *choice)
{
    bite_ready ready = of->ready;
    bite_stretch straight;
    bite_row rows[BITE_ROW_COUNT];
    int holds = of->point.worst <= 1.0;
    double least = holds ? 0.93 : fmax(1.0, 0.9 * of->point.worst); /* rounding takes a few percent */
    holdings all = {NULL, 0, {{0, 0, 0.0}}};
    ready.asked.spindle_speed = ready.full.spindle_speed = of->point.spindle;
    ready.asked.feed_rate = ready.full.feed_rate = of->point.feed;
    bite_ready_judge(&ready, &straight, rows);
    if (holds) {
        hold_ends(of, &all);
    }
    for (uint32_t i = 0; i < BITE_ROW_COUNT; i++) {
        if (rows[i].applies && !rows[i].advisory && rows[i].use * of->search.margin[i] >= least) {
            hold(&all, i, 0);
        }
    }
    if (holds && all.count > 0) {
        around at = look_around(of);
        at.search.threads = 1; /* the rows go at once, each search alone */
        all.at = &at;
        bite_parallel(all.count, of->ask.threads, find_gain, &all);
    }
    for (size_t i = 0; i < all.count; i++) {
        bite_holding held = {all.of[i].row, 0, all.of[i].gain};
        choice->binding[choice->binding_count++] = held;
    }
}

static void note(const trial *of, bite_candidate *to)
{
    to->holds = of->point.worst <= 1.0;
    to->passes = of->parting.down;
    to->side_passes = of->parting.side;
    to->spindle = of->point.spindle;
    to->feed = of->point.feed;
    to->depth = of->full.depth;
    to->width = of->full.operation == BITE_MILL && !isnan(of->full.feature_width) ? of->full.width : (double)NAN;
    to->goal = of->point.goal;
    to->worst = of->point.worst;
}

/* For the most removal, a deeper pass counts; the goal of a trial holds it already. */
static int better(const bite_candidate *a, const bite_candidate *b)
{
    bite_point first = {a->spindle, a->feed, a->goal, a->worst, 0, 0};
    bite_point second = {b->spindle, b->feed, b->goal, b->worst, 0, 0};
    return bite_optimum_better(&first, &second);
}

/* A coarse look with margins, and once more where the joint chance asks for it. */
static bite_status settle_quick(trial *of, bite_error *error)
{
    bite_result result;
    int clear = 0;
    bite_status status = draw_at(of, &result, error);
    if (status == BITE_OK) {
        set_margins(of, &result, 1.0);
        close_in_on_passes(of);
        status = settle_chance(of, 1, &clear, error);
    }
    of->ask.quick = 1;
    return status;
}

static bite_status finish(trial *of, const bite_choice_options *options, bite_choice *choice, bite_error *error)
{
    round_point(of, options->units);
    round_candidate(&choice->second, options->units);
    bite_status status = type_in(of, options->units, error);
    status = status != BITE_OK ? status : bite_answer_new(&of->ask, options->draws, options->confidence, &choice->answer, error);
    if (status == BITE_OK) {
        choice->clear = bite_answer_result(choice->answer)->verdict == BITE_CLEAR;
        choice->goal = of->search.goal;
        if (options->effort == BITE_EFFORT_WHOLE) {
            find_binding(of, choice);
        }
        note(of, &choice->best);
        choice->best.holds = choice->clear; /* all draws judge, not the margins */
    }
    return status;
}

/* ---- tools ---- */

/* One tool, which does not compete. */
static int tool_is_settled(const bite_choice_options *options)
{
    return options->tool_count == 0 || (options->tool_count == 1 && strcmp(options->tools[0], "any") != 0);
}

static bite_status try_tool(const bite_ask *ask, const char *tool, const bite_choice_options *options, trial *room,
                            bite_choice *choice, bite_error *error)
{
    bite_candidate seen;
    bite_status status = begin(ask, tool, options->goal, options->confidence, room, error);
    if (status != BITE_OK) {
        return status;
    }
    if (options->effort == BITE_EFFORT_QUICK) {
        close_in_on_passes(room);
    } else if (tool_is_settled(options)) {
        find_passes(room);
    } else {
        glance_at_passes(room);
    }
    memset(&seen, 0, sizeof seen);
    (void)snprintf(seen.tool, sizeof seen.tool, "%.*s", BITE_TYPED_MOST - 1, tool == NULL ? room->ask.tool_name : tool);
    note(room, &seen);
    choice->tools++;
    if (choice->tools == 1 || better(&seen, &choice->best)) {
        choice->second = choice->best;
        choice->best = seen;
    } else if (choice->second.tool[0] == 0 || better(&seen, &choice->second)) {
        choice->second = seen;
    }
    return BITE_OK;
}

/* A tool of the table that cannot make this cut at all is passed over; one that was named is not. */
static bite_status try_table(const bite_ask *ask, const bite_choice_options *options, trial *room, bite_choice *choice,
                             bite_error *error)
{
    size_t count = bite_library_count(ask->library, BITE_TOOLS);
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        bite_status status = bite_library_item(ask->library, BITE_TOOLS, i, &item, error);
        status = status != BITE_OK ? status : try_tool(ask, item.name, options, room, choice, error);
        if (status == BITE_NO_MEMORY) {
            return status;
        }
    }
    return choice->tools > 0 ? BITE_OK : BITE_NO_ANSWER;
}

static bite_status try_all(const bite_ask *ask, const bite_choice_options *options, trial *room, bite_choice *choice,
                           bite_error *error)
{
    if (options->tool_count == 0) {
        return try_tool(ask, NULL, options, room, choice, error);
    }
    for (size_t i = 0; i < options->tool_count; i++) {
        bite_status status = strcmp(options->tools[i], "any") == 0 ? try_table(ask, options, room, choice, error)
                                                                   : try_tool(ask, options->tools[i], options, room, choice, error);
        if (status != BITE_OK) {
            return status;
        }
    }
    return BITE_OK;
}

static bite_status check_options(const bite_ask *ask, const bite_choice_options *options, bite_choice **choice, bite_error *error)
{
    if (ask == NULL || choice == NULL || options == NULL || options->struct_size != sizeof *options ||
        options->goal > BITE_GOAL_USUAL || options->units > BITE_INCH || options->effort > BITE_EFFORT_QUICK ||
        (options->tool_count > 0 && options->tools == NULL) || (options->step_count > 0 && options->steps == NULL) ||
        !(options->confidence >= 0.5 && options->confidence <= 0.999)) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "an ask, options of this library's size, and a place for the choice were expected");
        bite_error_key(error, "options");
        return BITE_BAD_ARGUMENT;
    }
    return BITE_OK;
}

static bite_status choose(const bite_ask *ask, const bite_choice_options *options, bite_choice **choice, bite_error *error)
{
    bite_status status = BITE_OK;
    bite_choice *fresh = bite_memory_new(&ask->allocator, 1, sizeof *fresh);
    trial *room = bite_memory_new(&ask->allocator, 1, sizeof *room);
    if (fresh == NULL || room == NULL) {
        bite_memory_free(&ask->allocator, fresh);
        bite_memory_free(&ask->allocator, room);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice");
    }
    room->draws = options->effort == BITE_EFFORT_QUICK ? DRAWS_QUICK : DRAWS_SEARCHING;
    memset(fresh, 0, sizeof *fresh);
    fresh->allocator = ask->allocator;
    status = try_all(ask, options, room, fresh, error);
    char name[BITE_TYPED_MOST];
    memcpy(name, fresh->best.tool, sizeof name);
    const char *tool = options->tool_count == 0 ? NULL : name;
    if (status == BITE_OK && !tool_is_settled(options)) { /* else its trial still stands */
        status = begin(ask, tool, options->goal, options->confidence, room, error);
        if (status == BITE_OK) {
            find_passes(room);
        }
    }
    if (status == BITE_OK) {
        status = options->effort == BITE_EFFORT_QUICK ? settle_quick(room, error) : settle(room, options->units, error);
    }
    status = status != BITE_OK ? status : finish(room, options, fresh, error);
    bite_memory_free(&ask->allocator, room);
    if (status != BITE_OK) {
        bite_choice_free(fresh);
        return status;
    }
    *choice = fresh;
    return BITE_OK;
}

/* A choice that is clear before one that is not, then by goal or by how far it is over. */
static int choice_better(const bite_choice *a, const bite_choice *b)
{
    if (a->clear != b->clear) {
        return a->clear > b->clear;
    }
    return a->clear ? a->best.goal < b->best.goal : a->best.worst < b->best.worst; /* all draws have judged, not the margins */
}

/* A spindle with steps: the best of each. A step that the spindle cannot turn is passed over. */
static bite_status choose_step(const bite_ask *ask, const bite_choice_options *options, bite_choice **choice, bite_error *error)
{
    bite_ask *stepped = bite_memory_new(&ask->allocator, 1, sizeof *stepped);
    bite_choice *best = NULL;
    bite_status status = stepped == NULL ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a choice") : BITE_OK;
    for (size_t i = 0; status == BITE_OK && i < options->step_count; i++) {
        bite_choice *found = NULL;
        *stepped = *ask;
        status = set_number(stepped, "spindle_speed", 60.0 * options->steps[i], "rpm", error);
        status = status != BITE_OK ? status : choose(stepped, options, &found, error);
        if (status == BITE_OK && (best == NULL || choice_better(found, best))) {
            bite_choice *other = best;
            best = found;
            found = other;
        }
        bite_choice_free(found);
    }
    bite_memory_free(&ask->allocator, stepped);
    if (status != BITE_OK) {
        bite_choice_free(best);
        return status;
    }
    *choice = best;
    return BITE_OK;
}

bite_status bite_choice_new(const bite_ask *ask, const bite_choice_options *options, bite_choice **choice, bite_error *error)
{
    bite_error_clear(error);
    bite_status status = check_options(ask, options, choice, error);
    if (status != BITE_OK) {
        return status;
    }
    int fixed = typed_of(ask, "spindle_speed")->given != 0;
    return options->step_count > 0 && !fixed ? choose_step(ask, options, choice, error) : choose(ask, options, choice, error);
}

void bite_choice_free(bite_choice *choice)
{
    if (choice != NULL) {
        bite_allocator allocator = choice->allocator;
        bite_answer_free(choice->answer);
        bite_memory_free(&allocator, choice);
    }
}

const bite_answer *bite_choice_answer(const bite_choice *choice)
{
    return choice == NULL ? NULL : choice->answer;
}

size_t bite_choice_passes(const bite_choice *choice)
{
    return choice == NULL ? 0 : choice->best.passes;
}

size_t bite_choice_side_passes(const bite_choice *choice)
{
    return choice == NULL ? 0 : choice->best.side_passes;
}

int bite_choice_binding(const bite_choice *choice, size_t index, bite_row_id *row, double *gain)
{
    if (choice == NULL || row == NULL || gain == NULL || index >= choice->binding_count) {
        return 0;
    }
    *row = (bite_row_id)choice->binding[index].row;
    *gain = choice->binding[index].gain;
    return 1;
}
