/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed forms against what they replace: quadratures, many thin slices, plain sums. */
#include "core/physics/elastic/shaft_fin.h"
#include "core/physics/elastic/stepped_shaft.h"
#include "core/physics/heat/conduction.h"
#include "tests/oracle/closed_forms/chip_pieces.h"
#include "tests/oracle/closed_forms/square_end_mill.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_engagement.h"
#include "tests/support/test_physics.h"
#include <gsl/gsl_integration.h>
#include <math.h>
#include <string.h>

/* ---- the rectangle's mean rise ---- */

/* The same in extended precision, by the terms of the textbook formula. */
static double rectangle_plain(double ratio)
{
    long double r = ratio;
    long double root = sqrtl(1.0L + r * r);
    long double ends = (r * r + 1.0L / r - (r + 1.0L / r) * root) / 3.0L;
    return (double)(2.0L / 3.14159265358979323846L * (asinhl(r) + r * asinhl(1.0L / r) + ends));
}

START_TEST(mean_rise_of_any_rectangle)
{
    for (double r = 0.05; r < 2e3; r *= 1.7) {
        bite_assert_near(bite_conduction_rectangle(r), rectangle_plain(r), 1e-13);
    }
    /* long: 2/pi (ln 2r + 1/2) without the next term 1/(3r) */
    bite_assert_near(bite_conduction_rectangle(1e7), 2.0 / M_PI * (log(2e7) + 0.5 + 1.0 / 3e7),
                     1e-13);
    /* 101 to 1, to 17 digits (mpmath, 40 digits) */
    bite_assert_near(bite_conduction_rectangle(101.0), 3.6997565144205918266, 1e-15);
    bite_assert_near(bite_conduction_rectangle(0.01), 0.036934428953455745698, 1e-15);
}
END_TEST

/* The same rectangle with its sides exchanged: the mean scales with the side, Abar(1/r) =
 * Abar(r)/r. */
START_TEST(mean_rise_of_a_turned_rectangle)
{
    for (double r = 0.01; r < 1e4; r *= 3.0) {
        bite_assert_near(bite_conduction_rectangle(1.0 / r), bite_conduction_rectangle(r) / r,
                         1e-13);
    }
}
END_TEST

/* ---- a cone's bending ---- */

typedef struct cone {
    const bite_step *step;
    double power;
} cone;

static double moment_over_stiffness(double x, void *user)
{
    const cone *of = user;
    double d = of->step->tip + (of->step->holder - of->step->tip) * x / of->step->length;
    return pow(x, of->power) / pow(d, 4.0);
}

static double integral(const bite_step *step, double power)
{
    cone of = {step, power};
    gsl_function function = {moment_over_stiffness, &of};
    gsl_integration_workspace *room = gsl_integration_workspace_alloc(200);
    double result = 0.0;
    double error = 0.0;
    ck_assert_int_eq(gsl_integration_qag(&function, 0.0, step->length, 0.0, 1e-12, 200,
                                         GSL_INTEG_GAUSS61, room, &result, &error),
                     0);
    gsl_integration_workspace_free(room);
    return result;
}

START_TEST(bending_of_cones_matches_the_integral)
{
    static const double tapers[] = {-0.7, -0.01, -1e-6, -1e-9, 0.0, 1e-12, 1e-8,
                                    1e-5, 1e-4,  0.1,   1.0,   3.0, 7.0};
    const double modulus = 580e9;
    for (size_t i = 0; i < sizeof tapers / sizeof *tapers; i++) {
        bite_shaft shaft = {1, {{9e-3, 1e-3, 1e-3 * (1.0 + tapers[i])}}};
        bite_yielding at = bite_shaft_bend(&shaft, modulus, 0.22, 0.0);
        double scale = 64.0 / (M_PI * modulus);
        bite_assert_near(at.bending, scale * integral(&shaft.steps[0], 2.0), 1e-11);
        bite_assert_near(at.slope, scale * integral(&shaft.steps[0], 1.0), 1e-11);
    }
}
END_TEST

/* ---- a cone as a fin ---- */

/* Many cylinders from the holder to the tip. */
static void fin_of_slices(const bite_step *step, int slices, double conductivity, double transfer,
                          double *resistance, double *share)
{
    double met = 0.0;
    double passed = 1.0;
    for (int i = slices - 1; i >= 0; i--) {
        double d = step->tip + (step->holder - step->tip) * (i + 0.5) / slices;
        double m = sqrt(4.0 * transfer / (conductivity * d));
        double own = 0.25 * M_PI * d * d * conductivity * m;
        double wave = m * step->length / slices;
        double into = cosh(wave) + own * sinh(wave) * met;
        met = (cosh(wave) * met + sinh(wave) / own) / into;
        passed /= into;
    }
    *resistance = met;
    *share = 1.0 - passed;
}

START_TEST(cone_fins_match_many_cylinders)
{
    static const bite_step steps[] = {{4.95e-3, 0.52e-3, 3.175e-3}, {3.7e-3, 1e-3, 3e-3},
                                      {50e-3, 1e-3, 8e-3},          {10e-3, 3e-3, 1e-3},
                                      {9e-3, 3e-3, 3.1e-3},         {9e-3, 3e-3, 3.0001e-3}};
    static const double transfers[] = {1.0, 100.0, 1500.0, 4000.0, 20000.0};
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++) {
        for (size_t k = 0; k < sizeof transfers / sizeof *transfers; k++) {
            bite_shaft shaft = {1, {steps[i]}};
            double resistance[2];
            double share[2];
            bite_fin fin = bite_shaft_fin(&shaft, 0, 80.0, transfers[k]);
            fin_of_slices(&steps[i], 2000, 80.0, transfers[k], &resistance[0], &share[0]);
            fin_of_slices(&steps[i], 4000, 80.0, transfers[k], &resistance[1], &share[1]);
            /* the error of the slices falls with the square of their number and is extrapolated */
            bite_assert_near(fin.resistance, resistance[1] + (resistance[1] - resistance[0]) / 3.0,
                             1e-9);
            bite_assert_near(fin.air_share, share[1] + (share[1] - share[0]) / 3.0, 1e-9);
        }
    }
}
END_TEST

START_TEST(fins_without_and_with_strong_cooling)
{
    bite_shaft shaft = {2, {{4e-3, 1e-3, 3e-3}, {10e-3, 3e-3, 3e-3}}};
    bite_fin fin = bite_shaft_fin(&shaft, 0, 80.0, 0.0);
    bite_assert_near(fin.resistance, 4.0 / (M_PI * 80.0) * (4e-3 / 3e-6 + 10e-3 / 9e-6), 1e-12);
    ck_assert_double_eq(fin.air_share, 0.0);
    double before = fin.resistance;
    for (double transfer = 1e-3; transfer < 1e12; transfer *= 10.0) {
        fin = bite_shaft_fin(&shaft, 0, 80.0, transfer);
        ck_assert(isfinite(fin.resistance) && fin.resistance > 0.0 && fin.resistance <= before);
        ck_assert(fin.air_share >= 0.0 && fin.air_share <= 1.0);
        before = fin.resistance;
    }
    ck_assert_double_eq(fin.air_share, 1.0);
}
END_TEST

/* ---- forces of a whole edge ---- */

/* A plain sum over thin discs of the edge. */
static bite_load sum_of_discs(const bite_chip *chip, const bite_pressure *other, double depth,
                              double diameter, double helix, double phi)
{
    const int discs = 4000;
    bite_load sum = {0.0, 0.0, 0.0, 0.0};
    for (int j = 0; j < chip->flutes; j++) {
        const bite_tooth *tooth = bite_chip_tooth(chip, j);
        for (int i = 0; i < discs; i++) {
            double height = depth * (i + 0.5) / discs;
            double theta = fmod(phi - 2.0 * M_PI * j / chip->flutes -
                                    height * tan(helix) / (0.5 * diameter) + 40.0 * M_PI,
                                2.0 * M_PI);
            for (int k = 0; k < tooth->count; k++) {
                const bite_piece *piece = &bite_chip_pieces(chip, tooth)[k];
                if (theta > piece->enter && theta < piece->leave) {
                    double h = piece->slope * sin(theta) + piece->offset;
                    double t = (other->tangential * h + other->edge_tangential) * depth / discs;
                    double r = (other->radial * h + other->edge_radial) * depth / discs;
                    sum.tangential += t;
                    sum.x += -t * cos(theta) - r * sin(theta);
                    sum.y += t * sin(theta) - r * cos(theta);
                    sum.lift += (other->axial * h + other->edge_axial) * depth / discs;
                }
            }
        }
    }
    return sum;
}

static double between(uint64_t *seed, double low, double high)
{
    return bite_test_between(seed, low, high);
}

START_TEST(small_angles_match_the_c_library)
{
    for (int i = -3600; i <= 3600; i++) {
        bite_angle small = bite_angle_small(1e-4 * i);
        ck_assert_double_eq_tol(small.sine, sin(1e-4 * i), 2e-16);
        ck_assert_double_eq_tol(small.cosine, cos(1e-4 * i), 3e-16);
    }
}
END_TEST

/* The chip thickness of tooth j at phi, from the formula itself. */
static double plain_chip(int flutes, int j, double tooth_feed, double runout, double phi)
{
    double turn = 2.0 * M_PI / flutes;
    double lambda = 0.5 * M_PI - 0.5 * turn;
    double thinnest = (double)INFINITY;
    for (int m = 1; m <= flutes; m++) {
        double step = 0.5 * runout * (cos(lambda - turn * j) - cos(lambda - turn * (j - m)));
        thinnest = fmin(thinnest, m * tooth_feed * sin(phi) + (flutes > 1 ? step : 0.0));
    }
    return thinnest;
}

/* For every number of teeth: the pieces add up to the chip, and neither they nor the crossings of
 * the edges exceed their arrays. */
START_TEST(pieces_add_up_to_the_chip)
{
    static bite_chip chip;
    static bite_edge_integrals edges;
    int flutes = 1 + _i;
    int most = 0;
    uint64_t seed = 900 + (uint64_t)_i;
    for (int i = 0; i < 400; i++) {
        double feed = 10e-6;
        double runout = bite_test_decades(&seed, 1e-4, 3e2) * feed;
        double span = i % 4 == 0 ? M_PI : between(&seed, 0.1, M_PI);
        bite_arc arc = bite_engagement_arc(span, i % 2 ? BITE_CLIMB : BITE_CONVENTIONAL);
        bite_chip_init(&chip, arc, feed, flutes, runout);
        for (int k = 0; k < 40; k++) {
            int j = (int)between(&seed, 0.0, flutes);
            double phi = between(&seed, arc.enter, arc.leave);
            double met = 0.0;
            const bite_tooth *tooth = bite_chip_tooth(&chip, j);
            const bite_piece *pieces = bite_chip_pieces(&chip, tooth);
            for (int n = 0; n < tooth->count; n++) {
                if (phi >= pieces[n].enter && phi <= pieces[n].leave) {
                    met = pieces[n].slope * sin(phi) + pieces[n].offset;
                }
            }
            ck_assert_double_eq_tol(met, fmax(0.0, plain_chip(flutes, j, feed, runout, phi)),
                                    1e-9 * (feed + runout));
        }
        ck_assert_int_le(chip.pieces_made, 3 * flutes - 2);
        most = chip.pieces_made > most ? chip.pieces_made : most;
        bite_edge_integrals_init(&edges, &chip, 2e-3, 2e-3, between(&seed, -0.9, 0.9));
        ck_assert_int_le(edges.kinks, 2 * (chip.pieces_made + flutes) + 1);
        ck_assert_int_le(edges.kinks, BITE_KINKS_MAX);
        ck_assert_int_le(edges.samples, BITE_SAMPLES_MAX);
        ck_assert_int_le(edges.middles, BITE_SAMPLES_MAX / 2);
    }
    ck_assert_int_ge(most, flutes); /* with enough runout for some teeth to have several */
}
END_TEST

/* For any number of teeth, runout, arc and helix of either hand the closed form equals the sum, and
 * no instant exceeds its peaks. */
START_TEST(forces_match_a_sum_of_discs)
{
    static bite_force force;
    static bite_chip chip;
    uint64_t seed = 20 + (uint64_t)_i;
    double diameter = between(&seed, 0.3e-3, 6e-3);
    double depth = between(&seed, 0.1, 1.5) * diameter;
    double helix = between(&seed, -0.7, 0.7);
    int flutes = 1 + _i % 5;
    bite_side side = _i % 2 ? BITE_CLIMB : BITE_CONVENTIONAL;
    double width = _i % 3 == 0 ? diameter : between(&seed, 0.05, 0.95) * diameter;
    bite_pressure pressure = {180e6, 54e6, 25e6, 450.0, 540.0, 20.0, 0.0};
    bite_chip_init(&chip, bite_engagement_straight(diameter, width, side), 20e-6, flutes,
                   between(&seed, 0.0, 25e-6));
    bite_force_init(&force, &chip, &pressure, &pressure, depth, diameter, helix);
    double scale = force.peaks.side;
    for (int i = 0; i < 12; i++) {
        double phi = between(&seed, -7.0, 7.0);
        bite_load closed = bite_test_force_at(&force, phi);
        bite_load plain = sum_of_discs(&chip, &pressure, depth, diameter, helix, phi);
        ck_assert_double_eq_tol(closed.tangential, plain.tangential, 2e-3 * scale);
        ck_assert_double_eq_tol(closed.x, plain.x, 2e-3 * scale);
        ck_assert_double_eq_tol(closed.y, plain.y, 2e-3 * scale);
        ck_assert_double_eq_tol(closed.lift, plain.lift, 2e-3 * scale);
        bite_edge_span span = bite_edge_span_at(&force.edges, phi);
        double met[BITE_EDGE_TERMS];
        ck_assert(span.end > phi);
        bite_angle within = bite_angle_of(phi - span.away);
        bite_edge_within(&force.edges, span, &within, met);
        ck_assert_double_eq_tol(bite_force_of(&pressure, met).y, closed.y, 1e-9 * scale);
    }
    bite_force_peaks seen = {0.0, 0.0, 0.0};
    for (int i = 0; i < 7200; i++) {
        bite_load load = bite_test_force_at(&force, 2.0 * M_PI * i / 7200.0);
        seen.tangential = fmax(seen.tangential, load.tangential);
        seen.side = fmax(seen.side, hypot(load.x, load.y));
        seen.lift = fabs(load.lift) > fabs(seen.lift) ? load.lift : seen.lift;
    }
    bite_assert_near(force.peaks.tangential, seen.tangential, 2e-3);
    bite_assert_near(force.peaks.side, seen.side, 2e-3);
    bite_assert_near(force.peaks.lift, seen.lift, 2e-3);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("closed forms");
    TCase *closed = tcase_create("closed");
    tcase_add_test(closed, mean_rise_of_any_rectangle);
    tcase_add_test(closed, mean_rise_of_a_turned_rectangle);
    tcase_add_test(closed, bending_of_cones_matches_the_integral);
    tcase_add_test(closed, cone_fins_match_many_cylinders);
    tcase_add_test(closed, fins_without_and_with_strong_cooling);
    tcase_add_test(closed, small_angles_match_the_c_library);
    tcase_add_loop_test(closed, pieces_add_up_to_the_chip, 0, BITE_TEETH_MAX);
    tcase_add_loop_test(closed, forces_match_a_sum_of_discs, 0, 60);
    tcase_set_timeout(closed, 120);
    suite_add_tcase(suite, closed);
    return bite_test_run(suite);
}
