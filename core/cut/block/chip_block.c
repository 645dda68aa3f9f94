/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chips of a block: the arc of contact, and the hinges of every tooth within it. */
#include "core/cut/block/chip_block.h"
#include "core/physics/geometry/engagement.h"

int bite_block_cuts_alike(const bite_block *block)
{
    const double *runout = BITE_ROW(block, runout);
    for (int k = 0; k < block->lanes; k++) {
        if (runout[k] > 0.0) {
            return block->flutes == 1;
        }
    }
    return 1;
}

BITE_IN_LANES static void fill_arc(const bite_block *restrict block, const double *restrict span,
                                   bite_block_segment *restrict segment)
{
    int climbs = block->cut->side == BITE_CLIMB;
    BITE_EACH_LANE(k, block)
    {
        segment->enter[k] = climbs ? M_PI - span[k] : 0.0;
        segment->leave[k] = climbs ? M_PI : span[k];
    }
}

BITE_IN_LANES static void fill_cosines(const bite_block *restrict block,
                                       bite_turned_lanes *restrict angle)
{
    BITE_EACH_LANE(k, block)
    {
        angle->cosine[k] = cos(angle->at[k]);
    }
}

BITE_IN_LANES static void fill_sines(const bite_block *restrict block, const double *restrict at,
                                     bite_turned_lanes *restrict angle)
{
    BITE_EACH_LANE(k, block)
    {
        angle->at[k] = at[k];
        angle->sine[k] = sin(at[k]);
    }
}

BITE_IN_LANES static void straight_span(const bite_block *restrict block,
                                        const double *restrict diameter,
                                        const double *restrict width, double *restrict span)
{
    BITE_EACH_LANE(k, block)
    {
        span[k] = bite_engagement_span_of_width(diameter[k], width[k]);
    }
}

BITE_IN_LANES static void corner_span(const bite_block *restrict block,
                                      const double *restrict diameter, const double *restrict width,
                                      const double *restrict inside_radius, double *restrict span)
{
    BITE_EACH_LANE(k, block)
    {
        span[k] = bite_engagement_span_in_corner(diameter[k], width[k], inside_radius[k]);
    }
}

void bite_block_arc(const bite_block *block, const double *width, const double *inside_radius,
                    bite_block_segment *segment)
{
    bite_lanes span;
    if (inside_radius == NULL) {
        straight_span(block, segment->diameter, width, span);
    } else {
        corner_span(block, segment->diameter, width, inside_radius, span);
    }
    fill_arc(block, span, segment);
}

void bite_block_arc_sines(const bite_block *block, const bite_block_segment *segment,
                          bite_block_chip *chip)
{
    fill_sines(block, segment->enter, &chip->enter);
    fill_cosines(block, &chip->enter);
    fill_sines(block, segment->leave, &chip->leave);
    fill_cosines(block, &chip->leave);
}

/* ---- hinges ---- */

static bite_turned turned_by(double angle)
{
    bite_turned turned = {angle, sin(angle), cos(angle)};
    return turned;
}

/* The middles of all steps of a turn: sines of some of them, and sums. */
static void fill_angles(bite_turn_table *turn, int steps)
{
    enum { FEW = 8 };
    bite_turned first[FEW];
    bite_turned ahead = {0.0, 0.0, 1.0};
    double step = 2.0 * M_PI / steps;
    for (int i = 0; i < FEW; i++) {
        first[i] = turned_by((i + 0.5) * step);
    }
    for (int i = 0; i < steps; i++) {
        if (i > 0 && i % FEW == 0) {
            ahead = turned_by(i * step);
        }
        turn->angle[i] = bite_turned_sum(first[i % FEW], ahead);
    }
}

void bite_block_chip_init(bite_block_chip *chip, int flutes, int alike)
{
    bite_turn_table *turn = &chip->turn;
    bite_chip_hinges_init(&chip->hinges, flutes, alike);
    turn->steps = (BITE_TURN_STEPS + flutes - 1) / flutes;
    fill_angles(turn, turn->steps * flutes);
    for (int n = 0; n < flutes; n++) {
        turn->pitch[n] = turned_by(2.0 * M_PI * n / flutes);
    }
}

BITE_IN_LANES static void fill_hinge(const bite_block *restrict block, bite_chip_hinge from,
                                     const bite_block_chip *restrict chip,
                                     bite_hinge_lanes *restrict hinge)
{
    const double *restrict runout = BITE_ROW(block, runout);
    BITE_EACH_LANE(k, block)
    {
        bite_turned enter = bite_turned_lane(&chip->enter, k);
        bite_turned leave = bite_turned_lane(&chip->leave, k);
        bite_turned start = bite_chip_hinge_start(from.at, runout[k] / chip->feed[k]);
        bite_turned end = {M_PI - start.at, start.sine, -start.cosine};
        bite_turned_store(&hinge->low, k, bite_turned_within(start, enter, leave));
        bite_turned_store(&hinge->high, k, bite_turned_within(end, enter, leave));
        hinge->slope[k] = from.slope * chip->feed[k];
        hinge->offset[k] = from.offset * runout[k];
    }
}

/* Adds the chip of a hinge to those of its tooth and of all teeth. */
BITE_IN_LANES static void add_hinge(const bite_block *restrict block, bite_chip_hinge from,
                                    double times, const bite_hinge_lanes *restrict hinge,
                                    bite_block_chip *restrict chip)
{
    const double *restrict runout = BITE_ROW(block, runout);
    BITE_EACH_LANE(k, block)
    {
        double sine = bite_engagement_sine_most_of(chip->enter.at[k], chip->leave.at[k],
                                                   chip->enter.sine[k], chip->leave.sine[k]);
        double turn = hinge->high.at[k] - hinge->low.at[k];
        chip->tooth_most[k] += bite_chip_hinge_thickness(from, chip->feed[k], runout[k], sine);
        chip->area[k] += times * (hinge->offset[k] * turn -
                                  hinge->slope[k] * (hinge->high.cosine[k] - hinge->low.cosine[k]));
    }
}

BITE_IN_LANES static void add_tooth(const bite_block *restrict block, double times,
                                    const bite_hinge_lanes *restrict first,
                                    bite_block_chip *restrict chip)
{
    BITE_EACH_LANE(k, block)
    {
        chip->most[k] = bite_larger(chip->tooth_most[k], chip->most[k]);
        chip->arc[k] += times * (first->high.at[k] - first->low.at[k]);
        chip->tooth_most[k] = 0.0;
    }
}

/* z fz divided over the arc that is really cut: fz if all teeth cut alike, z fz if one tooth cuts
 * all of it. */
BITE_IN_LANES static void fill_feed_real(const bite_block *restrict block,
                                         bite_block_chip *restrict chip)
{
    double flutes = (double)block->flutes;
    BITE_EACH_LANE(k, block)
    {
        double feed = chip->feed[k];
        double full = flutes * (chip->leave.at[k] - chip->enter.at[k]);
        double shared = bite_smaller(flutes * feed, feed * full / chip->arc[k]);
        chip->feed_real[k] = chip->arc[k] > 0.0 ? shared : feed;
    }
}

BITE_IN_LANES static void start(const bite_block *restrict block, bite_block_chip *restrict chip)
{
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    const double *restrict speed = BITE_ROW(block, spindle_speed);
    double flutes = (double)block->flutes;
    BITE_EACH_LANE(k, block)
    {
        chip->feed[k] = feed_rate[k] / (speed[k] * flutes);
        chip->most[k] = chip->arc[k] = chip->area[k] = chip->tooth_most[k] = 0.0;
    }
}

/* The range of the angles in contact, for skipping what is in contact nowhere. */
static void find_range(const bite_block *block, const bite_hinge_lanes *first, double *low,
                       double *high)
{
    *low = first->low.at[0];
    *high = first->high.at[0];
    for (int k = 1; k < block->lanes; k++) {
        *low = bite_smaller(first->low.at[k], *low);
        *high = bite_larger(first->high.at[k], *high);
    }
}

void bite_block_chips(const bite_block *block, bite_block_chip *chip)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    double times = hinges->teeth == 1 ? (double)block->flutes : 1.0;
    start(block, chip);
    for (int j = 0; j < hinges->teeth; j++) {
        for (int i = hinges->first[j]; i < hinges->first[j + 1]; i++) {
            fill_hinge(block, hinges->hinge[i], chip, &chip->hinge[i]);
            add_hinge(block, hinges->hinge[i], times, &chip->hinge[i], chip);
        }
        const bite_hinge_lanes *first = &chip->hinge[hinges->first[j]];
        add_tooth(block, times, first, chip);
        find_range(block, first, &chip->low[j], &chip->high[j]);
    }
    fill_feed_real(block, chip);
}
