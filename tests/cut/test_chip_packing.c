/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chip packing limit of a slot. */
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

/* The capacity of the flutes for chips, relative: the inverse of the utilization. */
static double capacity_of(const bite_cut *cut)
{
    return 1.0 / bite_test_utilization(cut, BITE_LIMIT_CHIP_PACKING);
}

/* Fewer flutes have more space for chips; from two on it is the pocket of one tooth, where the
 * pockets together have 46, 44 and 39 % of the section. */
START_TEST(chip_capacity_is_that_of_one_flute)
{
    static const double pockets[] = {0.46 / 2.0, 0.44 / 3.0, 0.39 / 4.0, 0.36 / 5.0};
    bite_cut cut = bite_test_acrylic();
    double capacity[7];
    for (int z = 1; z <= 6; z++) {
        cut.flutes = z;
        capacity[z] = capacity_of(&cut);
    }
    for (int z = 3; z <= 5; z++) {
        ck_assert_double_lt(capacity[z], capacity[z - 1]);
        bite_assert_near(capacity[z] / capacity[2], pockets[z - 2] / pockets[0], 0.02);
    }
    ck_assert_double_lt(capacity[2], capacity[1]);
    ck_assert_double_le(capacity[6], capacity[5]);
}
END_TEST

/* A cut whose chips leave by the way out: thin ones, of a metal or not. */
static bite_cut slot_of(int metal)
{
    bite_cut cut = bite_test_acrylic();
    cut.substance = metal ? BITE_METAL : BITE_AMORPHOUS;
    cut.feed_rate = 1e-3;
    cut.runout = 0.0;
    cut.depth = 0.4 * cut.diameter;
    cut.packing_limit = metal ? 0.5 : 1.0;
    return cut;
}

/* A dry slot in metal that is closed at both ends has less capacity. What coolants clear, relative
 * to a dry cut, is told in the design of each. */
START_TEST(closed_dry_slot_has_less_chip_capacity)
{
    static const double clears[2][4] = {{1.0, 1.3, 1.4, 2.6}, {1.0, 2.6, 3.0, 4.5}};
    for (int metal = 0; metal < 2; metal++) {
        bite_cut cut = slot_of(metal);
        cut.coolant = BITE_COOLANT_NONE;
        double dry = capacity_of(&cut);
        for (uint32_t coolant = BITE_COOLANT_NONE; coolant <= BITE_COOLANT_FLOOD; coolant++) {
            cut.coolant = coolant;
            cut.blind = 0;
            double open = capacity_of(&cut);
            cut.blind = 1;
            bite_assert_near(open / dry, clears[metal][coolant], 1e-12);
            bite_assert_near(capacity_of(&cut) / open,
                             metal && coolant == BITE_COOLANT_NONE ? 0.7 : 1.0, 1e-12);
        }
    }
}
END_TEST

/* One diameter deep with air, or as deep as wide in aluminium: ap/D over form x flutes x coolant,
 * by hand, 1/(0.5 x 0.85 x 2.6); short chips with the root of the flutes' share, 1/(1.1 x
 * sqrt(0.54) x 2.6) of three. A side cut of 0.3 D throws 0.85 of its chips out. */
START_TEST(way_out_of_metal_chips)
{
    bite_cut cut = slot_of(1);
    cut.depth = cut.diameter;
    cut.coolant = BITE_COOLANT_AIR;
    cut.chip_form = BITE_CHIP_SOFT;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING), 1.0 / (0.5 * 0.85 * 2.6),
                     1e-12);
    cut.width = 0.3 * cut.diameter;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING),
                     0.15 / (0.5 * 0.85 * 2.6), 1e-9);
    cut.width = (double)NAN;
    cut.flutes = 3.0;
    cut.chip_form = BITE_CHIP_SHORT;
    cut.packing_limit = 1.1;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING),
                     1.0 / (1.1 * sqrt(0.54) * 2.6), 1e-12);
}
END_TEST

/* Thick chips fill the pocket of their tooth before they find no way out: bulk fz ae z/(0.46 pi
 * D^2/4) of curled chips, 4 times their volume. */
START_TEST(thick_chips_fill_their_pocket)
{
    bite_cut cut = slot_of(1);
    cut.depth = 0.01 * cut.diameter;
    cut.chip_form = BITE_CHIP_SOFT;
    cut.feed_rate = 0.02e-3 * cut.flutes * cut.spindle_speed;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING),
                     4.0 * 0.02e-3 * 2.0 / (0.46 * 0.25 * M_PI * cut.diameter), 1e-12);
    cut.substance = BITE_AMORPHOUS; /* the charts of plastics have no pocket */
    ck_assert_double_lt(bite_test_utilization(&cut, BITE_LIMIT_CHIP_PACKING), 0.05);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("chip packing");
    TCase *packing = tcase_create("chip packing");
    tcase_add_test(packing, chip_capacity_is_that_of_one_flute);
    tcase_add_test(packing, closed_dry_slot_has_less_chip_capacity);
    tcase_add_test(packing, way_out_of_metal_chips);
    tcase_add_test(packing, thick_chips_fill_their_pocket);
    tcase_set_timeout(packing, 120);
    suite_add_tcase(suite, packing);
    return bite_test_run(suite);
}
