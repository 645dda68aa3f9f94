/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What do I type in.
 *
 * Limits enter the search with margins, the 95 % end of a row's use over its best estimate, taken from draws at the best point so
 * far; two rounds settle them. Rows that are clear one by one may be too likely together: then all margins grow until the joint
 * chance keeps to the confidence. What comes out is rounded to what a person types, and judged again with all draws.
 */
#include "core/job/trial.h"
#include "core/base/error.h"
#include "core/base/vocabulary.h"
#include "core/cut/band.h"
#include "core/job/spread.h"
#include <math.h>
#include <string.h>

#define DRAWS_SEARCHING 256
#define DRAWS_QUICK 96
#define SEED_SEARCHING 20261126
#define PASSES_SENSIBLE 24 /* over a depth; with passes side by side in all as many at each of four */
#define ROUNDS_OF_CHANCE 5
#define MORE_PASSES 6
#define ROWS_EASED 4

/* Before any draw was made. */
static const double first_margin = 1.3;
/* What goes in or does not, by sizes alone, needs none: over many pairs of passes it would only hide what holds. */
static const bite_row_id certain[] = {BITE_ROW_CORNER, BITE_ROW_REACH, BITE_ROW_GAP};
static const double margin_most = 4.0;

/* The range that is searched where nothing narrows it: feed per tooth in diameters, spindle where no machine is known. */
static const double tooth_least = 5e-4;
static const double drill_least = 3e-3; /* of a turn: less rubs and hardens (memory) */
static const double spindle_least = 1000.0 / 60.0;
/* No plastic gains by an edge that creeps: published coolest settings of acrylic lie at 9 to 20 m/min (1000 rpm with end mills of
 * millimetres, 7000 rpm with 1 mm). */
static const double edge_least = 9.0 / 60.0; /* m/s */
/* A drill's lips rub in their own chips: a maker of plastics drills 13 mm at 1500 rpm and 10 mm at 1000 rpm, 31 to 61 m/min, where
 * mills run at hundreds. */
static const double drill_edge_most = 61.0 / 60.0; /* m/s, not metals */
static const double spindle_most = 60000.0 / 60.0;

/* What shops seldom go beyond, whatever the limits that are reckoned leave: for what is not reckoned, a nick in an edge, a chip
 * that stays, a lip that digs in, comes first there. In diameters. */
static const struct {
    uint32_t operation;
    uint32_t metal; /* 1: of metals, 0: of all else */
    double from;    /* m, of tools as wide and wider */
    double share;   /* of a tooth; of a drill, of its turn */
} usual_most[] = {
    /* twist drills of 3 to 25 mm: 0.015 to 0.03 diameters a turn, and no more (memory: handbook tables of drill feeds) */
    {BITE_DRILL_HOLE, 0, 0.0, 0.03},
    {BITE_DRILL_HOLE, 1, 0.0, 0.03},
    /* makers' tables of small carbide mills end at 0.023 (3 mm), 0.028 (2 mm), 0.017 (6 mm); below 1 mm, in shallow passes, 0.05 to
     * 0.11 are printed (steel) */
    {BITE_MILL, 1, 1e-3, 0.03},
    /* routers in acrylic: 0.08 to 0.38 mm a tooth with 8 to 13 mm (a sheet maker's manual); shops seldom run more (memory) */
    {BITE_MILL, 1, 0.0, 0.05},
    {BITE_MILL, 0, 0.0, 0.05},
    {BITE_CHAMFER, 1, 0.0, 0.03},
    {BITE_CHAMFER, 0, 0.0, 0.05},
};

/* Of metals that press harder than this (steels, stainless, titanium), half of it: a maker's start values are 0.002 to 0.010
 * diameters there, his upper ends about 0.017. */
static const double hard_pressure = 1.5e9; /* Pa, K */
static const double hard_share = 0.5;

/* The largest feed per tooth that is chosen, m. A light side cut thins the chip, at most to half (one maker's table goes as
 * 1/(2 sqrt(q(1 - q))), q = ae/D). What is brittle is not fed chips that break its edges out, though that limit is advice to who
 * types his own. */
static double tooth_most(const bite_cut *cut)
{
    double q = cut->operation == BITE_MILL && !isnan(cut->width) ? fmin(0.5, cut->width / cut->diameter) : 0.5;
    double thinned = fmin(2.0, 0.5 / sqrt(q * (1.0 - q)));
    double share = 0.05;
    for (size_t i = 0; i < sizeof usual_most / sizeof *usual_most; i++) {
        uint32_t metal = cut->substance == BITE_METAL;
        if (cut->operation == usual_most[i].operation && metal == usual_most[i].metal && cut->diameter >= usual_most[i].from) {
            share = cut->operation == BITE_DRILL_HOLE ? usual_most[i].share / cut->flutes : usual_most[i].share;
            break;
        }
    }
    if (cut->substance == BITE_METAL && cut->operation != BITE_DRILL_HOLE && cut->pressure_t > hard_pressure) {
        share *= hard_share;
    }
    double most = share * cut->diameter;
    if (cut->chip_edge > 0.0) {
        double step = cut->flutes < 2.0 ? 0.0 : cut->runout * sin(M_PI / cut->flutes);
        most = fmin(most, fmax(cut->chip_edge - step, 0.2 * cut->chip_edge));
    }
    return most * thinned;
}

const bite_typed *bite_trial_typed(const bite_ask *ask, const char *name)
{
    return &ask->typed[bite_input_index(bite_input_find(name))];
}

/* From the slowest to the fastest speed that is looked at, tooth[0] being known: what the machine and the tool turn, of plastics no
 * edge that creeps and no drill that burns, and no feed that is too slow to be typed. */
static void set_spindles(const bite_cut *full, bite_search *search)
{
    double turn = M_PI * full->diameter;                                 /* of the edge, m */
    double fastest = fmin(full->spindle_fastest, full->tool_turn_limit); /* fmin passes over NaN */
    double most = isnan(fastest) ? spindle_most : fastest;
    double least = fmin(isnan(full->spindle_slowest) ? spindle_least : full->spindle_slowest, most);
    least = fmax(least, bite_input_find("spindle_speed")->least);
    double creeps = full->substance == BITE_METAL ? 0.0 : edge_least / turn;
    least = fmin(fmax(least, creeps), most);
    if (full->operation == BITE_DRILL_HOLE && full->substance != BITE_METAL) {
        most = fmax(least, fmin(most, drill_edge_most / turn));
    }
    double untyped = bite_input_find("feed_rate")->least * 1.01 / (search->tooth[0] * full->flutes);
    search->spindle[0] = fmin(fmax(least, untyped), most);
    search->spindle[1] = most;
}

/* What is free, and within which range. Fills the cut with something in it, so that it can be checked. */
static void set_range(bite_trial *of, uint32_t goal)
{
    const bite_typed *spindle = bite_trial_typed(&of->ask, "spindle_speed");
    const bite_typed *feed = bite_trial_typed(&of->ask, "feed_rate");
    bite_search *search = &of->search;
    double diameter = of->full.diameter;
    double flutes = of->full.flutes;
    memset(search, 0, sizeof *search);
    search->ready = &of->ready;
    search->threads = (uint32_t)of->ask.threads;
    uint32_t melts = of->full.substance == BITE_AMORPHOUS || of->full.substance == BITE_CRYSTALLINE;
    uint32_t usual = melts ? BITE_GOAL_COOL : BITE_GOAL_FAST;
    search->goal = goal == BITE_GOAL_USUAL ? usual : goal;
    search->feed = (double)NAN;
    search->tooth[0] = (of->full.operation == BITE_DRILL_HOLE ? drill_least / flutes : tooth_least) * diameter;
    search->tooth[1] = tooth_most(&of->full);
    search->spindle[0] = search->spindle[1] = of->asked.spindle_speed;
    if (!spindle->given) {
        set_spindles(&of->full, search);
    }
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
static void open_feature(bite_trial *of)
{
    bite_cut *asked = &of->asked;
    bite_parting *parting = &of->parting;
    int mills = asked->operation == BITE_MILL;
    parting->ready = &of->ready;
    parting->depth = bite_trial_typed(&of->ask, "depth")->given || chamfers(&of->full) ? (double)NAN : asked->feature_depth;
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

bite_status bite_trial_begin(const bite_ask *ask, const char *tool, uint32_t goal, double confidence, bite_trial *of,
                             bite_error *error)
{
    of->ask = *ask;
    of->confidence = confidence;
    of->draws = DRAWS_SEARCHING;
    of->strictness = 0.9; /* rounding and other draws move the chance a little */
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

void bite_trial_copy(const bite_trial *from, bite_trial *to)
{
    *to = *from;
    to->search.ready = &to->ready;
    to->parting.ready = &to->ready;
}

/* The cut's depth and width as the parting has them. */
static void follow_parting(bite_trial *of)
{
    const bite_cut *ready = &of->ready.full;
    of->asked.depth = of->full.depth = ready->depth;
    of->asked.width = of->full.width = ready->width;
}

static void set_passes(bite_trial *of, uint32_t down, uint32_t side)
{
    bite_passes_set(&of->parting, down, side);
    follow_parting(of);
}

/* The cut at the point. */
static bite_cut cut_at(const bite_trial *of)
{
    bite_cut cut = of->full;
    cut.spindle_speed = of->point.spindle;
    cut.feed_rate = of->point.feed;
    return cut;
}

static bite_status draw_at(const bite_trial *of, bite_result *result, bite_error *error)
{
    bite_cut cut = cut_at(of);
    memset(result, 0, sizeof *result);
    result->struct_size = (uint32_t)sizeof *result;
    bite_drawing drawing = {
        .draws = of->draws, .seed = SEED_SEARCHING, .confidence = of->confidence, .threads = of->ask.threads, .limits_only = 1};
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

/* What sizes alone make impossible no speed and feed can ease: it is said, and all else is chosen as if it held. */
static void leave_impossible(bite_search *search, const bite_result *result)
{
    for (size_t i = 0; i < sizeof certain / sizeof *certain; i++) {
        const bite_row *row = &result->rows[certain[i]];
        if (row->applies && row->use > 1.0) {
            search->margin[certain[i]] = 0.0;
        }
    }
}

/* A margin tells how far the 95 % end lies over the best estimate; times > 1 widens all. */
static void set_margins(bite_trial *of, const bite_result *result, double times)
{
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        const bite_row *row = &result->rows[i];
        double margin = row->applies && row->use > 0.0 && !isnan(row->use_high) ? row->use_high / row->use : 1.0;
        of->search.margin[i] = fmin(margin_most, 1.0 + times * (fmax(1.0, margin) - 1.0));
    }
    spare_steady(&of->search, result);
    leave_impossible(&of->search, result);
}

void bite_trial_find_passes(bite_trial *of)
{
    of->point = bite_passes_find(&of->search, &of->parting).point;
    follow_parting(of);
}

void bite_trial_close_in(bite_trial *of)
{
    of->point = bite_passes_close_in(&of->search, &of->parting).point;
    follow_parting(of);
}

void bite_trial_glance(bite_trial *of)
{
    of->point = bite_passes_glance(&of->search, &of->parting).point;
    follow_parting(of);
}

/* More than anyone wants to wait for. */
static int too_many(const bite_trial *of)
{
    return isnan(of->parting.width) ? of->parting.down >= PASSES_SENSIBLE
                                    : (uint64_t)of->parting.down * of->parting.side >= 4 * PASSES_SENSIBLE;
}

/* What follows lies near the point that was found. */
static void look_nearby(bite_trial *of, const bite_search *whole)
{
    if (whole->spindle[0] < whole->spindle[1]) {
        of->search.spindle[0] = fmax(whole->spindle[0], of->point.spindle / 1.6);
        of->search.spindle[1] = fmin(whole->spindle[1], of->point.spindle * 1.6);
    }
}

/* Margins grow until the limits are clear together too. Coarse: for one number of passes after the other; fine: for the one that is
 * kept, where margins found at the point itself follow those that led to it. They may leave nothing: what was clear before is kept.
 * *clear: they are. */
static bite_status settle_chance(bite_trial *of, int coarse, int *clear, bite_error *error)
{
    double target = of->strictness * (1.0 - of->confidence);
    double times = 1.0;
    double likely = 1.0;          /* margins this wide left too much chance */
    double clearly = (double)NAN; /* and these did not */
    bite_search whole = of->search;
    bite_search clear_search;
    bite_point clear_point = {0.0, 0.0, 0.0, INFINITY, 0, 0};
    bite_status status = BITE_OK;
    *clear = 0;
    for (int i = 0; i < (coarse ? 3 : ROUNDS_OF_CHANCE); i++) {
        bite_result result;
        of->point = bite_optimum_find(&of->search, coarse ? BITE_LOOK_ROUGH : i == 0 ? BITE_LOOK_WHOLE : BITE_LOOK_NEAR);
        status = of->point.worst > 1.0 ? BITE_OK : draw_at(of, &result, error);
        of->chance = of->point.worst > 1.0 ? of->point.worst : status == BITE_OK ? result.chance : 1.0;
        *clear = status == BITE_OK && of->point.worst <= 1.0 && result.chance < target;
        if (status != BITE_OK || of->point.worst > 1.0) {
            break;
        }
        if (*clear && (clear_point.worst > 1.0 || i == 1 || bite_optimum_better(&of->point, &clear_point))) {
            clear_point = of->point;
            clear_search = of->search;
        }
        if (*clear && (coarse || (i > 0 && result.chance > 0.7 * target))) {
            break;
        }
        if (*clear && i > 0) { /* wider than they need be */
            clearly = times;
        } else if (!*clear) {
            likely = times;
        }
        times = !isnan(clearly) ? sqrt(likely * clearly) : times * (i == 0 ? 1.1 : 1.25);
        set_margins(of, &result, times);
        if (!coarse) {
            look_nearby(of, &whole);
        }
    }
    if (status == BITE_OK && clear_point.worst <= 1.0) {
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
    double chance; /* where none is clear: the least there was, as of a trial */
    bite_parting parting;
    bite_search search;
    bite_point point;
} settled;

/* More passes until the limits are clear together. For the most removal the first that is clear may be so by hardly feeding at all:
 * side by side all that are tried count, over a depth they go on while they gain. */
static bite_status settle_passes(bite_trial *of, settled *best, bite_error *error)
{
    int fast = of->search.goal == BITE_GOAL_FAST;
    int all = fast && !isnan(of->parting.width);
    bite_search before = of->search;
    best->clear = 0;
    best->chance = INFINITY;
    for (int i = 0; i < MORE_PASSES; i++) {
        int clear = 0;
        bite_status status = settle_chance(of, 1, &clear, error);
        if (status != BITE_OK) {
            return status;
        }
        int gains = clear && (!best->clear || bite_optimum_better(&of->point, &best->point));
        int loses = clear && best->clear && !gains;
        if (gains) {
            settled found = {1, of->chance, of->parting, of->search, of->point};
            *best = found;
        } else if (!clear && !best->clear && of->chance < (of->chance < 1.0 ? 0.8 : 0.98) * best->chance) {
            settled found = {0, of->chance, of->parting, of->search, of->point};
            *best = found;
        }
        if ((clear && !fast) || (loses && !all) || too_many(of)) {
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

/* A side cut is settled at the depth and width that are typed: their rounding alone may use up the room. The whole tool's width
 * stays what it is. */
static void type_parting(bite_trial *of, uint32_t units)
{
    bite_cut *full = &of->ready.full;
    bite_cut *asked = &of->ready.asked;
    if (isnan(of->parting.width)) {
        return;
    }
    full->width = asked->width = fmin(bite_type_depth(full->width, units), full->diameter);
    of->parting.side = (uint32_t)passes_of(of->parting.width, full->width); /* many a little wider may make fewer */
    if (!isnan(of->parting.depth)) {
        full->depth = asked->depth = bite_type_depth(full->depth, units);
        of->parting.down = (uint32_t)passes_of(of->parting.depth, full->depth);
    }
    follow_parting(of);
}

/* Where no speed and feed gives a limit its margin, though it holds at best estimates, it is kept at its least and all others are
 * looked for by the goal: else the feed that is left would be any. */
static void ease_what_cannot_be(bite_trial *of)
{
    bite_search before = of->search;
    bite_point least = of->point;
    for (int i = 0; i < ROWS_EASED && of->point.worst > 1.0; i++) {
        double *margin = &of->search.margin[of->point.row];
        if (!(*margin >= of->point.worst)) { /* over at best estimates */
            break;
        }
        *margin = fmax(1.0, (1.0 - 1e-4) * *margin / of->point.worst);
        of->point = bite_optimum_find(&of->search, BITE_LOOK_WHOLE);
    }
    if (of->point.worst > 1.0) {
        of->search = before;
        of->point = least;
    }
}

/* K, where nothing softens: warm to the hand; of metals half of what turns steel yellow or lets tempered aluminium age within hours
 * (estimate). */
static const double warm[] = {20.0, 100.0};

/* A goal is as good as met at half of a limit's room, or a tenth of it above the best that can be: of the surface the room up to
 * softening, of uses, marks and errors what is asked for. Cooler than that is not worth a spindle that hardly turns. */
static double as_good(const bite_trial *of, const bite_result *held, uint32_t wanted, double goal)
{
    const double share = 0.1;
    const double half = 0.5;
    const double spared = 0.8; /* of uses with their margins: a fifth of the room is left where 95 % of the draws lie */
    const bite_row *soft = &held->rows[BITE_ROW_SOFTENING];
    if (wanted == BITE_GOAL_COOL) {
        return soft->applies && soft->room > 0.0 ? fmax(goal + share * soft->room, half * soft->room)
                                                 : fmax((1.0 + share) * goal, warm[of->full.substance == BITE_METAL]);
    }
    return fmin(1.0, fmax(goal + share, wanted == BITE_GOAL_GENTLE ? spared : half));
}

/* Margins no wider than a point that holds can bear: what no setting eases would else leave nothing. Returns how much of the
 * limits' room that point then uses. */
static double keep_within_reach(bite_search *search, const bite_result *held)
{
    double most = 0.0;
    for (int i = 0; i < BITE_ROW_COUNT; i++) {
        const bite_row *row = &held->rows[i];
        if (row->applies && !row->advisory && row->use > 0.0) {
            search->margin[i] = fmin(search->margin[i], fmax(1.0, (1.0 - 1e-4) / row->use));
            most = fmax(most, search->margin[i] * row->use);
        }
    }
    return most;
}

/* The next try: margins a little wider about the point that was found, where that left too much chance; the whole range where near
 * by nothing was left. */
static bite_effort try_again(bite_trial *of, const bite_search *before, const bite_result *held, const bite_result *found,
                             double times)
{
    if (of->point.worst > 1.0) {
        of->search.spindle[0] = before->spindle[0];
        of->search.spindle[1] = before->spindle[1];
        return BITE_LOOK_WHOLE;
    }
    set_margins(of, found, times);
    double uses = keep_within_reach(&of->search, held);
    if (of->search.capped == BITE_GOAL_GENTLE) { /* which goes by the margins */
        of->search.cap = as_good(of, held, BITE_GOAL_GENTLE, uses);
    }
    look_nearby(of, before);
    return BITE_LOOK_NEAR;
}

/* The fastest of what meets the goal as well: no likelier to go over than the point that meets it best. */
static bite_status hasten(bite_trial *of, bite_error *error)
{
    const int rounds = 8;
    bite_search before = of->search;
    bite_point best = of->point;
    bite_result result;
    bite_status status = best.worst > 1.0 || before.goal == BITE_GOAL_FAST ? BITE_NO_ANSWER : draw_at(of, &result, error);
    if (status != BITE_OK || isnan(result.values[BITE_REMOVAL_RATE].value)) {
        return status == BITE_NO_ANSWER ? BITE_OK : status;
    }
    const bite_result held = result;
    double target = fmax(result.chance, of->strictness * (1.0 - of->confidence));
    bite_effort look = BITE_LOOK_WHOLE;
    of->search.capped = before.goal;
    of->search.cap = as_good(of, &held, before.goal, best.goal);
    of->search.goal = BITE_GOAL_FAST;
    for (int i = 0; i < rounds && status == BITE_OK; i++) {
        of->point = bite_optimum_find(&of->search, look);
        if (of->point.worst > 1.0 && look == BITE_LOOK_WHOLE) {
            break;
        }
        status = of->point.worst > 1.0 ? BITE_OK : draw_at(of, &result, error);
        if (status == BITE_OK && of->point.worst <= 1.0 && result.chance <= target) {
            of->search.spindle[0] = before.spindle[0];
            of->search.spindle[1] = before.spindle[1];
            return BITE_OK;
        }
        look = try_again(of, &before, &held, &result, 1.1 + 0.25 * i);
    }
    of->search = before;
    of->point = best;
    return status;
}

/* Margins at the best point so far, and the number of passes that is clear under them: more where it is not, and the first again
 * where more do not help. */
bite_status bite_trial_settle(bite_trial *of, uint32_t units, bite_error *error)
{
    bite_result result;
    settled best;
    int clear = 0;
    bite_status status = draw_at(of, &result, error);
    if (status != BITE_OK) {
        return status;
    }
    set_margins(of, &result, 1.0);
    bite_trial_find_passes(of);
    bite_parting first = of->parting;
    if (!isnan(first.depth) || !isnan(first.width)) {
        status = settle_passes(of, &best, error);
        const bite_parting *kept = isfinite(best.chance) ? &best.parting : &first;
        of->search = best.clear ? best.search : of->search;
        set_passes(of, kept->down, kept->side);
        type_parting(of, units);
    }
    status = status != BITE_OK ? status : settle_chance(of, 0, &clear, error);
    if (status == BITE_OK) {
        ease_what_cannot_be(of);
    }
    return status == BITE_OK ? hasten(of, error) : status;
}

/* A coarse look with margins, and once more where the joint chance asks for it. */
bite_status bite_trial_settle_quick(bite_trial *of, bite_error *error)
{
    bite_result result;
    int clear = 0;
    of->draws = DRAWS_QUICK;
    bite_status status = draw_at(of, &result, error);
    if (status == BITE_OK) {
        set_margins(of, &result, 1.0);
        bite_trial_close_in(of);
        status = settle_chance(of, 1, &clear, error);
    }
    of->ask.quick = 1;
    return status;
}
