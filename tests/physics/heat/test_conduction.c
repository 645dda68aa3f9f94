/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shares and rises of conduction against sums that are taken another way. */
#include "core/physics/heat/conduction.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* Weiner's closed form in long double, whose terms cancel to fewer digits, from Y = x/4 of 0.000025
 * on, which is far below where the engine changes to its series; and the limits 1 - (8/3)
 * sqrt(Y/pi) and 1/x. */
static long double weiner(long double x)
{
    long double y = 0.25L * x;
    long double root = sqrtl(y);
    return erfl(root) / (4.0L * y) + (1.0L + y) * erfcl(root) -
           expl(-y) / sqrtl(3.14159265358979323846L) * (0.5L / root + root);
}

START_TEST(shear_heat_of_any_speed)
{
    for (double x = 1e-4; x < 400.0; x *= 1.3) {
        bite_assert_near(bite_conduction_weiner(x), (double)weiner(x), 1e-12);
    }
    bite_assert_near(bite_conduction_weiner(4e-10), 1.0 - 8.0 / 3.0 * sqrt(1e-10 / M_PI), 1e-9);
    bite_assert_near(bite_conduction_weiner(1e4), 1e-4, 1e-12);
    bite_assert_near(bite_conduction_weiner(400.0), 1.0 / 400.0, 1e-12);
}
END_TEST

/* A line source of power Q that runs through a thin plate of thickness d at a speed v so fast that
 * heat only flows sideways leaves Q/(v d rho c sqrt(4 pi a t)) exp(-y^2/(4 a t)) at a distance y:
 * its highest value over the time t, looked for in steps. */
START_TEST(peak_beside_a_cut_through_a_plate)
{
    const double power = 40.0;
    const double speed = 0.02;
    const double thickness = 3e-3;
    const double conductivity = 0.19;
    const double diffusivity = 1.1e-7;
    for (double y = 0.2e-3; y < 3e-3; y *= 2.0) {
        double most = 0.0;
        for (double t = 1e-3 * y * y / diffusivity; t < 50.0 * y * y / diffusivity; t *= 1.0005) {
            double spread = 4.0 * diffusivity * t;
            double rise = power / (speed * thickness * conductivity / diffusivity) /
                          sqrt(M_PI * spread) * exp(-y * y / spread);
            most = fmax(most, rise);
        }
        bite_assert_near(
            bite_conduction_plate_peak(power, speed, thickness, conductivity, diffusivity, y), most,
            1e-6);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("conduction");
    TCase *tests = tcase_create("conduction");
    tcase_add_test(tests, shear_heat_of_any_speed);
    tcase_add_test(tests, peak_beside_a_cut_through_a_plate);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
