/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The fraction of its own heat that a cutter cuts again, against the independent solutions of
 * moving_front_solver.h. With BITE_SLOW=1: finer meshes, more points.
 *
 * The accuracy that was found for the fits (solver converged to a few 1e-4, heat distributed evenly
 * along the front):
 * - full slot or half immersion: r within 5 % for Pe 0.3 to 500 (-1.8 % at 1, -1.0 at 10, -3.9 at
 * 100, -4.9 at 500), tested here; -5.0 % at about Pe 1000. The small fraction 1 - r that stays is
 * less accurate: +3 % at Pe 10, +25 at 100, +56 at 500, because p really falls as Pe^(-1/3).
 * - side cuts down to ae = R/16: within 5 % for effective Pe 25 to 500, tested; below that up to 25
 * % too high (R/16, Pe 50) and, for effective Pe under 0.1, down to half; within the stated factor
 * of 1.35 from 0.1 on, tested.
 * - g within 2 % for Fo from 0.18 to 20, tested; too high below: by 0.05 at 0.1 and by 0.07 at
 * most, a factor of 5 at 0.05.
 */
#include "core/physics/heat/heat_recirculation.h"
#include "tests/physics/heat/moving_front_solver.h"
#include "tests/support/support.h"
#include "tests/support/test_formulas.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static int slow(void)
{
    const char *setting = getenv("BITE_SLOW");
    return setting != NULL && strcmp(setting, "1") == 0;
}

static int cells(void)
{
    return slow() ? 96 : 48;
}

/* The factor from one tested point to the next. */
static double stride(void)
{
    return slow() ? 1.1 : 1.5;
}

static double formula(double peclet, double width)
{
    return bite_recirculation_share(bite_recirculation_peclet(peclet, 1.0, width, 1.0), 0.0);
}

/* In one dimension all of the heat comes back for any layer. The solver does not assume this, so
 * its result must show it. */
START_TEST(all_heat_comes_back_in_one_dimension)
{
    for (double fourier = 0.05; fourier < 20.5; fourier *= stride()) {
        bite_assert_near(walk_oracle_1d(fourier, 1).met, 1.0, 1e-6);
    }
    ck_assert_double_eq_tol(bite_recirculation_share(INFINITY, 0.0), 1.0,
                            1e-12); /* no sides and no floor: one dimension */
}
END_TEST

START_TEST(one_dimensional_solver_converges)
{
    for (double fourier = 0.05; fourier < 20.5; fourier *= 3.0) {
        walk_1d coarse = walk_oracle_1d(fourier, 1);
        walk_1d fine = walk_oracle_1d(fourier, 2);
        bite_assert_near(coarse.met, fine.met, 1e-6);
        bite_assert_near(coarse.surface, fine.surface, 1e-6);
    }
}
END_TEST

/* The heat of the surface reaches through a thin layer completely, through a thick one not at
 * all. */
START_TEST(layer_thickness_attenuates_the_surface)
{
    double last = walk_oracle_1d(0.02, 1).surface;
    ck_assert(last > 0.0 && last < 1e-4);
    for (double fourier = 0.05; fourier < 20.5; fourier *= stride()) {
        double felt = walk_oracle_1d(fourier, 1).surface;
        double fit = bite_recirculation_surface(fourier);
        ck_assert(felt > last && felt < 1.0);
        if (fourier >= 0.18) {
            bite_assert_near(fit, felt, 0.02);
        } else { /* the fit may only be too warm */
            ck_assert(fit > felt && fit < felt + 0.07);
        }
        last = felt;
    }
    ck_assert(last > 0.99);
}
END_TEST

/* The solver itself, over the range in which it is used. With halved elements it converges to
 * second order, and the remaining error (a third of the last change) is less than a twentieth of
 * the 5 % that it verifies. With farther boundaries the result is the same, and the heat that does
 * not come back is found behind the cutter. */
START_TEST(two_dimensional_solver_converges)
{
    static const double widths[] = {1.0, 0.25, 0.0625};
    double width = widths[_i];
    for (double effective = 0.1; effective < 500.0; effective *= 4.0) {
        double peclet = effective / bite_recirculation_peclet(1.0, 1.0, width, 1.0);
        walk_2d coarse = walk_oracle_2d(peclet, width, cells() / 4, 1.0);
        walk_2d middle = walk_oracle_2d(peclet, width, cells() / 2, 1.0);
        walk_2d fine = walk_oracle_2d(peclet, width, cells(), 1.0);
        walk_2d far = walk_oracle_2d(peclet, width, cells(), 1.7);
        double change = fabs(fine.met - middle.met);
        ck_assert_double_lt(change, 0.4 * fabs(middle.met - coarse.met) + 1e-4 * fine.met);
        ck_assert_double_lt(change / 3.0, 0.0025 * fine.met);
        bite_assert_near(far.met, fine.met, 0.0025);
        ck_assert_double_eq_tol(fine.met + fine.behind, 1.0, 1e-6);
    }
}
END_TEST

START_TEST(slot_within_five_percent)
{
    for (double peclet = 0.3; peclet < 500.0; peclet *= stride()) {
        bite_assert_near(formula(peclet, 1.0), walk_oracle_2d(peclet, 1.0, cells(), 1.0).met, 0.05);
    }
    bite_assert_near(formula(500.0, 1.0), walk_oracle_2d(500.0, 1.0, cells(), 1.0).met, 0.05);
}
END_TEST

static const double side_widths[] = {0.75, 0.5, 0.25, 0.125, 0.0625};

START_TEST(side_cut_within_five_percent)
{
    double width = side_widths[_i];
    for (double effective = 25.0; effective < 500.0; effective *= stride()) {
        double peclet = effective / bite_recirculation_peclet(1.0, 1.0, width, 1.0);
        bite_assert_near(formula(peclet, width), walk_oracle_2d(peclet, width, cells(), 1.0).met,
                         0.05);
    }
}
END_TEST

/* The uncertainty that the model states for the fraction, where 5 % is not reached. */
START_TEST(side_cut_within_its_stated_uncertainty)
{
    double width = side_widths[_i];
    for (double effective = 0.1; effective < 25.0; effective *= stride()) {
        double peclet = effective / bite_recirculation_peclet(1.0, 1.0, width, 1.0);
        double ratio = formula(peclet, width) / walk_oracle_2d(peclet, width, cells(), 1.0).met;
        ck_assert_msg(ratio < 1.35 && ratio > 1.0 / 1.35, "ae/R %g, Pe %g: %g times the oracle",
                      width, peclet, ratio);
    }
}
END_TEST

/* There is no independent solution yet for the floor under a blind slot: only the model's worked
 * figures (0.8 mm cutter, D/2 deep, to two places). They detect a wrongly copied fit and prove
 * nothing about it. Diffusivities of cast acrylic and of a wrought aluminium. */
START_TEST(blind_slot_matches_the_worked_figures)
{
    static const double feeds[] = {40.0, 200.0, 600.0, 1500.0, 3000.0}; /* mm/min */
    static const double acrylic[] = {0.42, 0.66, 0.76, 0.81, 0.84};
    static const double aluminium[] = {0.002, 0.009, 0.026, 0.06, 0.11};
    const double radius = 0.4e-3;
    for (size_t i = 0; i < sizeof feeds / sizeof *feeds; i++) {
        double speed = feeds[i] / 60e3;
        double warm =
            bite_recirculation_share(bite_recirculation_peclet(speed, radius, radius, 1.1e-7),
                                     bite_recirculation_floor(speed, radius, 1.1e-7));
        double cool =
            bite_recirculation_share(bite_recirculation_peclet(speed, radius, radius, 6.9e-5),
                                     bite_recirculation_floor(speed, radius, 6.9e-5));
        ck_assert_double_eq_tol(warm, acrylic[i], 0.005);
        ck_assert_double_eq_tol(cool, aluminium[i], aluminium[i] < 0.05 ? 0.0005 : 0.005);
    }
}
END_TEST

START_TEST(fits_have_their_limits)
{
    double last = 0.0;
    for (double peclet = 0.01; peclet < 1e5; peclet *= 3.0) {
        double share = bite_recirculation_share(peclet, 0.0);
        ck_assert(share > last && share < 1.0);
        ck_assert(bite_recirculation_share(peclet, 0.5) < share);
        last = share;
    }
    ck_assert(bite_recirculation_surface(1e-6) < 1e-6 &&
              bite_recirculation_surface(1e6) > 1.0 - 1e-6);
    bite_assert_near(bite_recirculation_peclet(2.0, 3.0, 100.0, 6.0), 1.0, 1e-12);
    ck_assert(bite_recirculation_peclet(2.0, 3.0, 1.0, 6.0) < 1.0);
    ck_assert(bite_recirculation_floor(2.0, 3.0, 6.0) > bite_recirculation_floor(2.0, 6.0, 6.0));
    bite_assert_near(bite_recirculation_floor(2.0, 3.0, 6.0), 0.64, 1e-12);
}
END_TEST

int main(void)
{
    const int sides = (int)(sizeof side_widths / sizeof *side_widths);
    Suite *suite = suite_create("walk");
    TCase *tests = tcase_create("walk");
    tcase_add_test(tests, all_heat_comes_back_in_one_dimension);
    tcase_add_test(tests, one_dimensional_solver_converges);
    tcase_add_test(tests, layer_thickness_attenuates_the_surface);
    tcase_add_loop_test(tests, two_dimensional_solver_converges, 0, 3);
    tcase_add_test(tests, slot_within_five_percent);
    tcase_add_loop_test(tests, side_cut_within_five_percent, 0, sides);
    tcase_add_loop_test(tests, side_cut_within_its_stated_uncertainty, 0, sides);
    tcase_add_test(tests, blind_slot_matches_the_worked_figures);
    tcase_add_test(tests, fits_have_their_limits);
    tcase_set_timeout(tests, 300);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
