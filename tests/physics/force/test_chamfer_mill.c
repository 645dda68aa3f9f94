/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a chamfer mill: identities of volume, power and heat, and agreement with a stack of
 * thin square end mills. */
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/geometry/kinematics.h"
#include "tests/oracle/closed_forms/chip_pieces.h"
#include "tests/oracle/closed_forms/cut_tools.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_engagement.h"
#include "tests/support/test_formulas.h"
#include "tests/support/test_physics.h"
#include "tests/support/test_segment.h"
#include <math.h>
#include <stdint.h>
#include <string.h>

static double value(const bite_result *result, bite_value_id id)
{
    return result->values[id].value;
}

/* The section is a triangle of depth and depth tan(taper), both in the result of the pass and in
 * the sum of slices. */
START_TEST(removed_section_is_a_triangle)
{
    uint64_t seed = 51;
    for (int i = 0; i < 500; i++) {
        bite_cut cut = bite_test_chamfer(&seed);
        double section = 0.5 * cut.depth * cut.depth * tan(cut.taper);
        bite_result result = bite_test_pass(&cut);
        bite_assert_near(value(&result, BITE_REMOVAL_RATE), section * cut.feed_rate, 1e-12);
        bite_defaults_fill(&cut);
        bite_cone cone = bite_cut_cone(&cut);
        bite_chip chip;
        bite_pressure pressure;
        bite_corner_mill sum;
        ck_assert(bite_cut_pressure(&cut, 20e-6, &pressure));
        bite_arc arc = bite_engagement_straight(bite_cutting_diameter(&cut), cut.depth * cone.slope,
                                                (bite_side)cut.side);
        bite_chip_init(&chip, arc, cut.feed_rate / (cut.spindle_speed * cut.flutes),
                       (int)cut.flutes, cut.runout);
        bite_chamfer_tool mill = bite_cut_chamfer_tool(&cut);
        bite_chamfer_forces(&mill, arc, &chip, &pressure, &sum);
        bite_assert_near(sum.section, section, 1e-12);
        bite_assert_near(sum.edge_length, cut.depth / cos(cut.taper), 1e-12);
    }
}
END_TEST

/* Without edge force, power is K times the removal rate at any runout, helix and direction; the
 * heat shares add up to 1, and the heat power is that of the forces. Only values that do not apply
 * to a chamfer are NaN. */
START_TEST(power_and_heat_are_conserved)
{
    uint64_t seed = 52;
    for (int i = 0; i < 500; i++) {
        bite_cut cut = bite_test_chamfer(&seed);
        bite_result result = bite_test_pass(&cut);
        double sum = result.heat_share[0] + result.heat_share[1] + result.heat_share[2] +
                     result.heat_share[3];
        bite_assert_near(sum, 1.0, 1e-9);
        bite_cut full = cut;
        bite_segment segment;
        bite_defaults_fill(&full);
        bite_test_segment(&full,
                          bite_engagement_straight(bite_cutting_diameter(&full),
                                                   full.depth * tan(full.taper),
                                                   (bite_side)full.side),
                          &segment);
        bite_assert_near(segment.heat_power, value(&result, BITE_POWER_MEAN), 1e-6);
        for (int k = 0; k < BITE_VALUE_COUNT; k++) {
            int may = k == BITE_PART_TEMPERATURE || k == BITE_HAZE || k == BITE_TOOL_LIFE ||
                      k == BITE_TIP_FREQUENCY || k == BITE_ROUGHNESS_FLOOR ||
                      k == BITE_WALL_CLIMB || k == BITE_WALL_CONVENTIONAL ||
                      k == BITE_STABILITY_DEPTH || k == BITE_STABILITY_DEPTH_TOOL;
            ck_assert_msg(may || isfinite(value(&result, (bite_value_id)k)),
                          "cut %d: %s is not finite", i, bite_value_name((bite_value_id)k));
        }
        cut.edge_t = 0.0; /* stock below the minimum chip is cut by a later tooth */
        result = bite_test_pass(&cut);
        bite_assert_near(value(&result, BITE_POWER_MEAN),
                         cut.pressure_t * value(&result, BITE_REMOVAL_RATE), 1e-5);
    }
}
END_TEST

/* ---- a stack of thin square tools ---- */

#define STACKED 240
#define TURN 2880

typedef struct stack {
    bite_load load[TURN];
    double torque[TURN];
    bite_load mean;
    double torque_mean;
} stack;

/* The force coefficients of a square tool on a slope: a longer edge, a thinner chip, and an
 * inclined normal. */
static bite_pressure inclined_pressure(const bite_pressure *other, double taper)
{
    bite_pressure inclined = *other;
    inclined.edge_tangential = other->edge_tangential / cos(taper);
    inclined.radial = other->radial * cos(taper);
    inclined.axial = other->axial - other->radial * sin(taper);
    inclined.edge_axial = (other->edge_axial - other->edge_radial * sin(taper)) / cos(taper);
    return inclined;
}

/* The arc of a slice on a straight edge, or in an inside corner. */
static bite_arc arc_of(const bite_cut *cut, double radius, double width)
{
    return isnan(cut->inside_radius)
               ? bite_engagement_straight(2.0 * radius, width, (bite_side)cut->side)
               : bite_engagement_corner(2.0 * radius, width, (bite_side)cut->side,
                                        cut->inside_radius + width);
}

/* Loads at the pressure of the peaks, means at the plain one. */
static void add_square(const bite_cut *cut, const bite_pressure *pressure,
                       const bite_pressure *peak, double middle, double rise, stack *sum)
{
    bite_cone cone = bite_cut_cone(cut);
    double radius = cone.small + middle * cone.slope;
    double lag = tan(cut->helix) / (0.5 * cut->diameter);
    double feed = cut->feed_rate / (cut->spindle_speed * cut->flutes);
    bite_chip chip;
    bite_force force;
    bite_arc arc = arc_of(cut, radius, middle * cone.slope);
    bite_chip_init(&chip, arc, feed, (int)cut->flutes, cut->runout);
    bite_force_init(&force, &chip, pressure, peak, rise, 2.0 * radius, atan(lag * radius));
    sum->mean.tangential += force.mean.tangential;
    sum->mean.x += force.mean.x;
    sum->mean.y += force.mean.y;
    sum->mean.lift += force.mean.lift;
    sum->torque_mean += force.mean.tangential * radius;
    bite_force_set_pressure(&force, peak, peak);
    for (int k = 0; k < TURN; k++) {
        bite_load load =
            bite_test_force_at(&force, 2.0 * M_PI * k / TURN - lag * (middle - 0.5 * rise));
        sum->load[k].tangential += load.tangential;
        sum->load[k].x += load.x;
        sum->load[k].y += load.y;
        sum->load[k].lift += load.lift;
        sum->torque[k] += load.tangential * radius;
    }
}

/* The slices get thinner towards the thin end, where the arc starts like a square root. */
static void sum_slices(const bite_cut *full, const bite_pressure *pressure,
                       const bite_pressure *peak, stack *sum)
{
    memset(sum, 0, sizeof *sum);
    for (int i = 0; i < STACKED; i++) {
        double low = full->depth * i * i / (STACKED * (double)STACKED);
        double high = full->depth * (i + 1) * (i + 1) / (STACKED * (double)STACKED);
        add_square(full, pressure, peak, 0.5 * (low + high), high - low, sum);
    }
}

static bite_force_peaks peaks_of(const stack *sum, double *torque)
{
    bite_force_peaks peaks = {0.0, 0.0, 0.0};
    *torque = 0.0;
    for (int k = 0; k < TURN; k++) {
        peaks.tangential = fmax(peaks.tangential, sum->load[k].tangential);
        peaks.side = fmax(peaks.side, hypot(sum->load[k].x, sum->load[k].y));
        peaks.lift = fabs(sum->load[k].lift) > fabs(peaks.lift) ? sum->load[k].lift : peaks.lift;
        *torque = fmax(*torque, sum->torque[k]);
    }
    return peaks;
}

static double near_scale(double got, double expected, double scale, double within, int i,
                         const char *what)
{
    ck_assert_msg(fabs(got - expected) <= within * scale,
                  "cut %d: %s is %g, that of a stack %g (scale %g)", i, what, got, expected, scale);
    return fabs(got - expected) / scale;
}

/* The peaks are those of the thickest chip that a tooth may meet, which leaves of the stock that
 * the teeth before it did not cut. The stack is evaluated at some angles only. Returns the largest
 * relative difference of the peaks of tangential force, side force and torque. */
static double same_as_stack(const bite_cut *cut, int inclined, double within, double peak_within,
                            int i)
{
    static stack sum;
    bite_cut full = *cut;
    bite_pressure pressure;
    bite_defaults_fill(&full);
    ck_assert(bite_cut_pressure(&full, 20e-6, &pressure));
    bite_pressure other = inclined ? inclined_pressure(&pressure, full.taper) : pressure;
    bite_segment result;
    double width = full.depth * tan(full.taper);
    bite_test_segment(&full, arc_of(&full, 0.5 * bite_cutting_diameter(&full), width), &result);
    double thicker =
        bite_chip_peak(result.heavy_chip, bite_cut_least_chip(&full)) / result.heavy_chip;
    bite_pressure peak = bite_pressure_thicker(&other, thicker);
    sum_slices(&full, &other, &peak, &sum);
    double torque;
    bite_force_peaks peaks = peaks_of(&sum, &torque);
    double side = peaks.side;
    double power = 2.0 * M_PI * full.spindle_speed * sum.torque_mean;
    double mean = hypot(sum.mean.x, sum.mean.y);
    near_scale(result.value[BITE_POWER_MEAN], power, power, within, i, "power_mean");
    near_scale(result.value[BITE_FORCE_SIDE_MEAN], mean, mean, within, i, "force_side_mean");
    near_scale(result.value[BITE_FORCE_LIFT_PEAK], peaks.lift, side,
               peak_within + (inclined ? 0.0 : sin(full.taper)), i, "lift peak");
    double of_force = near_scale(result.value[BITE_FORCE_TANGENTIAL_PEAK], peaks.tangential,
                                 peaks.tangential, peak_within, i, "tangential peak");
    double of_side =
        near_scale(result.value[BITE_FORCE_SIDE_PEAK], side, side, peak_within, i, "side peak");
    double of_torque =
        near_scale(result.value[BITE_TORQUE_PEAK], torque, torque, peak_within, i, "torque peak");
    return fmax(of_force, fmax(of_side, of_torque));
}

/* For random taper, runout, helix and direction. */
START_TEST(forces_match_a_stack_of_square_tools)
{
    uint64_t seed = 53;
    for (int i = 0; i < 12; i++) {
        bite_cut cut = bite_test_chamfer(&seed);
        (void)same_as_stack(&cut, 1, 5e-3, 0.01, i);
    }
}
END_TEST

/* In inside corners, from wide ones to those that the lower end just fits into or does not, in
 * which it cuts through more than a quarter of a turn, and the arc grows to half a turn within a
 * small part of the height. */
START_TEST(forces_in_a_corner_match_a_stack)
{
    static const double sizes[] = {20.0, 3.0, 1.5, 1.1, 1.02, 0.8};
    uint64_t seed = 57;
    for (int i = 0; i < 18; i++) {
        bite_cut cut = bite_test_chamfer(&seed);
        bite_cut full = cut;
        bite_defaults_fill(&full);
        cut.inside_radius = sizes[i % 6] * bite_cut_cone(&full).small;
        (void)same_as_stack(&cut, 1, 5e-3, 0.01, i);
    }
}
END_TEST

/* As the taper vanishes, the slices are square tools without inclination. The difference at one
 * degree is 1 - cos(1 deg) = 0.02 %, except in the lift, which is small: the normal force times
 * sin(1 deg). */
START_TEST(small_taper_approaches_a_square_tool)
{
    uint64_t seed = 54;
    for (int i = 0; i < 8; i++) {
        bite_cut cut = bite_test_chamfer(&seed);
        cut.taper = M_PI / 180.0;
        cut.diameter = 6e-3;
        cut.tip_diameter = 5.6e-3;
        cut.tip_below = 1e-3;
        cut.depth = bite_test_decades(&seed, 0.5e-3, 10e-3);
        cut.stickout = 40e-3;
        cut.feed_rate = 0.02e-3 * cut.flutes * cut.spindle_speed;
        cut.helix = i % 2 ? 0.0 : bite_test_between(&seed, -0.6, 0.6);
        (void)same_as_stack(&cut, 0, 5e-3, 0.01, i);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("chamfer mill");
    TCase *chamfer = tcase_create("chamfer mill");
    tcase_add_test(chamfer, removed_section_is_a_triangle);
    tcase_add_test(chamfer, power_and_heat_are_conserved);
    tcase_add_test(chamfer, forces_match_a_stack_of_square_tools);
    tcase_add_test(chamfer, forces_in_a_corner_match_a_stack);
    tcase_add_test(chamfer, small_taper_approaches_a_square_tool);
    tcase_set_timeout(chamfer, 180);
    suite_add_tcase(suite, chamfer);
    return bite_test_run(suite);
}
