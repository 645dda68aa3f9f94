/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tools with a corner radius in lanes: against the sums over slices, against an edge in many thin
 * slices, and whatever the width of the block. */
#include "core/cut/block/corner_block.h"
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "tests/cut/block/fine_edge.h"
#include "tests/oracle/closed_forms/corner_radius_mill.h"
#include "tests/oracle/closed_forms/cut_tools.h"
#include "tests/support/support.h"
#include "tests/support/test_blocks.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_engagement.h"
#include <math.h>
#include <string.h>

static bite_strip_work work;

/* A random cut with a corner radius, one in three a ball. */
static bite_cut rounded(uint64_t *seed)
{
    bite_cut cut = bite_test_cut(seed);
    double radius = 0.5 * cut.diameter;
    int ball = bite_test_between(seed, 0.0, 3.0) < 1.0;
    cut.flutes = floor(bite_test_between(seed, 1.0, 9.0));
    cut.feed_rate = fmin(cut.feed_rate, 0.08 * cut.diameter * cut.flutes * cut.spindle_speed);
    cut.corner_radius = ball ? radius : radius * bite_test_decades(seed, 0.02, 1.0);
    bite_defaults_fill(&cut);
    return cut;
}

static bite_pressure pressure_of(const bite_block_segment *segment, int k)
{
    bite_pressure pressure = {segment->tangential[k],  segment->radial[k],
                              segment->axial[k],       segment->edge_tangential[k],
                              segment->edge_radial[k], segment->edge_axial[k],
                              segment->fracture[k]};
    return pressure;
}

/* Means, section and contact are computed at the same Gauss points as by the sums over slices, and
 * agree to rounding. The heavy chip is that at the upper end rather than at the last Gauss point.
 */
START_TEST(means_are_those_of_the_slices)
{
    static bite_test_block made;
    static bite_round_turn turn;
    static bite_force cylinder;
    bite_block_force force;
    uint64_t seed = 101;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = rounded(&seed);
        bite_corner_mill mill;
        bite_test_block_fill(&made, &cut, 1);
        bite_block_segment *segment = &made.segment;
        bite_pressure pressure = pressure_of(segment, 0);
        bite_corner_tool tool = bite_cut_corner_tool(&cut);
        bite_corner_mill_forces(&tool, segment->engaged[0] * cut.diameter, made.chip.feed[0],
                                &pressure, &turn, &cylinder, &mill);
        bite_block_corner_radius(&made.block, &made.chip, segment, &work, &force);
        bite_assert_near(force.mean_tangential[0], mill.mean.tangential, 1e-12);
        bite_assert_near(force.mean_torque[0], mill.torque_mean, 1e-12);
        bite_assert_near(segment->value[BITE_REMOVAL_RATE][0], mill.section * cut.feed_rate, 1e-12);
        bite_assert_near(segment->contact_chip[0], mill.chip_mean, 1e-12);
        bite_assert_near(segment->contact_length[0], mill.edge_length, 1e-12);
        bite_assert_near(segment->contact_teeth[0], mill.teeth_edge, 1e-12);
        ck_assert(segment->heavy_chip[0] >= mill.heavy_chip * (1.0 - 1e-12));
        ck_assert(segment->heavy_chip[0] <= mill.heavy_chip * 1.05);
    }
}
END_TEST

#define FINE 600

static int fine_slices(const bite_cut *cut, double width, fine_slice *slices)
{
    double corner = cut->corner_radius;
    double above = fmax(0.0, cut->depth - corner);
    double reach = above > 0.0 ? 0.5 * M_PI : acos(1.0 - cut->depth / corner);
    int round = above > 0.0 ? FINE / 2 : FINE;
    for (int i = 0; i < (above > 0.0 ? FINE : round); i++) {
        int upper = i >= round;
        double kappa = upper ? 0.5 * M_PI : reach * (i + 0.5) / round;
        double radius = 0.5 * cut->diameter - corner * (1.0 - sin(kappa));
        double length = upper ? above / (FINE - round) : corner * reach / round;
        fine_slice slice = {
            .height = upper ? corner + above * (i - round + 0.5) / (FINE - round)
                            : corner * (1.0 - cos(kappa)),
            .rise = length * sin(kappa),
            .length = length,
            .radius = radius,
            .sine = sin(kappa),
            .cosine = upper ? 0.0 : cos(kappa),
            .arc = bite_engagement_straight(2.0 * radius, fmin(width, 2.0 * radius),
                                            (bite_side)cut->side),
        };
        slices[i] = slice;
    }
    return FINE;
}

/* Means of thin slices over many angles, to 1 % of the side force: the eight Gauss points of the
 * means do not see where in the corner the arc begins to be shorter than half a turn. */
static void same_means(const bite_block_force *force, bite_load mean)
{
    double side = hypot(mean.x, mean.y);
    ck_assert(fabs(force->mean_x[0] - mean.x) <= 1e-2 * side);
    ck_assert(fabs(force->mean_y[0] - mean.y) <= 1e-2 * side);
    ck_assert_msg(fabs(force->mean_lift[0] - mean.lift) <= 1e-2 * side, "%g %g side %g",
                  force->mean_lift[0], mean.lift, side);
}

/* Of 60 random cuts half have their peaks within 0.1 %, nine in ten within 0.4 %, and all within
 * 1.5 %: the error is that of the strips and of the grid. */
START_TEST(peaks_are_those_of_thin_slices)
{
    static bite_test_block made;
    static fine_slice slices[FINE];
    bite_block_force force;
    uint64_t seed = 102;
    int within_small = 0;
    int within_middle = 0;
    int count = 60;
    for (int i = 0; i < count; i++) {
        bite_cut cut = rounded(&seed);
        bite_test_block_fill(&made, &cut, 1);
        bite_pressure pressure = pressure_of(&made.segment, 0);
        fine_tool tool = {(int)cut.flutes,
                          made.chip.feed[0],
                          cut.runout,
                          tan(cut.helix) / (0.5 * cut.diameter),
                          bite_cut_least_chip(&cut),
                          1e-4};
        int made_slices = fine_slices(&cut, made.segment.engaged[0] * cut.diameter, slices);
        fine_peaks fine = fine_edge_peaks(&tool, &pressure, slices, made_slices);
        bite_block_corner_radius(&made.block, &made.chip, &made.segment, &work, &force);
        if (i < 15) { /* means, at the plain pressure */
            tool.least_chip = 0.0;
            same_means(&force, fine_edge_peaks(&tool, &pressure, slices, made_slices).mean);
        }
        double away = fabs(force.peak_tangential[0] / fine.peaks.tangential - 1.0);
        away = fmax(away, fabs(force.peak_side[0] / fine.peaks.side - 1.0));
        away = fmax(away, fabs(force.peak_torque[0] / fine.torque - 1.0));
        away = fmax(away, fabs(fabs(force.peak_lift[0]) - fabs(fine.peaks.lift)) / fine.peaks.side);
        ck_assert_msg(away < 0.015, "cut %d: peaks are off by %g", i, away);
        within_small += away < 0.001;
        within_middle += away < 0.004;
    }
    ck_assert_msg(within_small >= count / 2, "%d of %d within 0.1 %%", within_small, count);
    ck_assert_msg(within_middle >= count * 9 / 10, "%d of %d within 0.4 %%", within_middle, count);
}
END_TEST

static void same_lane(const bite_block_force *a, int i, const bite_block_force *b, int k)
{
    const bite_lanes *one = (const bite_lanes *)a;
    const bite_lanes *other = (const bite_lanes *)b;
    for (size_t row = 0; row < sizeof *a / sizeof *one; row++) {
        ck_assert_int_eq(isnan(one[row][i]), isnan(other[row][k]));
        if (!isnan(one[row][i])) {
            double scale = row < 5 ? fabs(one[row][i]) : fabs(a->peak_side[i]);
            ck_assert_msg(fabs(one[row][i] - other[row][k]) <= 1e-12 * fmax(scale, 1e-9),
                          "row %zu: %g and %g", row, one[row][i], other[row][k]);
        }
    }
}

/* A lane does not depend on its neighbours. */
START_TEST(any_width_gives_the_same)
{
    static bite_test_block made;
    static const int widths[] = {1, 5, 16};
    static bite_cut cuts[BITE_LANES];
    bite_block_force wide;
    bite_block_force force;
    uint64_t seed = 103;
    for (int round = 0; round < 40; round++) {
        cuts[0] = rounded(&seed);
        for (int k = 1; k < BITE_LANES; k++) {
            cuts[k] = cuts[0];
            cuts[k].depth *= bite_test_between(&seed, 0.5, 1.0);
            cuts[k].feed_rate *= bite_test_between(&seed, 0.5, 1.0);
            cuts[k].corner_radius *= bite_test_between(&seed, 0.3, 1.0);
        }
        bite_test_block_fill(&made, cuts, BITE_LANES);
        bite_block_corner_radius(&made.block, &made.chip, &made.segment, &work, &wide);
        for (size_t w = 0; w < sizeof widths / sizeof *widths; w++) {
            bite_test_block_fill(&made, cuts, widths[w]);
            bite_block_corner_radius(&made.block, &made.chip, &made.segment, &work, &force);
            for (int k = 0; k < widths[w]; k++) {
                same_lane(&wide, k, &force, k);
            }
        }
    }
}
END_TEST

/* Energy: 2 pi n times the mean torque is K times the removal rate, and the edge force times the
 * speed of each height of the edges in contact. */
START_TEST(power_is_that_of_the_removed_volume)
{
    static bite_test_block made;
    bite_block_force force;
    uint64_t seed = 104;
    for (int i = 0; i < 200; i++) {
        bite_cut cut = rounded(&seed);
        bite_test_block_fill(&made, &cut, 1);
        memset(made.segment.edge_tangential, 0, sizeof made.segment.edge_tangential);
        bite_block_corner_radius(&made.block, &made.chip, &made.segment, &work, &force);
        double power = 2.0 * M_PI * cut.spindle_speed * force.mean_torque[0];
        bite_assert_near(
            power, made.segment.tangential[0] * made.segment.value[BITE_REMOVAL_RATE][0], 1e-9);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("corner block");
    TCase *corner = tcase_create("corner block");
    tcase_add_test(corner, means_are_those_of_the_slices);
    tcase_add_test(corner, peaks_are_those_of_thin_slices);
    tcase_add_test(corner, any_width_gives_the_same);
    tcase_add_test(corner, power_is_that_of_the_removed_volume);
    tcase_set_timeout(corner, 240);
    suite_add_tcase(suite, corner);
    return bite_test_run(suite);
}
