/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The best point over all numbers of passes, down and across.
 *
 * Each pair of them has a score: of no point of it a lower cost is known to be possible. It begins
 * with the fastest point that the pair could have, then comes a rough search, then a fine one, and
 * again a fine one after each setting that was drawn. Always the pair with the best score goes on;
 * if its score is up to date, its best point is drawn.
 */
#include "core/search/pass_counts.h"
#include "core/base/error.h"
#include <math.h>
#include <stdint.h>
#include <string.h>

/* Pairs of pass counts: nobody waits for more (unless the tool's reach needs them). */
enum { NUMBERS = 24, NUMBER_MOST = 48, PRODUCT_MOST = 128, PAIRS = NUMBERS * NUMBERS };

/* Numbers of passes are tried in such steps, then all near the best. */
static const double number_step = 1.5;

/* Of the least bad, fewer passes are better if that costs less than this. */
static const double nearly_as_good = 0.95;

/* What a rough search may have missed: of the cost, and of the burden. */
static const double rough_cost = 0.22;
static const double rough_burden = 1.2;

/* If nothing is within the limits, and this many times the passes of the least burdened pair do not
 * help, no more are tried. */
enum { PASSES_IN_VAIN = 4, PASSES_AT_LEAST = 12 };

/* Settings that are drawn at most, in all and after the best one; so many more after it for each
 * such gain of cost that the next one promises; and the gains, in cost and in burden, that are not
 * worth another one. */
enum { DRAWN_MOST = 32, IN_VAIN_MOST = 6 };
static const double much_gain = 0.2;
static const double least_gain = 0.003;
static const double least_relief = 0.03;

/* Predictions far from all drawn settings may be too high by this share. Each point that was hoped
 * to be within its limits and is not leaves so much of it, or more if it was near a drawn one. */
static const double doubt = 0.15;
static const double doubt_left = 0.8;

/* The neighbourhood of the best point of a pair that is searched again. */
static const double again = 1.3;
enum { ROUNDS_AGAIN = 4 };

/* The neighbourhood that is searched at last. */
static const double polished = 1.15;
enum { ROUNDS_POLISHED = 6, POLISHINGS = 4 };

/* A point that was predicted to be within and is not teaches caution: this share of the error, at
 * most so much; not the first one, which was only estimated. Lobes of chatter at the best
 * estimates, which draws fill, are passed by so. */
static const double missed_share = 0.5;
static const double most_caution = 0.1;
static const double least_caution = 0.004;
static const double caution_left =
    0.25; /* after a point within its limits, and where no gain is seen */

/* Before the search ends, predictions are doubted more: by this share, as above. The least burdened
 * of the points that would be faster by a clear gain is drawn, until so many were drawn in vain. It
 * is searched for with a part of the limits, beyond which the least burdened is best, not the
 * fastest. */
static const double hope_doubt = 0.8;
enum { HOPES = 4 };
static const double clear_gain = 0.02;
static const double hope_share = 0.7;
static const double hope_beyond = 2.8;

typedef enum { BOUND, ROUGH, FINE } state;

typedef struct pair {
    uint32_t axial;
    uint32_t radial;
    state is;
    double fastest;  /* the least cost that any point of it has */
    size_t version;  /* of the predictions by which it was searched */
    bite_point best; /* by predictions; of a bound, the fastest point, taken to be within */
} pair;

typedef struct search {
    bite_wish wish;
    double worth;
    size_t count;
    size_t drawn;
    size_t version;     /* of the predictions */
    size_t since_best;  /* drawn after the best one */
    double again;       /* cost of the best one when all pairs were last begun anew */
    pair *pairs;        /* PAIRS */
    bite_point *points; /* BITE_PAIR_POINTS */
    bite_point *best;   /* drawn by all draws */
    bite_point least;   /* the least burdened one that was drawn */
} search;

/* ---- the pairs ---- */

/* Takes a pair as one of which only the fastest point is known. */
static void begin_pair(const search *on, uint32_t axial, uint32_t radial, pair *one)
{
    const bite_point passes = {.axial = axial, .radial = radial};
    memset(one, 0, sizeof *one);
    one->axial = axial;
    one->radial = radial;
    one->is = BOUND;
    one->version = on->version;
    one->best = bite_point_within(&on->wish, &passes, INFINITY, INFINITY);
    one->best.burden = 0.0;
    one->fastest = one->best.cost;
}

static void add_pair(search *on, uint32_t axial, uint32_t radial)
{
    if (on->count < PAIRS) {
        begin_pair(on, axial, radial, &on->pairs[on->count++]);
    }
}

static size_t list_numbers(const bite_pass_count *of, uint32_t *numbers)
{
    size_t count = 0;
    uint32_t next = bite_pass_count_least(of);
    uint32_t most = 2 * next > NUMBER_MOST ? 2 * next : NUMBER_MOST;
    while (count < NUMBERS && next <= most && bite_pass_count_allows(of, next)) {
        numbers[count++] = next;
        uint32_t step = (uint32_t)(number_step * next);
        next = step > next ? step : next + 1;
    }
    return count;
}

static void list_pairs(search *on)
{
    uint32_t down[NUMBERS];
    uint32_t across[NUMBERS];
    size_t depths = list_numbers(&on->wish.problem->down, down);
    size_t widths = list_numbers(&on->wish.problem->across, across);
    uint64_t most = 2 * (uint64_t)down[0] * across[0];
    most = most > PRODUCT_MOST ? most : PRODUCT_MOST;
    for (size_t i = 0; i < depths; i++) {
        for (size_t k = 0; k < widths; k++) {
            if ((uint64_t)down[i] * across[k] <= most) {
                add_pair(on, down[i], across[k]);
            }
        }
    }
}

/* NULL: it is not in the list. */
static pair *find_pair(const search *on, uint32_t axial, uint32_t radial)
{
    for (size_t i = 0; i < on->count; i++) {
        if (on->pairs[i].axial == axial && on->pairs[i].radial == radial) {
            return &on->pairs[i];
        }
    }
    return NULL;
}

/* All neighbours of a pair, of which some were left out between the steps; those that were searched
 * before the last settings were drawn are searched anew. */
static void add_neighbours(search *on, uint32_t axial, uint32_t radial)
{
    static const int moves[][2] = {{-1, 0}, {1, 0},  {0, -1}, {0, 1}, {-1, 1},
                                   {1, -1}, {-2, 0}, {0, -2}, {2, 0}, {0, 2}};
    const bite_search_problem *problem = on->wish.problem;
    for (size_t i = 0; i < sizeof moves / sizeof *moves; i++) {
        uint32_t down = axial + (uint32_t)moves[i][0]; /* wraps below 0, which is not allowed */
        uint32_t across = radial + (uint32_t)moves[i][1];
        pair *listed = find_pair(on, down, across);
        if (listed != NULL && listed->version < on->version) {
            begin_pair(on, down, across, listed);
        } else if (listed == NULL && bite_pass_count_allows(&problem->down, down) &&
                   bite_pass_count_allows(&problem->across, across)) {
            add_pair(on, down, across);
        }
    }
}

/* What predictions said of a pair before the best point was known may be far from what they say by
 * now: all pairs that could be faster are searched anew. Returns 0 if there is none. */
static int begin_again(search *on)
{
    int any = 0;
    for (size_t i = 0; i < on->count; i++) {
        pair *one = &on->pairs[i];
        if (one->version < on->version && one->fastest < on->best->cost - least_gain) {
            begin_pair(on, one->axial, one->radial, one);
            any = 1;
        }
    }
    on->again = on->best->cost;
    return any;
}

static uint64_t passes_of(uint32_t axial, uint32_t radial)
{
    return (uint64_t)axial * radial;
}

/* ---- scores ---- */

/* The best that may become of a pair. */
static bite_point score_of(const pair *one)
{
    bite_point score = one->best;
    if (one->is == ROUGH) {
        score.cost -= rough_cost;
        score.burden /= rough_burden;
    }
    return score;
}

/* Of those that are not within their limits the one with fewer passes leads unless it is clearly
 * worse. */
static int leads(const bite_point *a, const bite_point *b)
{
    if (a->burden <= 1.0 || b->burden <= 1.0) {
        return bite_point_better(a, b);
    }
    uint64_t passes = passes_of(a->axial, a->radial);
    uint64_t others = passes_of(b->axial, b->radial);
    return passes < others   ? nearly_as_good * a->burden <= b->burden
           : passes > others ? a->burden < nearly_as_good * b->burden
                             : a->burden < b->burden;
}

/* Whether more passes do not help. */
static int in_vain(const search *on, const pair *one, uint64_t least_burdened)
{
    return one->is == BOUND && least_burdened > 0 && on->best->burden > 1.0 &&
           passes_of(one->axial, one->radial) > PASSES_IN_VAIN * least_burdened + PASSES_AT_LEAST;
}

/* The passes of the least burdened pair of those that were searched, if none is within its limits;
 * else 0. */
static uint64_t find_least_burdened(const search *on)
{
    const bite_point *least = NULL;
    for (size_t i = 0; i < on->count; i++) {
        const pair *one = &on->pairs[i];
        if (one->is != BOUND && (least == NULL || leads(&one->best, least))) {
            least = &one->best;
        }
    }
    return least == NULL || least->burden <= 1.0 ? 0 : passes_of(least->axial, least->radial);
}

/* The pair with the best score; NULL: none is left. */
static pair *find_leader(const search *on)
{
    uint64_t least_burdened = find_least_burdened(on);
    pair *leader = NULL;
    bite_point best;
    for (size_t i = 0; i < on->count; i++) {
        pair *one = &on->pairs[i];
        bite_point score = score_of(one);
        if (isfinite(score.burden) && score.cost <= on->worth &&
            !in_vain(on, one, least_burdened) && (leader == NULL || leads(&score, &best))) {
            leader = one;
            best = score;
        }
    }
    return leader;
}

/* ---- the search ---- */

static double cost_in_use(const search *on)
{
    return on->best->burden <= 1.0 ? fmin(on->worth, on->best->cost - least_gain) : on->worth;
}

/* Whether a pair may have a better point than the one that was drawn. As long as there is doubt, of
 * points beyond their limits only the first one is worth a draw; then those that are less burdened
 * by enough, or are over by half as much. */
static int may_gain(const search *on, const pair *one)
{
    const bite_point score = score_of(one);
    const bite_point *best = on->best;
    if (best->burden <= 1.0) {
        return score.burden <= 1.0 && score.cost < best->cost - least_gain;
    }
    return score.burden <= 1.0 || isinf(best->burden) ||
           (!(on->wish.doubt > 0.0) &&
            score.burden < fmax((1.0 - least_relief) * best->burden, 0.5 * (1.0 + best->burden)));
}

static void search_pair(search *on, pair *one, int fine)
{
    const bite_point last = one->best;
    one->best = bite_search_pair(&on->wish, one->axial, one->radial, fine,
                                 one->is == FINE ? &last : NULL, cost_in_use(on), on->points);
    one->is = fine ? FINE : ROUGH;
    one->version = on->version;
}

/* Whether other predictions may make a pair the best one. Of what is faster than the best point,
 * the least burdened is known. */
static int may_win(const search *on, const pair *one)
{
    const bite_point *best = on->best;
    double most = rough_burden * fmax(1.0, best->burden);
    return one->is != BOUND && one->best.burden <= most &&
           (best->burden > 1.0 || one->fastest < best->cost - least_gain);
}

/* Looks again around the best points of the pairs that may win and have not seen the last
 * predictions; a single pair is searched as a whole. Returns 0 if there are none. */
static int search_again(search *on)
{
    int any = 0;
    for (size_t i = 0; i < on->count; i++) {
        pair *one = &on->pairs[i];
        if (one->version < on->version && may_win(on, one)) {
            if (on->count == 1) {
                search_pair(on, one, 1);
            } else {
                bite_search_nearby(&on->wish, again, ROUNDS_AGAIN, &one->best);
                one->version = on->version;
            }
            any = 1;
        }
    }
    return any;
}

/* What is surely more burdened than this is not drawn further. */
static double enough(const search *on)
{
    return isfinite(on->best->burden) ? fmax(1.0, on->best->burden) : 1.0;
}

/* Draws the best point of a pair. */
static bite_status draw_best(search *on, pair *leader, bite_error *error)
{
    bite_point point = leader->best;
    bite_status status = bite_point_draw(&on->wish, enough(on), &point, error);
    int missed = leader->best.burden <= 1.0 && point.burden > 1.0;
    if (!missed) {
        on->wish.caution *= caution_left;
    } else if (isfinite(on->best->burden)) {
        double error_of_it = missed_share * (point.burden / leader->best.burden - 1.0);
        on->wish.caution = fmin(most_caution, fmax(on->wish.caution, error_of_it));
    }
    on->wish.doubt *= missed ? pow(doubt_left, fmin(1.0, leader->best.distance)) : 1.0;
    on->drawn++;
    on->version++;
    on->since_best++;
    on->least = point.burden < on->least.burden ? point : on->least;
    if (status == BITE_OK && (!isfinite(on->best->burden) || leads(&point, on->best))) {
        int first = point.burden <= 1.0 && on->best->burden > 1.0;
        *on->best = point;
        on->since_best = 0;
        if (first) { /* from now on the fastest is wanted */
            on->wish.doubt = doubt;
            (void)begin_again(on);
        }
        add_neighbours(on, point.axial, point.radial);
    }
    return status;
}

/* Moves a point that was drawn as far as the last predictions show a gain, be it small, and where
 * none is faster away from the ends of what is possible. A prediction that was wrong is made again.
 */
static bite_status polish(search *on, bite_point *best, bite_error *error)
{
    bite_status status = BITE_OK;
    int goes_on = 1;
    on->wish.doubt = on->wish.caution = 0.0;
    for (int i = 0; i < POLISHINGS && goes_on && status == BITE_OK; i++) {
        bite_point point = *best;
        bite_search_nearby(&on->wish, polished, ROUNDS_POLISHED, &point);
        status = bite_point_draw(&on->wish, enough(on), &point, error);
        int better = status == BITE_OK && bite_point_better(&point, best);
        int gained = better && point.cost < best->cost - least_gain;
        int missed = best->burden <= 1.0 && point.burden > 1.0;
        on->wish.caution = missed ? point.burden - 1.0 : 0.0;
        *best = better ? point : *best;
        goes_on = gained || missed;
    }
    return status;
}

/* The best point by a rough search at the best estimates; a fine one where the rough one leads only
 * because it may have missed points within the limits. */
static void run_estimates(search *on)
{
    list_pairs(on);
    for (pair *leader = find_leader(on); leader != NULL; leader = find_leader(on)) {
        *on->best = leader->best;
        if (leader->is == FINE || (leader->is == ROUGH && leader->best.burden <= 1.0)) {
            return;
        }
        on->best->burden = on->best->cost = INFINITY;
        search_pair(on, leader, leader->is == ROUGH);
    }
}

/* Whether the last settings that were drawn showed no gain, which is the sooner accepted the less
 * the next one promises: as long as one within the limits may be found, the search goes on. */
static int is_in_vain(const search *on, const pair *next)
{
    int within = on->best->burden <= 1.0;
    double gain = within ? fmax(0.0, on->best->cost - next->best.cost) : 0.0;
    int hopes = !within && on->wish.doubt > 0.0;
    return !hopes && (double)on->since_best >= IN_VAIN_MOST * (1.0 + gain / much_gain);
}

/* Whether any point was wanted, and there is one. */
static int is_enough(const search *on)
{
    return on->wish.any && on->best->burden <= 1.0;
}

/* Where no gain is in sight: less caution, and if nothing is within the limits, no doubt, for then
 * the least burdened point is wanted. Returns 0 if there was neither. */
static int relent(search *on)
{
    int wary = on->wish.caution > least_caution;
    int doubts = !on->wish.any && on->best->burden > 1.0 && on->wish.doubt > 0.0;
    on->wish.doubt = !wary && doubts ? 0.0 : on->wish.doubt;
    on->wish.caution = wary ? caution_left * on->wish.caution : 0.0;
    on->version += wary || doubts;
    return wary || doubts;
}

/* At last, where the best point is better than when all pairs were last begun. */
static int is_worth_another(search *on)
{
    return on->best->burden <= 1.0 && on->best->cost < on->again && begin_again(on);
}

static bite_status improve(search *on, bite_error *error)
{
    bite_status status = BITE_OK;
    while (status == BITE_OK && on->drawn < DRAWN_MOST && !is_enough(on)) {
        pair *leader = find_leader(on);
        if (leader == NULL || !may_gain(on, leader)) {
            if (!search_again(on) && !relent(on) && !is_worth_another(on)) {
                break;
            }
        } else if (leader->is == FINE && leader->version == on->version) {
            if (is_in_vain(on, leader)) {
                break;
            }
            status = draw_best(on, leader, error);
        } else {
            search_pair(on, leader, on->count == 1 || leader->is != BOUND);
        }
    }
    return status;
}

/* If nothing was found within the limits: the least burdened point, which may have more passes than
 * the best one, is perhaps almost within. */
static bite_status improve_least(search *on, bite_error *error)
{
    bite_status status = BITE_OK;
    if (on->best->burden > 1.0 && on->least.burden < on->best->burden) {
        status = polish(on, &on->least, error);
        *on->best = on->least.burden <= 1.0 ? on->least : *on->best;
    }
    return status;
}

/* The least burdened point of a pair; where the best one is within its limits, of those that are
 * clearly faster. */
static bite_point find_hope(const search *on, const pair *one)
{
    bite_wish wish = on->wish;
    wish.quantile *= hope_share;
    wish.level *= hope_share;
    wish.beyond = hope_beyond;
    wish.doubt = hope_doubt;
    wish.caution = 0.0;
    wish.worth = on->best->burden > 1.0 ? INFINITY : on->best->cost - clear_gain;
    if (one->fastest > wish.worth) {
        const bite_point none = {.burden = INFINITY};
        return none;
    }
    bite_point point =
        bite_search_pair(&wish, one->axial, one->radial, 0, NULL, wish.worth, on->points);
    point.burden *= hope_share;
    return point;
}

/* Predictions may be too high, most of all far from what was drawn. So the least burdened of the
 * points that are clearly faster than the best one is drawn, or of all points if that is nearly
 * within its limits, where it may be within them. If it is, the search goes on from there. */
static bite_status look_again(search *on, bite_error *error)
{
    bite_status status = BITE_OK;
    for (int i = 0; i < HOPES && status == BITE_OK && on->best->burden <= rough_burden; i++) {
        const bite_point before = *on->best;
        pair hope = {.best.burden = INFINITY};
        for (size_t k = 0; k < on->count; k++) {
            pair one = on->pairs[k];
            one.best = find_hope(on, &one);
            hope = one.best.burden < hope.best.burden ? one : hope;
        }
        if (hope.best.burden > 1.0) {
            break;
        }
        status = draw_best(on, &hope, error);
        if (bite_point_better(on->best, &before)) {
            i = -1;
            status = status == BITE_OK ? improve(on, error) : status;
        }
    }
    return status;
}

static bite_status run(search *on, bite_error *error)
{
    list_pairs(on);
    bite_status status = improve(on, error);
    status = status == BITE_OK && !is_enough(on) ? improve_least(on, error) : status;
    status = status == BITE_OK && !is_enough(on) ? look_again(on, error) : status;
    return status == BITE_OK && isfinite(on->best->burden) && !is_enough(on)
               ? polish(on, on->best, error)
               : status;
}

static bite_status begin(const bite_wish *wish, double worth, bite_point *best, search *on,
                         bite_error *error)
{
    const bite_allocator *allocator = &wish->problem->request.allocator;
    memset(on, 0, sizeof *on);
    on->wish = *wish;
    on->worth = worth;
    on->again = on->least.burden = INFINITY;
    on->best = best;
    on->points = bite_memory_grow(allocator, NULL, BITE_PAIR_POINTS, sizeof *on->points);
    on->pairs = bite_memory_grow(allocator, NULL, PAIRS, sizeof *on->pairs);
    memset(best, 0, sizeof *best);
    best->burden = best->cost = INFINITY;
    return on->points != NULL && on->pairs != NULL
               ? BITE_OK
               : bite_error_set(error, BITE_NO_MEMORY, "no memory for a search");
}

static void end(search *on)
{
    const bite_allocator *allocator = &on->wish.problem->request.allocator;
    bite_memory_free(allocator, on->points);
    bite_memory_free(allocator, on->pairs);
}

bite_status bite_search_everywhere(const bite_wish *wish, bite_point *best, bite_error *error)
{
    search on;
    bite_status status = begin(wish, INFINITY, best, &on, error);
    on.wish.doubt = doubt;
    status = status == BITE_OK ? run(&on, error) : status;
    end(&on);
    return status;
}

bite_status bite_search_estimates(const bite_wish *wish, double worth, bite_point *best,
                                  bite_error *error)
{
    search on;
    bite_status status = begin(wish, worth, best, &on, error);
    if (status == BITE_OK) {
        run_estimates(&on);
    }
    end(&on);
    return status;
}
