/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bonds of tape and glue: creep, warmth, cleavage, and three cases of the second edition's model.
 */
#include "core/physics/holding/bond.h"
#include "core/physics/holding/workholding.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <gsl/gsl_sf_gamma.h>
#include <math.h>

#define MM 1e-3
#define MPA 1e6

static const double kelvin = 273.15;
static const double ringing = 1.1;

/* g = 0.3395 at m = 0.2; shares of the time in cut of one flute in a slot and of side cuts: the
 * column out_hold_steady_share of the independent model. */
START_TEST(steady_share_matches_the_independent_model)
{
    bite_assert_near(pow(bite_bond_steady_share(0.2, 1.0), 5.0), 0.3395, 1e-4);
    bite_assert_near(bite_bond_steady_share(0.2, 1.0), 0.8057, 1e-4);
    bite_assert_near(bite_bond_steady_share(0.2, 3.0), 0.8057, 1e-4);
    bite_assert_near(bite_bond_steady_share(0.2, 0.5), 0.7014, 1e-4);
    /* Y14: one flute, 0.3 of 2 mm wide; Y26: four, 0.4 of 8 mm; Y32: three, 0.5 of 10 mm */
    bite_assert_near(bite_bond_steady_share(0.2, acos(1.0 - 0.3) / (2.0 * M_PI)), 0.5329, 1e-4);
    bite_assert_near(bite_bond_steady_share(0.2, 4.0 * acos(1.0 - 0.1) / (2.0 * M_PI)), 0.6278,
                     1e-4);
    bite_assert_near(bite_bond_steady_share(0.2, 3.0 * acos(1.0 - 0.1) / (2.0 * M_PI)), 0.5927,
                     1e-4);
}
END_TEST

/* The mean over half a turn of sin^(1/m), summed. */
START_TEST(steady_share_is_the_mean_of_a_power)
{
    static const double exponents[] = {0.03, 0.1, 0.2, 0.4, 1.0};
    enum { N = 20000 };
    for (size_t i = 0; i < sizeof exponents / sizeof *exponents; i++) {
        double m = exponents[i];
        double sum = 0.0;
        for (int k = 0; k < N; k++) {
            sum += pow(sin(M_PI * (k + 0.5) / N), 1.0 / m);
        }
        bite_assert_near(bite_bond_steady_share(m, 0.7), pow(0.7 * sum / N, m), 1e-8);
    }
    for (double m = 1e-6 * 1.001; m < 1.0; m *= 1.07) { /* by the gamma function itself */
        double log_mean = gsl_sf_lngamma(0.5 / m + 0.5) - gsl_sf_lngamma(0.5 / m + 1.0);
        bite_assert_near(bite_bond_steady_share(m, 0.7),
                         exp(m * (log_mean - 0.5 * log(M_PI) + log(0.7))), 1e-13);
    }
    ck_assert_double_eq(bite_bond_steady_share(0.0, 0.1), 1.0); /* no creep: the peak counts */
    bite_assert_near(bite_bond_steady_share(1e-5, 0.5), 1.0, 1e-3);
    ck_assert_double_eq(bite_bond_force(5.0, 8.0, 0.5, ringing), 5.5);
    ck_assert_double_eq(bite_bond_force(3.0, 8.0, 0.5, ringing), 4.4);
}
END_TEST

START_TEST(strength_falls_with_time_and_warmth)
{
    bite_assert_near(bite_bond_strength_left(0.2, 60.0, 25.0, kelvin + 23.0), 1.0, 1e-12);
    bite_assert_near(bite_bond_strength_left(0.2, 60.0, 25.0, kelvin + 48.0), 0.5, 1e-12);
    bite_assert_near(bite_bond_strength_left(0.2, 60.0, 20.0, kelvin + 63.0), 0.25, 1e-12);
    bite_assert_near(bite_bond_strength_left(0.2, 1920.0, 25.0, kelvin + 23.0), 0.5, 1e-12);
    ck_assert_double_eq(bite_bond_strength_left(0.0, 1e5, (double)NAN, 400.0), 1.0);
    /* from seconds to days: a factor of seven in 4.3 decades */
    bite_assert_near(1.0 / bite_bond_strength_left(0.2, 60.0 * pow(10.0, 4.3), 25.0, kelvin + 23.0),
                     7.2, 0.01);
}
END_TEST

START_TEST(thin_plates_are_cleaved)
{
    /* by hand: (3200 MPa x 1.6^3 mm3 x 0.13 mm/(3 x 1 MPa))^0.25 = 4.88 mm */
    bite_assert_near(bite_bond_cleavage_length(1.6 * MM, 3200.0 * MPA, 1.0 * MPA, 0.13 * MM),
                     4.8818 * MM, 1e-4);
    /* on a stiff glue the height counts, and so it does if the part's modulus is not known */
    bite_assert_near(bite_bond_cleavage_length(1.6 * MM, 3200.0 * MPA, 1000.0 * MPA, 0.03 * MM),
                     1.6 * MM, 1e-12);
    bite_assert_near(bite_bond_cleavage_length(1.6 * MM, (double)NAN, 1.0 * MPA, 0.13 * MM),
                     1.6 * MM, 1e-12);
    ck_assert(isinf(bite_bond_cleavage_length(1.6 * MM, 3e9, (double)NAN, 0.13 * MM)));
}
END_TEST

/* A bond's layer in these cases. */
typedef struct tape {
    double strength; /* Pa, in shear and tension */
    double halving;  /* K */
    double thickness;
} tape;
static const tape double_tape = {0.24 * MPA, 25.0, 0.13 * MM};
static const tape two_masking_tapes = {0.12 * MPA, 20.0, 0.28 * MM};

typedef struct plate {
    double along; /* the shorter side */
    double across;
    double height;
    double modulus;
} plate;

static double use_of(const tape *layer, const plate *part, double peak, double lift, double share,
                     double time, double celsius)
{
    bite_workholding_load load = {
        bite_bond_force(0.0, peak, bite_bond_steady_share(0.2, share), ringing), ringing * lift,
        part->height, 0.5 * part->across};
    double length =
        bite_bond_cleavage_length(part->height, part->modulus, 1.0 * MPA, layer->thickness);
    bite_workholding_stress stress =
        bite_workholding_stresses(part->along, part->across, &load, length);
    double left = bite_bond_strength_left(0.2, time, layer->halving, kelvin + celsius);
    return bite_workholding_use(&stress, left * layer->strength, left * layer->strength);
}

/* 38 x 26 x 1.6 mm of acrylic on double-sided tape: 0.190 over a square of that area and 0.169 over
 * its sides for a minute, 0.356 for 8 min at 35 degC, chance 0.018. The first edition called the
 * same cut 24 % of F/(A 0.03 MPa), which makes a peak of 7.1 N; the lift, which is not stated, is
 * the one with which both uses come out. */
START_TEST(acrylic_on_double_tape)
{
    const plate part = {26.0 * MM, 38.0 * MM, 1.6 * MM, 3200.0 * MPA};
    double side = sqrt(part.along * part.across);
    const plate square = {side, side, part.height, part.modulus};
    const double peak = 0.24 * 0.03 * MPA * side * side;
    const double lift = 1.95;
    bite_assert_near(peak, 7.11, 1e-3);
    bite_assert_near(use_of(&double_tape, &square, peak, lift, 1.0, 60.0, 23.0), 0.190, 0.01);
    bite_assert_near(use_of(&double_tape, &part, peak, lift, 1.0, 60.0, 23.0), 0.169, 0.01);
    double warm = use_of(&double_tape, &part, peak, lift, 1.0, 480.0, 35.0);
    bite_assert_near(warm, 0.356, 0.01);
    /* a strength within a factor of two, and a force of 0.25 in its logarithm */
    bite_assert_near(bite_workholding_chance(warm, hypot(0.25, log(2.0) / 1.6448536269514722)),
                     0.018, 0.08);
}
END_TEST

/* 250 N of peak on 60 x 40 mm of aluminium: 2.8, which is the use of two masking tapes in a slot
 * without lift; the layer is not stated. */
START_TEST(heavy_cut_on_tape_is_over)
{
    const plate part = {40.0 * MM, 60.0 * MM, 6.35 * MM, 69e9};
    bite_assert_near(use_of(&two_masking_tapes, &part, 250.0, 0.0, 1.0, 60.0, 23.0), 2.8, 0.01);
}
END_TEST

/* Masking tape and glue under dry aluminium: 0.21 at 25 degC, 2.0 at 90 degC. Force and area are
 * not stated: their ratio is the model's, whatever they are. */
START_TEST(masking_tape_lets_go_hot)
{
    const plate part = {40.0 * MM, 60.0 * MM, 6.35 * MM, 69e9};
    double cold = use_of(&two_masking_tapes, &part, 20.0, 2.0, 0.5, 60.0, 25.0);
    double hot = use_of(&two_masking_tapes, &part, 20.0, 2.0, 0.5, 60.0, 90.0);
    bite_assert_near(hot / cold, 2.0 / 0.21, 0.01);
    bite_assert_near(hot / cold, exp2(65.0 / 20.0), 1e-12);
}
END_TEST

START_TEST(chance_follows_the_normal_distribution)
{
    bite_assert_near(bite_workholding_chance(1.0, 0.4), 0.5, 1e-12);
    bite_assert_near(bite_workholding_chance(exp(-1.6448536269514722 * 0.4), 0.4), 0.05, 1e-9);
    bite_assert_near(bite_workholding_chance(exp(1.6448536269514722 * 0.4), 0.4), 0.95, 1e-9);
    ck_assert_double_eq(bite_workholding_chance(INFINITY, 0.4), 1.0);
    ck_assert_double_eq(bite_workholding_chance(0.0, 0.4), 0.0);
    ck_assert(isnan(bite_workholding_chance((double)NAN, 0.4)));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("bond");
    TCase *tests = tcase_create("bond");
    tcase_add_test(tests, steady_share_matches_the_independent_model);
    tcase_add_test(tests, steady_share_is_the_mean_of_a_power);
    tcase_add_test(tests, strength_falls_with_time_and_warmth);
    tcase_add_test(tests, thin_plates_are_cleaved);
    tcase_add_test(tests, acrylic_on_double_tape);
    tcase_add_test(tests, heavy_cut_on_tape_is_over);
    tcase_add_test(tests, masking_tape_lets_go_hot);
    tcase_add_test(tests, chance_follows_the_normal_distribution);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
