/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Forces of square end mills, in lanes.
 *
 * The load is sampled in even steps of a turn and wherever an end of an edge enters or leaves the
 * cut, where it has kinks. Between kinks it is smooth: in steps of 7.5 degrees a peak is missed by
 * at most 1 - cos(3.75 degrees), 0.2 %. All cuts of a block are sampled at the same angles, and a
 * tooth that is in contact in none of them is skipped.
 */
#include "core/cut/block/square_block.h"
#include "core/physics/geometry/chip_thickness.h"
#include <string.h>

/* The whole numbers next to one of moderate size. */
static int whole_below(double number)
{
    int whole = (int)number;
    return whole - (whole > number);
}

static int whole_above(double number)
{
    int whole = (int)number;
    return whole + (whole < number);
}

/* ---- the sum over the edges at one position of the tool ---- */

/* The integrals of a tooth of up to three hinges between both ends of its edge; hinges: how many,
 * a constant where this is inlined. */
BITE_FORMULA bite_edge_terms edge_of(const bite_hinge_lanes *hinge, int hinges, int k,
                                     bite_turned tip, bite_turned top)
{
    bite_edge_terms sum = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    for (int i = 0; i < hinges; i++) {
        bite_turned low = bite_turned_lane(&hinge[i].low, k);
        bite_turned high = bite_turned_lane(&hinge[i].high, k);
        bite_turned from = bite_turned_within(top, low, high);
        bite_turned to = bite_turned_within(tip, low, high);
        bite_edge_terms terms = bite_edge_between(hinge[i].slope[k], hinge[i].offset[k], from, to);
        sum.area += terms.area;
        sum.area_sine += terms.area_sine;
        sum.area_cosine += terms.area_cosine;
        if (i == 0) { /* from which on the edge touches */
            sum.edge = terms.edge;
            sum.edge_sine = terms.edge_sine;
            sum.edge_cosine = terms.edge_cosine;
        }
    }
    return sum;
}

/* The angle less the lag of the upper end. */
BITE_FORMULA bite_turned top_of(bite_turned tip, const bite_turned_lanes *lag, int k)
{
    bite_turned back = {-lag->at[k], -lag->sine[k], lag->cosine[k]};
    return bite_turned_sum(tip, back);
}

/* keep: 1 to add to the sum, 0 to replace it. */
BITE_FORMULA void put(bite_edge_term_lanes *sum, int k, double keep, bite_edge_terms terms)
{
    sum->area[k] = keep * sum->area[k] + terms.area;
    sum->area_sine[k] = keep * sum->area_sine[k] + terms.area_sine;
    sum->area_cosine[k] = keep * sum->area_cosine[k] + terms.area_cosine;
    sum->edge[k] = keep * sum->edge[k] + terms.edge;
    sum->edge_sine[k] = keep * sum->edge_sine[k] + terms.edge_sine;
    sum->edge_cosine[k] = keep * sum->edge_cosine[k] + terms.edge_cosine;
}

/* The tip is at one angle in all lanes. */
BITE_FORMULA void tooth_at(const bite_block *restrict block, const bite_hinge_lanes *restrict hinge,
                           int hinges, bite_turned tip, const bite_turned_lanes *restrict lag,
                           double keep, bite_edge_term_lanes *restrict sum)
{
    BITE_EACH_LANE(k, block)
    {
        put(sum, k, keep, edge_of(hinge, hinges, k, tip, top_of(tip, lag, k)));
    }
}

/* The tip is at an angle that differs between lanes, turned by one that does not. */
BITE_FORMULA void tooth_turned(const bite_block *restrict block,
                               const bite_hinge_lanes *restrict hinge, int hinges,
                               const bite_turned_lanes *restrict at, bite_turned by,
                               const bite_turned_lanes *restrict lag, double keep,
                               bite_edge_term_lanes *restrict sum)
{
    BITE_EACH_LANE(k, block)
    {
        bite_turned tip = bite_turned_sum(bite_turned_lane(at, k), by);
        put(sum, k, keep, edge_of(hinge, hinges, k, tip, top_of(tip, lag, k)));
    }
}

BITE_IN_LANES static void add_tooth_at(const bite_block *restrict block,
                                       const bite_hinge_lanes *restrict hinge, int hinges,
                                       bite_turned tip, const bite_turned_lanes *restrict lag,
                                       double keep, bite_edge_term_lanes *restrict sum)
{
    if (hinges == 1) {
        tooth_at(block, hinge, 1, tip, lag, keep, sum);
    } else if (hinges == 2) {
        tooth_at(block, hinge, 2, tip, lag, keep, sum);
    } else {
        tooth_at(block, hinge, 3, tip, lag, keep, sum);
    }
}

BITE_IN_LANES static void add_tooth_turned(const bite_block *restrict block,
                                           const bite_hinge_lanes *restrict hinge, int hinges,
                                           const bite_turned_lanes *restrict at, bite_turned by,
                                           const bite_turned_lanes *restrict lag, double keep,
                                           bite_edge_term_lanes *restrict sum)
{
    if (hinges == 1) {
        tooth_turned(block, hinge, 1, at, by, lag, keep, sum);
    } else if (hinges == 2) {
        tooth_turned(block, hinge, 2, at, by, lag, keep, sum);
    } else {
        tooth_turned(block, hinge, 3, at, by, lag, keep, sum);
    }
}

/* ---- peaks and walls ---- */

/* Updates the peaks with the load at one position of the tool. */
BITE_IN_LANES static void update_peaks(const bite_block *restrict block,
                                       const bite_square_tool *restrict tool,
                                       const bite_edge_term_lanes *restrict sum,
                                       bite_square_work *restrict work,
                                       bite_block_force *restrict force)
{
    const double *restrict tangential = work->tangential;
    const double *restrict radial = work->radial;
    const double *restrict axial = work->axial;
    const double *restrict edge_tangential = tool->edge_tangential;
    const double *restrict edge_radial = tool->edge_radial;
    const double *restrict edge_axial = tool->edge_axial;
    BITE_EACH_LANE(k, block)
    {
        bite_edge_terms terms = {sum->area[k], sum->area_sine[k], sum->area_cosine[k],
                                 sum->edge[k], sum->edge_sine[k], sum->edge_cosine[k]};
        bite_edge_load load = bite_edge_load_of(terms, tangential[k], radial[k], axial[k],
                                                edge_tangential[k], edge_radial[k], edge_axial[k]);
        double scale = work->per_lag[k];
        double whole = scale * load.tangential;
        double side = scale * scale * (load.x * load.x + load.y * load.y);
        double lift = scale * load.lift;
        force->peak_tangential[k] = bite_larger(whole, force->peak_tangential[k]);
        force->peak_side[k] = bite_larger(side, force->peak_side[k]); /* squared for now */
        work->up[k] = bite_larger(lift, work->up[k]);
        work->down[k] = bite_smaller(lift, work->down[k]);
    }
}

/* An angle this close to a wall counts as at it; the difference is due to rounding. */
static const double angle_rounding = 1e-9; /* rad */

/* Updates the bending at the wall that a tooth is finishing. from: what is to be added to the tip's
 * angle to count from the wall; sign: of a force that leaves stock. The height that is at the wall
 * lags the tip by the angle from the wall, in the sense in which the wall is finished upwards.
 * Rounding must not turn a tip that is at the wall into one that is a period away. */
BITE_IN_LANES static void update_wall(const bite_block *restrict block,
                                      const bite_square_tool *restrict tool,
                                      const bite_edge_term_lanes *restrict sum, double period,
                                      double from, double sign, const double *restrict tip,
                                      const bite_square_work *restrict work, double *restrict worst)
{
    double per_period = 1.0 / period;
    BITE_EACH_LANE(k, block)
    {
        double past = tip[k] + from;
        double along = (work->lag.at[k] < 0.0 ? -past : past) + angle_rounding;
        double turned = along - period * floor(along * per_period);
        double ahead = bite_larger(0.0, turned - angle_rounding);
        bite_edge_terms terms = {sum->area[k], sum->area_sine[k], sum->area_cosine[k],
                                 sum->edge[k], sum->edge_sine[k], sum->edge_cosine[k]};
        bite_edge_load load =
            bite_edge_load_of(terms, tool->tangential[k], tool->radial[k], tool->axial[k],
                              tool->edge_tangential[k], tool->edge_radial[k], tool->edge_axial[k]);
        double height = ahead * fabs(work->per_lag[k]);
        double bend =
            sign * work->per_lag[k] * load.y * (work->wall_force[k] - work->wall_fall[k] * height);
        int finishes = ahead <= fabs(work->lag.at[k]) + angle_rounding;
        worst[k] = (finishes & (fabs(bend) > fabs(worst[k]))) ? bend : worst[k];
    }
}

/* Whether a wall may be finished in any lane while the tips are within an interval past it. */
static int may_finish(const bite_square_work *work, double first, double last)
{
    double turns = (first - work->lag_above - angle_rounding) * work->per_period;
    return work->period * whole_above(turns) <= last + work->lag_below + angle_rounding;
}

/* One position of the tool. at: lanes, the angle of the tip of the tooth that finishes the walls
 * less `offset`; NULL: first, in all lanes. first, last: the least and the greatest of them. */
static void update(const bite_block *block, const bite_square_tool *tool, const double *at,
                   double first, double last, double offset, int into, bite_square_work *work,
                   bite_block_force *force)
{
    static const struct {
        double at;
        double sign;
    } walls[] = {{M_PI, 1.0}, {0.0, -1.0}}; /* climb, conventional */
    double *worst[] = {force->wall_climb, force->wall_conventional};
    if (!work->touched[into]) {
        return;
    }
    work->touched[into] = 0;
    update_peaks(block, tool, &work->sum[into], work, force);
    for (int i = 0; i < 2; i++) {
        double from = offset - walls[i].at;
        if (work->finishes[i] && may_finish(work, first + from, last + from)) {
            for (int k = 0; at == NULL && k < block->lanes; k++) {
                work->at.at[k] = first;
            }
            update_wall(block, tool, &work->sum[into], work->period, from, walls[i].sign,
                        at == NULL ? work->at.at : at, work, worst[i]);
        }
    }
}

/* ---- samples ---- */

/* The sum of the position `into` is replaced by its first tooth. */
static double keep_of(bite_square_work *work, int into)
{
    double keep = work->touched[into] ? 1.0 : 0.0;
    work->touched[into] = 1;
    return keep;
}

/* The range of tip angles at which a tooth is in contact in some lane. */
static double first_in_contact(const bite_block_chip *chip, const bite_square_work *work, int tooth)
{
    return chip->low[tooth] - work->lag_below;
}

static double last_in_contact(const bite_block_chip *chip, const bite_square_work *work, int tooth)
{
    return chip->high[tooth] + work->lag_above;
}

static int modulo(int number, int divisor)
{
    int rest = number % divisor;
    return rest < 0 ? rest + divisor : rest;
}

/* The least whole number of periods that is not before a step. */
static int periods_up_to(int step, int steps)
{
    return step > 0 ? (step + steps - 1) / steps : -(-step / steps);
}

/* The steps of a turn at which each tooth is in contact. */
static void find_steps(const bite_block_chip *chip, double per_step, bite_square_work *work)
{
    for (int j = 0; j < chip->hinges.teeth; j++) {
        work->first_step[j] = whole_above(first_in_contact(chip, work, j) * per_step - 0.5);
        work->last_step[j] = whole_below(last_in_contact(chip, work, j) * per_step - 0.5);
    }
}

/* Even steps over one pitch. A tooth is k pitches behind the one before it and passes the same
 * angles k pitches later: the loads of the positions of the tool are gathered over the teeth. */
static void sample_evenly(const bite_block *block, const bite_square_tool *tool,
                          const bite_block_chip *chip, bite_square_work *work,
                          bite_block_force *force)
{
    const bite_turn_table *turn = &chip->turn;
    const bite_chip_hinges *hinges = &chip->hinges;
    int flutes = block->flutes;
    int steps = turn->steps;
    double pitch = 2.0 * M_PI / flutes;
    find_steps(chip, steps / pitch, work);
    for (int i = 0; i < steps; i++) {
        double start = turn->angle[i].at;
        for (int j = 0; j < hinges->teeth; j++) {
            int first = hinges->first[j];
            int n = periods_up_to(work->first_step[j] - i, steps);
            for (; n * steps + i <= work->last_step[j]; n++) {
                int into = hinges->teeth == 1 ? 0 : modulo(n + j, flutes);
                bite_turned at = turn->angle[i + steps * modulo(n, flutes)];
                at.at = start + n * pitch;
                add_tooth_at(block, &chip->hinge[first], hinges->first[j + 1] - first, at,
                             &work->lag, keep_of(work, into), &work->sum[into]);
            }
        }
        for (int n = 0; n < hinges->teeth; n++) {
            update(block, tool, NULL, start, start, pitch * (n - hinges->longest), n, work, force);
        }
    }
}

/* The load when the tip of a tooth is at an angle that differs between lanes. */
static void sample_at(const bite_block *block, const bite_square_tool *tool,
                      const bite_block_chip *chip, int tooth, const bite_turned_lanes *at,
                      bite_square_work *work, bite_block_force *force)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    int flutes = block->flutes;
    int step = hinges->teeth == 1 ? 1 : flutes;
    double pitch = 2.0 * M_PI / flutes;
    double first = at->at[0];
    double last = at->at[0];
    for (int k = 1; k < block->lanes; k++) {
        first = bite_smaller(at->at[k], first);
        last = bite_larger(at->at[k], last);
    }
    for (int j = 0; j < hinges->teeth; j++) {
        /* tooth j is ahead of this one by n = tooth - j pitches, and by whole turns */
        int to = whole_below((last_in_contact(chip, work, j) - first) / pitch + angle_rounding);
        int n = whole_above((first_in_contact(chip, work, j) - last) / pitch - angle_rounding);
        for (n += modulo(tooth - j - n, step); n <= to; n += step) {
            bite_turned by = chip->turn.pitch[modulo(n, flutes)];
            by.at = n * pitch;
            add_tooth_turned(block, &chip->hinge[hinges->first[j]],
                             hinges->first[j + 1] - hinges->first[j], at, by, &work->lag,
                             keep_of(work, 0), &work->sum[0]);
        }
    }
    update(block, tool, at->at, first, last, pitch * (tooth - hinges->longest), 0, work, force);
}

BITE_IN_LANES static void fill_behind(const bite_block *restrict block,
                                      const bite_turned_lanes *restrict border,
                                      const bite_turned_lanes *restrict lag,
                                      bite_turned_lanes *restrict at)
{
    BITE_EACH_LANE(k, block)
    {
        bite_turned_store(at, k,
                          bite_turned_sum(bite_turned_lane(border, k), bite_turned_lane(lag, k)));
    }
}

/* The positions at which the tip, or the upper end, of a tooth's edge passes the border of a hinge:
 * it enters or leaves the cut, or its chip begins to grow at another rate. A hinge without an
 * interval is sampled too, where its borders coincide: a cut must not have other samples in another
 * block. */
static void sample_kinks(const bite_block *block, const bite_square_tool *tool,
                         const bite_block_chip *chip, bite_square_work *work,
                         bite_block_force *force)
{
    for (int j = 0; j < chip->hinges.teeth; j++) {
        for (int i = chip->hinges.first[j]; i < chip->hinges.first[j + 1]; i++) {
            const bite_hinge_lanes *hinge = &chip->hinge[i];
            const bite_turned_lanes *borders[] = {&hinge->low, &hinge->high};
            for (int end = 0; end < 2; end++) {
                sample_at(block, tool, chip, j, borders[end], work, force);
                fill_behind(block, borders[end], &work->lag, &work->at);
                sample_at(block, tool, chip, j, &work->at, work, force);
            }
        }
    }
}

/* ---- means ---- */

/* Adds the integrals of a hinge over its whole interval. */
BITE_IN_LANES static void add_whole(const bite_block *restrict block,
                                    const bite_hinge_lanes *restrict hinge, double first,
                                    bite_edge_term_lanes *restrict sum)
{
    BITE_EACH_LANE(k, block)
    {
        bite_edge_terms terms =
            bite_edge_between(hinge->slope[k], hinge->offset[k], bite_turned_lane(&hinge->low, k),
                              bite_turned_lane(&hinge->high, k));
        sum->area[k] += terms.area;
        sum->area_sine[k] += terms.area_sine;
        sum->area_cosine[k] += terms.area_cosine;
        sum->edge[k] += first * terms.edge;
        sum->edge_sine[k] += first * terms.edge_sine;
        sum->edge_cosine[k] += first * terms.edge_cosine;
    }
}

/* times: teeth that each tooth of the chips stands for. */
BITE_IN_LANES static void fill_means(const bite_block *restrict block,
                                     const bite_square_tool *restrict tool, double times,
                                     const bite_edge_term_lanes *restrict sum,
                                     bite_block_force *restrict force)
{
    const double *restrict depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        double share = times * depth[k] / (2.0 * M_PI);
        bite_edge_terms terms = {share * sum->area[k],        share * sum->area_sine[k],
                                 share * sum->area_cosine[k], share * sum->edge[k],
                                 share * sum->edge_sine[k],   share * sum->edge_cosine[k]};
        bite_edge_load load =
            bite_edge_load_of(terms, tool->tangential[k], tool->radial[k], tool->axial[k],
                              tool->edge_tangential[k], tool->edge_radial[k], tool->edge_axial[k]);
        force->mean_tangential[k] = load.tangential;
        force->mean_x[k] = load.x;
        force->mean_y[k] = load.y;
        force->mean_lift[k] = load.lift;
        force->mean_torque[k] = load.tangential * 0.5 * tool->diameter[k];
    }
}

static void find_means(const bite_block *block, const bite_square_tool *tool,
                       const bite_block_chip *chip, bite_square_work *work, bite_block_force *force)
{
    bite_edge_term_lanes *sum = &work->sum[0];
    memset(sum, 0, sizeof *sum);
    for (int j = 0; j < chip->hinges.teeth; j++) {
        for (int i = chip->hinges.first[j]; i < chip->hinges.first[j + 1]; i++) {
            add_whole(block, &chip->hinge[i], i == chip->hinges.first[j] ? 1.0 : 0.0, sum);
        }
    }
    fill_means(block, tool, chip->hinges.teeth == 1 ? (double)block->flutes : 1.0, sum, force);
}

/* ---- all of it ---- */

BITE_IN_LANES static void prepare(const bite_block *restrict block,
                                  const bite_square_tool *restrict tool,
                                  const bite_block_segment *restrict segment,
                                  bite_square_work *restrict work, bite_block_force *restrict force)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict helix = BITE_ROW(block, helix);
    BITE_EACH_LANE(k, block)
    {
        double lag = bite_edge_lag(depth[k], tool->diameter[k], helix[k]);
        double heavy = segment->heavy_chip[k];
        double peak = bite_chip_peak(heavy, segment->value[BITE_CHIP_THICKNESS_LEAST][k]);
        work->lag.at[k] = lag;
        work->per_lag[k] = depth[k] / lag;
        double factor = heavy > 0.0 ? peak / heavy : 1.0;
        work->tangential[k] = factor * tool->tangential[k];
        work->radial[k] = factor * tool->radial[k];
        work->axial[k] = factor * tool->axial[k];
        work->wall_force[k] = segment->compliance[k] + tool->slope[k] * segment->load[k];
        work->wall_fall[k] = tool->slope[k];
        work->up[k] = work->down[k] = 0.0;
        force->peak_tangential[k] = force->peak_side[k] = 0.0;
        force->wall_climb[k] = force->wall_conventional[k] = 0.0;
    }
}

BITE_IN_LANES static void fill_lag_sine(const bite_block *restrict block,
                                        bite_turned_lanes *restrict lag)
{
    BITE_EACH_LANE(k, block)
    {
        lag->sine[k] = sin(lag->at[k]);
    }
}

BITE_IN_LANES static void fill_lag_cosine(const bite_block *restrict block,
                                          bite_turned_lanes *restrict lag)
{
    BITE_EACH_LANE(k, block)
    {
        lag->cosine[k] = cos(lag->at[k]);
    }
}

/* A wall exists where the arc of contact reaches it. */
BITE_IN_LANES static void finish(const bite_block *restrict block,
                                 const bite_square_tool *restrict tool,
                                 const bite_block_chip *restrict chip,
                                 const bite_square_work *restrict work,
                                 bite_block_force *restrict force)
{
    BITE_EACH_LANE(k, block)
    {
        force->peak_side[k] = sqrt(force->peak_side[k]);
        force->peak_lift[k] = work->up[k] >= -work->down[k] ? work->up[k] : work->down[k];
        force->peak_torque[k] = force->peak_tangential[k] * 0.5 * tool->diameter[k];
        force->wall_climb[k] = chip->leave.at[k] >= M_PI ? force->wall_climb[k] : (double)NAN;
        force->wall_conventional[k] =
            chip->enter.at[k] <= 0.0 ? force->wall_conventional[k] : (double)NAN;
    }
}

/* What is the same for all samples: the greatest lag, and which walls there are in any lane. The
 * walls are finished by the tooth that reaches farthest; if all teeth cut alike, by each of them.
 */
static void find_extent(const bite_block *block, const bite_block_chip *chip,
                        bite_square_work *work)
{
    int teeth = chip->hinges.teeth == 1 ? block->flutes : 1;
    work->lag_above = work->lag_below = 0.0;
    work->finishes[0] = work->finishes[1] = 0;
    for (int k = 0; k < block->lanes; k++) {
        work->lag_above = bite_larger(work->lag.at[k], work->lag_above);
        work->lag_below = bite_larger(-work->lag.at[k], work->lag_below);
        work->finishes[0] |= chip->leave.at[k] >= M_PI;
        work->finishes[1] |= chip->enter.at[k] <= 0.0;
    }
    work->period = 2.0 * M_PI / teeth;
    work->per_period = teeth / (2.0 * M_PI);
}

void bite_block_square(const bite_block *block, const bite_square_tool *tool,
                       const bite_block_chip *chip, const bite_block_segment *segment,
                       bite_square_work *work, bite_block_force *force)
{
    find_means(block, tool, chip, work, force);
    prepare(block, tool, segment, work, force);
    fill_lag_sine(block, &work->lag);
    fill_lag_cosine(block, &work->lag);
    find_extent(block, chip, work);
    memset(work->touched, 0, sizeof work->touched);
    memset(work->sum, 0, (size_t)block->flutes * sizeof *work->sum); /* finite numbers to replace */
    sample_evenly(block, tool, chip, work, force);
    sample_kinks(block, tool, chip, work, force);
    finish(block, tool, chip, work, force);
}
