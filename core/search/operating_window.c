/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The operating window: which limits are kept over a range of two inputs. */
#include "core/search/operating_window.h"
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/thread_pool.h"
#include "core/cut/batch.h"
#include "core/cut/pass.h"
#include "core/cut/physics_inputs.h"
#include "core/names/registry.h"
#include "core/request/input_spread.h"
#include "core/uncertainty/monte_carlo.h"
#include "core/uncertainty/sobol.h"
#include <math.h>
#include <string.h>

#define GRID_DEFAULT_ACROSS 97
#define GRID_DEFAULT_UP 73
#define GRID_MOST 401
#define CELLS_MOST 65536
#define DRAWS_AT_NODE 128
#define SEED_AT_NODE 20261127

double bite_window_utilization(const bite_window *window, size_t limit, size_t across, size_t up)
{
    return window->utilizations[(limit * window->up.count + up) * window->across.count + across];
}

/* The margin node at or below a share of an axis, at most the last but one, and the position of the
 * share between it and the next. */
static size_t node_at(double along, size_t nodes, double *share)
{
    double at = fmin(1.0, fmax(0.0, along)) * (double)(nodes - 1);
    size_t node = at >= (double)(nodes - 2) ? nodes - 2 : (size_t)at;
    *share = at - (double)node;
    return node;
}

/* A number of the nodes between them. */
static double between_nodes(const double *nodes, size_t limit, double across, double up)
{
    double x = 0.0;
    double y = 0.0;
    size_t left = node_at(across, BITE_MARGIN_NODES_ACROSS, &x);
    size_t below = node_at(up, BITE_MARGIN_NODES_UP, &y);
    const double *at =
        nodes + (limit * BITE_MARGIN_NODES_UP + below) * BITE_MARGIN_NODES_ACROSS + left;
    double low = at[0] + x * (at[1] - at[0]);
    double high = at[BITE_MARGIN_NODES_ACROSS] +
                  x * (at[BITE_MARGIN_NODES_ACROSS + 1] - at[BITE_MARGIN_NODES_ACROSS]);
    return low + y * (high - low);
}

static double margin_at(const bite_window *window, size_t limit, double across, double up)
{
    return exp(between_nodes(window->margins, limit, across, up));
}

double bite_window_margin(const bite_window *window, size_t limit, size_t across, size_t up)
{
    return margin_at(window, limit, (double)across / (double)(window->across.count - 1),
                     (double)up / (double)(window->up.count - 1));
}

/* The margin is the 95 % end over the best estimate; a lognormal one has it at this many standard
 * deviations of the logarithm. */
static const double deviations_at_95 = 1.6448536269514722;

double bite_window_chance(const bite_window *window, size_t limit, size_t across, size_t up)
{
    double utilization = bite_window_utilization(window, limit, across, up);
    double scatter =
        between_nodes(window->scatter, limit, (double)across / (double)(window->across.count - 1),
                      (double)up / (double)(window->up.count - 1));
    if (isnan(utilization) || window->answer->result.draws == 0) {
        return (double)NAN;
    }
    if (scatter <= 0.0 || utilization <= 0.0) {
        return utilization > 1.0 ? 1.0 : 0.0;
    }
    double chance = 0.5 * erfc(-log(utilization) / scatter / sqrt(2.0));
    double with_margin = utilization * bite_window_margin(window, limit, across, up);
    return with_margin > 1.0 ? fmax(chance, 0.05) : fmin(chance, 0.05);
}

double bite_window_worst(const bite_window *window, size_t across, size_t up, unsigned flags,
                         uint32_t *limit)
{
    double most = (double)NAN;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        double utilization =
            bite_window_utilization(window, i, across, up) *
            ((flags & BITE_WINDOW_MARGIN) != 0 ? bite_window_margin(window, i, across, up) : 1.0);
        int counts =
            window->binds[i] && !((flags & BITE_WINDOW_MOVING) != 0 && window->fixed[i] != 0);
        if (counts && !isnan(utilization) && !(utilization <= most)) {
            most = utilization;
            *limit = i;
        }
    }
    return most;
}

static bite_verdict verdict_of(double utilization, double with_margin)
{
    return utilization > 1.0 ? BITE_OVER : with_margin > 1.0 ? BITE_TIGHT : BITE_CLEAR;
}

bite_verdict bite_window_verdict(const bite_window *window, size_t across, size_t up,
                                 unsigned flags)
{
    uint32_t limit = 0;
    double utilization = bite_window_worst(window, across, up, 0, &limit);
    if (isnan(utilization)) {
        return BITE_NOT_JUDGED;
    }
    utilization = bite_window_worst(window, across, up, flags, &limit);
    return verdict_of(utilization,
                      bite_window_worst(window, across, up, flags | BITE_WINDOW_MARGIN, &limit));
}

bite_verdict bite_window_fixed_verdict(const bite_window *window, size_t limit)
{
    double utilization = bite_window_utilization(window, limit, 0, 0);
    return verdict_of(utilization, utilization * bite_window_margin(window, limit, 0, 0));
}

/* A feed that was given per tooth keeps its value per tooth as the spindle speed varies. */
static bite_cut cut_of(const bite_window *window, double across, double up)
{
    bite_cut cut = window->answer->full;
    *bite_input_number(&cut, window->across.input) = across;
    *bite_input_number(&cut, window->up.input) = up;
    if (!isnan(window->tooth_feed)) {
        cut.feed_rate = window->tooth_feed * cut.spindle_speed * cut.flutes;
    }
    return cut;
}

int bite_window_clear(const bite_window *window, int along_up, double *least, double *most)
{
    const bite_clear_range *range = &window->ranges[along_up ? 1 : 0];
    if (range->clear) {
        *least = range->least;
        *most = range->most;
    }
    return range->clear ? 1 : 0;
}

/* ---- the grid ---- */

/* The cut at a point, given as shares of the axes. */
static bite_cut cut_at(const bite_window *window, double across, double up)
{
    return cut_of(window, bite_axis_at(&window->across, across), bite_axis_at(&window->up, up));
}

/* The feed per tooth that stays fixed; NaN: the feed was given per minute, or is an axis. */
static double kept_tooth_feed(const bite_window *window)
{
    const bite_input *feed_rate = bite_input_find("feed_rate");
    const bite_typed_input *feed = &window->answer->request.typed[bite_input_index(feed_rate)];
    int per_tooth = feed->given && feed->kind == BITE_KIND_TOOTH_FEED &&
                    window->across.input != feed_rate && window->up.input != feed_rate;
    return per_tooth ? feed->value : (double)NAN;
}

/* Columns of a batch, one row for each point. */
enum { COLUMN_ACROSS, COLUMN_UP, COLUMN_FEED, COLUMNS };

static void fill_columns(const bite_window *window, double *columns, size_t points)
{
    size_t across = window->across.count;
    for (size_t i = 0; i < points; i++) {
        bite_cut cut = cut_at(window, (double)(i % across) / (double)(across - 1),
                              (double)(i / across) / (double)(window->up.count - 1));
        columns[COLUMN_ACROSS * points + i] = *bite_input_number(&cut, window->across.input);
        columns[COLUMN_UP * points + i] = *bite_input_number(&cut, window->up.input);
        columns[COLUMN_FEED * points + i] = cut.feed_rate;
    }
}

static bite_status run_grid(bite_window *window, const double *columns, size_t points,
                            bite_error *error)
{
    bite_batch_output outputs[BITE_LIMIT_COUNT];
    bite_result_column out[BITE_LIMIT_COUNT];
    const bite_input *given[COLUMNS] = {window->across.input, window->up.input,
                                        bite_input_find("feed_rate")};
    uint32_t inputs[COLUMNS];
    bite_column in[COLUMNS];
    size_t count = isnan(window->tooth_feed) ? COLUMN_FEED : COLUMNS;
    bite_batch *batch = NULL;
    for (size_t i = 0; i < count; i++) {
        inputs[i] = (uint32_t)bite_input_index(given[i]);
        in[i] = (bite_column){columns + i * points, 1};
    }
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        outputs[i] = (bite_batch_output){BITE_BATCH_UTILIZATION, i};
        out[i] = (bite_result_column){window->utilizations + i * points, 1};
    }
    bite_status status = bite_batch_new(&window->allocator, &window->answer->full, inputs, count,
                                        outputs, BITE_LIMIT_COUNT, &batch, error);
    if (status == BITE_OK) {
        status =
            bite_batch_run_watched(batch, points, in, out, NULL, window->answer->request.threads,
                                   NULL, window->watch, error);
    }
    bite_batch_free(batch);
    return status;
}

/* Utilizations at all points; NaN where a limit does not apply, or the cut is refused. */
static bite_status fill_grid(bite_window *window, bite_error *error)
{
    size_t points = window->across.count * window->up.count;
    double *columns = bite_memory_new(&window->allocator, COLUMNS * points, sizeof *columns);
    if (columns == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a window");
    }
    fill_columns(window, columns, points);
    bite_status status = run_grid(window, columns, points, error);
    bite_memory_free(&window->allocator, columns);
    return status;
}

/* A limit that applies at some point of the grid; and one that applies at every point and is the
 * same at all, to rounding. */
static void fill_applies(bite_window *window)
{
    static const double rounding = 1e-9;
    size_t points = window->up.count * window->across.count;
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const double *utilization = window->utilizations + i * points;
        double least = INFINITY;
        double most = 0.0;
        size_t count = 0;
        for (size_t k = 0; k < points; k++) {
            count += isnan(utilization[k]) ? 0 : 1;
            least = fmin(least, utilization[k]);
            most = fmax(most, utilization[k]);
        }
        window->applies[i] = count > 0 ? 1u : 0u;
        window->fixed[i] = count == points && most - least <= rounding * most ? 1u : 0u;
    }
}

/* The nodes at which margins are drawn. */
typedef struct margin_nodes {
    bite_window *window;
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t count;
    bite_status status[BITE_MARGIN_NODES_UP * BITE_MARGIN_NODES_ACROSS];
} margin_nodes;

/* The scatter that gives the chance that was drawn; where that says little, because it is near 0, a
 * half or 1, the one that gives the margin. */
static double scatter_of(const bite_limit *limit, double margin)
{
    double distance = log(limit->utilization);
    if (limit->chance > 0.03 && limit->chance < 0.97 && fabs(limit->chance - 0.5) > 0.1) {
        double scatter = distance / bite_normal_deviate(limit->chance);
        if (scatter > 0.0) {
            return scatter;
        }
    }
    return margin / deviations_at_95;
}

/* Takes the margins and scatters of a node from its result; without an answer there are none. */
static void set_margins(bite_window *window, size_t across, size_t up, const bite_result *result)
{
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        size_t at = (i * BITE_MARGIN_NODES_UP + up) * BITE_MARGIN_NODES_ACROSS + across;
        double *margin = &window->margins[at];
        *margin = limit->applies && limit->utilization > 0.0 &&
                          limit->utilization_high > limit->utilization
                      ? log(limit->utilization_high / limit->utilization)
                      : 0.0;
        window->scatter[at] = *margin > 0.0 ? scatter_of(limit, *margin) : 0.0;
    }
}

/* A cut and its result, on the heap: the draws need the stack. */
typedef struct node_cut {
    bite_cut cut;
    bite_result result;
} node_cut;

static void fill_node(void *work, size_t index, size_t worker)
{
    (void)worker;
    margin_nodes *nodes = work;
    bite_window *window = nodes->window;
    size_t across = index % BITE_MARGIN_NODES_ACROSS;
    size_t up = index / BITE_MARGIN_NODES_ACROSS;
    node_cut *node = bite_memory_new(bite_memory_default(), 1, sizeof *node);
    if (node == NULL) {
        nodes->status[index] = BITE_NO_MEMORY;
        return;
    }
    if (bite_watch_step(window->watch, 0)) {
        nodes->status[index] = BITE_NO_MEMORY;
        bite_memory_free(bite_memory_default(), node);
        return;
    }
    const bite_sampling sampling = {
        .draws = DRAWS_AT_NODE, .seed = SEED_AT_NODE, .confidence = 0.95, .limits_only = 1};
    memset(node, 0, sizeof *node);
    node->result.struct_size = (uint32_t)sizeof node->result;
    node->cut = cut_at(window, (double)across / (BITE_MARGIN_NODES_ACROSS - 1),
                       (double)up / (BITE_MARGIN_NODES_UP - 1));
    nodes->status[index] = bite_monte_carlo_run(&node->cut, nodes->spreads, nodes->count, &sampling,
                                                &node->result, NULL);
    if (nodes->status[index] != BITE_OK) {
        memset(&node->result, 0, sizeof node->result);
    }
    set_margins(window, across, up, &node->result);
    (void)bite_watch_step(window->watch, DRAWS_AT_NODE);
    bite_memory_free(bite_memory_default(), node);
}

static bite_status fill_margins(bite_window *window, bite_error *error)
{
    const bite_answer *answer = window->answer;
    margin_nodes nodes;
    nodes.window = window;
    /* the axes are varied by the grid, not by the draws */
    nodes.count = bite_spreads_except(answer->spreads, answer->spread_count, window->across.input,
                                      nodes.spreads);
    nodes.count = bite_spreads_except(nodes.spreads, nodes.count, window->up.input, nodes.spreads);
    if (answer->result.draws == 0) {
        return BITE_OK; /* best estimates only */
    }
    bite_watch_expect(window->watch,
                      (uint64_t)BITE_MARGIN_NODES_UP * BITE_MARGIN_NODES_ACROSS * DRAWS_AT_NODE);
    bite_thread_pool_run(BITE_MARGIN_NODES_UP * BITE_MARGIN_NODES_ACROSS, answer->request.threads,
                         fill_node, &nodes);
    for (size_t i = 0; i < BITE_MARGIN_NODES_UP * BITE_MARGIN_NODES_ACROSS; i++) {
        if (nodes.status[i] == BITE_NO_MEMORY) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for the draws");
        }
    }
    return BITE_OK;
}

/* What the passes along the axes need, on the heap: the space is most of a small stack. */
typedef struct range_search {
    const bite_window *window;
    bite_block_space *space;
    bite_checked_cut checked;
    bite_result result;
} range_search;

/* Whether each limit that an axis changes is kept alone, with its margin, with one axis at a value
 * and the other at the point in use, which need not be a grid point. */
static int is_clear_at(range_search *search, int along_up, double value)
{
    const bite_window *window = search->window;
    double across = along_up ? window->across.here : value;
    double up = along_up ? value : window->up.here;
    bite_cut cut = cut_of(window, across, up);
    search->result.struct_size = (uint32_t)sizeof search->result;
    if (bite_checked_cut_init(&cut, &search->checked, NULL) != BITE_OK ||
        bite_checked_cut_pass(&search->checked, search->space, &search->result, NULL) != BITE_OK) {
        return 0;
    }
    double x = bite_axis_share(&window->across, across);
    double y = bite_axis_share(&window->up, up);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &search->result.limits[i];
        if (window->binds[i] && !window->fixed[i] && limit->applies &&
            (limit->utilization > 1.0 || limit->utilization * margin_at(window, i, x, y) > 1.0)) {
            return 0;
        }
    }
    return 1;
}

static bite_clear_range range_along(range_search *search, int along_up)
{
    const bite_window *window = search->window;
    const bite_axis *axis = along_up ? &window->up : &window->across;
    double steps = (double)(axis->count - 1);
    bite_clear_range range = {axis->here, axis->here, 1, 0};
    /* the draws of the answer describe the point better than the margins of the grid */
    if (window->answer->result.verdict != BITE_CLEAR &&
        !is_clear_at(search, along_up, axis->here)) {
        range.clear = 0;
        return range;
    }
    for (size_t i = axis->count; i-- > 0;) {
        double value = bite_axis_at(axis, (double)i / steps);
        if (value < range.least) {
            if (!is_clear_at(search, along_up, value)) {
                break;
            }
            range.least = value;
        }
    }
    for (size_t i = 0; i < axis->count; i++) {
        double value = bite_axis_at(axis, (double)i / steps);
        if (value > range.most) {
            if (!is_clear_at(search, along_up, value)) {
                break;
            }
            range.most = value;
        }
    }
    return range;
}

static bite_status fill_ranges(bite_window *window, bite_error *error)
{
    range_search *search = bite_memory_new(&window->allocator, 1, sizeof *search);
    bite_block_space *space = bite_block_spaces_new(&window->allocator, 1);
    bite_status status = BITE_OK;
    if (search == NULL || space == NULL) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory for a window");
    } else {
        search->window = window;
        search->space = space;
        window->ranges[0] = range_along(search, 0);
        window->ranges[1] = range_along(search, 1);
    }
    bite_block_spaces_free(&window->allocator, space);
    bite_memory_free(&window->allocator, search);
    return status;
}

static bite_status fill(bite_window *window, bite_error *error)
{
    window->tooth_feed = kept_tooth_feed(window);
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        window->binds[i] = !window->answer->result.limits[i].advisory;
    }
    bite_status status = fill_grid(window, error);
    if (status != BITE_OK) {
        return status;
    }
    fill_applies(window);
    status = fill_margins(window, error);
    return status != BITE_OK ? status : fill_ranges(window, error);
}

static bite_status check_call(const bite_answer *answer, const bite_window_options *options,
                              bite_window **window, bite_error *error)
{
    if (answer == NULL || window == NULL || options->reserved != 0 ||
        options->columns > GRID_MOST || options->rows > GRID_MOST || options->columns == 1 ||
        options->rows == 1 || (size_t)options->columns * options->rows > CELLS_MOST) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "an answer, options with a grid of 2 to %d points a "
                       "side and at most %d points in total, and a place for the window were "
                       "expected",
                       GRID_MOST, CELLS_MOST);
        bite_error_key(error, "options");
        return BITE_BAD_ARGUMENT;
    }
    return BITE_OK;
}

/* Options of the caller, with NaN where an axis has its usual ends. */
static bite_status read_options(const bite_window_options *given, bite_window_options *own,
                                bite_error *error)
{
    bite_status status =
        bite_struct_read(&bite_struct_window_options, given, own, "options", error);
    if (status == BITE_OK && own->across_least == 0.0 && own->across_most == 0.0) {
        own->across_least = own->across_most = (double)NAN;
    }
    if (status == BITE_OK && own->up_least == 0.0 && own->up_most == 0.0) {
        own->up_least = own->up_most = (double)NAN;
    }
    return status;
}

bite_status bite_window_new(const bite_answer *answer, const bite_window_options *given,
                            bite_window **window, bite_error *error)
{
    bite_window made;
    bite_window_options own;
    const bite_window_options *options = &own;
    bite_error_clear(error);
    memset(&made, 0, sizeof made);
    bite_status status = read_options(given, &own, error);
    status = status != BITE_OK ? status : check_call(answer, options, window, error);
    if (status != BITE_OK) {
        return status;
    }
    made.allocator = answer->request.allocator;
    made.answer = answer;
    const char *across = options->across == NULL ? "spindle_speed" : options->across;
    const char *up = options->up == NULL ? "feed_rate" : options->up;
    status = bite_axis_make(answer, across, options->across_least, options->across_most,
                            &made.across, error);
    status = status != BITE_OK
                 ? status
                 : bite_axis_make(answer, up, options->up_least, options->up_most, &made.up, error);
    if (status == BITE_OK && made.across.input == made.up.input) {
        status = bite_axis_refuse(error, across, BITE_BAD_ARGUMENT, "is on both axes",
                                  "give two different inputs");
    }
    if (status != BITE_OK) {
        return status;
    }
    made.across.count = bite_axis_points(&made.across, options->columns, GRID_DEFAULT_ACROSS);
    made.up.count = bite_axis_points(&made.up, options->rows, GRID_DEFAULT_UP);
    bite_window *fresh = bite_memory_new(&made.allocator, 1, sizeof *fresh);
    made.utilizations = bite_memory_new(
        &made.allocator, BITE_LIMIT_COUNT * made.across.count * made.up.count, sizeof(double));
    made.margins = bite_memory_new(
        &made.allocator, (size_t)BITE_LIMIT_COUNT * BITE_MARGIN_NODES_ACROSS * BITE_MARGIN_NODES_UP,
        sizeof(double));
    made.scatter = bite_memory_new(
        &made.allocator, (size_t)BITE_LIMIT_COUNT * BITE_MARGIN_NODES_ACROSS * BITE_MARGIN_NODES_UP,
        sizeof(double));
    if (fresh == NULL || made.utilizations == NULL || made.margins == NULL ||
        made.scatter == NULL) {
        bite_memory_free(&made.allocator, made.scatter);
        bite_memory_free(&made.allocator, fresh);
        bite_memory_free(&made.allocator, made.utilizations);
        bite_memory_free(&made.allocator, made.margins);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a window");
    }
    bite_watch watch;
    *fresh = made;
    bite_watch_start(&watch, options->progress, options->progress_user);
    fresh->watch = &watch;
    status = bite_watch_end(&watch, fill(fresh, error), error);
    fresh->watch = NULL;
    if (status != BITE_OK) {
        bite_window_free(fresh);
        return status;
    }
    *window = fresh;
    return BITE_OK;
}

void bite_window_free(bite_window *window)
{
    if (window != NULL) {
        bite_allocator allocator = window->allocator;
        bite_memory_free(&allocator, window->utilizations);
        bite_memory_free(&allocator, window->margins);
        bite_memory_free(&allocator, window->scatter);
        bite_memory_free(&allocator, window);
    }
}
