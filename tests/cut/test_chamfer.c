/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chamfer cuts: trends, surface, deflection, limits and refusals. */
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/elastic/tool_deflection.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stddef.h>
#include <stdint.h>

static double value(const bite_result *result, bite_value_id id)
{
    return result->values[id].value;
}

/* ---- trends ---- */

START_TEST(deeper_chamfer_needs_more_force)
{
    static const bite_value_id grow[] = {BITE_FORCE_TANGENTIAL_PEAK, BITE_FORCE_SIDE_PEAK,
                                         BITE_TORQUE_PEAK,           BITE_POWER_MEAN,
                                         BITE_REMOVAL_RATE,          BITE_SURFACE_SPEED};
    bite_cut cut = bite_test_plain_chamfer();
    cut.tip_below = 0.1e-3;
    cut.helix = 0.0;
    bite_result before = bite_test_pass(&cut);
    for (int i = 0; i < 20; i++) {
        cut.depth *= 1.08;
        bite_result after = bite_test_pass(&cut);
        for (size_t k = 0; k < sizeof grow / sizeof *grow; k++) {
            ck_assert_msg(value(&after, grow[k]) > value(&before, grow[k]),
                          "%s does not grow at %g", bite_value_name(grow[k]), cut.depth);
        }
        before = after;
    }
}
END_TEST

/* With the tip set deeper a thicker part of the cone cuts: the speed is higher at both ends, and
 * the feed marks are lower. */
START_TEST(deeper_tip_cuts_faster)
{
    bite_cut cut = bite_test_plain_chamfer();
    cut.tip_below = 0.0;
    bite_result before = bite_test_pass(&cut);
    for (int i = 1; i <= 10; i++) {
        cut.tip_below = 0.15e-3 * i;
        bite_result after = bite_test_pass(&cut);
        bite_assert_near(value(&after, BITE_SURFACE_SPEED),
                         M_PI * (0.6e-3 + 2.0 * (cut.tip_below + cut.depth)) * cut.spindle_speed,
                         1e-12);
        bite_assert_near(value(&after, BITE_SURFACE_SPEED_SMALL),
                         M_PI * (0.6e-3 + 2.0 * cut.tip_below) * cut.spindle_speed, 1e-12);
        ck_assert_double_gt(value(&after, BITE_SURFACE_SPEED), value(&before, BITE_SURFACE_SPEED));
        ck_assert_double_lt(value(&after, BITE_ROUGHNESS_WALL),
                            value(&before, BITE_ROUGHNESS_WALL));
        before = after;
    }
}
END_TEST

/* With straight flutes and no runout, climb and conventional are mirrored: tangential forces,
 * torque, power and lift are equal, and so is the peak side force of one tooth, whose whole edge is
 * at one angle. The mean side force is equal only if tangential and radial forces are distributed
 * alike over the arc, which edge forces are not. */
START_TEST(climb_mirrors_conventional)
{
    static const bite_value_id like[] = {BITE_FORCE_TANGENTIAL_PEAK, BITE_FORCE_LIFT_PEAK,
                                         BITE_TORQUE_PEAK,           BITE_POWER_MEAN,
                                         BITE_FORCE_SIDE_PEAK,       BITE_FORCE_SIDE_MEAN};
    uint64_t seed = 55;
    for (int i = 0; i < 200; i++) {
        bite_cut cut = bite_test_chamfer(&seed);
        cut.helix = 0.0;
        cut.runout = 0.0;
        cut.flutes = 1.0 + i % 4; /* a quarter turn apart: one is in contact */
        cut.edge_t = i % 2 ? 0.0 : cut.edge_t;
        cut.side = BITE_CLIMB;
        bite_result climb = bite_test_pass(&cut);
        cut.side = BITE_CONVENTIONAL;
        bite_result other = bite_test_pass(&cut);
        for (size_t k = 0; k < (cut.edge_t > 0.0 ? 5 : 6); k++) {
            bite_assert_near(value(&climb, like[k]), value(&other, like[k]), 1e-6);
        }
        ck_assert_double_lt(value(&climb, BITE_FORCE_LIFT_PEAK), 0.0); /* the cone presses down */
    }
}
END_TEST

/* Feed marks measured normal to the face at the thin end: the sagitta of a circle of radius
 * r/cos(taper) over half a feed. */
START_TEST(feed_marks_are_those_of_the_thin_end)
{
    bite_cut cut = bite_test_plain_chamfer();
    cut.runout = 0.0;
    cut.taper = 0.6;
    double feed = cut.feed_rate / (cut.spindle_speed * cut.flutes);
    double radius = (0.3e-3 + 0.25 * cut.depth * tan(0.6)) / cos(0.6);
    double drop = radius - sqrt(radius * radius - 0.25 * feed * feed);
    bite_result result = bite_test_pass(&cut);
    bite_assert_near(value(&result, BITE_ROUGHNESS_WALL), drop, 1e-3);
    ck_assert(result.limits[BITE_LIMIT_FINISH].why == BITE_WHY_NOT_GIVEN);
    cut.finish = 0.25 * drop;
    bite_assert_near(bite_test_pass(&cut).limits[BITE_LIMIT_FINISH].utilization, 1.0, 1e-3);
}
END_TEST

/* The thin end rubs first. It is judged at a quarter of the depth, where the arc is acos(r_b/r) and
 * the chip thickness fz times its sine, reduced by the slope. */
START_TEST(thin_end_rubs_first)
{
    bite_cut cut = bite_test_plain_chamfer();
    cut.runout = 0.0;
    double feed = cut.feed_rate / (cut.spindle_speed * cut.flutes);
    double small = 0.3e-3 + 0.25 * cut.depth;
    double chip = feed * sin(acos(small / (small + 0.25 * cut.depth))) * cos(M_PI / 4.0);
    bite_result result = bite_test_pass(&cut);
    bite_assert_near(result.limits[BITE_LIMIT_RUBBING].capacity, chip, 1e-9);
    ck_assert_double_lt(result.limits[BITE_LIMIT_RUBBING].utilization, 1.0);
    ck_assert_double_lt(chip, value(&result, BITE_CHIP_THICKNESS_MAX));
    cut.feed_rate *= 0.05;
    ck_assert_uint_eq(bite_test_pass(&cut).limits[BITE_LIMIT_RUBBING].verdict, BITE_OVER);
}
END_TEST

/* The shaft begins at the load, on the cone. It is stiffer than a cylinder of the cone's diameter
 * there, and softer than one of the tool's diameter. */
START_TEST(cone_stiffness_is_between_two_cylinders)
{
    bite_cut cut = bite_test_plain_chamfer();
    bite_defaults_fill(&cut);
    bite_tool_body tool = bite_cut_tool_body(&cut);
    double load = tool.load;
    double radius = 0.3e-3 + load;
    bite_shaft shaft;
    bite_tool_shaft_init(&tool, 1.0, &shaft);
    double length = 0.0;
    for (size_t i = 0; i < shaft.count; i++) {
        length += shaft.steps[i].length;
    }
    bite_assert_near(length, cut.stickout - load, 1e-12);
    bite_assert_near(shaft.steps[0].tip, 2.0 * radius, 1e-12);
    bite_assert_near(shaft.steps[0].holder, cut.diameter, 1e-12);
    bite_shaft thin = {1, {{length, 2.0 * radius, 2.0 * radius}}};
    bite_shaft thick = {1, {{length, cut.diameter, cut.diameter}}};
    bite_yielding cone = bite_shaft_bend(&shaft, 1.0, 0.2, 0.0);
    ck_assert_double_lt(cone.bending, bite_shaft_bend(&thin, 1.0, 0.2, 0.0).bending);
    ck_assert_double_gt(cone.bending, bite_shaft_bend(&thick, 1.0, 0.2, 0.0).bending);
    bite_result result = bite_test_pass(&cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    bite_assert_near(value(&result, BITE_DEFLECTION_TIP),
                     value(&result, BITE_FORCE_SIDE_PEAK) * deflection.compliance, 1e-12);
}
END_TEST

/* ---- limits and refusals ---- */

/* The lower end of the cone must fit into the corner, not the whole tool; a gap must be as wide as
 * both radii. */
START_TEST(thin_end_must_fit_the_corner)
{
    bite_cut cut = bite_test_plain_chamfer();
    cut.tolerance = 0.05e-3;
    cut.inside_radius = 1e-3;
    cut.gap = 1e-3;
    cut.wall_thickness = 1e-3;
    bite_result result = bite_test_pass(&cut);
    bite_cut full = cut;
    bite_defaults_fill(&full);
    bite_cone cone = bite_cut_cone(&full);
    bite_assert_near(result.limits[BITE_LIMIT_CORNER].demand, cone.small, 1e-12);
    bite_assert_near(result.limits[BITE_LIMIT_CORNER].capacity, 1.05e-3, 1e-12);
    bite_assert_near(result.limits[BITE_LIMIT_GAP].demand, cone.small + cone.large + full.runout,
                     1e-12);
    ck_assert(result.limits[BITE_LIMIT_CHATTER].applies &&
              result.limits[BITE_LIMIT_CHATTER].advisory);
    ck_assert(result.limits[BITE_LIMIT_DEFLECTION].applies &&
              !result.limits[BITE_LIMIT_DEFLECTION].advisory);
    bite_assert_near(result.limits[BITE_LIMIT_DEFLECTION].capacity, 0.025e-3, 1e-12);
    ck_assert(!result.limits[BITE_LIMIT_PART_BEND].applies &&
              result.limits[BITE_LIMIT_PART_BEND].why == BITE_WHY_CHAMFER);
    ck_assert_str_ne(bite_limit_why(BITE_WHY_CHAMFER), "");
    cut.wall_thickness = (double)NAN; /* only the wall does not apply to a chamfer */
    ck_assert_uint_eq(bite_test_pass(&cut).limits[BITE_LIMIT_PART_BEND].why, BITE_WHY_NOT_GIVEN);
    bite_assert_near(result.limits[BITE_LIMIT_REACH].demand, 1.25 * cut.depth, 1e-12);
    bite_assert_near(result.limits[BITE_LIMIT_REACH].capacity, 2.7e-3, 1e-12);
    cut.inside_radius = 0.9 * cone.small - cut.tolerance;
    ck_assert_uint_eq(bite_test_pass(&cut).limits[BITE_LIMIT_CORNER].verdict, BITE_OVER);
}
END_TEST

/* A narrower corner loads the tool more, and a wide one is like a straight edge. */
START_TEST(narrower_corner_loads_the_tool_more)
{
    bite_cut cut = bite_test_plain_chamfer();
    bite_result straight = bite_test_pass(&cut);
    double before = straight.limits[BITE_LIMIT_TOOL_BREAK].utilization;
    for (double radius = 1.0; radius > 0.5e-3; radius *= 0.7) {
        cut.inside_radius = radius;
        bite_limit limit = bite_test_pass(&cut).limits[BITE_LIMIT_TOOL_BREAK];
        ck_assert_msg(limit.utilization >= before, "%g m: %g after %g", radius, limit.utilization,
                      before);
        before = limit.utilization;
        if (radius > 0.9) {
            bite_assert_near(limit.utilization, straight.limits[BITE_LIMIT_TOOL_BREAK].utilization,
                             2e-3);
        }
    }
    ck_assert_double_gt(before, 1.1 * straight.limits[BITE_LIMIT_TOOL_BREAK].utilization);
    cut.inside_radius = 0.7e-3;
    ck_assert(bite_test_pass(&cut).limits[BITE_LIMIT_TOOL_BREAK].in_corner);
}
END_TEST

/* A straight flute finishes the face with its whole edge: the wall error is the force of the edge
 * times the compliance of the tool. */
START_TEST(wall_error_is_the_edge_force_times_compliance)
{
    for (int side = 0; side < 2; side++) {
        bite_cut cut = bite_test_plain_chamfer();
        cut.side = side ? BITE_CLIMB : BITE_CONVENTIONAL;
        cut.flutes = 1.0;
        cut.helix = 0.0;
        bite_cut full = cut;
        bite_pressure pressure;
        bite_defaults_fill(&full);
        ck_assert(bite_cut_pressure(&full, 20e-6, &pressure));
        double push =
            pressure.edge_radial * full.depth; /* the edge is longer by 1/cos(taper), its normal
                                                  component smaller by cos(taper) */
        bite_tool_body tool = bite_cut_tool_body(&full);
        bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
        bite_result result = bite_test_pass(&cut);
        double bends = push * deflection.compliance;
        bite_value_id wall = side ? BITE_WALL_CLIMB : BITE_WALL_CONVENTIONAL;
        /* signed, less the half of the runout by which the tool cuts wider */
        bite_assert_near(value(&result, wall) + 0.5 * full.runout, bends, 1e-5);
        ck_assert_double_eq(value(&result, BITE_WALL_ERROR), fabs(value(&result, wall)));
    }
}
END_TEST

static const struct {
    const char *input;
    double number;
    const char *key;
} refused[] = {
    {"depth", 3e-3, "depth"},
    {"tip_below", 3e-3, "depth"},
    {"tip_diameter", 7e-3, "depth"},
    {"width", 0.3e-3, "width"},
    {"taper", 0.0, "taper"},
    {"taper", 1.5, "taper"},
    {"tip_diameter", 0.0, "tip_diameter"},
    {"tip_below", -1e-6, "tip_below"},
    {"corner_radius", 0.2e-3, "corner_radius"},
};

START_TEST(refused_with_a_hint)
{
    bite_cut cut = bite_test_plain_chamfer();
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OK);
    const bite_input *input = bite_input_find(refused[_i].input);
    ck_assert_ptr_nonnull(input);
    *(double *)((char *)&cut + input->offset) = refused[_i].number;
    ck_assert_int_ne(bite_cut_pass(&cut, &result, &error), BITE_OK);
    ck_assert_str_eq(error.key, refused[_i].key);
    ck_assert_msg(error.message[0] != 0 && error.hint[0] != 0, "%s: %s (%s)", error.key,
                  error.message, error.hint);
}
END_TEST

START_TEST(entry_moves_are_refused)
{
    bite_cut cut = bite_test_plain_chamfer();
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    cut.entry = BITE_ENTRY_RAMP;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "entry");
    ck_assert_str_ne(error.hint, "");
}
END_TEST

/* The whole cone can be used, but not a millionth more. */
START_TEST(whole_cone_can_be_used)
{
    bite_cut cut = bite_test_plain_chamfer();
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    cut.tip_below = 0.7e-3;
    cut.depth = 2e-3;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OK);
    bite_assert_near(value(&result, BITE_SURFACE_SPEED), M_PI * 6e-3 * cut.spindle_speed, 1e-12);
    cut.depth *= 1.0 + 1e-6;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OUT_OF_RANGE);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("chamfer");
    TCase *chamfer = tcase_create("chamfer");
    tcase_add_test(chamfer, deeper_chamfer_needs_more_force);
    tcase_add_test(chamfer, deeper_tip_cuts_faster);
    tcase_add_test(chamfer, climb_mirrors_conventional);
    tcase_add_test(chamfer, feed_marks_are_those_of_the_thin_end);
    tcase_add_test(chamfer, thin_end_rubs_first);
    tcase_add_test(chamfer, cone_stiffness_is_between_two_cylinders);
    tcase_add_test(chamfer, thin_end_must_fit_the_corner);
    tcase_add_test(chamfer, narrower_corner_loads_the_tool_more);
    tcase_add_test(chamfer, wall_error_is_the_edge_force_times_compliance);
    tcase_add_loop_test(chamfer, refused_with_a_hint, 0, (int)(sizeof refused / sizeof *refused));
    tcase_add_test(chamfer, entry_moves_are_refused);
    tcase_add_test(chamfer, whole_cone_can_be_used);
    tcase_set_timeout(chamfer, 180);
    suite_add_tcase(suite, chamfer);
    return bite_test_run(suite);
}
