/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stages of a block for the tool: each lane is what the formulas give for its cut alone,
 * however many lanes there are; the fin's Bessel functions against GSL; the lobes of measured modes
 * against the search over frequencies. */
#include "core/cut/block/chatter_block.h"
#include "core/cut/block/tool_block.h"
#include "core/cut/chatter_depth.h"
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/equal_axes_lobes.h"
#include "core/physics/dynamics/tool_modes.h"
#include "core/physics/elastic/shaft_fin.h"
#include "tests/reference/textbook/frequency_sweep.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_segment.h"
#include <gsl/gsl_sf_bessel.h>
#include <math.h>

START_TEST(scaled_bessel_functions_match_gsl)
{
    for (double z = 1e-5; z < 1e6; z *= 1.003) {
        bite_scaled_bessel at = bite_scaled_bessel_at(z);
        double k1 = gsl_sf_bessel_K1_scaled(z);
        bite_assert_near(at.i1, gsl_sf_bessel_I1_scaled(z), 3e-12);
        bite_assert_near(at.k1, k1, 3e-12);
        bite_assert_near(at.k2, gsl_sf_bessel_K0_scaled(z) + 2.0 * k1 / z, 3e-12);
        if (z < 1e3) { /* GSL's recurrence for any order loses digits beyond */
            bite_assert_near(at.i2, gsl_sf_bessel_In_scaled(2, z), 5e-12);
        }
    }
}
END_TEST

typedef struct sample_set {
    bite_cut cut[BITE_LANES];
    bite_segment segment[BITE_LANES];
    bite_pressure pressure[BITE_LANES];
    bite_arc arc[BITE_LANES];
} sample_set;

/* A cut with its defaults, of a kind that is the same in a block. */
static bite_cut random_cut(uint64_t *seed, int kind)
{
    bite_cut cut = kind & 1 ? bite_test_chamfer(seed) : bite_test_cut(seed);
    cut.flutes = 3.0;
    cut.side = BITE_CLIMB;
    cut.coolant = 0;
    cut.tool_material = (uint32_t)(kind & 2 ? BITE_TOOL_HSS : BITE_TOOL_CARBIDE);
    cut.shank_diameter = cut.diameter * bite_test_decades(seed, 0.8, 6.0);
    if (kind & 4) {
        cut.neck_diameter = cut.diameter * bite_test_between(seed, 0.6, 1.0);
        cut.neck_length = cut.diameter * bite_test_decades(seed, 0.3, 8.0);
        cut.stickout += 0.7 * cut.neck_length;
    }
    if (kind & 8) {
        cut.pressure_r = cut.pressure_t * bite_test_between(seed, 0.1, 0.8);
    }
    bite_defaults_fill(&cut);
    return cut;
}

static void fill_set(uint64_t *seed, int kind, sample_set *set)
{
    for (int k = 0; k < BITE_LANES; k++) {
        bite_cut *cut = &set->cut[k];
        *cut = random_cut(seed, kind);
        double span = bite_test_between(seed, 0.2, M_PI);
        set->arc[k] = (bite_arc){M_PI - span, M_PI, 0.0};
        bite_test_segment(cut, set->arc[k], &set->segment[k]);
        const double *value = set->segment[k].value;
        double chip = fmax(value[BITE_CHIP_THICKNESS_MEAN], value[BITE_CHIP_THICKNESS_LEAST]);
        ck_assert(bite_cut_pressure(cut, chip / value[BITE_SURFACE_SPEED], &set->pressure[k]));
    }
}

/* The first `width` cuts of a set; lanes behind the last one repeat it. */
static void fill_block(const sample_set *set, int width, bite_block *block,
                       bite_block_segment *segment)
{
    block->cut = &set->cut[0];
    block->lanes = (width + BITE_LANE_STEP - 1) / BITE_LANE_STEP * BITE_LANE_STEP;
    block->flutes = (int)set->cut[0].flutes;
    for (int k = 0; k < block->lanes; k++) {
        int at = k < width ? k : width - 1;
        for (size_t row = 0; row < BITE_BLOCK_ROWS; row++) {
            block->number[row][k] = (&set->cut[at].spindle_speed)[row];
        }
        segment->enter[k] = set->arc[at].enter;
        segment->leave[k] = set->arc[at].leave;
        segment->tangential[k] = set->pressure[at].tangential;
        segment->radial[k] = set->pressure[at].radial;
        segment->value[BITE_SURFACE_SPEED][k] = set->segment[at].value[BITE_SURFACE_SPEED];
    }
}

/* A lane against the formulas for its cut. */
static void check_lane(const sample_set *set, int k, const bite_block_segment *segment,
                       double stress, double side, double torque)
{
    const double near = 1e-12;
    const bite_cut *cut = &set->cut[k];
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection bend = bite_tool_deflection_init(&tool);
    bite_shaft shaft;
    bite_tool_shaft_init(&tool, cut->core_share, &shaft);
    bite_fin fin = bite_shaft_fin(&shaft, 0, cut->tool_conductivity, cut->cooling);
    bite_assert_near(segment->compliance[k], bend.compliance, near);
    bite_assert_near(segment->tool_compliance[k], bend.tool, near);
    bite_assert_near(segment->slope[k], bend.slope, near);
    ck_assert_double_eq(segment->load[k], bend.load);
    bite_assert_near(segment->tool_frequency[k],
                     bite_tool_mode_bent(&bend.shaft, cut->tool_modulus, cut->tool_density), near);
    bite_assert_near(segment->fin_resistance[k], fin.resistance, near);
    bite_assert_near(segment->fin_air_share[k], fin.air_share, near);
    bite_assert_near(stress, bite_tool_stress(&tool, side, torque), near);
    double of_tool = set->segment[k].value[BITE_STABILITY_DEPTH_TOOL];
    double of_all = set->segment[k].value[BITE_STABILITY_DEPTH];
    double lane = segment->value[BITE_STABILITY_DEPTH_TOOL][k];
    ck_assert(isinf(of_tool) ? isinf(lane) : fabs(lane / of_tool - 1.0) < 1e-9);
    lane = segment->value[BITE_STABILITY_DEPTH][k];
    ck_assert(isinf(of_all) ? isinf(lane) : fabs(lane / of_all - 1.0) < 1e-9);
}

START_TEST(lanes_are_the_formulas_at_any_width)
{
    static const int widths[] = {1, 5, BITE_LANES};
    static sample_set set;
    static bite_block block;
    static bite_block_segment segment;
    uint64_t seed = 11;
    for (int round = 0; round < 160; round++) {
        fill_set(&seed, round % 16, &set);
        for (size_t w = 0; w < sizeof widths / sizeof *widths; w++) {
            bite_lanes side;
            bite_lanes torque;
            bite_lanes stress;
            fill_block(&set, widths[w], &block, &segment);
            for (int k = 0; k < block.lanes; k++) {
                side[k] = 2.0 + k;
                torque[k] = 0.01 * (k % 5);
            }
            bite_block_tool(&block, &segment);
            bite_block_chatter(&block, NULL, &segment);
            bite_block_stress(&block, side, torque, stress);
            for (int k = 0; k < widths[w]; k++) {
                check_lane(&set, k, &segment, stress[k], side[k], torque[k]);
            }
            double fin = segment.fin_resistance[0];
            bite_block_tool_alike(&block, &segment);
            bite_assert_near(segment.fin_resistance[block.lanes - 1], fin, 1e-12);
        }
    }
}
END_TEST

/* The stage reads no number beside those of its list. */
START_TEST(other_numbers_do_not_matter_to_the_tool)
{
    static sample_set set;
    static bite_block block;
    static bite_block_segment before;
    static bite_block_segment after;
    uint64_t seed = 12;
    int others = 0;
    fill_set(&seed, 5, &set);
    fill_block(&set, BITE_LANES, &block, &before);
    bite_block_tool(&block, &before);
    for (size_t row = 0; row < BITE_BLOCK_ROWS; row++) {
        if (!bite_block_tool_reads((BITE_BLOCK_FIRST + row) * sizeof(double))) {
            others++;
            for (int k = 0; k < BITE_LANES; k++) {
                block.number[row][k] = 1e3 + k;
            }
        }
    }
    bite_block_tool(&block, &after);
    ck_assert_int_eq(others, (int)BITE_BLOCK_ROWS - 18);
    for (int k = 0; k < BITE_LANES; k++) {
        ck_assert_double_eq(after.compliance[k], before.compliance[k]);
        ck_assert_double_eq(after.tool_frequency[k], before.tool_frequency[k]);
        ck_assert_double_eq(after.fin_resistance[k], before.fin_resistance[k]);
        ck_assert_double_eq(after.fin_air_share[k], before.fin_air_share[k]);
    }
}
END_TEST

/* The search over frequencies covers 0.5 to 2.5 times the modes, in steps: it may miss a lobe, and
 * finds none that is not there. */
START_TEST(lobes_of_measured_modes_match_the_sweep)
{
    uint64_t seed = 13;
    int alike = 0;
    for (int i = 0; i < 60; i++) {
        double span = bite_test_between(&seed, 0.3, M_PI);
        bite_chatter_case problem = {.teeth = 2.0, .tangential = 5e8, .ratio = 0.3};
        problem.arc = (bite_arc){0.0, span, 0.0};
        problem.x.count = 1 + i % 3;
        for (int m = 0; m < problem.x.count; m++) {
            problem.x.modes[m] = bite_mode_plain(bite_test_decades(&seed, 300.0, 3000.0),
                                                 bite_test_decades(&seed, 1e6, 30e6),
                                                 bite_test_decades(&seed, 0.01, 0.1));
        }
        problem.y = problem.x;
        bite_direction_root roots[2];
        bite_mode_roots(problem.arc, problem.ratio, roots);
        double speed = bite_test_decades(&seed, 20.0, 400.0);
        double depth = bite_equal_axes_depth(&problem.x, roots, 2.0, 5e8, speed);
        double swept = textbook_chatter_at(&problem, speed);
        ck_assert_double_le(depth, swept * (1.0 + 1e-6));
        alike += fabs(depth / swept - 1.0) < 1e-6;
    }
    ck_assert_int_ge(alike, 50);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tool_block");
    TCase *tool = tcase_create("tool_block");
    tcase_add_test(tool, scaled_bessel_functions_match_gsl);
    tcase_add_test(tool, lanes_are_the_formulas_at_any_width);
    tcase_add_test(tool, other_numbers_do_not_matter_to_the_tool);
    tcase_add_test(tool, lobes_of_measured_modes_match_the_sweep);
    tcase_set_timeout(tool, 120);
    suite_add_tcase(suite, tool);
    return bite_test_run(suite);
}
