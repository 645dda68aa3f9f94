/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits that hang on more than the cut itself: each with a cut that keeps to it, one that does
 * not, and the way it must go. */
#include "core/cut/defaults.h"
#include "core/cut/entry_move.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/semi_discretization.h"
#include "core/physics/dynamics/stability_lobes.h"
#include "core/physics/dynamics/tool_modes.h"
#include "core/physics/elastic/thin_plate.h"
#include "core/physics/holding/bond.h"
#include "tests/reference/textbook/vibration.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_physics.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static bite_limit row_of(const bite_cut *cut, bite_limit_id id)
{
    bite_result result = bite_test_pass(cut);
    return result.limits[id];
}

static double use_of(const bite_cut *cut, bite_limit_id id)
{
    bite_limit limit = row_of(cut, id);
    ck_assert_msg(limit.applies, "%s does not apply: %s", bite_limit_name(id),
                  bite_limit_why(limit.why));
    return limit.utilization;
}

/* Acrylic on tape over a floor, with all that the rows ask for. */
static bite_cut whole(void)
{
    bite_cut cut = bite_test_acrylic();
    cut.width = 0.2e-3;
    cut.feature_depth = 2e-3;
    cut.floor_thickness = 0.6e-3;
    cut.tolerance = 0.05e-3;
    cut.modulus = 3.3e9;
    cut.poisson = 0.37;
    cut.expansion = 70e-6;
    cut.crazing = 10.34e6;
    cut.chip_edge = 0.15e-3;
    cut.refraction = 1.49;
    cut.bond_area = 200e-6;
    cut.bond_shear = 0.24e6;
    cut.bond_pull = 0.24e6;
    cut.bond_exponent = 0.2;
    cut.bond_halving = 25.0;
    cut.bond_modulus = 1e6;
    cut.bond_thickness = 0.13e-3;
    cut.bond_limit = 333.15;
    cut.wall_thickness = 0.8e-3;
    cut.floor_span = 10e-3;
    cut.gap = 1e-3;
    return cut;
}

/* Rows that were not asked say so, and say why. */
START_TEST(not_asked_does_not_apply)
{
    static const bite_limit_id asked[] = {
        BITE_LIMIT_EDGE_CHIP, BITE_LIMIT_CRAZE, BITE_LIMIT_HOLD, BITE_LIMIT_BOND_HEAT,
        BITE_LIMIT_PART_BEND, BITE_LIMIT_GAP,   BITE_LIMIT_WEAR, BITE_LIMIT_PART_GROSS_BEND};
    bite_cut cut = bite_test_acrylic();
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        bite_limit limit = row_of(&cut, asked[i]);
        ck_assert_msg(!limit.applies && limit.why != BITE_WHY_APPLIES && isnan(limit.utilization),
                      "%s", bite_limit_name(asked[i]));
    }
}
END_TEST

/* A number that moves a row's use one way. */
static const struct {
    bite_limit_id row;
    const char *input;
    double from; /* of the input, SI */
    double to;
    int falls;
} trends[] = {
    {BITE_LIMIT_CHATTER, "machine_stiffness", 1e6, 20e6, 1},
    {BITE_LIMIT_CHATTER, "mode_damping", 0.01, 0.08, 1},
    {BITE_LIMIT_CHATTER, "depth", 0.2e-3, 0.8e-3, 0},
    {BITE_LIMIT_EDGE_CHIP, "feed_rate", 1e-3, 20e-3, 0},
    {BITE_LIMIT_EDGE_CHIP, "runout", 0.0, 20e-6, 0},
    {BITE_LIMIT_HOLD, "bond_area", 50e-6, 2000e-6, 1},
    {BITE_LIMIT_HOLD, "bond_width", 2e-3, 14e-3, 1},
    {BITE_LIMIT_HOLD, "bond_shear", 0.05e6, 1e6, 1},
    {BITE_LIMIT_HOLD, "bond_pull", 0.05e6, 1e6, 1},
    {BITE_LIMIT_HOLD, "bond_thickness", 0.1e-3, 2e-3, 1},
    {BITE_LIMIT_HOLD, "bond_modulus", 1e6, 100e6, 0},
    {BITE_LIMIT_HOLD, "bond_adhesion", 0.2, 1.0, 1},
    {BITE_LIMIT_HOLD, "bond_temperature", 290.0, 360.0, 0},
    {BITE_LIMIT_HOLD, "bond_force", 1.0, 1.5, 0},
    {BITE_LIMIT_HOLD, "load_time", 10.0, 3600.0, 0},
    {BITE_LIMIT_BOND_HEAT, "bond_temperature", 300.0, 360.0, 0},
    {BITE_LIMIT_BOND_HEAT, "floor_thickness", 0.2e-3, 4e-3, 1},
    {BITE_LIMIT_PART_BEND, "wall_thickness", 0.3e-3, 2e-3, 1},
    {BITE_LIMIT_PART_BEND, "wall_height", 1e-3, 8e-3, 0},
    {BITE_LIMIT_PART_BEND, "floor_span", 2e-3, 40e-3, 0},
    {BITE_LIMIT_PART_BEND, "modulus", 1e9, 9e9, 1},
    {BITE_LIMIT_PART_BEND, "bridge_span", 2e-3, 40e-3, 0},
    {BITE_LIMIT_PART_BEND, "bridge_thickness", 0.1e-3, 4e-3, 1},
    {BITE_LIMIT_PART_BEND, "bridge_width", 0.1e-3, 4e-3, 1},
    {BITE_LIMIT_GAP, "gap", 0.5e-3, 3e-3, 1},
    {BITE_LIMIT_TOOL_GROSS_BEND, "stickout", 5e-3, 80e-3, 0},
    {BITE_LIMIT_TOOL_GROSS_BEND, "machine_stiffness", 1e5, 20e6, 1},
    {BITE_LIMIT_PART_GROSS_BEND, "wall_thickness", 0.3e-3, 2e-3, 1},
    {BITE_LIMIT_PART_GROSS_BEND, "wall_height", 1e-3, 8e-3, 0},
    {BITE_LIMIT_PART_GROSS_BEND, "floor_span", 2e-3, 40e-3, 0},
    {BITE_LIMIT_PART_GROSS_BEND, "floor_thickness", 0.2e-3, 4e-3, 1},
    {BITE_LIMIT_PART_GROSS_BEND, "bridge_span", 2e-3, 40e-3, 0},
    {BITE_LIMIT_PART_GROSS_BEND, "bridge_thickness", 0.1e-3, 4e-3, 1},
};

/* Nothing thin but a bridge. */
static bite_cut bridged(void)
{
    bite_cut cut = whole();
    cut.wall_thickness = cut.floor_span = (double)NAN;
    cut.bridge_span = 6e-3;
    cut.bridge_thickness = 0.5e-3;
    return cut;
}

START_TEST(each_goes_its_way)
{
    const bite_input *input = bite_input_find(trends[_i].input);
    ck_assert_ptr_nonnull(input);
    bite_cut cut = strncmp(trends[_i].input, "bridge", 6) == 0 ? bridged() : whole();
    if (trends[_i].row == BITE_LIMIT_TOOL_GROSS_BEND ||
        trends[_i].row == BITE_LIMIT_PART_GROSS_BEND) {
        cut.tolerance = (double)NAN;
    }
    double before = (double)NAN;
    for (int i = 0; i < 12; i++) {
        *(double *)((char *)&cut + input->offset) =
            trends[_i].from + (trends[_i].to - trends[_i].from) * i / 11.0;
        double utilization = use_of(&cut, trends[_i].row);
        ck_assert_msg(isnan(before) ||
                          (trends[_i].falls ? utilization <= before : utilization >= before),
                      "%s over %s: %g after %g", bite_limit_name(trends[_i].row), trends[_i].input,
                      utilization, before);
        before = utilization;
    }
}
END_TEST

/* A skin that stays cool keeps no tension; one that relaxes whole keeps E alpha dT/(1 - nu), over
 * what acrylic bears. */
START_TEST(craze_begins_where_stress_relaxes)
{
    bite_cut cut = whole();
    ck_assert_double_eq(use_of(&cut, BITE_LIMIT_CRAZE), 0.0);
    cut.width = (double)NAN;
    cut.spindle_speed = 400.0;
    cut.feed_rate = 20e-3 / 60.0;
    bite_limit limit = row_of(&cut, BITE_LIMIT_CRAZE);
    bite_assert_near(limit.demand, 3.3e9 * 70e-6 * (378.15 - 20.0 - 293.15) / (1.0 - 0.37), 1e-12);
    ck_assert_uint_eq(limit.verdict, BITE_OVER);
    cut.relaxing = 600.0;
    ck_assert_double_eq(use_of(&cut, BITE_LIMIT_CRAZE), 0.0);
    cut.substance = BITE_METAL;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_CRAZE).why, BITE_WHY_DOES_NOT_CRAZE);
}
END_TEST

/* Shear, twist, tilt and lift over a square of the area, for a minute at the part's temperature. */
START_TEST(bond_adds_up)
{
    bite_cut cut = whole();
    bite_result result = bite_test_pass(&cut);
    double square = sqrt(200e-6);
    double in_cut = fmin(1.0, cut.flutes * result.values[BITE_ENGAGEMENT].value / (2.0 * M_PI));
    double side =
        1.1 * fmax(result.values[BITE_FORCE_SIDE_MEAN].value,
                   result.values[BITE_FORCE_SIDE_PEAK].value * bite_bond_steady_share(0.2, in_cut));
    double lift = 1.1 * fmax(0.0, result.values[BITE_FORCE_LIFT_PEAK].value);
    double height = cut.feature_depth + cut.floor_thickness;
    double length = pow(3.3e9 * pow(height, 3.0) * 0.13e-3 / 3e6, 0.25);
    double twist = side * 0.5 * square * square / sqrt(2.0) / (pow(square, 4.0) / 6.0);
    double tilt = side * height / square * fmax(6.0 / 200e-6, 2.0 / (length * length));
    double pull = lift * fmax(1.0 / 200e-6, 1.0 / (square * length));
    double strength = 0.24e6 * exp2(-(result.values[BITE_PART_TEMPERATURE].value - 296.15) / 25.0);
    bite_assert_near(result.limits[BITE_LIMIT_HOLD].utilization,
                     hypot(side / 200e-6 + twist, pull + tilt) / strength, 1e-12);
    cut.bond_area = 4e-6; /* a sliver of 2 x 2 mm tears off */
    ck_assert_double_gt(use_of(&cut, BITE_LIMIT_HOLD), 1.0);
}
END_TEST

/* A vacuum does not creep, bears the peak, and knows no soft layer; without a strength there is no
 * answer. */
START_TEST(vacuum_bears_the_peak)
{
    bite_cut cut = whole();
    cut.bond_exponent = cut.bond_halving = cut.bond_modulus = cut.bond_thickness = (double)NAN;
    bite_result result = bite_test_pass(&cut);
    double square = sqrt(200e-6);
    double side = 1.1 * result.values[BITE_FORCE_SIDE_PEAK].value;
    double lift = 1.1 * fmax(0.0, result.values[BITE_FORCE_LIFT_PEAK].value);
    double height = cut.feature_depth + cut.floor_thickness;
    double twist = side * 0.5 * square * square / sqrt(2.0) / (pow(square, 4.0) / 6.0);
    double tilt = 6.0 * side * height / pow(square, 3.0);
    bite_assert_near(result.limits[BITE_LIMIT_HOLD].utilization,
                     hypot(side / 200e-6 + twist, lift / 200e-6 + tilt) / 0.24e6, 1e-12);
    cut.load_time = 3600.0;
    bite_assert_near(use_of(&cut, BITE_LIMIT_HOLD), result.limits[BITE_LIMIT_HOLD].utilization,
                     1e-12);
    cut.bond_pull = (double)NAN;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_HOLD).why, BITE_WHY_NOT_GIVEN);
}
END_TEST

/* Taylor: half the speed, 2^(1/n) the life; a path as long as the life uses it up. */
START_TEST(wear_follows_taylor)
{
    bite_cut cut = whole();
    cut.substance = BITE_METAL;
    cut.taylor_speed = 1.0;
    cut.taylor_exponent = 0.25;
    double life = bite_test_pass(&cut).values[BITE_TOOL_LIFE].value;
    cut.path_length = life * cut.feed_rate;
    bite_assert_near(use_of(&cut, BITE_LIMIT_WEAR), 1.0, 1e-12);
    cut.spindle_speed *= 0.5;
    bite_assert_near(bite_test_pass(&cut).values[BITE_TOOL_LIFE].value, 16.0 * life, 1e-9);
    cut.taylor_speed = (double)NAN;
    cut.substance = BITE_AMORPHOUS;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_WEAR).why, BITE_WHY_DOES_NOT_WEAR);
}
END_TEST

/* A wide wall and an open floor, by the closed forms that the reference rows hold. */
START_TEST(part_bends_as_a_plate)
{
    bite_cut cut = whole();
    cut.wall_thickness = (double)NAN;
    cut.floor_length = 10e-3;
    bite_result result = bite_test_pass(&cut);
    double rigidity = 3.3e9 * pow(0.6e-3, 3.0) / (12.0 * (1.0 - 0.37 * 0.37));
    double sag = 0.0056 * fabs(result.values[BITE_FORCE_LIFT_PEAK].value) * 100e-6 / rigidity;
    bite_assert_near(result.limits[BITE_LIMIT_PART_BEND].demand, sag, 1e-12);
    bite_assert_near(result.limits[BITE_LIMIT_PART_BEND].capacity, 0.025e-3, 1e-12);
    cut.wall_thickness = 0.05e-3; /* foil */
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_BEND).verdict, BITE_OVER);
    cut.tolerance = (double)NAN; /* advice alone, then */
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_BEND).verdict, BITE_TIGHT);
    cut.modulus = (double)NAN;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_BEND).why, BITE_WHY_NO_DATA);
}
END_TEST

/* A wall of a pocket is stiffer than one with free ends, by its own alphas; a long one does not
 * mind its ends. */
START_TEST(pocket_wall_is_stiffer)
{
    bite_cut cut = whole();
    cut.floor_span = (double)NAN;
    cut.wall_height = 4e-3;
    cut.wall_length = 4e-3;
    double open = row_of(&cut, BITE_LIMIT_PART_BEND).demand;
    cut.wall_ends = BITE_WALL_HELD;
    double held = row_of(&cut, BITE_LIMIT_PART_BEND).demand;
    bite_assert_near(held / open, 0.0258 / 0.491, 1e-12);
    for (double length = 2e-3; length < 60e-3; length *= 1.1) {
        cut.wall_length = length;
        cut.wall_ends = BITE_WALL_FREE;
        open = use_of(&cut, BITE_LIMIT_PART_BEND);
        cut.wall_ends = BITE_WALL_HELD;
        ck_assert_double_lt(use_of(&cut, BITE_LIMIT_PART_BEND), open);
    }
    cut.wall_length = (double)NAN;
    held = use_of(&cut, BITE_LIMIT_PART_BEND);
    cut.wall_ends = BITE_WALL_FREE;
    bite_assert_near(held, use_of(&cut, BITE_LIMIT_PART_BEND), 1e-12);
}
END_TEST

/* A bridge: P L^3/(192 E I) and its shear; a stout one stays, a slender one does not; its usual
 * width is the depth of the pass; half of it said is none; the worst of wall, floor and bridge
 * stands. */
START_TEST(bridge_bends_as_a_strip)
{
    bite_cut cut = bridged();
    bite_result result = bite_test_pass(&cut);
    double force = result.values[BITE_FORCE_SIDE_PEAK].value;
    double inertia = cut.depth * pow(0.5e-3, 3.0) / 12.0;
    double bending = force * pow(6e-3, 3.0) / (192.0 * 3.3e9 * inertia);
    double shear = force * 6e-3 / (4.0 * (5.0 / 6.0) * 3.3e9 / (2.0 * 1.37) * cut.depth * 0.5e-3);
    bite_assert_near(result.limits[BITE_LIMIT_PART_BEND].demand, bending + shear, 1e-12);
    cut.bridge_width = 3.0 * cut.depth;
    bite_assert_near(row_of(&cut, BITE_LIMIT_PART_BEND).demand, (bending + shear) / 3.0, 1e-12);
    cut.bridge_thickness = 2e-3;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_BEND).verdict, BITE_CLEAR);
    double bridge = use_of(&cut, BITE_LIMIT_PART_BEND);
    cut.wall_thickness = 0.8e-3;
    double both = use_of(&cut, BITE_LIMIT_PART_BEND);
    cut.bridge_span = (double)NAN;
    ck_assert_double_eq(both, fmax(bridge, use_of(&cut, BITE_LIMIT_PART_BEND)));
    cut.wall_thickness = (double)NAN;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_BEND).why, BITE_WHY_NOT_GIVEN);
    cut.bridge_span = 30e-3;
    cut.bridge_thickness = 0.2e-3;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_BEND).verdict, BITE_OVER);
    cut.operation = BITE_DRILL_HOLE;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_BEND).why, BITE_WHY_NOT_GIVEN);
    cut.operation = BITE_MILL;
    cut.modulus = (double)NAN;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_BEND).why, BITE_WHY_NO_DATA);
}
END_TEST

/* A measured mode speaks for itself: no longer advice, deeper on a lobe than at the worst speed,
 * and the speed matters. */
START_TEST(measured_mode_has_lobes)
{
    bite_cut cut = whole();
    cut.width = (double)NAN;
    double worst = row_of(&cut, BITE_LIMIT_CHATTER).capacity;
    ck_assert(row_of(&cut, BITE_LIMIT_CHATTER).advisory);
    cut.mode_frequency = 900.0;
    double deepest = 0.0;
    double least = INFINITY;
    for (int i = 0; i < 200; i++) {
        cut.spindle_speed = 100.0 + 2.0 * i;
        bite_limit limit = row_of(&cut, BITE_LIMIT_CHATTER);
        ck_assert(!limit.advisory);
        deepest = fmax(deepest, limit.capacity);
        least = fmin(least, limit.capacity);
    }
    ck_assert_double_gt(deepest, 3.0 * worst);
    ck_assert_double_ge(least, worst * (1.0 - 1e-3));
    ck_assert_double_lt(least, worst * 1.05);
}
END_TEST

/* Several measured modes: the worse decides, one that is stiff by far changes nothing, and any
 * order of them is the same; in light passes too, where the cut is followed step by step. */
START_TEST(measured_modes_together)
{
    static const double widths[] = {NAN, 0.1}; /* of the diameter; a slot, a light pass */
    for (int k = 0; k < 2; k++) {
        bite_cut cut = whole();
        cut.width = widths[k] * cut.diameter;
        cut.mode_frequency = 900.0;
        cut.mode_stiffness = 4e6;
        cut.mode_damping = 0.03;
        double one = row_of(&cut, BITE_LIMIT_CHATTER).capacity;
        bite_cut stiff = cut;
        stiff.mode2_frequency = 2500.0;
        stiff.mode2_stiffness = 8e9;
        stiff.mode2_damping = 0.03;
        bite_assert_near(row_of(&stiff, BITE_LIMIT_CHATTER).capacity, one, 2e-2);
        bite_cut second = cut;
        second.mode_frequency = (double)NAN;
        second.mode2_frequency = 900.0;
        second.mode2_stiffness = 4e6;
        second.mode2_damping = 0.03;
        ck_assert(!row_of(&second, BITE_LIMIT_CHATTER).advisory);
        bite_assert_near(row_of(&second, BITE_LIMIT_CHATTER).capacity, one, 1e-9);
        bite_cut both = cut;
        both.mode3_frequency = 610.0;
        both.mode3_stiffness = 1e6;
        both.mode3_damping = 0.02;
        bite_cut turned = cut;
        turned.mode_frequency = 610.0;
        turned.mode_stiffness = 1e6;
        turned.mode_damping = 0.02;
        double soft = row_of(&turned, BITE_LIMIT_CHATTER).capacity;
        turned.mode2_frequency = 900.0;
        turned.mode2_stiffness = 4e6;
        turned.mode2_damping = 0.03;
        double together = row_of(&both, BITE_LIMIT_CHATTER).capacity;
        bite_assert_near(row_of(&turned, BITE_LIMIT_CHATTER).capacity, together, 1e-2);
        ck_assert_double_lt(together, 1.3 * fmin(one, soft));
        ck_assert_double_gt(together, 0.2 * fmin(one, soft));
    }
}
END_TEST

/* A mode cut in two halves of twice the stiffness is the same mode. */
START_TEST(halves_of_a_mode)
{
    uint64_t seed = 78;
    for (int i = 0; i < 20; i++) {
        bite_chatter_case whole_mode = {.teeth = 2.0, .tangential = 5e8, .ratio = 0.3};
        whole_mode.arc.enter = 0.0;
        whole_mode.arc.leave = bite_test_between(&seed, 0.4, M_PI);
        whole_mode.x.count = whole_mode.y.count = 1;
        whole_mode.x.modes[0] = whole_mode.y.modes[0] = bite_mode_plain(900.0, 3e6, 0.03);
        bite_chatter_case halves = whole_mode;
        halves.x.count = halves.y.count = 2;
        for (int k = 0; k < 2; k++) {
            halves.x.modes[k] = halves.y.modes[k] = bite_mode_plain(900.0, 6e6, 0.03);
        }
        double speed = bite_test_between(&seed, 50.0, 300.0);
        double depth = bite_chatter_at(&whole_mode, speed);
        bite_assert_near(bite_chatter_at(&halves, speed), depth, 1e-6);
        /* where two pairs lead by turns the repetition ends before they part: to the sixth digit */
        static double numbers[BITE_SEMIDISCRETE_SIZE(4, 40)];
        bite_semidiscrete_room room = {numbers, sizeof numbers / sizeof *numbers};
        double grown = bite_semidiscrete_growth(&whole_mode, depth, speed, 40, 1e-11, room);
        bite_assert_near(bite_semidiscrete_growth(&halves, depth, speed, 40, 1e-11, room), grown,
                         1e-5);
    }
}
END_TEST

/* The closed form of one mode alike along both axes against the sweep, for arcs, teeth and dampings
 * at random. */
START_TEST(worst_speed_in_closed_form)
{
    uint64_t seed = 77;
    for (int i = 0; i < 200; i++) {
        bite_chatter_case problem = {.teeth = floor(bite_test_between(&seed, 1.0, 7.0)),
                                     .tangential = 5e8};
        double span = bite_test_between(&seed, 0.15, M_PI);
        double damping = bite_test_decades(&seed, 0.005, 0.1);
        problem.arc.enter = i % 2 ? M_PI - span : 0.0;
        problem.arc.leave = problem.arc.enter + span;
        problem.ratio = bite_test_between(&seed, 0.05, 0.8);
        problem.x.count = problem.y.count = 1;
        problem.x.modes[0] = problem.y.modes[0] = bite_mode_plain(1000.0, 5e6, damping);
        double swept = textbook_chatter_least(&problem, NULL);
        double closed = bite_test_equal_axes_depth(problem.arc, problem.teeth, problem.tangential,
                                                   problem.ratio, 5e6, damping);
        ck_assert_msg(fabs(closed / swept - 1.0) < 5e-3, "cut %d: closed %g, swept %g", i, closed,
                      swept);
    }
}
END_TEST

/* The shape under a force at the tip rings 1.465 % over a cylinder's first frequency, sqrt(3 x
 * 140/33)/1.8751^2, and never under the first of any shaft. 3 mm x 20 mm of carbide: 6546.2565 Hz
 * (tests/reference/dynamics.csv, BM-U-3x20-580, derived). */
START_TEST(bent_shape_rings)
{
    bite_shaft rod = {1, {{20e-3, 3e-3, 3e-3}}};
    bite_assert_near(bite_tool_mode_bent(&rod, 580e9, 14900.0),
                     6546.2565 * sqrt(420.0 / 33.0) / pow(textbook_cantilever_root(1), 2.0), 1e-6);
    bite_shaft halves = {2, {{8e-3, 3e-3, 3e-3}, {12e-3, 3e-3, 3e-3}}};
    bite_assert_near(bite_tool_mode_bent(&halves, 580e9, 14900.0),
                     bite_tool_mode_bent(&rod, 580e9, 14900.0), 1e-12);
    uint64_t seed = 91;
    for (int i = 0; i < 200; i++) {
        double tip = bite_test_decades(&seed, 0.3e-3, 10e-3);
        double shank = tip * bite_test_between(&seed, 1.0, 4.0);
        bite_shaft tool = {2,
                           {{tip * bite_test_between(&seed, 1.0, 6.0), tip, tip},
                            {bite_test_between(&seed, 5e-3, 60e-3), shank, shank}}};
        double first = bite_tool_mode_frequency(&tool, 580e9, 14900.0, 1);
        double bent = bite_tool_mode_bent(&tool, 580e9, 14900.0);
        ck_assert_double_ge(bent, first * (1.0 - 1e-9));
        ck_assert(shank > 1.3 * tip || bent < 1.1 * first);
    }
}
END_TEST

/* A mode that rides on its waves is one with so much more damping: z arc C b f/(4 k v), C = 4 re K;
 * the more the shorter the waves, and without end where they would be steeper than the clearance.
 */
START_TEST(flank_rides_on_short_waves)
{
    uint64_t seed = 92;
    int deeper = 0;
    for (int i = 0; i < 300; i++) {
        double span = bite_test_between(&seed, 0.3, M_PI);
        bite_arc arc = {M_PI - span, M_PI, 0.0};
        double teeth = floor(bite_test_between(&seed, 1.0, 5.0));
        double tangential = bite_test_decades(&seed, 1e8, 3e9);
        double stiff = bite_test_decades(&seed, 1e5, 1e7);
        bite_ripple waves = {bite_test_decades(&seed, 20e-6, 5e-3), 0.0,
                             bite_test_decades(&seed, 1e-6, 10e-6)};
        double damping = 0.002; /* little, so that depth goes straight with it */
        double plain = bite_test_equal_axes_depth(arc, teeth, tangential, 0.3, stiff, damping);
        double slope = plain * teeth * tangential / (stiff * damping);
        double depth = plain * bite_chatter_damped_by_flank(&waves, arc, slope);
        ck_assert_double_ge(depth, plain);
        double more = teeth * span * 4.0 * waves.edge_radius * tangential * depth /
                      (4.0 * stiff * waves.length);
        if (depth < 3.0 * plain) {
            bite_assert_near(
                bite_test_equal_axes_depth(arc, teeth, tangential, 0.3, stiff, damping + more),
                depth, 1e-2);
            deeper += depth > 1.2 * plain;
        }
        bite_ripple longer = waves;
        longer.length *= 1.5;
        ck_assert_double_le(bite_chatter_damped_by_flank(&longer, arc, slope), depth / plain);
        bite_ripple steep = waves;
        steep.height = 1.001 * 0.2 * steep.length / (2.0 * M_PI);
        ck_assert(isinf(bite_chatter_damped_by_flank(&steep, arc, slope)));
    }
    ck_assert_int_gt(deeper, 5);
}
END_TEST

/* A rod without flutes or cone, as its own holder would feel it. */
static bite_cut rod_of(double diameter, double stickout)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = cut.shank_diameter = diameter;
    cut.stickout = cut.flute_length = stickout;
    cut.stiff_share = 1.0;
    cut.depth = 1e-6;
    cut.edge_radius = 3e-6;
    cut.runout = 0.0;
    cut.helix = 0.0;
    cut.spindle_speed = 300.0;
    cut.feed_rate = 20e-6 * 600.0;
    cut.machine_stiffness = 20e6;
    cut.mode_damping = 0.03;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 600e6;
    cut.edge_t = 12e3;
    return cut;
}

/* A slot's depth on a mode of a stiffness. */
static double alike_of(const bite_cut *cut, double stiffness)
{
    bite_arc slot = {0.0, M_PI, 0.0};
    bite_cut full = *cut;
    bite_pressure pressure;
    bite_defaults_fill(&full);
    ck_assert(bite_cut_pressure(&full, &pressure));
    return bite_test_equal_axes_depth(slot, full.flutes, pressure.tangential,
                                      bite_pressure_ratio(full.pressure_r, &pressure), stiffness,
                                      full.mode_damping);
}

/* Short and stiff: the machine alone, as if nobody knew of a tool. Long: 3 E I/L^3, 3 mm x 20 mm
 * 0.864797 N/um and 6546.2565 Hz (tests/reference/dynamics.csv, BM-U-3x20-580, derived), so 150 mm
 * 2049.888 N/m, with half of the machine's damping: its waves are so long that nothing rides. 40 mm
 * in between: an eighth of the stiffness, a quarter of the frequency, and the flank rides a little.
 */
START_TEST(long_tool_chatters)
{
    bite_cut cut = rod_of(6e-3, 12e-3);
    bite_assert_near(row_of(&cut, BITE_LIMIT_CHATTER).capacity, alike_of(&cut, 20e6), 1e-9);
    cut = rod_of(3e-3, 17e-3);
    bite_assert_near(row_of(&cut, BITE_LIMIT_CHATTER).capacity, alike_of(&cut, 20e6), 1e-9);
    cut = rod_of(3e-3, 150e-3);
    bite_assert_near(row_of(&cut, BITE_LIMIT_CHATTER).capacity,
                     alike_of(&cut, 0.5 * 0.864797e6 / 421.875), 1e-2);
    ck_assert(row_of(&cut, BITE_LIMIT_CHATTER).advisory);
    cut = rod_of(3e-3, 40e-3);
    cut.spindle_speed = 150.0;
    cut.feed_rate = 20e-6 * 300.0;
    double frequency = 0.25 * 6546.2565 * 1.01465;
    bite_ripple waves = {M_PI * 3e-3 * 150.0 / frequency, 10e-6, 3e-6};
    bite_arc slot = {0.0, M_PI, 0.0};
    double plain = alike_of(&cut, 0.5 * 0.864797e6 / 8.0);
    double slope = alike_of(&cut, 20e6) * 2.0 * 600e6 / (20e6 * 0.03);
    double ridden = bite_chatter_damped_by_flank(&waves, slot, slope);
    ck_assert_double_gt(ridden, 1.1);
    bite_assert_near(row_of(&cut, BITE_LIMIT_CHATTER).capacity, plain * ridden, 1e-2);
    cut.mode_frequency = 900.0; /* measured at the tip, tool and all */
    double measured = row_of(&cut, BITE_LIMIT_CHATTER).capacity;
    cut.stickout = cut.flute_length = 20e-3;
    ck_assert_double_eq(row_of(&cut, BITE_LIMIT_CHATTER).capacity, measured);
}
END_TEST

/* Neither a longer stick-out nor a softer tool ever leaves more room, of any cut; nor does a
 * thinner rod. */
START_TEST(slender_never_gains)
{
    uint64_t seed = 93;
    int fell = 0;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.stickout = fmax(cut.stickout, 2.0 * cut.depth);
        double capacity = row_of(&cut, BITE_LIMIT_CHATTER).capacity;
        bite_cut soft = cut;
        soft.tool_modulus = 210e9;
        ck_assert_double_le(row_of(&soft, BITE_LIMIT_CHATTER).capacity, capacity * (1.0 + 1e-12));
        bite_cut slender = cut;
        slender.flute_length = 3.0 * cut.diameter;
        double before = row_of(&slender, BITE_LIMIT_CHATTER).capacity;
        for (int k = 0; k < 6; k++) {
            slender.stickout *= 1.25;
            double now = row_of(&slender, BITE_LIMIT_CHATTER).capacity;
            ck_assert_msg(now <= before * (1.0 + 1e-12),
                          "cut %d: %g m at %g m of stick-out, %g before", i, now, slender.stickout,
                          before);
            before = now;
        }
        fell += before < 0.5 * capacity;
        bite_cut thin =
            rod_of(bite_test_decades(&seed, 1e-3, 8e-3), bite_test_between(&seed, 20e-3, 100e-3));
        bite_cut thick = rod_of(thin.diameter * 1.2, thin.stickout);
        ck_assert_double_ge(row_of(&thick, BITE_LIMIT_CHATTER).capacity,
                            row_of(&thin, BITE_LIMIT_CHATTER).capacity * (1.0 - 1e-12));
    }
    ck_assert_int_gt(fell, 100);
}
END_TEST

/* Nobody asked for a tolerance: the usual one advises, and what no reading calls to size binds. A
 * slender 3 mm tool has 0.3 mm, a tenth of it and ISO 2768-1 c alike; 12 mm half a millimetre and a
 * quarter of the way to 0.8; a light pass itself. */
START_TEST(tool_that_sways_binds)
{
    static const double rooms[][3] = {
        {3e-3, NAN, 0.3e-3}, {12e-3, NAN, 0.575e-3}, {1e-3, NAN, 0.1e-3}, {3e-3, 0.2e-3, 0.2e-3}};
    for (size_t i = 0; i < sizeof rooms / sizeof *rooms; i++) {
        bite_cut cut = whole();
        cut.tolerance = (double)NAN;
        cut.diameter = rooms[i][0];
        cut.width = rooms[i][1];
        cut.stickout = 20e-3;
        bite_result result = bite_test_pass(&cut);
        const bite_limit *sways = &result.limits[BITE_LIMIT_TOOL_GROSS_BEND];
        ck_assert(sways->applies && !sways->advisory);
        bite_assert_near(sways->capacity, rooms[i][2], 1e-12);
        ck_assert_double_eq(sways->demand, fabs(result.values[BITE_WALL_ERROR].value));
        ck_assert_uint_eq(sways->verdict, BITE_CLEAR);
    }
    bite_cut cut = rod_of(3e-3, 80e-3); /* 0.864797 N/um of 20 mm (BM-U-3x20-580) / 64: 74 um/N */
    cut.depth = 1e-3;
    cut.tool_strength = 1e10;
    cut.substance = BITE_METAL;
    cut.welding = (double)NAN;
    bite_result result = bite_test_pass(&cut);
    const bite_limit *advises = &result.limits[BITE_LIMIT_DEFLECTION];
    const bite_limit *sways = &result.limits[BITE_LIMIT_TOOL_GROSS_BEND];
    ck_assert(advises->advisory && advises->capacity == 0.05e-3 && advises->verdict == BITE_TIGHT);
    ck_assert_uint_eq(sways->verdict, BITE_OVER);
    ck_assert_uint_eq(result.verdict, BITE_OVER);
    ck_assert_uint_eq(result.worst, BITE_LIMIT_TOOL_GROSS_BEND);
    cut.tolerance = 1e-3; /* who asks for so little says so */
    result = bite_test_pass(&cut);
    ck_assert(!result.limits[BITE_LIMIT_TOOL_GROSS_BEND].applies &&
              result.limits[BITE_LIMIT_TOOL_GROSS_BEND].why == BITE_WHY_TOLERANCE);
    ck_assert(!result.limits[BITE_LIMIT_DEFLECTION].advisory &&
              result.limits[BITE_LIMIT_DEFLECTION].capacity == 0.5e-3);
    ck_assert_str_ne(bite_limit_why(BITE_WHY_TOLERANCE), "");
    cut = bite_test_acrylic();
    cut.operation = BITE_DRILL_HOLE;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_TOOL_GROSS_BEND).why, BITE_WHY_DRILL);
}
END_TEST

/* Of wall, floor and bridge the one that uses most of its own room: a fifth of its thickness, what
 * is taken across it. */
START_TEST(part_that_sways_binds)
{
    bite_cut cut = whole();
    cut.tolerance = cut.floor_span = (double)NAN;
    cut.width = 0.4e-3;
    bite_limit bends = row_of(&cut, BITE_LIMIT_PART_BEND);
    bite_limit sways = row_of(&cut, BITE_LIMIT_PART_GROSS_BEND);
    ck_assert(bends.advisory && !sways.advisory);
    ck_assert_double_eq(sways.demand, bends.demand);
    bite_assert_near(sways.capacity, 0.16e-3, 1e-12);
    cut.width = 0.1e-3;
    bite_assert_near(row_of(&cut, BITE_LIMIT_PART_GROSS_BEND).capacity, 0.1e-3, 1e-12);
    cut.wall_thickness = 0.05e-3; /* foil */
    sways = row_of(&cut, BITE_LIMIT_PART_GROSS_BEND);
    ck_assert_uint_eq(sways.verdict, BITE_OVER);
    bite_assert_near(sways.capacity, 0.01e-3, 1e-12);
    cut.floor_span = 2e-3; /* a stiff floor beside it */
    ck_assert_double_eq(row_of(&cut, BITE_LIMIT_PART_GROSS_BEND).utilization, sways.utilization);
    cut.wall_thickness = (double)NAN;
    sways = row_of(&cut, BITE_LIMIT_PART_GROSS_BEND);
    bite_assert_near(sways.capacity, 0.12e-3, 1e-12); /* 0.6 mm of floor; the depth is 0.4 mm */
    ck_assert_uint_eq(sways.verdict, BITE_CLEAR);
    bite_cut straight = cut;
    straight.helix = 0.0; /* neither lifts nor presses */
    sways = row_of(&straight, BITE_LIMIT_PART_GROSS_BEND);
    ck_assert(sways.applies && sways.demand == 0.0 && sways.utilization == 0.0);
    cut.modulus = (double)NAN;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_GROSS_BEND).why, BITE_WHY_NO_DATA);
    cut = bridged();
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_GROSS_BEND).why, BITE_WHY_TOLERANCE);
    cut.tolerance = (double)NAN;
    sways = row_of(&cut, BITE_LIMIT_PART_GROSS_BEND);
    bite_assert_near(sways.capacity, 0.1e-3, 1e-12);
    ck_assert_double_eq(sways.demand, row_of(&cut, BITE_LIMIT_PART_BEND).demand);
    cut.operation = BITE_DRILL_HOLE; /* pushes on floors alone */
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_PART_GROSS_BEND).why, BITE_WHY_NOT_GIVEN);
}
END_TEST

/* The way in: a ramp of a side cut is a slot; a plunge at the whole feed strains more than at a
 * third; what is not said is milder than the same feed as the cut's. */
START_TEST(entry_strains)
{
    bite_cut cut = whole();
    double beside = use_of(&cut, BITE_LIMIT_TOOL_BREAK);
    cut.entry = BITE_ENTRY_RAMP;
    cut.entry_feed = cut.feed_rate;
    bite_limit ramp = row_of(&cut, BITE_LIMIT_TOOL_BREAK);
    ck_assert_double_gt(ramp.utilization, beside);
    ck_assert_uint_eq(ramp.in_corner, 2);
    cut.entry_feed = (double)NAN;
    ck_assert_double_lt(use_of(&cut, BITE_LIMIT_TOOL_BREAK), ramp.utilization);
    cut.entry = BITE_ENTRY_PLUNGE;
    cut.entry_feed = cut.feed_rate;
    double fast = use_of(&cut, BITE_LIMIT_TOOL_BREAK);
    cut.entry_feed = cut.feed_rate / 3.0;
    double slow = use_of(&cut, BITE_LIMIT_TOOL_BREAK);
    ck_assert_double_ge(fast, slow);
    ck_assert_double_ge(slow, beside);
    bite_assert_near(bite_entry_feed(&cut), cut.feed_rate / 3.0, 1e-15);
    ck_assert_double_gt(use_of(&cut, BITE_LIMIT_CHIP_PACKING), 0.0);
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_CHIP_PACKING).in_corner, 2);
}
END_TEST

/* The axes run no faster on the way in than beside: along it, whatever of that is level. */
START_TEST(entry_feeds_no_faster_than_the_machine)
{
    bite_cut cut = whole();
    cut.feed_fastest = 0.05;
    cut.feed_rate = 0.01;
    cut.ramp_angle = 0.5;
    for (uint32_t entry = BITE_ENTRY_PLUNGE; entry <= BITE_ENTRY_HELIX; entry++) {
        cut.entry = entry;
        cut.entry_feed = 0.06;
        bite_limit limit = row_of(&cut, BITE_LIMIT_FEED_FAST);
        bite_assert_near(limit.demand, 0.06, 1e-15);
        bite_assert_near(limit.utilization, 1.2, 1e-12);
        ck_assert_uint_eq(limit.verdict, BITE_OVER);
        ck_assert_uint_eq(limit.in_corner, 2);
        cut.entry_feed = 0.005;
        limit = row_of(&cut, BITE_LIMIT_FEED_FAST);
        bite_assert_near(limit.utilization, 0.2, 1e-12);
        ck_assert_uint_eq(limit.in_corner, 0);
        cut.entry_feed = (double)NAN; /* a share of the side feed */
        bite_assert_near(row_of(&cut, BITE_LIMIT_FEED_FAST).utilization, 0.2, 1e-12);
    }
    cut.operation = BITE_DRILL_HOLE; /* goes in at its feed */
    cut.entry_feed = 0.06;
    bite_assert_near(row_of(&cut, BITE_LIMIT_FEED_FAST).utilization, 0.2, 1e-12);
}
END_TEST

/* Of 0.5 mm tools in brass a paper tells 2 to 4 N over a whole life and over 30 N at the break
 * (Proc. IMechE B 2020, doi 10.1177/0954405420969347, abstract): with flutes of two diameters, as
 * such tools are sold (memory), the first lies within what half of the tools bear and the second
 * far outside. */
START_TEST(small_tools_bear_what_was_measured)
{
    bite_cut cut;
    bite_cut_init(&cut);
    cut.diameter = 0.5e-3;
    cut.flute_length = 1e-3;
    cut.depth = 0.05e-3;
    cut.spindle_speed = 500.0;
    cut.feed_rate = 5e-3;
    bite_defaults_fill(&cut);
    bite_tool_body tool = bite_cut_tool_body(&cut);
    ck_assert_double_lt(bite_tool_stress(&tool, 4.0, 4.0 * 0.25e-3), cut.tool_strength);
    ck_assert_double_gt(bite_tool_stress(&tool, 30.0, 30.0 * 0.25e-3), 3.0 * cut.tool_strength);
}
END_TEST

/* A spindle rides out what comes once a turn the better the faster it turns: from nearly the peak
 * to nearly the mean. Between the two the load is felt as a rotor of first order feels it: made
 * again by steps through the turns. */
static double ripple_by_steps(double speed)
{
    const double answers = 0.04; /* s */
    const int steps = 2000;
    double step = 1.0 / (speed * steps);
    double felt = 0.0;
    double most = 0.0;
    int turns = 3 + (int)(10.0 * answers * speed);
    for (int i = 0; i < turns * steps; i++) {
        double load = cos(2.0 * M_PI * (double)(i % steps) / steps);
        felt += (load - felt) * -expm1(-step / answers);
        most = i >= (turns - 1) * steps ? fmax(most, felt) : 0.0;
    }
    return most;
}

START_TEST(torque_rides_on_inertia)
{
    uint64_t seed = 20;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.torque_limit = 1.0;
        bite_result result = bite_test_pass(&cut);
        double mean = result.values[BITE_POWER_MEAN].value / (2.0 * M_PI * cut.spindle_speed);
        double peak = result.values[BITE_TORQUE_PEAK].value;
        double demand = result.limits[BITE_LIMIT_TORQUE].demand;
        ck_assert_double_ge(demand, mean * (1.0 - 1e-9));
        ck_assert_double_le(demand, peak * (1.0 + 1e-9));
        if (i < 10) {
            bite_assert_near((demand - mean) / (peak - mean), ripple_by_steps(cut.spindle_speed),
                             2e-3);
        }
    }
}
END_TEST

/* Room for chips: fewer flutes have more; past two it goes by a tooth's own pocket, 46, 44 and 39 %
 * of the section shared out. */
START_TEST(packing_goes_by_the_pocket)
{
    static const double pockets[] = {0.46 / 2.0, 0.44 / 3.0, 0.39 / 4.0, 0.36 / 5.0};
    bite_cut cut = bite_test_acrylic();
    double capacity[7];
    for (int z = 1; z <= 6; z++) {
        cut.flutes = z;
        capacity[z] = row_of(&cut, BITE_LIMIT_CHIP_PACKING).capacity;
    }
    for (int z = 3; z <= 5; z++) {
        ck_assert_double_lt(capacity[z], capacity[z - 1]);
        bite_assert_near(capacity[z] / capacity[2], pockets[z - 2] / pockets[0], 0.02);
    }
    ck_assert_double_lt(capacity[2], capacity[1]);
    ck_assert_double_le(capacity[6], capacity[5]);
}
END_TEST

/* A slot of metal that is closed at both ends has less room while nothing blows; plastics are told
 * another way, from a third of the diameter on. */
START_TEST(closed_slot_keeps_chips)
{
    for (int metal = 0; metal < 2; metal++) {
        for (uint32_t coolant = BITE_COOLANT_NONE; coolant <= BITE_COOLANT_FLOOD; coolant++) {
            bite_cut cut = bite_test_acrylic();
            cut.substance = metal ? BITE_METAL : BITE_AMORPHOUS;
            cut.coolant = coolant;
            cut.depth = 0.4 * cut.diameter;
            bite_limit open = row_of(&cut, BITE_LIMIT_CHIP_PACKING);
            cut.blind = 1;
            bite_limit closed = row_of(&cut, BITE_LIMIT_CHIP_PACKING);
            int dry = coolant == BITE_COOLANT_NONE;
            bite_assert_near(closed.capacity / open.capacity, metal && dry ? 0.7 : 1.0, 1e-12);
            bite_assert_near(closed.demand, open.demand, 1e-12);
            ck_assert_uint_eq(closed.verdict, dry && !metal ? BITE_TIGHT : open.verdict);
        }
    }
}
END_TEST

/* The way in has the room that the slot has: a short plunge beside an edge is none into a blind
 * slot. */
START_TEST(way_in_is_no_blind_slot)
{
    bite_cut cut = bite_test_acrylic();
    cut.depth = 0.4 * cut.diameter;
    cut.width = 0.1 * cut.diameter;
    cut.entry = BITE_ENTRY_PLUNGE;
    bite_limit limit = row_of(&cut, BITE_LIMIT_CHIP_PACKING);
    ck_assert_uint_eq(limit.in_corner, 2);
    ck_assert_uint_eq(limit.verdict, BITE_CLEAR);
    cut.blind = 1;
    ck_assert_uint_eq(row_of(&cut, BITE_LIMIT_CHIP_PACKING).verdict, BITE_TIGHT);
}
END_TEST

/* A helix has one turn's floor under the tool: no deeper than pi D tan(slope) and never than the
 * pass, so that it packs and strains no more than a ramp to the whole depth. */
START_TEST(helix_goes_down_by_turns)
{
    bite_cut cut = bite_test_acrylic();
    cut.width = 0.1e-3;
    cut.depth = 2.0 * cut.diameter;
    cut.entry = BITE_ENTRY_HELIX;
    cut.ramp_angle = 0.1;
    bite_limit helix = row_of(&cut, BITE_LIMIT_CHIP_PACKING);
    ck_assert_uint_eq(helix.in_corner, 2);
    bite_assert_near(helix.demand, M_PI * tan(0.1), 1e-12);
    double break_helix = use_of(&cut, BITE_LIMIT_TOOL_BREAK);
    cut.entry = BITE_ENTRY_RAMP;
    bite_assert_near(row_of(&cut, BITE_LIMIT_CHIP_PACKING).demand, 2.0, 1e-12);
    ck_assert_double_lt(break_helix, use_of(&cut, BITE_LIMIT_TOOL_BREAK));
    cut.depth = 0.1 * cut.diameter;
    bite_limit ramp = row_of(&cut, BITE_LIMIT_CHIP_PACKING);
    cut.entry = BITE_ENTRY_HELIX;
    bite_assert_near(row_of(&cut, BITE_LIMIT_CHIP_PACKING).demand, ramp.demand, 1e-12);
}
END_TEST

/* What runout leaves unbalanced bends a drill towards the middle: the longer the drill, the less of
 * it is left, and what is left never bends the point by more than the runout. Common practice: a
 * carbide drill of 3 mm bears 0.05 mm a turn in a metal of 2800 N/mm2. */
START_TEST(a_drill_finds_its_middle)
{
    bite_cut cut = whole();
    double before = INFINITY;
    cut.operation = BITE_DRILL_HOLE;
    cut.diameter = 3e-3;
    cut.width = (double)NAN;
    cut.runout = 8e-6;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 2800e6;
    cut.edge_t = 20e3;
    cut.spindle_speed = 4300.0 / 60.0;
    cut.feed_rate = 0.05e-3 * cut.spindle_speed;
    cut.flute_length = 30e-3;
    for (double stickout = 31e-3; stickout < 80e-3; stickout *= 1.2) {
        bite_result result = {0};
        result.struct_size = (uint32_t)sizeof result;
        cut.stickout = stickout;
        ck_assert_int_eq(bite_cut_pass(&cut, &result, NULL), BITE_OK);
        double side = result.values[BITE_FORCE_SIDE_PEAK].value;
        ck_assert_double_gt(side, 0.0);
        ck_assert_double_lt(side, before);
        ck_assert_double_le(result.values[BITE_DEFLECTION_TIP].value, cut.runout);
        ck_assert_double_lt(result.limits[BITE_LIMIT_TOOL_BREAK].utilization, 1.0);
        before = side;
    }
}
END_TEST

/* A drill: with no edge force power is K times what is removed; energy closes; torque and thrust
 * grow with feed; deeper pecks pack; what is asked of milling is not asked. */
START_TEST(drill_keeps_the_identities)
{
    uint64_t seed = 91;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.operation = BITE_DRILL_HOLE;
        cut.flutes = 2.0;
        bite_result result = bite_test_pass(&cut);
        double sum = result.heat_share[0] + result.heat_share[1] + result.heat_share[2] +
                     result.heat_share[3];
        bite_assert_near(sum, 1.0, 1e-9);
        ck_assert_double_lt(result.values[BITE_FORCE_LIFT_PEAK].value, 0.0); /* presses down */
        ck_assert(!result.limits[BITE_LIMIT_DEFLECTION].applies &&
                  result.limits[BITE_LIMIT_DEFLECTION].why == BITE_WHY_DRILL);
        bite_cut faster = cut;
        faster.feed_rate = fmin(0.99, 2.0 * cut.feed_rate);
        bite_result more = bite_test_pass(&faster);
        ck_assert_double_gt(more.values[BITE_TORQUE_PEAK].value,
                            result.values[BITE_TORQUE_PEAK].value);
        ck_assert_double_lt(more.values[BITE_FORCE_LIFT_PEAK].value,
                            result.values[BITE_FORCE_LIFT_PEAK].value);
        bite_cut deeper = cut;
        deeper.depth *= 1.5;
        ck_assert_double_gt(use_of(&deeper, BITE_LIMIT_CHIP_PACKING),
                            use_of(&cut, BITE_LIMIT_CHIP_PACKING));
        cut.edge_t = 0.0;
        result = bite_test_pass(&cut);
        bite_assert_near(result.values[BITE_POWER_MEAN].value,
                         cut.pressure_t * result.values[BITE_REMOVAL_RATE].value, 1e-9);
        bite_assert_near(result.values[BITE_REMOVAL_RATE].value,
                         0.25 * M_PI * cut.diameter * cut.diameter * cut.feed_rate, 1e-12);
    }
}
END_TEST

/* Clear parts alone have haze; finer marks scatter less; a share of the light. */
START_TEST(haze_is_a_share)
{
    bite_cut cut = whole();
    double before = 1.0;
    for (double feed = 0.02; feed > 1e-5; feed *= 0.5) {
        cut.feed_rate = feed;
        double haze = bite_test_pass(&cut).values[BITE_HAZE].value;
        ck_assert_msg(haze > 0.0 && haze <= before, "%g after %g", haze, before);
        before = haze;
    }
    cut.refraction = (double)NAN;
    ck_assert(isnan(bite_test_pass(&cut).values[BITE_HAZE].value));
}
END_TEST

/* Between two ratios of a table, alpha lies between theirs; long walls come to the long wall's. */
START_TEST(plates_interpolate)
{
    double middle = bite_plate_wall_middle(0.2);
    double floor_alpha = bite_plate_floor(1.0);
    double pocket = bite_plate_pocket_wall(0.1);
    for (double ratio = 0.21; ratio < 20.0; ratio *= 1.03) {
        ck_assert_double_le(bite_plate_wall_middle(ratio), middle);
        ck_assert_double_ge(bite_plate_pocket_wall(ratio), pocket);
        ck_assert_double_ge(bite_plate_wall_end(ratio), bite_plate_wall_middle(ratio));
        ck_assert_double_ge(bite_plate_wall_middle(ratio), bite_plate_pocket_wall(ratio));
        bite_assert_near(bite_plate_floor(ratio), bite_plate_floor(1.0 / ratio), 1e-12);
        ck_assert_double_ge(bite_plate_floor(fmax(1.0, ratio)), floor_alpha);
        middle = bite_plate_wall_middle(ratio);
        pocket = bite_plate_pocket_wall(ratio);
        floor_alpha = bite_plate_floor(fmax(1.0, ratio));
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("rows");
    TCase *rows = tcase_create("rows");
    tcase_add_test(rows, not_asked_does_not_apply);
    tcase_add_loop_test(rows, each_goes_its_way, 0, (int)(sizeof trends / sizeof *trends));
    tcase_add_test(rows, craze_begins_where_stress_relaxes);
    tcase_add_test(rows, bond_adds_up);
    tcase_add_test(rows, vacuum_bears_the_peak);
    tcase_add_test(rows, wear_follows_taylor);
    tcase_add_test(rows, part_bends_as_a_plate);
    tcase_add_test(rows, pocket_wall_is_stiffer);
    tcase_add_test(rows, bridge_bends_as_a_strip);
    tcase_add_test(rows, measured_mode_has_lobes);
    tcase_add_test(rows, measured_modes_together);
    tcase_add_test(rows, halves_of_a_mode);
    tcase_add_test(rows, worst_speed_in_closed_form);
    tcase_add_test(rows, bent_shape_rings);
    tcase_add_test(rows, flank_rides_on_short_waves);
    tcase_add_test(rows, long_tool_chatters);
    tcase_add_test(rows, slender_never_gains);
    tcase_add_test(rows, tool_that_sways_binds);
    tcase_add_test(rows, part_that_sways_binds);
    tcase_add_test(rows, entry_strains);
    tcase_add_test(rows, entry_feeds_no_faster_than_the_machine);
    tcase_add_test(rows, small_tools_bear_what_was_measured);
    tcase_add_test(rows, torque_rides_on_inertia);
    tcase_add_test(rows, packing_goes_by_the_pocket);
    tcase_add_test(rows, closed_slot_keeps_chips);
    tcase_add_test(rows, way_in_is_no_blind_slot);
    tcase_add_test(rows, helix_goes_down_by_turns);
    tcase_add_test(rows, a_drill_finds_its_middle);
    tcase_add_test(rows, drill_keeps_the_identities);
    tcase_add_test(rows, haze_is_a_share);
    tcase_add_test(rows, plates_interpolate);
    tcase_set_timeout(rows, 120);
    suite_add_tcase(suite, rows);
    return bite_test_run(suite);
}
