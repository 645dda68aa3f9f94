/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A groove engraved with a cone: against sums over its slices. */
#include "core/physics/elastic/stepped_shaft.h"
#include "core/physics/force/v_groove.h"
#include "tests/oracle/closed_forms/groove_tip.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

#define CUTS 200
#define SLICES 4000

static bite_cut groove_of(uint64_t *seed)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = bite_test_decades(seed, 1e-3, 6e-3);
    cut.taper = bite_test_between(seed, 0.2, 1.0);
    cut.tip_diameter = cut.diameter * bite_test_decades(seed, 0.02, 0.4);
    double cone = 0.5 * (cut.diameter - cut.tip_diameter) / tan(cut.taper);
    cut.depth = cone * bite_test_decades(seed, 0.02, 0.99);
    cut.flutes = floor(bite_test_between(seed, 1.0, 4.0));
    cut.feed_rate =
        cut.diameter * bite_test_decades(seed, 0.001, 0.02) * cut.flutes * cut.spindle_speed;
    cut.runout = 0.0;
    cut.rake = 0.0;
    cut.edge_radius = 1e-6;
    cut.minimum_chip = 0.01;
    cut.stickout = cone + 10e-3;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = bite_test_decades(seed, 40e6, 2e9);
    cut.pressure_r = 0.3 * cut.pressure_t;
    cut.edge_t = bite_test_decades(seed, 100.0, 40e3);
    cut.edge_r = cut.edge_t;
    cut.edge_reference = cut.edge_radius;
    cut.substance = BITE_METAL;
    return cut;
}

static double value_of(const bite_result *result, bite_value_id id)
{
    return result->values[id].value;
}

/* Each slice is a full slot of its own diameter: its mean power is K times its removal rate and Ke
 * times the edge's way in the cut, which is longer by the slope of the edge. */
START_TEST(power_and_section_are_the_sum_of_slots)
{
    uint64_t seed = 7;
    for (int i = 0; i < CUTS; i++) {
        bite_cut cut = groove_of(&seed);
        bite_result result = bite_test_pass(&cut);
        double section = 0.0;
        double power = 0.0;
        double rise = cut.depth / SLICES;
        for (int k = 0; k < SLICES; k++) {
            double wide = cut.tip_diameter + 2.0 * (k + 0.5) * rise * tan(cut.taper);
            double speed = M_PI * wide * cut.spindle_speed;
            section += wide * rise;
            power += cut.pressure_t * wide * rise * cut.feed_rate +
                     cut.edge_t * rise / cos(cut.taper) * speed * 0.5 * cut.flutes;
        }
        bite_assert_near(value_of(&result, BITE_REMOVAL_RATE), section * cut.feed_rate, 1e-9);
        bite_assert_near(value_of(&result, BITE_POWER_MEAN), power, 1e-6);
    }
}
END_TEST

/* The chip at the middle of the slot is the feed of a tooth by the slope of the edge; the speed is
 * that at the surface. */
START_TEST(chip_and_speed_follow_the_cone)
{
    uint64_t seed = 8;
    for (int i = 0; i < CUTS; i++) {
        bite_cut cut = groove_of(&seed);
        bite_result result = bite_test_pass(&cut);
        double feed = cut.feed_rate / (cut.flutes * cut.spindle_speed);
        double wide = cut.tip_diameter + 2.0 * cut.depth * tan(cut.taper);
        bite_assert_near(value_of(&result, BITE_CHIP_THICKNESS_MAX), feed * cos(cut.taper), 1e-12);
        bite_assert_near(value_of(&result, BITE_SURFACE_SPEED), M_PI * wide * cut.spindle_speed,
                         1e-12);
    }
}
END_TEST

/* As the taper vanishes the groove is a slot of the tip's width. */
START_TEST(small_taper_is_a_slot)
{
    uint64_t seed = 9;
    for (int i = 0; i < CUTS; i++) {
        bite_cut cut = groove_of(&seed);
        cut.taper = 0.05;
        cut.depth = 0.1e-3;
        cut.tip_diameter = 0.9 * cut.diameter;
        cut.stickout = cut.diameter / cut.taper + 10e-3;
        cut.helix = 0.0;
        bite_cut square = cut;
        square.taper = square.tip_diameter = (double)NAN;
        square.diameter = cut.tip_diameter + cut.depth * tan(cut.taper);
        bite_result groove = bite_test_pass(&cut);
        bite_result slot = bite_test_pass(&square);
        bite_assert_near(value_of(&groove, BITE_REMOVAL_RATE), value_of(&slot, BITE_REMOVAL_RATE),
                         1e-9);
        bite_assert_near(value_of(&groove, BITE_TORQUE_PEAK), value_of(&slot, BITE_TORQUE_PEAK),
                         5e-3);
        bite_assert_near(value_of(&groove, BITE_FORCE_SIDE_PEAK),
                         value_of(&slot, BITE_FORCE_SIDE_PEAK), 1e-2);
    }
}
END_TEST

/* Bending, torsion and both together. */
START_TEST(tip_stress_is_the_largest_over_the_cone)
{
    uint64_t seed = 10;
    for (int i = 0; i < CUTS; i++) {
        bite_cut cut = groove_of(&seed);
        bite_groove groove = {cut.depth, cut.taper, cut.tip_diameter};
        double slope = tan(cut.taper);
        double core = 0.7;
        double whole = 0.5 * (cut.diameter - cut.tip_diameter) / slope;
        double side = 3.0;
        double torque = 0.5 * side * bite_groove_mean_diameter(&groove);
        double bent = 0.0;
        double twisted = 0.0;
        double both = 0.0;
        double arms = groove.tip_diameter * groove.depth + slope * groove.depth * groove.depth;
        for (int k = 1; k <= SLICES; k++) {
            double z = whole * k / SLICES;
            double in = fmin(z, groove.depth);
            double moment = side / groove.depth * in * (z - 0.5 * in);
            double turn = torque * (groove.tip_diameter * in + slope * in * in) / arms;
            double wide = core * (groove.tip_diameter + 2.0 * z * slope);
            double cube = M_PI * wide * wide * wide;
            bent = fmax(bent, 32.0 * moment / cube);
            twisted = fmax(twisted, 16.0 * turn / cube);
            both =
                fmax(both, bite_shaft_combined_stress(32.0 * moment / cube, 16.0 * turn / cube, 0));
        }
        bite_assert_near(bite_groove_tip_stress(&groove, cut.diameter, core, 0.0, torque, 0),
                         twisted, 3e-3);
        bite_assert_near(bite_groove_tip_stress(&groove, cut.diameter, core, side, 0.0, 0), bent,
                         3e-3);
        bite_assert_near(bite_groove_tip_stress(&groove, cut.diameter, core, side, torque, 0), both,
                         3e-3);
    }
}
END_TEST

/* What follows from the cone is refused in another way too. */
START_TEST(contradictions_are_refused)
{
    static const struct {
        const char *input;
        double value;
        const char *key;
    } wrong[] = {{"width", 0.1e-3, "width"},
                 {"feature_width", 0.5e-3, "feature_width"},
                 {"corner_radius", 0.1e-3, "corner_radius"},
                 {"depth", 20e-3, "depth"}};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        uint64_t seed = 11;
        bite_cut cut = groove_of(&seed);
        cut.stickout = 40e-3;
        bite_error error = BITE_ERROR_INIT;
        bite_result result = {.struct_size = (uint32_t)sizeof result};
        const bite_input *input = bite_input_find(wrong[i].input);
        *(double *)(void *)((char *)&cut + input->offset) = wrong[i].value;
        ck_assert_int_eq(bite_cut_pass(&cut, &result, &error), BITE_OUT_OF_RANGE);
        ck_assert_str_eq(error.key, wrong[i].key);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("groove");
    TCase *tests = tcase_create("groove");
    tcase_add_test(tests, power_and_section_are_the_sum_of_slots);
    tcase_add_test(tests, chip_and_speed_follow_the_cone);
    tcase_add_test(tests, small_taper_is_a_slot);
    tcase_add_test(tests, tip_stress_is_the_largest_over_the_cone);
    tcase_add_test(tests, contradictions_are_refused);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
