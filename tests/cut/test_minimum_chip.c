/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chips near and below the smallest that forms: no stock is lost, no force jumps, and edges rub. */
#include "core/physics/geometry/chip_thickness.h"
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

static double value(const bite_result *result, bite_value_id id)
{
    return result->values[id].value;
}

/* A sweep of the feed from a tenth to ten times the minimum chip: without edge force the power is
 * that of the full stock throughout, no mean jumps and no peak does. */
START_TEST(minimum_chip_makes_no_step)
{
    bite_cut cut = bite_test_acrylic();
    cut.runout = 0.0;
    cut.edge_wear = 1.0;
    cut.edge_radius = 10e-6;
    cut.minimum_chip = 0.3;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 600e6;
    cut.edge_t = 0.0;
    bite_result before = {0};
    double last = (double)NAN;
    for (double feed = 0.3e-6; feed < 30e-6; feed *= 1.0001) {
        cut.feed_rate = feed * cut.flutes * cut.spindle_speed;
        bite_result result = bite_test_pass(&cut);
        bite_assert_near(value(&result, BITE_POWER_MEAN), 600e6 * value(&result, BITE_REMOVAL_RATE),
                         1e-6);
        if (isfinite(last)) { /* without edge force the means are in proportion to the feed */
            bite_assert_near(value(&result, BITE_FORCE_SIDE_MEAN),
                             1.0001 * value(&before, BITE_FORCE_SIDE_MEAN), 1e-6);
            bite_assert_near(value(&result, BITE_FORCE_SIDE_PEAK),
                             value(&before, BITE_FORCE_SIDE_PEAK), 1e-3);
            bite_assert_near(value(&result, BITE_EDGE_LOAD), value(&before, BITE_EDGE_LOAD), 1e-3);
        }
        last = feed;
        before = result;
    }
    /* the peak is that of the doubled chip at h_min: 2 h_min K */
    cut.feed_rate = 3e-6 * cut.flutes * cut.spindle_speed;
    bite_result at = bite_test_pass(&cut);
    bite_assert_near(value(&at, BITE_EDGE_LOAD), 600e6 * 6e-6, 1e-9);
    cut.feed_rate = 1e-6 * cut.flutes * cut.spindle_speed; /* h + h_min */
    at = bite_test_pass(&cut);
    bite_assert_near(value(&at, BITE_EDGE_LOAD), 600e6 * 4e-6, 1e-9);
    cut.feed_rate = 5e-6 * cut.flutes * cut.spindle_speed; /* 2 h_min above it, up to h */
    at = bite_test_pass(&cut);
    bite_assert_near(value(&at, BITE_EDGE_LOAD), 600e6 * 6e-6, 1e-9);
    cut.feed_rate = 7e-6 * cut.flutes * cut.spindle_speed;
    at = bite_test_pass(&cut);
    bite_assert_near(value(&at, BITE_EDGE_LOAD), 600e6 * 7e-6, 1e-9);
}
END_TEST

/* One angle of a turn, tooth after tooth: stock that is thinner than h_min stays for the next. Over
 * many teeth nothing is lost, and no tooth meets more than the rule says. */
START_TEST(uncut_stock_waits_for_the_next_tooth)
{
    const double least = 3e-6;
    for (double feed = 0.05e-6; feed < 10e-6; feed *= 1.07) {
        double waiting = 0.0;
        double cut = 0.0;
        double most = 0.0;
        int teeth = 3000;
        for (int i = 0; i < teeth; i++) {
            waiting += feed;
            if (waiting >= least) {
                cut += waiting;
                most = fmax(most, waiting);
                waiting = 0.0;
            }
        }
        bite_assert_near(cut / teeth, feed, 0.03);
        ck_assert_double_le(most, bite_chip_peak(feed, least) * (1.0 + 1e-9));
        ck_assert_double_ge(bite_chip_peak(feed, least), feed);
        ck_assert_double_le(bite_chip_peak(feed, least), feed + least);
    }
}
END_TEST

/* An edge ploughs below a share of its radius, and more of it on a skin that the tooth before has
 * hardened: 0.5 x 10 um (1 + 0.7 x 0.6) against 5 um a tooth, by hand 1.42 in austenitic steel. */
START_TEST(rubbing_is_a_share_of_the_edge)
{
    bite_cut cut = bite_test_acrylic();
    cut.runout = 0.0;
    cut.edge_wear = 1.0;
    cut.edge_radius = 10e-6;
    cut.rub_share = 0.5;
    cut.feed_rate = 5e-6 * cut.flutes * cut.spindle_speed;
    bite_limit limit = bite_test_limit(&cut, BITE_LIMIT_RUBBING);
    bite_assert_near(limit.utilization, 1.0, 1e-9);
    ck_assert(!limit.advisory);
    cut.hardening = 0.6;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_RUBBING), 1.42, 1e-9);
    cut.edge_wear = 2.0;
    bite_assert_near(bite_test_utilization(&cut, BITE_LIMIT_RUBBING), 2.84, 1e-9);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("minimum chip");
    TCase *chip = tcase_create("minimum chip");
    tcase_add_test(chip, minimum_chip_makes_no_step);
    tcase_add_test(chip, uncut_stock_waits_for_the_next_tooth);
    tcase_add_test(chip, rubbing_is_a_share_of_the_edge);
    tcase_set_timeout(chip, 120);
    suite_add_tcase(suite, chip);
    return bite_test_run(suite);
}
