/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search space of one tool: which settings are free, and within which range. */
#include "core/search/search_space.h"
#include "core/base/error.h"
#include "core/cut/physics_inputs.h"
#include "core/names/registry.h"
#include "core/request/input_spread.h"
#include "core/request/judge.h"
#include "core/request/resolve.h"
#include <math.h>
#include <string.h>

/* Draws while searching: those of the answer, of many the first ones; if the answer has so few that
 * the search would fit its settings to them, more. */
enum { DRAWS_FEW = 512, DRAWS_LEAST = 2048, DRAWS_MOST = 4096 };

/* Bounds of the searched range if nothing narrows it: feed per tooth in diameters, and spindle
 * speed if no machine is known. */
static const double tooth_least = 5e-4;
static const double drill_least = 3e-3; /* per turn: less rubs and work-hardens (memory) */
static const double spindle_least = 1000.0 / 60.0;
/* Very slow cutting edges do not help in plastics: the coolest published settings for acrylic are 9
 * to 20 m/min (1000 rpm with end mills of several millimetres, 7000 rpm with 1 mm). The search goes
 * down to half of that, which drills, and slots in materials that soften early, may need. */
static const double edge_least = 4.5 / 60.0; /* m/s */
/* The lips of a drill rub in their own chips: a maker of plastics drills 13 mm at 1500 rpm and 10
 * mm at 1000 rpm, 31 to 61 m/min, while mills run at hundreds. */
static const double drill_edge_most = 61.0 / 60.0; /* m/s, except in metals */
static const double spindle_most = 60000.0 / 60.0;

/* The largest feeds that shops usually run, in diameters, whatever the calculated limits allow.
 * Above them, trouble comes first from causes that are not calculated: a nick in an edge, a chip
 * that is not removed, a lip that digs in. */
static const struct {
    uint32_t operation;
    uint32_t metal; /* 1: in metals, 0: in all other materials */
    double from;    /* m, for tools of this diameter and larger */
    double share;   /* feed per tooth; for a drill, per turn */
} feed_most[] = {
    /* twist drills of 3 to 25 mm: 0.015 to 0.03 diameters a turn, and no more (memory: handbook
       tables of drill feeds) */
    {BITE_DRILL_HOLE, 0, 0.0, 0.03},
    {BITE_DRILL_HOLE, 1, 0.0, 0.03},
    /* makers' tables of small carbide mills end at 0.023 (3 mm), 0.028 (2 mm), 0.017 (6 mm); below
     * 1 mm, in shallow passes, 0.05 to 0.11 are printed (steel) */
    {BITE_MILL, 1, 1e-3, 0.03},
    /* routers in acrylic: 0.08 to 0.38 mm a tooth with 8 to 13 mm (a sheet maker's manual); shops
       seldom run more (memory) */
    {BITE_MILL, 1, 0.0, 0.05},
    {BITE_MILL, 0, 0.0, 0.05},
    {BITE_CHAMFER, 1, 0.0, 0.03},
    {BITE_CHAMFER, 0, 0.0, 0.05},
    /* reamers run at 0.05 to 0.15 mm a tooth in metals from 6 to 12 mm (a shop's handbook has 0.002
     * to 0.008 in a tooth) */
    {BITE_REAM, 1, 0.0, 0.012},
    {BITE_REAM, 0, 0.0, 0.012},
};

/* Half of it in metals with a higher cutting pressure than this (steels, stainless, titanium): the
 * start values of one maker are 0.002 to 0.010 diameters there, the upper ends about 0.017. */
static const double hard_pressure = 1.5e9; /* Pa, K */
static const double hard_share = 0.5;

int bite_problem_is_hard(const bite_cut *cut)
{
    return cut->substance == BITE_METAL && cut->pressure_t > hard_pressure;
}

/* The largest diameter that cuts; for a cone not the diameter of its shank. */
static double cutting_diameter(const bite_cut *cut)
{
    double wide = bite_cutting_diameter(cut);
    return wide > 0.0 && wide < cut->diameter ? wide : cut->diameter;
}

/* The largest feed per tooth that is chosen, m. A light side cut thins the chip, at most to half
 * (one maker's table follows 1/(2 sqrt(q(1 - q))), q = ae/D). The feed of a brittle material is
 * kept below the one that chips its edges, and within the largest published feed unless the caller
 * asks for more, although those limits are only advisory for settings that the user enters. */
static double tooth_most(const bite_cut *cut, int beyond_charts)
{
    double q = cut->operation == BITE_MILL && !isnan(cut->width)
                   ? fmin(0.5, cut->width / cut->diameter)
                   : 0.5;
    double thinned = fmin(2.0, 0.5 / sqrt(q * (1.0 - q)));
    double share = 0.05;
    for (size_t i = 0; i < sizeof feed_most / sizeof *feed_most; i++) {
        uint32_t metal = cut->substance == BITE_METAL;
        if (cut->operation == feed_most[i].operation && metal == feed_most[i].metal &&
            cut->diameter >= feed_most[i].from) {
            share = cut->operation == BITE_DRILL_HOLE ? feed_most[i].share / cut->flutes
                                                      : feed_most[i].share;
            break;
        }
    }
    if (bite_problem_is_hard(cut) && !bite_cut_is_axial(cut)) {
        share *= hard_share;
    }
    double most = share * cutting_diameter(cut);
    if (cut->chip_edge > 0.0) {
        double step = cut->flutes < 2.0 ? 0.0 : cut->runout * sin(M_PI / cut->flutes);
        most = fmin(most, fmax(cut->chip_edge - step, 0.2 * cut->chip_edge));
    }
    most *= thinned;
    double charted = bite_cut_is_axial(cut) ? (double)NAN : bite_cut_charted_feed(cut);
    return beyond_charts ? most : fmin(most, charted); /* fmin ignores NaN */
}

const bite_typed_input *bite_problem_typed(const bite_request *request, const char *name)
{
    return &request->typed[bite_input_index(bite_input_find(name))];
}

/* The slowest and the fastest spindle speed that is searched; tooth[0] must be set. Bounds: what
 * the machine and the tool allow; in plastics neither a very slow edge nor a drill that burns; no
 * feed rate below the smallest that can be entered. */
static void set_spindles(const bite_cut *full, bite_search_problem *search)
{
    double turn = M_PI * full->diameter;                                 /* of the edge, m */
    double fastest = fmin(full->spindle_fastest, full->tool_turn_limit); /* fmin ignores NaN */
    double most = isnan(fastest) ? spindle_most : fastest;
    double least = fmin(isnan(full->spindle_slowest) ? spindle_least : full->spindle_slowest, most);
    least = fmax(least, bite_input_find("spindle_speed")->least);
    double slow_edge = full->substance == BITE_METAL ? 0.0 : edge_least / turn;
    least = fmin(fmax(least, slow_edge), most);
    if (full->operation == BITE_DRILL_HOLE && full->substance != BITE_METAL) {
        most = fmax(least, fmin(most, drill_edge_most / turn));
    }
    double least_enterable =
        bite_input_find("feed_rate")->least * 1.01 / (search->tooth[0] * full->flutes);
    search->spindle[0] = fmin(fmax(least, least_enterable), most);
    search->spindle[1] = most;
}

/* Sets which settings are free, and their ranges. Gives the cut values within these, so that it can
 * be checked. */
static void set_range(bite_search_problem *problem, uint32_t goal, int beyond_charts)
{
    const bite_typed_input *spindle = bite_problem_typed(&problem->request, "spindle_speed");
    const bite_typed_input *feed = bite_problem_typed(&problem->request, "feed_rate");
    bite_search_problem *search = problem;
    double diameter = problem->full.diameter;
    double flutes = problem->full.flutes;
    uint32_t melts =
        problem->full.substance == BITE_AMORPHOUS || problem->full.substance == BITE_CRYSTALLINE;
    uint32_t default_goal = melts ? BITE_GOAL_COOL : BITE_GOAL_FAST;
    search->goal = goal == BITE_GOAL_USUAL ? default_goal : goal;
    search->feed = (double)NAN;
    search->tooth[0] =
        (problem->full.operation == BITE_DRILL_HOLE ? drill_least / flutes : tooth_least) *
        diameter;
    search->tooth[1] = tooth_most(&problem->full, beyond_charts);
    search->spindle[0] = search->spindle[1] = problem->requested.spindle_speed;
    if (!spindle->given) {
        set_spindles(&problem->full, search);
    }
    if (feed->given && feed->kind == BITE_KIND_TOOTH_FEED) {
        search->tooth[0] = search->tooth[1] = feed->value;
    } else if (problem->full.operation == BITE_TAP) { /* a pitch each turn */
        search->tooth[0] = search->tooth[1] = problem->full.pitch / flutes;
    } else if (feed->given) {
        search->feed = problem->requested.feed_rate;
    }
    problem->requested.spindle_speed = search->spindle[1];
    problem->requested.feed_rate =
        isnan(search->feed) ? search->tooth[0] * search->spindle[1] * flutes : search->feed;
}

/* The depth of a chamfer, of a thread or reamed hole, and of a groove that a cone cuts, belongs to
 * the part: it is cut in one pass. */
static int has_one_pass(const bite_cut *cut)
{
    return cut->operation == BITE_CHAMFER || cut->operation == BITE_TAP ||
           cut->operation == BITE_REAM || bite_cut_is_groove(cut);
}

double bite_problem_passes_of(double whole, double one)
{
    return isnan(whole) || isnan(one) ? 1.0 : ceil(whole / one - 1e-9);
}

/* Depth and width of a pass are free if those of the feature were given and their own were not.
 * They begin with one tool diameter, so that the cut can be checked. */
static void open_feature(bite_search_problem *problem)
{
    bite_cut *requested = &problem->requested;
    int mills = requested->operation == BITE_MILL;
    int whole = has_one_pass(&problem->full);
    int deep = bite_problem_typed(&problem->request, "depth")->given || whole;
    double depth = requested->feature_depth;
    double width = requested->feature_width;
    double reach = fmin(problem->full.flute_length, problem->full.stickout);
    bite_pass_count none = {(double)NAN, 1, 1, 0.0};
    problem->down = problem->across = none;
    if (deep && !whole) {
        problem->down.given = (uint32_t)bite_problem_passes_of(depth, requested->depth);
    } else if (!deep && !isnan(depth)) {
        problem->down.whole = depth;
        problem->down.fewest = (uint32_t)fmax(1.0, ceil(depth / reach - 1e-9));
        problem->down.least = bite_input_find("depth")->least;
        requested->depth = fmin(depth, problem->full.diameter);
    }
    if (mills && !isnan(requested->width)) {
        problem->across.given = (uint32_t)bite_problem_passes_of(width, requested->width);
    } else if (mills && !isnan(width)) {
        problem->across.whole = width;
        problem->across.fewest = (uint32_t)fmax(1.0, ceil(width / problem->full.diameter - 1e-9));
        problem->across.least = bite_input_find("width")->least;
        requested->width = fmin(width, problem->full.diameter);
    }
}

uint32_t bite_pass_count_least(const bite_pass_count *count)
{
    return isnan(count->whole) ? count->given : count->fewest;
}

int bite_pass_count_allows(const bite_pass_count *count, uint32_t number)
{
    return isnan(count->whole) ? number == count->given
                               : number == count->fewest || (number > count->fewest &&
                                                             count->whole / number > count->least);
}

/* Rounds a depth up to what is entered: of several passes the last takes what is left. */
static double round_depth(double depth, uint32_t units)
{
    double step = units == BITE_INCH ? 25.4e-3 * 2e-4 : 5e-6;
    step = depth > 10.0 * step ? step : 0.1 * step;
    return step * ceil(depth / step - 1e-6);
}

bite_setting bite_problem_setting(const bite_search_problem *problem, uint32_t axial,
                                  uint32_t radial, double spindle, double feed)
{
    bite_setting setting = {spindle, feed, problem->checked.full.depth, (double)NAN};
    if (!isnan(problem->down.whole)) {
        double depth = problem->down.whole / axial;
        double rounded = round_depth(depth, problem->units);
        double reach = fmin(problem->full.flute_length, problem->full.stickout);
        setting.depth = rounded <= reach || depth > reach ? rounded : depth;
        setting.depth = fmin(setting.depth, problem->down.whole); /* one pass has no smaller last */
    }
    if (!isnan(problem->across.whole)) {
        setting.width = problem->across.whole / radial;
    }
    return setting;
}

/* The draws of one tool. */
static bite_status draw(bite_search_problem *problem, const bite_choice_options *options,
                        bite_error *error)
{
    double allowed = 1.0 - options->confidence;
    size_t asked = bite_answer_draws(options->draws);
    size_t wanted = asked < DRAWS_FEW ? DRAWS_LEAST : asked > DRAWS_MOST ? DRAWS_MOST : asked;
    bite_limit_rule rule = {allowed, {0}, {0}};
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        rule.capacity[i] = 1.0;
    }
    problem->rule = rule;
    const bite_allocator *allocator = &problem->request.allocator;
    bite_status status = bite_draw_set_new(allocator, &problem->checked, problem->spreads,
                                           problem->spread_count, wanted, BITE_ANSWER_SEED,
                                           problem->request.threads, &problem->draws, error);
    status = status != BITE_OK
                 ? status
                 : bite_drawn_settings_new(allocator, problem->draws, &problem->drawn, error);
    if (status != BITE_OK) {
        return status;
    }
    problem->estimates = bite_estimate_cache_new(allocator, problem->draws);
    return problem->estimates != NULL
               ? BITE_OK
               : bite_error_set(error, BITE_NO_MEMORY, "no memory for a search");
}

/* No faster edge than published, unless the caller asks for it, although that limit only advises:
 * it wears the tool. A light side cut may run faster. */
static void keep_to_charts(bite_search_problem *problem)
{
    bite_estimate estimate;
    double fastest = problem->spindle[1];
    bite_setting setting = bite_problem_setting(problem, bite_pass_count_least(&problem->down),
                                                bite_pass_count_least(&problem->across), fastest,
                                                problem->requested.feed_rate);
    bite_estimate_cache_get(problem->estimates, &setting, 1, &estimate);
    double charted = fastest / estimate.utilization[BITE_LIMIT_EDGE_SPEED];
    if (charted < fastest && problem->spindle[0] < fastest) {
        problem->spindle[1] = fmax(problem->spindle[0], charted);
        problem->charted_speed = charted >= problem->spindle[0];
    }
}

bite_status bite_problem_init(const bite_request *request, const char *tool,
                              const bite_choice_options *options, bite_search_problem *problem,
                              bite_error *error)
{
    memset(problem, 0, sizeof *problem);
    problem->request = *request;
    problem->units = options->units;
    bite_status status =
        tool == NULL ? BITE_OK : bite_request_use(&problem->request, BITE_TOOLS, tool, error);
    status = status != BITE_OK ? status
                               : bite_request_resolve(&problem->request, &problem->requested,
                                                      &problem->full, problem->provenance, error);
    if (status != BITE_OK) {
        return status;
    }
    set_range(problem, options->goal, options->beyond_charts != 0);
    open_feature(problem);
    status = bite_checked_cut_init(&problem->requested, &problem->checked, error);
    problem->full = problem->checked.full;
    status = status != BITE_OK
                 ? status
                 : bite_spreads_collect(&problem->request, &problem->full, problem->provenance,
                                        problem->spreads, &problem->spread_count, error);
    status = status != BITE_OK ? status : draw(problem, options, error);
    if (status == BITE_OK && !options->beyond_charts) {
        keep_to_charts(problem);
    }
    return status;
}

void bite_problem_end(bite_search_problem *problem)
{
    bite_estimate_cache_free(problem->estimates);
    bite_drawn_settings_free(problem->drawn);
    bite_draw_set_free(problem->draws);
    problem->estimates = NULL;
    problem->drawn = NULL;
    problem->draws = NULL;
}
