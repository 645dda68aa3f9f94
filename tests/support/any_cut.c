/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random cuts of all operations. */
#include "tests/support/any_cut.h"
#include "core/names/registry.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stddef.h>

/* Inputs of a limit or of what it judges, each given in about half of the cuts, so that every limit
 * has its input in some of them. SI. */
#define AT(member) offsetof(bite_cut, member)
static const struct {
    size_t offset;
    double low;
    double high;
} extras[] = {
    {AT(spindle_slowest), 1.0, 100.0},
    {AT(tool_turn_limit), 100.0, 900.0},
    {AT(spindle_fastest), 100.0, 900.0},
    {AT(feed_fastest), 5e-3, 0.2},
    {AT(power_limit), 20.0, 2000.0},
    {AT(torque_limit), 0.01, 5.0},
    {AT(torque_speed), 20.0, 300.0},
    {AT(torque_exponent), 0.3, 2.0},
    {AT(tool_speed_limit), 1.0, 20.0},
    {AT(tolerance), 5e-6, 0.3e-3},
    {AT(finish), 0.2e-6, 6e-6},
    {AT(inside_radius), 0.3e-3, 8e-3},
    {AT(feature_depth), 0.3e-3, 20e-3},
    {AT(floor_thickness), 0.2e-3, 8e-3},
    {AT(wall_thickness), 0.1e-3, 4e-3},
    {AT(wall_height), 0.5e-3, 20e-3},
    {AT(wall_length), 1e-3, 60e-3},
    {AT(floor_span), 2e-3, 60e-3},
    {AT(floor_length), 2e-3, 90e-3},
    {AT(gap), 0.3e-3, 12e-3},
    {AT(bond_area), 10e-6, 4e-3},
    {AT(bond_width), 2e-3, 40e-3},
    {AT(bond_shear), 10e3, 2e6},
    {AT(bond_pull), 10e3, 2e6},
    {AT(bond_exponent), 1e-3, 0.9},
    {AT(bond_halving), 8.0, 40.0},
    {AT(bond_modulus), 0.2e6, 1e9},
    {AT(bond_thickness), 20e-6, 1e-3},
    {AT(bond_limit), 310.0, 400.0},
    {AT(bond_temperature), 290.0, 340.0},
    {AT(load_time), 10.0, 1e5},
    {AT(bond_adhesion), 0.1, 1.0},
    {AT(flatness), 20e-6, 1e-3},
    {AT(part_span), 10e-3, 0.3},
    {AT(part_thickness), 0.5e-3, 20e-3},
    {AT(stock_thickness), 1e-3, 25e-3},
    {AT(stock_tolerance), 20e-6, 0.4e-3},
    {AT(skim), 50e-6, 1e-3},
    {AT(removed_top), 0.1e-3, 2e-3},
    {AT(removed_below), 0.1e-3, 2e-3},
    {AT(face_strain), 1e-5, 1e-3},
    {AT(bridge_span), 2e-3, 30e-3},
    {AT(bridge_width), 0.5e-3, 6e-3},
    {AT(bridge_thickness), 0.3e-3, 6e-3},
    {AT(path_length), 0.05, 200.0},
    {AT(taylor_speed), 1.0, 20.0},
    {AT(taylor_exponent), 0.15, 0.5},
    {AT(charted_chip), 5e-6, 0.2e-3},
    {AT(charted_exponent), 0.3, 1.2},
    {AT(modulus), 1e9, 200e9},
    {AT(poisson), 0.2, 0.45},
    {AT(expansion), 10e-6, 200e-6},
    {AT(crazing), 2e6, 30e6},
    {AT(chip_edge), 20e-6, 0.4e-3},
    {AT(skin_stress), 0.1e6, 30e6},
    {AT(transition), 340.0, 500.0},
    {AT(welding), 350.0, 900.0},
    {AT(packing_limit), 0.3, 3.0},
    {AT(softening), 330.0, 500.0},
    {AT(hardening), 0.05, 1.0},
    {AT(mode_frequency), 200.0, 3000.0},
    {AT(entry_feed), 1e-4, 20e-3},
    {AT(neck_length), 1e-3, 6e-3},
    {AT(corner_radius), 10e-6, 0.3e-3},
};

static double *member(bite_cut *cut, size_t offset)
{
    return (double *)((char *)cut + offset);
}

bite_cut bite_test_any_cut(uint64_t *seed)
{
    int kind = (int)bite_test_between(seed, 0.0, 6.0);
    bite_cut cut = kind == 0 ? bite_test_chamfer(seed) : bite_test_bounded(seed);
    double often = bite_test_between(seed, 0.2, 0.9);
    for (size_t i = 0; i < sizeof extras / sizeof *extras; i++) {
        double value = bite_test_decades(seed, extras[i].low, extras[i].high);
        double chance = extras[i].offset == AT(mode_frequency) ? 0.1 : often;
        *member(&cut, extras[i].offset) =
            bite_test_between(seed, 0.0, 1.0) < chance ? value : (double)NAN;
    }
    cut.neck_diameter = isnan(cut.neck_length) ? (double)NAN : 0.9 * cut.diameter;
    cut.floor_thickness = bite_test_between(seed, 0.0, 1.0) < 0.1 ? 0.0 : cut.floor_thickness;
    cut.substance = (uint32_t)bite_test_between(seed, 0.0, (double)BITE_MINERAL + 1.0);
    cut.chip_form = (uint32_t)bite_test_between(seed, 0.0, 5.0);
    cut.blind = (uint32_t)bite_test_between(seed, 0.0, 2.0);
    cut.wall_ends = (uint32_t)bite_test_between(seed, 0.0, 2.0);
    if (kind == 0) {
        cut.corner_radius = (double)NAN;
        return cut;
    }
    cut.entry = (uint32_t)bite_test_between(seed, 0.0, 4.0);
    cut.operation = kind == 1 ? BITE_DRILL_HOLE : BITE_MILL;
    if (kind == 2) { /* a groove */
        cut.width = cut.corner_radius = (double)NAN;
        cut.taper = bite_test_between(seed, 0.2, 0.8);
        cut.depth = 0.4 * cut.diameter * bite_test_between(seed, 0.1, 1.0) / tan(cut.taper);
    }
    return cut;
}

bite_cut bite_test_similar_cut(const bite_cut *cut, uint64_t *seed)
{
    bite_cut similar = *cut;
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        if (input->words == 0 && input->offset != AT(flutes)) {
            double *number = bite_input_number(&similar, input);
            *number *= bite_test_between(seed, 0.97, 1.03);
            *number = *number > input->most    ? input->most
                      : *number < input->least ? input->least
                                               : *number;
        }
    }
    return similar;
}
