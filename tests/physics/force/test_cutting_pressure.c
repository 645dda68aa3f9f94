/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutting pressure by hand: the chord of a power law, rake, edge radius, and the brake of a
 * chip's own heat; and the forces of a drill by it. */
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/force/twist_drill.h"
#include "tests/support/support.h"
#include <math.h>
#include <stddef.h>

static const bite_curve no_curve;

/* Carbide at the conditions of its figures, all others unknown. */
static bite_pressure_inputs plain(uint32_t form)
{
    bite_pressure_inputs inputs = {
        .form = form,
        .radial = NAN,
        .axial = NAN,
        .edge_radial = NAN,
        .edge_axial = NAN,
        .rake_slope = NAN,
        .edge_radius = 10e-6,
        .reference_edge_radius = 10e-6,
        .reference_temperature = 293.15,
        .start_temperature = 293.15,
        .softening = {NAN, NAN, NAN},
        .shear_time = 20e-6,
        .strength_curve = &no_curve,
        .friction = 0.4,
        .rake = 0.1745,
        .reference_rake = 0.1745,
    };
    return inputs;
}

static bite_pressure pressure_of(const bite_pressure_inputs *inputs)
{
    bite_pressure pressure;
    ck_assert(bite_pressure_from(inputs, &pressure));
    return pressure;
}

/* kc1.1 = 1000 N/mm2 and mc = 0.25 bear 37.38372 N/mm at 12.5 um and 105.737126 N/mm at 50 um, the
 * fourth roots of 80 and 20; between them lies K = 1822.75752 N/mm2, with Ke = 14.59925 N/mm. */
START_TEST(power_law_becomes_its_chord)
{
    bite_pressure_inputs inputs = plain(BITE_PRESSURE_POWER);
    inputs.tangential = 1000e6;
    inputs.exponent = 0.25;
    bite_pressure pressure = pressure_of(&inputs);
    bite_assert_near(pressure.tangential, 1822.7575150273572e6, 1e-12);
    bite_assert_near(pressure.edge_tangential, 14.599250592688549e3, 1e-12);
    bite_assert_near(pressure.tangential * 12.5e-6 + pressure.edge_tangential, 37383.71953, 1e-9);
    bite_assert_near(pressure.tangential * 50e-6 + pressure.edge_tangential, 105737.12634, 1e-9);
}
END_TEST

/* 690 N/mm2 and 18 N/mm of 6061. Only the edge terms grow with the edge radius, between 0.3 and 2;
 * only the cutting terms fall with the rake, 0.745 (1.3 % a degree) by a half at most. */
START_TEST(rake_and_edge_radius_act_once)
{
    bite_pressure_inputs inputs = plain(BITE_PRESSURE_EDGE);
    inputs.tangential = 690e6;
    inputs.edge_tangential = 18e3;
    bite_pressure pressure = pressure_of(&inputs);
    bite_assert_near(pressure.tangential, 690e6, 1e-12);
    bite_assert_near(pressure.radial, 0.3 * 690e6, 1e-12);
    bite_assert_near(pressure.edge_radial, 1.2 * 18e3, 1e-12);
    static const double radii[][2] = {{1e-6, 0.3}, {5e-6, 0.5}, {15e-6, 1.5}, {90e-6, 2.0}};
    for (size_t i = 0; i < sizeof radii / sizeof *radii; i++) {
        inputs.edge_radius = radii[i][0];
        pressure = pressure_of(&inputs);
        bite_assert_near(pressure.tangential, 690e6, 1e-12);
        bite_assert_near(pressure.edge_tangential, radii[i][1] * 18e3, 1e-12);
    }
    inputs.rake_slope = 0.745;
    inputs.rake = inputs.reference_rake + 0.1;
    bite_assert_near(pressure_of(&inputs).tangential, 690e6 * 0.9255, 1e-12);
    bite_assert_near(pressure_of(&inputs).edge_tangential, 36e3, 1e-12);
    inputs.rake = inputs.reference_rake + 1.0;
    bite_assert_near(pressure_of(&inputs).tangential, 345e6, 1e-12);
}
END_TEST

/* A shear that alone would warm the chip by all of its margin keeps 1 - 1/e of its strength; the
 * inverse returns the cold strength. A strength that would melt the chip is held to a thousandth
 * left, x = ln 1000. */
START_TEST(heat_of_shear_brakes_it)
{
    bite_assert_near(bite_softening_braked(200e6, 0.5e-6, 100.0), 200e6 * (1.0 - exp(-1.0)), 1e-12);
    for (double cold = 1e6; cold < 2e9; cold *= 1.5) {
        double stated = bite_softening_braked(cold, 0.5e-6, 400.0);
        ck_assert_double_lt(stated, cold);
        bite_assert_near(bite_softening_cold_strength(stated, 0.5e-6, 400.0), cold, 1e-9);
    }
    double held = bite_softening_cold_strength(900e6, 0.5e-6, 400.0);
    bite_assert_near(held, 900e6 * log(1000.0) / 0.999, 1e-12);
    ck_assert_double_eq(bite_softening_braked(200e6, 0.0, 100.0), 200e6);
}
END_TEST

/* A polymer at its own test conditions has the stated pressure; a hotter start or a longer shear
 * leaves less. */
START_TEST(polymers_are_stated_braked)
{
    bite_pressure_inputs inputs = plain(BITE_PRESSURE_STRENGTH);
    bite_softening_law law = {378.15, 34.0, 80.0};
    inputs.shear_strength = 70e6;
    inputs.fracture_energy = 540.0;
    inputs.yield = 148e6;
    inputs.softening = law;
    inputs.heating = 0.5e-6;
    double friction = atan(0.4);
    double merchant = 2.0 * cos(friction - 0.1745) / (1.0 - sin(friction - 0.1745));
    double stated = pressure_of(&inputs).tangential;
    bite_assert_near(stated, 70e6 * merchant, 1e-9);
    inputs.start_temperature += 30.0;
    ck_assert_double_lt(pressure_of(&inputs).tangential, stated);
    inputs.start_temperature -= 30.0;
    inputs.shear_time *= 100.0;
    ck_assert_double_lt(pressure_of(&inputs).tangential, stated);
    /* half of the fracture energy and 0.9 of the yield over the edge radius, heated or not */
    bite_assert_near(pressure_of(&inputs).edge_tangential, 270.0 + 0.9 * 148e6 * 10e-6, 1e-12);
}
END_TEST

/* A 6 mm drill of 118 degrees, its lips at 59 to the axis, whose sine is 0.857167: at 0.05 mm a
 * lip the chip is 42.858 um and the lip 3.4999 mm; 2000 N/mm2 and 20 N/mm give 369.998 N on each
 * lip and 1.109994 Nm; 600 N/mm2 and 24 N/mm normal to them, with as much of the chisel edge, a
 * thrust of 596.58 N. */
START_TEST(drill_has_half_of_its_point_angle_on_each_side)
{
    bite_drill_shape shape = {6e-3, 2.0, 118.0 * M_PI / 180.0, 0.0};
    bite_pressure pressure = {2000e6, 600e6, 0.0, 20e3, 24e3, 0.0, 0.0};
    bite_drill drill;
    bite_drill_forces(&shape, 0.05e-3, &pressure, &drill);
    bite_assert_near(drill.chip, 42.858365e-6, 1e-8);
    bite_assert_near(drill.lip, 3.49990019e-3, 1e-8);
    bite_assert_near(drill.tangential, 2.0 * 369.9980038, 1e-8);
    bite_assert_near(drill.torque, 1.1099940115, 1e-8);
    bite_assert_near(drill.thrust, 4.0 * (90.0 + 83.9976046) * 0.8571673007, 1e-8);
    ck_assert_double_eq(drill.side, 0.0);
    shape.runout = 0.02e-3; /* two lips: sin(pi/2) of it goes to the heavy one */
    bite_drill_forces(&shape, 0.05e-3, &pressure, &drill);
    bite_assert_near(drill.heavy_chip, 0.07e-3 * 0.8571673007, 1e-8);
    bite_assert_near(drill.side, 2000e6 * 0.02e-3 * 3e-3, 1e-12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cutting pressure");
    TCase *pressure = tcase_create("cutting pressure");
    tcase_add_test(pressure, power_law_becomes_its_chord);
    tcase_add_test(pressure, rake_and_edge_radius_act_once);
    tcase_add_test(pressure, heat_of_shear_brakes_it);
    tcase_add_test(pressure, polymers_are_stated_braked);
    tcase_add_test(pressure, drill_has_half_of_its_point_angle_on_each_side);
    suite_add_tcase(suite, pressure);
    return bite_test_run(suite);
}
