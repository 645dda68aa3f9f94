/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Samples of a turn of a square end mill, in lanes.
 *
 * The load is sampled in even steps of a turn and wherever an end of an edge enters or leaves the
 * cut, where it has kinks. Between kinks it is smooth: in steps of 7.5 degrees a peak is missed by
 * at most 1 - cos(3.75 degrees), 0.2 %. All cuts of a block are sampled at the same angles, and a
 * tooth that is in contact in none of them is skipped.
 */
#include "core/cut/block/square_samples.h"
#include "core/cut/block/square_loads.h"
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

static int modulo(int number, int divisor)
{
    int rest = number % divisor;
    return rest < 0 ? rest + divisor : rest;
}

/* ---- what is the same for all samples ---- */

/* Least and greatest number of a row. */
static bite_range range_of(const bite_block *block, const double *row)
{
    double least[BITE_LANE_STEP];
    double most[BITE_LANE_STEP];
    memcpy(least, row, sizeof least);
    memcpy(most, row, sizeof most);
    for (int k = BITE_LANE_STEP; k < block->lanes; k += BITE_LANE_STEP) {
        for (int i = 0; i < BITE_LANE_STEP; i++) {
            least[i] = bite_smaller(row[k + i], least[i]);
            most[i] = bite_larger(row[k + i], most[i]);
        }
    }
    bite_range range = {least[0], most[0]};
    for (int i = 1; i < BITE_LANE_STEP; i++) {
        range.least = bite_smaller(least[i], range.least);
        range.most = bite_larger(most[i], range.most);
    }
    return range;
}

/* Adds the line of a hinge to those before it of its tooth. */
BITE_IN_LANES static void add_line(const bite_block *restrict block,
                                   const bite_hinge_lanes *restrict hinge, double *restrict slope,
                                   double *restrict offset)
{
    BITE_EACH_LANE(k, block)
    {
        slope[k] += hinge->slope[k];
        offset[k] += hinge->offset[k];
    }
}

static void find_line(const bite_block *block, const bite_block_chip *chip, int tooth,
                      bite_square_work *work)
{
    int first = chip->hinges.first[tooth];
    memcpy(work->slope[tooth], chip->hinge[first].slope, sizeof work->slope[tooth]);
    memcpy(work->offset[tooth], chip->hinge[first].offset, sizeof work->offset[tooth]);
    for (int i = first + 1; i < chip->hinges.first[tooth + 1]; i++) {
        add_line(block, &chip->hinge[i], work->slope[tooth], work->offset[tooth]);
    }
}

/* The ranges of all borders and lags, and the lines of all teeth. */
static void find_extent(const bite_block *block, const bite_block_chip *chip,
                        bite_square_work *work)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    int alike = hinges->teeth == 1 ? block->flutes : 1;
    for (int j = 0; j < hinges->teeth; j++) {
        find_line(block, chip, j, work);
    }
    for (int i = 0; i < hinges->first[hinges->teeth]; i++) {
        work->range[i].low = range_of(block, chip->hinge[i].low.at);
        work->range[i].high = range_of(block, chip->hinge[i].high.at);
    }
    work->lag_range = range_of(block, work->lag.at);
    work->lag_above = bite_larger(work->lag_range.most, 0.0);
    work->lag_below = bite_larger(-work->lag_range.least, 0.0);
    work->period = 2.0 * M_PI / alike;
    work->per_period = alike / (2.0 * M_PI);
}

/* ---- even steps ---- */

static int first_step(double per_width, double from)
{
    return whole_above(from * per_width - 0.5);
}

static int last_step(double per_width, double to)
{
    return whole_below(to * per_width - 0.5);
}

/* start: step of the tip at the first position. */
static bite_step_counter counter_of(const bite_square_turn *turn, int first, int last, int start)
{
    bite_step_counter counter = {first, last, first + modulo(start - first, turn->cycle), 0};
    counter.turn = modulo(counter.now, turn->steps);
    return counter;
}

/* Tooth j is j pitches behind the first one. */
static bite_square_tooth tooth_of(const bite_square_turn *turn, double per_width,
                                  const bite_block_chip *chip, int j, const bite_square_work *work)
{
    int first = chip->hinges.first[j];
    int last = chip->hinges.first[j + 1] - 1;
    const bite_hinge_range *outer = &work->range[first];
    const bite_hinge_range *inner = &work->range[last]; /* they lie within each other */
    bite_square_tooth tooth = {
        .contact = counter_of(turn, first_step(per_width, outer->low.least - work->lag_below),
                              last_step(per_width, outer->high.most + work->lag_above),
                              -j * chip->turn.steps),
        .whole_first = first_step(per_width, inner->low.most + work->lag_above),
        .whole_last = last_step(per_width, inner->high.least - work->lag_below),
        .hinges = last - first + 1,
        .slope = work->slope[j],
        .offset = work->offset[j],
        .hinge = &chip->hinge[first],
    };
    return tooth;
}

static bite_square_wall wall_of(const bite_square_turn *turn, double per_width, double at,
                                int start, const bite_square_work *work)
{
    double from = at - work->lag_below - BITE_SQUARE_ROUNDING;
    double to = at + work->lag_above + BITE_SQUARE_ROUNDING;
    bite_square_wall wall = {
        .finished = counter_of(turn, first_step(per_width, from), last_step(per_width, to), start),
        .at = at,
    };
    return wall;
}

/* If all teeth cut alike, one pitch is sampled. The walls are finished by the tooth that reaches
 * farthest; if all teeth cut alike, by each of them. */
static void start_turn(const bite_block *block, const bite_block_chip *chip,
                       const bite_square_work *work, bite_block_force *force,
                       bite_square_turn *turn)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    int pitch = chip->turn.steps;
    turn->steps = pitch * block->flutes;
    turn->cycle = hinges->teeth == 1 ? pitch : turn->steps;
    turn->tooth_count = hinges->teeth;
    double per_width = turn->steps / (2.0 * M_PI);
    for (int j = 0; j < hinges->teeth; j++) {
        turn->teeth[j] = tooth_of(turn, per_width, chip, j, work);
    }
    bite_square_wall *climb = &turn->walls[0];
    bite_square_wall *conventional = &turn->walls[1];
    *climb = wall_of(turn, per_width, M_PI, -hinges->longest * pitch, work);
    climb->exists = range_of(block, chip->leave.at).most >= M_PI;
    climb->sign = 1.0;
    climb->worst = force->wall_climb;
    *conventional = wall_of(turn, per_width, 0.0, -hinges->longest * pitch, work);
    conventional->exists = range_of(block, chip->enter.at).least <= 0.0;
    conventional->sign = -1.0;
    conventional->worst = force->wall_conventional;
}

/* ---- kinks ---- */

/* What the samples at kinks share. */
typedef struct kink_samples {
    const bite_block *block;
    const bite_square_tool *tool;
    const bite_block_chip *chip;
    const bite_square_turn *turn;
    bite_square_work *work;
    bite_block_force *force;
} kink_samples;

/* Whether a wall may be finished in any lane while the tips are within an interval past it. */
static int may_finish(const bite_square_work *work, double first, double last)
{
    double turns = (first - work->lag_above - BITE_SQUARE_ROUNDING) * work->per_period;
    return work->period * whole_above(turns) <= last + work->lag_below + BITE_SQUARE_ROUNDING;
}

/* Adds a tooth at each of its positions while the tip of another one is at an angle that differs
 * between lanes, `about` it: it is `ahead` pitches ahead of that one, and by whole turns. Returns 1
 * if there is something in the sum. */
static int add_kink(const kink_samples *samples, int tooth, int ahead, const bite_turned_lanes *at,
                    bite_range about, int touched)
{
    const bite_block_chip *chip = samples->chip;
    const bite_square_work *work = samples->work;
    int flutes = samples->block->flutes;
    int turn = chip->hinges.teeth == 1 ? 1 : flutes;
    const bite_hinge_range *range = &work->range[chip->hinges.first[tooth]];
    double pitch = 2.0 * M_PI / flutes;
    double per_pitch = flutes / (2.0 * M_PI);
    double reach = (range->high.most + work->lag_above - about.least) * per_pitch;
    double start = (range->low.least - work->lag_below - about.most) * per_pitch;
    int last = whole_below(reach + BITE_SQUARE_ROUNDING);
    int n = whole_above(start - BITE_SQUARE_ROUNDING);
    for (n += modulo(ahead - n, turn); n <= last; n += turn) {
        bite_turned by = chip->turn.pitch[modulo(n, flutes)];
        by.at = n * pitch;
        bite_square_add(samples->block, &samples->turn->teeth[tooth], at, by, touched ? 1.0 : 0.0,
                        samples->work);
        touched = 1;
    }
    return touched;
}

/* The load when the tip of a tooth is at an angle that differs between lanes. about: the least and
 * the greatest of them. */
static void sample_at(const kink_samples *samples, int tooth, const bite_turned_lanes *at,
                      bite_range about)
{
    const bite_chip_hinges *hinges = &samples->chip->hinges;
    double offset = 2.0 * M_PI / samples->block->flutes * (tooth - hinges->longest);
    int touched = 0;
    for (int j = 0; j < hinges->teeth; j++) {
        touched = add_kink(samples, j, tooth - j, at, about, touched);
    }
    if (!touched) {
        return;
    }
    bite_square_peaks(samples->block, samples->work, samples->force);
    for (int i = 0; i < BITE_SQUARE_WALLS; i++) {
        const bite_square_wall *wall = &samples->turn->walls[i];
        double past = offset - wall->at;
        if (wall->exists && may_finish(samples->work, about.least + past, about.most + past)) {
            bite_square_finish(samples->block, samples->tool, wall, at->at, offset, samples->work);
        }
    }
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
static void sample_border(const kink_samples *samples, int tooth, const bite_turned_lanes *border,
                          bite_range about)
{
    bite_square_work *work = samples->work;
    bite_range behind = {about.least + work->lag_range.least, about.most + work->lag_range.most};
    sample_at(samples, tooth, border, about);
    fill_behind(samples->block, border, &work->lag, &work->at);
    sample_at(samples, tooth, &work->at, behind);
}

static void sample_kinks(const kink_samples *samples)
{
    const bite_chip_hinges *hinges = &samples->chip->hinges;
    for (int j = 0; j < hinges->teeth; j++) {
        for (int i = hinges->first[j]; i < hinges->first[j + 1]; i++) {
            const bite_hinge_lanes *hinge = &samples->chip->hinge[i];
            sample_border(samples, j, &hinge->low, samples->work->range[i].low);
            sample_border(samples, j, &hinge->high, samples->work->range[i].high);
        }
    }
}

/* ---- all of it ---- */

void bite_square_sample(const bite_block *block, const bite_square_tool *tool,
                        const bite_block_chip *chip, bite_square_work *work,
                        bite_block_force *force)
{
    bite_square_turn turn;
    kink_samples samples = {block, tool, chip, &turn, work, force};
    find_extent(block, chip, work);
    start_turn(block, chip, work, force, &turn);
    memset(work->none, 0, sizeof work->none);
    memset(&work->sum, 0, sizeof work->sum); /* finite numbers to replace */
    bite_square_evenly(block, tool, chip->turn.angle, &turn, work, force);
    sample_kinks(&samples);
}
