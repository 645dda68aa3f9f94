/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Uncertainty bands: the draws against their distributions, and properties of any correct band. */
#include "core/cut/pass.h"
#include "core/names/registry.h"
#include "core/uncertainty/sobol.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_physics.h"
#include "tests/support/test_segment.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Draws against the examples of JCGM 101 are in tests/reference/checks_uncertainty.c. */

START_TEST(spread_quantiles_are_its_ends)
{
    bite_spread spread = {0, BITE_SHAPE_LOGNORMAL, 0, 0, 60.0, 160.0, 0.0};
    const double z95 = 1.6448536269514722;
    bite_scatter scatter = bite_scatter_init(&spread, 100.0);
    bite_assert_near(bite_test_scatter_value(&scatter, 0.0), 100.0, 1e-12);
    bite_assert_near(bite_test_scatter_value(&scatter, -z95), 60.0, 1e-12);
    bite_assert_near(bite_test_scatter_value(&scatter, z95), 160.0, 1e-12);
    spread.shape = BITE_SHAPE_NORMAL;
    scatter = bite_scatter_init(&spread, 100.0);
    bite_assert_near(bite_test_scatter_value(&scatter, -z95), 60.0, 1e-12);
    bite_assert_near(bite_test_scatter_value(&scatter, z95), 160.0, 1e-12);
    spread.shape = BITE_SHAPE_LEVEL;
    scatter = bite_scatter_init(&spread, 100.0);
    bite_assert_near(bite_test_scatter_value(&scatter, 0.0), 110.0, 1e-12);
    ck_assert(bite_test_scatter_value(&scatter, 9.0) <= 160.0 &&
              bite_test_scatter_value(&scatter, -9.0) >= 60.0);
    bite_sobol sobol;
    ck_assert(!bite_sobol_init(&sobol, 0, 1));
    ck_assert(!bite_sobol_init(&sobol, BITE_SOBOL_DIMENSIONS + 1, 1));
}
END_TEST

/* ---- bands of cuts ---- */

static const char *const uncertain[] = {"edge_radius", "shear_strength", "yield",
                                        "runout",      "conductivity",   "chip_ratio"};
#define UNCERTAIN (sizeof uncertain / sizeof *uncertain)

static bite_cut plain(void)
{
    bite_cut cut = bite_test_acrylic();
    cut.edge_radius = 2e-6;
    return cut;
}

static bite_result band_of(const bite_cut *cut, double factor, size_t draws, uint64_t seed)
{
    bite_spread spreads[UNCERTAIN];
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    for (size_t i = 0; i < UNCERTAIN; i++) {
        spreads[i] = bite_test_spread_about(cut, uncertain[i], factor);
    }
    ck_assert_msg(bite_cut_band(cut, spreads, UNCERTAIN, draws, seed, 0.95, &result, &error) ==
                      BITE_OK,
                  "%s: %s", error.key, error.message);
    return result;
}

START_TEST(bands_contain_the_best_estimate)
{
    bite_cut cut = plain();
    bite_result result = band_of(&cut, 1.5, 512, 1);
    bite_result single = bite_test_pass(&cut);
    ck_assert_uint_eq(result.draws, 512);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        const bite_value *value = &result.values[i];
        ck_assert(isnan(value->value) ||
                  (value->low <= value->value && value->value <= value->high));
        ck_assert(isnan(value->value) || i == BITE_TIP_FREQUENCY ||
                  value->value == single.values[i].value);
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result.limits[i];
        ck_assert(!limit->applies || (limit->chance >= 0.0 && limit->chance <= 1.0 &&
                                      limit->utilization_high >= limit->utilization));
        ck_assert(!limit->applies || limit->advisory || limit->chance <= result.chance + 1e-12);
    }
    ck_assert(isfinite(result.chance));
}
END_TEST

START_TEST(wider_inputs_never_narrow_a_band)
{
    bite_cut cut = plain();
    double last = 0.0;
    for (double factor = 1.02; factor < 2.5; factor *= 1.25) {
        bite_result result = band_of(&cut, factor, 4096, 1);
        const bite_value *skin = &result.values[BITE_SURFACE_TEMPERATURE];
        ck_assert(skin->high - skin->low > last);
        last = skin->high - skin->low;
    }
}
END_TEST

START_TEST(same_seed_gives_the_same_band)
{
    bite_cut cut = plain();
    bite_result first = band_of(&cut, 1.5, 1024, 42);
    bite_result again = band_of(&cut, 1.5, 1024, 42);
    ck_assert_int_eq(memcmp(first.values, again.values, sizeof first.values), 0);
    ck_assert_double_eq(first.chance, again.chance);
    bite_result other = band_of(&cut, 1.5, 1024, 43);
    bite_assert_near(other.values[BITE_SURFACE_TEMPERATURE].high,
                     first.values[BITE_SURFACE_TEMPERATURE].high, 0.02);
}
END_TEST

/* The order of the spreads, or an additional one without effect, changes nothing. */
START_TEST(order_of_spreads_does_not_matter)
{
    bite_cut cut = plain();
    bite_spread spreads[3] = {bite_test_spread_about(&cut, "edge_radius", 1.5),
                              bite_test_spread_about(&cut, "yield", 1.5),
                              bite_test_spread_about(&cut, "conductivity", 1.2)};
    bite_spread turned[3] = {spreads[2], spreads[0], spreads[1]};
    bite_result a = {0};
    bite_result b = {0};
    a.struct_size = b.struct_size = (uint32_t)sizeof a;
    ck_assert_int_eq(bite_cut_band(&cut, spreads, 3, 512, 1, 0.95, &a, NULL), BITE_OK);
    ck_assert_int_eq(bite_cut_band(&cut, turned, 3, 512, 1, 0.95, &b, NULL), BITE_OK);
    ck_assert_int_eq(memcmp(a.values, b.values, sizeof a.values), 0);
}
END_TEST

/* With narrow spreads the band is the root of the summed squares of single changes (first
 * order). */
START_TEST(narrow_band_agrees_with_first_order)
{
    bite_cut cut = plain();
    cut.runout = 0.0;
    const char *names[] = {"edge_radius", "shear_strength", "yield", "conductivity", "chip_ratio"};
    bite_spread spreads[5];
    double squares = 0.0;
    double base = bite_test_pass(&cut).values[BITE_SURFACE_TEMPERATURE].value;
    for (size_t i = 0; i < 5; i++) {
        spreads[i] = bite_test_spread_about(&cut, names[i], 1.02);
        bite_cut moved = cut;
        *bite_input_number(&moved, bite_input_find(names[i])) *= 1.02;
        squares += pow(bite_test_pass(&moved).values[BITE_SURFACE_TEMPERATURE].value - base, 2.0);
    }
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    ck_assert_int_eq(bite_cut_band(&cut, spreads, 5, 16384, 1, 0.95, &result, NULL), BITE_OK);
    const bite_value *skin = &result.values[BITE_SURFACE_TEMPERATURE];
    bite_assert_near(0.5 * (skin->high - skin->low), sqrt(squares), 0.03);
}
END_TEST

/* Fully correlated inputs of one group widen a value that both increase. */
START_TEST(correlated_inputs_widen_the_band)
{
    bite_cut cut = plain();
    bite_spread spreads[2] = {bite_test_spread_about(&cut, "shear_strength", 1.5),
                              bite_test_spread_about(&cut, "yield", 1.5)};
    bite_result apart = {0};
    bite_result joined = {0};
    apart.struct_size = joined.struct_size = (uint32_t)sizeof apart;
    ck_assert_int_eq(bite_cut_band(&cut, spreads, 2, 4096, 1, 0.95, &apart, NULL), BITE_OK);
    for (int i = 0; i < 2; i++) {
        spreads[i].group = 1;
        spreads[i].together = 1.0;
    }
    ck_assert_int_eq(bite_cut_band(&cut, spreads, 2, 4096, 1, 0.95, &joined, NULL), BITE_OK);
    const bite_value *a = &apart.values[BITE_POWER_MEAN];
    const bite_value *b = &joined.values[BITE_POWER_MEAN];
    ck_assert(b->high - b->low > 1.1 * (a->high - a->low));
}
END_TEST

/* The true inputs of 1,000 cuts are drawn from the spreads: their values are inside the 90 % band
 * 88 to 92 times in 100. */
START_TEST(bands_cover_the_stated_fraction)
{
    static const bite_value_id checked[] = {BITE_SURFACE_TEMPERATURE, BITE_FORCE_SIDE_PEAK,
                                            BITE_TOOL_TEMPERATURE, BITE_DEFLECTION_TIP};
    uint64_t seed = 99;
    size_t inside = 0;
    size_t all = 0;
    for (int i = 0; i < 1000; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.runout = 0.0;
        bite_spread spreads[4] = {bite_test_spread_about(&cut, "pressure_t", 1.5),
                                  bite_test_spread_about(&cut, "edge_t", 1.5),
                                  bite_test_spread_about(&cut, "machine_stiffness", 1.8),
                                  bite_test_spread_about(&cut, "conductivity", 1.2)};
        bite_result result = {0};
        result.struct_size = (uint32_t)sizeof result;
        ck_assert_int_eq(bite_cut_band(&cut, spreads, 4, 256, 1, 0.95, &result, NULL), BITE_OK);
        bite_cut truth = cut;
        for (int k = 0; k < 4; k++) {
            const bite_input *input = bite_input_at(spreads[k].input);
            double z = bite_normal_deviate(bite_test_between(&seed, 1e-9, 1.0 - 1e-9));
            bite_scatter scatter =
                bite_scatter_init(&spreads[k], *bite_input_number_of(&cut, input));
            *bite_input_number(&truth, input) = bite_test_scatter_value(&scatter, z);
        }
        bite_result is = bite_test_pass(&truth);
        for (size_t k = 0; k < sizeof checked / sizeof *checked; k++) {
            const bite_value *band = &result.values[checked[k]];
            double value = is.values[checked[k]].value;
            inside += value >= band->low && value <= band->high;
            all++;
        }
    }
    double share = (double)inside / (double)all;
    ck_assert_msg(share >= 0.88 && share <= 0.92, "%.3f of the truths lie inside", share);
}
END_TEST

START_TEST(bad_calls_are_refused)
{
    bite_cut cut = plain();
    bite_spread spread = bite_test_spread_about(&cut, "yield", 1.5);
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {0};
    result.struct_size = (uint32_t)sizeof result;
    ck_assert_int_eq(bite_cut_band(&cut, &spread, 1, 15, 1, 0.95, &result, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cut_band(&cut, &spread, 1, 70000, 1, 0.95, &result, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cut_band(&cut, &spread, 1, 64, 1, 0.2, &result, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cut_band(&cut, NULL, 1, 64, 1, 0.95, &result, &error), BITE_BAD_ARGUMENT);
    bite_spread twice[2] = {spread, spread};
    ck_assert_int_eq(bite_cut_band(&cut, twice, 2, 64, 1, 0.95, &result, &error),
                     BITE_BAD_ARGUMENT);
    bite_spread bad = spread;
    bad.low = bad.high;
    ck_assert_int_eq(bite_cut_band(&cut, &bad, 1, 64, 1, 0.95, &result, &error), BITE_BAD_ARGUMENT);
    bad = spread;
    bad.shape = 9;
    ck_assert_int_eq(bite_cut_band(&cut, &bad, 1, 64, 1, 0.95, &result, &error), BITE_BAD_ARGUMENT);
    bad = spread;
    bad.input = 100000;
    ck_assert_int_eq(bite_cut_band(&cut, &bad, 1, 64, 1, 0.95, &result, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_cut_band(&cut, NULL, 0, 64, 1, 0.95, &result, &error), BITE_OK);
    ck_assert(result.values[BITE_POWER_MEAN].low == result.values[BITE_POWER_MEAN].high);
}
END_TEST

/* One input after another is changed, some back again, and the flutes with their tables: results in
 * a space that has computed other cuts are those in a fresh one, to the bit. */
START_TEST(results_do_not_depend_on_earlier_cuts)
{
    static const char *const changed[] = {
        "runout",   "edge_radius", "minimum_chip", "depth",        "helix",        "feed_rate",
        "width",    "diameter",    "pressure_t",   "pressure_r",   "mode_damping", "flutes",
        "stickout", "cooling",     "core_share",   "inside_radius"};
    static bite_block_space used;
    static bite_block_space fresh;
    uint64_t seed = 300 + (uint64_t)_i;
    bite_cut before = bite_test_bounded(&seed);
    bite_block_space_init(&used);
    for (int round = 0; round < 400; round++) {
        bite_cut cut = before;
        size_t which = (size_t)bite_test_between(&seed, 0.0, sizeof changed / sizeof *changed);
        double *number = bite_input_number(&cut, bite_input_find(changed[which]));
        *number *= strcmp(changed[which], "flutes") == 0 ? 1.0 : bite_test_between(&seed, 0.7, 1.4);
        cut.flutes = strcmp(changed[which], "flutes") == 0
                         ? 1.0 + floor(bite_test_between(&seed, 0.0, 5.0))
                         : cut.flutes;
        cut.entry = round % 7 == 0 ? BITE_ENTRY_RAMP : BITE_ENTRY_OUTSIDE;
        bite_checked_cut checked;
        double values[2][BITE_VALUE_COUNT];
        bite_limit limits[2][BITE_LIMIT_COUNT];
        if (bite_checked_cut_init(&cut, &checked, NULL) != BITE_OK) {
            continue;
        }
        memset(&fresh, 0x55, sizeof fresh);
        bite_block_space_init(&fresh);
        bite_test_evaluate(&checked, &fresh, values[0], limits[0]);
        bite_test_evaluate(&checked, &used, values[1], limits[1]);
        ck_assert(memcmp(values[0], values[1], sizeof values[0]) == 0);
        for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
            ck_assert_uint_eq(limits[0][i].applies, limits[1][i].applies);
            ck_assert(!limits[0][i].applies ||
                      limits[0][i].utilization == limits[1][i].utilization);
        }
        before = round % 3 == 0 ? cut : before; /* otherwise the change is undone */
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("band");
    TCase *draws = tcase_create("draws");
    tcase_add_test(draws, spread_quantiles_are_its_ends);
    tcase_set_timeout(draws, 120);
    suite_add_tcase(suite, draws);
    TCase *bands = tcase_create("bands");
    tcase_add_test(bands, bands_contain_the_best_estimate);
    tcase_add_test(bands, wider_inputs_never_narrow_a_band);
    tcase_add_test(bands, same_seed_gives_the_same_band);
    tcase_add_test(bands, order_of_spreads_does_not_matter);
    tcase_add_test(bands, narrow_band_agrees_with_first_order);
    tcase_add_test(bands, correlated_inputs_widen_the_band);
    tcase_add_test(bands, bands_cover_the_stated_fraction);
    tcase_add_loop_test(bands, results_do_not_depend_on_earlier_cuts, 0, 20);
    tcase_add_test(bands, bad_calls_are_refused);
    tcase_set_timeout(bands, 300);
    suite_add_tcase(suite, bands);
    return bite_test_run(suite);
}
