/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random valid cuts for property tests. */
#include "tests/support/test_cuts.h"
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/names/registry.h"
#include "tests/support/support.h"
#include <math.h>

/* splitmix64 (public domain, Vigna): small, and the same on every machine */
static double unit(uint64_t *seed)
{
    uint64_t z = *seed += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    z ^= z >> 31;
    return (double)(z >> 11) * 0x1p-53;
}

double bite_test_between(uint64_t *seed, double low, double high)
{
    return low + (high - low) * unit(seed);
}

double bite_test_decades(uint64_t *seed, double low, double high)
{
    return low * pow(high / low, unit(seed));
}

bite_cut bite_test_acrylic(void)
{
    bite_cut cut;
    bite_cut_init(&cut);
    cut.spindle_speed = 200.0;
    cut.feed_rate = 200e-3 / 60.0;
    cut.depth = 0.4e-3;
    cut.diameter = 0.8e-3;
    cut.flutes = 2.0;
    cut.stickout = 6e-3;
    cut.runout = 5e-6;
    cut.density = 1190.0;
    cut.heat_capacity = 1470.0;
    cut.conductivity = 0.2;
    cut.chip_ratio = 1.58;
    cut.friction_share = 0.27;
    cut.pressure = BITE_PRESSURE_STRENGTH;
    cut.substance = BITE_AMORPHOUS;
    cut.shear_strength = 70e6;
    cut.yield = 148e6;
    cut.friction = 0.45;
    cut.fracture_energy = 540.0;
    cut.transition = 378.15;
    cut.softening = 353.15;
    cut.welding = 408.15;
    cut.packing_limit = 1.0;
    return cut;
}

bite_cut bite_test_cut(uint64_t *seed)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = bite_test_decades(seed, 0.2e-3, 12e-3);
    cut.flutes = floor(bite_test_between(seed, 1.0, 7.0));
    cut.spindle_speed = bite_test_decades(seed, 10.0, 800.0);
    double feed = cut.diameter * bite_test_decades(seed, 0.001, 0.08);
    cut.feed_rate = fmin(0.9, feed * cut.flutes * cut.spindle_speed);
    cut.depth = cut.diameter * bite_test_decades(seed, 0.02, 2.0);
    cut.width = unit(seed) < 0.4 ? (double)NAN : cut.diameter * bite_test_decades(seed, 0.02, 1.0);
    cut.side = (uint32_t)(unit(seed) < 0.5 ? BITE_CLIMB : BITE_CONVENTIONAL);
    cut.coolant = (uint32_t)bite_test_between(seed, 0.0, 4.0);
    cut.helix = bite_test_between(seed, -0.8, 0.8);
    cut.rake = bite_test_between(seed, -0.1, 0.4);
    cut.runout = unit(seed) < 0.2 ? 0.0 : bite_test_decades(seed, 0.5e-6, 40e-6);
    cut.edge_radius = bite_test_decades(seed, 0.5e-6, 20e-6);
    cut.stickout = 3.0 * cut.diameter + bite_test_decades(seed, 3e-3, 30e-3);
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = bite_test_decades(seed, 40e6, 3e9);
    cut.edge_t = bite_test_decades(seed, 100.0, 40e3);
    cut.density = bite_test_decades(seed, 900.0, 9000.0);
    cut.heat_capacity = bite_test_decades(seed, 300.0, 2200.0);
    cut.conductivity = bite_test_decades(seed, 0.15, 300.0);
    cut.chip_ratio = bite_test_between(seed, 1.1, 3.0);
    cut.heat_share = bite_test_between(seed, 0.5, 1.0);
    cut.friction_share = bite_test_between(seed, 0.1, 0.4);
    cut.sublayer_share = bite_test_between(seed, 0.2, 1.0);
    cut.room_temperature = bite_test_between(seed, 273.15, 313.15);
    cut.machine_stiffness = bite_test_decades(seed, 0.5e6, 50e6);
    cut.floor_thickness = unit(seed) < 0.3   ? (double)NAN
                          : unit(seed) < 0.2 ? 0.0
                                             : bite_test_decades(seed, 0.2e-3, 10e-3);
    return cut;
}

bite_cut bite_test_bounded(uint64_t *seed)
{
    bite_cut cut = bite_test_cut(seed);
    cut.spindle_fastest = bite_test_decades(seed, 100.0, 800.0);
    cut.feed_fastest = bite_test_decades(seed, 10e-3, 150e-3);
    cut.power_limit = bite_test_decades(seed, 50.0, 3000.0);
    cut.torque_limit = bite_test_decades(seed, 0.05, 5.0);
    cut.torque_speed = bite_test_decades(seed, 50.0, 300.0);
    cut.torque_exponent = bite_test_between(seed, 0.5, 2.0);
    cut.tolerance = bite_test_decades(seed, 10e-6, 300e-6);
    cut.finish = bite_test_between(seed, 0.0, 1.0) < 0.5 ? (double)NAN
                                                         : bite_test_decades(seed, 0.4e-6, 6e-6);
    cut.tool_speed_limit = bite_test_decades(seed, 1.0, 20.0);
    cut.substance =
        (uint32_t)(bite_test_between(seed, 0.0, 1.0) < 0.5 ? BITE_METAL : BITE_AMORPHOUS);
    return cut;
}

bite_result bite_test_pass(const bite_cut *cut)
{
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    ck_assert_msg(bite_cut_pass(cut, &result, &error) == BITE_OK, "%s: %s (%s)", error.key,
                  error.message, error.hint);
    return result;
}

bite_pressure bite_test_pressure(const bite_cut *cut)
{
    bite_pressure pressure;
    bite_cut full = *cut;
    bite_result result = bite_test_pass(cut);
    double chip = fmax(result.values[BITE_CHIP_THICKNESS_MEAN].value,
                       result.values[BITE_CHIP_THICKNESS_LEAST].value);
    bite_defaults_fill(&full);
    ck_assert(bite_cut_pressure(&full, chip / result.values[BITE_SURFACE_SPEED].value, &pressure));
    return pressure;
}

bite_cut bite_test_chamfer(uint64_t *seed)
{
    bite_cut cut = bite_test_cut(seed);
    cut.operation = BITE_CHAMFER;
    cut.width = (double)NAN;
    cut.taper = bite_test_between(seed, 0.1, 1.2);
    cut.tip_diameter = cut.diameter * bite_test_decades(seed, 0.02, 0.5);
    double cone = 0.5 * (cut.diameter - cut.tip_diameter) / tan(cut.taper);
    cut.tip_below = cone * bite_test_between(seed, 0.0, 0.5);
    cut.depth = (cone - cut.tip_below) * bite_test_between(seed, 0.05, 0.95);
    cut.stickout = cone + cut.diameter + bite_test_decades(seed, 3e-3, 30e-3);
    return cut;
}

bite_cut bite_test_plain_chamfer(void)
{
    bite_cut cut = bite_test_acrylic();
    cut.operation = BITE_CHAMFER;
    cut.diameter = 6e-3;
    cut.stickout = 20e-3;
    cut.depth = 0.5e-3;
    cut.feed_rate = 15e-3;
    return cut;
}

bite_spread bite_test_spread_about(const bite_cut *cut, const char *name, double factor)
{
    const bite_input *input = bite_input_find(name);
    double best = *bite_input_number_of(cut, input);
    bite_spread spread = {(uint32_t)bite_input_index(input),
                          BITE_SHAPE_LOGNORMAL,
                          0,
                          0,
                          best / factor,
                          best * factor,
                          0.0};
    return spread;
}
