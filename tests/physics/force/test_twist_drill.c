/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a twist drill, worked by hand. */
#include "core/physics/force/twist_drill.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

#define DEG (M_PI / 180.0)

/* K 2000 and Kr 600 N/mm2, Ke 20 and Kre 24 N/mm. */
static const bite_pressure pressure = {2000e6, 600e6, 0.0, 20e3, 24e3, 0.0, 0.0};

/* 6 mm with two lips, 118 deg, 0.05 mm for each lip, a runout of 0.02 mm: sin 59 deg = 0.8571673. A
 * lip is 3/0.8571673 = 3.4999003 mm long, its chip 50 x 0.8571673 = 42.858365 um thick, that of the
 * one ahead 70 x 0.8571673 = 60.001711 um. Along the lip 2000 x 0.05 x 3 + 20 x 3.4999003 =
 * 369.998007 N, across it 600 x 0.05 x 3 + 24 x 3.4999003 = 173.997608 N. Both lips: a torque of 2
 * x 369.998007 N x 1.5 mm, and a thrust of 2 x 173.997608 x 0.8571673 N, doubled by the chisel
 * edge. What one lip cuts more, 20 um, pushes it aside by 2000 x 0.02 x 3 = 120 N. */
START_TEST(forces_match_a_hand_calculation)
{
    bite_drill_shape shape = {6e-3, 2.0, 118.0 * DEG, 0.02e-3};
    bite_drill drill;
    bite_drill_forces(&shape, 0.05e-3, &pressure, &drill);
    bite_assert_near(drill.lip, 3.4999003e-3, 1e-7);
    bite_assert_near(drill.chip, 42.858365e-6, 1e-7);
    bite_assert_near(drill.heavy_chip, 60.001711e-6, 1e-7);
    bite_assert_near(drill.tangential, 739.996014, 1e-7);
    bite_assert_near(drill.torque, 1.109994021, 1e-7);
    bite_assert_near(drill.thrust, 596.580240, 1e-7);
    bite_assert_near(drill.side, 120.0, 1e-12);
}
END_TEST

/* One lip cuts all of it, and nothing balances it, whatever its runout: its chip is the feed, and
 * 2000 x 0.05 x 3 = 300 N push aside. Of three lips one is ahead of the next by the runout times
 * sin 60 deg; no more than the feed if that is less. */
START_TEST(runout_makes_one_lip_cut_more)
{
    bite_drill_shape one = {6e-3, 1.0, 118.0 * DEG, 0.02e-3};
    bite_drill_shape three = {6e-3, 3.0, 118.0 * DEG, 0.02e-3};
    bite_drill drill;
    bite_drill_forces(&one, 0.05e-3, &pressure, &drill);
    bite_assert_near(drill.heavy_chip, 42.858365e-6, 1e-7);
    bite_assert_near(drill.side, 300.0, 1e-12);
    bite_assert_near(bite_drill_step(&three, 0.05e-3), 17.3205081e-6, 1e-8);
    bite_assert_near(bite_drill_step(&three, 0.01e-3), 0.01e-3, 1e-12);
}
END_TEST

/* The cut has 120 N for 0.02 mm, 6 N/um, and a drill of 0.1 um/N gives way by 10 N/um: in series
 * the runout leaves 0.02 mm/(1/6 + 1/10) um/N = 75 N. A drill with one lip, or without runout, has
 * no centre to return to. */
START_TEST(a_drill_that_gives_way_centres_itself)
{
    bite_drill_shape two = {6e-3, 2.0, 118.0 * DEG, 0.02e-3};
    bite_drill_shape one = {6e-3, 1.0, 118.0 * DEG, 0.02e-3};
    bite_drill_shape true_one = {6e-3, 2.0, 118.0 * DEG, 0.0};
    bite_assert_near(bite_drill_side_left(&two, 120.0, 0.1e-6), 75.0, 1e-12);
    ck_assert_double_eq(bite_drill_side_left(&one, 300.0, 0.1e-6), 300.0);
    ck_assert_double_eq(bite_drill_side_left(&true_one, 0.0, 0.1e-6), 0.0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("twist drill");
    TCase *tests = tcase_create("twist drill");
    tcase_add_test(tests, forces_match_a_hand_calculation);
    tcase_add_test(tests, runout_makes_one_lip_cut_more);
    tcase_add_test(tests, a_drill_that_gives_way_centres_itself);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
