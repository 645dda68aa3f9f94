/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What surrounds a cut: warp against an integrator of the test's own, bonds against sums over their
 * area, times of moves against stepped profiles, sheets against all that could be tried. */
#include "core/job/move_time.h"
#include "core/job/sheet_stock.h"
#include "core/physics/elastic/warp.h"
#include "core/physics/holding/workholding.h"
#include "tests/reference/textbook/holding.h"
#include "tests/reference/textbook/motion.h"
#include "tests/reference/textbook/plate.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

#define MM 1e-3
#define MPA 1e6
#define STEPS 4000

static const double modulus = 3200.0 * MPA;
static const double poisson = 0.37;

/* ---- warp ---- */

/* A stress over the height z of a sheet, z from its middle. */
typedef double (*profile)(double z, double thickness, double stress);

static double parabola(double z, double thickness, double stress)
{
    return 0.5 * stress * (1.0 - 12.0 * z * z / (thickness * thickness));
}

static double slope(double z, double thickness, double stress)
{
    return 2.0 * stress * z / thickness;
}

/* Curvature once what is left between two heights is free: its moment about its own middle over
 * E/(1 - nu) x h^3/12. Positive: hollow on top, where tension shortens. */
static double freed(profile of, double thickness, double stress, double below, double top)
{
    double left = top - below;
    double middle = 0.5 * (top + below);
    double step = left / STEPS;
    double moment = 0.0;
    double second = 0.0;
    for (int i = 0; i < STEPS; i++) {
        double z = below + (i + 0.5) * step;
        moment += of(z, thickness, stress) * (z - middle) * step;
        second += (z - middle) * (z - middle) * step;
    }
    return moment * (1.0 - poisson) / (modulus * second);
}

START_TEST(layers_by_integration)
{
    uint64_t seed = 11;
    for (int i = 0; i < 200; i++) {
        double h = bite_test_decades(&seed, 0.5 * MM, 20.0 * MM);
        double s = bite_test_between(&seed, -20.0, 20.0) * MPA;
        double c1 = bite_test_between(&seed, 0.0, 0.6) * h;
        double c2 = bite_test_between(&seed, 0.0, 0.3) * h;
        double expected = freed(parabola, h, s, -0.5 * h + c2, 0.5 * h - c1);
        double scale = fabs(s) * (1.0 - poisson) / (modulus * h);
        ck_assert_double_eq_tol(bite_warp_layers(modulus, poisson, s, h, c1, c2), expected,
                                2e-6 * scale);
        bite_assert_near(textbook_warp_slope(modulus, poisson, s, h),
                         freed(slope, h, s, -0.5 * h, 0.5 * h), 1e-6);
    }
}
END_TEST

START_TEST(balanced_is_flat_and_turned_over_is_the_other_way)
{
    uint64_t seed = 12;
    for (int i = 0; i < 200; i++) {
        double h = bite_test_decades(&seed, 0.5 * MM, 20.0 * MM);
        double s = bite_test_between(&seed, 0.1, 20.0) * MPA;
        double c1 = bite_test_between(&seed, 0.0, 0.4) * h;
        double c2 = bite_test_between(&seed, 0.0, 0.4) * h;
        ck_assert_double_eq(bite_warp_layers(modulus, poisson, s, h, c1, c1), 0.0);
        ck_assert_double_eq(bite_warp_layers(modulus, poisson, s, h, c1, c2),
                            -bite_warp_layers(modulus, poisson, s, h, c2, c1));
        ck_assert((bite_warp_layers(modulus, poisson, s, h, c1, c2) > 0.0) ==
                  (c1 > c2)); /* hollow where more came off */
    }
}
END_TEST

START_TEST(bow_grows_with_span_squared_and_falls_with_thickness_squared)
{
    double k = bite_warp_layers(modulus, poisson, 3.0 * MPA, 3.0 * MM, 0.5 * MM, 0.0);
    bite_assert_near(bite_warp_bow(k, 0.3), 9.0 * bite_warp_bow(k, 0.1), 1e-12);
    bite_assert_near(bite_warp_layers(modulus, poisson, 3.0 * MPA, 6.0 * MM, 0.5 * MM, 0.0),
                     k / 4.0, 1e-12);
    bite_assert_near(textbook_warp_skin(modulus, poisson, 500.0, 6.0 * MM),
                     textbook_warp_skin(modulus, poisson, 500.0, 3.0 * MM) / 4.0, 1e-12);
    /* the arrow of an arc, where the bow is small against the span */
    double radius = 1.0 / k;
    bite_assert_near(bite_warp_bow(k, 0.1), radius - sqrt(radius * radius - 0.05 * 0.05), 1e-4);
}
END_TEST

/* Treuting and Read 1951 (memory): from the curvatures that are measured while layer after layer
 * comes off, the stress that was there. Both curvatures are alike. Their sign of a curvature is the
 * other one than ours. */
START_TEST(layer_removal_gives_the_profile_back)
{
    const double h = 3.0 * MM;
    const double z0 = 0.5 * h;
    const double s = 4.0 * MPA;
    for (double z1 = -0.6 * z0; z1 < 0.95 * z0; z1 += 0.1 * z0) {
        double d = 1e-4 * h;
        double rate = (bite_warp_layers(modulus, poisson, s, h, z0 - z1 - d, 0.0) -
                       bite_warp_layers(modulus, poisson, s, h, z0 - z1 + d, 0.0)) /
                      (2.0 * d);
        double here = bite_warp_layers(modulus, poisson, s, h, z0 - z1, 0.0);
        double sum = 0.0;
        for (int i = 0; i < STEPS; i++) {
            double z = z1 + (i + 0.5) * (z0 - z1) / STEPS;
            sum += bite_warp_layers(modulus, poisson, s, h, z0 - z, 0.0) * (z0 - z1) / STEPS;
        }
        double both = 1.0 + poisson;
        double stress = modulus / (6.0 * (1.0 - poisson * poisson)) * both *
                        ((z0 + z1) * (z0 + z1) * rate + 4.0 * (z0 + z1) * here - 2.0 * sum);
        ck_assert_double_eq_tol(stress, parabola(z1, h, s), 1e-5 * s);
    }
}
END_TEST

/* A skin of tension: the form for a thin one is what a layer of finite depth comes to. */
static double skin_depth;
static double skin(double z, double thickness, double stress)
{
    return z > 0.5 * thickness - skin_depth ? stress : 0.0;
}

START_TEST(thin_skin_is_the_limit)
{
    double last = INFINITY;
    for (int i = 1; i <= 4; i++) {
        double h = 2.0 * MM;
        skin_depth = h * pow(10.0, -0.5 * i) * 0.2;
        /* the integrator's steps must meet the skin's edge */
        double depth = h / STEPS * round(skin_depth / h * STEPS);
        skin_depth = depth * (1.0 - 1e-9);
        double found = freed(skin, h, 5.0 * MPA, -0.5 * h, 0.5 * h);
        double form = textbook_warp_skin(modulus, poisson, 5.0 * MPA * depth, h);
        double miss = fabs(form / found - 1.0);
        ck_assert(miss < last && miss <= 1.05 * depth / h / (1.0 - depth / h));
        last = miss;
    }
    ck_assert(last < 0.003);
}
END_TEST

START_TEST(coupon_is_the_inverse_of_layers)
{
    uint64_t seed = 13;
    for (int i = 0; i < 100; i++) {
        double h = bite_test_decades(&seed, 0.5 * MM, 20.0 * MM);
        double s = bite_test_between(&seed, 0.1, 20.0) * MPA;
        double c = bite_test_between(&seed, 0.05, 0.6) * h;
        double span = bite_test_between(&seed, 0.05, 0.4);
        double bow = bite_warp_bow(bite_warp_layers(modulus, poisson, s, h, c, 0.0), span);
        bite_assert_near(bite_warp_coupon(modulus, poisson, h, c, span, bow), s, 1e-12);
        /* pressed flat again, its faces are strained by half its height times the curvature each,
         * both together by all of it */
        bite_assert_near(textbook_warp_flattened(h, bow, span), 0.5 * h * 8.0 * bow / (span * span),
                         1e-12);
        double warmer = bite_test_between(&seed, 1e-5, 1e-3);
        bite_assert_near(bite_warp_gradient(warmer, h) * h, warmer, 1e-12);
    }
}
END_TEST

/* Common practice, no source: a quarter millimetre off one face of a thin sheet bows it far less
 * than two and a half millimetres off one face of a thick one. The form says when: it holds for one
 * part (1.6 mm and thicker) that is made from either: the thick sheet bows it 10 ((t + 0.25)/(t
 * + 2.5))^2 times as far, twice at 1.6 mm, seven times at 12 mm. It holds in one sheet (ten times
 * as much off, ten times the bow) and for parts of one slenderness (span over thickness: again ten
 * times). It does NOT hold at one span and one skin stress: there 3 mm less 0.25 mm bows 1.6 times
 * as far as 12 mm less 2.5 mm, for the bow falls with the thickness squared; thick sheet has to be
 * under more than 1.6 times the stress, which it often is, for it cools more slowly inside (no
 * figure found). */
START_TEST(a_little_off_thin_and_much_off_thick)
{
    const double s = 3.0 * MPA;
    const double span = 0.15;
    double thin =
        bite_warp_bow(bite_warp_layers(modulus, poisson, s, 3.0 * MM, 0.25 * MM, 0.0), span);
    double thick =
        bite_warp_bow(bite_warp_layers(modulus, poisson, s, 12.0 * MM, 2.5 * MM, 0.0), span);
    double thick_long =
        bite_warp_bow(bite_warp_layers(modulus, poisson, s, 12.0 * MM, 2.5 * MM, 0.0), 4.0 * span);
    double thick_little =
        bite_warp_bow(bite_warp_layers(modulus, poisson, s, 12.0 * MM, 0.25 * MM, 0.0), span);
    bite_assert_near(thick, 10.0 * thick_little, 1e-12);
    bite_assert_near(thick_long, 10.0 * thin, 1e-12);
    bite_assert_near(thin, 1.6 * thick, 1e-12);
    for (double part = 1.6 * MM; part < 12.1 * MM; part += 0.4 * MM) {
        double from_thin = bite_warp_bow(
            bite_warp_layers(modulus, poisson, s, part + 0.25 * MM, 0.25 * MM, 0.0), span);
        double from_thick = bite_warp_bow(
            bite_warp_layers(modulus, poisson, s, part + 2.5 * MM, 2.5 * MM, 0.0), span);
        ck_assert_double_gt(from_thick, 2.0 * from_thin);
    }
}
END_TEST

/* ---- holding ---- */

static double use_of(double along, double across, double side, double lift, double height,
                     double arm, double safety)
{
    bite_workholding_load load = {side, lift, height, arm};
    bite_workholding_stress stress = bite_workholding_stresses(along, across, &load);
    return bite_workholding_use(&stress, 0.05 * MPA, 0.03 * MPA, safety);
}

START_TEST(use_grows_with_every_load_and_falls_with_area)
{
    uint64_t seed = 21;
    for (int i = 0; i < 300; i++) {
        double a = bite_test_decades(&seed, 5.0 * MM, 200.0 * MM);
        double b = bite_test_decades(&seed, 5.0 * MM, 200.0 * MM);
        double f = bite_test_decades(&seed, 0.5, 50.0);
        double z = bite_test_between(&seed, 0.0, 10.0);
        double h = bite_test_between(&seed, 0.5, 10.0) * MM;
        double r = bite_test_between(&seed, 1.0, 50.0) * MM;
        double utilization = use_of(a, b, f, z, h, r, 3.0);
        ck_assert(utilization > 0.0);
        ck_assert(use_of(a, b, 1.1 * f, z, h, r, 3.0) > utilization);
        ck_assert(use_of(a, b, f, z + 1.0, h, r, 3.0) > utilization);
        ck_assert(use_of(a, b, f, z, 1.1 * h, r, 3.0) > utilization);
        ck_assert(use_of(a, b, f, z, h, 1.1 * r, 3.0) > utilization);
        ck_assert(use_of(1.1 * a, b, f, z, h, r, 3.0) < utilization);
        ck_assert(use_of(a, 1.1 * b, f, z, h, r, 3.0) < utilization);
        bite_assert_near(use_of(a, b, f, z, h, r, 4.5), 1.5 * utilization, 1e-12);
        bite_assert_near(use_of(a, b, 2.0 * f, 2.0 * z, h, r, 3.0), 2.0 * utilization, 1e-12);
        /* a tool that presses down loads no less by it, and no more */
        ck_assert_double_eq(use_of(a, b, f, -5.0, h, r, 3.0), use_of(a, b, f, 0.0, h, r, 3.0));
    }
    ck_assert_double_eq(use_of(0.04, 0.03, 0.0, 0.0, MM, MM, 3.0), 0.0);
}
END_TEST

/* Sums over small pieces of the bond: the force, the moment and the torque that the stresses carry
 * are those that were put on, and no piece bears more than the form says. */
START_TEST(stresses_carry_what_loads_them)
{
    enum { N = 400 };
    uint64_t seed = 22;
    for (int i = 0; i < 20; i++) {
        double a = bite_test_between(&seed, 10.0, 80.0) * MM;
        double b = bite_test_between(&seed, 10.0, 80.0) * MM;
        bite_workholding_load load = {bite_test_between(&seed, 1.0, 30.0), 4.0,
                                      bite_test_between(&seed, 1.0, 8.0) * MM,
                                      bite_test_between(&seed, 1.0, 40.0) * MM};
        bite_workholding_stress stress = bite_workholding_stresses(a, b, &load);
        double piece = a * b / N / N;
        double torque = 0.0;
        double moment = 0.0;
        double twist_most = 0.0;
        double tilt_most = 0.0;
        for (int x = 0; x < N; x++) {
            for (int y = 0; y < N; y++) {
                double u = a * ((x + 0.5) / N - 0.5);
                double v = b * ((y + 0.5) / N - 0.5);
                /* stresses that rise from the middle in proportion, as of a rigid part; the form
                 * gives those at corner and edge */
                double twist = stress.twist * hypot(u, v) / (0.5 * hypot(a, b));
                double tilt = stress.tilt * u / (0.5 * a);
                torque += twist * hypot(u, v) * piece;
                moment += tilt * u * piece;
                twist_most = fmax(twist_most, twist);
                tilt_most = fmax(tilt_most, tilt);
            }
        }
        bite_assert_near(torque, load.side * load.arm, 2e-5);
        bite_assert_near(moment, load.side * load.height, 2e-5);
        bite_assert_near(stress.shear * a * b, load.side, 1e-12);
        bite_assert_near(stress.pull * a * b, load.lift, 1e-12);
        ck_assert(twist_most < stress.twist && twist_most > 0.99 * stress.twist);
        ck_assert(tilt_most < stress.tilt && tilt_most > 0.99 * stress.tilt);
    }
}
END_TEST

START_TEST(vacuum_glue_and_jaws)
{
    ck_assert_double_eq(textbook_holding_vacuum(85e3, 1e-3, 0.2, 100.0),
                        0.0); /* lifted off: no friction, none below nothing */
    ck_assert_double_eq(textbook_holding_vacuum(85e3, 1e-3, 0.2, -10.0),
                        textbook_holding_vacuum(85e3, 1e-3, 0.2, 0.0));
    bite_assert_near(textbook_holding_vacuum(85e3, 1e-3, 0.2, 25.0), 0.2 * 60.0, 1e-12);
    double last = 0.0;
    for (double gap = 0.0; gap < 0.5 * MM; gap += 0.01 * MM) {
        double cure = bite_workholding_cure(gap);
        ck_assert(cure >= last && cure >= 10.0 - 1e-9 && cure <= 86400.0);
        last = cure;
    }
    bite_assert_near(bite_workholding_cure(0.127 * MM), 600.0, 1e-9);
    bite_assert_near(bite_workholding_buckling(modulus, poisson, 6.0 * MM, 0.1, 0.05),
                     8.0 * bite_workholding_buckling(modulus, poisson, 3.0 * MM, 0.1, 0.05), 1e-12);
    bite_assert_near(bite_workholding_groove(85e3, 0.04, 10.0),
                     16.0 * bite_workholding_groove(85e3, 0.02, 10.0), 1e-12);
    ck_assert_double_eq(textbook_holding_slip(7e-5, 7e-5, 20.0, 0.05), 0.0);
}
END_TEST

/* ---- clamps ---- */

static double between(uint64_t *seed, double low, double high)
{
    return bite_test_between(seed, low, high);
}

/* Friction of a rectangle pressed evenly bears a torque of mu p times the sum of its pieces'
 * distances from the middle. */
START_TEST(friction_bears_what_its_pieces_bear)
{
    enum { N = 400 };
    uint64_t seed = 91;
    for (int i = 0; i < 20; i++) {
        double a = bite_test_decades(&seed, 2.0 * MM, 200.0 * MM);
        double b = bite_test_decades(&seed, 2.0 * MM, 200.0 * MM);
        double sum = 0.0;
        for (int x = 0; x < N; x++) {
            for (int y = 0; y < N; y++) {
                sum += hypot(a * ((x + 0.5) / N - 0.5), b * ((y + 0.5) / N - 0.5));
            }
        }
        bite_assert_near(bite_workholding_mean_radius(a, b), sum / N / N, 1e-5);
        bite_assert_near(bite_workholding_mean_radius(a, b), bite_workholding_mean_radius(b, a),
                         1e-13);
    }
    bite_assert_near(bite_workholding_mean_radius(2.0, 2.0), 0.7651957164642127,
                     1e-14); /* of a unit square from its middle: 0.38260 */
}
END_TEST

/* By hand: 1000 N, mu 0.2, 100 N of side force at the middle of the faces: a quarter of 400 N. At
 * 10 mm over faces 20 mm deep it tips about the jaw: 100/1000 (1 + 1). Lift and side force add as
 * vectors. */
START_TEST(jaws_by_hand)
{
    bite_workholding_jaws jaws = {1000.0, 0.2, 0.1, 0.02, (double)NAN};
    bite_workholding_load level = {100.0, 0.0, 0.0, 0.0};
    bite_workholding_load lifted = {80.0, 60.0, 0.0, 0.0};
    bite_workholding_load high = {100.0, -30.0, 0.02, 0.0};
    bite_workholding_load far = {100.0, 0.0, 0.0, 0.2};
    ck_assert_uint_eq(bite_workholding_clamped(&jaws, &level).mode, BITE_WORKHOLDING_SLIP);
    bite_assert_near(bite_workholding_clamped(&jaws, &level).utilization, 0.25, 1e-12);
    bite_assert_near(bite_workholding_clamped(&jaws, &lifted).utilization, 0.25, 1e-12);
    bite_assert_near(bite_workholding_clamped(&jaws, &high).utilization,
                     (100.0 + 100.0 * 0.02 / bite_workholding_mean_radius(0.1, 0.02)) / 400.0,
                     1e-12);
    bite_assert_near(bite_workholding_clamped(&jaws, &far).utilization, 0.1 * (1.0 + 4.0), 1e-12);
    ck_assert_uint_eq(bite_workholding_clamped(&jaws, &far).mode, BITE_WORKHOLDING_LEVER);
    jaws.part_bearing = 1.0 * MPA; /* 1000 N on 2000 mm2 is 0.5 MPa */
    ck_assert_uint_eq(bite_workholding_clamped(&jaws, &level).mode, BITE_WORKHOLDING_CRUSH);
    bite_assert_near(bite_workholding_clamped(&jaws, &level).utilization, 0.5, 1e-12);
    jaws.part_bearing = (double)NAN;
    jaws.friction = 0.9;
    bite_assert_near(bite_workholding_clamped(&jaws, &high).utilization, 0.1 * (1.0 + 2.0), 1e-12);
    ck_assert_uint_eq(bite_workholding_clamped(&jaws, &high).mode, BITE_WORKHOLDING_LEVER);
}
END_TEST

/* By hand: four M4 of 500 N each, mu 0.2, 2 mm of part that bears 80 MPa, 60 mm apart. */
START_TEST(screws_by_hand)
{
    const bite_workholding_screws usual = {4.0,        500.0,     0.2,         4.0 * MM,
                                           6.0 * MM,   60.0 * MM, 100.0 * MPA, 240.0 * MPA,
                                           80.0 * MPA, 2.0 * MM};
    bite_workholding_load side = {100.0, 0.0, 0.0, 0.0};
    bite_workholding_load pulled = {100.0, 400.0, 0.0, 30.0 * MM};
    bite_workholding_load high = {100.0, 0.0, 100.0 * MM, 0.0};
    bite_workholding_share share = bite_workholding_screwed(&usual, 80.0 * MM, 40.0 * MM, &side);
    ck_assert_uint_eq(share.mode, BITE_WORKHOLDING_SLIP);
    bite_assert_near(share.utilization, 100.0 / (0.2 * 2000.0), 1e-12);
    bite_assert_near(bite_workholding_screwed(&usual, 80.0 * MM, 40.0 * MM, &pulled).utilization,
                     200.0 / (0.2 * 1600.0), 1e-12);
    share = bite_workholding_screwed(&usual, 80.0 * MM, 40.0 * MM, &high);
    ck_assert_uint_eq(share.mode, BITE_WORKHOLDING_SLIP);
    bite_workholding_screws gritty = usual;
    gritty.friction = 2.0;
    share =
        bite_workholding_screwed(&gritty, 80.0 * MM, 40.0 * MM,
                                 &high); /* 500 N of tension spread over four: a quarter of 500 N */
    ck_assert_uint_eq(share.mode, BITE_WORKHOLDING_LEVER);
    bite_assert_near(share.utilization, 0.25, 1e-12);
    bite_workholding_screws soft = gritty;
    soft.part_bearing = 2.0 * MPA;
    share = bite_workholding_screwed(
        &soft, 80.0 * MM, 40.0 * MM,
        &side); /* 25 N on 8 mm2 is 3.1 MPa; 500 N under a head of 9 mm 9.8 MPa */
    ck_assert_uint_eq(share.mode, BITE_WORKHOLDING_CRUSH);
    bite_assert_near(share.utilization, 1.3 * 500.0 / ((81.0 - 16.0) * 0.25 * M_PI) / 2.0, 1e-12);
    bite_workholding_screws wood = gritty;
    wood.plate_shear = 1.0 * MPA;
    share = bite_workholding_screwed(&wood, 80.0 * MM, 40.0 * MM, &side);
    ck_assert_uint_eq(share.mode, BITE_WORKHOLDING_STRIP);
    bite_assert_near(share.utilization, 1.3 * 500.0 / (0.5 * M_PI * 4.0 * 6.0), 1e-12);
    bite_workholding_screws weak =
        gritty; /* 650 N on 8.8 mm2 stretch it at 1/0.6 MPa long before 25 N shear it */
    weak.screw_shear = 1.0 * MPA;
    share = bite_workholding_screwed(&weak, 80.0 * MM, 40.0 * MM, &side);
    ck_assert_uint_eq(share.mode, BITE_WORKHOLDING_STRETCH);
    bite_assert_near(share.utilization, 0.6 * 650.0 / (0.7 * M_PI * 4.0), 1e-12);
    weak.force = 0.5; /* hardly tightened: the side force shears it, if friction is left out */
    weak.friction = 1e6;
    weak.part_bearing = (double)NAN;
    share = bite_workholding_screwed(&weak, 80.0 * MM, 40.0 * MM, &side);
    ck_assert_uint_eq(share.mode, BITE_WORKHOLDING_SHEAR);
    bite_assert_near(share.utilization, 25.0 / (0.7 * M_PI * 4.0), 1e-12);
    bite_workholding_screws one =
        usual; /* it turns about its screw: 100 N at 30 mm against a ring of 3 mm */
    bite_workholding_load turning = {100.0, 0.0, 0.0, 30.0 * MM};
    one.count = 1.0;
    bite_assert_near(bite_workholding_screwed(&one, 80.0 * MM, 40.0 * MM, &turning).utilization,
                     100.0 * (1.0 + 30.0 / 3.0) / (0.2 * 500.0), 1e-12);
    bite_workholding_load all_off = {1.0, 2000.0, 0.0, 0.0};
    ck_assert(isinf(bite_workholding_screwed(&usual, 80.0 * MM, 40.0 * MM, &all_off)
                        .utilization)); /* nothing is pressed any more */
    bite_assert_near(bite_workholding_tightened(82.0, 12.0 * MM), 34.2e3,
                     1e-3); /* published: M12, K 0.2, 82 N m is about 34 kN */
}
END_TEST

/* By hand: three tabs 4 mm by 1 mm by 2 mm long, 60 N: 20 N on 4 mm2 is 5 MPa in shear; 60 N up, 20
 * N each, 3 x 20 x 2/4 = 30 MPa.
 */
START_TEST(tabs_by_hand)
{
    bite_workholding_tabs tabs = {3.0, 4.0 * MM, 1.0 * MM, 2.0 * MM, 60.0 * MPA};
    bite_workholding_load side = {60.0, 0.0, 0.0, 0.0};
    bite_workholding_load up = {0.0, 60.0, 0.0, 0.0};
    bite_workholding_load both = {60.0, 60.0, 0.0, 0.0};
    bite_assert_near(bite_workholding_tabbed(&tabs, 40.0 * MM, 20.0 * MM, &side).utilization,
                     hypot(7.5, sqrt(75.0)) / 60.0, 1e-12);
    bite_assert_near(bite_workholding_tabbed(&tabs, 40.0 * MM, 20.0 * MM, &up).utilization, 0.5,
                     1e-12);
    bite_assert_near(bite_workholding_tabbed(&tabs, 40.0 * MM, 20.0 * MM, &both).utilization,
                     hypot(37.5, sqrt(75.0)) / 60.0, 1e-12);
}
END_TEST

/* More force, friction, screws and tabs never hold less; a greater load is never borne more easily;
 * a factor of safety only counts.
 */
START_TEST(clamps_hold_more_with_more)
{
    uint64_t seed = 93;
    for (int i = 0; i < 2000; i++) {
        bite_workholding_load load = {between(&seed, 0.1, 200.0), between(&seed, -20.0, 50.0),
                                      between(&seed, 0.0, 20.0) * MM,
                                      between(&seed, 0.0, 60.0) * MM};
        bite_workholding_load more = {1.3 * load.side, load.lift + 5.0, 1.3 * load.height,
                                      1.3 * load.arm};
        bite_workholding_jaws jaws = {between(&seed, 100.0, 2e4), between(&seed, 0.05, 0.5),
                                      between(&seed, 10.0, 100.0) * MM,
                                      between(&seed, 1.0, 20.0) * MM, (double)NAN};
        bite_workholding_jaws firm = {1.5 * jaws.force, jaws.friction, jaws.width, jaws.depth,
                                      (double)NAN};
        bite_workholding_screws screws = {floor(between(&seed, 2.0, 8.9)),
                                          between(&seed, 100.0, 3e3),
                                          between(&seed, 0.05, 0.5),
                                          between(&seed, 2.0, 8.0) * MM,
                                          between(&seed, 3.0, 12.0) * MM,
                                          between(&seed, 10.0, 90.0) * MM,
                                          between(&seed, 20.0, 200.0) * MPA,
                                          between(&seed, 100.0, 400.0) * MPA,
                                          i % 7 == 0 ? (double)NAN
                                                     : between(&seed, 20.0, 300.0) * MPA,
                                          between(&seed, 0.5, 8.0) * MM};
        bite_workholding_screws many = screws;
        bite_workholding_tabs tabs = {3.0, between(&seed, 1.0, 6.0) * MM,
                                      between(&seed, 0.2, 3.0) * MM, between(&seed, 0.5, 6.0) * MM,
                                      60e6};
        bite_workholding_tabs thick = {3.0, tabs.width, 1.2 * tabs.height, tabs.length,
                                       tabs.strength};
        many.count += 1.0;
        double jaw = bite_workholding_clamped(&jaws, &load).utilization;
        double screw = bite_workholding_screwed(&screws, 0.08, 0.04, &load).utilization;
        double tab = bite_workholding_tabbed(&tabs, 0.08, 0.04, &load).utilization;
        ck_assert(jaw > 0.0 && screw > 0.0 && tab > 0.0);
        bite_assert_near(bite_workholding_clamped(&firm, &load).utilization, jaw / 1.5, 1e-12);
        ck_assert(bite_workholding_clamped(&jaws, &more).utilization > jaw);
        ck_assert(bite_workholding_screwed(&many, 0.08, 0.04, &load).utilization <= screw);
        ck_assert(bite_workholding_screwed(&screws, 0.08, 0.04, &more).utilization >= screw);
        ck_assert(bite_workholding_tabbed(&thick, 0.08, 0.04, &load).utilization < tab);
        ck_assert(bite_workholding_tabbed(&tabs, 0.08, 0.04, &more).utilization > tab);
    }
}
END_TEST

/* ---- moves ---- */

START_TEST(no_move_is_quicker_than_its_feed)
{
    uint64_t seed = 31;
    for (int i = 0; i < 2000; i++) {
        double length = bite_test_decades(&seed, 1e-5, 1.0);
        double v = bite_test_decades(&seed, 1e-3, 0.5);
        double a = bite_test_decades(&seed, 0.05, 20.0);
        double j = bite_test_decades(&seed, 0.5, 2000.0);
        double feed = length / v;
        double rest = bite_move_time_rest(length, v, a);
        double jerk = bite_move_time_jerk(length, v, a, j);
        ck_assert(rest > feed && jerk > rest);
        ck_assert(bite_move_time_rest(length, v, 1.3 * a) < rest);
        ck_assert(bite_move_time_jerk(length, v, a, 1.3 * j) < jerk);
        ck_assert(bite_move_time_jerk(length, v, 1.3 * a, j) <= jerk * (1.0 + 1e-12));
        ck_assert(bite_move_time_jerk(length, 1.1 * v, a, j) <= jerk * (1.0 + 1e-12));
        ck_assert(bite_move_time_jerk(1.1 * length, v, a, j) > jerk);
        bite_assert_near(bite_move_time_jerk(length, v, a, 1e14), rest, 1e-5);
        bite_assert_near(bite_move_time_rest(length, v, 1e12), feed, 1e-5);
        bite_assert_near(bite_move_time_between(length, v, a, 0.0, 0.0), rest, 1e-12);
        /* half of it, up to its highest speed, and the other half back */
        double top = fmin(v, sqrt(a * length));
        bite_assert_near(bite_move_time_between(0.5 * length, v, a, 0.0, top) +
                             bite_move_time_between(0.5 * length, v, a, top, 0.0),
                         rest, 1e-9);
        double enter = bite_test_between(&seed, 0.0, v);
        double leave = bite_test_between(&seed, 0.0, v);
        double between = bite_move_time_between(length, v, a, enter, leave);
        ck_assert(between >= feed * (1.0 - 1e-12) && between <= rest * (1.0 + 1e-12));
        bite_assert_near(between, bite_move_time_between(length, v, a, leave, enter), 1e-12);
    }
}
END_TEST

/* Too short for the change of speed: the change is what the way allows. 1 mm from rest at 0.5 m/s2
 * takes sqrt(2 L/a), whatever was to be reached. */
START_TEST(a_way_too_short)
{
    bite_assert_near(bite_move_time_between(1e-3, 0.1, 0.5, 0.0, 0.1), sqrt(2e-3 / 0.5), 1e-12);
    bite_assert_near(bite_move_time_between(1e-3, 0.1, 0.5, 0.1, 0.0), sqrt(2e-3 / 0.5), 1e-12);
}
END_TEST

/* The speed, stepped with the jerk: at the end of the ramp it is there, and has gone the ramp's
 * way. */
START_TEST(ramps_by_steps)
{
    uint64_t seed = 32;
    for (int i = 0; i < 100; i++) {
        double v = bite_test_decades(&seed, 1e-3, 0.5);
        double a = bite_test_decades(&seed, 0.05, 20.0);
        double j = bite_test_decades(&seed, 0.5, 2000.0);
        double way = textbook_motion_ramp(v, a, j);
        double time = 2.0 * way / v;
        double rise = fmin(a / j, 0.5 * time);
        double speed = 0.0;
        double gone = 0.0;
        enum { N = 20000 };
        for (int k = 0; k < N; k++) {
            double t = (k + 0.5) * time / N;
            double now = fmin(fmin(j * t, j * rise), j * (time - t));
            ck_assert(now <= a * (1.0 + 1e-9));
            speed += 0.5 * now * time / N;
            gone += speed * time / N;
            speed += 0.5 * now * time / N;
        }
        bite_assert_near(speed, v, 1e-6);
        bite_assert_near(gone, way, 1e-6);
        /* a move of just two ramps, and a hair more or less: no jump */
        double just = bite_move_time_jerk(2.0 * way, v, a, j);
        bite_assert_near(just, 2.0 * time, 1e-9);
        bite_assert_near(bite_move_time_jerk(2.0 * way * (1.0 - 1e-9), v, a, j), just, 1e-7);
        bite_assert_near(bite_move_time_jerk(2.0 * way * (1.0 + 1e-9), v, a, j), just, 1e-7);
        /* where the acceleration just is reached too: v = a^2/j there */
        double edge = 2.0 * a * a * a / (j * j);
        double faster = 10.0 * a * a / j;
        bite_assert_near(bite_move_time_jerk(edge * (1.0 - 1e-9), faster, a, j),
                         bite_move_time_jerk(edge * (1.0 + 1e-9), faster, a, j), 1e-7);
    }
}
END_TEST

START_TEST(corners)
{
    ck_assert(isinf(bite_move_time_corner(M_PI, 1e-5, 0.5)));
    double last = 0.0;
    for (double angle = 0.05; angle < 3.1; angle += 0.05) {
        double v = bite_move_time_corner(angle, 1e-5, 0.5);
        double radius = v * v / 0.5;
        ck_assert(v > last);
        /* the arc touches both sides: its middle lies R/sin(th/2) from the corner, and the arc a
         * deviation from it */
        bite_assert_near(radius / sin(0.5 * angle) - radius, 1e-5, 1e-9);
        bite_assert_near(bite_move_time_corner(angle, 4e-5, 0.5), 2.0 * v, 1e-12);
        bite_assert_near(textbook_motion_arc_speed(radius, 0.5), v, 1e-12);
        last = v;
    }
}
END_TEST

START_TEST(loops_have_no_jumps)
{
    uint64_t seed = 33;
    for (int i = 0; i < 500; i++) {
        double length = bite_test_decades(&seed, 1e-4, 1.0);
        double v = bite_test_decades(&seed, 1e-3, 0.2);
        double a = bite_test_decades(&seed, 0.05, 10.0);
        double corner = bite_test_decades(&seed, 1e-4, 0.4);
        double time = bite_move_time_loop(length, 4.0, v, a, corner);
        ck_assert(time >= length / v * (1.0 - 1e-12) &&
                  time <= 4.0 * bite_move_time_rest(0.25 * length, v, a) * (1.0 + 1e-12));
        bite_assert_near(bite_move_time_loop(length * (1.0 + 1e-9), 4.0, v, a, corner), time, 1e-7);
        bite_assert_near(bite_move_time_loop(length, 4.0, v * (1.0 + 1e-9), a, corner), time, 1e-7);
        bite_assert_near(bite_move_time_loop(length, 4.0, v, a, corner * (1.0 + 1e-9)), time, 1e-7);
        ck_assert(bite_move_time_loop(length, 8.0, v, a, corner) >=
                  time * (1.0 - 1e-12)); /* more corners, no quicker */
        bite_assert_near(bite_move_time_loop(length, 4.0, v, a, v), length / v, 1e-12);
        bite_assert_near(bite_move_time_loop(length, 4.0, v, a, INFINITY), length / v, 1e-12);
    }
}
END_TEST

/* ---- sheets ---- */

START_TEST(the_thinnest_sheet_really_holds)
{
    uint64_t seed = 41;
    for (int i = 0; i < 1000; i++) {
        bite_sheet_rule rule = {bite_test_between(&seed, 0.0, 0.6) * MM,
                                bite_test_between(&seed, 0.0, 0.15),
                                bite_test_between(&seed, 0.0, 0.2),
                                bite_test_between(&seed, 0.0, 5.0) * MM,
                                0,
                                {0.0}};
        for (double t = 1.0 * MM; rule.count < 20; t += bite_test_between(&seed, 0.3, 3.0) * MM) {
            rule.nominals[rule.count++] = t;
        }
        double needed = bite_test_between(&seed, 0.1, 40.0) * MM;
        double found = bite_sheet_stock_thinnest(&rule, needed);
        double best = 0.0;
        for (size_t k = 0; k < rule.count; k++) {
            double t = rule.nominals[k];
            double thin = t - rule.fixed - (t < rule.thin_under ? rule.thin_share : rule.share) * t;
            if (thin >= needed && (best == 0.0 || t < best)) {
                best = t;
            }
        }
        ck_assert_double_eq(found, best);
        double nearest = bite_sheet_stock_nearest(&rule, needed);
        for (size_t k = 0; k < rule.count; k++) {
            ck_assert_double_le(fabs(nearest - needed), fabs(rule.nominals[k] - needed));
        }
        /* balanced or all off the top, what comes off leaves the part */
        double share = bite_test_between(&seed, 0.0, 1.0);
        bite_sheet_stock_removal off = bite_sheet_stock_remove(0.003, 0.004, 0.0025, share);
        bite_assert_near(off.thin_top + off.thin_below, 0.0005, 1e-9);
        bite_assert_near(off.thick_top + off.thick_below, 0.0015, 1e-9);
        bite_assert_near(off.thick_top, share * 0.0015, 1e-9);
    }
    bite_sheet_rule steps = {0.1 * MM, 0.05, 0.1,
                             3.0 * MM, 0,    {0.0}}; /* 10 % below 3 mm, 5 % from there on */
    bite_assert_near(bite_sheet_stock_tolerance(&steps, 2.9 * MM), 0.39 * MM, 1e-12);
    bite_assert_near(bite_sheet_stock_tolerance(&steps, 3.0 * MM), 0.25 * MM, 1e-12);
    bite_sheet_stock_removal none = bite_sheet_stock_remove(
        0.001, 0.002, 0.0025, 0.5); /* thinner than the part: nothing comes off */
    ck_assert(none.thin_top == 0.0 && none.thick_top == 0.0 && none.thin_below == 0.0 &&
              none.thick_below == 0.0);
}
END_TEST

/* Length of so many parts in a row. */
static double row_of(int count, double part, double gap, double margin)
{
    double length = margin;
    for (int i = 0; i < count; i++) {
        length += (i > 0 ? gap : 0.0) + part;
    }
    return length + margin;
}

static double least_area(double a, double b, int count, double gap, double margin, double sheet_a,
                         double sheet_b)
{
    double least = INFINITY;
    for (int along = 1; along <= count; along++) {
        for (int rows = 1; rows <= count; rows++) {
            double length = row_of(along, a, gap, margin);
            double width = row_of(rows, b, gap, margin);
            int fits = (sheet_a == 0.0 || length <= sheet_a + 1e-9) &&
                       (sheet_b == 0.0 || width <= sheet_b + 1e-9);
            if (along * rows >= count && fits) {
                least = fmin(least, length * width);
            }
        }
    }
    return least;
}

START_TEST(layouts_are_the_smallest_that_fit)
{
    uint64_t seed = 42;
    int fitted = 0;
    for (int i = 0; i < 1500; i++) {
        double a = bite_test_between(&seed, 5.0, 120.0) * MM;
        double b = bite_test_between(&seed, 5.0, 120.0) * MM;
        double gap = bite_test_between(&seed, 0.0, 8.0) * MM;
        double margin = bite_test_between(&seed, 0.0, 15.0) * MM;
        int count = 1 + (int)bite_test_between(&seed, 0.0, 24.0);
        double sheet_a = i % 3 == 0 ? 0.0 : bite_test_between(&seed, 50.0, 800.0) * MM;
        double sheet_b = i % 3 == 1 ? 0.0 : bite_test_between(&seed, 50.0, 800.0) * MM;
        bite_layout layout;
        bite_sheet_stock_layout(a, b, (uint32_t)count, gap, margin, sheet_a, sheet_b, &layout);
        double straight = least_area(a, b, count, gap, margin, sheet_a, sheet_b);
        double turned = least_area(b, a, count, gap, margin, sheet_a, sheet_b);
        if (layout.along == 0) {
            ck_assert(isinf(straight) && isinf(turned));
            continue;
        }
        fitted++;
        double along = layout.turned ? b : a;
        double across = layout.turned ? a : b;
        /* every place holds a whole part, a gap from its neighbour, a margin from the edge: none
         * overlaps */
        bite_assert_near(layout.length, row_of((int)layout.along, along, gap, margin), 1e-9);
        bite_assert_near(layout.width, row_of((int)layout.rows, across, gap, margin), 1e-9);
        ck_assert_uint_eq(layout.along * layout.rows, (unsigned)count + layout.more);
        ck_assert(sheet_a == 0.0 || layout.length <= sheet_a + 1e-8);
        ck_assert(sheet_b == 0.0 || layout.width <= sheet_b + 1e-8);
        bite_assert_near(layout.length * layout.width, fmin(straight, turned), 1e-7);
    }
    ck_assert_int_gt(fitted, 500);
}
END_TEST

static int in_a_row(double capacity, double part, double gap, double margin)
{
    int count = 0;
    while (row_of(count + 1, part, gap, margin) <= capacity + 1e-9 * (part + gap)) {
        count++;
    }
    return count;
}

START_TEST(yields_are_what_fits)
{
    uint64_t seed = 43;
    for (int i = 0; i < 1500; i++) {
        double a = bite_test_between(&seed, 5.0, 120.0) * MM;
        double b = bite_test_between(&seed, 5.0, 120.0) * MM;
        double gap = bite_test_between(&seed, 0.0, 8.0) * MM;
        double margin = bite_test_between(&seed, 0.0, 15.0) * MM;
        double sheet_a = bite_test_between(&seed, 10.0, 800.0) * MM;
        double sheet_b = bite_test_between(&seed, 10.0, 800.0) * MM;
        int straight = in_a_row(sheet_a, a, gap, margin) * in_a_row(sheet_b, b, gap, margin);
        int turned = in_a_row(sheet_a, b, gap, margin) * in_a_row(sheet_b, a, gap, margin);
        ck_assert_uint_eq(bite_sheet_stock_yield(a, b, gap, margin, sheet_a, sheet_b),
                          (unsigned)(straight > turned ? straight : turned));
    }
    /* more than can be counted is not a few */
    ck_assert_uint_eq(bite_sheet_stock_yield(0.1 * MM, 0.1 * MM, 0.0, 0.0, 10.0, 10.0), UINT32_MAX);
    /* four parts end where the sheet ends */
    ck_assert_uint_eq(bite_sheet_stock_yield(0.1, 0.1, 0.0, 0.0, 0.4, 0.1), 4);
}
END_TEST

START_TEST(lengths_at_20_degrees)
{
    ck_assert_double_eq(textbook_length_at_20(0.1, 7e-5, 293.15), 0.1);
    bite_assert_near(textbook_length_at_20(0.1, 7e-5, 303.15), 0.1 - 0.07 * MM, 1e-12);
}
END_TEST

/* Half of the lift over the width alone; more with force, height and a shorter lever, less over a
 * wider edge. */
START_TEST(an_edge_peels)
{
    bite_workholding_load lift = {0.0, 4.0, 2e-3, 0.0};
    bite_workholding_load side = {6.0, 0.0, 2e-3, 0.0};
    bite_workholding_load higher = {6.0, 0.0, 4e-3, 0.0};
    bite_workholding_load pressed = {0.0, -4.0, 2e-3, 0.0};
    bite_assert_near(bite_workholding_peel(20e-3, 50e-3, &lift), 40.0, 1e-12);
    bite_assert_near(bite_workholding_peel(20e-3, 50e-3, &side), 18.0, 1e-12); /* 3 F H/(2 L b) */
    bite_assert_near(bite_workholding_peel(20e-3, 50e-3, &higher), 36.0, 1e-12);
    ck_assert_double_lt(bite_workholding_peel(40e-3, 50e-3, &side),
                        bite_workholding_peel(20e-3, 50e-3, &side));
    ck_assert_double_lt(bite_workholding_peel(20e-3, 80e-3, &side),
                        bite_workholding_peel(20e-3, 50e-3, &side));
    ck_assert_double_eq(bite_workholding_peel(20e-3, 50e-3, &pressed), 0.0);
}
END_TEST

/* All of it in the room, half at the limit, less beyond, never more than all. */
START_TEST(a_warm_bond_is_weaker)
{
    bite_assert_near(bite_workholding_warm(293.0, 293.0, 333.0), 1.0, 1e-12);
    bite_assert_near(bite_workholding_warm(313.0, 293.0, 333.0), 0.75, 1e-12);
    bite_assert_near(bite_workholding_warm(333.0, 293.0, 333.0), 0.5, 1e-12);
    bite_assert_near(bite_workholding_warm(400.0, 293.0, 333.0), 0.25, 1e-12);
    ck_assert_double_eq(bite_workholding_warm(280.0, 293.0, 333.0), 1.0);
    ck_assert_double_eq(bite_workholding_warm((double)NAN, 293.0, 333.0), 1.0);
    ck_assert_double_eq(bite_workholding_warm(320.0, 293.0, (double)NAN), 1.0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("around");
    TCase *tests = tcase_create("around");
    tcase_add_test(tests, friction_bears_what_its_pieces_bear);
    tcase_add_test(tests, jaws_by_hand);
    tcase_add_test(tests, screws_by_hand);
    tcase_add_test(tests, tabs_by_hand);
    tcase_add_test(tests, clamps_hold_more_with_more);
    tcase_add_test(tests, an_edge_peels);
    tcase_add_test(tests, a_warm_bond_is_weaker);
    tcase_add_test(tests, layers_by_integration);
    tcase_add_test(tests, balanced_is_flat_and_turned_over_is_the_other_way);
    tcase_add_test(tests, bow_grows_with_span_squared_and_falls_with_thickness_squared);
    tcase_add_test(tests, layer_removal_gives_the_profile_back);
    tcase_add_test(tests, thin_skin_is_the_limit);
    tcase_add_test(tests, coupon_is_the_inverse_of_layers);
    tcase_add_test(tests, a_little_off_thin_and_much_off_thick);
    tcase_add_test(tests, use_grows_with_every_load_and_falls_with_area);
    tcase_add_test(tests, stresses_carry_what_loads_them);
    tcase_add_test(tests, vacuum_glue_and_jaws);
    tcase_add_test(tests, no_move_is_quicker_than_its_feed);
    tcase_add_test(tests, a_way_too_short);
    tcase_add_test(tests, ramps_by_steps);
    tcase_add_test(tests, corners);
    tcase_add_test(tests, loops_have_no_jumps);
    tcase_add_test(tests, the_thinnest_sheet_really_holds);
    tcase_add_test(tests, layouts_are_the_smallest_that_fit);
    tcase_add_test(tests, yields_are_what_fits);
    tcase_add_test(tests, lengths_at_20_degrees);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
