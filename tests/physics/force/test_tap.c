/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taps and reamers: torque against makers' formulas and against a drill. */
#include "core/physics/force/reamer.h"
#include "core/physics/force/tap.h"
#include "core/physics/force/twist_drill.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

static bite_pressure plain(double tangential, double edge)
{
    bite_pressure pressure = {tangential, 0.3 * tangential, 0.1 * tangential, edge, 1.2 * edge, 0.0,
                              0.0};
    return pressure;
}

/* A tap maker's formula (catalogue of 2021, section on torque): T = tan 30 kc k (D - d)2 (D + 2 d)
 * / 24000 in N m, N/mm2 and mm. It leaves out the flat at the root of the thread, of P/8, whose
 * share of the section is (P/8)/(P/8 + h tan 30). */
static double maker_torque(double kc, double k, double major, double hole)
{
    double step = 1e3 * (major - hole);
    return tan(M_PI / 6.0) * kc * k * step * step * (1e3 * (major + 2.0 * hole)) / 24000.0;
}

START_TEST(torque_is_that_of_a_makers_formula_and_the_flat)
{
    static const struct {
        double major;
        double pitch;
        double hole;
    } taps[] = {{3e-3, 0.5e-3, 2.5e-3},
                {6e-3, 1e-3, 5e-3},
                {8e-3, 1.25e-3, 6.8e-3},
                {10e-3, 1.5e-3, 8.5e-3},
                {12e-3, 1.25e-3, 10.8e-3}};
    for (size_t i = 0; i < sizeof taps / sizeof *taps; i++) {
        bite_tap_shape shape = {taps[i].major, taps[i].pitch, taps[i].hole, 3.0, 5.0, 1.35};
        bite_pressure pressure = plain(4000e6, 0.0); /* Ck 60, straight flutes, plug chamfer */
        bite_tap tap;
        bite_tap_forces(&shape, &pressure, &tap);
        double maker = maker_torque(4000.0, 1.35, taps[i].major, taps[i].hole);
        double height = 0.5 * (taps[i].major - taps[i].hole);
        double flat = taps[i].pitch / 8.0;
        double with_flat = maker * (flat + height * tan(M_PI / 6.0)) / (height * tan(M_PI / 6.0));
        /* the flat is cut a little farther out than the rest */
        ck_assert_double_gt(tap.torque, with_flat);
        ck_assert_double_lt(tap.torque, 1.02 * with_flat);
    }
}
END_TEST

/* Another maker's rule: T = kc P2 D/8000, with kc 2300 to 3600 in steel, 680 to 800 in aluminium.
 * At the usual thread of 75 % and the usual drag both agree within a quarter. */
START_TEST(torque_is_near_another_makers_rule)
{
    for (double major = 3e-3; major < 20e-3; major *= 1.3) {
        double pitch = 0.15 * major;
        double hole = bite_thread_hole(major, pitch, 0.75);
        bite_tap_shape shape = {major, pitch, hole, 3.0, 2.5, 1.2};
        bite_pressure pressure = plain(2300e6, 0.0);
        bite_tap tap;
        bite_tap_forces(&shape, &pressure, &tap);
        double rule = 2300.0 * 1e9 * pitch * pitch * major / 8000.0;
        ck_assert_double_gt(tap.torque, 0.75 * rule);
        ck_assert_double_lt(tap.torque, 1.25 * rule);
    }
}
END_TEST

/* Torque grows with the percent of thread and the pitch; a longer chamfer has thinner chips, and
 * costs torque at the edges only. */
START_TEST(torque_grows_with_the_thread)
{
    uint64_t seed = 12;
    for (int i = 0; i < 200; i++) {
        double major = bite_test_decades(&seed, 1e-3, 24e-3);
        double pitch = major * bite_test_between(&seed, 0.08, 0.22);
        double share = bite_test_between(&seed, 0.4, 0.9);
        bite_tap_shape shape = {major,
                                pitch,
                                bite_thread_hole(major, pitch, share),
                                floor(bite_test_between(&seed, 2.0, 5.0)),
                                bite_test_between(&seed, 1.5, 8.0),
                                bite_test_between(&seed, 0.8, 1.6)};
        bite_pressure pressure =
            plain(bite_test_decades(&seed, 40e6, 4e9), bite_test_decades(&seed, 100.0, 40e3));
        bite_tap tap;
        bite_tap more;
        bite_tap_forces(&shape, &pressure, &tap);
        bite_assert_near(tap.chip, bite_tap_chip(&shape), 1e-12);
        bite_assert_near(tap.torque, tap.tangential * tap.groove.arm, 1e-12);
        bite_tap_shape fuller = shape;
        fuller.hole = bite_thread_hole(major, pitch, 1.1 * share);
        bite_tap_forces(&fuller, &pressure, &more);
        ck_assert_double_gt(more.torque, tap.torque);
        bite_tap_shape longer = shape;
        longer.lead *= 2.0;
        bite_tap_forces(&longer, &pressure, &more);
        bite_assert_near(more.chip, 0.5 * tap.chip, 1e-12);
        ck_assert_double_gt(more.torque, tap.torque);
        pressure.edge_tangential = 0.0;
        bite_tap_forces(&shape, &pressure, &tap);
        bite_tap_forces(&longer, &pressure, &more);
        bite_assert_near(more.torque, tap.torque, 1e-12);
        bite_assert_near(
            tap.torque, shape.drag * pressure.tangential * tap.groove.area * tap.groove.arm, 1e-12);
    }
}
END_TEST

/* With no hole before it, a reamer is a drill of its chamfer, without the chisel edge; its torque
 * grows with the stock. */
START_TEST(reamer_without_a_hole_is_a_drill)
{
    uint64_t seed = 13;
    for (int i = 0; i < 200; i++) {
        double diameter = bite_test_decades(&seed, 1e-3, 30e-3);
        double feed = diameter * bite_test_decades(&seed, 1e-3, 2e-2);
        bite_pressure pressure =
            plain(bite_test_decades(&seed, 40e6, 4e9), bite_test_decades(&seed, 100.0, 40e3));
        bite_reamer_shape shape = {diameter, 0.0, 4.0};
        bite_drill_shape drill_shape = {diameter, 4.0, 0.5 * M_PI, 0.0};
        bite_reamer reamer;
        bite_reamer usual;
        bite_reamer fuller;
        bite_drill drill;
        bite_reamer_forces(&shape, feed, &pressure, &reamer);
        bite_drill_forces(&drill_shape, feed, &pressure, &drill);
        bite_assert_near(reamer.torque, drill.torque, 1e-12);
        bite_assert_near(reamer.thrust * (1.0 + BITE_DRILL_CHISEL_SHARE), drill.thrust, 1e-12);
        bite_assert_near(reamer.chip, drill.chip, 1e-12);
        shape.hole = 0.95 * diameter;
        bite_reamer_forces(&shape, feed, &pressure, &usual);
        shape.hole = 0.9 * diameter;
        bite_reamer_forces(&shape, feed, &pressure, &fuller);
        ck_assert_double_gt(fuller.torque, usual.torque);
        ck_assert_double_gt(usual.torque, 0.0);
        shape.hole = diameter;
        bite_reamer_forces(&shape, feed, &pressure, &usual);
        ck_assert_double_eq(usual.torque, 0.0);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tap");
    TCase *taps = tcase_create("tap");
    tcase_add_test(taps, torque_is_that_of_a_makers_formula_and_the_flat);
    tcase_add_test(taps, torque_is_near_another_makers_rule);
    tcase_add_test(taps, torque_grows_with_the_thread);
    tcase_add_test(taps, reamer_without_a_hole_is_a_drill);
    suite_add_tcase(suite, taps);
    return bite_test_run(suite);
}
