/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths at 20 degC and the force of gauges. */
#include "core/physics/measurement/gauge_contact.h"
#include "core/physics/measurement/length_correction.h"
#include "tests/support/support.h"
#include <math.h>

/* An acrylic part of 100 mm by a steel gauge, both warm. */
static bite_length_reading warm_part(void)
{
    const bite_length_reading reading = {.length = 0.1,
                                         .part_expansion = 70e-6,
                                         .part_temperature = 299.15,
                                         .gauge_expansion = 11.5e-6,
                                         .gauge_temperature = 299.15,
                                         .length_uncertainty = 2e-6,
                                         .part_expansion_uncertainty = 7e-6,
                                         .gauge_expansion_uncertainty = 1e-6,
                                         .temperature_uncertainty = 0.5};
    return reading;
}

/* The gauge grows with the part and hides what is common to both. */
START_TEST(a_gauge_that_is_as_warm_as_the_part)
{
    bite_length_reading reading = warm_part();
    ck_assert_double_eq_tol(bite_length_at_reference(&reading), 0.1 * (1.0 - 6.0 * 58.5e-6), 1e-15);
    reading.gauge_expansion = reading.part_expansion;
    ck_assert_double_eq_tol(bite_length_at_reference(&reading), 0.1, 1e-16);
    reading.gauge_expansion = 0.0;
    ck_assert_double_eq_tol(bite_length_at_reference(&reading), 0.099958, 1e-15);
}
END_TEST

/* The first-order uncertainty against differences of the corrected length. */
START_TEST(uncertainty_from_small_changes)
{
    bite_length_reading reading = warm_part();
    double *const inputs[] = {&reading.length, &reading.part_expansion, &reading.gauge_expansion,
                              &reading.part_temperature, &reading.gauge_temperature};
    const double uncertain[] = {reading.length_uncertainty, reading.part_expansion_uncertainty,
                                reading.gauge_expansion_uncertainty,
                                reading.temperature_uncertainty, reading.temperature_uncertainty};
    double before = bite_length_at_reference(&reading);
    double sum = 0.0;
    for (int i = 0; i < 5; i++) {
        double old = *inputs[i];
        *inputs[i] = old + uncertain[i];
        double change = bite_length_at_reference(&reading) - before;
        sum += change * change;
        *inputs[i] = old;
    }
    ck_assert_double_eq_tol(bite_length_uncertainty(&reading), sqrt(sum), 1e-9);
    ck_assert_double_eq_tol(bite_length_uncertainty(&reading), 5.87e-6, 0.05e-6);
}
END_TEST

/* A rigid ball of 3 mm on acrylic (E 3.2 GPa, n 0.37), computed from the stated form; and the
 * pressure at the dent's onset. */
START_TEST(a_ball_on_acrylic)
{
    const double force[] = {0.05, 0.1, 0.5, 1.0, 2.0};
    const double depth[] = {0.41e-6, 0.65e-6, 1.9e-6, 3.0e-6, 4.8e-6};
    double modulus = bite_contact_modulus(3.2e9, 0.37, (double)INFINITY, 0.3);
    for (int i = 0; i < 5; i++) {
        ck_assert_double_eq_tol(bite_contact_ball_depth(force[i], 1.5e-3, modulus), depth[i],
                                0.06e-6);
    }
    ck_assert(bite_contact_modulus(3.2e9, 0.37, 210e9, 0.3) < modulus);
    double dent = bite_contact_ball_dent(1.5e-3, modulus, 70e6);
    double pressure = cbrt(6.0 * dent * modulus * modulus / (pow(M_PI, 3.0) * 2.25e-6));
    ck_assert_double_eq_tol(pressure / 70e6, 1.6, 1e-12);
    ck_assert_double_eq_tol(dent, 1.2, 0.1); /* of the order of a dial gauge's force */
}
END_TEST

/* A strip of acrylic 100 mm x 20 mm x 1.5 mm: 1.16 mm/N and 0.025 mm under its weight (computed).
 */
START_TEST(a_strip_on_two_supports)
{
    ck_assert_double_eq_tol(bite_strip_deflection(1.0, 0.1, 0.02, 1.5e-3, 3.2e9), 1.157e-3, 1e-6);
    ck_assert_double_eq_tol(bite_strip_sag(0.1, 1.5e-3, 3.2e9, 1190.0), 0.0253e-3, 1e-7);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("measurement");
    TCase *tests = tcase_create("measurement");
    tcase_add_test(tests, a_gauge_that_is_as_warm_as_the_part);
    tcase_add_test(tests, uncertainty_from_small_changes);
    tcase_add_test(tests, a_ball_on_acrylic);
    tcase_add_test(tests, a_strip_on_two_supports);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
