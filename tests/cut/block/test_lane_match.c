/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cuts that can be lanes of one block have the same form, words, curves and given numbers; the
 * values of the numbers may differ. */
#include "core/cut/block/lane_match.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

START_TEST(numbers_may_differ)
{
    bite_cut one = bite_test_acrylic();
    bite_cut other = one;
    other.spindle_speed *= 2.0;
    other.crazing = one.crazing + 1e6;
    ck_assert(bite_cut_same_words(&one, &other));
    ck_assert(bite_cut_same_form(&one, &other));
}
END_TEST

START_TEST(words_curves_and_own_limits_may_not)
{
    const bite_cut one = bite_test_acrylic();
    double own = 1.0;
    bite_cut other = one;
    other.operation = one.operation == BITE_MILL ? BITE_CHAMFER : BITE_MILL;
    ck_assert(!bite_cut_same_words(&one, &other));
    other = one;
    other.coolant = one.coolant == BITE_COOLANT_AIR ? BITE_COOLANT_MIST : BITE_COOLANT_AIR;
    ck_assert(!bite_cut_same_words(&one, &other));
    other = one;
    other.substance = BITE_METAL;
    ck_assert(!bite_cut_same_words(&one, &other));
    other = one;
    other.heat_capacity_curve.count++;
    ck_assert(!bite_cut_same_words(&one, &other));
    other = one;
    other.strength_curve.count++;
    ck_assert(!bite_cut_same_words(&one, &other));
    other = one;
    other.own = (const void *)&own;
    ck_assert(!bite_cut_same_words(&one, &other));
}
END_TEST

START_TEST(form_is_of_flutes_corner_and_floor)
{
    const bite_cut one = bite_test_acrylic();
    bite_cut other = one;
    other.flutes = one.flutes + 1.0;
    ck_assert(!bite_cut_same_form(&one, &other));
    other = one;
    other.corner_radius = one.corner_radius > 0.0 ? 0.0 : 0.2e-3;
    ck_assert(!bite_cut_same_form(&one, &other));
    other = one;
    other.floor_thickness = one.floor_thickness > 0.0 ? 0.0 : 1e-3;
    ck_assert(!bite_cut_same_form(&one, &other));
}
END_TEST

START_TEST(a_number_that_one_lacks_parts_them)
{
    bite_cut one = bite_test_acrylic();
    bite_cut other = one;
    ck_assert(bite_cut_same_given(&one, &other));
    one.crazing = 10e6;
    other.crazing = 12e6;
    ck_assert(bite_cut_same_given(&one, &other));
    other.crazing = (double)NAN;
    ck_assert(!bite_cut_same_given(&one, &other));
    one.crazing = (double)NAN;
    ck_assert(bite_cut_same_given(&one, &other));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("lane match");
    TCase *match = tcase_create("lane match");
    tcase_add_test(match, numbers_may_differ);
    tcase_add_test(match, words_curves_and_own_limits_may_not);
    tcase_add_test(match, form_is_of_flutes_corner_and_floor);
    tcase_add_test(match, a_number_that_one_lacks_parts_them);
    suite_add_tcase(suite, match);
    return bite_test_run(suite);
}
