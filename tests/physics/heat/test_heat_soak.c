/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat soak over laps against integrations of its equations. */
#include "core/physics/heat/heat_soak.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* The next number of a seed between two bounds. */
static double between(uint64_t *seed, double low, double high)
{
    return bite_test_between(seed, low, high);
}

/* C dT/dt = P - G T by Runge-Kutta of the fourth order. */
static double integrate(const bite_soak_body *body, double rise, double power, double time)
{
    const int steps = 400;
    const double step = time / steps;
    for (int i = 0; i < steps; i++) {
        double k[4];
        double at = rise;
        for (int n = 0; n < 4; n++) {
            k[n] = (power - body->conductance * at) / body->capacity;
            at = rise + (n == 2 ? 1.0 : 0.5) * step * k[n];
        }
        rise += step / 6.0 * (k[0] + 2.0 * k[1] + 2.0 * k[2] + k[3]);
    }
    return rise;
}

/* Laps and pauses, one after the other. */
START_TEST(laps_and_pauses_match_an_integration)
{
    uint64_t seed = 7;
    for (int i = 0; i < 200; i++) {
        bite_soak_body body = {between(&seed, 1.0, 200.0),
                               i % 5 == 0 ? 0.0 : between(&seed, 0.01, 5.0)};
        double power = between(&seed, 0.5, 60.0);
        double lap = between(&seed, 0.5, 40.0);
        double pause = i % 3 == 0 ? 0.0 : between(&seed, 0.1, 60.0);
        double start = between(&seed, 0.0, 10.0);
        int laps = 1 + i % 9;
        double rise = start;
        for (int n = 0; n < laps; n++) {
            rise = integrate(&body, rise, power, lap);
            if (n + 1 < laps) {
                rise = integrate(&body, rise, 0.0, pause);
            }
        }
        bite_assert_near(bite_soak_laps(&body, start, power, lap, pause, laps), rise, 1e-6);
        /* steady at last: P/G times the share of the time that is cut */
        if (body.conductance > 0.0) {
            bite_assert_near(bite_soak_step(&body, start, power, 1e7), power / body.conductance,
                             1e-9);
        }
    }
}
END_TEST

/* A strip across a path, heated over a width for a time, by explicit differences: its highest
 * temperature times the width of a zone with as much heat. */
START_TEST(the_warm_zone_matches_a_strip)
{
    enum { CELLS = 1200 };
    static double t[CELLS];
    static double next[CELLS];
    const double width = 3e-3;
    static const double spreads[] = {0.05, 0.3, 1.0, 3.0, 6.0}; /* sqrt(4 pi a t)/width */
    for (size_t i = 0; i < 5; i++) {
        const double diffusivity = 1e-7;
        const double time = pow(spreads[i] * width, 2.0) / (4.0 * M_PI * diffusivity);
        const double cell = width * (spreads[i] > 2.0 ? 1.0 / 40.0 : 1.0 / 100.0);
        const int steps = (int)ceil(time * diffusivity / (0.25 * cell * cell));
        const double share = diffusivity * time / steps / (cell * cell);
        for (int k = 0; k < CELLS; k++) {
            t[k] = 0.0;
        }
        for (int n = 0; n < steps; n++) { /* a unit of heat in all; the middle is mirrored */
            for (int k = 0; k < CELLS; k++) {
                double left = t[k == 0 ? 0 : k - 1];
                double right = t[k + 1 < CELLS ? k + 1 : k];
                double source = (k + 0.5) * cell < 0.5 * width ? 1.0 / (width * steps) : 0.0;
                next[k] = t[k] + share * (left - 2.0 * t[k] + right) + source;
            }
            for (int k = 0; k < CELLS; k++) {
                t[k] = next[k];
            }
        }
        double model = 1.0 / bite_soak_width(width, diffusivity, time);
        ck_assert_msg(fabs(model / t[0] - 1.0) < 0.12, "spread %g: %g of the strip's middle",
                      spreads[i], model / t[0]);
    }
}
END_TEST

/* More pause, more conductance, a larger body: less warm. */
START_TEST(every_way_of_cooling_cools)
{
    uint64_t seed = 11;
    for (int i = 0; i < 1000; i++) {
        bite_soak_body body = {between(&seed, 1.0, 200.0), between(&seed, 0.01, 5.0)};
        bite_soak_body large = {1.3 * body.capacity, body.conductance};
        bite_soak_body cool = {body.capacity, 1.3 * body.conductance};
        double lap = between(&seed, 0.5, 40.0);
        double pause = between(&seed, 0.0, 60.0);
        double rise = bite_soak_laps(&body, 1.0, 10.0, lap, pause, 5.0);
        ck_assert_double_le(bite_soak_laps(&large, 0.0, 10.0, lap, pause, 5.0),
                            bite_soak_laps(&body, 0.0, 10.0, lap, pause, 5.0) * (1.0 + 1e-12));
        ck_assert_double_lt(bite_soak_laps(&cool, 1.0, 10.0, lap, pause, 5.0), rise);
        ck_assert_double_le(bite_soak_laps(&body, 1.0, 10.0, lap, pause + 5.0, 5.0), rise);
        ck_assert_double_gt(bite_soak_laps(&body, 1.0, 12.0, lap, pause, 5.0), rise);
        ck_assert_double_ge(
            bite_soak_laps(&body, 1.0, 10.0, lap, 0.0, 6.0),
            fmin(bite_soak_laps(&body, 1.0, 10.0, lap, 0.0, 5.0), 10.0 / body.conductance) *
                (1.0 - 1e-12));
    }
    /* two layers of tape, 0.26 mm at 0.2 W/m/K, under 2 mm of acrylic, 0.19 W/m/K */
    bite_assert_near(bite_soak_contact(2e-3, 0.19, 0.26e-3 / 0.2),
                     1.0 / (1e-3 / 0.19 + 0.26e-3 / 0.2), 1e-12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("heat soak");
    TCase *tests = tcase_create("heat soak");
    tcase_add_test(tests, laps_and_pauses_match_an_integration);
    tcase_add_test(tests, the_warm_zone_matches_a_strip);
    tcase_add_test(tests, every_way_of_cooling_cools);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
