/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chamfers: a stack of thin square tools makes the same forces, the identities of all cuts hold,
 * what is asked otherwise is refused.
 */
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/cut/segment.h"
#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/geometry/kinematics.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_physics.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static double value(const bite_result *result, bite_value_id id)
{
    return result->values[id].value;
}

/* A random chamfer that its cone reaches, of a random cut. */
static bite_cut chamfer(uint64_t *seed)
{
    bite_cut cut = bite_test_cut(seed);
    cut.operation = BITE_CHAMFER;
    cut.width = (double)NAN;
    cut.taper = bite_test_between(seed, 0.1, 1.2);
    cut.tip_diameter = cut.diameter * bite_test_decades(seed, 0.02, 0.5);
    double cone = 0.5 * (cut.diameter - cut.tip_diameter) / tan(cut.taper);
    cut.tip_below = cone * bite_test_between(seed, 0.0, 0.5);
    cut.depth = (cone - cut.tip_below) * bite_test_between(seed, 0.05, 0.95);
    cut.stickout = cone + cut.diameter + bite_test_decades(seed, 3e-3, 30e-3);
    return cut;
}

/* The plain chamfer that tests start from. */
static bite_cut plain(void)
{
    bite_cut cut = bite_test_acrylic();
    cut.operation = BITE_CHAMFER;
    cut.diameter = 6e-3;
    cut.stickout = 20e-3;
    cut.depth = 0.5e-3;
    cut.feed_rate = 15e-3;
    return cut;
}

/* The section is a triangle of depth and depth tan(taper), by the pass and by the sum of slices. */
START_TEST(removes_a_triangle)
{
    uint64_t seed = 51;
    for (int i = 0; i < 500; i++) {
        bite_cut cut = chamfer(&seed);
        double section = 0.5 * cut.depth * cut.depth * tan(cut.taper);
        bite_result result = bite_test_pass(&cut);
        bite_assert_near(value(&result, BITE_REMOVAL_RATE), section * cut.feed_rate, 1e-12);
        bite_defaults_fill(&cut);
        bite_cone cone = bite_cut_cone(&cut);
        bite_chip chip;
        bite_pressure pressure;
        bite_corner_mill sum;
        ck_assert(bite_cut_pressure(&cut, &pressure));
        bite_arc arc = bite_engagement_straight(bite_cutting_diameter(&cut), cut.depth * cone.slope,
                                                (bite_side)cut.side);
        bite_chip_init(&chip, arc, cut.feed_rate / (cut.spindle_speed * cut.flutes),
                       (int)cut.flutes, cut.runout, 0.0);
        bite_chamfer_tool mill = bite_cut_chamfer_tool(&cut);
        bite_chamfer_forces(&mill, arc, &chip, &pressure, &sum);
        bite_assert_near(sum.section, section, 1e-12);
        bite_assert_near(sum.edge_length, cut.depth / cos(cut.taper), 1e-12);
    }
}
END_TEST

/* With no edge force power is K times what is removed at any runout, helix, direction; heat
 * accounts for all of it, and its power is that of the forces. Where no tooth forms a chip anywhere
 * there is none to be told. */
START_TEST(power_and_energy_close)
{
    uint64_t seed = 52;
    for (int i = 0; i < 500; i++) {
        bite_cut cut = chamfer(&seed);
        bite_result result = bite_test_pass(&cut);
        double sum = result.heat_share[0] + result.heat_share[1] + result.heat_share[2] +
                     result.heat_share[3];
        bite_assert_near(sum, 1.0, 1e-9);
        bite_cut full = cut;
        bite_segment segment;
        bite_defaults_fill(&full);
        bite_test_stretch(&full,
                          bite_engagement_straight(bite_cutting_diameter(&full),
                                                   full.depth * tan(full.taper),
                                                   (bite_side)full.side),
                          &segment);
        bite_assert_near(segment.heat_power, value(&result, BITE_POWER_MEAN), 1e-6);
        for (int k = 0; k < BITE_VALUE_COUNT; k++) {
            int may = k == BITE_PART_TEMPERATURE || k == BITE_HAZE || k == BITE_TOOL_LIFE ||
                      k == BITE_TIP_FREQUENCY || k == BITE_ROUGHNESS_FLOOR;
            ck_assert_msg(may || isfinite(value(&result, (bite_value_id)k)),
                          "cut %d: %s is no number", i, bite_value_name((bite_value_id)k));
        }
        cut.edge_t = 0.0;
        cut.minimum_chip = 0.01;
        cut.edge_radius = 0.05e-6;
        cut.feed_rate =
            fmin(0.9, fmax(cut.feed_rate, 0.02 * cut.diameter * cut.flutes * cut.spindle_speed));
        result = bite_test_pass(&cut);
        /* by the thin end a tooth rubs up to a chip of h_min = 0.5 nm, whatever the feed: a share
         * of (h_min/h)^2 */
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

/* What a slope does to a square tool's constants: a longer edge, a thinner chip, and a normal that
 * leans. */
static bite_pressure leaning(const bite_pressure *other, double taper)
{
    bite_pressure leaning = *other;
    leaning.edge_tangential = other->edge_tangential / cos(taper);
    leaning.radial = other->radial * cos(taper);
    leaning.axial = other->axial - other->radial * sin(taper);
    leaning.edge_axial = (other->edge_axial - other->edge_radial * sin(taper)) / cos(taper);
    return leaning;
}

/* The arc of a slice on a straight edge, or in a corner of this wall. */
static bite_arc arc_of(const bite_cut *cut, double radius, double width)
{
    return isnan(cut->inside_radius)
               ? bite_engagement_straight(2.0 * radius, width, (bite_side)cut->side)
               : bite_engagement_corner(2.0 * radius, width, (bite_side)cut->side,
                                        cut->inside_radius + width);
}

static void add_square(const bite_cut *cut, const bite_pressure *pressure, double least,
                       double middle, double rise, stack *sum)
{
    bite_cone cone = bite_cut_cone(cut);
    double radius = cone.small + middle * cone.slope;
    double lag = tan(cut->helix) / (0.5 * cut->diameter);
    double feed = cut->feed_rate / (cut->spindle_speed * cut->flutes);
    bite_chip chip;
    bite_force force;
    bite_arc arc = arc_of(cut, radius, middle * cone.slope);
    bite_chip_init(&chip, arc, feed, (int)cut->flutes, cut->runout, least);
    bite_force_init(&force, &chip, pressure, rise, 2.0 * radius, atan(lag * radius));
    for (int k = 0; k < TURN; k++) {
        bite_load load =
            bite_test_force_at(&force, 2.0 * M_PI * k / TURN - lag * (middle - 0.5 * rise));
        sum->load[k].tangential += load.tangential;
        sum->load[k].x += load.x;
        sum->load[k].y += load.y;
        sum->load[k].lift += load.lift;
        sum->torque[k] += load.tangential * radius;
    }
    sum->mean.tangential += force.mean.tangential;
    sum->mean.x += force.mean.x;
    sum->mean.y += force.mean.y;
    sum->mean.lift += force.mean.lift;
    sum->torque_mean += force.mean.tangential * radius;
}

/* Thinner towards the thin end, where the arc begins as a root. */
static void pile(const bite_cut *full, const bite_pressure *pressure, double least, stack *sum)
{
    memset(sum, 0, sizeof *sum);
    for (int i = 0; i < STACKED; i++) {
        double low = full->depth * i * i / (STACKED * (double)STACKED);
        double high = full->depth * (i + 1) * (i + 1) / (STACKED * (double)STACKED);
        add_square(full, pressure, least, 0.5 * (low + high), high - low, sum);
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

static void near_scale(double got, double expected, double scale, double within, int i,
                       const char *what)
{
    ck_assert_msg(fabs(got - expected) <= within * scale,
                  "cut %d: %s is %g, of a stack %g (scale %g)", i, what, got, expected, scale);
}

/* A slice of the stack forms a chip or does not: where that begins within one, half of the thickest
 * (2/STACKED of the depth) is told wrongly, 0.4 % of a mean; at a peak, where a rubbing chip counts
 * twice, and the stack looks at some angles alone, twice that. */
static void same_as_stack(const bite_cut *cut, int leans, double within, double peak_within, int i)
{
    static stack sum;
    bite_cut full = *cut;
    bite_pressure pressure;
    bite_defaults_fill(&full);
    ck_assert(bite_cut_pressure(&full, &pressure));
    bite_pressure other = leans ? leaning(&pressure, full.taper) : pressure;
    double least = full.minimum_chip * full.edge_radius / (leans ? cos(full.taper) : 1.0);
    pile(&full, &other, least, &sum);
    bite_segment result;
    double width = full.depth * tan(full.taper);
    bite_test_stretch(&full, arc_of(&full, 0.5 * bite_cutting_diameter(&full), width), &result);
    double torque;
    bite_force_peaks peaks = peaks_of(&sum, &torque);
    double side = peaks.side;
    double power = 2.0 * M_PI * full.spindle_speed * sum.torque_mean;
    double mean = hypot(sum.mean.x, sum.mean.y);
    near_scale(result.value[BITE_POWER_MEAN], power, power, within, i, "power_mean");
    near_scale(result.value[BITE_FORCE_SIDE_MEAN], mean, mean, within, i, "force_side_mean");
    near_scale(result.value[BITE_FORCE_TANGENTIAL_PEAK], peaks.tangential, peaks.tangential,
               peak_within, i, "tangential peak");
    near_scale(result.value[BITE_FORCE_SIDE_PEAK], side, side, peak_within, i, "side peak");
    near_scale(result.value[BITE_TORQUE_PEAK], torque, torque, peak_within, i, "torque peak");
    near_scale(result.value[BITE_FORCE_LIFT_PEAK], peaks.lift, side,
               peak_within + (leans ? 0.0 : sin(full.taper)), i, "lift peak");
}

/* At any taper, runout, helix and direction. */
START_TEST(a_stack_of_square_tools)
{
    uint64_t seed = 53;
    for (int i = 0; i < 12; i++) {
        bite_cut cut = chamfer(&seed);
        same_as_stack(&cut, 1, 5e-3, 0.01, i);
    }
}
END_TEST

/* The same in inside corners, from wide ones to such as the lower end hardly goes into or does not,
 * where it cuts through more than a quarter of a turn. */
START_TEST(a_stack_in_a_corner)
{
    static const double capacity[] = {20.0, 3.0, 1.5, 1.1, 1.02, 0.8};
    uint64_t seed = 57;
    for (int i = 0; i < 18; i++) {
        bite_cut cut = chamfer(&seed);
        bite_cut full = cut;
        bite_defaults_fill(&full);
        cut.inside_radius = capacity[i % 6] * bite_cut_cone(&full).small;
        same_as_stack(&cut, 1, 5e-3, 0.01, i);
    }
}
END_TEST

/* As the taper vanishes nothing leans any more: plain square tools, that are as wide at each
 * height. What is left at one degree is 1 - cos(1 deg) = 0.02 %, but in the lift, which is a small
 * part of the normal force times sin(1 deg). */
START_TEST(small_taper_is_square)
{
    uint64_t seed = 54;
    for (int i = 0; i < 8; i++) {
        bite_cut cut = chamfer(&seed);
        cut.taper = M_PI / 180.0;
        cut.diameter = 6e-3;
        cut.tip_diameter = 5.6e-3;
        cut.tip_below = 1e-3;
        cut.depth = bite_test_decades(&seed, 0.5e-3, 10e-3);
        cut.stickout = 40e-3;
        cut.feed_rate = 0.02e-3 * cut.flutes * cut.spindle_speed;
        cut.helix = i % 2 ? 0.0 : bite_test_between(&seed, -0.6, 0.6);
        same_as_stack(&cut, 0, 5e-3, 0.01, i);
    }
}
END_TEST

/* ---- trends ---- */

START_TEST(deeper_is_harder)
{
    static const bite_value_id grow[] = {BITE_FORCE_TANGENTIAL_PEAK, BITE_FORCE_SIDE_PEAK,
                                         BITE_TORQUE_PEAK,           BITE_POWER_MEAN,
                                         BITE_REMOVAL_RATE,          BITE_SURFACE_SPEED};
    bite_cut cut = plain();
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

/* A tip set deeper cuts with a thicker part of the cone: faster, at either end, and its marks are
 * lower. */
START_TEST(deeper_tip_runs_faster)
{
    bite_cut cut = plain();
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

/* Straight flutes and no runout: climb and conventional are mirrored. Tangential forces, torque,
 * power and lift are alike; so is the side force of one tooth, all of whose edge then stands at one
 * angle; and the mean one where tangential and radial are spread alike over the arc, which edge
 * forces are not. */
START_TEST(climb_mirrors_conventional)
{
    static const bite_value_id like[] = {BITE_FORCE_TANGENTIAL_PEAK, BITE_FORCE_LIFT_PEAK,
                                         BITE_TORQUE_PEAK,           BITE_POWER_MEAN,
                                         BITE_FORCE_SIDE_PEAK,       BITE_FORCE_SIDE_MEAN};
    uint64_t seed = 55;
    for (int i = 0; i < 200; i++) {
        bite_cut cut = chamfer(&seed);
        cut.helix = 0.0;
        cut.runout = 0.0;
        cut.flutes = 1.0 + i % 4; /* a quarter turn apart: one touches */
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

/* Marks of the feed, square to the face, where the cone is thinnest: the drop of a circle of
 * r/cos(taper) over half a feed. */
START_TEST(marks_are_those_of_the_thin_end)
{
    bite_cut cut = plain();
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

/* The thin end rubs first: judged a quarter up, where the arc is acos(r_b/r) and the chip fz sin of
 * it, thinned by the slope. */
START_TEST(thin_end_rubs)
{
    bite_cut cut = plain();
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

/* The shaft begins at the load, on the cone: stiffer than one as thin as the cone is there, softer
 * than one as thick as the tool.
 */
START_TEST(cone_bends_between_its_ends)
{
    bite_cut cut = plain();
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

/* ---- rows and refusals ---- */

/* The cone's lower end goes into the corner, not the tool; both radii pass a slot. */
START_TEST(goes_in_with_its_thin_end)
{
    bite_cut cut = plain();
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
    cut.wall_thickness = (double)NAN; /* a floor would be asked of a chamfer too */
    ck_assert_uint_eq(bite_test_pass(&cut).limits[BITE_LIMIT_PART_BEND].why, BITE_WHY_NOT_GIVEN);
    bite_assert_near(result.limits[BITE_LIMIT_REACH].demand, 1.25 * cut.depth, 1e-12);
    bite_assert_near(result.limits[BITE_LIMIT_REACH].capacity, 2.7e-3, 1e-12);
    cut.inside_radius = 0.9 * cone.small - cut.tolerance;
    ck_assert_uint_eq(bite_test_pass(&cut).limits[BITE_LIMIT_CORNER].verdict, BITE_OVER);
}
END_TEST

/* A narrower corner strains the tool more, and a wide one is a straight edge. */
START_TEST(narrower_corner_is_harder)
{
    bite_cut cut = plain();
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

/* A straight flute stands along the face when it finishes it: its edge's push, times what the tool
 * yields. */
START_TEST(face_yields_to_the_edge)
{
    for (int side = 0; side < 2; side++) {
        bite_cut cut = plain();
        cut.side = side ? BITE_CLIMB : BITE_CONVENTIONAL;
        cut.flutes = 1.0;
        cut.helix = 0.0;
        bite_cut full = cut;
        bite_pressure pressure;
        bite_defaults_fill(&full);
        ck_assert(bite_cut_pressure(&full, &pressure));
        double push =
            pressure.edge_radial * full.depth; /* its normal leans as much as its edge is longer */
        bite_tool_body tool = bite_cut_tool_body(&full);
        bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
        bite_result result = bite_test_pass(&cut);
        bite_assert_near(value(&result, BITE_WALL_ERROR), push * deflection.compliance, 1e-5);
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
    bite_cut cut = plain();
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

START_TEST(way_in_is_from_beside)
{
    bite_cut cut = plain();
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    cut.entry = BITE_ENTRY_RAMP;
    ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OUT_OF_RANGE);
    ck_assert_str_eq(error.key, "entry");
    ck_assert_str_ne(error.hint, "");
}
END_TEST

/* The largest cone that the tool has is reached to the last: a hair more is not. */
START_TEST(whole_cone_is_reached)
{
    bite_cut cut = plain();
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
    TCase *chamfer_case = tcase_create("chamfer");
    tcase_add_test(chamfer_case, removes_a_triangle);
    tcase_add_test(chamfer_case, power_and_energy_close);
    tcase_add_test(chamfer_case, a_stack_of_square_tools);
    tcase_add_test(chamfer_case, small_taper_is_square);
    tcase_add_test(chamfer_case, deeper_is_harder);
    tcase_add_test(chamfer_case, deeper_tip_runs_faster);
    tcase_add_test(chamfer_case, climb_mirrors_conventional);
    tcase_add_test(chamfer_case, marks_are_those_of_the_thin_end);
    tcase_add_test(chamfer_case, thin_end_rubs);
    tcase_add_test(chamfer_case, cone_bends_between_its_ends);
    tcase_add_test(chamfer_case, goes_in_with_its_thin_end);
    tcase_add_test(chamfer_case, narrower_corner_is_harder);
    tcase_add_test(chamfer_case, face_yields_to_the_edge);
    tcase_add_test(chamfer_case, a_stack_in_a_corner);
    tcase_add_loop_test(chamfer_case, refused_with_a_hint, 0,
                        (int)(sizeof refused / sizeof *refused));
    tcase_add_test(chamfer_case, way_in_is_from_beside);
    tcase_add_test(chamfer_case, whole_cone_is_reached);
    tcase_set_timeout(chamfer_case, 180);
    suite_add_tcase(suite, chamfer_case);
    return bite_test_run(suite);
}
