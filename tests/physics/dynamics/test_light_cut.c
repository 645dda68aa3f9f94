/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depth of light side cuts against the growth by semi-discretization with many steps. */
#include "core/physics/dynamics/equal_axes_lobes.h"
#include "core/physics/dynamics/light_cut.h"
#include "tests/reference/textbook/semi_discretization.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

static bite_light_cut_room room;

typedef struct random_cut {
    bite_chatter_case problem;
    bite_excitation excitation;
    int steps; /* good to 0.2 % of the depth */
} random_cut;

/* One to three modes, one to four teeth, 0.02 to 0.4 D; waves between teeth on the highest mode. */
static random_cut make_cut(uint64_t *seed, double most_waves)
{
    random_cut cut = {.problem = {.tangential = 1e9}};
    bite_chatter_case *problem = &cut.problem;
    double span = acos(1.0 - 2.0 * bite_test_between(seed, 0.02, 0.4));
    double highest = 0.0;
    problem->teeth = floor(bite_test_between(seed, 1.0, 5.0));
    problem->ratio = bite_test_between(seed, 0.05, 0.8);
    problem->arc.enter = bite_test_between(seed, 0.0, 1.0) < 0.5 ? 0.0 : M_PI - span;
    problem->arc.leave = problem->arc.enter + span;
    problem->x.count = (int)bite_test_between(seed, 1.0, 4.0);
    for (int i = 0; i < problem->x.count; i++) {
        double frequency = bite_test_between(seed, 400.0, 3000.0);
        highest = fmax(highest, frequency);
        problem->x.modes[i] = bite_mode_plain(frequency, bite_test_decades(seed, 2e6, 2e7),
                                              bite_test_decades(seed, 0.01, 0.08));
    }
    problem->y = problem->x;
    double waves = bite_test_decades(seed, 0.4, most_waves);
    cut.excitation.teeth = problem->teeth;
    cut.excitation.tangential = problem->tangential;
    cut.excitation.speed = highest / (problem->teeth * waves);
    cut.excitation.span = span;
    cut.steps = (int)fmax(80.0, 40.0 * waves);
    return cut;
}

static double depth_of(const random_cut *cut)
{
    return bite_light_cut_depth(&cut->problem.x, cut->problem.ratio, &cut->excitation, &room);
}

/* The growth at a share of the depth; with three times the steps if it is not on the side of 1 that
 * is expected, since in deep cuts the motion is much faster than the modes. */
static double growth_at(const random_cut *cut, double depth, int grows)
{
    double growth = 0.0;
    for (int finer = 1; finer <= 3; finer += 2) {
        growth = textbook_semidiscrete_radius(&cut->problem, depth, cut->excitation.speed,
                                              finer * cut->steps);
        if (grows == (growth > 1.0)) {
            break;
        }
    }
    return growth;
}

/* Below the depth nothing grows, and 1.5 % above it something does. */
static void check_growth(const random_cut *cut, int i)
{
    static const double shares[] = {0.4, 0.7, 0.9, 0.985};
    double depth = depth_of(cut);
    ck_assert_msg(isfinite(depth) && depth > 0.0, "cut %d: %g", i, depth);
    for (size_t k = 0; k < sizeof shares / sizeof *shares; k++) {
        double growth = growth_at(cut, shares[k] * depth, 0);
        ck_assert_msg(growth < 1.0, "cut %d: growth %.5f at %g of %g", i, growth, shares[k], depth);
    }
    double growth = growth_at(cut, 1.015 * depth, 1);
    ck_assert_msg(growth > 1.0, "cut %d: growth %.5f above %g", i, growth, depth);
}

START_TEST(growth_is_1_at_the_depth)
{
    uint64_t seed = 4711;
    for (int i = 0; i < 150; i++) {
        random_cut cut = make_cut(&seed, 4.0);
        check_growth(&cut, i);
    }
}
END_TEST

/* So many teeth that up to four of them cut at the same time. */
START_TEST(teeth_may_cut_together)
{
    uint64_t seed = 4716;
    for (int i = 0; i < 30; i++) {
        random_cut cut = make_cut(&seed, 1.5);
        double teeth = floor(bite_test_between(&seed, 5.0, 17.0));
        cut.excitation.speed *= cut.excitation.teeth / teeth;
        cut.excitation.teeth = cut.problem.teeth = teeth;
        check_growth(&cut, i);
    }
}
END_TEST

/* A mode of almost no compliance changes nothing, nor does the order of the modes or a mode that is
 * given as two halves. */
START_TEST(modes_may_be_split_and_reordered)
{
    uint64_t seed = 4712;
    for (int i = 0; i < 100; i++) {
        random_cut cut = make_cut(&seed, 8.0);
        double depth = depth_of(&cut);
        random_cut other = cut;
        bite_axis_modes *modes = &other.problem.x;
        bite_mode first = modes->modes[0];
        modes->modes[0] = modes->modes[modes->count - 1];
        modes->modes[modes->count - 1] = first;
        bite_assert_near(depth_of(&other), depth, 2e-3);
        other = cut;
        modes->modes[0].alpha *= 0.5;
        modes->modes[modes->count++] = modes->modes[0];
        bite_assert_near(depth_of(&other), depth, 2e-3);
        other = cut;
        modes->modes[modes->count] = cut.problem.x.modes[0];
        modes->modes[modes->count++].alpha *= 1e-9;
        bite_assert_near(depth_of(&other), depth, 2e-3);
    }
}
END_TEST

/* Teeth and modes only set the scales: twice the pressure is half of the depth, and twice the
 * frequencies at twice the speed are the same. */
START_TEST(depth_scales_as_the_equation_does)
{
    uint64_t seed = 4713;
    for (int i = 0; i < 100; i++) {
        random_cut cut = make_cut(&seed, 8.0);
        double depth = depth_of(&cut);
        random_cut other = cut;
        other.excitation.tangential *= 2.0;
        bite_assert_near(depth_of(&other), 0.5 * depth, 2e-3);
        other = cut;
        other.excitation.speed *= 2.0;
        for (int k = 0; k < cut.problem.x.count; k++) {
            other.problem.x.modes[k].natural *= 2.0;
            other.problem.x.modes[k].alpha *= 4.0;
        }
        bite_assert_near(depth_of(&other), depth, 2e-3);
    }
}
END_TEST

/* Too many waves in one cut: the zero-order solution. */
START_TEST(slow_cuts_have_the_zero_order_depth)
{
    uint64_t seed = 4714;
    random_cut cut = make_cut(&seed, 1.0);
    bite_direction_root roots[2];
    cut.excitation.speed = 0.3;
    bite_mode_roots(cut.problem.arc, cut.problem.ratio, roots);
    bite_assert_near(depth_of(&cut),
                     bite_equal_axes_depth(&cut.problem.x, roots, cut.problem.teeth,
                                           cut.problem.tangential, 0.3),
                     1e-12);
}
END_TEST

/* Numbers that no cut has end the search. */
START_TEST(hostile_numbers_end)
{
    static const double hostile[] = {NAN, INFINITY, 0.0, 1e-300, 1e300, -1.0};
    uint64_t seed = 4715;
    for (size_t i = 0; i < sizeof hostile / sizeof *hostile; i++) {
        for (int which = 0; which < 5; which++) {
            random_cut cut = make_cut(&seed, 4.0);
            double *numbers[] = {&cut.problem.x.modes[0].alpha, &cut.problem.x.modes[0].damping,
                                 &cut.problem.ratio, &cut.excitation.tangential,
                                 &cut.excitation.span};
            *numbers[which] = hostile[i];
            (void)depth_of(&cut);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("light cut");
    TCase *depths = tcase_create("depths");
    tcase_add_test(depths, growth_is_1_at_the_depth);
    tcase_add_test(depths, teeth_may_cut_together);
    tcase_add_test(depths, modes_may_be_split_and_reordered);
    tcase_add_test(depths, depth_scales_as_the_equation_does);
    tcase_add_test(depths, slow_cuts_have_the_zero_order_depth);
    tcase_add_test(depths, hostile_numbers_end);
    tcase_set_timeout(depths, 300);
    suite_add_tcase(suite, depths);
    return bite_test_run(suite);
}
