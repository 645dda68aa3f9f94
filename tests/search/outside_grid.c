/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings that a request could have, found apart from the search: a grid of passes computed as a
 * batch at the best estimates. */
#include "tests/search/outside_grid.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Speeds over the whole range, speeds near the one that was chosen, and feeds at each. */
enum { SPEEDS = 96, NEAR = 8, FEEDS = 12, ROWS = (SPEEDS + NEAR) * FEEDS };

/* Points of all pairs of pass counts together: with many pairs there are fewer speeds. */
enum { POINTS_MOST = 60000, SPEEDS_LEAST = 12 };

/* One point is kept of each of these parts of the range of speeds. */
enum { PARTS = 8 };

/* Numbers of passes: over the depth or side by side, and both together. */
enum { COUNT_MOST = 48, PRODUCT_MOST = 128 };

/* A peck of a drill, s. */
static const double time_of_peck = 0.5;

/* Feeds, in multiples of the least one. */
static const double feeds[] = {1.0, 1.02, 1.05, 1.1, 1.2, 1.4, 1.8, 2.5, 4.0, 8.0, 16.0};

/* What a row of the batch answers, before the utilizations. */
static const bite_value_id values[] = {BITE_SURFACE_TEMPERATURE, BITE_WALL_ERROR,
                                       BITE_ROUGHNESS_FLOOR, BITE_ROUGHNESS_WALL};
enum { VALUES = sizeof values / sizeof *values, OUTPUTS = VALUES + BITE_LIMIT_COUNT };

/* ---- what is free ---- */

static uint32_t passes_of(double whole, double one)
{
    return isnan(whole) ? 1 : (uint32_t)fmax(1.0, ceil(whole / one - 1e-9));
}

static void begin_tool(const search_request *made, outside_tool *tool)
{
    bite_cut *cut = &tool->cut;
    double reach = fmin(cut->flute_length, cut->stickout);
    tool->allowed = allowed_settings_of(made, cut);
    tool->fewest[0] = passes_of(made->feature_depth, reach);
    tool->fewest[1] = passes_of(made->feature_width, cut->diameter);
    tool->most[0] = isnan(made->feature_depth) ? 1 : COUNT_MOST;
    tool->most[1] = isnan(made->feature_width) ? 1 : COUNT_MOST;
    cut->tolerance = made->tolerance; /* a default is not the same as a given one */
    cut->bridge_width = (double)NAN;
}

void outside_grid_begin(const search_request *made, outside_grid *grid)
{
    memset(grid, 0, sizeof *grid);
    grid->made = made;
    grid->tool_count = made->tool_count;
    for (size_t i = 0; i < made->tool_count; i++) {
        bite_error error = BITE_ERROR_INIT;
        search_request_take_tool(made, i);
        ck_assert_msg(bite_request_cut(made->request, &grid->tools[i].cut, &error) == BITE_OK,
                      "%s: %s", made->line, error.message);
        begin_tool(made, &grid->tools[i]);
    }
}

/* ---- settings and their merits ---- */

/* The cross-section of the feature for a slot and a hole as wide as the tool; otherwise the
 * same for all tools. */
static double section_of(const outside_grid *grid, size_t tool)
{
    const bite_cut *cut = &grid->tools[tool].cut;
    double wide = isnan(cut->width) ? cut->diameter : cut->width;
    return cut->operation == BITE_DRILL_HOLE  ? cut->diameter * cut->diameter
           : isnan(grid->made->feature_width) ? wide
                                              : 1.0;
}

double outside_removal(const outside_grid *grid, size_t tool, uint32_t axial, uint32_t radial,
                       double feed)
{
    double deep = grid->made->feature_depth;
    double section = section_of(grid, tool);
    return grid->made->operation == BITE_DRILL_HOLE && !isnan(deep)
               ? section * deep / (deep / feed + time_of_peck * axial)
               : section * feed / (axial * radial);
}

/* The least feed that removes so much; INFINITY: none does. */
static double least_feed(const outside_grid *grid, size_t tool, uint32_t axial, uint32_t radial,
                         double removal)
{
    double deep = grid->made->feature_depth;
    double section = section_of(grid, tool);
    if (grid->made->operation == BITE_DRILL_HOLE && !isnan(deep)) {
        double time = section * deep / removal - time_of_peck * axial;
        return time > 0.0 ? deep / time : INFINITY;
    }
    return removal * axial * radial / section;
}

static double not_less(double value)
{
    return value > 0.0 ? value : 0.0; /* 0 for NaN */
}

double outside_goal(const outside_grid *grid, const double value[BITE_VALUE_COUNT])
{
    const search_request *made = grid->made;
    double tolerance = isnan(made->tolerance) ? 0.1e-3 : made->tolerance;
    double finish = isnan(made->finish) ? 1.6e-6 : made->finish;
    double marks = fmax(value[BITE_ROUGHNESS_FLOOR], value[BITE_ROUGHNESS_WALL]);
    switch (made->goal) {
    case BITE_GOAL_COOL: /* K, over the room */
        return value[BITE_SURFACE_TEMPERATURE] - grid->tools[0].cut.room_temperature;
    case BITE_GOAL_FINE: /* Ra is about a quarter of Rt */
        return not_less(fabs(value[BITE_WALL_ERROR])) / (0.5 * tolerance) +
               0.25 * not_less(marks) / finish;
    default: /* a gentle one is not met at the best estimates */
        return 0.0;
    }
}

void outside_sizes(const outside_grid *grid, outside_point *point)
{
    const search_request *made = grid->made;
    const bite_cut *cut = &grid->tools[point->tool].cut;
    double reach = fmin(cut->flute_length, cut->stickout);
    double deep = made->feature_depth / point->axial;
    double entered = isnan(deep) ? deep : entered_depth(deep);
    point->depth = isnan(deep) ? cut->depth : entered <= reach || deep > reach ? entered : deep;
    point->width = isnan(made->feature_width) ? cut->width : made->feature_width / point->radial;
}

/* ---- the points of one pair of pass counts ---- */

/* The rows of a batch. */
static struct {
    size_t count;
    double spindle[ROWS];
    double feed[ROWS];
    double out[OUTPUTS][ROWS];
    uint32_t status[ROWS];
} rows;

static void add_row(double spindle, double feed)
{
    if (rows.count < ROWS) {
        rows.spindle[rows.count] = spindle;
        rows.feed[rows.count++] = feed;
    }
}

/* Feeds at one speed: from the least that is wanted up to the most that may be entered. */
static void add_feeds(const outside_grid *grid, const outside_tool *tool, double least,
                      double spindle)
{
    double per_turn = tool->cut.flutes * spindle;
    double from = fmax(least, tool->allowed.tooth[0] * per_turn);
    double most = tool->allowed.tooth[1] * per_turn * (1.0 + 1e-9);
    double last = 0.0;
    if (!isnan(grid->made->tooth)) {
        if (most >= least) {
            add_row(spindle, grid->made->tooth * per_turn);
        }
        return;
    }
    for (size_t i = 0; i < sizeof feeds / sizeof *feeds; i++) {
        double feed = entered_feed_above(from * feeds[i]);
        if (feed <= most && feed > last) {
            add_row(spindle, last = feed);
        }
    }
    double top = entered_feed_below(most);
    if (top > last && top >= from) {
        add_row(spindle, top);
    }
}

static void lay_out(const outside_grid *grid, const outside_wish *wish, const outside_point *at,
                    int columns)
{
    const outside_tool *tool = &grid->tools[at->tool];
    const double *range = tool->allowed.spindle;
    double least = least_feed(grid, at->tool, at->axial, at->radial, wish->removal);
    int enters = isnan(grid->made->tooth) && range[1] > range[0];
    int all = range[1] > range[0] ? columns + NEAR : 1;
    rows.count = 0;
    for (int i = 0; i < all; i++) {
        double share = i < columns ? i / (columns - 1.0) : 0.0;
        double near = wish->near_spindle * (1.0 + 0.02 * (i - columns - NEAR / 2 + 0.5));
        double spindle =
            i < columns ? range[0] * pow(range[1] / range[0], share) : fmin(near, range[1]);
        spindle = enters ? entered_speed(spindle) : spindle;
        if (spindle >= range[0] * (1.0 - 1e-9) || all == 1) {
            add_feeds(grid, tool, least, fmax(spindle, range[0]));
        }
    }
}

static uint32_t index_of(const char *name)
{
    uint32_t index = 0;
    while (bite_input_at(index) != bite_input_find(name)) {
        index++;
    }
    return index;
}

static void compute(const outside_grid *grid, const outside_point *at)
{
    bite_cut cut = grid->tools[at->tool].cut;
    bite_error error = BITE_ERROR_INIT;
    bite_batch *batch = NULL;
    bite_batch_output outputs[OUTPUTS];
    bite_result_column out[OUTPUTS];
    uint32_t inputs[] = {index_of("spindle_speed"), index_of("feed_rate")};
    bite_column in[] = {{rows.spindle, 1}, {rows.feed, 1}};
    cut.depth = at->depth;
    cut.width = at->width;
    for (uint32_t i = 0; i < OUTPUTS; i++) {
        bite_batch_output value = {BITE_BATCH_VALUE, i < VALUES ? values[i] : 0};
        bite_batch_output limit = {BITE_BATCH_UTILIZATION, i - VALUES};
        outputs[i] = i < VALUES ? value : limit;
        out[i].data = rows.out[i];
        out[i].stride = 1;
    }
    ck_assert_int_eq(bite_batch_new(NULL, &cut, inputs, 2, outputs, OUTPUTS, &batch, &error),
                     BITE_OK);
    ck_assert_int_eq(bite_batch_run(batch, rows.count, in, out, rows.status, 1, NULL, &error),
                     BITE_OK);
    bite_batch_free(batch);
}

/* The utilization at the best estimates of the limit that is used most. */
static double used_in(const outside_wish *wish, size_t row)
{
    double most = 0.0;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        most = wish->high[i] > 0.0 ? fmax(most, not_less(rows.out[VALUES + i][row])) : most;
    }
    return most;
}

/* The utilization that is likely at the confidence, of the limit that is used most. */
static double predict(const outside_wish *wish, size_t row)
{
    double worst = 0.0;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        worst = fmax(worst, not_less(rows.out[VALUES + i][row]) * wish->high[i]);
    }
    return worst;
}

static double goal_of_row(const outside_grid *grid, size_t row)
{
    double value[BITE_VALUE_COUNT] = {0};
    for (size_t i = 0; i < VALUES; i++) {
        value[values[i]] = rows.out[i][row];
    }
    return outside_goal(grid, value);
}

/* Keeps the best point of each part of the range of speeds. */
static size_t keep_best(const outside_grid *grid, const outside_wish *wish, const outside_point *at,
                        outside_point best[PARTS])
{
    const double *range = grid->tools[at->tool].allowed.spindle;
    size_t count = 0;
    for (int i = 0; i < PARTS; i++) {
        best[i].predicted = INFINITY;
    }
    for (size_t row = 0; row < rows.count; row++) {
        double predicted = predict(wish, row);
        double part = range[1] > range[0] ? log(rows.spindle[row] / range[0]) /
                                                log(range[1] / range[0]) * (PARTS - 1e-6)
                                          : 0.0;
        outside_point *kept = &best[(int)fmin(PARTS - 1, fmax(0.0, part))];
        if (rows.status[row] == BITE_OK && predicted < kept->predicted &&
            predicted <= wish->worst && used_in(wish, row) <= wish->used * (1.0 + 1e-9) &&
            !(goal_of_row(grid, row) > wish->goal * (1.0 + 1e-9))) {
            *kept = *at;
            kept->spindle = rows.spindle[row];
            kept->feed = rows.feed[row];
            kept->removal = outside_removal(grid, at->tool, at->axial, at->radial, rows.feed[row]);
            kept->predicted = predicted;
        }
    }
    for (int i = 0; i < PARTS; i++) {
        if (isfinite(best[i].predicted)) {
            best[count++] = best[i];
        }
    }
    return count;
}

/* ---- all of them ---- */

static int by_prediction(const void *a, const void *b)
{
    double one = ((const outside_point *)a)->predicted;
    double other = ((const outside_point *)b)->predicted;
    return (one > other) - (one < other);
}

/* The pairs of pass counts that may remove as much as is wanted. */
enum { PAIRS_MOST = 4096 };

static size_t list_pairs(const outside_grid *grid, const outside_wish *wish, outside_point *pairs)
{
    size_t count = 0;
    for (size_t i = 0; i < grid->tool_count; i++) {
        const outside_tool *tool = &grid->tools[i];
        double most = tool->allowed.tooth[1] * tool->cut.flutes * tool->allowed.spindle[1];
        for (uint32_t axial = tool->fewest[0]; axial <= fmax(tool->most[0], tool->fewest[0]);
             axial++) {
            for (uint32_t radial = tool->fewest[1]; radial <= fmax(tool->most[1], tool->fewest[1]);
                 radial++) {
                uint32_t fewest = tool->fewest[0] * tool->fewest[1];
                int few = axial * radial <= PRODUCT_MOST || axial * radial == fewest;
                if (few && count < PAIRS_MOST &&
                    least_feed(grid, i, axial, radial, wish->removal) <= most * (1.0 + 1e-9)) {
                    outside_point pair = {.tool = i, .axial = axial, .radial = radial};
                    pairs[count++] = pair;
                }
            }
        }
    }
    return count;
}

size_t outside_grid_sieve(const outside_grid *grid, const outside_wish *wish, outside_point *points,
                          size_t most)
{
    static outside_point pairs[PAIRS_MOST];
    static outside_point kept[PAIRS_MOST * PARTS];
    size_t count = list_pairs(grid, wish, pairs);
    size_t found = 0;
    double columns = (double)POINTS_MOST / ((double)count * FEEDS + 1.0) - NEAR;
    for (size_t i = 0; i < count; i++) {
        outside_sizes(grid, &pairs[i]);
        lay_out(grid, wish, &pairs[i], (int)fmin(SPEEDS, fmax(SPEEDS_LEAST, columns)));
        if (rows.count > 0) {
            compute(grid, &pairs[i]);
            found += keep_best(grid, wish, &pairs[i], &kept[found]);
        }
    }
    qsort(kept, found, sizeof *kept, by_prediction);
    found = found < most ? found : most;
    memcpy(points, kept, found * sizeof *points);
    return found;
}
