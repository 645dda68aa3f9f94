/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chamfers in lanes: against the sums at the heights in contact, against an edge in many thin
 * slices, and whatever the width of the block. */
#include "core/cut/block/chamfer_block.h"
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "tests/cut/block/fine_edge.h"
#include "tests/oracle/closed_forms/chamfer_mill.h"
#include "tests/oracle/closed_forms/chip_pieces.h"
#include "tests/oracle/closed_forms/cone_heights.h"
#include "tests/oracle/closed_forms/cut_tools.h"
#include "tests/support/support.h"
#include "tests/support/test_blocks.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_engagement.h"
#include <math.h>
#include <string.h>

static bite_strip_work work;

/* A random chamfer, in an inside corner if asked for. */
static bite_cut chamfer(uint64_t *seed, int corner)
{
    bite_cut cut = bite_test_chamfer(seed);
    cut.flutes = floor(bite_test_between(seed, 1.0, 9.0));
    cut.feed_rate = fmin(cut.feed_rate, 0.08 * cut.diameter * cut.flutes * cut.spindle_speed);
    cut.inside_radius = corner ? cut.diameter * bite_test_decades(seed, 0.1, 3.0) : (double)NAN;
    bite_defaults_fill(&cut);
    return cut;
}

static const double *inside_of(const bite_test_block *made)
{
    return isnan(made->inside_radius[0]) ? NULL : made->inside_radius;
}

static void compute(bite_test_block *made, bite_block_force *force)
{
    bite_block_cone(&made->block, &made->chip, inside_of(made), &made->segment, &work);
    bite_block_chamfer(&made->block, &made->chip, inside_of(made), &made->segment, &work, force);
}

static bite_pressure pressure_of(const bite_block_segment *segment, int k)
{
    bite_pressure pressure = {segment->tangential[k],  segment->radial[k],
                              segment->axial[k],       segment->edge_tangential[k],
                              segment->edge_radial[k], segment->edge_axial[k],
                              segment->fracture[k]};
    return pressure;
}

static void by_heights(const bite_cut *cut, const bite_test_block *made, bite_cone *cone,
                       bite_chip *chip, bite_corner_mill *sum)
{
    bite_arc arc = bite_test_arc(cut);
    bite_chamfer_tool mill = bite_cut_chamfer_tool(cut);
    bite_pressure pressure = pressure_of(&made->segment, 0);
    *cone = bite_chamfer_cone_in(&mill.shape, arc);
    bite_chip_init(chip, arc, made->chip.feed[0], (int)cut->flutes, cut->runout);
    bite_chamfer_forces(&mill, arc, chip, &pressure, sum);
}

/* Chips and section agree to rounding; so do the means without runout along a straight edge. Where
 * an arc is longer than a half turn less the angle at which a hinge begins, its last part is not
 * split off: 1e-5 of the mean force. */
START_TEST(means_are_those_of_the_heights)
{
    static bite_test_block made;
    bite_block_force force;
    uint64_t seed = 111;
    for (int i = 0; i < 400; i++) {
        bite_cut cut = chamfer(&seed, i % 2);
        bite_cone cone;
        static bite_chip chip;
        bite_corner_mill sum;
        bite_test_block_fill(&made, &cut, 1);
        by_heights(&cut, &made, &cone, &chip, &sum);
        compute(&made, &force);
        const bite_block_segment *segment = &made.segment;
        double within = i % 2 == 0 && bite_block_cuts_alike(&made.block) ? 1e-12 : 2e-5;
        double side = hypot(sum.mean.x, sum.mean.y);
        bite_side way = (bite_side)cut.side;
        bite_assert_near(segment->heavy_chip[0], sum.heavy_chip, 1e-9);
        bite_assert_near(segment->thin_chip[0], bite_chamfer_chip(&cone, &chip, way, 0.25), 1e-9);
        bite_assert_near(segment->value[BITE_REMOVAL_RATE][0], sum.section * cut.feed_rate, 1e-12);
        bite_assert_near(force.mean_tangential[0], sum.mean.tangential, within);
        bite_assert_near(force.mean_torque[0], sum.torque_mean, within);
        bite_assert_near(segment->contact_chip[0], sum.chip_mean, within);
        bite_assert_near(segment->contact_teeth[0], sum.teeth_edge, within);
        bite_assert_near(segment->contact_length[0], sum.edge_length, 1e-12);
        ck_assert(fabs(force.mean_x[0] - sum.mean.x) <= within * side);
        ck_assert(fabs(force.mean_y[0] - sum.mean.y) <= within * side);
        ck_assert(fabs(force.mean_lift[0] - sum.mean.lift) <= within * side);
    }
}
END_TEST

#define FINE 600

static void fine_slices(const bite_cut *cut, const bite_cone *cone, double thicker,
                        fine_slice *slices)
{
    for (int i = 0; i < FINE; i++) {
        double root = (i + 0.5) / FINE;
        double height = cut->depth * root * root;
        double rise = 2.0 * cut->depth * root / FINE;
        fine_slice slice = {
            .height = height,
            .rise = rise,
            .length = rise / cone->sine,
            .radius = cone->small + height * cone->slope,
            .sine = cone->sine,
            .cosine = cone->cosine,
            .arc = bite_engagement_arc(bite_cone_span(cone, height), (bite_side)cut->side),
            .thicker = thicker,
        };
        slices[i] = slice;
    }
}

/* Peaks of random chamfers: half are within 0.1 %, nine in ten within 0.4 %, and all within 2.5 %,
 * which are long cones with a steep helix. */
START_TEST(peaks_are_those_of_thin_slices)
{
    static bite_test_block made;
    static fine_slice slices[FINE];
    static bite_chip chip;
    bite_block_force force;
    uint64_t seed = 112;
    int within_small = 0;
    int within_middle = 0;
    int count = 60;
    for (int i = 0; i < count; i++) {
        bite_cut cut = chamfer(&seed, i % 3 == 0);
        bite_cone cone;
        bite_corner_mill sum;
        bite_test_block_fill(&made, &cut, 1);
        by_heights(&cut, &made, &cone, &chip, &sum);
        bite_pressure pressure = pressure_of(&made.segment, 0);
        double least = bite_cut_least_chip(&cut);
        fine_tool tool = {(int)cut.flutes, made.chip.feed[0],
                          cut.runout,      tan(cut.helix) / (0.5 * cut.diameter),
                          least,           1e-4};
        fine_slices(&cut, &cone, bite_chip_peak(sum.heavy_chip, least) / sum.heavy_chip, slices);
        fine_peaks fine = fine_edge_peaks(&tool, &pressure, slices, FINE);
        compute(&made, &force);
        double away = fabs(force.peak_tangential[0] / fine.peaks.tangential - 1.0);
        away = fmax(away, fabs(force.peak_side[0] / fine.peaks.side - 1.0));
        away = fmax(away, fabs(force.peak_torque[0] / fine.torque - 1.0));
        away = fmax(away, fabs(fabs(force.peak_lift[0]) - fabs(fine.peaks.lift)) / fine.peaks.side);
        ck_assert_msg(away < 0.025, "cut %d: peaks are off by %g", i, away);
        within_small += away < 0.001;
        within_middle += away < 0.004;
    }
    ck_assert_msg(within_small >= count / 2, "%d of %d within 0.1 %%", within_small, count);
    ck_assert_msg(within_middle >= count * 9 / 10, "%d of %d within 0.4 %%", within_middle, count);
}
END_TEST

/* A lane does not depend on its neighbours. */
START_TEST(any_width_gives_the_same)
{
    static bite_test_block made;
    static const int widths[] = {1, 5, 16};
    static bite_cut cuts[BITE_LANES];
    bite_block_force wide;
    bite_block_force force;
    uint64_t seed = 113;
    for (int round = 0; round < 40; round++) {
        cuts[0] = chamfer(&seed, round % 2);
        for (int k = 1; k < BITE_LANES; k++) {
            cuts[k] = cuts[0];
            cuts[k].depth *= bite_test_between(&seed, 0.5, 1.0);
            cuts[k].feed_rate *= bite_test_between(&seed, 0.5, 1.0);
        }
        bite_test_block_fill(&made, cuts, BITE_LANES);
        compute(&made, &wide);
        for (size_t w = 0; w < sizeof widths / sizeof *widths; w++) {
            bite_test_block_fill(&made, cuts, widths[w]);
            compute(&made, &force);
            for (int k = 0; k < widths[w]; k++) {
                bite_assert_near(force.peak_tangential[k], wide.peak_tangential[k], 1e-12);
                bite_assert_near(force.peak_side[k], wide.peak_side[k], 1e-12);
                bite_assert_near(force.peak_torque[k], wide.peak_torque[k], 1e-12);
                bite_assert_near(force.peak_lift[k], wide.peak_lift[k], 1e-12);
                bite_assert_near(force.mean_tangential[k], wide.mean_tangential[k], 1e-12);
                bite_assert_near(force.mean_torque[k], wide.mean_torque[k], 1e-12);
            }
        }
    }
}
END_TEST

/* Without edge force, 2 pi n times the mean torque is K times the removal rate along a straight
 * edge; the section of a chamfer is a triangle. */
START_TEST(power_is_that_of_the_removed_volume)
{
    static bite_test_block made;
    bite_block_force force;
    uint64_t seed = 114;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = chamfer(&seed, 0);
        bite_test_block_fill(&made, &cut, 1);
        memset(made.segment.edge_tangential, 0, sizeof made.segment.edge_tangential);
        compute(&made, &force);
        double rate = 0.5 * cut.depth * cut.depth * tan(cut.taper) * cut.feed_rate;
        bite_assert_near(2.0 * M_PI * cut.spindle_speed * force.mean_torque[0],
                         made.segment.tangential[0] * rate, 1e-5);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("chamfer block");
    TCase *chamfers = tcase_create("chamfer block");
    tcase_add_test(chamfers, means_are_those_of_the_heights);
    tcase_add_test(chamfers, peaks_are_those_of_thin_slices);
    tcase_add_test(chamfers, any_width_gives_the_same);
    tcase_add_test(chamfers, power_is_that_of_the_removed_volume);
    tcase_set_timeout(chamfers, 240);
    suite_add_tcase(suite, chamfers);
    return bite_test_run(suite);
}
