/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers of the engine, one per line: the quantity, its inputs, the result. oracle.py computes
 * each by other means and compares. */
#include "core/physics/dynamics/stability_lobes.h"
#include "core/physics/dynamics/tool_modes.h"
#include "core/physics/elastic/shaft_fin.h"
#include "core/physics/elastic/stepped_shaft.h"
#include "core/physics/geometry/kinematics.h"
#include "core/uncertainty/sobol.h"
#include "core/units/unit_table.h"
#include "tests/reference/textbook/vibration.h"
#include "tests/support/test_mill.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The scale and offset of every unit that can be entered. */
static void units(void)
{
    for (size_t i = 0; i < bite_unit_table_count; i++) {
        printf("unit\t%s\t%s\t%.17g\t%.17g\n", bite_unit_table[i].name,
               bite_kind_table[bite_unit_table[i].kind].si, bite_unit_table[i].scale,
               bite_unit_table[i].offset);
    }
}

static void quantiles(void)
{
    for (int i = -12; i <= 12; i++) {
        double probability = 1.0 / (1.0 + exp(-0.7 * i));
        printf("normal\t%.17g\t%.17g\n", probability, bite_normal_deviate(probability));
    }
}

/* A tip, a cone and a shank: the deflection by a tip force of 1 N, and the frequency without the
 * cone. */
static void shafts(void)
{
    for (int i = 1; i <= 8; i++) {
        double tip = 0.2e-3 * i;
        double shank = 3e-3 + 0.1e-3 * i;
        bite_shaft shaft = {3, {{3.0 * tip, tip, tip}, {2e-3, tip, shank}, {8e-3, shank, shank}}};
        printf("bend\t%.17g\t%.17g\t%.17g\n", tip, shank,
               bite_shaft_bend(&shaft, 580e9, 0.22, 0.0).bending);
        bite_shaft stepped = {2, {{3.0 * tip, tip, tip}, {8e-3, shank, shank}}};
        printf("ring\t%.17g\t%.17g\t%.17g\n", tip, shank,
               bite_tool_mode_frequency(&stepped, 580e9, 14900.0, 1));
        printf("bent\t%.17g\t%.17g\t%.17g\n", tip, shank,
               bite_tool_mode_bent(&stepped, 580e9, 14900.0));
        bite_fin fin = bite_shaft_fin(&shaft, 0, 80.0, 400.0);
        printf("fin\t%.17g\t%.17g\t%.17g\t%.17g\n", tip, shank, fin.resistance, fin.air_share);
    }
}

/* The chip area of a tooth over an arc, with runout. */
static void chips(void)
{
    for (int i = 0; i < 12; i++) {
        bite_block_chip chip;
        bite_test_mill mill = {
            .feed = 5e-6 * (1 + i),
            .runout = 8e-6,
            .flutes = 1 + i % 4,
            .arc = {0.1 * i, 0.1 * i + 1.5, 0.0},
        };
        bite_test_mill_chips(&mill, &chip);
        printf("chip\t%.17g\t%.17g\t%d\t%.17g\t%.17g\n", mill.arc.enter, mill.arc.leave,
               mill.flutes, mill.feed, chip.area[0]);
    }
}

static void directions(void)
{
    for (int i = 0; i < 10; i++) {
        double out[4];
        bite_arc arc = {0.15 * i, 0.15 * i + 1.2, 0.0};
        textbook_chatter_directions(arc, 0.1 * i, out);
        printf("direction\t%.17g\t%.17g\t%.17g\t%.17g\t%.17g\t%.17g\t%.17g\n", arc.enter, arc.leave,
               0.1 * i, out[0], out[1], out[2], out[3]);
    }
}

int main(void)
{
    units();
    quantiles();
    shafts();
    chips();
    directions();
    return 0;
}
