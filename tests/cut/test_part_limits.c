/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the part: how far its walls, floors and bridges bend, and the strength of its adhesive
 * tape. */
#include "core/physics/elastic/thin_plate.h"
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* Side force and its twist over the area against the shear strength; lift and tilt over the area
 * against the pull strength; both as one sphere. A bond whose sides are not given is a square. */
START_TEST(bond_limits_match_closed_forms)
{
    bite_cut cut = bite_test_part_cut();
    bite_result result = bite_test_pass(&cut);
    double side = 1.1 * result.values[BITE_FORCE_SIDE_PEAK].value; /* the part rings */
    double lift = 1.1 * result.values[BITE_FORCE_LIFT_PEAK].value;
    double height = cut.feature_depth + cut.floor_thickness;
    double twist = 6.0 / (2.0 * M_SQRT2); /* F a/2 a/sqrt(2) over J = a^4/6, in F/A */
    double capacity = 200e-6 * 0.03e6;
    bite_assert_near(
        result.limits[BITE_LIMIT_HOLD].utilization,
        hypot(side * (1.0 + twist), lift + 6.0 * side * height / sqrt(200e-6)) / capacity, 1e-12);
    cut.bond_area = 4e-6; /* a part of 2 x 2 mm tears off */
    ck_assert_double_gt(bite_test_utilization(&cut, BITE_LIMIT_HOLD), 1.0);
    cut = bite_test_part_cut();
    double minute = bite_test_utilization(&cut, BITE_LIMIT_HOLD);
    cut.load_time = 480.0; /* what does not creep and is not weakened by warmth bears it */
    cut.bond_temperature = 353.15;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_HOLD), minute, 1e-12);
    cut.bond_halving = 25.0;
    cut.bond_temperature = 296.15 + 25.0;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_HOLD), 2.0 * minute, 1e-12);
    cut.bond_exponent = 0.2;
    double aged = bite_test_utilization(&cut, BITE_LIMIT_HOLD);
    cut.load_time = 60.0;
    bite_assert_near(aged, pow(8.0, 0.2) * bite_test_utilization(&cut, BITE_LIMIT_HOLD), 1e-9);
}
END_TEST

/* The sag of a floor, by the closed form of the reference rows; a wall as thin as foil is over the
 * limit. */
START_TEST(part_bends_as_a_plate)
{
    bite_cut cut = bite_test_part_cut();
    cut.wall_thickness = (double)NAN;
    cut.floor_length = 10e-3;
    bite_result result = bite_test_pass(&cut);
    double rigidity = 3.3e9 * pow(0.6e-3, 3.0) / (12.0 * (1.0 - 0.37 * 0.37));
    double sag = 0.0056 * fabs(result.values[BITE_FORCE_LIFT_PEAK].value) * 100e-6 / rigidity;
    bite_assert_near(result.limits[BITE_LIMIT_PART_BEND].demand, sag, 1e-12);
    bite_assert_near(result.limits[BITE_LIMIT_PART_BEND].capacity, 0.025e-3, 1e-12);
    cut.wall_thickness = 0.05e-3; /* foil */
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).verdict, BITE_OVER);
    cut.tolerance = (double)NAN; /* without a tolerance the limit is advisory */
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).verdict, BITE_TIGHT);
    cut.modulus = (double)NAN;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).why, BITE_WHY_NO_DATA);
}
END_TEST

/* A wall of a pocket is stiffer than one with free ends, by its own coefficients; the ends of a
 * long wall do not matter. */
START_TEST(pocket_wall_is_stiffer_than_a_free_one)
{
    bite_cut cut = bite_test_part_cut();
    cut.floor_span = (double)NAN;
    cut.wall_height = 4e-3;
    cut.wall_length = 4e-3;
    double open = bite_test_limit(&cut, BITE_LIMIT_PART_BEND).demand;
    cut.wall_ends = BITE_WALL_HELD;
    double clamped = bite_test_limit(&cut, BITE_LIMIT_PART_BEND).demand;
    bite_assert_near(clamped / open, 0.0258 / 0.491, 1e-12);
    for (double length = 2e-3; length < 60e-3; length *= 1.1) {
        cut.wall_length = length;
        cut.wall_ends = BITE_WALL_FREE;
        open = bite_test_utilization(&cut, BITE_LIMIT_PART_BEND);
        cut.wall_ends = BITE_WALL_HELD;
        ck_assert_double_lt(bite_test_utilization(&cut, BITE_LIMIT_PART_BEND), open);
    }
    cut.wall_length = (double)NAN;
    clamped = bite_test_utilization(&cut, BITE_LIMIT_PART_BEND);
    cut.wall_ends = BITE_WALL_FREE;
    bite_assert_near(clamped, bite_test_utilization(&cut, BITE_LIMIT_PART_BEND), 1e-12);
}
END_TEST

/* A bridge bending by P L^3/(192 E I) plus its shear. Its default width is the depth of the pass. A
 * bridge with only one of its two sizes given is not judged. Of wall, floor and bridge, the largest
 * utilization counts. */
START_TEST(bridge_bends_as_a_clamped_strip)
{
    bite_cut cut = bite_test_bridge_cut();
    bite_result result = bite_test_pass(&cut);
    double force = result.values[BITE_FORCE_SIDE_PEAK].value;
    double inertia = cut.depth * pow(0.5e-3, 3.0) / 12.0;
    double bending = force * pow(6e-3, 3.0) / (192.0 * 3.3e9 * inertia);
    double shear = force * 6e-3 / (4.0 * (5.0 / 6.0) * 3.3e9 / (2.0 * 1.37) * cut.depth * 0.5e-3);
    bite_assert_near(result.limits[BITE_LIMIT_PART_BEND].demand, bending + shear, 1e-12);
    cut.bridge_width = 3.0 * cut.depth;
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).demand, (bending + shear) / 3.0,
                     1e-12);
    cut.bridge_thickness = 2e-3;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).verdict, BITE_CLEAR);
    double bridge = bite_test_utilization(&cut, BITE_LIMIT_PART_BEND);
    cut.wall_thickness = 0.8e-3;
    double both = bite_test_utilization(&cut, BITE_LIMIT_PART_BEND);
    cut.bridge_span = (double)NAN;
    ck_assert_double_eq(both, fmax(bridge, bite_test_utilization(&cut, BITE_LIMIT_PART_BEND)));
    cut.wall_thickness = (double)NAN;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).why, BITE_WHY_NOT_GIVEN);
    cut.bridge_span = 30e-3;
    cut.bridge_thickness = 0.2e-3;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).verdict, BITE_OVER);
    cut.operation = BITE_DRILL_HOLE;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).why, BITE_WHY_NOT_GIVEN);
    cut.operation = BITE_MILL;
    cut.modulus = (double)NAN;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_BEND).why, BITE_WHY_NO_DATA);
}
END_TEST

/* Of wall, floor and bridge the one with the highest utilization counts. The capacity of each is a
 * fifth of its thickness or the width of cut, whichever is less. */
START_TEST(gross_bending_of_the_part_is_binding)
{
    bite_cut cut = bite_test_part_cut();
    cut.tolerance = cut.floor_span = (double)NAN;
    cut.width = 0.4e-3;
    bite_limit bending = bite_test_limit(&cut, BITE_LIMIT_PART_BEND);
    bite_limit gross = bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND);
    ck_assert(bending.advisory && !gross.advisory);
    ck_assert_double_eq(gross.demand, bending.demand);
    bite_assert_near(gross.capacity, 0.16e-3, 1e-12);
    cut.width = 0.1e-3;
    bite_assert_near(bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND).capacity, 0.1e-3, 1e-12);
    cut.wall_thickness = 0.05e-3; /* foil */
    gross = bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND);
    ck_assert_uint_eq(gross.verdict, BITE_OVER);
    bite_assert_near(gross.capacity, 0.01e-3, 1e-12);
    cut.floor_span = 2e-3; /* a stiff floor as well */
    ck_assert_double_eq(bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND).utilization,
                        gross.utilization);
    cut.wall_thickness = (double)NAN;
    gross = bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND);
    bite_assert_near(gross.capacity, 0.12e-3,
                     1e-12); /* a fifth of a floor of 0.6 mm; the depth is 0.4 mm */
    ck_assert_uint_eq(gross.verdict, BITE_CLEAR);
    bite_cut straight = cut;
    straight.helix = 0.0; /* no lift force */
    gross = bite_test_limit(&straight, BITE_LIMIT_PART_GROSS_BEND);
    ck_assert(gross.applies && gross.demand == 0.0 && gross.utilization == 0.0);
    cut.modulus = (double)NAN;
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND).why, BITE_WHY_NO_DATA);
    cut = bite_test_bridge_cut();
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND).why, BITE_WHY_TOLERANCE);
    cut.tolerance = (double)NAN;
    gross = bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND);
    bite_assert_near(gross.capacity, 0.1e-3, 1e-12);
    ck_assert_double_eq(gross.demand, bite_test_limit(&cut, BITE_LIMIT_PART_BEND).demand);
    cut.operation = BITE_DRILL_HOLE; /* a drill pushes on floors only */
    ck_assert_uint_eq(bite_test_limit(&cut, BITE_LIMIT_PART_GROSS_BEND).why, BITE_WHY_NOT_GIVEN);
}
END_TEST

/* Between two ratios of a table the coefficient is between the two of the table; that of a long
 * wall approaches the long wall's. */
START_TEST(plate_coefficients_are_monotonic)
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
    Suite *suite = suite_create("part limits");
    TCase *limits = tcase_create("part limits");
    tcase_add_test(limits, bond_limits_match_closed_forms);
    tcase_add_test(limits, part_bends_as_a_plate);
    tcase_add_test(limits, pocket_wall_is_stiffer_than_a_free_one);
    tcase_add_test(limits, bridge_bends_as_a_clamped_strip);
    tcase_add_test(limits, gross_bending_of_the_part_is_binding);
    tcase_add_test(limits, plate_coefficients_are_monotonic);
    tcase_set_timeout(limits, 120);
    suite_add_tcase(suite, limits);
    return bite_test_run(suite);
}
