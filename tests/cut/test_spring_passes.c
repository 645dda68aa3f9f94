/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spring passes of a side cut: what is left after them, and what they do not change. */
#include "core/names/registry.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdint.h>

static bite_cut side_cut(uint64_t *seed)
{
    bite_cut cut = bite_test_cut(seed);
    cut.width = cut.diameter * bite_test_decades(seed, 0.02, 0.5);
    cut.tolerance = bite_test_decades(seed, 10e-6, 300e-6);
    return cut;
}

static double wall_of(const bite_cut *cut, const bite_result *result)
{
    return result->values[cut->side == BITE_CLIMB ? BITE_WALL_CLIMB : BITE_WALL_CONVENTIONAL].value;
}

static bite_result after(const bite_cut *cut, double laps)
{
    bite_cut sprung = *cut;
    sprung.spring_passes = laps;
    return bite_test_pass(&sprung);
}

/* The second lap leaves what a cut of the width that the first one left leaves; what a lap cuts too
 * deep stays, and so does what is thinner than a chip. */
START_TEST(second_lap_is_a_cut_of_what_is_left)
{
    const double least = bite_input_find("width")->least;
    uint64_t seed = 7;
    int gained = 0;
    for (int i = 0; i < 400; i++) {
        bite_cut cut = side_cut(&seed);
        cut.runout = i % 2 ? 0.0 : cut.runout; /* it hides much of what springs back */
        bite_result one = bite_test_pass(&cut);
        bite_result two = after(&cut, 1.0);
        double first = wall_of(&cut, &one);
        double thinnest = one.values[BITE_CHIP_THICKNESS_LEAST].value;
        bite_cut light = cut;
        light.width = fmin(cut.width, fmax(least, first));
        bite_result lap = bite_test_pass(&light);
        double expected = wall_of(&light, &lap);
        expected = expected > 0.0 ? fmax(expected, fmin(first, thinnest)) : expected;
        expected = fmin(first, expected);
        bite_assert_near(wall_of(&cut, &two), expected, 1e-6);
        bite_assert_near(two.limits[BITE_LIMIT_DEFLECTION].demand, fabs(expected), 1e-6);
        gained += fabs(expected) < 0.5 * fabs(first);
    }
    ck_assert_int_gt(gained, 20);
}
END_TEST

/* Forces, heat and every other limit are those of the first lap, which is the heaviest. */
START_TEST(nothing_else_changes)
{
    uint64_t seed = 8;
    for (int i = 0; i < 100; i++) {
        bite_cut cut = side_cut(&seed);
        bite_result one = bite_test_pass(&cut);
        bite_result two = after(&cut, 2.0);
        for (int id = 0; id < BITE_VALUE_COUNT; id++) {
            int wall =
                id == BITE_WALL_ERROR || id == BITE_WALL_CLIMB || id == BITE_WALL_CONVENTIONAL;
            double a = one.values[id].value;
            double b = two.values[id].value;
            ck_assert(wall || a == b || (isnan(a) && isnan(b)));
        }
        for (int id = 0; id < BITE_LIMIT_COUNT; id++) {
            ck_assert(id == BITE_LIMIT_DEFLECTION || one.limits[id].applies == 0 ||
                      one.limits[id].demand == two.limits[id].demand);
        }
        ck_assert_double_le(wall_of(&cut, &two), wall_of(&cut, &one));
    }
}
END_TEST

/* A thin wall gives way beside the tool: less after a spring pass, for its force is less. */
START_TEST(thin_wall_springs_back_too)
{
    uint64_t seed = 9;
    int gained = 0;
    for (int i = 0; i < 200; i++) {
        bite_cut cut = side_cut(&seed);
        cut.wall_thickness = fmax(10e-6, cut.diameter * bite_test_decades(&seed, 0.05, 1.0));
        cut.wall_height = fmax(10e-6, cut.depth * bite_test_decades(&seed, 1.0, 5.0));
        cut.modulus = 3e9;
        cut.poisson = 0.35;
        bite_result one = bite_test_pass(&cut);
        bite_result two = after(&cut, 1.0);
        double first = one.limits[BITE_LIMIT_PART_BEND].demand;
        ck_assert(one.limits[BITE_LIMIT_PART_BEND].applies);
        gained += two.limits[BITE_LIMIT_PART_BEND].demand < 0.8 * first;
    }
    ck_assert_int_gt(gained, 20);
}
END_TEST

/* A slot finishes two walls at once, and a second lap meets neither with the feed of a side cut. */
START_TEST(slot_has_no_spring_pass)
{
    uint64_t seed = 10;
    bite_cut cut = side_cut(&seed);
    cut.width = (double)NAN;
    bite_assert_near(after(&cut, 2.0).values[BITE_WALL_ERROR].value,
                     bite_test_pass(&cut).values[BITE_WALL_ERROR].value, 0.0);
    static const double odd[] = {0.5, -1.0, 4.0, INFINITY};
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_result result = {0};
        bite_cut sprung = side_cut(&seed);
        result.struct_size = (uint32_t)sizeof result;
        sprung.spring_passes = odd[i];
        ck_assert_int_eq(bite_cut_pass(&sprung, &result, &error), BITE_OUT_OF_RANGE);
        ck_assert_str_eq(error.key, "spring_passes");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("spring passes");
    TCase *springs = tcase_create("spring passes");
    tcase_add_test(springs, second_lap_is_a_cut_of_what_is_left);
    tcase_add_test(springs, nothing_else_changes);
    tcase_add_test(springs, thin_wall_springs_back_too);
    tcase_add_test(springs, slot_has_no_spring_pass);
    tcase_set_timeout(springs, 120);
    suite_add_tcase(suite, springs);
    return bite_test_run(suite);
}
