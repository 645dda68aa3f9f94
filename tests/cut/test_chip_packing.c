/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chip packing limit of a slot. */
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"

/* Fewer flutes have more space for chips; from two on it is the pocket of one tooth, where the
 * pockets together have 46, 44 and 39 % of the section. */
START_TEST(chip_capacity_is_that_of_one_flute)
{
    static const double pockets[] = {0.46 / 2.0, 0.44 / 3.0, 0.39 / 4.0, 0.36 / 5.0};
    bite_cut cut = bite_test_acrylic();
    double capacity[7];
    for (int z = 1; z <= 6; z++) {
        cut.flutes = z;
        capacity[z] = bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING).capacity;
    }
    for (int z = 3; z <= 5; z++) {
        ck_assert_double_lt(capacity[z], capacity[z - 1]);
        bite_assert_near(capacity[z] / capacity[2], pockets[z - 2] / pockets[0], 0.02);
    }
    ck_assert_double_lt(capacity[2], capacity[1]);
    ck_assert_double_le(capacity[6], capacity[5]);
}
END_TEST

/* A dry slot in metal that is closed at both ends has less capacity; in plastics it is tight from a
 * depth of a third of the diameter on. */
START_TEST(closed_dry_slot_has_less_chip_capacity)
{
    for (int metal = 0; metal < 2; metal++) {
        for (uint32_t coolant = BITE_COOLANT_NONE; coolant <= BITE_COOLANT_FLOOD; coolant++) {
            bite_cut cut = bite_test_acrylic();
            cut.substance = metal ? BITE_METAL : BITE_AMORPHOUS;
            cut.coolant = coolant;
            cut.depth = 0.4 * cut.diameter;
            bite_limit open = bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING);
            cut.blind = 1;
            bite_limit closed = bite_test_limit(&cut, BITE_LIMIT_CHIP_PACKING);
            int dry = coolant == BITE_COOLANT_NONE;
            bite_assert_near(closed.capacity / open.capacity, metal && dry ? 0.7 : 1.0, 1e-12);
            bite_assert_near(closed.demand, open.demand, 1e-12);
            ck_assert_uint_eq(closed.verdict, dry && !metal ? BITE_TIGHT : open.verdict);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("chip packing");
    TCase *packing = tcase_create("chip packing");
    tcase_add_test(packing, chip_capacity_is_that_of_one_flute);
    tcase_add_test(packing, closed_dry_slot_has_less_chip_capacity);
    tcase_set_timeout(packing, 120);
    suite_add_tcase(suite, packing);
    return bite_test_run(suite);
}
